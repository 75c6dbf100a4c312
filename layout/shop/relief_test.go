package shop

import (
	"math"
	"testing"

	"copingset/layout/fold"
)

// A region is taken out of an outline where it lies along one edge, in a corner,
// and over a notch narrower than itself, where the outline runs through it twice.
func TestWithout(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) []fold.Point {
		return []fold.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	// 100 by 50 with a slit 1 wide and 20 deep from below, at x = 50.
	slit := []fold.Point{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 50, Y: 20}, {X: 51, Y: 20}, {X: 51, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 50}, {X: 0, Y: 50}}
	for _, c := range []struct {
		name string
		ring []fold.Point
		clip []fold.Point
		area float64
		ok   bool
	}{
		{"on an edge", box(0, 0, 100, 50), box(40, -2, 44, 2), 5000 - 8, true},
		{"in a corner", box(0, 0, 100, 50), box(-2, -2, 2, 2), 5000 - 4, true},
		{"at the end of a slit", slit, box(48, 18, 53, 22), 4980 - (5*4 - 1*2), true},
		{"across a slit, a sliver falls off", slit, box(40, -2, 49.5, 30), 4980 - 9.5*30, true},
		{"across a slit near its mouth", slit, box(48, 5, 53, 9), 4980 - (5*4 - 1*4), true},
		{"clear of it", box(0, 0, 100, 50), box(40, 60, 44, 64), 5000, false},
	} {
		got, ok := without(c.ring, c.clip)
		if ok != c.ok || math.Abs(fold.Area(got)-c.area) > 1e-6 {
			t.Errorf("%s: area %.3f, ok %v; want %.3f, %v: %v", c.name, fold.Area(got), ok, c.area, c.ok, got)
		}
		if fold.Crosses(got) {
			t.Errorf("%s: the outline crosses itself: %v", c.name, got)
		}
	}
}
