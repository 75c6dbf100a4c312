package shop

import (
	"copingset/layout/cap"
	"copingset/layout/cut"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// PartLot is the parts of one sheet: one metal, one thickness.
type PartLot struct {
	Metal     string
	Thickness length.Length
	Parts     []*Part
	Stocks    []job.ShopSheet
	Blanks    []PartBlank
	Plan      cut.SheetPlan
}

// PartBlank is the blanks of one part, as many as are made.
type PartBlank struct {
	Part          *Part
	Girth, Length length.Length
	Count         int
}

// CutParts plans the cutting of what parts are released, with their spares,
// each metal and thickness by itself. A sheet the job does not name is a note.
func CutParts(j *job.Job, parts []*Part, held cap.Held) ([]*PartLot, finding.List) {
	var lots []*PartLot
	var found finding.List
	of := func(p *Part) *PartLot {
		for _, l := range lots {
			if l.Metal == p.Metal && l.Thickness == p.Thickness {
				return l
			}
		}
		l := &PartLot{Metal: p.Metal, Thickness: p.Thickness, Stocks: sheetsFor(j, p.Metal, p.Thickness)}
		lots = append(lots, l)
		return l
	}
	for _, p := range parts {
		n, more := p.Make(held)
		if n == 0 {
			continue
		}
		l := of(p)
		l.Parts = append(l.Parts, p)
		for _, b := range p.Bodies {
			l.Blanks = append(l.Blanks, PartBlank{p, b.Girth, b.Length, n + more})
		}
	}
	for _, l := range lots {
		if len(l.Stocks) == 0 {
			found.Notef("part-sheet", j.Shop.At, "write the sheet under `shop: part_sheets:`",
				"parts %s are of %s, %s thick, and the job names no such sheet: their cutting is not planned",
				marks(l.Parts), metalWords(l.Metal), thin(l.Thickness))
			continue
		}
		var stocks []cut.Sheet
		for _, s := range l.Stocks {
			stocks = append(stocks, cut.Sheet{Width: s.Width, Length: s.Length, Price: s.Price})
		}
		var blanks []cut.Blank
		for _, b := range l.Blanks {
			blanks = append(blanks, cut.Blank{Width: b.Girth, Length: b.Length, Count: b.Count})
		}
		plan, err := cut.Sheets(stocks, blanks, cut.SheetRules{EdgeTrim: j.Shop.EdgeTrim,
			Bar: cut.Rules{EndTrim: j.Shop.EndTrim, LeastDrop: j.Shop.LeastDrop, Nodes: j.Shop.Effort}})
		if err != nil {
			found.Notef("no-sheet-plan", j.Shop.At, "add a larger sheet under `shop:`",
				"parts %s have no cutting plan: %v", marks(l.Parts), err)
			continue
		}
		l.Plan = plan
	}
	return lots, found
}

// Areas are what the sheets of a lot measure and what of them becomes blanks,
// in square millimetres.
func (l *PartLot) Areas() (bought, used float64) {
	for _, r := range l.Plan.Sheets {
		s := l.Stocks[r.Stock]
		bought += float64(r.Count) * s.Width.MM() * s.Length.MM()
		for _, q := range r.Strips {
			for _, c := range q.Cuts {
				used += float64(r.Count) * l.Blanks[c].Girth.MM() * l.Blanks[c].Length.MM()
			}
		}
	}
	return bought, used
}

func marks(parts []*Part) string {
	out := ""
	for i, p := range parts {
		if i > 0 {
			out += ", "
		}
		out += p.Mark
	}
	return out
}

func metalWords(m string) string {
	if m == "" {
		return "a metal that is not stated"
	}
	return m
}

// thin letters the thickness of a sheet, and what is as small, in both systems.
func thin(l length.Length) string {
	return length.Decimal(l, 3) + " (" + length.Millimetres(l, 2) + " mm)"
}
