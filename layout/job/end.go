package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// EndKind is how a run ends.
type EndKind int

// The ways a run can end.
const (
	EndTurn  EndKind = iota // turns into the next run
	EndFree                 // free end with an end cap
	EndWall                 // dies into a higher wall
	EndStep                 // goes straight on into the next run, whose top is higher or lower
	EndPitch                // goes straight on into the next run, whose top has another slope
	EndTee                  // meets the roof side of another perimeter's run
)

// Tee is where the wall of an open perimeter, the branch, ends at the roof side
// of another perimeter's run, the main, square to it.
type Tee struct {
	Perimeter, Run string        // the main
	At             length.Length // station on the main as its survey is taped
	Of             TeeFace       // what of the branch wall stands there
}

// TeeFace is a face of a branch wall, as named by a person on the roof looking
// out over the main wall, or its centre.
type TeeFace int

// What a tee's station can be taped to.
const (
	TeeLeft TeeFace = iota
	TeeRight
	TeeCentre
)

// Pitch is how a wall top changes its slope at a break.
type Pitch int

// The two breaks.
const (
	NoPitch Pitch = iota
	Peak          // the tops fall away from it, or fall more beyond than before
	Valley        // the tops rise away from it, or rise more beyond than before
)

func (p Pitch) String() string { return [...]string{"no break", "peak", "valley"}[p] }

// Grade limits the slope of one run's set surface along the run.
type Grade struct {
	Most Slope // zero: level
	Way  Way
}

// Way is which way a run's top may slope, in the direction of stations.
type Way int

// The three ways.
const (
	EitherWay Way = iota
	Rising
	Falling
)

func (w Way) String() string { return [...]string{"either way", "rising", "falling"}[w] }

// End is one end of a run. Turn is positive to the right (towards the roof).
type End struct {
	At    finding.Place
	Kind  EndKind
	Turn  Angle
	Step  length.Length // how much higher the next run's top is, about; negative: lower
	Pitch Pitch         // how the slope of the top changes, of EndPitch
	Tee   *Tee          // of EndTee
}
