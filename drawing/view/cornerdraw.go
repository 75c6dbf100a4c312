package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// cornerDrawing draws a corner at one scale.
type cornerDrawing struct {
	*corner
	m paperMap
	c *place.Placer
	s drawing.Scene

	lost  []string            // words that found no room on the drawing
	inLeg map[string]standing // the letters of the hands that stand in their legs; look-up only
}

// cornerMargin is the room round a corner that its words may use.
const cornerMargin = 34 * drawing.MM

// hiddenHalf is what lettering keeps off a hidden line, if it does not cover it.
const hiddenHalf drawing.Unit = 20

// What lettering keeps off lines, and how far it stands above its own.
const (
	besideLine drawing.Unit = 70
	aboveLine  drawing.Unit = 100
)

// stub is how much of the neighbouring cap is shown beyond a joint, on paper.
const stub = 12

// tightEdge is the room along the edges of a tight drawing for what its
// lettering brings along: the ends of lines, and circles.
const tightEdge = 3 * drawing.MM

// draw draws the piece at a scale. Its words stand in a margin round it, which
// is narrower where the room given is.
func (c *corner) draw(ratio float64, room drawing.Point) ([]drawing.Mark, []string) {
	d := &cornerDrawing{corner: c, m: paperMap{ratio: ratio}}
	b := d.body()
	within := func(have, need drawing.Unit) drawing.Unit {
		if room == (drawing.Point{}) {
			return cornerMargin
		}
		return min(cornerMargin, max(0, (have-need)/2-tightEdge))
	}
	x, y := within(room.X, b.Width()), within(room.Y, b.Height())
	d.c = place.New(drawing.Box(b.Min.X-x, b.Min.Y-y, b.Max.X+x, b.Max.Y+y))
	d.s.Group(drawing.Wall, "", d.wall)
	d.s.Group(drawing.Chairs, "", d.chairs)
	d.s.Group(drawing.Splices, "", d.plates)
	d.s.Group(drawing.Caps, "", d.caps)
	d.s.Group(drawing.Chairs, "", d.strings)
	d.s.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		for i := range d.p.Miters {
			d.angleLines(g, i)
		}
		d.dims(g)
	})
	d.s.Group(drawing.Lettering, "", d.letters)
	return d.s.Marks, d.lost
}

// body is the box the piece takes with what shows of its neighbours.
func (d *cornerDrawing) body() drawing.Rect {
	var e extent
	for _, g := range d.legs {
		a, b := d.reach(g)
		e.hold(g.at(a, 0), g.at(b, 0), g.at(a, g.wide), g.at(b, g.wide))
	}
	lo, hi := d.m.at(e.lo), d.m.at(e.hi)
	return drawing.Box(lo.X, lo.Y, hi.X, hi.Y)
}

// least is the room a drawing takes at a scale, its words left out.
func (c *corner) least(ratio float64) (w, h drawing.Unit) {
	d := &cornerDrawing{corner: c, m: paperMap{ratio: ratio}}
	b := d.body()
	return b.Width(), b.Height()
}

// real brings a distance on paper to the building.
func (d *cornerDrawing) real(mm float64) float64 { return mm * d.m.ratio }

// ends of a leg beyond which a neighbour goes on: how far the drawing of the
// wall reaches past the leg.
func (d *cornerDrawing) reach(g cornerLeg) (a, b float64) {
	a, b = 0, g.long
	if d.tees() && !g.atLeft {
		return d.branchReach(g, d.real(stub))
	}
	if g.atLeft && d.left != nil {
		a = -d.left.Gap().MM() - d.real(stub)
	}
	if g.atEnd && d.right != nil {
		b = g.long + d.right.Gap().MM() + d.real(stub)
	}
	return a, b
}

// beside is a line at a distance from the cap line over all legs, mitered.
func (d *cornerDrawing) beside(y func(g cornerLeg) float64) []xy {
	return besideLegs(d.legs, d.reach, y)
}

// besideLegs is the line at y from the cap line over legs that meet, from reach
// to reach where the piece goes on. Walls of two widths at a kink have faces that
// would meet far along it: the line steps there, along the miter.
func besideLegs(legs []cornerLeg, reach func(cornerLeg) (a, b float64), y func(cornerLeg) float64) []xy {
	var pts []xy
	for i, g := range legs {
		a, b := reach(g)
		if i == 0 {
			pts = append(pts, g.at(a, y(g)))
		} else {
			pts = append(pts, turning(legs[i-1], g, y(legs[i-1]), y(g))...)
		}
		if g.atEnd {
			pts = append(pts, g.at(b, y(g)))
		}
	}
	return pts
}

// stepsFrom is how far from the miter, in what they stand apart, the lines of two
// legs may meet: at a turn of 20 degrees.
const stepsFrom = 3

// turning is where a line at y0 beside one leg goes over into one at y1 beside the
// next: the place where they meet, or both their places on the miter.
func turning(q, g cornerLeg, y0, y1 float64) []xy {
	from := q.at(q.long-q.rightTrim*y0/q.wide, y0)
	to := g.at(g.leftTrim*y1/g.wide, y1)
	apart := math.Abs(y1 - y0)
	p, ok := meeting(q.at(0, y0), q.dir, g.at(0, y1), g.dir)
	switch {
	case ok && p.sub(from).length() <= stepsFrom*apart+1e-6:
		return []xy{p}
	case apart < 1e-6:
		return []xy{to}
	}
	return []xy{from, to}
}

// wall draws both faces of the wall below the cap, and the plumbed corner.
func (d *cornerDrawing) wall(g *drawing.Scene) {
	if d.tees() {
		d.teeWall(g)
		return
	}
	front, rear, ok := d.surveyed()
	if !ok {
		front = d.beside(func(q cornerLeg) float64 { return q.wall(d.sys).Street.MM() })
		rear = d.beside(func(q cornerLeg) float64 { return q.wall(d.sys).Roof.MM() })
	}
	// At an end without a neighbour the wall stops where the clearance says.
	d.endWall(g, front, rear)
	for _, line := range [][]xy{front, rear} {
		pts := d.m.all(line...)
		g.Line(drawing.Hidden, pts...)
		d.c.Hidden(hiddenHalf, pts...)
	}
}

// surveyed are both faces of the wall as read, along all legs as far as they show;
// false where nobody read one of the walls.
func (d *cornerDrawing) surveyed() (front, rear []xy, ok bool) {
	for i, leg := range d.legs {
		from, to := d.reach(leg)
		lo, hi := leg.part.From+length.FromMM(from), leg.part.From+length.FromMM(to)
		if i > 0 { // it comes round the corner
			lo = -length.Most
		}
		if i < len(d.legs)-1 {
			hi = length.Most
		}
		w := d.l.WallPlan(leg.part.Run)
		if len(w.Street) == 0 {
			return nil, nil, false
		}
		on := func(line []plan.Pt) (out []xy) {
			for _, p := range plan.Within(line, lo, hi) {
				out = append(out, leg.at((p.X-leg.part.From).MM(), p.Y.MM()))
			}
			return out
		}
		front, rear = append(front, on(w.Street)...), append(rear, on(w.Roof)...)
	}
	return front, rear, len(front) > 1 && len(rear) > 1
}

// endWall cuts the wall lines at closed ends, and hatches a higher wall.
func (d *cornerDrawing) endWall(g *drawing.Scene, front, rear []xy) {
	for _, right := range []bool{false, true} {
		kind, leg := d.p.LeftEnd, d.legs[0]
		if right {
			kind, leg = d.p.RightEnd, d.legs[len(d.legs)-1]
		}
		if kind == job.EndTurn {
			continue
		}
		out, u := -1.0, 0.0
		if right {
			out, u = 1, leg.long
		}
		back := 0.0 // wall end before the end of the cap
		if kind == job.EndFree {
			back = (d.sys.EndCap.Clearance + d.sys.Metal.Thickness).MM()
		} else {
			back = -d.sys.WallEnd.Clearance.MM()
		}
		at := func(y float64) xy { return leg.at(u-out*back, y) }
		behind := func(p xy) float64 {
			p = p.sub(leg.o)
			return float64(p.x*leg.dir.roofward().x) + float64(p.y*leg.dir.roofward().y)
		}
		f, r := &front[0], &rear[0]
		if right {
			f, r = &front[len(front)-1], &rear[len(rear)-1]
		}
		*f, *r = at(behind(*f)), at(behind(*r))
		if kind == job.EndFree {
			g.Line(drawing.Hidden, d.m.all(*f, *r)...)
			continue
		}
		over, deep := d.real(9), d.real(6)
		w := func(du, y float64) xy { return leg.at(u-out*back+out*du, y) }
		q := d.m.all(w(0, -over), w(deep, -over), w(deep, leg.wide+over), w(0, leg.wide+over))
		g.Hatch(drawing.Masonry, drawing.NoPen, q...)
		g.Line(drawing.Medium, q[0], q[3])
		d.c.Area(q...)
	}
}

// chairs draws chairs with their centre lines, and the supports.
func (d *cornerDrawing) chairs(g *drawing.Scene) {
	for _, leg := range d.legs {
		for _, ch := range leg.chairs {
			var q []drawing.Point
			for _, p := range ch.ring() {
				q = append(q, d.m.at(leg.at(p.x, p.y)))
			}
			g.Polygon(drawing.Hidden, q...)
			d.c.Hidden(hiddenHalf, append(q, q[0])...)
			g.Line(drawing.Centre, d.m.all(leg.at(ch.at, -d.real(2)), leg.at(ch.at, leg.wide+d.real(2)))...)
			d.c.Hidden(hiddenHalf, d.m.all(leg.at(ch.at, -d.real(2)), leg.at(ch.at, leg.wide+d.real(2)))...)
		}
	}
	for _, s := range d.supports() {
		f := d.cornerFrame(s.Corner)
		var q []drawing.Point
		for i := range 4 {
			x, y := s.Quad.At(i)
			q = append(q, d.m.at(f.at(x.MM(), y.MM())))
		}
		g.Fill(drawing.Light, drawing.Hidden, q...)
		d.c.Area(q...)
		at := d.m.at(f.at(s.X.MM(), s.Y.MM()))
		g.Line(drawing.Medium, at.Add(drawing.Point{X: -120}), at.Add(drawing.Point{X: 120}))
		g.Line(drawing.Medium, at.Add(drawing.Point{Y: -120}), at.Add(drawing.Point{Y: 120}))
	}
}

// cornerFrame is the frame of a miter: its corner point, the arriving run's
// direction.
func (d *cornerDrawing) cornerFrame(w *layout.Corner) legFrame {
	for i, m := range d.p.Miters {
		if m.Corner == w {
			p, _ := d.miterAt(i)
			return legFrame{o: p, dir: d.legs[i].dir}
		}
	}
	return d.legs[0].legFrame
}

// plates draws the splice plates under the joints at the ends.
func (d *cornerDrawing) plates(g *drawing.Scene) {
	for _, e := range d.jointEnds() {
		var q []drawing.Point
		for _, p := range d.l.PlatePlan(e.joint).Ring {
			q = append(q, d.m.at(e.leg.at(e.at+(p.X-e.joint.Centre()).MM(), p.Y.MM())))
		}
		g.Polygon(drawing.Thin, q...)
		d.c.Hidden(hiddenHalf, append(q, q[0])...)
	}
}

// jointEnd is a joint at an end of the piece: the leg there, the joint's centre
// along it, and the way that leads out over it, +1 or -1.
type jointEnd struct {
	joint   *layout.Joint
	leg     cornerLeg
	at, out float64
}

// jointEnds are the joints of the piece: at the left, at the right, and at a
// tee that of its branch.
func (c *corner) jointEnds() []jointEnd {
	first, last := c.legs[0], c.legs[len(c.legs)-1]
	if c.tees() {
		last = first
	}
	var out []jointEnd
	if c.left != nil {
		out = append(out, jointEnd{c.left, first, -c.left.Gap().MM() / 2, -1})
	}
	if c.right != nil {
		out = append(out, jointEnd{c.right, last, last.long + c.right.Gap().MM()/2, 1})
	}
	if j, leg := c.branchJoint(); j != nil {
		if c.p.Tee.Starts {
			return append(out, jointEnd{j, leg, leg.long + j.Gap().MM()/2, 1})
		}
		return append(out, jointEnd{j, leg, -j.Gap().MM() / 2, -1})
	}
	return out
}

// atEnd is the joint at one end of the piece, the leg there, and the joint's
// centre along the leg.
func (d *cornerDrawing) atEnd(right bool) (*layout.Joint, cornerLeg, float64) {
	if right {
		leg := d.legs[len(d.legs)-1]
		if d.right == nil {
			return nil, leg, leg.long
		}
		return d.right, leg, leg.long + d.right.Gap().MM()/2
	}
	if d.left == nil {
		return nil, d.legs[0], 0
	}
	return d.left, d.legs[0], -d.left.Gap().MM() / 2
}

// caps draws the piece in the thick pen, its miters, and what is shown of the
// neighbours beyond the joints.
func (d *cornerDrawing) caps(g *drawing.Scene) {
	ring := d.m.all(d.outline()...)
	g.Polygon(drawing.Thick, ring...)
	d.c.Stroke(50, append(ring, ring[0])...)
	for i := range d.p.Miters {
		a, b := d.miterAt(i)
		g.Line(drawing.Medium, d.m.all(a, b)...)
		d.c.Stroke(40, d.m.all(a, b)...)
	}
	if d.tees() {
		seam := d.m.all(d.seam()...)
		g.Line(drawing.Medium, seam...)
		d.c.Stroke(40, seam...)
	}
	for _, e := range d.jointEnds() {
		leg, out := e.leg, e.out
		a := e.at + out*e.joint.Gap().MM()/2
		b := a + out*d.real(stub)
		wide := d.wideAt(leg, a)
		near := d.m.all(leg.at(b, 0), leg.at(a, 0), leg.at(a, wide), leg.at(b, wide))
		g.Line(drawing.Medium, near...)
		d.c.Stroke(40, near...)
		// The neighbour goes on.
		z := d.real(1.5)
		mid := wide / 2
		br := d.m.all(leg.at(b, -d.real(1.5)), leg.at(b, mid-z), leg.at(b+z, mid-z/2), leg.at(b-z, mid+z/2), leg.at(b, mid+z), leg.at(b, wide+d.real(1.5)))
		g.Line(drawing.Thin, br...)
		d.c.Stroke(40, br...)
	}
}

// strings draws the layout string with its corner.
func (d *cornerDrawing) strings(g *drawing.Scene) {
	y := d.string().MM()
	if d.tees() {
		for _, leg := range d.legs {
			a, b := d.reach(leg)
			g.Line(drawing.String, d.m.all(leg.at(a, y), leg.at(b, y))...)
		}
		return
	}
	pts := d.beside(func(cornerLeg) float64 { return y })
	g.Line(drawing.String, d.m.all(pts...)...)
}

// dims letters front and rear length of each leg, the chairs from the corner
// point, and the outside width.
func (d *cornerDrawing) dims(g *drawing.Scene) {
	if d.tapers() {
		d.taperDims(g)
		return
	}
	if d.tees() {
		d.teeDims(g)
		return
	}
	for i, leg := range d.legs {
		q := leg.polygon()
		street, roof := leg.dir.roofward().times(-1), leg.dir.roofward()
		d.dim(g, q[0], q[1], street, 8, d.crewLong(leg.part.Length())+" front", "the front of run "+leg.part.Run.Name)
		if rear := d.p.RearLength(i); rear > 0 {
			d.dim(g, q[3], q[2], roof, 8, d.crewLong(rear)+" rear", "the rear of run "+leg.part.Run.Name)
		}
		if len(d.legs) == 1 {
			continue
		}
		for _, ch := range leg.chairs {
			if !d.legEnd(ch) {
				continue
			}
			from := leg.at(0, 0)
			at := ch.at
			if leg.atLeft {
				from, at = leg.at(leg.long, 0), leg.long-ch.at
			}
			d.dim(g, from, leg.at(ch.at, 0), street, 15, d.crewLong(length.FromMM(at))+" to chair "+ch.Name, "chair "+ch.Name)
		}
	}
	_, leg, _ := d.atEnd(false)
	a, _ := d.reach(leg)
	d.dim(g, leg.at(a, 0), leg.at(a, leg.wide), leg.dir.times(-1), 7, d.outside(leg), "the outside width")
	if _, last, _ := d.atEnd(true); last.wide != leg.wide {
		_, b := d.reach(last)
		d.dim(g, last.at(b, last.wide), last.at(b, 0), last.dir, 7, d.outside(last), "the outside width of run "+last.part.Run.Name)
	}
}

// outside letters the outside width of a leg.
func (d *cornerDrawing) outside(leg cornerLeg) string {
	return d.shop.Short(leg.part.Inside()+2*d.sys.Metal.Thickness) + " outside"
}

// crewLong letters a length on the drawing.
func (d *cornerDrawing) crewLong(l length.Length) string { return shortNumber(d.crew, l) }

// shortNumber is a length in inches alone under two feet, in feet beyond.
func shortNumber(st length.Style, l length.Length) string {
	if !st.Metric && length.Abs(l) < 2*length.Foot {
		return st.Short(l)
	}
	return st.Long(l)
}

// dim draws one dimension from a to b in any direction, on the side out, at
// least off millimetres of paper away, farther if its words find no room.
func (d *cornerDrawing) dim(g *drawing.Scene, a, b xy, out xy, away float64, words, of string) {
	words = drawing.Letter(words)
	dir := b.sub(a)
	l := place.Label{Lines: []string{words}, Turn: readable(dir), Pad: besideLine}
	pa, pb := d.m.at(a), d.m.at(b)
	for _, far := range []float64{0, 7, 14, 21, 28} {
		la, lb := off(pa, out, drawing.Round(away+far)), off(pb, out, drawing.Round(away+far))
		mid := drawing.Point{X: (la.X + lb.X) / 2, Y: (la.Y + lb.Y) / 2}
		room := math.Hypot(float64(lb.X-la.X), float64(lb.Y-la.Y)) / 100
		need := drawing.Width(drawing.Regular, words, drawing.Note).Millimetres()
		places := []drawing.Point{mid}
		for _, f := range []float64{0.35, 0.65, 0.25, 0.75, 0.15, 0.85} {
			if (math.Min(f, 1-f)*room)*2 > need+2 {
				places = append(places, off(la, dir, drawing.Round(room*f)))
			}
		}
		if need+d.spare() > room { // beyond either end, on the line drawn on
			e := dir.unit()
			over := drawing.Round(need/2 + 1.5)
			places = []drawing.Point{off(lb, e, over), off(la, e, -over)}
		}
		edge := d.c.Bounds.Inset(-tightEdge)
		if !edge.Holds(off(la, out, 200)) || !edge.Holds(off(lb, out, 200)) {
			continue
		}
		if d.c.Strikes(la, lb) || d.c.Strikes(off(pa, out, 150), off(la, out, 200)) || d.c.Strikes(off(pb, out, 150), off(lb, out, 200)) {
			continue
		}
		for i, p := range places {
			got, ok := d.c.Try(l, l.OnLine(drawing.Polar(p, aboveLine, l.Turn+900)))
			if !ok {
				continue
			}
			g.Add(got.Marks...)
			d.dimLines(g, pa, pb, la, lb, out, dir)
			if need+d.spare() > room {
				e := dir.unit()
				end, sign := lb, drawing.Unit(1)
				if i == 1 {
					end, sign = la, -1
				}
				g.Line(drawing.Thin, end, off(end, e, sign*drawing.Round(need+2.5)))
			}
			return
		}
	}
	d.lost = append(d.lost, "Not on the drawing for want of room: "+of+", "+words+".")
}

// spare is the room a word on a dimension line needs besides its own: over the
// arrows of a short one it would stand in their way.
func (d *cornerDrawing) spare() float64 {
	if d.tapers() && d.crew.Metric {
		return 7
	}
	return 2
}

// dimLines draws the lines of a dimension.
func (d *cornerDrawing) dimLines(g *drawing.Scene, pa, pb, la, lb drawing.Point, out, dir xy) {
	for _, e := range [][2]drawing.Point{{pa, la}, {pb, lb}} {
		from, to := off(e[0], out, 150), off(e[1], out, 200)
		g.Line(drawing.Thin, from, to)
		d.c.Stroke(20, from, to)
	}
	g.Line(drawing.Thin, la, lb)
	d.c.Stroke(20, la, lb)
	e := dir.unit()
	n := e.roofward()
	for _, k := range []struct {
		p    drawing.Point
		sign float64
	}{{la, -1}, {lb, 1}} {
		if d.crew.Metric {
			back := off(k.p, e, drawing.Round(-3*k.sign))
			g.Fill(drawing.Black, drawing.NoPen, k.p, off(back, n, 50), off(back, n, -50))
			continue
		}
		t := e.add(n.times(-1))
		g.Line(drawing.Medium, off(k.p, t, -140), off(k.p, t, 140))
	}
}

// jointName is how a joint is called on the drawing.
func (c *corner) jointName(j *layout.Joint) string {
	switch j.Kind {
	case cap.Expansion:
		return "expansion joint " + j.Name
	case cap.Kink:
		return "kink joint " + j.Name
	}
	return "joint " + j.Name
}
