package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// labelGrid is where labels stand on a sheet.
type labelGrid struct {
	cols, rows   int
	first        drawing.Rect
	across, down drawing.Unit
	cut          bool // labels are cut before they are printed
}

// at is the place of label i of a sheet, row by row.
func (g labelGrid) at(i int) drawing.Rect {
	x, y := drawing.Unit(i%g.cols)*g.across, drawing.Unit(i/g.cols)*g.down
	return drawing.Box(g.first.Min.X+x, g.first.Min.Y+y, g.first.Max.X+x, g.first.Max.Y+y)
}

// toPaper is a length at its own size on a sheet.
func toPaper(l length.Length) drawing.Unit { return drawing.Round(l.MM()) }

// labelGrid is the job's: labels cut beforehand stand where the job says if the
// packet is printed on the paper it says; else as many as the job asks for that
// can be read.
func (b *book) labelGrid() labelGrid {
	l := b.j.Shop.Labels
	if c := l.Cut; c != nil && b.lists == portrait(b.j.Paper.Lists) {
		x, y := toPaper(c.Left), toPaper(c.Top)
		return labelGrid{
			cols:   max(1, l.Columns),
			rows:   max(1, l.Rows),
			first:  drawing.Box(x, y, x+toPaper(c.Width), y+toPaper(c.Height)),
			across: toPaper(c.Across),
			down:   toPaper(c.Down),
			cut:    true,
		}
	}
	room := b.lists.room(false)
	cols := max(1, min(l.Columns, int(room.Width()/toPaper(job.LeastLabelWidth))))
	rows := max(1, min(l.Rows, int(room.Height()/toPaper(job.LeastLabelHeight))))
	w, h := room.Width()/drawing.Unit(cols), room.Height()/drawing.Unit(rows)
	return labelGrid{
		cols:   cols,
		rows:   rows,
		first:  drawing.Box(room.Min.X, room.Min.Y, room.Min.X+w, room.Min.Y+h),
		across: w,
		down:   h,
	}
}

// pieceLabels are labels for what is released, in the grid the job asks for.
func (b *book) pieceLabels() []page {
	var pieces []*layout.Piece
	for _, f := range b.l.Families {
		for _, q := range f.Pieces {
			if b.l.Held.Released(q) {
				pieces = append(pieces, q)
			}
		}
	}
	if len(pieces) == 0 {
		return nil
	}
	grid := b.labelGrid()
	var all [][]string
	for _, q := range pieces {
		all = append(all, b.labelWords(q))
	}
	style := fitLabels(all, labelRoom(grid.first, grid.cut))
	p := page{
		id:    b.id("labels"),
		title: b.say.Say(words.LabelPieces),
		kind:  PieceLabels,
		paper: b.lists,
		bare:  grid.cut,
		about: b.say.Say(words.LabelPiecesAbout),
	}
	var out []page
	for from := 0; from < len(pieces); from += grid.cols * grid.rows {
		here := pieces[from:min(len(pieces), from+grid.cols*grid.rows)]
		q := p
		if from > 0 {
			q.id = b.id(p.id)
			q.title = b.say.Say(words.FrameContinued, words.In("title", q.title))
		}
		q.draw = func(s *drawing.Scene, refer func(string) string) {
			for i, piece := range here {
				b.label(s, piece, grid.at(i), style, grid.cut, "l"+itoa(i))
			}
			if grid.cut {
				b.inMargin(s, grid, q.title, refer(q.id))
			}
		}
		out = append(out, q)
	}
	return out
}

// inMargin says what a sheet of labels is where its margin leaves room, clear of
// what printers leave blank.
func (b *book) inMargin(s *drawing.Scene, g labelGrid, title, sheet string) {
	const least, clear = 1100, 640
	said := b.say.Say(
		words.LabelMargin, words.In("job", prose(strings.TrimSpace(b.j.Info.Name+" "+b.j.Info.Number))),
		words.In("title", title), words.In("sheet", sheet), words.In("date", date(b.j.Info.Issued)),
	)
	last := g.at(g.cols*g.rows - 1)
	y := drawing.Unit(0)
	switch {
	case s.H-last.Max.Y >= least:
		y = s.H - clear - 80
	case g.first.Min.Y >= least:
		y = clear + drawing.Unit(drawing.Note)
	default:
		return
	}
	s.Text(
		drawing.Pt(s.W/2, y),
		shorten(sentences(said, b.translation()), drawing.Regular, drawing.Note, s.W-2*clear),
		drawing.Style{Align: drawing.Middle},
	)
}

// labelRoom is what of a label is lettered. Sheets cut beforehand slip a little in
// a printer.
func labelRoom(r drawing.Rect, cut bool) drawing.Rect {
	if cut {
		return r.Inset(200)
	}
	return r.Inset(150)
}

// label is one label: the mark large, what the crew asks for, and the piece from
// above with its hands.
func (b *book) label(s *drawing.Scene, q *layout.Piece, r drawing.Rect, st labelStyle, cut bool, prefix string) {
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		in := labelRoom(r, cut)
		if !cut {
			g.Rect(drawing.Thin, r)
		}
		left := st.left
		lines, _ := st.lines(b.labelWords(q), in)
		z := drawing.Size(900)
		most := min(in.Height()/4, in.Height()-drawing.Unit(len(lines))*st.step()-140)
		for z > drawing.Note && (drawing.Width(drawing.Bold, q.Mark, z) > left || drawing.Unit(z) > most) {
			z -= 20
		}
		y := in.Min.Y + drawing.Unit(z)
		g.Text(
			drawing.Pt(in.Min.X, y),
			shorten(q.Mark, drawing.Bold, z, left),
			drawing.Style{Size: z, Face: drawing.Bold},
		)
		y += 80
		for _, l := range lines {
			y += st.step()
			g.Text(drawing.Pt(in.Min.X, y), l, drawing.Style{Size: st.size})
		}
		if f := b.l.FamilyOf(q); f != nil && len(f.Bodies) > 0 {
			w := in.Width() - left - 100
			// Under the drawing what the mark is worth.
			said := b.labelStatus()
			if drawing.Width(drawing.Regular, said, drawing.Note) > w { // the digest tells two contents of a mark apart
				said = b.shownDigest()
			}
			g.Text(
				drawing.Pt(in.Max.X, in.Max.Y-20),
				shorten(said, drawing.Regular, drawing.Note, w),
				drawing.Style{Align: drawing.Right},
			)
			in.Max.Y -= drawing.Unit(drawing.Note) + 40
			top := view.FormedTop(b.on(q.Perimeter.Job).say, b.formedOf(f), w, in.Height())
			place(g, top, drawing.Pt(in.Max.X-w, in.Min.Y), prefix)
		}
	})
}

// labelStatus says on a label what its shop mark is worth.
func (b *book) labelStatus() string {
	if !b.isPreliminary() {
		return b.say.Say(words.FrameIssuedStatus)
	}
	return b.say.Say(words.LabelPreliminary, words.In("digest", b.shownDigest()))
}

// labelWords are the lines of a label under its mark: where it goes and how long
// it is, its hand, its crate, and how it is made and lifted.
func (b *book) labelWords(q *layout.Piece) []string {
	say := b.say.Say
	travels, made := []string{b.crateOf(q), say(words.LabelLay, words.In("n", itoa(q.Laying)))}, []string(nil)
	f := b.l.FamilyOf(q)
	switch {
	case f == nil:
	case f.Twin != nil:
		made = append(made, say(words.LabelTwin, words.In("mark", f.Mark), words.In("twin", f.Twin.Mark)))
	default:
		made = append(made, say(words.LabelType, words.In("mark", f.Mark)))
	}
	if lift := b.labelLift(q); lift != "" && f != nil && f.Twin == nil {
		made = append(made, lift)
	} else if lift != "" {
		travels = append(travels, lift)
	}
	if from := b.l.CutFrom(q); from.Cap != "" {
		made = append(made, say(words.LabelFromCap, words.In("mark", from.Cap)))
	}
	if b.l.Made(q).After != "" {
		made = append(made, say(words.LabelAfter))
	}
	return []string{b.labelPlaceOf(q), b.labelHand(q), strings.Join(travels, ", "), strings.Join(made, ", ")}
}

// labelPlaceOf says to which run a piece goes, and of a straight one how long it is.
func (b *book) labelPlaceOf(q *layout.Piece) string {
	var names []string
	for _, t := range q.Parts {
		names = append(names, t.Run.Name)
	}
	run, long := words.In("run", strings.Join(names, "/")), words.In("length", b.text(crate.Shipped(q)))
	perimeter := words.In("perimeter", prose(q.Perimeter.Job.Name))
	switch several, straight := len(b.l.Perimeters) > 1, len(q.Parts) == 1; {
	case several && straight:
		return b.say.Say(words.LabelRunOfLong, perimeter, run, long)
	case several:
		return b.say.Say(words.LabelRunOf, perimeter, run)
	case straight:
		return b.say.Say(words.LabelRunLong, run, long)
	}
	return b.say.Say(words.LabelRun, run)
}

// labelLift is how a piece is lifted, if not by one person.
func (b *book) labelLift(q *layout.Piece) string {
	switch b.l.Made(q).Lift {
	case plan.ByMachine:
		return b.say.Say(words.KindLiftMachine)
	case plan.ByTwo:
		return b.say.Say(words.LabelTwo)
	}
	return ""
}

// labelEnds are the sentences of what is at the hand of a piece, by the names the
// layout gives them; it is for looking up alone.
var labelEnds = map[string]words.Key{
	"closed end": words.LabelAtClosed,
	"flange":     words.LabelAtFlange,
	"wide end":   words.LabelAtWide,
	"high edge":  words.LabelAtHigh,
}

// labelHand is the hand of a piece in a few words, by the L and R of its drawing.
func (b *book) labelHand(q *layout.Piece) string {
	m := b.l.Made(q)
	at := func(hand string) words.Slot { return words.In("hand", strings.ToUpper(hand[:1])) }
	var said []string
	switch {
	case m.Making == plan.MadeTee && len(q.Parts) == 2:
		said = append(
			said,
			b.say.Say(
				words.LabelTee, words.In("through", b.long(q.Parts[0].Length())),
				words.In("stem", b.long(q.Parts[1].Length())),
			),
		)
	case len(q.Parts) > 1:
		var legs []string
		for _, t := range q.Parts {
			legs = append(legs, b.long(t.Length()))
		}
		said = append(said, b.say.Say(words.LabelLegs, words.In("legs", strings.Join(legs, ", "))))
	}
	if m.AtHand != "" && m.Hand != "" {
		said = append(said, b.say.Say(labelEnds[m.AtHand], at(m.Hand)))
	}
	if m.CutAt != "" {
		said = append(said, b.say.Say(words.LabelExtra, words.In("extra", b.shopText(q.Allowance)), at(m.CutAt)))
	}
	if len(q.Cutouts) > 0 {
		said = append(said, b.holeHand(q))
	}
	if len(said) == 0 {
		return b.say.Say(words.LabelAlike)
	}
	return strings.Join(said, ", ")
}

// holeHand says to which hand the holes of a piece lie.
func (b *book) holeHand(q *layout.Piece) string {
	var lean length.Length // of the holes' middles to the right of the piece's
	for _, o := range q.Cutouts {
		lean += 2*b.l.HoleOf(q, o).FromLeft - q.Length()
	}
	switch {
	case len(q.Parts) > 1 || lean == 0:
		return b.say.Say(words.LabelHoleSee)
	case lean < 0:
		return b.say.Say(words.LabelHoleNear, words.In("hand", "L"))
	}
	return b.say.Say(words.LabelHoleNear, words.In("hand", "R"))
}

// labelStyle is how the words of all labels of a job are lettered.
type labelStyle struct {
	size drawing.Size
	left drawing.Unit // width of the words; the drawing has the rest
	wrap bool
}

func (z labelStyle) step() drawing.Unit { return drawing.Unit(z.size) * 14 / 10 }

// lines are the words of a label as they stand on it, and whether they fit.
func (z labelStyle) lines(phrase []string, in drawing.Rect) (lines []string, ok bool) {
	ok = true
	for _, l := range phrase {
		if z.wrap {
			lines = append(lines, drawing.Wrap(l, drawing.Regular, z.size, z.left)...)
		} else {
			lines = append(lines, l)
		}
	}
	for i, l := range lines {
		if drawing.Width(drawing.Regular, l, z.size) > z.left {
			lines[i], ok = shorten(l, drawing.Regular, z.size, z.left), false
		}
	}
	mark := max(in.Height()/6, 400)
	return lines, ok && mark+80+drawing.Unit(len(lines))*z.step()+60 <= in.Height()
}

// fitLabels finds the largest letters, 3 mm or more, in which the words of every
// label stand in it, if need be in broken lines. Where labels are too small for
// that the letters are the smallest of a sheet, and the longest lines are cut.
func fitLabels(all [][]string, in drawing.Rect) labelStyle {
	for _, try := range []struct {
		wrap   bool
		shares []drawing.Unit // of the width, in hundredths; the drawing is to be seen as well
	}{{false, []drawing.Unit{48, 52, 56}}, {true, []drawing.Unit{52, 56}}, {false, []drawing.Unit{62, 68}},
		{true, []drawing.Unit{62, 68}}, {false, []drawing.Unit{72, 76}}} {
		for z := drawing.Head + 100; z >= drawing.Note; z -= 10 {
			for _, share := range try.shares {
				st := labelStyle{z, in.Width() * share / 100, try.wrap}
				if !slices.ContainsFunc(all, func(phrase []string) bool { _, ok := st.lines(phrase, in); return !ok }) {
					return st
				}
			}
		}
	}
	return labelStyle{size: drawing.Small, left: in.Width() * 62 / 100}
}

// crateOf says in which crate a piece travels.
func (b *book) crateOf(q *layout.Piece) string {
	for _, c := range b.l.Crates {
		for _, x := range c.Items {
			if x.Piece == q {
				return b.say.Say(words.LabelCrateOf, words.In("n", itoa(c.N)), words.In("of", itoa(len(b.l.Crates))))
			}
		}
	}
	return b.say.Say(words.LabelCrateNone)
}
