package anchor_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// The edge distance of the rear row is that to the rear face. By hand: a flat
// wall of 12 in takes a cap of 12 1/2 in inside, whose rear leg stands 1/4 in
// behind the rear face; the row lies 3/8 in and its own distance before that.
func TestRearRowHasItsEdgeDistance(t *testing.T) {
	for _, c := range []struct {
		from length.Length
		held bool
	}{{3 * in / 8, false}, {5 * in / 16, true}} {
		j := jobtest.Job()
		j.Fasteners[0].EdgeDistance = in / 2
		for i := range j.Assemblies {
			j.Assemblies[i].RearRowFrom = c.from
		}
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		l, codes := solve(t, j)
		if held := codes["edge-distance"] > 0; held != c.held {
			t.Errorf("row %v from the chair's rear edge: %v", c.from, codes)
		}
		for _, f := range l.Findings {
			if f.Code == "edge-distance" && !strings.Contains(f.What, `7/16"`) {
				t.Errorf("%v", f)
			}
		}
	}
}

// Under a taper the rear row follows the rear edge of the chair, which is cut to
// the cap: so far from the rear face as it is at any edge of a chair there, it
// may come, and no nearer.
func TestRearRowFollowsATaper(t *testing.T) {
	job := func() *job.Job {
		j := jobtest.Job()
		j.System.PlayMost = 7 * in / 8
		j.System.Transition = job.Transition{Length: 48 * in, Leg: 7 * in, ChangeMost: 3 * in}
		for i := range j.Assemblies {
			j.Assemblies[i].RearRowFrom = in // nearer to its face than the front row
		}
		p := jobtest.Rectangle(480*in, 240*in)
		for i := range p.Runs[0].Readings {
			if q := &p.Runs[0].Readings[i]; q.Station > 180*in && q.Station < 300*in {
				q.Width = 14 * in
			}
		}
		j.Perimeters = []job.Perimeter{p}
		return j
	}
	j := job()
	l, codes := solve(t, j)
	if len(codes) > 0 {
		t.Fatal(codes)
	}
	s := &l.Job.System
	nearest, tapers := length.Length(0), 0
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			left, right := c.Edges(s)
			if left != right {
				tapers++
			}
			for _, x := range []length.Length{c.Left(s), c.At, c.Right(s)} {
				wall := s.FrontClearance + r.At(r.ToFront(x)).Gap + r.At(r.ToFront(x)).Width
				d := wall - (r.InsideAt(x) - s.Chair.RearEdge - c.Assembly.RearRowFrom)
				if nearest == 0 || d < nearest {
					nearest = d
				}
			}
		}
	}
	if tapers == 0 {
		t.Fatal("no chair under a taper")
	}
	for _, c := range []struct {
		asked length.Length
		held  bool
	}{{nearest, false}, {nearest + 1, true}} {
		j := job()
		j.Fasteners[0].EdgeDistance = c.asked
		if _, codes := solve(t, j); codes["edge-distance"] > 0 != c.held {
			t.Errorf("edge distance %v, the row comes to %v: %v", c.asked, nearest, codes)
		}
	}
}

// The metal of a leg at an inside corner is as long as its centre line. By hand:
// a leg of 27 in and 12.6 in wide is 33.3 in there, more than the 30 in tested,
// so a chair stands between the miter and the joint; at an outside corner the
// front is the longest, 27 in, and none does.
func TestInsideCornersCountTheRear(t *testing.T) {
	j := jobtest.Job()
	j.Assemblies = j.Assemblies[1:]
	j.System.Corner.Support, j.System.Corner.Supports = job.Support{Length: 4 * in,
		Width: 3 * in}, []job.SupportTier{{WidthTo: 30 * in, At: []int{500}}}
	j.System.Chair.Length = 8 * in
	const ft = length.Foot
	sq := 90 * job.Degree
	j.Perimeters = []job.Perimeter{jobtest.Perimeter("ELL", job.Roof, jobtest.Run("A", 40*ft, sq), jobtest.Run("B",
		20*ft, sq), jobtest.Run("C", 15*ft, -sq),
		jobtest.Run("D", 12*ft, sq), jobtest.Run("E", 25*ft, sq), jobtest.Run("F", 32*ft, sq))}
	l, _ := solve(t, j)
	legs := 0
	for _, p := range l.Perimeters[0].Pieces {
		if p.Kind != cap.Corner {
			continue
		}
		for _, q := range p.Parts {
			legs++
			want := 0
			if p.Mark == "C/D" {
				want = 1
			}
			if q.Length() != 27*in {
				t.Fatalf("%s: a leg of %v", p.Mark, q.Length())
			}
			if n := between(l, q); n != want {
				t.Errorf("%s on run %s: %d chairs between, want %d", p.Mark, q.Run.Name, n, want)
			}
		}
	}
	if legs != 12 {
		t.Errorf("%d legs of corners", legs)
	}
}

func between(l *layout.Layout, q layout.Part) int {
	n := 0
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			if r.Run == q.Run && c.Kind == anchor.Between && c.Piece == q.Piece {
				n++
			}
		}
	}
	return n
}
