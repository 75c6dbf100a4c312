package place

import (
	"math"

	"copingset/drawing"
)

// kind is what an item is to labels and leaders.
type kind uint8

const (
	solid  kind = iota // a part, which leaders too go round
	area               // an area or a line leaders may cross
	hidden             // a hidden line
	letter             // lettering
	lead               // a leader
)

// Room of a leader: kept from lettering at its tip, where its dot is, and from
// other leaders; leaders to one thing may meet at their tips.
const (
	dotRoom  drawing.Unit = 90
	leadRoom drawing.Unit = 30
	tipRoom  drawing.Unit = 120
)

// item is one thing that keeps labels off.
type item struct {
	kind  kind
	shape shape // what lettering keeps off
	wide  shape // what leaders keep off
	near  shape // of lettering, with its own pad, which its neighbours keep too
}

// items are what a label is to those after it.
func (s *stand) items() []item {
	out := []item{{kind: letter, shape: s.text, wide: s.wide, near: s.near}}
	for i := 1; i < len(s.way); i++ {
		a, b := s.way[i-1], s.way[i]
		from := a
		if i == 1 {
			from = toward(a, b, tipRoom)
		}
		out = append(out, item{kind: lead, shape: strip(a, b, clear), wide: strip(from, b, leadRoom)})
	}
	return out
}

// toward is the point at a distance from a on the way to b.
func toward(a, b drawing.Point, by drawing.Unit) drawing.Point {
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	k := float64(by) / max(math.Hypot(x, y), float64(by), 1)
	return a.Add(drawing.Pt(drawing.Unit(math.Round(x*k)), drawing.Unit(math.Round(y*k))))
}

// meets says whether the lettering of a label lies on an item or too near it.
func (it *item) meets(s *stand) bool {
	switch it.kind {
	case solid:
		return s.wide.touches(&it.shape)
	case letter:
		return s.long.touches(&it.shape) || it.near.touches(&s.text)
	case hidden:
		return !s.cover && s.near.touches(&it.shape)
	}
	return s.near.touches(&it.shape)
}

// stops says whether a leader of a label may not pass an item.
func (it *item) stops(s *stand, seg *shape, over bool) bool {
	switch it.kind {
	case solid:
		return !over && !it.shape.box.Holds(s.way[0]) && seg.touches(&it.wide)
	case letter:
		if seg.touches(&it.wide) {
			return true
		}
		dot := level(drawing.Rect{Min: s.way[0], Max: s.way[0]}.Inset(-dotRoom))
		return dot.touches(&it.shape)
	case lead:
		return seg.touches(&it.wide)
	}
	return false
}

// cell is the width of a square of the index.
const cell = 10 * drawing.MM

// index finds the items near a box: each is listed in the squares it touches.
// What lies out of bounds counts to the squares at the edge.
type index struct {
	from       drawing.Point
	cols, rows int
	cells      [][]int32
	items      []item
}

func newIndex(bounds drawing.Rect) index {
	x := index{
		from: bounds.Min,
		cols: int(max(bounds.Width(), 0)/cell) + 1,
		rows: int(max(bounds.Height(), 0)/cell) + 1,
	}
	x.cells = make([][]int32, x.cols*x.rows)
	return x
}

func (x *index) add(it item) {
	n := int32(len(x.items))
	x.items = append(x.items, it)
	x.squares(it.shape.box.Union(it.wide.box).Union(it.near.box), func(k int) bool {
		x.cells[k] = append(x.cells[k], n)
		return false
	})
}

// any says whether a test holds for some item in the squares a box touches. An
// item may be asked more than once.
func (x *index) any(box drawing.Rect, test func(*item) bool) bool {
	return x.squares(box, func(k int) bool {
		for _, n := range x.cells[k] {
			if test(&x.items[n]) {
				return true
			}
		}
		return false
	})
}

func (x *index) squares(b drawing.Rect, visit func(int) bool) bool {
	col := func(v drawing.Unit) int { return min(max(int((v-x.from.X)/cell), 0), x.cols-1) }
	row := func(v drawing.Unit) int { return min(max(int((v-x.from.Y)/cell), 0), x.rows-1) }
	for r := row(b.Min.Y); r <= row(b.Max.Y); r++ {
		for c := col(b.Min.X); c <= col(b.Max.X); c++ {
			if visit(r*x.cols + c) {
				return true
			}
		}
	}
	return false
}
