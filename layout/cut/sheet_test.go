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
		{"two strips of 23 3/4 fill 48 less its trims", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{95 * in / 4, 119 * in, 4}}, 2, true},
		{"24 does not go twice", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{24 * in, 119 * in, 4}}, 4, true},
		{"a wide strip and a narrow one share a sheet", []Sheet{{48 * in, 120 * in, 0}}, []Blank{{27 * in, 110 * in, 1}, {20 * in, 60 * in, 1}, {20 * in, 55 * in, 1}}, 1, true},
		{"the longer sheet, where it is cheaper for its length", []Sheet{{48 * in, 96 * in, 40}, {48 * in, 144 * in, 55}}, []Blank{{23 * in, 47 * in, 6}}, 1, true},
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
	if _, err := Sheets([]Sheet{{24 * in, 120 * in, 0}}, []Blank{{24 * in, 60 * in, 1}}, rules); err == nil {
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
				length.Length(rapid.IntRange(20, 119).Draw(t, "length")) * in, rapid.IntRange(1, 6).Draw(t, "count")})
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
				for _, c := range q.Cuts {
					if blanks[c].Width != q.Width {
						t.Fatalf("a blank of %v in a strip of %v", blanks[c].Width, q.Width)
					}
					along -= blanks[c].Length + r.Bar.Kerf
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
