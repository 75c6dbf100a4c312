package drawing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRound(t *testing.T) {
	tests := []struct {
		mm   float64
		want Unit
	}{{0, 0}, {1, 100}, {0.004, 0}, {0.006, 1}, {-0.006, -1}, {25.4, Inch}, {431.8, 43180}, {-12.345, -1235}}
	for _, tt := range tests {
		if got := Round(tt.mm); got != tt.want {
			t.Errorf("Round(%v) = %d, want %d", tt.mm, got, tt.want)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e9} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("Round(%v) did not panic", bad)
				}
			}()
			Round(bad)
		}()
	}
}

func TestUnitString(t *testing.T) {
	tests := map[Unit]string{0: "0.00", 5: "0.05", -5: "-0.05", 100: "1.00", 43180: "431.80", -1234: "-12.34"}
	for u, want := range tests {
		if got := u.String(); got != want {
			t.Errorf("%d prints %s, want %s", int32(u), got, want)
		}
	}
}

func TestPolar(t *testing.T) {
	tests := []struct {
		tenths int
		want   Point
	}{
		{0, Pt(1100, 500)}, {900, Pt(1000, 400)}, {1800, Pt(900, 500)}, {2700, Pt(1000, 600)}, {3600, Pt(1100, 500)}, {-900, Pt(1000, 600)},
		{300, Pt(1087, 450)}, {450, Pt(1071, 429)},
	}
	for _, tt := range tests {
		if got := Polar(Pt(1000, 500), 100, tt.tenths); got != tt.want {
			t.Errorf("Polar at %d tenths = %v, want %v", tt.tenths, got, tt.want)
		}
	}
}

func TestRect(t *testing.T) {
	r := Box(30, 40, 10, 20)
	if r != (Rect{Pt(10, 20), Pt(30, 40)}) {
		t.Fatalf("Box sorts its corners: %v", r)
	}
	if r.Width() != 20 || r.Height() != 20 || r.Centre() != Pt(20, 30) {
		t.Errorf("size %v x %v, centre %v", r.Width(), r.Height(), r.Centre())
	}
	if got := r.Inset(5); got != Box(15, 25, 25, 35) {
		t.Errorf("Inset: %v", got)
	}
	if r.Intersects(Box(30, 20, 40, 40)) {
		t.Error("rectangles that share an edge do not intersect")
	}
	if !r.Intersects(Box(29, 39, 40, 50)) || !r.Contains(r) || r.Contains(Box(10, 20, 31, 40)) || !r.Holds(Pt(30, 40)) {
		t.Error("Intersects, Contains or Holds")
	}
	if got := r.Union(Rect{}); got != r {
		t.Errorf("the zero rectangle adds nothing: %v", got)
	}
}

func TestUnionHoldsBoth(t *testing.T) {
	rect := rapid.Custom(func(t *rapid.T) Rect {
		c := rapid.Int32Range(-5000, 5000)
		return Box(Unit(c.Draw(t, "x0")), Unit(c.Draw(t, "y0")), Unit(c.Draw(t, "x1")), Unit(c.Draw(t, "y1")))
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := rect.Draw(t, "a"), rect.Draw(t, "b")
		u := a.Union(b)
		if !u.Contains(a) || !u.Contains(b) || u != b.Union(a) {
			t.Fatalf("union of %v and %v is %v", a, b, u)
		}
		d := Pt(17, -4)
		if a.Translate(d).Intersects(b.Translate(d)) != a.Intersects(b) {
			t.Fatal("moving both changes whether they meet")
		}
	})
}
