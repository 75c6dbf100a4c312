package setplane

import (
	"math/big"
	"math/bits"
)

// frac is an exact fraction: n/d in lowest terms with d positive while both
// fit, which the numbers of an ordinary survey do, else a big.Rat. The zero
// frac is no number.
type frac struct {
	n, d int64
	big  *big.Rat
}

func integer(n int64) frac { return frac{n: n, d: 1} }

// small reduces n/d to lowest terms. d is positive.
func small(n, d int64) frac {
	if d == 1 {
		return frac{n: n, d: 1}
	}
	g := int64(common(abs(n), uint64(d)))
	return frac{n: n / g, d: d / g}
}

// common is the greatest common divisor.
func common(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (a frac) rat() *big.Rat {
	if a.big != nil {
		return a.big
	}
	return big.NewRat(a.n, a.d)
}

// fromBig takes a big fraction back among the small ones where it fits.
func fromBig(r *big.Rat) frac {
	if r.Num().IsInt64() && r.Denom().IsInt64() && r.Num().Int64() != -1<<63 {
		return frac{n: r.Num().Int64(), d: r.Denom().Int64()}
	}
	return frac{big: r}
}

// times multiplies, and says whether the product fits.
func times(a, b int64) (int64, bool) {
	neg := (a < 0) != (b < 0)
	hi, lo := bits.Mul64(abs(a), abs(b))
	if hi != 0 || lo >= 1<<63 {
		return 0, false
	}
	if neg {
		return -int64(lo), true
	}
	return int64(lo), true
}

func abs(a int64) uint64 {
	if a < 0 {
		return -uint64(a)
	}
	return uint64(a)
}

func (a frac) sign() int {
	switch {
	case a.big != nil:
		return a.big.Sign()
	case a.n < 0:
		return -1
	case a.n > 0:
		return 1
	}
	return 0
}

func (a frac) neg() frac {
	if a.big != nil {
		return frac{big: new(big.Rat).Neg(a.big)}
	}
	return frac{n: -a.n, d: a.d}
}

func (a frac) add(b frac) frac {
	if a.big == nil && b.big == nil {
		if a.d == b.d {
			if s := a.n + b.n; (s > a.n) == (b.n > 0) && s != -1<<63 {
				if a.d == 1 {
					return frac{n: s, d: 1}
				}
				return small(s, a.d)
			}
		} else {
			// Over the least denominator that both go into.
			g := int64(common(uint64(a.d), uint64(b.d)))
			x, ok1 := times(a.n, b.d/g)
			y, ok2 := times(b.n, a.d/g)
			d, ok3 := times(a.d, b.d/g)
			if s := x + y; ok1 && ok2 && ok3 && (s > x) == (y > 0) && s != -1<<63 {
				return small(s, d)
			}
		}
	}
	return fromBig(new(big.Rat).Add(a.rat(), b.rat()))
}

func (a frac) sub(b frac) frac { return a.add(b.neg()) }

func (a frac) mul(b frac) frac {
	if a.big == nil && b.big == nil {
		// Across first, so that the products stay small.
		p, q := small(a.n, b.d), small(b.n, a.d)
		n, ok1 := times(p.n, q.n)
		d, ok2 := times(p.d, q.d)
		if ok1 && ok2 {
			return frac{n: n, d: d}
		}
	}
	return fromBig(new(big.Rat).Mul(a.rat(), b.rat()))
}

// inv is 1/a; a is not zero.
func (a frac) inv() frac {
	switch {
	case a.big != nil:
		return fromBig(new(big.Rat).Inv(a.big))
	case a.n < 0:
		return frac{n: -a.d, d: -a.n}
	}
	return frac{n: a.d, d: a.n}
}

func (a frac) quo(b frac) frac { return a.mul(b.inv()) }

func (a frac) cmp(b frac) int {
	if a.big != nil || b.big != nil {
		return a.rat().Cmp(b.rat())
	}
	switch s, t := a.sign(), b.sign(); {
	case s < t:
		return -1
	case s > t:
		return 1
	case s == 0:
		return 0
	}
	h1, l1 := bits.Mul64(abs(a.n), uint64(b.d))
	h2, l2 := bits.Mul64(abs(b.n), uint64(a.d))
	c := 0
	switch {
	case h1 < h2 || h1 == h2 && l1 < l2:
		c = -1
	case h1 != h2 || l1 != l2:
		c = 1
	}
	if a.n < 0 {
		c = -c
	}
	return c
}

func (a frac) less(b frac) bool { return a.cmp(b) < 0 }
