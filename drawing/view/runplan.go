package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Paper the plan of a run takes besides the wall itself: rows above and below,
// the reader and the scales; more where corners show their legs.
const (
	runPlanRows  = 5900
	runPlanLegs  = 1100
	runPlanStubs = 600
)

// RunAcross is the largest usual scale across the wall at which the plan of a
// run fits a height. A run with much to say (obstacles, labels that need
// leaders) takes somewhat more; the scene says how much.
func RunAcross(r *plan.Run, room drawing.Unit) Scale {
	rows := drawing.Unit(runPlanRows)
	if len(r.Branches) > 0 {
		rows += runPlanStubs
	}
	for _, e := range []plan.End{r.Left, r.Right} {
		if e.Corner && !e.Absorb {
			rows = max(rows, runPlanRows+runPlanLegs)
			if e.Outside {
				return runLargestFit(r.Metric, r.Outside, room-runPlanRows-runPlanLegs-runPlanStubs, 6, 16)
			}
		}
	}
	return runLargestFit(r.Metric, r.Outside, room-rows, 6, 16)
}

// runLargestFit is the largest usual scale between two ratios at which a
// length fits, the smaller of the two if none does.
func runLargestFit(metric bool, of length.Length, room drawing.Unit, largest, smallest int64) Scale {
	var last Scale
	for _, s := range Scales(metric) {
		if s.Ratio < largest || s.Ratio > smallest*5/4 { // 1:20 stands beside 1:16
			continue
		}
		last = s
		if s.Units(of) <= room {
			return s
		}
	}
	return last
}

// RunPlan draws a window of a run from above, the street at the top and the
// roof, where its reader stands, at the bottom: the wall as surveyed, the caps
// with their marks and joints, splice plates, chairs, fasteners, the layout
// string, obstacles and zones. Below stand the stations the crew tapes from
// one datum, above the zones and the legs of the corners.
func RunPlan(say words.Book, r *plan.Run, win Window, along, across Scale, width drawing.Unit) drawing.Scene {
	return runPlanOf(newRunFrame(say, r, win, along, runCross(r, along, across), width))
}

func runPlanOf(f *runFrame) drawing.Scene {
	r, win, width := f.of, f.win, f.width
	p := &runPlan{runFrame: f, deep: f.y(r.Outside)}
	p.pad.W = width
	p.stubs()
	p.pad.Group(drawing.Wall, "", p.wallBody)
	p.pad.Group(drawing.Obstacles, "", p.obstacles)
	p.pad.Group(drawing.Chairs, "", p.chairRects)
	p.pad.Group(drawing.Wall, "", p.wallFaces)
	p.pad.Group(drawing.Splices, "", p.plates)
	p.pad.Group(drawing.Fasteners, "", p.fasteners)
	p.pad.Group(drawing.Chairs, "", p.layoutString)
	p.pad.Group(drawing.Caps, "", p.caps)
	p.pad.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		low := drawing.Unit(-250)
		for _, q := range []*runStubLeg{p.leftStub, p.rightStub} {
			if q != nil && q.streetward {
				low = -runStub - 150
			}
		}
		p.legRows(g, low)
		p.legMarks = g.Marks
	})
	p.pad.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		p.letter(g, drawing.Box(0, -runPlanLanes, width, p.bottom()-60))
		p.placed = p.placer.Notes
	})
	top := p.above()
	bottom := p.below()
	return runScene(p.pad, "run-plan-"+r.Name+"-"+runCount(win.N), f.partWords(words.ViewPlanTitle, words.ViewPlanPart),
		f.say.Say(words.ViewPlanAbout, words.In("run", r.Name)), top, bottom)
}

// runPlanLanes is how far above the cap line labels may stand.
const runPlanLanes = 4000

// runScene moves what was drawn about the cap line on paper of its own.
func runScene(pad drawing.Scene, name, title, desc string, top, bottom drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: name, Title: title, Desc: desc, W: pad.W, H: bottom - top}
	s.Add(drawing.Translate(pad.Marks, drawing.Pt(0, -top))...)
	return s
}

// runPlan is a plan being drawn: paper y is 0 on the cap line.
type runPlan struct {
	*runFrame
	pad                 drawing.Scene
	deep                drawing.Unit // rear mold line
	leftStub, rightStub *runStubLeg
	placer              *place.Placer
	legMarks            []drawing.Mark // dimensions of the corner legs, above the caps
	lettered            []drawing.Mark // labels that stand
	wishes              []place.Wish   // labels that look for room on the street side
	early               []place.Wish   // labels that look for room before all others
	lost                []place.Wish   // labels that found no room
	bare                []int          // numbers of notes without a balloon on the drawing
}

// bottom is where the rows below may begin: clear of neighbours' legs.
func (p *runPlan) bottom() drawing.Unit {
	b := p.deep + 250
	for _, g := range []*runStubLeg{p.leftStub, p.rightStub} {
		if g != nil && g.roofward {
			b = p.deep + runStub + 150
		}
	}
	if len(p.teeStubs()) > 0 {
		b = p.deep + runStub + 150
	}
	return b
}

// stubs works out the neighbours' legs that show.
func (p *runPlan) stubs() {
	if p.of.Left.Corner && p.win.From <= 0 {
		p.leftStub = newRunStubLeg(p.runFrame, p.of.Left, true)
	}
	if p.of.Right.Corner && p.win.To >= p.of.Cap.Real {
		p.rightStub = newRunStubLeg(p.runFrame, p.of.Right, false)
	}
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
	ring := append([]drawing.Point{}, front...)
	for i := len(rear) - 1; i >= 0; i-- {
		ring = append(ring, rear[i])
	}
	g.Fill(drawing.Light, drawing.NoPen, ring...)
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

// chairBox is the room of a chair on paper, under a taper the mean one.
func (p *runPlan) chairBox(c plan.Chair) drawing.Rect {
	q := p.chairShape(c)
	return drawing.Box(q[0].X, q[0].Y, q[1].X, (q[2].Y+q[3].Y)/2)
}

// chairRects draws the chairs with ticks at their centres, and the supports
// under the miters.
func (p *runPlan) chairRects(g *drawing.Scene) {
	for _, q := range p.supports() {
		g.Fill(drawing.White, drawing.Medium, q.pts...)
	}
	for _, c := range p.chairs() {
		b, x := p.chairBox(c), p.x(c.At)
		g.Fill(drawing.White, drawing.Medium, p.chairShape(c)...)
		for _, web := range c.Webs {
			g.Line(drawing.Thin, p.at(web[0]), p.at(web[1]))
		}
		g.Line(drawing.Medium, drawing.Pt(x, b.Min.Y), drawing.Pt(x, b.Min.Y+250))
		g.Line(drawing.Medium, drawing.Pt(x, b.Max.Y-250), drawing.Pt(x, b.Max.Y))
	}
}

// fasteners are a cross in a circle each.
func (p *runPlan) fasteners(g *drawing.Scene) {
	for _, c := range p.chairs() {
		for _, h := range c.Holes {
			at := p.at(h)
			g.Circle(drawing.Thin, at, 55)
			g.Line(drawing.Thin, drawing.Pt(at.X-90, at.Y), drawing.Pt(at.X+90, at.Y))
			g.Line(drawing.Thin, drawing.Pt(at.X, at.Y-90), drawing.Pt(at.X, at.Y+90))
		}
	}
}

// plateBox is the splice or cover plate of a joint, a little clear of the cap's
// lines.
func (p *runPlan) plateBox(j plan.Joint) (drawing.Rect, bool) {
	b, ok := p.box(j.Plate)
	b.Min.Y, b.Max.Y = b.Min.Y+20, b.Max.Y-20
	return b, ok
}

// plates are hidden under the caps. A cover plate shows the side it is fixed
// on by two dots.
func (p *runPlan) plates(g *drawing.Scene) {
	for _, j := range p.joints() {
		b, ok := p.plateBox(j)
		if !ok {
			continue
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
	a, b := p.x(line[0].X), p.x(line[len(line)-1].X)
	if p.win.From > 0 {
		a = p.x(p.win.From)
	}
	if p.win.To < p.of.Cap.Real {
		b = p.x(p.win.To)
	}
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
func (p *runPlan) stringY() drawing.Unit { return max(p.y(p.stringBehind()), stringApart) }

// stringBehind is how far behind the cap line the string is stretched.
func (p *runPlan) stringBehind() length.Length {
	if len(p.of.String) == 0 {
		return 0
	}
	return p.of.String[0].Y
}

// caps draws the mold lines of the caps, their joints, miters and ends.
func (p *runPlan) caps(g *drawing.Scene) {
	for _, q := range p.of.Pieces {
		from, to, ok := p.cut(q.From, q.To)
		if !ok {
			continue
		}
		a, b := p.capEdge(q, from, false), p.capEdge(q, to, true)
		g.Line(drawing.Thick, drawing.Pt(a, 0), drawing.Pt(b, 0))
		ra, rb := a, b
		if q.From == 0 && p.leftStub != nil && !p.leftStub.absorb {
			ra = p.leftStub.rear.X
		}
		if q.To == p.of.Cap.Real && p.rightStub != nil && !p.rightStub.absorb {
			rb = p.rightStub.rear.X
		}
		if rear := p.rearLine(q, ra, rb); rb > ra {
			g.Line(drawing.Thick, rear...)
		}
		// Where the window cuts a part it shows no edge: the break line stands there.
		if from == q.From && (q.From > 0 || p.leftStub == nil || p.leftStub.absorb) {
			g.Line(p.edgePen(q.From == 0 && p.leftStub == nil), drawing.Pt(a, 0), drawing.Pt(a, p.y(q.Rear[0].Y)))
		}
		if to == q.To && (q.To < p.of.Cap.Real || p.rightStub == nil || p.rightStub.absorb) {
			g.Line(p.edgePen(q.To == p.of.Cap.Real && p.rightStub == nil), drawing.Pt(b, 0), drawing.Pt(b, p.y(q.Rear[len(q.Rear)-1].Y)))
		}
	}
	p.leftStub.draw(g)
	p.rightStub.draw(g)
	for _, t := range p.teeStubs() {
		g.Line(drawing.Thick, t[0], t[1])
		g.Line(drawing.Thick, t[2], t[3])
		runBreak(g, t[1], t[3])
	}
	p.runEnds(g)
	for _, x := range p.cuts() {
		runBreak(g, drawing.Pt(x, -250), drawing.Pt(x, p.deep+200))
	}
	for _, x := range p.matches() {
		g.Line(drawing.Match, drawing.Pt(x, -runMatchTop), drawing.Pt(x, -60))
		g.Line(drawing.Match, drawing.Pt(x, p.deep+60), drawing.Pt(x, p.bottom()))
	}
}

// rearLine is the rear mold line of a piece, from a to b on paper: its ends stand
// apart at joints that would print too narrow.
func (p *runPlan) rearLine(q plan.Piece, a, b drawing.Unit) []drawing.Point {
	out := p.seen(q.Rear)
	if n := len(out); n > 0 {
		out[0].X, out[n-1].X = a, b
	}
	return out
}

const runMatchTop = 750

func (p *runPlan) edgePen(end bool) drawing.Pen {
	if end {
		return drawing.Thick
	}
	return drawing.Medium
}

// capEdge is the place of a part's end on paper: where the joint would print
// narrower than can be drawn, its two edges stand apart as a symbol.
func (p *runPlan) capEdge(q plan.Piece, at length.Length, right bool) drawing.Unit {
	x := p.x(at)
	for _, j := range p.of.Joints {
		gap := p.along.Units(j.Gap.Real)
		if gap >= runTrueJ {
			continue
		}
		c := p.x(j.Centre)
		if right && at == j.From {
			return c - runTrueJ/2
		}
		if !right && at == j.To {
			return c + runTrueJ/2
		}
	}
	// The joint of a kink at the left belongs to the run before.
	if !right && at == q.From && p.leftStub != nil && p.leftStub.absorb {
		return max(x, p.x(0)+runTrueJ/2)
	}
	return x
}

// runBreak is a break line: straight with a jog in the middle.
func runBreak(g *drawing.Scene, a, b drawing.Point) {
	at := func(k, side drawing.Unit) drawing.Point {
		return drawing.Pt(a.X+(b.X-a.X)*k/100, a.Y+(b.Y-a.Y)*k/100).Add(side90(a, b, side))
	}
	g.Line(drawing.Thin, a, at(46, 0), at(48, 100), at(52, -100), at(54, 0), b)
}

// side90 is a step at right angles to the way from a to b, along an axis.
func side90(a, b drawing.Point, d drawing.Unit) drawing.Point {
	dx, dy := b.X-a.X, b.Y-a.Y
	if max(dx, -dx) > max(dy, -dy) {
		return drawing.Pt(0, d)
	}
	return drawing.Pt(d, 0)
}

// runEnds draws the higher wall a run dies into.
func (p *runPlan) runEnds(g *drawing.Scene) {
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
