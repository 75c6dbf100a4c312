package cut

import (
	"errors"
	"math/rand/v2"
	"reflect"
	"testing"

	"copingset/layout/length"
	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

const in = length.Inch

// whole checks that a plan cuts every item as often as asked, within its bars.
func whole(t interface {
	Helper()
	Errorf(string, ...any)
}, p Plan, stocks []Stock, items []Item, r Rules) {
	t.Helper()
	got := make([]int, len(items))
	var price int64
	for _, b := range p.Bars {
		room := stocks[b.Stock].Length - 2*r.EndTrim + r.Kerf
		for _, i := range b.Cuts {
			got[i] += b.Count
			room -= items[i].Length + r.Kerf
		}
		if room < 0 {
			t.Errorf("bar %v is over by %v", b, -room)
		}
		price += stocks[b.Stock].Price * int64(b.Count)
	}
	for i, it := range items {
		if got[i] != it.Count {
			t.Errorf("item %d of %v is cut %d times, want %d", i, it.Length, got[i], it.Count)
		}
	}
	for i, n := range p.Used(len(stocks)) {
		if stocks[i].Count > 0 && n > stocks[i].Count {
			t.Errorf("stock %d is used %d times of %d", i, n, stocks[i].Count)
		}
	}
	if p.Bound > p.Price || p.Proven != (p.Bound >= p.Price) {
		t.Errorf("price %d, bound %d, proven %v", p.Price, p.Bound, p.Proven)
	}
}

func TestLengths(t *testing.T) {
	stock := func(l length.Length, price int64) Stock { return Stock{Length: l, Price: price} }
	rules := Rules{Kerf: in / 8, EndTrim: in / 4, LeastDrop: 24 * in, Nodes: 200}
	cases := []struct {
		name   string
		stocks []Stock
		items  []Item
		rules  Rules
		bars   int
		price  int64
	}{
		{"two halves with the kerf between", []Stock{stock(100*in+in/8+in/2, 7)}, []Item{{50 * in, 2}}, rules, 1, 7},
		{"a sixteenth too much", []Stock{stock(100*in+in/16+in/2, 7)}, []Item{{50 * in, 2}}, rules, 2, 14},
		{"the cheap stock for the short one", []Stock{stock(138*in, 10), stock(66*in, 5)}, []Item{{130 * in, 1}, {60 * in, 1}}, rules, 2, 15},
		{"a drop in hand is used first", []Stock{stock(138*in, 10), {Length: 66 * in, Count: 1}}, []Item{{60 * in, 2}}, rules, 2, 10},
		{"three in hand, three wanted", []Stock{{Length: 66 * in, Count: 3}}, []Item{{60 * in, 3}}, rules, 3, 3 * int64(66*in)},
		{"nothing to cut", []Stock{stock(138*in, 10)}, nil, rules, 0, 0},
	}
	for _, c := range cases {
		p, err := Lengths(c.stocks, c.items, c.rules)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		whole(t, p, c.stocks, c.items, c.rules)
		n := 0
		for _, b := range p.Bars {
			n += b.Count
		}
		if n != c.bars || p.Price != c.price || !p.Proven {
			t.Errorf("%s: %d bars for %d, proven %v; want %d for %d", c.name, n, p.Price, p.Proven, c.bars, c.price)
		}
	}
	_, err := Lengths([]Stock{stock(60*in, 1)}, []Item{{60 * in, 1}, {59 * in, 1}}, rules)
	var long *TooLong
	if !errors.As(err, &long) || len(long.Items) != 1 || long.Items[0] != 0 {
		t.Errorf("60 in out of a 60 in bar with end trims: %v", err)
	}
	_, err = Lengths([]Stock{{Length: 66 * in, Count: 1}}, []Item{{60 * in, 2}}, rules)
	if short := (*Short)(nil); !errors.As(err, &short) {
		t.Errorf("two out of one: %v", err)
	}
}

// least tries all plans.
func least(stocks []Stock, lengths []length.Length, r Rules) (int64, bool) {
	type open struct {
		room length.Length
	}
	best, found := int64(0), false
	counts := make([]int, len(stocks))
	var rooms []open
	var visit func(i int, price int64)
	visit = func(i int, price int64) {
		if found && price >= best {
			return
		}
		if i == len(lengths) {
			best, found = price, true
			return
		}
		w := lengths[i] + r.Kerf
		for j := range rooms {
			if rooms[j].room >= w {
				rooms[j].room -= w
				visit(i+1, price)
				rooms[j].room += w
			}
		}
		for s, st := range stocks {
			room := st.Length - 2*r.EndTrim + r.Kerf
			if room < w || st.Count > 0 && counts[s] == st.Count {
				continue
			}
			counts[s]++
			rooms = append(rooms, open{room - w})
			visit(i+1, price+st.Price)
			rooms = rooms[:len(rooms)-1]
			counts[s]--
		}
	}
	visit(0, 0)
	return best, found
}

func TestLengthsAgainstAllPlans(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Rules{Kerf: length.Length(rapid.IntRange(0, 2).Draw(t, "kerf")) * in / 8, EndTrim: length.Length(rapid.IntRange(0, 2).Draw(t, "trim")) * in / 4, Nodes: 300}
		var stocks []Stock
		for range rapid.IntRange(1, 3).Draw(t, "stocks") {
			stocks = append(stocks, Stock{Length: length.Length(rapid.IntRange(20, 60).Draw(t, "stock")) * in,
				Price: int64(rapid.IntRange(1, 20).Draw(t, "price")), Count: rapid.SampledFrom([]int{0, 0, 0, 1, 2}).Draw(t, "count")})
		}
		var items []Item
		var all []length.Length
		for range rapid.IntRange(1, 6).Draw(t, "items") {
			it := Item{length.Length(rapid.IntRange(5, 30).Draw(t, "length"))*in + length.Length(rapid.SampledFrom([]int{0, 0, 1, 7}).Draw(t, "over")), rapid.IntRange(1, 2).Draw(t, "count")}
			items = append(items, it)
			for range it.Count {
				all = append(all, it.Length)
			}
		}
		want, ok := least(stocks, all, r)
		p, err := Lengths(stocks, items, r)
		if err != nil {
			if ok {
				t.Fatalf("%v, but it can be cut for %d", err, want)
			}
			return
		}
		whole(t, p, stocks, items, r)
		if p.Bound > want {
			t.Fatalf("bound %d is above the best plan, %d", p.Bound, want)
		}
		if p.Price != want {
			t.Fatalf("price %d, best %d, bound %d", p.Price, want, p.Bound)
		}
	})
}

// closers draws the cut pieces of a job: on the sixteenth, from the least piece
// to the stock.
func closers(n int, seed uint64) []Item {
	r := rand.New(rand.NewPCG(seed, 1))
	var out []Item
	for range n {
		out = append(out, Item{28*in + length.Length(r.IntN(109*16))*in/16, 1})
	}
	return out
}

func TestJobsOfTwoHundredAreProven(t *testing.T) {
	stocks := []Stock{{Length: 138 * in}}
	r := Rules{Kerf: in / 8, EndTrim: in / 4, Nodes: 400}
	for _, n := range []int{20, 50, 100, 200} {
		for seed := range uint64(6) {
			items := closers(n, seed)
			p, err := Lengths(stocks, items, r)
			if err != nil {
				t.Fatal(err)
			}
			if !p.Proven {
				t.Errorf("%d items, draw %d: %d bars, bound %d", n, seed, p.Price/int64(138*in), p.Bound/int64(138*in))
			}
		}
	}
}

// With two lengths of bar at their own prices a plan is proven or within the
// price of half a bar, and most are proven.
func TestJobsOfTwoStocks(t *testing.T) {
	stocks := []Stock{{Length: 138 * in, Price: 90}, {Length: 118 * in, Price: 79}}
	r := Rules{Kerf: in / 8, EndTrim: in / 4, Nodes: 400}
	proven, all := 0, 0
	for _, n := range []int{20, 50, 100, 200} {
		for seed := range uint64(6) {
			items := closers(n, seed+7)
			p, err := Lengths(stocks, items, r)
			if err != nil {
				t.Fatal(err)
			}
			whole(t, p, stocks, items, r)
			if all++; p.Proven {
				proven++
			} else if p.Price-p.Bound > 45 {
				t.Errorf("%d items, draw %d: price %d, bound %d", n, seed, p.Price, p.Bound)
			}
		}
	}
	if proven < all*3/4 {
		t.Errorf("%d of %d proven", proven, all)
	}
}

// Lengths without prices, some of them next to useless: what they give must not
// pass the words it is counted in.
func TestManyUnpricedStocks(t *testing.T) {
	stocks := []Stock{{Length: 138 * in}, {Length: 118*in + 1}, {Length: 30 * in}, {Length: 29 * in, Count: 2}}
	r := Rules{Kerf: in / 8, EndTrim: in / 4, Nodes: 100, LeastDrop: 24 * in}
	for seed := range uint64(8) {
		items := append(closers(30+10*int(seed), seed), Item{28 * in, 1}, Item{1 * in, 3})
		p, err := Lengths(stocks, items, r)
		if err != nil {
			t.Fatal(err)
		}
		if p.Bound > p.Price || float64(p.Price-p.Bound) > 0.005*float64(p.Bound) {
			t.Errorf("draw %d: price %d, bound %d", seed, p.Price, p.Bound)
		}
	}
}

// Large jobs come within a thousandth of their bound, in few nodes, and twice
// alike.
func TestLargeJobs(t *testing.T) {
	r := Rules{Kerf: in / 8, EndTrim: in / 4, Nodes: 60}
	for _, n := range []int{1000, 5000} {
		for _, stocks := range [][]Stock{{{Length: 138 * in}}, {{Length: 138 * in, Price: 90}, {Length: 118 * in, Price: 79}}} {
			items := closers(n, 7)
			p, err := Lengths(stocks, items, r)
			if err != nil {
				t.Fatal(err)
			}
			if len(stocks) > 1 {
				whole(t, p, stocks, items, r)
			}
			if p.Price-p.Bound > p.Bound/1000 || len(stocks) == 1 && !p.Proven {
				t.Errorf("%d items, %d stocks: price %d, bound %d", n, len(stocks), p.Price, p.Bound)
			}
			if n > 1000 {
				continue
			}
			if again, _ := Lengths(stocks, items, r); !reflect.DeepEqual(p, again) {
				t.Errorf("%d items, %d stocks: two plans of one order differ", n, len(stocks))
			}
		}
	}
}

func benchmark(b *testing.B, n int) {
	stocks := []Stock{{Length: 138 * in, Price: 90}, {Length: 118 * in, Price: 79}}
	items := closers(n, 7)
	var p Plan
	for b.Loop() {
		p, _ = Lengths(stocks, items, Rules{Kerf: in / 8, EndTrim: in / 4, Nodes: 200})
	}
	b.ReportMetric(float64(p.Price-p.Bound)/float64(p.Bound)*100, "gap_%")
}

func BenchmarkLengths50(b *testing.B)   { benchmark(b, 50) }
func BenchmarkLengths200(b *testing.B)  { benchmark(b, 200) }
func BenchmarkLengths1000(b *testing.B) { benchmark(b, 1000) }
func BenchmarkLengths5000(b *testing.B) { benchmark(b, 5000) }
