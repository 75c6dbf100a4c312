package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
)

// column of a table. A flex column gives way first: its words wrap.
type column struct {
	head  string
	align drawing.Align
	flex  bool
	least drawing.Unit // room for what is written in by hand
	fact  string       // that its head letters
}

// tickBox in a cell is drawn as a box to tick; the faces have no glyph for it.
const tickBox = "\u2610"

// table is a composite of rows that are never split. The heading is repeated
// where it breaks. Rules, not tones, guide the eye: they survive copying.
type table struct {
	title string
	again string // the title where it goes on
	about string // names of the facts that the title letters
	cols  []column
	rows  [][]string
	names [][]string // of the facts that each cell letters; rows and cells may be fewer
	links []string   // the sheet each row leads to; may be shorter
	bold  func(row, col int) bool
	ends  func(row int) bool                // a group of rows ends with this one: the line under it is heavier
	fill  bool                              // stretch flex columns to the full width
	high  drawing.Unit                      // least height of a row
	whole bool                              // not broken where a fresh region could hold it
	tail  func(w drawing.Unit) drawing.Unit // height of what has to stand under the last rows on one page; nil: nothing
	tight bool                              // rows closer, where that saves a page of one or two
	loose bool                              // never tight, even so
	snug  bool                              // rows closer still, where many tables share a sheet
	from  int
}

const (
	cellSide drawing.Unit = 110  // beside the words of a cell
	cellTop  drawing.Unit = 150  // above them
	longWord drawing.Unit = 3000 // a column as wide as this breaks its words before a table leaves the sheet
	tightBy  drawing.Unit = 50   // less above and below, in a tight table
	snugBy   drawing.Unit = 75   // and in a snug one
	fewRows               = 4    // that a page of its own is not opened for less
)

// top is the space above the words of a cell; the same stands below them.
func (t *table) top() drawing.Unit {
	switch {
	case t.snug:
		return cellTop - snugBy
	case t.tight:
		return cellTop - tightBy
	}
	return cellTop
}

// natural is the width at which nothing wraps; narrow is the least.
func (t *table) natural(i int) (natural, narrow drawing.Unit) {
	c := t.cols[i]
	narrow = headWidth(c.head)
	natural = narrow
	for _, r := range t.rows {
		if r[i] == tickBox {
			natural = max(natural, 420)
			narrow = max(narrow, 420)
			continue
		}
		for _, line := range strings.Split(r[i], "\n") {
			natural = max(natural, drawing.Width(drawing.Bold, line, drawing.Note))
			for _, word := range strings.Fields(line) {
				narrow = max(narrow, drawing.Width(drawing.Bold, word, drawing.Note))
			}
		}
	}
	natural, narrow = max(natural, c.least), max(narrow, c.least)
	if !c.flex {
		narrow = natural
	}
	return natural + 2*cellSide, narrow + 2*cellSide
}

// least is the width of the longest word of a column, heading and cells, at
// which nothing is cut.
func (t *table) least(i int) drawing.Unit {
	most := t.cols[i].least
	for k, words := range append([][]string{strings.Fields(t.cols[i].head)}, t.words(i)...) {
		f := drawing.Regular
		if k == 0 || t.bold != nil {
			f = drawing.Bold
		}
		for _, word := range words {
			if word == tickBox {
				most = max(most, 420)
				continue
			}
			most = max(most, drawing.Width(f, word, drawing.Note))
		}
	}
	return most + 2*cellSide
}

// words are those of each cell of a column.
func (t *table) words(i int) [][]string {
	var out [][]string
	for _, r := range t.rows {
		out = append(out, strings.FieldsFunc(r[i], func(c rune) bool { return c == ' ' || c == '\n' }))
	}
	return out
}

// headWidth is the least width at which a heading stands in two lines.
func headWidth(head string) drawing.Unit {
	words := strings.Fields(head)
	best := drawing.Width(drawing.Bold, head, drawing.Note)
	for k := 1; k < len(words); k++ {
		a := drawing.Width(drawing.Bold, strings.Join(words[:k], " "), drawing.Note)
		z := drawing.Width(drawing.Bold, strings.Join(words[k:], " "), drawing.Note)
		best = min(best, max(a, z))
	}
	return best
}

// width is the table's width when nothing wraps.
func (t *table) width() drawing.Unit {
	var w drawing.Unit
	for i := range t.cols {
		n, _ := t.natural(i)
		w += n
	}
	return w
}

// byColumns divides a table by its columns into tables no wider than most, each with the
// first column; one column more than that is the least.
func (t table) byColumns(most drawing.Unit) []table {
	lead, _ := t.natural(0)
	var out []table
	for from := 1; from < len(t.cols); {
		to, w := from, lead
		for ; to < len(t.cols); to++ {
			n, _ := t.natural(to)
			if to > from && w+n > most {
				break
			}
			w += n
		}
		part := t
		part.cols = append([]column{t.cols[0]}, t.cols[from:to]...)
		part.rows, part.names = nil, nil
		for i, r := range t.rows {
			part.rows = append(part.rows, append([]string{r[0]}, r[from:to]...))
			names := make([]string, 1, 1+to-from)
			for k := from; k < to; k++ {
				names = append(names, nth(nth(t.names, i), k))
			}
			part.names = append(part.names, names)
		}
		out = append(out, part)
		from = to
	}
	return out
}

// widths shares w among the columns.
func (t *table) widths(w drawing.Unit) []drawing.Unit {
	n := len(t.cols)
	out := make([]drawing.Unit, n)
	low := make([]drawing.Unit, n)
	var sum, give, flex drawing.Unit
	for i := range t.cols {
		out[i], low[i] = t.natural(i)
		sum += out[i]
		give += out[i] - low[i]
		if t.cols[i].flex {
			flex++
		}
	}
	if sum-w > give { // no flex column has enough to give: every column wraps at its words
		for i := range t.cols {
			n := t.least(i)
			give += low[i] - n
			low[i] = n
		}
	}
	if sum-w > give { // words longer than the sheet has room for have to break
		for i := range t.cols {
			n := min(low[i], longWord)
			give += low[i] - n
			low[i] = n
		}
	}
	switch over := sum - w; {
	case over > 0 && give > 0:
		// The widest give way first: a column of sentences wraps before one of short words does.
		level := func(i int, most drawing.Unit) drawing.Unit { return max(low[i], min(out[i], most)) }
		lo, hi := drawing.Unit(0), sum
		for lo < hi {
			mid := (lo + hi + 1) / 2
			var all drawing.Unit
			for i := range out {
				all += level(i, mid)
			}
			if all <= w {
				lo = mid
			} else {
				hi = mid - 1
			}
		}
		for i := range out {
			out[i] = level(i, lo)
		}
	case over < 0 && t.fill && flex > 0:
		share := -over / flex
		for i := range out {
			if t.cols[i].flex {
				out[i] += share
			}
		}
	}
	return out
}

// cells wraps the words of a row.
func (t *table) cells(row []string, ws []drawing.Unit, f drawing.Face) (lines [][]string, h drawing.Unit) {
	most := 1
	for i, words := range row {
		var l []string
		if words != tickBox {
			l = drawing.Wrap(words, f, drawing.Note, ws[i]-2*cellSide)
		}
		lines = append(lines, l)
		most = max(most, len(l))
	}
	high := t.high
	if t.tight {
		high = high * 8 / 10
	}
	return lines, max(high, 2*t.top()+drawing.Unit(drawing.Note)+drawing.Unit(most-1)*rowLine)
}

// rowLine is the step between lines of one cell, closer than between rows.
const rowLine drawing.Unit = 460

func (t table) take(w, h drawing.Unit, fresh bool) (laid, block) {
	got, rest := t.lay(w, h, fresh)
	if rest == nil || t.tight || t.loose || t.snug {
		return got, rest
	}
	if r, ok := rest.(table); ok && got.draw != nil && len(t.rows)-r.from <= fewRows {
		t.tight = true
		if all, none := t.lay(w, h, fresh); none == nil {
			return all, nil
		}
	}
	return got, rest
}

// lay takes as many rows as fit. A few rows are never left for a page of their
// own: some more go with them.
func (t table) lay(w, h drawing.Unit, fresh bool) (laid, block) {
	ws := t.widths(w)
	var full drawing.Unit
	for _, c := range ws {
		full += c
	}
	title := t.title
	if title != "" && t.from > 0 {
		title = t.again
	}
	titleLines, titleSize := titled(title, max(w, full))
	top := drawing.Unit(0)
	if title != "" {
		top = titleDrop - 120 + drawing.Unit(len(titleLines)-1)*titleSize.Line()
	}
	heads := make([]string, len(t.cols))
	hasHead := false
	for i, c := range t.cols {
		heads[i] = c.head
		hasHead = hasHead || c.head != ""
	}
	headLines, headH := t.cells(heads, ws, drawing.Bold)
	if !hasHead {
		headH = 0
	}
	var rows []laidRow
	y := top + headH
	k := t.from
	for ; k < len(t.rows); k++ {
		f := drawing.Regular
		if t.bold != nil {
			f = drawing.Bold // wide enough for either
		}
		lines, rh := t.cells(t.rows[k], ws, f)
		if y+rh > h && !(fresh && len(rows) == 0) {
			break
		}
		rows = append(rows, laidRow{y, rh, k, lines})
		y += rh
	}
	tail := drawing.Unit(0)
	if t.tail != nil {
		tail = between + t.tail(w)
	}
	back := handedOn(len(rows), len(t.rows)-k, tail > 0 && y+tail > h)
	if back > 0 {
		k, rows = k-back, rows[:len(rows)-back]
		y = rows[len(rows)-1].y + rows[len(rows)-1].h
	}
	left := len(t.rows) - k
	// One row alone under a heading, with the rest elsewhere, reads badly.
	if len(rows) == 0 && (len(t.rows) > 0 || y > h && !fresh) || !fresh && left > 0 && (t.whole || len(rows) < 2) {
		return laid{}, t
	}
	p := laidTable{
		title:     titleLines,
		size:      titleSize,
		top:       top,
		heads:     heads,
		headLines: headLines,
		headH:     headH,
		ws:        ws,
		full:      full,
		h:         y,
		rows:      rows,
		last:      k - 1,
	}
	if title == "" {
		p.title = nil
	}
	got := laid{w: p.wide(), h: y, draw: func(s *drawing.Scene, at drawing.Point) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) { t.paint(g, at, p) })
	}}
	if left == 0 {
		return got, nil
	}
	t.from = k
	return got, t
}

// handedOn is how many of the rows on a page go along to the next one, so that few are
// not left there alone, or the table's tail without any.
func handedOn(rows, left int, tailOver bool) int {
	switch {
	case left == 0 && tailOver && rows < 4:
		return rows - 1
	case left == 0 && tailOver:
		return min(fewRows, rows-2)
	case left > 0 && left < fewRows:
		return min(fewRows-left, rows-2)
	}
	return 0
}

// laidRow is a row of a table where it stands.
type laidRow struct {
	y, h  drawing.Unit
	n     int
	lines [][]string
}

// laidTable is as much of a table as stands on one page.
type laidTable struct {
	title     []string // its lines; none: it has none
	size      drawing.Size
	top       drawing.Unit // of its headings
	heads     []string
	headLines [][]string
	headH     drawing.Unit // nought: it has no headings
	ws        []drawing.Unit
	full, h   drawing.Unit
	rows      []laidRow
	last      int // of its rows on this page
}

// wide is the width of rows and title, which may be longer than they are.
func (p *laidTable) wide() drawing.Unit {
	w := p.full
	for _, line := range p.title {
		w = max(w, drawing.Width(drawing.Bold, line, p.size))
	}
	return w
}

// paint draws what was laid.
func (t *table) paint(g *drawing.Scene, at drawing.Point, p laidTable) {
	for i, line := range p.title {
		g.Text(
			drawing.Pt(at.X, at.Y+410+drawing.Unit(i)*p.size.Line()),
			line,
			drawing.Style{Size: p.size, Face: drawing.Bold, Fact: t.about},
		)
	}
	y0 := at.Y + p.top
	if p.headH > 0 {
		t.letter(g, drawing.Pt(at.X, y0), p.ws, p.headLines, p.heads, t.headNames(), true,
			func(int) bool { return true })
	}
	g.Line(drawing.Medium, drawing.Pt(at.X, y0), drawing.Pt(at.X+p.full, y0))
	if p.headH > 0 {
		g.Line(drawing.Medium, drawing.Pt(at.X, y0+p.headH), drawing.Pt(at.X+p.full, y0+p.headH))
	}
	for _, r := range p.rows {
		t.letter(
			g,
			drawing.Pt(at.X, at.Y+r.y),
			p.ws,
			r.lines,
			t.rows[r.n],
			nth(t.names, r.n),
			false,
			func(col int) bool { return t.bold != nil && t.bold(r.n, col) },
		)
		foot := at.Y + r.y + r.h
		pen := drawing.Thin
		if r.n == p.last || t.ends != nil && t.ends(r.n) {
			pen = drawing.Medium
		}
		g.Line(pen, drawing.Pt(at.X, foot), drawing.Pt(at.X+p.full, foot))
		if r.n < len(t.links) && t.links[r.n] != "" {
			g.Link(drawing.Box(at.X, at.Y+r.y, at.X+p.full, foot), t.links[r.n])
		}
	}
	x := at.X
	for _, c := range p.ws[:len(p.ws)-1] {
		x += c
		g.Line(drawing.Thin, drawing.Pt(x, y0), drawing.Pt(x, at.Y+p.h))
	}
	g.Line(drawing.Thin, drawing.Pt(at.X, y0), drawing.Pt(at.X, at.Y+p.h))
	g.Line(drawing.Thin, drawing.Pt(at.X+p.full, y0), drawing.Pt(at.X+p.full, at.Y+p.h))
}

// headNames are the facts that the heads of columns letter.
func (t *table) headNames() []string {
	out := make([]string, len(t.cols))
	for i, c := range t.cols {
		out[i] = c.fact
	}
	return out
}

// letter puts the words of one row in its cells.
func (t *table) letter(
	s *drawing.Scene,
	at drawing.Point,
	ws []drawing.Unit,
	lines [][]string,
	row, names []string,
	head bool,
	bold func(col int) bool,
) {
	var g drawing.Scene
	var cells []drawing.Unit
	x := at.X
	for i, w := range ws {
		cells = append(cells, x)
		f := drawing.Regular
		if bold(i) {
			f = drawing.Bold
		}
		if row[i] == tickBox {
			c := drawing.Pt(x+w/2, at.Y+t.top()+drawing.Unit(drawing.Note)/2)
			half := drawing.Unit(190)
			if t.tight || t.snug {
				half = 160
			}
			g.Rect(drawing.Medium, drawing.Box(c.X-half, c.Y-half, c.X+half, c.Y+half))
		}
		for k, line := range lines[i] {
			if line == "" {
				continue
			}
			p := drawing.Pt(x+cellSide, at.Y+t.top()+drawing.Unit(drawing.Note)+drawing.Unit(k)*rowLine)
			if t.snug { // clear of the line below
				p.Y -= 20
			}
			switch t.cols[i].align {
			case drawing.Middle:
				p.X = x + w/2
			case drawing.Right:
				p.X = x + w - cellSide
			}
			g.Text(p, line, drawing.Style{Face: f, Align: t.cols[i].align, Fact: nth(names, i)})
		}
		x += w
	}
	s.Add(drawing.Group{Marks: g.Marks, Cells: cells, Head: head})
}

// lettered is what a cell says: its words, and the facts that they letter.
type lettered struct{ words, names string }

// add adds a row.
func (t *table) add(row ...lettered) {
	words, names := make([]string, len(row)), make([]string, len(row))
	for i, c := range row {
		words[i], names[i] = c.words, c.names
	}
	for len(t.names) < len(t.rows) {
		t.names = append(t.names, nil)
	}
	t.rows, t.names = append(t.rows, words), append(t.names, names)
}

// unnamed are cells that letter no fact of a thing.
func unnamed(words ...string) []lettered {
	out := make([]lettered, len(words))
	for i, w := range words {
		out[i].words = w
	}
	return out
}

// nth is one of a list that may be shorter than what it goes with.
func nth[T any](list []T, i int) (out T) {
	if i < len(list) {
		return list[i]
	}
	return out
}

// facts is a table of two columns without a heading: what, and how much.
func facts(title string, rows [][]string) table {
	return table{title: title, cols: []column{{}, {flex: true}}, rows: rows, whole: true}
}

// col is a column under a heading of the tables of sentences.
func (b *book) col(head words.Key) column { return column{head: b.say.Say(head)} }

// right is a column of numbers, which stand at its right.
func (b *book) right(head words.Key) column {
	return column{head: b.say.Say(head), align: drawing.Right}
}

// flex is a column of sentences, which wrap.
func (b *book) flex(head words.Key) column { return column{head: b.say.Say(head), flex: true} }

// kept leaves out rows of which nothing is known.
func kept(rows [][]string) [][]string {
	var out [][]string
	for _, r := range rows {
		if r[1] != "" {
			out = append(out, r)
		}
	}
	return out
}
