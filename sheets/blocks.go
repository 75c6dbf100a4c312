package sheets

import (
	"copingset/drawing"
	blocks "copingset/drawing/block"
)

// flowing is a table or a list as something that a composed sheet lets flow.
type flowing struct {
	key string
	of  block
}

func (f flowing) Key() string { return f.key }

func (f flowing) Split(w, h drawing.Unit, fresh bool) (blocks.Block, blocks.Flow) {
	got, rest := f.of.take(w, h, fresh)
	var head blocks.Block
	if got.draw != nil {
		head = f.head(got)
	}
	if rest == nil {
		return head, nil
	}
	return head, flowing{f.key, rest}
}

// head is what was taken.
func (f flowing) head(got laid) blocks.Fixed {
	return blocks.Fixed{ID: f.key, Size: blocks.Size{W: got.w, H: got.h}, Make: func() blocks.Drawn {
		var s drawing.Scene
		got.draw(&s, drawing.Point{})
		return blocks.Drawn{Marks: s.Marks}
	}}
}

// wholeOf is a table or a list as a block that stands whole at its width in a room.
type wholeOf struct {
	key string
	of  block
	w   drawing.Unit // the width it stands in; 0: that of the room
}

func (f wholeOf) Key() string { return f.key }

func (f wholeOf) Sizes(w drawing.Unit) []blocks.Size {
	if f.w > 0 {
		w = min(f.w, w)
	}
	got, _ := f.of.take(w, tallest, true)
	return []blocks.Size{{W: got.w, H: got.h}}
}

func (f wholeOf) Draw(z blocks.Size) blocks.Drawn {
	got, _ := f.of.take(z.W, tallest, true)
	return flowing{}.head(got).Make()
}

// either is the first of two forms that stands whole in a region, else the first.
type either struct{ first, other block }

func (e either) take(w, h drawing.Unit, fresh bool) (laid, block) {
	got, rest := e.first.take(w, h, fresh)
	if rest == nil && got.w <= w {
		return got, nil
	}
	if other, left := e.other.take(w, h, false); left == nil && other.draw != nil && other.h <= h && other.w <= w {
		return other, nil
	}
	if got.draw == nil {
		return got, e
	}
	return got, rest
}

// byWidth is one form in a width under its least, and another in a greater one.
type byWidth struct {
	least        drawing.Unit
	narrow, wide block
}

func (q byWidth) take(w, h drawing.Unit, fresh bool) (laid, block) {
	if w < q.least {
		return q.narrow.take(w, h, fresh)
	}
	return q.wide.take(w, h, fresh)
}

// turned is a table with its rows as columns, the first column as their heads.
func turned(t table) table {
	out := table{title: t.title, whole: t.whole, snug: t.snug, cols: []column{{head: t.cols[0].head, flex: true}}}
	for _, r := range t.rows {
		out.cols = append(out.cols, column{head: r[0], flex: true, align: drawing.Middle})
	}
	for k := 1; k < len(t.cols); k++ {
		row := []lettered{{words: t.cols[k].head}}
		for i, r := range t.rows {
			row = append(row, lettered{r[k], nth(nth(t.names, i), k)})
		}
		out.add(row...)
	}
	return out
}

// tallest is more than any paper.
const tallest drawing.Unit = 1 << 24

// papers are the page's paper and the larger ones of its series, as Compose tries them.
func (b *book) papers(p page, strip drawing.Unit) []blocks.Paper {
	room := func(q paper) drawing.Rect {
		r := q.room(p.banner != "")
		r.Max.Y -= strip
		return r
	}
	out := []blocks.Paper{{Room: room(p.paper)}}
	for _, z := range larger(p.paper) {
		out = append(out, blocks.Paper{Name: z.String(), Room: room(landscape(z))})
	}
	return out
}
