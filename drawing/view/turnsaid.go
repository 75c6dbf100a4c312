package view

import (
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// TurnSaid letters what a corner does: its kind, by how much it leaves the straight
// line, and the angle between its legs.
func TurnSaid(say words.Book, t plan.KeyTurn) (kind, turn, included string) {
	by := words.In("angle", length.FormatAngle(t.Turn))
	in := say.Say(words.TurnIncluded, words.In("angle", length.FormatAngle(t.Included)))
	switch t.Kind {
	case plan.OutsideCorner:
		return say.Say(words.TurnOutside), say.Say(words.TurnRight, by), in
	case plan.InsideCorner:
		return say.Say(words.TurnInside), say.Say(words.TurnLeft, by), in
	case plan.ValleyBreak:
		return say.Say(words.TurnValley), say.Say(words.TurnSlope, by), say.Say(words.TurnNone)
	}
	return say.Say(words.TurnPeak), say.Say(words.TurnSlope, by), say.Say(words.TurnNone)
}

// StepSaid names a step of the wall top, as seen from the run that ends at it.
func StepSaid(say words.Book, run string, up bool) string {
	if up {
		return say.Say(words.CornerStepUp, words.In("run", run))
	}
	return say.Say(words.CornerStepDown, words.In("run", run))
}
