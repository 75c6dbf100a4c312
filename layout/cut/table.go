package cut

import (
	"cmp"
	"slices"
)

const (
	tableUnits = 1 << 17 // the largest capacity a table is made for
	tableWork  = 1 << 22 // and the most steps; else lengths are first rounded to a coarser unit
)

// A table holds the best fillings of every capacity by dynamic programming,
// lightest goods first, so that one table gives for every stock the best filling
// that begins with each of the goods. A good's multiples are split into powers of
// two.
type table struct {
	goods []good // heaviest first
	parts []part
	until []int // by good: parts of lighter goods
	best  []int64
}

type part struct {
	good, n int
	took    []uint64 // by capacity: this part is in the best filling
}

// A filling is a pattern that begins with one good and is the most valuable of
// those that do.
type filling struct {
	stock, good, n int
	value          int64
}

// newTable prepares a table up to a capacity and reports how many steps it will
// take. Goods of no value, or too heavy, are left out.
func newTable(goods []good, most int64) (*table, int64) {
	t := &table{
		goods: slices.DeleteFunc(
			slices.Clone(goods),
			func(g good) bool { return g.value <= 0 || g.most <= 0 || g.weight > most },
		),
	}
	goods = t.goods
	slices.SortStableFunc(t.goods, func(a, b good) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), cmp.Compare(a.kind, b.kind))
	})
	t.until = make([]int, len(goods))
	work := int64(0)
	for i := len(goods) - 1; i >= 0; i-- {
		g := goods[i]
		t.until[i] = len(t.parts)
		// A heavier good leaves no more than this.
		room := most - g.weight
		for left, k := int(min(int64(g.most), room/g.weight)), 1; left > 0; k *= 2 {
			k = min(k, left)
			t.parts = append(t.parts, part{good: i, n: k})
			work += room - g.weight*int64(k) + 1
			left -= k
		}
	}
	return t, work
}

// fill makes the table up to a capacity, and lists for each stock the best
// filling that begins with each of the goods.
func (t *table) fill(stocks []bar, most int64) []filling {
	t.best = make([]int64, most+1)
	var out []filling
	j := 0
	for i := len(t.goods) - 1; i >= 0; i-- {
		g := t.goods[i]
		for s, st := range stocks {
			b := filling{s, i, 0, 0}
			for n := 1; n <= g.most && int64(n)*g.weight <= st.capacity; n++ {
				if v := int64(n)*g.value + t.best[st.capacity-int64(n)*g.weight]; v > b.value {
					b.n, b.value = n, v
				}
			}
			if b.n > 0 {
				out = append(out, b)
			}
		}
		room := most - g.weight
		for ; j < len(t.parts) && t.parts[j].good == i; j++ {
			q := &t.parts[j]
			w, v := g.weight*int64(q.n), g.value*int64(q.n)
			q.took = make([]uint64, room/64+1)
			from, to := t.best[:room-w+1], t.best[w:room+1]
			for c := len(from) - 1; c >= 0; c-- {
				if x := from[c] + v; x > to[c] {
					to[c] = x
					at := int64(c) + w
					q.took[at/64] |= 1 << (at % 64)
				}
			}
		}
	}
	return out
}

// of lists what a filling takes.
func (t *table) of(f filling, capacity int64) []take {
	of := []take{{t.goods[f.good].kind, f.n}}
	c := capacity - int64(f.n)*t.goods[f.good].weight
	fits := func() int { // parts light enough; they are in order
		n, _ := slices.BinarySearchFunc(
			t.parts,
			c+1,
			func(q part, c int64) int { return cmp.Compare(t.goods[q.good].weight, c) },
		)
		return n
	}
	for j := min(t.until[f.good], fits()) - 1; j >= 0; j-- {
		q := &t.parts[j]
		if int(c/64) < len(q.took) && q.took[c/64]&(1<<(c%64)) != 0 {
			of = grab(of, t.goods[q.good].kind, q.n)
			c -= t.goods[q.good].weight * int64(q.n)
			j = min(j, fits())
		}
	}
	slices.SortFunc(of, func(a, b take) int { return cmp.Compare(a.kind, b.kind) })
	return of
}
