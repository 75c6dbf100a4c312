package view

import (
	"copingset/drawing/words"
	"os"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
)

// On a sheet that shows several views each number of a note stands once: a view
// numbers its notes on from those before it.
func TestRunNotesAreNumberedOn(t *testing.T) {
	j, found := job.Read(os.DirFS("../../samples"), "l-shape/job.yaml")
	if j == nil || found.HasErrors() {
		t.Fatal(found)
	}
	l, _ := layout.Build(j)
	const before = 7
	seen := [2]int{}
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			for i, draw := range []func(*runFrame){func(f *runFrame) { runPlanOf(f) }, func(f *runFrame) { runElevationOf(f) }} {
				c := NewRunCell(words.Book{}, planned(l, r), Scales(Metric(l))[8])
				f := c.frame(Scales(Metric(l))[8], Scales(Metric(l))[8])
				f.first = before
				draw(f)
				notes := append(f.placed(), f.rowNotes...)
				numbers := map[int]bool{}
				for _, n := range notes {
					seen[i]++
					if n.N <= before || n.N > f.listed || numbers[n.N] {
						t.Errorf("run %s, view %d: note %d %q after %d, up to %d", r.Name, i, n.N, n.Words, before, f.listed)
					}
					numbers[n.N] = true
				}
				if f.listed != before+len(notes) {
					t.Errorf("run %s, view %d: %d notes end at %d", r.Name, i, len(notes), f.listed)
				}
			}
		}
	}
	if seen[0] == 0 || seen[1] == 0 {
		t.Errorf("no notes to number: %v", seen)
	}
}
