package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// stepPlate is a plan of the wall about the joint, both of one scale: the plan
// map with x from the joint's centre, and where cap line and rear line lie.
func (d *stepDrawing) stepPlate(over drawing.Unit) (m paperMap, half float64) {
	plate := math.Max(d.Work.Joint.PlateLong.MM(), d.Work.ChairLong.MM()*0.6)
	out := d.Work.Joint.Outside.MM()
	low := d.room.Max.Y - stepFoot - 60
	ratio := math.Max(plate*1.5/(d.room.Width()-80).Millimetres(), out/(low-over-120).Millimetres())
	m = paperMap{ratio: ratio}
	m.origin = drawing.Pt(d.room.Width()/2, over+(low-over-drawing.Round(out/ratio))/2)
	return m, (d.room.Width()/2 - 40).Millimetres() * ratio
}

// sides names street and roof of a plan.
func (d *stepDrawing) sides(g *drawing.Scene) {
	g.Text(drawing.Pt(0, 330), d.Say.Say(words.WorkStreet), drawing.Style{Face: drawing.Bold})
	g.Text(drawing.Pt(0, d.room.Max.Y-110), d.Say.Say(words.WorkRoof), drawing.Style{Face: drawing.Bold})
}

// splices draws plate and tape of a joint in plan, with the distance of the
// tape from the joint's centre line.
func (d *stepDrawing) splices(g *drawing.Scene) {
	m, half := d.stepPlate(900)
	j := &d.Work.Joint
	out, plate, tape := j.Outside.MM(), j.PlateLong.MM()/2, d.Work.Tape.MM()
	expansion := j.Kind == plan.ExpansionJoint
	wall := 1.2 * m.ratio
	g.Group(drawing.Wall, "", func(g *drawing.Scene) {
		for _, y := range []float64{wall, out - wall} {
			g.Line(drawing.Thin, m.all(xy{-half, y}, xy{half, y})...)
		}
	})
	if !expansion {
		g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
			c := d.Work.ChairLong.MM() / 2
			c = math.Min(c, half)
			g.Fill(drawing.Light, drawing.Thin, m.all(xy{-c, 1.8 * wall}, xy{c, 1.8 * wall}, xy{c, out - 1.8*wall},
				xy{-c, out - 1.8*wall})...)
		})
	}
	g.Group(drawing.Splices, "", func(g *drawing.Scene) {
		g.Fill(drawing.White, drawing.Thick, m.all(xy{-plate, 0}, xy{plate, 0}, xy{plate, out}, xy{-plate, out})...)
		wide := math.Min(0.6*m.ratio, math.Max(plate-tape, 0.3*m.ratio))
		for _, x := range []float64{-tape, tape} {
			g.Fill(drawing.Dark, drawing.NoPen, m.all(xy{x - wide, 0.5 * m.ratio}, xy{x + wide, 0.5 * m.ratio},
				xy{x + wide, out - 0.5*m.ratio}, xy{x - wide, out - 0.5*m.ratio})...)
		}
	})
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		a, b := m.at(xy{0, 0}), m.at(xy{tape, 0})
		g.Line(drawing.Centre, drawing.Pt(a.X, a.Y-420), m.at(xy{0, out}).Add(drawing.Pt(0, 200)))
		at := a.Y - 270
		stepDim(g, a.X, b.X, at, a.Y-90)
		said := d.short(d.Work.Tape)
		if right := b.X + 160; right+drawing.Width(drawing.Regular, said, drawing.Note) <= d.room.Max.X {
			g.Text(drawing.Pt(right, at+100), said, drawing.Style{})
		} else {
			g.Text(drawing.Pt(a.X-160, at+100), said, drawing.Style{Align: drawing.Right})
		}
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { d.sides(g) })
}

// gap draws two caps at a joint in plan with the gap at the reference
// temperature. The gap itself would print too narrow and is drawn wider.
func (d *stepDrawing) gap(g *drawing.Scene) {
	m, half := d.stepPlate(1250)
	j := &d.Work.Joint
	out, open := j.Outside.MM(), math.Max(j.Gap.Real.MM()/2, 1.1*m.ratio)
	plate := j.PlateLong.MM() / 2
	g.Group(drawing.Splices, "", func(g *drawing.Scene) {
		in := 1.2 * m.ratio
		g.Fill(drawing.Light, drawing.Hidden, m.all(xy{-plate, in}, xy{plate, in}, xy{plate, out - in},
			xy{-plate, out - in})...)
	})
	g.Group(drawing.Caps, "", func(g *drawing.Scene) {
		for _, k := range []float64{-1, 1} {
			g.Line(drawing.Thick, m.all(xy{k * half, 0}, xy{k * open, 0}, xy{k * open, out}, xy{k * half, out})...)
			z := 0.7 * m.ratio
			x, mid := k*half, out/2
			g.Line(drawing.Thin, m.all(xy{x, 0}, xy{x, mid - 2*z}, xy{x - k*z, mid - z}, xy{x + k*z/2, mid + z},
				xy{x, mid + 2*z}, xy{x, out})...)
		}
	})
	said := d.short(j.Gap.Real)
	switch {
	case j.Kind != plan.ExpansionJoint:
		said = d.Say.Say(words.WorkGapAt, words.In("gap", d.short(d.Work.GapThen.Real)), words.In("temperature",
			d.degrees(d.Work.Reference)))
	case !j.Moves:
		said = d.Say.Say(words.ViewHold)
	}
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		a := m.at(xy{0, 0})
		g.Line(drawing.Centre, drawing.Pt(a.X, a.Y-150), m.at(xy{0, out}).Add(drawing.Pt(0, 200)))
		at := a.Y - 230
		for _, k := range []drawing.Unit{-1, 1} {
			x := m.at(xy{open, 0}).X
			if k < 0 {
				x = m.at(xy{-open, 0}).X
			}
			g.Line(drawing.Thin, drawing.Pt(x, a.Y-90), drawing.Pt(x, at-110))
			stepArrow(g, drawing.Medium, drawing.Pt(x+k*480, at), drawing.Pt(x, at))
		}
		g.Text(drawing.Pt(a.X, at-190), said, drawing.Style{Align: drawing.Middle})
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { d.sides(g) })
}

// trim draws the end of a closer that is cut, with what it ships long.
func (d *stepDrawing) trim(g *drawing.Scene) {
	q := &d.Work.Closer
	box := drawing.Box(120, 1280, d.room.Max.X-120, d.room.Max.Y-stepFoot-100)
	left := q.CutAt == plan.LeftHand
	x := func(v drawing.Unit) drawing.Unit { // from the end that is cut
		if left {
			return box.Min.X + v
		}
		return box.Max.X - v
	}
	cut, far := drawing.Unit(750), box.Width()
	g.Group(drawing.Caps, "", func(g *drawing.Scene) {
		g.Fill(drawing.Light, drawing.Hidden, drawing.Pt(x(0), box.Min.Y), drawing.Pt(x(cut), box.Min.Y),
			drawing.Pt(x(cut), box.Max.Y), drawing.Pt(x(0), box.Max.Y))
		g.Line(drawing.Medium, drawing.Pt(x(0), box.Min.Y), drawing.Pt(x(cut), box.Max.Y))
		g.Line(drawing.Medium, drawing.Pt(x(0), box.Max.Y), drawing.Pt(x(cut), box.Min.Y))
		m := box.Centre().Y
		g.Line(drawing.Thin, drawing.Pt(x(cut), box.Min.Y), drawing.Pt(x(far), box.Min.Y), drawing.Pt(x(far), m-150),
			drawing.Pt(x(far-70), m-70), drawing.Pt(x(far-20), m+70), drawing.Pt(x(far), m+150),
			drawing.Pt(x(far), box.Max.Y), drawing.Pt(x(cut), box.Max.Y))
		g.Line(drawing.Thick, drawing.Pt(x(cut), box.Min.Y-150), drawing.Pt(x(cut), box.Max.Y))
		g.Text(drawing.Pt(x((cut+far)/2), m-150), d.Say.Say(words.WorkCloser), drawing.Style{Align: drawing.Middle,
			Face: drawing.Bold})
	})
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		stepDim(g, x(0), x(cut), box.Min.Y-330, box.Min.Y-80)
		said := d.short(q.Allowance)
		half := drawing.Width(drawing.Regular, said, drawing.Note)/2 + 20
		at := min(max(x(cut/2), half), d.room.Max.X-half)
		g.Text(drawing.Pt(at, box.Min.Y-460), said, drawing.Style{Align: drawing.Middle})
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { d.sides(g) })
}

// stepDim draws a dimension line with ticks between two places, with extension
// lines from the object.
func stepDim(g *drawing.Scene, a, b, at, object drawing.Unit) {
	g.Line(drawing.Thin, drawing.Pt(a, at), drawing.Pt(b, at))
	for _, x := range []drawing.Unit{a, b} {
		g.Line(drawing.Thin, drawing.Pt(x, object), drawing.Pt(x, at-120))
		g.Line(drawing.Medium, drawing.Pt(x-70, at+70), drawing.Pt(x+70, at-70))
	}
}
