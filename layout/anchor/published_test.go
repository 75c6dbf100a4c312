package anchor_test

import (
	"fmt"
	"os"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

const in = length.Inch

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/anchor")) }

// The equal-spacing rule of the trade on invented figures: a chair at each joint
// and equal bays between, none over the tested spacing. The rule is common
// practice and has no published source.
func TestPublishedSpacing(t *testing.T) {
	const stock, gap = 99 * in, 5 * in / 16
	cases := []struct {
		source  string
		spacing length.Length
		at      []length.Length // chairs of a piece between two joints, from the left joint's centre
	}{
		{"common practice, worked by hand: a piece of 99 in at half its length has chairs at both ends and the middle; a joint of 5/16 in makes the pitch 5/32 in more",
			stock / 2, []length.Length{0, stock/2 + gap/2, stock + gap}},
		{"common practice, worked by hand: a piece of 99 in at a third of its length has chairs at both ends and the third points",
			stock / 3, []length.Length{0, stock/3 + gap/3, 2*stock/3 + 2*gap/3, stock + gap}},
	}
	for _, c := range cases {
		j := jobtest.Job()
		s := &j.System
		s.Stock, s.Joint.Gap = stock, gap
		s.Corner.Leg, s.Corner.LegStep = 31*in, in/2
		for i := range j.Assemblies {
			j.Assemblies[i].ChairSpacing = c.spacing
		}
		// Wall of two whole pieces between the legs: the cap line is 5/16 longer at each corner.
		a := 2*31*in + 2*stock + 3*gap - 10*length.Inch16
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(a, a)}
		l, found := layout.Build(j)
		if len(found) > 0 {
			t.Fatalf("%s: %v", c.source, found)
		}
		r := l.Runs()[0]
		p := r.Parts[1]
		if p.Length() != stock {
			t.Fatalf("%s: the piece is %v long", c.source, p.Length())
		}
		origin := p.From - gap/2
		var got []length.Length
		for _, ch := range r.Chairs {
			if ch.At >= origin && ch.At <= p.To+gap/2 {
				got = append(got, ch.At-origin)
			}
		}
		if len(got) != len(c.at) {
			t.Fatalf("%s: chairs at %v", c.source, got)
		}
		for i := range got {
			// Within a sixteenth: a third of 99 5/16 in is not on the tape's grid.
			published.Near(t, "equal bays", published.Trade(c.source), fmt.Sprintf("chair %d, in", i+1), got[i].Inch(), c.at[i].Inch(), 1./16)
		}
	}
}

// The length of a fastener from scratch: chair 0.080 and membrane 0.055 make
// 0.135, packing at the row, thread 1 in, tip 1/4 in.
func TestPublishedFastenerLength(t *testing.T) {
	cases := []struct {
		source     string
		drop       length.Length // of every reading of the run but the corners'
		packing    length.Length
		want, into length.Length
		hold       bool
	}{
		{"worked by hand from the shim rule of common practice (any packing reduces penetration one for one), no source: 0.135 + 1.25 = 1.385 up to 1 1/2",
			0, 0, 3 * in / 2, 3*in/2 - 135*in/1000, false},
		{"the same: 0.135 + 1 + 1.25 = 2.385 up to 2 1/2", in, in, 5 * in / 2, 5*in/2 - in - 135*in/1000, false},
		{"the same: 0.135 + 2 9/16 + 1.25 = 3.9475 up to 4", 41 * in / 16, 41 * in / 16, 4 * in, 4*in - 41*in/16 - 135*in/1000, false},
	}
	for _, c := range cases {
		j := jobtest.Job()
		j.Packing.Method = job.PackChairs                     // shims make these packings exactly
		j.System.Lap = job.Lap{Front: -9 * in, Rear: -9 * in} // laps are another matter
		p := jobtest.Rectangle(480*in, 240*in)
		q := p.Runs[0].Readings
		for i := range q {
			q[i].TopOutside, q[i].TopInside = -c.drop, -c.drop
		}
		j.Perimeters = []job.Perimeter{p}
		l, found := layout.Build(j)
		if found.HasErrors() || c.hold != (len(found) > 0) {
			t.Fatalf("%s: %v", c.source, found)
		}
		for _, ch := range l.Runs()[0].Chairs {
			if ch.Kind != anchor.Between {
				continue
			}
			for _, r := range ch.Rows {
				published.Holds(t, "fastener length", published.ByHand(c.source), fmt.Sprintf("packing %v, length %v, into the wood %v", r.Packing, r.Length, r.Into),
					r.Packing == c.packing && r.Length == c.want && r.Into == c.into)
			}
		}
	}
}
