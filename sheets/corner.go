package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// angle letters an angle in degrees.
func angle(a job.Angle) string { return job.FormatAngle(a) }

// turnWords say the angle a piece is made to twice, so that it cannot be read
// the other way, and the wall's where it differs.
func turnWords(c *layout.Corner) string {
	if c.Straight() {
		return "none; " + bendWords(c)
	}
	side, hand, turn, walls := "outside corner", "right", c.CapTurn, c.Turn
	if !c.Outside() {
		side, hand, turn, walls = "inside corner", "left", -turn, -walls
	}
	words := fmt.Sprintf("%s, turns %s %s (included %s)", side, hand, angle(turn), angle(c.CapIncluded()))
	if turn != walls {
		words += fmt.Sprintf("; its wall turns %s %s (included %s)", hand, angle(walls), angle(c.Included()))
	}
	return words
}

// corners makes the shop's sheets of the pieces that turn or close: plan and data of
// each kind, several to a sheet where they fit.
func (b *book) corners() []page {
	var out []page
	for groups := b.l.CornerGroups(); len(groups) > 0; {
		var some [][]*layout.Piece
		some, groups = together(b, groups, b.cornersOn)
		out = append(out, b.composed(b.cornersOn(some))...)
	}
	return out
}

// cornersOn is a sheet of groups of pieces made alike.
func (b *book) cornersOn(groups [][]*layout.Piece) (page, blocks.Spec, composing) {
	var names []string
	var all []*layout.Piece
	spec := blocks.Spec{Gap: between, Gutter: gutter, Pack: true}
	for i, g := range groups {
		all = append(all, g...)
		for _, q := range g {
			names = append(names, q.Mark)
		}
		spec.Slots = append(spec.Slots, blocks.Slot{Block: b.cornerBlock(g[0]),
			ID: fmt.Sprintf("c%d", i+1), Least: cornerLeast},
			blocks.Slot{Block: &wholeOf{key: "made-" + g[0].Mark, of: b.cornerFacts(g),
				widths: []drawing.Unit{9000, cornerDataWide}}})
		if t, ok := b.alikeTable(g); ok {
			spec.Flow = append(spec.Flow, flowing{"alike-" + g[0].Mark, t})
		}
	}
	spec.Columns = cornerDataWide
	p := page{title: b.cornerTitle(all) + " " + strings.Join(names, ", "), kind: CornerSheet, paper: b.runs,
		holds: b.l.HoldsOnPieces(all), scale: "as noted",
		about: "Welded corners and ends in plan with legs, angles, chairs and supports."}
	p.banner = b.releaseWords(all, p.holds)
	return p, spec, composing{id: []string{"corners", names[0]}, foot: func(s *drawing.Scene, r drawing.Rect,
		_ []drawing.Mark) {
		place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfPiece(all[0]), keyWide, r.Height()), r.Min, "key")
		if len(all) > 1 {
			s.Paragraph(drawing.Pt(r.Min.X+keyWide+500, r.Min.Y+300), "Key plan: "+all[0].Mark, r.Width()-keyWide-500,
				drawing.Style{})
		}
	}}
}

const (
	cornerLeast    int64        = 25    // smallest scale at which chairs and supports of a corner can be told apart
	cornerDataWide drawing.Unit = 12500 // of the data beside a plan
)

// cornerBlock is the plan of a piece; of one that is to be detailed by hand, that it has
// none.
func (b *book) cornerBlock(q *layout.Piece) blocks.Block {
	if !byHand(q) {
		return view.CornerPlan(b.say, b.l.Corner(q))
	}
	said := b.say.Say(words.CornerByHand, words.In("piece", q.Mark))
	return blocks.Fixed{ID: "corner-" + q.Mark, Size: blocks.Size{W: drawing.Width(drawing.Bold, said, drawing.Title) +
		2500, H: 1800}, Make: func() blocks.Drawn {
		var s drawing.Scene
		s.Draw(drawing.HoldFlag{Words: said}.Figure())
		return blocks.Drawn{Marks: s.Marks, About: said}
	}}
}

// cornerTitle names the kinds of piece on a sheet: corners, ends or both.
func (b *book) cornerTitle(all []*layout.Piece) string {
	names := [...]string{plan.MadeTurning: "corner", plan.MadeEnding: "end", plan.MadeTapering: "transition",
		plan.MadeBreaking: "pitch miter", plan.MadeTee: "tee"}
	var count [len(names)]int
	for _, q := range all {
		count[b.l.Made(q).Making]++
	}
	var words []string
	for i, n := range count {
		switch {
		case n == 1 && len(all) == 1:
			words = append(words, names[i])
		case n > 0:
			words = append(words, names[i]+"s")
		}
	}
	t := strings.Join(words, ", ")
	if n := len(words); n > 1 {
		t = strings.Join(words[:n-1], ", ") + " and " + words[n-1]
	}
	return strings.ToUpper(t[:1]) + t[1:]
}

// byHand says that a piece turns too often to be drawn as one: it is on hold
// until somebody details it.
func byHand(q *layout.Piece) bool { return len(q.Miters) > 2 }

// releaseWords say large which pieces must not be cut.
func (b *book) releaseWords(pieces []*layout.Piece, holds finding.List) string {
	var marks []string
	for _, q := range pieces {
		if !b.l.Held.Released(q) {
			marks = append(marks, q.Mark)
		}
	}
	switch {
	case len(marks) == 0 && len(holds) == 0:
		return ""
	case len(marks) == 0:
		return "HOLD."
	case len(marks) == len(pieces):
		return "NOT RELEASED, DO NOT CUT: all pieces of this sheet."
	case len(marks) > 6:
		return fmt.Sprintf("NOT RELEASED, DO NOT CUT: %d pieces, marked in the table.", len(marks))
	}
	return "NOT RELEASED, DO NOT CUT: " + strings.Join(marks, ", ") + "."
}

// shopLeg letters a length as the plan beside it does: in inches alone under two
// feet, in feet beyond.
func (b *book) shopLeg(l length.Length) string {
	if l < 2*length.Foot {
		return b.shopShort(l)
	}
	return b.shopLong(l)
}

// cornerFacts are what the shop makes the piece by.
func (b *book) cornerFacts(g []*layout.Piece) table {
	q := g[0]
	var marks []string
	for _, o := range g {
		marks = append(marks, o.Mark)
	}
	t := facts("", nil)
	t.fill = true
	row := func(head, words string, names ...string) {
		t.add(lettered{words: head}, lettered{words, layout.AllNamed(names...)})
	}
	title := "Piece " + strings.Join(marks, ", ")
	if !b.l.Held.Released(q) {
		title += ": NOT RELEASED, DO NOT CUT"
		row("Held by", strings.Join(b.holdNames(b.l.Held[q]), "; "))
	}
	t.title = prose(title)
	for _, m := range q.Miters {
		if m.Corner.Straight() {
			row("Break", bendWords(m.Corner), bendFacts(m.Corner))
			continue
		}
		row("Turn", turnWords(m.Corner), turnFacts(m.Corner))
	}
	var front, rear []string
	for i, t := range q.Parts {
		front = append(front, b.shopLeg(t.Length()))
		rear = append(rear, b.shopLeg(q.RearLength(i)))
	}
	fronts, rears, insides, girths := eachPart(q, "length"), eachPart(q, "rear-length"), eachPart(q, "inside"),
		eachPart(q, "girth")
	legs := "Shop legs, %s (left, right)"
	switch {
	case len(q.Parts) == 1:
		legs = "Shop length, %s"
	case len(q.Parts) > 2:
		legs = "Shop legs, %s (from the left)"
	}
	as := "none"
	if q.Assembly != nil {
		as = q.Assembly.Name + ", " + q.Zone.String() + " zone"
	}
	if made := b.l.Made(q).Making; made == plan.MadeTee {
		b.teeRows(q, front, row)
	} else if made == plan.MadeTapering {
		row("Length", strings.Join(front, ", ")+" along the straight "+q.Straight.String(), fronts)
		row("Legs", b.shopLong(b.j.System.Transition.Leg)+" straight at each end, the rear tapers between",
			factsOf("system", "transition-leg"))
		row("Width", "inside "+b.widthOf(q)+", mean girth "+b.shopShort(b.l.GirthOf(q)),
			factsOf(q.Mark, "narrow", "wide", "girth"))
		row("Hold it", "from the roof, looking out: wide end at the "+strings.ToUpper(q.Hand.String())+" hand")
	} else {
		row(fmt.Sprintf(legs, "front"), strings.Join(front, ", "), fronts)
		row(fmt.Sprintf(legs, "rear"), strings.Join(rear, ", "), rears)
		if q.Wide == q.Narrow {
			row("Width", "inside "+b.shopShort(q.Inside)+", girth "+b.shopShort(b.l.GirthOf(q)),
				factsOf(q.Mark, "inside", "girth"))
		} else {
			two := b.twoWidthRows(q, true)
			row(two[0][0], two[0][1], insides, girths)
			row(two[1][0], two[1][1], b.legFacts(q))
		}
	}
	if h := q.Hand.String(); h != "" {
		row("Hand", h, factsOf(q.Mark, "hand"))
	}
	for i, o := range q.Cutouts {
		row("Hole", b.holeWords(q, o), holeFacts(q.Mark, i))
	}
	row("To make", fmt.Sprintf("%d, %s each (calculated)%s", len(g), b.weight(b.l.Weight(q).Laid),
		b.lifting(q, "; ", " to lift")), factsOf(q.Mark, "alike", "weight"))
	row("Assembly", prose(as))
	return t
}

// eachPart names one fact of every part of a piece, in their order.
func eachPart(q *layout.Piece, what string) string {
	var names []string
	for _, t := range q.Parts {
		names = append(names, layout.PartFact(t, what))
	}
	return layout.AllNamed(names...)
}

// holeFacts names what is lettered of a hole of a piece, counted from nought.
func holeFacts(mark string, i int) string {
	k := fmt.Sprintf("hole-%d-", i+1)
	return factsOf(mark, k+"for", k+"from-left", k+"from-front", k+"from-face", k+"size")
}

// turnFacts names the angles that turnWords letter.
func turnFacts(c *layout.Corner) string {
	if c.CapTurn == c.Turn {
		return factsOf(layout.FactOfCorner(c), "cap-turn", "cap-included")
	}
	return factsOf(layout.FactOfCorner(c), "cap-turn", "cap-included", "turn", "included")
}

// supportPacking is what stands under each support of a piece.
func (b *book) supportPacking(q *layout.Piece) lettered {
	var out, names []string
	for _, p := range b.l.Perimeters {
		for _, s := range p.Supports {
			if s.Piece == q {
				out, names = append(out, s.Name+": "+b.short(s.Packing)), append(names, layout.Named(s.Name, "packing"))
			}
		}
	}
	return lettered{orDash(strings.Join(out, ", ")), layout.AllNamed(names...)}
}

// alikeTable is what differs among pieces made alike, of which the plan letters
// the first: what each leg ends on, the packing under its supports, and how far the cap's corner lies beyond the
// plumbed corner of the wall, or short of it, along each run and out from it.
func (b *book) alikeTable(g []*layout.Piece) (table, bool) {
	if len(g) < 2 {
		return table{}, false
	}
	t := table{title: prose("The plan is lettered for " + g[0].Mark + "; each has its own"), fill: true,
		cols: []column{{head: "Piece"}, {head: "Left end at", flex: true},
			{head: "Right end at", flex: true}, {head: "Packing under support", flex: true},
			{head: "Cap’s corner from the plumbed corner of the wall", flex: true}}}
	off := func(l length.Length) string {
		switch {
		case l < 0:
			return b.short(-l) + " short"
		case l == 0:
			return "even"
		}
		return b.short(l) + " beyond"
	}
	ends := func(j *layout.Joint) string {
		if j == nil {
			return "closed end"
		}
		words := j.Name
		for _, c := range b.l.ChairsAt(j) {
			words += ", " + c.Name
		}
		return words
	}
	for _, q := range g {
		left, right := b.l.EndJoints(q)
		for i, m := range q.Miters {
			c := m.Corner
			words := fmt.Sprintf("run %s %s, %s out; run %s %s, %s out",
				c.Arrive.Name, off(c.Arrive.Right.Ext), b.short(c.Arrive.CapOut(c)), c.Leave.Name,
				off(c.Leave.Left.Ext), b.short(c.Leave.CapOut(c)))
			if len(q.Miters) > 1 {
				words = c.Name + ": " + words
			}
			row := unnamed("", "", "", "", words)
			if i == 0 {
				row = unnamed(q.Mark, ends(left), ends(right), "", words)
				row[3] = b.supportPacking(q)
			}
			if !c.Straight() {
				row[4].names = layout.OffsetFacts(c)
			}
			t.add(row...)
		}
		if len(q.Miters) == 0 {
			t.add(unnamed(q.Mark, ends(left), ends(right), "–", "–")...)
		}
	}
	return t, true
}

// lifting says how a piece is lifted, if not by one person, with words before
// and behind.
func (b *book) lifting(q *layout.Piece, before, behind string) string {
	switch b.l.Made(q).Lift {
	case plan.ByMachine:
		return before + mechanical
	case plan.ByTwo:
		return before + "TWO" + behind
	}
	return ""
}

// mechanical marks a piece that two persons may not lift.
const mechanical = "MECHANICAL LIFT"
