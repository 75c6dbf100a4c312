package shop

import (
	"slices"

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
	Offcuts   []PartBlank // cut from what the sheets of the caps leave
}

// PartBlank is the blanks of one part, as many as are made.
type PartBlank struct {
	Part          *Part
	Girth, Length length.Length
	Count         int
}

// CutParts plans the cutting of what parts are released, with their spares,
// each metal and thickness by itself: from what the caps leave of their own sheets where
// that saves one, else from sheets. A sheet the job does not name is a note.
func CutParts(j *job.Job, parts []*Part, held cap.Held, caps *Order) ([]*PartLot, finding.List) {
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
		plan, err := l.plan(j)
		if err != nil {
			found.Notef("no-sheet-plan", j.Shop.At, "add a larger sheet under `shop:`",
				"parts %s have no cutting plan: %v", marks(l.Parts), err)
			continue
		}
		l.Plan = plan
		l.offcuts(j, caps)
	}
	caps.areas(j.Shop)
	return lots, found
}

func (l *PartLot) plan(j *job.Job) (cut.SheetPlan, error) {
	blanks := partBlanks(j, l.Blanks)
	if len(blanks) == 0 {
		return cut.SheetPlan{Proven: true}, nil
	}
	return cut.Sheets(sheetsOf(l.Stocks), blanks, rulesOf(j.Shop))
}

func partBlanks(j *job.Job, all []PartBlank) []cut.Blank {
	var out []cut.Blank
	for _, b := range all {
		out = append(out, cut.Blank{Width: b.Girth, Length: b.Length, Count: b.Count, Turns: turns(j)})
	}
	return out
}

// offcuts cuts parts of the caps' own metal, thickness and finish from what the caps leave
// of their sheets, where the sheets that parts take then cost less. Sheets that are
// finished after joining are not of that finish.
func (l *PartLot) offcuts(j *job.Job, caps *Order) {
	m := &j.System.Metal
	if l.Metal != m.Name || l.Thickness != m.Thickness {
		return
	}
	left := slices.Clone(l.Blanks)
	lots := slices.Clone(caps.Lots)
	var taken []PartBlank
	for i := range lots {
		lot := &lots[i]
		if lot.Bare != "" || len(lot.Sheets.Sheets) == 0 {
			continue
		}
		plan, placed := lot.Sheets.More(sheetsOf(j.Shop.Sheets), partBlanks(j, left), len(lot.Blanks), rulesOf(j.Shop))
		lot.Sheets, lot.Blanks = plan, slices.Clone(lot.Blanks)
		for k, n := range placed {
			b := left[k]
			b.Count = n
			lot.Blanks = append(lot.Blanks, Blank{Part: b.Part, Girth: b.Girth, Length: b.Length, Count: n})
			left[k].Count -= n
			taken = append(taken, b)
		}
	}
	rest := PartLot{Stocks: l.Stocks, Blanks: slices.DeleteFunc(left, func(b PartBlank) bool { return b.Count == 0 })}
	plan, err := rest.plan(j)
	if err != nil || plan.Price >= l.Plan.Price {
		return
	}
	l.Blanks, l.Plan = rest.Blanks, plan
	for _, b := range taken {
		at := slices.IndexFunc(l.Offcuts, func(q PartBlank) bool { return q.Part == b.Part })
		switch {
		case b.Count == 0:
		case at >= 0:
			l.Offcuts[at].Count += b.Count
		default:
			l.Offcuts = append(l.Offcuts, b)
		}
	}
	for i := range lots {
		lots[i].tidy()
	}
	caps.Lots = lots
}

// tidy takes out blanks of which there are none.
func (l *Lot) tidy() {
	to := make([]int, len(l.Blanks))
	var kept []Blank
	for i, b := range l.Blanks {
		to[i] = len(kept)
		if b.Count > 0 {
			kept = append(kept, b)
		}
	}
	if len(kept) == len(l.Blanks) {
		return
	}
	l.Blanks = kept
	for i := range l.Sheets.Sheets {
		for k := range l.Sheets.Sheets[i].Strips {
			cuts := l.Sheets.Sheets[i].Strips[k].Cuts
			for n := range cuts {
				cuts[n] = to[cuts[n]]
			}
		}
	}
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
