package fold

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// testCap is a cap in millimetres as a fabricator states it: legs to the
// tangent where they turn 90 degrees or more.
func testCap(t, r, drip, dripTurn, front, slope, width, rear, hook, hookTurn, hem float64) (Path, error) {
	fall := math.Atan(slope) / radians
	long := width / math.Cos(fall*radians)
	var legs []Leg
	if hem > 0 {
		legs = append(legs, Leg{Name: "hem", Outside: hem, Turn: -180, To: ToTangent})
	}
	legs = append(legs,
		Leg{Name: "drip", Outside: drip, Turn: dripTurn, Radius: r},
		Leg{Name: "front leg", Outside: front, Turn: -(90 + fall), Radius: r},
		Leg{Name: "top", Outside: long, Turn: -(90 - fall), Radius: r},
		Leg{Name: "rear leg", Outside: rear, Turn: -hookTurn, Radius: r, To: ToTangent},
		Leg{Name: "hook", Outside: hook},
	)
	if hem > 0 {
		legs[len(legs)-1].Turn, legs[len(legs)-1].To = -180, ToTangent
		legs = append(legs, Leg{Name: "hem", Outside: hem})
	}
	root := 2
	if hem > 0 {
		root = 3
	}
	p, err := NewPath(t, 0.4, legs, root)
	p.Slope = slope
	return p, err
}

// lowest and the like are read off the folded metal, which knows nothing of the
// measures it was stated in.
func extent(l Laid, from, to float64, along Point) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for k := range 2001 {
		s := from + (to-from)*float64(k)/2000
		f, b := l.Skins(s)
		for _, p := range []Point{f, b} {
			d := p.X*along.X + p.Y*along.Y
			lo, hi = math.Min(lo, d), math.Max(hi, d)
		}
	}
	return lo, hi
}

// The rear leg stated to the tangent reaches from the outside mold line of the
// top to its lowest metal, and the outside width from street metal to roof
// metal, whatever the radius, thickness and hook.
func TestStatedLegsAreTheFoldedOnes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		th, r, slope := f("thickness", 0.5, 2), f("radius", 0, 3), f("slope", 0, 0.1)
		width, rear, hookTurn := f("width", 200, 500), f("rear", 50, 120), f("hook turn", 90, 165)
		p, err := testCap(th, r, 20, f("drip turn", 5, 60), f("front", 60, 200), slope, width, rear, 25, hookTurn, 0)
		if err != nil {
			t.Fatal(err)
		}
		l := p.Lay()
		const leg = 3
		from, to := l.Span(leg)
		lo, _ := extent(l, from, to+p.Segs[leg].Arc, Point{0, 1})
		if got := -slope*width - lo; math.Abs(got-rear) > 0.01 {
			t.Errorf("the rear leg folds to %.3f mm, stated %.3f", got, rear)
		}
		from, _ = l.Span(1)
		_, hi := extent(l, from, p.Girth(), Point{1, 0})
		if math.Abs(hi-width) > 0.01 {
			t.Errorf("the cap folds to %.3f mm outside, stated %.3f", hi, width)
		}
		ff, _ := l.Skins(from + 1)
		if math.Abs(ff.X) > 0.001 {
			t.Errorf("the street face of the front leg stands at y %.4f, want 0", ff.X)
		}
	})
}

// Every part of a skin is as far from the other as the metal is thick, and a
// developed length keeps its length between them.
func TestSkinsAreOneSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		th := f("thickness", 0.5, 2)
		p, err := testCap(th, f("radius", 0, 3), 20, f("drip turn", 5, 60), 150, 0.03, 300, 90, 20, f("hook turn", 90, 160), 10)
		if err != nil {
			t.Fatal(err)
		}
		l := p.Lay()
		s := f("place", 0, p.Girth())
		a, b := l.Skins(s)
		if d := a.minus(b).length(); math.Abs(d-th) > 1e-9 {
			t.Errorf("%.6f mm thick at %.2f", d, s)
		}
		u, v := l.Skins(s + 1e-6)
		if a.minus(u).length() > 2e-4 || b.minus(v).length() > 2e-4 {
			t.Errorf("a skin jumps at %.4f", s)
		}
	})
}

func TestMeasuresThatDoNotExist(t *testing.T) {
	for _, c := range []struct {
		name string
		legs []Leg
	}{
		{"a hem to its mold line", []Leg{{Name: "leg", Outside: 20, Turn: 180}, {Name: "hem", Outside: 10}}},
		{"a kick to its tangent", []Leg{{Name: "leg", Outside: 20, Turn: 30, To: ToTangent}, {Name: "kick", Outside: 10}}},
		{"a last bend", []Leg{{Name: "leg", Outside: 20, Turn: 90}}},
	} {
		if _, err := NewPath(1, 0.4, c.legs, 0); err == nil {
			t.Errorf("%s: no error", c.name)
		}
	}
	_, err := NewPath(1, 0.4, []Leg{{Name: "leg", Outside: 20, Turn: 150, Radius: 1}, {Name: "hook", Outside: 5}}, 0)
	var tight *TooTight
	if !errors.As(err, &tight) || tight.Name != "hook" {
		t.Errorf("a hook of 5 mm to the apex of 150 degrees: %v", err)
	}
}

// A hem leaf that lies across the next bend is metal in metal.
func TestHemAcrossItsBend(t *testing.T) {
	good, err := testCap(1.27, 1.6, 16, 35, 150, 0.03, 300, 90, 22, 150, 9)
	if err != nil {
		t.Fatal(err)
	}
	if c, bad := good.Lay().Clash(); bad {
		t.Errorf("a hem of 9 on a hook of 22: %+v", c)
	}
	bad, err := testCap(1.27, 1.6, 16, 35, 150, 0.03, 300, 90, 12, 150, 11.5)
	if err != nil {
		t.Fatal(err)
	}
	if _, is := bad.Lay().Clash(); !is {
		t.Error("a hem of 11.5 mm on a hook of 12 mm does not clash")
	}
}

// Two legs of a corner lie each on its own side of the seam, half the gap off
// it where they are nearest, on straights, in bends and along hems.
func TestCutsStandHalfTheGapOff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		p, err := testCap(f("thickness", 0.5, 2), f("radius", 0, 3), 20, f("drip turn", 5, 60), 150, 0.03, 300, 90, 25, f("hook turn", 90, 150), 10)
		if err != nil {
			t.Fatal(err)
		}
		m := math.Tan(f("turn", -110, 110) / 2 * radians)
		gap := f("gap", 0, 2)
		c := Cut{Seam: func(y, _, off float64) float64 { return 900 - y*m - off*math.Hypot(1, m) }, Gap: gap}
		l := p.Lay()
		square := math.Sqrt(1 + m*m)
		for k := range 4001 {
			s := p.Girth() * float64(k) / 4000
			x := c.X(l, s, true)
			a, b := l.Skins(s)
			da, db := (900-a.X*m-x)/square, (900-b.X*m-x)/square
			if d := math.Min(da, db); math.Abs(d-gap/2) > 1e-6 {
				t.Fatalf("at %.2f the metal stands %.5f mm off the seam, want %.5f", s, d, gap/2)
			}
		}
	})
}
