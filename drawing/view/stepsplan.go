package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// stepRow says what a small plan of the whole run shows; NoPen leaves out.
type stepRow struct {
	ends, chairs, string, caps drawing.Pen // chairs set with the corners, the others, string, caps
	stations, check            bool
}

// Chairs a small plan shows; of a longer run the middle is left out.
const stepChairsMost = 9

// row draws the run in a small plan, street at the top, its pieces, chairs and
// joints where they are. As in the run plan, lengthwise and crosswise have a
// scale each.
func (d *stepDrawing) row(g *drawing.Scene, box drawing.Rect, of stepRow) {
	const edge, gap = 60, 260
	type stretch struct {
		from, to length.Length
		x        drawing.Unit
	}
	parts := []stretch{{0, d.r.Cap, box.Min.X + edge}}
	room := box.Width() - 2*edge
	if ch := d.r.Chairs; len(ch) > stepChairsMost {
		a, b := ch[4].At+(ch[5].At-ch[4].At)/2, ch[len(ch)-4].At-(ch[len(ch)-4].At-ch[len(ch)-5].At)/2
		parts = []stretch{{0, a, box.Min.X + edge}, {b, d.r.Cap, 0}}
		room -= gap
	}
	var sum length.Length
	for _, p := range parts {
		sum += p.to - p.from
	}
	along := sum.MM() / room.Millimetres()
	if len(parts) > 1 {
		parts[1].x = parts[0].x + drawing.Round(parts[0].to.MM()/along) + gap
	}
	high := min(box.Height()*60/100, 1300)
	cross := (d.r.Outside).MM() / high.Millimetres()
	top := box.Min.Y + (box.Height()-high)/2
	y := func(v length.Length) drawing.Unit { return top + drawing.Round(v.MM()/cross) }
	front, rear := y(cap.ChairLine(d.sys)), y(cap.ChairRear(d.sys, d.r.Inside))
	front, rear = max(front, top+110), min(rear, top+high-110)
	for i, p := range parts {
		x := func(s length.Length) drawing.Unit {
			return p.x + drawing.Round((length.Max(p.from, length.Min(p.to, s))-p.from).MM()/along)
		}
		g.Group(drawing.Wall, "", func(g *drawing.Scene) {
			for _, e := range []drawing.Unit{top, top + high} {
				g.Line(drawing.Thin, drawing.Pt(x(p.from), e), drawing.Pt(x(p.to), e))
			}
			if len(parts) > 1 {
				e := x(p.to)
				if i == 1 {
					e = x(p.from)
				}
				m := top + high/2
				g.Line(drawing.Thin, drawing.Pt(e, top-60), drawing.Pt(e, m-100), drawing.Pt(e+60, m-50), drawing.Pt(e-60, m+50), drawing.Pt(e, m+100), drawing.Pt(e, top+high+60))
			}
		})
		in := func(s length.Length) bool { return s >= p.from && s <= p.to }
		half := max(drawing.Round(d.sys.Chair.Length.MM()/along/2), 60)
		g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
			for _, c := range d.r.Chairs {
				pen, fill := of.chairs, drawing.White
				if stepFirst(d.r, c) {
					pen, fill = of.ends, drawing.Light
				}
				if pen == drawing.Thick {
					fill = drawing.Mid
				}
				if pen == drawing.NoPen || !in(c.At) {
					continue
				}
				a, b := max(x(c.At)-half, x(p.from)+30), min(x(c.At)+half, x(p.to)-30)
				g.Fill(fill, pen, drawing.Pt(a, front), drawing.Pt(b, front), drawing.Pt(b, rear), drawing.Pt(a, rear))
			}
		})
		if of.chairs == drawing.NoPen && of.string == drawing.NoPen && of.caps == drawing.NoPen {
			continue
		}
		g.Group(drawing.Caps, "", func(g *drawing.Scene) {
			for _, q := range d.r.Parts {
				if stepAlong(q.Piece) && of.caps == drawing.NoPen || q.To <= p.from || q.From >= p.to {
					continue
				}
				a, b := x(q.From), x(q.To)
				g.Fill(drawing.White, drawing.Thin, drawing.Pt(a, top), drawing.Pt(b, top), drawing.Pt(b, top+high), drawing.Pt(a, top+high))
			}
		})
		if of.string != drawing.NoPen {
			g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
				first, last := d.stringOf()
				if first == last || !in(first.At) && first.At > p.to || !in(last.At) && last.At < p.from {
					return
				}
				a, b := max(x(first.At)-half/2, x(p.from)+60), min(x(last.At)+half/2, x(p.to)-60)
				g.Line(of.string, drawing.Pt(a, front), drawing.Pt(b, front))
				if in(first.At) {
					g.Dot(drawing.Pt(a, front), 65, drawing.Black)
				}
				if in(last.At) {
					g.Dot(drawing.Pt(b, front), 65, drawing.Black)
				}
			})
		}
		if of.stations {
			g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
				low := top + high + 160
				g.Line(drawing.Thin, drawing.Pt(x(p.from), low), drawing.Pt(x(p.to), low))
				if i == 0 {
					g.Circle(drawing.Thin, drawing.Pt(x(0), low), 55)
				}
				for _, c := range d.r.Chairs {
					if in(c.At) {
						g.Line(drawing.Thin, drawing.Pt(x(c.At), low-80), drawing.Pt(x(c.At), low+80))
					}
				}
			})
		}
		if of.check && i == len(parts)-1 {
			g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				low := top + high + 150
				stepArrow(g, drawing.Thick, drawing.Pt(parts[0].x+20, low), drawing.Pt(x(d.r.Cap), low))
			})
		}
	}
}

// stringOf names the chairs the string is pulled between: the last one set at
// the left end and the first set at the right end, which stand out from under
// the pieces that are laid already.
func (d *stepDrawing) stringOf() (first, last *layout.Chair) {
	ch := d.r.Chairs
	i, k := 0, len(ch)-1
	for i+1 < k && stepFirst(d.r, ch[i+1]) && ch[i+1].At < d.r.Cap/2 {
		i++
	}
	for k-1 > i && stepFirst(d.r, ch[k-1]) && ch[k-1].At > d.r.Cap/2 {
		k--
	}
	return ch[i], ch[k]
}

// stepPlate is a plan of the wall about the joint, both of one scale: the plan
// map with x from the joint's centre, and where cap line and rear line lie.
func (d *stepDrawing) stepPlate(over drawing.Unit) (m paperMap, half float64) {
	plate := math.Max(d.joint.Plate.MM(), d.sys.Chair.Length.MM()*0.6)
	out := d.r.OutsideAt(d.joint.Centre()).MM()
	low := d.room.Max.Y - stepFoot - 60
	ratio := math.Max(plate*1.5/(d.room.Width()-80).Millimetres(), out/(low-over-120).Millimetres())
	m = paperMap{ratio: ratio}
	m.origin = drawing.Pt(d.room.Width()/2, over+(low-over-drawing.Round(out/ratio))/2)
	return m, (d.room.Width()/2 - 40).Millimetres() * ratio
}

// sides names street and roof of a plan.
func (d *stepDrawing) sides(g *drawing.Scene) {
	g.Text(drawing.Pt(0, 310), "street", drawing.Style{})
	g.Text(drawing.Pt(0, d.room.Max.Y-90), "roof", drawing.Style{})
}

// splices draws plate and tape of a joint in plan, with the distance of the
// tape from the joint's centre line.
func (d *stepDrawing) splices(g *drawing.Scene) {
	m, half := d.stepPlate(900)
	out, plate, tape := d.r.OutsideAt(d.joint.Centre()).MM(), d.joint.Plate.MM()/2, d.sys.Splice.Tape.MM()
	expansion := d.joint.Kind == cap.Expansion
	wall := 1.2 * m.ratio
	g.Group(drawing.Wall, "", func(g *drawing.Scene) {
		for _, y := range []float64{wall, out - wall} {
			g.Line(drawing.Thin, m.all(xy{-half, y}, xy{half, y})...)
		}
	})
	if !expansion {
		g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
			c := d.sys.Chair.Length.MM() / 2
			c = math.Min(c, half)
			g.Fill(drawing.Light, drawing.Thin, m.all(xy{-c, 1.8 * wall}, xy{c, 1.8 * wall}, xy{c, out - 1.8*wall}, xy{-c, out - 1.8*wall})...)
		})
	}
	g.Group(drawing.Splices, "", func(g *drawing.Scene) {
		g.Fill(drawing.White, drawing.Thick, m.all(xy{-plate, 0}, xy{plate, 0}, xy{plate, out}, xy{-plate, out})...)
		wide := math.Min(0.6*m.ratio, math.Max(plate-tape, 0.3*m.ratio))
		for _, x := range []float64{-tape, tape} {
			g.Fill(drawing.Dark, drawing.NoPen, m.all(xy{x - wide, 0.5 * m.ratio}, xy{x + wide, 0.5 * m.ratio}, xy{x + wide, out - 0.5*m.ratio}, xy{x - wide, out - 0.5*m.ratio})...)
		}
	})
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		a, b := m.at(xy{0, 0}), m.at(xy{tape, 0})
		g.Line(drawing.Centre, drawing.Pt(a.X, a.Y-420), m.at(xy{0, out}).Add(drawing.Pt(0, 200)))
		at := a.Y - 270
		stepDim(g, a.X, b.X, at, a.Y-90)
		words := stepShort(d.l, d.sys.Splice.Tape)
		if right := b.X + 160; right+drawing.Width(drawing.Regular, words, drawing.Note) <= d.room.Max.X {
			g.Text(drawing.Pt(right, at+100), words, drawing.Style{})
		} else {
			g.Text(drawing.Pt(a.X-160, at+100), words, drawing.Style{Align: drawing.Right})
		}
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { d.sides(g) })
}

// stepShort letters a length of a picture, which stands under the units of
// the sheet.
func stepShort(l *layout.Layout, d length.Length) string { return drawing.Letter(Crew(l).Short(d)) }

// gap draws two caps at a joint in plan with the gap at the reference
// temperature. The gap itself would print too narrow and is drawn wider.
func (d *stepDrawing) gap(g *drawing.Scene) {
	m, half := d.stepPlate(1250)
	out, open := d.r.OutsideAt(d.joint.Centre()).MM(), math.Max(d.joint.Gap().MM()/2, 1.1*m.ratio)
	plate := d.joint.Plate.MM() / 2
	g.Group(drawing.Splices, "", func(g *drawing.Scene) {
		in := 1.2 * m.ratio
		g.Fill(drawing.Light, drawing.Hidden, m.all(xy{-plate, in}, xy{plate, in}, xy{plate, out - in}, xy{-plate, out - in})...)
	})
	g.Group(drawing.Caps, "", func(g *drawing.Scene) {
		for _, k := range []float64{-1, 1} {
			g.Line(drawing.Thick, m.all(xy{k * half, 0}, xy{k * open, 0}, xy{k * open, out}, xy{k * half, out})...)
			z := 0.7 * m.ratio
			x, mid := k*half, out/2
			g.Line(drawing.Thin, m.all(xy{x, 0}, xy{x, mid - 2*z}, xy{x - k*z, mid - z}, xy{x + k*z/2, mid + z}, xy{x, mid + 2*z}, xy{x, out})...)
		}
	})
	words := stepShort(d.l, d.joint.Gap())
	switch {
	case d.joint.Kind != cap.Expansion:
		words = stepShort(d.l, cap.GapAt(d.sys, d.joint.Mean(), d.sys.Joint.Reference)) + " at " + stepDegrees(d.l, d.sys.Joint.Reference)
	case d.joint.Movement == nil:
		words = "HOLD"
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
		g.Text(drawing.Pt(a.X, at-190), words, drawing.Style{Align: drawing.Middle})
	})
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { d.sides(g) })
}

// trim draws the end of a closer that is cut, with what it ships long.
func (d *stepDrawing) trim(g *drawing.Scene) {
	q := stepCloser(d.r)
	box := drawing.Box(120, 1280, d.room.Max.X-120, d.room.Max.Y-stepFoot-100)
	left := q.Piece.CutAt == cap.LeftHand
	x := func(v drawing.Unit) drawing.Unit { // from the end that is cut
		if left {
			return box.Min.X + v
		}
		return box.Max.X - v
	}
	cut, far := drawing.Unit(750), box.Width()
	g.Group(drawing.Caps, "", func(g *drawing.Scene) {
		g.Fill(drawing.Light, drawing.Hidden, drawing.Pt(x(0), box.Min.Y), drawing.Pt(x(cut), box.Min.Y), drawing.Pt(x(cut), box.Max.Y), drawing.Pt(x(0), box.Max.Y))
		g.Line(drawing.Medium, drawing.Pt(x(0), box.Min.Y), drawing.Pt(x(cut), box.Max.Y))
		g.Line(drawing.Medium, drawing.Pt(x(0), box.Max.Y), drawing.Pt(x(cut), box.Min.Y))
		m := box.Centre().Y
		g.Line(drawing.Thin, drawing.Pt(x(cut), box.Min.Y), drawing.Pt(x(far), box.Min.Y), drawing.Pt(x(far), m-150), drawing.Pt(x(far-70), m-70), drawing.Pt(x(far-20), m+70), drawing.Pt(x(far), m+150), drawing.Pt(x(far), box.Max.Y), drawing.Pt(x(cut), box.Max.Y))
		g.Line(drawing.Thick, drawing.Pt(x(cut), box.Min.Y-150), drawing.Pt(x(cut), box.Max.Y+150))
		g.Text(drawing.Pt(x((cut+far)/2), m-150), "closer", drawing.Style{Align: drawing.Middle})
		g.Text(drawing.Pt(x((cut+far)/2), m+400), q.Piece.Mark, drawing.Style{Align: drawing.Middle, Face: drawing.Bold})
	})
	g.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		stepDim(g, x(0), x(cut), box.Min.Y-330, box.Min.Y-80)
		words := stepShort(d.l, q.Piece.Allowance)
		half := drawing.Width(drawing.Regular, words, drawing.Note)/2 + 20
		at := min(max(x(cut/2), half), d.room.Max.X-half)
		g.Text(drawing.Pt(at, box.Min.Y-460), words, drawing.Style{Align: drawing.Middle})
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

// corner draws the corner or end piece with its chairs and supports in plan,
// turned so that this run has the street at the top.
func (d *stepDrawing) corner(g *drawing.Scene) {
	box := drawing.Box(0, stepFoot, d.room.Max.X, d.room.Max.Y)
	g.Text(drawing.Pt(d.room.Max.X/2, 310), "street", drawing.Style{Align: drawing.Middle})
	var piece *layout.Piece
	for _, q := range d.r.Parts {
		if !stepAlong(q.Piece) && (piece == nil || len(piece.Miters) == 0 && len(q.Piece.Miters) > 0) {
			piece = q.Piece
		}
	}
	if piece == nil {
		mid := box.Height() / 4
		d.row(g, drawing.Box(box.Min.X, box.Min.Y+mid, box.Max.X, box.Max.Y-mid), stepRow{ends: drawing.Thick})
		return
	}
	c := &cornerDrawing{corner: newCorner(d.l.Corner(piece))}
	turn := func(q xy) xy { return q }
	for _, leg := range c.legs {
		if leg.of.Of != layout.FactOfRun(d.r) {
			continue
		}
		back := xy{leg.dir.x, -leg.dir.y}
		turn = func(q xy) xy {
			return xy{float64(q.x*back.x) - float64(q.y*back.y), float64(q.x*back.y) + float64(q.y*back.x)}
		}
		for i := range c.legs {
			c.legs[i].o, c.legs[i].dir = turn(c.legs[i].o), turn(c.legs[i].dir)
		}
		break
	}
	var e extent
	over := d.l.Job.System.Chair.Length.MM()*0.5 + 40
	for _, leg := range c.legs {
		a, b := d.legReach(c, leg, over)
		q := leg.polygon()
		e.hold(q[:]...)
		e.hold(leg.at(a, 0), leg.at(b, 0), leg.at(a+leg.leftTrim, leg.wide), leg.at(b-leg.rightTrim, leg.wide))
		for _, ch := range leg.of.Chairs {
			q := d.chairPlan(c, leg, ch)
			e.hold(q[:]...)
		}
	}
	for _, q := range stepHigher(c, over/2) {
		e.hold(q[:]...)
	}
	w, h := e.hi.x-e.lo.x, e.hi.y-e.lo.y
	const edge = 60
	c.m.ratio = math.Max(w/(box.Width()-2*edge).Millimetres(), h/(box.Height()-2*edge).Millimetres())
	mid := c.m.at(e.lo.between(e.hi))
	c.m.origin = box.Centre().Sub(mid)
	g.Group(drawing.Wall, "", func(g *drawing.Scene) {
		for _, q := range stepHigher(c, over/2) {
			g.Hatch(drawing.Masonry, drawing.Thin, c.m.all(q[:]...)...)
		}
		if c.tees() {
			for _, leg := range c.legs {
				a, b := d.legReach(c, leg, over)
				y0, y1 := math.Max(leg.of.Middle[0].MM(), 0.9*c.m.ratio), math.Min(leg.of.Middle[1].MM(), leg.wide-0.9*c.m.ratio)
				g.Line(drawing.Thin, c.m.all(leg.at(a, y0), leg.at(b, y0))...)
				g.Line(drawing.Thin, c.m.all(leg.at(a, y1), leg.at(b, y1))...)
			}
			return
		}
		g.Line(drawing.Thin, c.m.all(d.beside(c, over, func(q cornerLeg) float64 { return math.Max(q.of.Middle[0].MM(), 0.9*c.m.ratio) })...)...)
		g.Line(drawing.Thin, c.m.all(d.beside(c, over, func(q cornerLeg) float64 {
			return math.Min(q.of.Middle[1].MM(), q.wide-0.9*c.m.ratio)
		})...)...)
	})
	g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
		for _, leg := range c.legs {
			for _, ch := range leg.of.Chairs {
				q := d.chairPlan(c, leg, ch)
				g.Fill(drawing.Mid, drawing.Medium, c.m.all(q[:]...)...)
			}
		}
		for _, s := range c.Supports {
			g.Fill(drawing.Mid, drawing.Medium, c.m.all(c.legs[s.Miter].ring(s.Ring)...)...)
		}
	})
	g.Group(drawing.Caps, "", func(g *drawing.Scene) {
		g.Polygon(drawing.Thick, c.m.all(turned(c.outline(), turn)...)...)
		for i := range piece.Miters {
			p, q := c.miterAt(i)
			g.Line(drawing.Medium, c.m.all(p, q)...)
		}
		if c.tees() {
			g.Line(drawing.Medium, c.m.all(turned(places(c.Tee.Seam[:]), turn)...)...)
		}
	})
}

func turned(ps []xy, turn func(xy) xy) []xy {
	for i, p := range ps {
		ps[i] = turn(p)
	}
	return ps
}

// chairPlan is a chair on a leg, clear of the cap's line at both edges.
func (d *stepDrawing) chairPlan(c *cornerDrawing, leg cornerLeg, ch plan.LegChair) [4]xy {
	var out [4]xy
	for i, p := range ch.Ring {
		out[i] = leg.at(leg.u(p.X), math.Max(0.9*c.m.ratio, math.Min(p.Y.MM(), leg.wide-0.9*c.m.ratio)))
	}
	return out
}

// stepHigher is the higher wall a piece dies into, shown deep into it.
func stepHigher(c *cornerDrawing, deep float64) (out [][4]xy) {
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

// legReach is how far the wall is shown along a leg: beyond its joints.
func (d *stepDrawing) legReach(c *cornerDrawing, leg cornerLeg, over float64) (a, b float64) {
	a, b = 0, leg.long
	for _, j := range c.Joints {
		switch {
		case j.Leg != leg.i:
		case j.Hand == plan.LeftHand:
			a = -over
		default:
			b = leg.long + over
		}
	}
	return a, b
}

// beside is a line over all legs, at its own distance from the cap line of each.
func (d *stepDrawing) beside(c *cornerDrawing, over float64, y func(cornerLeg) float64) []xy {
	var of []plan.CornerLeg
	var at []length.Length
	for _, leg := range c.legs {
		of, at = append(of, leg.of), append(at, length.FromMM(y(leg)))
	}
	lines := plan.Beside(of, at...)
	var out []xy
	for i, leg := range c.legs {
		a, b := d.legReach(c, leg, over)
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
