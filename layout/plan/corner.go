package plan

import "copingset/layout/length"

// Facts are the names of what one text letters.
func Facts(all ...Value) []string {
	var out []string
	for _, v := range all {
		if v.Fact != "" {
			out = append(out, v.Fact)
		}
	}
	return out
}

// CornerKind is what a piece that is not straight does.
type CornerKind int

// The kinds. One that turns may end as well.
const (
	Turning    CornerKind = iota
	Ending                // a closed end at a free end of the wall
	WallEnding            // an upstand against a higher wall
	Tapering              // from one width to another
	Branching             // a tee
	BothEnding            // closed at both hands
)

// Corner is a piece that is not straight, from above, with all that it stands on
// and that its drawing letters. The plan of the piece has its origin at the first
// miter's corner point (at the left end where it has none), x along the first leg
// and y to that leg's roof. What belongs to a leg stands in the frame of the leg's
// own run, as in Run: cap stations, distances behind the cap line. CornerLeg.Place brings
// it into the plan of the piece.
type Corner struct {
	Mark         string
	Kind         CornerKind
	Hand         Hand
	Metric       bool // lettered in millimetres
	Released     Check
	Legs         []CornerLeg   // from the left hand to the right; of a tee its main and its branch
	Miters       []CornerMiter // between each leg and the next; none at a tee
	Ends         [2]CornerEnd  // at the left hand and at the right
	Joints       []CornerJoint // at the left, at the right, behind the branch of a tee
	Supports     []CornerSupport
	SupportSize  [2]Value // along its long axis and across
	Dims         []LegDim
	Outline      Ring  // in the plan of the piece, outside mold lines
	StringBehind Value // the string behind the cap line: the chairs' front edges
	SpliceTape   Value // each strip from the joint's centre
	Taper        Taper // of a transition
	Tee          Tee   // of a tee
}

// Along moves a ring along its run.
func (r Ring) Along(by length.Length) Ring {
	out := make(Ring, len(r))
	for i, p := range r {
		out[i] = Pt{p.X + by, p.Y}
	}
	return out
}

// Along moves a chair along its run.
func (c Chair) Along(by length.Length) Chair {
	c.At += by
	c.Ring, c.Holes = c.Ring.Along(by), Ring(c.Holes).Along(by)
	var webs [][2]Pt
	for _, w := range c.Webs {
		webs = append(webs, [2]Pt{{X: w[0].X + by, Y: w[0].Y}, {X: w[1].X + by, Y: w[1].Y}})
	}
	c.Webs = webs
	return c
}

// Turns says that the plan of the piece is not one straight stretch.
func (c Corner) Turns() bool { return len(c.Miters) > 0 }

// Pitched says that a weld of the piece lies over a break of slope.
func (c Corner) Pitched() bool {
	for _, m := range c.Miters {
		if m.Break != NoBreak {
			return true
		}
	}
	return false
}

// TwoWidths says that its legs are not all of one width.
func (c Corner) TwoWidths() bool {
	for _, g := range c.Legs {
		if c.Kind != Branching && g.Inside != c.Legs[0].Inside {
			return true
		}
	}
	return false
}

// CornerLeg is the part of a piece along one run.
type CornerLeg struct {
	Run      string
	Of       string        // the run as its facts call it, which no other run shares
	From, To length.Length // its ends on the cap line
	At       Pt            // its left end on the cap line, in the plan of the piece
	Heading  length.Angle  // its direction there, to the right from that of the first leg

	Ring Ring // front left, front right, rear right, rear left, outside mold lines
	Rear []Pt // rear mold line, with a point at either end of a taper
	LegTop
	Outside  Value
	Long     Value // along the front
	RearLong Value // along the rear face
	RearLeft Check // something is left of the rear between the miters
	Face     Wall  // the wall's faces as far as the plan may show them, mitered where legs meet
	Opening  [2]length.Length
	Middle   [2]length.Length // street and roof face at the middle of the leg
	String   []Pt             // as far as the plan may show it, to the string corner
	Chairs   []LegChair
	Edges    []LegEdge // beside a break of slope, from the street to the roof
}

// LegTop is how wide a leg is inside and how its top falls. Where the legs of a piece
// have two widths, a fold stands off that of the cap at its joint.
type LegTop struct {
	Inside     length.Length
	Slope      length.Slope
	StandsOff  length.Length
	Facts      []string // the names of the facts that these are
	FrontLower bool     // the front fold stands off, lower; else the rear, higher
}

// Opens says that a branch's wall meets the roof face, which is open from one
// station of Opening to the other.
func (g CornerLeg) Opens() bool { return g.Opening[1] > g.Opening[0] }

// LegEdge is a line of a cap along a leg.
type LegEdge struct {
	Name string
	Long Value
}

// LegChair is a chair under a leg.
type LegChair struct {
	Chair
	Carries    bool     // an end of the piece
	FromCorner Value    // along the front from the near corner point
	Inside     Value    // of the cap at its middle
	Edges      [2]Value // and at its left and right edge; unlike where its rear edge is cut to a taper
}

// Cut says that the chair's rear edge is cut to a taper.
func (c LegChair) Cut() bool { return c.Edges[0].Real != c.Edges[1].Real }

// BreakKind is what the top of a wall does where it goes straight on.
type BreakKind int

// The breaks of slope.
const (
	NoBreak BreakKind = iota // the wall turns
	Peak
	Valley
)

func (b BreakKind) String() string { return [...]string{"no break", "peak", "valley"}[b] }

// CornerMiter is a weld between two legs of a piece.
type CornerMiter struct {
	Corner        string // "N/E"
	Break         BreakKind
	Outside       bool
	By            length.Angle // what the piece turns, to the right towards the roof
	Turn          KeyTurn
	Front, Rear   Pt     // its ends, in the plan of the piece
	Arrive, Leave Offset // of the cap's corner from the plumbed corner of the wall
	StringAt      Pt     // where the strings cross, and
	// the plumbed corner of the wall, along the arriving leg and behind it from the cap's corner point
	WallAt Pt
	Over   Over // a break of slope
}

// Offset is how far the cap's corner lies beyond the plumbed corner of the wall
// along one run, and how far out from it.
type Offset struct {
	Run         string
	Beyond, Out Value
}

// Over is a weld over a break of slope. Its view from the roof has x to the right
// and y down, the origin where the rear folds meet.
type Over struct {
	Trim     Value           // the rear folds end before the front ones; negative beyond
	Legs     [2]Ring         // rear leg of each: fold at the weld, fold at the end, foot at the end, foot at the weld
	Incline  [2]length.Angle // of each leg, going out from the break; positive up
	Inclined [2]string       // the names of the facts that they are
	Fold     [2]Value        // lengths of the rear folds
	RearFoot [2]Value        // and of the rear feet
}

// CornerEndKind is what a piece has at a hand.
type CornerEndKind int

// The kinds of end.
const (
	Jointed    CornerEndKind = iota
	ClosedEnd                // at a free end of the wall
	AgainstEnd               // an upstand against a higher wall
)

// CornerEnd is the piece's at one hand.
type CornerEnd struct {
	Kind    CornerEndKind
	Wall    length.Length // station where the wall ends, or the higher one begins
	Clear   Value         // what the job asks for between the end and the wall
	Upstand Value
	StepTo  string // the run that the top steps up or down to there; empty where it ends
	StepUp  bool
}

// CornerJoint is a joint at an end of a piece, in the frame of a leg.
type CornerJoint struct {
	Name  string
	Kind  JointKind
	Leg   int
	Hand  Hand          // the end of that leg at which it lies
	At    length.Length // its centre
	Near  length.Length // the edge of the piece
	Far   length.Length // the edge of the next one
	Gap   Value
	Wide  length.Length // the next cap, outside, at its edge
	Plate Shape
}

// Out is the way that leads out over the joint along its leg: 1 or -1.
func (j CornerJoint) Out() int {
	if j.Hand == LeftHand {
		return -1
	}
	return 1
}

// CornerSupport is one under a miter, in the frame of the leg that arrives there.
type CornerSupport struct {
	Shape
	Miter   int // and its arriving leg
	Centre  Pt
	Back    Value // of the centre from the corner point along the arriving run; negative past it
	In      Value // of the centre from that run's cap line
	Packing Value
}

// DimOf is what a dimension along a leg measures.
type DimOf int

// What is measured.
const (
	FrontOf    DimOf = iota // a leg along its front
	RearOf                  // a leg along its rear
	ChairOf                 // from the corner point to a chair
	StraightOf              // a straight leg of a transition
	TaperOf                 // its taper
	BesideOf                // a tee's main at one side of its branch
	BranchOf                // its branch
)

// LegDim is a length along a leg that the plan letters.
type LegDim struct {
	Of       DimOf
	Leg      int
	From, To Pt   // in the leg's frame
	Roof     bool // stands on the roof side of it, else on the street side
	Row      int  // from the metal outwards, 1 the nearest
	Mark     string
	Value
}

// Taper is that of a transition, whose front is straight.
type Taper struct {
	From, To     length.Length // where the rear begins and ends to taper
	Inside       [2]Value      // at the left and at the right
	Wide, Narrow [2]Value      // inside and outside
	Long, Leg    Value         // of the piece, and of each straight leg
	Straight     string        // the face that does not taper
	FrontRises   Value         // the front fold, from the narrow to the wide end
	RearFalls    Value         // the rear fold
}

// Tee is a main cap with the stub of a branch welded to its rear.
type Tee struct {
	Starts bool     // the branch's left end meets the main
	Seam   [2]Pt    // the weld, from the branch's front to its rear, in the plan of the piece
	Crew   [2]Value // crew stations of the branch's two sides on the main
	Drop   Value    // the branch's front fold below the main's rear fold
}
