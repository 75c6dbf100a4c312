package plan

import "copingset/layout/length"

// Sketch is a run as its survey form shows it, before anything is measured: not to
// scale, with what lies beyond its two ends.
type Sketch struct {
	Metric    bool
	Run       string
	Length    length.Length // by which its stations are taped
	OnFront   bool          // that is the length of the face that is drawn
	Ends      [2]SketchEnd
	Expansion []length.Length // stations of building expansion joints
	Things    []SketchThing   // what stands on the wall
}

// SketchEnd is how a run ends. Its kind is seen from the run, so that beyond a step
// up the top is higher.
type SketchEnd struct {
	Kind  KeyEndKind
	Run   string       // that goes on beyond it, or that it meets
	Turn  length.Angle // positive to the roof
	Break string       // of a run that goes straight on with another slope: peak or valley
}

// Goes says that the wall goes on.
func (e SketchEnd) Goes() bool {
	return e.Kind == KeyCorners || e.Kind == KeyStepUp || e.Kind == KeyStepDown
}

// SketchThing is something with a station.
type SketchThing struct {
	At   length.Length
	Name string
}
