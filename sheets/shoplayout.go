package sheets

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// A sheet of the shop has the hand across its top, the patterns under it at
// the left, and its tables beside and under the patterns. compose takes the
// largest usual scale at which all of it stands on one sheet; where no scale
// that can be read does, the tables that are left go on a second.

// shopGap stands between two blocks of such a sheet.
const shopGap drawing.Unit = 400

// shopCase is one way to lay a group out.
type shopCase struct {
	rows  []view.FlatRow
	side  drawing.Unit // least room beside the patterns
	full  bool         // what stands under the patterns takes the whole width
	under bool         // tables stand under the patterns first
	back  bool         // the last table takes its place first
}

// composer lays out the sheets of one group.
type composer struct {
	b      *book
	top    func(refer func(string) string) whole
	bodies []plan.Pattern
	tables []block
	high   map[atWidth]laid // look-up only: tables already measured
}

type atWidth struct {
	n int
	w drawing.Unit
}

// compose makes the pages of a group. twin is the id of the sheet of its mirror
// image, if there is one.
func (b *book) compose(
	p page,
	top func(phrase string) whole,
	twin string,
	bodies []plan.Pattern,
	tables []block,
) []page {
	c := composer{b: b, bodies: bodies, tables: tables, high: map[atWidth]laid{}}
	c.top = func(refer func(string) string) whole {
		if twin == "" {
			return top("")
		}
		return top(refer(twin))
	}
	papers := []page{p}
	for _, z := range larger(p.paper) {
		papers = append(papers, p.printedOn(b.say, z))
	}
	for _, q := range papers {
		if leaves := c.best(q.paper.room(q.banner != "")); leaves != nil {
			return c.pages(q, leaves)
		}
	}
	room := p.paper.room(p.banner != "")
	body := c.below(room)
	var rows []view.FlatRow
	for _, x := range bodies {
		rows = append(rows, view.SmallFlatRow(c.b.say, p.id, c.title(), []plan.Pattern{x}, body.Width(), body.Height()))
	}
	return c.pages(p, c.lay(room, shopCase{rows: rows}))
}

func (c *composer) title() string {
	if len(c.bodies) > 1 {
		return c.b.say.Say(words.ShopPatterns)
	}
	return c.b.say.Say(words.ShopPattern)
}

// below is the room under the sentence of the hand.
func (c *composer) below(room drawing.Rect) drawing.Rect {
	room.Min.Y += c.top(noSheet).h(room.Width()) + shopGap
	return room
}

// noSheet stands for the number of a sheet where only the room it takes
// matters.
func noSheet(string) string { return "0000" }

// best is the layout with the fewest sheets, of those the one with the largest
// scale; nothing where no scale can be read.
func (c *composer) best(room drawing.Rect) [][]placed {
	body := c.below(room)
	var sides []drawing.Unit
	for part := drawing.Unit(39); part >= 18 && room.Width() >= 35000; part -= 3 {
		sides = append(sides, body.Width()*part/100)
	}
	sides = append(sides, 0)
	var found [][]placed
	var chosen shopCase
	split := 0
	for _, sc := range view.Scales(c.b.metric) {
		if sc.Ratio < 2 {
			continue
		}
		for _, side := range sides {
			w := body.Width() - side
			if side > 0 {
				w -= gutter
			}
			rows, ok := c.rows(sc, w)
			if !ok || rows[0].H > body.Height() {
				continue
			}
			if !slices.ContainsFunc(rows, func(r view.FlatRow) bool { return r.Readable() }) {
				continue
			}
			for _, try := range []shopCase{{full: true}, {}, {full: true, under: true}, {under: true},
				{full: true, back: true}, {back: true}, {full: true, under: true, back: true},
				{under: true, back: true}} {
				try.rows, try.side = rows, side
				got := c.lay(room, try)
				if len(got) == 1 && grown(rows) {
					got = c.lay(room, try)
				}
				if len(got) == 1 && rows[0].H <= body.Height() {
					return got
				}
				if found == nil || len(got) < len(found) || len(got) == len(found) && len(rows) < split {
					found, chosen, split = got, try, len(rows)
				}
			}
		}
	}
	if found != nil && grown(chosen.rows) {
		found = c.lay(room, chosen)
	}
	return found
}

// grown gives rows the height that they are drawn with, where words that found no
// place on them stand under them, and reports whether it is more than was planned.
// Only a layout that would be taken is drawn for it.
func grown(rows []view.FlatRow) bool {
	more := false
	for i := range rows {
		if h := rows[i].Draw().H; h > rows[i].H {
			rows[i].H, more = h, true
		}
	}
	return more
}

// rows are the patterns at a scale, as many in a row as there is room for.
// Bodies of one piece stand in one row or each by itself.
func (c *composer) rows(sc view.Scale, w drawing.Unit) ([]view.FlatRow, bool) {
	var out []view.FlatRow
	for k := 0; k < len(c.bodies); {
		var row view.FlatRow
		n := 0
		for ; k+n < len(c.bodies); n++ {
			r, ok := view.NewFlatRow(c.b.say, "row "+itoa(len(out)+1), c.title(), c.bodies[k:k+n+1], sc, w)
			if !ok {
				break
			}
			row = r
		}
		if n == 0 {
			return nil, false
		}
		out = append(out, row)
		k += n
	}
	return out, true
}

// lay places a group's matter: patterns at the left, the tables where they fit
// first.
func (c *composer) lay(room drawing.Rect, k shopCase) [][]placed {
	body := c.below(room)
	var leaf []placed
	y := body.Min.Y
	var wide drawing.Unit
	n := 0
	for ; n < len(k.rows); n++ {
		r := k.rows[n]
		if n > 0 && y+r.H > body.Max.Y {
			break
		}
		leaf = append(leaf, c.pattern(r, drawing.Pt(body.Min.X, y), n))
		y += r.H + shopGap
		wide = max(wide, r.W)
	}
	side := drawing.Box(body.Max.X, body.Min.Y, body.Max.X, body.Max.Y)
	under := drawing.Box(body.Min.X, y, body.Max.X, body.Max.Y)
	side.Min.X = min(body.Max.X-k.side, body.Min.X+wide+gutter)
	if k.full || k.side == 0 {
		side.Max.Y = y - shopGap
	} else {
		under.Max.X = side.Min.X - gutter
	}
	bands := []*band{{room: side}, {room: under, flat: true}}
	var rest []block
	order := make([]int, len(c.tables))
	for i := range order {
		order[i] = i
	}
	if k.back {
		slices.Reverse(order[1:])
	}
	for _, i := range order {
		x := c.tables[i]
		into := bands
		if k.under && i > 0 {
			into = []*band{bands[1], bands[0]}
		}
		done := false
		for _, q := range into {
			if got, ok := c.put(q, i); ok {
				leaf = append(leaf, got)
				done = true
				break
			}
		}
		if !done {
			rest = append(rest, x)
		}
	}
	out := [][]placed{leaf}
	if n == len(k.rows) && len(rest) == 0 {
		return out
	}
	// What is left stands on sheets of its own, patterns first.
	var more []block
	for i, r := range k.rows[n:] {
		more = append(
			more,
			whole{h: func(drawing.Unit) drawing.Unit { return r.H }, draw: func(s *drawing.Scene, box drawing.Rect) {
				x := c.pattern(r, box.Min, n+i)
				x.draw(s, x.at)
			}},
		)
	}
	more = append(more, rest...)
	cols := 1
	if room.Width() >= 35000 && n == len(k.rows) {
		cols = 2
	}
	return append(out, c.b.flow(more, func(int) []drawing.Rect { return columns(room, cols, gutter) })...)
}

// pattern is a row of patterns in its place.
func (c *composer) pattern(r view.FlatRow, at drawing.Point, n int) placed {
	return placed{laid{w: r.W, h: r.H, draw: func(s *drawing.Scene, at drawing.Point) {
		place(s, r.Draw(), at, "flat"+itoa(n))
	}}, at}
}

// band is a part of a sheet that is filled from above, or from the left.
type band struct {
	room  drawing.Rect
	flat  bool
	used  drawing.Unit // of an upright band
	piles []pile       // of a flat one, from the left
}

// pile is what stands one under the other in a flat band.
type pile struct {
	x, w, y drawing.Unit
}

// put places a table in a band if there is room for all of it.
func (c *composer) put(q *band, i int) (placed, bool) {
	r := q.room
	if r.Width() < 4000 || r.Height() < 1000 {
		return placed{}, false
	}
	if !q.flat {
		top := q.used
		if top > 0 {
			top += shopGap
		}
		got, ok := c.measured(i, r.Width())
		if !ok || top+got.h > r.Height() {
			return placed{}, false
		}
		q.used = top + got.h
		return placed{got, drawing.Pt(r.Min.X, r.Min.Y+top)}, true
	}
	for k := range q.piles {
		p := &q.piles[k]
		if got, ok := c.measured(i, p.w); ok && p.y+shopGap+got.h <= r.Height() {
			at := drawing.Pt(r.Min.X+p.x, r.Min.Y+p.y+shopGap)
			p.y += shopGap + got.h
			return placed{got, at}, true
		}
	}
	x := drawing.Unit(0)
	if n := len(q.piles); n > 0 {
		x = q.piles[n-1].x + q.piles[n-1].w + gutter
	}
	const step = 500
	for w := drawing.Unit(5000); x+w <= r.Width(); w += step {
		if got, ok := c.measured(i, w); ok && got.h <= r.Height() {
			q.piles = append(q.piles, pile{x, got.w, got.h})
			return placed{got, drawing.Pt(r.Min.X+x, r.Min.Y)}, true
		}
	}
	return placed{}, false
}

// measured is a table laid out whole in a width, where that is wide enough.
func (c *composer) measured(i int, w drawing.Unit) (laid, bool) {
	at := atWidth{i, w}
	got, ok := c.high[at]
	if !ok {
		const endless = 1 << 20
		var rest block
		got, rest = c.tables[i].take(w, endless, true)
		if rest != nil || got.draw == nil {
			got.w = endless
		}
		c.high[at] = got
	}
	return got, got.w <= w
}

// pages are the sheets of a layout.
func (c *composer) pages(p page, leaves [][]placed) []page {
	room := p.paper.room(p.banner != "")
	var out []page
	for i, leaf := range leaves {
		q := p
		if i > 0 {
			q.id = c.b.id(p.id)
			q.title = c.b.say.Say(words.FrameContinued, words.In("title", p.title))
		}
		q.draw = func(s *drawing.Scene, refer func(string) string) {
			if i == 0 {
				top := c.top(refer)
				top.draw(s, drawing.Box(room.Min.X, room.Min.Y, room.Max.X, room.Min.Y+c.top(noSheet).h(room.Width())))
			}
			for _, x := range leaf {
				x.draw(s, x.at)
			}
		}
		out = append(out, q)
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

// shelf is small tables next to each other, broken so that they end level.
type shelf struct {
	tables []table
	wide   drawing.Unit // of one column
}

// shelfOf puts tables of a kind on a shelf.
func shelfOf(tables []table) shelf {
	q := shelf{tables: tables}
	for i := range tables {
		q.wide = max(q.wide, tables[i].width())
	}
	return q
}

func (q shelf) take(w, h drawing.Unit, fresh bool) (laid, block) {
	n := max(1, int((w+shopGap)/(q.wide+shopGap)))
	rows := 0
	for i := range q.tables {
		rows = max(rows, len(q.tables[i].rows))
	}
	least := 1 // the fewest rows in a column at which all stand next to each other
	for least < rows && len(q.parts(least)) > n {
		least++
	}
	var all []placed
	var x, y, row, most drawing.Unit
	for k, t := range q.parts(least) {
		if k > 0 && k%n == 0 { // more tables than columns stand in several rows
			x, y, row = 0, y+row+shopGap, 0
		}
		const endless = 1 << 20
		got, _ := t.take(q.wide, endless, true)
		all = append(all, placed{got, drawing.Pt(x, y)})
		most = max(most, x+got.w)
		row = max(row, got.h)
		x += q.wide + shopGap
	}
	y += row
	if y > h && !fresh {
		return laid{}, q
	}
	return laid{w: most, h: y, draw: func(s *drawing.Scene, at drawing.Point) {
		for _, p := range all {
			p.draw(s, at.Add(p.at))
		}
	}}, nil
}

// parts breaks every table into parts of no more than some rows, all of about
// one length.
func (q shelf) parts(most int) []table {
	var out []table
	for _, t := range q.tables {
		n := (len(t.rows) + most - 1) / most
		from := 0
		for k := range n {
			to := (len(t.rows)*(k+1) + n - 1) / n
			part := t
			part.rows = t.rows[from:to]
			part.names = t.names[min(from, len(t.names)):min(to, len(t.names))]
			if k > 0 {
				part.title = t.again
			}
			out = append(out, part)
			from = to
		}
	}
	return out
}
