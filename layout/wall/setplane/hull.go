package setplane

import (
	"math/bits"
	"slices"

	"copingset/layout/length"
)

// sortedByStation sorts points by station and keeps the highest of each.
func sortedByStation(points []Point) []Point {
	byStation := func(p, q Point) int {
		switch {
		case p.At < q.At:
			return -1
		case p.At > q.At:
			return 1
		case p.Least > q.Least:
			return -1
		case p.Least < q.Least:
			return 1
		}
		return 0
	}
	if !slices.IsSortedFunc(points, byStation) {
		points = slices.Clone(points)
		slices.SortFunc(points, byStation)
	}
	out := make([]Point, 0, len(points))
	for _, p := range points {
		if n := len(out); n > 0 && out[n-1].At == p.At {
			continue
		}
		out = append(out, p)
	}
	return out
}

// above tells whether q lies above the line from p to r, stations ascending:
// (q - p) × (r - p) turns down, the products held in 128 bits.
func above(p, q, r Point) bool {
	return lessProduct(r.Least-p.Least, q.At-p.At, q.Least-p.Least, r.At-p.At)
}

// lessProduct tells whether a × b is less than c × d, where b and d are
// positive.
func lessProduct(a, b, c, d length.Length) bool {
	if (a < 0) != (c < 0) {
		return a < 0
	}
	abs := func(l length.Length) uint64 { return uint64(length.Abs(l)) }
	h1, l1 := bits.Mul64(abs(a), uint64(b))
	h2, l2 := bits.Mul64(abs(c), uint64(d))
	less, more := h1 < h2 || h1 == h2 && l1 < l2, h1 > h2 || h1 == h2 && l1 > l2
	if a < 0 {
		return more
	}
	return less
}
