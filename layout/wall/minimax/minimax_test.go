package minimax

import (
	"cmp"
	"math/big"
	"slices"
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

// rat is an exact line: y = b + m x.
type rat struct{ m, b *big.Rat }

func of(l length.Length) *big.Rat { return new(big.Rat).SetInt64(int64(l)) }

func exact(l Line) rat {
	m := new(big.Rat).SetFrac64(int64(l.DY), int64(l.DX))
	return rat{m, new(big.Rat).Sub(of(l.At.Y), new(big.Rat).Mul(m, of(l.At.X)))}
}

func (l rat) over(p Point) *big.Rat {
	y := new(big.Rat).Add(l.b, new(big.Rat).Mul(l.m, of(p.X)))
	return y.Sub(y, of(p.Y))
}

// gap is the greatest of the heights over points, and whether none is negative.
func (l rat) gap(points []Point) (most *big.Rat, clears bool) {
	most, clears = new(big.Rat), true
	for i, p := range points {
		d := l.over(p)
		if d.Sign() < 0 {
			clears = false
		}
		if i == 0 || d.Cmp(most) > 0 {
			most = d
		}
	}
	return most, clears
}

// brute tries every slope that two points or the level have, as far out as the
// points ask: the least is among them, since the gap is piecewise linear in the
// slope and its corners are slopes of two points.
func brute(points []Point) (least, flattest *big.Rat) {
	slopes := []*big.Rat{new(big.Rat)}
	for i, p := range points {
		for _, q := range points[i+1:] {
			if q.X != p.X {
				slopes = append(slopes, new(big.Rat).SetFrac64(int64(q.Y-p.Y), int64(q.X-p.X)))
			}
		}
	}
	for _, m := range slopes {
		var hi, lo *big.Rat
		for _, p := range points {
			v := new(big.Rat).Sub(of(p.Y), new(big.Rat).Mul(m, of(p.X)))
			if hi == nil || v.Cmp(hi) > 0 {
				hi = v
			}
			if lo == nil || v.Cmp(lo) < 0 {
				lo = v
			}
		}
		w := new(big.Rat).Sub(hi, lo)
		a := new(big.Rat).Abs(m)
		switch {
		case least == nil || w.Cmp(least) < 0:
			least, flattest = w, a
		case w.Cmp(least) == 0 && a.Cmp(flattest) < 0:
			flattest = a
		}
	}
	return least, flattest
}

// row draws points in order: a few or many, close or far, often on a coarse
// grid, so that ties and straight stretches are common.
func row(t *rapid.T) []Point {
	grid := rapid.SampledFrom([]length.Length{1, length.Inch16, length.Foot}).Draw(t, "grid")
	span := rapid.SampledFrom([]int64{4, 40, int64(1000 * length.Foot / grid)}).Draw(t, "span")
	high := rapid.SampledFrom([]int64{1, 8, int64(40*length.Foot/grid) + 1}).Draw(t, "high")
	n := rapid.IntRange(1, 12).Draw(t, "n")
	var out []Point
	for range n {
		out = append(out, Point{grid * length.Length(rapid.Int64Range(-span, span).Draw(t, "x")), grid * length.Length(rapid.Int64Range(-high, high).Draw(t, "y"))})
	}
	slices.SortStableFunc(out, func(a, b Point) int { return cmp.Compare(a.X, b.X) })
	return out
}

func TestAboveIsTheBestOfAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := row(t)
		l := exact(Above(points))
		got, clears := l.gap(points)
		want, flat := brute(points)
		if !clears {
			t.Fatalf("%v runs through a point of %v", Above(points), points)
		}
		if got.Cmp(want) != 0 {
			t.Fatalf("greatest gap %v, the best of all pairs leaves %v", got, want)
		}
		if a := new(big.Rat).Abs(l.m); a.Cmp(flat) != 0 {
			t.Fatalf("slope %v, the flattest of the best is %v", l.m, flat)
		}
	})
}

func TestAboveInAMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := row(t)
		var other []Point
		for i := range points {
			p := points[len(points)-1-i]
			other = append(other, Point{-p.X, p.Y})
		}
		a, b := exact(Above(points)), exact(Above(other))
		if a.m.Cmp(new(big.Rat).Neg(b.m)) != 0 || a.b.Cmp(b.b) != 0 {
			t.Fatalf("%v, in a mirror %v", a, b)
		}
		step := length.Inch16
		x := length.Length(rapid.Int64Range(int64(points[0].X), int64(points[len(points)-1].X)).Draw(t, "x"))
		if y, z := Above(points).Y(x, step), Above(other).Y(-x, step); y != z {
			t.Fatalf("at %v: %v, in a mirror %v", x, y, z)
		}
	})
}

// The height read off the line is the least multiple of the step not below it.
func TestHeightsGoUpToTheStep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := row(t)
		l := Above(points)
		x := length.Length(rapid.Int64Range(int64(points[0].X), int64(points[len(points)-1].X)).Draw(t, "x"))
		y := l.Y(x, length.Inch16)
		over := exact(l).over(Point{x, y})
		if y%length.Inch16 != 0 || over.Sign() > 0 || new(big.Rat).Add(over, of(length.Inch16)).Sign() <= 0 {
			t.Fatalf("%v at %v, the line lies %v over it", y, x, over)
		}
	})
}

func TestLinesByHand(t *testing.T) {
	cases := []struct {
		name   string
		points []Point
		line   Line
	}{
		{"none", nil, Line{DX: 1}},
		{"one", []Point{{5, 7}}, Line{Point{5, 7}, 1, 0}},
		{"two lie on it", []Point{{0, 0}, {10, 5}}, Line{Point{0, 0}, 10, 5}},
		{"a bow to the street keeps level", []Point{{0, 0}, {5, 8}, {10, 0}}, Line{Point{5, 8}, 10, 0}},
		{"an S leans with its lowest and its last", []Point{{0, 0}, {2, 6}, {8, -6}, {10, 0}}, Line{Point{2, 6}, 8, -6}},
	}
	for _, c := range cases {
		got, want := exact(Above(c.points)), exact(c.line)
		if got.m.Cmp(want.m) != 0 || got.b.Cmp(want.b) != 0 {
			t.Errorf("%s: y = %v + %v x, want %v + %v x", c.name, got.b, got.m, want.b, want.m)
		}
	}
}

func TestTooSteepIsStopped(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("a height that is no length went through")
		}
	}()
	Line{At: Point{}, DX: 1, DY: length.Most}.Y(length.Most, 1)
}

// wave is a wall of n readings at 30 in: a bow, a lean and a scatter, the same
// every time.
func wave(n int) []Point {
	var out []Point
	seed := uint32(7)
	for i := range n {
		seed = seed*1664525 + 1013904223
		x := length.Length(i)
		out = append(out, Point{x * 30 * length.Inch, length.Length(seed>>28)*length.Inch16/4 + x*length.Inch16/8 - x*x*length.Inch64/40})
	}
	return out
}

func BenchmarkAbove1000RunsOf50(b *testing.B) {
	points := wave(50)
	for b.Loop() {
		for range 1000 {
			Above(points)
		}
	}
}

// BenchmarkAllPairs1000RunsOf50 is the plain method beside it: every pair of
// readings, and for each all readings.
func BenchmarkAllPairs1000RunsOf50(b *testing.B) {
	points := wave(50)
	for b.Loop() {
		for range 1000 {
			allPairs(points)
		}
	}
}

func allPairs(points []Point) (best float64) {
	best = 1e300
	for i, p := range points {
		for _, q := range points[i+1:] {
			m := float64(q.Y-p.Y) / float64(q.X-p.X)
			hi, lo := -1e300, 1e300
			for _, o := range points {
				v := float64(o.Y) - m*float64(o.X)
				hi, lo = max(hi, v), min(lo, v)
			}
			best = min(best, hi-lo)
		}
	}
	return best
}

func BenchmarkAbove(b *testing.B) {
	for _, n := range []int{50, 500, 5000} {
		points := wave(n)
		b.Run(of(length.Length(n)).RatString(), func(b *testing.B) {
			for b.Loop() {
				Above(points)
			}
		})
	}
}
