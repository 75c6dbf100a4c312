package shop_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// A hook that reaches farther in than the leg stands off the wall is held, once a
// run and where the wall stands nearest; one that clears the wall is not.
func TestHookInWall(t *testing.T) {
	for _, c := range []struct {
		clear string
		want  int
	}{{"under the hook's reach", 4}, {"over it", 0}} {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
		if c.want == 0 {
			j.System.RearClearance = 3 * in / 8 // the hook reaches 0.354 in
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		n := 0
		for _, f := range l.Holds() {
			if f.Code != "hook-in-wall" {
				continue
			}
			n++
			if !f.Where.HasStation || !strings.Contains(f.What, `0.354" (8.98 mm)`) || !strings.Contains(f.What, `0.250" (6.35 mm)`) {
				t.Errorf("%v", f)
			}
			if !strings.Contains(f.Mend, "`clearance: rear:` of 0'-0 3/8\" (10 mm) at least, which is 0'-0 1/4\" (6 mm) now") {
				t.Errorf("%s", f.Mend)
			}
		}
		if n != c.want {
			t.Errorf("a clearance %s: %d holds, want %d", c.clear, n, c.want)
		}
	}
}
