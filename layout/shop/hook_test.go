package shop_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// A chair that the hook does not find, finds too late, or runs into is held.
func TestChairsCarryTheHook(t *testing.T) {
	for _, c := range []struct {
		name, says string
		set        func(s *job.System)
	}{
		{"a chair with a foot over the hook", "", func(*job.System) {}},
		{"a rear edge out of the hook's reach", "catches nothing", func(s *job.System) { s.Chair.RearEdge = in / 2 }},
		{"no foot", "lifts farther than its hook", func(s *job.System) {
			s.Chair.Blank.Section = s.Chair.Blank.Section[:3]
			s.Chair.Blank.Section[1].Behind = 0
		}},
		{"a foot in the hook", "would stand", func(s *job.System) { s.Chair.Blank.Section[4].Length = 14 * in / 5 }},
	} {
		j := withParts(jobtest.Job())
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		c.set(&j.System)
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatalf("%s: %v", c.name, found)
		}
		seen := false
		for _, f := range l.Findings {
			if f.Code == "hook-free" {
				seen = seen || c.says != "" && strings.Contains(f.What, c.says)
				if c.says == "" || !strings.Contains(f.What, c.says) {
					t.Errorf("%s: %v", c.name, f)
				}
			}
		}
		if c.says != "" && !seen {
			t.Errorf("%s: no finding", c.name)
		}
	}
}
