package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/length"
)

// A transition is drawn as the other special pieces are, in plan with the
// street at the top: its front is straight, its rear tapers between two
// straight legs. What differs from them stands here.

// TransitionPlan draws a piece that joins two inside widths.
func TransitionPlan(l *layout.Layout, p *layout.Piece, w, h drawing.Unit) drawing.Scene {
	return CornerPlan(l, p, w, h)
}

func (c *corner) tapers() bool { return c.p.Kind == cap.Transition }

// wideAt is the outside width of the piece at a distance along a leg, and of
// its neighbour beyond its ends.
func (c *corner) wideAt(leg cornerLeg, u float64) float64 {
	if !c.tapers() {
		return leg.wide
	}
	return (c.p.Parts[0].InsideAt(c.p.Parts[0].From+length.FromMM(u)) + 2*c.sys.Metal.Thickness).MM()
}

// kinks are where the rear of a transition begins and ends to taper, along its
// front.
func (c *corner) kinks() (a, b float64) {
	from := c.p.Parts[0].From
	return (c.p.Taper.From - from).MM(), (c.p.Taper.To - from).MM()
}

// handSentence says how to hold the piece.
func handSentence(p *layout.Piece) string {
	return "Standing on the roof and looking out over the wall, the WIDE end is at your " + strings.ToUpper(p.Hand.String()) + " hand."
}

// taperOutline is the ring of a transition.
func (c *corner) taperOutline() []xy {
	g := c.legs[0]
	a, b := c.kinks()
	return []xy{g.at(0, 0), g.at(g.long, 0), g.at(g.long, c.wideAt(g, g.long)), g.at(b, c.wideAt(g, b)), g.at(a, c.wideAt(g, a)), g.at(0, c.wideAt(g, 0))}
}

// taperWords fills the list of a transition.
func (c *corner) taperWords() {
	var chairs, joints []string
	for _, ch := range c.legs[0].chairs {
		left, right := ch.Edges(c.sys)
		words := ch.Name + " (" + c.short(ch.Inside) + " inside"
		if left != right {
			words += " at its centre, its rear edge cut to the taper, " + c.short(left) + " at the left and " + c.short(right) + " at the right"
		}
		chairs = append(chairs, words+")")
	}
	for _, j := range []*layout.Joint{c.left, c.right} {
		if j != nil {
			joints = append(joints, j.Name)
		}
	}
	t := &c.sys.Transition
	c.list.items = []string{
		"Set the packing and the membrane under the piece",
		"Set chair " + join(chairs) + " to the layout string",
		"Splice plate and two strips of sealant tape at " + join(joints) + ", on the straight legs, each as wide as the cap there",
		"Piece " + c.p.Mark + ": hook the front, set the gap for today's metal temperature, snap the rear, check",
		"The layout string runs straight on: the front does not taper",
	}
	c.list.notes = append(c.list.notes, handSentence(c.p))
	c.list.notes = append(c.list.notes, "Wide end inside "+c.shopShort(c.p.Wide)+", outside "+c.shopShort(c.p.Wide+2*c.sys.Metal.Thickness)+
		"; narrow end inside "+c.shopShort(c.p.Narrow)+", outside "+c.shopShort(c.p.Narrow+2*c.sys.Metal.Thickness)+".")
	c.list.notes = append(c.list.notes, "Length "+c.long(t.Length)+" along the straight front, each end a straight leg of "+c.short(t.Leg)+". Straight face: "+c.p.Straight.String()+".")
	front, rear := cap.Rise(c.sys, c.p)
	switch {
	case front > 0:
		c.list.notes = append(c.list.notes, "The top keeps its slope and is one plane: the front fold rises "+c.fine(front)+" from the narrow to the wide end, the rear fold stays level.")
	case rear > 0:
		c.list.notes = append(c.list.notes, "The top keeps its slope and is one plane: the rear fold falls "+c.fine(rear)+" from the narrow to the wide end, the front fold stays level.")
	}
	if !c.l.Held.Released(c.p) {
		c.list.holds = append(c.list.holds, "piece "+c.p.Mark+" NOT RELEASED, DO NOT CUT")
	}
}

// shopShort letters a length as the shop measures it, with its unit.
func (c *corner) shopShort(l length.Length) string {
	if c.shop.Metric {
		return c.shop.Short(l) + " mm"
	}
	return c.shop.Short(l)
}

// long letters a length as the crew tapes it, with its unit.
func (c *corner) long(l length.Length) string {
	if c.crew.Metric {
		return shortNumber(c.crew, l) + " mm"
	}
	return shortNumber(c.crew, l)
}

// fine letters a rise that a tape hardly shows.
func (c *corner) fine(l length.Length) string {
	if c.shop.Metric {
		return length.Millimetres(l, 1) + " mm"
	}
	return length.Inches(l, 32)
}

// taperDims letters length, legs and taper, and the two inside widths.
func (d *cornerDrawing) taperDims(g *drawing.Scene) {
	leg := d.legs[0]
	street, roof := leg.dir.roofward().times(-1), leg.dir.roofward()
	d.dim(g, leg.at(0, 0), leg.at(leg.long, 0), street, 8, d.crewLong(leg.part.Length())+" front", "the front")
	a, b := d.kinks()
	t := &d.sys.Transition
	// The legs are short on paper: their words stand beyond them, on a line of their own.
	for _, k := range []struct {
		from, to, away float64
		words          string
	}{{0, a, 8, d.crewLong(t.Leg) + " leg"}, {b, leg.long, 8, d.crewLong(t.Leg) + " leg"}, {a, b, 15, d.crewLong(t.Length-2*t.Leg) + " taper"}} {
		d.dim(g, leg.at(k.from, d.wide), leg.at(k.to, d.wide), roof, k.away, k.words, "the rear")
	}
	d.dim(g, leg.at(0, d.wide), leg.at(leg.long, d.wide), roof, 22, d.crewLong(leg.part.Length())+" rear", "the rear")
	metal := d.sys.Metal.Thickness.MM()
	from, to := d.reach(leg)
	d.dim(g, leg.at(from, metal), leg.at(from, d.wideAt(leg, 0)-metal), leg.dir.times(-1), 7, d.shop.Short(leg.part.InsideAt(leg.part.From))+" inside", "the left inside width")
	d.dim(g, leg.at(to, metal), leg.at(to, d.wideAt(leg, leg.long)-metal), leg.dir, 7, d.shop.Short(leg.part.InsideAt(leg.part.To))+" inside", "the right inside width")
}

// taperHands says which end is the wide one, and at which hand.
func (d *cornerDrawing) taperHands() []saying {
	leg := d.legs[0]
	a, b := d.kinks()
	var all []saying
	for _, k := range []struct {
		hand  cap.Hand
		words string
		u     float64
	}{{cap.LeftHand, "L", a / 2}, {cap.RightHand, "R", (b + leg.long) / 2}} {
		end := "NARROW END"
		if k.hand == d.p.Hand {
			end = "WIDE END"
		}
		l := place.Label{Lines: []string{k.words + "  " + end}, LeadFace: drawing.Bold, Pad: 80}
		w := d.wideAt(leg, k.u)
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
