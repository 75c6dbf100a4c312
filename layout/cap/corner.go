package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// MiterTrim is how much shorter the rear mold line of a leg is than its front
// at a miter: width x tan(turn/2), the joint plane bisecting the turn. It is
// negative at an inside corner. It does not depend on height, because the
// plane of a miter in plan is plumb.
func MiterTrim(width length.Length, turn job.Angle) length.Length {
	return length.FromMM(width.MM() * math.Tan(turn.Degrees()*math.Pi/360))
}

// vec is a place in plan near a corner in millimetres: origin at the cap
// line's corner point, x along the arriving run, y towards its roof.
type vec struct{ x, y float64 }

// Quad is a rectangle in plan near a corner, corner points in order.
type Quad [4]vec

// SupportPlace is a corner support: centre along the miter.
type SupportPlace struct {
	Corner *wall.Corner
	Quad   Quad
	X, Y   length.Length // centre, in the corner's frame
	Along  float64       // degrees of its long axis, clockwise from the arriving run
}

// At returns a corner of a quad in the corner's frame.
func (q Quad) At(i int) (x, y length.Length) { return length.FromMM(q[i].x), length.FromMM(q[i].y) }

// ToLeaving turns a quad from a corner's frame into the leaving run's own: x
// along its cap line from the corner point, y towards its roof.
func (q Quad) ToLeaving(turn job.Angle) Quad {
	s, c := math.Sincos(turn.Degrees() * math.Pi / 180)
	for i, v := range q {
		q[i] = vec{v.x*c + v.y*s, v.y*c - v.x*s}
	}
	return q
}

// Shift moves a quad along x.
func (q Quad) Shift(dx length.Length) Quad {
	for i := range q {
		q[i].x += dx.MM()
	}
	return q
}

// arriving places a rectangle on the arriving run: u from the corner point
// back along the cap line, y from the cap line.
func arriving(u0, u1, y0, y1 length.Length) Quad {
	a, b, c, d := -u1.MM(), -u0.MM(), y0.MM(), y1.MM()
	return Quad{{a, c}, {b, c}, {b, d}, {a, d}}
}

// leaving places a rectangle on the leaving run, turned with it.
func leaving(u0, u1, y0, y1 length.Length, turn job.Angle) Quad {
	s, c := math.Sincos(turn.Degrees() * math.Pi / 180)
	at := func(u, y length.Length) vec {
		return vec{u.MM()*c - y.MM()*s, u.MM()*s + y.MM()*c}
	}
	return Quad{at(u0, y0), at(u1, y0), at(u1, y1), at(u0, y1)}
}

// Supports places the supports under a miter, by the tier its wider leg asks
// for.
func Supports(s *job.System, m Seam) []SupportPlace {
	c := m.Corner
	if c.Absorb || c.Straight() {
		return nil
	}
	inside := length.Max(m.Inside[0], m.Inside[1])
	var at []int
	for _, t := range s.Corner.Supports {
		at = t.At
		if inside <= t.WidthTo {
			break
		}
	}
	outside, other := m.Inside[0]+2*s.Metal.Thickness, m.Inside[1]+2*s.Metal.Thickness
	// The miter runs from the outer corner point to where the rear mold lines meet.
	ex, ey := -outside.MM()*PerWidth(outside, other, c.CapTurn), outside.MM()
	n := math.Hypot(ex, ey)
	ux, uy := ex/n, ey/n
	l, w := s.Corner.Support.Length.MM()/2, s.Corner.Support.Width.MM()/2
	var out []SupportPlace
	for _, f := range at {
		cx, cy := ex*float64(f)/1000, ey*float64(f)/1000
		corner := func(a, b float64) vec { return vec{cx + a*ux - b*uy, cy + a*uy + b*ux} }
		out = append(out, SupportPlace{
			Corner: c, Quad: Quad{corner(-l, -w), corner(l, -w), corner(l, w), corner(-l, w)},
			X: length.FromMM(cx), Y: length.FromMM(cy), Along: math.Atan2(uy, ux) * 180 / math.Pi,
		})
	}
	return out
}

// Overlap tells whether two convex quads overlap by more than a hair
// (separating axes).
func Overlap(a, b Quad) bool {
	for _, pair := range [2][2]Quad{{a, b}, {b, a}} {
		p, q := pair[0], pair[1]
		for i := range p {
			e := vec{p[(i+1)%4].x - p[i].x, p[(i+1)%4].y - p[i].y}
			k := math.Hypot(e.x, e.y)
			n := vec{-e.y / k, e.x / k}
			lo1, hi1 := span(p, n)
			lo2, hi2 := span(q, n)
			if hi1 <= lo2+1e-6 || hi2 <= lo1+1e-6 {
				return false
			}
		}
	}
	return true
}

func span(q Quad, n vec) (lo, hi float64) {
	for i, v := range q {
		d := v.x*n.x + v.y*n.y
		if i == 0 {
			lo, hi = d, d
		}
		lo, hi = math.Min(lo, d), math.Max(hi, d)
	}
	return lo, hi
}

// ChairOn is a chair in plan near one of its run's corners, in the corner's
// frame: from and to are distances from the corner point along the cap line.
func ChairOn(s *job.System, c *wall.Corner, onLeaving bool, inside, from, to length.Length) Quad {
	y0, y1 := ChairLine(s), ChairRear(s, inside)
	if onLeaving {
		return leaving(from, to, y0, y1, c.CapTurn)
	}
	return arriving(from, to, y0, y1)
}
