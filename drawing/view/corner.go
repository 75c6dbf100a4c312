package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// corner is a shop-made piece in plan, turned so that its arriving run has the
// street at the top, in millimetres from the first miter's corner point (or
// the left end of a piece without a miter).
type corner struct {
	plan.Corner
	say  words.Book
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
	name          string // left leg, right leg, middle
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

// CornerPlan is a piece that is not straight in plan: welded corner, double miter,
// transition, tee, end cap or wall end, with what it stands on, as a block.
func CornerPlan(say words.Book, of plan.Corner) *Keyed {
	c := newCorner(say, of)
	c.words()
	c.list.column = c.insetWide()
	top := words.CornerAboutPlan
	if c.Turns() {
		top = words.CornerAboutTurned
	}
	title := c.title()
	var turns []string
	for _, m := range c.Miters {
		turns = append(turns, m.Turn.Turned, m.Turn.Opened)
	}
	coarsest := int64(25)
	if len(c.Miters) > 1 { // its middle leg is short, and both hands have to stand on it
		coarsest = 20
	}
	return &Keyed{
		ID: "corner-" + c.Mark, Title: title, titleFact: drawing.FactNames(turns...),
		About:  c.say.Say(words.CornerAbout, words.In("title", title)),
		say:    c.say,
		under:  drawing.Said{Words: c.say.Say(top)},
		metric: c.Metric, finest: 5, coarsest: coarsest,
		extent: c.extent, list: c.list, kept: cornerKept, beside: c.list.column,
		draw: func(ratio float64) keyedDrawing {
			marks, lost := c.draw(ratio)
			return keyedDrawing{marks, lost}
		},
	}
}

// cornerKept is how many lines the list of a plan keeps for words that find no room on
// it.
const cornerKept drawing.Unit = 2

// title says what the piece is, with both angles of every miter.
func (c *corner) title() string {
	say, piece := c.say.Say, words.In("piece", c.Mark)
	side := func(left, right words.Key) words.Key {
		if c.Hand == plan.LeftHand {
			return left
		}
		return right
	}
	switch c.Kind {
	case plan.Branching:
		return say(side(words.CornerTitleTeeLeft, words.CornerTitleTeeRight), piece)
	case plan.Tapering:
		return say(side(words.CornerTitleTaperLeft, words.CornerTitleTaperRight), piece)
	case plan.WallEnding:
		return say(side(words.CornerTitleWallLeft, words.CornerTitleWallRight), piece)
	case plan.BothEnding:
		return say(words.CornerTitleBoth, piece)
	case plan.Ending:
		return say(side(words.CornerTitleEndLeft, words.CornerTitleEndRight), piece)
	}
	var all []string
	for _, m := range c.Miters {
		key := words.CornerTitleTurn
		if m.Break != plan.NoBreak {
			key = words.CornerTitlePitch
		}
		kind, turn, included := TurnSaid(c.say, m.Turn)
		all = append(all, say(key, words.In("kind", kind), words.In("turn", turn), words.In("included", included)))
	}
	return say(words.CornerTitle, piece, words.In("what", strings.Join(all, "; ")))
}

func newCorner(say words.Book, of plan.Corner) *corner {
	c := &corner{Corner: of, say: say, crew: length.Crew(of.Metric), shop: length.Shop(of.Metric)}
	n := len(of.Legs)
	for i, q := range of.Legs {
		g := cornerLeg{
			legFrame: legFrame{o: xy{q.At.X.MM(), q.At.Y.MM()}, dir: heading(q.Heading.Degrees())}, of: q, i: i,
			long: (q.To - q.From).MM(), wide: q.Outside.Real.MM(), leftTrim: (q.Ring[3].X - q.From).MM(),
			rightTrim: (q.To - q.Ring[2].X).MM(),
			atLeft:    i == 0, atEnd: i == n-1, name: say.Say(words.CornerLegMiddle),
		}
		switch {
		case c.tees():
			g.atEnd, g.name = i == 0, say.Say([...]words.Key{words.CornerLegMain, words.CornerLegBranch}[i])
		case n == 1:
			g.name = ""
		case i == 0:
			g.name = say.Say(words.CornerLegLeft)
		case i == n-1:
			g.name = say.Say(words.CornerLegRight)
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

// words fills the list: what was measured from where, where the supports stand, and
// what is on hold. How the piece is set stands with the order of work.
func (c *corner) words() {
	say := c.say.Say
	switch {
	case c.tapers():
		c.taperWords()
	case c.tees():
		c.teeWords()
	}
	c.twoWords()
	c.note(say(words.CornerString, words.In("behind", c.short(c.StringBehind.Real))), c.StringBehind)
	for i := range c.Miters {
		c.miterWords(i)
	}
	if len(c.Supports) == 0 && c.Turns() {
		c.note(say(words.CornerNoSupport))
	}
	for _, g := range c.Legs {
		if g.RearLeft.Fails() {
			c.hold(say(words.CornerHoldRear, words.In("run", g.Run)))
		}
	}
	if c.Released.Fails() {
		c.hold(say(words.CornerHoldReleased, words.In("piece", c.Mark)))
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
	alike := func(x, y plan.Value) bool { return x.Real >= 0 && c.short(x.Real) == c.short(y.Real) }
	if a, z := m.Arrive, m.Leave; m.Outside && alike(a.Beyond, z.Out) && alike(a.Out, z.Beyond) {
		c.note(c.say.Say(words.CornerOffsetSquare, words.In("corner", m.Corner), words.In("run", a.Run),
			words.In("along", c.short(a.Beyond.Real)), words.In("other", z.Run), words.In("out", c.short(a.Out.Real))),
			a.Beyond, a.Out, z.Beyond, z.Out)
		c.supportWords(i)
		return
	}
	for _, o := range []plan.Offset{m.Arrive, m.Leave} {
		key := words.CornerOffsetBeyond
		if o.Beyond.Real < 0 {
			key = words.CornerOffsetShort
		}
		c.note(c.say.Say(key, words.In("corner", m.Corner), words.In("run", o.Run),
			words.In("along", c.short(length.Abs(o.Beyond.Real))), words.In("out", c.short(o.Out.Real))), o.Beyond,
			o.Out)
	}
	c.supportWords(i)
}

// note adds a note that letters values.
func (c *corner) note(said string, of ...plan.Value) {
	c.list.notes = append(c.list.notes, drawing.Said{Words: said, Fact: strings.Join(plan.Facts(of...), "|")})
}

// hold adds one to the list.
func (c *corner) hold(said string) { c.list.holds = append(c.list.holds, drawing.Said{Words: said}) }

// supportWords note the places of the supports of a miter from its corner
// point.
func (c *corner) supportWords(miter int) {
	for _, s := range c.Supports {
		if s.Miter != miter {
			continue
		}
		key, x := words.CornerSupportBack, s.Back.Real
		if x < 0 {
			key, x = words.CornerSupportPast, -x
		}
		c.note(c.say.Say(key, words.In("support", s.Mark), words.In("long", c.short(c.SupportSize[0].Real)),
			words.In("wide", c.short(c.SupportSize[1].Real)),
			words.In("along", c.short(x)), words.In("run", c.Legs[miter].Run), words.In("in", c.short(s.In.Real)),
			words.In("shims", c.short(s.Packing.Real))),
			c.SupportSize[0], c.SupportSize[1], s.Back, s.In, s.Packing)
	}
}

// twoWords are the notes of a corner of two widths: its runs by their width.
func (c *corner) twoWords() {
	if !c.TwoWidths() {
		return
	}
	var all []string
	var runs, facts [][]string
	for _, g := range c.Legs {
		top := LegWords(c.say, c.Metric, g.LegTop)
		i := slices.Index(all, top)
		if i < 0 {
			all, runs, facts = append(all, top), append(runs, nil), append(facts, nil)
			i = len(all) - 1
		}
		runs[i], facts[i] = append(runs[i], g.Run), append(facts[i], g.Facts...)
	}
	for i, top := range all {
		c.list.notes = append(c.list.notes, drawing.Said{Words: c.say.Count(words.CornerTwo, len(runs[i]),
			words.In("runs", strings.Join(runs[i], ", ")), words.In("leg", top)), Fact: drawing.FactNames(facts[i]...)})
	}
}

// miterAt is the corner point and the rear point of a miter.
func (c *corner) miterAt(i int) (front, rear xy) {
	g := c.legs[i]
	return g.at(g.long, 0), g.at(g.long-g.rightTrim, g.wide)
}
