package fold

import "math"

// A Lap is a tab that a straight carries past its cut, for the body beyond the
// seam to lie over. It is told by developed places along the cut, and runs off
// square to it. What it lies behind is the mirror image of its own body about the
// seam, so that a tab keeps between the same two places on both.
type Lap struct {
	Name     string
	Seg      int
	From, To float64
	Beyond   float64 // past the cut on the flat, square to it
	// The bend that brings it behind the other body: positive UP; zero where both
	// faces lie in one plane. Its middle stands Fold past the cut, less than nothing
	// before it.
	Turn, Radius, Arc, Fold float64
}

// hair is how far beside the end of a notch its corner on the pattern stands.
const hair = 1e-6

// base is the cut between a lap's places on the pattern, from the first edge to
// the last, and the direction out of the metal.
func (b Sheet) base(l Laid, end, seg int, from, to float64) (p, q, out Point) {
	at := func(s float64) Point {
		if end == 1 {
			return Point{b.Right.X(l, s, true), l.Path.Girth() - s}
		}
		return Point{b.Left.X(l, s, false), l.Path.Girth() - s}
	}
	p, q = at(from+hair), at(to-hair)
	u := q.minus(p).times(1 / q.minus(p).length())
	if out = u.left(); end == 0 {
		out = u.left().times(-1)
	}
	return p, q, out
}

// tab is the outline of a lap past its cut, from the place of the cut nearer the
// first edge round to the one nearer the last.
func (b Sheet) tab(l Laid, end int, lap Lap) []Point {
	p, q, out := b.base(l, end, lap.Seg, lap.From, lap.To)
	girth := l.Path.Girth()
	long := q.minus(p)
	far := long.times(lap.Beyond/long.length() + 1)
	ring := []Point{p.minus(far), p.minus(far).plus(out.times(lap.Beyond)), q.plus(far).plus(out.times(lap.Beyond)),
		q.plus(far)}
	// Within its own places, and within them as the mirror shows it.
	low, high := girth-lap.To+hair, girth-lap.From-hair
	own := func(r Point) float64 { return r.Y }
	mirrored := func(r Point) float64 { return r.Y - 2*(r.minus(p).X*out.X+r.minus(p).Y*out.Y)*out.Y }
	for _, height := range []func(Point) float64{own, mirrored} {
		ring = clipped(ring, func(r Point) float64 { return height(r) - low })
		ring = clipped(ring, func(r Point) float64 { return high - height(r) })
	}
	// Begin at the corner nearest p on the cut.
	first := 0
	for i, r := range ring {
		if r.minus(p).length() < ring[first].minus(p).length() {
			first = i
		}
	}
	n := len(ring)
	turned := make([]Point, n)
	for i := range ring {
		turned[i] = ring[(first+i)%n]
	}
	if v := turned[1].minus(p); math.Abs(v.X*out.X+v.Y*out.Y) < hair { // along the cut to q
		for i, j := 1, n-1; i < j; i, j = i+1, j-1 { // round the other way
			turned[i], turned[j] = turned[j], turned[i]
		}
	}
	return turned
}

// clipped is what of a convex ring is not under nothing by a linear measure.
func clipped(ring []Point, of func(Point) float64) []Point {
	var out []Point
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		u, v := of(a), of(c)
		if u >= 0 {
			out = append(out, a)
		}
		if u*v < 0 {
			out = append(out, a.plus(c.minus(a).times(u/(u-v))))
		}
	}
	return out
}

// Row are places in a straight beside its cut at an end, `off` past it and square
// to it (less than nothing: in the metal before it), no two farther apart than
// pitch, the first and the last `edge` from where the row's face ends. Each is told
// by its height on the face that lies over, so that rows of both bodies of a seam
// meet. Places that a slanted tab has no metal for are left out.
func (b Sheet) Row(end, seg int, from, to, edge, off, over, pitch float64) []Point {
	l := b.Path.Lay()
	p, q, out := b.base(l, end, seg, from, to)
	girth := l.Path.Girth()
	u := q.minus(p).times(1 / q.minus(p).length())
	low, high := from+edge, to-edge
	if high < low || math.Abs(u.Y) < hair {
		return nil
	}
	n := int(math.Ceil((high-low)/pitch - 1e-9))
	var rows []Point
	for k := range n + 1 {
		s := (low + high) / 2
		if n > 0 {
			s = low + (high-low)*float64(k)/float64(n)
		}
		// The foot on the cut of the place `over` before it that lies at s.
		t := (girth - s + over*out.Y - p.Y) / u.Y
		foot := p.plus(u.times(t))
		if there := girth - foot.plus(out.times(over)).Y; there < low-hair || there > high+hair {
			continue
		}
		rows = append(rows, foot.plus(out.times(off)))
	}
	return rows
}

// laps adds the bends of a sheet's laps to its pattern.
func (b Sheet) laps(l Laid, out *Flat) {
	for end, laps := range b.Laps {
		for _, lap := range laps {
			if lap.Turn == 0 {
				continue
			}
			p, q, away := b.base(l, end, lap.Seg, lap.From, lap.To)
			p, q = p.plus(away.times(lap.Fold)), q.plus(away.times(lap.Fold))
			out.Bends = append(out.Bends, BendLine{p, q, lap.Turn, [2]string{l.Path.Segs[lap.Seg].Name, lap.Name},
				lap.Arc, lap.Radius, end, -1})
		}
	}
}

// edge is the outline of an end from the first edge to the last, its laps with it.
func (b Sheet) edge(l Laid, end int, places []float64, at func(float64) Point) []Point {
	var out []Point
	for _, s := range places {
		in := false
		for _, lap := range b.Laps[end] {
			if s > lap.From && s < lap.To {
				in = true
			}
			if s == lap.From+hair {
				tab := b.tab(l, end, lap)
				out = append(out, tab...)
			}
		}
		if !in {
			out = append(out, at(s))
		}
	}
	return out
}
