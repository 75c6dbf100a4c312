package cut

import (
	"cmp"
	"math"
	"math/big"
	"slices"
)

// The linear programme over patterns, solved by the revised simplex method.
// Rows are the kinds still wanted (at least their demand) and the stocks of
// limited count (at most their count).
type master struct {
	p       *problem
	cover   bool  // the bars are given: what counts is what cannot be cut from them
	demand  []int // by kind
	counts  []int // by stock, of those in hand
	kinds   []int // row to kind
	rowOf   []int // kind to row, or -1
	limited []int // row less len(kinds) to stock
	scale   float64
	costs   []int64  // of the stocks, in duals
	columns []column // of the basis, by row
	inverse basis
	x, y, d []float64
	rhs     []float64
	pool    *[]pattern // patterns found so far, in this programme and its kin
	offers  []column   // of the pool, those this programme can use
	short   []int      // of the offers, those worth trying next
	centre  []float64  // dual prices of the bound
	pull    float64    // towards them, when pricing
	proved  *big.Rat   // no plan of this demand costs less
	bound   int64      // the same, rounded up to a price a plan can have
	enough  int64      // a bound that needs no raising
	cut     stockCut   // what proves it
	steps   int        // spent
}

type column struct {
	cost    float64
	rows    []int32
	of      []float64
	pattern *pattern // nil: a surplus, a slack or what could not be cut at all
	missing bool     // stands for demand that the stock cannot meet
}

const (
	missing  = 1e6 // price of a missing item, in units of the dearest bar
	refactor = 100
	gain     = -1e-8 // a reduced cost that is worth a pivot
	listed   = 60    // columns taken from the pool at a time
	// nodeSteps is how many steps of the simplex make one node: a pivot counts
	// one, one more for each 50 rows and for each 1000 entries of the inverse, and
	// a table one for each 1500 of its own.
	nodeSteps = 4000
)

func newMaster(p *problem, demand []int, counts []int, pool *[]pattern, cover bool) *master {
	m := &master{
		p:      p,
		cover:  cover,
		demand: demand,
		counts: counts,
		pool:   pool,
		proved: new(big.Rat),
		rowOf:  make([]int, len(p.types)),
	}
	for k, d := range demand {
		m.rowOf[k] = -1
		if d > 0 {
			m.rowOf[k] = len(m.kinds)
			m.kinds = append(m.kinds, k)
		}
	}
	for i, s := range p.stocks {
		m.scale = max(m.scale, float64(s.price))
		if limited(counts[i]) {
			m.limited = append(m.limited, i)
		}
	}
	if m.scale == 0 || cover {
		m.scale = 1
	}
	m.costs = make([]int64, len(p.stocks))
	for i, s := range p.stocks {
		if !cover {
			m.costs[i] = mulFloor(s.price, dualOne, int64(m.scale))
		}
	}
	n := len(m.kinds) + len(m.limited)
	m.rhs, m.x, m.y, m.d = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	m.columns, m.inverse.n = make([]column, n), n
	for i, k := range m.kinds {
		// A little more than is asked, differently for each row, keeps the
		// simplex from turning in circles on demands that are all alike.
		m.rhs[i] = float64(demand[k]) + 1e-7*float64(i+1)/float64(n)
		m.columns[i] = m.single(i, k)
	}
	for i, s := range m.limited {
		r := len(m.kinds) + i
		m.rhs[r] = float64(counts[s])
		m.columns[r] = column{rows: []int32{int32(r)}, of: []float64{1}}
	}
	m.factor()
	m.start()
	return m
}

// start takes as the first dual prices that prove something the best rate of a
// stock by length.
func (m *master) start() {
	m.centre, m.pull = make([]float64, len(m.kinds)), 0.8
	rate := math.Inf(1)
	for _, s := range m.p.stocks {
		rate = min(rate, float64(s.price)/m.scale/float64(s.capacity))
	}
	if m.cover {
		rate = 1 / float64(m.p.stocks[0].capacity)
	}
	for i, k := range m.kinds {
		m.centre[i] = rate * float64(m.p.types[k].weight)
	}
}

// single is the pattern that cuts one kind alone from the cheapest unlimited
// stock that takes it, or a missing item where there is none.
func (m *master) single(row, k int) column {
	best := -1
	for i, s := range m.p.stocks {
		if !limited(m.counts[i]) && s.capacity >= m.p.types[k].weight &&
			(best < 0 || s.price <= m.p.stocks[best].price) {
			best = i
		}
	}
	if best < 0 {
		cost := missing
		if m.cover {
			cost = float64(m.p.types[k].weight) / float64(m.p.stocks[0].capacity)
		}
		return column{cost: cost, rows: []int32{int32(row)}, of: []float64{1}, missing: true}
	}
	n := int(min(m.p.stocks[best].capacity/m.p.types[k].weight, int64(m.demand[k])))
	return m.column(pattern{best, []take{{k, n}}})
}

func (m *master) column(q pattern) column {
	c := column{cost: float64(m.costs[q.stock]) / dualOne, pattern: &q,
		rows: make([]int32, 0, len(q.of)+1), of: make([]float64, 0, len(q.of)+1)}
	for _, t := range q.of {
		c.rows = append(c.rows, int32(m.rowOf[t.kind]))
		c.of = append(c.of, float64(t.n))
	}
	for i, s := range m.limited {
		if s == q.stock {
			c.rows = append(c.rows, int32(len(m.kinds)+i))
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
func (m *master) reduced(c *column) float64 {
	r := c.cost
	for i, row := range c.rows {
		r -= float64(m.y[row] * c.of[i])
	}
	return r
}

// run brings the programme to its optimum, or to where its bound can rise no
// further, within a number of steps. Cut short, it still has its bound.
func (m *master) run(limit int) {
	for _, q := range *m.pool {
		if m.suits(q) {
			m.offers = append(m.offers, m.column(q))
		}
	}
	for _, q := range m.priceAt(1, false) {
		m.offer(q)
	}
	if m.done() {
		return
	}
	n := len(m.columns)
	for pivot := 1; pivot <= 60*n+500 && m.steps < limit; pivot++ {
		if pivot%refactor == 0 && !m.factor() {
			return
		}
		m.steps += 1 + n/50 + len(m.inverse.rows)/1000
		c, ok := m.entering()
		if !ok || !m.pivot(c) {
			return
		}
	}
}

// entering picks a column that betters the basis: a surplus or slack, else the
// best of a short list of pooled patterns, which is drawn up anew when it is
// used up, else what the knapsack finds.
func (m *master) entering() (column, bool) {
	best, at := gain, -1
	for i, y := range m.y {
		if i >= len(m.kinds) {
			y = -y
		}
		if y < best {
			best, at = y, i
		}
	}
	if at >= 0 {
		unit := -1.0
		if at >= len(m.kinds) {
			unit = 1
		}
		return column{rows: []int32{int32(at)}, of: []float64{unit}}, true
	}
	if c, ok := m.shortest(); ok {
		return c, true
	}
	m.list()
	if c, ok := m.shortest(); ok {
		return c, true
	}
	if m.done() {
		return column{}, false
	}
	found := m.price()
	if len(found) == 0 || m.done() {
		return column{}, false
	}
	for _, q := range found {
		m.offer(q)
	}
	m.list()
	return m.shortest()
}

func (m *master) offer(q pattern) {
	*m.pool = append(*m.pool, q)
	m.offers = append(m.offers, m.column(q))
}

// done reports whether nothing is to be gained any more: the bound has met the
// programme or, of bars that are given, it is known whether they suffice.
func (m *master) done() bool {
	if m.cover {
		return m.suffices() || m.proved.Sign() > 0
	}
	return m.bound >= m.enough || m.bound > 0 && m.bound >= m.p.up(m.value())
}

// suffices reports whether the programme cuts all from the bars given.
func (m *master) suffices() bool { return m.value() < 1e-6 }

// shortest is the best of the short list.
func (m *master) shortest() (column, bool) {
	best, at := gain, -1
	keep := m.short[:0]
	for _, i := range m.short {
		r := m.reduced(&m.offers[i])
		if r >= gain {
			continue
		}
		keep = append(keep, i)
		if r < best {
			best, at = r, i
		}
	}
	m.short = keep
	if at < 0 {
		return column{}, false
	}
	return m.offers[at], true
}

// list draws up the short list.
func (m *master) list() {
	type offer struct {
		at      int
		reduced float64
	}
	var all []offer
	for i := range m.offers {
		if r := m.reduced(&m.offers[i]); r < gain {
			all = append(all, offer{i, r})
		}
	}
	slices.SortFunc(all, func(a, b offer) int { return cmp.Or(cmp.Compare(a.reduced, b.reduced), a.at-b.at) })
	m.short = m.short[:0]
	for _, o := range all[:min(listed, len(all))] {
		m.short = append(m.short, o.at)
	}
}

// value of the programme at this basis, in money.
func (m *master) value() float64 {
	var v float64
	for i, c := range m.columns {
		v += float64(c.cost * m.x[i])
	}
	return v * m.scale
}

// pivot brings a column into the basis. It is false where nothing leaves.
func (m *master) pivot(c column) bool {
	clear(m.d)
	for i, r := range c.rows {
		m.d[r] = c.of[i]
	}
	m.inverse.solve(m.d)
	out, least := -1, math.Inf(1)
	for i, v := range m.d {
		if v <= leastPivot {
			continue
		}
		if t := max(m.x[i], 0) / v; t < least-1e-12 || (t <= least+1e-12 && out >= 0 && v > m.d[out]) {
			out, least = i, min(least, t)
		}
	}
	if out < 0 {
		return false
	}
	f := m.reduced(&c) / m.d[out]
	step := max(m.x[out], 0) / m.d[out]
	row := make([]float64, len(m.d))
	row[out] = 1
	m.inverse.solveRow(row)
	for j, v := range row {
		m.y[j] += float64(f * v)
	}
	for i, v := range m.d {
		m.x[i] -= float64(v * step)
	}
	m.x[out] = step
	m.columns[out] = c
	m.inverse.push(out, m.d)
	return true
}

// factor computes inverse, solution and duals of the basis anew.
func (m *master) factor() bool {
	columns, ok := m.inverse.invert(m.columns)
	if !ok {
		return false
	}
	m.columns = columns
	copy(m.x, m.rhs)
	m.inverse.solve(m.x)
	for i, c := range m.columns {
		m.y[i] = c.cost
	}
	m.inverse.solveRow(m.y)
	return true
}
