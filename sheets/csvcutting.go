package sheets

import (
	"fmt"
	"strconv"

	"copingset/layout/length"
)

// cutting is the cutting plan as a list: a row for each cut of each way that a sheet
// or a formed cap is cut.
func (c schedules) cutting() Schedule {
	s := Schedule{Name: "cutting.csv", Header: []string{"lot", "elevation", "metal", "from", "way", "times",
		"stock width", "stock width mm", "stock length", "stock length mm", "strip", "strip width", "strip width mm",
		"cut", "mark", "length", "length mm", "drop", "drop mm"}}
	for _, lot := range c.lots() {
		row := cutRow{lot: lot, elevation: c.words(lot, "elevation"), metal: c.words(lot, "metal")}
		if bare := c.words(lot, "bare"); bare != "" {
			row.elevation = bare
		}
		for i := 1; c.has(lot, fmt.Sprintf("caps-%d-pieces", i)); i++ {
			for k := 1; c.has(lot, fmt.Sprintf("caps-%d-bar-%d", i, k)); k++ {
				bar := fmt.Sprintf("caps-%d-bar-%d", i, k)
				row.from, row.way, row.times = "formed cap", k, c.words(lot, bar+"-count")
				row.stock = [2]length.Length{0, c.length(lot, bar+"-stock")}
				s.Rows = append(s.Rows, c.cuts(row, 0, 0, bar)...)
			}
		}
		for k := 1; c.has(lot, fmt.Sprintf("sheet-%d-count", k)); k++ {
			sheet := fmt.Sprintf("sheet-%d", k)
			row.from, row.way, row.times = "sheet", k, c.words(lot, sheet+"-count")
			row.stock = [2]length.Length{c.length(lot, sheet+"-size-width"), c.length(lot, sheet+"-size-length")}
			for m := 1; c.has(lot, fmt.Sprintf("%s-strip-%d", sheet, m)); m++ {
				strip := fmt.Sprintf("%s-strip-%d", sheet, m)
				s.Rows = append(s.Rows, c.cuts(row, m, c.length(lot, strip+"-wide"), strip)...)
			}
		}
	}
	return s
}

// cutRow is what the rows of one way to cut have in common.
type cutRow struct {
	lot, elevation, metal, from string
	way                         int
	times                       string
	stock                       [2]length.Length
}

// lots are the lots of pieces and those of parts.
func (c schedules) lots() []string {
	var out []string
	for _, kind := range []string{"lot %d", "part lot %d"} {
		for i := 1; ; i++ {
			of := fmt.Sprintf(kind, i)
			if len(c.facts.About(of)) == 0 {
				break
			}
			out = append(out, of)
		}
	}
	return out
}

// cuts are the rows of one bar, or of one strip of a sheet.
func (c schedules) cuts(row cutRow, strip int, wide length.Length, what string) [][]string {
	drop := c.length(row.lot, what+"-drop")
	n := ""
	if strip > 0 {
		n = strconv.Itoa(strip)
	}
	var out [][]string
	for i := 1; c.has(row.lot, fmt.Sprintf("%s-cut-%d", what, i)); i++ {
		cut := fmt.Sprintf("%s-cut-%d", what, i)
		l := c.length(row.lot, cut)
		out = append(out, []string{row.lot, row.elevation, row.metal, row.from, strconv.Itoa(row.way), row.times,
			c.cutLength(row.stock[0]), some(row.stock[0]), c.cutLength(row.stock[1]), some(row.stock[1]),
			n, c.cutLength(wide), some(wide), strconv.Itoa(i), c.words(row.lot, cut+"-mark"), c.cutLength(l), mm(l),
			c.cutLength(drop), mm(drop)})
	}
	return out
}

// cutLength letters a length of a cut as a typed text; none is empty.
func (c schedules) cutLength(l length.Length) string {
	if l == 0 {
		return ""
	}
	return typed(c.shop.Long(l))
}
