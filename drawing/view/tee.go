package view

import (
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// A tee is drawn as the other special pieces are, in plan with the street at
// the top: its main is a leg from joint to joint, its branch another that goes
// off to the roof. What differs from them stands here.

func (c *corner) tees() bool { return c.Kind == plan.Branching }

// through are the legs along which one goes from the left hand to the right.
func (c *corner) through() []cornerLeg {
	if c.tees() {
		return c.legs[:1]
	}
	return c.legs
}

// teeWords adds what is said of a tee alone.
func (c *corner) teeWords() {
	crew := func(x length.Length) string { return withUnit(c.crew, c.crew.Long(x)) }
	say, main, branch := c.say.Say, words.In("main", c.Legs[0].Run), words.In("branch", c.Legs[1].Run)
	hand := words.CornerTeeRight
	if c.Hand == plan.LeftHand {
		hand = words.CornerTeeLeft
	}
	c.note(say(hand))
	c.note(say(words.CornerTeeStations, words.In("from", crew(c.Tee.Crew[0].Real)),
		words.In("to", crew(c.Tee.Crew[1].Real)), main), c.Tee.Crew[:]...)
	c.note(say(words.CornerTeeDrop, words.In("drop", c.short(c.Tee.Drop.Real))), c.Tee.Drop)
	c.note(say(words.CornerTeeOpening))
	c.note(say(words.CornerTeeString, main, branch))
}
