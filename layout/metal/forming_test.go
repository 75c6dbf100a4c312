package metal_test

import (
	"math"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/metal"
)

// The rows of a table are its own copy: what is tested is that the nearest row is
// taken, and none where there is no table.
func TestNeutralAxisRows(t *testing.T) {
	for _, c := range []struct {
		name            string
		thickness, near float64
	}{{"aluminum 3003-H14", 0.032, 0.032}, {"aluminum 5052-H32", 0.050, 0.063}, {"aluminum", 0.090, 0.100},
		{"coated steel G90", 0.034, 0.048}, {"stainless steel 304", 0.050, 0.029}} {
		n, ok := metal.NeutralOf(c.name, c.thickness)
		if !ok || n.Thickness != c.near || n.Source == "" || n.Least > n.Most {
			t.Errorf("%s at %.3f in: row %.3f", c.name, c.thickness, n.Thickness)
		}
	}
	if _, ok := metal.NeutralOf("titanium zinc", 0.027); ok {
		t.Error("zinc has a printed neutral axis here, from no source")
	}
	// 0.55 T + 1.57 R to 0.71 T + 1.57 R of the handbook's forms, worked by hand.
	n, _ := metal.NeutralOf("copper, cold rolled", 0.027)
	published.Near(t, "neutral axis", published.Recalled("Machinery's Handbook 90-degree forms"), "soft copper", n.Least,
		0.55/(math.Pi/2), 0.0006)
	published.Near(t, "neutral axis", published.Recalled("Machinery's Handbook 90-degree forms"), "hard copper", n.Most,
		0.71/(math.Pi/2), 0.0006)
}

// The empirical allowance of aircraft work, (0.01743 R + 0.0078 T) a degree, is
// K = 0.447: within the band of every printed row for metal that is not soft.
func TestEmpiricalAllowanceIsNear(t *testing.T) {
	const k = 0.0078 * 180 / math.Pi
	for _, name := range []string{"aluminum", "coated steel", "stainless"} {
		n, _ := metal.NeutralOf(name, 0.05)
		published.Holds(t, "neutral axis", published.From("sheet-metal workbook for aircraft, empirical allowance",
			"(0.01743 R + 0.0078 T) a degree"), name, math.Abs(n.Off(k)) <= metal.NeutralBand)
	}
	n, _ := metal.NeutralOf("aluminum", 0.05)
	if n.Off(0.30) >= 0 || n.Off(0.48) <= 0 {
		t.Error("what lies below is not told from what lies above")
	}
}

// The page prints some of its radii in thicknesses too, for sheet of 1/16 in and
// over: no row is below those.
func TestPublishedTightestBends(t *testing.T) {
	src := published.From("engineering design-book page, 90-degree cold bend", "in thicknesses")
	for _, c := range []struct {
		name             string
		thickness, times float64
	}{{"aluminum 5052-H32", 0.063, 1}, {"aluminum 5052-H34", 0.063, 1.5}, {"aluminum 5052-H34", 0.032, 1}} {
		b, ok := metal.TightestOf(c.name, c.thickness)
		published.Holds(t, "tightest "+
			"bend", src, c.name, ok && b.Thickness == c.thickness && b.Radius >= c.times*c.thickness-0.0011)
	}
	if b, _ := metal.TightestOf("aluminum 5052-H32", 0.0545); b.Thickness != 0.050 {
		t.Error("the nearest thickness printed is not taken")
	}
	if _, ok := metal.TightestOf("aluminum 3003-H14", 0.05); ok {
		t.Error("3003-H14 has a printed radius here; it is from memory only and not in the table")
	}
}
