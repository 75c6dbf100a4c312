package plan

import "copingset/layout/length"

// Profile is a cap in section with its outside dimensions: across to the roof, and
// up.
type Profile struct {
	Name, Title string
	Metric      bool
	Metal       Ring
	Faces       []ProfileFace // from the street edge to the roof edge, hems left out
	Bends       []ProfileBend // between them
}

// ProfileFace is one straight between the mold lines of its bends.
type ProfileFace struct {
	Name     string
	Fact     string        // of its outside dimension
	Outside  length.Length // as stated
	Tangent  bool          // measured to the outermost metal of the bend at its foot
	Root     bool          // the top
	From, To Pt
}

// ProfileBend is a bend where two faces meet.
type ProfileBend struct {
	At       Pt
	Fact     string  // of its included angle
	Included float64 // degrees
}
