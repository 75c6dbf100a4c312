// Package job reads what people wrote: the job file (YAML) and the wall survey
// (CSV beside it, or inline), and hands the rest of the house typed values.
//
// Nothing here is computed and nothing has a hidden default: a dimension of
// the coping system that the file does not state is a finding, not a guess.
// Every part remembers its place in the file so that later rooms can point at
// the line that has to change.
//
// The types follow the file: Job holds Info, System, Assemblies, Walls,
// Fasteners, Pressures, Packing, Site, Crating and the Perimeters with their
// Runs. Lengths are exact (package length); angles, slopes, temperatures and
// pressures are the small types of units.go.
package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Units is the system the sheets are lettered in.
type Units int

// The two systems of units a job can print in.
const (
	Imperial Units = iota
	Metric
)

// Job is one job file with its surveys, decoded and checked for form. Whether
// the wall closes or the pieces fit is for later rooms.
type Job struct {
	File       string // as given on the command line
	Info       Info
	Units      Units
	Paper      Paper
	System     System
	Packing    Packing
	Membrane   Layer // over the wall top, under the chairs
	Fasteners  []Fastener
	Assemblies []Assembly
	Walls      []Wall
	Pressures  *Pressures // nil: not stated
	Survey     SurveyCheck
	Wind       *Wind // nil: nothing to compute pressures from
	Site       Site
	Crating    Crating
	Shop       *Shop // nil: not stated
	Perimeters []Perimeter
	Findings   finding.List // what reading found; the layout carries it on
}

// Info names the job and the people who answer for it.
type Info struct {
	Name, Number, Address string
	Owner                 string
	Parties               []Party
	Issued                Date // date of issue; the only date on the sheets
	PreparedBy, CheckedBy string
	Revisions             []Revision
	Notes                 []string // printed among the general notes
}

// Party is one of those concerned with the job.
type Party struct{ Role, Name string }

// Revision is one row of the revision table.
type Revision struct {
	Mark string
	Date Date
	Note string
}

// Paper chooses a sheet for the drawings and one for the lists.
type Paper struct{ Runs, Lists PaperSize }

// System is the fabricator's coping system. All of it is job data.
type System struct {
	At      finding.Place
	Name    string
	Metal   Metal
	Profile Profile

	FrontClearance, RearClearance length.Length // inside faces to wall, at the worst reading
	PlayLeast, PlayMost           length.Length // rear play the rear leg can take up
	Widths                        Widths
	Transition                    Transition
	PitchMiter                    PitchMiter

	Stock      length.Length // longest straight cap the shop makes
	LeastPiece length.Length
	Closer     Closer
	Remainder  Side // which side takes an odd sixteenth or millimetre

	Joint     Joint
	Splice    Splice
	Chair     Chair
	Corner    CornerRules
	EndCap    EndRules // free ends
	WallEnd   EndRules // dies into a higher wall
	Expansion ExpansionRules
	Tee       TeeRules // cross walls
	Lap       Lap
	Extender  *ExtenderRules // nil: not stated
	StepRiser *RiserRules    // nil: not stated
}

// Metal is the sheet the caps are bent from.
type Metal struct {
	Name        string
	Thickness   length.Length
	Specified   length.Length // least thickness the job's specification asks for; zero: not stated
	Density     float64       // kg/m3
	Expansion   int64         // linear, in 1e-9 per degree Celsius
	Finish      string
	Directional bool // blanks never rotated
}

// Profile is the cross-section by outside dimensions.
type Profile struct {
	FrontLeg  length.Length // from the front fold to the foot of the leg
	Drip      Kick          // kicked out at the foot of the front leg; zero length: none
	TopSlope  Slope         // falls towards the roof
	SlopeBy   SlopeBy
	RearLeg   length.Length
	RearHook  Kick          // turned in at the foot of the rear leg
	HemReturn length.Length // return of the hemmed edges; zero: raw edge
	InsideR   length.Length // inside bend radius
}

// Kick is a short flange at the foot of a leg: its length, and the angle it
// turns from the line of the leg.
type Kick struct {
	Length length.Length
	Angle  Angle
}

// SlopeBy says where the slope of the top comes from. Never both.
type SlopeBy int

// The two places a slope can be made.
const (
	SlopeByChair   SlopeBy = iota // the set surface is level across
	SlopeByPacking                // the set surface has the profile's cross slope
)

// Widths are the inside widths the fabricator offers: a list, or every step
// between two limits.
type Widths struct {
	Offered           []length.Length // ascending; if given, the rest is zero
	Least, Most, Step length.Length
}

// Transition is the piece that joins two inside widths. Its front face is
// straight, its rear face tapers between two straight legs. A zero Length:
// the fabricator offers none.
type Transition struct {
	Length     length.Length // along the front, both legs included
	Leg        length.Length // straight at each end, for the splice plate
	ChangeMost length.Length // greatest difference of the two widths
}

// Offered reports whether the fabricator makes transitions.
func (t Transition) Offered() bool { return t.Length > 0 }

// PitchMiter is the piece that stands over a break in the slope of the wall top,
// with a leg each side of it. A zero Leg: the fabricator offers none.
type PitchMiter struct {
	Leg        length.Length // each side of the break, along the front fold
	ChangeMost Angle         // greatest change of slope that is welded
}

// SplitsWidths reports whether the runs between two steps may have several
// widths: by transitions, or at corners of two widths.
func (s *System) SplitsWidths() bool { return s.Transition.Offered() || s.Corner.TwoWidths != nil }

// Closer says where in a stretch the cut piece goes.
type Closer int

// The places a closer can stand.
const (
	CloserRight Closer = iota
	CloserLeft
	CloserShared // the last two pieces share the remainder
)

// Side is left or right of a person on the roof looking out over the wall.
type Side int

// The two sides.
const (
	Left Side = iota
	Right
)

// Joint is the gap between two caps.
type Joint struct {
	Gap         length.Length // nominal, at the reference metal temperature
	Reference   Temperature
	Coldest     Temperature   // of the metal
	Hottest     Temperature   // of the metal
	LeastGap    length.Length // at the hottest
	FieldCloser bool          // closers ship long and are trimmed on the roof
	Allowance   length.Length // extra length of a field closer
}

// Splice is the concealed plate under a joint.
type Splice struct {
	Length  length.Length // along the run, centred on the joint
	Bearing length.Length // least sealant bearing each side of the widest gap
	Tape    length.Length // from the joint's centre line to the middle of each tape strip
	Legs    Legs          // of the plate
}

// Chair is the anchor chair.
type Chair struct {
	Length    length.Length // along the run
	Thickness length.Length
	Rise      length.Length // underside of the cap above the set surface, at its low edge
	FrontEdge length.Length // chair's front edge behind the inside of the front leg
	RearEdge  length.Length // chair's rear edge before the inside of the rear leg
	EndChair  length.Length // centre of the end chair from an end without a joint
	Metal     string        // what it is made of; empty: not stated
	Blank     *Blank        // nil: its section is not stated
}

// CornerRules are the fabricator's rules for welded corners.
type CornerRules struct {
	Leg        length.Length // least leg
	LegFace    Face          // face that leg is measured on
	LongestLeg length.Length // longest leg the shop welds, same face
	LegStep    length.Length // legs grow in this step
	Absorb     Angle         // a turn up to this is absorbed by a plain joint
	AnglePlay  Angle         // a corner is made to the wall's turn when the lines' turn differs by no more
	Support    Support
	Supports   []SupportTier // by inside width, ascending; supports at the miter
	TwoWidths  *TwoWidths    // nil: one width goes through every corner
}

// TwoWidths is what the fabricator accepts of a corner whose legs have
// different widths. Both tops rise alike from the seam's inner point to its
// outer one, so the wider leg has less slope than the profile.
type TwoWidths struct {
	MismatchMost length.Length // of the wider leg's fold against the cap of the profile's slope beside it
	SlopeLeast   Slope         // of the wider leg
}

// Support is the short chair under a miter.
type Support struct {
	Length, Width length.Length // along the miter, across it
	Blank         *Blank        // nil: its section is not stated
}

// SupportTier says how many supports stand under a miter up to a width, and
// where, in thousandths of the miter from the outside corner.
type SupportTier struct {
	WidthTo length.Length
	At      []int
}

// EndRules are the rules for a closed or flanged end.
type EndRules struct {
	Leg       length.Length // shop-made piece from the end to its joint
	Clearance length.Length // end cap: inside of the cap's end to the wall's end; wall end: end of cap to the higher wall
	Upstand   length.Length // flange against the higher wall
}

// ExpansionRules apply at a building expansion joint.
type ExpansionRules struct {
	Bearing   length.Length // cover plate on each cap at the widest gap
	ChairFrom length.Length // centre of the chair each side from the end of its cap
	Cover     *Cover        // nil: its shape is not stated
}

// TeeRules apply where the coping of a cross wall, the branch, meets the roof
// side of another, the main. The tee is one welded piece of the main run.
type TeeRules struct {
	Leg       length.Length // of the main, at each side of the branch, to the joint
	Branch    length.Length // stub of the branch, from the main's rear mold line to its joint
	DropLeast length.Length // the branch's front fold below the main's rear fold: least,
	DropMost  length.Length // and most
}

// Lap is the least cover of each leg below the joint it must cover.
type Lap struct{ Front, Rear length.Length }

// PackingMethod is how the wall top is brought to the set surface.
type PackingMethod int

// The two methods, and the wish to have the better of them found.
const (
	PackContinuous  PackingMethod = iota // plywood layers the length of the wall, shims on top
	PackChairs                           // packing under each chair alone
	PackRecommended                      // the one that costs less by the job's own rates
)

func (m PackingMethod) String() string {
	return [...]string{"continuous", "chair", "recommended"}[m]
}

// Packing is what the wall top may be built up with.
type Packing struct {
	At            finding.Place
	Method        PackingMethod
	AboveMembrane bool // chair-only packing: above or below the membrane
	Least, Most   length.Length
	LayerName     string
	Layer         length.Length   // actual thickness of one plywood layer
	Shims         []length.Length // thickest first
	Grade         Slope           // the set surface may rise or fall along a run by this; zero: it is level
	Twist         length.Length   // mismatch over a level corner leg that the pieces take up
	Sheet         Sheet           // plywood as it is bought; zero: not stated
	Nail          LayerNail       // what fastens the layers; zero: not stated
	Rates         *Rates          // nil: not stated
}

// Sheet is a sheet of plywood and the saw that rips it.
type Sheet struct{ Width, Length, Kerf length.Length }

// Stated reports whether the job says how its plywood is bought.
func (s Sheet) Stated() bool { return s.Width > 0 && s.Length > 0 }

// LayerNail is the nail or screw of the plywood layers.
type LayerNail struct {
	Name    string
	Spacing length.Length // along the wall
	Rows    int
}

// Rates are the job's own rates, by which two ways to pack are compared. Times
// are in thousandths of a minute, money in thousandths of the job's money.
type Rates struct {
	At               finding.Place
	Cut, Piece, Foot int64 // to saw one cut, to set one piece, to fix one foot of one layer
	Hour             int64 // one hour of labour
	Sheet, Shim      int64 // one sheet of plywood, one shim of any thickness
}

// Layer is one layer of a build-up.
type Layer struct {
	Name      string
	Material  string
	Thickness length.Length
	Gravity   float64 // specific gravity of wood; zero: not stated
	Wet       bool    // wood in service above 19 per cent moisture
	Service   bool    // the job says whether it is wet
	Treated   bool    // pressure-treated wood
}

// Materials that a wall layer, a fastener's substrate or a test can name.
const (
	Wood     = "wood"
	Plywood  = "plywood"
	Masonry  = "masonry"
	Concrete = "concrete"
	Steel    = "steel"
)

// Fastener is a stock fastener with what its report asks for.
type Fastener struct {
	At           finding.Place
	Name         string
	Diameter     length.Length
	Substrate    string          // material that holds the thread
	Lengths      []length.Length // stock lengths, ascending
	Embedment    length.Length   // required thread in the holding substrate
	Tip          length.Length
	PilotDia     length.Length // zero: none
	PilotBeyond  length.Length // pilot deeper than the tip by
	Cover        length.Length // substrate left below the tip
	EdgeDistance length.Length // least, from the wall's face
	Box          int           // pieces in a box
	Kind         string        // for the cross-check in wood; empty: none
	Thread       length.Length // of its thread, tip left out; zero: not stated
	Metal        string        // what it is made of; empty: not stated
}

// Assembly is one tested assembly.
type Assembly struct {
	At                        finding.Place
	Name, Report, Laboratory  string
	Metal                     string // as System.Metal.Name
	ThicknessLeast            length.Length
	FrontLegMost, RearLegMost length.Length
	WidthMost                 length.Length // inside width
	ChairSpacing              length.Length
	Substrate                 string
	Fastener                  string        // name of a Fastener
	FrontRow, RearRow         int           // fasteners per chair in each row
	FrontRowFrom              length.Length // row's centre line behind the chair's front edge
	RearRowFrom               length.Length // row's centre line before the chair's rear edge
	Up, Out                   Pressure
	Rear                      Pressure // on the rear leg, towards the roof; zero: the report does not state it
	Factor                    float64  // safety factor asked of an as-pulled ultimate; already taken in an allowable
	ReferenceArea             string
	Cost                      int64 // per chair, in thousandths of the job's money
}

// Wall is one construction, layers from the top down.
type Wall struct {
	At                    finding.Place
	Name                  string
	Layers                []Layer
	CoverFront, CoverRear length.Length // depth below the wall top of the joint each leg must cover
	MeasureLow            bool          // readings at leg depth are required
	Nailer                *Nailer       // nil: how the top layer is anchored is not stated
}

// Pressures are design pressures stated by the engineer.
type Pressures struct {
	At           finding.Place
	By, Document string
	Edition      string
	Edge, Corner ZonePressure
	CornerLength length.Length // corner zone along the wall from each outside corner and free end
}

// ZonePressure is up on the top, out on the face, and towards the roof on the
// rear leg; Rear is zero where it is not stated.
type ZonePressure struct{ Up, Out, Rear Pressure }

// Site holds what the crew's sheets say about the place.
type Site struct {
	RoofHeight    length.Length
	OnePerson     int64         // grams one person may lift by the job's own rule
	LongPiece     length.Length // pieces longer than this take two
	SafetyPlan    string        // document that governs
	MeasuredBy    string
	MeasuredOn    Date
	InstallMetalT []Temperature // metal temperatures of the gap table, ascending
}

// Crating is how pieces travel.
type Crating struct {
	At                                                finding.Place
	WeightMost                                        int64 // grams of one crate, with Tare
	LengthMost                                        length.Length
	Tare                                              int64  // grams of an empty crate with its dunnage; zero: not stated
	FilmOff                                           string // when the fabricator wants the film off; empty: not stated
	SpareChair, SpareSplice, SpareFastener, SpareTape int    // per cent
	SpareSupport, SpareShim                           int
	TapeRoll                                          length.Length
}

// Kind of a perimeter.
type Kind int

// The three kinds: right turns less left turns sum to +360 for a roof and
// -360 for a well; an open one has two ends.
const (
	Roof Kind = iota
	Well
	Open
)

// Perimeter is one chain of runs.
type Perimeter struct {
	At               finding.Place
	Name             string
	Kind             Kind
	Wall             string // name of a Wall; a run may override
	Bearing          Angle  // compass bearing of the first run's direction of stations
	MisclosureLength length.Length
	MisclosureAngle  Angle
	Raise            length.Length // its set surface over what the wall asks for
	Starts           End           // open: the left end of the first run
	Runs             []Run
}

// Graded reports whether a run states a grade of its own that is not level.
func (p *Perimeter) Graded() bool {
	for i := range p.Runs {
		if g := p.Runs[i].Grade; g != nil && g.Most > 0 {
			return true
		}
	}
	return false
}

// Face of the wall on which a length or a station is measured.
type Face int

// The two faces.
const (
	Front Face = iota // street side
	Rear              // roof side
)

func (f Face) String() string { return [...]string{"front", "rear"}[f] }

// Basis of a length.
type Basis int

// Measured in the field, or taken from a drawing (a hold until measured).
const (
	Measured Basis = iota
	Drawing
)

// Run is a straight stretch of wall between two corners or ends.
type Run struct {
	At          finding.Place
	Name        string
	Wall        string // name of a Wall; empty: the perimeter's
	Length      length.Length
	Face        Face
	Basis       Basis
	Right       End    // how it ends at the right hand
	Grade       *Grade // of its set surface; nil: the packing's
	StationFace Face
	Datum       Datum
	SurveyLine  string // the two named points the offsets are taken from
	Line        Line
	Cleared     []Cleared
	Elevation   string // pieces of one elevation keep one lot of finish
	Obstacles   []Obstacle
	Expansion   []ExpansionJoint
	Readings    []Reading // ascending stations
}

// Datum is the mark crew stations start at. An empty Mark is the plumbed
// left-hand corner of the wall, At zero.
type Datum struct {
	Mark string
	At   length.Length // station of the mark on the run's station face
}

// Does is what an obstacle does.
type Does int

// What an obstacle can do; they combine.
const (
	BlocksChair Does = 1 << iota
	BlocksJoint
	Pierces
)

// Obstacle stands on the wall or comes through it.
type Obstacle struct {
	At       finding.Place
	Name     string
	Station  length.Length // its centre
	Extent   length.Length // along the run
	FromFace length.Length // piercing: centre behind the wall's front face
	Depth    length.Length // piercing: across the wall
	Does     Does
	Collar   string // piercing: who seals it; empty is a hold
}

// BlocksAChair reports whether no chair can stand at the obstacle: it says so,
// or it comes through.
func (o *Obstacle) BlocksAChair() bool { return o.Does&(BlocksChair|Pierces) != 0 }

// BlocksAJoint reports whether no splice plate can lie at the obstacle.
func (o *Obstacle) BlocksAJoint() bool { return o.Does&(BlocksJoint|Pierces) != 0 }

// ExpansionJoint is a building expansion joint.
type ExpansionJoint struct {
	At       finding.Place
	Station  length.Length  // its centre
	Gap      length.Length  // open gap in the wall
	Movement *length.Length // either way; nil: not stated, a hold
}

// Reading is one station of the survey. Offset is from the survey line,
// positive towards the street. Tops are heights above the job's level datum.
type Reading struct {
	At                    finding.Place
	Station               length.Length
	Width                 length.Length
	TopOutside, TopInside length.Length
	Offset                length.Length
	WidthLow, OffsetLow   *length.Length // at leg depth, where the wall asks for it
	Conditions            []Condition    // what the surveyor saw there; empty: nothing
	Photos                []string       // numbers of the photos taken there
	Note                  string
}
