package minimax

import (
	"math"
	"testing"

	"copingset/layout/length"
)

// Published best straight lines in the sense of Chebyshev, which leave the same
// greatest error e on both sides. Raised by e such a line clears every point,
// and its greatest gap is 2e.
func TestPublishedChebyshevLines(t *testing.T) {
	cases := []struct {
		source   string
		f        func(float64) float64
		from, to float64
		b, m, e  float64
	}{
		{"Atkinson, Elementary Numerical Analysis, ch. 4, the exponential on [-1, 1]: 1.2643 + 1.1752 x, seen in a published worked solution of it; e = 0.2788 from memory",
			math.Exp, -1, 1, 1.2643, 1.1752, 0.2788},
		{"minimax line of the exponential on [0, 1], worked answer of a mathematics forum: 0.894067 + 1.718282 x, e = 0.105933",
			math.Exp, 0, 1, 0.894067, 1.718282, 0.105933},
		{"Chebyshev equioscillation, lecture notes on curve fitting, x squared on [0, 1]: x - 1/8, e = 1/8",
			func(x float64) float64 { return x * x }, 0, 1, -0.125, 1, 0.125},
		{"from memory, common to textbooks: the square root on [0, 1], 1/8 + x, e = 1/8",
			math.Sqrt, 0, 1, 0.125, 1, 0.125},
	}
	const n, unit = 2000, 10_000 // points of the curve, inches to its unit
	for _, c := range cases {
		var points []Point
		for i := range n + 1 {
			x := c.from + (c.to-c.from)*float64(i)/n
			points = append(points, Point{length.FromInches(x * unit), length.FromInches(c.f(x) * unit)})
		}
		l := Above(points)
		var e float64
		for _, p := range points {
			e = max(e, l.Gap(p).Inch()/unit/2)
		}
		m := float64(l.DY) / float64(l.DX)
		b := (l.At.Y.Inch()-m*l.At.X.Inch())/unit - e
		if math.Abs(m-c.m) > 1e-4 || math.Abs(b-c.b) > 1e-4 || math.Abs(e-c.e) > 1e-4 {
			t.Errorf("%s: %.6f + %.6f x, e = %.6f", c.source, b, m, e)
		}
	}
}
