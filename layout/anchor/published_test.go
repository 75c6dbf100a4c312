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

// The equal-spacing rules of the trade, on a system with those very numbers.
// They are check values only: nothing of the program has them as a default.
func TestPublishedSpacing(t *testing.T) {
	cases := []struct {
		source  string
		spacing length.Length
		at      []length.Length // chairs of a 10 ft piece between two joints, from the left joint's centre
	}{
		{"common practice, no source: a 10 ft piece at 60 in has chairs at both ends and the middle; with 1/4 in joints the pitch is 60 1/8 in",
			60 * in, []length.Length{0, 60*in + in/8, 120*in + in/4}},
		{"common practice, no source: a 10 ft piece at 40 in has chairs at both ends and the third points",
			40 * in, []length.Length{0, 40*in + in/16, 80*in + in/8, 120*in + in/4}},
	}
	for _, c := range cases {
		j := jobtest.Job()
		s := &j.System
		s.Stock, s.Joint.Gap, s.Splice.Length, s.Chair.Length = 120*in, in/4, 6*in, 16*in
		s.Corner.Leg, s.Corner.LegStep = 30*in, in/2
		for i := range j.Assemblies {
			j.Assemblies[i].ChairSpacing = c.spacing
		}
		// Wall of two whole pieces between the legs: the cap line is 5/16 longer at each corner.
		a := 2*30*in + 2*120*in + 3*in/4 - 10*length.Inch16
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(a, a)}
		l, found := layout.Build(j)
		if len(found) > 0 {
			t.Fatalf("%s: %v", c.source, found)
		}
		r := l.Runs()[0]
		p := r.Parts[1]
		if p.Length() != 120*in {
			t.Fatalf("%s: the piece is %v long", c.source, p.Length())
		}
		origin := p.From - in/8
		var got []length.Length
		for _, ch := range r.Chairs {
			if ch.At >= origin && ch.At <= p.To+in/8 {
				got = append(got, ch.At-origin)
			}
		}
		if len(got) != len(c.at) {
			t.Fatalf("%s: chairs at %v", c.source, got)
		}
		for i := range got {
			// Within a sixteenth: a third of 120 1/4 in is not on the tape's grid.
			published.Near(t, "equal bays", published.Trade(c.source), fmt.Sprintf("chair %d, in", i+1), got[i].Inch(), c.at[i].Inch(), 1./16)
		}
	}
}

// The length of a fastener from scratch: chair 0.080, membrane 0.040, packing
// at the row, thread 1 in, tip 1/4 in.
func TestPublishedFastenerLength(t *testing.T) {
	cases := []struct {
		source     string
		drop       length.Length // of every reading of the run but the corners'
		packing    length.Length
		want, into length.Length
		hold       bool
	}{
		{"worked by hand from the shim rule of common practice (any packing reduces penetration one for one), no source: 0.12 + 1.25 = 1.37 up to 1 1/2",
			0, 0, 3 * in / 2, 3*in/2 - 12*in/100, false},
		{"the same: 0.12 + 1 + 1.25 = 2.37 up to 2 1/2", in, in, 5 * in / 2, 5*in/2 - in - 12*in/100, false},
		{"the same: 0.12 + 2 5/8 + 1.25 = 3.995 up to 4", 21 * in / 8, 21 * in / 8, 4 * in, 4*in - 21*in/8 - 12*in/100, false},
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
