// Package view draws the solved layout: key plan, run plan, run elevation,
// sections at a chair and at a joint, corner plan. Each view takes a value of the
// layout and the room it may use on paper, and returns a Scene of its own, origin at its
// upper left corner. A view computes no number of the coping: it letters what
// the layout says.
//
// Run plan and run elevation have one scale lengthwise and one crosswise, each
// applied to everything, wall and bow included; the factor between the two is
// the exaggeration and is named. All other views have one scale.
package view

import (
	"copingset/drawing"
	"copingset/layout/length"
)

// Scale is one of the usual scales of drawings.
type Scale struct {
	Name  string // `1/2" = 1'-0"` or `1:20`
	Ratio int64  // building over paper
}

// Scales lists the usual scales, largest first: architectural for feet and
// inches, then the engineer's for plans too large for those; the ISO 5455
// series with 1:25 for metric.
func Scales(metric bool) []Scale {
	if metric {
		return []Scale{
			{"1:1", 1},
			{"1:2", 2},
			{"1:5", 5},
			{"1:10", 10},
			{"1:20", 20},
			{"1:25", 25},
			{"1:50", 50},
			{"1:100", 100},
			{"1:200", 200},
			{"1:500", 500},
			{"1:1000", 1000},
		}
	}
	return []Scale{
		{
			`12" = 1'-0" (full size)`,
			1,
		},
		{`6" = 1'-0"`, 2},
		{`3" = 1'-0"`, 4},
		{`1 1/2" = 1'-0"`, 8},
		{`1" = 1'-0"`, 12},
		{`3/4" = 1'-0"`, 16},
		{`1/2" = 1'-0"`, 24},
		{`3/8" = 1'-0"`, 32},
		{`1/4" = 1'-0"`, 48},
		{`3/16" = 1'-0"`, 64},
		{`1/8" = 1'-0"`, 96},
		{
			`3/32" = 1'-0"`,
			128,
		},
		{`1/16" = 1'-0"`, 192},
		{`1" = 20'-0"`, 240},
		{`1" = 30'-0"`, 360},
		{`1" = 40'-0"`, 480},
		{`1" = 60'-0"`, 720},
		{`1" = 100'-0"`, 1200},
	}
}

// Units brings a length of the building to paper, rounded once.
func (s Scale) Units(l length.Length) drawing.Unit {
	per := s.Ratio * int64(length.Millimetre/100) // nanometres of building in 0.01 mm of paper
	return drawing.Unit(length.RoundTo(l, length.Length(per)) / length.Length(per))
}

// Real brings a distance on paper back to the building.
func (s Scale) Real(u drawing.Unit) length.Length {
	return length.Length(int64(u) * s.Ratio * int64(length.Millimetre/100))
}

// Fit is the largest usual scale at which l fits in u.
func Fit(metric bool, l length.Length, u drawing.Unit) Scale {
	all := Scales(metric)
	for _, s := range all {
		if s.Units(l) <= u {
			return s
		}
	}
	return all[len(all)-1]
}

// Window is the stretch of a run's cap line that one sheet shows. Windows meet
// at match lines; a window that does not begin or end the run repeats one
// piece of its neighbour beyond the match line.
type Window struct {
	From, To   length.Length  // shown, cap stations
	MatchLeft  *length.Length // match line, where the run goes on to the left
	MatchRight *length.Length // the same to the right
	N, Of      int
}
