// Package length holds exact lengths. A Length counts nanometres, so 1/64 in
// (396,875 nm) and 1 mm are both whole numbers, and the parts of a chain add
// up to its whole without a rounding error to hide.
//
// The types are Length and Style. The rules:
//
//   - Float64 enters only through FromMM and FromInches, and leaves only
//     through MM and Inch. Everything between is integer.
//   - Every rounding is to the nearest step, halves away from zero, so a
//     mirrored layout rounds to the mirror of the layout.
//   - Parse reads what people write and never guesses a unit.
//   - A caller prints through a Style, so that one sheet has one grid.
//
// A Length is meant for buildings: what Parse and the From functions give lies
// within Most of zero, which leaves room for sums and differences in int64.
package length

import (
	"fmt"
	"math"
	"math/bits"
)

// Length is a distance in nanometres.
type Length int64

// The units. The inch is 25.4 mm exactly by the international yard and pound
// agreement of 1959.
const (
	Nanometre  Length = 1
	Micrometre        = 1_000 * Nanometre
	Millimetre        = 1_000_000 * Nanometre
	Centimetre        = 10 * Millimetre
	Metre             = 1_000 * Millimetre
	Inch              = 25_400_000 * Nanometre
	Foot              = 12 * Inch
	Inch16            = Inch / 16
	Inch32            = Inch / 32
	Inch64            = Inch / 64
)

// Most is the greatest length taken in from outside: 100 km. Anything longer
// is a slip of the pen, or a calculation gone wrong.
const Most = 100_000 * Metre

// MM is the length in millimetres, for trigonometry and drawing.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Inch is the length in inches, for formulas that are printed in inches.
func (l Length) Inch() float64 { return float64(l) / float64(Inch) }

// FromMM rounds a calculated number of millimetres to a Length. With
// FromInches it is the one place where a float becomes a length. It panics on
// what is no length (NaN, infinite, beyond Most): a formula that was fed an
// angle it cannot take must be stopped before this, never drawn.
func FromMM(mm float64) Length { return fromFloat(mm, Millimetre) }

// FromInches rounds a calculated number of inches to a Length; see FromMM.
func FromInches(in float64) Length { return fromFloat(in, Inch) }

func fromFloat(v float64, unit Length) Length {
	nm := math.Round(v * float64(unit))
	if !(math.Abs(nm) <= float64(Most)) { // written so that NaN fails it
		panic(fmt.Sprintf("length: %v is not the length of a building part", v))
	}
	return Length(nm)
}

// Abs is the length without its sign.
func Abs(l Length) Length {
	if l < 0 {
		return -l
	}
	return l
}

// Min is the lesser of two lengths.
func Min(a, b Length) Length { return min(a, b) }

// Max is the greater of two lengths.
func Max(a, b Length) Length { return max(a, b) }

// Sum adds lengths.
func Sum(parts ...Length) Length {
	var t Length
	for _, p := range parts {
		t += p
	}
	return t
}

// RoundTo is the multiple of step nearest to l, a half going away from zero.
func RoundTo(l, step Length) Length {
	mustStep(step)
	rest := l % step
	if a := Abs(rest); a >= step-a {
		if l < 0 {
			return l - rest - step
		}
		return l - rest + step
	}
	return l - rest
}

// CeilTo is the least multiple of step that is not less than l.
func CeilTo(l, step Length) Length {
	mustStep(step)
	rest := l % step
	if rest > 0 {
		return l - rest + step
	}
	return l - rest
}

// FloorTo is the greatest multiple of step that is not greater than l.
func FloorTo(l, step Length) Length {
	mustStep(step)
	rest := l % step
	if rest < 0 {
		return l - rest - step
	}
	return l - rest
}

func mustStep(step Length) {
	if step <= 0 {
		panic("length: a step must be greater than zero")
	}
}

// MulDiv is l × num ÷ den, with the product held in 128 bits and the quotient
// rounded once, a half going away from zero. It panics if den is zero or the
// result does not fit, since a wrapped length would look like a real one.
func MulDiv(l Length, num, den int64) Length {
	negative := (l < 0) != (num < 0) != (den < 0)
	d := magnitude(den)
	if d == 0 {
		panic("length: division by zero")
	}
	q, ok := mulDivUnsigned(magnitude(int64(l)), magnitude(num), d)
	if !ok || q > math.MaxInt64 {
		panic("length: product too long")
	}
	if negative {
		return -Length(q)
	}
	return Length(q)
}

// mulDivUnsigned is a × b ÷ d rounded to the nearest, halves up.
func mulDivUnsigned(a, b, d uint64) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= d {
		return 0, false
	}
	q, r := bits.Div64(hi, lo, d)
	if r >= d-r { // r ≥ d/2 without the overflow of 2r
		q++
		if q == 0 {
			return 0, false
		}
	}
	return q, true
}

// magnitude also holds the one int64 whose negative does not fit an int64.
func magnitude(v int64) uint64 {
	if v < 0 {
		return -uint64(v)
	}
	return uint64(v)
}

// Chain rounds each position to the step once and takes the parts as the
// differences of the rounded positions. Printed parts then add up to the
// printed whole, and a running dimension agrees with the chain beside it;
// rounding each part alone would lose or gain a step along the way.
func Chain(positions []Length, step Length) (at, parts []Length) {
	at = make([]Length, len(positions))
	for i, p := range positions {
		at[i] = RoundTo(p, step)
		if i > 0 {
			parts = append(parts, at[i]-at[i-1])
		}
	}
	return at, parts
}

// Split divides total into n parts on the step, as equal as the step allows,
// that add up to total exactly. The parts that are one step larger come first
// if extraFirst, else last; whatever part of total is itself off the step
// stays at that same end. The two orders are the mirror of each other. It
// returns nil if n is less than one.
func Split(total Length, n int, step Length, extraFirst bool) []Length {
	mustStep(step)
	if n < 1 {
		return nil
	}
	unit := step
	if total < 0 {
		unit = -step // the parts of a negative total are the negatives of the parts
	}
	steps := total / unit
	rest := total - steps*unit
	base, extra := steps/Length(n), int(steps%Length(n))
	parts := make([]Length, n)
	for i := range parts {
		k := i // rank from the end where the larger parts stand
		if !extraFirst {
			k = n - 1 - i
		}
		parts[i] = base * unit
		if k < extra {
			parts[i] += unit
		}
		if k == 0 {
			parts[i] += rest
		}
	}
	return parts
}
