package plan

import "copingset/layout/length"

// Elevation is a run as seen from the roof. Its points have a cap station and a
// height above the level datum; lines have a point at every reading.
type Elevation struct {
	Surveyed  bool          // else the wall top is not known
	Slopes    bool          // the set surface falls across the wall: its two edges have a line each
	Street    []Pt          // wall top at the street edge, between the ends of the front face
	Roof      []Pt          // wall top at the roof edge, as far as that reaches
	SetStreet []Pt          // set surface at the street edge, where it slopes
	SetRoof   []Pt          // set surface at the roof edge
	Legs      []RearLeg     // rear leg of each piece, in the order of the run's pieces
	Beyond    []RearLeg     // of the next run over a break of slope, outwards
	Top, Low  length.Length // what has to be shown
	Rise      length.Length // top of a chair over the set surface
	Left      Value         // set surface at the two ends of the wall, at the roof edge
	Right     Value
	Graded    bool // the run's grade is its own
	OnSlope   bool // stations lie along the slope
}

// RearLeg is the rear leg of a piece: its fold and its foot, from end to end.
type RearLeg struct{ Fold, Foot []Pt }

// Without takes gaps of growing stations out of a stretch.
func Without(from, to length.Length, gaps []Shape) [][2]length.Length {
	var out [][2]length.Length
	for _, g := range gaps {
		lo, hi := g.Ring.Bounds()
		if mid := lo.X + (hi.X-lo.X)/2; mid > from && mid < to {
			out = append(out, [2]length.Length{from, lo.X})
			from = hi.X
		}
	}
	return append(out, [2]length.Length{from, to})
}
