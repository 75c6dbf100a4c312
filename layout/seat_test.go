package layout_test

import (
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// seated is the rectangle with what its chairs are asked to stand on.
func seated(t *testing.T, bearing *job.Bearing, setting length.Length) *job.Job {
	j := sampled(t, "rectangle")
	j.System.Chair.Bearing = bearing
	j.System.Chair.Tolerance = &job.Tolerance{Setting: setting}
	return j
}

// Each chair is judged at its worst place: by the figures of the sample, the base with its
// bends lies 1 19/64 in behind the chair's front and 1 11/64 before its rear, and the front
// leg's inner face 0.080 in behind the front, to a 256th, since its flanges follow the slope.
func TestSeatingByHand(t *testing.T) {
	j := seated(t, &job.Bearing{Least: 5 * in, Overhang: in / 8}, in/16)
	l, _ := solved(j)
	s := &j.System
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			front := s.Metal.Thickness + s.Chair.FrontEdge
			rear := s.Metal.Thickness + c.Inside - s.Chair.RearEdge
			back, clear := length.Length(1<<50), length.Length(1<<50)
			for _, p := range c.Places(s) {
				f := p.Run.FaceAt(s, p.At)
				wider := p.Run.InsideAt(p.At) - c.Inside
				back = length.Min(back, length.Min(front+83*in/64-f.Street, f.Roof-(rear+wider-75*in/64)))
				clear = length.Min(clear, f.Street-l.Job.Membrane.Thickness-front-80*in/1000)
				clear = length.Min(clear, rear+wider-80*in/1000-f.Deepest-l.Job.Membrane.Thickness)
			}
			got := l.Seating(c)
			if length.Abs(got[1].Has-back) > in/1000 || length.Abs(got[2].Has-clear) > in/256 {
				t.Errorf("%s: back %v, clear %v; by hand %v and %v", c.Name, got[1].Has.Inch(), got[2].Has.Inch(),
					back.Inch(), clear.Inch())
			}
		}
	}
}

// What fails is one finding a cause, with every chair it is of, and holds their pieces; what
// the job does not state is noted.
func TestSeatingFindings(t *testing.T) {
	ok := &job.Bearing{Least: 5 * in, Overhang: in / 8}
	for _, c := range []struct {
		what     string
		bearing  *job.Bearing
		setting  length.Length
		code     string
		severity finding.Severity
	}{
		{"all well", ok, in / 16, "", 0},
		{"an overhang nobody allows", &job.Bearing{Least: 5 * in}, in / 16, "chair-overhang", finding.Hold},
		{"an overhang nobody speaks of", nil, in / 16, "chair-overhang", finding.Note},
		{"too little on the wall", &job.Bearing{Least: 11 * in, Overhang: in}, in / 16, "chair-bearing", finding.Hold},
		{"set farther off than it is clear", ok, in / 2, "chair-not-clear", finding.Hold},
	} {
		l, found := solved(seated(t, c.bearing, c.setting))
		n := 0
		for _, f := range found {
			switch f.Code {
			case "chair-overhang", "chair-bearing", "chair-not-clear":
				n++
				if f.Code != c.code || f.Severity != c.severity {
					t.Errorf("%s: %v", c.what, f)
				}
				if c.severity == finding.Hold && len(l.Withheld) == 0 {
					t.Errorf("%s: nothing is kept back", c.what)
				}
			}
		}
		if want := map[bool]int{true: 0, false: 1}[c.code == ""]; n != want {
			t.Errorf("%s: %d findings, asked %d", c.what, n, want)
		}
		for _, r := range l.SeatRows() {
			fails := false
			for _, k := range r.Worst {
				fails = fails || k.Fails()
			}
			if fails == r.Passes || len(r.Worst) != 4 || r.Worst[2].Code != plan.Edge {
				t.Errorf("%s: run %s: %+v", c.what, r.Run.Name, r)
			}
		}
	}
}
