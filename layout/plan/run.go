package plan

import "copingset/layout/length"

// Pt is a place in the plan of a run: a cap station, and how far behind the cap
// line.
type Pt struct{ X, Y length.Length }

// Ring is the outline of something, its corners in order round it.
type Ring []Pt

// Box is an upright rectangle: the corner at the left hand and the street first.
func Box(x0, y0, x1, y1 length.Length) Ring {
	return Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Bounds of a ring: its least and its greatest station and distance.
func (r Ring) Bounds() (lo, hi Pt) {
	for i, p := range r {
		if i == 0 {
			lo, hi = p, p
		}
		lo = Pt{length.Min(lo.X, p.X), length.Min(lo.Y, p.Y)}
		hi = Pt{length.Max(hi.X, p.X), length.Max(hi.Y, p.Y)}
	}
	return lo, hi
}

// Shape is something with an outline.
type Shape struct {
	Mark string
	Ring Ring
}

// Value is a length that is lettered, and the name of the fact that it is; none
// where it is said nowhere else.
type Value struct {
	Real length.Length
	Fact string
}

// Hand of somebody on the roof looking out over the wall.
type Hand int

// The hands; what has none has NoHand.
const (
	NoHand Hand = iota
	LeftHand
	RightHand
)

func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// PieceKind is a kind of piece.
type PieceKind int

// The kinds of piece.
const (
	StraightPiece    PieceKind = iota
	CornerPiece                // one welded miter, two legs
	DoubleMiterPiece           // a short run and both its corners in one piece
	EndCapPiece                // closed end at a free end of the wall
	WallEndPiece               // upstand flange against a higher wall
	CombinedPiece              // a short run with a miter and an end in one piece
	TransitionPiece            // tapers from one inside width to another
	PitchMiterPiece            // one weld over a break in the slope of the wall top, two legs
	TeePiece                   // a main cap with the stub of a branch welded to its rear
)

// Along reports a piece that is laid to the string between corners and ends.
func (k PieceKind) Along() bool { return k == StraightPiece || k == TransitionPiece }

// Miter is the weld at one end of a part. Trim is what its front mold line has over
// the rear one there: negative at an inside corner.
type Miter struct {
	Here bool
	Trim length.Length
}

// Piece is the stretch of a run that a cap covers: its two outside mold lines,
// each from the left hand to the right. The rear one is shorter by the miter at a
// corner that turns to the roof, and has a point at either end of a taper.
type Piece struct {
	Mark        string
	Kind        PieceKind
	From, To    length.Length // along the front
	Front, Rear []Pt
	Long        Value // from From to To
	Left, Right Miter
	Mitered     bool       // it has a weld somewhere
	Pitched     bool       // its welds are over breaks of slope: no miter in plan
	Break       SlopeBreak // of a pitch miter
	Laying      int        // order of laying in its perimeter, from 1
	LaidWith    string     // the run that a tee's stub is laid with; empty: its own
	MarkFact    string     // facts of mark and laying number
	LayingFact  string
	Held        bool          // not released
	Persons     int           // who lift it; none: a machine
	Allowance   length.Length // extra length shipped, to be cut on the roof
	CutAt       Hand          // the end to cut
}

// Whole reports whether both ends of a part lie within a stretch.
func (p Piece) Whole(from, to length.Length) bool { return p.From >= from && p.To <= to }

// JointKind is a kind of joint.
type JointKind int

// The kinds of joint.
const (
	PlainJoint     JointKind = iota // splice plate, held by the joint chair
	ExpansionJoint                  // cover plate held on one side only, no chair under it
	KinkJoint                       // a plain joint that absorbs a small turn at its centre
)

// Joint is the gap between two pieces, with its splice or cover plate between the
// legs of the cap.
type Joint struct {
	Mark             string
	Kind             JointKind
	From, To, Centre length.Length // on the cap line; a kink's To lies on the next run
	Station, Gap     Value         // of its centre from the start mark; as set at the reference temperature
	Plate            Ring
	PlateLong        length.Length // of the plate along the run
	Held             Hand          // the side a cover plate is fixed on
	WallGap          length.Length // of the building expansion joint under it; zero: none
	Moves            bool          // the movement of that is stated
	Movement         Value         // either way
	GapAt            []Value       // by the temperatures of the run, of a joint whose gap is set by them
	Outside          length.Length // of the cap there
}

// Support is one under a miter, in the frame of the run it is seen from.
type Support struct {
	Shape
	Right bool // under the corner at the run's right end
}

// Pack is what stands under a chair at one face of the wall.
type Pack struct {
	Thick Value           // set surface over the wall top
	Built length.Length   // what plies and shims come to
	Shims []length.Length // thickest first, over the plies
}

// Screws are one row of a chair. Length is zero where no stock length fits.
type Screws struct {
	Count         int
	Name          string // of the fastener; empty: none
	Length, Pilot length.Length
	PilotDia      length.Length
	Behind        length.Length // centre line of the row from the cap line
}

// Fits says that a stock length of the named fastener does.
func (w Screws) Fits() bool { return w.Name != "" && w.Length > 0 }

// ChairKind is where a chair stands.
type ChairKind int

// The kinds of chair.
const (
	ChairAtJoint     ChairKind = iota // centred under a joint; it never moves
	ChairBetween                      // one of the equal bays of a piece
	ChairAtEnd                        // at an end without a joint
	ChairAtExpansion                  // one each side of a building expansion joint
)

func (k ChairKind) String() string {
	return [...]string{"joint", "between", "end", "expansion"}[k]
}

// Fastener is a kind of screw or nail.
type Fastener struct {
	Name     string
	Diameter length.Length
}

// Chair is one in plan, its rear edge follows a taper, and in elevation, where it
// lies on the set surface.
type Chair struct {
	Shape
	N       int // in its run, from the left
	Kind    ChairKind
	Joint   string        // that it stands at; empty: none
	At      length.Length // its middle
	Station Value         // from the start mark
	// as the chair is drilled; where the job does not state that, spread evenly along each row as tested
	Holes []Pt
	// middles of the faces that stand on its base, each from left to right; none where its section is not stated
	Webs                  [][2]Pt
	Set                   length.Length // height of the set surface at its middle, at the roof face
	Side                  Ring          // seen from the roof: set surface at the left and right, then its top
	UnderFront, UnderRear Value         // height of its underside over the level datum at the wall's two faces
	RodFront, RodRear     Value         // the same over the benchmark, where the job states one
	StringToWall          Value         // how far behind the string the wall's street face lies; negative: in front
	Plies                 int
	Front, Rear           Pack
	Rows                  [2]Screws     // front, rear
	Inside                length.Length // width of the cap that it is made for
	// that width at its left and right edge; unlike where its rear edge is cut to a taper
	Edges      [2]length.Length
	First      bool // set before the string is pulled: under a corner or end piece, or outermost
	AlongPiece bool // under pieces that are laid to the string
}

// Wall is the top of a run's wall from above, each face from corner to corner with
// a point at every reading; nothing where nobody measured.
type Wall struct {
	Street, Roof []Pt
	Read         []Pt // the roof face at each reading on the wall
}

// EndKind is how a run ends.
type EndKind int

// The ways a run ends.
const (
	EndTurn EndKind = iota // turns into the next run, or goes on over a break of slope
	EndFree                // free end with an end cap
	EndWall                // dies into a higher wall
	EndTee                 // meets the roof side of another perimeter's run
)

// SlopeBreak is a change in the slope of the wall top.
type SlopeBreak struct {
	Word  string // peak, valley; empty: none
	Angle string // its change of slope
}

// End is one end of a run and what lies beyond it.
type End struct {
	Kind       EndKind
	Corner     bool          // a corner, a kink or a break of slope stands there
	Outside    bool          // the wall turns to the roof
	Roofward   bool          // so does the cap
	Streetward bool          // the cap turns away from it
	Absorb     bool          // a plain joint takes it up: no miter
	Trim       length.Length // front mold line over the rear one there
	Break      SlopeBreak
	Beyond     string // the run beyond a corner or a step, or the main that a tee meets
	Name       string // of the corner
	// of the cap corner from the plumbed corner of the wall, along this run; nothing at a break of slope
	Offset Offset
	Step   StepWay
	Stub   [2][]Pt // the next run's front and rear mold lines, from the miter outwards and far beyond what is shown
}

// Branch is where another perimeter's run meets the roof side of one: its two
// sides on the rear mold line, and its name.
type Branch struct {
	Name        string
	Left, Right Pt
}

// Obstacle is one on the wall or through the cap.
type Obstacle struct {
	Shape
	At                                length.Length // its middle
	Station                           Value         // from the start mark
	BlocksChair, BlocksJoint, Pierces bool
	Collar                            string        // who seals what comes through; empty is a hold
	Work                              string        // who takes it off and puts it back; empty: nobody is named
	Extent, Depth                     length.Length // along the wall and across it
	FromFace                          length.Length // of what comes through: its middle behind the wall\'s street face
	Holes                             []Cutout      // in the pieces over it
	Fact                              string        // all that is lettered of it
}

// Cutout is the hole of what comes through a piece: its middle from the piece's left
// end along the front, as laid, and behind the cap's front face.
type Cutout struct {
	Piece               string
	FromLeft, FromFront length.Length
}

// WindZone is a stretch of one zone of wind pressure.
type WindZone struct {
	From, To length.Length
	Corner   bool
}

// BuildUp is a stretch of one build-up under the coping.
type BuildUp struct {
	From, To              length.Length
	Plies                 int
	FrontLeast, FrontMost length.Length // shims over the plies, at the two edges
	RearLeast, RearMost   length.Length
}

// Note is what a surveyor saw and wrote at a reading.
type Note struct {
	At         length.Length
	Station    Value
	Conditions []string
	Words      string
	Fact       string // of the words
}

// Pinch is the reading at which the rear play is least: the cap that goes on there
// goes on everywhere. Nothing where nobody measured.
type Pinch struct {
	Here         bool
	On           Pt    // on the wall's street face
	Station      Value // the fact of where the wall is widest, if that is there
	Need         length.Length
	Play         Value
	StringToWall Value
}

// ToWall are the distances from the string to the wall's street face behind it, to
// check the string by: at the first and the last reading, and where it is greatest.
type ToWall struct {
	Here              bool
	Left, Right, Most Value
	MostAt            Value // station
}

// Datum is the mark that crew stations start at.
type Datum struct {
	Mark   string // as the job names it; empty: the plumbed end of the wall
	At     Pt     // on the wall's street face
	Begins Value  // the cap line from it; negative: the cap line begins to its left
}

// Benchmark is the mark that the crew levels from, and a second one to check it by.
type Benchmark struct {
	Here        bool // the job states one
	What, Where string
	Check       struct {
		Here        bool
		What, Where string
		Over        Value // how far it lies over the first; negative: under it
	}
}

// Layer is one of the wall.
type Layer struct {
	Name, Material string
	Thickness      Value
}

// Run is a run from above and from the roof. Pieces, Joints, Obstacles, Gaps and
// Chairs stand in the order of the run's parts, joints, obstacles, building
// expansion joints and chairs.
type Run struct {
	Wall
	Name        string
	Of          string        // what its facts are of, which no other run shares
	Metric      bool          // lettered in millimetres
	ChairTape   length.Style  // stations of chairs and joints
	Cap, Front  Value         // cap line; the wall's front face
	FrontFrom   length.Length // cap stations of the two ends of the wall's front face
	FrontTo     length.Length
	Inside      length.Length // of the widest part
	Outside     length.Length
	RearLine    []Pt          // rear mold line from end to end of the cap line
	Gap         Value         // of a joint as designed
	Temps       []Temperature // of the metal, that gaps are set by
	Datum       Datum
	Left, Right End
	String      []Pt // from the first chair to the last
	Pinch       Pinch
	ToWall      ToWall
	Line        Line
	Pieces      []Piece
	Joints      []Joint
	Obstacles   []Obstacle
	Gaps        []Shape
	Supports    []Support
	Chairs      []Chair
	Branches    []Branch
	WindZones   []WindZone
	BuildUps    []BuildUp
	Notes       []Note
	Layers      []Layer       // of the wall from its top down
	Fasteners   []Fastener    // of its chairs, in their order
	Plies       bool          // plies lie along the wall under the shims
	Ply         length.Length // thickness of one
	UnderChairs bool          // packing stands under the chairs alone
	LayerName   string        // what plies are of
	Benchmark   Benchmark
	Toward      Hand // the hand towards which its straight pieces are laid; none of fewer than two
	Elevation   Elevation
}

// ToCrew turns a cap station into the station that the crew tapes.
func (r *Run) ToCrew(station length.Length) length.Length { return station + r.Datum.Begins.Real }

// OutsideAt is how far behind the cap line the rear mold line lies at a station.
func (r *Run) OutsideAt(station length.Length) length.Length { return On(r.RearLine, station) }

// Within is the part of a line of growing stations between two of them, cut
// straight where it passes them.
func Within(line []Pt, lo, hi length.Length) []Pt {
	n := len(line)
	if n == 0 || line[0].X > hi || line[n-1].X < lo {
		return nil
	}
	var out []Pt
	for i, p := range line {
		if i > 0 {
			q := line[i-1]
			for _, x := range []length.Length{lo, hi} {
				if q.X < x && x < p.X {
					out = append(out, between(q, p, x))
				}
			}
		}
		if p.X >= lo && p.X <= hi {
			out = append(out, p)
		}
	}
	return out
}

// between is the place at a station on the way from one point to another, from the
// lower up, so that a run and its mirror round alike.
func between(a, b Pt, x length.Length) Pt {
	if b.Y < a.Y {
		return Pt{x, b.Y + length.MulDiv(a.Y-b.Y, int64(b.X-x), int64(b.X-a.X))}
	}
	return Pt{x, a.Y + length.MulDiv(b.Y-a.Y, int64(x-a.X), int64(b.X-a.X))}
}
