package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

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
	Extender  *ExtenderRules // below the front leg; nil: not stated
	// RoofExtender is the one below the rear leg; nil: not stated.
	RoofExtender *ExtenderRules
	StepRiser    *RiserRules // nil: not stated
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
	FrontLeg  Leg   // from the front fold to the foot of the leg
	Drip      Kick  // kicked out at the foot of the front leg; zero length: none
	TopSlope  Slope // falls towards the roof
	SlopeBy   SlopeBy
	RearLeg   Leg
	RearHook  Kick          // turned in at the foot of the rear leg
	HemReturn length.Length // return of the hemmed edges; zero: raw edge
	HemKind   HemKind
	HemInside length.Length // inside radius of the fold of a hem that is not closed
	RearHem   *Hem          // at the roof edge; nil: as at the street edge
	HemAt     finding.Place // where hems are written, and that of the roof edge if it is
	RearHemAt finding.Place
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

// Lap is the least cover of each leg below the joint it must cover.
type Lap struct{ Front, Rear length.Length }

func (s *System) keys(k keys) {
	s.At = k.at
	k.name("name", &s.Name, "the name of the coping system", "Brindle R5")
	k.group("metal", "the sheet the caps are bent from", s.Metal.keys)
	k.group("profile", "the cross-section by outside dimensions", s.Profile.keys)
	k.group("clearance", "the least clearances from the inside of the legs to the wall", func(k keys) {
		k.lengthOrZero("front", &s.FrontClearance, "the clearance at the front", `5/16"`)
		k.lengthOrZero("rear", &s.RearClearance, "the clearance at the rear", `1/4"`)
	})
	k.group("rear_play", "the play the rear leg can take up", func(k keys) {
		k.lengthOrZero("least", &s.PlayLeast, "the least rear play", `1/8"`)
		k.length("most", &s.PlayMost, "the greatest rear play", `7/8"`)
	})
	k.group("inside_width", "the inside widths offered: least, most and step, or a list `offered`", s.Widths.keys)
	k.may().group("transition", "the piece that joins two inside widths; without it one width serves from corner to "+
		"corner",
		s.Transition.keys)
	k.elsewhere("the top of a run changes its slope").group("pitch_miter",
		"the piece over a break in the slope of the wall top",
		s.PitchMiter.keys)
	k.length("stock", &s.Stock, "the longest straight cap", `11'-6"`)
	k.length("least_piece", &s.LeastPiece, "the shortest straight cap", `2'-4"`)
	word(k, "closer", &s.Closer, []choice[Closer]{{"left", CloserLeft}, {"right", CloserRight},
		{"shared", CloserShared}},
		"where the closer goes", "right")
	word(k, "remainder", &s.Remainder, []choice[Side]{{"left", Left}, {"right", Right}},
		"the side that takes an odd sixteenth or millimetre", "right")
	k.group("joint", "the joint between caps", s.Joint.keys)
	k.group("splice", "the splice plate", s.Splice.keys)
	k.group("chair", "the chair", s.Chair.keys)
	k.group("corner", "the rules for welded corners", s.Corner.keys)
	k.elsewhere("a run has a free end").group("end_cap", "the rules for free ends", s.EndCap.freeKeys)
	k.elsewhere("a run dies into a higher wall").group("wall_end", "the rules for ends at a higher wall",
		s.WallEnd.wallKeys)
	k.elsewhere("a run has a building expansion joint").group("expansion", "the rules at building expansion joints",
		s.Expansion.keys)
	k.elsewhere("a cross wall meets a run").group("tee", "the rules for tees", s.Tee.keys)
	k.group("lap", "the least laps of the legs below the joint they cover", func(k keys) {
		k.lengthOrZero("front", &s.Lap.Front, "the least lap of the front leg", `1 1/4"`)
		k.lengthOrZero("rear", &s.Lap.Rear, "the least lap of the rear leg", `1"`)
	})
	optional(k.may(), "extender", &s.Extender, (*ExtenderRules).keys,
		"the piece below a front leg that is taller than anything tested, for its flat pattern")
	optional(k.may(), "roof_extender", &s.RoofExtender, (*ExtenderRules).keys,
		"the piece below a rear leg that is taller than anything tested, for its flat pattern")
	optional(k.may(), "step_riser", &s.StepRiser, (*RiserRules).keys,
		"the plate over the riser of a step in the wall top")
}

func (m *Metal) keys(k keys) {
	k.name("name", &m.Name, "the metal with its alloy and temper", "aluminum 3003-H14")
	k.length("thickness", &m.Thickness, "the thickness of the sheet", `0.050"`)
	k.may().length("specified", &m.Specified, "the least thickness the job's specification asks for", `0.050"`)
	k.density("density", &m.Density, "the density in lb/in3, lb/ft3 or kg/m3", "0.099 lb/in3")
	value(k, "expansion", &m.Expansion, withUnit("value-expansion", parseExpansion).in(metricExpansion),
		"the thermal expansion per degree, /F, /C or /K", "12.9e-6 /F")
	k.text("finish", &m.Finish, "the finish and its colour", "two-coat, slate grey")
	k.yes("directional", &m.Directional, "yes if the finish has a direction and blanks must not be turned, else no",
		"no")
}

func (p *Profile) keys(k keys) {
	k.leg("front_leg", &p.FrontLeg, "the outside height of the front leg, fold to foot", `5 1/4"`)
	k.group("drip", "the drip at the foot of the front leg, with its length (0 for none) and angle", func(k keys) {
		k.lengthOrZero("length", &p.Drip.Length, "the length of the drip, 0 for none", `5/8"`)
		k.when(p.Drip.Length > 0, "the drip has a length").
			angle("angle", &p.Drip.Angle, 0, straight, "how far the drip turns out from the line of the leg", "35")
	})
	k.slope("top_slope", &p.TopSlope, "the slope of the top, falling to the roof", `1/2" in 12"`)
	word(k, "slope_by", &p.SlopeBy, []choice[SlopeBy]{{"chair", SlopeByChair}, {"packing", SlopeByPacking}},
		"where the slope is made", "chair")
	k.leg("rear_leg", &p.RearLeg, "the outside height of the rear leg", `3 1/8"`)
	k.group("rear_hook", "the hook at the foot of the rear leg, with its length (0 for none) and angle", func(k keys) {
		k.lengthOrZero("length", &p.RearHook.Length, "the length of the hook, 0 for none", `3/8"`)
		k.when(p.RearHook.Length > 0, "the hook has a length").
			angle("angle", &p.RearHook.Angle, 0, straight, "how far the hook turns in from the line of the leg", "150")
	})
	k.lengthOrZero("hem", &p.HemReturn, "the return of the hemmed edges, 0 for raw edges", `1/2"`)
	p.HemAt = k.placeOf("hem")
	if k.given("rear_hem") {
		p.RearHemAt = k.keyAt("rear_hem")
	}
	p.hemKeys(k)
	k.lengthOrZero("inside_radius", &p.InsideR, "the inside radius of the bends", `1/16"`)
}

func (w *Widths) keys(k keys) {
	k.elsewhere("least, most and step are not given").
		lengths("offered", &w.Offered, "the widths offered, ascending", `[12 1/2", 13", 13 1/2"]`)
	steps := k.when(!k.given("offered"), "offered is not given").or("give least, most and step, or a list `offered`")
	steps.length("least", &w.Least, "the least inside width", `9"`)
	steps.length("most", &w.Most, "the greatest inside width", `20"`)
	steps.length("step", &w.Step, "the step between widths", `1/4"`)
	for _, key := range []string{"least", "most", "step"} {
		k.both(key, "offered", "keep the list, or least, most and step",
			"%s stands beside a list of the widths offered", k.called(key))
	}
}

func (t *Transition) keys(k keys) {
	k.length("length", &t.Length, "the length of the transition piece along the front, its two straight legs included",
		`4'-0"`)
	k.length("leg", &t.Leg, "the straight leg at each end of the transition piece, for the splice plate", `6"`)
	k.length("change_most", &t.ChangeMost, "the greatest difference of its two inside widths", `2"`)
}

func (p *PitchMiter) keys(k keys) {
	k.length("leg", &p.Leg, "its leg each side of the break, along the front fold", `24"`)
	k.angle("change_most", &p.ChangeMost, 0, 90*Degree, "the greatest change of slope that the shop welds", "30")
}
