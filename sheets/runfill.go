package sheets

import (
	"slices"

	"copingset/drawing"
)

// fill arranges tables and lists on as few pages as they take.
func (b *book) fill(t stretch, room drawing.Rect, leaves *[]*leaf) {
	var tables []table
	for _, r := range t.runs {
		if table := b.chairTable(b.planOf(r)); len(table.rows) > 0 {
			tables = append(tables, table)
		}
	}
	var best []*leaf
	for _, tight := range []bool{false, true} {
		for i := range tables {
			tables[i].tight = tight
		}
		if got := b.arrange(t, tables, room, *leaves); best == nil || len(got) < len(best) {
			best = got
		}
	}
	*leaves = best
}

// arrange places chair tables under the views where they fit whole or else on
// pages of their own, and the other lists where there is room.
func (b *book) arrange(t stretch, tables []table, room drawing.Rect, views []*leaf) []*leaf {
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
	for i, t := range b.flowOver(b.runData(t), regions) {
		for len(leaves) <= i {
			leaves = append(leaves, &leaf{})
		}
		leaves[i].small = append(leaves[i].small, t...)
	}
	return leaves
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
