// Package minimax finds the straight line that clears a row of points and has
// the least greatest gap to them: the one-sided Chebyshev line. It knows only
// lengths and nothing of walls.
//
// Above is the entry point; it returns a Line. All comparisons are exact, with
// products in 128 bits, so the answer is the same on any processor.
package minimax

import (
	"cmp"
	"math/bits"
	"slices"

	"copingset/layout/length"
)

// Point is one reading: how far out the face stands (Y) at a station (X).
type Point struct{ X, Y length.Length }

// Line is a straight line through a point, rising DY for each DX. DX is
// greater than zero.
type Line struct {
	At     Point
	DX, DY length.Length
}

// Above is the line on or above every point whose greatest vertical gap to a
// point is least. The points stand in order of X; several may share one.
//
// The gap a line of slope m leaves, greatest(y - mx) - least(y - mx), is convex
// in m, and its slope at m is the station of the lowest point less that of the
// highest, seen along m. Both walk along the convex hull, so the least stands
// where the two pass one another: there the line lies on one edge of a hull and
// a corner of the other. The work is linear in the number of points.
//
// Where a range of slopes serves alike, the flattest of it is taken; it is
// unique, and points seen in a mirror give the mirrored line. No points give
// the line y = 0.
func Above(points []Point) Line {
	if len(points) == 0 {
		return Line{DX: 1}
	}
	var a, b [32]Point // room for most hulls
	up, low := hull(a[:0], points, 1), hull(b[:0], points, -1)
	u, l := len(up)-1, 0 // the supports of the steepest falling line
	m := slope{dx: 0, dy: -1}
	// While the highest point lies beyond the lowest, a greater slope gains.
	for u > 0 || l < len(low)-1 {
		if low[l].X >= up[u].X {
			break
		}
		switch {
		case l == len(low)-1:
			m, u = edge(up[u-1], up[u]), u-1
		case u == 0:
			m, l = edge(low[l], low[l+1]), l+1
		default:
			a, b := edge(up[u-1], up[u]), edge(low[l], low[l+1])
			c := a.compare(b)
			m = a
			if c > 0 {
				m = b
			}
			if c <= 0 {
				u--
			}
			if c >= 0 {
				l++
			}
		}
	}
	if low[l].X == up[u].X && m.dy < 0 || m.dx == 0 {
		// Every slope from m to the next turn of a hull serves: go on towards
		// level.
		next, ok := nextSlope(up, u, low, l)
		if !ok || next.dy > 0 {
			next = slope{dx: 1}
		}
		m = next
	}
	return Line{At: up[u], DX: m.dx, DY: m.dy}
}

// Insert puts more points among points in order of X.
func Insert(points []Point, more ...Point) []Point {
	for _, p := range more {
		i, _ := slices.BinarySearchFunc(points, p, func(q, p Point) int { return cmp.Compare(q.X, p.X) })
		points = slices.Insert(points, i, p)
	}
	return points
}

// nextSlope is the least slope at which one of the two supports moves on.
func nextSlope(up []Point, u int, low []Point, l int) (slope, bool) {
	switch {
	case u == 0 && l == len(low)-1:
		return slope{}, false
	case u == 0:
		return edge(low[l], low[l+1]), true
	case l == len(low)-1:
		return edge(up[u-1], up[u]), true
	}
	a, b := edge(up[u-1], up[u]), edge(low[l], low[l+1])
	if a.compare(b) > 0 {
		return b, true
	}
	return a, true
}

// Y is the height of the line at a station, rounded up to the step. Between
// the first and the last of the points that the line was found for, it is
// never farther from them than its greatest gap and a step.
func (l Line) Y(x, step length.Length) length.Length {
	v := wide(x-l.At.X, l.DY)
	return length.CeilTo(l.At.Y+v.ceil(l.DX), step)
}

// Gap is how far the line lies above a point, rounded up to a nanometre.
func (l Line) Gap(p Point) length.Length { return l.Y(p.X, length.Nanometre) - p.Y }

// slope is dy over dx, dx not negative.
type slope struct{ dx, dy length.Length }

func edge(a, b Point) slope { return slope{b.X - a.X, b.Y - a.Y} }

// compare two slopes: negative when s is the less.
func (s slope) compare(o slope) int {
	const run, rise = length.Length(1) << 36, length.Length(1) << 26
	// 67 mm in 68 m: the products fit a length
	if max(s.dx, o.dx) < run && max(s.dy, o.dy) < rise && min(s.dy, o.dy) > -rise {
		return cmp.Compare(s.dy*o.dx, o.dy*s.dx)
	}
	return wide(s.dy, o.dx).compare(wide(o.dy, s.dx))
}

// hull is the upper (side 1) or lower (side -1) convex hull of points in order
// of X, by Andrew's monotone chain (A. M. Andrew, 1979). No three of its
// corners lie on one line, and no two share an X. It is appended to out, which is
// empty.
func hull(out, points []Point, side length.Length) []Point {
	for _, p := range points {
		if n := len(out); n > 0 && out[n-1].X == p.X {
			if side*p.Y <= side*out[n-1].Y {
				continue
			}
			out = out[:n-1]
		}
		for len(out) > 1 {
			a, b := out[len(out)-2], out[len(out)-1]
			if int(side)*edge(a, b).compare(edge(b, p)) > 0 {
				break
			}
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	return out
}

// product is the exact product of two lengths: sign and magnitude.
type product struct {
	neg    bool
	hi, lo uint64
}

func wide(a, b length.Length) product {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	return product{neg: (a < 0) != (b < 0) && hi|lo != 0, hi: hi, lo: lo}
}

func magnitude(l length.Length) uint64 {
	if l < 0 {
		return -uint64(l)
	}
	return uint64(l)
}

func (p product) compare(o product) int {
	if p.neg != o.neg {
		if p.neg {
			return -1
		}
		return 1
	}
	c := 0
	switch {
	case p.hi != o.hi && p.hi < o.hi, p.hi == o.hi && p.lo < o.lo:
		c = -1
	case p != o:
		c = 1
	}
	if p.neg {
		return -c
	}
	return c
}

// ceil is the product over d, rounded up. d is greater than zero. It panics on
// a quotient too long for a length, which no two points of a building give.
func (p product) ceil(d length.Length) length.Length {
	if p.hi<<1|p.lo>>63 >= uint64(d) {
		panic("minimax: the line is too steep for a length")
	}
	q, r := bits.Div64(p.hi, p.lo, uint64(d))
	if p.neg {
		return -length.Length(q)
	}
	if r > 0 {
		q++
	}
	return length.Length(q)
}
