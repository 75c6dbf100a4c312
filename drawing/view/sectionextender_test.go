package view

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// A face deeper than the tested leg takes an extender: it is drawn from the
// lap above the foot of the tested leg to where a taller leg would end, listed
// as held, and the wall is cut off below it.
func TestSectionShowsTheExtender(t *testing.T) {
	for _, face := range []job.Face{job.Front, job.Rear} {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(400*length.Inch, 300*length.Inch)}
		side := "street-side"
		if face == job.Front {
			j.Walls[0].CoverFront = 8 * length.Inch
		} else {
			j.Walls[0].CoverRear, side = 8*length.Inch, "roof-side"
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
		of := l.Section(r, r.Chairs[1].At, r.Chairs[1], nil)
		s := newSectionView(words.Book{}, of)
		if len(of.Hung) != 1 || of.Hung[0].Height.Real != e.Height {
			t.Fatalf("%s: %+v", side, of.Hung)
		}
		h, whole := of.Hung[0], plan.FrontFoot
		if face == job.Rear {
			whole = plan.RearFoot
		}
		d, _ := of.Dim(whole)
		if lap := h.Top.Y - (d.To.Y - e.Tested); lap != j.System.Lap.Front {
			t.Errorf("%s: begins %v above the foot of the tested leg, lap %v", side, lap, j.System.Lap.Front)
		}
		if floor := s.floorOf(paperMap{ratio: 5}); floor >= h.Foot.Y {
			t.Errorf("%s: the wall ends at %v, the extender at %v", side, floor, h.Foot.Y)
		}
		v := cutScene(of, 40000, 24000)
		if p := drawing.Check(v); len(p) > 0 {
			t.Errorf("%s: %v", side, p)
		}
		var text strings.Builder
		for _, x := range v.Texts() {
			text.WriteString(x.Words + " ")
		}
		if w := text.String(); !strings.Contains(w, "below the "+side+" leg") || !strings.Contains(w, "HOLD: its fastening is not stated") {
			t.Errorf("%s: the extender is not listed", side)
		}
	}
}

// An extender below a rear leg is drawn as it is made, its back against the wall and its
// finish to the roof.
func TestRoofExtenderFacesTheRoof(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(400*length.Inch, 300*length.Inch)}
	j.Walls[0].CoverRear = 8 * length.Inch
	j.System.RoofExtender = &job.ExtenderRules{Stock: 100 * length.Inch, Section: []job.Flange{
		{Name: "foot", Length: length.Inch}, {Name: "face", Across: true, Turn: 30 * job.Degree}}}
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	r := l.Runs()[0]
	of := l.Section(r, r.Chairs[1].At, r.Chairs[1], nil)
	if len(of.Hung) != 1 || of.Hung[0].Front || !of.Hung[0].Stated {
		t.Fatalf("%+v", of.Hung)
	}
	h, metal := of.Hung[0], 0
	for _, p := range of.Parts {
		if p.Kind != plan.ExtenderMetal {
			continue
		}
		metal++
		lo, hi := p.Ring.Bounds()
		if p.Supposed || length.Abs(lo.X-h.Top.X) > length.Inch/100 || hi.X < lo.X+length.Inch/4 || length.Abs(hi.Y-h.Top.Y) > length.Inch/50 {
			t.Errorf("it stands from %v to %v, the wall at %v", lo, hi, h.Top)
		}
	}
	if metal != 1 {
		t.Errorf("%d extenders drawn", metal)
	}
}
