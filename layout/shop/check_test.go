package shop_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/shop"
)

// What a shop cannot make is a hold that names the piece, keeps it from
// release, and leaves it out of the cutting plan.
func TestBadInput(t *testing.T) {
	cases := []struct {
		name, code string
		spoil      func(j *job.Job)
		names      bool // the finding names pieces; else it is about the whole job
		says       string
	}{
		{"a flange the brake cannot hold", "flange-too-short", func(j *job.Job) { j.Shop.LeastFlange = 2 * in }, true, "the brake holds no less than"},
		{"a flange used up by its bends", "bends-meet", func(j *job.Job) {
			j.System.Profile.Drip = job.Kick{Length: in / 16, Angle: 80 * job.Degree}
			j.System.Profile.InsideR, j.Shop.LeastFlange = in/2, in/32
		}, true, "its bends take"},
		{"a radius under the metal's least", "radius-under-least", func(j *job.Job) { j.System.Profile.InsideR, j.Shop.LeastRadius = in/64, in/8 }, false, "under the least this metal takes"},
		{"a piece longer than the brake", "longer-than-brake", func(j *job.Job) { j.Shop.Brake = 30 * in }, true, "the brake takes"},
		{"a girth wider than the sheet", "no-sheet", func(j *job.Job) { j.Shop.Sheets = []job.ShopSheet{{Width: 12 * in, Length: 200 * in}} }, true, "no sheet takes it"},
		{"a blank longer than the sheet", "no-sheet", func(j *job.Job) { j.Shop.Sheets = []job.ShopSheet{{Width: 60 * in, Length: 20 * in}} }, true, "no sheet takes it"},
		{"an angle the brake does not reach", "bend-over-most", func(j *job.Job) {
			j.System.Profile.RearHook.Angle, j.Shop.MostTurn = 150*job.Degree, 120*job.Degree
		}, false, "further than the brake bends"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			j := jobtest.Job()
			j.Shop = tools()
			j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
			j.System.RearClearance = 3 * in / 8 // its hook reaches in so far
			c.spoil(j)
			l, found := layout.Build(j)
			if found.HasErrors() {
				t.Fatal(found)
			}
			n, named := 0, 0
			for _, f := range found {
				if f.Code != c.code || f.Where.Part != "" {
					continue
				}
				n++
				if f.Severity != finding.Hold || f.Mend == "" || !strings.Contains(f.What, c.says) {
					t.Errorf("%v", f)
				}
				if !c.names {
					continue
				}
				named += namesItsPieces(t, f)
			}
			if n == 0 {
				t.Fatalf("no %s among %v", c.code, found)
			}
			held := 0
			for _, p := range l.Perimeters {
				for _, q := range p.Pieces {
					if !l.Held.Released(q) {
						held++
					}
				}
			}
			if held == 0 || held != len(l.Cutting.LeftOut) || n > 1 || c.names && named != held {
				t.Errorf("%d findings, %d pieces held, %d left out of the cutting plan", n, held, len(l.Cutting.LeftOut))
			}
		})
	}
}

// All pieces of a family are made alike, so all of them are on hold where the
// family has no pattern.
func TestNoPatternHoldsTheWholeFamily(t *testing.T) {
	j := jobtest.Job()
	j.Shop = tools()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
	j.System.Profile.InsideR, j.Shop.LeastFlange = 3*in, in/32
	l, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	seen := false
	for _, f := range l.Families {
		if len(f.Bodies) > 0 {
			continue
		}
		seen = true
		if f.Released(l.Held) > 0 {
			t.Errorf("family %s has no pattern and %d pieces released", f.Mark, f.Released(l.Held))
		}
	}
	if !seen {
		t.Error("every family has a pattern")
	}
}

// The girth of a flat is the sum of the outside dimensions less the deductions,
// which is how a fabricator checks it by hand.
func TestGirthIsOutsideLessDeductions(t *testing.T) {
	for _, hem := range []bool{false, true} {
		j := jobtest.Job()
		j.Shop = tools()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(700*in, 420*in)}
		if hem {
			j.System.Profile.HemReturn = in / 2
		}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		for _, f := range l.Families {
			for _, b := range f.Bodies {
				var sum float64
				for i, face := range b.Solid.Faces {
					if face.Name != "hem" {
						sum += b.Outside(i).MM()
					}
				}
				for _, d := range shop.Deductions(b) {
					sum -= d.Less
				}
				if got := b.Girth.MM(); got < sum-1e-3 || got > sum+shop.Step(false).MM() {
					t.Errorf("family %s, hem %v: girth %.3f, outside less deductions %.3f", f.Mark, hem, got, sum)
				}
			}
		}
	}
}
