package shop_test

import (
	"os"
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
		{"a foot over the end of the hook", "does not hang in the hook", func(s *job.System) {
			s.Chair.Blank.Section[4].Length = 11 * in / 5
		}},
		{"a level hook that the cap's play takes off", "comes off", func(s *job.System) {
			s.Profile.RearHook = job.Kick{Length: in / 4, Angle: 90 * job.Degree}
			s.Chair.Blank.Section[4].Length = 27 * in / 10
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

// Whether a chair carries its cap hangs on no shop: without one it holds the pieces over it.
func TestChairsCarryTheHookWithoutAShop(t *testing.T) {
	for _, well := range []bool{true, false} {
		j := withParts(jobtest.Job())
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		j.Shop = nil
		if !well {
			j.System.Chair.RearEdge = in / 2
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		seen := 0
		for _, f := range l.Findings {
			if f.Code == "hook-free" {
				seen += namesItsPieces(t, f)
			}
		}
		if well != (seen == 0) {
			t.Errorf("a chair that carries, %v: %d pieces are on hold", well, seen)
		}
		for _, q := range l.Perimeters[0].Pieces {
			if l.Held.Released(q) != well {
				t.Errorf("a chair that carries, %v: piece %s is released or not against it", well, q.Mark)
			}
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
				said[strings.Contains(f.What, "hook ends at the chair's roof-side edge")] = true
			}
		}
	}
	if !said[true] || !said[false] {
		t.Errorf("told of an edge at the hook's end, and past it: %v", said)
	}
}

// The chair of every sample carries its cap, and whatever no report states of how far
// hook and snap take hold, one with a shorter rear leg or kick, or under a cap with a
// shorter hook, does not.
func TestChairsOfTheSamplesCarryTheirCaps(t *testing.T) {
	last := func(s *job.System, sections func([]job.Flange)) {
		sections(s.Chair.Blank.Section)
	}
	for _, c := range []struct {
		name, says string
		set        func(s *job.System)
	}{
		{"as it is", "", func(*job.System) {}},
		{"a rear leg a third shorter", "hook", func(s *job.System) {
			last(s, func(f []job.Flange) { f[len(f)-1].Length = f[len(f)-1].Length * 2 / 3 })
		}},
		{"a hook half as long and a foot as high as its end was", "hook", func(s *job.System) {
			s.Profile.RearHook.Length /= 2
			last(s, func(f []job.Flange) { f[len(f)-1].Length -= s.Profile.RearHook.Length })
		}},
		{"no kick", "drip", func(s *job.System) {
			s.Chair.Blank.Section = s.Chair.Blank.Section[1:]
			s.Chair.Blank.Section[0].Turn = 0
		}},
		{"a kick too short for the play", "drip", func(s *job.System) { s.Chair.RearEdge += 3 * in / 16 }},
	} {
		for _, sample := range []string{"rectangle", "l-shape", "metric"} {
			j, found := job.Read(os.DirFS("../../samples"), sample+"/job.yaml")
			if found.HasErrors() {
				t.Fatal(found)
			}
			for i := range j.Assemblies {
				j.Assemblies[i].Engagement = nil
			}
			c.set(&j.System)
			l, _ := layout.Build(j)
			seen := false
			for _, f := range l.Findings {
				if f.Code == "hook-free" {
					seen = true
					if c.says == "" || !strings.Contains(f.What, c.says) {
						t.Errorf("%s, %s: %v", sample, c.name, f)
					}
				}
			}
			if seen != (c.says != "") {
				t.Errorf("%s, %s: found %v", sample, c.name, seen)
			}
		}
	}
}
