package view

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// corner is a shop-made piece in plan, turned so that its arriving run has the
// street at the top, in millimetres from the first miter's corner point (or
// the left end of a piece without a miter).
type corner struct {
	l     *layout.Layout
	per   *layout.Perimeter
	p     *layout.Piece
	sys   *job.System
	crew  length.Style
	shop  length.Style
	wide  float64 // outside width of the widest leg
	legs  []cornerLeg
	left  *layout.Joint // nil at a closed end
	right *layout.Joint
	list  keyedList
}

// cornerLeg is one leg: u along the cap line from the leg's left end, y from
// the cap line towards the roof.
type cornerLeg struct {
	legFrame
	part          layout.Part
	long          float64 // along the front, outside mold line
	wide          float64 // outside width
	leftTrim      float64 // front longer than rear at the left end; negative at an inside corner
	rightTrim     float64
	chairs        []cornerChair
	name          string // LEFT LEG, RIGHT LEG, MIDDLE
	atLeft, atEnd bool   // first leg, last leg
}

// cornerChair is a chair on a leg, with its place along the leg.
type cornerChair struct {
	*layout.Chair
	at float64
	of plan.Chair
}

// ring is the outline of a chair on the leg: along it from its left end, and behind
// the cap line.
func (c cornerChair) ring() []xy {
	var out []xy
	for _, p := range c.of.Ring {
		out = append(out, xy{c.at + (p.X - c.At).MM(), p.Y.MM()})
	}
	return out
}

// wall is where the faces of the wall stand at the middle of the leg.
func (g cornerLeg) wall(s *job.System) cap.Faces {
	return g.part.Run.FaceAt(s, g.part.From+g.part.Length()/2)
}

// polygon is the leg in plan, outside mold lines: front left, front right,
// rear right, rear left.
func (g cornerLeg) polygon() [4]xy {
	return [4]xy{g.at(0, 0), g.at(g.long, 0), g.at(g.long-g.rightTrim, g.wide), g.at(g.leftTrim, g.wide)}
}

// CornerPlan draws a piece that is not straight in plan: welded corner, double
// miter, end cap or wall end, with what it stands on and the order of work.
// Where the room is too small for its words, it leaves more of them to its list.
func CornerPlan(l *layout.Layout, p *layout.Piece, w, h drawing.Unit) drawing.Scene {
	c := newCorner(l, p)
	return c.titled(c.view().scene(w, h))
}

// RoomyCornerPlan is CornerPlan if the room is large enough for a usual scale
// and for the words.
func RoomyCornerPlan(l *layout.Layout, p *layout.Piece, w, h drawing.Unit) (out drawing.Scene, ok bool) {
	c := newCorner(l, p)
	out, ok = c.view().roomy(w, h)
	return c.titled(out), ok
}

// view is the plan with its list, before it is given a room.
func (c *corner) view() keyedView {
	c.list.column = insetWide
	c.words()
	top := "street at the top of its left leg"
	if len(c.p.Miters) == 0 {
		top = "street at the top"
	}
	return keyedView{
		metric: c.crew.Metric, title: c.title(), draw: c.draw, least: c.least, finest: 8, list: c.list, narrowest: insetWide,
		under: "seen from above, " + top + "; L and R are the hands of a person on the roof looking out over the wall",
	}
}

func (c *corner) titled(s drawing.Scene) drawing.Scene {
	s.Name, s.Title = "corner-"+fileName(c.p.Mark), c.title()
	s.Desc = c.title() + " in plan, turned so that the arriving run has the street at the top."
	return s
}

// title says what the piece is, with both angles of every miter.
func (c *corner) title() string {
	t := "PIECE " + c.p.Mark
	if len(c.p.Miters) == 0 {
		switch {
		case c.tees():
			return t + ": TEE, HIGH EDGE OF THE BRANCH AT THE " + strings.ToUpper(c.p.Hand.String()) + " HAND"
		case c.tapers():
			return t + ": TRANSITION, WIDE END AT THE " + strings.ToUpper(c.p.Hand.String()) + " HAND"
		case c.p.Kind == cap.WallEnd:
			return t + ": WALL END, " + strings.ToUpper(c.p.Hand.String()) + " HAND"
		case c.p.LeftEnd != job.EndTurn && c.p.RightEnd != job.EndTurn:
			return t + ": CLOSED AT BOTH ENDS"
		}
		return t + ": END CAP, " + strings.ToUpper(c.p.Hand.String()) + " HAND"
	}
	for i, m := range c.p.Miters {
		kind, turn, included := pieceTurnWords(m.Corner)
		sep := ": "
		if i > 0 {
			sep = "; "
		}
		if m.Corner.Straight() {
			kind = "PITCH MITER, " + kind
		}
		t += sep + kind + ", " + turn + ", " + included
	}
	return t
}

func newCorner(l *layout.Layout, p *layout.Piece) *corner {
	c := &corner{l: l, p: p, sys: &l.Job.System, crew: Crew(l), shop: Shop(l)}
	for _, per := range l.Perimeters {
		if per.Perimeter == p.Perimeter {
			c.per = per
		}
	}
	c.wide = (p.Inside + 2*c.sys.Metal.Thickness).MM()
	c.layLegs()
	c.findJoints()
	for i := range c.legs {
		c.findChairs(&c.legs[i])
	}
	return c
}

// layLegs chains the legs from the first, which runs to the right, and moves
// the first corner point to the origin.
func (c *corner) layLegs() {
	if c.tees() {
		c.layTee()
		return
	}
	f := legFrame{dir: xy{1, 0}}
	turned := 0.0
	n := len(c.p.Parts)
	for i, q := range c.p.Parts {
		g := cornerLeg{legFrame: f, part: q, long: q.Length().MM(), wide: (q.Inside() + 2*c.sys.Metal.Thickness).MM(), atLeft: i == 0, atEnd: i == n-1}
		switch {
		case n == 1:
			g.name = ""
		case i == 0:
			g.name = "LEFT LEG"
		case i == n-1:
			g.name = "RIGHT LEG"
		default:
			g.name = "MIDDLE"
		}
		if i > 0 {
			g.leftTrim = g.wide * c.perWidth(c.p.Miters[i-1], 1)
		}
		if i < len(c.p.Miters) {
			g.rightTrim = g.wide * c.perWidth(c.p.Miters[i], 0)
			turned += c.p.Miters[i].Corner.CapTurn.Degrees()
			f = legFrame{o: f.at(g.long, 0), dir: heading(turned)}
		}
		c.legs = append(c.legs, g)
	}
	if n > 1 {
		o := c.legs[1].o
		for i := range c.legs {
			c.legs[i].o = c.legs[i].o.sub(o)
		}
	}
}

// perWidth is the trim of a leg at a miter for each unit of its width: of the
// leg that arrives there (0) or the one that leaves (1).
func (c *corner) perWidth(m cap.Miter, side int) float64 {
	t := 2 * c.sys.Metal.Thickness
	if m.Two() {
		return cap.PerWidth(m.Inside[side]+t, m.Inside[1-side]+t, m.Corner.CapTurn)
	}
	return halfTan(m.Corner.CapTurn)
}

func (c *corner) findJoints() {
	if c.per == nil {
		return
	}
	for _, r := range c.per.Runs {
		for _, j := range r.Joints {
			if j.Right == c.p {
				c.left = j
			}
			if j.Left == c.p {
				c.right = j
			}
		}
	}
	if c.p.LeftEnd != job.EndTurn {
		c.left = nil
	}
	if c.p.RightEnd != job.EndTurn {
		c.right = nil
	}
}

// findChairs gathers the chairs that stand under a leg or under the joint at
// its end. The chair of a kink at the left belongs to the run before.
func (c *corner) findChairs(g *cornerLeg) {
	if c.per == nil {
		return
	}
	for _, r := range c.l.Runs() { // a tee's branch stands on another perimeter
		for _, ch := range r.Chairs {
			switch {
			case r.Run == g.part.Run && ch.At >= g.part.From-c.sys.Joint.Gap && ch.At <= g.part.To+c.sys.Joint.Gap:
				g.chairs = append(g.chairs, cornerChair{ch, (ch.At - g.part.From).MM(), c.l.ChairPlan(ch)})
			case g.atLeft && c.left != nil && c.left.Kind == cap.Kink && ch.Joint == c.left && ch.Kind == anchor.AtJoint:
				g.chairs = append(g.chairs, cornerChair{ch, -g.part.From.MM(), c.l.ChairPlan(ch)})
			}
		}
	}
}

// outline is the piece in one ring: the fronts from left to right, the rears
// back.
func (c *corner) outline() []xy {
	if c.tapers() {
		return c.taperOutline()
	}
	if c.tees() {
		return c.teeOutline()
	}
	var front, rear []xy
	for _, g := range c.legs {
		q := g.polygon()
		front = append(front, q[0])
		rear = append(rear, q[3])
	}
	last := c.legs[len(c.legs)-1].polygon()
	front = append(front, last[1])
	rear = append(rear, last[2])
	for i := len(rear) - 1; i >= 0; i-- {
		front = append(front, rear[i])
	}
	return front
}

// short letters a length as the crew measures it, with its unit.
func (c *corner) short(l length.Length) string {
	if c.crew.Metric {
		return c.crew.Short(l) + " mm"
	}
	return c.crew.Short(l)
}

// words fills the list: the order of assembly, what was measured from where,
// and what is on hold.
func (c *corner) words() {
	if c.tapers() {
		c.taperWords()
		return
	}
	supports, chairs, joints := c.named()
	first := "Set the packing and the membrane under the piece, checked level; no support stands under it"
	if len(supports) > 0 {
		first = "Set " + several("support", supports) + " where noted here, on packing"
	}
	crossing := ""
	if c.p.Pitched() {
		first = "Set the packing and the membrane under the piece, straight along each leg up to the break; no support stands under it"
		crossing = "; it bends up or down with the top at the break"
	} else if len(c.p.Miters) > 0 {
		crossing = "; the strings cross at the string corner"
	}
	c.list.items = []string{
		first,
		"Set leg-end " + several("chair", chairs) + ", front edges " + c.short(c.string()) + " behind the cap line",
		"Splice plate and two strips of sealant tape at " + join(joints) + ", " + c.short(c.sys.Splice.Tape) + " each side of its centre",
		"Piece " + c.p.Mark + ": hook the front, set the gap for today's metal temperature, snap the rear, check",
		"Then the layout string, from these chairs' front edges to the next" + crossing,
	}
	if c.tees() {
		c.teeWords()
	} else if len(c.p.Miters) == 0 { // it has no legs, and nothing here gives its chairs' stations
		c.list.items[1] = "Set " + several("chair", chairs) + " at the stations of the run's own sheets, front edges " + c.short(c.string()) + " behind the cap line"
	}
	if len(joints) == 0 {
		c.list.items[2] = "No joint at this piece: no splice plate"
	}
	c.list.notes = append(c.list.notes, c.twoWords()...)
	for i, m := range c.p.Miters {
		w := m.Corner
		if w.Straight() {
			c.pitchWords(i)
			continue
		}
		c.list.figures = append(c.list.figures, c.inset(w))
		offsets := "Cap corner from the plumbed wall corner " + w.Name + ": " +
			c.beyond(w.Arrive.Right.Ext, w.Arrive, w) + "; " + c.beyond(w.Leave.Left.Ext, w.Leave, w) + "."
		if c.list.facts == nil {
			c.list.facts = map[string]string{}
		}
		c.list.facts[offsets] = layout.OffsetFacts(w)
		c.list.notes = append(c.list.notes, offsets)
		c.list.notes = append(c.list.notes, c.supportWords(i)...)
	}
	for i, g := range c.legs {
		if c.p.RearLength(i) <= 0 {
			c.list.holds = append(c.list.holds, "the leg on run "+g.part.Run.Name+" has no rear left between its miters")
		}
	}
	if !c.l.Held.Released(c.p) {
		c.list.holds = append(c.list.holds, "piece "+c.p.Mark+" NOT RELEASED, DO NOT CUT")
	}
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
func (c *corner) beyond(ext length.Length, r *wall.Run, w *wall.Corner) string {
	along := c.short(ext) + " beyond"
	if ext < 0 {
		along = c.short(-ext) + " short"
	}
	return "run " + r.Name + " " + along + ", " + c.short(r.CapOut(w)) + " out"
}

// string is how far the chairs' front edges stand behind the cap line.
func (c *corner) string() length.Length { return cap.ChairLine(c.sys) }

// named lists the names of supports, leg-end chairs and joints.
func (c *corner) named() (supports, chairs, joints []string) {
	for _, s := range c.supports() {
		supports = append(supports, s.Name)
	}
	for _, g := range c.legs {
		for _, ch := range g.chairs {
			if c.legEnd(ch) {
				chairs = append(chairs, ch.Name)
			}
		}
	}
	if len(chairs) == 0 {
		chairs = []string{"(none)"}
	}
	for _, e := range c.jointEnds() {
		joints = append(joints, e.joint.Name)
	}
	return supports, chairs, joints
}

// legEnd says that a chair carries an end of the piece.
func (c *corner) legEnd(ch cornerChair) bool {
	return ch.Kind != anchor.Between
}

func (c *corner) supports() []*layout.Support {
	var out []*layout.Support
	if c.per == nil {
		return nil
	}
	for _, s := range c.per.Supports {
		if s.Piece == c.p {
			out = append(out, s)
		}
	}
	return out
}

// supportWords gives the places of the supports of a miter from its corner
// point.
func (c *corner) supportWords(miter int) []string {
	var out []string
	m := c.p.Miters[miter].Corner
	for _, s := range c.supports() {
		if s.Corner != m {
			continue
		}
		along := "back along"
		x := -s.X
		if x < 0 {
			along, x = "past the corner of", -x
		}
		out = append(out, fmt.Sprintf("Support %s, %s × %s, centre %s %s run %s, %s in from its cap line, packing %s.", s.Name,
			c.short(c.sys.Corner.Support.Length), c.short(c.sys.Corner.Support.Width), c.short(x), along, m.Arrive.Name, c.short(s.Y), c.short(s.Packing)))
	}
	return out
}

// CornerHatches lists what the hatches of a corner plan mean.
func CornerHatches(p *layout.Piece) []LegendEntry {
	if p.LeftEnd == job.EndWall || p.RightEnd == job.EndWall {
		return []LegendEntry{{drawing.Masonry, "higher wall"}}
	}
	return nil
}

// miterAt is the corner point and the rear point of a miter.
func (c *corner) miterAt(i int) (front, rear xy) {
	g := c.legs[i]
	return g.at(g.long, 0), g.at(g.long-g.rightTrim, g.wide)
}
