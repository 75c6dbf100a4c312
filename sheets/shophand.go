package sheets

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
)

// handCheck is all handed families, to be gone through with the drawings
// before the first bend: twins next to each other, straight pieces in a table.
func (b *book) handCheck() []page {
	p := page{
		id:    b.id("hand-check"),
		title: b.say.Say(words.HandCheckTitle),
		kind:  HandCheck,
		paper: b.lists,
		about: b.say.Say(words.HandCheckAbout),
	}
	blocks := []block{list{title: b.say.Say(words.HandTitle), items: []string{b.say.Say(words.HandHow)}, plain: true}}
	var single, cut, none []*layout.Family
	done := map[*layout.Family]bool{} // look-up only
	for _, f := range b.l.Families {
		switch {
		case done[f] || len(f.Bodies) == 0:
		case !handed(f):
			none = append(none, f)
		case trimmed(f):
			cut = append(cut, f)
		case f.Twin != nil && len(f.Twin.Bodies) > 0:
			done[f.Twin] = true
			blocks = append(blocks, b.handRow(f, f.Twin))
		default:
			single = append(single, f)
		}
		done[f] = true
	}
	for pair := range slices.Chunk(single, 2) {
		blocks = append(blocks, b.handRow(pair...))
	}
	if len(cut) > 0 {
		blocks = append(blocks, b.cutEnds(cut))
	}
	if len(blocks) == 1 {
		return nil
	}
	if len(none) > 0 {
		var marks []string
		for _, f := range none {
			marks = append(marks, f.Mark)
		}
		blocks = append(
			blocks,
			list{items: []string{b.say.Say(words.HandNone, words.In("marks", strings.Join(marks, ", ")))}, plain: true},
		)
	}
	return b.pages(p, blocks, across)
}

// handed reports whether left and right can be taken for each other in a
// family.
func handed(f *layout.Family) bool { return layout.Handed(f) }

// trimmed reports whether a family is straight pieces without holes, whose hand
// is the end that is cut on the roof.
func trimmed(f *layout.Family) bool {
	return layout.Straight(f) && len(f.Bodies) == 1 && len(f.Bodies[0].Holes) == 0
}

// cutEnds are the straight pieces of which one end is cut on the roof.
func (b *book) cutEnds(all []*layout.Family) table {
	t := table{
		title: b.say.Say(words.HandTrimmed),
		fill:  true,
		snug:  true,
		cols: []column{
			b.col(words.ColShopMark), b.col(words.ColEndCut), b.flex(words.ColPieces), b.col(words.ColTwin),
			{head: b.say.Say(words.ColChecked), align: drawing.Middle},
		},
	}
	for _, f := range all {
		end := b.say.Say(words.HandLeft)
		if b.l.Made(f.Pieces[0]).CutAt == "right" {
			end = b.say.Say(words.HandRight)
		}
		pieces := strings.Join(b.pieceMarks(f, true), ", ")
		if no := b.pieceMarks(f, false); len(no) > 0 {
			held := b.say.Say(words.ShopDoNotCut, words.In("marks", strings.Join(no, ", ")))
			pieces = strings.TrimPrefix(pieces+"; "+held, "; ")
		}
		twin := "–"
		if f.Twin != nil {
			twin = f.Twin.Mark
		}
		t.rows = append(t.rows, []string{f.Mark, end, pieces, twin, tickBox})
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// handRow is one or two families of the hand check next to each other, in one
// frame if they are twins.
func (b *book) handRow(of ...*layout.Family) whole {
	const least drawing.Unit = 2900
	cells := func(w drawing.Unit) []drawing.Rect { return columns(drawing.Box(0, 0, w, 0), 2, 0) }
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			h := least
			for i, f := range of {
				_, _, high := b.handWords(f, cells(w)[i].Width())
				h = max(h, high)
			}
			return h
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			twins := len(of) == 2 && of[0].Twin == of[1]
			for i, f := range of {
				c := cells(r.Width())[i]
				box := drawing.Box(r.Min.X+c.Min.X, r.Min.Y, r.Min.X+c.Max.X, r.Max.Y)
				if !twins {
					s.Rect(drawing.Medium, box)
				}
				b.handCell(s, box, f)
			}
			if twins {
				x := (r.Min.X + r.Max.X) / 2
				s.Line(drawing.Thin, drawing.Pt(x, r.Min.Y), drawing.Pt(x, r.Max.Y))
				s.Rect(drawing.Thick, r)
			}
		},
	}
}

// handPicture is the width of a picture of the hand check.
const handPicture drawing.Unit = 3000

// handWords are the lines of a family in a cell of the hand check, and how high
// they make it.
func (b *book) handWords(f *layout.Family, w drawing.Unit) (sentence, rest []string, high drawing.Unit) {
	w -= handPicture + 400
	what := b.say.Say(words.HandMake, words.In("quantity", b.quantity(f)))
	twin := b.say.Say(words.HandNoTwin)
	if f.Twin != nil {
		twin = b.say.Say(words.HandTwin, words.In("mark", f.Twin.Mark))
	}
	sentence = drawing.Wrap(b.hand(f), drawing.Bold, drawing.Note, w)
	rest = append(
		drawing.Wrap(what, drawing.Regular, drawing.Note, w),
		b.say.Say(words.HandChecked, words.In("twin", twin)),
	)
	return sentence, rest, 720 + drawing.Unit(len(sentence)+len(rest))*drawing.Note.Line() + 150
}

// handCell draws a family of the hand check.
func (b *book) handCell(s *drawing.Scene, r drawing.Rect, f *layout.Family) {
	place(
		s,
		view.FormedTop(b.say, b.formedOf(f), handPicture-200, min(r.Height()-200, 4200)),
		drawing.Pt(r.Min.X+100, r.Min.Y+100),
		slug("hand-"+f.Mark),
	)
	x, y := r.Min.X+handPicture+150, r.Min.Y+620
	s.Text(
		drawing.Pt(x, y),
		shorten(f.Mark+"  "+b.kindName(f.Pieces[0]), drawing.Bold, drawing.Head, r.Max.X-x-100),
		drawing.Style{Size: drawing.Head, Face: drawing.Bold},
	)
	sentence, rest, _ := b.handWords(f, r.Width())
	y += 130
	for _, l := range sentence {
		y += drawing.Note.Line()
		s.Text(drawing.Pt(x, y), l,
			drawing.Style{Face: drawing.Bold, Fact: factsOf(layout.FactOfFamily(f), "hand-sentence")})
	}
	for _, l := range rest {
		y += drawing.Note.Line()
		s.Text(drawing.Pt(x, y), l, drawing.Style{Fact: factsOf(layout.FactOfFamily(f), "released", "pieces")})
	}
	from := x + drawing.Width(drawing.Regular, rest[len(rest)-1], drawing.Note) + 100
	s.Line(drawing.Thin, drawing.Pt(from, y+40), drawing.Pt(r.Max.X-150, y+40))
}
