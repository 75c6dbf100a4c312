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
// negative where it does not reach it: the leg, less what of it stands above
// the wall top (fold over the set surface, packing under it), less the depth
// of the joint below the wall top. The kick at the foot is not counted.
//
// Packing is that at the wall's front and rear face; the set surface is the
// top of the packing, the membrane over it being too thin for a tape.
func Laps(s *job.System, w *job.Wall, inside, packFront, packRear length.Length) (front, rear length.Length) {
	up, low := Fold(s, inside)
	front = s.Profile.FrontLeg - up - packFront - w.CoverFront
	rear = s.Profile.RearLeg - low - packRear - w.CoverRear
	return front, rear
}
