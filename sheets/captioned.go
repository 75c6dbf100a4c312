package sheets

import "copingset/drawing"

// captioned is words over two drawings beside each other, of the same thing. It stands
// whole; where a fresh region is too low for that, the words come first and the drawings
// after them under the same title.
type captioned struct {
	text list
	most drawing.Unit // height of a whole region
	// views are the drawings in a width, meant for a height.
	views func(w, h drawing.Unit) (left, right drawing.Scene)
	names [2]string // of their groups
}

// captionGap stands between words and drawings.
const captionGap drawing.Unit = 350

// head is what is left of the words; where none are, the title alone.
func (c captioned) head(w drawing.Unit) laid {
	if c.text.from < len(c.text.items) {
		got, _ := c.text.lay(w, tallest, true)
		return got
	}
	lines, z := titled(c.text.again, w)
	return laid{w: w, h: titleDrop + drawing.Unit(len(lines)-1)*z.Line(), draw: func(s *drawing.Scene,
		at drawing.Point) {
		s.Group(drawing.Lettering, "", func(g *drawing.Scene) { heading(g, at, w, c.text.again) })
	}}
}

func (c captioned) take(w, h drawing.Unit, fresh bool) (laid, block) {
	head := c.head(w)
	left, right := c.views(w, c.most-head.h-captionGap)
	need := head.h + captionGap + max(left.H, right.H)
	if need > h && !fresh {
		return laid{}, c
	}
	if need > h && c.text.from < len(c.text.items) {
		got, rest := c.text.take(w, h, true)
		if list, ok := rest.(list); ok {
			c.text = list
		} else {
			c.text.from = len(c.text.items)
		}
		return got, c
	}
	return laid{w: w, h: need, draw: func(s *drawing.Scene, at drawing.Point) {
		head.draw(s, at)
		y := at.Y + head.h + captionGap
		place(s, left, drawing.Pt(at.X, y), c.names[0])
		place(s, right, drawing.Pt(at.X+w-right.W, y), c.names[1])
	}}, nil
}
