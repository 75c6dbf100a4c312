package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Fold is the height of the front and of the rear fold of a cap above the set
// surface; see wall.Fold.
func Fold(s *job.System, inside length.Length) (front, rear length.Length) {
	return wall.Fold(s, inside)
}

// Rise is how the folds of a transition change from its narrow to its wide
// end: how far the front fold rises, or the rear fold falls. The top keeps its
// slope and stays one plane. Where chair and cap form the slope, both low
// edges stand level and the front moves; where the packing does, the front
// does not move and the rear lies farther down.
func Rise(s *job.System, p *Piece) (front, rear length.Length) {
	d := s.Profile.TopSlope.Rise(p.Wide - p.Narrow)
	if s.Profile.SlopeBy == job.SlopeByChair {
		return d, 0
	}
	return 0, d
}

// Laps is how far the foot of each leg reaches below the joint it must cover,
// negative where it does not reach it: the leg to its foot, less what of it stands above
// the wall top (fold over the set surface, packing under it), less the depth
// of the joint below the wall top. The kick at the foot is not counted.
//
// Packing is that at the wall's front and rear face; the set surface is the
// top of the packing, the membrane over it being too thin for a tape.
func Laps(s *job.System, w *job.Wall, inside, packFront, packRear length.Length) (front, rear length.Length) {
	up, low := Fold(s, inside)
	front = s.FrontFoot() - up - packFront - w.CoverFront
	rear = s.RearFoot() - low - packRear - w.CoverRear
	return front, rear
}

// mismatchAt is how far a fold at a cap station stands from that of the
// profile's slope: not at all but on the wider leg of a corner of two widths.
func (r *Run) mismatchAt(s *job.System, station length.Length) length.Length {
	for _, p := range r.Parts {
		if station >= p.From && station <= p.To {
			return p.Mismatch(s)
		}
	}
	return 0
}

// SlopeAt is the slope of the top at a cap station of a run: the profile's, but
// for the wider leg of a corner of two widths.
func (r *Run) SlopeAt(s *job.System, station length.Length) job.Slope {
	for _, p := range r.Parts {
		if station >= p.From && station <= p.To {
			return p.Slope(s)
		}
	}
	return s.Profile.TopSlope
}

// FoldAt is Fold at a cap station of a run, on a corner of two widths too. Where
// the packing makes the slope, cap and set surface lie in two planes that keep
// their distance: the folds stand off the surface by what the planes fall between
// the fold and the wall's face as it lies there.
func (r *Run) FoldAt(s *job.System, station length.Length) (front, rear length.Length) {
	front, rear = Fold(s, r.InsideAt(station))
	off := r.mismatchAt(s, station)
	if s.Profile.SlopeBy == job.SlopeByChair {
		return front - off, rear
	}
	f := r.FaceAt(s, station)
	low := s.Chair.Rise + wall.OverUnderside(s)
	return low + s.Profile.TopSlope.Rise(f.Street), low - s.Profile.TopSlope.Rise(r.OutsideAt(station)-f.Deepest) + off
}

// LapsAt is Laps at a cap station of a run, with its folds as they stand there.
func (r *Run) LapsAt(s *job.System, station, packFront, packRear length.Length) (front, rear length.Length) {
	up, low := r.FoldAt(s, station)
	return s.FrontFoot() - up - packFront - r.Wall.CoverFront, s.RearFoot() - low - packRear - r.Wall.CoverRear
}
