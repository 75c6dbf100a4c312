package sheets

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
)

// spokenPages draws what receiving reads and what the yard sticks on, in a language.
func spokenPages(l *layout.Layout, say words.Book) []Sheet {
	b := newBook(l, Options{})
	b.say = say
	pages := slices.Concat(b.crates(), b.crateLabels(), b.packingList(), b.pieceLabels())
	return b.numbered(pages, func(string) string { return "" })
}

// notYetSaid are words of these sheets that stand in no table yet. The list may
// only shrink: a word of it that is not met fails the test.
var notYetSaid = []string{}

// jobData are the words of a job's own: names, marks, notes and fasteners.
func jobData(l *layout.Layout) string {
	in := l.Job.Info
	all := []string{in.Name, in.Number, in.Address, in.Owner, in.PreparedBy, in.CheckedBy, l.Job.Crating.FilmOff}
	for _, p := range in.Parties {
		all = append(all, p.Name)
	}
	for _, p := range l.Perimeters {
		all = append(all, p.Job.Name)
	}
	for _, f := range l.Job.Fasteners {
		all = append(all, f.Name)
	}
	for _, c := range l.Crates {
		for _, x := range c.Items {
			all = append(all, x.Lot, x.Mark)
		}
	}
	return strings.ToLower(strings.Join(all, " "))
}

var fourLetters = regexp.MustCompile(`\pL*\p{Ll}{4,}\pL*`)

// What receiving reads has room in a language a third longer and in Spanish, and
// every word of it that is not the job's own comes out of the tables.
func TestReceivingSheetsAreSaidFromTheTables(t *testing.T) {
	t.Parallel()
	met := map[string]bool{}
	for _, c := range workshops() {
		for _, say := range []words.Book{{Lang: words.Spanish}, {Lang: words.Longer}} {
			drawn := spokenPages(c.layout, say)
			if f := faults(drawn); len(f) > 0 {
				t.Errorf("%s, language %d: %s", c.name, say.Lang, strings.Join(f, "\n"))
			}
			if say.Lang != words.Longer {
				continue
			}
			own := jobData(c.layout)
			for _, s := range drawn {
				for _, x := range s.Scene.Texts() {
					for _, w := range fourLetters.FindAllString(x.Words, -1) {
						if strings.ContainsRune(w, words.Mark) || strings.Contains(own, strings.ToLower(w)) {
							continue
						}
						met[w] = true
						if !slices.Contains(notYetSaid, w) {
							t.Errorf("%s, sheet %q: %q of %q is in no table", c.name, s.Title, w, x.Words)
						}
					}
				}
			}
		}
	}
	for _, w := range notYetSaid {
		if !met[w] {
			t.Errorf("%q comes out of a table now: strike it from the list", w)
		}
	}
}

// Labels are read at arm's length in every language.
func TestLabelsAreLetteredInEveryLanguage(t *testing.T) {
	t.Parallel()
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		l := sampleLayout(t, name)
		b := newBook(l, Options{})
		b.say.Lang = words.Spanish
		g := b.labelGrid()
		for _, s := range b.numbered(b.pieceLabels(), func(string) string { return "" }) {
			for _, x := range s.Scene.Texts() {
				for i := range g.cols * g.rows {
					if g.at(i).Contains(drawing.Box(x.At.X, x.At.Y, x.At.X, x.At.Y)) && x.Size < drawing.Note {
						t.Errorf("%s: %q is lettered at %v", name, x.Words, x.Size)
					}
				}
			}
		}
	}
}
