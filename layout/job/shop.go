package job

import (
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
type Labels struct{ Columns, Rows int }

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
			Rows: read(labels, "rows", "value-count", parseCount)},
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
