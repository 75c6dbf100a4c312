// Package cut plans how ordered lengths are cut from stock, and how strips are
// ripped from sheet or coil.
//
// Lengths solves the one-dimensional cutting stock problem: every item is cut,
// at least total price of the stock used. It is solved by column generation
// (Gilmore and Gomory, Operations Research 9, 1961, and 11, 1963): a linear
// programme over cutting patterns whose columns are found by a knapsack. The
// lower bound of that programme is proved again in whole numbers, so that no
// rounding error can make a plan look proven that is not. Plans come from
// constructive rules, which a first bound by length often proves at once, from
// diving through the linear programme and, where the last bar is in doubt, from
// an exhaustive search; with several stocks, from going through the purchases
// that could be cheaper. Effort is limited by a number of nodes, never by time:
// the same order gives the same plan.
//
// Sheets rips strips of a width from sheets and cuts each strip to lengths; a
// strip carries one width only.
//
// The package knows lengths and nothing of coping; callers refer to their
// items by index.
package cut

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/layout/length"
)

// Item is a length to be cut, so many times.
type Item struct {
	Length length.Length
	Count  int
}

// Stock is a bar length that can be bought, or, with a Count, one that is in
// hand (a drop of an earlier job) so many times.
type Stock struct {
	Length length.Length
	Price  int64 // of one bar, in thousandths of the job's money; 0 in hand
	Count  int   // how many there are; 0: as many as wanted
}

// Rules of the saw.
type Rules struct {
	Kerf      length.Length // lost with each cut
	EndTrim   length.Length // cut off each end of a bar before use
	LeastDrop length.Length // a remainder this long is kept
	// of the search that may be spent on a plan; one is a linear programme of some hundred different lengths, a few
	// milliseconds
	Nodes int
}

// Bar is one way a bar is cut, and how many bars are cut so.
type Bar struct {
	Stock int   // index of the stock
	Cuts  []int // indices of the items, longest first
	Count int
	Drop  length.Length // what is left of each bar, its end trims taken off
	Kept  bool          // the drop is long enough to keep
}

// Plan is a cutting plan with its proof.
type Plan struct {
	Bars  []Bar
	Price int64 // of the bars used; with no prices, their total length in nanometres
	// Bound is what no plan can go below. A plan whose Price equals it is
	// proven to be the best.
	Bound  int64
	Proven bool
	Nodes  int // spent
}

// Used counts the bars of each stock.
func (p *Plan) Used(stocks int) []int {
	n := make([]int, stocks)
	for _, b := range p.Bars {
		n[b.Stock] += b.Count
	}
	return n
}

// TooLong says which items fit no stock.
type TooLong struct{ Items []int }

func (e *TooLong) Error() string {
	return fmt.Sprintf("%d items are longer than every stock", len(e.Items))
}

// Short says that what is in hand does not suffice and nothing can be bought.
type Short struct{}

func (*Short) Error() string {
	return "the stock in hand does not suffice, and none is offered for sale"
}

// Lengths plans the cutting of items from bars. Where no stock has a price,
// the total length of the bars is what is least. The error is a *TooLong or a
// *Short.
func Lengths(stocks []Stock, items []Item, r Rules) (Plan, error) {
	p, err := newProblem(stocks, items, r)
	if err != nil || len(p.types) == 0 {
		return Plan{Proven: true}, err
	}
	return p.solve()
}

// A problem is the order in whole units: equal lengths joined, the kerf taken
// into the weights, so that a pattern fits when its weights sum to no more
// than the capacity.
type problem struct {
	rules  Rules
	stocks []bar
	types  []kind // longest first
	unit   length.Length
	step   int64   // every price is a multiple of it
	counts [][]int // by kind: how many of each of its items
	nodes  int     // left
}

type bar struct {
	index    int
	capacity int64 // units
	price    int64
	count    int
}

// plenty is the count of a stock that can be bought.
const plenty = 1 << 40

func limited(count int) bool { return count < plenty/2 }

type kind struct {
	weight int64 // units, kerf included
	demand int
	items  []int // indices of the caller's items of this length
}

func newProblem(stocks []Stock, items []Item, r Rules) (*problem, error) {
	p := &problem{rules: r, nodes: r.Nodes}
	order := make([]int, 0, len(items))
	for i, it := range items {
		if it.Count > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(items[b].Length, items[a].Length) })
	var longest length.Length
	priced := slices.ContainsFunc(stocks, func(s Stock) bool { return s.Price > 0 })
	capacity := func(s Stock) length.Length { return s.Length - 2*r.EndTrim + r.Kerf }
	unit := length.Length(0)
	for i, s := range stocks {
		if c := capacity(s); c > 0 {
			longest = max(longest, c)
			price := s.Price
			if !priced {
				price = int64(s.Length)
			}
			count := s.Count
			if count == 0 {
				count = plenty
			}
			p.stocks = append(p.stocks, bar{index: i, capacity: int64(c), price: price, count: count})
			unit = gcd(unit, c)
		}
	}
	var long TooLong
	for _, i := range order {
		w := items[i].Length + r.Kerf
		if w > longest {
			long.Items = append(long.Items, i)
			continue
		}
		unit = gcd(unit, w)
		if n := len(p.types); n > 0 && p.types[n-1].weight == int64(w) {
			p.types[n-1].demand += items[i].Count
			p.types[n-1].items = append(p.types[n-1].items, i)
			p.counts[n-1] = append(p.counts[n-1], items[i].Count)
			continue
		}
		p.types = append(p.types, kind{weight: int64(w), demand: items[i].Count, items: []int{i}})
		p.counts = append(p.counts, []int{items[i].Count})
	}
	if len(long.Items) > 0 {
		return nil, &long
	}
	p.unit = max(unit, 1)
	for _, s := range p.stocks {
		p.step = int64(gcd(length.Length(p.step), length.Length(s.price)))
	}
	for i := range p.stocks {
		p.stocks[i].capacity /= int64(p.unit)
	}
	for i := range p.types {
		p.types[i].weight /= int64(p.unit)
	}
	// Longest stock first, cheaper before dearer, for a stable order.
	slices.SortStableFunc(p.stocks, func(a, b bar) int {
		return cmp.Or(cmp.Compare(b.capacity, a.capacity), cmp.Compare(a.price, b.price))
	})
	return p, nil
}

func gcd(a, b length.Length) length.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// A pattern says how many of each kind one bar gives.
type pattern struct {
	stock int
	of    []take
}

type take struct{ kind, n int }

func (p *problem) weight(q pattern) int64 {
	var w int64
	for _, t := range q.of {
		w += p.types[t.kind].weight * int64(t.n)
	}
	return w
}

// solution is patterns with the number of bars cut so.
type solution struct {
	bars  []used
	price int64
}

type used struct {
	pattern pattern
	n       int
}

func (s *solution) add(p *problem, q pattern, n int) {
	s.price += p.stocks[q.stock].price * int64(n)
	s.bars = append(s.bars, used{q, n})
}

func (s *solution) clone() solution { return solution{slices.Clone(s.bars), s.price} }

// plan hands the caller's items out to the bars, bar by bar: the longest stock
// first, the longest cuts first. Bars cut alike are counted together.
func (p *problem) plan(s solution) []Bar {
	type queue struct{ at, left int }
	next := make([]queue, len(p.types))
	for k := range next {
		next[k].left = p.counts[k][0]
	}
	one := func(k int) int {
		q := &next[k]
		for q.left == 0 {
			q.at++
			q.left = p.counts[k][q.at]
		}
		q.left--
		return p.types[k].items[q.at]
	}
	bars := slices.Clone(s.bars)
	slices.SortStableFunc(bars, func(a, b used) int {
		return cmp.Or(cmp.Compare(a.pattern.stock, b.pattern.stock), comparePatterns(a.pattern, b.pattern))
	})
	var out []Bar
	for _, u := range bars {
		drop := length.Length(p.stocks[u.pattern.stock].capacity-p.weight(u.pattern)) * p.unit
		// The kerf of the last cut lies in the end trim, unless a drop follows it.
		drop = max(0, drop-p.rules.Kerf)
		for range u.n {
			b := Bar{Stock: p.stocks[u.pattern.stock].index, Count: 1, Drop: drop,
				Kept: p.rules.LeastDrop > 0 && drop >= p.rules.LeastDrop}
			for _, t := range u.pattern.of {
				for range t.n {
					b.Cuts = append(b.Cuts, one(t.kind))
				}
			}
			if n := len(out); n > 0 && out[n-1].Stock == b.Stock && slices.Equal(out[n-1].Cuts, b.Cuts) {
				out[n-1].Count++
				continue
			}
			out = append(out, b)
		}
	}
	return out
}

// comparePatterns puts the pattern that begins with longer items, and more of
// them, first.
func comparePatterns(a, b pattern) int {
	for i := range min(len(a.of), len(b.of)) {
		if c := cmp.Or(cmp.Compare(a.of[i].kind, b.of[i].kind), cmp.Compare(b.of[i].n, a.of[i].n)); c != 0 {
			return c
		}
	}
	return cmp.Compare(len(b.of), len(a.of))
}
