package plan

import "copingset/layout/length"

// Section is a cut across a run at one station, looking along growing stations.
// Distances across are behind the cap line; heights are up from the set surface
// at the wall's street face. In its rings and dimensions Pt.X goes across, to the
// roof, and Pt.Y up.
type Section struct {
	Mark, Run            string        // of what is cut: a chair, a joint
	At                   length.Length // cap station
	Crew                 Value         // as the crew tapes it
	Inside, Outside      length.Length // widths there
	Street, Roof         length.Length // faces of the wall, the roof face at the worst depth
	Play                 length.Length // from there to the inside of the rear leg
	PlayLeast, PlayMost  Value
	PackFront, PackRear  length.Length // set surface over the wall top at the two faces
	FoldFront, FoldRear  length.Length // outside folds over the set surface at the wall's two faces
	CoverFront, LapFront length.Length // the joint under the leg, below the wall top; how far the leg laps it
	CoverRear, LapRear   length.Length
	Surveyed             bool    // else the wall's width is supposed
	Checks               []Check // in the order in which they are read

	Parts  []Part // from the wall up and outwards
	Dims   []Dim
	Feet   [2]Pt // of the front and of the rear leg, as its length is stated; outside
	Joints [2]Pt // what each leg must cover, at the wall's face
	Fall   Fall
	Falls  string // the name of the fact that the fall is

	Sheet    Sheet
	Membrane Membrane
	Layers   []Layer // of the wall, from its top
	Packing  Packing
	Seat     *Seat   // the chair; nil where none is cut
	Joined   *Joined // the joint; nil where none is cut
	Hung     []Hung  // extenders below the legs, front first
	Metric   bool    // else in inches
}

// PartKind says what a part of a section is.
type PartKind int

// The parts, as they are laid.
const (
	WallLayer PartKind = iota
	PackingSheet
	Shim
	Shimmed // filled with shims, where no chair says how
	MembraneLayer
	ChairMetal
	Screw
	PlateMetal
	Tape
	CapMetal
	ExtenderMetal
)

// Metal says that a part is bent or drawn from metal.
func (k PartKind) Metal() bool {
	return k == ChairMetal || k == PlateMetal || k == CapMetal || k == ExtenderMetal
}

// Part is one thing that a section cuts, or sees.
type Part struct {
	Shape
	Kind     PartKind
	Material string
	Beyond   bool // seen behind the cut
	Supposed bool // the job does not state its shape; its ring is the room it takes
	N        int  // which of its kind, from 0
}

// Dim is a distance on a section: between two places of its rings.
type Dim struct {
	What     DimKind
	From, To Pt
	Value    // what it comes to, unrounded
}

// DimKind says which distance a dimension is.
type DimKind int

// The distances. Those of a leg come twice, the front leg's first.
const (
	InsideWidth DimKind = iota
	OutsideWidth
	FrontClear // inside of the front leg to the wall
	WallAcross
	RearClear
	FrontFoot // the whole leg, to its stated foot
	RearFoot
	FrontLapped // the leg below the joint it must cover
	FrontCover  // the joint below the wall top
	FrontPacked // set surface over the wall top
	FrontRise   // fold over the set surface
	RearLapped
	RearCover
	RearPacked
	RearRise
)

// Dim finds one of a section's distances.
func (s Section) Dim(k DimKind) (Dim, bool) {
	for _, d := range s.Dims {
		if d.What == k {
			return d, true
		}
	}
	return Dim{}, false
}

// Of are the parts of a kind.
func (s Section) Of(kinds ...PartKind) []Part {
	var out []Part
	for _, p := range s.Parts {
		for _, k := range kinds {
			if p.Kind == k {
				out = append(out, p)
			}
		}
	}
	return out
}

// Fall is a slope: billionths of the run that it falls.
type Fall int64

// Over is how far it falls over a run.
func (f Fall) Over(run length.Length) length.Length {
	return length.MulDiv(run, int64(f), 1_000_000_000)
}

// Sheet is the metal of a cap and what it is bent to, by outside lengths.
type Sheet struct {
	Metal, Finish string
	Named         string // the name of the fact that the metal is
	Thickness     Value
	Legs          [2]Leg
	Hems          [2]Hem // of the street edge and of the roof edge
	ByPacking     bool   // the fall is made by the packing, else formed in chair and cap
}

// Hem is how an edge is hemmed: its return, how it lies, and the inside radius of one
// that does not lie closed.
type Hem struct {
	Return, Inside Value  // no return: a raw edge
	Lies           string // open, teardrop; empty: closed
}

// Leg is one of a cap as it is stated: its length and what that is measured to,
// and the flange at its foot.
type Leg struct {
	Length length.Length
	To     string
	Kick   Value  // zero: none
	Turn   string // of the flange from the line of the leg, with its unit
	Turned string // the name of the fact that it is
}

// Membrane lies over the packing, or under it.
type Membrane struct {
	Name      string
	Named     string // the name of the fact that it is
	Thickness Value
}

// Packing is what makes the set surface.
type Packing struct {
	LayerName string
	Named     string // the name of the fact that it is
	Layer     Value
	Layers    int
	Counted   string             // the name of the fact that their number is
	Shims     [2][]length.Length // under the two edges of a chair, front and rear
	Shimmed   [2]string          // the names of the facts that they are
}

// Seat is the chair of a section.
type Seat struct {
	Name              string
	Length, Thickness Value
	Report, Substrate string // of its test
	Reported          string // the name of the fact that the report is
	Stated            bool   // the job states its section
	Rows              [2]Row
	Front, Rear       length.Length // its edges behind the cap line
}

// Row is a row of a chair's fasteners; the head of one bears at Head.
type Row struct {
	Fastener         string // empty: none is named
	Count            int
	Counted          string // the names of the facts that fastener and count are
	Diameter, Length Value
	Into, Asked, Tip Value // thread in what holds it, the least, the tip
	PilotDia, Pilot  Value
	Packing          length.Length
	Head             Pt
	Fits             bool // a stock length does
}

// Joined is the joint of a section.
type Joined struct {
	Name        string
	Kind        JointKind
	Plate, Tape Value  // along the run: the plate; from the centre line to each strip
	Held        string // hand of the cap that a cover plate is held on
	Gap         Value  // of a building expansion joint
	Stated      bool   // the job states the plate's section
}

// Hung is a separate piece below a leg.
type Hung struct {
	Front       bool
	Height      Value  // with its lap
	Leg, Tested Value  // asked for, and as tested
	To          string // what those are measured to
	Top, Foot   Pt
	Stated      bool
}
