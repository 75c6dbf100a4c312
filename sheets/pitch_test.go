package sheets

import (
	"os"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// chairAlone reports whether nothing is found but that a test job states no section of
// its chair.
func chairAlone(found finding.List) bool {
	return len(found) == 1 && found[0].Code == "chair-not-stated"
}

// gable is a job with two valleys and a peak, as a shop and a crew would read
// it: testdata/gable.
func gable(t *testing.T) *layout.Layout {
	t.Helper()
	j, found := job.Read(os.DirFS("testdata/gable"), "job.yaml")
	if len(found) > 0 {
		t.Fatal(found)
	}
	l, found := layout.Build(j)
	if !chairAlone(found) {
		t.Fatal(found)
	}
	return l
}

// Its sheets and views have no fault, in both systems of units, and each kind
// of sheet names the pieces over the breaks.
func TestPitchMitersAreLettered(t *testing.T) {
	t.Parallel()
	l := gable(t)
	pages := Packet(l, Options{})
	c := drawn{layout: l, sheets: pages}
	metric := gable(t).Job
	metric.Units = job.Metric
	inMetric, _ := layout.Build(metric)
	for _, f := range append(CheckDrawn(l, pages), Check(inMetric, Options{})...) {
		t.Error(f)
	}
	pieces := c.layout.Perimeters[0].Pieces
	miter := pieces[slices.IndexFunc(pieces, func(q *layout.Piece) bool { return q.Kind == cap.PitchMiter })]
	for _, k := range []struct {
		kind  Kind
		words []string
	}{
		{Index, []string{"B/C PEAK", "A/B VALLEY", "slope changes 28.1°, no turn", "lengths are taped along the slope"}},
		{RunSheet, []string{"break in the slope of the wall top", "PEAK 28.1°", "VALLEY 14.06°", "Stations are taped along the slope"}},
		{Sections, []string{"rises 4′-11 3/4″"}},
		{WorkSheet, []string{"pitch miter)"}},
		{CornerSheet, []string{"PITCH MITER, PEAK", "the slope changes by 28.1°", "Roof-side leg, ", "L: down 14.06°", "Each leg: drip edge", "street-side fold 2′-3″"}},
		{PieceSchedule, []string{"pitch miter, peak", "pitch miter, valley", "peak of 28.1°"}},
		{CrateList, []string{"pitch miter, peak"}},
		{ShopSheet, []string{"FLAT PATTERN", "Shop type " + c.layout.FamilyOf(miter).Mark, "pitch miter, valley, the slope changes by 14.06°"}},
		{Checklist, []string{"3 pitch miters"}},
	} {
		text := flat(ofKind(c, k.kind))
		for _, w := range k.words {
			if !strings.Contains(text, w) {
				t.Errorf("sheets of kind %v do not say %q", k.kind, w)
			}
		}
	}
	for _, no := range []string{"turns left 0", "included 180", "miter 0′-0"} {
		for _, k := range []Kind{Index, RunSheet, CornerSheet, PieceSchedule, CrateList, ShopSheet} {
			if strings.Contains(flat(ofKind(c, k)), no) {
				t.Errorf("sheets of kind %v say %q", k, no)
			}
		}
	}
}

// Legs that are not alike are lettered each by itself.
func TestUnlikeLegsOfAPitchMiter(t *testing.T) {
	t.Parallel()
	l := gable(t)
	j := l.Job
	for i := range j.Perimeters[0].Runs {
		if r := &j.Perimeters[0].Runs[i]; r.Name == "C" {
			r.Obstacles = append(r.Obstacles, job.Obstacle{Name: "bracket", Station: j.System.PitchMiter.Leg, Extent: j.System.Splice.Bearing, Does: job.BlocksJoint})
		}
	}
	l, _ = layout.Build(j)
	c := drawn{layout: l, sheets: Packet(l, Options{})}
	text := flat(ofKind(c, CornerSheet))
	if !strings.Contains(text, "Left leg: drip edge") || !strings.Contains(text, "Right leg: drip edge") {
		t.Error("the corner sheets do not tell the legs apart")
	}
	if text := flat(ofKind(c, ShopSheet)); !strings.Contains(text, "the longer leg is at your right hand, over a peak") {
		t.Error("the shop drawings do not say its hand")
	}
	for _, p := range l.Perimeters[0].Pieces {
		if p.Kind == cap.PitchMiter && p.Mark == "B/C" && p.Parts[1].Length() <= p.Parts[0].Length() {
			t.Errorf("%v and %v", p.Parts[0].Length(), p.Parts[1].Length())
		}
	}
}
