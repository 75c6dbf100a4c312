package cut

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// dualOne is the price of the dearest bar in the whole-number duals.
const dualOne = 1 << 39

// price finds patterns that better the programme, and what dual prices prove.
// It looks at prices between those of the basis, which swing, and those that
// have proved most so far (smoothing, Wentges, International Transactions in
// Operational Research 4, 1997); where that finds nothing it draws nearer to the
// basis, and at its very prices it is exact.
func (m *master) price() []pattern {
	for pull := m.pull; ; {
		found := m.priceAt(pull, false)
		if len(found) > 0 || m.done() {
			return found
		}
		if pull == 0 {
			return m.priceAt(0, true)
		}
		if pull -= 0.3; pull < 0.1 {
			pull = 0
		}
	}
}

func (m *master) priceAt(pull float64, exact bool) []pattern {
	goods := make([]good, 0, len(m.kinds))
	for i, k := range m.kinds {
		y := float64(pull*m.centre[i]) + float64((1-pull)*m.y[i])
		v := int64(min(max(y, 0), 1000) * dualOne) // beyond that only what is missing is worth, and 1000 is dear enough
		goods = append(goods, good{k, m.p.types[k].weight, v, m.demand[k]})
	}
	o := m.p.fillings(goods, exact)
	m.steps += 10 + int(o.work/1500)
	if proved, theta := m.proof(goods, o.uppers); proved.Cmp(m.proved) >= 0 {
		m.proved, m.bound, m.cut = proved, m.p.ceiling(proved), newStockCut(goods, o.uppers)
		for i := range m.kinds {
			m.centre[i] = theta * float64(goods[i].value) / dualOne
		}
	}
	type found struct {
		pattern
		reduced float64
	}
	var all []found
	for _, f := range o.fillings {
		q := pattern{f.stock, o.of(f)}
		c := m.column(q)
		if r := m.reduced(&c); r < gain {
			all = append(all, found{q, r})
		}
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.reduced, b.reduced) })
	// The best fillings all want the same few goods; of what each good can give
	// no more are taken than could be cut.
	taken := make([]int, len(m.p.types))
	var out []pattern
	for _, f := range all {
		q := f.pattern
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

// An offering is valuable fillings of each stock, a way to spell them out, and
// for each stock a value that no filling passes.
type offering struct {
	fillings []filling
	of       func(filling) []take
	uppers   []int64
	work     int64
}

// fillings finds them by table. Where that would be too large, lengths are
// rounded to a coarser unit: up for the fillings, so that they fit, and down for
// what none passes; exactly, they are then searched for one by one.
func (p *problem) fillings(goods []good, exact bool) offering {
	o := offering{uppers: make([]int64, len(p.stocks))}
	most := p.stocks[0].capacity
	t, work := newTable(goods, most)
	coarse := max((most+tableUnits-1)/tableUnits, (work+tableWork-1)/tableWork)
	o.work = min(work, 2*tableWork)
	if coarse > 1 && (exact || p.types[len(p.types)-1].weight < 2*coarse) {
		spelt := make([][]take, len(p.stocks))
		for i, s := range p.stocks {
			takes, value, upper := knapsack(goods, s.capacity)
			o.uppers[i] = upper
			if spelt[i] = takes; len(takes) > 0 {
				o.fillings = append(o.fillings, filling{stock: i, value: value})
			}
		}
		o.of = func(f filling) []take { return spelt[f.stock] }
		return o
	}
	stocks, down := p.stocks, t
	if coarse > 1 {
		stocks = slices.Clone(p.stocks)
		for i := range stocks {
			stocks[i].capacity /= coarse
		}
		less, more := slices.Clone(goods), slices.Clone(goods)
		for i, g := range goods {
			less[i].weight = g.weight / coarse
			more[i].weight = (g.weight + coarse - 1) / coarse
		}
		down, _ = newTable(less, stocks[0].capacity)
		t, _ = newTable(more, stocks[0].capacity)
	}
	o.fillings = t.fill(stocks, stocks[0].capacity)
	within := o.fillings
	if coarse > 1 {
		within = down.fill(stocks, stocks[0].capacity)
	}
	for _, f := range within {
		o.uppers[f.stock] = max(o.uppers[f.stock], f.value)
	}
	o.of = func(f filling) []take { return t.of(f, stocks[f.stock].capacity) }
	return o
}

// proof is what prices of the goods prove: no plan of them costs less. It is in
// whole numbers: the prices are scaled until no filling of an unlimited stock
// is worth more than the stock's price (Farley, Operations Research 38, 1990),
// and what a limited stock gains is paid for by its count. Of bars that are
// given, it proves what the missing are worth at least.
func (m *master) proof(goods []good, uppers []int64) (proved *big.Rat, scaled float64) {
	worth := new(big.Int)
	for _, g := range goods {
		worth.Add(worth, new(big.Int).Mul(big.NewInt(g.value), big.NewInt(int64(g.most))))
	}
	theta := big.NewRat(1, 1)
	for i, cost := range m.costs {
		if !limited(m.counts[i]) && uppers[i] > cost {
			if t := big.NewRat(cost, uppers[i]); t.Cmp(theta) < 0 {
				theta = t
			}
		}
	}
	sum := new(big.Rat).Mul(theta, new(big.Rat).SetInt(worth))
	for i, cost := range m.costs {
		if !limited(m.counts[i]) {
			continue
		}
		over := new(big.Rat).Mul(theta, big.NewRat(uppers[i], 1))
		over.Sub(over, big.NewRat(cost, 1))
		if over.Sign() > 0 {
			sum.Sub(sum, over.Mul(over, big.NewRat(int64(m.counts[i]), 1)))
		}
	}
	sum.Mul(sum, big.NewRat(int64(m.scale), dualOne))
	scaled, _ = theta.Float64()
	return sum, scaled
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
