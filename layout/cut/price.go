package cut

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// dualOne is the price of the dearest bar in the whole-number duals.
const dualOne = 1 << 39

// price finds patterns that better the programme at its dual prices, and what
// the dual prices prove.
func (m *master) price() []pattern {
	goods := make([]good, 0, len(m.kinds))
	for i, k := range m.kinds {
		v := int64(min(max(m.y[i], 0), 1000) * dualOne) // beyond that only what is missing is worth, and 1000 is dear enough
		goods = append(goods, good{k, m.p.types[k].weight, v, m.demand[k]})
	}
	fillings, of, uppers := m.p.fillings(goods)
	m.bound = max(m.bound, m.p.proof(goods, m.counts, uppers, m.scale))
	type found struct {
		filling
		reduced float64
	}
	var all []found
	for _, f := range fillings {
		r := float64(m.p.stocks[f.stock].price)/m.scale - float64(f.value)/dualOne
		for i, s := range m.limited {
			if s == f.stock {
				r -= m.y[len(m.kinds)+i]
			}
		}
		if r < gain {
			all = append(all, found{f, r})
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.reduced, b.reduced) })
	// The best fillings all want the same few goods; of what each good can give
	// no more are taken than could be cut.
	taken := make([]int, len(m.p.types))
	var out []pattern
	for _, f := range all {
		q := pattern{f.stock, of(f.filling)}
		if slices.ContainsFunc(q.of, func(t take) bool { return taken[t.kind] > m.demand[t.kind] }) {
			continue
		}
		for _, t := range q.of {
			taken[t.kind] += t.n
		}
		out = append(out, q)
	}
	return out
}

// fillings lists valuable fillings of each stock, among them the best, a way to
// spell them out, and for each stock a value that no filling passes.
func (p *problem) fillings(goods []good) (all []filling, of func(filling) []take, uppers []int64) {
	uppers = make([]int64, len(p.stocks))
	most := p.stocks[0].capacity
	worth := slices.DeleteFunc(slices.Clone(goods), func(g good) bool { return g.value <= 0 || g.weight > most })
	t, work := newTable(worth, most)
	if most <= tableUnits && work <= tableWork {
		all = t.fill(p.stocks, most)
		for _, f := range all {
			uppers[f.stock] = max(uppers[f.stock], f.value)
		}
		return all, func(f filling) []take { return t.of(f, p.stocks[f.stock].capacity) }, uppers
	}
	spelt := make([][]take, len(p.stocks))
	for i, s := range p.stocks {
		takes, value, upper := knapsack(goods, s.capacity)
		uppers[i] = upper
		if spelt[i] = takes; len(takes) > 0 {
			all = append(all, filling{stock: i, value: value})
		}
	}
	return all, func(f filling) []take { return spelt[f.stock] }, uppers
}

// proof is what prices of the goods prove: no plan of them costs less. It is in
// whole numbers: the prices are scaled until no filling of an unlimited stock
// is worth more than the stock's price (Farley, Operations Research 38, 1990),
// and what a limited stock gains is paid for by its count.
func (p *problem) proof(goods []good, counts []int, uppers []int64, scale float64) int64 {
	worth := new(big.Int)
	for _, g := range goods {
		worth.Add(worth, new(big.Int).Mul(big.NewInt(g.value), big.NewInt(int64(g.most))))
	}
	theta := big.NewRat(1, 1)
	costs := make([]int64, len(p.stocks))
	for i, s := range p.stocks {
		costs[i] = mulFloor(s.price, dualOne, int64(scale))
		if s.count == 0 && uppers[i] > costs[i] {
			if t := big.NewRat(costs[i], uppers[i]); t.Cmp(theta) < 0 {
				theta = t
			}
		}
	}
	sum := new(big.Rat).Mul(theta, new(big.Rat).SetInt(worth))
	for i, s := range p.stocks {
		if s.count == 0 {
			continue
		}
		over := new(big.Rat).Mul(theta, big.NewRat(uppers[i], 1))
		over.Sub(over, big.NewRat(costs[i], 1))
		if over.Sign() > 0 {
			sum.Sub(sum, over.Mul(over, big.NewRat(int64(counts[i]), 1)))
		}
	}
	sum.Mul(sum, big.NewRat(int64(scale), dualOne))
	return p.ceiling(sum)
}

// ceiling is the least price of a plan that is not below v.
func (p *problem) ceiling(v *big.Rat) int64 {
	if p.step == 0 || v.Sign() <= 0 {
		return 0
	}
	q := new(big.Rat).Quo(v, big.NewRat(p.step, 1))
	n, rest := new(big.Int).QuoRem(q.Num(), q.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		n.Add(n, big.NewInt(1))
	}
	return n.Int64() * p.step
}

// up rounds a price to the next price a plan can have; what is a hair above one
// is that one.
func (p *problem) up(v float64) int64 {
	if p.step == 0 {
		return 0
	}
	return int64(math.Ceil(v/float64(p.step)-1e-5)) * p.step
}
