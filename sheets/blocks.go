package sheets

import (
	"slices"

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

// wholeOf is a table or a list as a block that stands whole, at one of some widths.
type wholeOf struct {
	key    string
	of     block
	widths []drawing.Unit
	laid   []laid // at each of the widths, once it was asked for
}

func (f *wholeOf) Key() string { return f.key }

// ways are how it stands at its widths.
func (f *wholeOf) ways() []laid {
	if f.laid == nil {
		for _, w := range f.widths {
			got, _ := f.of.take(w, tallest, true)
			f.laid = append(f.laid, got)
		}
	}
	return f.laid
}

func (f *wholeOf) Sizes(drawing.Unit) []blocks.Size {
	var out []blocks.Size
	for _, q := range f.ways() {
		out = append(out, blocks.Size{W: q.w, H: q.h})
	}
	return out
}

func (f *wholeOf) Draw(z blocks.Size) blocks.Drawn {
	for _, q := range f.ways() {
		if q.w == z.W && q.h == z.H {
			return flowing{}.head(q).Make()
		}
	}
	panic("sheets: " + f.key + " has no such size")
}

// fits says whether it stands whole in a room.
func (f *wholeOf) fits(w, h drawing.Unit) bool {
	return slices.ContainsFunc(f.ways(), func(q laid) bool { return q.w <= w && q.h <= h })
}

// retitled is a table or a list under another title.
func retitled(x block, name func(string) string) block {
	switch q := x.(type) {
	case table:
		q.title = name(q.title)
		return q
	case list:
		q.title = name(q.title)
		return q
	case either:
		return either{retitled(q.first, name), retitled(q.other, name)}
	case byWidth:
		return byWidth{q.least, retitled(q.narrow, name), retitled(q.wide, name)}
	}
	panic("sheets: what stands beside strips has no title")
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
