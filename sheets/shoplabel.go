package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/length"
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
		return labelGrid{cols: max(1, l.Columns), rows: max(1, l.Rows), first: drawing.Box(x, y, x+toPaper(c.Width), y+toPaper(c.Height)),
			across: toPaper(c.Across), down: toPaper(c.Down), cut: true}
	}
	room := b.lists.room(false)
	cols := max(1, min(l.Columns, int(room.Width()/toPaper(job.LeastLabelWidth))))
	rows := max(1, min(l.Rows, int(room.Height()/toPaper(job.LeastLabelHeight))))
	w, h := room.Width()/drawing.Unit(cols), room.Height()/drawing.Unit(rows)
	return labelGrid{cols: cols, rows: rows, first: drawing.Box(room.Min.X, room.Min.Y, room.Min.X+w, room.Min.Y+h), across: w, down: h}
}

// pieceLabels are labels for what is released, in the grid the job asks for.
func (b *book) pieceLabels() []page {
	var pieces []*layout.Piece
	for _, f := range b.l.Families {
		for _, q := range f.Pieces {
			if q.Released() {
				pieces = append(pieces, q)
			}
		}
	}
	if len(pieces) == 0 {
		return nil
	}
	grid := b.labelGrid()
	p := page{id: b.id("labels"), title: "Piece labels", kind: PieceLabels, paper: b.lists, bare: grid.cut, about: "Labels of the released pieces with mark, run, hand, length and crate."}
	var out []page
	for from := 0; from < len(pieces); from += grid.cols * grid.rows {
		here := pieces[from:min(len(pieces), from+grid.cols*grid.rows)]
		q := p
		if from > 0 {
			q.id = b.id(p.id)
			q.title += ", continued"
		}
		q.draw = func(s *drawing.Scene, refer func(string) string) {
			for i, piece := range here {
				b.label(s, piece, grid.at(i), grid.cut, fmt.Sprintf("l%d", i))
			}
			if grid.cut {
				b.inMargin(s, grid, q.title+", sheet "+refer(q.id))
			}
		}
		out = append(out, q)
	}
	return out
}

// inMargin says what a sheet of labels is where its margin leaves room, clear of
// what printers leave blank.
func (b *book) inMargin(s *drawing.Scene, g labelGrid, words string) {
	const least, clear = 1100, 640
	words = prose(strings.TrimSpace(b.j.Info.Name+" "+b.j.Info.Number)) + ": " + words + ", " + date(b.j.Info.Issued) + ". Print at 100 %."
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
	s.Text(drawing.Pt(s.W/2, y), shorten(words, drawing.Regular, drawing.Note, s.W-2*clear), drawing.Style{Align: drawing.Middle})
}

// label is one label: the mark large, what the crew asks for, and the piece from
// above with its hands.
func (b *book) label(s *drawing.Scene, q *layout.Piece, r drawing.Rect, cut bool, prefix string) {
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		in := r.Inset(150)
		if cut {
			in = r.Inset(200) // sheets slip a little in a printer
		} else {
			g.Rect(drawing.Thin, r)
		}
		words := b.labelWords(q)
		lay, left := fitLabel(words, in)
		z := drawing.Size(800)
		most := min(in.Height()/4, in.Height()-drawing.Unit(len(lay.lines))*lay.step-100)
		for z > drawing.Note && (drawing.Width(drawing.Bold, q.Mark, z) > left || drawing.Unit(z) > most) {
			z -= 20
		}
		y := in.Min.Y + drawing.Unit(z)
		g.Text(drawing.Pt(in.Min.X, y), shorten(q.Mark, drawing.Bold, z, left), drawing.Style{Size: z, Face: drawing.Bold})
		y += 80
		for _, l := range lay.lines {
			y += lay.step
			g.Text(drawing.Pt(in.Min.X, y), l, drawing.Style{Size: lay.size})
		}
		if f := b.l.FamilyOf(q); f != nil && len(f.Bodies) > 0 {
			w := in.Width() - left - 100
			place(g, view.FormedTop(b.l, f, w, in.Height()), drawing.Pt(in.Max.X-w, in.Min.Y), prefix)
		}
	})
}

// labelWords are the lines of a label under its mark: where it goes and how long
// it is, its hand, its crate, and how it is made and lifted.
func (b *book) labelWords(q *layout.Piece) []string {
	var run []string
	for _, t := range q.Parts {
		run = append(run, t.Run.Name)
	}
	where := "run " + strings.Join(run, "/")
	if len(b.l.Perimeters) > 1 {
		where = prose(q.Perimeter.Job.Name) + " " + where
	}
	if len(q.Parts) == 1 {
		where += ", " + b.text(crate.Shipped(q)) + " long"
	}
	lines := []string{where, b.labelHand(q), b.crateOf(q) + ", laid as " + itoa(q.Laying)}
	if f := b.l.FamilyOf(q); f != nil {
		made := "family " + f.Mark
		if f.Twin != nil {
			made += ", twin of " + f.Twin.Mark + ": mind L and R"
		}
		lines = append(lines, made)
	}
	if w := lifting(q, "", " to lift"); w != "" {
		lines[len(lines)-1] += ", " + w
	}
	return lines
}

// labelHand is the hand of a piece in a few words, by the L and R of its drawing.
func (b *book) labelHand(q *layout.Piece) string {
	letter := func(h cap.Hand) string { return strings.ToUpper(h.String()[:1]) }
	var words []string
	if len(q.Parts) > 1 {
		var legs []string
		for _, t := range q.Parts {
			legs = append(legs, b.long(t.Length()))
		}
		words = append(words, "legs L to R "+strings.Join(legs, ", "))
	}
	switch {
	case q.Kind == cap.EndCap && q.Hand != cap.NoHand:
		words = append(words, "closed end at "+letter(q.Hand))
	case q.Kind == cap.WallEnd && q.Hand != cap.NoHand:
		words = append(words, "flange at "+letter(q.Hand))
	case q.Kind == cap.Transition && q.Hand != cap.NoHand:
		words = append(words, "wide end at "+letter(q.Hand))
	}
	if q.Allowance > 0 && q.CutAt != cap.NoHand {
		words = append(words, "ships "+b.small(q.Allowance)+" long, cut at "+letter(q.CutAt))
	}
	if len(q.Cutouts) > 0 {
		words = append(words, "hole: see drawing")
	}
	if len(words) == 0 {
		return "no hand: both ends alike"
	}
	return strings.Join(words, ", ")
}

// laidLabel is the words of a label as they fit.
type laidLabel struct {
	lines []string
	size  drawing.Size
	step  drawing.Unit
}

// fitLabel finds the largest letters in which the words of a label stand in it,
// and how much of its width they take; the drawing has the rest. Letters are 3 mm
// or more; only where that holds nothing are they smaller, and words are cut.
func fitLabel(words []string, in drawing.Rect) (laidLabel, drawing.Unit) {
	mark := max(in.Height()/6, 400)
	step := func(z drawing.Size) drawing.Unit { return drawing.Unit(z) * 14 / 10 }
	try := func(z drawing.Size, left drawing.Unit) (laidLabel, bool) {
		var lines []string
		for _, l := range words {
			lines = append(lines, drawing.Wrap(l, drawing.Regular, z, left)...)
		}
		for _, l := range lines {
			if drawing.Width(drawing.Regular, l, z) > left {
				return laidLabel{}, false
			}
		}
		return laidLabel{lines, z, step(z)}, mark+80+drawing.Unit(len(lines))*step(z)+60 <= in.Height()
	}
	for _, share := range []drawing.Unit{56, 62, 68} {
		left := in.Width() * share / 100
		for z := drawing.Head; z >= drawing.Note; z -= 10 {
			if got, ok := try(z, left); ok {
				return got, left
			}
		}
	}
	left := in.Width() * 62 / 100
	got := laidLabel{size: drawing.Small, step: step(drawing.Small)}
	for _, l := range words {
		got.lines = append(got.lines, shorten(l, drawing.Regular, drawing.Small, left))
	}
	return got, left
}

// crateOf says in which crate a piece travels.
func (b *book) crateOf(q *layout.Piece) string {
	for _, c := range b.l.Crates {
		for _, x := range c.Items {
			if x.Piece == q {
				return fmt.Sprintf("crate %d of %d", c.N, len(b.l.Crates))
			}
		}
	}
	return "no crate"
}
