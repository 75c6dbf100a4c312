package sheets

import (
	"strings"
	"testing"

	"copingset/layout/job"
)

// Short runs share a sheet, each run is reported once, and a run whose readings
// are doubted keeps a sheet of its own.
func TestShortRunsShareAReport(t *testing.T) {
	t.Parallel()
	for _, slips := range []bool{false, true} {
		j := perimeters(ell())
		if slips {
			for i := range j.Perimeters[0].Runs {
				rd := j.Perimeters[0].Runs[i].Readings
				rd[len(rd)/2].Conditions = []job.Condition{job.Rotten}
			}
		}
		l := build(t, j)
		said := map[string]int{}
		sheets := 0
		for _, s := range preBid(l, Options{}) {
			if s.Kind != WallReport || strings.HasSuffix(s.Title, ", continued") {
				continue
			}
			sheets++
			names := strings.TrimPrefix(strings.TrimPrefix(s.Title, "Wall report of run"), "s")
			for _, n := range strings.Split(names, ",") {
				said[strings.TrimSpace(n)]++
			}
			if slips && !strings.Contains(wordsOf(s.Scene), "NOT FIRM") {
				t.Errorf("%s does not say in its banner that the wall top is not firm", s.Title)
			}
		}
		runs := 0
		for _, r := range l.Runs() {
			if len(r.Readings) > 1 {
				runs++
				if said[r.Name] != 1 {
					t.Errorf("run %s is reported %d times", r.Name, said[r.Name])
				}
			}
		}
		if shared := sheets < runs; shared == slips {
			t.Errorf("%d runs on %d sheets, doubted: %v", runs, sheets, slips)
		}
	}
}
