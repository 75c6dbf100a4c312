package sheets

import (
	"slices"
	"strings"
	"testing"

	"copingset/drawing/words"
)

// The sheets of a perimeter name its outer side as the job does; what shows several
// names all of theirs, and a list says row by row what its street side is.
func TestOuterSideIsNamed(t *testing.T) {
	t.Parallel()
	l := sampleLayout(t, "l-shape")
	if o := outerOf(l.Job.Perimeters); o != "street well" {
		t.Fatalf("the outer sides of the sample are %q", o)
	}
	for _, lang := range []words.Lang{words.English, words.Spanish} {
		side := map[words.Lang][2]string{words.English: {"STREET SIDE", "WELL SIDE"},
			words.Spanish: {"LADO DE LA CALLE", "LADO DEL POZO"}}[lang]
		seen := map[string]bool{}
		for _, s := range drawnPages(l, Options{Lang: lang}, func(b *book) []page { return b.runPages() }) {
			well := strings.Contains(s.ID, "-well-")
			for _, x := range s.Scene.Texts() {
				for i, name := range side {
					if strings.Contains(x.Words, name) {
						seen[name] = true
						if well != (i == 1) {
							t.Errorf("%s says %q", s.ID, x.Words)
						}
					}
				}
			}
		}
		if len(seen) != 2 {
			t.Errorf("language %d: the run sheets name %v", lang, seen)
		}
	}
	for _, s := range Schedules(l) {
		at, in := slices.Index(s.Header, "outer side"), slices.Index(s.Header, "perimeter")
		if at < 0 {
			continue
		}
		for _, r := range s.Rows {
			if want := map[string]string{"WELL": "well"}[r[in]]; r[at] != want && (want != "" || r[at] != "street") {
				t.Errorf("%s: a row of %s has the outer side %q", s.Name, r[in], r[at])
			}
		}
	}
}
