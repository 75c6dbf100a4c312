package fold

import (
	"fmt"
	"math"
	"os"
	"testing"

	"copingset/layout/internal/published"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/fold")) }

func TestPublishedBends(t *testing.T) {
	empirical := func(r, t float64) Bend { return Bend{Thickness: t, Radius: r, K: 0.0078 * 180 / math.Pi} }
	al := Bend{Thickness: 0.050, Radius: 0.0625, K: 0.40}
	cases := []struct {
		source    published.Source
		what      string
		b         Bend
		turn      float64
		ba, bd    float64
		tolerance float64
	}{
		{published.From("sheet-metal workbook for aircraft", "90 degrees, T .050, R .032"), "a bend", empirical(0.032,
			0.050), 90, 0.085, 0.079, 0.0006},
		{published.ByHand("FAA airframe handbook, U-channel, empirical allowance"), "a bend", empirical(0.16, 0.040), 90,
			0.2791, 0.4 - 0.2791, 0.0005},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived from the formulas, plain steel K .44",
			Bend{0.125, 0.125, 0.44}, 90, 0.2827, 0.2173, 0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, aluminum K .40", al, 90, 0.1296, 0.0954,
			0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, the same at 45", al, 45, 0.0648, 0.0284,
			0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, the same at 30", al, 30, 0.0432, 0.0171,
			0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, the same at 135", al, 135, 0.1944, 0.3488,
			0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, 24 gauge galvanized", Bend{0.0276, 0.030,
			0.44}, 90, math.NaN(), 0.0490, 0.00006},
		{published.ByHand("BA = theta (R + K T), BD = 2 OSSB - BA"), "derived, aluminum .080", Bend{0.080, 0.094, 0.38}, 90,
			math.NaN(), 0.1526, 0.00006},
	}
	for _, c := range cases {
		if !math.IsNaN(c.ba) {
			published.Near(t, "bend allowance", c.source, c.what, c.b.Allowance(c.turn), c.ba, c.tolerance)
		}
		got, err := c.b.Deduction(c.turn)
		published.Near(t, "bend deduction", c.source, c.what, got, c.bd, c.tolerance)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
	}
	workbook := published.From("sheet-metal workbook for aircraft", "flat of outside lengths .740, .420, 1.050, 1.000")
	d, _ := empirical(0.032, 0.050).Deduction(90)
	published.Near(t, "bend deduction", workbook, "flat, its deduction rounded to .079",
		0.740+0.420+1.050+1.000-3*math.Round(d*1000)/1000, 2.973, 0.0001)
	channel := published.From("FAA airframe handbook", "U-channel, T .040, R .16, legs 1.00, 2.00, 1.00")
	setback := empirical(0.16, 0.040).Setback(90)
	published.Near(t, "setback", channel, "setback", setback, 0.200, 1e-9)
	published.Near(t, "setback", channel, "flat of a leg", 1-setback, 0.800, 1e-9)
	published.Near(t, "setback", channel, "flat of the web", 2-2*setback, 1.600, 1e-9)
	for _, c := range []struct{ turn, want float64 }{{30, 0.2679}, {45, 0.4142}, {60, 0.5773}, {90, 1}, {120, 1.732},
		{135, 2.414}} {
		published.Near(t, "setback", published.From("FAA AC 43.13-1B Table 4-7 as printed", "setback factor"),
			fmt.Sprintf("%g degrees", c.turn), (Bend{Thickness: 1}).Setback(c.turn), c.want, 0.0005)
	}
	if _, err := al.Deduction(180); err == nil {
		t.Error("AC 43.13-1B, Table 4-7: the setback at 180 degrees is infinite, yet a deduction was given")
	}
	// 0.50 + (pi 0.40 - 2) 0.050 = 0.50 - 0.743 x 0.050, derived from the hem formula with R = 0.
	published.Near(t, "hem", published.ByHand("(2 - pi K) T off a closed hem, R = 0"), "1/2 in", al.Hem(0.5),
		0.5-0.743*0.050, 0.0001)
}

func TestPublishedCaps(t *testing.T) {
	al := Bend{Thickness: 0.050, Radius: 0.0625, K: 0.40}
	legs := func(fall, kick float64) []Leg { // both bends down, a kick turned out of the front, the rear one like it
		slope := math.Atan(fall) / radians
		out := []Leg{{Name: "front", Outside: 4, Turn: -90 - slope, Radius: al.Radius},
			{Name: "top", Outside: math.Hypot(12.5, 12.5*fall), Turn: -90 + slope, Radius: al.Radius}, {Name: "rear", Outside: 3}}
		if kick > 0 {
			out[2].Turn, out[2].Radius = 30, al.Radius
			out = append(append([]Leg{{Name: "drip", Outside: kick, Turn: 30, Radius: al.Radius}}, out...), Leg{Name: "kick", Outside: kick})
		}
		return out
	}
	cases := []struct {
		source string
		legs   []Leg
		root   int
		girth  float64
	}{
		{"derived: outside 4 + 12.5 + 3, two 90 bends", legs(0, 0), 1, 19.3092},
		{"derived: top falls 1/4 in per ft, bends 91.1935 and 88.8065", legs(1.0/48, 0), 1, 19.3118},
		{"derived: the same with two 1/2 in kicks at 30", legs(1.0/48, 0.5), 2, 20.2776},
	}
	for _, c := range cases {
		p, err := NewPath(al.Thickness, al.K, c.legs, c.root)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: Cut{Seam: Square(10, true)}}.Pattern(0.05)
		if err != nil {
			t.Fatal(err)
		}
		lo, hi := f.Bounds()
		published.Near(t, "flat of a cap", published.ByHand("sum of the outside legs less the deductions"), c.source,
			hi.Y-lo.Y, c.girth, 0.0001)
		published.Near(t, "flat of a cap", published.ByHand("a straight cap keeps its length"), c.source, hi.X-lo.X, 10, 1e-9)
		var sum float64
		for _, b := range f.Bends {
			if b.Between[0] == "top" {
				sum += b.Turn
			}
		}
		if math.Abs(sum+180) > 1e-9 { // both down
			t.Errorf("%s: the bends beside the top turn %.4f together, want -180", c.source, sum)
		}
	}
}

func TestPublishedMiters(t *testing.T) {
	cases := []struct {
		source      string
		turn, slope float64 // slope as rise over run
		angle       float64 // of the cut on the flat top, off square
	}{
		{"derived: turn 90, slope 1/4 per ft", 90, 0.25 / 12, 44.9938},
		{"derived: turn 90, slope 1/2 per ft", 90, 0.5 / 12, 44.9752},
		{"derived: turn 90, slope 1 per ft", 90, 1.0 / 12, 44.9009},
	}
	for _, c := range cases {
		fall := math.Atan(c.slope) / radians
		p, err := NewPath(1e-12, 0.4, []Leg{{Name: "front", Outside: 4, Turn: -90 - fall}, {Name: "top", Outside: math.Hypot(12, 12*c.slope), Turn: -90 + fall}, {Name: "rear", Outside: 3}}, 1)
		if err != nil {
			t.Fatal(err)
		}
		p.Slope = c.slope
		miter := func(y, _, _ float64) float64 { return 30 - y*math.Tan(c.turn/2*radians) }
		f, err := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: Cut{Seam: miter}}.Pattern(0.05)
		if err != nil {
			t.Fatal(err)
		}
		top := f.Faces[0]
		d := top[2].minus(top[1]) // roof edge to street edge at the right end
		published.Near(t, "miter on the flat", published.ByHand("atan(tan(turn/2) cos s)"), c.source, math.Atan2(d.X,
			d.Y)/radians, c.angle, 0.0001)
		if got := d.X; math.Abs(got-12*math.Tan(c.turn/2*radians)) > 1e-9 {
			t.Errorf("%s: trim %.4f", c.source, got)
		}
	}
}

// Bends past a right angle: aluminum 0.050 in, inside radius 0.0625, K 0.40, both
// legs measured to the apex or to the outside tangent. Derived from BA and from
// R + T outside of this code, and printed in inches.
func TestBendsPastNinety(t *testing.T) {
	const source = "derived: flat = L1 + L2 - (2 Ro - BA) to the tangent, 2 Ro tan(turn/2) - BA to the apex"
	for _, c := range []struct{ turn, allowance, apex, tangent float64 }{
		{90, .1296, .0954, .0954},
		{105, .1512, .1420, .0738},
		{120, .1728, .2169, .0522},
		{135, .1944, .3488, .0306},
		{150, .2160, .6237, .0090},
		{165, .2376, 1.4715, -.0126},
		{180, .2592, math.NaN(), -.0342},
	} {
		girth := func(to Measure) float64 {
			p, err := NewPath(0.050, 0.40, []Leg{{Name: "a", Outside: 3, Turn: c.turn, Radius: 0.0625, To: to}, {Name: "b", Outside: 2}}, 0)
			if err != nil {
				t.Fatalf("%v: %v", c.turn, err)
			}
			return p.Girth()
		}
		if got := 5 - girth(ToTangent); math.Abs(got-c.tangent) > 0.00006 {
			t.Errorf("%s: %v degrees: tangent deduction %.4f, want %.4f", source, c.turn, got, c.tangent)
		}
		if math.IsNaN(c.apex) {
			continue
		}
		if got := 5 - girth(ToMoldLine); math.Abs(got-c.apex) > 0.00006 {
			t.Errorf("%s: %v degrees: apex deduction %.4f, want %.4f", source, c.turn, got, c.apex)
		}
	}
	// A closed hem is the same line at 180 degrees with no radius: deduct 0.743 T at K 0.40.
	p, err := NewPath(0.050, 0.40, []Leg{{Name: "leg", Outside: 4, Turn: 180, To: ToTangent}, {Name: "hem", Outside: 0.5}}, 0)
	if err != nil || math.Abs(4.5-p.Girth()-0.743*0.050) > 0.0001 {
		t.Errorf("%s: closed hem %.4f, %v", source, p.Girth(), err)
	}
}

// Cut square to the sheet, the legs of a corner that turn away from each other
// meet with their inner edges: the outer edge stays T tan(turn/2) short of the
// outer miter point. Derived.
func TestOpenCornerCutBack(t *testing.T) {
	for _, c := range []struct{ thickness, turn, want float64 }{
		{.040, 30, .0107}, {.040, 90, .0400}, {.050, 45, .0207}, {.050, 90, .0500}, {.063, 60, .0364}, {.0276, 90, .0276},
	} {
		p, err := NewPath(c.thickness, 0.4, []Leg{{Name: "front leg", Outside: 5, Turn: -90, Radius: 0.0625}, {Name: "top", Outside: 12}}, 1)
		if err != nil {
			t.Fatal(err)
		}
		m := math.Tan(c.turn / 2 * radians)
		cut := Cut{Seam: func(y, _, _ float64) float64 { return 30 - y*m }}
		l := p.Lay()
		from, to := l.Span(0)
		if got := 30 - cut.X(l, (from+to)/2, true); math.Abs(got-c.want) > 0.00006 {
			t.Errorf("derived, T tan(turn/2): %v at %v degrees: %.4f, want %.4f", c.thickness, c.turn, got, c.want)
		}
	}
}
