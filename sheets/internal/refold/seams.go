package refold

import (
	"math"
)

// chain is a side of a blank's outline.
type chain int

const (
	raw chain = iota // along a bend: the edges at the street and at the roof
	rightEnd
	leftEnd
)

// chains tells each stretch of a blank's outline by its side: between the edges at its
// foot and those at its top, counterclockwise.
func (w Sheet) chains() []chain {
	lo, hi := w.Bounds()
	n := len(w.Outline)
	out := make([]chain, n)
	first := -1
	at := func(i int) (foot, top bool) {
		a, b := w.Outline[i], w.Outline[(i+1)%n]
		return math.Max(a.Y, b.Y)-lo.Y < 1e-3, hi.Y-math.Min(a.Y, b.Y) < 1e-3
	}
	for i := range n {
		if foot, _ := at(i); foot {
			first = i
		}
	}
	side := rightEnd
	for k := range n {
		i := (first + k + n) % n
		switch foot, top := at(i); {
		case foot:
			side = rightEnd
		case top:
			side = leftEnd
		default:
			out[i] = side
		}
	}
	return out
}

// notched reports whether a stated notch holds a place of the blank.
func (w Sheet) notched(p Pt) bool {
	for _, n := range w.Notches {
		if n.holds(p) {
			return true
		}
	}
	return false
}

// body is a part of a piece folded and stood up.
type body struct {
	Solid
	edges []Edge
	side  []chain
	back  []Vec // where its edges lie in stated notches
}

func (c *checker) stand(w Sheet) (body, bool) {
	s, err := w.Space(false)
	slope := 0.0
	if err == nil {
		slope, err = s.Stand()
	}
	if err != nil {
		c.say("%v", err)
		return body{}, false
	}
	if math.Abs(slope-w.Row.Number("slope")) > 1e-6 {
		c.say("%s: the top falls %.6f, want %.6f", w.Name(), slope, w.Row.Number("slope"))
	}
	b := body{Solid: s, side: w.chains()}
	b.cut()
	return b, true
}

func (b *body) cut() {
	b.edges, b.back = b.Edges(1), nil
	for _, e := range b.edges {
		if b.Sheet.notched(e.At[0].add(e.At[1]).by(0.5)) {
			b.back = append(b.back, e.Finish[0])
		}
	}
}

// moved is a body turned by the directions x, s and z go to, and shifted.
func (b body) moved(x, s, z, by Vec) body {
	out := b
	out.Faces = append([]Face(nil), b.Faces...)
	out.Move(x, s, z, by)
	out.cut()
	return out
}

// end are the cut edges at one end of a sheet.
func (b body) end(side chain) []Edge {
	var out []Edge
	for _, e := range b.edges {
		if b.side[e.Src] == side {
			out = append(out, e)
		}
	}
	return out
}

// along reports whether an edge runs along the bend its face hangs on: a raw edge.
func (b body) along(e Edge) bool {
	f := b.Faces[e.Face]
	if f.Parent < 0 {
		return false
	}
	for _, h := range f.hinges {
		if d := e.At[1].sub(e.At[0]); h.parent == f.Parent && math.Abs(d.dot(h.v)) < 1e-3*d.len() {
			return true
		}
	}
	return false
}

// meet holds two ends against one another: nowhere nearer than the gap, and but for
// stated notches nowhere farther than it by more than a tenth of a millimetre.
func (c *checker) meet(name string, a, b body, p, q []Edge, gap float64) {
	for _, way := range [][2]int{{0, 1}, {1, 0}} {
		from, to := [2][]Edge{p, q}[way[0]], NewMetal([2][]Edge{p, q}[way[1]])
		own := [2]body{a, b}[way[0]]
		least, most := math.Inf(1), 0.0
		var worst Edge
		for _, g := range Gaps(from, to) {
			least = math.Min(least, g.Off)
			mid := g.Edge.At[0].add(g.Edge.At[1]).by(0.5)
			if g.Off > most && !own.Sheet.notched(mid) && !facesNotch([2]body{a, b}[way[1]], g.Edge) {
				most, worst = g.Off, g.Edge
			}
		}
		if least < gap-within {
			c.say("%s: its metal stands %.3f mm off its neighbour's at %s, the gap is %.3f", own.Sheet.Name(), least,
				name, gap)
		}
		if most > gap+seamGap {
			c.say("%s: its %s stands %.3f mm off its neighbour at %s, the gap is %.3f, at %.1f, %.1f on the blank",
				own.Sheet.Name(), own.Faces[worst.Face].Name, most, name, gap, worst.At[0].X, worst.At[0].Y)
		}
	}
}

// facesNotch reports whether what an edge faces on the other body is notched away:
// some of that body's stated notches lies beside it.
func facesNotch(b body, e Edge) bool {
	mid := e.Finish[0].mix(e.Finish[1], 0.5)
	for _, p := range b.back {
		if p.sub(mid).len() < 2*cell {
			return true
		}
	}
	return false
}

// piece folds the bodies of a piece and sets them against one another.
func (c *checker) piece(all []Sheet) {
	var legs []Sheet
	for _, w := range all {
		if w.Row["body"] == "end plate" { // of the leg before it
			c.endPlate(w, legs[len(legs)-1])
			continue
		}
		legs = append(legs, w)
	}
	switch legs[0].Row["kind"] {
	case "transition":
		c.transition(legs)
		return
	case "tee":
		c.tee(legs)
		return
	}
	if legs[0].Row["street-side leg"] != "" {
		c.ends(legs)
	}
	for i := range len(legs) - 1 {
		a, ok := c.stand(legs[i])
		b, ok2 := c.stand(legs[i+1])
		if !ok || !ok2 {
			return
		}
		right := legs[i].Row
		c.corner(a, b, right.Number("turn at right end"), right.Number("change of slope at right end"))
	}
}

// corner sets two legs at the point where their front folds meet and measures them
// against one another.
func (c *checker) corner(a, b body, turn, pitch float64) {
	gap := a.Sheet.Row.MM("seam gap")
	// Directions of the leaving run: along, to its street, up.
	sin, cos := math.Sincos(turn * math.Pi / 180)
	x, s, z := Vec{X: cos, S: -sin}, Vec{X: sin, S: cos}, Vec{Z: 1}
	half := turn / 2 * math.Pi / 180
	normal := Vec{X: -math.Cos(half), S: math.Sin(half)} // from the seam into the arriving leg
	if pitch != 0 {
		sin, cos = math.Sincos(pitch * math.Pi / 180)
		x, s, z = Vec{X: cos, Z: -sin}, Vec{S: 1}, Vec{X: sin, Z: cos}
		half = pitch / 2 * math.Pi / 180
		normal = Vec{X: -math.Cos(half), Z: math.Sin(half)}
	}
	mirrored := Vec{-normal.X, normal.S, normal.Z} // the same of the leaving leg, in its own directions
	one := a.Sheet.Row["inside width"] == b.Sheet.Row["inside width"]
	p := a.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: -a.corner(true, normal)})
	q := b.moved(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{X: -b.corner(false, mirrored)})
	lapped := a.Sheet.lapAt(true) != "" && a.Sheet.lapAt(true) != "butt"
	if one && !lapped { // each on its own side of the plane that bisects the turn
		c.ownSide(p, rightEnd, normal, gap)
		c.ownSide(q, leftEnd, mirrored, gap)
	}
	q = q.moved(x, s, z, Vec{})
	if lapped {
		c.lap(p, q, normal, gap, x, s, z)
		return
	}
	kind := "corner of one width"
	switch {
	case pitch > 0:
		kind = "peak"
	case pitch < 0:
		kind = "valley"
	case !one:
		kind = "corner of two widths"
	case turn < 0:
		kind = "inside corner"
	}
	if a.Sheet.Row["body"] == "middle" || b.Sheet.Row["body"] == "middle" {
		c.Seen["double miter"]++
	}
	c.Seen[kind]++
	c.meet("the seam", p, q, p.end(rightEnd), q.end(leftEnd), gap)
}

// ownSide holds the end of a leg to its side of a plane through the origin: half the
// gap off it, no metal nearer.
func (c *checker) ownSide(b body, side chain, normal Vec, gap float64) {
	for _, e := range b.end(side) {
		d := math.Inf(1)
		for _, p := range []Vec{e.Finish[0], e.Back[0]} {
			d = math.Min(d, p.dot(normal))
		}
		if d < gap/2-within || d > gap/2+within && !b.Sheet.notched(e.At[0]) && !b.Sheet.notched(e.At[1]) {
			c.say("%s: its %s stands %.3f mm off the seam's plane, half the gap is %.3f, at %.1f, %.1f on the blank",
				b.Sheet.Name(), b.Faces[e.Face].Name, d, gap/2, e.At[0].X, e.At[0].Y)
			return
		}
	}
}

// corner is the station of the point where the mold lines of the front folds meet, at
// a body's right end or its left: the written length from its other end, which is cut
// square. A middle has a corner at both ends; it stands so that its front leg is as far
// from the planes of both.
func (b body) corner(right bool, normal Vec) float64 {
	long := b.Sheet.Row.MM("street-side fold, left end to right end")
	leg, _ := b.Sheet.Fold().Straight("front leg")
	mid := (leg.From + leg.To) / 2
	if b.Sheet.Row["body"] != "middle" {
		if right {
			return b.Sheet.EndAt(mid, false) + long
		}
		return b.Sheet.EndAt(mid, true) - long
	}
	least := func(side chain, n Vec) float64 {
		word := b.Sheet.lapAt(side == rightEnd)
		lapped := word == "over" || word == "under"
		d, most := math.Inf(1), math.Inf(-1)
		for _, e := range b.end(side) {
			off := math.Min(e.Finish[0].dot(n), e.Back[0].dot(n))
			switch name := b.Faces[e.Face].Name; {
			case name == "front leg": // whatever the widths, it ends in the plane that bisects the turn
				d = math.Min(d, off)
			case name == "top" && !b.Sheet.notched(e.At[0]): // beside a tab, which goes past it, or all along
				most = math.Max(most, off)
			}
		}
		if lapped {
			return most
		}
		return d
	}
	plane := func(turn, way float64) Vec {
		sin, cos := math.Sincos(turn / 2 * math.Pi / 180)
		return Vec{X: way * cos, S: sin}
	}
	left, rightN := plane(b.Sheet.Row.Number("turn at left end"), 1),
		plane(b.Sheet.Row.Number("turn at right end"), -1)
	// Off the left plane through x0 and off the right one through x0 + long, alike.
	l0, r0 := least(leftEnd, left), least(rightEnd, rightN)+long*math.Abs(rightN.X)
	x0 := (l0 - r0) / (math.Abs(left.X) + math.Abs(rightN.X))
	if right {
		return x0 + long
	}
	return x0
}
