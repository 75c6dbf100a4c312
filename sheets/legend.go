package sheets

import (
	"copingset/drawing"
	"copingset/drawing/view"
)

const (
	swatchWide drawing.Unit = 1200
	swatchHigh drawing.Unit = 500
)

// legend names hatches in a box, in as many columns as their words allow.
func (b *book) legend(s *drawing.Scene, box drawing.Rect, entries []view.LegendEntry) {
	if len(entries) == 0 {
		return
	}
	// The space between and the lettering give way before an entry does.
	for _, tight := range []bool{false, true} {
		for n := 1; n <= 3; n++ {
			for _, z := range []drawing.Size{drawing.Note, drawing.Small} {
				if b.lettered(s, box, entries, n, z, tight, false) {
					b.lettered(s, box, entries, n, z, tight, true)
					return
				}
			}
		}
	}
	b.lettered(s, box, entries, 3, drawing.Small, true, true)
}

// lettered lays the legend out in n columns, and draws it if asked; false says
// that it does not fit.
func (b *book) lettered(
	s *drawing.Scene,
	box drawing.Rect,
	entries []view.LegendEntry,
	n int,
	z drawing.Size,
	tight, draw bool,
) bool {
	cols := columns(box, n, 300)
	line, swatchHigh, gap := drawing.Unit(z)*15/10, swatchHigh, drawing.Unit(150)
	if tight {
		line, swatchHigh, gap = drawing.Unit(z)*14/10, 340, 40
	}
	k, y := 0, box.Min.Y
	fits := true
	for _, e := range entries {
		words := drawing.Wrap(prose(e.Words), drawing.Regular, z, cols[0].Width()-swatchWide-200)
		h := max(swatchHigh+gap, (swatchHigh+drawing.Unit(z))/2+drawing.Unit(len(words)-1)*line+gap+50)
		if y+h > box.Max.Y && k < n-1 {
			k, y = k+1, box.Min.Y
		}
		fits = fits && y+h <= box.Max.Y+100
		if draw {
			x := cols[k].Min.X
			s.Hatch(e.Kind, drawing.Medium, drawing.Box(x, y, x+swatchWide, y+swatchHigh).Corners()...)
			for i, l := range words {
				s.Text(
					drawing.Pt(x+swatchWide+200, y+(swatchHigh+drawing.Unit(z))/2+drawing.Unit(i)*line),
					l,
					drawing.Style{Size: z, Fact: e.Fact},
				)
			}
		}
		y += h
	}
	return fits
}
