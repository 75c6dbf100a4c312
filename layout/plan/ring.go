package plan

import (
	"math"

	"copingset/layout/length"
)

// Above is the part of a ring that lies over a height; nothing where none does.
// What the height cuts into several parts hangs together along it.
func (r Ring) Above(z length.Length) Ring {
	var out Ring
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if p.Y >= z {
			out = append(out, p)
		}
		if p.Y > z && q.Y < z || p.Y < z && q.Y > z {
			lo, hi := p, q
			if hi.Y < lo.Y {
				lo, hi = hi, lo
			}
			out = append(out, Pt{X: lo.X + length.MulDiv(hi.X-lo.X, int64(z-lo.Y), int64(hi.Y-lo.Y)), Y: z})
		}
	}
	if len(out) < 3 {
		return nil
	}
	return out
}

// In is the part of a ring that lies in an upright rectangle, its parts hanging
// together along the rectangle's edges.
func (r Ring) In(lo, hi Pt) Ring {
	turned := func() { // a quarter turn about the origin
		next := make(Ring, len(r))
		for i, p := range r {
			next[i] = Pt{X: -p.Y, Y: p.X}
		}
		r = next
	}
	for _, z := range []length.Length{lo.Y, lo.X, -hi.Y, -hi.X} { // which edge a quarter turn brings undermost
		r = r.Above(z)
		turned()
	}
	return r
}

// Deep is how far one ring stands in another: of the places along both outlines,
// no farther apart than step, the one that lies deepest inside the other. Zero
// where they do no more than touch.
func Deep(a, b Ring, step length.Length) length.Length {
	alo, ahi := a.Bounds()
	blo, bhi := b.Bounds()
	if ahi.X <= blo.X || bhi.X <= alo.X || ahi.Y <= blo.Y || bhi.Y <= alo.Y {
		return 0
	}
	return length.FromMM(math.Max(deepest(a, b, blo, bhi, step), deepest(b, a, alo, ahi, step)))
}

// deepest is how far places along a ring lie inside another, within its bounds;
// millimetres.
func deepest(a, in Ring, lo, hi Pt, step length.Length) float64 {
	var deep float64
	for i, p := range a {
		q := a[(i+1)%len(a)]
		dx, dy := (q.X - p.X).MM(), (q.Y - p.Y).MM()
		n := int(math.Ceil(math.Hypot(dx, dy)/step.MM())) + 1
		for k := range n {
			f := float64(k) / float64(n)
			x, y := p.X.MM()+f*dx, p.Y.MM()+f*dy
			if x > lo.X.MM() && x < hi.X.MM() && y > lo.Y.MM() && y < hi.Y.MM() && in.holds(x, y) {
				deep = math.Max(deep, in.edgeFrom(x, y))
			}
		}
	}
	return deep
}

// holds says that a place, in millimetres, lies inside a ring.
func (r Ring) holds(x, y float64) bool {
	in := false
	for i, p := range r {
		q := r[(i+1)%len(r)]
		if a, b := p.Y.MM(), q.Y.MM(); a > y != (b > y) && x < p.X.MM()+(y-a)/(b-a)*(q.X-p.X).MM() {
			in = !in
		}
	}
	return in
}

// edgeFrom is the distance of a place, in millimetres, to the nearest of a ring's edges.
func (r Ring) edgeFrom(x, y float64) float64 {
	least := math.Inf(1)
	for i, p := range r {
		q := r[(i+1)%len(r)]
		ux, uy, vx, vy := (q.X - p.X).MM(), (q.Y - p.Y).MM(), x-p.X.MM(), y-p.Y.MM()
		t := 0.0
		if n := ux*ux + uy*uy; n > 0 {
			t = math.Max(0, math.Min(1, (vx*ux+vy*uy)/n))
		}
		least = math.Min(least, math.Hypot(vx-t*ux, vy-t*uy))
	}
	return least
}
