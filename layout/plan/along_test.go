package plan

import (
	"testing"

	"copingset/layout/length"
)

// A chair that is moved along its run takes all that is drawn of it with it.
func TestChairAlong(t *testing.T) {
	const by = 7 * length.Inch
	c := Chair{Shape: Shape{Ring: Box(0, 0, 10, 20)}, Holes: []Pt{{X: 1, Y: 2}}, Webs: [][2]Pt{{{X: 3, Y: 4}, {X: 5, Y: 4}}}}
	m := c.Along(by)
	if m.Ring[0].X != c.Ring[0].X+by || m.Holes[0].X != 1+by || m.Webs[0] != [2]Pt{{X: 3 + by, Y: 4}, {X: 5 + by, Y: 4}} {
		t.Errorf("moved to %v, %v, %v", m.Ring, m.Holes, m.Webs)
	}
	if c.Webs[0][0].X != 3 || c.Holes[0].X != 1 {
		t.Error("the chair that it is moved from moved")
	}
}
