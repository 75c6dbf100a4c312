package cut

import (
	"cmp"
	"slices"
)

// knapsackNodes is how far the search of one knapsack goes before the table
// takes over.
const knapsackNodes = 20000

// A good is a kind on offer to a knapsack.
type good struct {
	kind   int
	weight int64
	value  int64
	most   int
}

// knapsack finds the most valuable filling of a capacity, goods taken at most
// `most` times. upper is proven: no filling is worth more; it equals value
// unless both search and table were too large.
//
// Search: branch and bound over goods in order of value by weight, the bound
// being the rest of the capacity at the next good's rate (Horowitz and Sahni,
// Journal of the ACM 21, 1974). All in whole numbers.
func knapsack(goods []good, capacity int64) (of []take, value, upper int64) {
	gs := slices.Clone(goods)
	gs = slices.DeleteFunc(gs, func(g good) bool { return g.value <= 0 || g.most <= 0 || g.weight > capacity })
	if len(gs) == 0 {
		return nil, 0, 0
	}
	slices.SortStableFunc(gs, func(a, b good) int {
		// value/weight, greatest first; products of two values below 2^52 and
		// weights below 2^40 pass 64 bits, so compare as fractions.
		return cmp.Or(compareRates(b.value, b.weight, a.value, a.weight), cmp.Compare(a.kind, b.kind))
	})
	s := newSearch(gs, capacity, knapsackNodes)
	upper = s.value
	if s.left <= 0 {
		if capacity <= tableUnits {
			return best(gs, capacity)
		}
		upper = relaxed(gs, capacity)
	}
	return s.of(), s.value, upper
}

// subsetNodes is how far a bar's filling is sought.
const subsetNodes = 20000

// fullest is the filling that leaves least of a room, as far as a short search
// finds it.
func fullest(goods []good, room int64) []take {
	s := newSearch(goods, room, subsetNodes)
	return s.of()
}

// newSearch searches goods in their order, which must be by value for weight.
func newSearch(gs []good, capacity int64, nodes int) *search {
	s := &search{goods: gs, n: make([]int, len(gs)), best: make([]int, len(gs)), left: nodes}
	s.lightest = make([]int64, len(gs)+1)
	s.lightest[len(gs)] = capacity + 1
	for i := len(gs) - 1; i >= 0; i-- {
		s.lightest[i] = min(s.lightest[i+1], gs[i].weight)
	}
	s.visit(0, capacity, 0)
	return s
}

func (s *search) of() (of []take) {
	for i, k := range s.best {
		if k > 0 {
			of = append(of, take{s.goods[i].kind, k})
		}
	}
	slices.SortFunc(of, func(a, b take) int { return cmp.Compare(a.kind, b.kind) })
	return of
}

type search struct {
	goods    []good
	lightest []int64 // of the goods from here on
	n, best  []int
	value    int64
	left     int // nodes
}

func (s *search) visit(i int, room, have int64) {
	if have > s.value {
		s.value = have
		copy(s.best, s.n)
	}
	s.left--
	if i == len(s.goods) || room < s.lightest[i] || s.left <= 0 {
		return
	}
	g := s.goods[i]
	if have+mulCeil(room, g.value, g.weight) <= s.value {
		return
	}
	for k := int(min(int64(g.most), room/g.weight)); k >= 0; k-- {
		s.n[i] = k
		s.visit(i+1, room-int64(k)*g.weight, have+int64(k)*g.value)
		if s.left <= 0 {
			break
		}
	}
	s.n[i] = 0
}

// relaxed is the value of the best filling by fractions, rounded up.
func relaxed(gs []good, room int64) int64 {
	var v int64
	for _, g := range gs {
		k := min(int64(g.most), room/g.weight)
		v += k * g.value
		room -= k * g.weight
		if k < int64(g.most) {
			return v + mulCeil(room, g.value, g.weight)
		}
	}
	return v
}

// best is the most valuable filling of all, by table.
func best(goods []good, capacity int64) (of []take, value, upper int64) {
	t, _ := newTable(goods, capacity)
	var most filling
	for _, f := range t.fill([]bar{{capacity: capacity}}, capacity) {
		if f.value > most.value {
			most = f
		}
	}
	return t.of(most, capacity), most.value, most.value
}
