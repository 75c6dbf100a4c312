package cut

import (
	"math"
	"math/big"
)

// The linear programme over patterns, solved by the revised simplex method with
// columns found by the knapsack. Rows are the kinds still wanted (at least
// their demand) and the stocks of limited count (at most their count). Every
// product that is added to is rounded first (float64(a*b)), so that processors
// that fuse the two operations give the same plan as those that do not.
type master struct {
	p       *problem
	demand  []int // by kind
	kinds   []int // row to kind
	limited []int // row less len(kinds) to stock
	scale   float64
	basis   []column
	inverse [][]float64
	x, y    []float64
	rhs     []float64
	pool    *[]pattern // patterns found so far, in this programme and its kin
	bound   int64      // proven: no plan of this demand costs less
}

type column struct {
	cost    float64
	rows    []int
	of      []float64
	pattern *pattern // nil: a surplus, a slack or what could not be cut at all
	missing bool     // stands for demand that the stock cannot meet
}

const (
	tolerance = 1e-9
	missing   = 1e6 // price of a missing item, in units of the dearest bar
	refactor  = 300
)

func newMaster(p *problem, demand []int, counts []int, pool *[]pattern) *master {
	m := &master{p: p, demand: demand, pool: pool}
	row := make([]int, len(p.types))
	for k, d := range demand {
		row[k] = -1
		if d > 0 {
			row[k] = len(m.kinds)
			m.kinds = append(m.kinds, k)
		}
	}
	for i, s := range p.stocks {
		m.scale = max(m.scale, float64(s.price))
		if s.count > 0 {
			m.limited = append(m.limited, i)
		}
	}
	if m.scale == 0 {
		m.scale = 1
	}
	n := len(m.kinds) + len(m.limited)
	m.rhs, m.x, m.y = make([]float64, n), make([]float64, n), make([]float64, n)
	m.basis = make([]column, n)
	for i, k := range m.kinds {
		// A little more than is asked, differently for each row, keeps the
		// simplex from turning in circles on demands that are all alike.
		m.rhs[i] = float64(demand[k]) + 1e-7*float64(i+1)/float64(n)
		m.basis[i] = m.single(i, k)
	}
	for i, s := range m.limited {
		r := len(m.kinds) + i
		m.rhs[r] = float64(counts[s])
		m.basis[r] = column{rows: []int{r}, of: []float64{1}}
	}
	m.factor()
	return m
}

// single is the pattern that cuts one kind alone from the cheapest unlimited
// stock that takes it, or a missing item where there is none.
func (m *master) single(row, k int) column {
	best := -1
	for i, s := range m.p.stocks {
		if s.count == 0 && s.capacity >= m.p.types[k].weight && (best < 0 || s.price <= m.p.stocks[best].price) {
			best = i
		}
	}
	if best < 0 {
		return column{cost: missing, rows: []int{row}, of: []float64{1}, missing: true}
	}
	n := int(min(m.p.stocks[best].capacity/m.p.types[k].weight, int64(m.demand[k])))
	return m.column(pattern{best, []take{{k, n}}})
}

func (m *master) row(k int) int {
	lo, hi := 0, len(m.kinds)
	for lo < hi {
		if mid := (lo + hi) / 2; m.kinds[mid] < k {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	if lo < len(m.kinds) && m.kinds[lo] == k {
		return lo
	}
	return -1
}

func (m *master) column(q pattern) column {
	c := column{cost: float64(m.p.stocks[q.stock].price) / m.scale, pattern: &q}
	for _, t := range q.of {
		c.rows = append(c.rows, m.row(t.kind))
		c.of = append(c.of, float64(t.n))
	}
	for i, s := range m.limited {
		if s == q.stock {
			c.rows = append(c.rows, len(m.kinds)+i)
			c.of = append(c.of, 1)
		}
	}
	return c
}

// suits reports whether a pattern asks for no more than is wanted.
func (m *master) suits(q pattern) bool {
	for _, t := range q.of {
		if t.n > m.demand[t.kind] {
			return false
		}
	}
	return true
}

// reduced is the reduced cost of a column.
func (m *master) reduced(c column) float64 {
	r := c.cost
	for i, row := range c.rows {
		r -= float64(m.y[row] * c.of[i])
	}
	return r
}

// run brings the programme to its optimum, or to where its bound can rise no
// further, within a number of pivots.
func (m *master) run() {
	pooled := make([]column, 0, len(*m.pool))
	for _, q := range *m.pool {
		if m.suits(q) {
			pooled = append(pooled, m.column(q))
		}
	}
	n := len(m.basis)
	for pivot := 1; pivot <= 60*n+500; pivot++ {
		if pivot%refactor == 0 {
			m.factor()
		}
		c, ok := m.entering(pooled)
		if !ok {
			break
		}
		if !m.pivot(c) {
			break
		}
	}
}

func (m *master) entering(pooled []column) (column, bool) {
	best, at := -1e-8, column{}
	found := false
	try := func(c column) {
		if r := m.reduced(c); r < best {
			best, at, found = r, c, true
		}
	}
	for i := range m.basis {
		unit := -1.0
		if i >= len(m.kinds) {
			unit = 1
		}
		try(column{rows: []int{i}, of: []float64{unit}})
	}
	if found {
		return at, true
	}
	for _, c := range pooled {
		try(c)
	}
	if found {
		return at, true
	}
	for _, q := range m.price() {
		c := m.column(q)
		if m.reduced(c) < -1e-8 {
			*m.pool = append(*m.pool, q)
		}
		try(c)
	}
	if found && m.bound >= m.p.up(m.value()) {
		return at, false // the bound has met the programme: nothing to gain
	}
	return at, found
}

// value of the programme at this basis, in money.
func (m *master) value() float64 {
	var v float64
	for i, c := range m.basis {
		v += float64(c.cost * m.x[i])
	}
	return v * m.scale
}

// up rounds a price to the next price a plan can have; what is a hair above one
// is that one.
func (p *problem) up(v float64) int64 {
	if p.step == 0 {
		return 0
	}
	return int64(math.Ceil(v/float64(p.step)-1e-5)) * p.step
}

// dualOne is the price of the dearest bar in the whole-number duals.
const dualOne = 1 << 39

// price finds the best pattern of each stock at the dual prices, and what the
// dual prices prove. The proof is in whole numbers: the duals are rounded down,
// scaled until no pattern of an unlimited stock is worth more than its price,
// and what a limited stock gains is paid for by its count.
func (m *master) price() []pattern {
	goods := make([]good, 0, len(m.kinds))
	worth := new(big.Int)
	for i, k := range m.kinds {
		v := int64(min(max(m.y[i], 0), 1000) * dualOne) // beyond that only what is missing is worth, and 1000 is dear enough
		goods = append(goods, good{k, m.p.types[k].weight, v, m.demand[k]})
		worth.Add(worth, new(big.Int).Mul(big.NewInt(v), big.NewInt(int64(m.demand[k]))))
	}
	var out []pattern
	type offer struct {
		cost, upper int64
		count       int
	}
	var offers []offer
	theta := big.NewRat(1, 1)
	for i, s := range m.p.stocks {
		of, _, upper := knapsack(goods, s.capacity)
		if len(of) > 0 {
			out = append(out, pattern{i, of})
		}
		cost := mulFloor(s.price, dualOne, int64(m.scale))
		offers = append(offers, offer{cost, upper, s.count})
		if s.count == 0 && upper > cost {
			if t := big.NewRat(cost, upper); t.Cmp(theta) < 0 {
				theta = t
			}
		}
	}
	sum := new(big.Rat).Mul(theta, new(big.Rat).SetInt(worth))
	for i, o := range offers {
		if o.count == 0 {
			continue
		}
		over := new(big.Rat).Mul(theta, big.NewRat(o.upper, 1))
		over.Sub(over, big.NewRat(o.cost, 1))
		if over.Sign() > 0 {
			sum.Sub(sum, over.Mul(over, big.NewRat(int64(m.p.stocks[i].count), 1)))
		}
	}
	sum.Mul(sum, big.NewRat(int64(m.scale), dualOne))
	m.bound = max(m.bound, m.p.ceiling(sum))
	return out
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

// pivot brings a column into the basis. It is false where nothing leaves.
func (m *master) pivot(c column) bool {
	n := len(m.basis)
	d := make([]float64, n)
	for i := range n {
		row := m.inverse[i]
		for j, r := range c.rows {
			d[i] += float64(row[r] * c.of[j])
		}
	}
	out, least := -1, math.Inf(1)
	for i, v := range d {
		if v <= tolerance {
			continue
		}
		if t := max(m.x[i], 0) / v; t < least-1e-12 || (t <= least+1e-12 && out >= 0 && v > d[out]) {
			out, least = i, min(least, t)
		}
	}
	if out < 0 {
		return false
	}
	r := m.reduced(c)
	step := max(m.x[out], 0) / d[out]
	gone := m.inverse[out]
	for j := range n {
		m.y[j] += float64(r / d[out] * gone[j])
		gone[j] /= d[out]
	}
	for i := range n {
		if i == out || d[i] == 0 {
			continue
		}
		row, f := m.inverse[i], d[i]
		for j, g := range gone {
			if g != 0 {
				row[j] -= float64(f * g)
			}
		}
		m.x[i] -= float64(f * step)
	}
	m.x[out] = step
	m.basis[out] = c
	return true
}

// factor computes inverse, solution and duals of the basis anew.
func (m *master) factor() {
	n := len(m.basis)
	a := make([][]float64, n)
	for i := range a {
		a[i] = make([]float64, 2*n)
		a[i][n+i] = 1
	}
	for j, c := range m.basis {
		for i, r := range c.rows {
			a[r][j] = c.of[i]
		}
	}
	for c := range n {
		at := c
		for i := c + 1; i < n; i++ {
			if math.Abs(a[i][c]) > math.Abs(a[at][c]) {
				at = i
			}
		}
		a[c], a[at] = a[at], a[c]
		f := a[c][c]
		for j := c; j < 2*n; j++ {
			a[c][j] /= f
		}
		for i := range n {
			f := a[i][c]
			if i == c || f == 0 {
				continue
			}
			for j := c; j < 2*n; j++ {
				a[i][j] -= float64(f * a[c][j])
			}
		}
	}
	m.inverse = make([][]float64, n)
	for i := range n {
		m.inverse[i] = a[i][n:]
		m.x[i] = 0
		for j, b := range m.rhs {
			m.x[i] += float64(m.inverse[i][j] * b)
		}
	}
	for j := range n {
		m.y[j] = 0
		for i, c := range m.basis {
			m.y[j] += float64(c.cost * m.inverse[i][j])
		}
	}
}
