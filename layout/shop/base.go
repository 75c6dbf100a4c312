package shop

import (
	"math"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// Footprint is where a chair touches the wall and hangs beside it, across behind the front
// of the chair.
type Footprint struct {
	Flat  [2]length.Length // of its base, which bears: from the street to the roof
	Base  [2]length.Length // with the bends at both its ends
	Hangs [2]bool          // something hangs below the base: before it, behind it
	Inner [2]length.Length // the inner face of what hangs
}

// Footprint of a chair whose base lies on a seat that falls to the roof.
func (m Made) Footprint(slope float64) Footprint {
	laid := m.Seated(0, 0, slope).Lay()
	p := laid.Path
	from, to := laid.Span(p.Root)
	flat := reachOf(laid, from, to)
	if p.Root > 0 {
		from -= p.Segs[p.Root-1].Arc
	}
	base := reachOf(laid, from, to+p.Segs[p.Root].Arc)
	inner, mid := [2]float64{math.Inf(-1), math.Inf(1)}, (flat[0]+flat[1])/2
	for _, q := range laid.Ring(chord) {
		switch {
		case q.Y >= -slope*q.X-1e-6: // on the seat, or over it
		case q.X < mid:
			inner[0] = math.Max(inner[0], q.X)
		default:
			inner[1] = math.Min(inner[1], q.X)
		}
	}
	var out Footprint
	for i := range 2 {
		out.Flat[i], out.Base[i] = length.FromMM(flat[i]), length.FromMM(base[i])
		if out.Hangs[i] = !math.IsInf(inner[i], 0); out.Hangs[i] {
			out.Inner[i] = length.FromMM(inner[i])
		}
	}
	return out
}

// reachOf is how far across the metal reaches between two developed places.
func reachOf(l fold.Laid, from, to float64) [2]float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, s := range []float64{from, to} {
		for _, p := range both(l.Skins(s)) {
			lo, hi = math.Min(lo, p.X), math.Max(hi, p.X)
		}
	}
	return [2]float64{lo, hi}
}
