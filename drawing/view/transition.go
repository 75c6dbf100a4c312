package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// A transition is drawn as the other special pieces are, in plan with the
// street at the top: its front is straight, its rear tapers between two
// straight legs. What differs from them stands here.

func (c *corner) tapers() bool { return c.Kind == plan.Tapering }

// taperWords fills the list of a transition.
func (c *corner) taperWords() {
	say, t := c.say.Say, &c.Taper
	hand := words.CornerTaperRight
	if c.Hand == plan.LeftHand {
		hand = words.CornerTaperLeft
	}
	c.note(say(hand))
	for _, ch := range c.Legs[0].Chairs {
		mark, inside := words.In("chair", ch.Mark), words.In("inside", c.short(ch.Inside.Real))
		if ch.Cut() {
			c.note(say(words.CornerTaperChairCut, mark, inside, words.In("left", c.short(ch.Edges[0].Real)),
				words.In("right", c.short(ch.Edges[1].Real))), ch.Inside, ch.Edges[0], ch.Edges[1])
			continue
		}
		c.note(say(words.CornerTaperChair, mark, inside), ch.Inside)
	}
	c.note(say(words.CornerTaperWidths, words.In("wide", c.shopShort(t.Wide[0].Real)),
		words.In("wide-out", c.shopShort(t.Wide[1].Real)),
		words.In("narrow", c.shopShort(t.Narrow[0].Real)), words.In("narrow-out", c.shopShort(t.Narrow[1].Real))),
		t.Wide[0], t.Wide[1], t.Narrow[0], t.Narrow[1])
	straight := words.CornerTaperStreet
	if t.Straight != "front" {
		straight = words.CornerTaperRoof
	}
	c.note(say(straight, words.In("length", c.long(t.Long.Real)), words.In("leg", c.short(t.Leg.Real))), t.Long, t.Leg)
	switch {
	case t.FrontRises.Real > 0:
		c.note(say(words.CornerTaperRises, words.In("rise", c.fine(t.FrontRises.Real))), t.FrontRises)
	case t.RearFalls.Real > 0:
		c.note(say(words.CornerTaperFalls, words.In("fall", c.fine(t.RearFalls.Real))), t.RearFalls)
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
		hand   words.Key
	}{{from, -1, words.CornerHandLeft}, {to, 1, words.CornerHandRight}} {
		inside := d.Taper.Inside[i]
		metal := (d.Taper.Wide[1].Real - d.Taper.Wide[0].Real).MM() / 2
		d.dim(g, leg.at(k.u, metal), leg.at(k.u, metal+inside.Real.MM()), leg.dir.times(k.out), 7,
			d.say.Say(words.CornerDimInside, words.In("width", d.shop.Short(inside.Real))),
			d.say.Say(words.CornerLostInside, words.In("width", d.shop.Short(inside.Real)),
				words.In("hand", d.say.Say(k.hand))), inside.Fact)
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
		end := words.CornerNarrow
		if k.hand == d.Hand {
			end = words.CornerWide
		}
		l := place.Label{Lines: []string{k.words + "  " + d.say.Say(end)}, LeadFace: drawing.Bold, Pad: 80}
		w := leg.wideAt(k.u)
		tips := []xy{leg.at(k.u, w-d.real(2)), leg.at(k.u, w/2), leg.at(k.u, w)}
		l.About = d.m.at(tips[0])
		fan := place.Fan{Toward: tenths(leg.dir.roofward()), From: 1500, To: 6000, Step: 250, Spread: 105, Reach: 1100,
			Tips: d.m.all(tips...)}
		spots := append(l.Fan(fan), d.byLetter(l, k.words, leg)...)
		fan.Toward, fan.Tips = tenths(leg.dir.roofward().times(-1)), d.m.all(leg.at(k.u, d.real(2)), leg.at(k.u, 0))
		spots = append(spots, l.Fan(fan)...)
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots, Weight: 4}, lost: []string{l.Lines[0]}})
	}
	return all
}
