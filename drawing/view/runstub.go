package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/plan"
)

// runStubLeg is the beginning of the neighbour's leg beyond a corner, on
// paper: its mold lines, clipped, and the miter between the two runs.
type runStubLeg struct {
	roofward    bool // it turns to the roof
	streetward  bool // or away from it
	absorb      bool
	name        string             // the neighbour
	front, rear drawing.Point      // ends of the miter
	edges       [2][]drawing.Point // front and rear mold lines, from the miter outwards; empty if clipped away
	box         drawing.Rect
}

// newRunStubLeg brings a neighbour's leg to paper at the left end; the right end
// is its mirror.
func newRunStubLeg(f *runFrame, e plan.End, left bool) *runStubLeg {
	end, at, dir := f.of.Cap.Real, f.x(f.of.Cap.Real), drawing.Unit(-1)
	if left {
		end, at, dir = 0, f.x(0), 1
	}
	// To paper, in hundredths of a millimetre from the corner point inwards.
	px := func(q plan.Pt) xy {
		return xy{float64(dir) * (q.X - end).MM() * 100 / float64(f.along.Ratio), q.Y.MM() * 100 / float64(f.cross.Ratio)}
	}
	bring := func(q xy) drawing.Point {
		return drawing.Pt(at+dir*drawing.Unit(math.Round(q.x)), drawing.Unit(math.Round(q.y)))
	}
	inner := px(plan.Pt{X: end, Y: e.Stub[1][0].Y})
	lo := xy{math.Min(0, e.Trim.MM()*100/float64(f.along.Ratio)) - float64(runStub), -float64(runStub)}
	hi := xy{1e7, inner.y + float64(runStub)}
	g := &runStubLeg{roofward: e.Roofward, streetward: e.Streetward, absorb: e.Absorb, name: e.Beyond}
	g.front, g.rear = bring(px(e.Stub[0][0])), bring(px(e.Stub[1][0]))
	for i, line := range e.Stub {
		if a, b, ok := clipWay(px(line[0]), px(line[1]), lo, hi); ok {
			g.edges[i] = []drawing.Point{bring(a), bring(b)}
		}
	}
	var pts []drawing.Point
	for _, e := range g.edges {
		pts = append(pts, e...)
	}
	g.box = drawing.BoundsOf([]drawing.Mark{drawing.Line{Pts: append(pts, g.front, g.rear)}})
	return g
}

// clipWay clips a segment to a box.
func clipWay(a, b, lo, hi xy) (xy, xy, bool) {
	t0, t1 := 0.0, 1.0
	for _, s := range [2][4]float64{{a.x, b.x, lo.x, hi.x}, {a.y, b.y, lo.y, hi.y}} {
		d := s[1] - s[0]
		if math.Abs(d) < 1e-9 {
			if s[0] < s[2] || s[0] > s[3] {
				return a, b, false
			}
			continue
		}
		u, v := (s[2]-s[0])/d, (s[3]-s[0])/d
		t0, t1 = math.Max(t0, math.Min(u, v)), math.Min(t1, math.Max(u, v))
	}
	if t0 >= t1 {
		return a, b, false
	}
	d := b.sub(a)
	return a.add(d.times(t0)), a.add(d.times(t1)), true
}

// draw draws the miter, the mold lines beyond it and the break line.
func (g *runStubLeg) draw(s *drawing.Scene) {
	if g == nil {
		return
	}
	if !g.absorb {
		s.Line(drawing.Medium, g.front, g.rear)
	}
	for _, e := range g.edges {
		if len(e) > 1 {
			s.Line(drawing.Thick, e...)
		}
	}
	if len(g.edges[0]) > 1 && len(g.edges[1]) > 1 {
		runBreak(s, g.edges[0][1], g.edges[1][1])
	}
}

// runQuad is a support under a miter on paper.
type runQuad struct {
	name string
	pts  []drawing.Point
	box  drawing.Rect
	out  drawing.Unit // the side the middle of the run lies on: 1 or -1
}

// supports are those under the miters at the ends the window shows.
func (p *runPlan) supports() []runQuad {
	var out []runQuad
	for _, s := range p.of.Supports {
		q := runQuad{name: runTag(s.Mark), out: 1}
		switch {
		case s.Right && p.rightStub != nil:
			q.out = -1
		case s.Right || p.leftStub == nil:
			continue
		}
		if p.leftStub != nil && p.rightStub != nil && runShort(p.of) {
			q.name = s.Mark // two corners stand on one short wall
		}
		for _, x := range s.Ring {
			q.pts = append(q.pts, p.at(x))
		}
		q.box = drawing.BoundsOf([]drawing.Mark{drawing.Line{Pts: q.pts}})
		out = append(out, q)
	}
	return out
}
