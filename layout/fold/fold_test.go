package fold

import (
	"errors"
	"math"
	"testing"

	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// refold folds a pattern back from its bend lines alone: each face moves out
// by what its bend took, and turns about the mold line.
func refold(s Solid, f Flat, b Bend) [][]Vec {
	up := func(p Point) Vec { return Vec{p.X, p.Y, 0} }
	out := make([][]Vec, len(f.Faces))
	move := make([]func(Vec) Vec, len(f.Faces))
	move[0] = func(v Vec) Vec { return v }
	for i, j := range s.Folds {
		l := f.Bends[i]
		d, _ := b.Deduction(math.Abs(l.Turn))
		p, q := up(l.From), up(l.To)
		u := q.minus(p).unit()
		outward := u.cross(Vec{0, 0, 1}) // the parent lies to the left of its edge
		p = p.plus(outward.times(d / 2))
		turn := l.Turn * radians
		parent := move[j.A]
		move[j.B] = func(v Vec) Vec {
			v = v.plus(outward.times(d)).minus(p)
			// Rodrigues about u.
			s, c := math.Sincos(turn)
			v = v.times(c).plus(u.cross(v).times(-s)).plus(u.times(u.dot(v) * (1 - c)))
			return parent(v.plus(p))
		}
	}
	for i, face := range f.Faces {
		for _, p := range face {
			out[i] = append(out[i], move[i](up(p)))
		}
	}
	return out
}

func cap(t *rapid.T) Profile {
	f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	w, s := f("width", 200, 500), f("slope", 0, 0.1)
	front, rear, drip, hook := f("front", 60, 200), f("rear", 50, 120), f("drip", 10, 20), f("hook", 10, 20)
	a, b := f("drip angle", 10, 60)*radians, f("hook angle", 100, 150)*radians
	return Profile{
		Y:     []float64{-drip * math.Sin(a), 0, 0, w, w, w - hook*math.Sin(b)},
		Z:     []float64{-front - drip*math.Cos(a), -front, 0, -s * w, -s*w - rear, -s*w - rear - hook*math.Cos(b)},
		Names: []string{"drip", "front", "top", "rear", "hook"},
	}
}

func bend(t *rapid.T) Bend {
	return Bend{rapid.Float64Range(0.5, 1.2).Draw(t, "thickness"), rapid.Float64Range(0, 1).Draw(t, "radius"), rapid.Float64Range(0.3, 0.5).Draw(t, "k")}
}

// The pattern folds back to the solid, and loses no more area than its bends
// take.
func TestRefold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, b := cap(t), bend(t)
		turn := func(name string) float64 { return rapid.Float64Range(-120, 120).Draw(t, name) / 2 * radians }
		l, r := math.Tan(turn("left")), math.Tan(turn("right"))
		// Ends in the plane of a pitch miter move with the height too.
		pitch := func(name string) float64 {
			if rapid.Bool().Draw(t, name+" pitched") {
				return math.Tan(rapid.Float64Range(-70, 70).Draw(t, name+" pitch") / 2 * radians)
			}
			return 0
		}
		lp, rp := pitch("left"), pitch("right")
		const long = 2500
		s := Prism(p, 2, func(y, z, _ float64) float64 { return y*l - z*lp }, func(y, z, _ float64) float64 { return long - y*r + z*rp })
		f, err := Unfold(s, b)
		if err != nil {
			t.Fatal(err)
		}
		got := refold(s, f, b)
		for i := range s.Faces {
			for j := range s.Faces[i].Corners {
				for k := range s.Faces {
					for m := range s.Faces[k].Corners {
						want := s.Faces[i].Corners[j].distance(s.Faces[k].Corners[m])
						if d := got[i][j].distance(got[k][m]); math.Abs(d-want) > 0.001 {
							t.Fatalf("from %s corner %d to %s corner %d: %.4f folded back, %.4f in the solid", s.Faces[i].Name, j, s.Faces[k].Name, m, d, want)
						}
					}
				}
			}
		}
		var solid, taken float64
		for _, face := range s.Faces {
			solid += face.Area()
		}
		for _, l := range f.Bends {
			d, _ := b.Deduction(math.Abs(l.Turn))
			taken += d * l.To.minus(l.From).length()
		}
		if a := Area(f.Outline); math.Abs(a-(solid-taken)) > 0.0005*solid {
			t.Fatalf("flat area %.1f, want %.1f less %.1f", a, solid, taken)
		}
		if Crosses(f.Outline) {
			t.Fatal("the outline crosses itself")
		}
		for _, l := range f.Bends {
			if up := l.Between == [2]string{"front", "drip"}; (l.Turn > 0) != up {
				t.Fatalf("the bend between %v turns %.1f", l.Between, l.Turn)
			}
		}
	})
}

// A flange its bend would use up is refused, not drawn inside out.
func TestTooShort(t *testing.T) {
	p := Profile{Y: []float64{0, 0, 300, 300, 296}, Z: []float64{-100, 0, -12, -92, -85}, Names: []string{"front", "top", "rear", "hook"}}
	square := func(x float64) Seam { return Square(x, true) }
	_, err := Unfold(Prism(p, 1, square(0), square(600)), Bend{2, 4, 0.4})
	var short *TooShort
	if !errors.As(err, &short) || short.Face != "hook" {
		t.Errorf("a hook of 8 mm at a 4 mm radius: %v", err)
	}
}

// Left and right twins are exact mirrors: the same corners with x reversed.
func TestTwinsAreMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, b := cap(t), bend(t)
		m := math.Tan(float64(rapid.IntRange(-110, 110).Draw(t, "turn")) / 2 * radians)
		right, err1 := Unfold(Prism(p, 2, func(_, _, _ float64) float64 { return 0 }, func(y, _, _ float64) float64 { return 900 - y*m }), b)
		left, err2 := Unfold(Prism(p, 2, func(y, _, _ float64) float64 { return -900 + y*m }, func(_, _, _ float64) float64 { return 0 }), b)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		lo1, hi1 := right.Bounds()
		lo2, hi2 := left.Bounds()
		if len(right.Outline) != len(left.Outline) {
			t.Fatalf("%d corners and %d", len(right.Outline), len(left.Outline))
		}
		for _, q := range right.Outline {
			w := Point{hi2.X - (q.X - lo1.X), q.Y - lo1.Y + lo2.Y}
			found := false
			for _, v := range left.Outline {
				found = found || v.minus(w).length() < 1e-6
			}
			if !found {
				t.Fatalf("corner %v has no twin at %v; %v %v", q, w, hi1, lo2)
			}
		}
	})
}

// A flange at the end of a cap, where it dies into a higher wall.
func TestUpstand(t *testing.T) {
	p := Profile{Y: []float64{0, 0, 300, 300}, Z: []float64{-100, 0, -12, -92}, Names: []string{"front", "top", "rear"}}
	square := func(x float64) Seam { return Square(x, true) }
	s := Prism(p, 1, square(0), square(600))
	a, c := s.Faces[0].edge(1) // the top's right end, roof to street
	up := Vec{0, 0, 100}
	s.Faces = append(s.Faces, Face{"upstand", []Vec{a, c, c.plus(up), a.plus(up)}})
	// Seen from the finish side the flange shows its inner side: it came up.
	s.Faces[3].Corners = []Vec{c, a, a.plus(up), c.plus(up)}
	s.Folds = append(s.Folds, Fold{A: 0, EdgeA: 1, B: 3, EdgeB: 0})
	f, err := Unfold(s, Bend{})
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Bends[2].Turn; math.Abs(got-90) > 1e-9 {
		t.Errorf("the upstand bends %.3f, want 90 up", got)
	}
	lo, hi := f.Bounds()
	if math.Abs(hi.X-lo.X-700) > 1 {
		t.Errorf("the pattern is %.2f long, want about 700", hi.X-lo.X)
	}
}

func BenchmarkUnfold(b *testing.B) {
	p := Profile{Y: []float64{-8, 0, 0, 300, 300, 294}, Z: []float64{-114, -100, 0, -12, -92, -86}, Names: []string{"drip", "front", "top", "rear", "hook"}}
	for b.Loop() {
		for i := range 10000 {
			s := Prism(p, 2, func(y, _, _ float64) float64 { return y }, func(y, _, _ float64) float64 { return float64(900+i%100) - y })
			if _, err := Unfold(s, Bend{1.3, 1.6, 0.4}); err != nil {
				b.Fatal(err)
			}
		}
	}
}
