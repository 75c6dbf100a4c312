package layout_test

import (
	"strings"
	"testing"

	"copingset/layout/job"
)

// Where a chair holds too little for the least bay, no leg and no joint mends it: every
// run with such chairs is held for them, and nothing is
// searched. Where as many chairs as have room hold too little, they are
// held too, and what was tried is said.
func TestChairsThatHoldNextToNothing(t *testing.T) {
	for _, c := range []struct {
		name  string
		held  job.ChairHeld
		held4 bool // all four runs are
		tried bool
	}{
		{"enough", job.ChairHeld{Up: 2000}, false, false},
		{"enough on more chairs", job.ChairHeld{Up: 900}, false, false},
		{"enough on longer legs", job.ChairHeld{Up: 700}, false, false},
		{"too little on as many as have room", job.ChairHeld{Up: 300}, true, true},
		{"too little for the least bay", job.ChairHeld{Up: 100}, true, false},
		{"a snap that holds next to nothing", job.ChairHeld{Up: 4000, Hook: 2000, Snap: 60}, true, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := woodJob()
			for i := range j.Assemblies {
				j.Assemblies[i].OneChair = &c.held
			}
			l := build(t, j)
			n := 0
			for _, f := range l.Findings {
				if f.Code != "chair-overloaded" {
					continue
				}
				n++
				if tried := strings.Contains(f.Why, "no other place"); tried != c.tried {
					t.Errorf("tried elsewhere %v, want %v: %s", tried, c.tried, f.Why)
				}
			}
			if want := map[bool]int{true: 4}[c.held4]; n != want {
				t.Errorf("%d runs with overloaded chairs, want %d", n, want)
			}
		})
	}
}
