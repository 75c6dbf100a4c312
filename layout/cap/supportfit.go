package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
)

// OutUnder is how far a support stands out under the legs of the piece over it: the
// greatest depth to which its outline crosses the inner face of a front or a rear leg.
// Nothing or less: it lies between them.
func (p SupportPlace) OutUnder(s *job.System, m Seam) length.Length {
	t := s.Metal.Thickness.MM()
	rear := [2]float64{t + m.Inside[0].MM(), t + m.Inside[1].MM()} // inner faces of the rear legs behind the cap line
	sin, cos := math.Sincos(p.Corner.CapTurn.Degrees() * math.Pi / 180)
	// On the side that both runs turn away from, metal is wherever either face is
	// crossed; on the other, only where both are.
	either, both := math.Max, math.Min
	front, back, notch := either, both, rear
	if !p.Corner.Outside() {
		front, back, notch = both, either, [2]float64{t, t}
	}
	out := math.Inf(-1)
	for _, v := range p.Quad {
		y := [2]float64{v.y, v.y*cos - v.x*sin}
		out = math.Max(out, front(t-y[0], t-y[1]))
		out = math.Max(out, back(y[0]-rear[0], y[1]-rear[1]))
	}
	if math.Abs(sin) > 1e-9 { // where the faces of the other side meet, they stand into the outline between its corners
		out = math.Max(out, p.Quad.within(vec{(notch[0]*cos - notch[1]) / sin, notch[0]}))
	}
	return length.FromMM(out)
}

// within is how deep a point lies in a quad, behind its nearest side; less than nothing
// outside it.
func (q Quad) within(at vec) float64 {
	deep := math.Inf(1)
	area := 0.0
	for i, a := range q {
		b := q[(i+1)%len(q)]
		area += a.x*b.y - b.x*a.y
	}
	for i, a := range q {
		b := q[(i+1)%len(q)]
		e := vec{b.x - a.x, b.y - a.y}
		left := (e.x*(at.y-a.y) - e.y*(at.x-a.x)) / math.Hypot(e.x, e.y)
		deep = math.Min(deep, math.Copysign(1, area)*left)
	}
	return deep
}
