package layout_test

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// Any wall, even or not, level or graded: no chair is unpacked, no reading
// uncovered, and every transition is needed.
func TestRandomWalls(t *testing.T) {
	chairs, readings, transitions := 0, 0, 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		kind := rapid.SampledFrom([]func(*rapid.T) *job.Job{jobtest.Random, jobtest.Uneven, packs}).Draw(t, "kind")
		l := build(t, kind(t))
		checkChairs(t, l)
		checkBuildUp(t, l)
		checkWidths(t, l)
		transitions += checkNeeded(t, l)
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				chairs++
				least := l.Job.Packing.Least - length.Nanometre // between two readings
				if (c.PackFront < least || c.PackRear < least) && !held(l, r.Name, "packing-over") {
					t.Fatalf("chair %s of run %s has %v and %v of packing, the least is %v", c.Name, r.Name, c.PackFront, c.PackRear, l.Job.Packing.Least)
				}
			}
			readings += len(r.Readings)
		}
	})
	t.Logf("%d chairs, %d readings, %d replacements of transitions tried", chairs, readings, transitions)
	if chairs == 0 || readings == 0 || transitions == 0 {
		t.Error("nothing was tried")
	}
}
