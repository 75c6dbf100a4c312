package view

import (
	"strings"

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
	main, branch := c.Legs[0].Run, c.Legs[1].Run
	c.list.items[4] = "Then both layout strings, from these chairs' front edges: run " + main + "'s runs straight on, run " + branch + "'s begins here"
	c.note("Standing on the roof facing the street, the branch comes towards you; its high, front edge is at your " + strings.ToUpper(c.Hand.String()) + " hand.")
	c.note("The branch cap's two sides stand at stations "+crew(c.Tee.Crew[0].Real)+" and "+crew(c.Tee.Crew[1].Real)+" of run "+main+".", c.Tee.Crew[:]...)
	c.note("The branch's front fold lies "+c.short(c.Tee.Drop.Real)+" below the main's rear fold: check it with a level before the piece is hooked.", c.Tee.Drop)
	c.note("No chair stands under the opening of the rear leg. The stub is welded in the shop.")
}
