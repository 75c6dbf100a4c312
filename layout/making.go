package layout

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// The types of the shop's room.
type (
	Family = shop.Family
	Body   = shop.Body
	Bend   = shop.Bend
	Order  = shop.Order
	Drill  = shop.Drill

	CutStrip = cut.Strip // of a sheet
)

// Weight is what a piece weighs, and how it is lifted by that.
type Weight struct {
	Laid    int64 // grams, without its allowance
	Shipped int64 // grams, with it
	Lift    cap.Lift
}

// Weight of a piece: by its flat pattern, or by its girth where it has none.
func (l *Layout) Weight(p *Piece) Weight { return l.weights[p] }

// Girth of the metal of a part of a piece, the width of the sheet it is bent from: of
// a leg of a corner of two widths and the stub of a tee their own, of a transition
// that of its mean width.
func (l *Layout) Girth(t cap.Part) length.Length {
	s := &l.Job.System
	if t.Piece.Kind == cap.Transition {
		return l.GirthOf(t.Piece)
	}
	return shop.Girth(l.Job, t.Slope(s), t.Inside()+2*s.Metal.Thickness)
}

// GirthOf a piece: that of its mean width.
func (l *Layout) GirthOf(p *Piece) length.Length {
	s := &l.Job.System
	return shop.Girth(l.Job, s.Profile.TopSlope, p.Mean()+2*s.Metal.Thickness)
}

// grams is what sheet of a girth and a length weighs.
func (l *Layout) grams(girth length.Length, long float64) float64 {
	m := &l.Job.System.Metal
	return girth.MM() * m.Thickness.MM() * long * m.Density / 1e6 // kg/m3 = g per 1e6 mm3
}

// plainGrams is the weight of a piece as laid that has no flat pattern: each part by
// its girth and the mean of its front and rear lengths.
func (l *Layout) plainGrams(p *Piece) int64 {
	var out float64
	for i, q := range p.Parts {
		out += l.grams(l.Girth(q), (q.Length().MM()+p.RearLength(i).MM())/2)
	}
	return int64(math.Round(out))
}

// allowanceGrams is the weight of what is cut off a piece on the roof.
func (l *Layout) allowanceGrams(p *Piece) int64 {
	return int64(math.Round(l.grams(l.GirthOf(p), p.Allowance.MM())))
}

func (l *Layout) weigh(p *Piece, shipped int64) {
	over := l.allowanceGrams(p)
	l.weights[p] = Weight{Laid: shipped - over, Shipped: shipped, Lift: cap.LiftOf(&l.Job.Site, shipped, p.Shipped())}
}

// barsUnused tells of formed caps in a job that cuts its closers from none.
func (l *Layout) barsUnused() finding.List {
	s := l.Job.Shop
	if s == nil || len(s.Bars) == 0 || s.ClosersFrom != job.FromSheet {
		return nil
	}
	return finding.List{finding.New(finding.Note, "bars-unused", s.BarsAt,
		"leave them out, or write `closers_from: stock`",
		"shop.bars names formed caps, and `closers_from: sheet` cuts every closer from a sheet: none of them is used")}
}

// families makes flat patterns before anything is released: a piece that the
// shop cannot bend is on hold like any other. Where a piece has a pattern, the
// pattern weighs it, and it is of the piece as it ships.
func (l *Layout) families() finding.List {
	var all [][]*Piece
	l.weights = map[*Piece]Weight{}
	for _, p := range l.Perimeters {
		all = append(all, p.Pieces)
		for _, q := range p.Pieces {
			l.weigh(q, l.plainGrams(q)+l.allowanceGrams(q))
		}
	}
	families, found := shop.Build(l.Job, all)
	l.Families = families
	for _, f := range families {
		if len(f.Bodies) == 0 {
			continue
		}
		for _, q := range f.Pieces {
			l.weigh(q, f.Grams)
		}
	}
	return found
}

// cutting plans the cutting of what has been released.
func (l *Layout) cutting() {
	order, found := shop.Cut(l.Job, l.Families, len(l.Parts), l.Held)
	l.Cutting = order
	l.Findings.Append(found...)
	if l.Job.Shop != nil {
		l.PartLots, found = shop.CutParts(l.Job, l.Parts, l.Held, order)
		l.Findings.Append(found...)
		l.Parts = append(l.Parts, order.Formed...)
	}
	l.Findings.Sort()
}

// FromSheet are the released pieces of a family that have blanks of their own, in the
// family's order; its others are cut from formed caps.
func (l *Layout) FromSheet(f *Family) []*Piece {
	var out []*Piece
	for _, p := range f.Pieces {
		if l.Held.Released(p) && l.Cutting.Route(p).FromSheet() {
			out = append(out, p)
		}
	}
	return out
}

// CutFrom is what a piece is cut from.
func (l *Layout) CutFrom(p *Piece) plan.CutFrom {
	if l.Cutting == nil || !l.Held.Released(p) {
		return plan.CutFrom{}
	}
	r := l.Cutting.Route(p)
	return plan.CutFrom{Known: true, Sheet: r.FromSheet(), Cap: capMark(r.Cap)}
}

// CutAll plans the cutting of all pieces, as if none were on hold: what a bid counts.
// It is nil where the job states no shop.
func (l *Layout) CutAll() *shop.Order {
	order, _ := shop.Cut(l.Job, l.Families, len(l.Parts), cap.Held{})
	return order
}

// FamilyOf is the family a piece is made with; nil where the job does not say
// how the shop bends.
func (l *Layout) FamilyOf(p *Piece) *Family {
	for _, f := range l.Families {
		for _, q := range f.Pieces {
			if q == p {
				return f
			}
		}
	}
	return nil
}

// CutAreas are what a lot's sheets measure and what of them becomes blanks, in
// square millimetres.
func (l *Layout) CutAreas(lot *shop.Lot) (bought, used float64) {
	for _, r := range lot.Sheets.Sheets {
		b, u := l.sheetAreas(lot, r)
		bought += float64(r.Count) * b
		used += float64(r.Count) * u
	}
	return bought, used
}

// sheetAreas are those of one sheet.
func (l *Layout) sheetAreas(lot *shop.Lot, r cut.RippedSheet) (bought, used float64) {
	s := l.Job.Shop.Sheets[r.Stock]
	for _, q := range r.Strips {
		for _, c := range q.Cuts {
			used += lot.Blanks[c].Girth.MM() * lot.Blanks[c].Length.MM()
		}
	}
	return s.Width.MM() * s.Length.MM(), used
}
