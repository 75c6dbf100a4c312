package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/length"
)

// Size of the detail at a corner point: the drawing and its words.
const (
	insetSide drawing.Unit = 2500
	insetHigh drawing.Unit = 3750
	insetWide drawing.Unit = 8400
	insetLeft drawing.Unit = 1900
)

// inset is the detail at a corner point, enlarged: cap, string and wall face
// lie a few millimetres apart, and the crew has to tell the three corners from
// one another.
func (c *corner) inset(w *layout.Corner) entry {
	return entry{insetHigh, func(g *drawing.Scene, at drawing.Point) {
		in, out := legFrame{dir: xy{1, 0}}, legFrame{dir: heading(w.CapTurn.Degrees())}
		ext, capOut, str := w.Arrive.Right.Ext.MM(), w.Arrive.CapOut(w).MM(), c.string().MM()
		scale := insetScale(c.crew.Metric, length.FromMM(math.Max(math.Max(math.Abs(ext), capOut), str)))
		mid := drawing.Point{X: at.X + insetSide/2 + insetLeft, Y: at.Y + 1900}
		m := paperMap{ratio: float64(scale.Ratio), origin: mid}
		g.Text(drawing.Point{X: at.X, Y: at.Y + 450}, drawing.Letter("At corner "+w.Name+", "+scale.Name), drawing.Style{Face: drawing.Bold})
		tan := halfTan(w.CapTurn)
		corners := []struct {
			p    xy
			pen  drawing.Pen
			name string
		}{
			{xy{}, drawing.Thick, "cap corner point"},
			{xy{-str * tan, str}, drawing.String, "string corner"},
			{xy{-ext, capOut}, drawing.Medium, "wall corner, plumbed"},
		}
		reach := insetSide / 2
		for _, k := range corners {
			p := m.at(k.p)
			g.Line(k.pen, within(mid, reach, p, in.dir.times(-1)), p, within(mid, reach, p, out.dir))
		}
		words := at.X + insetLeft + insetSide + 450
		for i, k := range corners {
			p := m.at(k.p)
			y := mid.Y + drawing.Unit(i-1)*650
			g.Line(drawing.Thin, p, drawing.Point{X: words - 200, Y: y}, drawing.Point{X: words - 80, Y: y})
			g.Dot(p, 55, drawing.Black)
			g.Text(drawing.Point{X: words, Y: y + drawing.Unit(drawing.Note)/2}, k.name, drawing.Style{})
		}
		c.insetDims(g, m, mid, w)
	}}
}

// insetDims gives the wall corner's place from the cap's: out from the
// arriving run at the left, along it above or below.
func (c *corner) insetDims(g *drawing.Scene, m paperMap, mid drawing.Point, w *layout.Corner) {
	ends := drawing.Ticks
	if c.crew.Metric {
		ends = drawing.Arrows
	}
	y0, y1 := m.at(xy{}).Y, m.at(xy{0, w.Arrive.CapOut(w).MM()}).Y
	x := mid.X - insetSide/2 - 50
	g.Draw(drawing.Chain{Vertical: true, At: x, Stops: []drawing.Unit{y0, y1}, Labels: []string{""}, Ends: ends}.Figure())
	g.Text(drawing.Point{X: x - 180, Y: (y0+y1)/2 + drawing.Unit(drawing.Note)/2}, drawing.Letter(c.short(w.Arrive.CapOut(w))), drawing.Style{Align: drawing.Right})
	if w.Arrive.Right.Ext == 0 {
		return
	}
	a, b := m.at(xy{}).X, m.at(xy{x: -w.Arrive.Right.Ext.MM()}).X
	y, from := y0-700, y0
	if !w.Outside() {
		y, from = y1+700, y1
	}
	g.Draw(drawing.Chain{At: y, Stops: []drawing.Unit{min(a, b), max(a, b)}, Labels: []string{""}, From: []drawing.Unit{from}, Ends: ends}.Figure())
	at := drawing.Point{X: min(a, b) - 250, Y: y + drawing.Unit(drawing.Note)/2}
	g.Text(at, drawing.Letter(c.short(length.Abs(w.Arrive.Right.Ext))), drawing.Style{Align: drawing.Right})
}

// insetScale is the largest usual scale at which a distance stays small enough
// for the detail.
func insetScale(metric bool, l length.Length) Scale {
	for _, s := range Scales(metric) {
		if s.Units(l) <= 900 {
			return s
		}
	}
	return Scale{Name: "not to scale", Ratio: 100}
}

// within is where a ray from p leaves a circle about mid.
func within(mid drawing.Point, r drawing.Unit, p drawing.Point, dir xy) drawing.Point {
	d := dir.unit()
	q := xy{float64(p.X - mid.X), float64(p.Y - mid.Y)}
	b := float64(q.x*d.x) + float64(q.y*d.y)
	k := float64(b*b) - float64(q.x*q.x) - float64(q.y*q.y) + float64(r)*float64(r)
	return off(p, d, drawing.Round((math.Sqrt(math.Max(k, 0))-b)/100))
}
