package view

import (
	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// LegWords say of one leg of a corner of two widths how wide it is inside, how its
// top falls, and how it stands beside its neighbour.
func LegWords(metric bool, g plan.LegTop) string {
	words := withUnit(length.Shop(metric), length.Shop(metric).Short(g.Inside)) + " inside, top falls " +
		LegSlopeWords(metric, g.Slope)
	if off := StandsOff(metric, g); off != "" {
		words += ", " + off
	}
	return drawing.Letter(words)
}

// StandsOff says how a leg of a corner of two widths stands beside the cap at its
// joint, which has the profile's slope; nothing where they agree.
func StandsOff(metric bool, g plan.LegTop) string {
	if g.StandsOff == 0 {
		return ""
	}
	words := length.Style{Denominator: 64}.Short(g.StandsOff)
	if metric {
		words = length.Millimetres(g.StandsOff, 1) + " mm"
	}
	if g.FrontLower {
		return "front fold " + words + " lower than the next cap's"
	}
	return "rear fold " + words + " higher than the next cap's"
}
