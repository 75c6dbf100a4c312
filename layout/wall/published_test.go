package wall

import (
	"fmt"
	"os"
	"testing"

	sources "copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
)

func TestMain(m *testing.M) { os.Exit(sources.Run(m, "layout/wall")) }

// Trims where two walls of different thickness meet: the seam runs from the
// outer to the inner corner. Turn and included angle stand side by side.
func TestPublishedFaceTrim(t *testing.T) {
	cases := []struct {
		source         string
		turn, included job.Angle
		w1, w2         float64 // in
		trim1, trim2   float64 // in
	}{
		{"plane geometry, checked against AC 43.13-1B Table 4-7 for equal widths: tan 45 = 1", 90, 90, 12, 12, 12, 12},
		{"plane geometry: at a square corner each trim is the neighbour's width", 90, 90, 12, 8, 8, 12},
		{"plane geometry, (w2 - w1 cos 60)/sin 60", 60, 120, 12, 8, 2.3094, 9.2376},
		{"plane geometry; a negative trim means the inner edge is the longer", 45, 135, 12, 8, -0.6863, 8.9706},
		{"AC 43.13-1B Table 4-7: 12 tan 30 = 6.9282", 60, 120, 12, 12, 6.9282, 6.9282},
		{"AC 43.13-1B Table 4-7, an inside corner", -90, 90, 12, 12, -12, -12},
	}
	for _, c := range cases {
		if abs(c.turn)+c.included != 180 {
			t.Errorf("%s: turn %d and included %d are not supplements", c.source, c.turn, c.included)
		}
		a, b := length.FromInches(c.w1), length.FromInches(c.w2)
		got1 := FaceTrim(a, b, c.turn*job.Degree).Inch()
		got2 := FaceTrim(b, a, c.turn*job.Degree).Inch()
		what := fmt.Sprintf("turn %d, %g to %g wide", c.turn, c.w1, c.w2)
		sources.Near(t, "trim of a wall's corner", sources.ByHand(c.source), what+", first", got1, c.trim1, 0.0001)
		sources.Near(t, "trim of a wall's corner", sources.ByHand(c.source), what+", second", got2, c.trim2, 0.0001)
	}
	table := sources.From("FAA AC 43.13-1B Table 4-7 as printed", "tan of half the turn")
	for _, c := range []struct {
		turn    job.Angle
		tangent float64
	}{{30, 0.2679}, {45, 0.4142}, {72, 0.7265}, {120, 1.732}, {135, 2.414}} {
		w := 12 * length.Inch
		sources.Near(t, "trim of a wall's corner", table, fmt.Sprintf("turn %d", c.turn), FaceTrim(w, w,
			c.turn*job.Degree).Inch()/12, c.tangent, 0.0005)
	}
}

// The shim rule: shim = highest top + least packing - top.
func TestPublishedShims(t *testing.T) {
	const q = length.Inch / 8
	cases := []struct {
		source     string
		tops, want []length.Length // eighths
	}{
		{"worked by hand from the rule shim = target - top; common practice, no source",
			[]length.Length{0, 2, -2, 1, 0}, []length.Length{2, 0, 4, 1, 2}},
	}
	for _, c := range cases {
		j := testJob(run("A", 120*length.Inch, 90), run("B", 120*length.Inch, 90), run("C", 120*length.Inch, 90), run("D",
			120*length.Inch, 90))
		for i, top := range c.tops {
			r := &j.Perimeters[0].Runs[0].Readings[i]
			r.TopOutside, r.TopInside = top*q, top*q
		}
		p, found := Build(j, length.Inch16)
		if len(found.Holds()) > 0 || found.HasErrors() {
			t.Fatalf("%s: %v", c.source, found)
		}
		for i, want := range c.want {
			sources.Near(t, "shims", sources.Trade(c.source), fmt.Sprintf("shim %d, in", i),
				p[0].Runs[0].Readings[i].PackFront.Inch(), (want * q).Inch(), 1e-9)
		}
	}
}
