// Package cap cuts the cap line of every run into metal: inside width, corner
// and end pieces, straight pieces and closers, and the joints between them.
//
// Stations in this package are on the cap line (the outside mold line of the
// front leg), from its left corner point or end to its right; wall.Run turns
// them into stations of the wall's face and into the crew's. Pieces and gaps
// of a run sum exactly to its cap line.
//
// Frame chooses the widths, Build lays out the pieces. The rules of every
// dimension are the job's.
package cap

import (
	"copingset/layout/assembly"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// Kind of a piece.
type Kind int

// The kinds of piece.
const (
	Straight    Kind = iota
	Corner           // one welded miter, two legs
	DoubleMiter      // a short run and both its corners in one piece
	EndCap           // closed end at a free end of the wall
	WallEnd          // upstand flange against a higher wall
	Combined         // a short run with a miter and an end in one piece
	Transition       // tapers from one inside width to another
	PitchMiter       // one weld over a break in the slope of the wall top, two legs
	Tee              // a main cap with the stub of a branch welded to its rear
)

func (k Kind) String() string {
	return [...]string{"straight", "corner", "double miter", "end cap", "wall end", "corner with end", "transition",
		"pitch miter", "tee"}[k]
}

// Hand of a piece: that of a person on the roof looking out over the wall.
type Hand int

// The hands. Most pieces have none.
const (
	NoHand Hand = iota
	LeftHand
	RightHand
)

func (h Hand) String() string { return [...]string{"", "left", "right"}[h] }

// Run is a run with its widths, pieces and joints.
type Run struct {
	*wall.Run
	Inside, Outside     length.Length   // of the widest band
	Bands               []Band          // in station order; they cover the run once
	Tapers              []Taper         // in station order, between the bands
	Play                []length.Length // rear play at each reading
	PlayLeast, PlayMost length.Length
	Zones               []wind.Stretch
	Choice              [2]assembly.Choice // by wind.Zone, for the widest band
	Choices             []WidthChoice      // for each width of the run, narrowest first
	Tees                []*Branch          // that meet its roof side, in station order
	Stubs               []*Branch          // that it is, where it meets a main itself
	Parts               []Part             // in station order
	Joints              []*Joint           // in station order
	crossed             bool               // a branch meets it
	lay                 *stretch           // where its transitions may stand; nil where none may
}

// OnWall is the run as it was surveyed.
func (r *Run) OnWall() *wall.Run { return r.Run }

// Part is the stretch of one run that a piece covers, on the cap line.
type Part struct {
	Piece    *Piece
	Run      *Run
	From, To length.Length
}

// Length of the part along the cap line.
func (p Part) Length() length.Length { return p.To - p.From }

// Inside is the inside width of the part; of a transition, the wide end's.
func (p Part) Inside() length.Length {
	switch p.Piece.Kind {
	case Transition:
		return p.Piece.Wide
	case Tee:
		return p.Piece.InsideOn(p.Run)
	}
	return p.Run.InsideAt(p.From)
}

// Miter is a welded corner within a piece, or a weld over a break of slope.
type Miter struct {
	Seam
	// front longer than rear at the arriving and at the leaving leg, outside mold lines; negative where it is shorter,
	// as over a valley
	Trim [2]length.Length
}

// Piece is one made piece.
type Piece struct {
	Mark      string
	Laying    int // order of laying in its perimeter, from 1
	Perimeter *wall.Perimeter
	Lot       string // elevation whose lot of finish it is cut from; may be empty
	Kind      Kind
	Hand      Hand
	Parts     []Part // in station order; more than one where the piece turns
	Miters    []Miter
	LeftEnd   job.EndKind // EndTurn: a joint
	RightEnd  job.EndKind
	Inside    length.Length // the widest
	Wide      length.Length // the widest and the narrowest inside width: of a transition
	Narrow    length.Length // those of its two ends, of a corner of two widths those of its legs
	Straight  job.Face      // transition: the face that does not taper
	Taper     Taper         // transition: where it tapers
	Tee       *Branch       // tee: its branch. Parts are then the main's and the stub's
	Zone      wind.Zone
	Assembly  *job.Assembly
	Closer    bool
	Allowance length.Length // extra length shipped, to be cut on the roof
	CutAt     Hand          // the end to cut
	Cutouts   []*job.Obstacle
}

// Lift is how a piece is lifted.
type Lift int

// The three ways, by the job's own rule.
const (
	OnePerson  Lift = iota
	TwoPersons      // heavier than one person may lift, or long
	Mechanical      // heavier than two may
)

// Shipped is the metal length along the front with what is cut off on the roof.
func (p *Piece) Shipped() length.Length { return p.Length() + p.Allowance }

// Held tells of pieces that are not released the codes of what keeps them. It is
// looked up and never gone through.
type Held map[*Piece][]string

// Released reports whether a piece may be cut.
func (h Held) Released(p *Piece) bool { return len(h[p]) == 0 }

// Length is the metal length along the front, all parts together, as laid.
func (p *Piece) Length() length.Length {
	var l length.Length
	for _, q := range p.Parts {
		l += q.Length()
	}
	return l
}

// RearLength is the metal length along the rear face of one part, outside
// mold lines: the front length less the trims of the miters at its ends.
func (p *Piece) RearLength(i int) length.Length {
	l := p.Parts[i].Length()
	if p.Kind == Tee {
		return l
	}
	if i > 0 {
		l -= p.Miters[i-1].Trim[1]
	}
	if i < len(p.Miters) {
		l -= p.Miters[i].Trim[0]
	}
	return l
}

// JointKind tells a coping joint from one over a building expansion joint.
type JointKind int

// The kinds of joint.
const (
	Plain     JointKind = iota // splice plate, held by the joint chair
	Expansion                  // cover plate held on one side only, no chair under it
	Kink                       // a plain joint that absorbs a small turn at its centre
)

// Joint is the gap between two pieces.
type Joint struct {
	Name        string // "N-J3"
	Kind        JointKind
	Run         *Run
	From, To    length.Length // edges of the neighbours on the cap line; a kink's To lies on the next run
	Left, Right *Piece
	Plate       length.Length // splice or cover plate along the run
	Held        Hand          // the side a cover plate is fixed on
	Movement    *length.Length
	Source      *job.ExpansionJoint
}

// Centre of the joint; it never moves with temperature.
func (j *Joint) Centre() length.Length { return j.From + (j.To-j.From)/2 }

// Gap of the joint, nominal.
func (j *Joint) Gap() length.Length { return j.To - j.From }
