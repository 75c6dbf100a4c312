package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// runStubLeg is the beginning of the neighbour's leg beyond a corner, on
// paper: its mold lines, clipped, and the miter between the two runs.
type runStubLeg struct {
	turn        job.Angle
	absorb      bool
	name        string             // the neighbour
	front, rear drawing.Point      // ends of the miter
	edges       [2][]drawing.Point // front and rear mold lines, from the miter outwards; empty if clipped away
	box         drawing.Rect
}

// newRunStubLeg works a neighbour's leg out at the left end; the right end is
// its mirror. Seen from the corner point the neighbour runs off at the turn:
// its mold lines are parallel, the rear one begins at the inner end of the
// miter.
func newRunStubLeg(f *runFrame, c *layout.Corner, left bool) *runStubLeg {
	turn := c.CapTurn.Degrees() * math.Pi / 180
	sin, cos := cut9(math.Sin(turn)), cut9(math.Cos(turn))
	end := length.Length(0)
	if !left {
		end = f.r.Cap
	}
	w := f.r.OutsideAt(end).MM()
	trim := layout.MiterTrimOf(f.r, c).MM()
	far := 20*w + 5000
	// To paper, in hundredths of a millimetre.
	px := func(x, y float64) xy { return xy{x * 100 / float64(f.along.Ratio), y * 100 / float64(f.cross.Ratio)} }
	lo := xy{math.Min(0, px(trim, 0).x) - float64(runStub), -float64(runStub)}
	hi := xy{1e7, px(0, w).y + float64(runStub)}
	g := &runStubLeg{turn: c.CapTurn, absorb: c.Absorb, name: c.Arrive.Name}
	at, dir := f.x(0), drawing.Unit(1)
	if !left {
		at, dir, g.name = f.x(f.r.Cap), -1, c.Leave.Name
	}
	bring := func(q xy) drawing.Point {
		return drawing.Pt(at+dir*drawing.Unit(math.Round(q.x)), drawing.Unit(math.Round(q.y)))
	}
	front, rear := px(0, 0), px(trim, w)
	g.front, g.rear = bring(front), bring(rear)
	if g.absorb { // no miter: the neighbour goes straight on, as good as
		g.rear.X = g.front.X
		rear.x = 0
	}
	for i, from := range []xy{front, rear} {
		to := from.add(px(-cos*far, sin*far))
		if a, b, ok := clipWay(from, to, lo, hi); ok {
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

// cut9 cuts to nine decimals, so that every processor draws the same line.
func cut9(v float64) float64 { return math.Round(v*1e9) / 1e9 }

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
		if p.leftStub != nil && p.rightStub != nil && runShort(p.r) {
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
