package outline

import (
	"math"

	"copingset/layout/length"
)

// vec is a place or a way in plan, in millimetres east and north.
type vec struct{ x, y float64 }

func (p Point) vec() vec { return vec{p.East.MM(), p.North.MM()} }

func (v vec) point() Point { return Point{length.FromMM(v.x), length.FromMM(v.y)} }

func (v vec) add(o vec) vec          { return vec{v.x + o.x, v.y + o.y} }
func (v vec) sub(o vec) vec          { return vec{v.x - o.x, v.y - o.y} }
func (v vec) times(f float64) vec    { return vec{v.x * f, v.y * f} }
func (v vec) dot(o vec) float64      { return v.x*o.x + v.y*o.y }
func (v vec) cross(o vec) float64    { return v.x*o.y - v.y*o.x }
func (v vec) long() float64          { return math.Hypot(v.x, v.y) }
func (v vec) distance(o vec) float64 { return v.sub(o).long() }

// bearing is the compass direction of a way, in degrees from north over east.
func (v vec) bearing() float64 {
	b := math.Atan2(v.x, v.y) * 180 / math.Pi
	if b < 0 {
		b += 360
	}
	return b
}

// ahead is a way of one millimetre in a bearing.
func ahead(degrees float64) vec {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return vec{s, c}
}

// fromSegment is the distance of a point from a segment.
func fromSegment(p, a, b vec) float64 {
	d := b.sub(a)
	n := d.dot(d)
	if n == 0 {
		return p.distance(a)
	}
	t := math.Max(0, math.Min(1, p.sub(a).dot(d)/n))
	return p.distance(a.add(d.times(t)))
}

// area of a ring, positive where it runs counter-clockwise seen from above: the
// trapezoid formula.
func area(v []vec) float64 {
	var sum float64
	for i, a := range v {
		sum += a.cross(v[(i+1)%len(v)])
	}
	return sum / 2
}

// inside says whether a point lies in a ring: crossings of a ray to the east.
func inside(p vec, ring []vec) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}

// meet says whether two segments cross or touch, and where.
func meet(a, b, c, d vec) (vec, bool) {
	r, s := b.sub(a), d.sub(c)
	den := r.cross(s)
	if den == 0 { // parallel: they meet where they lie on each other
		if r.cross(c.sub(a)) != 0 {
			return vec{}, false
		}
		for _, p := range []vec{c, d} {
			if fromSegment(p, a, b) == 0 {
				return p, true
			}
		}
		if fromSegment(a, c, d) == 0 {
			return a, true
		}
		return vec{}, false
	}
	t, u := c.sub(a).cross(s)/den, c.sub(a).cross(r)/den
	if t < 0 || t > 1 || u < 0 || u > 1 {
		return vec{}, false
	}
	return a.add(r.times(t)), true
}

// facets are the points on an arc between its ends, so many that no chord lies
// farther than chord from the arc: a facet of angle 2·acos(1 - chord/radius). sweep
// is positive counter-clockwise.
func facets(centre vec, radius, from, sweep, chord float64) []vec {
	step := math.Pi / 2
	if chord < radius {
		step = math.Min(step, 2*math.Acos(1-chord/radius))
	}
	n := int(math.Ceil(math.Abs(sweep)/step - 1e-9))
	var out []vec
	for i := 1; i < n; i++ {
		s, c := math.Sincos(from + sweep*float64(i)/float64(n))
		out = append(out, centre.add(vec{c, s}.times(radius)))
	}
	return out
}

// bulged are the facets of a polyline's arc between two of its vertices. The bulge
// is the tangent of a quarter of the arc's angle, positive counter-clockwise (DXF
// reference, group code 42).
func bulged(a, b vec, bulge, chord float64) []vec {
	d := b.sub(a)
	l := d.long()
	if bulge == 0 || l == 0 {
		return nil
	}
	sweep := 4 * math.Atan(bulge)
	radius := math.Abs(l / 2 / math.Sin(sweep/2))
	// The centre lies on the chord's perpendicular bisector, to its left for an arc
	// that turns left.
	off := l / 2 / math.Tan(sweep/2)
	centre := a.add(b).times(0.5).add(vec{-d.y / l, d.x / l}.times(off))
	from := math.Atan2(a.y-centre.y, a.x-centre.x)
	return facets(centre, radius, from, sweep, chord)
}
