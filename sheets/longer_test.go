package sheets

import (
	"slices"
	"testing"

	"copingset/drawing/words"
)

// crowded are kinds of sheets whose words are not all in the tables yet, or whose
// room is tried elsewhere: receiving and labels in TestReceivingSheetsAreSaidFromTheTables,
// runs in TestRunSheetsHoldLongerWords; the order of work overprints in Spanish.
var crowded = []Kind{RunSheet, CrateList, PackingList, PieceLabels, CrateLabels, CornerSheet, Sections, WorkSheet}

// Every other kind of sheet has room for a language a third longer, and for Spanish
// as far as it is filled.
func TestSheetsHoldLongerWords(t *testing.T) {
	t.Parallel()
	l := sampleLayout(t, "rectangle")
	for _, lang := range []words.Lang{words.Longer, words.Spanish} {
		seen := map[Kind]bool{}
		drawn := drawnPages(l, Options{Lang: lang}, func(b *book) []page {
			return slices.DeleteFunc(b.plan(), func(p page) bool {
				seen[p.kind] = true
				return p.draw == nil || slices.Contains(crowded, p.kind)
			})
		})
		for _, f := range faults(drawn) {
			t.Errorf("language %d: %s", lang, f)
		}
		if len(seen) < 20 {
			t.Errorf("language %d: %d kinds of sheets", lang, len(seen))
		}
	}
	for _, lang := range []words.Lang{words.Longer, words.Spanish} {
		for _, f := range faults(Forms(l.Job, FormOptions{Lang: lang})) {
			t.Errorf("language %d: %s", lang, f)
		}
	}
}
