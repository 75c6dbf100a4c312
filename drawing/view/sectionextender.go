package view

import (
	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
)

// extender is the separate piece below a leg, in the section's own heights.
type extender struct {
	layout.Extender
	x, top, foot float64
}

// hanging lists the extenders of a run, front first.
func hanging(l *layout.Layout, r *layout.Run) []layout.Extender {
	var out []layout.Extender
	for _, f := range []job.Face{job.Front, job.Rear} {
		if e, ok := l.ExtenderOn(r, f); ok {
			out = append(out, e)
		}
	}
	return out
}

// extenders are the pieces that the faces of this run ask for: behind the leg
// by the job's lap, and on to the depth that a taller leg would reach.
func (s *section) extenders() []extender {
	p := &s.p
	var out []extender
	for _, e := range s.hang {
		x, fold := (p.t+p.face)/2, p.foldF
		if e.Face == job.Rear {
			x, fold = (p.back+p.t+p.inside)/2, p.foldR
		}
		foot := fold + e.Leg.MM()
		out = append(out, extender{e, x, foot - e.Height.MM(), foot})
	}
	return out
}

// hangers draws the extenders; their shape is the fabricator's.
func (s *section) hangers(g *drawing.Scene, m paperMap) {
	for _, e := range s.extenders() {
		g.Line(drawing.Thick, m.all(xy{e.x, e.top}, xy{e.x, e.foot})...)
	}
}

// extenderItems list them, with their standing.
func (s *section) extenderItems() []sectionKey {
	var out []sectionKey
	for _, e := range s.extenders() {
		side, where := "front", atFront
		if e.Face == job.Rear {
			side, where = "rear", atRear
		}
		out = append(out, sectionKey{tip: xy{e.x, e.foot - 0.2*e.Height.MM()}, where: where,
			words: "extender piece below the " + side + " leg, separate, " + s.short(e.Height) + " high with its lap; leg tested up to " + s.short(e.Tested) + " to " + e.To.String() +
				", " + s.short(e.Leg) + " would be needed; shape in principle, fastening by others: HOLD"})
	}
	return out
}
