package plan

import "copingset/layout/length"

// Section is a cut across a run at one station, looking along growing stations.
// Distances across are behind the cap line.
type Section struct {
	At, Inside           length.Length // cap station; inside width there
	Street, Roof         length.Length // faces of the wall, the roof face at the worst depth
	Play                 length.Length // from there to the inside of the rear leg
	PackFront, PackRear  length.Length // set surface over the wall top at the two faces
	FoldFront, FoldRear  length.Length // outside folds over the set surface at the wall's two faces
	CoverFront, LapFront length.Length // the joint under the leg, below the wall top; how far the leg laps it
	CoverRear, LapRear   length.Length
	Surveyed             bool    // else the wall's width is supposed
	Checks               []Check // in the order in which they are read
}
