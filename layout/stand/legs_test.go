package stand_test

import (
	"hash/fnv"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
	"copingset/layout/stand"
)

// table is rules drawn by chance: an answer hangs on the question alone.
type table struct {
	n     int // runs, of a ring
	ring  bool
	seed  byte
	often byte // out of 256
}

func (r table) answer(of ...stand.Jointed) bool {
	h := fnv.New32a()
	h.Write([]byte{r.seed, byte(len(of))})
	turn := 0
	if r.ring {
		turn = of[0].Run / r.n * r.n
	}
	for _, c := range of {
		h.Write([]byte{byte(c.Run - turn), byte(c.Way)})
	}
	return byte(h.Sum32()>>7) < r.often
}

func (r table) Piece(a, b stand.Jointed) bool    { return r.answer(a, b) }
func (r table) Joint(a, b, c stand.Jointed) bool { return r.answer(a, b, c) }
func (r table) Spent() bool                      { return false }

// drawChain draws a chain and its rules.
func drawChain(t *rapid.T) ([]stand.Short, table) {
	n := rapid.IntRange(2, 6).Draw(t, "runs")
	ring := n > 2 && rapid.Bool().Draw(t, "ring")
	chain := make([]stand.Short, n)
	cost := func() stand.Cost {
		return stand.Cost{Whole: rapid.IntRange(0, 1).Draw(t, "whole"), Under: rapid.IntRange(0, 1).Draw(t, "under"),
			Uneven: length.Length(rapid.IntRange(0, 2).Draw(t, "uneven")), Grown: length.Length(rapid.IntRange(0, 1).Draw(t, "grown"))}
	}
	for i := range chain {
		c := &chain[i]
		c.Long = !ring && (i == 0 || i == n-1) && rapid.Bool().Draw(t, "long")
		for range rapid.IntRange(1, 3).Draw(t, "ways") {
			c.Ways = append(c.Ways, cost())
		}
		if !c.Long && rapid.Bool().Draw(t, "may be whole") {
			w := cost()
			c.Whole = &w
		}
	}
	return chain, table{n, ring, rapid.Byte().Draw(t, "seed"), rapid.SampledFrom([]byte{120, 180, 230}).Draw(t, "often")}
}

// price is what a choice costs, and whether it stands: each of its pieces and joints
// asked for, one after another.
func price(chain []stand.Short, r table, choice []int) (stand.Cost, bool) {
	n := len(chain)
	sum := stand.Cost{}
	var cuts []stand.Jointed
	for i, w := range choice {
		switch {
		case w != stand.Whole:
			sum = sum.Plus(chain[i].Ways[w])
			cuts = append(cuts, stand.Jointed{Run: i, Way: w})
		case chain[i].Whole == nil:
			return sum, false
		default:
			sum = sum.Plus(*chain[i].Whole)
		}
	}
	k := len(cuts)
	if r.ring {
		if k == 0 {
			return sum, false
		}
		for _, c := range cuts[:k:k] {
			cuts = append(cuts, stand.Jointed{Run: c.Run + n, Way: c.Way})
		}
		cuts = append(cuts, stand.Jointed{Run: cuts[0].Run + 2*n, Way: cuts[0].Way})
		for i := range k {
			if cuts[i+1].Run > cuts[i].Run+2 || !r.Piece(cuts[i], cuts[i+1]) || !r.Joint(cuts[i], cuts[i+1], cuts[i+2]) {
				return sum, false
			}
		}
		return sum, true
	}
	if !chain[0].Long {
		cuts = append([]stand.Jointed{{Run: -1}}, cuts...)
	}
	if !chain[n-1].Long {
		cuts = append(cuts, stand.Jointed{Run: n})
	}
	for i := 1; i < len(cuts); i++ {
		if cuts[i].Run > cuts[i-1].Run+2 || !r.Piece(cuts[i-1], cuts[i]) {
			return sum, false
		}
		if i > 1 && !r.Joint(cuts[i-2], cuts[i-1], cuts[i]) {
			return sum, false
		}
	}
	return sum, true
}

// Legs finds a choice where there is one, and none is cheaper: against all of them.
func TestLegsAgainstAll(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		chain, r := drawChain(t)
		best, any := stand.Cost{}, false
		choice := make([]int, len(chain))
		var all func(i int)
		all = func(i int) {
			if i == len(chain) {
				if c, ok := price(chain, r, choice); ok && (!any || c.Less(best)) {
					best, any = c, true
				}
				return
			}
			for w := stand.Whole; w < len(chain[i].Ways); w++ {
				choice[i] = w
				all(i + 1)
			}
		}
		all(0)
		got, ok := stand.Legs(chain, r.ring, r)
		if ok != any {
			t.Fatalf("a choice is found: %v, there is one: %v", ok, any)
		}
		if !ok {
			none++
			return
		}
		found++
		if c, stands := price(chain, r, got); !stands || c != best {
			t.Fatalf("%v stands: %v, costs %+v; the cheapest costs %+v", got, stands, c, best)
		}
	})
	if found == 0 || none == 0 {
		t.Errorf("%d chains with a choice, %d without: the draws prove nothing", found, none)
	}
}

// spentRules stop the search after a number of questions.
type spentRules struct {
	table
	left *int
}

func (r spentRules) Piece(a, b stand.Jointed) bool {
	*r.left--
	return r.table.Piece(a, b)
}

func (r spentRules) Spent() bool { return *r.left <= 0 }

func TestLegsStopWhereTheyAreSpent(t *testing.T) {
	chain := []stand.Short{{Ways: make([]stand.Cost, 3), Long: true}, {Ways: make([]stand.Cost, 3)}, {Ways: make([]stand.Cost, 3), Long: true}}
	for left := range 8 {
		n := left
		_, ok := stand.Legs(chain, false, spentRules{table{often: 255}, &n})
		if want := left >= 2; ok != want { // it has two pieces
			t.Errorf("with %d questions: found %v", left, ok)
		}
	}
}
