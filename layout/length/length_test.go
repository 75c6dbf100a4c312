package length

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestRounding(t *testing.T) {
	for _, c := range []struct{ l, step, near, up, down Length }{
		{0, 10, 0, 0, 0},
		{4, 10, 0, 10, 0},
		{5, 10, 10, 10, 0},
		{10, 10, 10, 10, 10},
		{-4, 10, 0, 0, -10},
		{-5, 10, -10, 0, -10},
		{-6, 10, -10, 0, -10},
		{-10, 10, -10, -10, -10},
		{4, 9, 0, 9, 0}, // an odd step has no half
		{5, 9, 9, 9, 0},
		{-15, 10, -20, -10, -20},
		{7, 1, 7, 7, 7},
	} {
		if got := RoundTo(c.l, c.step); got != c.near {
			t.Errorf("RoundTo(%d, %d) = %d, want %d", c.l, c.step, got, c.near)
		}
		if got := CeilTo(c.l, c.step); got != c.up {
			t.Errorf("CeilTo(%d, %d) = %d, want %d", c.l, c.step, got, c.up)
		}
		if got := FloorTo(c.l, c.step); got != c.down {
			t.Errorf("FloorTo(%d, %d) = %d, want %d", c.l, c.step, got, c.down)
		}
	}
	mustPanic(t, "RoundTo with no step", func() { RoundTo(1, 0) })
	mustPanic(t, "CeilTo with no step", func() { CeilTo(1, -1) })
	mustPanic(t, "FloorTo with no step", func() { FloorTo(1, 0) })
}

func TestRoundingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLength(t, "length")
		step := Length(rapid.Int64Range(1, int64(2*Inch)).Draw(t, "step"))
		near, up, down := RoundTo(l, step), CeilTo(l, step), FloorTo(l, step)
		if near%step != 0 || up%step != 0 || down%step != 0 {
			t.Fatalf("off the step: %d %d %d", near, up, down)
		}
		if down > l || up < l || up-down > step || (near != up && near != down) {
			t.Fatalf("%d does not lie in %d, %d, %d", l, down, near, up)
		}
		if 2*Abs(near-l) > step {
			t.Fatalf("%d is not the nearest to %d", near, l)
		}
		if RoundTo(-l, step) != -near || CeilTo(-l, step) != -down {
			t.Fatalf("the mirror of %d rounds otherwise", l)
		}
	})
}

func TestFromFloat(t *testing.T) {
	for _, c := range []struct {
		got, want Length
	}{
		{FromMM(25.4), Inch},
		{FromMM(-0.0000005), -1},
		{FromMM(0), 0},
		{FromInches(0.0625), Inch16},
		{FromInches(-1.5), -Inch - half},
		{FromMM(100_000_000), Most},
	} {
		if c.got != c.want {
			t.Errorf("got %d, want %d", c.got, c.want)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e12, math.Tan(math.Pi / 2)} {
		mustPanic(t, "FromMM of no length", func() { FromMM(v) })
		mustPanic(t, "FromInches of no length", func() { FromInches(v) })
	}
	if got := (147*Inch + half).Inch(); got != 147.5 {
		t.Errorf("147 1/2 in is %v in", got)
	}
	if got := (3750*Millimetre + 500_000).MM(); got != 3750.5 {
		t.Errorf("3750.5 mm is %v mm", got)
	}
}

func TestSmallArithmetic(t *testing.T) {
	if Abs(-Inch) != Inch || Abs(Inch) != Inch || Abs(0) != 0 {
		t.Error("Abs")
	}
	if Min(-Inch, Foot) != -Inch || Max(-Inch, Foot) != Foot {
		t.Error("Min or Max")
	}
	if Sum() != 0 || Sum(Foot, -Inch, half) != 11*Inch+half {
		t.Error("Sum")
	}
}

func TestMulDiv(t *testing.T) {
	for _, c := range []struct {
		l        Length
		num, den int64
		want     Length
	}{
		{Foot, 1, 12, Inch},
		{5, 1, 2, 3},
		{-5, 1, 2, -3},
		{5, -1, 2, -3},
		{5, 1, -2, -3},
		{-5, -1, -2, -3},
		{4, 1, 3, 1},
		{5, 1, 3, 2},
		{0, 7, 3, 0},
		{Most, math.MaxInt64, math.MaxInt64, Most},
		{math.MinInt64 + 1, math.MaxInt64, math.MaxInt64, math.MinInt64 + 1},
		{Most, 1_000_000_007, 1_000_000_000, 100_000_000_700_000},
	} {
		if got := MulDiv(c.l, c.num, c.den); got != c.want {
			t.Errorf("MulDiv(%d, %d, %d) = %d, want %d", c.l, c.num, c.den, got, c.want)
		}
	}
	mustPanic(t, "division by zero", func() { MulDiv(1, 1, 0) })
	mustPanic(t, "product beyond 128 bits of quotient", func() { MulDiv(math.MaxInt64, math.MaxInt64, 1) })
	mustPanic(t, "quotient of 2^63", func() { MulDiv(1<<62, 2, 1) })
}

// TestMulDivAgainstBig compares with big integers: the nearest is the floor of
// (2·a·b + d) / 2d on magnitudes.
func TestMulDivAgainstBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.Int64Range(-int64(Most), int64(Most)).Draw(t, "length")
		num := rapid.Int64().Draw(t, "num")
		den := rapid.Int64().Filter(func(v int64) bool { return v != 0 }).Draw(t, "den")
		n := new(big.Int).Mul(big.NewInt(l), big.NewInt(num))
		d := big.NewInt(den)
		sign := n.Sign() * d.Sign()
		n.Abs(n).Lsh(n, 1).Add(n, d.Abs(d))
		n.Quo(n, d.Lsh(d, 1))
		if !n.IsInt64() {
			t.Skip("does not fit")
		}
		if got, want := MulDiv(Length(l), num, den), int64(sign)*n.Int64(); int64(got) != want {
			t.Fatalf("got %d, want %d", got, want)
		}
	})
}

func TestChain(t *testing.T) {
	// Thirds of an inch: each part alone would round to 5/16, 15/16 in all.
	third := MulDiv(Inch, 1, 3)
	at, parts := Chain([]Length{0, third, 2 * third, Inch}, Inch16)
	if want := []Length{0, 5 * Inch16, 11 * Inch16, Inch}; !slices.Equal(at, want) {
		t.Errorf("positions %v, want %v", at, want)
	}
	if want := []Length{5 * Inch16, 6 * Inch16, 5 * Inch16}; !slices.Equal(parts, want) {
		t.Errorf("parts %v, want %v", parts, want)
	}
	if at, parts := Chain(nil, Inch16); len(at) != 0 || len(parts) != 0 {
		t.Errorf("empty chain: %v %v", at, parts)
	}
	if at, parts := Chain([]Length{Inch + 1}, Inch16); !slices.Equal(at, []Length{Inch}) || len(parts) != 0 {
		t.Errorf("one position: %v %v", at, parts)
	}
}

func TestChainCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var pos []Length
		for range rapid.IntRange(1, 12).Draw(t, "count") {
			pos = append(pos, anyLength(t, "position"))
		}
		given := slices.Clone(pos)
		at, parts := Chain(pos, Inch16)
		if !slices.Equal(pos, given) {
			t.Fatal("the given positions were changed")
		}
		for i, p := range pos {
			if 2*Abs(at[i]-p) > Inch16 || at[i]%Inch16 != 0 {
				t.Fatalf("position %d went from %d to %d", i, p, at[i])
			}
		}
		if len(parts) != len(pos)-1 || Sum(parts...) != at[len(at)-1]-at[0] {
			t.Fatalf("parts %v do not close %v", parts, at)
		}
	})
}

func TestSplit(t *testing.T) {
	for _, c := range []struct {
		total      Length
		n          int
		step       Length
		extraFirst bool
		want       []Length
	}{
		{10, 3, 1, true, []Length{4, 3, 3}},
		{10, 3, 1, false, []Length{3, 3, 4}},
		{11, 3, 1, false, []Length{3, 4, 4}},
		{12, 3, 1, false, []Length{4, 4, 4}},
		{107, 3, 10, true, []Length{47, 30, 30}},
		{107, 3, 10, false, []Length{30, 30, 47}},
		{-107, 3, 10, false, []Length{-30, -30, -47}},
		{7, 3, 10, true, []Length{7, 0, 0}},
		{0, 2, 10, true, []Length{0, 0}},
		{25, 1, 10, true, []Length{25}},
		{25, 0, 10, true, nil},
		{25, -1, 10, true, nil},
	} {
		if got := Split(c.total, c.n, c.step, c.extraFirst); !slices.Equal(got, c.want) {
			t.Errorf("Split(%d, %d, %d, %v) = %d, want %d", c.total, c.n, c.step, c.extraFirst, got, c.want)
		}
	}
	mustPanic(t, "a split with no step", func() { Split(10, 2, 0, true) })
}

func TestSplitProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := anyLength(t, "total")
		n := rapid.IntRange(1, 40).Draw(t, "n")
		step := rapid.SampledFrom([]Length{1, Inch16, Inch32, Millimetre, 7}).Draw(t, "step")
		first := Split(total, n, step, true)
		last := Split(total, n, step, false)
		if Sum(first...) != total || Sum(last...) != total {
			t.Fatalf("%v or %v does not add up to %d", first, last, total)
		}
		for i, p := range first {
			if last[n-1-i] != p {
				t.Fatalf("%v is not the mirror of %v", last, first)
			}
			if i > 0 && p%step != 0 {
				t.Fatalf("part %d is off the step: %v", i, first)
			}
			if i > 0 && Abs(p) > Abs(first[i-1]) {
				t.Fatalf("larger parts are not first: %v", first)
			}
		}
		onStep := first[0] - total%step
		if Abs(onStep-first[n-1]) > step {
			t.Fatalf("parts differ by more than a step: %v", first)
		}
	})
}
