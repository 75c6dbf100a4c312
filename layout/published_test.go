package layout_test

import (
	"math"
	"os"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/wind"

	"pgregory.net/rapid"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout")) }

func TestPublishedLifts(t *testing.T) {
	const source = "NIOSH 94-110 (rev. 9/2021), revised lifting equation, worked by hand"
	for _, c := range []struct {
		what string
		lift layout.Lift
		want float64
	}{
		{"the best of cases", layout.Lift{Hands: 10, Height: 30, Travel: 10, Often: 1, Hold: 1}, 51.0},
		{"16 in out, 12 in up", layout.Lift{Hands: 16, Height: 30, Travel: 12, Often: 0.94, Hold: 0.95}, 27.6},
		{"too far out", layout.Lift{Hands: 25.1, Height: 30, Travel: 10, Often: 1, Hold: 1}, 0},
		{"too high", layout.Lift{Hands: 10, Height: 70.1, Travel: 10, Often: 1, Hold: 1}, 0},
		{"too far to go", layout.Lift{Hands: 10, Height: 30, Travel: 70.1, Often: 1, Hold: 1}, 0},
		{"turned too far", layout.Lift{Hands: 10, Height: 30, Travel: 10, Turn: 135.1, Often: 1, Hold: 1}, 0},
		{"from floor to parapet", layout.Lift{Hands: 15, Height: 40, Travel: 30, Often: 0.94, Hold: 0.90}, 23.4},
	} {
		// The printed figures are rounded to a tenth of a pound.
		published.Near(t, "lifting limit", published.ByHand(source), c.what, c.lift.Limit(), c.want, 0.05)
	}
}

// Further out, higher, further to go or more turned, never more weight.
func TestLiftMonotonic(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		n := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
		a := layout.Lift{Hands: n(5, 30, "H"), Height: n(30, 70, "V"), Travel: n(0, 60, "D"), Turn: n(0, 130, "A"), Often: 1, Hold: 1}
		b := a
		b.Hands += n(0, 5, "out")
		b.Height += n(0, 5, "up")
		b.Travel += n(0, 5, "far")
		b.Turn += n(0, 5, "turned")
		if a.Limit() > layout.LiftConstant || b.Limit() > a.Limit() || b.Limit() < 0 {
			t.Fatalf("%v lb, then %v lb", a.Limit(), b.Limit())
		}
	})
}

func TestOnePersonAgainstTheEquation(t *testing.T) {
	j := woodJob()
	if f, ok := coded(build(t, j), "one-person-heavy"); ok {
		t.Fatal(f)
	}
	j.Site.OnePerson = 30_000
	if f, ok := coded(build(t, j), "one-person-heavy"); !ok || f.Severity != finding.Note {
		t.Error("66 lb for one person passes without a word")
	}
}

// most is an area that one chair gathers and its neighbours do not.
func most(t *testing.T, j *job.Job) float64 {
	l := build(t, j)
	least, most := math.Inf(1), 0.0
	for _, r := range l.Runs() {
		for _, p := range l.Pulls(r) {
			m := func(l length.Length) float64 { return float64(l) / float64(length.Metre) }
			a := wind.EffectiveArea(m(p.Tributary), m(r.Outside))
			least, most = min(least, a), max(most, a)
		}
	}
	if least >= most || most <= 0.93 {
		t.Fatalf("chairs gather %g to %g m2", least, most)
	}
	return most
}

func TestEffectiveAreaAgainstTheChairs(t *testing.T) {
	j := woodJob()
	j.Pressures = nil
	j.Wind = &job.Wind{Edition: "ASCE 7-16", Speed: 105 * 0.44704, Exposure: "B", RoofHeight: 6_000_000_000, ParapetTop: 6_600_000_000, Kzt: 1}
	for i := range j.Assemblies {
		j.Assemblies[i].ChairSpacing = 84 * length.Inch
	}
	for _, c := range []struct {
		m2   float64
		want string
	}{{0, ""}, {0.9, ""}, {most(t, j), "hold"}, {20, "hold"}} {
		j.Wind.Area = c.m2
		f, ok := coded(build(t, j), "wind-area")
		if got := f.Severity.String(); ok != (c.want != "") || ok && got != c.want {
			t.Errorf("%g m2: %v", c.m2, f)
		}
	}
}
