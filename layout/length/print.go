package length

import (
	"fmt"
	"strconv"
	"strings"
)

// Feet prints feet, inches and a reduced fraction, rounded to 1/den inch:
// 12'-3 1/2". Zero inches and zero feet are shown, so a reader sees that
// nothing was left out. The denominator is 1, 2, 4, 8, 16, 32 or 64. Below zero
// by less than a foot it prints inches alone, -1/16": a sign before zero feet
// reads as a slip of the pen.
func Feet(l Length, den int) string {
	neg, n := inSteps(l, den)
	perFoot := uint64(12 * den)
	if neg != "" && n < perFoot {
		return neg + inches(n, uint64(den), false)
	}
	return neg + strconv.FormatUint(n/perFoot, 10) + "'-" + inches(n%perFoot, uint64(den), true)
}

// Inches prints inches and a reduced fraction, rounded to 1/den inch: 147 1/2".
func Inches(l Length, den int) string {
	neg, n := inSteps(l, den)
	return neg + inches(n, uint64(den), false)
}

// inSteps counts whole steps of 1/den inch, with the sign apart: a length that
// rounds to zero has none. The carry into the next inch or foot is then only
// division.
func inSteps(l Length, den int) (sign string, n uint64) {
	switch den {
	case 1, 2, 4, 8, 16, 32, 64: // these divide the inch into whole nanometres
	default:
		panic(fmt.Sprintf("length: no tape has %d parts to the inch", den))
	}
	return scaled(l, 1, uint64(Inch)/uint64(den))
}

// inches prints n steps of 1/den inch; zero whole inches before a fraction are
// shown after feet, 12'-0 1/2", and left out alone, 1/2".
func inches(n, den uint64, afterFeet bool) string {
	whole, part := n/den, n%den
	if part == 0 {
		return strconv.FormatUint(whole, 10) + `"`
	}
	for part%2 == 0 { // den is a power of two, so halving reduces it fully
		part, den = part/2, den/2
	}
	fraction := strconv.FormatUint(part, 10) + "/" + strconv.FormatUint(den, 10) + `"`
	if whole == 0 && !afterFeet {
		return fraction
	}
	return strconv.FormatUint(whole, 10) + " " + fraction
}

// Decimal prints decimal inches with a fixed number of places, as sheet metal
// is ordered: 0.050".
func Decimal(l Length, places int) string {
	return fixed(l, Inch, places) + `"`
}

// Millimetres prints millimetres with at most the given number of decimals and
// no unit, trailing zeros left out: 3750, 3750.5, 0.
func Millimetres(l Length, places int) string {
	s := fixed(l, Millimetre, places)
	if places > 0 {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func fixed(l, unit Length, places int) string {
	pow := pow10(places)
	neg, n := scaled(l, pow, uint64(unit))
	s := strconv.FormatUint(n/pow, 10)
	if places > 0 {
		s += fmt.Sprintf(".%0*d", places, n%pow)
	}
	return neg + s
}

func pow10(places int) uint64 {
	if places < 0 || places > 9 {
		panic(fmt.Sprintf("length: %d decimals", places))
	}
	pow := uint64(1)
	for range places {
		pow *= 10
	}
	return pow
}

// scaled is |l| × mul ÷ div, rounded, and the sign to print before it.
func scaled(l Length, mul, div uint64) (sign string, n uint64) {
	n, ok := mulDivUnsigned(magnitude(int64(l)), mul, div)
	if !ok {
		panic("length: too long to print")
	}
	if l < 0 && n > 0 {
		sign = "-"
	}
	return sign, n
}

// String prints the exact length, for messages and tests: in feet and inches
// if it stands on 1/64 in, else in millimetres. Sheets print through a Style.
func (l Length) String() string {
	if l%Inch64 == 0 {
		return Feet(l, 64)
	}
	return Millimetres(l, 6) + " mm"
}

// Style is how one reader sees lengths. The zero Style is a crew's tape in
// sixteenths of an inch.
type Style struct {
	Metric      bool
	Denominator int // parts of an inch; zero means 16
	Places      int // decimals of a millimetre
}

// Crew is the style of what is measured with a tape on the roof: sixteenths,
// or whole millimetres.
func Crew(metric bool) Style {
	return Style{Metric: metric, Denominator: 16}
}

// Shop is the style of what is set on a shear or brake: thirty-seconds, or
// tenths of a millimetre.
func Shop(metric bool) Style {
	return Style{Metric: metric, Denominator: 32, Places: 1}
}

func (s Style) den() int {
	if s.Denominator == 0 {
		return 16
	}
	return s.Denominator
}

// Step is the grid the style prints on. A length on the grid prints exactly.
func (s Style) Step() Length {
	if s.Metric {
		return Millimetre / Length(pow10(s.Places))
	}
	return Inch / Length(s.den())
}

// Round puts a length on the style's grid.
func (s Style) Round(l Length) Length { return RoundTo(l, s.Step()) }

// Long prints feet and inches, or millimetres without the unit.
func (s Style) Long(l Length) string {
	if s.Metric {
		return Millimetres(l, s.Places)
	}
	return Feet(l, s.den())
}

// Short prints inches, or millimetres without the unit.
func (s Style) Short(l Length) string {
	if s.Metric {
		return Millimetres(l, s.Places)
	}
	return Inches(l, s.den())
}

// Thin prints a sheet thickness, which no tape reads: 0.050", or 1.27.
func (s Style) Thin(l Length) string {
	if s.Metric {
		return Millimetres(l, 2)
	}
	return Decimal(l, 3)
}

// Exact prints a length that no tape rounds, a diameter or a stock length: in
// inches to a sixty-fourth, off which it is in decimals, or in millimetres
// without the unit.
func (s Style) Exact(l Length) string {
	switch {
	case s.Metric:
		return Millimetres(l, 3)
	case l%Inch64 == 0:
		return Inches(l, 64)
	}
	return Decimal(l, 3)
}

// InText prints a length that stands in a sentence, where no note on the sheet
// says the unit: 12'-3 1/2" or 3750 mm.
func (s Style) InText(l Length) string {
	if s.Metric {
		return s.Long(l) + " mm"
	}
	return s.Long(l)
}
