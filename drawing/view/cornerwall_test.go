package view

import (
	"testing"

	"copingset/layout/length"
	"copingset/layout/plan"
)

// The wall under a corner goes through the plumbed corner that its detail letters:
// the faces that the two runs were surveyed by meet there.
func TestSurveyedWallsMeetAtTheCorner(t *testing.T) {
	met := 0
	for _, s := range scenarios() {
		l := solved(t, s)
		for _, per := range l.Perimeters {
			for _, p := range per.Pieces {
				for _, m := range p.Miters {
					c := m.Corner
					if c.Straight() {
						continue
					}
					for _, r := range l.Runs() {
						w := l.WallPlan(r.Run)
						n := len(w.Street)
						if n == 0 {
							continue
						}
						var end plan.Pt
						var ext length.Length
						switch c {
						case r.Right.Corner:
							end, ext = w.Street[n-1], r.Right.Ext
							end.X = r.Cap - end.X
						case r.Left.Corner:
							end, ext = w.Street[0], r.Left.Ext
						default:
							continue
						}
						met++
						if off := length.Abs(end.Y - r.CapOut(c)); off > length.Millimetre || end.X != ext {
							t.Errorf("%s, corner %s: the face of run %s ends %v along and %v behind the cap corner, lettered %v and %v", s.name, c.Name, r.Name, end.X, end.Y, ext, r.CapOut(c))
						}
					}
				}
			}
		}
	}
	if met == 0 {
		t.Error("no scenario has a corner of surveyed walls")
	}
}
