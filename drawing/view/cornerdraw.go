package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/block"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// cornerDrawing draws a corner at one scale.
type cornerDrawing struct {
	*corner
	m paperMap
	c *place.Placer
	s drawing.Scene

	lost  []block.Note        // words that found no room on the drawing
	inLeg map[string]standing // the letters of the hands that stand in their legs; look-up only
}

// cornerMargin is the room round a corner that its words may use.
const cornerMargin = 26 * drawing.MM

// hiddenHalf is what lettering keeps off a hidden line, if it does not cover it.
const hiddenHalf drawing.Unit = 20

// What lettering keeps off lines, and how far it stands above its own.
const (
	besideLine drawing.Unit = 70
	aboveLine  drawing.Unit = 100
)

// stub is how much of the neighbouring cap is shown beyond a joint, on paper.
const stub = 8

// tightEdge is the room along the edges of a drawing for what its lettering brings
// along: the ends of lines, and circles.
const tightEdge = 3 * drawing.MM

// draw draws the piece at a scale. Its words stand in a margin round it.
func (c *corner) draw(ratio float64) ([]drawing.Mark, []block.Note) {
	d := &cornerDrawing{corner: c, m: paperMap{ratio: ratio}}
	d.c = place.New(d.body().Inset(-cornerMargin))
	d.s.Group(drawing.Wall, "", d.wall)
	d.s.Group(drawing.Chairs, "", d.chairs)
	d.s.Group(drawing.Splices, "", d.plates)
	d.s.Group(drawing.Caps, "", d.caps)
	d.s.Group(drawing.Chairs, "", d.strings)
	d.s.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		for i := range d.Miters {
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
		a, b := d.reach(g, d.real(stub))
		e.hold(g.at(a, 0), g.at(b, 0), g.at(a, g.wide), g.at(b, g.wide))
	}
	lo, hi := d.m.at(e.lo), d.m.at(e.hi)
	return drawing.Box(lo.X, lo.Y, hi.X, hi.Y)
}

// extent is what the drawing takes at a scale with its words.
func (c *corner) extent(ratio float64) drawing.Rect {
	d := &cornerDrawing{corner: c, m: paperMap{ratio: ratio}}
	return d.body().Inset(-cornerMargin - tightEdge)
}

// real brings a distance on paper to the building.
func (d *cornerDrawing) real(mm float64) float64 { return mm * d.m.ratio }

// wall draws both faces of the wall below the cap, as far as a neighbour shows.
func (d *cornerDrawing) wall(g *drawing.Scene) {
	line := func(pts []xy) {
		if len(pts) > 1 {
			q := d.m.all(pts...)
			g.Line(drawing.Hidden, q...)
			d.c.Hidden(hiddenHalf, q...)
		}
	}
	further := d.real(stub)
	if d.tees() {
		for _, leg := range d.legs {
			roof, open := leg.of.Face.Roof, leg.of.Opening
			line(d.shown(leg, leg.of.Face.Street, further))
			if !leg.of.Opens() {
				line(d.shown(leg, roof, further))
				continue
			}
			line(d.shown(leg, plan.Within(roof, -length.Most, open[0]), further))
			line(d.shown(leg, plan.Within(roof, open[1], length.Most), further))
		}
		return
	}
	front := d.joined(further, func(q cornerLeg) []plan.Pt { return q.of.Face.Street })
	rear := d.joined(further, func(q cornerLeg) []plan.Pt { return q.of.Face.Roof })
	d.endWall(g, front, rear)
	line(front)
	line(rear)
}

// endWall closes the wall at its free ends, and hatches a higher wall.
func (d *cornerDrawing) endWall(g *drawing.Scene, front, rear []xy) {
	for i, e := range d.Ends {
		leg, out := d.legs[0], -1.0
		if i == 1 {
			leg, out = d.legs[len(d.legs)-1], 1
		}
		switch e.Kind {
		case plan.ClosedEnd:
			f, r := front[0], rear[0]
			if i == 1 {
				f, r = front[len(front)-1], rear[len(rear)-1]
			}
			g.Line(drawing.Hidden, d.m.all(f, r)...)
		case plan.AgainstEnd:
			over, deep := d.real(9), d.real(6)
			w := func(du, y float64) xy { return leg.at(leg.u(e.Wall)+out*du, y) }
			q := d.m.all(w(0, -over), w(deep, -over), w(deep, leg.wide+over), w(0, leg.wide+over))
			g.Hatch(drawing.Masonry, drawing.NoPen, q...)
			g.Line(drawing.Medium, q[0], q[3])
			d.c.Area(q...)
		}
	}
}

// chairs draws chairs with their centre lines, and the supports.
func (d *cornerDrawing) chairs(g *drawing.Scene) {
	for _, leg := range d.legs {
		for _, ch := range leg.of.Chairs {
			q := d.m.all(leg.ring(ch.Ring)...)
			g.Polygon(drawing.Hidden, q...)
			d.c.Hidden(hiddenHalf, append(q, q[0])...)
			for _, web := range ch.Webs {
				w := d.m.all(leg.pt(web[0]), leg.pt(web[1]))
				g.Line(drawing.Hidden, w...)
				d.c.Hidden(hiddenHalf, w...)
			}
			at := leg.u(ch.At)
			line := d.m.all(leg.at(at, -d.real(2)), leg.at(at, leg.wide+d.real(2)))
			g.Line(drawing.Centre, line...)
			d.c.Hidden(hiddenHalf, line...)
		}
	}
	for _, s := range d.Supports {
		leg := d.legs[s.Miter]
		q := d.m.all(leg.ring(s.Ring)...)
		g.Fill(drawing.Light, drawing.Hidden, q...)
		d.c.Area(q...)
		at := d.m.at(leg.pt(s.Centre))
		g.Line(drawing.Medium, at.Add(drawing.Point{X: -120}), at.Add(drawing.Point{X: 120}))
		g.Line(drawing.Medium, at.Add(drawing.Point{Y: -120}), at.Add(drawing.Point{Y: 120}))
	}
}

// plates draws the splice plates under the joints at the ends.
func (d *cornerDrawing) plates(g *drawing.Scene) {
	for _, j := range d.Joints {
		q := d.m.all(d.legs[j.Leg].ring(j.Plate.Ring)...)
		g.Polygon(drawing.Thin, q...)
		d.c.Hidden(hiddenHalf, append(q, q[0])...)
	}
}

// caps draws the piece in the thick pen, its miters, and what is shown of the
// neighbours beyond the joints.
func (d *cornerDrawing) caps(g *drawing.Scene) {
	ring := d.m.all(d.outline()...)
	g.Polygon(drawing.Thick, ring...)
	d.c.Stroke(50, append(ring, ring[0])...)
	weld := func(pts ...xy) {
		q := d.m.all(pts...)
		g.Line(drawing.Medium, q...)
		d.c.Stroke(40, q...)
	}
	for i := range d.Miters {
		a, b := d.miterAt(i)
		weld(a, b)
	}
	if d.tees() {
		weld(places(d.Tee.Seam[:])...)
	}
	for _, j := range d.Joints {
		leg, wide := d.legs[j.Leg], j.Wide.MM()
		a := leg.u(j.Far)
		b := a + float64(j.Out())*d.real(stub)
		near := d.m.all(leg.at(b, 0), leg.at(a, 0), leg.at(a, wide), leg.at(b, wide))
		g.Line(drawing.Medium, near...)
		d.c.Stroke(40, near...)
		// The neighbour goes on.
		z := d.real(1.5)
		mid := wide / 2
		br := d.m.all(leg.at(b, -d.real(1.5)), leg.at(b, mid-z), leg.at(b+z, mid-z/2), leg.at(b-z, mid+z/2),
			leg.at(b, mid+z), leg.at(b, wide+d.real(1.5)))
		g.Line(drawing.Thin, br...)
		d.c.Stroke(40, br...)
	}
}

// strings draws the string line with its corner.
func (d *cornerDrawing) strings(g *drawing.Scene) {
	of := func(q cornerLeg) []plan.Pt { return q.of.String }
	if d.tees() {
		for _, leg := range d.legs {
			g.Line(drawing.String, d.m.all(d.shown(leg, of(leg), d.real(stub))...)...)
		}
		return
	}
	g.Line(drawing.String, d.m.all(d.joined(d.real(stub), of)...)...)
}

// dims letters the lengths along each leg, and the widths beyond its ends.
func (d *cornerDrawing) dims(g *drawing.Scene) {
	for _, k := range d.Dims {
		leg := d.legs[k.Leg]
		out := leg.dir.roofward()
		if !k.Roof {
			out = out.times(-1)
		}
		said, lost := d.measured(k, shortNumber(d.style(k.Of), k.Real))
		d.dim(g, leg.pt(k.From), leg.pt(k.To), out, float64(1+7*k.Row), said, lost, k.Fact)
	}
	switch {
	case d.tapers():
		d.taperWidths(g)
	case d.tees():
		branch := d.legs[1]
		a, b := d.reach(branch, d.real(stub))
		end, out := b, branch.dir
		if !d.Tee.Starts {
			end, out = a, branch.dir.times(-1)
		}
		d.dim(g, branch.at(end, 0), branch.at(end, branch.wide), out, 7, d.outside(branch), d.lostWidth(branch),
			branch.of.Outside.Fact)
		d.leftWidth(g)
	default:
		d.leftWidth(g)
		if last := d.legs[len(d.legs)-1]; last.wide != d.legs[0].wide {
			_, b := d.reach(last, d.real(stub))
			d.dim(g, last.at(b, last.wide), last.at(b, 0), last.dir, 7, d.outside(last), d.lostWidth(last),
				last.of.Outside.Fact)
		}
	}
}

// style letters a rear to the step of the shop, which cuts it: it follows from the
// front by the miters, and the piece's data beside the plan have it so.
func (d *cornerDrawing) style(of plan.DimOf) length.Style {
	if of == plan.RearOf {
		return d.shop
	}
	return d.crew
}

// leftWidth letters the outside width at the left hand.
func (d *cornerDrawing) leftWidth(g *drawing.Scene) {
	leg := d.legs[0]
	a, _ := d.reach(leg, d.real(stub))
	d.dim(g, leg.at(a, 0), leg.at(a, leg.wide), leg.dir.times(-1), 7, d.outside(leg), d.lostWidth(leg),
		leg.of.Outside.Fact)
}

// measured letters a length along a leg with what it is of, and says it for the list,
// where it has no room on the drawing.
func (d *cornerDrawing) measured(k plan.LegDim, number string) (said, lost string) {
	of := [...]struct{ said, lost words.Key }{
		plan.FrontOf: {words.CornerDimStreet, words.CornerLostDimStreet}, plan.RearOf: {words.CornerDimRoof,
			words.CornerLostDimRoof},
		plan.ChairOf: {words.CornerDimChair, words.CornerLostDimChair}, plan.StraightOf: {words.CornerDimLeg,
			words.CornerLostDimLeg},
		plan.TaperOf: {words.CornerDimTaper, words.CornerLostDimTaper}, plan.BesideOf: {words.CornerDimLeg,
			words.CornerLostDimLeg},
		plan.BranchOf: {words.CornerDimBranch, words.CornerLostDimBranch},
	}[k.Of]
	slots := []words.Slot{words.In("length", number)}
	if k.Of == plan.ChairOf {
		slots = append(slots, words.In("chair", k.Mark))
	}
	said = d.say.Say(of.said, slots...)
	if k.Of != plan.ChairOf {
		slots = append(slots, words.In("run", d.Legs[k.Leg].Run))
	}
	return said, d.say.Say(of.lost, slots...)
}

// outside letters the outside width of a leg.
func (d *cornerDrawing) outside(leg cornerLeg) string {
	return d.say.Say(words.CornerDimOutside, words.In("width", d.shop.Short(leg.of.Outside.Real)))
}

func (d *cornerDrawing) lostWidth(leg cornerLeg) string {
	return d.say.Say(words.CornerLostOutside, words.In("width", d.shop.Short(leg.of.Outside.Real)),
		words.In("run", leg.of.Run))
}

// shortNumber is a length in inches alone under two feet, in feet beyond.
func shortNumber(st length.Style, l length.Length) string {
	if !st.Metric && length.Abs(l) < 2*length.Foot {
		return st.Short(l)
	}
	return st.Long(l)
}

// dim draws one dimension from a to b in any direction, on the side out, at
// least off millimetres of paper away, farther if its words find no room.
func (d *cornerDrawing) dim(g *drawing.Scene, a, b xy, out xy, away float64, said, lost, fact string) {
	said, lost = drawing.Letter(said), drawing.Letter(lost)
	dir := b.sub(a)
	l := place.Label{Lines: []string{said}, Facts: []string{fact}, Turn: readable(dir), Pad: besideLine}
	pa, pb := d.m.at(a), d.m.at(b)
	for _, far := range []float64{0, 7, 14, 21, 28} {
		la, lb := off(pa, out, drawing.Round(away+far)), off(pb, out, drawing.Round(away+far))
		mid := drawing.Point{X: (la.X + lb.X) / 2, Y: (la.Y + lb.Y) / 2}
		room := math.Hypot(float64(lb.X-la.X), float64(lb.Y-la.Y)) / 100
		need := drawing.Width(drawing.Regular, said, drawing.Note).Millimetres()
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
		if d.c.Strikes(la, lb) || d.c.Strikes(off(pa, out, 150), off(la, out, 200)) ||
			d.c.Strikes(off(pb, out, 150), off(lb, out, 200)) {
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
	d.lost = append(d.lost, block.Note{Words: lost, Fact: fact})
}

// spare is the room a word on a dimension line needs besides its own: over the
// arrows of a short one it would stand in their way.
func (d *cornerDrawing) spare() float64 {
	if (d.tapers() || d.tees()) && d.crew.Metric {
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
func (d *cornerDrawing) jointName(j plan.CornerJoint) string {
	return d.say.Say([...]words.Key{words.CornerJoint, words.CornerJointExpansion, words.CornerJointKink}[j.Kind],
		words.In("joint", j.Name))
}
