package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
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

// corners are the sheets of the pieces that turn or close, planned once: the sheets of
// runs refer to them.
func (b *book) corners() []page {
	if b.cornerPages == nil {
		b.cornerPages = append([]page{}, b.planCorners()...)
	}
	return b.cornerPages
}

// planCorners makes plan and data of each piece that turns or closes, several to a
// sheet where they fit.
func (b *book) planCorners() []page {
	groups := b.l.CornerGroups()
	if len(groups) == 0 {
		return nil
	}
	var out []page
	together, ok := b.cornerCells(groups, true)
	for len(groups) > 0 {
		c := together
		if !ok {
			c, _ = b.cornerCells(groups[:1], false)
		}
		n := min(len(groups), len(c.cells))
		here := groups[:n]
		groups = groups[n:]
		var names []string
		var all []*layout.Piece
		for _, g := range here {
			all = append(all, g...)
			for _, q := range g {
				names = append(names, q.Mark)
			}
		}
		p := page{id: b.id("corners", names[0]), title: b.cornerTitle(all) + " " + strings.Join(names, ", "), kind: CornerSheet, paper: c.paper,
			holds: b.l.HoldsOnPieces(all), scale: "as noted", about: "Welded corners and ends in plan with legs, angles, chairs and supports."}
		for _, q := range all {
			b.where[q.Mark] = p.id
		}
		if c.on != nil {
			p = p.printedOn(b.say, *c.on)
		}
		p.banner = b.releaseWords(all, p.holds)
		p.foot = func(s *drawing.Scene, r drawing.Rect) {
			place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfPiece(all[0]), keyWide, r.Height()), r.Min, "key")
			if len(all) > 1 {
				s.Paragraph(drawing.Pt(r.Min.X+keyWide+500, r.Min.Y+300), "Key plan: "+all[0].Mark, r.Width()-keyWide-500, drawing.Style{})
			}
		}
		p.draw = func(s *drawing.Scene, _ func(string) string) {
			for i, g := range here {
				r := c.cells[i]
				if byHand(g[0]) {
					s.Draw(drawing.HoldFlag{At: r.plan.Min, Words: "NO PLAN: DETAIL BY HAND"}.Figure())
				} else {
					centred(s, b.cornerPlan(g[0], r.plan.Width(), r.plan.Height()), r.plan, fmt.Sprintf("c%d", i+1))
				}
				if !r.data.Empty() {
					got, _ := b.cornerFacts(g).take(r.data.Width(), r.data.Height(), true)
					got.draw(s, r.data.Min)
					if t, ok := b.alikeTable(g); ok {
						y := r.data.Min.Y + got.h + between
						more, _ := t.take(r.data.Width(), r.data.Max.Y-y, true)
						more.draw(s, drawing.Pt(r.data.Min.X, y))
					}
				}
			}
		}
		out = append(out, p)
		if c.cells[0].data.Empty() {
			q := p
			q.id, q.title = b.id(p.id), p.title+": data"
			room := q.paper.room(q.banner != "")
			q.draw = func(s *drawing.Scene, _ func(string) string) {
				got, _ := b.cornerFacts(here[0]).take(room.Width(), room.Height(), true)
				got.draw(s, room.Min)
				if t, ok := b.alikeTable(here[0]); ok {
					y := room.Min.Y + got.h + between
					more, _ := t.take(room.Width(), room.Max.Y-y, true)
					more.draw(s, drawing.Pt(room.Min.X, y))
				}
			}
			out = append(out, q)
		}
	}
	return out
}

// cornerTitle names the kinds of piece on a sheet: corners, ends or both.
func (b *book) cornerTitle(all []*layout.Piece) string {
	names := [...]string{plan.MadeTurning: "corner", plan.MadeEnding: "end", plan.MadeTapering: "transition", plan.MadeBreaking: "pitch miter", plan.MadeTee: "tee"}
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

// cell is the room of one corner: its plan, and its data beside or under it;
// no data where the plan needs the whole page.
type cell struct{ plan, data drawing.Rect }

type cornerGrid struct {
	paper paper
	on    *job.PaperSize // the larger paper that the plan needs; nil: the job's own
	cells []cell
}

// cornerCells chooses how corners stand on their sheets: several together, or
// one alone in the first way in which its plan keeps within its room, on a
// larger paper where the job's has none. ok is false when none does, and the
// last way on the job's paper is given.
func (b *book) cornerCells(groups [][]*layout.Piece, together bool) (g cornerGrid, ok bool) {
	type way struct {
		paper paper
		data  int // 0 beside, 1 under, 2 on the next page
		on    *job.PaperSize
	}
	upright := paper{b.runs.h, b.runs.w}
	ways := []way{{b.runs, 0, nil}, {b.runs, 1, nil}, {upright, 1, nil}, {b.runs, 2, nil}, {upright, 2, nil}}
	if together {
		ways = ways[:1]
	} else {
		for _, z := range larger(b.runs) {
			ways = append(ways, way{landscape(z), 0, &z}, way{landscape(z), 1, &z}, way{landscape(z), 2, &z})
		}
	}
	// A banner on one sheet takes its room from all, so that one way serves them all.
	held := slices.ContainsFunc(groups, func(q []*layout.Piece) bool { return b.releaseWords(q, b.l.HoldsOnPieces(q)) != "" })
	for _, try := range ways {
		last := g
		room := try.paper.room(held)
		across, down := 1, 1
		if together {
			across = min(len(groups), max(1, int((room.Width()+gutter)/(36000+gutter))))
			down = min((len(groups)+across-1)/across, max(1, int((room.Height()+gutter)/(20000+gutter))))
		}
		g = cornerGrid{paper: try.paper, on: try.on}
		for _, r := range grid(room, across, down) {
			c := cell{plan: r, data: r}
			switch try.data {
			case 0:
				c.plan.Max.X = r.Min.X + r.Width()*66/100
				c.data.Min.X = c.plan.Max.X + gutter
			case 1:
				c.plan.Max.Y = r.Max.Y - cornerDataHigh
				c.data.Min.Y = c.plan.Max.Y + between
			case 2:
				c.data = drawing.Rect{}
			}
			g.cells = append(g.cells, c)
		}
		fits := func(r cell) bool {
			return !slices.ContainsFunc(groups, func(q []*layout.Piece) bool { return !b.cornerFits(q, r) })
		}
		// A plan too large for the whole room spares the look at a part of it.
		if (try.data != 1 || fits(cell{plan: room})) && fits(g.cells[0]) {
			return g, true
		}
		if try.on != nil {
			g = last
		}
	}
	return g, false
}

// cornerFits says that data and plan of a group keep within a cell. The data
// are the quicker to measure.
func (b *book) cornerFits(q []*layout.Piece, r cell) bool {
	if !r.data.Empty() {
		got, _ := b.cornerFacts(q).take(r.data.Width(), 1<<20, true)
		high := got.h
		if t, ok := b.alikeTable(q); ok {
			more, _ := t.take(r.data.Width(), 1<<20, true)
			high += between + more.h
		}
		if high > r.data.Height() {
			return false
		}
	}
	w, h := r.plan.Width(), r.plan.Height()
	return byHand(q[0]) || b.cornerSits(q[0], w, h)
}

// planKey is what a corner plan is drawn from.
type planKey struct {
	piece *layout.Piece
	w, h  drawing.Unit
}

// cornerView is a corner plan, and whether it has the room it needs; without
// that there is none yet.
type cornerView struct {
	scene drawing.Scene
	roomy bool
}

// cornerSits says that the plan of a piece has the room it needs. It is drawn
// once: the way a sheet is laid out asks for it before the sheet does.
func (b *book) cornerSits(q *layout.Piece, w, h drawing.Unit) bool {
	k := planKey{q, w, h}
	v, ok := b.plans[k]
	if !ok {
		v.scene, v.roomy = b.cornerPlans(q).Roomy(w, h)
		v.roomy = v.roomy && sits(v.scene, w, h)
		b.plans[k] = v
	}
	return v.roomy
}

// cornerPlan is the plan of a piece in a room, tight if it has to be.
func (b *book) cornerPlan(q *layout.Piece, w, h drawing.Unit) drawing.Scene {
	if b.cornerSits(q, w, h) {
		return b.plans[planKey{q, w, h}].scene
	}
	return b.cornerPlans(q).In(w, h)
}

// cornerPlans are the plans of a piece, made once for all rooms.
func (b *book) cornerPlans(q *layout.Piece) view.CornerPlans {
	p, ok := b.plansOf[q]
	if !ok {
		p = view.NewCornerPlans(b.l.Corner(q))
		b.plansOf[q] = p
	}
	return p
}

const cornerDataHigh drawing.Unit = 6200

// grid cuts a rectangle into cells, row by row.
func grid(r drawing.Rect, across, down int) []drawing.Rect {
	h := (r.Height() - gutter*drawing.Unit(down-1)) / drawing.Unit(down)
	var out []drawing.Rect
	for i := range down {
		y := r.Min.Y + drawing.Unit(i)*(h+gutter)
		out = append(out, columns(drawing.Box(r.Min.X, y, r.Max.X, y+h), across, gutter)...)
	}
	return out
}

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
	var rows [][]string
	title := "Piece " + strings.Join(marks, ", ")
	if !b.l.Held.Released(q) {
		title += ": NOT RELEASED, DO NOT CUT"
		rows = append(rows, []string{"Held by", strings.Join(b.holdNames(b.l.Held[q]), "; ")})
	}
	for _, m := range q.Miters {
		if m.Corner.Straight() {
			rows = append(rows, []string{"Break", bendWords(m.Corner)})
			continue
		}
		rows = append(rows, []string{"Turn", turnWords(m.Corner)})
	}
	var front, rear []string
	for i, t := range q.Parts {
		front = append(front, b.shopLeg(t.Length()))
		rear = append(rear, b.shopLeg(q.RearLength(i)))
	}
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
		rows = append(rows, b.teeRows(q, front)...)
	} else if made == plan.MadeTapering {
		rows = append(rows,
			[]string{"Length", strings.Join(front, ", ") + " along the straight " + q.Straight.String()},
			[]string{"Legs", b.shopLong(b.j.System.Transition.Leg) + " straight at each end, the rear tapers between"},
			[]string{"Width", "inside " + b.widthOf(q) + ", mean girth " + b.shopShort(b.l.GirthOf(q))},
			[]string{"Hold it", "from the roof, looking out: wide end at the " + strings.ToUpper(q.Hand.String()) + " hand"},
		)
	} else {
		rows = append(rows,
			[]string{fmt.Sprintf(legs, "front"), strings.Join(front, ", ")},
			[]string{fmt.Sprintf(legs, "rear"), strings.Join(rear, ", ")},
		)
		if q.Wide == q.Narrow {
			rows = append(rows, []string{"Width", "inside " + b.shopShort(q.Inside) + ", girth " + b.shopShort(b.l.GirthOf(q))})
		} else {
			rows = append(rows, b.twoWidthRows(q, true)...)
		}
	}
	if h := q.Hand.String(); h != "" {
		rows = append(rows, []string{"Hand", h})
	}
	for _, o := range q.Cutouts {
		rows = append(rows, []string{"Hole", b.holeWords(q, o)})
	}
	rows = append(rows,
		[]string{"To make", fmt.Sprintf("%d, %s each (calculated)%s", len(g), b.weight(b.l.Weight(q).Laid), b.lifting(q, "; ", " to lift"))},
		[]string{"Assembly", prose(as)},
	)
	t := facts(prose(title), rows)
	t.fill = true
	return t
}

// supportPacking is what stands under each support of a piece.
func (b *book) supportPacking(q *layout.Piece) string {
	var out []string
	for _, p := range b.l.Perimeters {
		for _, s := range p.Supports {
			if s.Piece == q {
				out = append(out, s.Name+" "+b.short(s.Packing))
			}
		}
	}
	return orDash(strings.Join(out, ", "))
}

// alikeTable is what differs among pieces made alike, of which the plan letters
// the first: what each leg ends on, the packing under its supports, and how far the cap's corner lies beyond the plumbed corner of the wall, or
// short of it, along each run and out from it.
func (b *book) alikeTable(g []*layout.Piece) (table, bool) {
	if len(g) < 2 {
		return table{}, false
	}
	t := table{title: prose("The plan is lettered for " + g[0].Mark + "; each has its own"), fill: true, cols: []column{{head: "Piece"}, {head: "Left end at", flex: true},
		{head: "Right end at", flex: true}, {head: "Packing under support", flex: true}, {head: "Cap’s corner from the plumbed corner of the wall", flex: true}}}
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
				c.Arrive.Name, off(c.Arrive.Right.Ext), b.short(c.Arrive.CapOut(c)), c.Leave.Name, off(c.Leave.Left.Ext), b.short(c.Leave.CapOut(c)))
			if len(q.Miters) > 1 {
				words = c.Name + ": " + words
			}
			row := unnamed("", "", "", "", words)
			if i == 0 {
				row = unnamed(q.Mark, ends(left), ends(right), b.supportPacking(q), words)
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
