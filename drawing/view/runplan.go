package view

import (
	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// runPlan draws a window of a run from above, the street at the top and the roof,
// where its reader stands, at the bottom. Paper y is 0 on the cap line. Corners,
// supports and screws are symbols or left out: their true shape stands on the second
// sheet of the run.
type runPlan struct {
	*runFrame
	deep drawing.Unit // rear mold line
}

func newRunPlan(f runFrame, across stretched) *runPlan {
	f.cross = across
	return &runPlan{runFrame: &f, deep: across.Units(f.of.Outside)}
}

// draw draws the plan.
func (p *runPlan) draw(s *drawing.Scene) {
	s.Group(drawing.Wall, "", p.wallBody)
	s.Group(drawing.Obstacles, "", p.obstacles)
	s.Group(drawing.Chairs, "", p.chairRects)
	s.Group(drawing.Wall, "", p.wallFaces)
	s.Group(drawing.Splices, "", p.plates)
	s.Group(drawing.Chairs, "", p.layoutString)
	s.Group(drawing.Caps, "", p.caps)
}

// over and under are how far the plan reaches beyond the cap line and the rear mold
// line: the symbols of neighbours and branches.
func (p *runPlan) over() drawing.Unit {
	for _, e := range p.ends() {
		if e.Streetward && !e.Absorb {
			return runStub
		}
	}
	return 200
}

func (p *runPlan) under() drawing.Unit {
	if len(p.branches()) > 0 {
		return runStub
	}
	for _, e := range p.ends() {
		if e.Roofward && !e.Absorb {
			return runStub
		}
	}
	return 200
}

// ends are those of the run that the window shows.
func (p *runPlan) ends() []plan.End {
	var out []plan.End
	if p.win.From <= 0 {
		out = append(out, p.of.Left)
	}
	if p.win.To >= p.of.Cap.Real {
		out = append(out, p.of.Right)
	}
	return out
}

// seen is what the window shows of a line along the run.
func (p *runPlan) seen(of []plan.Pt) []drawing.Point { return p.line(of, p.at) }

// at is a place of the run on paper.
func (p *runPlan) at(q plan.Pt) drawing.Point { return drawing.Pt(p.x(q.X), p.y(q.Y)) }

// box is what the window shows of an upright rectangle.
func (p *runPlan) box(r plan.Ring) (drawing.Rect, bool) {
	lo, hi := r.Bounds()
	from, to, ok := p.cut(lo.X, hi.X)
	if !ok {
		return drawing.Rect{}, false
	}
	return drawing.Box(p.x(from), p.y(lo.Y), p.x(to), p.y(hi.Y)), true
}

// wallBody tints the wall top, so that its bow shows against the straight cap.
func (p *runPlan) wallBody(g *drawing.Scene) {
	front, rear := p.seen(p.of.Street), p.seen(p.of.Roof)
	if len(front) < 2 || len(rear) < 2 {
		return
	}
	g.Fill(drawing.Light, drawing.NoPen, band(front, rear)...)
	for _, e := range p.of.Gaps {
		if q, ok := p.box(e.Ring); ok {
			if q.Width() < runTrueJ {
				mid := q.Min.X + q.Max.X
				q.Min.X, q.Max.X = (mid-runTrueJ)/2, (mid+runTrueJ)/2
			}
			g.Fill(drawing.White, drawing.NoPen, q.Corners()...)
			g.Line(drawing.Medium, q.Min, drawing.Pt(q.Min.X, q.Max.Y))
			g.Line(drawing.Medium, drawing.Pt(q.Max.X, q.Min.Y), q.Max)
		}
	}
}

// wallFaces draws both faces, with a tick on the roof side at every reading.
func (p *runPlan) wallFaces(g *drawing.Scene) {
	for _, face := range [][]plan.Pt{p.of.Street, p.of.Roof} {
		if pts := p.seen(face); len(pts) > 1 {
			g.Line(drawing.Medium, pts...)
		}
	}
	for _, q := range p.of.Read {
		if p.shows(q.X) {
			at := p.at(q)
			g.Line(drawing.Thin, at.Add(drawing.Pt(0, -110)), at.Add(drawing.Pt(0, 30)))
		}
	}
}

// obstacles are boxed and crossed.
func (p *runPlan) obstacles(g *drawing.Scene) {
	for _, o := range p.of.Obstacles {
		if b, ok := p.box(o.Ring); ok {
			g.Fill(drawing.Mid, drawing.Medium, b.Corners()...)
			g.Line(drawing.Medium, b.Min, b.Max)
			g.Line(drawing.Medium, drawing.Pt(b.Min.X, b.Max.Y), drawing.Pt(b.Max.X, b.Min.Y))
		}
	}
}

// chairShape is a chair on paper. Its front edge stands on the string, wherever
// that is drawn.
func (p *runPlan) chairShape(c plan.Chair) []drawing.Point {
	var out []drawing.Point
	lo, _ := c.Ring.Bounds()
	for _, q := range c.Ring {
		at := p.at(q)
		if q.Y == lo.Y {
			at.Y = p.stringY()
		}
		out = append(out, at)
	}
	return out
}

// chairRects draws the chairs with ticks at their centres, and the supports under
// the miters as symbols.
func (p *runPlan) chairRects(g *drawing.Scene) {
	for _, s := range p.of.Supports {
		lo, hi := s.Ring.Bounds()
		mid := plan.Pt{X: lo.X + (hi.X-lo.X)/2, Y: lo.Y + (hi.Y-lo.Y)/2}
		if s.Right && p.win.To < p.of.Cap.Real || !s.Right && p.win.From > 0 {
			continue
		}
		at := p.at(mid)
		const half = 130
		g.Fill(drawing.White, drawing.Medium, at.Add(drawing.Pt(0, -half)), at.Add(drawing.Pt(half, 0)),
			at.Add(drawing.Pt(0, half)), at.Add(drawing.Pt(-half, 0)))
	}
	for _, c := range p.chairs() {
		q, x := p.chairShape(c), p.x(c.At)
		g.Fill(drawing.White, drawing.Medium, q...)
		g.Line(drawing.Medium, drawing.Pt(x, q[0].Y), drawing.Pt(x, q[0].Y+250))
		low := (q[2].Y + q[3].Y) / 2
		g.Line(drawing.Medium, drawing.Pt(x, low-250), drawing.Pt(x, low))
	}
}

// plates are hidden under the caps. A cover plate shows the side it is fixed
// on by two dots. One that would print too narrow is a symbol of that width.
func (p *runPlan) plates(g *drawing.Scene) {
	for _, j := range p.joints() {
		b, ok := p.box(j.Plate)
		if !ok {
			continue
		}
		b.Min.Y, b.Max.Y = b.Min.Y+20, b.Max.Y-20
		if c := p.x(j.Centre); b.Width() < 3*runTrueJ {
			b.Min.X, b.Max.X = c-3*runTrueJ/2, c+3*runTrueJ/2
		}
		g.Rect(drawing.Hidden, b)
		if j.Kind != plan.ExpansionJoint {
			continue
		}
		x := (p.x(j.From) + b.Min.X) / 2
		if j.Held == plan.RightHand {
			x = (p.x(j.To) + b.Max.X) / 2
		}
		for _, k := range []drawing.Unit{1, 3} {
			g.Dot(drawing.Pt(x, b.Min.Y+b.Height()*k/4), 70, drawing.Black)
		}
	}
}

// layoutString is the line the chairs' front edges follow.
func (p *runPlan) layoutString(g *drawing.Scene) {
	line := p.of.String
	if len(line) == 0 {
		return
	}
	a, b := p.x(length.Max(line[0].X, p.lo())), p.x(length.Min(line[len(line)-1].X, p.hi()))
	if b > a {
		y := p.stringY()
		g.Line(drawing.String, drawing.Pt(a, y), drawing.Pt(b, y))
	}
}

// stringApart is the least distance on paper at which the string can be told
// from the thick line of the cap.
const stringApart drawing.Unit = 95

// stringY is the string on paper. Where it would vanish in the line of the cap
// it is a symbol, drawn apart, and the chairs' front edges with it.
func (p *runPlan) stringY() drawing.Unit {
	if len(p.of.String) == 0 {
		return stringApart
	}
	return max(p.y(p.of.String[0].Y), stringApart)
}

// caps draws the mold lines of the caps, their joints and ends.
func (p *runPlan) caps(g *drawing.Scene) {
	n := len(p.of.Pieces)
	for i, q := range p.of.Pieces {
		from, to, ok := p.cut(q.From, q.To)
		if !ok {
			continue
		}
		a, b := p.edge(from, false), p.edge(to, true)
		g.Line(drawing.Thick, drawing.Pt(a, 0), drawing.Pt(b, 0))
		rear := p.seen(q.Rear)
		if k := len(rear); k > 0 {
			rear[0].X, rear[k-1].X = a, b
			if i == 0 && from == q.From {
				rear[0].X += p.miter(p.of.Left)
			}
			if i == n-1 && to == q.To {
				rear[k-1].X -= p.miter(p.of.Right)
			}
			g.Line(drawing.Thick, rear...)
		}
		// Where the window cuts a part it shows no edge: the break line stands there.
		if from == q.From && (i > 0 || p.miter(p.of.Left) == 0) {
			g.Line(p.edgePen(i == 0), drawing.Pt(a, 0), drawing.Pt(a, p.y(q.Rear[0].Y)))
		}
		if to == q.To && (i < n-1 || p.miter(p.of.Right) == 0) {
			g.Line(p.edgePen(i == n-1), drawing.Pt(b, 0), drawing.Pt(b, p.y(q.Rear[len(q.Rear)-1].Y)))
		}
	}
	if p.win.From <= 0 {
		p.corner(g, p.of.Left, p.x(0), 1)
	}
	if p.win.To >= p.of.Cap.Real {
		p.corner(g, p.of.Right, p.x(p.of.Cap.Real), -1)
	}
	p.branchStubs(g)
	p.higherWalls(g)
	for _, x := range p.cuts() {
		runBreak(g, drawing.Pt(x, -150), drawing.Pt(x, p.deep+150))
	}
	for _, x := range p.matches() {
		g.Line(drawing.Match, drawing.Pt(x, -200), drawing.Pt(x, -60))
		g.Line(drawing.Match, drawing.Pt(x, p.deep+60), drawing.Pt(x, p.deep+200))
	}
}

func (p *runPlan) edgePen(end bool) drawing.Pen {
	if end {
		return drawing.Thick
	}
	return drawing.Medium
}

// miterWide is how wide the symbol of a corner is.
const miterWide drawing.Unit = 350

// miter is how much shorter than the front mold line the rear one is drawn at an end:
// a symbol of a corner, the other way at one that turns away from the roof.
func (p *runPlan) miter(e plan.End) drawing.Unit {
	switch {
	case !e.Corner || e.Absorb || e.Break.Word != "":
		return 0
	case e.Streetward:
		return -miterWide
	}
	return miterWide
}

// corner draws the symbol of a corner: the miter, and the next run's two mold lines
// with a break, the way the wall goes. dir is 1 at the left end.
func (p *runPlan) corner(g *drawing.Scene, e plan.End, x, dir drawing.Unit) {
	m := p.miter(e)
	if m == 0 {
		return
	}
	front, rear := drawing.Pt(x, 0), drawing.Pt(x+dir*m, p.deep)
	g.Line(drawing.Medium, front, rear)
	end := p.deep + runStub
	if m < 0 {
		end = -runStub
	}
	a, b := drawing.Pt(front.X, end), drawing.Pt(rear.X, end)
	g.Line(drawing.Thick, front, a)
	g.Line(drawing.Thick, rear, b)
	runBreak(g, a, b)
}

// branches are the branches that show whole in the window of their main.
func (p *runPlan) branches() []plan.Branch {
	var out []plan.Branch
	for _, t := range p.of.Branches {
		if t.Left.X > p.win.From && t.Right.X < p.win.To {
			out = append(out, t)
		}
	}
	return out
}

// branchStubs draws the two sides of each branch from the main's rear mold line.
func (p *runPlan) branchStubs(g *drawing.Scene) {
	for _, t := range p.branches() {
		a, b := p.at(t.Left), p.at(t.Right)
		down := drawing.Pt(0, runStub)
		g.Line(drawing.Thick, a, a.Add(down))
		g.Line(drawing.Thick, b, b.Add(down))
		runBreak(g, a.Add(down), b.Add(down))
	}
}

// higherWalls draws the higher wall a run dies into.
func (p *runPlan) higherWalls(g *drawing.Scene) {
	wall := func(face, dir drawing.Unit) {
		b := drawing.Box(face, -200, face+dir*500, p.deep+200)
		g.Hatch(drawing.Masonry, drawing.NoPen, b.Corners()...)
		g.Line(drawing.Medium, drawing.Pt(face, b.Min.Y), drawing.Pt(face, b.Max.Y))
	}
	if p.win.From <= 0 && p.of.Left.Kind == plan.EndWall {
		wall(p.x(p.of.FrontFrom), -1)
	}
	if p.win.To >= p.of.Cap.Real && p.of.Right.Kind == plan.EndWall {
		wall(p.x(p.of.FrontTo), 1)
	}
}

// datum is the small circle at the mark that stations start at.
func (p *runPlan) datum(g *drawing.Scene) {
	if at := p.of.Datum.At; p.shows(at.X) {
		g.Add(drawing.Arc{Pen: drawing.Medium, Centre: p.at(at), R: 110, To: 3600, Fill: drawing.White})
	}
}
