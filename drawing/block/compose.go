package block

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// Compose places a subject's blocks on as few pages as they take, each at the best of
// its sizes at which all fit. The job's own paper stands first: where its slots do not
// stand on one page of it they go on several, in order; a larger paper is taken where a
// slot fits on none, or where Whole keeps them together. Then what flows fills what is
// left, and further pages. Where no paper serves, the first one's page says so by Over.
func Compose(s Spec, papers []Paper) []Leaf {
	if len(papers) == 0 {
		panic("block: no paper to compose on")
	}
	leaves := s.slotPages(papers)
	paper := papers[0]
	if n := len(leaves); n > 0 {
		paper = leaves[n-1].Paper
	}
	return s.flow(leaves, paper)
}

// slotPages are the pages of the slots.
func (s *Spec) slotPages(papers []Paper) []Leaf {
	if len(s.Slots) == 0 {
		return nil
	}
	for _, p := range papers {
		t := s.tried(p.Room.Width())
		if l, ok := t.on(p, t.order()); ok {
			return []Leaf{l}
		}
		if s.Whole {
			continue
		}
		if all, ok := t.pages(p); ok {
			return all
		}
	}
	t := s.tried(papers[0].Room.Width())
	return []Leaf{t.forced(papers[0], t.rows(t.order()))}
}

// on places some slots on a page, in rows of their cells or packed.
func (t *trial) on(p Paper, some []int) (Leaf, bool) {
	if t.Pack {
		return t.packed(p, some)
	}
	return t.page(p, t.rows(some))
}

// trial is a spec on one paper: the sizes of its slots, asked once.
type trial struct {
	*Spec
	sizes [][]Size
	most  int // sizes of the slot that has the most
}

func (s *Spec) tried(w drawing.Unit) *trial {
	t := &trial{Spec: s}
	for _, q := range s.Slots {
		all := q.Block.Sizes(w)
		if len(all) == 0 {
			panic("block: a block without a size: " + q.Block.Key())
		}
		if some := slices.DeleteFunc(slices.Clone(all), func(z Size) bool {
			return q.Least > 0 &&
				z.Scale > q.Least
		}); len(some) > 0 {
			all = some
		}
		t.sizes, t.most = append(t.sizes, all), max(t.most, len(all))
	}
	return t
}

// order is the order of the slots: row by row, column by column.
func (t *trial) order() []int {
	out := make([]int, len(t.Slots))
	for i := range out {
		out[i] = i
	}
	slices.SortStableFunc(out, func(a, b int) int {
		return cmp.Or(t.Slots[a].Cell.Row-t.Slots[b].Cell.Row, t.Slots[a].Cell.Col-t.Slots[b].Cell.Col)
	})
	return out
}

// rows are slots, in their order, by the rows and columns of their cells.
func (t *trial) rows(some []int) [][][]int {
	var rows [][][]int
	for i, n := range some {
		at, before := t.Slots[n].Cell, t.Slots[some[max(0, i-1)]].Cell
		switch {
		case i == 0 || at.Row != before.Row:
			rows = append(rows, [][]int{{n}})
		case at.Col != before.Col:
			rows[len(rows)-1] = append(rows[len(rows)-1], []int{n})
		default:
			cols := rows[len(rows)-1]
			cols[len(cols)-1] = append(cols[len(cols)-1], n)
		}
	}
	return rows
}

// page places rows of slots on a page at the best sizes at which all fit: first the
// best rank that all can have, then single slots better than that, in their order.
func (t *trial) page(p Paper, rows [][][]int) (Leaf, bool) {
	rank := make([]int, len(t.Slots))
	for r := range t.most {
		for i := range rank {
			rank[i] = min(r, len(t.sizes[i])-1)
		}
		if l, ok := t.place(p, rows, rank); ok {
			return t.better(p, rows, rank, l), true
		}
	}
	return Leaf{}, false
}

// better lets single slots have a better size than all can.
func (t *trial) better(p Paper, rows [][][]int, rank []int, l Leaf) Leaf {
	for _, row := range rows {
		for _, col := range row {
			for _, i := range col {
				for best := range rank[i] {
					was := rank[i]
					rank[i] = best
					if q, ok := t.place(p, rows, rank); ok {
						l = q
						break
					}
					rank[i] = was
				}
			}
		}
	}
	return l
}

// place puts rows of slots on a page at given sizes, and whether they fit.
func (t *trial) place(p Paper, rows [][][]int, rank []int) (Leaf, bool) {
	l := Leaf{Paper: p, Low: p.Room.Min.Y}
	fits := true
	y := p.Room.Min.Y
	for n, row := range rows {
		if n > 0 {
			y += t.Gap
		}
		wide := make([]drawing.Unit, len(row))
		sum, fill := t.Gutter*drawing.Unit(len(row)-1), 0
		for k, col := range row {
			takes := false
			for _, i := range col {
				wide[k] = max(wide[k], t.sizes[i][rank[i]].W)
				takes = takes || t.Slots[i].Fill
			}
			sum += wide[k]
			if takes {
				fill++
			}
		}
		spare := p.Room.Width() - sum
		fits = fits && spare >= 0
		x, low := p.Room.Min.X, y
		for k, col := range row {
			if fill > 0 && spare > 0 && slices.ContainsFunc(col, func(i int) bool { return t.Slots[i].Fill }) {
				wide[k] += spare / drawing.Unit(fill)
			}
			at := y
			for j, i := range col {
				z := t.sizes[i][rank[i]]
				if j > 0 {
					at += t.Gap
				}
				q := Placed{Block: t.Slots[i].Block, Size: z, At: drawing.Pt(x, at), ID: t.Slots[i].ID}
				if t.Slots[i].Middle {
					q.At.X += (wide[k] - z.W) / 2
				}
				l.Placed = append(l.Placed, q)
				at += z.H
			}
			low = max(low, at)
			x += wide[k] + t.Gutter
		}
		y = low
	}
	l.Low = y
	return l, fits && y <= p.Room.Max.Y
}

// forced places rows at their smallest sizes, fit or not.
func (t *trial) forced(p Paper, rows [][][]int) Leaf {
	rank := make([]int, len(t.Slots))
	for i := range rank {
		rank[i] = len(t.sizes[i]) - 1
	}
	l, ok := t.place(p, rows, rank)
	l.Over = !ok
	return l
}

// pages places slots on several pages of one paper, in order, as many rows on each as
// fit, or slots where they are packed; false if one fits on none.
func (t *trial) pages(p Paper) (out []Leaf, ok bool) {
	for some := t.order(); len(some) > 0; {
		n := 0
		var best Leaf
		for n < len(some) {
			more := n + 1
			for !t.Pack && more < len(some) && t.Slots[some[more]].Cell.Row == t.Slots[some[n]].Cell.Row {
				more++
			}
			l, ok := t.on(p, some[:more])
			if !ok {
				break
			}
			n, best = more, l
		}
		if n == 0 {
			return nil, false
		}
		out, some = append(out, best), some[n:]
	}
	return out, true
}

// flow lets what flows run through what the slots leave of the last page, beside them
// and under them, and through further pages.
func (s *Spec) flow(leaves []Leaf, paper Paper) []Leaf {
	var regions []drawing.Rect
	if n := len(leaves); n > 0 {
		regions = s.free(leaves[n-1])
	}
	k, used := 0, drawing.Unit(0)
	for _, f := range s.Flow {
		for f != nil {
			if k == len(regions) {
				leaves = append(leaves, Leaf{Paper: paper, Low: paper.Room.Min.Y})
				regions, k, used = columns(paper.Room, s.Columns, s.Gutter), 0, 0
			}
			l, r := &leaves[len(leaves)-1], regions[k]
			top := used
			if top > 0 {
				top += s.Gap
			}
			head, rest := f.Split(r.Width(), r.Height()-top, used == 0 && len(l.Placed) == 0)
			if head != nil {
				z := head.Sizes(r.Width())[0]
				l.Placed = append(l.Placed, Placed{Block: head, Size: z, At: drawing.Pt(r.Min.X, r.Min.Y+top)})
				used = top + z.H
				l.Low = max(l.Low, r.Min.Y+used)
			}
			if rest != nil || head == nil {
				k, used = k+1, 0
			}
			f = rest
		}
	}
	return leaves
}

// Fill places what flows, each of it whole, in what a page leaves, in the first region
// that holds it, and returns what found no room.
func (s *Spec) Fill(l Leaf, flows []Flow) (Leaf, []Flow) {
	regions := s.free(l)
	used := make([]drawing.Unit, len(regions))
	l.Placed = slices.Clone(l.Placed)
	var rest []Flow
	for _, f := range flows {
		placed := false
		for k, r := range regions {
			top := used[k]
			if top > 0 {
				top += s.Gap
			}
			head, more := f.Split(r.Width(), r.Height()-top, false)
			if head == nil || more != nil {
				continue
			}
			z := head.Sizes(r.Width())[0]
			if z.W > r.Width() {
				continue
			}
			l.Placed = append(l.Placed, Placed{Block: head, Size: z, At: drawing.Pt(r.Min.X, r.Min.Y+top)})
			used[k] = top + z.H
			placed = true
			break
		}
		if !placed {
			rest = append(rest, f)
		}
	}
	for k, r := range regions {
		l.Low = max(l.Low, r.Min.Y+used[k])
	}
	return l, rest
}

// free are the regions a page leaves: a column beside all that stands on it, and what
// lies under it.
func (s *Spec) free(l Leaf) []drawing.Rect {
	room := l.Paper.Room
	right := room.Min.X
	for _, p := range l.Placed {
		right = max(right, p.At.X+p.Size.W)
	}
	var out []drawing.Rect
	below := drawing.Box(room.Min.X, min(l.Low+s.Gap, room.Max.Y), room.Max.X, room.Max.Y)
	if s.Columns > 0 && room.Max.X-right-s.Gutter >= s.Columns {
		beside := drawing.Box(right+s.Gutter, room.Min.Y, room.Max.X, room.Max.Y)
		out = append(out, columns(beside, s.Columns, s.Gutter)...)
		below.Max.X = right
	}
	if below.Height() > 0 && below.Width() > 0 {
		least := s.Columns
		if s.Below > 0 {
			least = s.Below
		}
		out = append(out, columns(below, least, s.Gutter)...)
	}
	return out
}

// columns cuts a region into columns no narrower than a width; one, where none is given.
func columns(r drawing.Rect, least, gutter drawing.Unit) []drawing.Rect {
	n := drawing.Unit(1)
	if least > 0 {
		n = max(1, (r.Width()+gutter)/(least+gutter))
	}
	w := (r.Width() - gutter*(n-1)) / n
	var out []drawing.Rect
	for i := range n {
		x := r.Min.X + i*(w+gutter)
		out = append(out, drawing.Box(x, r.Min.Y, x+w, r.Max.Y))
	}
	return out
}
