package sheets

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/words"
)

// block is something that flows into the regions of a page. take lays out as
// much of it as fits in w and h and returns the rest, nil when nothing is left.
// A laid with no draw means that nothing fits; in a fresh region a block must
// take something.
type block interface {
	take(w, h drawing.Unit, fresh bool) (laid, block)
}

// laid is a part of a block that has its size and can be drawn anywhere.
type laid struct {
	w, h drawing.Unit
	draw func(s *drawing.Scene, at drawing.Point)
}

// placed is a laid in its place on a page.
type placed struct {
	laid
	at drawing.Point
}

// between stands between two blocks of one region.
const between drawing.Unit = 550

// goingOn are the same blocks with the titles they have where they go on.
func (b *book) goingOn(blocks []block) []block {
	out := slices.Clone(blocks)
	again := func(title string) string { return b.say.Say(words.FrameContinued, words.In("title", title)) }
	for i, x := range out {
		switch x := x.(type) {
		case table:
			x.again = again(x.title)
			out[i] = x
		case list:
			x.again = again(x.title)
			out[i] = x
		case pair:
			x.left.again, x.right.again = again(x.left.title), again(x.right.title)
			out[i] = x
		}
	}
	return out
}

// flow lets blocks run through regions, and those that go on say so.
func (b *book) flow(blocks []block, regions func(n int) []drawing.Rect) [][]placed {
	return flow(b.goingOn(blocks), regions)
}

// flowOver is flow with pages that may have no region at all.
func (b *book) flowOver(blocks []block, regions func(n int) []drawing.Rect) [][]placed {
	return flowOver(b.goingOn(blocks), regions)
}

// flow lets blocks run through the regions of page after page, top down and
// region by region. regions gives those of page n, counted from 0.
func flow(blocks []block, regions func(n int) []drawing.Rect) [][]placed {
	var pages [][]placed
	var page []placed
	rs := regions(0)
	k, used := 0, drawing.Unit(0)
	next := func() {
		k, used = k+1, 0
		if k == len(rs) {
			pages = append(pages, page)
			page, rs, k = nil, regions(len(pages)), 0
		}
	}
	for _, b := range blocks {
		for b != nil {
			r := rs[k]
			top := used
			if top > 0 {
				top += between
			}
			got, rest := b.take(r.Width(), r.Height()-top, used == 0)
			if got.draw != nil {
				page = append(page, placed{got, drawing.Pt(r.Min.X, r.Min.Y+top)})
				used = top + got.h
			}
			if rest != nil || got.draw == nil {
				next()
			}
			b = rest
		}
	}
	if len(page) > 0 {
		pages = append(pages, page)
	}
	return pages
}

// columns cuts a rectangle into n equal columns.
func columns(r drawing.Rect, n int, gutter drawing.Unit) []drawing.Rect {
	w := (r.Width() - gutter*drawing.Unit(n-1)) / drawing.Unit(n)
	out := make([]drawing.Rect, 0, n)
	for i := range n {
		x := r.Min.X + drawing.Unit(i)*(w+gutter)
		out = append(out, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
	}
	return out
}

// picture is a view or a figure, taken whole.
type picture struct {
	scene  drawing.Scene
	prefix string // keeps ids of groups apart on one sheet
	centre bool
}

func (p picture) take(w, h drawing.Unit, fresh bool) (laid, block) {
	if p.scene.H > h && !fresh {
		return laid{}, p
	}
	shift := drawing.Unit(0)
	if p.centre && p.scene.W < w {
		shift = (w - p.scene.W) / 2
	}
	return laid{w: p.scene.W, h: p.scene.H, draw: func(s *drawing.Scene, at drawing.Point) {
		place(s, p.scene, drawing.Pt(at.X+shift, at.Y), p.prefix)
	}}, nil
}

// place draws a view on a sheet, its group ids under a prefix.
func place(s *drawing.Scene, view drawing.Scene, at drawing.Point, prefix string) {
	sub := view
	sub.Marks = drawing.Under(view.Marks, prefix)
	s.Place(sub, at)
}

// whole is anything drawn by a function in a height known beforehand.
type whole struct {
	h    func(w drawing.Unit) drawing.Unit
	draw func(s *drawing.Scene, box drawing.Rect)
}

func (q whole) take(w, h drawing.Unit, fresh bool) (laid, block) {
	need := q.h(w)
	if need > h && !fresh {
		return laid{}, q
	}
	return laid{w: w, h: need, draw: func(s *drawing.Scene, at drawing.Point) {
		q.draw(s, drawing.Box(at.X, at.Y, at.X+w, at.Y+need))
	}}, nil
}

// fixed is a whole of one height whatever its width.
func fixed(h drawing.Unit, draw func(s *drawing.Scene, box drawing.Rect)) whole {
	return whole{h: func(drawing.Unit) drawing.Unit { return h }, draw: draw}
}

// list is a title with paragraphs under it, numbered or marked by a dash. It
// breaks between paragraphs.
type list struct {
	title    string
	again    string // the title where it goes on
	items    []string
	names    []string // of the facts that each item letters; may be fewer
	about    string   // names of the facts that the title letters
	numbered bool
	plain    bool // neither numbers nor dashes
	size     drawing.Size
	from     int
	together bool // never broken where a fresh region could hold it
	tight    bool // paragraphs closer, where that saves a page of one or two
}

// say adds a paragraph, and the facts that it letters.
func (p *list) say(words, names string) {
	for len(p.names) < len(p.items) {
		p.names = append(p.names, "")
	}
	p.items, p.names = append(p.items, words), append(p.names, names)
}

const titleDrop drawing.Unit = 740 // from the top of a block to below its title

func (p list) take(w, h drawing.Unit, fresh bool) (laid, block) {
	got, rest := p.lay(w, h, fresh)
	if r, ok := rest.(list); ok && !p.tight && (got.draw == nil || len(p.items)-r.from <= fewRows) {
		p.tight = true
		if all, none := p.lay(w, h, fresh); none == nil {
			return all, nil
		}
	}
	return got, rest
}

// lay takes as many paragraphs as fit. A few are never left for a region of
// their own: some more go with them.
func (p list) lay(w, h drawing.Unit, fresh bool) (laid, block) {
	z := p.size
	if z == 0 {
		z = drawing.Note
	}
	indent := drawing.Unit(z) * 21 / 10
	if p.plain {
		indent = 0
	}
	gap := drawing.Unit(z) / 2
	if p.tight {
		gap = drawing.Unit(z) / 10
	}
	top := drawing.Unit(0)
	title := p.title
	if title != "" {
		if p.from > 0 {
			title = p.again
		}
		lines, z := titled(title, w)
		top = titleDrop + drawing.Unit(len(lines)-1)*z.Line()
	}
	type para struct {
		y     drawing.Unit
		n     int
		lines []string
	}
	var ps []para
	y := top
	k := p.from
	for ; k < len(p.items); k++ {
		lines := drawing.Wrap(prose(p.items[k]), drawing.Regular, z, w-indent)
		need := drawing.Unit(z) + drawing.Unit(len(lines)-1)*z.Line() + drawing.Unit(z)*4/10
		if y+need > h && !(fresh && len(ps) == 0) {
			break
		}
		ps = append(ps, para{y, k, lines})
		y += need + gap
	}
	if len(ps) == 0 || p.together && !fresh && k < len(p.items) {
		return laid{}, p
	}
	if left := len(p.items) - k; left > 0 && left < 3 { // the last do not stand alone
		if back := min(3-left, len(ps)-2); back > 0 {
			k, y, ps = k-back, ps[len(ps)-back].y, ps[:len(ps)-back]
		}
	}
	y -= gap
	got := laid{w: w, h: y, draw: func(s *drawing.Scene, at drawing.Point) {
		s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
			if title != "" {
				headingOf(g, at, w, title, p.about)
			}
			for _, q := range ps {
				st := drawing.Style{Size: z, Fact: nth(p.names, q.n)}
				base := at.Y + q.y + drawing.Unit(z)
				switch {
				case p.plain:
				case p.numbered:
					g.Text(drawing.Pt(at.X, base), itoa(q.n+1), drawing.Style{Size: z, Face: drawing.Bold})
				default:
					g.Text(drawing.Pt(at.X, base), "–", drawing.Style{Size: z})
				}
				for i, line := range q.lines {
					g.Text(drawing.Pt(at.X+indent, base+drawing.Unit(i)*z.Line()), line, st)
				}
			}
		})
	}}
	if k == len(p.items) {
		return got, nil
	}
	p.from = k
	return got, p
}

// heading letters the title of a block with a rule under it.
func heading(s *drawing.Scene, at drawing.Point, w drawing.Unit, title string) {
	headingOf(s, at, w, title, "")
}

// headingOf is a heading that letters facts.
func headingOf(s *drawing.Scene, at drawing.Point, w drawing.Unit, title, names string) {
	lines, z := titled(title, w)
	y := at.Y + 410
	for i, line := range lines {
		y = at.Y + 410 + drawing.Unit(i)*z.Line()
		s.Text(drawing.Pt(at.X, y), line, drawing.Style{Size: z, Face: drawing.Bold, Fact: names})
	}
	s.Line(drawing.Medium, drawing.Pt(at.X, y+160), drawing.Pt(at.X+w, y+160))
}

// flowOver is flow with pages that may have no region at all.
func flowOver(blocks []block, regions func(n int) []drawing.Rect) [][]placed {
	var index []int // page of each page that has regions
	n := 0
	some := func(k int) []drawing.Rect {
		for {
			rs := regions(n)
			n++
			if len(rs) > 0 {
				index = append(index, n-1)
				return rs
			}
		}
	}
	var out [][]placed
	for i, p := range flow(blocks, some) {
		for len(out) <= index[i] {
			out = append(out, nil)
		}
		out[index[i]] = p
	}
	return out
}

// pair is two small tables next to each other where both fit in the width, or
// one under the other.
type pair struct{ left, right table }

func (p pair) take(w, h drawing.Unit, fresh bool) (laid, block) {
	wl, wr := p.left.width(), p.right.width()
	if wl+gutter+wr <= w {
		a, more := p.left.take(wl, h, fresh)
		z, further := p.right.take(wr, h, fresh)
		if a.draw == nil || z.draw == nil {
			return laid{}, p
		}
		if more == nil && further == nil {
			return laid{w: wl + gutter + wr, h: max(a.h, z.h), draw: func(s *drawing.Scene, at drawing.Point) {
				a.draw(s, at)
				z.draw(s, drawing.Pt(at.X+wl+gutter, at.Y))
			}}, nil
		}
	}
	got, rest := p.left.take(w, h, fresh)
	switch t, ok := rest.(table); {
	case rest == nil:
		return got, p.right
	case ok:
		return got, pair{t, p.right}
	}
	return got, rest
}

// titled wraps a title to a width, in one line where it can be large enough to
// stand out, and never cut.
func titled(title string, w drawing.Unit) ([]string, drawing.Size) {
	z := headingSize(title, w)
	if z > drawing.Note {
		return []string{title}, z
	}
	return drawing.Wrap(title, drawing.Bold, drawing.Note+50, w), drawing.Note + 50
}

// headingSize is how large a title can be in a width.
func headingSize(title string, w drawing.Unit) drawing.Size {
	z := drawing.Head
	for z > drawing.Small && drawing.Width(drawing.Bold, title, z) > w {
		z -= 10
	}
	return z
}
