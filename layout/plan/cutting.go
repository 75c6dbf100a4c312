package plan

import (
	"copingset/layout/fold"
	"copingset/layout/length"
)

// CutLot is what is cut of one lot of finish.
type CutLot struct {
	Key          Key
	Elevation    string // as the job names it; may be empty
	Bare         string // of what its sheets are, where its pieces are finished after they are joined
	Bars         []CutBars
	Sheets       []CutSheet
	Plan         CutPlan // of the sheets
	Blanks       []CutBlank
	Bought, Used float64 // square millimetres of sheet
}

// CutBars are the closers of one inside width, cut from formed caps.
type CutBars struct {
	Key    Key
	Inside length.Length
	Plan   CutPlan
	Bars   []CutBar
}

// CutPlan is what a plan of cutting takes, and how good it is known to be. Prices
// are thousandths of the job's money; where none is stated, nanometres of cap or
// tenths of a square millimetre of sheet.
type CutPlan struct {
	Cuts        int // pieces or blanks
	From        []CutStock
	Cost, Bound int64
	Priced      bool
	Best        bool    // no plan of its kind is cheaper
	Bounded     bool    // else nothing is known of how good it is
	AtLeast     int     // caps or sheets that any plan takes
	Within      float64 // per cent of the bound
}

// CutStock is how many of one cap or sheet are taken.
type CutStock struct {
	Count         int
	Width, Length length.Length // a cap has no width
}

// CutFrom is what a piece is cut from: a sheet, a formed cap that has a shop mark, or else
// a drop in hand. Nothing is known of what is not released.
type CutFrom struct {
	Known, Sheet bool
	Cap          string
}

// Trial is a strip that shows what one bend of the caps takes.
type Trial struct {
	Turn            float64 // degrees
	Up, Down        bool    // ways in which bends of that turn are made
	Length, Line    length.Length
	Tangent         bool          // its legs are measured to the tangent, else to the mold line
	Leg, Deduction  length.Length // by the K factor
	Of              []string      // the bends it is for
	Stated          bool          // the job states one
	StatedDeduction length.Length
	StatedStrip     string
	Section         []fold.Point // of its metal when it is bent
}

// Tooling is how far the order of bends was checked against the shop's machine.
type Tooling int

// How far.
const (
	NoMachine  Tooling = iota // the job states none
	FlatsAlone                // its limits alone
	ToolsToo                  // the outlines of its tools too
)

// SeamFace is how two legs meet on one of their faces.
type SeamFace struct {
	Name    string        // "front leg"
	Plain   bool          // a plain butt
	Back    bool          // the back edges stand at the gap, else the finish edges
	Opening length.Length // of the other edges
	Lap     length.Length // how far one leg lies over a tab of the other; zero: a butt
	Over    string        // the leg that does: left or right
}

// BlankDeduction is what a bend takes off the sum of outside dimensions, in
// millimetres; a hem adds.
type BlankDeduction struct {
	Turn, Less float64
	Hem        bool
}
