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
	return s.Joint.Gap + Growth(s, meanLength, s.Joint.Reference-t)
}

// Growth is alpha L dT of the job's metal.
func Growth(s *job.System, l length.Length, dt job.Temperature) length.Length {
	return length.MulDiv(l, s.Metal.Expansion*int64(dt), 1_000_000_000_000) // 1e-9 per degree, thousandths of a degree
}

// moves checks the joints of the runs at the ends of the metal's temperature
// range: none may close past the least gap at the hottest, nor open past what
// its splice plate seals at the coldest. The worst plain joint of each run is
// reported, and every building expansion joint.
func (b *builder) moves(r *Run) {
	s := b.sys
	var tight, wide *Joint
	seal := s.Splice.Length - 2*s.Splice.Bearing
	for _, j := range r.Joints {
		if j.Kind == Expansion {
			b.movesBuilding(r, j)
			continue
		}
		if GapAt(s, j.Mean(), s.Joint.Hottest) < s.Joint.LeastGap && (tight == nil || j.Mean() > tight.Mean()) {
			tight = j
		}
		if GapAt(s, j.Mean(), s.Joint.Coldest) > seal && (wide == nil || j.Mean() > wide.Mean()) {
			wide = j
		}
	}
	if tight != nil {
		b.hold("joint-closes", s.At, refOf(r), "run "+r.Name+": joint "+tight.Name+" would have a gap of "+
			job.Both(GapAt(s, tight.Mean(),
				s.Joint.Hottest))+" at the hottest metal; the least is "+job.Both(s.Joint.LeastGap),
			"the caps beside it, "+job.Both(tight.Mean())+" long, grow towards each other",
			"widen the nominal joint, or ask for a shorter stock length")
	}
	if wide != nil {
		b.hold("joint-opens", s.At, refOf(r), "run "+r.Name+": joint "+wide.Name+" would open to "+
			job.Both(GapAt(s, wide.Mean(),
				s.Joint.Coldest))+" at the coldest metal; its splice plate seals up to "+job.Both(seal),
			"", "a wider splice plate, a narrower nominal joint or a shorter stock length")
	}
}

// movesBuilding checks a building expansion joint, whose building closes while
// the caps beside it grow, and lengthens its cover plate where those are longer
// than the stock length it was reckoned with.
func (b *builder) movesBuilding(r *Run, j *Joint) {
	s := b.sys
	var closes length.Length
	if j.Movement != nil {
		closes = *j.Movement
	}
	if left := j.Gap() - closes - Growth(s, j.Mean(), s.Joint.Hottest-s.Joint.Reference); left < s.Joint.LeastGap {
		f := refOf(r)
		f.Station, f.HasStation = r.ToFront(j.Centre()), true
		b.hold("joint-closes", j.Source.At, f,
			"run "+r.Name+": joint "+j.Name+" over the building expansion joint would have a gap of "+job.Both(left)+
				" when the building closes by "+job.Both(closes)+" at the hottest metal; the least is "+
				job.Both(s.Joint.LeastGap),
			"the caps beside it, "+job.Both(j.Mean())+" long, grow towards each other while the building closes",
			"widen the nominal joint, or ask for a shorter stock length")
	}
	if j.Mean() > s.Stock {
		j.Plate += 2 * (length.Max(0, coldest(s, j.Mean())) - length.Max(0, coldest(s, s.Stock)))
	}
}

// coldest is how much more a joint opens at the coldest metal.
func coldest(s *job.System, mean length.Length) length.Length {
	return Growth(s, mean, s.Joint.Reference-s.Joint.Coldest)
}

// Mean is the mean metal length of the pieces at a joint, which feed it.
func (j *Joint) Mean() length.Length {
	switch {
	case j.Left == nil:
		return j.Right.Length()
	case j.Right == nil:
		return j.Left.Length()
	}
	return (feed(j.Left, j.Run, len(j.Left.Parts)-1) + feed(j.Right, j.Run, 0)) / 2
}

// feed is the length whose half moves at a joint: a straight piece's own, and
// twice the leg that meets the joint of a piece fixed at its miter or end. A
// tee is fixed where its branch is: at the middle of its main.
func feed(p *Piece, r *Run, part int) length.Length {
	switch {
	case p.Kind == Straight || p.Kind == Transition:
		return p.Length()
	case p.Kind == Tee && r == p.Tee.Main:
		return p.Parts[0].Length()
	case p.Kind == Tee:
		return 2*p.Parts[1].Length() + p.Inside // from the middle of the main
	}
	return 2 * p.Parts[part].Length()
}
