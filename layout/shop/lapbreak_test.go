package shop_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// Over a break of slope a lap has its tabs as round a corner, with the faces changed
// about: the tab of the top is bent by the turn of the tops, those of the legs go on in
// their planes; and as many rivets stand in the tabs as in the leg over them.
func TestLapsOverABreak(t *testing.T) {
	j := gable(0.4, 240*in, 240*in)
	j.Shop.Seam = &job.SeamRules{Process: job.RivetAndSeal, Rivets: &job.Rivets{Diameter: in / 8, Edge: 3 * in / 8, Pitch: 2 * in},
		Lap: &job.SeamLap{Cover: job.Left, Width: in, Clear: in / 8, Jogged: true, Jog: in / 4}}
	l, found := layout.Build(j)
	seen := 0
	for _, f := range l.Families {
		if f.Kind != cap.PitchMiter {
			continue
		}
		seen++
		if f.Covering != cap.LeftHand || len(f.Bodies) != 2 {
			t.Fatalf("%s: the leg at hand %v lies over, %d bodies", f.Mark, f.Covering, len(f.Bodies))
		}
		over, under := f.Bodies[0], f.Bodies[1]
		if len(over.Metal.Laps[1]) != 0 || over.Riveted == 0 || over.Riveted != under.Riveted {
			t.Errorf("%s: %d tabs on the leg over it, %d and %d rivets", f.Mark, len(over.Metal.Laps[1]), over.Riveted, under.Riveted)
		}
		// The tops fall to the roof, so that they turn a little less than the wall does.
		want := f.Pieces[0].Miters[0].Corner.Bend.Degrees()
		tabs := under.Metal.Laps[0]
		if len(tabs) != 3 {
			t.Fatalf("%s: %d tabs", f.Mark, len(tabs))
		}
		for _, tab := range tabs {
			switch {
			case tab.Name != "top tab":
				if tab.Turn != 0 {
					t.Errorf("%s: its %s turns %.2f degrees", f.Mark, tab.Name, tab.Turn)
				}
			case tab.Turn*want > 0 || math.Abs(tab.Turn) > math.Abs(want) || math.Abs(tab.Turn) < math.Abs(want)*0.99:
				t.Errorf("%s: its top's tab turns %.2f degrees UP, the wall %.2f", f.Mark, tab.Turn, want)
			}
		}
	}
	if seen == 0 {
		t.Fatal(found)
	}
	if slices.ContainsFunc([]finding.Finding(found), func(f finding.Finding) bool { return strings.HasPrefix(f.Code, "seam-") }) {
		t.Errorf("%v", found)
	}
}

// Where a lap is stated and a seam has none, the piece is held and says what to write,
// whatever joins it; a stated backer clears it.
func TestSeamsWithoutTheirLapAreHeld(t *testing.T) {
	for _, c := range []struct {
		process job.Joining
		backer  string
		code    string
	}{{job.Weld, "", "seam-unlapped"}, {job.Solder, "", "seam-backer"}, {job.RivetAndSeal, "", "seam-backer"}, {job.Weld, "2 in strip", ""}} {
		j := jobtest.Cross(600*in, 300*in, 240*in, job.TeeLeft)
		j.Shop = tools()
		j.Shop.Seam = &job.SeamRules{Process: c.process, After: true, Backer: c.backer, Lap: &job.SeamLap{Width: in, Clear: in / 8}}
		_, found := layout.Build(j)
		held := ""
		for _, f := range found {
			if strings.HasPrefix(f.Code, "seam-") && strings.Contains(f.What, "tee") {
				held = f.Code
				if !strings.Contains(f.Mend, "`backer:`") {
					t.Errorf("%v: %s", c.process, f.Mend)
				}
			}
		}
		if held != c.code {
			t.Errorf("%v, backer %q: held %q, want %q", c.process, c.backer, held, c.code)
		}
	}
}
