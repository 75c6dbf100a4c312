package plan

import (
	"copingset/layout/fold"
	"copingset/layout/length"
)

// Formed is a finished piece, as it is recognized by: in plan, and folded.
type Formed struct {
	Corner
	Family   string        // mark of the pieces made alike
	Bend     length.Angle  // of a weld over a break of slope, positive at a peak
	Below    length.Length // a branch's front fold, under its main's
	RearFoot length.Length // of the rear leg below its fold
	CutAt    Hand          // the end that is cut on the roof
	Bodies   []FormedBody
}

// FormedBody is one sheet of it, on the mold lines of its finish side in the frame
// of its leg, x along the leg and z up.
type FormedBody struct {
	Plate bool          // it closes an end
	Leg   length.Length // of the leg it is of, along the front
	Faces []fold.Face
	Holes [][]fold.Vec // in its top
}
