package cut

import (
	"cmp"
	"math"
	"slices"
)

// solve finds a plan and its bound.
func (p *problem) solve() (Plan, error) {
	demand, counts := p.wanted()
	f := finder{p: p}
	for _, slack := range []bool{false, true} {
		s, ok := p.fill(demand, counts, slack)
		f.keep(s, ok)
		for _, u := range s.bars {
			f.pool = append(f.pool, u.pattern)
		}
	}
	m := f.programme(demand, counts, &solution{})
	f.bound = m.bound
	for budget := 0; !f.proven() && p.nodes > 0 && budget <= 8; budget++ {
		f.dive(demand, counts, solution{}, m, budget)
		if budget == 0 && !f.proven() {
			f.exhaust(demand, counts, solution{}, exhaustNodes)
			f.buy(demand, counts, m.cut)
		}
	}
	if len(f.best.bars) == 0 {
		return Plan{}, &Short{}
	}
	f.best = p.cheaper(f.best)
	return Plan{Bars: p.plan(f.best), Price: f.best.price, Bound: f.bound, Proven: f.proven(),
		Nodes: p.rules.Nodes - p.nodes}, nil
}

// wanted is how many of each kind are asked for, and how many there are of each
// stock.
func (p *problem) wanted() (demand, counts []int) {
	for _, t := range p.types {
		demand = append(demand, t.demand)
	}
	for _, s := range p.stocks {
		counts = append(counts, s.count)
	}
	return demand, counts
}

// A finder holds the best plan so far and the bound that stops the search.
type finder struct {
	p     *problem
	pool  []pattern
	best  solution
	bound int64
	cover bool // the stock is given: any plan from it will do
}

func (f *finder) proven() bool { return len(f.best.bars) > 0 && f.best.price <= f.bound }

func (f *finder) keep(s solution, ok bool) {
	if ok && (len(f.best.bars) == 0 || s.price < f.best.price) {
		f.best = s.clone()
	}
}

// fill makes a plan bar by bar: the longest item wanted, and with it what fills
// the bar best, from the stock that costs least for the length it uses. Plainly
// filled, a bar takes the longest that fits, then the next (first fit
// decreasing); otherwise what leaves least over (minimal bin slack, Gupta and
// Ho, Production Planning and Control 10, 1999).
func (p *problem) fill(demand, counts []int, slack bool) (solution, bool) {
	demand, counts = slices.Clone(demand), slices.Clone(counts)
	var s solution
	for k := 0; k < len(demand); {
		if demand[k] == 0 {
			k++
			continue
		}
		best, found := pattern{}, false
		var bestPrice, bestWeight int64
		for i, st := range p.stocks {
			if st.capacity < p.types[k].weight || counts[i] == 0 {
				continue
			}
			q := pattern{i, p.fillOne(demand, k, st.capacity, slack)}
			w := p.weight(q)
			if !found || compareRates(st.price, w, bestPrice, bestWeight) < 0 {
				best, bestPrice, bestWeight, found = q, st.price, w, true
			}
		}
		if !found {
			return s, false
		}
		n := 1 << 30
		for _, t := range best.of {
			n = min(n, demand[t.kind]/t.n)
		}
		n = min(n, counts[best.stock])
		counts[best.stock] -= n
		for _, t := range best.of {
			demand[t.kind] -= t.n * n
		}
		s.add(p, best, n)
	}
	return s, true
}

// fillOne fills one bar that begins with kind k.
func (p *problem) fillOne(demand []int, k int, capacity int64, slack bool) []take {
	room := capacity - p.types[k].weight
	of := []take{{k, 1}}
	if !slack {
		for j := k; j < len(demand); j++ {
			n := demand[j]
			if j == k {
				n--
			}
			if n = int(min(int64(n), room/p.types[j].weight)); n > 0 {
				of = grab(of, j, n)
				room -= int64(n) * p.types[j].weight
			}
		}
		return of
	}
	return p.topUp(of, demand, k, room)
}

// topUp adds to a filling what leaves least of its room, of the kinds from one
// on.
func (p *problem) topUp(of []take, demand []int, from int, room int64) []take {
	left := slices.Clone(demand)
	for _, t := range of {
		left[t.kind] -= t.n
	}
	var goods []good
	for j := from; j < len(left); j++ {
		if left[j] > 0 && p.types[j].weight <= room {
			goods = append(goods, good{j, p.types[j].weight, p.types[j].weight, left[j]})
		}
	}
	for _, t := range fullest(goods, room) {
		of = grab(of, t.kind, t.n)
	}
	slices.SortFunc(of, func(a, b take) int { return cmp.Compare(a.kind, b.kind) })
	return of
}

// grab adds to a list in order of kinds.
func grab(of []take, kind, n int) []take {
	for i := range of {
		if of[i].kind == kind {
			of[i].n += n
			return of
		}
	}
	return append(of, take{kind, n})
}

// programme solves the linear programme of what remains, as far as the nodes
// left allow.
func (f *finder) programme(demand, counts []int, have *solution) *master {
	m := newMaster(f.p, demand, counts, &f.pool, f.cover)
	if m.enough = math.MaxInt64; len(f.best.bars) > 0 && !f.cover {
		m.enough = f.best.price - have.price
	}
	m.run(f.p.nodes * nodeSteps)
	f.p.nodes -= 1 + m.steps/nodeSteps
	return m
}

// portion is how often the programme takes a pattern: whole bars, and what is left of
// one.
type portion struct {
	q     pattern
	whole int
	rest  float64
}

// portions are those of a programme's solution, in one of three orders: short cuts first,
// long ones, the loosest bars.
func (p *problem) portions(m *master, order int) []portion {
	var out []portion
	for i, c := range m.columns {
		if c.pattern == nil || m.x[i] < 1e-5 {
			continue
		}
		whole := int(m.x[i] + 1e-5)
		out = append(out, portion{*c.pattern, whole, m.x[i] - float64(whole)})
	}
	slices.SortStableFunc(out, func(a, b portion) int {
		switch order % 3 {
		case 0:
			return comparePatterns(b.q, a.q)
		case 1:
			return comparePatterns(a.q, b.q)
		}
		room := func(q pattern) int64 { return p.stocks[q.stock].capacity }
		return cmp.Or(compareRates(room(b.q), p.weight(b.q), room(a.q), p.weight(a.q)), comparePatterns(a.q, b.q))
	})
	return out
}

// dive takes the whole parts of the programme's solution as bars, then one more
// bar of its fractional patterns, and so on with what remains: first the
// pattern most nearly taken already, and at the cost of the budget one of the
// next ones (limited discrepancy search, Harvey and Ginsberg, IJCAI 1995).
func (f *finder) dive(demand, counts []int, have solution, m *master, budget int) {
	p := f.p
	if p.nodes <= 0 || f.proven() {
		return
	}
	if m == nil {
		m = f.programme(demand, counts, &have)
	}
	if f.cover {
		if !m.suffices() {
			return
		}
	} else if len(f.best.bars) > 0 && have.price+m.bound >= f.best.price {
		return
	}
	demand, counts, have = slices.Clone(demand), slices.Clone(counts), have.clone()
	parts := p.portions(m, budget)
	// At the top some bars are left open, more of them each time and not always
	// the same (short cuts, long cuts, the loosest), so that what remains can be cut
	// otherwise.
	leave := 0
	if len(have.bars) == 0 {
		leave = loosened * budget
	}
	for _, q := range parts {
		if alone := len(q.q.of) == 1 && q.q.of[0].n == 1; !alone {
			less := min(leave, q.whole)
			leave -= less
			q.whole -= less
		}
		if n := f.room(q.q, demand, counts, q.whole); n > 0 {
			f.take(q.q, n, demand, counts, &have)
		}
	}
	parts = slices.DeleteFunc(parts, func(q portion) bool { return q.rest < 1e-5 })
	s, ok := p.fill(demand, counts, false)
	f.keepWith(have, s, ok)
	s, ok = p.fill(demand, counts, true)
	f.keepWith(have, s, ok)
	if f.exhaust(demand, counts, have, exhaustNodes) || f.proven() {
		return
	}
	// Nearly taken first; alike, the fuller bar.
	slices.SortStableFunc(parts, func(a, b portion) int {
		ra, rb := int64(a.rest*1e4), int64(b.rest*1e4)
		return cmp.Or(cmp.Compare(rb, ra), cmp.Compare(p.weight(b.q), p.weight(a.q)), comparePatterns(a.q, b.q))
	})
	for j, q := range parts {
		if j > budget {
			return
		}
		if f.room(q.q, demand, counts, 1) == 0 {
			ok := false
			if q.q, ok = f.trimmed(q.q, demand, counts); !ok {
				budget++
				continue
			}
		}
		d, c, h := slices.Clone(demand), slices.Clone(counts), have.clone()
		f.take(q.q, 1, d, c, &h)
		for n, more := range parts[j+1:] {
			if n >= len(parts)/batch || more.rest < 0.5 {
				break
			}
			if f.room(more.q, d, c, 1) > 0 {
				f.take(more.q, 1, d, c, &h)
			}
		}
		f.dive(d, c, h, nil, budget-j)
	}
}

// trimmed is a bar of the pattern's stock with those of its cuts that are still
// wanted, and what fills it best. It is false where nothing of it is wanted.
func (f *finder) trimmed(q pattern, demand, counts []int) (pattern, bool) {
	s := f.p.stocks[q.stock]
	if counts[q.stock] == 0 {
		return q, false
	}
	out := pattern{stock: q.stock}
	room := s.capacity
	for _, t := range q.of {
		if n := min(t.n, demand[t.kind]); n > 0 {
			out.of = append(out.of, take{t.kind, n})
			room -= int64(n) * f.p.types[t.kind].weight
		}
	}
	if len(out.of) == 0 {
		return q, false
	}
	out.of = f.p.topUp(out.of, demand, 0, room)
	return out, true
}

// batch: of so many fractional patterns one more is taken without solving anew.
const batch = 30

// loosened is how many bars are left open for each step of the budget.
const loosened = 8

// room is how many bars of a pattern, at most n, the demand and the stock in
// hand still take whole.
func (f *finder) room(q pattern, demand, counts []int, n int) int {
	for _, t := range q.of {
		n = min(n, demand[t.kind]/t.n)
	}
	return min(n, counts[q.stock])
}

func (f *finder) take(q pattern, n int, demand, counts []int, have *solution) {
	for _, t := range q.of {
		demand[t.kind] -= n * t.n
	}
	counts[q.stock] -= n
	have.add(f.p, q, n)
}

func (f *finder) keepWith(have, rest solution, ok bool) {
	if !ok {
		return
	}
	all := have.clone()
	for _, u := range rest.bars {
		all.add(f.p, u.pattern, u.n)
	}
	f.keep(all, true)
}

// cheaper moves a bar to a cheaper stock that holds its cuts, where one is to
// be had.
func (p *problem) cheaper(s solution) solution {
	left := make([]int, len(p.stocks))
	for i, st := range p.stocks {
		left[i] = st.count
	}
	for _, u := range s.bars {
		left[u.pattern.stock] -= u.n
	}
	var out solution
	for _, u := range s.bars {
		best := u.pattern.stock
		for i, st := range p.stocks {
			if st.price < p.stocks[best].price && st.capacity >= p.weight(u.pattern) && left[i] >= u.n {
				best = i
			}
		}
		left[u.pattern.stock] += u.n
		left[best] -= u.n
		out.add(p, pattern{best, u.pattern.of}, u.n)
	}
	return out
}

// exhaustItems is how many items a search of all plans is tried for, and
// exhaustNodes how far it goes.
const (
	exhaustItems = 60
	exhaustNodes = 3000
	exhaustNode  = 1000 // steps of it that make a node
)

// exhaust looks through all plans of what remains, where it is little: bars are
// filled one after another, each beginning with the longest item left and
// taking only what cannot be added to (bin completion, after Martello and Toth,
// Knapsack Problems, 1990, chapter 8), from each stock in turn. It reports
// whether it has seen all that could be better than the best plan; at the root
// that proves it.
func (f *finder) exhaust(demand, counts []int, have solution, steps int) bool {
	p := f.p
	items := 0
	for _, d := range demand {
		items += d
	}
	if items > exhaustItems {
		return false
	}
	e := completion{
		f:      f,
		demand: slices.Clone(demand),
		counts: slices.Clone(counts),
		have:   have.clone(),
		left:   min(steps, exhaustNode*p.nodes),
	}
	for i, s := range p.stocks {
		if r := &p.stocks[e.rate]; compareRates(s.price, s.capacity, r.price, r.capacity) < 0 {
			e.rate = i
		}
	}
	for k, d := range demand {
		e.weight += int64(d) * p.types[k].weight
	}
	if f.cover {
		for i, n := range counts {
			e.spare += int64(n) * p.stocks[i].capacity
		}
		e.spare -= e.weight
	}
	start := e.left
	e.visit()
	p.nodes -= (start - e.left) / exhaustNode // a step here is a small part of a programme's
	if !f.cover && e.left > 0 && len(have.bars) == 0 && len(f.best.bars) > 0 {
		f.bound = max(f.bound, f.best.price)
	}
	return e.left > 0
}

type completion struct {
	f              *finder
	demand, counts []int
	weight         int64 // of all that is left
	have           solution
	rate           int   // stock of the least price for its length
	spare          int64 // of stock that is given: its length beyond the weight
	left           int
}

func (e *completion) visit() {
	e.left--
	if e.left <= 0 || e.f.proven() {
		return
	}
	if e.weight == 0 {
		e.f.keep(e.have, true)
		return
	}
	p := e.f.p
	if r := p.stocks[e.rate]; len(e.f.best.bars) > 0 &&
		e.have.price+p.next(mulCeil(e.weight, r.price, r.capacity)) >= e.f.best.price {
		return
	}
	if e.spare < 0 {
		return
	}
	k := 0
	for e.demand[k] == 0 {
		k++
	}
	var fills []pattern
	for i, s := range p.stocks {
		if room := s.capacity - p.types[k].weight; room >= 0 && e.counts[i] > 0 {
			e.fillings(i, k, room, k, []take{{k, 1}}, &fills)
		}
	}
	// What wastes least first.
	slices.SortStableFunc(fills, func(a, b pattern) int {
		return compareRates(p.stocks[a.stock].price, p.weight(a), p.stocks[b.stock].price, p.weight(b))
	})
	for _, q := range fills {
		e.f.take(q, 1, e.demand, e.counts, &e.have)
		w := p.weight(q)
		e.weight -= w
		if e.f.cover {
			e.spare -= p.stocks[q.stock].capacity - w
		}
		e.visit()
		if e.f.cover {
			e.spare += p.stocks[q.stock].capacity - w
		}
		e.weight += w
		e.f.giveBack(q, e.demand, e.counts, &e.have)
		if e.left <= 0 || e.f.proven() {
			return
		}
	}
}

// giveBack undoes the last take.
func (f *finder) giveBack(q pattern, demand, counts []int, have *solution) {
	for _, t := range q.of {
		demand[t.kind] += t.n
	}
	counts[q.stock]++
	have.bars = have.bars[:len(have.bars)-1]
	have.price -= f.p.stocks[q.stock].price
}

// next is the least price of a plan that is not below v.
func (p *problem) next(v int64) int64 {
	if p.step == 0 {
		return v
	}
	return (v + p.step - 1) / p.step * p.step
}

// fillings lists the fillings of a bar that begins with kind k and to which no
// item left can be added.
func (e *completion) fillings(stock, k int, room int64, from int, of []take, out *[]pattern) {
	e.left--
	if e.left <= 0 {
		return
	}
	used := func(j int) int {
		for _, t := range of {
			if t.kind == j {
				return t.n
			}
		}
		return 0
	}
	for j := from; j < len(e.demand); j++ {
		free := e.demand[j] - used(j)
		if free == 0 || e.f.p.types[j].weight > room {
			continue
		}
		most := int(min(int64(free), room/e.f.p.types[j].weight))
		for n := most; n >= 0; n-- {
			next := of
			if n > 0 {
				next = grab(slices.Clone(of), j, n)
			}
			e.fillings(stock, k, room-int64(n)*e.f.p.types[j].weight, j+1, next, out)
		}
		return
	}
	// Nothing may remain that would still fit.
	for j := range e.demand {
		if e.demand[j]-used(j) > 0 && e.f.p.types[j].weight <= room {
			return
		}
	}
	*out = append(*out, pattern{stock, slices.Clone(of)})
}
