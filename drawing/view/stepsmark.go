package view

import (
	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// marks shows in principle where the end of a cap line is marked from the plumbed
// corner of the wall, or from its end: beyond it along the run and out from its face.
// On true walls the two are too near each other to be told apart.
func (d *stepDrawing) marks(g *drawing.Scene) {
	box := drawing.Box(0, stepFoot, d.room.Max.X, d.room.Max.Y-100)
	deep := min(box.Height()*34/100, box.Width()*30/100)
	apart := box.Height() * 19 / 100
	corner := drawing.Pt(box.Min.X+box.Width()*50/100, box.Min.Y+box.Height()*40/100)
	mark := corner.Add(drawing.Pt(apart, -apart))
	left := box.Min.X + 60
	g.Group(drawing.Wall, "", func(g *drawing.Scene) {
		switch {
		case d.turns(true):
			g.Hatch(drawing.Masonry, drawing.Thin, drawing.Pt(left, corner.Y), corner, drawing.Pt(corner.X, box.Max.Y),
				drawing.Pt(corner.X-deep, box.Max.Y),
				drawing.Pt(corner.X-deep, corner.Y+deep), drawing.Pt(left, corner.Y+deep))
		case d.turns(false):
			top := box.Min.Y + 60
			g.Hatch(drawing.Masonry, drawing.Thin, drawing.Pt(left, corner.Y), corner, drawing.Pt(corner.X, top),
				drawing.Pt(corner.X+deep, top),
				drawing.Pt(corner.X+deep, corner.Y+deep), drawing.Pt(left, corner.Y+deep))
			mark = corner.Add(drawing.Pt(-apart, -apart))
		default:
			g.Hatch(drawing.Masonry, drawing.Thin, drawing.Pt(left, corner.Y), corner,
				drawing.Pt(corner.X, corner.Y+deep), drawing.Pt(left, corner.Y+deep))
		}
	})
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		g.Line(drawing.Thin, drawing.Pt(corner.X, mark.Y), corner)
		g.Line(drawing.Thin, corner, drawing.Pt(mark.X+450, corner.Y))
		for _, k := range []struct{ from, to drawing.Point }{
			{drawing.Pt(corner.X, mark.Y+350), drawing.Pt(mark.X, mark.Y+350)}, {drawing.Pt(mark.X+350, corner.Y),
				drawing.Pt(mark.X+350, mark.Y)},
		} {
			stepArrow(g, drawing.Medium, k.from, k.to)
		}
	})
	g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
		const arm = 260
		g.Line(drawing.Thick, mark.Add(drawing.Pt(-arm, 0)), mark.Add(drawing.Pt(arm, 0)))
		g.Line(drawing.Thick, mark.Add(drawing.Pt(0, -arm)), mark.Add(drawing.Pt(0, arm)))
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		d.street(g)
		st := drawing.Style{}
		lines := drawing.Wrap(d.Say.Say(words.WorkMarkHere), drawing.Regular, drawing.Note, d.room.Max.X-mark.X-700)
		at := drawing.Pt(mark.X+650, mark.Y-drawing.Unit(drawing.Note)/2)
		if d.turns(false) {
			lines = drawing.Wrap(d.Say.Say(words.WorkMarkHere), drawing.Regular, drawing.Note, mark.X-500)
			at, st.Align = drawing.Pt(mark.X-400, at.Y), drawing.Right
		}
		for i, line := range lines {
			g.Text(at.Add(drawing.Pt(0, drawing.Unit(i)*stepLine)), line, st)
		}
	})
}

// turns reports whether the piece that pictures show turns so at its first miter.
func (d *stepDrawing) turns(outside bool) bool {
	return d.Work.Cornered && len(d.Work.Corner.Miters) > 0 && d.Work.Corner.Miters[0].Break == plan.NoBreak &&
		d.Work.Corner.Miters[0].Outside == outside
}
