package cut

import (
	"math"
	"slices"

	"copingset/layout/length"
)

// sheetBound is what no plan can cost less than, however its blanks lie in strips, side by
// side or one behind another.
func sheetBound(stocks []Sheet, price []int64, blanks []Blank, r SheetRules) int64 {
	const most = 4
	var sum int64
	for k := range int64(most + 1) {
		for m := range int64(most + 1) {
			sum = max(sum, asked(stocks, price, blanks, r, k, m))
		}
	}
	sum = leastPurchase(price, sum)
	var widths []length.Length
	for _, b := range blanks {
		widths = append(widths, b.least())
	}
	slices.Sort(widths)
	for _, w := range slices.Compact(widths) {
		sum = max(sum, coverBound(stocks, price, blanks, w, r))
	}
	return sum
}

// least is how wide a blank lies at the least.
func (b Blank) least() length.Length {
	if b.Turns {
		return min(b.Width, b.Length)
	}
	return b.Width
}

// asked is what all blanks pay, each a share of its sheet that is a share of the width by
// one function times a share of the length by another: what lies side by side in a sheet
// never pays more than the whole. Plainly these are its shares of both. Where blanks cannot
// fill a width, a dual feasible function asks for more (u(k) of Fekete and Schepers,
// Mathematical Programming 91, 2001): floor((k+1) x) / k of a share x, or x where (k+1) x
// is whole. A blank pays what it pays where that is the least.
func asked(stocks []Sheet, price []int64, blanks []Blank, r SheetRules, k, m int64) int64 {
	const fine, unit = 1 << 10, 1 << 20 // parts of a price, and of a share
	pays := func(i int, wide, long length.Length) int64 {
		takes, of := across(stocks[i], wide, r)
		along, all := long+r.Bar.Kerf, stocks[i].Length-2*r.Bar.EndTrim+r.Bar.Kerf
		if takes > of || along > all {
			return math.MaxInt64
		}
		whole := mulFloor(price[i]*fine, share(unit, k, takes, of), unit)
		return mulFloor(whole, share(unit, m, along, all), unit)
	}
	var sum int64
	for _, b := range blanks {
		least := int64(math.MaxInt64)
		for i := range stocks {
			least = min(least, pays(i, b.Width, b.Length))
			if b.Turns {
				least = min(least, pays(i, b.Length, b.Width))
			}
		}
		if least < math.MaxInt64 {
			sum += least * int64(max(0, b.Count))
		}
	}
	return (sum + fine - 1) / fine
}

// coverBound is the least that sheets cost that hold the blanks of a width and over: no
// more than so many lie side by side anywhere along a sheet, and what lies nowhere side by
// side in more than n lies in n rows (intervals on a line), each no longer than the longest
// sheet.
func coverBound(stocks []Sheet, price []int64, blanks []Blank, wide length.Length, r SheetRules) int64 {
	var longest length.Length
	for _, s := range stocks {
		longest = length.Max(longest, s.Length)
	}
	var items []Item
	for _, b := range blanks {
		if b.least() >= wide && b.Count > 0 {
			long := b.Length
			if b.Turns {
				long = min(b.Width, b.Length)
			}
			items = append(items, Item{long, b.Count})
		}
	}
	p, err := Lengths([]Stock{{Length: longest, Price: 1}}, items, r.Bar)
	if err != nil {
		return 0
	}
	least := make([]int64, p.Bound+1) // by rows
	for n := 1; n < len(least); n++ {
		least[n] = math.MaxInt64
		for i, s := range stocks {
			if takes, of := across(s, wide, r); takes <= of {
				least[n] = min(least[n], price[i]+least[max(0, n-int(of/takes))])
			}
		}
	}
	return least[p.Bound]
}
