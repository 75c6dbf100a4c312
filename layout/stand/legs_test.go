package stand_test

import (
	"fmt"
	"hash/fnv"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
	"copingset/layout/stand"
)

// anyRoom answers by chance, alike for the same question: a piece costs what its
// legs do, and sometimes more.
type anyRoom struct {
	seed int
	n    int
}

func (r anyRoom) draw(of ...any) int {
	h := fnv.New32a()
	fmt.Fprint(h, r.seed, of)
	return int(h.Sum32() >> 8)
}

func (r anyRoom) Leg(run int, right bool, i int) stand.Cost {
	d := r.draw("leg", run, right, i)
	c := stand.Cost{Chairs: d % 3, Grown: length.Length(d / 7 % 4)}
	if d%11 == 0 {
		c.Bad = 1
	}
	return c
}

func (r anyRoom) Piece(s stand.Span) stand.Cost {
	c := stand.Cost{}
	if s.From >= 0 {
		c = c.Plus(r.Leg(s.From, true, s.Right))
	}
	if s.To < r.n {
		c = c.Plus(r.Leg(s.To, false, s.Left))
	}
	d := r.draw("piece", s)
	c.Chairs += d % 2
	if d%5 == 0 {
		c.Bad++
	}
	return c
}

func (r anyRoom) Pair(run, left, right int) (stand.Cost, bool) {
	d := r.draw("pair", run, left, right)
	return stand.Cost{Pieces: 1 + d%3}, d%4 > 0
}

// drawChain is any small chain.
func drawChain(t *rapid.T) ([]stand.Short, bool, anyRoom) {
	n := rapid.IntRange(1, 4).Draw(t, "runs")
	ring := n > 2 && rapid.Bool().Draw(t, "ring")
	room := anyRoom{seed: rapid.IntRange(0, 1<<20).Draw(t, "seed"), n: n}
	var runs []stand.Short
	for range n {
		s := stand.Short{Left: rapid.IntRange(1, 4).Draw(t, "left"), Right: rapid.IntRange(1, 4).Draw(t, "right"),
			Whole: rapid.Bool().Draw(t, "whole"), Pairs: rapid.IntRange(0, 3).Draw(t, "pairs") == 0}
		for range rapid.IntRange(0, 5).Draw(t, "ways") {
			s.Ways = append(s.Ways, stand.Way{Left: rapid.IntRange(0, s.Left-1).Draw(t, "a"), Right: rapid.IntRange(0, s.Right-1).Draw(t, "b"),
				Cost: stand.Cost{Uneven: length.Length(rapid.IntRange(0, 3).Draw(t, "uneven"))}})
		}
		runs = append(runs, s)
	}
	return runs, ring, room
}

// every tries all choices there are, with pieces of so many miters at most.
func every(runs []stand.Short, ring bool, room anyRoom, most int) (best stand.Cost, found bool) {
	n := len(runs)
	ways := make([][]*stand.Way, n) // nil: the run is whole
	for k, r := range runs {
		if r.Whole {
			ways[k] = append(ways[k], nil)
		}
		for i := range r.Ways {
			ways[k] = append(ways[k], &r.Ways[i])
		}
		for a := range r.Left {
			for b := range r.Right {
				if c, ok := room.Pair(k, a, b); r.Pairs && ok {
					ways[k] = append(ways[k], &stand.Way{Left: a, Right: b, Cost: c})
				}
			}
		}
	}
	taken := make([]*stand.Way, n)
	var try func(k int)
	try = func(k int) {
		if k < n {
			for _, w := range ways[k] {
				taken[k] = w
				try(k + 1)
			}
			return
		}
		if c, ok := price(taken, ring, room, most); ok && (!found || c.Less(best)) {
			best, found = c, true
		}
	}
	try(0)
	return best, found
}

// price is what one choice costs.
func price(taken []*stand.Way, ring bool, room anyRoom, most int) (c stand.Cost, ok bool) {
	n := len(taken)
	var stops []int
	for k, w := range taken {
		if w != nil {
			stops = append(stops, k)
			c = c.Plus(w.Cost)
		}
	}
	piece := func(s stand.Span, miters int) {
		ok = ok && miters <= most
		c = c.Plus(room.Piece(s))
	}
	ok = true
	if ring {
		for i, k := range stops {
			next := stops[(i+1)%len(stops)]
			miters := (next-k+n-1)%n + 1
			c.Double += miters - 1
			piece(stand.Span{From: k, Right: taken[k].Right, To: next, Left: taken[next].Left}, miters)
		}
		return c, ok && len(stops) > 0
	}
	from := stand.Span{From: -1}
	for _, k := range stops {
		from.To, from.Left = k, taken[k].Left
		miters := k - max(from.From, 0)
		c.Double += k - from.From - 1
		piece(from, miters)
		from = stand.Span{From: k, Right: taken[k].Right}
	}
	from.To, from.Left = n, 0
	c.Double += n - from.From - 1
	piece(from, n-1-max(from.From, 0))
	return c, ok
}

// The choice costs as little as the best of all, and what it is said to cost.
func TestLegsAgainstEveryChoice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs, ring, room := drawChain(t)
		got, cost, ok := stand.Legs(runs, ring, room)
		want, found := every(runs, ring, room, 2)
		if !found {
			want, found = every(runs, ring, room, len(runs)+1)
		}
		if ok != found {
			t.Fatalf("%v, by trying all %v", ok, found)
		}
		if !ok {
			return
		}
		taken := make([]*stand.Way, len(runs))
		for i, c := range got {
			if !c.Whole {
				taken[i] = &stand.Way{Left: c.Left, Right: c.Right, Cost: c.Cost}
			}
		}
		if said, _ := price(taken, ring, room, 9); said != cost {
			t.Fatalf("%+v said to cost %+v, costs %+v", got, cost, said)
		}
		if cost != want {
			t.Fatalf("%+v, the best of all is %+v", cost, want)
		}
	})
}

// A comb of short runs between long ones, and a court of them, are solved in one
// go however many there are.
func TestLegsOfACourt(t *testing.T) {
	room := anyRoom{seed: 3, n: 4}
	s := stand.Short{Left: 2, Right: 2, Ways: []stand.Way{{Left: 0, Right: 1}, {Left: 1, Right: 0}}}
	got, _, ok := stand.Legs([]stand.Short{s, s, s, s}, true, room)
	if !ok || slices.ContainsFunc(got, func(c stand.Chosen) bool { return c.Whole }) {
		t.Fatal(got, ok)
	}
}
