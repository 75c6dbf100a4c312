package job

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// SurveyCheck says when a reading is doubted against its neighbours. A zero
// value was not stated.
type SurveyCheck struct {
	At    finding.Place
	Least length.Length // what stands out by less is never doubted
	Times int           // times the run's own scatter
}

// LineKind says how the front-face line of a run is found.
type LineKind int

// The three ways.
const (
	LineFitted   LineKind = iota // the least greatest gap to the wall
	LineParallel                 // the same distance at both corners
	LineHeld                     // through stated distances
)

// Line is how the front-face line of a run is found; when held, its distances
// beyond the wall line at the plumbed corners, towards the street.
type Line struct {
	At          finding.Place
	Kind        LineKind
	Left, Right length.Length
}

// Measure is one of the things a reading measures.
type Measure string

// What a reading measures, as people say it.
const (
	MeasureStation    Measure = "station"
	MeasureWidth      Measure = "width"
	MeasureTopOutside Measure = "top outside"
	MeasureTopInside  Measure = "top inside"
	MeasureOffset     Measure = "offset"
	MeasureWidthLow   Measure = "width low"
	MeasureOffsetLow  Measure = "offset low"
	MeasureCondition  Measure = "condition"
)

// Measures is every measure, in the order of the survey.
func Measures() []Measure {
	return []Measure{MeasureStation, MeasureWidth, MeasureTopOutside, MeasureTopInside, MeasureOffset,
		MeasureWidthLow, MeasureOffsetLow, MeasureCondition}
}

// Cleared is the word of a person who looked again at what a reading says and
// stands by it.
type Cleared struct {
	At      finding.Place
	Station length.Length // as the survey has it
	Measure Measure
	By      string
	On      Date

	Value      length.Length // the reading as it stands
	Conditions []Condition   // the same, where the measure is the condition
}

// Reads reports whether a reading still is what the entry clears. Lengths count
// as the same to the half of a sixteenth, which is how findings letter them.
func (c *Cleared) Reads(q *Reading) bool {
	if c.Measure == MeasureCondition {
		if len(c.Conditions) != len(q.Conditions) {
			return false
		}
		for _, one := range q.Conditions {
			if !slices.Contains(c.Conditions, one) {
				return false
			}
		}
		return true
	}
	v, ok := q.Value(c.Measure)
	return ok && length.Abs(v-c.Value) <= length.Inch16/2
}

// Value is what a reading has for a measure; false: it has none that is a length.
func (q *Reading) Value(m Measure) (length.Length, bool) {
	low := func(l *length.Length) (length.Length, bool) {
		if l == nil {
			return 0, false
		}
		return *l, true
	}
	switch m {
	case MeasureStation:
		return q.Station, true
	case MeasureWidth:
		return q.Width, true
	case MeasureTopOutside:
		return q.TopOutside, true
	case MeasureTopInside:
		return q.TopInside, true
	case MeasureOffset:
		return q.Offset, true
	case MeasureWidthLow:
		return low(q.WidthLow)
	case MeasureOffsetLow:
		return low(q.OffsetLow)
	}
	return 0, false
}

// Condition is what is wrong with the wall top at a reading.
type Condition string

// The condition codes of the survey.
const (
	Loose    Condition = "loose"    // nailer or top course moves
	Rotten   Condition = "rotten"   // wood is decayed
	Wet      Condition = "wet"      // wood or masonry is wet
	Fixings  Condition = "fixings"  // old bolts, nails or straps stand up
	Pipes    Condition = "pipes"    // pipes or cables lie on the top or come through it
	Flashing Condition = "flashing" // earlier flashing or coping is still there
)

// Conditions is every condition code.
func Conditions() []Condition { return []Condition{Loose, Rotten, Wet, Fixings, Pipes, Flashing} }

// Unsound reports whether nothing may be fastened where the condition holds.
func (c Condition) Unsound() bool { return c == Loose || c == Rotten || c == Wet }
