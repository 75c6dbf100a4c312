package view

import (
	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// LegWords say of one leg of a corner of two widths how wide it is inside, how its
// top falls, and how it stands beside its neighbour.
func LegWords(say words.Book, metric bool, g plan.LegTop) string {
	inside := words.In("inside", withUnit(length.Shop(metric), length.Shop(metric).Short(g.Inside)))
	slope := words.In("slope", LegSlopeWords(say, metric, g.Slope))
	if off := StandsOff(say, metric, g); off != "" {
		return drawing.Letter(say.Say(words.CornerLegTopOff, inside, slope, words.In("off", off)))
	}
	return drawing.Letter(say.Say(words.CornerLegTop, inside, slope))
}

// StandsOff says how a leg of a corner of two widths stands beside the cap at its
// joint, which has the profile's slope; nothing where they agree.
func StandsOff(say words.Book, metric bool, g plan.LegTop) string {
	if g.StandsOff == 0 {
		return ""
	}
	by := length.Style{Denominator: 64}.Short(g.StandsOff)
	if metric {
		by = say.Say(words.UnitMm, words.In("n", length.Millimetres(g.StandsOff, 1)))
	}
	if g.FrontLower {
		return say.Say(words.CornerLegLower, words.In("length", by))
	}
	return say.Say(words.CornerLegHigher, words.In("length", by))
}
