package cut

import (
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

func TestSheets(t *testing.T) {
	rules := SheetRules{EdgeTrim: in / 4, Bar: Rules{EndTrim: in / 4, Nodes: 100}}
	cases := []struct {
		name   string
		stocks []Sheet
		blanks []Blank
		sheets int
		proven bool
	}{
		{"two strips of 23 3/4 fill 48 less its trims", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{95 * in / 4, 119 * in, 4, false}}, 2, true},
		{"24 does not go twice", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{24 * in, 119 * in, 4, false}}, 4, true},
		{"a wide strip and a narrow one share a sheet", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{27 * in, 110 * in, 1, false}, {20 * in, 60 * in, 1, false}, {20 * in, 55 * in, 1, false}}, 1, true},
		{"an end plate lies in what a cap leaves of its strip, and not beside it", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{30 * in, 100 * in, 1, false}, {20 * in, 8 * in, 2, false}}, 1, true},
		{"what may be turned lies across a strip", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{30 * in, 100 * in, 1, false}, {8 * in, 25 * in, 1, false}, {18 * in, 29 * in, 1, true}}, 1, true},
		{"and what may not takes a sheet of its own", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{30 * in, 118 * in, 1, false}, {18 * in, 20 * in, 1, false}}, 2, false},
		{"what fits turned alone", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{100 * in, 20 * in, 2, true}}, 1, true},
		{"two long ones take two sheets, by their shares of the length alone", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{30 * in, 70 * in, 2, false}}, 2, true},
		{"the longer sheet, where it is cheaper for its length", []Sheet{{48 * in, 96 * in, 40}, {48 * in, 144 * in, 55}}, []Blank{{23 * in, 47 * in, 6, false}}, 1, true},
	}
	for _, c := range cases {
		p, err := Sheets(c.stocks, c.blanks, rules)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		n := 0
		for _, s := range p.Sheets {
			n += s.Count
		}
		if n != c.sheets || p.Proven != c.proven {
			t.Errorf("%s: %d sheets, proven %v (price %d, bound %d); want %d", c.name, n, p.Proven, p.Price, p.Bound, c.sheets)
		}
	}
	if _, err := Sheets([]Sheet{{24 * in, 120 * in, 0}}, []Blank{{24 * in, 60 * in, 1, false}}, rules); err == nil {
		t.Error("a girth wider than the sheet less its trims was planned")
	}
}

func TestSheetsCutEveryBlankOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stocks := []Sheet{{48 * in, 120 * in, 50}, {36 * in, 144 * in, 44}}[:rapid.IntRange(1, 2).Draw(t, "sizes")]
		r := SheetRules{EdgeTrim: in / 4, Kerf: in / 16, Bar: Rules{EndTrim: in / 4, Kerf: in / 16, Nodes: 20}}
		var blanks []Blank
		for range rapid.IntRange(1, 5).Draw(t, "blanks") {
			blanks = append(blanks, Blank{length.Length(rapid.IntRange(10, 30).Draw(t, "girth")) * in,
				length.Length(rapid.IntRange(20, 119).Draw(t, "length")) * in, rapid.IntRange(1, 6).Draw(t, "count"), rapid.Bool().Draw(t, "turns")})
		}
		p, err := Sheets(stocks, blanks, r)
		if err != nil {
			t.Fatal(err)
		}
		got := make([]int, len(blanks))
		var price int64
		for _, s := range p.Sheets {
			room := stocks[s.Stock].Width - 2*r.EdgeTrim + r.Kerf
			price += stocks[s.Stock].Price * int64(s.Count)
			for _, q := range s.Strips {
				room -= q.Width + r.Kerf
				along := stocks[s.Stock].Length - 2*r.Bar.EndTrim + r.Bar.Kerf
				for k, c := range q.Cuts {
					wide, long := blanks[c].Width, blanks[c].Length
					if q.TurnedAt(k) {
						wide, long = long, wide
					}
					if wide > q.Width || q.TurnedAt(k) && !blanks[c].Turns {
						t.Fatalf("a blank of %v in a strip of %v", wide, q.Width)
					}
					along -= long + r.Bar.Kerf
					got[c] += s.Count
				}
				if along < 0 {
					t.Fatalf("strip over by %v", -along)
				}
			}
			if room < 0 {
				t.Fatalf("sheet over by %v", -room)
			}
		}
		for i, b := range blanks {
			if got[i] != b.Count {
				t.Fatalf("blank %d cut %d times, want %d", i, got[i], b.Count)
			}
		}
		if price != p.Price || p.Bound > p.Price {
			t.Fatalf("price %d, said %d, bound %d", price, p.Price, p.Bound)
		}
	})
}

// Whole sheets are paid: the least purchase at or above a bound, against all of
// them.
func TestLeastPurchase(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prices := rapid.SliceOfN(rapid.Int64Range(1, 40), 1, 3).Draw(t, "prices")
		bound := rapid.Int64Range(0, 200).Draw(t, "bound")
		want := int64(1 << 40)
		var visit func(i int, spent int64)
		visit = func(i int, spent int64) {
			if spent >= bound {
				want = min(want, spent)
				return
			}
			if i == len(prices) {
				return
			}
			visit(i+1, spent)
			visit(i, spent+prices[i])
		}
		visit(0, 0)
		if got := leastPurchase(prices, bound); got != want {
			t.Fatalf("prices %v, bound %d: %d, want %d", prices, bound, got, want)
		}
	})
}

// Strips side by side in a sheet never pay more than the sheet, whichever
// function asks.
func TestSharesStayWithinTheSheet(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := length.Length(rapid.Int64Range(20, 400).Draw(t, "width"))
		k := rapid.Int64Range(0, 6).Draw(t, "k")
		price := rapid.Int64Range(1, 5000).Draw(t, "price")
		var paid int64
		for left := of; left > 0; {
			takes := length.Length(rapid.Int64Range(1, int64(left)).Draw(t, "takes"))
			paid += share(price, k, takes, of)
			left -= takes
		}
		if paid > price {
			t.Fatalf("strips pay %d of %d", paid, price)
		}
	})
}

// Two strips of one width go on the wide sheet and one on the narrow: bounds by
// the plain share of the width prove none of these.
func TestSheetsOfTwoSizesAreProven(t *testing.T) {
	const in = length.Inch
	stocks := []Sheet{{48 * in, 120 * in, 74}, {52 * in, 120 * in, 80}}
	for _, c := range []struct {
		source string
		count  int
		price  int64
	}{
		{"two strips on a wide sheet, by hand", 2, 80},
		{"one strip: the narrow sheet is cheaper, by hand", 1, 74},
		{"five strips: two wide sheets and a narrow one, by hand", 5, 234},
		{"six strips, by hand", 6, 240},
	} {
		p, err := Sheets(stocks, []Blank{{Width: 25 * in, Length: 110 * in, Count: c.count}}, SheetRules{EdgeTrim: in / 4, Bar: Rules{EndTrim: in / 4, Nodes: 100}})
		if err != nil || p.Price != c.price || !p.Proven {
			t.Errorf("%s: %d of %d, proven %v, %v", c.source, p.Price, p.Bound, p.Proven, err)
		}
	}
}

// The bound asks no more than any plan costs: sheets cut up at random, each cut from edge
// to edge of what it divides, hold their blanks, whatever is found of them.
func TestSheetBoundAsksNoMoreThanAPlan(t *testing.T) {
	const in = length.Inch
	proven := 0
	rapid.Check(t, func(t *rapid.T) {
		r := SheetRules{EdgeTrim: in / 4, Kerf: in / 8, Bar: Rules{EndTrim: in / 2, Kerf: in / 8, Nodes: 20}}
		s := Sheet{48 * in, 120 * in, 100}
		var blanks []Blank
		var divide func(wide, long length.Length, deep int)
		divide = func(wide, long length.Length, deep int) {
			const least = 6 * in
			across, along := wide > 2*least+in, long > 2*least+in
			if deep == 0 || !across && !along {
				turns := rapid.Bool().Draw(t, "turns")
				if turns && rapid.Bool().Draw(t, "turned") {
					wide, long = long, wide
				}
				blanks = append(blanks, Blank{wide, long, 1, turns})
				return
			}
			if across && (!along || rapid.Bool().Draw(t, "across")) {
				at := length.Length(rapid.Int64Range(6, int64((wide-r.Kerf)/in)-6).Draw(t, "at")) * in
				divide(at, long, deep-1)
				divide(wide-at-r.Kerf, long, deep-1)
				return
			}
			at := length.Length(rapid.Int64Range(6, int64((long-r.Kerf)/in)-6).Draw(t, "at")) * in
			divide(wide, at, deep-1)
			divide(wide, long-at-r.Kerf, deep-1)
		}
		n := rapid.IntRange(1, 3).Draw(t, "sheets")
		for range n {
			divide(s.Width-2*r.EdgeTrim, s.Length-2*r.Bar.EndTrim, rapid.IntRange(0, 4).Draw(t, "cuts"))
		}
		if bound := sheetBound([]Sheet{s}, []int64{s.Price}, blanks, r); bound > int64(n)*s.Price {
			t.Fatalf("%d sheets hold %v, and the bound asks for %d", n, blanks, bound)
		} else if bound == int64(n)*s.Price {
			proven++
		}
		p, err := Sheets([]Sheet{s}, blanks, r)
		if err != nil {
			t.Fatal(err)
		}
		if p.Price < p.Bound || p.Proven != (p.Price == p.Bound) {
			t.Fatalf("price %d, bound %d, proven %v", p.Price, p.Bound, p.Proven)
		}
	})
	if proven == 0 {
		t.Error("no bound reaches what a plan takes")
	}
}

// Further blanks lie in what a plan leaves, and no sheet is added for them.
func TestMoreFromOffcuts(t *testing.T) {
	stocks := []Sheet{{48 * in, 120 * in, 0}}
	r := SheetRules{EdgeTrim: in / 4, Bar: Rules{EndTrim: in / 4, LeastDrop: 20 * in, Nodes: 100}}
	p, err := Sheets(stocks, []Blank{{30 * in, 100 * in, 2, false}}, r)
	if err != nil {
		t.Fatal(err)
	}
	// Beside each cap lie 17 1/2, six of 17 by 19 along; behind it 19 1/2 of its own width.
	got, placed := p.More(stocks, []Blank{{17 * in, 19 * in, 20, false}, {40 * in, 10 * in, 1, false}}, 1, r)
	if placed[0] != 14 || placed[1] != 0 || got.Price != p.Price {
		t.Errorf("%v placed, want 14 and none", placed)
	}
	n := 0
	for _, s := range got.Sheets {
		for _, q := range s.Strips {
			for _, c := range q.Cuts {
				if c == 1 {
					n += s.Count
				}
			}
		}
	}
	if n != 14 {
		t.Errorf("%d cut, want 14", n)
	}
}
