package stand

import (
	"slices"

	"copingset/layout/length"
)

// Cost is what a choice of legs costs. Two are compared by their fields in this
// order, and costs of parts add up.
type Cost struct {
	Bad    int           // legs whose chairs cannot stand, and pieces whose legs do not go together
	Over   int           // chairs that would carry more than was tested
	Double int           // runs without a joint of their own
	Under  int           // legs under the job's least
	Pieces int           // straight pieces
	Chairs int           // that the pieces need
	Uneven length.Length // by which legs that meet differ
	Grown  length.Length // legs beyond the job's least
	Aside  length.Length // longer legs on the side that takes no remainder
}

// Plus is the sum of two costs.
func (a Cost) Plus(b Cost) Cost {
	return Cost{a.Bad + b.Bad, a.Over + b.Over, a.Double + b.Double, a.Under + b.Under, a.Pieces + b.Pieces, a.Chairs + b.Chairs,
		a.Uneven + b.Uneven, a.Grown + b.Grown, a.Aside + b.Aside}
}

// Less compares two costs.
func (a Cost) Less(b Cost) bool {
	switch {
	case a.Bad != b.Bad:
		return a.Bad < b.Bad
	case a.Over != b.Over:
		return a.Over < b.Over
	case a.Double != b.Double:
		return a.Double < b.Double
	case a.Under != b.Under:
		return a.Under < b.Under
	case a.Pieces != b.Pieces:
		return a.Pieces < b.Pieces
	case a.Chairs != b.Chairs:
		return a.Chairs < b.Chairs
	case a.Uneven != b.Uneven:
		return a.Uneven < b.Uneven
	case a.Grown != b.Grown:
		return a.Grown < b.Grown
	}
	return a.Aside < b.Aside
}

// Way is one way to lay out a run, with at least one joint: a length of the leg
// at each of its ends, by their index.
type Way struct {
	Left, Right int
	Cost        Cost
}

// Short is a run of a chain, or the part of one between what stays where it is.
type Short struct {
	Left, Right int       // how many lengths the leg at each end may have
	Least       [2][]Cost // what each costs at least, as far as it is known without asking; may be nil
	Ways        []Way     // that have a joint
	Pairs       bool      // other pairs of lengths may do too: the room is asked
	Whole       bool      // it may be one piece with what stands at both its ends
}

// Span is a piece over what stands between two runs of a chain: it begins with
// the right leg of run From, goes through all runs between, and ends with the
// left leg of run To. From is -1 where it begins at the chain's left end, To the
// number of runs where it ends at its right one; there is one length of leg then.
type Span struct{ From, Right, To, Left int }

// Room tells what pieces and rows cost. Answers for the same question are alike.
type Room interface {
	// Leg is what a leg costs at least, whatever stands beyond its corner: the
	// right leg of a run or, else, its left one.
	Leg(run int, right bool, i int) Cost
	// Piece is what a piece costs: no less than its legs.
	Piece(Span) Cost
	// Pair is what a run costs with two lengths of leg and straight pieces
	// between, one at least; ok is false where they do not go together.
	Pair(run, left, right int) (c Cost, ok bool)
}

// Chosen is what was chosen for one run of a chain.
type Chosen struct {
	Whole       bool
	Left, Right int
	Cost        Cost // of its way; of the piece that begins with its right leg
}

// Legs finds the cheapest choice for a chain of runs: for each run either one
// piece with its two neighbours or a pair of legs with a joint between. No piece
// has more than two miters, unless nothing else is left. It is exact: ok is false
// only where no choice has a joint.
//
// It is dynamic programming along the chain. What a piece costs is asked only
// where the best plan so far would make it; until then its legs count as what
// they cost at least. A ring is closed once for each length that its first leg
// may have. Of plans that cost alike the one with the earlier lengths is taken, so
// whoever wants a mirrored answer for a mirrored question counts both from the
// mirrored side.
func Legs(runs []Short, ring bool, room Room) ([]Chosen, Cost, bool) {
	if k := cutAt(runs); ring && k > 0 {
		out, cost, ok := Legs(slices.Concat(runs[k:], runs[:k]), true, turnedRoom{room, k, len(runs)})
		if ok {
			out = slices.Concat(out[len(runs)-k:], out[:len(runs)-k])
		}
		return out, cost, ok
	}
	for _, most := range []int{2, len(runs) + 1} {
		c := newChain(runs, ring, room, most)
		if p, ok := c.solve(); ok {
			return c.chosen(p), p.cost, true
		}
	}
	return nil, Cost{}, false
}

// chain is one search.
type chain struct {
	runs  []Short
	ring  bool
	room  Room
	most  int // miters in a piece
	legs  [2][][]leg
	exact map[Span]Cost // pieces asked
	rows  map[[3]int]bool
	pairs [][]pair
	asks  int
	asked map[[2]int]int // pieces asked between two runs
}

// leg is what a length of leg costs at least.
type leg struct {
	cost Cost
	has  bool // the room was asked
}

func newChain(runs []Short, ring bool, room Room, most int) *chain {
	c := &chain{runs: runs, ring: ring, room: room, most: most, exact: map[Span]Cost{}, rows: map[[3]int]bool{},
		asked: map[[2]int]int{}, pairs: make([][]pair, len(runs))}
	for side := range c.legs {
		c.legs[side] = make([][]leg, len(runs))
		for i, r := range runs {
			n := r.Left
			if side == 1 {
				n = r.Right
			}
			c.legs[side][i] = make([]leg, n)
			for k, cost := range r.Least[side] {
				c.legs[side][i][k].cost = cost
			}
		}
	}
	return c
}

// path is a plan: the ways taken, and the pieces between them.
type path struct {
	cost  Cost
	stops []stop
	close Span // of a ring: the piece that comes back to the first stop
}

// stop is a run with a joint, and the piece that comes to it.
type stop struct {
	run  int // counted on past the end in a ring
	way  Way
	span Span
}

// solve finds the best plan whose pieces have all been asked for.
func (c *chain) solve() (path, bool) {
	if !c.ring {
		for {
			p, ok := c.pass(-1, 0, len(c.runs))
			if !ok || c.ask(p) {
				return p, ok
			}
		}
	}
	// The first joint lies in the first run or, where that has none, in one after it.
	var all []start
	for k := 0; k < min(c.most, len(c.runs)); k++ {
		for i := range c.runs[k].Right {
			all = append(all, start{run: k, right: i})
		}
		if !c.runs[k].Whole {
			break
		}
	}
	// What is asked for one start is known for the others, so they are settled one by
	// one: from the middle, where legs are most alike.
	slices.SortStableFunc(all, func(a, b start) int { return c.aside(a) - c.aside(b) })
	var best path
	found := false
	for _, s := range all {
		for {
			p, ok := c.pass(s.run, s.right, s.run+len(c.runs))
			if !ok || found && !p.cost.Less(best.cost) {
				break
			}
			if c.ask(p) {
				best, found = p, true
				break
			}
		}
	}
	return best, found
}

// pair is what the room says of two legs with straight pieces between.
type pair struct {
	cost   Cost
	ok, is bool // is: the room was asked
}

func (c *chain) pair(k, a, b int) (Cost, bool) {
	if c.pairs[k] == nil {
		c.pairs[k] = make([]pair, c.runs[k].Left*c.runs[k].Right)
	}
	p := &c.pairs[k][a*c.runs[k].Right+b]
	if !p.is {
		p.cost, p.ok = c.room.Pair(k, a, b)
		p.is = true
	}
	return p.cost, p.ok
}

// node is the best plan that has come to a length of leg.
type node struct {
	cost Cost
	ok   bool
	from Span // of a left leg: the piece that ends in it
	way  Way  // of a right leg: the way of its run
}

// pass finds the best plan from one run to another by what is known so far. A
// plan along an open chain begins before its first run and ends behind its last;
// one round a ring begins with the right leg of a run and comes back to that run.
func (c *chain) pass(begin, right, end int) (path, bool) {
	at := c.at
	rights, lefts := make([][]node, end-begin+1), make([][]node, end-begin+1) // from the beginning
	if begin < 0 {
		rights[0] = []node{{ok: true}}
	} else {
		rights[0] = make([]node, c.runs[begin].Right)
		rights[0][right] = node{ok: true}
	}
	for k := begin + 1; k <= end; k++ {
		in := c.arrive(rights, begin, k, end, at)
		lefts[k-begin] = in
		if k == end {
			break
		}
		rights[k-begin] = c.leave(k, at(k), in)
	}
	last := lefts[end-begin]
	var p path
	first := Way{Right: right}
	if !c.ring {
		if !last[0].ok {
			return p, false
		}
		p = path{cost: last[0].cost, close: last[0].from}
	} else {
		found := false
		c.eachWay(at(begin), last, func(w Way) {
			if cost := last[w.Left].cost.Plus(w.Cost); w.Right == right && (!found || cost.Less(p.cost) || cost == p.cost && w.Left < first.Left) {
				p, first, found = path{cost: cost, close: last[w.Left].from}, w, true
			}
		}, right)
		if !found {
			return p, false
		}
	}
	for s := p.close; s.From != begin; {
		q := rights[s.From-begin][s.Right]
		in := lefts[s.From-begin][q.way.Left]
		p.stops = append(p.stops, stop{s.From, q.way, in.from})
		s = in.from
	}
	for i, k := 0, len(p.stops)-1; i < k; i, k = i+1, k-1 {
		p.stops[i], p.stops[k] = p.stops[k], p.stops[i]
	}
	if begin >= 0 {
		p.stops = append([]stop{{run: begin, way: first}}, p.stops...)
	}
	return p, true
}

// arrive brings the best plans to the left legs of a run, over one miter or more.
func (c *chain) arrive(rights [][]node, begin, k, end int, at func(int) int) []node {
	n := len(c.runs)
	count := 1
	if k < n || c.ring {
		count = c.runs[at(k)].Left
	}
	out := make([]node, count)
	for f := k - 1; f >= begin && f >= -1; f-- {
		miters := k - f
		if f < 0 {
			miters--
		}
		if k == n && !c.ring {
			miters--
		}
		if miters > c.most {
			break
		}
		c.over(rights[f-begin], f, k, at, out)
		if f < 0 || f == begin || !c.runs[at(f)].Whole { // no piece goes through this one
			break
		}
	}
	return out
}

// over brings the plans of one run's right legs to the left legs of another.
// Where no piece of a right leg has been asked for, all its pieces cost what
// their legs do, and one look at the best of them is enough.
func (c *chain) over(from []node, f, k int, at func(int) int, out []node) {
	whole := Cost{Double: k - f - 1}
	var best node
	for b, p := range from {
		if !p.ok {
			continue
		}
		base := p.cost.Plus(whole).Plus(c.least(f, true, b, at))
		if c.rows[[3]int{f, b, k}] {
			for a := range out {
				s := Span{f, b, k, a}
				cost, known := c.exact[c.key(s, at)]
				if known {
					cost = p.cost.Plus(whole).Plus(cost)
				} else {
					cost = base.Plus(c.least(k, false, a, at))
				}
				if !out[a].ok || cost.Less(out[a].cost) || cost == out[a].cost && before(s, out[a].from) {
					out[a] = node{cost: cost, ok: true, from: s}
				}
			}
			continue
		}
		if !best.ok || base.Less(best.cost) {
			best = node{cost: base, ok: true, from: Span{f, b, k, 0}}
		}
	}
	if !best.ok {
		return
	}
	for a := range out {
		cost := best.cost.Plus(c.least(k, false, a, at))
		s := best.from
		s.Left = a
		if !out[a].ok || cost.Less(out[a].cost) || cost == out[a].cost && before(s, out[a].from) {
			out[a] = node{cost: cost, ok: true, from: s}
		}
	}
}

// before orders pieces that end in one leg: over fewer miters, then the earlier length.
func before(a, b Span) bool {
	if a.From != b.From {
		return a.From > b.From
	}
	return a.Right < b.Right
}

// leave takes the plans from a run's left legs to its right ones.
func (c *chain) leave(k, run int, in []node) []node {
	out := make([]node, c.runs[run].Right)
	take := func(w Way) {
		cost := in[w.Left].cost.Plus(w.Cost)
		if q := &out[w.Right]; !q.ok || cost.Less(q.cost) || cost == q.cost && w.Left < q.way.Left {
			*q = node{cost: cost, ok: true, way: w}
		}
	}
	c.eachWay(run, in, take, -1)
	return out
}

// eachWay goes through the ways of a run that a plan has come to: all, or those to
// one right leg.
func (c *chain) eachWay(run int, in []node, do func(Way), right int) {
	r := &c.runs[run]
	for _, w := range r.Ways {
		if in[w.Left].ok {
			do(w)
		}
	}
	if !r.Pairs {
		return
	}
	from, to := 0, r.Right
	if right >= 0 {
		from, to = right, right+1
	}
	order := make([]int, 0, len(in)) // cheapest first
	for a := range in {
		if in[a].ok {
			order = append(order, a)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case in[a].cost.Less(in[b].cost):
			return -1
		case in[b].cost.Less(in[a].cost):
			return 1
		}
		return 0
	})
	least := Cost{Pieces: 1}
	for b := from; b < to; b++ {
		var best Cost
		found := false
		for _, a := range order {
			if found && best.Less(in[a].cost.Plus(least)) {
				break // none of the rest is as cheap
			}
			if cost, ok := c.pair(run, a, b); ok {
				if all := in[a].cost.Plus(cost); !found || all.Less(best) {
					best, found = all, true
				}
				do(Way{a, b, cost})
			}
		}
	}
}

// least is what a leg costs at least, as far as it was asked for.
func (c *chain) least(k int, right bool, i int, at func(int) int) Cost {
	if k < 0 || k >= len(c.runs) && !c.ring {
		return Cost{}
	}
	side := 0
	if right {
		side = 1
	}
	return c.legs[side][at(k)][i].cost
}

// key names a piece alike however often the ring was gone round.
func (c *chain) key(s Span, at func(int) int) Span {
	if !c.ring {
		return s
	}
	s.From, s.To = at(s.From), at(s.To)
	return s
}

// After so many pieces between two runs that were asked for one by one, all legs
// there are asked for, and after so many more all pieces.
//
// Beyond asksMost plans the one at hand is taken, whatever of it is unknown: a long
// chain in which nothing can carry what the wind asks has no end of plans alike.
const (
	asksMost  = 300
	legsFrom  = 4
	tableFrom = 24
)

// ask asks for the pieces of a plan; true tells that all were known.
func (c *chain) ask(p path) bool {
	if c.asks++; c.asks > asksMost {
		return true
	}
	known := true
	for _, s := range p.stops {
		if s.span != (Span{}) {
			known = c.askOne(s.span) && known
		}
	}
	return c.askOne(p.close) && known
}

func (c *chain) askOne(s Span) bool {
	at := c.at
	if _, ok := c.exact[c.key(s, at)]; ok {
		return true
	}
	pair := [2]int{s.From, s.To}
	c.asked[pair]++
	switch c.asked[pair] {
	case legsFrom:
		for b := range c.count(s.From, true, at) {
			c.look(s.From, true, b)
		}
		for a := range c.count(s.To, false, at) {
			c.look(s.To, false, a)
		}
		return false
	case tableFrom:
		for b := range max(1, c.count(s.From, true, at)) {
			for a := range max(1, c.count(s.To, false, at)) {
				c.piece(Span{s.From, b, s.To, a})
			}
		}
		return false
	}
	// What the legs cost alone may rule the piece out already.
	if l, r := c.look(s.From, true, s.Right), c.look(s.To, false, s.Left); l || r {
		return false
	}
	c.piece(s)
	return false
}

// look asks what a leg costs at least; true tells that it was not known.
func (c *chain) look(k int, right bool, i int) bool {
	if k < 0 || k >= len(c.runs) && !c.ring {
		return false
	}
	side := 0
	if right {
		side = 1
	}
	l := &c.legs[side][c.at(k)][i]
	if l.has {
		return false
	}
	before := l.cost
	l.cost, l.has = c.room.Leg(c.at(k), right, i), true
	return l.cost != before
}

func (c *chain) piece(s Span) {
	key := c.key(s, c.at)
	if _, ok := c.exact[key]; !ok {
		c.exact[key] = c.room.Piece(key)
	}
	c.row(s)
}

// at is the run of the chain, however often the ring was gone round.
func (c *chain) at(k int) int {
	if c.ring {
		return k % len(c.runs)
	}
	return k
}

// row marks a right leg whose pieces to another run are no longer all alike,
// wherever in the ring they are counted.
func (c *chain) row(s Span) {
	c.rows[[3]int{s.From, s.Right, s.To}] = true
	if n := len(c.runs); c.ring {
		for _, d := range []int{-n, n} {
			c.rows[[3]int{s.From + d, s.Right, s.To + d}] = true
		}
	}
}

func (c *chain) count(k int, right bool, at func(int) int) int {
	switch {
	case k < 0 || k >= len(c.runs) && !c.ring:
		return 0
	case right:
		return c.runs[at(k)].Right
	}
	return c.runs[at(k)].Left
}

// chosen spells a plan out, run by run.
func (c *chain) chosen(p path) []Chosen {
	n := len(c.runs)
	out := make([]Chosen, n)
	for i := range out {
		out[i].Whole = true
	}
	for _, s := range p.stops {
		out[s.run%n] = Chosen{Left: s.way.Left, Right: s.way.Right, Cost: s.way.Cost}
	}
	return out
}
