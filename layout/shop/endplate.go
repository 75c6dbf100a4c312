package shop

import (
	"errors"
	"math"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// endPlate is the flat plate that closes a free end of a body: it stands between
// the legs under the top, the gap of the weld off the inner face of the metal all
// round, its corners inside the fold radii and its foot over whatever turns in
// below. Its finish side faces away from the piece, so the plate of the right end
// is the mirror image of the left one's: seen from beyond the end, the street is
// at the left at a left end and at the right at a right end.
func (b *builder) endPlate(of raw, right bool) raw {
	out := raw{name: "end plate", err: of.err}
	if of.err != nil {
		return out
	}
	ring, err := plate(of.metal.Path, b.shop.WeldGap.MM())
	if err != nil {
		out.err = err
		return out
	}
	n := len(ring)
	var c []fold.Vec
	at := func(p fold.Point) { c = append(c, fold.FromLayout(0, p.X, p.Y)) }
	at(ring[0])
	for i := n - 1; i > 0; i-- { // down the rear leg's side last, seen from beyond the left end
		at(ring[i])
	}
	if right {
		c = c[:0]
		at(ring[n-1])
		for _, p := range ring[:n-1] {
			at(p)
		}
	}
	return out.tray(fold.Tray{Face: fold.Face{Name: out.name, Corners: c}}, nil)
}

// plate is the outline of an end plate in the section, y to the roof and z up,
// from its foot at the front leg up, across and down to its foot at the rear leg.
func plate(p fold.Path, gap float64) ([]fold.Point, error) {
	l := p.Lay()
	front, rear := p.Root-1, p.Root+1
	from, _ := l.Span(front)
	_, to := l.Span(rear)
	in := func(s float64) fold.Point { // off the inner face, into the cap
		f, b := l.Skins(s)
		return fold.Point{X: b.X + (b.X-f.X)/p.T*gap, Y: b.Y + (b.Y-f.Y)/p.T*gap}
	}
	start, end := in(from), in(to)
	foot := math.Max(start.Y, end.Y)
	for _, s := range l.Places(chord / 5) {
		if s >= from && s <= to {
			continue
		}
		f, b := l.Skins(s)
		for _, q := range []fold.Point{f, b} {
			if q.X > start.X-gap+1e-6 && q.X < end.X+gap-1e-6 {
				foot = math.Max(foot, q.Y+gap)
			}
		}
	}
	var ring []fold.Point
	for i := front; i <= rear; i++ {
		a, z := l.Span(i)
		if i == front {
			ring = append(ring, fold.Point{X: start.X, Y: foot})
		}
		if i == rear {
			ring = append(ring, fold.Point{X: end.X, Y: foot})
			break
		}
		g := p.Segs[i]
		if g.Radius <= gap { // no room for an arc: the two edges meet
			ring = append(ring, meet(in(a), in(z), in(z+g.Arc), in(z+g.Arc+p.Segs[i+1].Flat)))
			continue
		}
		n := max(2, int(math.Ceil(math.Abs(g.Turn)/15)))
		for k := range n + 1 {
			ring = append(ring, in(z+g.Arc*float64(k)/float64(n)))
		}
	}
	if q := ring[1]; q.Y <= foot || ring[len(ring)-2].Y <= foot {
		return nil, errors.New("what turns in at the foot of its legs leaves no room for the plate")
	}
	return ring, nil
}

// meet is where the lines through two pairs of points cross.
func meet(a, b, c, d fold.Point) fold.Point {
	ux, uy, vx, vy := b.X-a.X, b.Y-a.Y, d.X-c.X, d.Y-c.Y
	t := ((c.X-a.X)*vy - (c.Y-a.Y)*vx) / (ux*vy - uy*vx)
	return fold.Point{X: a.X + t*ux, Y: a.Y + t*uy}
}

// PlateFoot is how far below the front fold the foot of an end plate stands,
// under a cap of an outside width; false where the cap has no such section.
func PlateFoot(j *job.Job, outside length.Length) (length.Length, bool) {
	b := capsOf(j) // nothing of the plate's outline depends on how the metal stretches
	path, err := b.path(b.measures(), outside.MM())
	if err != nil {
		return 0, false
	}
	ring, err := plate(path, b.shop.WeldGap.MM())
	if err != nil {
		return 0, false
	}
	return length.FromMM(-ring[0].Y), true
}
