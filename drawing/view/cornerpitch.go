package view

import (
	"math"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// breakLabel names the weld over a break, on the roof side of the plan.
func (d *cornerDrawing) breakLabel(i int, kind, turn string) saying {
	_, rear := d.miterAt(i)
	roof := d.legs[i].dir.roofward()
	l := place.Label{Lines: []string{kind, turn}, Face: drawing.Bold, Pad: 80, Bare: true, About: d.m.at(rear)}
	spots := d.outOf(-1, l, l.Fan(place.Fan{Toward: tenths(roof), From: 700, To: 5000, Step: 250, Spread: 120, Reach: 1100}))
	return saying{place.Wish{Label: l, Spots: spots, Weight: 2}, []string{d.p.Miters[i].Corner.Name + ": " + kind + ", " + turn + "."}}
}

// pitchWords add to the list the side view of a weld over a break, and the
// lengths of both legs at every edge.
func (c *corner) pitchWords(i int) {
	w := c.p.Miters[i].Corner
	c.list.figures = append(c.list.figures, c.sideView(i))
	ext := c.short(w.Arrive.Right.Ext) + " beyond"
	if w.Arrive.Right.Ext < 0 {
		ext = c.short(-w.Arrive.Right.Ext) + " short of"
	}
	c.list.notes = append(c.list.notes, "The front folds meet "+ext+" the break in the wall top "+w.Name+", along each run.")
	c.list.notes = append(c.list.notes, c.levelWords(i)...)
	words := [2]string{c.edgeWords(i), c.edgeWords(i + 1)}
	if words[0] == words[1] {
		c.list.notes = append(c.list.notes, "Each leg: "+words[0]+".")
		return
	}
	c.list.notes = append(c.list.notes, "Left leg: "+words[0]+".", "Right leg: "+words[1]+".")
}

// levelWords say what a plan of a weld over a break cannot show: it lays both legs
// level, each along its own slope, with the weld straight across them; the rear fold,
// which lies lower than the front one, ends before or beyond it in the metal.
func (c *corner) levelWords(i int) []string {
	trim := c.p.Miters[i].Trim[0] // the same of both legs
	where := "before"
	if trim < 0 {
		where = "beyond"
	}
	if c.shop.Round(trim) == 0 {
		return nil
	}
	return []string{"Drawn with both legs laid level, each along its own slope: at the weld their rear folds end " +
		c.inShop(length.Abs(trim)) + " " + where + " the front ones."}
}

// edgeWords are the lengths of one leg along its edges.
func (c *corner) edgeWords(leg int) string {
	var at []string
	for _, e := range cap.Edges(c.sys, c.p.Inside+2*c.sys.Metal.Thickness) {
		at = append(at, e.Name+" "+c.inShop(c.p.EdgeLength(leg, e)))
	}
	return strings.Join(at, ", ")
}

// inShop letters a length as the shop measures it, with its unit.
func (c *corner) inShop(l length.Length) string {
	if c.shop.Metric {
		return c.shop.Short(l) + " mm"
	}
	return c.shop.Long(l)
}

// Size of the side view of a pitch miter.
const (
	sideWide drawing.Unit = 8000
	sideText drawing.Unit = 900 // above and below the metal
)

// sideView is a pitch miter seen from the roof: the rear leg on both sides of
// the weld, at its slopes, with the lengths of its fold and of its foot. Both
// legs are to one scale.
func (c *corner) sideView(i int) entry {
	w := c.p.Miters[i].Corner
	left, right := c.p.Parts[i].Length().MM(), c.p.Parts[i+1].Length().MM()
	a, b := w.Arrive.Incline().Degrees()*math.Pi/180, w.Leave.Incline().Degrees()*math.Pi/180
	deep := c.sys.RearLeg(job.ToMoldLine).MM()
	// x to the right, y down the paper, origin where the rear folds meet.
	along := [2]xy{{-math.Cos(a), math.Sin(a)}, {math.Cos(b), -math.Sin(b)}}
	down := [2]xy{{math.Sin(a), math.Cos(a)}, {math.Sin(b), math.Cos(b)}}
	trim := deep * math.Tan(w.Bend.Degrees()/2*math.Pi/180)
	foot := along[0].times(trim).add(down[0].times(deep))
	long := [2]float64{left, right}
	var ring [2][]xy
	var e extent
	for k := range ring {
		fold, end := xy{}, along[k].times(long[k])
		ring[k] = []xy{fold, end, end.add(down[k].times(deep)), foot}
		e.hold(ring[k]...)
	}
	scale := Scale{Name: "not to scale", Ratio: 1}
	for _, s := range Scales(c.crew.Metric) {
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
		g.Text(drawing.Pt(at.X, at.Y+450), drawing.Letter("Seen from the roof, rear leg, "+scale.Name), drawing.Style{Face: drawing.Bold})
		for k := range ring {
			g.Fill(drawing.White, drawing.Medium, m.all(ring[k]...)...)
		}
		g.Line(drawing.Thick, m.at(xy{}), m.at(foot))
		st := drawing.Style{Align: drawing.Middle}
		outside := cap.Edges(c.sys, c.p.Inside+2*c.sys.Metal.Thickness)
		for k, name := range []string{"L", "R"} {
			top, low := m.at(along[k].times(long[k]/2)), m.at(along[k].times(long[k]/2).add(down[k].times(deep)))
			var fold, rearFoot length.Length
			for _, x := range outside {
				switch x.Name {
				case "rear fold":
					fold = c.p.EdgeLength(i+k, x)
				case "rear foot":
					rearFoot = c.p.EdgeLength(i+k, x)
				}
			}
			g.Text(top.Add(drawing.Pt(0, -230)), drawing.Letter(c.inShop(fold)), st)
			g.Text(low.Add(drawing.Pt(0, drawing.Unit(drawing.Note)+230)), drawing.Letter(c.inShop(rearFoot)), st)
			side := m.at([...]xy{e.lo, e.hi}[k])
			side.Y = m.at(e.hi).Y + 2*drawing.Unit(drawing.Note) + 400
			g.Text(side, drawing.Letter(name+": "+slopeFrom(w.Arrive.Incline(), w.Leave.Incline(), k)), drawing.Style{Align: [...]drawing.Align{drawing.Left, drawing.Right}[k], Face: drawing.Bold})
		}
	}}
}

// slopeFrom says how a leg goes on from the break: k is 0 at the left.
func slopeFrom(arrive, leave job.Angle, k int) string {
	out := [...]job.Angle{-arrive, leave}[k]
	switch {
	case out > 0:
		return "up " + job.FormatAngle(out)
	case out < 0:
		return "down " + job.FormatAngle(-out)
	}
	return "level"
}
