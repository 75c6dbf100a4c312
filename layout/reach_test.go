package layout_test

import (
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// A run without a survey may yet set width, height and corners of all others:
// nothing of its perimeter is cut, and all of another.
func TestAnUnsurveyedRunHoldsThePerimeter(t *testing.T) {
	const in = length.Inch
	for n := range 2 {
		j := jobtest.Job()
		one, two := jobtest.Rectangle(480*in, 240*in), jobtest.Rectangle(360*in, 240*in)
		two.Name = "TOWER"
		for i := range two.Runs {
			two.Runs[i].Name = "T" + two.Runs[i].Name
		}
		one.Runs[1].Readings = one.Runs[1].Readings[:n]
		j.Perimeters = []job.Perimeter{one, two}
		l := build(t, j)
		for _, p := range l.Perimeters {
			for _, q := range p.Pieces {
				if l.Held.Released(q) != (p.Job.Name == "TOWER") {
					t.Errorf("%d readings: piece %s of %s: released %v", n, q.Mark, p.Job.Name, l.Held.Released(q))
				}
			}
		}
	}
}

// What reading the job has said already is not said again.
func TestAnUnsurveyedRunIsSaidOnce(t *testing.T) {
	j := jobtest.Job()
	p := jobtest.Rectangle(480*length.Inch, 240*length.Inch)
	at := finding.Place{File: "test.yaml", Line: 9}
	p.Runs[1].Readings, p.Runs[1].At = p.Runs[1].Readings[:1], at
	j.Perimeters = []job.Perimeter{p}
	j.Findings = finding.List{{Code: "run-unsurveyed", Severity: finding.Hold, At: at, What: "run B has a single reading", Where: finding.Ref{Perimeter: "ROOF"}}}
	if h := build(t, j).Holds(); len(h) != 1 {
		t.Errorf("%v", h)
	}
}

// A chair that stands half on rotten wood carries both pieces at its joint, at
// either side of the wood and round a kink.
func TestRottenUnderHalfAChair(t *testing.T) {
	const in = length.Inch
	// rotten is a survey whose k-th reading is, so that the wood is bad from the
	// reading before to the one after.
	rotten := func(r *job.Run, k int, at ...length.Length) {
		r.Readings = nil
		for _, s := range at {
			r.Readings = append(r.Readings, job.Reading{Station: s, Width: 12 * in})
		}
		r.Readings[k].Conditions = []job.Condition{job.Rotten}
	}
	// check looks that all pieces on chairs that stand on the wood are held.
	check := func(name string, j *job.Job, run int) {
		l := build(t, j)
		r := l.Runs()[run]
		u := r.Unsound[0]
		f, ok := coded(l, "wall-unsound")
		if !ok || len(r.Unsound) != 1 {
			t.Fatalf("%s: %v", name, l.Findings)
		}
		halves := 0
		mind := func(c *anchor.Chair, left, right length.Length) {
			if left >= u.To || right <= u.From {
				return
			}
			pieces := []*layout.Piece{c.Piece}
			if c.Joint != nil && c.Joint.Kind != cap.Expansion {
				pieces = []*layout.Piece{c.Joint.Left, c.Joint.Right}
			}
			if left < u.From || right > u.To {
				halves++
			}
			for _, p := range pieces {
				if !slices.Contains(f.Where.Pieces, p.Mark) || l.Held.Released(p) {
					t.Errorf("%s: piece %s on chair %s is released, which stands on rotten wood from %v to %v", name, p.Mark, c.Name, u.From, u.To)
				}
			}
		}
		for _, c := range r.Chairs {
			mind(c, r.ToFront(c.Left(&j.System)), r.ToFront(c.Right(&j.System)))
		}
		if before := r.Left.Corner; before != nil && before.Absorb {
			for _, o := range l.Runs() {
				if o.OnWall() != before.Arrive {
					continue
				}
				for _, c := range o.Chairs {
					mind(c, r.ToFront(c.Left(&j.System)-o.Cap), r.ToFront(c.Right(&j.System)-o.Cap))
				}
			}
		}
		if halves == 0 {
			t.Errorf("%s: no chair stands half on the wood", name)
		}
	}
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	r := build(t, j).Runs()[0]
	joint := r.Joints[1]
	right, left := length.CeilTo(r.ToFront(joint.To), in/16)+in/8, length.FloorTo(r.ToFront(joint.From), in/16)-in/8
	rotten(&j.Perimeters[0].Runs[0], 2, 0, right, right+30*in, right+60*in, 480*in)
	check("beyond the joint", j, 0)
	rotten(&j.Perimeters[0].Runs[0], 2, 0, left-60*in, left-30*in, left, 480*in)
	check("before the joint", j, 0)

	for run := range 2 {
		j = jobtest.Job()
		a, b := jobtest.Run("A", 240*in, job.Degree), jobtest.Run("B", 240*in, 0)
		b.Right = job.End{Kind: job.EndFree}
		p := jobtest.Perimeter("O", job.Open, a, b)
		p.Starts = job.End{Kind: job.EndFree}
		if run == 0 {
			rotten(&p.Runs[0], 2, 0, 200*in, 240*in)
		} else {
			rotten(&p.Runs[1], 0, 0, 40*in, 240*in)
		}
		j.Perimeters = []job.Perimeter{p}
		check("at a kink, run "+p.Runs[run].Name, j, run)
	}
}

// The chair at a joint may need what neither piece does: the zone of the one
// and the width of the other.
func TestAJointChairNothingCovers(t *testing.T) {
	const in = length.Inch
	j := jobtest.Job()
	j.System.PlayMost, j.System.Widths.Step = in, in/2
	j.System.Transition = job.Transition{Leg: 4 * in, Length: 60 * in, ChangeMost: 6 * in}
	j.Pressures.CornerLength = 100 * in
	a, b := jobtest.Run("A", 300*in, 90*job.Degree), jobtest.Run("B", 600*in, 0)
	b.Right = job.End{Kind: job.EndWall}
	for k := range b.Readings {
		if q := &b.Readings[k]; q.Station > 150*in {
			q.Width = length.Min(14*in, 12*in+length.MulDiv(q.Station-150*in, 1, 30))
		}
	}
	p := jobtest.Perimeter("O", job.Open, a, b)
	p.Starts = job.End{Kind: job.EndWall}
	j.Perimeters = []job.Perimeter{p}
	if l := build(t, j); len(l.Holds()) > 0 {
		t.Fatalf("both zones are covered at both widths: %v", l.Holds())
	}
	j.Assemblies[1].WidthMost = 13 * in // which alone covers the corner zone
	l := build(t, j)
	h := l.Holds()
	if len(h) != 1 || h[0].Code != "no-assembly" || len(h[0].Where.Pieces) != 2 || h[0].Why == "" {
		t.Fatalf("%v", h)
	}
	held := 0
	for _, c := range l.Runs()[1].Chairs {
		if c.Kind != anchor.AtJoint {
			continue
		}
		x, y := c.Joint.Left, c.Joint.Right
		if max(x.Zone, y.Zone) == 1 && length.Max(x.Inside, y.Inside) > 13*in {
			held++
			if l.Held.Released(x) || l.Held.Released(y) || x.Zone == y.Zone || x.Inside == y.Inside {
				t.Errorf("chair %s: %s released %v, %s released %v", c.Name, x.Mark, l.Held.Released(x), y.Mark, l.Held.Released(y))
			}
		}
	}
	if held != 1 || len(l.Withheld) != 2 {
		t.Errorf("%d such chairs, %d pieces withheld", held, len(l.Withheld))
	}
}
