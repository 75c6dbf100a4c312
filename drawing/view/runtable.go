package view

import (
	"strings"

	"copingset/drawing"
	"copingset/layout/length"
)

// RunRow is a row of the columns under the chairs: its head, and the facts that it
// says for all of them.
type RunRow struct{ Head, Fact string }

// RunColumn is what is lettered under a chair, or under a joint without one: a cell
// for each row.
type RunColumn struct {
	At    length.Length // cap station
	Cells []RunCell
}

// RunCell is what one row says of a chair: lines as they are broken, or words that
// break where the column is narrow, or a box to tick.
type RunCell struct {
	Lines []string
	Words string
	Fact  string
	Face  drawing.Face
	Size  drawing.Size
	Tick  bool
	// Upright cells are one line that reads from the right, where columns are narrow.
	Upright bool
}

const (
	cellPad  drawing.Unit = 70 // beside the words of a column
	cellOver drawing.Unit = 85 // over and under them
	tickWide drawing.Unit = 400
	headWide drawing.Unit = 2650 // of the words at the left of the rows
)

func (c RunCell) size() drawing.Size {
	if c.Size == 0 {
		return drawing.Note
	}
	return c.Size
}

// least is the width that a cell takes at least.
func (c RunCell) least() drawing.Unit {
	switch {
	case c.Tick:
		return tickWide
	case c.Upright:
		return drawing.Unit(c.size())
	}
	w := drawing.Unit(0)
	for _, l := range c.Lines {
		w = max(w, drawing.Width(c.Face, l, c.size()))
	}
	for word := range strings.SplitSeq(c.Words, " ") { // a number keeps together at its no-break space
		w = max(w, drawing.Width(c.Face, word, c.size()))
	}
	return w
}

// high is how high the first line of a cell is.
func (c RunCell) high() drawing.Unit {
	if c.Upright {
		return drawing.Width(c.Face, c.Lines[0], c.size())
	}
	return drawing.Unit(c.size())
}

// lines are the words of a cell in a width.
func (c RunCell) lines(w drawing.Unit) []string {
	switch {
	case c.Words != "":
		return drawing.Wrap(c.Words, c.Face, c.size(), w)
	}
	return c.Lines
}

// runTable are the columns on paper: how wide each is and how high each row.
type runTable struct {
	rows  []RunRow
	cols  []RunColumn
	at    runLabels // columns as labels, for their places
	heads [][]string
	high  []drawing.Unit
}

// newRunTable measures columns; x brings their stations to paper.
func newRunTable(rows []RunRow, cols []RunColumn, x func(length.Length) drawing.Unit, lo, hi drawing.Unit) runTable {
	t := runTable{rows: rows, cols: cols}
	var all []runLabel
	for _, most := range []drawing.Unit{3600, 2400, 0} { // as few broken lines as there is room for
		all = all[:0]
		w := drawing.Unit(0)
		for _, c := range cols {
			q := runLabel{at: x(c.At), wide: columnWidth(c, most), lines: []RunLine{{}}}
			all, w = append(all, q), w+q.wide
		}
		if w <= hi-lo {
			break
		}
	}
	t.at = spreadLabels(all, 0, lo, hi)
	for i, r := range rows {
		head := drawing.Wrap(r.Head, drawing.Bold, drawing.Note, headWide)
		n := len(head)
		z := drawing.Unit(drawing.Note)
		for k, c := range cols {
			q := c.Cells[i]
			n = max(n, len(q.lines(t.at.all[k].wide-2*cellPad)))
			z = max(z, q.high())
		}
		t.heads, t.high = append(t.heads, head), append(t.high, z+2*cellOver+drawing.Unit(n-1)*runPitch)
	}
	return t
}

// columnWidth is how wide a column is that breaks no words until it is as wide as most.
func columnWidth(c RunColumn, most drawing.Unit) drawing.Unit {
	w := drawing.Unit(0)
	for _, q := range c.Cells {
		w = max(w, q.least(), min(most, drawing.Width(q.Face, q.Words, q.size())))
	}
	return (w+1)/2*2 + 2*cellPad // even: its middle stands on a unit
}

// columnsWidth is the least width that columns take beside each other.
func columnsWidth(cols []RunColumn) drawing.Unit {
	w := drawing.Unit(0)
	for _, c := range cols {
		w += columnWidth(c, 0)
	}
	return w
}

// height of all rows.
func (t *runTable) height() drawing.Unit {
	h := drawing.Unit(0)
	if len(t.cols) == 0 {
		return 0
	}
	for _, r := range t.high {
		h += r
	}
	return h
}

// draw draws the rows from a height on, ruled over a width.
func (t *runTable) draw(s *drawing.Scene, top, width drawing.Unit) {
	if len(t.cols) == 0 {
		return
	}
	cells := []drawing.Unit{0}
	for _, q := range t.at.all {
		cells = append(cells, q.placed-q.wide/2)
	}
	y := top
	for i := range t.rows {
		var g drawing.Scene
		for k, line := range t.heads[i] {
			g.Text(drawing.Pt(0, y+cellOver+drawing.Unit(drawing.Note)+drawing.Unit(k)*runPitch), line,
				drawing.Style{Face: drawing.Bold, Fact: t.rows[i].Fact})
		}
		for k, c := range t.cols {
			t.cell(&g, c.Cells[i], t.at.all[k], y, t.high[i])
		}
		s.Add(drawing.Group{Layer: drawing.Tables, Marks: g.Marks, Cells: cells})
		y += t.high[i]
	}
	s.Group(drawing.Tables, "", func(g *drawing.Scene) {
		g.Line(drawing.Medium, drawing.Pt(0, top), drawing.Pt(width, top))
		low := top
		for _, h := range t.high {
			low += h
			g.Line(drawing.Thin, drawing.Pt(0, low), drawing.Pt(width, low))
		}
		last := drawing.Unit(-1)
		for _, q := range t.at.all {
			a, b := q.placed-q.wide/2, q.placed-q.wide/2+q.wide
			if a-last > 4 {
				g.Line(drawing.Thin, drawing.Pt(a, top), drawing.Pt(a, low))
			}
			g.Line(drawing.Thin, drawing.Pt(b, top), drawing.Pt(b, low))
			last = b
		}
	})
}

// cell letters one cell in the middle of its column.
func (t *runTable) cell(g *drawing.Scene, c RunCell, q runLabel, y, high drawing.Unit) {
	if c.Tick {
		mid := drawing.Pt(q.placed, y+high/2)
		g.Rect(drawing.Medium, drawing.Box(mid.X-150, mid.Y-150, mid.X+150, mid.Y+150))
		return
	}
	if c.Upright {
		g.TextIn(drawing.Box(q.placed-q.wide/2, y, q.placed+q.wide/2, y+high), c.Lines[0],
			drawing.Style{Face: c.Face, Size: c.size(), Rotate: 900, Fact: c.Fact})
		return
	}
	for i, line := range c.lines(q.wide - 2*cellPad) {
		g.Text(drawing.Pt(q.placed, y+cellOver+drawing.Unit(c.size())+drawing.Unit(i)*runPitch), line,
			drawing.Style{Face: c.Face, Size: c.size(), Align: drawing.Middle, Fact: c.Fact})
	}
}
