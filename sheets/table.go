package sheets

import (
	"strings"

	"copingset/drawing"
)

// column of a table. A flex column gives way first: its words wrap.
type column struct {
	head  string
	align drawing.Align
	flex  bool
	least drawing.Unit // room for what is written in by hand
}

// tickBox in a cell is drawn as a box to tick; the faces have no glyph for it.
const tickBox = "\u2610"

// table is a composite of rows that are never split. The heading is repeated
// where it breaks. Rules, not tones, guide the eye: they survive copying.
type table struct {
	title string
	cols  []column
	rows  [][]string
	links []string // the sheet each row leads to; may be shorter
	bold  func(row, col int) bool
	fill  bool         // stretch flex columns to the full width
	high  drawing.Unit // least height of a row
	whole bool         // not broken where a fresh region could hold it
	from  int
}

const (
	cellSide drawing.Unit = 110 // beside the words of a cell
	cellTop  drawing.Unit = 150 // above them
	cellFoot drawing.Unit = 150
)

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
				narrow = max(narrow, min(drawing.Width(drawing.Bold, word, drawing.Note), 3000))
			}
		}
	}
	natural, narrow = max(natural, c.least), max(narrow, c.least)
	if !c.flex {
		narrow = natural
	}
	return natural + 2*cellSide, narrow + 2*cellSide
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
	switch over := sum - w; {
	case over > 0 && give > 0:
		over = min(over, give)
		left := over
		for i := range out {
			cut := drawing.Unit(int64(over) * int64(out[i]-low[i]) / int64(give))
			out[i] -= cut
			left -= cut
		}
		for i := range out { // what rounding left
			d := min(left, out[i]-low[i])
			out[i] -= d
			left -= d
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
	return lines, max(t.high, cellTop+cellFoot+drawing.Unit(drawing.Note)+drawing.Unit(most-1)*rowLine)
}

// rowLine is the step between lines of one cell, closer than between rows.
const rowLine drawing.Unit = 460

func (t table) take(w, h drawing.Unit, fresh bool) (laid, block) {
	ws := t.widths(w)
	var full drawing.Unit
	for _, c := range ws {
		full += c
	}
	title := t.title
	top := drawing.Unit(0)
	if title != "" {
		top = titleDrop - 120
		if t.from > 0 {
			title += " (continued)"
		}
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
	type row struct {
		y, h  drawing.Unit
		n     int
		lines [][]string
	}
	var rows []row
	y := top + headH
	k := t.from
	for ; k < len(t.rows); k++ {
		lines, rh := t.cells(t.rows[k], ws, drawing.Regular)
		if y+rh > h && !(fresh && len(rows) == 0) {
			break
		}
		rows = append(rows, row{y, rh, k, lines})
		y += rh
	}
	if k == len(t.rows)-1 && len(rows) > 2 {
		k, rows = k-1, rows[:len(rows)-1] // the last row takes one along, not to stand alone
		y = rows[len(rows)-1].y + rows[len(rows)-1].h
	}
	left := len(t.rows) - k
	// One row alone under a heading, with the rest elsewhere, reads badly.
	if len(rows) == 0 && (len(t.rows) > 0 || y > h && !fresh) || !fresh && left > 0 && (t.whole || len(rows) < 2) {
		return laid{}, t
	}
	got := laid{w: full, h: y, draw: func(s *drawing.Scene, at drawing.Point) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			if title != "" {
				z := headingSize(title, max(w, full))
				g.Text(drawing.Pt(at.X, at.Y+410), shorten(title, drawing.Bold, z, max(w, full)), drawing.Style{Size: z, Face: drawing.Bold})
			}
			y0 := at.Y + top
			if hasHead {
				t.letter(g, drawing.Pt(at.X, y0), ws, headLines, heads, func(int) bool { return true })
			}
			g.Line(drawing.Medium, drawing.Pt(at.X, y0), drawing.Pt(at.X+full, y0))
			if hasHead {
				g.Line(drawing.Medium, drawing.Pt(at.X, y0+headH), drawing.Pt(at.X+full, y0+headH))
			}
			for _, r := range rows {
				t.letter(g, drawing.Pt(at.X, at.Y+r.y), ws, r.lines, t.rows[r.n], func(col int) bool { return t.bold != nil && t.bold(r.n, col) })
				foot := at.Y + r.y + r.h
				pen := drawing.Thin
				if r.n == k-1 {
					pen = drawing.Medium
				}
				g.Line(pen, drawing.Pt(at.X, foot), drawing.Pt(at.X+full, foot))
				if r.n < len(t.links) && t.links[r.n] != "" {
					g.Link(drawing.Box(at.X, at.Y+r.y, at.X+full, foot), t.links[r.n])
				}
			}
			x := at.X
			for _, c := range ws[:len(ws)-1] {
				x += c
				g.Line(drawing.Thin, drawing.Pt(x, y0), drawing.Pt(x, at.Y+y))
			}
			g.Line(drawing.Thin, drawing.Pt(at.X, y0), drawing.Pt(at.X, at.Y+y))
			g.Line(drawing.Thin, drawing.Pt(at.X+full, y0), drawing.Pt(at.X+full, at.Y+y))
		})
	}}
	if left == 0 {
		return got, nil
	}
	t.from = k
	return got, t
}

// letter puts the words of one row in its cells.
func (t *table) letter(g *drawing.Scene, at drawing.Point, ws []drawing.Unit, lines [][]string, row []string, bold func(col int) bool) {
	x := at.X
	for i, w := range ws {
		f := drawing.Regular
		if bold(i) {
			f = drawing.Bold
		}
		if row[i] == tickBox {
			c := drawing.Pt(x+w/2, at.Y+cellTop+drawing.Unit(drawing.Note)/2)
			g.Rect(drawing.Medium, drawing.Box(c.X-190, c.Y-190, c.X+190, c.Y+190))
		}
		for k, line := range lines[i] {
			if line == "" {
				continue
			}
			p := drawing.Pt(x+cellSide, at.Y+cellTop+drawing.Unit(drawing.Note)+drawing.Unit(k)*rowLine)
			switch t.cols[i].align {
			case drawing.Middle:
				p.X = x + w/2
			case drawing.Right:
				p.X = x + w - cellSide
			}
			g.Text(p, line, drawing.Style{Face: f, Align: t.cols[i].align})
		}
		x += w
	}
}

// facts is a table of two columns without a heading: what, and how much.
func facts(title string, rows [][]string) table {
	return table{title: title, cols: []column{{}, {flex: true}}, rows: rows, whole: true}
}
