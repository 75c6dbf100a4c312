package sheets

import (
	"testing"

	"copingset/drawing/view"
	"copingset/layout"
)

// Every window of every run is placed once, whole, on a page of the run's own sheets,
// and nothing is placed that leaves its page.
func TestEveryStripIsPlacedOnce(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		b := newBook(l, Options{})
		type part struct {
			run *layout.Run
			n   int
		}
		for _, p := range l.Perimeters {
			placed := map[part]int{}
			for _, s := range b.stretches(p) {
				for _, f := range s.leaves {
					if f.Over {
						t.Errorf("%s: something on the sheet of %v leaves its room", name, s.names())
					}
					on := 0
					for _, q := range f.Placed {
						strip, ok := q.Block.(*view.RunStrip)
						if !ok {
							continue
						}
						on++
						for _, r := range s.runs {
							if b.planOf(r) == strip.Run {
								placed[part{r, strip.Win.N}]++
							}
						}
					}
					if on != len(f.strips) {
						t.Errorf("%s: %d strips of %v are placed, want %d", name, on, s.names(), len(f.strips))
					}
				}
			}
			for _, r := range p.Runs {
				for n := 1; placed[part{r, n}] > 0 || n == 1; n++ {
					if got := placed[part{r, n}]; got != 1 {
						t.Errorf("%s: window %d of run %s is placed %d times", name, n, r.Name, got)
					}
				}
			}
		}
	}
}

// No run of the samples is over 75 ft: each has one first sheet, on the job's own paper.
func TestFirstSheetsOfARun(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		b := newBook(l, Options{})
		for _, p := range l.Perimeters {
			for _, s := range b.stretches(p) {
				if len(s.leaves) != 1 || s.leaves[0].Paper.Name != "" {
					t.Errorf("%s, runs %v: %d first sheets, paper %q", name, s.names(), len(s.leaves), s.leaves[0].Paper.Name)
				}
			}
		}
	}
}
