package fold

import (
	"errors"
	"math"
	"testing"

	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// A cut that leaves nothing of a flange is refused, not drawn inside out.
func TestTooShort(t *testing.T) {
	p, err := testCap(2, 4, 20, 30, 100, 0.03, 300, 80, 25, 150, 0)
	if err != nil {
		t.Fatal(err)
	}
	cut := func(right bool) Cut {
		x, k := 0.0, 1.0
		if right {
			x, k = 100, -1
		}
		return Cut{Seam: func(y, _, _ float64) float64 { return x + k*y }}
	}
	_, err = Sheet{Path: p, Left: cut(false), Right: cut(true)}.Pattern(0.05)
	var short *TooShort
	if !errors.As(err, &short) || short.Face == "" {
		t.Errorf("legs of 100 mm mitered at both ends over 300 mm: %v", err)
	}
}

// Left and right twins are mirrors: the corners of one lie on the other, x reversed.
func TestTwinsAreMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		p, err := testCap(f("thickness", 0.5, 2), f("radius", 0, 3), 20, f("drip turn", 5, 60), 150, 0.03, 300, 90, 25, f("hook turn", 90, 150), 10)
		if err != nil {
			t.Fatal(err)
		}
		m := math.Tan(float64(rapid.IntRange(-110, 110).Draw(t, "turn")) / 2 * radians)
		miter := func(right bool) Cut {
			side := 1.0
			if !right {
				side = -1
			}
			return Cut{Gap: 1, Seam: func(y, _, off float64) float64 { return side * (900 - y*m - off*math.Hypot(1, m)) }}
		}
		right, err1 := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: miter(true)}.Pattern(0.05)
		left, err2 := Sheet{Path: p, Left: miter(false), Right: Cut{Seam: Square(0, true)}}.Pattern(0.05)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for _, q := range right.Outline {
			best := math.Inf(1)
			for i, v := range left.Outline {
				best = math.Min(best, toSegment(Point{-q.X, q.Y}, v, left.Outline[(i+1)%len(left.Outline)]))
			}
			if best > 1e-5 {
				t.Fatalf("corner %v stands %.6f off its twin", q, best)
			}
		}
	})
}

// A flange at the end of a cap, where it dies into a higher wall.
func TestUpstand(t *testing.T) {
	p, err := NewPath(1, 0.4, []Leg{{Name: "front", Outside: 100, Turn: -90, Radius: 1}, {Name: "top", Outside: 300, Turn: -90, Radius: 1}, {Name: "rear", Outside: 80}}, 1)
	if err != nil {
		t.Fatal(err)
	}
	b := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: Cut{Seam: Square(600, true)}}
	b.Tabs[1] = &Tab{Name: "upstand", Height: 100, Radius: 1}
	f, err := b.Pattern(0.05)
	if err != nil {
		t.Fatal(err)
	}
	up := f.Bends[len(f.Bends)-1]
	if up.Turn != 90 || up.Between != [2]string{"top", "upstand"} {
		t.Errorf("%+v, want 90 up", up)
	}
	less, _ := Bend{1, 1, 0.4}.Deduction(90)
	lo, hi := f.Bounds()
	if got := hi.X - lo.X; math.Abs(got-(700-less)) > 1e-9 {
		t.Errorf("the pattern is %.4f long, want 600 and 100 less %.4f", got, less)
	}
}

// A tray with one straight wing develops as the sheet of the same section does.
func TestTrayOfOneSection(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		th, r, width, rear := f("thickness", 0.5, 2), f("radius", 0, 3), f("width", 200, 500), f("rear", 50, 120)
		hook, turn := f("hook", 25, 40), f("hook turn", 90, 150)
		tilt, gap := math.Tan(f("tilt", -50, 50)*radians), f("gap", 0, 2)
		legs := []Leg{{Name: "top", Outside: width, Turn: -90, Radius: r}, {Name: "rear leg", Outside: rear, Turn: -turn, Radius: r, To: ToTangent}, {Name: "hook", Outside: hook}}
		p, err := NewPath(th, 0.4, legs, 0)
		if err != nil {
			t.Fatal(err)
		}
		const long = 900.0
		miter := func(y, _, off float64) float64 { return long - y*tilt - off*math.Hypot(1, tilt) }
		sheet := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: Cut{Seam: miter, Gap: gap}}
		want, err := sheet.Pattern(0.05)
		if err != nil {
			t.Fatal(err)
		}
		at := func(x, y float64) Vec { return FromLayout(x, y, 0) }
		end := func(y float64) float64 { return miter(y, 0, gap/2) }
		tray := Tray{Face: Face{"top", []Vec{at(0, width), at(end(width), width), at(end(0), 0), at(0, 0)}}}
		tray.Wings = []Wing{{Edge: 0, Path: p, Left: Cut{Seam: Square(0, false)},
			Right: tray.CutBy(0, at(long, 0), Vec{1, -tilt, 0}, gap, true)}}
		got, err := tray.Pattern(0.05)
		if err != nil {
			t.Fatal(err)
		}
		// The sheet's lowest edge is its roof edge, the tray's level edge its rear mold line.
		lo, hi := want.Bounds()
		lo2, hi2 := got.Bounds()
		if math.Abs(hi.X-lo.X-hi2.X+lo2.X) > 1e-6 || math.Abs(hi.Y-lo.Y-hi2.Y+lo2.Y) > 1e-6 {
			t.Fatalf("the tray is %.4f by %.4f, the sheet %.4f by %.4f", hi2.X-lo2.X, hi2.Y-lo2.Y, hi.X-lo.X, hi.Y-lo.Y)
		}
		if a, b := Area(got.Outline), Area(want.Outline); math.Abs(a-b) > 0.05*(width+rear) {
			t.Fatalf("areas %.2f and %.2f", a, b)
		}
		if len(got.Bends) != len(want.Bends) {
			t.Fatalf("%d bends and %d", len(got.Bends), len(want.Bends))
		}
		for i := range got.Bends {
			a, b := got.Bends[i], want.Bends[i]
			if a.Between != b.Between || math.Abs(a.Turn-b.Turn) > 1e-9 || math.Abs(a.Arc-b.Arc) > 1e-9 || math.Abs(a.From.Y-lo2.Y-b.From.Y+lo.Y) > 1e-6 || math.Abs(a.To.X-b.To.X) > 1e-6 {
				t.Fatalf("%+v and %+v", a, b)
			}
		}
	})
}

func BenchmarkPattern(b *testing.B) {
	p, err := testCap(1.3, 1.6, 16, 35, 150, 0.03, 300, 90, 25, 150, 9)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for i := range 1000 {
			s := Sheet{Path: p, Left: Cut{Seam: Square(0, false)}, Right: Cut{Seam: func(y, _, _ float64) float64 { return float64(900+i%100) - y }}}
			if _, err := s.Pattern(0.05); err != nil {
				b.Fatal(err)
			}
		}
	}
}
