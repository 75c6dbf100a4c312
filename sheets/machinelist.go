package sheets

import (
	"math"
	"strconv"

	"copingset/layout"
	"copingset/layout/length"
)

// MachineLists are what an outside program needs to fold what is written: a row
// for each file, a row for each bend, and a row for each stated place where an
// outline stands back from its seam. Numbers are plain, in the unit of the file;
// angles are degrees.
func MachineLists(l *layout.Layout) []Schedule {
	b := newBook(l, Options{})
	list := Schedule{Name: "list.csv", Header: []string{"file", "unit", "mark", "body", "kind", "hand", "quantity", "metal", "thickness", "inside radius", "K", "seam gap",
		"street-side leg", "street-side leg to", "roof-side leg", "roof-side leg to", "inside width", "inside width, right end", "slope", "turn", "change of slope", "front fold, left end to right end", "twin", "lap", "lap width", "assembly", "issue"}}
	bends := Schedule{Name: "bends.csv", Header: []string{"file", "unit", "order", "hem or bend", "up or down", "turn", "included angle", "inside radius", "bend allowance",
		"gauge edge", "gauge distance", "x1", "y1", "x2", "y2", "between", "and"}}
	notches := Schedule{Name: "notches.csv", Header: []string{"file", "unit", "kind", "x1", "y1", "x2", "y2"}}
	unit := "in"
	if b.metric {
		unit = "mm"
	}
	for _, c := range b.cutFiles() {
		list.Rows = append(list.Rows, append(b.listRow(c, unit), b.preliminary()))
		for _, q := range c.file.Bends {
			kind, way := "bend", "down"
			if q.Hem {
				kind = "hem"
			} else if q.Up() {
				way = "up"
			}
			from, to := q.Ends()
			num := b.plainMM
			bends.Rows = append(bends.Rows, []string{c.name, unit, itoa(q.Order), kind, way, decimal(math.Abs(q.Line.Turn)), decimal(q.Included()), num(q.Line.Radius), num(q.Line.Arc),
				q.GaugeAt, num(q.Gauge.MM()), num(from.X), num(from.Y), num(to.X), num(to.Y), q.Line.Between[0], q.Line.Between[1]})
		}
		for _, n := range c.file.Notches(b.j.Shop.Relief) {
			num := b.plainMM
			notches.Rows = append(notches.Rows, []string{c.name, unit, n.Kind, num(n.Lo.X), num(n.Lo.Y), num(n.Hi.X), num(n.Hi.Y)})
		}
	}
	return []Schedule{list, bends, notches}
}

// decimal letters a number with six decimals at most.
func decimal(f float64) string {
	f = math.Round(f*1e6) / 1e6
	return strconv.FormatFloat(f+0, 'f', -1, 64)
}

// plainMM letters millimetres in the unit of the files.
func (b *book) plainMM(mm float64) string { return decimal(mm * b.unit()) }

func (b *book) listRow(c cutFile, unit string) []string {
	num := func(l length.Length) string { return b.plainMM(l.MM()) }
	if q := c.part; q != nil {
		n, more := q.Make(b.l.Held)
		twin := ""
		if q.Twin != nil {
			twin = q.Twin.Mark
		}
		return []string{c.name, unit, q.Mark, c.file.Name, q.Kind.String(), q.Hand.String(), itoa(n + more), q.Metal, num(q.Thickness), num(q.Radius), decimal(q.K), "",
			"", "", "", "", num(q.Ends()[0]), num(q.Ends()[1]), "", "", "", num(c.file.Length), twin, "", "", q.Tested}
	}
	f, s := c.family, &b.j.System
	p := f.Pieces[0]
	twin := ""
	if f.Twin != nil {
		twin = f.Twin.Mark
	}
	k := layout.LegOf(f, c.body)
	part := p.Parts[k]
	gap, turn, pitch := "", "", ""
	if len(f.Bodies) > 1 {
		gap = num(b.j.Shop.WeldGap)
	}
	for i, m := range p.Miters {
		if i > 0 {
			turn += " "
		}
		turn += decimal(m.Corner.CapTurn.Degrees())
		if m.Corner.Straight() { // positive over a peak
			pitch = decimal(m.Corner.Bend.Degrees())
		}
	}
	front := []string{"", "", "", ""}
	if c.file.Metal != nil {
		front = []string{num(s.Profile.FrontLeg.Length), s.Profile.FrontLeg.To.String(), num(s.Profile.RearLeg.Length), s.Profile.RearLeg.To.String()}
	}
	lap := []string{"", ""}
	if f.Laps() && c.file.Metal != nil && len(c.file.Bends) > 0 {
		lap = []string{"over", num(b.j.Shop.Seam.Lap.Width)}
		if c.file.Tabbed() {
			lap[0] = "under"
		}
	}
	left, right := b.l.MadeInside(f, c.body)
	row := []string{c.name, unit, f.Mark, c.file.Name, p.KindName(), f.Hand.String(), itoa(f.Released(b.l.Held)), s.Metal.Name, num(s.Metal.Thickness), num(s.Profile.InsideR), decimal(b.j.Shop.K), gap}
	return append(append(row, front...), num(left), num(right), decimal(float64(part.Slope(s))/1e9), turn, pitch, num(b.l.MadeFront(f, c.body)+p.Allowance), twin, lap[0], lap[1], "")
}
