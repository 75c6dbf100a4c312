package sheets

import (
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
)

// bendWords say how the slope of the top changes at a break, and how each leg
// of the piece lies on it.
func (b *book) bendWords(c *layout.Corner) string {
	k := words.MadePeak
	if c.Pitch == job.Valley {
		k = words.MadeValley
	}
	return b.say.Say(k, words.In("angle", angle(max(c.Bend, -c.Bend))),
		words.In("left", b.inclineWords(-c.Arrive.Incline())), words.In("right", b.inclineWords(c.Leave.Incline())))
}

// bendFacts names what bendWords letter.
func bendFacts(c *layout.Corner) string {
	return factsOf(layout.FactOfCorner(c), "bend", "incline-left", "incline-right")
}

// inclineWords say how a top goes on from a break.
func (b *book) inclineWords(outwards job.Angle) string {
	switch {
	case outwards > 0:
		return b.say.Say(words.MadeUp, words.In("angle", angle(outwards)))
	case outwards < 0:
		return b.say.Say(words.MadeDown, words.In("angle", angle(-outwards)))
	}
	return b.say.Say(words.MadeLevel)
}
