package layout

import (
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// MadeEnd is how an end of a body of a family is made, for whoever folds its blank and
// sets it against its neighbour: what is there, and by how much the next body turns from
// it or changes its slope. A turn to the right and a change of slope over a peak are
// positive.
type MadeEnd struct {
	Is          string
	Turn, Bends job.Angle
}

// What is at an end of a body.
const (
	endSquare  = "square"
	endCorner  = "corner"
	endBreak   = "break of slope"
	endSeam    = "seam"
	endClosed  = "end plate"
	endUpstand = "upstand"
)

// MadeEnds are those of a body at its left and at its right; not ok of an end plate,
// which has none.
func MadeEnds(f *Family, body int) (ends [2]MadeEnd, ok bool) {
	p := f.Pieces[0]
	if f.Bodies[body].Name == endPlate {
		return ends, false
	}
	ends[0].Is, ends[1].Is = endSquare, endSquare
	switch leg := LegOf(f, body); {
	case f.Kind == cap.Transition: // the seam is at the narrow end of the taper
		if taper := f.Bodies[body].Tray != nil; taper == (f.Hand == cap.LeftHand) {
			ends[1].Is = endSeam
		} else {
			ends[0].Is = endSeam
		}
	case f.Kind == cap.Tee && leg == 1 && p.Tee.Starts:
		ends[0].Is = endSeam
	case f.Kind == cap.Tee && leg == 1:
		ends[1].Is = endSeam
	case f.Kind != cap.Tee:
		ends = [2]MadeEnd{legEnd(p, leg-1, p.LeftEnd), legEnd(p, leg, p.RightEnd)}
	}
	return ends, true
}

// legEnd is the end of a leg at one of its piece's miters, or where there is none of it
// at the piece's own end.
func legEnd(p *Piece, miter int, end job.EndKind) MadeEnd {
	if miter >= 0 && miter < len(p.Miters) {
		c := p.Miters[miter].Corner
		if c.Straight() {
			return MadeEnd{Is: endBreak, Bends: c.Bend}
		}
		return MadeEnd{Is: endCorner, Turn: c.CapTurn}
	}
	switch end {
	case job.EndFree:
		return MadeEnd{Is: endClosed}
	case job.EndWall:
		return MadeEnd{Is: endUpstand}
	}
	return MadeEnd{Is: endSquare}
}

// MadeRear is the rear fold of a body as made, between the places where the mold lines
// of its ends cross it, whatever gap its seams have; not ok of what has no one section.
func MadeRear(f *Family, body int) (length.Length, bool) {
	m := f.Bodies[body].Metal
	if m == nil || f.Bodies[body].Name == endPlate {
		return 0, false
	}
	if f.Kind == cap.Tee { // the gap of the weld comes off the branch
		return f.Pieces[0].RearLength(LegOf(f, body)), true
	}
	q := m.Path.RootEnd()
	return length.FromMM(m.Right.Seam(q.X, q.Y, 0) - m.Left.Seam(q.X, q.Y, 0)), true
}
