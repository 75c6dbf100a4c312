package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// A face deeper than the tested leg takes an extender: it is drawn from the
// lap above the foot of the tested leg to where a taller leg would end, listed
// as held, and the wall is cut off below it.
func TestSectionShowsTheExtender(t *testing.T) {
	for _, face := range []job.Face{job.Front, job.Rear} {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(400*length.Inch, 300*length.Inch)}
		side := "front"
		if face == job.Front {
			j.Walls[0].CoverFront = 8 * length.Inch
		} else {
			j.Walls[0].CoverRear, side = 8*length.Inch, "rear"
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		r := l.Runs()[0]
		e, ok := l.ExtenderOn(r, face)
		if !ok {
			t.Fatalf("%s: no extender", side)
		}
		s := newSection(l, r, r.Chairs[1].At)
		s.setChair(r.Chairs[1])
		got := s.extenders()
		if len(got) != 1 || got[0].Height != e.Height {
			t.Fatalf("%s: %+v", side, got)
		}
		fold := s.p.foldF
		if face == job.Rear {
			fold = s.p.foldR
		}
		tested := fold + e.Tested.MM()
		lap := j.System.Lap.Front.MM()
		if d := tested - got[0].top - lap; d < -0.01 || d > 0.01 {
			t.Errorf("%s: begins %.2f mm above the foot of the tested leg, lap %.2f", side, tested-got[0].top, lap)
		}
		if floor := s.floorOf(paperMap{ratio: 5}); floor <= got[0].foot {
			t.Errorf("%s: the wall ends at %.1f, the extender at %.1f", side, floor, got[0].foot)
		}
		v := SectionAtChair(l, r, r.Chairs[1], 40000, 24000)
		if p := drawing.Check(v); len(p) > 0 {
			t.Errorf("%s: %v", side, p)
		}
		var text strings.Builder
		for _, x := range v.Texts() {
			text.WriteString(x.Words + " ")
		}
		if w := text.String(); !strings.Contains(w, "extender piece below the "+side+" leg") || !strings.Contains(w, "fastening by others: HOLD") {
			t.Errorf("%s: the extender is not listed", side)
		}
	}
}
