package sheets

import (
	"fmt"

	"copingset/layout"
	"copingset/layout/job"
)

// bendWords say how the slope of the top changes at a break, and how each leg
// of the piece lies on it.
func bendWords(c *layout.Corner) string {
	return fmt.Sprintf(
		"%s, the slope changes by %s: %s to the left of it, %s to the right",
		c.Pitch,
		angle(max(c.Bend, -c.Bend)),
		inclineWords(-c.Arrive.Incline()),
		inclineWords(c.Leave.Incline()),
	)
}

// bendFacts names what bendWords letter.
func bendFacts(c *layout.Corner) string {
	return factsOf(layout.FactOfCorner(c), "bend", "incline-left", "incline-right")
}

// inclineWords say how a top goes on from a break.
func inclineWords(outwards job.Angle) string {
	switch {
	case outwards > 0:
		return "up " + angle(outwards)
	case outwards < 0:
		return "down " + angle(-outwards)
	}
	return "level"
}
