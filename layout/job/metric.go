package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"copingset/layout/length"
)

// in has the examples of a reader written in another way for who works in metric
// units.
func (r reader[T]) in(metric func(T) string) reader[T] {
	r.metric = metric
	return r
}

// inMetric is an example, or a list of them in brackets, in metric units; empty if
// it is written alike in either system.
func (r reader[T]) inMetric(example string) string {
	if r.metric == nil {
		return ""
	}
	inner, list := strings.CutPrefix(example, "[")
	var out []string
	for _, one := range strings.Split(strings.TrimSuffix(inner, "]"), ", ") {
		t, err := r.parse(one)
		if err != nil {
			panic(fmt.Sprintf("job: the example %s cannot be read: %v", example, err))
		}
		out = append(out, r.metric(t))
	}
	all := strings.Join(out, ", ")
	if list {
		all = "[" + all + "]"
	}
	return all
}

// always is the word of a metric job, whatever that of the example is.
func always[T any](word string) func(T) string { return func(T) string { return word } }

// roundMM writes a length as a round number of millimetres: an example, not a
// conversion. Thin ones keep a decimal.
func roundMM(l length.Length) string {
	step := 5 * length.Millimetre
	switch size := length.Abs(l); {
	case size < 3*length.Millimetre:
		step = length.Millimetre / 10
	case size < 200*length.Millimetre:
		step = length.Millimetre
	}
	return length.Millimetres(length.RoundTo(l, step), 1) + " mm"
}

// unitsOf writes a value of so many base units as a round number of a unit.
func unitsOf(size, step float64, unit string) func(float64) string {
	return func(v float64) string { return roundNumber(v/size, step) + " " + unit }
}

// roundNumber writes the nearest multiple of a step.
func roundNumber(v, step float64) string {
	places := max(0, -int(math.Floor(math.Log10(step))))
	return strconv.FormatFloat(math.Round(v/step)*step, 'f', places, 64)
}

func metricTemperature(t Temperature) string { return roundNumber(t.Celsius(), 1) + " C" }

// metricExpansion writes an expansion in 1e-9 per degree Celsius.
func metricExpansion(nano int64) string { return roundNumber(float64(nano)/1000, 0.1) + "e-6 /C" }

// metricWeight writes grams.
func metricWeight(g int64) string { return roundNumber(float64(g)/1000, 1) + " kg" }

func metricPressure(p Pressure) string {
	return unitsOf(1000, 0.01, "kPa")(p.Pa) + " " + levelWords()[p.Level].word
}

// metricSlope writes a slope as one in so many.
func metricSlope(s Slope) string { return "1:" + roundNumber(1e9/float64(s), 1) }

func metricGrade(g Grade) string {
	return [...]string{"", "rising ", "falling "}[g.Way] + metricSlope(g.Most)
}

func metricStep(l length.Length) string {
	if l < 0 {
		return "down " + roundMM(-l)
	}
	return "up " + roundMM(l)
}
