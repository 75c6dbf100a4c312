// Package block puts drawings, tables and lists on sheets.
//
// A block says by arithmetic how large it can be, is placed once and drawn once.
// Nothing is drawn to be measured: Compose, the only place that tries papers,
// arrangements and sizes, reads numbers alone, and what it returns can be drawn on any
// core, in any order.
//
//	leaves := block.Compose(block.Spec{Slots: ..., Flow: ...}, papers)
//	for _, l := range leaves { marks := l.Draw(nil) }
package block

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/drawing"
)

// Size is one way a block can stand.
type Size struct {
	W, H  drawing.Unit
	Scale int64 // building over paper; 0 where nothing is to scale
	Notes int   // lines kept within H for labels that may lose their place
}

// Block is something that stands on a sheet whole.
type Block interface {
	// Key is a digest of all it draws from: two blocks of one key and size draw alike.
	Key() string
	// Sizes are the ways it can stand in a width, the best first, none wider if it can
	// help it. No mark is made to tell them. At least one is returned.
	Sizes(w drawing.Unit) []Size
	// Draw makes its marks at one of its sizes, from its upper left corner. It is pure.
	Draw(s Size) Drawn
}

// Drawn is what a block draws.
type Drawn struct {
	Marks []drawing.Mark
	About string // what a drawing shows, for those who cannot see it; empty for tables and lists
	Notes []Note // labels beyond those it kept lines for
}

// Note is a label that found no room, and the facts that it letters.
type Note = drawing.Said

// Flow is something that goes on from region to region: a table, a list.
type Flow interface {
	Key() string
	// Split takes as much as fits in w and h. A nil head means that nothing fits; in a
	// fresh region something has to be taken. A nil rest means that nothing is left.
	Split(w, h drawing.Unit, fresh bool) (head Block, rest Flow)
}

// Fixed is a block of one size whatever its width.
type Fixed struct {
	ID   string // its key
	Size Size
	Make func() Drawn
}

// Key is the key it was given.
func (f Fixed) Key() string { return f.ID }

// Sizes is its one size.
func (f Fixed) Sizes(drawing.Unit) []Size { return []Size{f.Size} }

// Draw makes its marks.
func (f Fixed) Draw(Size) Drawn { return f.Make() }

// Paper is a sheet by its name and the room it leaves for what is composed.
type Paper struct {
	Name string
	Room drawing.Rect
}

// Cell is a place of a grid. Rows stand under one another, columns of a row beside one
// another, slots of one cell under one another.
type Cell struct{ Row, Col int }

// Slot is a block with its cell.
type Slot struct {
	Block  Block
	Cell   Cell
	ID     string // goes before the ids of its groups, so that no two on a sheet are alike
	Least  int64  // smallest scale that can be read, building over paper; 0: any
	Middle bool   // in the middle of its cell, else at its left
	Fill   bool   // of what its row leaves free, its cell has a share
}

// Spec is what a subject's sheets show.
type Spec struct {
	Slots   []Slot
	Pack    bool         // its slots stand where there is room, in their order: cells say nothing
	Flow    []Flow       // what goes on under and beside the slots, and on further pages
	Whole   bool         // its slots stand on one page: rather a larger paper than a second page
	Columns drawing.Unit // least width of a column for what flows; 0: the width of the page
	Below   drawing.Unit // the same under the slots, where they leave less height; 0: as Columns
	Gap     drawing.Unit // between rows and between what stands under another
	Gutter  drawing.Unit // between columns
}

// Placed is a block in its place on a sheet.
type Placed struct {
	Block
	Size Size
	At   drawing.Point
	ID   string
}

// Leaf is one page of a subject.
type Leaf struct {
	Paper  Paper
	Placed []Placed
	Over   bool         // no paper takes it: something leaves its room
	Low    drawing.Unit // where what stands on it ends
}

// Spare are the places that are left on a page, for notes: under all and beside all that
// stands on it, and under each thing as wide as that. The largest comes first, and none
// lies over another.
func (l Leaf) Spare(gap drawing.Unit) []drawing.Rect {
	room := l.Paper.Room
	right := room.Min.X
	for _, p := range l.Placed {
		right = max(right, p.At.X+p.Size.W)
	}
	all := []drawing.Rect{drawing.Box(room.Min.X, min(l.Low+gap, room.Max.Y), room.Max.X, room.Max.Y),
		drawing.Box(min(right+2*gap, room.Max.X), room.Min.Y, room.Max.X, room.Max.Y)}
	for _, p := range l.Placed {
		r := drawing.Box(p.At.X, min(p.At.Y+p.Size.H+gap, room.Max.Y), p.At.X+p.Size.W, room.Max.Y)
		for _, q := range l.Placed {
			if q.At.X < r.Max.X+gap && q.At.X+q.Size.W+gap > r.Min.X && q.At.Y+q.Size.H > r.Min.Y {
				r.Max.Y = max(r.Min.Y, min(r.Max.Y, q.At.Y-gap))
			}
		}
		all = append(all, r)
	}
	area := func(r drawing.Rect) int64 { return int64(r.Width()) * int64(r.Height()) }
	slices.SortStableFunc(all, func(a, b drawing.Rect) int { return cmp.Compare(area(b), area(a)) })
	var out []drawing.Rect
	for _, r := range all {
		if !slices.ContainsFunc(out, func(o drawing.Rect) bool { return o.Intersects(r) }) {
			out = append(out, r)
		}
	}
	return out
}

// Memo keeps what was drawn, by key and size. A window's remembers from one edit to the
// next; without one, everything placed is drawn.
type Memo interface {
	Get(key string, s Size, draw func() Drawn) Drawn
}

// Draw draws what stands on a page, and gives the notes that found no room in their
// blocks.
func (l Leaf) Draw(m Memo) (marks []drawing.Mark, notes []Note) {
	for i, p := range l.Placed {
		draw := func() Drawn { return p.Block.Draw(p.Size) }
		var d Drawn
		if m != nil {
			d = m.Get(p.Key(), p.Size, draw)
		} else {
			d = draw()
		}
		id := p.ID
		if id == "" {
			id = fmt.Sprintf("b%d", i+1)
		}
		out := drawing.Translate(drawing.Under(d.Marks, id), p.At)
		if d.About != "" {
			out = []drawing.Mark{drawing.Group{View: true, Words: d.About, Marks: out}}
		}
		marks, notes = append(marks, out...), append(notes, d.Notes...)
	}
	return marks, notes
}
