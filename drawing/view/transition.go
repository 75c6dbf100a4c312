package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// A transition is drawn as the other special pieces are, in plan with the
// street at the top: its front is straight, its rear tapers between two
// straight legs. What differs from them stands here.

func (c *corner) tapers() bool { return c.Kind == plan.Tapering }

// taperWords fills the list of a transition.
func (c *corner) taperWords() {
	var chairs, joints []string
	for _, ch := range c.Legs[0].Chairs {
		words := ch.Mark + " (" + c.short(ch.Inside) + " inside"
		if ch.Cut() {
			words += " at its centre, its rear edge cut to the taper, " + c.short(ch.Edges[0]) + " at the left and " + c.short(ch.Edges[1]) + " at the right"
		}
		chairs = append(chairs, words+")")
	}
	for _, j := range c.Joints {
		joints = append(joints, j.Name)
	}
	t := &c.Taper
	c.list.items = []string{
		"Set the packing and the membrane under the piece",
		"Set chair " + join(chairs) + " to the layout string",
		"Splice plate and two strips of sealant tape at " + join(joints) + ", on the straight legs, each as wide as the cap there",
		"Piece " + c.Mark + ": hook the front, set the gap for today's metal temperature, snap the rear, check",
		"The layout string runs straight on: the front does not taper",
	}
	c.note("Standing on the roof and looking out over the wall, the WIDE end is at your " + strings.ToUpper(c.Hand.String()) + " hand.")
	c.note("Wide end inside "+c.shopShort(t.Wide[0].Real)+", outside "+c.shopShort(t.Wide[1].Real)+"; narrow end inside "+c.shopShort(t.Narrow[0].Real)+", outside "+c.shopShort(t.Narrow[1].Real)+".",
		t.Wide[0], t.Wide[1], t.Narrow[0], t.Narrow[1])
	c.note("Length "+c.long(t.Long.Real)+" along the straight front, each end a straight leg of "+c.short(t.Leg.Real)+". Straight face: "+t.Straight+".", t.Long, t.Leg)
	switch {
	case t.FrontRises.Real > 0:
		c.note("The top keeps its slope and is one plane: the front fold rises "+c.fine(t.FrontRises.Real)+" from the narrow to the wide end, the rear fold stays level.", t.FrontRises)
	case t.RearFalls.Real > 0:
		c.note("The top keeps its slope and is one plane: the rear fold falls "+c.fine(t.RearFalls.Real)+" from the narrow to the wide end, the front fold stays level.", t.RearFalls)
	}
}

// shopShort letters a length as the shop measures it, with its unit.
func (c *corner) shopShort(l length.Length) string { return withUnit(c.shop, c.shop.Short(l)) }

// long letters a length as the crew tapes it, with its unit.
func (c *corner) long(l length.Length) string { return withUnit(c.crew, shortNumber(c.crew, l)) }

// fine letters a rise that a tape hardly shows.
func (c *corner) fine(l length.Length) string {
	if c.Metric {
		return length.Millimetres(l, 1) + " mm"
	}
	return length.Inches(l, 32)
}

// taperWidths letters the two inside widths, beyond the ends.
func (d *cornerDrawing) taperWidths(g *drawing.Scene) {
	leg := d.legs[0]
	from, to := d.reach(leg, d.real(stub))
	for i, k := range []struct {
		u, out float64
		of     string
	}{{from, -1, "the left inside width"}, {to, 1, "the right inside width"}} {
		inside := d.Taper.Inside[i]
		metal := (d.Taper.Wide[1].Real - d.Taper.Wide[0].Real).MM() / 2
		d.dim(g, leg.at(k.u, metal), leg.at(k.u, metal+inside.Real.MM()), leg.dir.times(k.out), 7, d.shop.Short(inside.Real)+" inside", k.of, inside.Fact)
	}
}

// taperHands says which end is the wide one, and at which hand.
func (d *cornerDrawing) taperHands() []saying {
	leg := d.legs[0]
	a, b := leg.u(d.Taper.From), leg.u(d.Taper.To)
	var all []saying
	for _, k := range []struct {
		hand  plan.Hand
		words string
		u     float64
	}{{plan.LeftHand, "L", a / 2}, {plan.RightHand, "R", (b + leg.long) / 2}} {
		end := "NARROW END"
		if k.hand == d.Hand {
			end = "WIDE END"
		}
		l := place.Label{Lines: []string{k.words + "  " + end}, LeadFace: drawing.Bold, Pad: 80}
		w := leg.wideAt(k.u)
		tips := []xy{leg.at(k.u, w-d.real(2)), leg.at(k.u, w/2), leg.at(k.u, w)}
		l.About = d.m.at(tips[0])
		fan := place.Fan{Toward: tenths(leg.dir.roofward()), From: 1500, To: 6000, Step: 250, Spread: 105, Reach: 1100, Tips: d.m.all(tips...)}
		spots := append(l.Fan(fan), d.byLetter(l, k.words, leg)...)
		fan.Toward, fan.Tips = tenths(leg.dir.roofward().times(-1)), d.m.all(leg.at(k.u, d.real(2)), leg.at(k.u, 0))
		spots = append(spots, l.Fan(fan)...)
		all = append(all, saying{place.Wish{Label: l, Spots: spots, Weight: 4}, []string{l.Lines[0] + ", at the " + k.hand.String() + " hand."}})
	}
	return all
}
