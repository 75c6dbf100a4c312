// Package setplane finds the surface a coping is set on: straight along each
// run of a chain, continuous at its corners, nowhere lower than the wall asks
// and no steeper than allowed, with the least packing below it.
//
// The unknowns are the heights at the corners. Along a run of length L the
// surface at station s is (1 - s/L) a + (s/L) b between the heights a and b of
// its two corners, so each point to be cleared and each limit of the grade is
// a linear inequality of two neighbouring unknowns. The packing is measured as
// the area between the surface and the wall, whole runs from corner to corner;
// that of the wall does not change, and that under the surface is linear,
// L (a + b) / 2 a run. So the task is a linear program in which each row joins
// two neighbours of a chain, and it is solved exactly by dynamic programming
// over the corners: what the rest of the chain costs at the least is a convex,
// piecewise linear function of the height at a corner (R. Bellman, "Dynamic
// Programming", 1957, chapter I). All of it is done in rational numbers.
//
// A closed chain is cut at its first corner, whose height is then found as the
// lowest point of a convex function of one variable, from its exact slopes.
//
// Ties. Of all surfaces of least packing one is taken that is lowest at the
// first corner, then at the second and so on, and one that is lowest from the
// last corner backwards; their mean, which packs no more than either, is the
// answer. The mirrored chain gives the mirrored answer.
//
// Rounding. Limits of the grade are first taken down to whole steps of the
// grid and heights are at last taken up to it. Then clearance stays, since no
// height sinks; the grade stays, since the difference of two heights that was
// at most a whole number of steps is so after both are taken up; and the mean
// packing is less than one step of the grid over the least possible.
package setplane

import (
	"math/big"

	"copingset/layout/length"
)

// Point is a height that the surface must reach at a station of a run.
type Point struct{ At, Least length.Length }

// Run is one run of the chain.
type Run struct {
	Length length.Length // greater than zero
	Points []Point       // stations from 0 to Length, in any order
	Rise   length.Length // greatest difference of height between its ends
	OneWay int           // +1: it may only rise from left to right; -1: only fall; 0: either
}

// Surface is the answer.
type Surface struct {
	Heights []length.Length // at the corners, on the grid unless level
	Exact   []*big.Rat      // the same before they were taken up to the grid
	Level   bool            // no run may rise by a step of the grid: one height, the greatest asked for
}

// Corners is how many corners a chain of so many runs has.
func Corners(runs int, closed bool) int {
	if closed {
		return runs
	}
	return runs + 1
}

// Solve finds the surface of a chain. Corner i stands at the left of run i; an
// open chain has one more at the right of its last run. It reports false where
// no run has a point, since nothing then says how high the surface lies.
func Solve(runs []Run, closed bool, grid length.Length) (Surface, bool) {
	first, top := true, length.Length(0)
	level := true
	for _, r := range runs {
		for _, p := range r.Points {
			if first || p.Least > top {
				top, first = p.Least, false
			}
		}
		level = level && r.Rise < grid
	}
	if first {
		return Surface{}, false
	}
	n := Corners(len(runs), closed)
	// A closed chain of one run has one corner, and no grade between two.
	if level || closed && len(runs) == 1 {
		s := Surface{Level: true}
		for range n {
			s.Heights = append(s.Heights, top)
			s.Exact = append(s.Exact, whole(top))
		}
		return s, true
	}
	there := newChain(runs, closed, grid).solve()
	back := newChain(reversed(runs), closed, grid).solve()
	s := Surface{}
	half := big.NewRat(1, 2)
	for i := range n {
		k := n - 1 - i
		if closed {
			k = (n - i) % n
		}
		h := new(big.Rat).Add(there[i], back[k])
		h.Mul(h, half)
		s.Exact = append(s.Exact, h)
		s.Heights = append(s.Heights, ceil(h, grid))
	}
	return s, true
}

// Area is the area under a surface of these corner heights, in square
// nanometres, whole runs: what the packing is measured by.
func Area(runs []Run, heights []*big.Rat) *big.Rat {
	sum := new(big.Rat)
	for i, r := range runs {
		h := new(big.Rat).Add(heights[i], heights[(i+1)%len(heights)])
		sum.Add(sum, h.Mul(h, big.NewRat(int64(r.Length), 2)))
	}
	return sum
}

// Hull reduces points to the corners of their upper hull, from left to right:
// a straight line that clears these clears them all.
func Hull(points []Point) []Point {
	sorted := sortedByStation(points)
	var hull []Point
	for _, p := range sorted {
		for len(hull) > 1 && !above(hull[len(hull)-2], hull[len(hull)-1], p) {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	return hull
}

func reversed(runs []Run) []Run {
	out := make([]Run, 0, len(runs))
	for i := len(runs) - 1; i >= 0; i-- {
		r := runs[i]
		q := Run{Length: r.Length, Rise: r.Rise, OneWay: -r.OneWay}
		for k := len(r.Points) - 1; k >= 0; k-- {
			q.Points = append(q.Points, Point{At: r.Length - r.Points[k].At, Least: r.Points[k].Least})
		}
		out = append(out, q)
	}
	return out
}

func ceil(h *big.Rat, grid length.Length) length.Length {
	q := new(big.Rat).Quo(h, whole(grid))
	n := new(big.Int)
	m := new(big.Int)
	n.DivMod(q.Num(), q.Denom(), m)
	if m.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	return length.Length(n.Int64()) * grid
}

func whole(l length.Length) *big.Rat { return new(big.Rat).SetInt64(int64(l)) }
