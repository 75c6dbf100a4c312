package sheets

import (
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

// together composes as many of some things, in their order, as stand on one page of the
// job's own paper, at least one of them, and says how many it took.
func together[T any](b *book, items []T, on func([]T) (page, blocks.Spec, composing)) ([]page, int) {
	n := 1
	for n < len(items) {
		p, spec, k := on(items[:n+1])
		if leaves := b.leavesOf(p, spec, k); len(leaves) > 1 || leaves[0].Over || leaves[0].Paper.Name != "" {
			break
		}
		n++
	}
	p, spec, k := on(items[:n])
	return b.composed(p, spec, k), n
}

// composed are the pages of a subject. Words that found no room in their drawings stand
// under what is drawn, or on a last page of their own.
func (b *book) composed(first page, spec blocks.Spec, k composing) []page {
	leaves := b.leavesOf(first, spec, k)
	if first.id == "" {
		first.id = b.id(k.id...)
	}
	var out []page
	more := list{title: b.say.Say(words.SecondNotes, words.In("title", first.title))}
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
		var under []blocks.Note
		for y := leaf.Low + 150; len(notes) > 0; notes = notes[1:] {
			y += drawing.Unit(len(wrapped(notes[0].Words, room))) * drawing.Note.Line()
			if y > room.Max.Y {
				break
			}
			under = append(under, notes[0])
		}
		for _, n := range notes {
			more.items, more.names = append(more.items, n.Words), append(more.names, n.Fact)
		}
		p.draw = func(s *drawing.Scene, refer func(string) string) {
			if k.head != nil {
				k.head(s, drawing.Box(room.Min.X, room.Min.Y-k.over, room.Max.X, room.Min.Y), refer)
			}
			s.Add(marks...)
			y := leaf.Low + 150
			for _, n := range under {
				for _, line := range wrapped(n.Words, room) {
					s.Text(drawing.Pt(room.Min.X, y+drawing.Unit(drawing.Note)), line, drawing.Style{Fact: n.Fact})
					y += drawing.Note.Line()
				}
			}
			b.composedFoot(s, k, room)
		}
		if k.foot != nil && p.paper.broad() {
			p.foot = func(s *drawing.Scene, r drawing.Rect) { k.foot(s, r, marks) }
		}
		out = append(out, p)
	}
	if len(more.items) > 0 {
		for _, leaf := range b.leavesOf(first, blocks.Spec{Gap: between, Gutter: gutter, Columns: 15000,
			Flow: []blocks.Flow{flowing{"notes", more}}}, k) {
			p := next(first)
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
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// wrapped is a note in the width of a page.
func wrapped(words string, room drawing.Rect) []string {
	return drawing.Wrap(drawing.Letter(words), drawing.Regular, drawing.Note, room.Width())
}

// composedFoot draws what stands under a page.
func (b *book) composedFoot(s *drawing.Scene, k composing, room drawing.Rect) {
	if k.caution {
		b.cautionStrip(s, drawing.Box(room.Min.X, room.Max.Y+200, room.Max.X, room.Max.Y+200+cautionHigh))
	}
}
