package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// stepCorner is the picture of a corner or end piece with its chairs and supports in
// plan.
type stepCorner struct {
	*cornerDrawing
	over float64 // how far the wall is shown beyond a joint
	turn func(xy) xy
}

// corner draws the corner or end piece of a run, turned so that this run has the
// street at the top; of a run without one the chairs at its ends.
func (d *stepDrawing) corner(g *drawing.Scene, chairs, metal drawing.Pen) {
	box := drawing.Box(0, stepFoot, d.room.Max.X, d.room.Max.Y)
	d.street(g)
	if !d.Work.Cornered {
		mid := box.Height() / 4
		d.row(g, drawing.Box(box.Min.X, box.Min.Y+mid, box.Max.X, box.Max.Y-mid), stepRow{ends: chairs})
		return
	}
	c := d.turnedCorner()
	c.fit(box)
	g.Group(drawing.Wall, "", c.wall)
	g.Group(drawing.Chairs, "", func(g *drawing.Scene) { c.stands(g, chairs) })
	if metal != drawing.NoPen {
		g.Group(drawing.Caps, "", func(g *drawing.Scene) { c.metal(g, metal) })
	}
}

// street names the side at the top of a plan.
func (d *stepDrawing) street(g *drawing.Scene) {
	g.Text(drawing.Pt(d.room.Max.X/2, 330), d.Say.Say(words.WorkStreet), drawing.Style{Face: drawing.Bold,
		Align: drawing.Middle})
}

// turnedCorner is the piece with this run's leg along the top.
func (d *stepDrawing) turnedCorner() *stepCorner {
	c := &stepCorner{cornerDrawing: &cornerDrawing{corner: newCorner(d.Say, d.Work.Corner)},
		turn: func(q xy) xy { return q }}
	c.over = d.Work.ChairLong.MM()*0.5 + 40
	for _, leg := range c.legs {
		if leg.of.Of != d.Run.Of {
			continue
		}
		back := xy{leg.dir.x, -leg.dir.y}
		c.turn = func(q xy) xy {
			return xy{float64(q.x*back.x) - float64(q.y*back.y), float64(q.x*back.y) + float64(q.y*back.x)}
		}
		for i := range c.legs {
			c.legs[i].o, c.legs[i].dir = c.turn(c.legs[i].o), c.turn(c.legs[i].dir)
		}
		break
	}
	return c
}

// fit scales the piece to a box.
func (c *stepCorner) fit(box drawing.Rect) {
	var e extent
	for _, leg := range c.legs {
		a, b := c.reach(leg)
		q := leg.polygon()
		e.hold(q[:]...)
		e.hold(leg.at(a, 0), leg.at(b, 0), leg.at(a+leg.leftTrim, leg.wide), leg.at(b-leg.rightTrim, leg.wide))
		for _, ch := range leg.of.Chairs {
			q := c.chair(leg, ch)
			e.hold(q[:]...)
		}
	}
	for _, q := range c.higher() {
		e.hold(q[:]...)
	}
	w, h := e.hi.x-e.lo.x, e.hi.y-e.lo.y
	const edge = 60
	c.m.ratio = math.Max(w/(box.Width()-2*edge).Millimetres(), h/(box.Height()-2*edge).Millimetres())
	c.m.origin = box.Centre().Sub(c.m.at(e.lo.between(e.hi)))
}

// clear holds a distance behind the cap line off both of a leg's mold lines, as far
// as the paper tells them apart.
func (c *stepCorner) clear(leg cornerLeg, behind length.Length) float64 {
	return math.Max(0.9*c.m.ratio, math.Min(behind.MM(), leg.wide-0.9*c.m.ratio))
}

func (c *stepCorner) wall(g *drawing.Scene) {
	for _, q := range c.higher() {
		g.Hatch(drawing.Masonry, drawing.Thin, c.m.all(q[:]...)...)
	}
	for face := range 2 {
		behind := func(leg cornerLeg) float64 { return c.clear(leg, leg.of.Middle[face]) }
		if !c.tees() {
			g.Line(drawing.Thin, c.m.all(c.beside(behind)...)...)
			continue
		}
		for _, leg := range c.legs {
			a, b := c.reach(leg)
			g.Line(drawing.Thin, c.m.all(leg.at(a, behind(leg)), leg.at(b, behind(leg)))...)
		}
	}
}

func (c *stepCorner) stands(g *drawing.Scene, pen drawing.Pen) {
	fill := drawing.Light
	if pen == drawing.Thick {
		fill = drawing.Mid
	}
	for _, leg := range c.legs {
		for _, ch := range leg.of.Chairs {
			q := c.chair(leg, ch)
			g.Fill(fill, pen, c.m.all(q[:]...)...)
			for _, web := range ch.Webs {
				g.Line(drawing.Thin, c.m.all(leg.pt(web[0]), leg.pt(web[1]))...)
			}
		}
	}
	for _, s := range c.Supports {
		g.Fill(fill, pen, c.m.all(c.legs[s.Miter].ring(s.Ring)...)...)
	}
}

func (c *stepCorner) metal(g *drawing.Scene, pen drawing.Pen) {
	g.Polygon(pen, c.m.all(turned(c.outline(), c.turn)...)...)
	for i := range c.Miters {
		p, q := c.miterAt(i)
		g.Line(drawing.Medium, c.m.all(p, q)...)
	}
	if c.tees() {
		g.Line(drawing.Medium, c.m.all(turned(places(c.Tee.Seam[:]), c.turn)...)...)
	}
}

// turned turns places.
func turned(ps []xy, turn func(xy) xy) []xy {
	for i, p := range ps {
		ps[i] = turn(p)
	}
	return ps
}

// chair is a chair on a leg, clear of the cap's line at both edges.
func (c *stepCorner) chair(leg cornerLeg, ch plan.LegChair) [4]xy {
	var out [4]xy
	for i, p := range ch.Ring {
		out[i] = leg.at(leg.u(p.X), c.clear(leg, p.Y))
	}
	return out
}

// higher is the higher wall a piece dies into.
func (c *stepCorner) higher() (out [][4]xy) {
	deep := c.over / 2
	for i, e := range c.Ends {
		if e.Kind != plan.AgainstEnd {
			continue
		}
		leg := c.legs[i*(len(c.legs)-1)]
		over, a, b := 0.25*leg.wide, leg.u(e.Wall)-deep, leg.u(e.Wall)
		if i == 1 {
			a, b = b, b+deep
		}
		out = append(out, [4]xy{leg.at(a, -over), leg.at(b, -over), leg.at(b, leg.wide+over), leg.at(a, leg.wide+over)})
	}
	return out
}

// reach is how far the wall is shown along a leg: beyond its joints.
func (c *stepCorner) reach(leg cornerLeg) (a, b float64) {
	a, b = 0, leg.long
	for _, j := range c.Joints {
		switch {
		case j.Leg != leg.i:
		case j.Hand == plan.LeftHand:
			a = -c.over
		default:
			b = leg.long + c.over
		}
	}
	return a, b
}

// beside is a line over all legs, at its own distance from the cap line of each.
func (c *stepCorner) beside(y func(cornerLeg) float64) []xy {
	var of []plan.CornerLeg
	var at []length.Length
	for _, leg := range c.legs {
		of, at = append(of, leg.of), append(at, length.FromMM(y(leg)))
	}
	lines := plan.Beside(of, at...)
	var out []xy
	for i, leg := range c.legs {
		a, b := c.reach(leg)
		lo, hi := leg.of.From+length.FromMM(a), leg.of.From+length.FromMM(b)
		if i > 0 {
			lo = -length.Most
		}
		if i < len(c.legs)-1 {
			hi = length.Most
		}
		out = chained(out, leg.ring(plan.Within(lines[i], lo, hi)))
	}
	return out
}
