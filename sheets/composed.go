package sheets

import (
	"slices"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/words"
)

// composing is what pages composed of blocks have besides.
type composing struct {
	// words of the id, where the page has none yet
	id      []string
	caution bool                                                              // with the strip of cautions
	over    drawing.Unit                                                      // kept above for head
	head    func(s *drawing.Scene, r drawing.Rect, refer func(string) string) // what stands there
	// in the strip, from what was drawn; nil: none
	foot func(s *drawing.Scene, r drawing.Rect, marks []drawing.Mark)
	// notes that found no room on the sheets before, and where to leave those of these for
	// the sheets after; nil: on a last page of their own
	carried []blocks.Note
	carry   *[]blocks.Note
}

// strip is what the cautions take under a page.
func (k composing) strip() drawing.Unit {
	if k.caution {
		return cautionHigh + 200
	}
	return 0
}

// leavesOf are the pages of a subject.
func (b *book) leavesOf(p page, spec blocks.Spec, k composing) []blocks.Leaf {
	papers := b.papers(p, k.strip())
	for i := range papers {
		papers[i].Room.Min.Y += k.over
	}
	return blocks.Compose(spec, papers)
}

// together takes as many of some things, in their order, as stand on one page of the
// job's own paper, at least the first of them, and gives the rest. What has no room lets
// some of those after it go before it.
func together[T any](b *book, items []T, on func([]T) (page, blocks.Spec, composing)) (took, rest []T) {
	took = items[:1:1]
	missed := 0
	for _, x := range items[1:] {
		if missed < mostBefore {
			p, spec, k := on(append(slices.Clone(took), x))
			if leaves := b.leavesOf(p, spec, k); len(leaves) == 1 && !leaves[0].Over && leaves[0].Paper.Name == "" {
				took = append(took, x)
				continue
			}
			missed++
		}
		rest = append(rest, x)
	}
	return took, rest
}

// mostBefore is how many things that have no room on a page let others go before them.
const mostBefore = 12

// composed are the pages of a subject. Words that found no room in their drawings stand
// under what is drawn, or on a last page of their own.
func (b *book) composed(first page, spec blocks.Spec, k composing) []page {
	leaves := b.leavesOf(first, spec, k)
	if first.id == "" {
		first.id = b.id(k.id...)
	}
	var out []page
	left := k.carried
	next := func(p page) page {
		if len(out) > 0 {
			p.id, p.title = b.id(first.id), b.say.Say(words.FrameContinued, words.In("title", first.title))
		}
		return p
	}
	for _, leaf := range leaves {
		p := next(first)
		for _, z := range larger(first.paper) {
			if z.String() == leaf.Paper.Name {
				p = p.printedOn(b.say, z)
			}
		}
		room := leaf.Paper.Room
		marks, notes := leaf.Draw(nil)
		under, own, rest := spared(leaf.Spare(150), notes, left)
		if left = rest; len(own) > 0 {
			title := blocks.Note{Words: b.say.Say(words.SecondNotes, words.In("title", p.title))}
			left = slices.Concat(left, []blocks.Note{title}, own)
		}
		p.draw = func(s *drawing.Scene, refer func(string) string) {
			if k.head != nil {
				k.head(s, drawing.Box(room.Min.X, room.Min.Y-k.over, room.Max.X, room.Min.Y), refer)
			}
			s.Add(marks...)
			for _, n := range under {
				s.Text(n.at, n.Words, drawing.Style{Fact: n.Fact})
			}
			b.composedFoot(s, k, room)
		}
		if k.foot != nil && p.paper.broad() {
			p.foot = func(s *drawing.Scene, r drawing.Rect) { k.foot(s, r, marks) }
		}
		out = append(out, p)
	}
	switch {
	case k.carry != nil:
		*k.carry = left
	case len(left) > 0:
		out = append(out, b.notesOn(next(first), left, k)...)
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// notesOn are pages of notes that found no room beside any drawing.
func (b *book) notesOn(p page, notes []blocks.Note, k composing) (out []page) {
	said := list{plain: true}
	for _, n := range notes {
		said.items, said.names = append(said.items, n.Words), append(said.names, n.Fact)
	}
	spec := blocks.Spec{Gap: between, Gutter: gutter, Columns: 15000, Flow: []blocks.Flow{flowing{"notes", said}}}
	for i, leaf := range b.leavesOf(p, spec, k) {
		if i > 0 {
			p.id = b.id(p.id)
		}
		marks, _ := leaf.Draw(nil)
		p.draw = func(s *drawing.Scene, _ func(string) string) {
			s.Add(marks...)
			b.composedFoot(s, k, leaf.Paper.Room)
		}
		if k.foot != nil && p.paper.broad() {
			p.foot = func(s *drawing.Scene, r drawing.Rect) { k.foot(s, r, nil) }
		}
		out = append(out, p)
	}
	return out
}

// noteLine is a line of a note in its place.
type noteLine struct {
	blocks.Note
	at drawing.Point
}

// spared lets notes stand in what a page leaves, one after the other, and gives those
// that find no room; then so notes of other sheets.
func spared(places []drawing.Rect, notes, others []blocks.Note) (under []noteLine, own, rest []blocks.Note) {
	var columns []drawing.Rect
	for _, r := range places {
		n := max(1, (r.Width()+gutter)/(noteWide+gutter))
		w := (r.Width() - gutter*(n-1)) / n
		for i := range n {
			x := r.Min.X + i*(w+gutter)
			columns = append(columns, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
		}
	}
	try := func(n blocks.Note, left *[]blocks.Note) {
		lines := stand(columns, n)
		if under = append(under, lines...); lines == nil {
			*left = append(*left, n)
		}
	}
	for _, n := range notes {
		try(n, &own)
	}
	for _, n := range others {
		try(n, &rest)
	}
	return under, own, rest
}

// stand lets a note stand in the first column that has room for it.
func stand(columns []drawing.Rect, n blocks.Note) (out []noteLine) {
	for i, r := range columns {
		lines := drawing.Wrap(drawing.Letter(n.Words), drawing.Regular, drawing.Note, r.Width())
		high := drawing.Unit(len(lines)) * drawing.Note.Line()
		if high > r.Height() || r.Width() < leastNote {
			continue
		}
		for k, line := range lines {
			y := r.Min.Y + drawing.Unit(drawing.Note) + drawing.Unit(k)*drawing.Note.Line()
			out = append(out, noteLine{blocks.Note{Words: line, Fact: n.Fact}, drawing.Pt(r.Min.X, y)})
		}
		columns[i].Min.Y += high
		return out
	}
	return nil
}

// Widths of notes: of a column of them, and the least that one stands in.
const (
	noteWide  drawing.Unit = 6500
	leastNote drawing.Unit = 5000
)

// composedFoot draws what stands under a page.
func (b *book) composedFoot(s *drawing.Scene, k composing, room drawing.Rect) {
	if k.caution {
		b.cautionStrip(s, drawing.Box(room.Min.X, room.Max.Y+200, room.Max.X, room.Max.Y+200+cautionHigh))
	}
}
