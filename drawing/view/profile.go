package view

import (
	"math"

	"copingset/drawing"
)

// asLine is the thickness on paper under which sheet is drawn as a thick line.
const asLine drawing.Unit = 70

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
