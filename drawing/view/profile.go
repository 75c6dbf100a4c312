package view

import (
	"math"

	"copingset/drawing"
)

// thickened is the outline of a strip of thickness t about its middle line,
// mitered at the bends.
func thickened(path []xy, t float64) []xy {
	n := len(path)
	left, right := make([]xy, n), make([]xy, n)
	for i := range path {
		var d xy
		switch {
		case i == 0:
			d = path[1].sub(path[0]).unit()
		case i == n-1:
			d = path[n-1].sub(path[n-2]).unit()
		}
		off := d.roofward().times(t / 2)
		if i > 0 && i < n-1 {
			a, b := path[i].sub(path[i-1]).unit(), path[i+1].sub(path[i]).unit()
			m := a.roofward().add(b.roofward())
			k := float64(m.x*m.x) + float64(m.y*m.y)
			off = m.times(t / math.Max(k, 0.5)) // a sharp hook's miter is cut short
		}
		left[i], right[n-1-i] = path[i].add(off), path[i].sub(off)
	}
	return append(left, right...)
}

// asLine is the thickness on paper under which sheet is drawn as a thick line.
const asLine drawing.Unit = 70

// sheetMetal draws a strip of sheet: to its true thickness if the paper shows
// it, else as a thick line.
func sheetMetal(g *drawing.Scene, m paperMap, pen drawing.Pen, t float64, path []xy) {
	if drawing.Round(t/m.ratio) < asLine {
		g.Line(pen, m.all(path...)...)
		return
	}
	g.Fill(drawing.Dark, drawing.Thin, m.all(thickened(path, t)...)...)
}

// dashed draws a path in thick dashes: membrane.
func dashed(g *drawing.Scene, m paperMap, path []xy) {
	const on, gap = 260, 110
	pts := m.all(path...)
	left := float64(on)
	drawn := true
	for i := 1; i < len(pts); i++ {
		a, b := pts[i-1], pts[i]
		d := xy{float64(b.X - a.X), float64(b.Y - a.Y)}
		long, at := d.length(), 0.0
		for at < long {
			step := math.Min(left, long-at)
			p, q := off(a, d, drawing.Unit(math.Round(at))), off(a, d, drawing.Unit(math.Round(at+step)))
			if drawn && p != q {
				g.Line(drawing.Thick, p, q)
			}
			at += step
			if left -= step; left <= 0 {
				drawn = !drawn
				left = gap
				if drawn {
					left = on
				}
			}
		}
	}
}
