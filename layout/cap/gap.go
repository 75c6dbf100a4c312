package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// GapAt is the gap to set between two caps at a metal temperature. Joint
// centres never move, so each cap grows from its middle and the joint takes
// half of each neighbour: nominal + alpha L (Tref - T), with L the mean length
// of the two.
func GapAt(s *job.System, meanLength length.Length, t job.Temperature) length.Length {
	ppb := s.Metal.Expansion // 1e-9 per degree C
	dt := int64(s.Joint.Reference - t)
	return s.Joint.Gap + length.MulDiv(meanLength, ppb*dt, 1_000_000_000_000)
}

// Mean is the mean metal length of the pieces at a joint, which feed it.
func (j *Joint) Mean() length.Length {
	switch {
	case j.Left == nil:
		return j.Right.Length()
	case j.Right == nil:
		return j.Left.Length()
	}
	return (feed(j.Left) + feed(j.Right)) / 2
}

// feed is the length whose half moves at a joint: a straight piece's own, and
// twice the leg of a piece fixed at its miter or end.
func feed(p *Piece) length.Length {
	if p.Kind == Straight {
		return p.Length()
	}
	var leg length.Length
	for _, q := range p.Parts {
		leg = length.Max(leg, q.Length())
	}
	return 2 * leg
}
