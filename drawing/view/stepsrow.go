package view

import (
	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// stepRow says what a small plan of the whole run shows; NoPen leaves out.
type stepRow struct {
	ends, chairs, string, caps drawing.Pen // chairs set with the corners, the others, string, caps
	stations, check            bool
}

// bare says that nothing but the chairs that are set first is shown.
func (r stepRow) bare() bool {
	return r.chairs == drawing.NoPen && r.string == drawing.NoPen && r.caps == drawing.NoPen
}

// Chairs a small plan shows; of a longer run the middle is left out.
const stepChairsMost = 9

// stepLane is a run in a small plan: a stretch of it, or two with the middle left
// out, to a scale lengthwise; and its rows across.
type stepLane struct {
	of          stepRow
	parts       []stepStretch
	along       float64
	top, high   drawing.Unit // street edge, and from there to the roof edge
	front, rear drawing.Unit // of the chairs
	half        drawing.Unit // a chair along the run
}

// stepStretch is a stretch of a run that begins at a place on paper.
type stepStretch struct {
	from, to length.Length
	x        drawing.Unit
}

func (p stepStretch) in(s length.Length) bool { return s >= p.from && s <= p.to }

// at is a station on paper, held within the stretch.
func (v *stepLane) at(p stepStretch, s length.Length) drawing.Unit {
	return p.x + drawing.Round((length.Max(p.from, length.Min(p.to, s))-p.from).MM()/v.along)
}

// row draws the run in a small plan, street at the top, its pieces, chairs and
// joints where they are. As in the run plan, lengthwise and crosswise have a
// scale each.
func (d *stepDrawing) row(g *drawing.Scene, box drawing.Rect, of stepRow) {
	v := d.lane(box, of)
	for i, p := range v.parts {
		g.Group(drawing.Wall, "", func(g *drawing.Scene) { v.edges(g, p, i) })
		g.Group(drawing.Chairs, "", func(g *drawing.Scene) { v.chairs(g, p, d.Run.Chairs) })
		if of.bare() {
			continue
		}
		g.Group(drawing.Caps, "", func(g *drawing.Scene) { v.caps(g, p, d.Run.Pieces) })
		if of.string != drawing.NoPen {
			g.Group(drawing.Chairs, "", func(g *drawing.Scene) { v.line(g, p, 0, d.Run.Cap.Real) })
		}
		if of.stations {
			g.Group(drawing.Dimensions, "", func(g *drawing.Scene) { v.stations(g, p, i, d.Run.Chairs) })
		}
		if of.check && i == len(v.parts)-1 {
			g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				low := v.top + v.high + 150
				stepArrow(g, drawing.Thick, drawing.Pt(v.parts[0].x+20, low), drawing.Pt(v.at(p, d.Run.Cap.Real), low))
			})
		}
	}
}

// lane lays a run out in a box.
func (d *stepDrawing) lane(box drawing.Rect, of stepRow) *stepLane {
	const edge, gap = 60, 260
	whole := d.Run.Cap.Real
	v := &stepLane{of: of, parts: []stepStretch{{0, whole, box.Min.X + edge}}}
	room := box.Width() - 2*edge
	if ch := d.Run.Chairs; len(ch) > stepChairsMost {
		a, b := ch[4].At+(ch[5].At-ch[4].At)/2, ch[len(ch)-4].At-(ch[len(ch)-4].At-ch[len(ch)-5].At)/2
		v.parts = []stepStretch{{0, a, box.Min.X + edge}, {b, whole, 0}}
		room -= gap
	}
	var sum length.Length
	for _, p := range v.parts {
		sum += p.to - p.from
	}
	v.along = sum.MM() / room.Millimetres()
	if len(v.parts) > 1 {
		v.parts[1].x = v.parts[0].x + drawing.Round(v.parts[0].to.MM()/v.along) + gap
	}
	v.high = min(box.Height()*55/100, 2000)
	v.top = box.Min.Y + (box.Height()-v.high)/2
	cross := d.Run.Outside.MM() / v.high.Millimetres()
	y := func(behind length.Length) drawing.Unit { return v.top + drawing.Round(behind.MM()/cross) }
	v.front, v.rear = max(y(d.Work.ChairFront), v.top+110), min(y(d.Work.ChairRear), v.top+v.high-110)
	v.half = max(drawing.Round(d.Work.ChairLong.MM()/v.along/2), 60)
	return v
}

// edges draws the edges of the wall, and the break where its middle is left out.
func (v *stepLane) edges(g *drawing.Scene, p stepStretch, i int) {
	for _, e := range []drawing.Unit{v.top, v.top + v.high} {
		g.Line(drawing.Thin, drawing.Pt(v.at(p, p.from), e), drawing.Pt(v.at(p, p.to), e))
	}
	if len(v.parts) == 1 {
		return
	}
	e := v.at(p, p.to)
	if i == 1 {
		e = v.at(p, p.from)
	}
	m := v.top + v.high/2
	g.Line(drawing.Thin, drawing.Pt(e, v.top-60), drawing.Pt(e, m-100), drawing.Pt(e+60, m-50), drawing.Pt(e-60, m+50),
		drawing.Pt(e, m+100), drawing.Pt(e, v.top+v.high+60))
}

// chairs draws the chairs, those set with the corners apart from the others.
func (v *stepLane) chairs(g *drawing.Scene, p stepStretch, all []plan.Chair) {
	for _, c := range all {
		pen, fill := v.of.chairs, drawing.White
		if c.First {
			pen, fill = v.of.ends, drawing.Light
		}
		if pen == drawing.Thick {
			fill = drawing.Mid
		}
		if pen == drawing.NoPen || !p.in(c.At) {
			continue
		}
		x := v.at(p, c.At)
		a, b := max(x-v.half, v.at(p, p.from)+30), min(x+v.half, v.at(p, p.to)-30)
		g.Fill(fill, pen, drawing.Pt(a, v.front), drawing.Pt(b, v.front), drawing.Pt(b, v.rear), drawing.Pt(a, v.rear))
	}
}

// caps draws the pieces that are laid.
func (v *stepLane) caps(g *drawing.Scene, p stepStretch, all []plan.Piece) {
	for _, q := range all {
		if v.of.caps == drawing.NoPen || q.To <= p.from || q.From >= p.to {
			continue
		}
		g.Fill(drawing.White, drawing.Thin, drawing.Box(v.at(p, q.From), v.top, v.at(p, q.To),
			v.top+v.high).Corners()...)
	}
}

// line draws the string between two stations.
func (v *stepLane) line(g *drawing.Scene, p stepStretch, first, last length.Length) {
	if first == last || !p.in(first) && first > p.to || !p.in(last) && last < p.from {
		return
	}
	a, b := v.at(p, first), v.at(p, last)
	g.Line(v.of.string, drawing.Pt(a, v.front), drawing.Pt(b, v.front))
	if p.in(first) {
		g.Dot(drawing.Pt(a, v.front), 65, drawing.Black)
	}
	if p.in(last) {
		g.Dot(drawing.Pt(b, v.front), 65, drawing.Black)
	}
}

// stations draws the line that stations are taped along.
func (v *stepLane) stations(g *drawing.Scene, p stepStretch, i int, all []plan.Chair) {
	low := v.top + v.high + 160
	g.Line(drawing.Thin, drawing.Pt(v.at(p, p.from), low), drawing.Pt(v.at(p, p.to), low))
	if i == 0 {
		g.Circle(drawing.Thin, drawing.Pt(v.at(p, 0), low), 55)
	}
	for _, c := range all {
		if p.in(c.At) {
			x := v.at(p, c.At)
			g.Line(drawing.Thin, drawing.Pt(x, low-80), drawing.Pt(x, low+80))
		}
	}
}
