package cut

import (
	_ "embed"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"copingset/layout/length"
)

//go:embed testdata/u120.txt
var u120 string

const mm = length.Millimetre

// published are orders with the number of bars they are known to take.
func published(t *testing.T) []struct {
	source string
	bar    length.Length
	items  []Item
	bars   int
} {
	type order = struct {
		source string
		bar    length.Length
		items  []Item
		bars   int
	}
	out := []order{
		{"worked example of the cutting stock problem: 5600 mm rolls, 13 widths; 73 rolls (from memory of a public encyclopedia)", 5600 * mm,
			[]Item{{1380 * mm, 22}, {1520 * mm, 25}, {1560 * mm, 12}, {1710 * mm, 14}, {1820 * mm, 18}, {1880 * mm, 18}, {1930 * mm, 20},
				{2000 * mm, 10}, {2050 * mm, 12}, {2100 * mm, 14}, {2140 * mm, 16}, {2150 * mm, 18}, {2200 * mm, 20}}, 73},
	}
	lines := strings.Split(strings.TrimSpace(u120), "\n")
	for i := 0; i+1 < len(lines); i += 2 {
		head := strings.Fields(lines[i])
		o := order{source: "E. Falkenauer, bin packing set " + head[0] + ", as listed in the OR-Library (file binpack1) with its best known number"}
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
	for _, c := range published(t) {
		stocks, r := []Stock{{Length: c.bar, Price: 1}}, Rules{Nodes: 400}
		p, err := Lengths(stocks, c.items, r)
		if err != nil {
			t.Fatal(err)
		}
		whole(t, p, stocks, c.items, r)
		// A best known number can be beaten, a bound cannot be passed.
		if int(p.Price) > c.bars || int(p.Bound) > c.bars {
			t.Errorf("%s: %d bars, bound %d; known %d", c.source, p.Price, p.Bound, c.bars)
		}
	}
}

// Triplets as Falkenauer drew them (Journal of Heuristics 2, 1996): each bar
// takes exactly three items and nothing is left over, so the number of bars is
// known and no rule of thumb finds it.
func TestTriplets(t *testing.T) {
	for _, n := range []int{60, 120} {
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
