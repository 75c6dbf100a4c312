package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// breakLabel names the weld over a break, on the roof side of the plan.
func (d *cornerDrawing) breakLabel(i int, kind, turn, fact string) saying {
	_, rear := d.miterAt(i)
	roof := d.legs[i].dir.roofward()
	l := place.Label{Lines: []string{kind, turn}, Facts: []string{"", fact}, Face: drawing.Bold, Pad: 80, Bare: true,
		About: d.m.at(rear)}
	spots := d.outOf(-1, l, l.Fan(place.Fan{Toward: tenths(roof), From: 700, To: 5000, Step: 250, Spread: 120,
		Reach: 1100}))
	return saying{Wish: place.Wish{Label: l, Spots: spots, Weight: 2}} // the title says it
}

// pitchWords add to the list the side view of a weld over a break, and the
// lengths of both legs at every edge.
func (c *corner) pitchWords(i int) {
	m := c.Miters[i]
	c.list.figures = append(c.list.figures, c.sideView(i))
	key := words.CornerFoldsBeyond
	if m.Arrive.Beyond.Real < 0 {
		key = words.CornerFoldsShort
	}
	c.note(c.say.Say(key, words.In("along", c.short(length.Abs(m.Arrive.Beyond.Real))), words.In("corner", m.Corner)),
		m.Arrive.Beyond)
	c.levelWords(i)
	said := [2]string{c.edgeWords(i), c.edgeWords(i + 1)}
	if said[0] == said[1] {
		c.note(c.say.Say(words.CornerEdgesBoth, words.In("edges", said[0])), c.edges(i)...)
		return
	}
	c.note(c.say.Say(words.CornerEdgesLeft, words.In("edges", said[0])), c.edges(i)...)
	c.note(c.say.Say(words.CornerEdgesRight, words.In("edges", said[1])), c.edges(i+1)...)
}

// levelWords say what a plan of a weld over a break cannot show: it lays both legs
// level, each along its own slope, with the weld straight across them; the rear fold,
// which lies lower than the front one, ends before or beyond it in the metal.
func (c *corner) levelWords(i int) {
	trim := c.Miters[i].Over.Trim
	key := words.CornerFlatBefore
	if trim.Real < 0 {
		key = words.CornerFlatBeyond
	}
	if c.shop.Round(trim.Real) == 0 {
		return
	}
	c.note(c.say.Say(key, words.In("length", c.inShop(length.Abs(trim.Real)))), trim)
}

// edgeWords are the lengths of one leg along its edges.
func (c *corner) edgeWords(leg int) string {
	var at []string
	for _, e := range c.Legs[leg].Edges {
		at = append(at, c.say.Say(c.edgeKey(e.Name), words.In("length", c.inShop(e.Long.Real))))
	}
	return strings.Join(at, ", ")
}

func (c *corner) edges(leg int) []plan.Value {
	var out []plan.Value
	for _, e := range c.Legs[leg].Edges {
		out = append(out, e.Long)
	}
	return out
}

// inShop letters a length as the shop measures it, with its unit.
func (c *corner) inShop(l length.Length) string {
	if c.Metric {
		return withUnit(c.shop, c.shop.Short(l))
	}
	return c.shop.Long(l)
}

// Size of the side view of a pitch miter.
const (
	sideWide drawing.Unit = 6000
	sideText drawing.Unit = 900 // above and below the metal
)

// sideView is a pitch miter seen from the roof: the rear leg on both sides of
// the weld, at its slopes, with the lengths of its fold and of its foot. Both
// legs are to one scale.
func (c *corner) sideView(i int) entry {
	w := c.Miters[i].Over
	var e extent
	for _, ring := range w.Legs {
		e.hold(places(ring)...)
	}
	scale := Scale{Name: c.say.Say(words.ViewNotToScale), Ratio: 1}
	for _, s := range Scales(c.Metric) {
		if s.Units(length.FromMM(e.hi.x-e.lo.x)) <= sideWide {
			scale = s
			break
		}
	}
	m := paperMap{ratio: float64(scale.Ratio)}
	metal := m.at(e.hi).Y - m.at(e.lo).Y
	high := 700 + sideText + metal + sideText + 600
	return entry{high, func(g *drawing.Scene, at drawing.Point) {
		m.origin = drawing.Pt(at.X+300-m.at(xy{e.lo.x, 0}).X, at.Y+700+sideText-m.at(xy{0, e.lo.y}).Y)
		g.Text(drawing.Pt(at.X, at.Y+450), drawing.Letter(c.say.Say(words.CornerSide, words.In("scale", scale.Name))),
			drawing.Style{Face: drawing.Bold})
		for _, ring := range w.Legs {
			g.Fill(drawing.White, drawing.Medium, m.all(places(ring)...)...)
		}
		g.Line(drawing.Thick, m.all(places([]plan.Pt{w.Legs[0][0], w.Legs[0][3]})...)...)
		st := drawing.Style{Align: drawing.Middle}
		for k, name := range []string{"L", "R"} {
			leg := places(w.Legs[k])
			g.Text(m.at(leg[0].between(leg[1])).Add(drawing.Pt(0, -230)), drawing.Letter(c.inShop(w.Fold[k].Real)),
				named(st, w.Fold[k]))
			low := m.at(leg[0].between(leg[1]).add(leg[2].sub(leg[1])))
			g.Text(low.Add(drawing.Pt(0, drawing.Unit(drawing.Note)+230)), drawing.Letter(c.inShop(w.RearFoot[k].Real)),
				named(st, w.RearFoot[k]))
			side := m.at([...]xy{e.lo, e.hi}[k])
			side.Y = m.at(e.hi).Y + 2*drawing.Unit(drawing.Note) + 400
			g.Text(side, drawing.Letter(c.slopeOut(name, w.Incline[k])),
				drawing.Style{Align: [...]drawing.Align{drawing.Left, drawing.Right}[k], Face: drawing.Bold,
					Fact: w.Inclined[k]})
		}
	}}
}

// named is a style for what letters a value.
func named(st drawing.Style, of plan.Value) drawing.Style {
	st.Fact = of.Fact
	return st
}

// edgeKey is the words of an edge of a leg.
func (c *corner) edgeKey(name string) words.Key {
	return map[string]words.Key{"drip edge": words.CornerEdgeDrip, "front foot": words.CornerEdgeFootStreet,
		"front fold": words.CornerEdgeFoldStreet,
		"rear fold":  words.CornerEdgeFoldRoof, "rear foot": words.CornerEdgeFootRoof,
		"hook edge": words.CornerEdgeHook}[name]
}

// slopeOut says how a leg goes on from the break.
func (c *corner) slopeOut(leg string, out length.Angle) string {
	switch {
	case out > 0:
		return c.say.Say(words.CornerUp, words.In("leg", leg), words.In("angle", length.FormatAngle(out)))
	case out < 0:
		return c.say.Say(words.CornerDown, words.In("leg", leg), words.In("angle", length.FormatAngle(-out)))
	}
	return c.say.Say(words.CornerLevel, words.In("leg", leg))
}
