package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

// Joint is the gap between two caps.
type Joint struct {
	Gap         length.Length // nominal, at the reference metal temperature
	Reference   Temperature
	Coldest     Temperature   // of the metal
	Hottest     Temperature   // of the metal
	LeastGap    length.Length // at the hottest
	FieldCloser bool          // closers include extra length and are trimmed on the roof
	Allowance   length.Length // extra length of a field closer
}

// Splice is the concealed plate under a joint.
type Splice struct {
	Length  length.Length // along the run, centred on the joint
	Bearing length.Length // least sealant bearing each side of the widest gap
	Tape    length.Length // from the joint's centre line to the middle of each tape strip
	// TapeThick is the tape pressed, between the plate and the cap; zero: not stated.
	TapeThick length.Length
	Legs      Legs // of the plate
}

// Chair is the chair; an assembly may have been tested with its own.
type Chair struct {
	At        finding.Place
	Length    length.Length // along the run
	Thickness length.Length
	Rise      length.Length // underside of the cap above the set surface, at its low edge
	FrontEdge length.Length // chair's front edge behind the inside of the front leg
	RearEdge  length.Length // chair's rear edge before the inside of the rear leg
	EndChair  length.Length // centre of the end chair from an end without a joint
	Metal     string        // what it is made of; empty: not stated
	Blank     *Blank        // nil: its section is not stated
	Tolerance *Tolerance    // of what takes hold of it; nil: not stated
	Bearing   *Bearing      // of its base on the wall; nil: not stated
}

// Bearing is how much of a chair's base must lie on the wall, across it, and how far the
// base may stand out over a face.
type Bearing struct {
	At       finding.Place
	Least    length.Length
	Overhang length.Length
}

func (b *Bearing) keys(k keys) {
	b.At = k.at
	k.length("least", &b.Least, "how much of the base must bear on the wall, across it", `5"`)
	k.lengthOrZero("overhang", &b.Overhang, "how far the base may stand out over a face of the wall", `1/4"`)
}

// Tolerance is how far the engagement of hook and snap may come out under what the
// sections as stated have: by the bent parts, and by how the chairs are set.
type Tolerance struct {
	At             finding.Place
	Parts, Setting length.Length
}

func (t *Tolerance) keys(k keys) {
	t.At = k.at
	k.lengthOrZero("parts", &t.Parts, "how far cap and chair as bent may be off together, across the wall", `1/32"`)
	k.lengthOrZero("setting", &t.Setting, "how far a chair may be set off its line", `1/16"`)
}

// ExpansionRules apply at a building expansion joint.
type ExpansionRules struct {
	Bearing   length.Length // cover plate on each cap at the widest gap
	ChairFrom length.Length // centre of the chair each side from the end of its cap
	Cover     *Cover        // nil: its shape is not stated
}

func (j *Joint) keys(k keys) {
	k.length("gap", &j.Gap, "the gap between caps at the reference temperature", `5/16"`)
	k.temperature("reference_temperature", &j.Reference, "the metal temperature the gap is named for", "68 F")
	k.temperature("coldest", &j.Coldest, "the lowest temperature of the metal", "-10 F")
	k.temperature("hottest", &j.Hottest, "the highest temperature of the metal", "150 F")
	k.lengthOrZero("least_gap", &j.LeastGap, "the least gap, at the hottest", `1/16"`)
	word(k, "closers", &j.FieldCloser, []choice[bool]{{"shop", false}, {"field", true}}, "who trims the closers",
		"shop")
	k.when(j.FieldCloser, "closers are trimmed in the field").
		lengthOrZero("field_allowance", &j.Allowance, "the extra length of a field closer", `2"`)
	if j.FieldCloser && j.Allowance == 0 {
		k.refuse("field_allowance", "length-sign", "is nothing, and a field closer needs extra length")
	}
}

func (s *Splice) keys(k keys) {
	k.length("length", &s.Length, "the length of the splice plate along the run", `7"`)
	k.length("bearing", &s.Bearing, "the least sealant bearing each side of the widest gap", `1 3/4"`)
	k.length("tape", &s.Tape, "the distance from the joint's centre line to the middle of each tape", `2 1/4"`)
	k.may().length("tape_thickness", &s.TapeThick, "the thickness of the tape between plate and cap, pressed", `1/32"`)
	s.Legs.keys(k, "the splice plate")
}

func (c *Chair) keys(k keys) {
	c.At = k.at
	k.length("length", &c.Length, "the length of the chair along the run", `13"`)
	k.length("thickness", &c.Thickness, "the thickness of the chair's metal", `0.080"`)
	k.lengthOrZero("rise", &c.Rise, "the underside of the cap above the set surface, at its low edge", `7/8"`)
	k.lengthOrZero("front_edge", &c.FrontEdge, "the distance from the inside of the front leg to the chair", `1/8"`)
	k.lengthOrZero("rear_edge", &c.RearEdge, "the distance from the inside of the rear leg to the chair", `3/8"`)
	k.length("end_chair", &c.EndChair, "the distance of the end chair's centre from an end without a joint", `9"`)
	k.may().text("metal", &c.Metal, "the metal of the chair", "galvanized steel")
	optional(k.may(), "blank", &c.Blank, func(b *Blank, k keys) {
		b.Stuff.Metal, b.Stuff.Thickness = c.Metal, c.Thickness
		b.chairKeys(k)
	}, "the section of the chair, for its flat pattern")
	optional(k.may(), "tolerance", &c.Tolerance, (*Tolerance).keys,
		"what is taken off the engagement of hook and snap before it is set against the test's")
	optional(k.may(), "bearing", &c.Bearing, (*Bearing).keys,
		"how the base bears on the wall, as it was tested")
}

func (r *ExpansionRules) keys(k keys) {
	k.length("bearing", &r.Bearing, "the bearing of the cover plate on each cap at the widest gap", `2"`)
	k.length("chair_from", &r.ChairFrom, "the distance of the chair's centre from the end of its cap", `7"`)
	optional(k.may(), "cover", &r.Cover, (*Cover).keys,
		"the cover plate of a building expansion joint, for its flat pattern")
}
