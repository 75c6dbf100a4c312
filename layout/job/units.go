package job

import (
	"copingset/layout/length"
)

// Angle and Slope are those of the drawings, which know no job.
type (
	Angle = length.Angle
	Slope = length.Slope
)

// Degree is one degree.
const Degree = length.Degree

// Temperature in thousandths of a degree Celsius.
type Temperature int64

// Celsius returns whole and part degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) / 1000 }

// Fahrenheit returns degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(t)/1000*9/5 + 32 }

// Level says what a pressure or a resistance is. Untagged is an error.
type Level int

// Strength and allowable are levels of demand and resistance; as-pulled is
// the ultimate a laboratory recorded, before any factor.
const (
	Strength Level = iota
	Allowable
	AsPulled
)

// Pressure in pascals at a level.
type Pressure struct {
	Pa    float64
	Level Level
}

// Date is a calendar day; the zero Date is none.
type Date struct{ Year, Month, Day int }

// PaperSize is one of the sheets of drafting practice.
type PaperSize int

// ANSI sizes (ASME Y14.1) and ISO sizes (ISO 216).
const (
	ANSIA PaperSize = iota
	ANSIB
	ANSIC
	ANSID
	ISOA4
	ISOA3
	ISOA2
)

// Sides of a sheet as it is held upright: ANSI sizes by ASME Y14.1, the others by
// ISO 216.
func (z PaperSize) Sides() (narrow, wide length.Length) {
	switch z {
	case ANSIA:
		return 17 * length.Inch / 2, 11 * length.Inch
	case ANSIB:
		return 11 * length.Inch, 17 * length.Inch
	case ANSIC:
		return 17 * length.Inch, 22 * length.Inch
	case ANSID:
		return 22 * length.Inch, 34 * length.Inch
	case ISOA4:
		return 210 * length.Millimetre, 297 * length.Millimetre
	case ISOA3:
		return 297 * length.Millimetre, 420 * length.Millimetre
	}
	return 420 * length.Millimetre, 594 * length.Millimetre
}
