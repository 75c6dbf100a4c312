package layout

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// Made is a piece as lists tell of it.
func (l *Layout) Made(q *Piece) plan.Made {
	m := plan.Made{Making: makingOf(q.Kind), Name: q.KindName(), Hand: q.Hand.String(),
		Widths: []length.Length{q.Narrow, q.Wide}, Girths: []length.Length{l.GirthOf(q)},
		Lift: liftOf(l.Weight(q).Lift)}
	if _, after := cap.Elevation(q.Lot); after {
		m.After = cap.AfterJoining
	}
	if q.Closer && q.Kind == cap.Straight {
		m.Name = "closer"
	}
	if q.Allowance > 0 {
		m.CutAt = q.CutAt.String()
	}
	switch q.Kind {
	case cap.EndCap:
		m.AtHand = "closed end"
	case cap.WallEnd:
		m.AtHand = "flange"
	case cap.Transition:
		m.AtHand = "wide end"
	case cap.Tee:
		m.AtHand = "high edge"
	}
	if m.Tapers() {
		return m
	}
	m.Widths, m.Girths = nil, nil
	for _, p := range q.Parts {
		m.Widths, m.Girths = append(m.Widths, p.Inside()), append(m.Girths, l.Girth(p))
		if q.Wide == q.Narrow {
			break
		}
	}
	if q.Kind == cap.Tee && q.Tee.Inside != q.Inside {
		m.Widths = []length.Length{q.Inside, q.Tee.Inside}
	}
	return m
}

func makingOf(k cap.Kind) plan.Making {
	switch k {
	case cap.Straight:
		return plan.MadeStraight
	case cap.EndCap, cap.WallEnd:
		return plan.MadeEnding
	case cap.Transition:
		return plan.MadeTapering
	case cap.PitchMiter:
		return plan.MadeBreaking
	case cap.Tee:
		return plan.MadeTee
	}
	return plan.MadeTurning
}

func liftOf(w cap.Lift) plan.Lift {
	return [...]plan.Lift{cap.OnePerson: plan.ByOne, cap.TwoPersons: plan.ByTwo, cap.Mechanical: plan.ByMachine}[w]
}

// LiftOfCrate is how a closed crate is lifted, where that is known.
func (l *Layout) LiftOfCrate(c *crate.Crate) (lift plan.Lift, known bool) {
	how, known := c.Lift(&l.Job.Site)
	return liftOf(how), known
}

// Straight reports whether the pieces of a family are straight.
func Straight(f *Family) bool { return f.Kind == cap.Straight }

// Handed reports whether left and right can be taken for each other in a family.
func Handed(f *Family) bool { return f.Sentence() != shop.NoHand }

// Movement is what the job's joints let the metal do.
func (l *Layout) Movement() cap.Movement { return cap.MovementOf(&l.Job.System) }

// Along is the front of what a body of a family is of, as laid: a leg, or of a tee
// its main or its branch; of an end plate the plate's own length.
func Along(f *Family, body int) length.Length {
	switch p := f.Pieces[0]; {
	case f.Bodies[body].Name == endPlate:
		return f.Bodies[body].Length
	case f.Kind == cap.Tee && body == 1:
		return p.Parts[1].Length()
	default:
		return p.Parts[LegOf(f, body)].Length()
	}
}

// MadeFront is the front of what a body of a family is of, as made: of a transition
// the seam parts its leg from its taper.
func (l *Layout) MadeFront(f *Family, body int) length.Length {
	along := Along(f, body)
	if f.Kind != cap.Transition || f.Bodies[body].Name == endPlate {
		return along
	}
	if leg := l.Job.System.Transition.Leg; f.Bodies[body].Tray == nil {
		return leg
	} else {
		return along - leg
	}
}

// MadeInside is the inside width of what a body of a family is of at its left and at
// its right end: of a taper the wide end lies at the piece's hand.
func (l *Layout) MadeInside(f *Family, body int) (left, right length.Length) {
	p := f.Pieces[0]
	if f.Kind != cap.Transition {
		w := p.Parts[LegOf(f, body)].Inside()
		return w, w
	}
	left, right = p.Narrow, p.Narrow
	switch {
	case f.Bodies[body].Tray == nil:
	case f.Hand == cap.RightHand:
		right = p.Wide
	default:
		left = p.Wide
	}
	return left, right
}

// HoleDiameter is the stated diameter of a hole of a made part.
func (l *Layout) HoleDiameter(q *MadePart, hole int) length.Length {
	return q.Drills[hole]
}

// Counts are of the job's pieces.
func (l *Layout) Counts() plan.Counts {
	var n plan.Counts
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			switch makingOf(q.Kind) {
			case plan.MadeBreaking:
				n.Breaks++
				continue
			case plan.MadeEnding:
				n.Ends++
			}
			n.Miters += len(q.Miters)
		}
		for _, r := range p.Runs {
			n.EndChairs = n.EndChairs || slices.ContainsFunc(r.Chairs,
				func(c *Chair) bool { return c.Kind == anchor.AtEnd })
		}
	}
	return n
}

// JointRow is a joint as lists tell of it.
func (l *Layout) JointRow(r *Run, q *Joint) plan.JointRow {
	row := plan.JointRow{Mark: q.Name, Kind: [...]string{cap.Plain: "plain", cap.Expansion: "expansion",
		cap.Kink: "kink"}[q.Kind], Crew: r.ToCrew(q.Centre()), Gap: q.Gap(), Plate: q.Plate}
	if q.Left != nil {
		row.Left = q.Left.Mark
	}
	if q.Right != nil {
		row.Right = q.Right.Mark
	}
	if q.Kind == cap.Expansion {
		row.Loose, row.Fixed = true, q.Held.String()
		if q.Movement != nil {
			row.Moves, row.Movement = true, *q.Movement
		}
		return row
	}
	if row.Feeds = q.Left != nil || q.Right != nil; row.Feeds {
		row.Mean = q.Mean()
	}
	return row
}

// LooseJoints are those of a run over building expansion joints.
func (l *Layout) LooseJoints(r *Run) []plan.JointRow {
	var out []plan.JointRow
	for _, q := range r.Joints {
		if row := l.JointRow(r, q); row.Loose {
			out = append(out, row)
		}
	}
	return out
}

// StandsAt says where a chair of a kind stands, by the joint it stands at.
func StandsAt(kind, joint string) string {
	if kind == anchor.AtExpansion.String() {
		return "exp. joint " + joint
	}
	return kind + " " + joint
}
