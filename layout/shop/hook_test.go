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

// As a chair's rear edge draws back past the end of the hook, it is caught by all its
// metal, by the skin of it alone, and not at all; each is told.
func TestChairsAtTheEndOfTheHook(t *testing.T) {
	said := map[bool]bool{}
	for e := in / 16; e < in; e += in / 64 {
		j := withParts(jobtest.Job())
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		j.System.Chair.RearEdge = e
		l, found := layout.Build(j)
		if found.HasErrors() {
			continue // the clearances leave no room for it
		}
		for _, f := range l.Findings {
			if f.Code == "hook-free" {
				said[strings.Contains(f.What, "hook ends at the chair's rear edge")] = true
			}
		}
	}
	if !said[true] || !said[false] {
		t.Errorf("told of an edge at the hook's end, and past it: %v", said)
	}
}
