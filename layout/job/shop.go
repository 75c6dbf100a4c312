package job

import (
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Shop says how the fabricator bends, cuts and welds. Everything is the
// shop's own data; a job without it has no flat patterns and no cutting plan.
type Shop struct {
	At          finding.Place
	K           float64       // neutral axis from the inside of a bend, in thicknesses
	KSource     string        // whose figure that is
	LeastRadius length.Length // smallest inside radius the metal takes
	LeastFlange length.Length // narrowest flange the brake holds, outside
	Brake       length.Length // longest bend
	MostTurn    Angle         // greatest angle it bends through
	WeldGap     length.Length // left open between the two edges of a welded seam
	Film        string        // side of the protective film
	Sheets      []ShopSheet   // sheets and coils that can be bought
	Bars        []ShopBar     // formed caps that closers are cut from
	Kerf        length.Length // lost with each cut of a formed cap
	EndTrim     length.Length // off each end of a sheet or formed cap
	EdgeTrim    length.Length // off each edge of a sheet
	LeastDrop   length.Length // a remainder this long is kept
	Effort      int           // nodes the search for a cutting plan may spend
	Labels      Labels
	Relief      Relief      // where bends end at a weld or in one corner
	PartSheets  []PartSheet // for parts of another metal or thickness
}

// ShopSheet is a sheet, or a coil cut to a length.
type ShopSheet struct {
	Width, Length length.Length
	Price         int64 // of one, in thousandths of the job's money; zero: not stated
}

// ShopBar is a formed cap of a length: bought or bent by the shop, or, with a
// Count, a drop in hand.
type ShopBar struct {
	Length length.Length
	Inside length.Length // inside width of a drop in hand
	Price  int64
	Count  int
}

// Labels is the grid of a sheet of labels.
type Labels struct {
	Columns, Rows int
	Cut           *CutLabels // nil: the sheet is cut after it is printed
}

// CutLabels are labels that are cut before they are printed: their size and
// their places on a sheet of the paper for lists, held upright.
type CutLabels struct {
	Width, Height length.Length
	Left, Top     length.Length // from the edges of the sheet to the first label
	Across, Down  length.Length // from one label to the next, edge to like edge
}

// Least sizes of a label that hold its words in letters of 3 mm.
const (
	LeastLabelWidth  = 56 * length.Millimetre
	LeastLabelHeight = 27 * length.Millimetre
)

func decodeCutLabels(p *part) *CutLabels {
	sizes := []string{"width", "height", "left", "top", "across", "down"}
	if !slices.ContainsFunc(sizes, p.given) {
		return nil
	}
	for _, name := range sizes {
		p.need(name, ", and labels that are cut beforehand need all of "+strings.Join(sizes, ", "))
	}
	return &CutLabels{
		Width: p.length("width", positive), Height: p.length("height", positive),
		Left: p.length("left", notNegative), Top: p.length("top", notNegative),
		Across: p.length("across", positive), Down: p.length("down", positive),
	}
}

// checkLabels asks whether labels of a stated size stand on their sheet without
// covering one another, and can be read.
func (d *decoder) checkLabels(j *Job) {
	if j.Shop == nil || j.Shop.Labels.Cut == nil {
		return
	}
	const at = "shop.labels."
	c, g := j.Shop.Labels.Cut, j.Shop.Labels
	wide, high := j.Paper.Lists.Sides()
	least := func(name string, l, least length.Length) {
		if d.has(at+name) && l < least {
			d.errorf("label-small", d.places[at+name], "use larger labels", "%s, %s, is less than the %s that a label's words need in letters of 3 mm",
				d.name(at+name), Both(l), Both(least))
		}
	}
	least("width", c.Width, LeastLabelWidth)
	least("height", c.Height, LeastLabelHeight)
	d.atMost(at+"width", c.Width, at+"across", c.Across, "one label would lie on the next")
	d.atMost(at+"height", c.Height, at+"down", c.Down, "one label would lie on the next")
	fits := func(count string, n int, from, pitch, size, paper length.Length, side, way string) {
		if n < 1 || !d.has(at+count) || pitch <= 0 || size <= 0 {
			return
		}
		if end := from + length.Length(n-1)*pitch + size; end > paper {
			d.errorf("labels-off-sheet", d.places[at+count], "measure the label sheet again, or choose its paper in `paper: lists`",
				"the labels end %s from the %s edge, and the sheet, %s, is %s %s", Both(end), side, j.Paper.Lists, Both(paper), way)
		}
	}
	fits("columns", g.Columns, c.Left, c.Across, c.Width, wide, "left", "wide")
	fits("rows", g.Rows, c.Top, c.Down, c.Height, high, "top", "high")
}

func decodeShop(p *part) *Shop {
	if p == nil {
		return nil
	}
	labels := p.sub("labels")
	s := &Shop{
		At:          p.at,
		K:           read(p, "k_factor", "value-number", parseK),
		KSource:     p.text("k_source"),
		LeastRadius: p.length("least_radius", notNegative),
		LeastFlange: p.length("least_flange", positive),
		Brake:       p.length("brake", positive),
		MostTurn:    p.angle("most_turn", 90*Degree, straight),
		WeldGap:     p.length("weld_gap", notNegative),
		Film:        p.maybe("film"),
		Kerf:        p.length("kerf", notNegative),
		EndTrim:     p.length("end_trim", notNegative),
		EdgeTrim:    p.length("edge_trim", notNegative),
		LeastDrop:   p.length("least_drop", positive),
		Effort:      read(p, "effort", "value-count", parseCount),
		Labels: Labels{Columns: read(labels, "columns", "value-count", parseCount),
			Rows: read(labels, "rows", "value-count", parseCount), Cut: decodeCutLabels(labels)},
	}
	s.Relief, s.PartSheets = decodeRelief(p.sub("relief")), decodePartSheets(p)
	for _, i := range p.items("sheets", "sheet") {
		s.Sheets = append(s.Sheets, ShopSheet{Width: i.length("width", positive), Length: i.length("length", positive),
			Price: read(i, "price", "value-money", parseMoney)})
	}
	for _, i := range p.items("bars", "bar") {
		s.Bars = append(s.Bars, ShopBar{Length: i.length("length", positive), Inside: i.length("inside", positive),
			Price: read(i, "price", "value-money", parseMoney), Count: read(i, "count", "value-count", parseCount)})
	}
	return s
}

// parseK reads where the neutral axis lies: between the inside of the bend and
// the middle of the sheet.
func parseK(s string) (float64, error) {
	const mend = "write the shop's own figure between 0.25 and 0.5, like 0.40"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "" {
		return 0, wrong("value-number", mend, "%s is not a number", show(s))
	}
	f, _ := v.Float64()
	if f < 0.25 || f > 0.5 {
		return 0, wrong("k-range", mend, "%s is no place of a neutral axis", show(s))
	}
	return f, nil
}
