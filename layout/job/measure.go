package job

import (
	"slices"
	"strings"

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
	MeasureTopOutside Measure = "street top"
	MeasureTopInside  Measure = "roof top"
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

func (c *SurveyCheck) keys(k keys) {
	c.At = k.at
	k.length("least", &c.Least, "what stands out from the neighbours by less is not doubted", `1/4"`)
	value(k, "times", &c.Times, number("value-times", parseTimes),
		"how many times the run's own scatter a reading may stand out", "4")
}

// parseTimes reads a whole number of times, at least 2: at once the usual
// scatter every third reading would be doubted.
func parseTimes(s string) (int, error) {
	v, rest, ok := plainNumber(s)
	if ok && rest == "" && v.IsInt() {
		if n, ok := whole(v); ok && n >= 2 && n <= 20 {
			return int(n), nil
		}
	}
	return 0, wrong("value-times", "write a whole number from 2 to 20", "%s is not a number of times", show(s))
}

// keys declares how a run's line is found: a word, or its distances.
func (l *Line) keys(k keys, name string) {
	l.At = k.keyAt(name)
	groupOrWord(k, name, &l.Kind, []choice[LineKind]{{"fitted", LineFitted}, {"parallel", LineParallel}}, func(k keys) {
		l.Kind = LineHeld
		k.signedLength("left", &l.Left, "the line's distance at the left corner", `1/2"`)
		k.signedLength("right", &l.Right, "the line's distance at the right corner", `3/8"`)
	}, "how the front-face line is found: fitted, parallel to the wall line, or its distances beyond the wall's "+
		"plumbed corners, "+
		"towards the street", "parallel")
}

func (c *Cleared) keys(k keys) {
	c.At = k.at
	k.signedLength("station", &c.Station, "the station of the reading, as the survey has it", `12'-6"`)
	var all []choice[Measure]
	for _, m := range Measures() {
		all = append(all, choice[Measure]{strings.ReplaceAll(string(m), " ", "_"), m})
	}
	k.onceWord("measure", "top_outside", "street_top")
	k.onceWord("measure", "top_inside", "roof_top")
	word(k, "measure", &c.Measure, all, "what stands", "width")
	if c.Measure == MeasureCondition {
		coded(k, "value", &c.Conditions, conditions(), "the codes of the condition as it stands", "loose")
	} else {
		k.signedLength("value", &c.Value, "the reading as it stands; of a condition, its codes", `12 1/8"`)
	}
	k.text("by", &c.By, "who looked again", "D. Quill")
	k.date("on", &c.On, "when", "2026-03-02")
}

// clearing checks that what is cleared is cleared once.
func (c *runCheck) clearing() {
	type what struct {
		station string
		measure Measure
	}
	seen := map[what]finding.Place{}
	for _, e := range c.r.Cleared {
		k := what{Both(e.Station), e.Measure}
		if e.Measure == "" || e.At.IsZero() {
			continue
		}
		if first, twice := seen[k]; twice {
			c.d.conflict("cleared-twice", e.At, first,
				"keep one of the two", "run %s: the %s at station %s is cleared twice", c.r.Name, e.Measure, k.station)
		}
		seen[k] = e.At
	}
}
