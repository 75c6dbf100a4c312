package wind

import (
	"fmt"
	"math"
	"strconv"

	"copingset/layout/job"
	"copingset/layout/length"
)

// Sure says how far a figure has been traced, for the reader who has to stand
// behind it.
type Sure string

// From the surest to the one that a person must look up before relying on it.
const (
	Stated   Sure = "stated in the job"
	Computed Sure = "computed"
	Read     Sure = "read in a second source" // the standard itself was not at hand
	Disputed Sure = "second sources differ"   // which is taken, and why, is in the source's words
	Memory   Sure = "memory"
)

// Step is one line of the basis of design: an input, a constant or a result,
// in the order in which they follow from each other.
type Step struct {
	Fact    string // its name in the list that a confirmation is over; stable
	Said    string // how that list has it, where a sentence stands on the sheet; empty: as lettered
	Symbol  string
	What    string
	Formula string // empty for an input or a constant
	Value   float64
	Unit    string // psf, kPa, mph, m/s, ft, m, ft2, m2, deg, in, mm, lb, N, psi, MPa; empty: a plain number
	Text    string // instead of the value: a word of the job
	Source  string
	Sure    Sure
}

// Letter letters the value with its unit, for a table.
func (s Step) Letter() string {
	if s.Text != "" {
		return s.Text
	}
	places := 4
	switch s.Unit {
	case "psf", "mph", "m/s", "ft", "ft2", "deg":
		places = 2
	case "kPa", "m", "m2", "in":
		places = 3
	case "lb", "lb/in", "N", "N/mm", "mm", "MPa":
		places = 1
	case "psi":
		places = 0
	}
	t := strconv.FormatFloat(s.Value, 'f', places, 64)
	if s.Unit != "" {
		t += " " + s.Unit
	}
	return t
}

// source is where a constant of the standard was taken from.
type source struct {
	text string
	sure Sure
}

func read(text string) source     { return source{text, Read} }
func disputed(text string) source { return source{text, Disputed} }
func memory(text string) source   { return source{text, Memory} }

func inJob() source    { return source{"job file, wind", Stated} }
func notInJob() source { return source{"not stated in the job: the safe side", Computed} }
func follows() source  { return source{"", Computed} }

// worse is the less sure of two.
func worse(a, b Sure) Sure {
	for _, s := range []Sure{Memory, Disputed} {
		if a == s || b == s {
			return s
		}
	}
	return a
}

// Exact measures: the foot is 0.3048 m, the mile 1609.344 m; a pound-force is
// 0.45359237 kg times 9.80665 m/s2.
const (
	metresPerFoot = 0.3048
	mpsPerMPH     = 0.44704
	pascalsPerPSF = 4.4482216152605 / 0.09290304
)

// sheet collects the steps in the units of the job.
type sheet struct {
	metric     bool
	steps      []Step
	fact, said string // of the next step
}

// as names the next step in the list that a confirmation is over. The name is
// part of what engineers sign, and never changes. said stands in that list for a
// value that is a sentence, so that the sentence may be worded anew.
func (b *sheet) as(fact string, said ...string) *sheet {
	b.fact = fact
	if len(said) > 0 {
		b.said = said[0]
	}
	return b
}

func (b *sheet) add(s Step, from source) {
	s.Fact, s.Said, b.fact, b.said = b.fact, b.said, "", ""
	s.Source, s.Sure = from.text, from.sure
	b.steps = append(b.steps, s)
}

func (b *sheet) number(symbol, what, formula string, v float64, from source) {
	b.add(Step{Symbol: symbol, What: what, Formula: formula, Value: v}, from)
}

func (b *sheet) words(symbol, what, text string, from source) {
	b.add(Step{Symbol: symbol, What: what, Text: text}, from)
}

func (b *sheet) feet(symbol, what, formula string, ft float64, from source) {
	s := Step{Symbol: symbol, What: what, Formula: formula, Value: ft, Unit: "ft"}
	if b.metric {
		s.Value, s.Unit = ft*metresPerFoot, "m"
	}
	b.add(s, from)
}

func (b *sheet) area(symbol, what string, ft2 float64, from source) {
	s := Step{Symbol: symbol, What: what, Value: ft2, Unit: "ft2"}
	if b.metric {
		s.Value, s.Unit = ft2*metresPerFoot*metresPerFoot, "m2"
	}
	b.add(s, from)
}

func (b *sheet) speed(symbol, what string, mps float64, from source) {
	s := Step{Symbol: symbol, What: what, Value: mps / mpsPerMPH, Unit: "mph"}
	if b.metric {
		s.Value, s.Unit = mps, "m/s"
	}
	b.add(s, from)
}

func (b *sheet) pressure(symbol, what, formula string, pa float64, from source) {
	s := Step{Symbol: symbol, What: what, Formula: formula, Value: pa / pascalsPerPSF, Unit: "psf"}
	if b.metric {
		s.Value, s.Unit = pa/1000, "kPa"
	}
	b.add(s, from)
}

// ft, ft2 and psf letter a constant of the standard within a formula.
func (b *sheet) ft(v float64) string {
	if b.metric {
		return fmt.Sprintf("%.2f m", v*metresPerFoot)
	}
	return fmt.Sprintf("%g ft", v)
}

// sixteenth letters the step that zones are rounded up to.
func (b *sheet) sixteenth() string {
	if b.metric {
		return "1.6 mm (1/16 in)"
	}
	return "1/16 in"
}

func (b *sheet) ft2(v float64) string {
	if b.metric {
		return fmt.Sprintf("%.2f m2", v*metresPerFoot*metresPerFoot)
	}
	return fmt.Sprintf("%g ft2", v)
}

func (b *sheet) psf(v float64) string {
	if b.metric {
		return fmt.Sprintf("%.3f kPa", v*pascalsPerPSF/1000)
	}
	return fmt.Sprintf("%g psf", v)
}

func feetOf(l length.Length) float64 { return float64(l) / float64(length.Foot) }

// fromFeet rounds up to a sixteenth: a zone is never shorter than computed.
func fromFeet(ft float64) length.Length {
	return length.CeilTo(length.Length(math.Ceil(ft*float64(length.Foot)-0.5)), length.Inch16)
}

func levelWord(l job.Level) string {
	if l == job.Allowable {
		return "allowable"
	}
	return "strength"
}
