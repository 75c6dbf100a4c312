package place

import (
	"cmp"
	"slices"
)

// Bounds of the search for the best sharing of room: clusters of at most few
// labels are searched through, in at most effort steps; others are shared out
// in order and then improved, rounds times over, each time moving one label to
// a better spot and at most so many that are in its way elsewhere.
const (
	few    = 8
	effort = 50_000
	rounds = 30
	moved  = 3
)

// solve picks a choice for each label, or none: those that compete for room
// share it so that the fewest have none, at the least cost. Never is it worse
// than serving the labels in order, and of sharings as good the first found
// stands.
func (b *batch) solve() []int {
	b.prune()
	pick := make([]int, len(b.of))
	for i := range pick {
		pick[i] = none
	}
	for _, labels := range b.clusters() {
		s := &sharing{batch: b, labels: labels, pick: pick, missed: b.missed(labels)}
		s.run()
	}
	return pick
}

// clusters are the labels that compete for room, directly or through others, in
// order.
func (b *batch) clusters() [][]int {
	root := make([]int, len(b.of))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			root[i] = root[root[i]]
			i = root[i]
		}
		return i
	}
	for i := range b.of {
		for k := range b.of[i] {
			if c := &b.of[i][k]; !c.dead {
				for _, r := range c.rival {
					x, y := find(i), find(r.label)
					root[max(x, y)] = min(x, y)
				}
			}
		}
	}
	at := make([]int, len(b.of)) // of a root, its cluster and one
	var out [][]int
	for i := range b.of {
		r := find(i)
		if at[r] == 0 {
			out = append(out, nil)
			at[r] = len(out)
		}
		out[at[r]-1] = append(out[at[r]-1], i)
	}
	return out
}

// missed is what a label without a spot costs: more than all others could pay
// to make room for it.
func (b *batch) missed(labels []int) int64 {
	sum := int64(1)
	for _, i := range labels {
		if n := len(b.of[i]); n > 0 {
			most := int64(0)
			for _, c := range b.of[i] {
				most = max(most, c.cost)
			}
			sum += most
		}
	}
	return sum
}

// sharing shares out the room of one cluster.
type sharing struct {
	*batch
	labels []int
	pick   []int // of all labels of the batch
	missed int64
}

func (s *sharing) run() {
	s.greedy(s.labels)
	if len(s.labels) == 1 {
		return
	}
	scarce := slices.Clone(s.labels)
	slices.SortStableFunc(scarce, func(i, j int) int { return cmp.Compare(s.alive(i), s.alive(j)) })
	s.keep(func() { s.greedy(scarce) })
	if len(s.labels) <= few {
		t := &search{sharing: s, order: scarce, best: s.cost(), left: effort}
		t.found = s.now()
		t.step(0, 0)
		s.set(t.found)
		if t.left > 0 {
			return
		}
	}
	for range rounds {
		if !s.improve() {
			return
		}
	}
}

// alive is how many choices of a label are left.
func (b *batch) alive(i int) int {
	n := 0
	for k := range b.of[i] {
		if !b.of[i][k].dead {
			n++
		}
	}
	return n
}

// now lists the picks of the cluster, set brings them back.
func (s *sharing) now() []int {
	out := make([]int, len(s.labels))
	for n, i := range s.labels {
		out[n] = s.pick[i]
	}
	return out
}

func (s *sharing) set(to []int) {
	for n, i := range s.labels {
		s.pick[i] = to[n]
	}
}

// keep tries something and keeps it if it is better.
func (s *sharing) keep(try func()) bool {
	was, cost := s.now(), s.cost()
	try()
	if s.cost() < cost {
		return true
	}
	s.set(was)
	return false
}

func (s *sharing) costOf(i int) int64 {
	if s.pick[i] == none {
		return s.missed * s.weight[i]
	}
	return s.of[i][s.pick[i]].cost
}

func (s *sharing) cost() int64 {
	sum := int64(0)
	for _, i := range s.labels {
		sum += s.costOf(i)
	}
	return sum
}

// greedy serves labels in an order, each with its cheapest choice that is left.
func (s *sharing) greedy(order []int) {
	for _, i := range order {
		s.pick[i] = none
	}
	for _, i := range order {
		s.serve(i)
	}
}

// serve gives a label its cheapest choice beside those picked.
func (s *sharing) serve(i int) {
	s.pick[i] = none
	for k := range s.of[i] {
		if c := &s.of[i][k]; !c.dead && s.free(c) {
			s.pick[i] = k
			return
		}
	}
}

// free says that a choice can stand beside all picks. It is asked far oftener
// than who is in the way.
func (s *sharing) free(c *choice) bool {
	for _, r := range c.rival {
		if s.pick[r.label] == r.choice {
			return false
		}
	}
	return true
}

// evicts lists the labels whose picks a choice cannot stand beside; false if they are
// more than may be moved.
func (s *sharing) evicts(c *choice) (out []int, few bool) {
	for _, r := range c.rival {
		if s.pick[r.label] == r.choice {
			if len(out) == moved {
				return nil, false
			}
			out = append(out, r.label)
		}
	}
	return out, true
}

// improve gives each label that pays a cheaper choice where those in its way
// can be served otherwise for less.
func (s *sharing) improve() bool {
	better := false
	for _, i := range s.labels {
		for k := range s.of[i] {
			c := &s.of[i][k]
			if c.dead {
				continue
			}
			if c.cost >= s.costOf(i) {
				break
			}
			out, few := s.evicts(c)
			if few && s.swap(i, k, out) {
				better = true
				break
			}
		}
	}
	return better
}

// swap gives a label a choice and serves those in its way otherwise, if that costs less
// in all; else nothing has changed. It ends as soon as it is known not to.
func (s *sharing) swap(i, k int, out []int) bool {
	was, left := s.pick[i], s.costOf(i)-s.of[i][k].cost
	var picks [moved]int
	for n, j := range out {
		picks[n], left = s.pick[j], left+s.costOf(j)
		s.pick[j] = none
	}
	s.pick[i] = k
	for _, j := range out {
		if left -= s.serveUnder(j, left); left > 0 {
			continue
		}
		s.pick[i] = was
		for n, j := range out {
			s.pick[j] = picks[n]
		}
		return false
	}
	return true
}

// serveUnder serves a label at less than a cost, and gives what it costs; where that is
// not to be had it is not served.
func (s *sharing) serveUnder(i int, most int64) int64 {
	for k := range s.of[i] {
		c := &s.of[i][k]
		if c.cost >= most {
			return most
		}
		if !c.dead && s.free(c) {
			s.pick[i] = k
			return c.cost
		}
	}
	return s.missed * s.weight[i]
}

// search looks through all sharings of a cluster, leaving those that cannot
// become better than the best found (branch and bound).
type search struct {
	*sharing
	order []int
	found []int // the best
	best  int64
	left  int
}

// step serves the label at a place of the order, at a cost so far.
func (t *search) step(n int, cost int64) {
	if t.left--; t.left < 0 || cost+t.least(n) >= t.best {
		return
	}
	if n == len(t.order) {
		t.best = cost
		copy(t.found, t.now())
		return
	}
	i := t.order[n]
	for k := range t.of[i] {
		c := &t.of[i][k]
		if c.dead || c.blocked > 0 {
			continue
		}
		t.pick[i] = k
		for _, r := range c.rival {
			t.of[r.label][r.choice].blocked++
		}
		t.step(n+1, cost+c.cost)
		for _, r := range c.rival {
			t.of[r.label][r.choice].blocked--
		}
	}
	t.pick[i] = none
	t.step(n+1, cost+t.missed*t.weight[i])
}

// least is what the labels from a place of the order on cost at least.
func (t *search) least(n int) int64 {
	sum := int64(0)
	for _, i := range t.order[n:] {
		cheapest := t.missed * t.weight[i]
		for k := range t.of[i] {
			if c := &t.of[i][k]; !c.dead && c.blocked == 0 {
				cheapest = c.cost
				break
			}
		}
		sum += cheapest
	}
	return sum
}
