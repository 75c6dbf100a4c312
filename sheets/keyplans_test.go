package sheets

import (
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// The key plans of jobs of any size name every run once on a plan and once in a table,
// and nothing on them is in the way of anything else.
func TestKeyPlansOfAnySize(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ runs, most int }{{28, 2}, {100, 12}, {320, 40}} {
		j := jobtest.Whole()
		j.Paper = job.Paper{Runs: job.ANSIB, Lists: job.ANSIA}
		j.Perimeters = []job.Perimeter{jobtest.Jogged(c.runs)}
		l, found := layout.Build(jobtest.Rough(j))
		if found.HasErrors() {
			t.Fatal(found)
		}
		b := newBook(l, Options{})
		pages := b.keyPlans(page{kind: Index, paper: b.runs})
		if n := len(pages); n > c.most {
			t.Errorf("%d runs: %d pages of key plans", c.runs, n)
		}
		var named []string
		listed := false
		for _, p := range pages {
			s := Sheet{ID: p.id, Title: p.title, Kind: p.kind, Scene: drawing.Scene{W: p.paper.w, H: p.paper.h}}
			p.draw(&s.Scene, func(string) string { return "1.key-part.1" })
			for _, f := range faults([]Sheet{s}) {
				t.Errorf("%d runs: %s", c.runs, f)
			}
			for _, x := range s.Scene.Texts() {
				named = append(named, x.Words)
				listed = listed || x.Words == "Runs of this plan"
			}
		}
		for _, r := range l.Runs() {
			n := 0
			for _, w := range named {
				if w == r.Name {
					n++
				}
			}
			if n == 0 || n < 2 && listed {
				t.Errorf("%d runs: %s is named %d times", c.runs, r.Name, n)
			}
		}
		all := ""
		for _, s := range b.keyAlone() {
			all += wordsOf(s)
			for _, f := range drawing.Check(s) {
				t.Errorf("%d runs: the view: %v", c.runs, f)
			}
		}
		for _, r := range l.Runs() {
			if !strings.Contains(all, r.Name+"\n") {
				t.Errorf("%d runs: no view names %s", c.runs, r.Name)
			}
		}
	}
}
