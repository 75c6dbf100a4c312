package shop

import (
	"cmp"
	"errors"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Lot is what is cut from one lot of finish: the pieces of one elevation, or all
// pieces that are finished after they are joined, from bare sheets.
type Lot struct {
	Elevation string // as the job names it; may be empty
	Bare      string // what its blanks are, where its pieces are finished after they are joined
	Bars      []BarOrder
	Blanks    []Blank
	Sheets    cut.SheetPlan
}

// BarOrder is the closers of one inside width, cut from formed caps.
type BarOrder struct {
	Inside  length.Length
	Closers []*cap.Piece
	Stocks  []cut.Stock
	Caps    []*Part // of the stocks: formed caps the shop makes; nil of a drop in hand
	Plan    cut.Plan
}

// Blank is a flat sheet to be sheared: of a body, or of a formed cap that
// closers are then cut from.
type Blank struct {
	Family *Family // nil: of a part
	Part   *Part   // a formed cap, or a small part that is cut from what the caps leave
	Body   int
	Girth  length.Length
	Length length.Length
	Count  int
}

// Order is the cutting plan of a job: lots in the order of its runs.
type Order struct {
	Lots    []Lot
	LeftOut []*cap.Piece // not released, so in no plan
	Formed  []*Part      // formed caps that closers are cut from
	// Blank and sheet areas in square millimetres, for the yield.
	Used, Bought float64

	routes map[*cap.Piece]Route // look-up only
}

// Route is what a released piece is cut from.
func (o *Order) Route(p *cap.Piece) Route { return o.routes[p] }

// Mark is that of what a blank is of.
func (b Blank) Mark() string {
	if b.Family == nil {
		return b.Part.Mark
	}
	return b.Family.Mark
}

// Cut plans the cutting of what is released. Closers come from formed caps, or where the
// job says so from sheets like all else; formed caps have the shop marks after those of
// so many parts. What cannot be planned is a finding on the lot.
func Cut(j *job.Job, families []*Family, parts int, held cap.Held) (*Order, finding.List) {
	if j.Shop == nil {
		return nil, nil
	}
	o := orderer{j: j, shop: j.Shop, step: Step(j.Units == job.Metric), held: held,
		out: &Order{routes: map[*cap.Piece]Route{}}}
	type name struct{ elevation, bare string }
	number := map[name]int{} // of a lot, to look it up only
	var of [][]share         // by lot
	for _, f := range families {
		for _, p := range f.Pieces {
			if !o.held.Released(p) {
				o.out.LeftOut = append(o.out.LeftOut, p)
				continue
			}
			l := o.lotOf(p)
			i, known := number[name{l.Elevation, l.Bare}]
			if !known {
				i = len(of)
				number[name{l.Elevation, l.Bare}] = i
				o.out.Lots, of = append(o.out.Lots, l), append(of, nil)
			}
			if n := len(of[i]); n == 0 || of[i][n-1].of != f {
				of[i] = append(of[i], share{of: f})
			}
			s := &of[i][len(of[i])-1]
			s.pieces = append(s.pieces, p)
		}
	}
	o.drops()
	for i := range o.out.Lots {
		o.lot(&o.out.Lots[i], of[i])
	}
	for i, p := range o.out.Formed {
		p.Mark = itoa(partsFrom(len(families)) + parts + i)
	}
	o.out.areas(o.shop)
	return o.out, o.found
}

// share is what of a family is cut from one lot.
type share struct {
	of     *Family
	pieces []*cap.Piece
}

// lotOf is the lot that a piece is cut from, without what is in it.
func (o *orderer) lotOf(p *cap.Piece) Lot {
	elevation, after := cap.Elevation(p.Lot)
	if after { // bare sheets are alike: a lot of finish begins with the finisher
		return Lot{Bare: o.shop.Seam.Bare}
	}
	return Lot{Elevation: elevation}
}

// made is the length a piece is shipped at.
func made(p *cap.Piece) length.Length { return p.Length() + p.Allowance }

type orderer struct {
	j      *job.Job
	shop   *job.Shop
	step   length.Length
	held   cap.Held
	out    *Order
	found  finding.List
	inHand []job.ShopBar // drops not yet used
}

func (o *orderer) drops() {
	for _, b := range o.shop.Bars {
		if b.Count > 0 {
			o.inHand = append(o.inHand, b)
		}
	}
}

// lot plans one lot from its shares, which are in the order of the families.
func (o *orderer) lot(l *Lot, shares []share) {
	var widths []length.Length
	closers := map[length.Length][]*cap.Piece{} // look-up only
	for _, s := range shares {
		for _, p := range s.pieces {
			if !o.fromStock(s.of, p) {
				continue
			}
			if closers[p.Inside] == nil {
				widths = append(widths, p.Inside)
			}
			closers[p.Inside] = append(closers[p.Inside], p)
		}
	}
	slices.Sort(widths)
	for _, w := range widths {
		o.bars(l, w, closers[w])
	}
	for _, s := range shares {
		n := 0
		for _, p := range s.pieces {
			if o.out.Route(p).FromSheet() {
				n++
			}
		}
		for i, b := range s.of.Bodies {
			if n > 0 {
				l.Blanks = append(l.Blanks, Blank{Family: s.of, Body: i, Girth: b.Girth, Length: b.Length, Count: n})
			}
		}
	}
	o.sheets(l)
}

// bars plans the closers of one width. Where no formed cap gives them they have blanks of
// their own.
func (o *orderer) bars(l *Lot, inside length.Length, closers []*cap.Piece) {
	b := BarOrder{Inside: inside, Closers: closers}
	var from []taken
	for i, d := range o.inHand {
		if d.Inside == inside && d.Count > 0 {
			from = append(from, taken{cut.Stock{Length: d.Length, Price: d.Price, Count: d.Count}, i})
		}
	}
	bought := false
	for _, d := range o.shop.Bars {
		if d.Count == 0 {
			from = append(from, taken{cut.Stock{Length: d.Length, Price: d.Price}, -1})
			bought = true
		}
	}
	if !bought {
		from = append(from, taken{cut.Stock{Length: o.j.System.Stock}, -1})
	}
	for _, s := range from {
		b.Stocks = append(b.Stocks, s.Stock)
	}
	items := make([]cut.Item, len(closers))
	for i, p := range closers {
		items[i] = cut.Item{Length: made(p), Count: 1}
	}
	// A formed cap has no ends to trim: the shop squares it when it is bent.
	plan, err := cut.Lengths(b.Stocks, items, cut.Rules{Kerf: o.shop.Kerf, LeastDrop: o.shop.LeastDrop,
		Nodes: o.shop.Effort})
	if err != nil {
		o.cannot("no-bar", "closers of "+job.Both(inside)+" inside have blanks of their own, for no formed cap "+
			"gives them", err, closers)
		return
	}
	b.Plan = plan
	if o.route(l, &b, from) {
		l.Bars = append(l.Bars, b)
	}
}

// sheets plans the blanks of a lot.
func (o *orderer) sheets(l *Lot) {
	slices.SortStableFunc(l.Blanks, func(a, b Blank) int {
		return cmp.Or(cmp.Compare(b.Girth, a.Girth), cmp.Compare(b.Length, a.Length))
	})
	var blanks []cut.Blank
	for _, b := range l.Blanks {
		blanks = append(blanks, cut.Blank{Width: b.Girth, Length: b.Length, Count: b.Count, Turns: turns(o.j)})
	}
	if len(blanks) == 0 {
		return
	}
	plan, err := cut.Sheets(sheetsOf(o.shop.Sheets), blanks, rulesOf(o.shop))
	if err != nil {
		o.cannot("no-sheet-plan", "blanks of elevation "+l.Elevation+" have no cutting plan", err, nil)
		return
	}
	l.Sheets = plan
}

// turns reports whether blanks may be turned on their sheet.
func turns(j *job.Job) bool { return !j.System.Metal.Directional }

func sheetsOf(all []job.ShopSheet) []cut.Sheet {
	var out []cut.Sheet
	for _, s := range all {
		out = append(out, cut.Sheet{Width: s.Width, Length: s.Length, Price: s.Price})
	}
	return out
}

// rulesOf are the shop's for sheets.
func rulesOf(s *job.Shop) cut.SheetRules {
	return cut.SheetRules{EdgeTrim: s.EdgeTrim, Bar: cut.Rules{EndTrim: s.EndTrim, LeastDrop: s.LeastDrop,
		Nodes: s.Effort}}
}

// areas reckons what the sheets of all lots measure and what of them becomes blanks.
func (o *Order) areas(s *job.Shop) {
	o.Used, o.Bought = 0, 0
	for _, l := range o.Lots {
		for _, r := range l.Sheets.Sheets {
			o.Bought += float64(r.Count) * s.Sheets[r.Stock].Width.MM() * s.Sheets[r.Stock].Length.MM()
			for _, q := range r.Strips {
				for _, c := range q.Cuts {
					o.Used += float64(r.Count) * l.Blanks[c].Girth.MM() * l.Blanks[c].Length.MM()
				}
			}
		}
	}
}

func (o *orderer) cannot(code, what string, err error, pieces []*cap.Piece) {
	mend := "add a longer bar or sheet under `shop:`"
	if short := (*cut.Short)(nil); errors.As(err, &short) {
		mend = "name a formed cap under `shop: bars:` that can be bought, without a count"
	}
	var marks []string
	for _, p := range pieces {
		marks = append(marks, p.Mark)
	}
	o.found.Append(finding.Finding{Code: code, Severity: finding.Note, At: o.shop.At,
		Where: finding.Ref{Pieces: marks}, What: what + ": " + err.Error(), Mend: mend})
}
