package plan

import "copingset/layout/length"

// StepKind is one step of the order of work.
type StepKind int

// The steps, in their order.
const (
	NailerStep   StepKind = iota // with the build-up, unless that lies above the membrane
	MembraneStep                 // over the wall top
	PackingStep                  // build-up under chairs alone, above the membrane
	MarkStep                     // where the cap line begins and ends, from the plumbed corners of the wall
	StringStep                   // from mark to mark
	CornersStep                  // chairs and supports of the welded pieces
	ChairsStep                   // all other chairs
	ExtenderStep                 // below a leg that is taller than anything tested
	TryStep                      // welded pieces, dry
	InspectStep                  // before anything is covered
	SplicesStep                  // string down, plates and tape
	TrimStep                     // closers that are cut on the roof
	HookStep                     // film off, the street side first
	GapStep                      // by the metal's temperature
	SnapStep                     // the roof side
	CheckStep                    // at every chair
)

// Packed is how a wall top is built up.
type Packed int

// The ways.
const (
	NotPacked   Packed = iota
	PackedAlong        // plies the length of the wall, shims on top
	PackedBelow        // under each chair, below the membrane
	PackedAbove        // under each chair, above it
)

// Temperature of metal, in both units that it is read in.
type Temperature struct{ Celsius, Fahrenheit float64 }

// Work is the order of work of a run and what its pictures and sentences show.
type Work struct {
	Steps         []StepKind
	Nailed        bool // the top of the wall is wood
	Packed        Packed
	UnderChairs   bool   // the job packs under chairs alone
	AboveMembrane bool   // and above the membrane
	Membrane      string // its name; empty: none
	Corners, Ends bool   // kinds of pieces whose chairs are set first
	Breaks, Tees  bool
	Supports      bool          // corner supports stand under them
	SupportScrew  string        // what fastens one of them
	SupportScrews int           // and how many; zero: not stated
	Later         bool          // other chairs are set after those of the welded pieces
	Below         length.Length // height of an extender under the street-side leg; zero: none
	BelowRoof     length.Length // and under the roof-side leg
	PilotDia      length.Length // zero: no pilots
	Tape          length.Length // from a joint's centre line to the middle of a strip
	Jointed       bool          // a joint is shown
	Joint         Joint
	GapThen       Value // of that joint at the reference temperature
	Reference     Temperature
	FilmOff       string // when the fabricator wants the film off; empty: not stated
	Closes        bool   // a closer is cut on the roof
	Closer        Piece
	StringBehind  Value         // the string line behind the cap line
	ChairLong     length.Length // of a chair along the run
	ChairFront    length.Length // its edges behind the cap line, under the widest cap
	ChairRear     length.Length
	Cornered      bool // a corner or end piece is shown
	Corner        Corner
	Cut           Cut
}

// Kick is a flange at the foot of a leg, turned from the line of the leg.
type Kick struct {
	Long length.Length // zero: none
	Turn length.Angle
}

// Cut is the section that the pictures of the order of work open up. Distances are
// behind the cap line, heights over the set surface at the wall's two faces.
type Cut struct {
	Chair                 int // of the run that is cut; -1: none
	Surveyed              bool
	Street, Roof          length.Length // faces of the wall
	Inside                length.Length // of the cap
	Metal                 length.Length // thickness
	PackFront, PackRear   length.Length // set surface over the wall top
	FoldFront, FoldRear   length.Length // outside folds over the set surface
	FootFront, FootRear   length.Length // each leg from its fold down
	CoverFront, CoverRear length.Length // the joint under each leg, below the wall top
	Drip, Hook            Kick
	ChairFront, ChairRear length.Length // edges of the chair
	ChairThick            length.Length // of its metal
	Ply                   length.Length
	Fall                  length.Slope // of the set surface across the wall
}
