package setplane

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

// Fractions of every size agree with big.Rat, and small ones stay in lowest
// terms.
func TestFrac(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) frac {
			n := rapid.OneOf(rapid.Int64Range(-100, 100), rapid.Int64Range(-1<<40, 1<<40), rapid.Int64Range(-1<<63+1, 1<<63-1)).Draw(t, what)
			d := rapid.OneOf(rapid.Int64Range(1, 100), rapid.Int64Range(1, 1<<40), rapid.Int64Range(1, 1<<63-1)).Draw(t, what+" over")
			a := small(n, d)
			if rapid.IntRange(0, 9).Draw(t, what+" squared") == 0 {
				return a.mul(a)
			}
			return a
		}
		a, b := draw("a"), draw("b")
		same := func(what string, got frac, want *big.Rat) {
			if got.rat().Cmp(want) != 0 {
				t.Fatalf("%v %s %v is %v, not %v", a.rat(), what, b.rat(), got.rat(), want)
			}
			if got.big == nil && (got.d <= 0 || got.rat().Num().Int64() != got.n || got.rat().Denom().Int64() != got.d) {
				t.Fatalf("%v is not in lowest terms", got)
			}
		}
		same("plus", a.add(b), new(big.Rat).Add(a.rat(), b.rat()))
		same("minus", a.sub(b), new(big.Rat).Sub(a.rat(), b.rat()))
		same("times", a.mul(b), new(big.Rat).Mul(a.rat(), b.rat()))
		if b.sign() != 0 {
			same("by", a.quo(b), new(big.Rat).Quo(a.rat(), b.rat()))
		}
		if a.cmp(b) != a.rat().Cmp(b.rat()) || a.sign() != a.rat().Sign() {
			t.Fatalf("%v beside %v: %d", a.rat(), b.rat(), a.cmp(b))
		}
	})
}
