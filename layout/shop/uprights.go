package shop

import (
	"math"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// Upright is a face of a part that stands on its base: from above, how far the middle
// of its metal lies behind the front of the part.
type Upright struct {
	Name   string
	Middle length.Length
}

// Uprights are the faces of a part on a level seat that stand on it and are steeper than
// they are deep, from its front to its rear.
func (m Made) Uprights() []Upright {
	laid := m.Seated(0, 0, 0).Lay()
	var out []Upright
	for i, g := range laid.Path.Segs {
		if i == laid.Path.Root {
			continue
		}
		from, to := laid.Span(i)
		lo, hi := fold.Point{X: math.Inf(1), Y: math.Inf(1)}, fold.Point{X: math.Inf(-1), Y: math.Inf(-1)}
		for _, s := range []float64{from, to} {
			for _, p := range both(laid.Skins(s)) {
				lo = fold.Point{X: math.Min(lo.X, p.X), Y: math.Min(lo.Y, p.Y)}
				hi = fold.Point{X: math.Max(hi.X, p.X), Y: math.Max(hi.Y, p.Y)}
			}
		}
		if lo.Y > -chord && hi.Y-lo.Y > hi.X-lo.X {
			out = append(out, Upright{g.Name, length.FromMM((lo.X + hi.X) / 2)})
		}
	}
	return out
}

// RowPlaces are the holes of a row along a part of a length: equal bays between the
// insets from both ends, a single one in the middle. The right half mirrors the left.
func RowPlaces(long, inset length.Length, n int) []length.Length {
	out := make([]length.Length, n)
	for i := range out {
		k := n - 1 - i
		switch {
		case i == k:
			out[i] = long / 2
		case i < k:
			out[i] = inset + length.MulDiv(long-2*inset, int64(i), int64(n-1))
		default:
			out[i] = long - out[k]
		}
	}
	return out
}
