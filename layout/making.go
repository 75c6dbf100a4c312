package layout

import (
	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/finding"
	"copingset/layout/shop"
)

// The types of the shop's room.
type (
	Family = shop.Family
	Body   = shop.Body
	Bend   = shop.Bend
	Order  = shop.Order
	Drill  = shop.Drill
)

// Weight is what a piece weighs, and how it is lifted by that.
type Weight struct {
	Laid    int64 // grams, without its allowance
	Shipped int64 // grams, with it
	Lift    cap.Lift
}

// Weight of a piece: by its flat pattern, or by its girth where it has none.
func (l *Layout) Weight(p *Piece) Weight { return l.weights[p] }

func (l *Layout) weigh(p *Piece, shipped int64) {
	over := cap.AllowanceGrams(&l.Job.System, p)
	l.weights[p] = Weight{Laid: shipped - over, Shipped: shipped, Lift: cap.LiftOf(&l.Job.Site, shipped, p.Shipped())}
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
			l.weigh(q, cap.Weight(&l.Job.System, q)+cap.AllowanceGrams(&l.Job.System, q))
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
	order, found := shop.Cut(l.Job, l.Families, l.Held)
	l.Cutting = order
	l.Findings.Append(found...)
	if l.Job.Shop != nil {
		l.PartLots, found = shop.CutParts(l.Job, l.Parts, l.Held)
		l.Findings.Append(found...)
	}
	l.Findings.Sort()
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
