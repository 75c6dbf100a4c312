package sheets

import (
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
)

// longerRuns are the run sheets of the samples in the language in which every word
// of the tables is a third longer: what is drawn on them beside frame and title.
func longerRuns(t *testing.T) []drawn {
	t.Helper()
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	var out []drawn
	for _, name := range slices.Sorted(maps.Keys(all)) {
		l := all[name]
		b := newBook(l, Options{Lang: words.Longer})
		c := drawn{name: name, layout: l}
		for _, p := range append(b.runPages(), b.seconds()...) {
			s := Sheet{ID: p.id, Title: p.title, Kind: p.kind, Scene: drawing.Scene{W: p.paper.w, H: p.paper.h}}
			p.draw(&s.Scene, func(id string) string {
				if id == "" {
					return ""
				}
				return "3.1.1"
			})
			c.sheets = append(c.sheets, s)
		}
		out = append(out, c)
	}
	return out
}

// Run sheets have room for words a third longer.
func TestRunSheetsHoldLongerWords(t *testing.T) {
	t.Parallel()
	for _, c := range longerRuns(t) {
		for _, f := range faults(c.sheets) {
			t.Errorf("%s: %s", c.name, f)
		}
	}
}

// Every word of a run sheet comes out of the tables, or out of the job.
func TestWordsOfRunSheetsAreInTheTables(t *testing.T) {
	t.Parallel()
	word, small := regexp.MustCompile(`\pL+`), regexp.MustCompile(`[a-z]{4}`)
	found := map[string]string{}
	for _, c := range longerRuns(t) {
		own := map[string]bool{}
		for _, e := range c.layout.Job.Input() {
			for _, w := range word.FindAllString(e.Value, -1) {
				own[strings.ToLower(w)] = true
			}
		}
		for _, s := range c.sheets {
			for _, x := range s.Scene.Texts() {
				for _, w := range word.FindAllString(x.Words, -1) {
					if small.MatchString(w) && !strings.ContainsRune(w, words.Mark) && !own[strings.ToLower(w)] {
						found[w] = c.name + ", " + s.ID + ": " + x.Words
					}
				}
			}
		}
	}
	for _, w := range slices.Sorted(maps.Keys(found)) {
		t.Errorf("%q is in no table: %s", w, found[w])
	}
}
