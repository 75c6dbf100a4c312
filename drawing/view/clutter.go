package view

import (
	"math"

	"copingset/drawing"
)

// clutter remembers what lies on a view and finds room for lettering: no two
// texts touch, and no text lies on a line worth seeing. Leaders may cross
// lines but no text.
type clutter struct {
	room drawing.Rect
	ink  [][]drawing.Point // convex areas lettering keeps off
	soft [][]drawing.Point // hidden lines, which only a halo or a balloon may cover
	text [][]drawing.Point // lettering, which leaders keep off too
	lead [][]drawing.Point // leaders, which do not cross one another

	cover  bool                            // what is placed knocks out hidden lines
	accept func(middle drawing.Point) bool // where a block may stand; nil: anywhere
}

// lettering clear of its neighbours by this much.
const clearOfText drawing.Unit = 70

// line keeps lettering off a line.
func (c *clutter) line(a, b drawing.Point, half drawing.Unit) {
	c.ink = append(c.ink, strip(a, b, half))
}

// path keeps lettering off a line of several points.
func (c *clutter) path(half drawing.Unit, pts ...drawing.Point) {
	for i := 1; i < len(pts); i++ {
		c.line(pts[i-1], pts[i], half)
	}
}

// area keeps lettering off a convex area.
func (c *clutter) area(pts ...drawing.Point) { c.ink = append(c.ink, pts) }

// free says whether an area lies in the room and touches nothing.
func (c *clutter) free(q []drawing.Point) bool {
	for _, p := range q {
		if !c.room.Holds(p) {
			return false
		}
	}
	return !hits(q, c.text) && !hits(q, c.ink) && (c.cover || !hits(q, c.soft))
}

// hidden keeps lettering off a hidden line, unless it covers what it lies on.
func (c *clutter) hidden(pts ...drawing.Point) {
	for i := 1; i < len(pts); i++ {
		c.soft = append(c.soft, strip(pts[i-1], pts[i], 20))
	}
}

// strikes says whether a line would strike out a text.
func (c *clutter) strikes(a, b drawing.Point) bool { return hits(strip(a, b, 70), c.text) }

// crosses says whether a leader that ends in a dot at b would strike out a text
// or cross another leader.
func (c *clutter) crosses(a, b drawing.Point) bool {
	dot := drawing.Rect{Min: b, Max: b}.Inset(-90)
	return c.strikes(a, b) || hits(dot.Corners(), c.text) || hits(strip(a, b, 30), c.lead)
}

func hits(q []drawing.Point, areas [][]drawing.Point) bool {
	for _, t := range areas {
		if touching(q, t) {
			return true
		}
	}
	return false
}

// try letters words if there is room for them.
func (c *clutter) try(s *drawing.Scene, at drawing.Point, words string, st drawing.Style) bool {
	t := drawing.NewText(at, words, st)
	if !c.free(swell(t.Quad(), clearOfText)) {
		return false
	}
	s.Add(t)
	c.text = append(c.text, t.Quad())
	return true
}

// blockLine is one line of a block of lettering.
type blockLine struct {
	words string
	st    drawing.Style
}

// block is level lettering, its lines one below another, that may stand
// anywhere near what it names.
type block struct {
	lines  []blockLine
	pad    drawing.Unit // kept free round it
	leader drawing.Unit // a thin line joins it to its tip beyond this distance; zero: never
	dot    bool         // the line ends in a dot on a surface
}

func (b block) size() (w, h drawing.Unit) {
	for i, l := range b.lines {
		w = max(w, drawing.Width(l.st.Face, l.words, l.size()))
		h += drawing.Unit(l.size())
		if i > 0 {
			h += lineGap(l.size())
		}
	}
	return w, h
}

func (l blockLine) size() drawing.Size {
	if l.st.Size == 0 {
		return drawing.Note
	}
	return l.st.Size
}

// lineGap is the white between two lines of a block, above one of a size.
func lineGap(z drawing.Size) drawing.Unit { return drawing.Unit(z) * 6 / 10 }

// below is the room letters with tails take under the last line.
func (b block) below() drawing.Unit { return drawing.Unit(b.lines[len(b.lines)-1].size()) * 3 / 10 }

// boxAt is the box of the block with its middle at a point.
func (b block) boxAt(mid drawing.Point) drawing.Rect {
	w, h := b.size()
	x, y := mid.X-w/2, mid.Y-h/2
	return drawing.Box(x, y, x+w, y+h+b.below())
}

// draw letters the block in its box.
func (b block) draw(s *drawing.Scene, box drawing.Rect) []drawing.Text {
	y := box.Min.Y
	var out []drawing.Text
	for i, l := range b.lines {
		if i > 0 {
			y += lineGap(l.size())
		}
		y += drawing.Unit(l.size())
		st := l.st
		st.Align = drawing.Middle
		out = append(out, s.Text(drawing.Point{X: box.Centre().X, Y: y}, l.words, st))
	}
	return out
}

// place stands a block in a box if the box is free, with a leader to the tip
// if it is far.
func (c *clutter) place(s *drawing.Scene, b block, mid, tip drawing.Point) bool {
	box := b.boxAt(mid)
	if c.accept != nil && !c.accept(mid) {
		return false
	}
	if !c.free(box.Inset(-max(b.pad, clearOfText)).Corners()) {
		return false
	}
	near := drawing.Point{X: min(max(tip.X, box.Min.X), box.Max.X), Y: min(max(tip.Y, box.Min.Y), box.Max.Y)}
	d := near.Sub(tip)
	far := b.leader > 0 && math.Hypot(float64(d.X), float64(d.Y)) > float64(b.leader)
	if far && c.crosses(near, tip) {
		return false
	}
	if far {
		from := off(near, xy{float64(tip.X - near.X), float64(tip.Y - near.Y)}, 80)
		s.Line(drawing.Thin, from, tip)
		if b.dot {
			s.Dot(tip, 60, drawing.Black)
		}
		c.line(from, tip, 20)
		c.lead = append(c.lead, strip(from, off(tip, xy{float64(from.X - tip.X), float64(from.Y - tip.Y)}, 60), 10))
	}
	for _, t := range b.draw(s, box) {
		c.text = append(c.text, t.Quad())
	}
	return true
}

// fan looks for room for a block round its tip: first along dir, then at
// growing angles to it, then farther away.
func (c *clutter) fan(s *drawing.Scene, b block, tip drawing.Point, dir xy, from, to, step drawing.Unit, spread int) bool {
	w, h := b.size()
	a0 := math.Atan2(dir.y, dir.x) * 180 / math.Pi
	for d := from; d <= to; d += step {
		for k := 0; k <= spread; k += 15 {
			for _, sign := range []int{1, -1} {
				if k == 0 && sign < 0 {
					continue
				}
				u := heading(a0 + float64(k*sign))
				reach := d.Millimetres() + float64(math.Abs(u.x)*w.Millimetres()/2) + float64(math.Abs(u.y)*h.Millimetres()/2)
				mid := drawing.Point{X: tip.X + drawing.Round(u.x*reach), Y: tip.Y + drawing.Round(u.y*reach)}
				if c.place(s, b, mid, tip) {
					return true
				}
			}
		}
	}
	return false
}

// search looks for a free box of a size over the whole room, from its middle
// outwards if centred, else from its upper right corner.
func (c *clutter) search(w, h, pad drawing.Unit, from drawing.Point) (drawing.Rect, bool) {
	const step = 300
	best, found := drawing.Rect{}, false
	var nearest int64
	for y := c.room.Min.Y; y+h <= c.room.Max.Y; y += step {
		for x := c.room.Min.X; x+w <= c.room.Max.X; x += step {
			box := drawing.Box(x, y, x+w, y+h)
			m := box.Centre().Sub(from)
			d := int64(m.X)*int64(m.X) + int64(m.Y)*int64(m.Y)
			if found && d >= nearest || !c.free(box.Inset(-pad).Corners()) {
				continue
			}
			best, nearest, found = box, d, true
		}
	}
	return best, found
}

// strip is the area of a line with some width.
func strip(a, b drawing.Point, half drawing.Unit) []drawing.Point {
	d := xy{float64(b.X - a.X), float64(b.Y - a.Y)}
	if d.length() == 0 {
		d = xy{1, 0}
	}
	u := d.unit()
	n := u.roofward()
	at := func(p drawing.Point, k float64) drawing.Point {
		return drawing.Point{X: p.X + drawing.Unit(math.Round(n.x*k)), Y: p.Y + drawing.Unit(math.Round(n.y*k))}
	}
	h := float64(half)
	return []drawing.Point{at(a, h), at(b, h), at(b, -h), at(a, -h)}
}

// swell grows a rectangle, level or turned, by a margin.
func swell(q []drawing.Point, by drawing.Unit) []drawing.Point {
	across := xy{float64(q[1].X - q[0].X), float64(q[1].Y - q[0].Y)}.unit()
	down := xy{float64(q[3].X - q[0].X), float64(q[3].Y - q[0].Y)}.unit()
	m := float64(by)
	at := func(p drawing.Point, a, d float64) drawing.Point {
		return drawing.Point{
			X: p.X + drawing.Unit(math.Round(float64(across.x*a)+float64(down.x*d))),
			Y: p.Y + drawing.Unit(math.Round(float64(across.y*a)+float64(down.y*d))),
		}
	}
	return []drawing.Point{at(q[0], -m, -m), at(q[1], m, -m), at(q[2], m, m), at(q[3], -m, m)}
}

// touching tells whether two convex areas overlap (separating axes, in whole
// numbers).
func touching(a, b []drawing.Point) bool {
	for _, pair := range [2][2][]drawing.Point{{a, b}, {b, a}} {
		p, q := pair[0], pair[1]
		for i := range p {
			e := p[(i+1)%len(p)].Sub(p[i])
			if e.X == 0 && e.Y == 0 {
				continue
			}
			lo1, hi1 := across(p, e)
			lo2, hi2 := across(q, e)
			if hi1 <= lo2 || hi2 <= lo1 {
				return false
			}
		}
	}
	return true
}

func across(pts []drawing.Point, e drawing.Point) (lo, hi int64) {
	for i, p := range pts {
		v := int64(e.X)*int64(p.Y) - int64(e.Y)*int64(p.X)
		if i == 0 {
			lo, hi = v, v
		}
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi
}
