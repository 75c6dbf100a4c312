package plan

import "copingset/layout/length"

// Making is what sort of piece the shop makes.
type Making int

// The sorts, in the order in which a sheet's title names them.
const (
	MadeStraight Making = iota
	MadeTurning         // welded at a corner, or at several
	MadeEnding          // closed, or with an upstand against a higher wall
	MadeTapering        // from one inside width to another
	MadeBreaking        // one weld over a break of slope
	MadeTee             // a main cap with the stub of a branch
)

// Lift is how something is lifted, by the job's own rule.
type Lift int

// The three ways.
const (
	ByOne     Lift = iota
	ByTwo          // heavier than one person may lift, or long
	ByMachine      // heavier than two may
)

// Made is a piece as lists tell of it.
type Made struct {
	Making Making
	Name   string // of its kind; the cut piece of a run is its closer
	Hand   string // left or right; empty: it has none
	AtHand string // what is at that hand: "closed end"
	CutAt  string // the end that is cut on the roof; empty: none
	// inside: of a taper the narrow end's and the wide end's, else leg by leg, once where all are alike
	Widths []length.Length
	Girths []length.Length // leg by leg, once where all are alike
	Lift   Lift
	After  string // how its lot differs: finished after joining; empty: it does not
}

// Tapers reports whether a piece goes from one width to another.
func (m Made) Tapers() bool { return m.Making == MadeTapering }

// LegsDiffer reports whether its legs have two widths.
func (m Made) LegsDiffer() bool { return len(m.Girths) > 1 }

// Effort is what one way to level the wall top takes. Labour is in minutes and money
// in hundredths, by the job's own rates.
type Effort struct {
	Pieces, Strips, Shims, Cuts, Sheets, Nails int
	Missing                                    int           // stacks that the layers and shims of the job do not make
	Layers                                     length.Length // of plywood, running length
	Minutes, Hundredths                        int64
}

// Levelling sets the two ways beside each other.
type Levelling struct {
	Continuous, Chairs Effort
	SheetsLeast        int    // no plan needs fewer sheets of plywood
	Nail               string // what the layers are nailed with
	Priced             bool   // the job states rates
	Known, ChairsAlone bool   // one of them is recommended; it is that of the chairs alone
}

// Question is one thing that the general contractor should put right or answer.
// Stations are the crew's.
type Question struct {
	Run      string // with its perimeter where the job has several
	From, To length.Length
	What     string
	Limit    string // empty where none is published
	Source   string
	Ask      string
	Photos   []string
}

// JointRow is a joint as lists tell of it. A loose one is over a building expansion
// joint: its plate is fixed on one side only.
type JointRow struct {
	Mark, Kind  string
	Left, Right string // marks of the pieces it joins; empty: none
	Crew        length.Length
	Gap, Plate  length.Length
	Feeds       bool          // it has pieces whose growth it takes up
	Mean        length.Length // of their metal
	Loose       bool
	Fixed       string        // the side its plate is fixed on
	Moves       bool          // its movement is stated
	Movement    length.Length // either way
}

// Counts are of the pieces of a job.
type Counts struct {
	Miters, Breaks, Ends int
	EndChairs            bool // some chair stands at an end without a joint
}
