package view

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// corner is a shop-made piece in plan, turned so that its arriving run has the
// street at the top, in millimetres from the first miter's corner point (or
// the left end of a piece without a miter).
type corner struct {
	plan.Corner
	crew length.Style
	shop length.Style
	wide float64 // outside width of the widest leg, of a tee its main's
	legs []cornerLeg
	list keyedList
}

// cornerLeg is one leg in millimetres: u along the cap line from the leg's left
// end, y from the cap line towards the roof.
type cornerLeg struct {
	legFrame
	of            plan.CornerLeg
	i             int
	long          float64 // along the front, outside mold line
	wide          float64 // outside width
	leftTrim      float64 // front longer than rear at the left end; negative at an inside corner
	rightTrim     float64
	name          string // LEFT LEG, RIGHT LEG, MIDDLE
	atLeft, atEnd bool   // first leg, last leg
}

// u is a station of the leg's run along the leg.
func (g cornerLeg) u(station length.Length) float64 { return (station - g.of.From).MM() }

// pt is a place of the leg's run in the plan of the piece.
func (g cornerLeg) pt(p plan.Pt) xy { return g.at(g.u(p.X), p.Y.MM()) }

// ring is an outline in the plan of the piece.
func (g cornerLeg) ring(r plan.Ring) []xy {
	out := make([]xy, len(r))
	for i, p := range r {
		out[i] = g.pt(p)
	}
	return out
}

// wideAt is the outside width of the piece at a distance along a leg, and of its
// neighbour beyond its ends.
func (g cornerLeg) wideAt(u float64) float64 { return g.of.WideAt(g.of.From + length.FromMM(u)).MM() }

// polygon is the leg in plan, outside mold lines: front left, front right,
// rear right, rear left.
func (g cornerLeg) polygon() [4]xy {
	return [4]xy{g.at(0, 0), g.at(g.long, 0), g.at(g.long-g.rightTrim, g.wide), g.at(g.leftTrim, g.wide)}
}

// CornerPlan draws a piece that is not straight in plan: welded corner, double
// miter, transition, tee, end cap or wall end, with what it stands on and the order
// of work. Where the room is too small for its words, it leaves more of them to its
// list.
func CornerPlan(of plan.Corner, w, h drawing.Unit) drawing.Scene {
	return NewCornerPlans(of).In(w, h)
}

// CornerPlans are the plans of one piece in rooms of several sizes. What is drawn
// at a scale is drawn once: a sheet that looks for its best lay-out asks for the
// same plan again and again.
type CornerPlans struct {
	c    *corner
	view keyedView
}

// NewCornerPlans lists the words of a piece's plan and draws nothing yet.
func NewCornerPlans(of plan.Corner) CornerPlans {
	c := newCorner(of)
	v := c.view()
	v.draw = remembered(v.draw)
	return CornerPlans{c, v}
}

// In is the plan in a room, tight if it has to be.
func (p CornerPlans) In(w, h drawing.Unit) drawing.Scene { return p.c.titled(p.view.scene(w, h)) }

// Roomy is the plan if the room is large enough for a usual scale and for the words.
func (p CornerPlans) Roomy(w, h drawing.Unit) (out drawing.Scene, ok bool) {
	out, ok = p.view.roomy(w, h)
	return p.c.titled(out), ok
}

// view is the plan with its list, before it is given a room.
func (c *corner) view() keyedView {
	c.list.column = insetWide
	c.words()
	top := "street at the top of its left leg"
	if !c.Turns() {
		top = "street at the top"
	}
	return keyedView{
		metric: c.Metric, title: c.title(), draw: c.draw, least: c.least, finest: 8, list: c.list, narrowest: insetWide,
		under: "seen from above, " + top + "; L and R are the hands of a person on the roof looking out over the wall",
	}
}

func (c *corner) titled(s drawing.Scene) drawing.Scene {
	s.Name, s.Title = "corner-"+fileName(c.Mark), c.title()
	s.Desc = c.title() + " in plan, turned so that the arriving run has the street at the top."
	return s
}

// title says what the piece is, with both angles of every miter.
func (c *corner) title() string {
	t, hand := "PIECE "+c.Mark, strings.ToUpper(c.Hand.String())
	switch c.Kind {
	case plan.Branching:
		return t + ": TEE, HIGH EDGE OF THE BRANCH AT THE " + hand + " HAND"
	case plan.Tapering:
		return t + ": TRANSITION, WIDE END AT THE " + hand + " HAND"
	case plan.WallEnding:
		return t + ": WALL END, " + hand + " HAND"
	case plan.BothEnding:
		return t + ": CLOSED AT BOTH ENDS"
	case plan.Ending:
		return t + ": END CAP, " + hand + " HAND"
	}
	for i, m := range c.Miters {
		kind, turn, included := m.Turn.Kind, m.Turn.Turn, m.Turn.Included
		sep := ": "
		if i > 0 {
			sep = "; "
		}
		if m.Break != plan.NoBreak {
			kind = "PITCH MITER, " + kind
		}
		t += sep + kind + ", " + turn + ", " + included
	}
	return t
}

func newCorner(of plan.Corner) *corner {
	c := &corner{Corner: of, crew: length.Crew(of.Metric), shop: length.Shop(of.Metric)}
	n := len(of.Legs)
	for i, q := range of.Legs {
		g := cornerLeg{
			legFrame: legFrame{o: xy{q.At.X.MM(), q.At.Y.MM()}, dir: heading(q.Heading.Degrees())}, of: q, i: i,
			long: (q.To - q.From).MM(), wide: q.Outside.Real.MM(), leftTrim: (q.Ring[3].X - q.From).MM(), rightTrim: (q.To - q.Ring[2].X).MM(),
			atLeft: i == 0, atEnd: i == n-1, name: "MIDDLE",
		}
		switch {
		case c.tees():
			g.atEnd, g.name = i == 0, [...]string{"MAIN", "BRANCH"}[i]
		case n == 1:
			g.name = ""
		case i == 0:
			g.name = "LEFT LEG"
		case i == n-1:
			g.name = "RIGHT LEG"
		}
		if i == 0 || !c.tees() {
			c.wide = max(c.wide, g.wide)
		}
		c.legs = append(c.legs, g)
	}
	return c
}

// reach is what the drawing shows of a leg: over its joints and further.
func (c *corner) reach(g cornerLeg, further float64) (a, b float64) {
	a, b = 0, g.long
	for _, j := range c.Joints {
		switch {
		case j.Leg != g.i:
		case j.Hand == plan.LeftHand:
			a = g.u(j.Far) - further
		default:
			b = g.u(j.Far) + further
		}
	}
	return a, b
}

// shown is what the drawing shows of a line in the frame of a leg: all of it but
// for the joints, beyond which it goes on as far as it is asked to.
func (c *corner) shown(g cornerLeg, line []plan.Pt, further float64) []xy {
	a, b := c.reach(g, further)
	lo, hi := -length.Most, length.Most
	for _, j := range c.Joints {
		switch {
		case j.Leg != g.i:
		case j.Hand == plan.LeftHand:
			lo = g.of.From + length.FromMM(a)
		default:
			hi = g.of.From + length.FromMM(b)
		}
	}
	return g.ring(plan.Within(line, lo, hi))
}

// joined is a line over all legs, each of which has its share of it.
func (c *corner) joined(further float64, of func(cornerLeg) []plan.Pt) []xy {
	var out []xy
	for _, g := range c.legs {
		out = chained(out, c.shown(g, of(g), further))
	}
	return out
}

// chained goes on with a line where another begins, which may be the same place.
func chained(line, more []xy) []xy {
	for _, p := range more {
		if n := len(line); n == 0 || p.sub(line[n-1]).length() > 1e-3 {
			line = append(line, p)
		}
	}
	return line
}

// outline is the piece in one ring: the fronts from left to right, the rears
// back.
func (c *corner) outline() []xy { return places(c.Outline) }

// places brings places of the plan of a piece to millimetres.
func places(ps []plan.Pt) []xy {
	out := make([]xy, len(ps))
	for i, p := range ps {
		out[i] = xy{p.X.MM(), p.Y.MM()}
	}
	return out
}

// short letters a length as the crew measures it, with its unit.
func (c *corner) short(l length.Length) string { return withUnit(c.crew, c.crew.Short(l)) }

// withUnit adds millimetres to a lettered number; feet and inches have theirs.
func withUnit(st length.Style, words string) string {
	if st.Metric {
		return words + " mm"
	}
	return words
}

// words fills the list: the order of assembly, what was measured from where,
// and what is on hold.
func (c *corner) words() {
	c.list.facts = map[string]string{}
	if c.tapers() {
		c.taperWords()
	} else {
		c.legItems()
		c.list.notes = append(c.list.notes, c.twoWords()...)
		for i := range c.Miters {
			c.miterWords(i)
		}
	}
	for _, g := range c.Legs {
		if g.RearLeft.Fails() {
			c.list.holds = append(c.list.holds, "the leg on run "+g.Run+" has no rear left between its miters")
		}
	}
	if c.Released.Fails() {
		c.list.holds = append(c.list.holds, "piece "+c.Mark+" NOT RELEASED, DO NOT CUT")
	}
}

// legItems are the order of work at a piece with legs, or at an end.
func (c *corner) legItems() {
	supports, chairs, joints := c.named()
	first := "Set the packing and the membrane under the piece, checked level; no support stands under it"
	if len(supports) > 0 {
		first = "Set " + several("support", supports) + " where noted here, on packing"
	}
	crossing := ""
	if c.Pitched() {
		first = "Set the packing and the membrane under the piece, straight along each leg up to the break; no support stands under it"
		crossing = "; it bends up or down with the top at the break"
	} else if c.Turns() {
		crossing = "; the strings cross at the string corner"
	}
	behind := "front edges " + c.short(c.StringBehind.Real) + " behind the cap line"
	c.list.items = []string{
		first,
		"Set leg-end " + several("chair", chairs) + ", " + behind,
		"Splice plate and two strips of sealant tape at " + join(joints) + ", " + c.short(c.SpliceTape.Real) + " each side of its centre",
		"Piece " + c.Mark + ": hook the front, set the gap for today's metal temperature, snap the rear, check",
		"Then the layout string, from these chairs' front edges to the next" + crossing,
	}
	if c.tees() {
		c.teeWords()
	} else if !c.Turns() { // it has no legs, and nothing here gives its chairs' stations
		c.list.items[1] = "Set " + several("chair", chairs) + " at the stations of the run's own sheets, " + behind
	}
	c.list.facts[c.list.items[1]], c.list.facts[c.list.items[2]] = c.StringBehind.Fact, c.SpliceTape.Fact
	if len(joints) == 0 {
		c.list.items[2] = "No joint at this piece: no splice plate"
	}
}

// miterWords add what is said of one weld.
func (c *corner) miterWords(i int) {
	m := c.Miters[i]
	if m.Break != plan.NoBreak {
		c.pitchWords(i)
		return
	}
	c.list.figures = append(c.list.figures, c.inset(m))
	c.note("Cap corner from the plumbed wall corner "+m.Corner+": "+c.beyond(m.Arrive)+"; "+c.beyond(m.Leave)+".",
		m.Arrive.Beyond, m.Arrive.Out, m.Leave.Beyond, m.Leave.Out)
	c.supportWords(i)
}

// note adds a note that letters values.
func (c *corner) note(words string, of ...plan.Value) {
	c.list.notes = append(c.list.notes, words)
	c.list.facts[words] = strings.Join(plan.Facts(of...), "|")
}

// several names things of one kind.
func several(kind string, names []string) string {
	if len(names) > 1 {
		kind += "s"
	}
	return kind + " " + join(names)
}

// beyond says where the cap's corner point lies from the wall's, along and out
// from one run.
func (c *corner) beyond(o plan.Offset) string {
	along := c.short(o.Beyond.Real) + " beyond"
	if o.Beyond.Real < 0 {
		along = c.short(-o.Beyond.Real) + " short"
	}
	return "run " + o.Run + " " + along + ", " + c.short(o.Out.Real) + " out"
}

// named lists the names of supports, leg-end chairs and joints.
func (c *corner) named() (supports, chairs, joints []string) {
	for _, s := range c.Supports {
		supports = append(supports, s.Mark)
	}
	for _, g := range c.Legs {
		for _, ch := range g.Chairs {
			if ch.Carries {
				chairs = append(chairs, ch.Mark)
			}
		}
	}
	if len(chairs) == 0 {
		chairs = []string{"(none)"}
	}
	for _, j := range c.Joints {
		joints = append(joints, j.Name)
	}
	return supports, chairs, joints
}

// supportWords note the places of the supports of a miter from its corner
// point.
func (c *corner) supportWords(miter int) {
	run := c.Legs[miter].Run
	for _, s := range c.Supports {
		if s.Miter != miter {
			continue
		}
		along, x := "back along", s.Back.Real
		if x < 0 {
			along, x = "past the corner of", -x
		}
		c.note(fmt.Sprintf("Support %s, %s × %s, centre %s %s run %s, %s in from its cap line, packing %s.", s.Mark,
			c.short(c.SupportSize[0].Real), c.short(c.SupportSize[1].Real), c.short(x), along, run, c.short(s.In.Real), c.short(s.Packing.Real)),
			c.SupportSize[0], c.SupportSize[1], s.Back, s.In, s.Packing)
	}
}

// twoWords is the note of a corner of two widths: its runs by their width.
func (c *corner) twoWords() []string {
	if !c.TwoWidths() {
		return nil
	}
	var all []string
	var runs [][]string
	for _, g := range c.Legs {
		words := LegWords(c.Metric, g.LegTop)
		i := slices.Index(all, words)
		if i < 0 {
			all, runs = append(all, words), append(runs, nil)
			i = len(all) - 1
		}
		runs[i] = append(runs[i], g.Run)
	}
	for i, words := range all {
		all[i] = several("run", runs[i]) + " " + words
	}
	return []string{"Two widths: " + strings.Join(all, "; ") + "."}
}

// miterAt is the corner point and the rear point of a miter.
func (c *corner) miterAt(i int) (front, rear xy) {
	g := c.legs[i]
	return g.at(g.long, 0), g.at(g.long-g.rightTrim, g.wide)
}
