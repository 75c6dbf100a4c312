package sheets

import (
	"slices"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
)

// fill arranges tables and lists on as few pages as they take.
func (b *book) fill(t stretch, room drawing.Rect, leaves *[]*leaf) {
	var tables []table
	var strips []laid
	high := drawing.Unit(0)
	for _, r := range t.runs {
		if table := b.chairTable(b.planOf(r)); len(table.rows) > 0 {
			tables = append(tables, table)
		}
		if strip := b.steps(r, room.Width()); strip.h > 0 {
			strips = append(strips, strip)
			high += strip.h + between
		}
	}
	// The pictures stand on the last page of lists, with the last words of the
	// order of work, for which every page of lists keeps room. Where that takes as
	// many pages, words and pictures have one to themselves.
	low := room
	below := high < room.Height()/2
	if below {
		low.Max.Y -= high
	}
	var best []*leaf
	for _, apart := range []bool{true, false} {
		for _, tight := range []bool{false, true} {
			for i := range tables {
				tables[i].tight = tight
			}
			in := low
			if apart {
				in = room
			}
			got, ok := b.arrange(t, tables, in, *leaves, apart)
			if apart && ok && below {
				ok = got[len(got)-1].foot() <= low.Max.Y
			}
			if ok && (best == nil || len(got) < len(best)) {
				best = got
			}
		}
	}
	*leaves = best
	if len(strips) == 0 {
		return
	}
	if f := best[len(best)-1]; below && f.window == 0 {
		y := low.Max.Y
		if len(best) > 1 && best[len(best)-2].data { // the page is theirs: close under the words
			y = f.foot()
		}
		for _, q := range strips {
			f.views = append(f.views, placed{q, drawing.Pt(room.Min.X, y+between)})
			y += between + q.h
		}
		return
	}
	// On pages of their own, each whole.
	y := room.Max.Y
	for _, q := range strips {
		if y > room.Min.Y && y+between+q.h > room.Max.Y {
			best, y = append(best, &leaf{}), room.Min.Y-between
		}
		f := best[len(best)-1]
		f.views = append(f.views, placed{q, drawing.Pt(room.Min.X, y+between)})
		y += between + q.h
	}
	*leaves = best
}

// foot is where the tables and lists of a page end.
func (f *leaf) foot() drawing.Unit {
	low := drawing.Unit(0)
	for _, x := range slices.Concat(f.table, f.small) {
		low = max(low, x.at.Y+x.h)
	}
	return low
}

// steps is the strip of pictures of the order of work; none where nothing is
// set on the run by itself.
func (b *book) steps(r *layout.Run, w drawing.Unit) laid {
	if len(r.Chairs) == 0 && len(r.Joints) == 0 {
		return laid{}
	}
	of := b.workOf(r)
	s := view.StepStrip(of, w, view.StepStripHeight(of, w))
	got, _ := picture{scene: s, prefix: "steps", centre: true}.take(w, s.H, true)
	return got
}

// arrange places chair tables under the views where they fit whole or else on
// pages of their own, and the other lists where there is room, in the order a
// foreman needs them. apart gives the order of work of a run a page of its own,
// if it has any.
func (b *book) arrange(t stretch, tables []table, room drawing.Rect, views []*leaf, apart bool) (all []*leaf, ok bool) {
	if apart && (len(t.runs) > 1 || b.steps(t.runs[0], room.Width()).draw == nil) {
		return nil, false
	}
	var leaves []*leaf
	for _, f := range views {
		copied := *f
		leaves = append(leaves, &copied)
	}
	natural := drawing.Unit(0)
	for _, x := range tables {
		natural = max(natural, min(x.width(), room.Width()))
	}
	bands := len(leaves)
	free := make([]drawing.Rect, bands)
	for i, f := range leaves {
		free[i] = f.band
	}
	left := under(tables, natural, leaves, free)
	pages, side := beside(left, natural, room)
	leaves = append(leaves, pages...)
	regions := func(n int) []drawing.Rect {
		switch {
		case n < bands:
			return parts(free[n])
		case n < bands+len(side):
			return side[n-bands]
		}
		return columns(room, max(1, int(room.Width()/(smallWide+3000))), gutter)
	}
	// A page saved is worth the order of work before the data, or in two parts.
	var lists [][]placed
	var work block
	for _, together := range []bool{true, false} {
		for _, order := range b.runData(t, room, together) {
			if apart {
				last := len(order) - 1
				order, work = order[:last], order[last]
				lists = b.flowOver(order, regions)
				break
			}
			if got := b.flowOver(order, regions); lists == nil || len(got) < len(lists) {
				lists = got
			}
		}
	}
	for i, t := range lists {
		for len(leaves) <= i {
			leaves = append(leaves, &leaf{})
		}
		leaves[i].small = append(leaves[i].small, t...)
	}
	if !apart {
		return leaves, true
	}
	for _, f := range leaves {
		f.data = f.window == 0
	}
	got, rest := work.take(min(room.Width(), max(smallWide+3000, room.Width()/2)), room.Height(), true)
	return append(leaves, &leaf{small: []placed{{got, room.Min}}}), rest == nil
}

// under places tables where they fit whole under views, in what is free there, and
// returns those that do not.
func under(tables []table, natural drawing.Unit, views []*leaf, free []drawing.Rect) (left []block) {
	for _, x := range tables {
		i := slices.IndexFunc(free, func(f drawing.Rect) bool {
			if f.Width() < natural {
				return false
			}
			got, rest := x.take(natural, f.Height(), false)
			return rest == nil && got.draw != nil
		})
		if i < 0 {
			left = append(left, x)
			continue
		}
		got, _ := x.take(natural, free[i].Height(), false)
		views[i].table = append(views[i].table, placed{got, free[i].Min})
		free[i].Min.X += natural + gutter
	}
	return left
}

// beside places tables in columns on pages of their own, and tells what is free
// there beside and below them, page by page.
func beside(left []block, natural drawing.Unit, room drawing.Rect) (pages []*leaf, side [][]drawing.Rect) {
	if len(left) == 0 {
		return nil, nil
	}
	k := max(1, int((room.Width()-smallWide)/(natural+gutter)))
	var cols []drawing.Rect
	for i := range k {
		x := room.Min.X + drawing.Unit(i)*(natural+gutter)
		cols = append(cols, drawing.Box(x, room.Min.Y, x+natural, room.Max.Y))
	}
	for _, page := range flow(left, func(int) []drawing.Rect { return cols }) {
		pages = append(pages, &leaf{table: page})
		used, foot := 0, room.Min.Y
		for i, c := range cols {
			for _, x := range page {
				if x.at.X == c.Min.X {
					used, foot = i+1, x.at.Y+x.h
				}
			}
		}
		x := min(room.Min.X+drawing.Unit(used)*(natural+gutter), room.Max.X)
		rs := parts(drawing.Box(x, room.Min.Y, room.Max.X, room.Max.Y))
		last := cols[used-1]
		if below := drawing.Box(last.Min.X, foot+between, last.Max.X, room.Max.Y); foot+between+bandLeast < room.Max.Y {
			rs = append(rs, below)
		}
		side = append(side, rs)
	}
	return pages, side
}

// parts cuts a rectangle into columns wide enough for data; none if it is not.
func parts(r drawing.Rect) []drawing.Rect {
	n := int((r.Width() + gutter) / (smallWide + gutter))
	if n < 1 || r.Height() < listLeast {
		return nil
	}
	return columns(r, n, gutter)
}
