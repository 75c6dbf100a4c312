package cut

import (
	_ "embed"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/length"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/cut")) }

//go:embed testdata/u120.txt
var u120 string

const mm = length.Millimetre

// orders are orders with the number of bars they are known to take.
func orders(t *testing.T) []struct {
	source published.Source
	bar    length.Length
	items  []Item
	bars   int
} {
	type order = struct {
		source published.Source
		bar    length.Length
		items  []Item
		bars   int
	}
	out := []order{
		{published.Recalled("worked example of the cutting stock problem in a public encyclopedia: 5600 mm rolls, 13 widths; 73 rolls"), 5600 * mm,
			[]Item{{1380 * mm, 22}, {1520 * mm, 25}, {1560 * mm, 12}, {1710 * mm, 14}, {1820 * mm, 18}, {1880 * mm, 18}, {1930 * mm, 20},
				{2000 * mm, 10}, {2050 * mm, 12}, {2100 * mm, 14}, {2140 * mm, 16}, {2150 * mm, 18}, {2200 * mm, 20}}, 73},
		{published.Recalled("V. Chvátal, Linear Programming, 1983, chapter 13: rolls of 100 in, finals of 45, 36, 31 and 14 in; programme 452.25, so 453 rolls"), 100 * in,
			[]Item{{45 * in, 97}, {36 * in, 610}, {31 * in, 395}, {14 * in, 211}}, 453},
		{published.Recalled("R. Fourer, D. Gay, B. Kernighan, AMPL, chapter on column generation: rolls of 110 in, five widths; programme 46.25, so 47 rolls"), 110 * in,
			[]Item{{20 * in, 48}, {45 * in, 35}, {50 * in, 24}, {55 * in, 10}, {75 * in, 8}}, 47},
	}
	lines := strings.Split(strings.TrimSpace(u120), "\n")
	for i := 0; i+1 < len(lines); i += 2 {
		head := strings.Fields(lines[i])
		o := order{source: published.From("OR-Library, file binpack1: E. Falkenauer's uniform sets with their best known numbers", "sets of 120 items")}
		n, err := strconv.Atoi(head[1])
		if err != nil {
			t.Fatal(err)
		}
		o.bar = length.Length(n) * mm
		if o.bars, err = strconv.Atoi(head[2]); err != nil {
			t.Fatal(err)
		}
		for _, w := range strings.Fields(lines[i+1]) {
			n, err := strconv.Atoi(w)
			if err != nil {
				t.Fatal(err)
			}
			o.items = append(o.items, Item{length.Length(n) * mm, 1})
		}
		out = append(out, o)
	}
	return out
}

func TestPublished(t *testing.T) {
	for i, c := range orders(t) {
		stocks, r := []Stock{{Length: c.bar, Price: 1}}, Rules{Nodes: 400}
		p, err := Lengths(stocks, c.items, r)
		if err != nil {
			t.Fatal(err)
		}
		whole(t, p, stocks, c.items, r)
		// A best known number can be beaten, a bound cannot be passed.
		what := fmt.Sprintf("order %d: %d bars, bound %d; known %d", i+1, p.Price, p.Bound, c.bars)
		published.Holds(t, "fewest bars", c.source, what, int(p.Price) <= c.bars && int(p.Bound) <= c.bars)
	}
}

// Triplets as Falkenauer drew them (Journal of Heuristics 2, 1996): each bar
// takes exactly three items and nothing is left over, so the number of bars is
// known and no rule of thumb finds it. The draws are ours.
func TestTriplets(t *testing.T) {
	for _, n := range []int{60, 120, 249, 501} {
		r := rand.New(rand.NewPCG(uint64(n), 2))
		var items []Item
		for range n / 3 {
			a := 380 + r.IntN(111)
			b := 250 + r.IntN((1000-a)/2-250)
			for _, l := range []int{a, b, 1000 - a - b} {
				items = append(items, Item{length.Length(l) * mm, 1})
			}
		}
		stocks, rules := []Stock{{Length: 1000 * mm, Price: 1}}, Rules{Nodes: 600}
		p, err := Lengths(stocks, items, rules)
		if err != nil {
			t.Fatal(err)
		}
		whole(t, p, stocks, items, rules)
		if int(p.Price) > n/3+1 || int(p.Bound) != n/3 {
			t.Errorf("%d items: %d bars, bound %d, want %d or one more", n, p.Price, p.Bound, n/3)
		}
		t.Logf("%d items: %d bars, proven %v, %d nodes", n, p.Price, p.Proven, p.Nodes)
	}
}

// Classes of published bin packing sets, drawn anew by their generators: the
// lists themselves are not repeated here and no figure of theirs is claimed. A
// plan within one bar of its proven bound is within one of whatever is best.
func TestPublishedClasses(t *testing.T) {
	cases := []struct {
		source        string
		bar, from, to int // lengths from..to, both drawn
		items         int
		draws         int
	}{
		{"E. Falkenauer 1996, uniform class u120 (generator from memory)", 150, 20, 100, 120, 5},
		{"E. Falkenauer 1996, uniform class u250", 150, 20, 100, 250, 5},
		{"E. Falkenauer 1996, uniform class u500", 150, 20, 100, 500, 3},
		{"E. Falkenauer 1996, uniform class u1000", 150, 20, 100, 1000, 2},
		{"A. Scholl, R. Klein, C. Jürgens 1997, first set, 100 items of 1 to 100 (generator from memory)", 100, 1, 100, 100, 3},
		{"Scholl, Klein, Jürgens, first set, 200 items of 20 to 100", 120, 20, 100, 200, 3},
		{"Scholl, Klein, Jürgens, first set, 500 items of 30 to 100", 150, 30, 100, 500, 2},
		{"Scholl, Klein, Jürgens, third set: 200 items of 20,000 to 35,000 in 100,000 (generator from memory)", 100000, 20000, 35000, 200, 2},
		{"P. Schwerin, G. Wäscher 1997: 100 items of 150 to 200 in 1,000 (generator from memory)", 1000, 150, 200, 100, 3},
	}
	for _, c := range cases {
		proven := 0
		for draw := range c.draws {
			r := rand.New(rand.NewPCG(uint64(c.items), uint64(draw)))
			var items []Item
			for range c.items {
				items = append(items, Item{length.Length(c.from+r.IntN(c.to-c.from+1)) * mm, 1})
			}
			stocks, rules := []Stock{{Length: length.Length(c.bar) * mm, Price: 1}}, Rules{Nodes: 400}
			p, err := Lengths(stocks, items, rules)
			if err != nil {
				t.Fatal(err)
			}
			whole(t, p, stocks, items, rules)
			if p.Price > p.Bound+1 {
				t.Errorf("%s, draw %d: %d bars, bound %d", c.source, draw, p.Price, p.Bound)
			}
			if p.Proven {
				proven++
			}
		}
		t.Logf("%s: %d of %d proven", c.source, proven, c.draws)
	}
}
