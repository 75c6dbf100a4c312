package plan

import "copingset/layout/length"

// Line is what is said of a run before its first chair is set: how its wall was
// found, how wide it and its cap are, and how the set surface lies.
type Line struct {
	Drawn               bool // its length is from a drawing, not measured
	Surveyed            bool // else nothing is known of wall and play
	WidthLeast          Value
	WidthMost           Value
	Need, NeedAt        Value // greatest need and its station
	Inside, Outside     Value // of the cap, of its widest part
	InsideLeft          Value // at the left end
	Tapers              []LineTaper
	Governs             string // the run that decides the width of all, where it needs more; empty: none
	GovernsNeed         Value
	Played              bool // rear play is known
	PlayLeast, PlayMost Value
	PackLeast, PackMost Value        // at any reading, either face
	Rise                Value        // of the set surface from the left end to the right
	Incline             length.Angle // of the run's top, either way
	Inclined            string       // the name of the fact that it is
	Cross               length.Slope // fall of the set surface to the roof
	Crossed             string       // the name of the fact that it is
}

// LineTaper is a stretch over which a cap changes its inside width.
type LineTaper struct {
	From, To    Value // stations from the start mark
	Left, Right Value
}

// StepWay is which way the wall top goes at a step beyond an end.
type StepWay int

// The ways.
const (
	NoStep StepWay = iota
	StepUp
	StepDown
)
