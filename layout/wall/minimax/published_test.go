package minimax

import (
	"math"
	"os"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/length"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/wall/minimax")) }

// Published best straight lines in the sense of Chebyshev, which leave the same
// greatest error e on both sides. Raised by e such a line clears every point,
// and its greatest gap is 2e.
func TestPublishedChebyshevLines(t *testing.T) {
	cases := []struct {
		source   published.Source
		f        func(float64) float64
		from, to float64
		b, m, e  float64
	}{
		{published.From("Atkinson, Elementary Numerical Analysis, ch. 4, seen in a published worked solution", "the exponential on [-1, 1]"),
			math.Exp, -1, 1, 1.2643, 1.1752, 0.2788},
		{published.From("worked answer of a mathematics forum", "minimax line of the exponential on [0, 1]"),
			math.Exp, 0, 1, 0.894067, 1.718282, 0.105933},
		{published.From("lecture notes on curve fitting, Chebyshev equioscillation", "x squared on [0, 1]"),
			func(x float64) float64 { return x * x }, 0, 1, -0.125, 1, 0.125},
		{published.Recalled("common to textbooks: the square root on [0, 1]"),
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
		published.Near(t, "best straight line", c.source, "at 0", b, c.b, 1e-4)
		published.Near(t, "best straight line", c.source, "slope", m, c.m, 1e-4)
		from := c.source
		if c.e == 0.2788 {
			from = published.Recalled("the error of that line")
		}
		published.Near(t, "best straight line", from, "error", e, c.e, 1e-4)
	}
}
