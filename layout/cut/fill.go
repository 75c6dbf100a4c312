package cut

import (
	"cmp"
	"math"
	"slices"

	"copingset/layout/length"
)

// opened are the sheets of a plan one by one, with what is left of them.
func (p SheetPlan) opened() []RippedSheet {
	var out []RippedSheet
	for _, s := range p.Sheets {
		for range s.Count {
			one := s
			one.Count = 1
			out = append(out, one.clone())
		}
	}
	return out
}

func (s RippedSheet) clone() RippedSheet {
	s.Strips = slices.Clone(s.Strips)
	for i := range s.Strips {
		s.Strips[i].Cuts, s.Strips[i].Turned = slices.Clone(s.Strips[i].Cuts), slices.Clone(s.Strips[i].Turned)
	}
	return s
}

// closed counts sheets that are cut alike together.
func (p *SheetPlan) closed(all []RippedSheet) {
	p.Sheets = nil
	for _, s := range all {
		at := slices.IndexFunc(p.Sheets, func(q RippedSheet) bool { return alike(q, s) })
		if at >= 0 {
			p.Sheets[at].Count++
			continue
		}
		p.Sheets = append(p.Sheets, s)
	}
}

// used is the area of the blanks on a sheet, in square millimetres.
func (s RippedSheet) used(blanks []Blank) float64 {
	var out float64
	for _, q := range s.Strips {
		for _, c := range q.Cuts {
			out += blanks[c].Width.MM() * blanks[c].Length.MM()
		}
	}
	return out
}

// fill clears sheets whose blanks all find room in what others have left, those with the
// least on them first.
func (p *SheetPlan) fill(stocks []Sheet, price []int64, blanks []Blank, r SheetRules) {
	const most = 300 // sheets
	all := p.opened()
	if len(all) < 2 || len(all) > most {
		return
	}
	for again := true; again; {
		again = false
		order := make([]int, len(all))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int {
			return cmp.Compare(all[a].used(blanks), all[b].used(blanks))
		})
		for _, i := range order {
			if rest, ok := cleared(all, i, stocks, blanks, r); ok {
				p.Price -= price[all[i].Stock]
				all, again = rest, true
				break
			}
		}
	}
	p.closed(all)
}

// cleared lays the blanks of one sheet into what the others have left, the widest first.
func cleared(all []RippedSheet, clear int, stocks []Sheet, blanks []Blank, r SheetRules) ([]RippedSheet, bool) {
	var rest []RippedSheet
	for i, s := range all {
		if i != clear {
			rest = append(rest, s.clone())
		}
	}
	var cuts []int
	for _, s := range all[clear].Strips {
		cuts = append(cuts, s.Cuts...)
	}
	slices.SortStableFunc(cuts, func(a, b int) int {
		return cmp.Or(cmp.Compare(blanks[b].Width, blanks[a].Width), cmp.Compare(blanks[b].Length, blanks[a].Length))
	})
	for _, c := range cuts {
		if !lay(rest, c, blanks[c], stocks, r) {
			return nil, false
		}
	}
	return rest, true
}

// lay puts one blank where it wastes the least: into the rest of a strip, or as the first
// of a new strip in what is left of a sheet's width.
func lay(sheets []RippedSheet, index int, b Blank, stocks []Sheet, r SheetRules) bool {
	least, at, into, turned := math.Inf(1), -1, 0, false
	for i := range sheets {
		s := &sheets[i]
		usable := stocks[s.Stock].Length - 2*r.Bar.EndTrim
		look := func(wide, long length.Length, turn bool) {
			for k, q := range s.Strips {
				if waste := (q.Width - wide).MM() * long.MM(); wide <= q.Width && long <= q.Drop && waste < least {
					least, at, into, turned = waste, i, k, turn
				}
			}
			if waste := wide.MM() * (usable - long).MM(); wide <= s.Rest && long <= usable && waste < least {
				least, at, into, turned = waste, i, len(s.Strips), turn
			}
		}
		look(b.Width, b.Length, false)
		if b.Turns {
			look(b.Length, b.Width, true)
		}
	}
	if at < 0 {
		return false
	}
	s := &sheets[at]
	wide, long := b.Width, b.Length
	if turned {
		wide, long = long, wide
	}
	if into == len(s.Strips) {
		s.Strips = append(s.Strips, Strip{Width: wide, Drop: stocks[s.Stock].Length - 2*r.Bar.EndTrim})
		s.Rest = max(0, s.Rest-wide-r.Kerf)
	}
	q := &s.Strips[into]
	q.Cuts = append(q.Cuts, index)
	if turned || q.Turned != nil {
		q.Turned = append(q.Turned, make([]bool, len(q.Cuts)-len(q.Turned))...)
		q.Turned[len(q.Cuts)-1] = turned
	}
	q.Drop = max(0, q.Drop-long-r.Bar.Kerf)
	q.Kept = r.Bar.LeastDrop > 0 && q.Drop >= r.Bar.LeastDrop
	return true
}

// More cuts further blanks from what a plan leaves of its sheets, of each as many as find
// room, the widest first. Their indices begin at `first`. It returns how many of each.
func (p SheetPlan) More(stocks []Sheet, more []Blank, first int, r SheetRules) (SheetPlan, []int) {
	all := p.opened()
	placed := make([]int, len(more))
	order := make([]int, len(more))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(more[b].Width, more[a].Width), cmp.Compare(more[b].Length, more[a].Length))
	})
	for _, i := range order {
		for placed[i] < more[i].Count && lay(all, first+i, more[i], stocks, r) {
			placed[i]++
		}
	}
	p.closed(all)
	return p, placed
}
