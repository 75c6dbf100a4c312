package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Size of the detail at a corner point: the drawing and its words.
const (
	insetSide  drawing.Unit = 2300
	insetHigh  drawing.Unit = 3500
	insetDeep  drawing.Unit = 300  // more of an inside corner, whose distance stands below it
	insetLeast drawing.Unit = 6220 // its width at least
	insetLeft  drawing.Unit = 1400
)

// insetWide is the width that the details of a piece take with their words.
func (c *corner) insetWide() drawing.Unit {
	w := insetLeast
	for _, k := range []words.Key{words.CornerInsetCap, words.CornerInsetString, words.CornerInsetWall} {
		w = max(w, insetLeft+insetSide+450+200+drawing.Width(drawing.Regular, c.say.Say(k), drawing.Note))
	}
	return w
}

// inset is the detail at a corner point, enlarged: cap, string and wall face
// lie a few millimetres apart, and the crew has to tell the three corners from
// one another.
func (c *corner) inset(w plan.CornerMiter) entry {
	high := insetHigh
	if !w.Outside {
		high += insetDeep
	}
	return entry{high, func(g *drawing.Scene, at drawing.Point) {
		in, out := legFrame{dir: xy{1, 0}}, legFrame{dir: heading(w.By.Degrees())}
		scale := insetScale(c.say, c.Metric,
			length.Max(length.Max(length.Abs(w.WallAt.X), w.WallAt.Y), c.StringBehind.Real))
		mid := drawing.Point{X: at.X + insetSide/2 + insetLeft, Y: at.Y + 1900}
		m := paperMap{ratio: float64(scale.Ratio), origin: mid}
		g.Text(drawing.Point{X: at.X, Y: at.Y + 450},
			drawing.Letter(c.say.Say(words.CornerInset, words.In("corner", w.Corner), words.In("scale", scale.Name))),
			drawing.Style{Face: drawing.Bold})
		corners := []struct {
			p    plan.Pt
			pen  drawing.Pen
			name string
		}{
			{plan.Pt{}, drawing.Thick, c.say.Say(words.CornerInsetCap)},
			{w.StringAt, drawing.String, c.say.Say(words.CornerInsetString)},
			{w.WallAt, drawing.Medium, c.say.Say(words.CornerInsetWall)},
		}
		reach := insetSide / 2
		for _, k := range corners {
			p := m.at(in.at(k.p.X.MM(), k.p.Y.MM()))
			g.Line(k.pen, within(mid, reach, p, in.dir.times(-1)), p, within(mid, reach, p, out.dir))
		}
		beside := at.X + insetLeft + insetSide + 450
		for i, k := range corners {
			p := m.at(in.at(k.p.X.MM(), k.p.Y.MM()))
			y := mid.Y + drawing.Unit(i-1)*650
			g.Line(drawing.Thin, p, drawing.Point{X: beside - 200, Y: y}, drawing.Point{X: beside - 80, Y: y})
			g.Dot(p, 55, drawing.Black)
			g.Text(drawing.Point{X: beside, Y: y + drawing.Unit(drawing.Note)/2}, k.name, drawing.Style{})
		}
		c.insetDims(g, m, mid, w)
	}}
}

// insetDims gives the wall corner's place from the cap's: out from the
// arriving run at the left, along it above or below.
func (c *corner) insetDims(g *drawing.Scene, m paperMap, mid drawing.Point, w plan.CornerMiter) {
	ends := drawing.Ticks
	if c.Metric {
		ends = drawing.Arrows
	}
	from, to := m.at(xy{}), m.at(xy{w.WallAt.X.MM(), w.WallAt.Y.MM()})
	x := mid.X - insetSide/2 - 50
	g.Draw(drawing.Chain{Vertical: true, At: x, Stops: []drawing.Unit{from.Y, to.Y}, Labels: []string{""},
		Ends: ends}.Figure())
	g.Text(drawing.Point{X: x - 180, Y: (from.Y+to.Y)/2 + drawing.Unit(drawing.Note)/2},
		drawing.Letter(c.short(w.Arrive.Out.Real)), drawing.Style{Align: drawing.Right, Fact: w.Arrive.Out.Fact})
	if w.Arrive.Beyond.Real == 0 {
		return
	}
	y, at := from.Y-700, from.Y
	if !w.Outside {
		y, at = to.Y+700, to.Y
	}
	a, b := min(from.X, to.X), max(from.X, to.X)
	g.Draw(drawing.Chain{At: y, Stops: []drawing.Unit{a, b}, Labels: []string{""}, From: []drawing.Unit{at},
		Ends: ends}.Figure())
	left := drawing.Point{X: a - 250, Y: y + drawing.Unit(drawing.Note)/2}
	g.Text(left, drawing.Letter(c.short(length.Abs(w.Arrive.Beyond.Real))), drawing.Style{Align: drawing.Right,
		Fact: w.Arrive.Beyond.Fact})
}

// insetScale is the largest usual scale at which a distance stays small enough
// for the detail.
func insetScale(say words.Book, metric bool, l length.Length) Scale {
	for _, s := range Scales(metric) {
		if s.Units(l) <= 900 {
			return s
		}
	}
	return Scale{Name: say.Say(words.ViewNotToScale), Ratio: 100}
}

// within is where a ray from p leaves a circle about mid.
func within(mid drawing.Point, r drawing.Unit, p drawing.Point, dir xy) drawing.Point {
	d := dir.unit()
	q := xy{float64(p.X - mid.X), float64(p.Y - mid.Y)}
	b := float64(q.x*d.x) + float64(q.y*d.y)
	k := float64(b*b) - float64(q.x*q.x) - float64(q.y*q.y) + float64(r)*float64(r)
	return off(p, d, drawing.Round((math.Sqrt(math.Max(k, 0))-b)/100))
}
