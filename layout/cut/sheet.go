package cut

import (
	"cmp"
	"slices"

	"copingset/layout/length"
)

// Sheet is a sheet that can be bought: its width across, which is ripped, and
// its length, along which strips run. The grain runs along the length.
type Sheet struct {
	Width, Length length.Length
	Price         int64 // of one sheet; with no prices, the area counts
}

// Blank is a flat piece to be cut: its girth lies across the sheet, or where it may be
// turned perhaps along it.
type Blank struct {
	Width, Length length.Length
	Count         int
	Turns         bool
}

// SheetRules are those of the shear: trims of all four edges, and what ripping
// and cutting lose (nothing for a shear).
type SheetRules struct {
	EdgeTrim, Kerf length.Length // across the sheet
	Bar            Rules         // along a strip
}

// Strip is one strip ripped from a sheet, as wide as the widest of its blanks.
type Strip struct {
	Width  length.Length
	Cuts   []int  // indices of the blanks, longest first; then what lies in the rest of it
	Turned []bool // which of them lie turned; nil: none
	Drop   length.Length
	Kept   bool
}

// TurnedAt reports whether a cut of the strip lies turned: its length across.
func (s Strip) TurnedAt(i int) bool { return i < len(s.Turned) && s.Turned[i] }

// Lies is how far a cut of the strip reaches across the sheet and along it.
func (s Strip) Lies(i int, wide, long length.Length) (across, along length.Length) {
	if s.TurnedAt(i) {
		return long, wide
	}
	return wide, long
}

// RippedSheet is one way a sheet is ripped, and how many are ripped so.
type RippedSheet struct {
	Stock  int // index of the sheet
	Strips []Strip
	Count  int
	Rest   length.Length // width left over
}

// SheetPlan is a plan of sheets with its proof.
type SheetPlan struct {
	Sheets []RippedSheet
	Price  int64
	Bound  int64
	Proven bool
}

// Sheets plans the cutting of blanks from sheets in two steps, strips across the width,
// then lengths along each strip. Each size of sheet is tried alone and all together, first
// with strips of one width each; then what lies on a sheet is laid into what others have
// left, in strips as wide or wider, as long as sheets are saved by it. The bound says how
// far the best can be from it, whatever its strips carry.
func Sheets(stocks []Sheet, blanks []Blank, r SheetRules) (SheetPlan, error) {
	priced := slices.ContainsFunc(stocks, func(s Sheet) bool { return s.Price > 0 })
	price := make([]int64, len(stocks))
	for i, s := range stocks {
		price[i] = s.Price
		if !priced { // in tenths of a square millimetre: areas in square nanometres pass 64 bits
			price[i] = mulFloor(int64(s.Width), int64(s.Length), 1e11)
		}
	}
	lie := slices.Clone(blanks) // as they lie in strips of one width
	var turned []bool
	for i, b := range blanks {
		turned = append(turned, b.Turns && !fitsAny(stocks, b.Width, b.Length, r) &&
			fitsAny(stocks, b.Length, b.Width, r))
		if turned[i] {
			lie[i].Width, lie[i].Length = b.Length, b.Width
		}
	}
	byWidth := groups(lie)
	if err := r.tooLong(stocks, lie, byWidth); err != nil {
		return SheetPlan{}, err
	}
	var best SheetPlan
	found := false
	try := func(sizes []int) {
		p, ok := ripped(stocks, price, sizes, lie, byWidth, r)
		if ok && (!found || p.Price < best.Price) {
			best, found = p, true
		}
	}
	all := make([]int, len(stocks))
	for i := range stocks {
		all[i] = i
		try([]int{i})
	}
	if len(stocks) > 1 {
		try(all)
	}
	if !found {
		return SheetPlan{}, &Short{}
	}
	best.turn(turned)
	best.fill(stocks, price, blanks, r)
	best.cheaper(stocks, price, r)
	best.Bound = sheetBound(stocks, price, blanks, r)
	best.Proven = best.Bound >= best.Price
	return best, nil
}

// fitsAny reports whether some sheet takes a blank so wide across and so long.
func fitsAny(stocks []Sheet, wide, long length.Length, r SheetRules) bool {
	return slices.ContainsFunc(stocks, func(s Sheet) bool {
		return wide <= s.Width-2*r.EdgeTrim && long <= s.Length-2*r.Bar.EndTrim
	})
}

// tooLong names the blanks that no sheet takes.
func (r SheetRules) tooLong(stocks []Sheet, blanks []Blank, byWidth [][]int) error {
	for _, g := range byWidth {
		var bars []Stock
		for _, s := range stocks {
			if takes, of := across(s, blanks[g[0]].Width, r); takes <= of {
				bars = append(bars, Stock{Length: s.Length, Price: 1})
			}
		}
		if _, err := Lengths(bars, lengthsOf(blanks, g), Rules{EndTrim: r.Bar.EndTrim, Kerf: r.Bar.Kerf}); err != nil {
			if long, ok := err.(*TooLong); ok {
				for i, j := range long.Items {
					long.Items[i] = g[j]
				}
			}
			return err
		}
	}
	return nil
}

// turn says of the cuts of blanks that fit no other way that they lie turned.
func (p *SheetPlan) turn(turned []bool) {
	for i := range p.Sheets {
		for k := range p.Sheets[i].Strips {
			s := &p.Sheets[i].Strips[k]
			for n, c := range s.Cuts {
				if turned[c] {
					if s.Turned == nil {
						s.Turned = make([]bool, len(s.Cuts))
					}
					s.Turned[n] = true
				}
			}
		}
	}
}

// cheaper moves the strips of a sheet to a cheaper one that holds them.
func (p *SheetPlan) cheaper(stocks []Sheet, price []int64, r SheetRules) {
	for i := range p.Sheets {
		q := &p.Sheets[i]
		from, to := stocks[q.Stock], q.Stock
		spare := from.Length
		for _, s := range q.Strips {
			spare = min(spare, s.Drop)
		}
		for k, s := range stocks {
			if price[k] < price[to] && s.Width >= from.Width-q.Rest && s.Length >= from.Length-spare {
				to = k
			}
		}
		if to == q.Stock {
			continue
		}
		p.Price -= int64(q.Count) * (price[q.Stock] - price[to])
		q.Rest += stocks[to].Width - from.Width
		q.Strips = slices.Clone(q.Strips)
		for k := range q.Strips {
			s := &q.Strips[k]
			s.Drop += stocks[to].Length - from.Length
			s.Kept = r.Bar.LeastDrop > 0 && s.Drop >= r.Bar.LeastDrop
		}
		q.Stock = to
	}
}

// groups lists the indices of the blanks of each width, widest first.
func groups(blanks []Blank) [][]int {
	var out [][]int
	for i, b := range blanks {
		if b.Count <= 0 {
			continue
		}
		at := slices.IndexFunc(out, func(g []int) bool { return blanks[g[0]].Width == b.Width })
		if at < 0 {
			out = append(out, nil)
			at = len(out) - 1
		}
		out[at] = append(out[at], i)
	}
	slices.SortStableFunc(out, func(a, b []int) int { return cmp.Compare(blanks[b[0]].Width, blanks[a[0]].Width) })
	return out
}

// across is what a strip takes of a sheet's width, of `of` in all.
func across(s Sheet, w length.Length, r SheetRules) (takes, of length.Length) {
	return w + r.Kerf, s.Width - 2*r.EdgeTrim + r.Kerf
}

// share is what a strip pays of a sheet's price, by u(k) of its share of the
// width, rounded down.
func share(price, k int64, takes, of length.Length) int64 {
	whole := length.Length(k+1) * takes
	if k == 0 || whole%of == 0 {
		return mulFloor(price, int64(takes), int64(of))
	}
	return price * int64(whole/of) / k
}

// leastPurchase is the least that whole sheets cost that cost no less than a
// bound.
func leastPurchase(price []int64, bound int64) int64 {
	prices := slices.Clone(price)
	slices.Sort(prices)
	prices = slices.Compact(prices)
	const most = 200000 // sums looked at; beyond, only what they are multiples of counts
	sums := int64(1)
	for _, c := range prices {
		if c <= 0 || bound <= 0 {
			return max(bound, 0)
		}
		if sums *= bound/c + 2; sums > most {
			step := length.Length(0)
			for _, c := range prices {
				step = gcd(step, length.Length(c))
			}
			return (bound + int64(step) - 1) / int64(step) * int64(step)
		}
	}
	best := (bound + prices[0] - 1) / prices[0] * prices[0]
	var visit func(i int, spent int64)
	visit = func(i int, spent int64) {
		if spent >= bound {
			best = min(best, spent)
			return
		}
		if i == 0 {
			best = min(best, spent+(bound-spent+prices[0]-1)/prices[0]*prices[0])
			return
		}
		for ; ; spent += prices[i] {
			visit(i-1, spent)
			if spent >= bound {
				return
			}
		}
	}
	visit(len(prices)-1, 0)
	return best
}

func lengthsOf(blanks []Blank, g []int) []Item {
	items := make([]Item, len(g))
	for i, b := range g {
		items[i] = Item{blanks[b].Length, blanks[b].Count}
	}
	return items
}

// ripped plans with some of the sizes alone.
func ripped(
	stocks []Sheet,
	price []int64,
	sizes []int,
	blanks []Blank,
	byWidth [][]int,
	r SheetRules,
) (SheetPlan, bool) {
	strips := make([][]Strip, len(stocks)) // by sheet
	for _, g := range byWidth {
		w := blanks[g[0]].Width
		var bars []Stock
		var of []int
		for _, i := range sizes {
			if takes, room := across(stocks[i], w, r); takes <= room {
				// A strip costs what keeps others from the sheet: its share where
				// strips side by side fill the width.
				bars = append(bars, Stock{Length: stocks[i].Length, Price: max(1, price[i]/int64(room/takes))})
				of = append(of, i)
			}
		}
		p, err := Lengths(bars, lengthsOf(blanks, g), r.Bar)
		if err != nil {
			return SheetPlan{}, false
		}
		for _, b := range p.Bars {
			s := Strip{Width: w, Drop: b.Drop, Kept: b.Kept}
			for _, c := range b.Cuts {
				s.Cuts = append(s.Cuts, g[c])
			}
			for range b.Count {
				strips[of[b.Stock]] = append(strips[of[b.Stock]], s)
			}
		}
	}
	var out SheetPlan
	for i := range stocks {
		items := make([]Item, len(strips[i]))
		for j, s := range strips[i] {
			items[j] = Item{s.Width, 1}
		}
		rules := Rules{Kerf: r.Kerf, EndTrim: r.EdgeTrim, Nodes: r.Bar.Nodes}
		p, err := Lengths([]Stock{{Length: stocks[i].Width, Price: 1}}, items, rules)
		if err != nil {
			return SheetPlan{}, false
		}
		out.Price += p.Price * price[i]
		for _, b := range p.Bars {
			s := RippedSheet{Stock: i, Count: 1, Rest: b.Drop}
			for _, c := range b.Cuts {
				s.Strips = append(s.Strips, strips[i][c])
			}
			for range b.Count {
				if n := len(out.Sheets); n > 0 && alike(out.Sheets[n-1], s) {
					out.Sheets[n-1].Count++
					continue
				}
				out.Sheets = append(out.Sheets, s)
			}
		}
	}
	return out, true
}

func alike(a, b RippedSheet) bool {
	return a.Stock == b.Stock && slices.EqualFunc(a.Strips, b.Strips, func(p, q Strip) bool {
		return p.Width == q.Width && slices.Equal(p.Cuts, q.Cuts) && slices.Equal(p.Turned, q.Turned)
	})
}
