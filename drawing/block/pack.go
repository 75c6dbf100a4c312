package block

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// A page that packs its slots stands them in rows, the blocks of a row in columns, those
// of a column under one another, all in their order. Where rows, columns and sizes
// change is worked out from the sizes alone.
type packing struct {
	*trial
	some  []int // slots, in order
	level int64 // scale that they are drawn at where they can be
	own   map[int]int64
	sizes [][]Size // of each of some
}

// packed places slots on a page at the largest scale at which all fit, then single ones
// at a larger one.
func (t *trial) packed(p Paper, some []int) (Leaf, bool) {
	levels := t.levels(some)
	k := &packing{trial: t, some: some, own: map[int]int64{}}
	if _, ok := k.at(levels[len(levels)-1]).page(p); !ok {
		return Leaf{}, false
	}
	var best Leaf
	for _, level := range levels {
		l, ok := k.at(level).page(p)
		if !ok {
			continue
		}
		best = l
		break
	}
	if len(some) > mostEnlarged {
		return best, true
	}
	for i := range some {
		for _, level := range levels {
			if level >= k.level {
				break
			}
			k.own[i] = level
			if l, ok := k.at(k.level).page(p); ok {
				best = l
				break
			}
			delete(k.own, i)
		}
	}
	return best, true
}

// mostEnlarged is how many slots of a page may be that single ones are tried at a larger
// scale than all have.
const mostEnlarged = 8

// levels are the scales that some slots can have, the largest first.
func (t *trial) levels(some []int) []int64 {
	var out []int64
	for _, i := range some {
		for _, z := range t.sizes[i] {
			if z.Scale > 0 {
				out = append(out, z.Scale)
			}
		}
	}
	slices.Sort(out)
	if out = slices.Compact(out); len(out) == 0 {
		return []int64{0}
	}
	return out
}

// at takes for each slot its sizes of the largest scale that is no larger than a level.
func (k *packing) at(level int64) *packing {
	k.level, k.sizes = level, nil
	for n, i := range k.some {
		if own, ok := k.own[n]; ok {
			level = own
		} else {
			level = k.level
		}
		scale, most := int64(0), int64(0)
		for _, z := range k.trial.sizes[i] {
			most = max(most, z.Scale)
			if z.Scale >= level && (scale == 0 || z.Scale < scale) {
				scale = z.Scale
			}
		}
		if scale == 0 {
			scale = most
		}
		var all []Size
		for _, z := range k.trial.sizes[i] {
			if z.Scale == scale || z.Scale == 0 {
				all = append(all, z)
			}
		}
		k.sizes = append(k.sizes, all)
	}
	return k
}

// row is some slots beside and under each other: where each of its columns ends, and
// the size of each slot.
type row struct {
	from, to int
	high     drawing.Unit
	ends     []int
	wide     []drawing.Unit
	sizes    []Size
}

// page places all slots, or says that they do not fit: as few and low rows as they take.
func (k *packing) page(p Paper) (Leaf, bool) {
	n := len(k.some)
	w, h := p.Room.Width(), p.Room.Height()
	best := make([]struct {
		high drawing.Unit
		last row
		ok   bool
	}, n+1)
	best[0].ok = true
	for to := 1; to <= n; to++ {
		for from := to - 1; from >= 0; from-- {
			if !best[from].ok {
				continue
			}
			left := h - best[from].high
			if from > 0 {
				left -= k.Gap
			}
			r, ok := k.lowest(from, to, w, left)
			if !ok {
				continue
			}
			high := h - left + r.high
			if !best[to].ok || high < best[to].high {
				best[to].high, best[to].last, best[to].ok = high, r, true
			}
		}
	}
	if !best[n].ok {
		return Leaf{}, false
	}
	l := Leaf{Paper: p, Low: p.Room.Min.Y + best[n].high}
	var rows []row
	for to := n; to > 0; to = best[to].last.from {
		rows = append(rows, best[to].last)
	}
	slices.Reverse(rows)
	y := p.Room.Min.Y
	for _, r := range rows {
		x, i := p.Room.Min.X, r.from
		for c, end := range r.ends {
			at := y
			for ; i < end; i++ {
				q := k.Slots[k.some[i]]
				l.Placed = append(l.Placed, Placed{Block: q.Block, Size: r.sizes[i-r.from], At: drawing.Pt(x, at),
					ID: q.ID})
				at += r.sizes[i-r.from].H + k.Gap
			}
			x += r.wide[c] + k.Gutter
		}
		y += r.high + k.Gap
	}
	return l, true
}

// lowest is the lowest row of slots that is no wider than the page and no higher than
// what is left of it.
func (k *packing) lowest(from, to int, w, most drawing.Unit) (row, bool) {
	least := drawing.Unit(0)
	for _, all := range k.sizes[from:to] {
		least = max(least, slices.MinFunc(all, func(a, b Size) int { return cmp.Compare(a.H, b.H) }).H)
	}
	if least > most {
		return row{}, false
	}
	best, ok := k.row(from, to, w, most)
	if !ok {
		return row{}, false
	}
	for lo, hi := least, best.high; hi-lo > lowestStep; {
		mid := (lo + hi) / 2
		if r, ok := k.row(from, to, w, mid); ok {
			best, hi = r, r.high
		} else {
			lo = mid
		}
	}
	return best, true
}

// lowestStep is how near the lowest row is looked for.
const lowestStep drawing.Unit = 200

// row stands slots in the narrowest columns no higher than a height.
func (k *packing) row(from, to int, w, high drawing.Unit) (row, bool) {
	n := to - from
	type state struct {
		wide, last drawing.Unit // of all, and of the last column
		from       int
		sizes      []Size
		ok         bool
	}
	best := make([]state, n+1)
	best[0].ok = true
	for i := 1; i <= n; i++ {
		for j := i - 1; j >= 0; j-- {
			sizes, wide, ok := k.column(from+j, from+i, high)
			if !ok {
				break
			}
			if !best[j].ok {
				continue
			}
			all := best[j].wide + wide
			if j > 0 {
				all += k.Gutter
			}
			if all <= w && (!best[i].ok || all < best[i].wide) {
				best[i] = state{all, wide, j, sizes, true}
			}
		}
	}
	if !best[n].ok {
		return row{}, false
	}
	r := row{from: from, to: to, sizes: make([]Size, n)}
	for i := n; i > 0; i = best[i].from {
		s := best[i]
		r.ends, r.wide = append(r.ends, from+i), append(r.wide, s.last)
		copy(r.sizes[s.from:i], s.sizes)
		at := -k.Gap
		for _, z := range s.sizes {
			at += k.Gap + z.H
		}
		r.high = max(r.high, at)
	}
	slices.Reverse(r.ends)
	slices.Reverse(r.wide)
	return r, true
}

// column is the narrowest column of slots that is no higher than a height.
func (k *packing) column(from, to int, high drawing.Unit) (sizes []Size, wide drawing.Unit, ok bool) {
	var widths []drawing.Unit
	for _, all := range k.sizes[from:to] {
		for _, z := range all {
			widths = append(widths, z.W)
		}
	}
	slices.Sort(widths)
	for _, w := range slices.Compact(widths) {
		sizes = sizes[:0]
		at, wide := -k.Gap, drawing.Unit(0)
		for _, all := range k.sizes[from:to] {
			lowest := Size{H: -1}
			for _, z := range all {
				if z.W <= w && (lowest.H < 0 || z.H < lowest.H) {
					lowest = z
				}
			}
			if lowest.H < 0 {
				at = high + 1
				break
			}
			at += k.Gap + lowest.H
			sizes, wide = append(sizes, lowest), max(wide, lowest.W)
		}
		if at <= high && len(sizes) == to-from {
			return sizes, wide, true
		}
	}
	return nil, 0, false
}
