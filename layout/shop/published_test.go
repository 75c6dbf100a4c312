package shop

import (
	"math"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// At a miter the rear edge of a leg differs from its front edge by width times
// tan(turn/2), on the flat too: the top's slope only spreads it.
func TestPublishedMiterTrims(t *testing.T) {
	for _, c := range []struct {
		source string
		turn   float64 // degrees, negative at an inside corner
		width  float64
		trim   float64
	}{
		{"polygon table worked from trim = y tan(turn/2); tan column of FAA AC 43.13-1B, Table 4-7", 90, 12, 12},
		{"the same", 60, 12, 6.9282},
		{"the same", 45, 12, 4.9706},
		{"the same", 30, 12, 3.2154},
		{"the same", 120, 13.5, 23.3827},
		{"the same", 72, 13.5, 9.8083},
		{"the same, metric", 45, 305, 126.34},
		{"the same, inside corner: the rear is the longer", -90, 12, -12},
	} {
		scale := 25.4
		if c.width > 100 {
			scale = 1
		}
		m := measures{front: 4 * 25.4, rear: 3 * 25.4, slope: 0.25 / 12}
		sec := sectionOf(m, c.width*scale)
		const long = 900.0
		end := miter(long, 1, math.Tan(c.turn/2*math.Pi/180))
		f, err := fold.Unfold(fold.Prism(sec.profile, sec.top, square(0), end), fold.Bend{})
		if err != nil {
			t.Fatalf("%s: %v", c.source, err)
		}
		top := f.Faces[0] // roof edge left and right, street right and left
		got := ((top[2].X - top[3].X) - (top[1].X - top[0].X)) / scale
		if math.Abs(got-c.trim) > 0.006 && math.Abs(got-c.trim) > 0.00006*c.width {
			t.Errorf("%s: turn %.0f, width %.1f: trim %.4f, want %.4f", c.source, c.turn, c.width, got, c.trim)
		}
	}
}

// A flat weighs its area times what the tables print for a square foot.
func TestPublishedWeights(t *testing.T) {
	for _, c := range []struct {
		source  string
		inches  float64 // thickness
		density float64 // lb/in3
		perFoot float64 // lb/ft2
	}{
		{"derived from t x 144 x density, density of 3003 by Kissell and Ferry, Table 4.3", 0.050, 0.099, 0.713},
		{"the same, 5052", 0.063, 0.097, 0.880},
		{"Galvanized Sheet Gauge weight of 24 gauge, from memory; 41.82 lb/ft2 per in", 0.0276, 41.82 / 144, 1.156},
		{"copper of 20 oz, CDA Architecture Design Handbook density 0.322 lb/in3", 0.0270, 0.322, 1.25},
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
		deduction, _ := b.bend.Deduction(90)
		girth := 4 + 3 + 12 + 2*c.inches - 2*deduction/25.4
		want := girth * 120 / 144 * c.perFoot * pound
		if got := float64(f.Grams); math.Abs(got-want) > 0.004*want {
			t.Errorf("%s: %.0f g, want %.0f", c.source, got, want)
		}
	}
}
