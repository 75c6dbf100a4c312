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
	FlangeAt    finding.Place // where that is written
	Brake       length.Length // longest bend
	MostTurn    Angle         // greatest angle it bends through
	WeldGap     length.Length // left open between the two edges of a welded seam
	WeldGapAt   finding.Place
	BarsAt      finding.Place
	Film        string        // side of the protective film
	Sheets      []ShopSheet   // sheets and coils that can be bought
	Bars        []ShopBar     // formed caps that closers are cut from
	Kerf        length.Length // lost with each cut of a formed cap
	EndTrim     length.Length // off each end of a sheet
	EdgeTrim    length.Length // off each edge of a sheet
	LeastDrop   length.Length // a remainder this long is kept
	Effort      int           // nodes the search for a cutting plan may spend
	Labels      Labels
	Relief      Relief      // where bends end at a weld or in one corner
	PartSheets  []PartSheet // for parts of another metal or thickness
	Machine     *Machine    // nil: not stated
	Bends       []TakenBend // from trial strips
	Strips      bool        // a sheet for trial strips is asked for
	BendOrder   []string    // the shop's own, as "front leg/top"
	Seam        *SeamRules  // nil: not stated
	Etch        Etch
	ClosersFrom ClosersFrom
}

// ClosersFrom is what straight pieces shorter than a stock length are cut from, whoever
// trims them on the roof.
type ClosersFrom int

// A formed cap of stock length that is cut to length after it is bent, or a blank of
// their own that is cut to length from a sheet and then bent.
const (
	FromStock ClosersFrom = iota
	FromSheet
)

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

func (l *Labels) keys(k keys) {
	k.count("columns", &l.Columns, "how many labels stand side by side", "2")
	k.count("rows", &l.Rows, "how many stand one above the other", "5")
	sizes := []string{"width", "height", "left", "top", "across", "down"}
	var c CutLabels
	stated := slices.ContainsFunc(sizes, k.given)
	cut := k.when(stated, "the labels are cut before they are printed").
		or("labels that are cut beforehand need all of " + strings.Join(sizes, ", "))
	cut.length("width", &c.Width, "the width of one label", `4"`)
	cut.length("height", &c.Height, "the height of one label", `2"`)
	cut.lengthOrZero("left", &c.Left, "the first label from the left edge of the sheet", `5/32"`)
	cut.lengthOrZero("top", &c.Top, "the first label from the top edge of the sheet", `1/2"`)
	cut.length("across", &c.Across, "from the left edge of one label to that of the next", `4 3/16"`)
	cut.length("down", &c.Down, "from the top edge of one label to that of the next", `2"`)
	if stated {
		l.Cut = &c
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
			d.errorf("label-small", d.places[at+name],
				"use larger labels", "%s, %s, is less than the %s that a label's words need in letters of 3 mm",
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
			d.errorf("labels-off-sheet", d.places[at+count],
				"measure the label sheet again, or choose its paper in `paper: lists`",
				"the labels end %s from the %s edge, and the sheet, %s, is %s %s", Both(end), side, j.Paper.Lists,
				Both(paper), way)
		}
	}
	fits("columns", g.Columns, c.Left, c.Across, c.Width, wide, "left", "wide")
	fits("rows", g.Rows, c.Top, c.Down, c.Height, high, "top", "high")
}

func (s *Shop) keys(k keys) {
	s.At = k.at
	k.neutralAxis("k_factor", &s.K,
		"where the neutral axis lies, in thicknesses from the inside of the bend: by a bend test, "+
			"or to begin with 0.40 for aluminum, 0.43 to 0.46 for cold-rolled steel, 0.46 to 0.48 for stainless "+
			"(tables after Machinery's Handbook)", "0.40")
	k.text("k_source", &s.KSource, "whose figure that is", "bend test of the shop")
	k.lengthOrZero("least_radius", &s.LeastRadius, "the smallest inside radius the metal takes", `1/32"`)
	k.length("least_flange", &s.LeastFlange, "the narrowest flange the brake holds", `3/8"`)
	k.length("brake", &s.Brake, "the longest bend the brake makes", `12'-0"`)
	k.angle("most_turn", &s.MostTurn, 90*Degree, straight, "the greatest angle the brake bends through", "155")
	k.may().lengthOrZero("weld_gap", &s.WeldGap, "what is left open between the two edges of a welded seam", `1/32"`)
	s.WeldGapAt, s.FlangeAt = k.placeOf("weld_gap"), k.placeOf("least_flange")
	k.may().text("film", &s.Film, "on which side the protective film is", "finish side, out")
	list(k, "sheets", "sheet", &s.Sheets, (*ShopSheet).keys, "the sheets that blanks are cut from")
	word(k.may(), "closers_from", &s.ClosersFrom, []choice[ClosersFrom]{{"stock", FromStock}, {"sheet", FromSheet}},
		"what straight pieces shorter than stock are cut from: formed caps, or blanks of their own and no bars",
		"sheet")
	list(k.may(), "bars", "bar", &s.Bars, (*ShopBar).keys,
		"the formed caps that closers are cut from; otherwise caps of stock length")
	s.BarsAt = k.keyAt("bars")
	s.bendingKeys(k)
	k.lengthOrZero("kerf", &s.Kerf, "what a cut through a formed cap loses", `1/8"`)
	k.lengthOrZero("end_trim", &s.EndTrim, "what comes off each end of a sheet", `0"`)
	k.lengthOrZero("edge_trim", &s.EdgeTrim, "what comes off each edge of a sheet", `1/4"`)
	k.may().length("least_drop", &s.LeastDrop, "how long a remainder must be to be kept", `2'-4"`)
	k.count("effort", &s.Effort, "how many nodes the search for a cutting plan may spend", "400")
	k.may().group("labels", "the grid of a sheet of labels", s.Labels.keys)
	k.may().group("relief", "the relief cut where bends end at a weld or in one corner", s.Relief.keys)
	list(k.may(), "part_sheets", "part sheet", &s.PartSheets, (*PartSheet).keys,
		"the sheets that parts of another metal or thickness are cut from")
}

func (s *ShopSheet) keys(k keys) {
	k.length("width", &s.Width, "the width of the sheet, which is ripped", `48"`)
	k.length("length", &s.Length, "the length of the sheet, along which the grain runs", `12'-0"`)
	k.may().money("price", &s.Price, "what a sheet costs, in the job's money", "96.00")
}

func (b *ShopBar) keys(k keys) {
	k.length("length", &b.Length, "the length of a formed cap", `11'-6"`)
	k.elsewhere("it is a drop in hand").length("inside", &b.Inside, "the inside width of a drop in hand", `13 1/4"`)
	k.may().money("price", &b.Price, "what it costs, in the job's money", "61.50")
	k.may().count("count", &b.Count, "how many are in hand; otherwise as many as wanted", "2")
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
