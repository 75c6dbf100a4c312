package job

import "testing"

// An entry clears what it repeats: the reading as it stood when someone looked
// again, and no later one.
func TestClearedReads(t *testing.T) {
	low := 13 * in
	q := &Reading{Station: 30 * in, Width: 12*in + in/8, TopOutside: -in, TopInside: in / 4, Offset: in / 2, WidthLow: &low,
		Conditions: []Condition{Loose, Fixings}}
	for _, c := range []struct {
		name string
		c    Cleared
		want bool
	}{
		{"width", Cleared{Measure: MeasureWidth, Value: 12*in + in/8}, true},
		{"width as it was before", Cleared{Measure: MeasureWidth, Value: 12 * in}, false},
		{"width as a finding letters it", Cleared{Measure: MeasureWidth, Value: 12*in + in/8 + in/32}, true},
		{"another sixteenth", Cleared{Measure: MeasureWidth, Value: 12*in + in/8 + in/16}, false},
		{"top", Cleared{Measure: MeasureTopOutside, Value: -in}, true},
		{"top of the wrong sign", Cleared{Measure: MeasureTopOutside, Value: in}, false},
		{"station", Cleared{Measure: MeasureStation, Value: 30 * in}, true},
		{"low", Cleared{Measure: MeasureWidthLow, Value: 13 * in}, true},
		{"low that was not read", Cleared{Measure: MeasureOffsetLow}, false},
		{"conditions in any order", Cleared{Measure: MeasureCondition, Conditions: []Condition{Fixings, Loose}}, true},
		{"a condition more", Cleared{Measure: MeasureCondition, Conditions: []Condition{Loose}}, false},
		{"another condition", Cleared{Measure: MeasureCondition, Conditions: []Condition{Loose, Rotten}}, false},
	} {
		if got := c.c.Reads(q); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}
