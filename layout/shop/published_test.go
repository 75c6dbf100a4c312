package shop

import (
	"fmt"
	"math"
	"os"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/shop")) }

// At a miter the rear edge of a leg differs from its front edge by width times
// tan(turn/2), on the flat too: the top's slope only spreads it.
func TestPublishedMiterTrims(t *testing.T) {
	src := published.From("FAA AC 43.13-1B Table 4-7 as printed", "tan of half the turn")
	for _, c := range []struct {
		turn    float64 // degrees, negative at an inside corner
		width   float64 // over 100: mm
		tangent float64
	}{{45, 12, 0.4142}, {60, 12, 0.5773}, {30, 12, 0.2679}, {120, 13.5, 1.732}, {72, 13.5, 0.7265}, {90, 12, 1.000}, {45, 305, 0.4142}, {-90, 12, -1.000}} {
		scale := 25.4
		if c.width > 100 {
			scale = 1
		}
		m := measures{front: 4 * 25.4, rear: 3 * 25.4, slope: 0.25 / 12}
		const long = 900.0
		b := &builder{s: &job.System{}, bend: fold.Bend{Thickness: 1e-9, K: 0.4}} // no thickness to speak of
		r := b.sheet(raw{}, m, section{c.width * scale, m.slope}, fold.Cut{Seam: square(0)}, fold.Cut{Seam: miter(long, 1, math.Tan(c.turn/2*math.Pi/180))})
		f, err := r.develop()
		if err != nil {
			t.Fatal(err)
		}
		top := f.Faces[0] // roof edge left and right, street right and left
		got := ((top[2].X - top[3].X) - (top[1].X - top[0].X)) / scale
		published.Near(t, "miter on the flat", src, fmt.Sprintf("turn %g, %g wide", c.turn, c.width), got/c.width, c.tangent, 0.0006)
	}
}

// A flat weighs its area times what the tables print for a square foot.
func TestPublishedWeights(t *testing.T) {
	for _, c := range []struct {
		source  published.Source
		inches  float64 // thickness
		density float64 // lb/in3
		perFoot float64 // lb/ft2
		girth   float64 // in: 4 + 12 + 3 and two thicknesses, less two deductions of (2 - 0.4 pi/2) T, by hand
	}{
		{published.From("sheet-metal shop text of the 1910s", "copper: 46.5 lb/ft2 for an inch"), 0.0625, 0.3214, 2.906, 18.9535},
		{published.ByHand("t x 144 x density, density of 3003 by Kissell and Ferry, Table 4.3"), 0.050, 0.099, 0.713, 18.9628},
		{published.ByHand("the same, 5052"), 0.063, 0.097, 0.880, 18.9532},
		{published.Recalled("Galvanized Sheet Gauge weight of 24 gauge; 41.82 lb/ft2 per in"), 0.0276, 41.82 / 144, 1.156, 18.9795},
		{published.ByHand("copper of 20 oz, density of the CDA Architecture Design Handbook, 0.322 lb/in3"), 0.0270, 0.322, 1.25, 18.9799},
	} {
		const pound = 453.59237 // g
		s := &job.System{Metal: job.Metal{Thickness: length.FromMM(c.inches * 25.4), Density: c.density * pound / 16.387064 * 1000}}
		s.Profile = job.Profile{FrontLeg: job.Leg{Length: 4 * length.Inch}, RearLeg: job.Leg{Length: 3 * length.Inch}}
		b := builder{j: &job.Job{System: *s}, s: s, shop: &job.Shop{K: 0.4}, step: length.Inch / 64,
			bend: fold.Bend{Thickness: s.Metal.Thickness.MM(), K: 0.4}}
		const inside, long = 12 * length.Inch, 120 * length.Inch
		run := &cap.Run{Run: &wall.Run{Cap: long}, Inside: inside, Bands: []cap.Band{{To: long, Inside: inside}}}
		p := &cap.Piece{Kind: cap.Straight, Inside: inside, Wide: inside, Narrow: inside}
		p.Parts = []cap.Part{{Piece: p, Run: run, To: long}}
		p.LeftEnd, p.RightEnd = job.EndTurn, job.EndTurn
		f := &Family{}
		b.pattern(f, p)
		want := c.girth * 120 / 144 * c.perFoot * pound
		published.Near(t, "weight of a flat", c.source, fmt.Sprintf("%.4f in thick, grams", c.inches), float64(f.Grams), want, 0.005*want)
	}
}
