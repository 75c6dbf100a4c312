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
	"copingset/layout/wind"
)

// angle letters an angle in degrees.
func angle(a job.Angle) string { return job.FormatAngle(a) }

// turnWords say the angle a piece is made to twice, so that it cannot be read
// the other way, and the wall's where it differs.
func (b *book) turnWords(c *layout.Corner) string {
	if c.Straight() {
		return b.bendWords(c)
	}
	made, wall, turn, walls := words.MadeTurnRight, words.MadeTurnWallRight, c.CapTurn, c.Turn
	if !c.Outside() {
		made, wall, turn, walls = words.MadeTurnLeft, words.MadeTurnWallLeft, -turn, -walls
	}
	said := b.say.Say(made, words.In("turn", angle(turn)), words.In("included", angle(c.CapIncluded())))
	if turn == walls {
		return said
	}
	return b.say.Say(wall, words.In("said", said), words.In("turn", angle(walls)),
		words.In("included", angle(c.Included())))
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
	p := page{title: b.cornerTitle(all, names), kind: CornerSheet, paper: b.runs,
		holds: b.l.HoldsOnPieces(all), scale: b.say.Say(words.SectionScale), about: b.say.Say(words.MadeAbout)}
	p.banner = b.releaseWords(all, p.holds)
	return p, spec, composing{id: []string{"corners", names[0]}, foot: func(s *drawing.Scene, r drawing.Rect,
		_ []drawing.Mark) {
		place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfPiece(all[0]), keyWide, r.Height()), r.Min, "key")
		if len(all) > 1 {
			said := b.say.Say(words.MadeKeyPlan, words.In("piece", all[0].Mark))
			s.Paragraph(drawing.Pt(r.Min.X+keyWide+500, r.Min.Y+300), said, r.Width()-keyWide-500, drawing.Style{})
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
		return view.CornerPlan(b.on(q.Perimeter.Job).say, b.l.Corner(q))
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
func (b *book) cornerTitle(all []*layout.Piece, marks []string) string {
	names := [...]words.Key{plan.MadeTurning: words.MadeCorners, plan.MadeEnding: words.MadeEnds,
		plan.MadeTapering: words.MadeTransitions, plan.MadeBreaking: words.MadePitches, plan.MadeTee: words.MadeTees}
	var count [len(names)]int
	for _, q := range all {
		count[b.l.Made(q).Making]++
	}
	var kinds []string
	for i, n := range count {
		if n > 0 {
			kinds = append(kinds, b.say.Count(names[i], n))
		}
	}
	said := strings.ToLower(strings.Join(kinds, ", "))
	return b.say.Say(words.MadeSheet, words.In("kinds", strings.ToUpper(said[:1])+said[1:]),
		words.In("marks", strings.Join(marks, ", ")))
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
		return b.say.Say(words.MadeHeld)
	case len(marks) == len(pieces):
		return b.say.Say(words.MadeHeldAll)
	case len(marks) > 6:
		return b.say.Say(words.MadeHeldMany, words.In("n", itoa(len(marks))))
	}
	return b.say.Say(words.MadeHeldThese, words.In("pieces", strings.Join(marks, ", ")))
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
	say, in := b.say.Say, words.In
	t := facts("", nil)
	t.fill = true
	add := func(k words.Key, said string, names ...string) {
		t.add(lettered{words: say(k)}, lettered{said, layout.AllNamed(names...)})
	}
	title := say(words.MadeTitle, in("pieces", strings.Join(marks, ", ")))
	if !b.l.Held.Released(q) {
		title = say(words.MadeTitleHeld, in("pieces", strings.Join(marks, ", ")))
		add(words.MadeHeldBy, strings.Join(b.holdNames(b.l.Held[q]), "; "))
	}
	t.title = prose(title)
	for _, m := range q.Miters {
		if m.Corner.Straight() {
			add(words.MadeBreak, b.bendWords(m.Corner), bendFacts(m.Corner))
			continue
		}
		add(words.MadeTurn, b.turnWords(m.Corner), turnFacts(m.Corner))
	}
	for _, row := range b.madeSizes(q) {
		t.add(row...)
	}
	switch q.Hand.String() {
	case "left":
		add(words.MadeHand, say(words.MadeHandLeft))
	case "right":
		add(words.MadeHand, say(words.MadeHandRight))
	}
	for i, o := range q.Cutouts {
		add(words.MadeHole, b.holeWords(q, o), holeFacts(q.Mark, i))
	}
	makes := [...]words.Key{plan.ByOne: words.MadeMakeOne, plan.ByTwo: words.MadeMakeTwo,
		plan.ByMachine: words.MadeMakeMachine}[b.l.Made(q).Lift]
	add(words.MadeMake, say(makes, in("n", itoa(len(g))), in("weight", b.weight(b.l.Weight(q).Laid))),
		factsOf(q.Mark, "alike", "weight"))
	as := say(words.ScheduleNone)
	if q.Assembly != nil {
		k := words.MadeAssemblyEdge
		if q.Zone == wind.Corner {
			k = words.MadeAssemblyCorner
		}
		as = say(k, in("name", q.Assembly.Name))
	}
	add(words.MadeAssembly, prose(as))
	t.title = prose(title)
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

// madeSizes are the lengths and widths the shop makes a piece to.
func (b *book) madeSizes(q *layout.Piece) [][]lettered {
	say, in := b.say.Say, words.In
	row := func(k words.Key, said string, names ...string) []lettered {
		return []lettered{{words: say(k)}, {said, layout.AllNamed(names...)}}
	}
	var street, roof []string
	for i, t := range q.Parts {
		street = append(street, b.shopLeg(t.Length()))
		roof = append(roof, b.shopLeg(q.RearLength(i)))
	}
	inside, girth := in("inside", b.widthOf(q)), in("girth", b.shopShort(b.l.GirthOf(q)))
	switch b.l.Made(q).Making {
	case plan.MadeTee:
		return b.teeRows(q, street)
	case plan.MadeTapering:
		face, hand := words.MadeTaperStreet, words.MadeTaperLeft
		if q.Straight == job.Rear {
			face = words.MadeTaperRoof
		}
		if q.Hand.String() == "right" {
			hand = words.MadeTaperRight
		}
		return [][]lettered{
			row(words.MadeLength, say(face, in("length", strings.Join(street, ", "))), eachPart(q, "length")),
			row(words.MadeLegs, say(words.MadeTaperLegs, in("leg", b.shopLong(b.j.System.Transition.Leg))),
				factsOf("system", "transition-leg")),
			row(words.MadeWidth, say(words.MadeTaperWidth, inside, girth), factsOf(q.Mark, "narrow", "wide", "girth")),
			row(words.MadeHand, say(hand)),
		}
	}
	heads := [2]words.Key{words.MadeLegsStreet, words.MadeLegsRoof}
	switch {
	case len(q.Parts) == 1:
		heads = [2]words.Key{words.MadeLengthStreet, words.MadeLengthRoof}
	case len(q.Parts) > 2:
		heads = [2]words.Key{words.MadeLegsOfStreet, words.MadeLegsOfRoof}
	}
	rows := [][]lettered{row(heads[0], strings.Join(street, ", "), eachPart(q, "length")),
		row(heads[1], strings.Join(roof, ", "), eachPart(q, "rear-length"))}
	if q.Wide != q.Narrow {
		two := b.twoWidthRows(q, true)
		return append(rows, []lettered{{words: two[0][0]}, {two[0][1], layout.AllNamed(eachPart(q, "inside"),
			eachPart(q, "girth"))}}, []lettered{{words: two[1][0]}, {two[1][1], b.legFacts(q)}})
	}
	return append(rows, row(words.MadeWidth, say(words.MadeWidthOf, in("inside", b.shopShort(q.Inside)), girth),
		factsOf(q.Mark, "inside", "girth")))
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
// the first: what each leg ends on, the build-up under its supports, and how far the cap's corner lies beyond the
// plumbed corner of the wall, or short of it, along each run and out from it.
func (b *book) alikeTable(g []*layout.Piece) (table, bool) {
	if len(g) < 2 {
		return table{}, false
	}
	say, in := b.say.Say, words.In
	t := table{title: prose(say(words.MadeAlike, in("piece", g[0].Mark))), fill: true,
		cols: []column{{head: say(words.MadeAlikePiece)}, {head: say(words.MadeAlikeLeft), flex: true},
			{head: say(words.MadeAlikeRight), flex: true}, {head: say(words.MadeAlikeBuild), flex: true},
			{head: say(words.MadeAlikeCorner), flex: true}}}
	off := func(l length.Length) string {
		switch {
		case l < 0:
			return say(words.MadeOffShort, in("length", b.short(-l)))
		case l == 0:
			return say(words.MadeOffEven)
		}
		return say(words.MadeOffBeyond, in("length", b.short(l)))
	}
	ends := func(j *layout.Joint) string {
		if j == nil {
			return say(words.MadeClosed)
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
			said := say(words.MadeCornerAt, in("arrive", c.Arrive.Name), in("first", off(c.Arrive.Right.Ext)),
				in("first-out", b.short(c.Arrive.CapOut(c))), in("leave", c.Leave.Name),
				in("second", off(c.Leave.Left.Ext)), in("second-out", b.short(c.Leave.CapOut(c))))
			if len(q.Miters) > 1 {
				said = say(words.MadeCornerOf, in("corner", c.Name), in("at", said))
			}
			row := unnamed("", "", "", "", said)
			if i == 0 {
				row = unnamed(q.Mark, ends(left), ends(right), "", said)
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
