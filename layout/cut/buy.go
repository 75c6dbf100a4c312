package cut

import "slices"

// What is bought is a whole number of bars of each stock, and that proves more
// than prices alone: with bars of 90 and 79 no plan costs 11,110 unless bars of
// just that price hold all items. So the cheapest purchases that no proof rules
// out are looked at one after another: either a linear programme proves that
// the bars do not suffice, which rules out more than this purchase, or they are
// dived into for a plan, which is then the best (Benders' decomposition,
// Numerische Mathematik 4, 1962, with the bars bought as master).

// A stockCut is a proof that a purchase must meet: the items are worth `wants`
// at some price, and no bar of a stock can hold more than it `gives`.
type stockCut struct {
	gives []int64
	wants int64
}

// newStockCut is empty where the sums could pass 64 bits.
func newStockCut(goods []good, uppers []int64) stockCut {
	const most = 1 << 55
	c := stockCut{gives: slices.Clone(uppers)}
	for _, g := range goods {
		if g.value > 0 && int64(g.most) > (most-c.wants)/g.value {
			return stockCut{}
		}
		c.wants += g.value * int64(g.most)
	}
	return c
}

const (
	purchases     = 40      // looked at
	purchaseSteps = 1000000 // of the search for one
	purchaseNode  = 100000  // steps of it that make a node
)

// buy goes through the purchases that cost less than the best plan. The bound
// rises to the first that is not ruled out.
func (f *finder) buy(demand, counts []int, proof stockCut) {
	p := f.p
	if len(p.stocks) == 1 || len(f.best.bars) == 0 {
		return
	}
	b := buyer{p: p, counts: counts, floor: f.bound}
	b.add(proof)
	length := stockCut{gives: make([]int64, len(p.stocks))}
	for i, s := range p.stocks {
		length.gives[i] = s.capacity
	}
	for k, t := range p.types {
		length.wants += t.weight * int64(demand[k])
	}
	b.add(length)
	stuck := false
	for range purchases {
		bars, price, ok := b.cheapest(f.best.price)
		if !ok {
			return
		}
		if !stuck {
			f.bound = max(f.bound, price)
		}
		if price >= f.best.price || p.nodes <= 0 {
			return
		}
		g := finder{p: p, pool: f.pool, best: f.best, bound: price, cover: true}
		m := g.programme(demand, bars, &solution{})
		if m.proved.Sign() > 0 {
			if b.add(m.cut); len(m.cut.gives) == 0 {
				b.seen = append(b.seen, bars)
			}
			continue
		}
		if !g.exhaust(demand, bars, solution{}, 20*exhaustNodes) {
			for budget := 0; budget < 16 && !g.proven() && p.nodes > 0; budget++ {
				g.dive(demand, bars, solution{}, m, budget)
			}
			stuck = stuck || !g.proven()
		}
		f.best = g.best
		b.seen = append(b.seen, bars)
	}
}

// A buyer looks for purchases.
type buyer struct {
	p      *problem
	counts []int
	floor  int64 // no purchase need be looked for below
	cuts   []stockCut
	seen   [][]int // not to be looked at again

	bars, best []int
	price      int64
	left       int
}

func (b *buyer) add(c stockCut) {
	if len(c.gives) > 0 {
		b.cuts = append(b.cuts, c)
	}
}

// cheapest is the cheapest purchase below a price that meets all proofs; with
// none the price itself. It is false where the search went too far to say.
func (b *buyer) cheapest(below int64) ([]int, int64, bool) {
	b.bars, b.best, b.price, b.left = make([]int, len(b.counts)), nil, below, purchaseSteps
	wants := make([]int64, len(b.cuts))
	for i, c := range b.cuts {
		wants[i] = c.wants
	}
	b.visit(0, 0, wants)
	b.p.nodes -= (purchaseSteps - b.left) / purchaseNode
	return b.best, b.price, b.left > 0
}

func (b *buyer) visit(i int, price int64, wants []int64) {
	b.left--
	if b.left <= 0 || b.least(i, price, wants) >= b.price {
		return
	}
	if i == len(b.bars) {
		if !slices.ContainsFunc(b.seen, func(s []int) bool { return slices.Equal(s, b.bars) }) {
			b.best, b.price = slices.Clone(b.bars), max(price, b.floor)
		}
		return
	}
	most, last := 0, i == len(b.bars)-1
	for k, w := range wants {
		if g := b.cuts[k].gives[i]; w > 0 && g > 0 {
			most = max(most, int(mulCeil(w, 1, g)))
		} else if w > 0 && last {
			return
		}
	}
	from := 0
	if last {
		from = most
	}
	rest := make([]int64, len(wants))
	// A purchase that was seen may be one that a bar more makes good.
	to := min(most+len(b.seen), b.counts[i])
	if b.p.stocks[i].price == 0 && limited(b.counts[i]) {
		from, to = b.counts[i], b.counts[i] // what is free is there
	}
	for n := from; n <= to; n++ {
		if b.p.stocks[i].price > 0 && int64(n) > (b.price-price)/b.p.stocks[i].price {
			break
		}
		for k, w := range wants {
			rest[k] = w - int64(n)*b.cuts[k].gives[i]
		}
		b.bars[i] = n
		b.visit(i+1, price+int64(n)*b.p.stocks[i].price, rest)
	}
	b.bars[i] = 0
}

// tooDear is above the price of every plan.
const tooDear = 1 << 61

// least is what a purchase costs at least that has these wants left.
func (b *buyer) least(i int, price int64, wants []int64) int64 {
	out := max(price, b.floor)
	for k, w := range wants {
		if w <= 0 {
			continue
		}
		// The stock of the least price for what it gives, and no fractions.
		best := -1
		for j := i; j < len(b.bars); j++ {
			if g := b.cuts[k].gives[j]; g > 0 &&
				(best < 0 || compareRates(b.p.stocks[j].price, g, b.p.stocks[best].price, b.cuts[k].gives[best]) < 0) {
				best = j
			}
		}
		if best < 0 {
			return tooDear
		}
		each, gives := b.p.stocks[best].price, b.cuts[k].gives[best]
		if each > 0 && mulCeil(w, 1, gives) > tooDear/each {
			return tooDear
		}
		out = max(out, price+mulCeil(w, each, gives))
	}
	return out
}
