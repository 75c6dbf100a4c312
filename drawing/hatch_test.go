package drawing

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// star draws a polygon that may be notched but does not cross itself.
func star(t *rapid.T) []Point {
	n := rapid.IntRange(3, 12).Draw(t, "corners")
	c := Pt(Unit(rapid.IntRange(-3000, 40000).Draw(t, "cx")), Unit(rapid.IntRange(-3000, 28000).Draw(t, "cy")))
	pts := make([]Point, n)
	for i := range pts {
		pts[i] = Polar(c, Unit(rapid.IntRange(100, 4000).Draw(t, "r")), 3600*i/n)
	}
	return pts
}

// distance returns how far p lies from the nearest edge.
func distance(p [2]float64, ring []Point) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		ax, ay := float64(a.X), float64(a.Y)
		dx, dy := float64(b.X)-ax, float64(b.Y)-ay
		u := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			u = math.Max(0, math.Min(1, ((p[0]-ax)*dx+(p[1]-ay)*dy)/l))
		}
		best = math.Min(best, math.Hypot(p[0]-ax-u*dx, p[1]-ay-u*dy))
	}
	return best
}

func TestHatchStaysInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ring := star(t)
		kind := rapid.SampledFrom(HatchKinds()).Draw(t, "kind")
		for _, l := range HatchLines(kind, [][]Point{ring}) {
			a, b := l.Pts[0], l.Pts[1]
			for k := 0; k <= 8; k++ {
				u := float64(k) / 8
				p := [2]float64{float64(a.X) + u*float64(b.X-a.X), float64(a.Y) + u*float64(b.Y-a.Y)}
				if !within(Pt(Unit(math.Round(p[0])), Unit(math.Round(p[1]))), ring) && distance(p, ring) > 1.5 {
					t.Fatalf("%v: stroke %v leaves the area at %v", kind, l.Pts, p)
				}
			}
		}
	})
}

// area by the shoelace formula.
func area(ring []Point) float64 {
	sum := 0.0
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		sum += float64(a.X)*float64(b.Y) - float64(b.X)*float64(a.Y)
	}
	return math.Abs(sum) / 2
}

// Full lines a distance d apart have a length of area/d, give or take half a line at each edge.
func TestHatchFillsTheArea(t *testing.T) {
	tests := []struct {
		kind    HatchKind
		spacing float64
	}{
		{Packing1, 420 / math.Sqrt2},
		{Packing2, 190},
		{Packing3, 340 / math.Sqrt2 / 2},
		{Packing4, 65},
		{Metal, 70 / math.Sqrt2},
		{Shims, 190 / math.Sqrt(5)},
	}
	rapid.Check(t, func(t *rapid.T) {
		ring := star(t)
		perimeter := 0.0
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			perimeter += math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
		}
		for _, tt := range tests {
			sum := 0.0
			for _, l := range HatchLines(tt.kind, [][]Point{ring}) {
				sum += math.Hypot(float64(l.Pts[1].X-l.Pts[0].X), float64(l.Pts[1].Y-l.Pts[0].Y))
			}
			if diff := math.Abs(sum*tt.spacing - area(ring)); diff > perimeter*tt.spacing*3 {
				t.Fatalf("%v: strokes of %.0f at %.1f cover %.0f, the area is %.0f", tt.kind, sum, tt.spacing, sum*tt.spacing, area(ring))
			}
		}
	})
}

func TestHatchLeavesHoles(t *testing.T) {
	outer, hole := Box(0, 0, 4000, 4000), Box(1000, 1000, 3000, 3000)
	for _, kind := range HatchKinds() {
		lines := HatchLines(kind, [][]Point{outer.Corners(), hole.Corners()})
		if len(lines) == 0 {
			t.Errorf("%v: no strokes in an area of 40 mm", kind)
		}
		for _, l := range lines {
			mid := Pt((l.Pts[0].X+l.Pts[1].X)/2, (l.Pts[0].Y+l.Pts[1].Y)/2)
			if hole.Inset(2).Holds(mid) {
				t.Errorf("%v: stroke %v in the hole", kind, l.Pts)
			}
		}
	}
}

// The pattern keeps to the paper: an area cut in two is hatched as the whole was.
func TestHatchOfNeighboursMeets(t *testing.T) {
	for _, kind := range HatchKinds() {
		whole := HatchLines(kind, [][]Point{Box(0, 0, 5000, 3000).Corners()})
		halves := append(HatchLines(kind, [][]Point{Box(0, 0, 2345, 3000).Corners()}), HatchLines(kind, [][]Point{Box(2345, 0, 5000, 3000).Corners()})...)
		length := func(lines []Line) (sum float64) {
			for _, l := range lines {
				sum += math.Hypot(float64(l.Pts[1].X-l.Pts[0].X), float64(l.Pts[1].Y-l.Pts[0].Y))
			}
			return sum
		}
		// Each stroke cut loses two units at most, and there are fewer cut strokes than strokes.
		if a, b := length(whole), length(halves); math.Abs(a-b) > 2*float64(len(whole)) {
			t.Errorf("%v: %.0f of strokes in the whole, %.0f in the halves", kind, a, b)
		}
	}
}

func TestHatchesDiffer(t *testing.T) {
	ring := [][]Point{Box(0, 0, 3000, 3000).Corners()}
	kinds := HatchKinds()
	for i, a := range kinds {
		for _, b := range kinds[:i] {
			if slices.EqualFunc(HatchLines(a, ring), HatchLines(b, ring), func(x, y Line) bool { return slices.Equal(x.Pts, y.Pts) }) {
				t.Errorf("%v and %v are drawn alike", a, b)
			}
		}
	}
	if got := HatchLines(NoHatch, ring); len(got) != 0 {
		t.Errorf("no hatch draws %d strokes", len(got))
	}
	if got := HatchLines(Metal, nil); len(got) != 0 {
		t.Errorf("no area draws %d strokes", len(got))
	}
}

func TestRatioCompare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		num, den := rapid.Int64Range(-1e6, 1e6), rapid.Int64Range(1, 1e6)
		a := ratio{num.Draw(t, "a"), den.Draw(t, "da")}
		b := ratio{num.Draw(t, "b"), den.Draw(t, "db")}
		if got, want := a.compare(b), sign(a.num*b.den-b.num*a.den); got != want && sign(int64(got)) != want {
			t.Fatalf("%v against %v: %d, want %d", a, b, got, want)
		}
	})
	big := ratio{math.MaxInt64 - 1, math.MaxInt64}
	if got := big.compare(ratio{math.MaxInt64 - 2, math.MaxInt64}); got != 1 {
		t.Errorf("fractions beyond 64 bits: %d", got)
	}
}

// ink is the length of the strokes of a pattern in a band 2.2 mm wide and
// 60 mm long that runs in a direction, over the area of the band.
func ink(k HatchKind, tenths int) float64 {
	a := Pt(20000, 15000)
	b := Polar(a, 6000, tenths)
	by := Polar(Pt(0, 0), 220, tenths+900)
	ring := []Point{a, b, b.Add(by), a.Add(by)}
	sum := 0.0
	for _, l := range HatchLines(k, [][]Point{ring}) {
		sum += math.Hypot(float64(l.Pts[1].X-l.Pts[0].X), float64(l.Pts[1].Y-l.Pts[0].Y))
	}
	return sum / area(ring)
}

// A zone of pressure lies along a wall of any direction: its hatch shows in all
// of them, and the corner's is much the denser.
func TestZonesShowInAnyDirection(t *testing.T) {
	for tenths := 0; tenths < 3600; tenths += 15 {
		edge, corner := ink(ZoneEdge, tenths), ink(ZoneCorner, tenths)
		if edge < 0.0025 || edge > 0.0055 {
			t.Errorf("edge zone at %d tenths of a degree: %.4f mm of line per area", tenths, edge)
		}
		if corner < 3*edge {
			t.Errorf("corner zone at %d tenths of a degree: %.4f, edge zone %.4f", tenths, corner, edge)
		}
	}
}

// slopes are the directions of a pattern's strokes, in whole degrees.
func slopes(k HatchKind) []int {
	var out []int
	for _, l := range HatchLines(k, [][]Point{Box(1000, 1000, 5000, 5000).Corners()}) {
		d := l.Pts[1].Sub(l.Pts[0])
		if math.Hypot(float64(d.X), float64(d.Y)) < 60 {
			continue // clipped short, its direction is rounded
		}
		a := (int(math.Round(math.Atan2(float64(d.Y), float64(d.X))*180/math.Pi)) + 180) % 180
		if !slices.ContainsFunc(out, func(b int) bool { return a-b > -4 && a-b < 4 }) {
			out = append(out, a)
		}
	}
	slices.Sort(out)
	return out
}

// The end grain of plywood stands askew: upright strokes between level lines
// are a masonry bond. Shims have no level line at all.
func TestPlywoodIsNoBond(t *testing.T) {
	upright := func(a int) bool { return a > 75 && a < 105 }
	if s := slopes(Plywood); len(s) != 2 || slices.ContainsFunc(s, upright) {
		t.Errorf("plywood is drawn in the directions %v", s)
	}
	for _, a := range slopes(Shims) {
		for _, b := range slopes(Plywood) {
			if d := a - b; d > -30 && d < 30 {
				t.Errorf("shims at %d degrees, plywood at %d", a, b)
			}
		}
	}
}
