package view

import (
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/length"
)

// A tee is drawn as the other special pieces are, in plan with the street at
// the top: its main is a leg from joint to joint, its branch another that goes
// off to the roof. What differs from them stands here.

func (c *corner) tees() bool { return c.p.Kind == cap.Tee }

// through are the legs along which one goes from the left hand to the right.
func (c *corner) through() []cornerLeg {
	if c.tees() {
		return c.legs[:1]
	}
	return c.legs
}

// layTee lays the main to the right and the branch square to it.
func (c *corner) layTee() {
	t := c.p.Tee
	main, stub := c.p.Parts[0], c.p.Parts[1]
	g := cornerLeg{legFrame: legFrame{dir: xy{1, 0}}, part: main, long: main.Length().MM(), atLeft: true, atEnd: true, name: "MAIN", wide: c.wide}
	b := cornerLeg{part: stub, long: stub.Length().MM(), name: "BRANCH", wide: (t.Inside + 2*c.sys.Metal.Thickness).MM()}
	if t.Starts {
		b.legFrame = legFrame{o: xy{(t.Edge[1] - t.From).MM(), c.wide}, dir: xy{0, 1}}
	} else {
		b.legFrame = legFrame{o: xy{(t.Edge[0] - t.From).MM(), c.wide + b.long}, dir: xy{0, -1}}
	}
	c.legs = []cornerLeg{g, b}
}

// branchJoint is the joint behind the stub of a tee; nil for another piece.
func (c *corner) branchJoint() (*layout.Joint, cornerLeg) {
	if !c.tees() {
		return nil, cornerLeg{}
	}
	leg := c.legs[1]
	for _, j := range leg.part.Run.Joints {
		if j.Left == c.p || j.Right == c.p {
			return j, leg
		}
	}
	return nil, leg
}

// branchReach is how far the drawing goes along a branch: from the main over
// its joint.
func (c *corner) branchReach(g cornerLeg, over float64) (a, b float64) {
	j, _ := c.branchJoint()
	if j != nil {
		over += j.Gap().MM()
	}
	if c.p.Tee.Starts {
		return 0, g.long + over
	}
	return -over, g.long
}

// root is where the stub leaves the main, along the stub.
func (c *corner) root() float64 {
	if c.p.Tee.Starts {
		return 0
	}
	return c.legs[1].long
}

// seam is the weld of the stub to the main's rear leg, from the stub's front to
// its rear.
func (c *corner) seam() []xy {
	b := c.legs[1]
	return []xy{b.at(c.root(), 0), b.at(c.root(), b.wide)}
}

// teeOutline is the ring of a tee.
func (c *corner) teeOutline() []xy {
	g, b := c.legs[0], c.legs[1]
	end := b.long - c.root()
	// From the right hand to the left along the rear.
	first, second := 0.0, b.wide
	if !c.p.Tee.Starts {
		first, second = b.wide, 0
	}
	return []xy{
		g.at(0, 0), g.at(g.long, 0), g.at(g.long, c.wide),
		b.at(c.root(), first), b.at(end, first), b.at(end, second), b.at(c.root(), second), g.at(0, c.wide),
	}
}

// teeWords adds what is said of a tee alone.
func (c *corner) teeWords() {
	t := c.p.Tee
	crew := func(x length.Length) string { return c.crew.Long(t.Main.ToCrew(x)) }
	if c.crew.Metric {
		crew = func(x length.Length) string { return c.crew.Long(t.Main.ToCrew(x)) + " mm" }
	}
	c.list.items[4] = "Then both layout strings, from these chairs' front edges: run " + t.Main.Name + "'s runs straight on, run " + t.Run.Name + "'s begins here"
	c.list.notes = append(c.list.notes,
		"Standing on the roof facing the street, the branch comes towards you; its high, front edge is at your "+strings.ToUpper(c.p.Hand.String())+" hand.",
		"The branch cap's two sides stand at stations "+crew(t.Edge[0])+" and "+crew(t.Edge[1])+" of run "+t.Main.Name+".",
		"The branch's front fold lies "+c.short(t.Drop)+" below the main's rear fold: check it with a level before the piece is hooked.",
		"No chair stands under the opening of the rear leg. The stub is welded in the shop.")
}

// teeWall draws both faces of the two walls.
func (d *cornerDrawing) teeWall(g *drawing.Scene) {
	line := func(pts ...xy) {
		q := d.m.all(pts...)
		g.Line(drawing.Hidden, q...)
		d.c.Hidden(hiddenHalf, q...)
	}
	main, b := d.legs[0], d.legs[1]
	from, to := d.reach(main)
	front, rear := main.wall(d.sys).Street.MM(), main.wall(d.sys).Roof.MM()
	line(main.at(from, front), main.at(to, front))
	// The branch wall runs into the main's rear face, which is open there.
	a, z := d.reach(b)
	near, far := a-(d.wide-rear), z
	if !d.p.Tee.Starts {
		near, far = z+(d.wide-rear), a
	}
	high, low := b.wall(d.sys).Street.MM(), b.wall(d.sys).Roof.MM()
	left, right := b.at(near, low), b.at(near, high)
	if !d.p.Tee.Starts {
		left, right = right, left
	}
	line(main.at(from, rear), left)
	line(right, main.at(to, rear))
	line(b.at(near, high), b.at(far, high))
	line(b.at(near, low), b.at(far, low))
}

// teeDims letters the main and its legs, the branch's length and width.
func (d *cornerDrawing) teeDims(g *drawing.Scene) {
	main, b, t := d.legs[0], d.legs[1], d.p.Tee
	street := main.dir.roofward().times(-1)
	left, right := (t.Edge[0] - t.From).MM(), (t.Edge[1] - t.From).MM()
	d.dim(g, main.at(0, 0), main.at(main.long, 0), street, 15, d.crewLong(main.part.Length())+" front", "the front of run "+t.Main.Name)
	for _, k := range []struct {
		from, to float64
		words    string
	}{{0, left, d.crewLong(t.Edge[0]-t.From) + " leg"}, {right, main.long, d.crewLong(t.To-t.Edge[1]) + " leg"}} {
		d.dim(g, main.at(k.from, 0), main.at(k.to, 0), street, 8, k.words, "the main")
	}
	side := b.dir.roofward().times(-1) // the branch's front
	d.dim(g, b.at(0, 0), b.at(b.long, 0), side, 8, d.crewLong(b.part.Length())+" branch", "the branch's length")
	near, far := d.reach(b)
	end, out := far, b.dir
	if !t.Starts {
		end, out = near, b.dir.times(-1)
	}
	d.dim(g, b.at(end, 0), b.at(end, b.wide), out, 7, d.shop.Short(t.Edge[1]-t.Edge[0])+" outside", "the branch's outside width")
	a, _ := d.reach(main)
	d.dim(g, main.at(a, 0), main.at(a, d.wide), main.dir.times(-1), 7, d.shop.Short(d.p.Inside+2*d.sys.Metal.Thickness)+" outside", "the outside width")
}
