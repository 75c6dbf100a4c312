package shop

import (
	"math"
	"slices"

	"copingset/layout/fold"
)

// Outline is what is cut: the flat pattern's outline with the reliefs at the
// ends of its bends.
func (b Body) Outline() []fold.Point {
	if b.cut != nil {
		return b.cut
	}
	return b.Flat.Outline
}

// relieve cuts the job's relief where a bend ends at a weld, or two bends end in
// one corner of the outline: there the metal is drawn two ways at once and
// tears. Each is centred on the end of its bend, on the outline. It reports
// whether every one of them could be cut.
func (b *builder) relieve(r raw, body *Body) bool {
	if !b.shop.Relief.Stated() {
		return true
	}
	d, _ := b.bend.Deduction(90)
	near := math.Max(d, 0.1)
	lo, hi := body.Flat.Bounds()
	type end struct{ at, along fold.Point }
	var ends []end
	for _, q := range body.Flat.Bends {
		if q.Between[1] == "hem" {
			continue
		}
		l := math.Hypot(q.To.X-q.From.X, q.To.Y-q.From.Y)
		u := fold.Point{X: (q.To.X - q.From.X) / l, Y: (q.To.Y - q.From.Y) / l}
		ends = append(ends, end{q.From, u}, end{q.To, u})
	}
	ring, all := slices.Clone(body.Flat.Outline), true
	var done []fold.Point
	for i, e := range ends {
		at := bendsEnd(body.Flat.Outline, e.at, near)
		if slices.ContainsFunc(done, func(p fold.Point) bool { return apart(p, at) <= near }) {
			continue // two bends that end side by side share a relief
		}
		crossing := false // another bend ends here and runs across this one
		joined := false
		for k, o := range ends {
			if k != i && apart(o.at, e.at) <= near {
				joined = true
				crossing = crossing || math.Abs(o.along.X*e.along.X+o.along.Y*e.along.Y) < math.Sqrt2/2
			}
		}
		left := i%2 == 0 == (e.along.X >= 0) // an even one is where its bend begins
		level := math.Abs(e.along.X) > math.Abs(e.along.Y)
		welded := level && (left && r.welded[0] || !left && r.welded[1])
		inner := r.notched && e.at.X > lo.X+near && e.at.X < hi.X-near
		if !joined && !welded && !inner {
			continue
		}
		var ok bool
		if ring, ok = without(ring, b.reliefAt(at, e.along, crossing)); !ok {
			all = false
			continue
		}
		done = append(done, at)
	}
	if len(done) > 0 {
		body.cut, body.Reliefs = ring, done
	}
	return all && !fold.Crosses(body.Outline())
}

// reliefAt is the convex region taken out at the end of a bend. Where a bend
// runs across another it is as deep along both.
func (b *builder) reliefAt(at, along fold.Point, crossing bool) []fold.Point {
	r := b.shop.Relief
	if r.Diameter > 0 {
		var out []fold.Point
		for i := range holeSides {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / holeSides)
			x, y := r.Diameter.MM()/2*cos, r.Diameter.MM()/2*sin
			out = append(out, fold.Point{X: at.X + x*along.X - y*along.Y, Y: at.Y + x*along.Y + y*along.X})
		}
		return out
	}
	x, y := r.Depth.MM(), r.Width.MM()/2
	if crossing {
		y = math.Max(x, y)
	}
	var out []fold.Point
	for _, c := range [][2]float64{{-x, -y}, {x, -y}, {x, y}, {-x, y}} {
		out = append(out, fold.Point{X: at.X + c[0]*along.X - c[1]*along.Y, Y: at.Y + c[0]*along.Y + c[1]*along.X})
	}
	return out
}

func apart(a, b fold.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// bendsEnd is the corner of an outline that a bend ends in, or its end where it
// meets the outline between two.
func bendsEnd(ring []fold.Point, at fold.Point, near float64) fold.Point {
	best := at
	for _, p := range ring {
		if d := apart(p, at); d <= near {
			best, near = p, d
		}
	}
	return best
}

// without takes a convex counterclockwise region out of a counterclockwise
// outline. Where the outline runs through it more than once, as beside a narrow
// notch, slivers fall off and the greatest part is kept. It is not ok where the
// outline does not run through the region at all.
func without(ring, clip []fold.Point) ([]fold.Point, bool) {
	chains := outside(ring, clip)
	if len(chains) == 0 {
		return ring, false
	}
	var best []fold.Point
	used := make([]bool, len(chains))
	for i := range chains {
		if used[i] {
			continue
		}
		var part []fold.Point
		for k := i; !used[k]; {
			used[k] = true
			part = append(part, chains[k]...)
			// Clockwise round the region from where this stretch enters it to where the
			// next one leaves it.
			from := chains[k][len(chains[k])-1]
			next := 0
			for n := range chains {
				if clockwise(clip, from, chains[n][0]) < clockwise(clip, from, chains[next][0]) {
					next = n
				}
			}
			round := roundabout(clip, from, chains[next][0])
			part = append(part, round[:len(round)-1]...)
			k = next
		}
		if best == nil || fold.Area(part) > fold.Area(best) {
			best = part
		}
	}
	return best, true
}

// outside are the stretches of an outline outside a convex region, each from
// where it leaves the region to where it enters it; none where it never does.
func outside(ring, clip []fold.Point) [][]fold.Point {
	n := len(ring)
	inside := func(p fold.Point) bool {
		for i, a := range clip {
			c := clip[(i+1)%len(clip)]
			if (c.X-a.X)*(p.Y-a.Y)-(c.Y-a.Y)*(p.X-a.X) < 0 {
				return false
			}
		}
		return true
	}
	first := slices.IndexFunc(ring, func(p fold.Point) bool { return !inside(p) })
	if first < 0 {
		return nil
	}
	var out [][]fold.Point
	now := []fold.Point{}
	was := false // inside
	for k := range n {
		p, q := ring[(first+k)%n], ring[(first+k+1)%n]
		if !was {
			now = append(now, p)
		}
		t0, t1, meets := span(p, q, clip)
		if !meets || t1-t0 < 1e-12 {
			continue
		}
		at := func(t float64) fold.Point { return fold.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)} }
		if !was {
			out = append(out, append(now, at(t0)))
			was = true
		}
		if t1 < 1 {
			now, was = []fold.Point{at(t1)}, false
		}
	}
	if len(out) == 0 || was {
		return nil
	}
	out[0] = append(now, out[0]...) // the first began in the middle of its stretch
	return out
}

// clockwise is how far it is round a convex counterclockwise region from one
// place of its edge to another, that way.
func clockwise(clip []fold.Point, from, to fold.Point) float64 {
	var round float64
	place := func(p fold.Point) float64 { // counterclockwise from the first corner
		best, at, along := math.Inf(1), 0.0, 0.0
		for i, a := range clip {
			c := clip[(i+1)%len(clip)]
			if d := math.Abs(apart(a, p) + apart(p, c) - apart(a, c)); d < best {
				best, at = d, along+apart(a, p)
			}
			along += apart(a, c)
		}
		round = along
		return at
	}
	d := place(from) - place(to)
	if d < 0 {
		d += round
	}
	return d
}

// span is the part of a segment within a convex region, as fractions of it.
func span(p, q fold.Point, clip []fold.Point) (t0, t1 float64, ok bool) {
	t1 = 1
	for i, a := range clip {
		c := clip[(i+1)%len(clip)]
		nx, ny := -(c.Y - a.Y), c.X-a.X // inwards
		from := (p.X-a.X)*nx + (p.Y-a.Y)*ny
		by := (q.X-p.X)*nx + (q.Y-p.Y)*ny
		switch {
		case by > 0:
			t0 = math.Max(t0, -from/by)
		case by < 0:
			t1 = math.Min(t1, -from/by)
		case from < 0:
			return 0, 0, false
		}
	}
	return t0, t1, t0 < t1
}

// roundabout goes clockwise round a region from one place of its edge to another,
// both given, the second told too.
func roundabout(clip []fold.Point, from, to fold.Point) []fold.Point {
	n := len(clip)
	side := func(p fold.Point) int {
		best, at := math.Inf(1), 0
		for i, a := range clip {
			c := clip[(i+1)%n]
			d := math.Abs((c.X-a.X)*(p.Y-a.Y)-(c.Y-a.Y)*(p.X-a.X)) / apart(a, c)
			if d < best {
				best, at = d, i
			}
		}
		return at
	}
	i, j := side(from), side(to)
	var out []fold.Point
	// On one side, straight on only where the way is clockwise already.
	if i == j && apart(from, clip[i]) > apart(to, clip[i]) {
		return []fold.Point{to}
	}
	for {
		out = append(out, clip[i])
		i = (i + n - 1) % n
		if i == j {
			return append(out, to)
		}
	}
}
