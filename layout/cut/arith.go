package cut

import (
	"cmp"
	"math/bits"
)

// compareRates compares a/b with c/d, all positive, without rounding.
func compareRates(a, b, c, d int64) int {
	h1, l1 := bits.Mul64(uint64(a), uint64(d))
	h2, l2 := bits.Mul64(uint64(c), uint64(b))
	return cmp.Or(cmp.Compare(h1, h2), cmp.Compare(l1, l2))
}

// mulCeil is a*b/c rounded up, a and b not negative, c positive, without
// overflow of the product.
func mulCeil(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	lo, carry := bits.Add64(lo, uint64(c-1), 0)
	q, _ := bits.Div64(hi+carry, lo, uint64(c))
	return int64(q)
}

// mulFloor is a*b/c rounded down, under the same conditions.
func mulFloor(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	q, _ := bits.Div64(hi, lo, uint64(c))
	return int64(q)
}
