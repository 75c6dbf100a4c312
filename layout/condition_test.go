package layout_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// Nothing is fastened to a rotten nailer: the pieces over it are held, the
// others are released, and a name and a date release them all.
func TestRottenNailerHoldsThePiecesOverIt(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(960*length.Inch, 480*length.Inch)}
	r := &j.Perimeters[0].Runs[0]
	r.Readings[16].Conditions = []job.Condition{job.Rotten} // at 480 in
	l, found := layout.Build(j)
	h := found.Holds()
	if len(h) != 1 || h[0].Code != "wall-unsound" || h[0].Where.Station != 480*length.Inch {
		t.Fatalf("%v", found)
	}
	past := j.System.Chair.Length/2 + j.System.Joint.Gap // half a joint's chair and its joint
	for _, p := range l.Perimeters[0].Pieces {
		over := false
		for _, q := range p.Parts {
			over = over || q.Run.Name == "A" && q.Run.ToFront(q.From) < 510*length.Inch+past && q.Run.ToFront(q.To) > 450*length.Inch-past
		}
		if over == l.Held.Released(p) {
			t.Errorf("piece %s over it: %v, released: %v", p.Mark, over, l.Held.Released(p))
		}
	}
	r.Cleared = []job.Cleared{{Station: 480 * length.Inch, Measure: job.MeasureCondition, By: "surveyor", Conditions: []job.Condition{job.Rotten}}}
	if _, found = layout.Build(j); len(found) != 0 {
		t.Errorf("%v", found)
	}
}
