package job

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// CornerRules are the fabricator's rules for welded corners.
type CornerRules struct {
	Leg        length.Length // least leg
	LegFace    Face          // face that leg is measured on
	LongestLeg length.Length // longest leg the shop welds, same face
	LegStep    length.Length // legs grow in this step
	ShortLeg   length.Length // least leg beside a run too short for two of Leg, same face; zero: no leave for any
	Absorb     Angle         // a turn up to this is absorbed by a plain joint
	AnglePlay  Angle         // a corner is made to the wall's turn when the lines' turn differs by no more
	Support    Support
	Supports   []SupportTier // by inside width, ascending; supports at the miter
	TwoWidths  *TwoWidths    // nil: one width goes through every corner
	Covered    *Covered      // what a report or an engineer covers of pieces that turn; nil: nothing
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
	At            finding.Place
	Length, Width length.Length // along the miter, across it
	Blank         *Blank        // nil: its section is not stated
	Hook          *Hook         // nil: it only bears
	Fixing        *Fixing       // nil: not stated
}

// Hook is what holds the cap down at a corner support.
type Hook struct {
	At           finding.Place
	Allowable    float64 // of one support, N
	By, Document string
}

// Fixing is what fastens one corner support to the wall.
type Fixing struct {
	At       finding.Place
	Fastener string // name of a Fastener
	Count    int
}

// Covered is what a report or an engineer answers for of pieces whose hold-downs
// do not balance what the wind asks of them, or stand too far apart round a miter.
type Covered struct {
	At           finding.Place
	By, Document string
	Pieces       []string // kinds of piece
	WidthMost    length.Length
	TurnMost     Angle
}

// Covers tells whether a piece of a kind, its widest inside width and its sharpest
// turn lie within what is covered.
func (c *Covered) Covers(kind string, inside length.Length, turn Angle) bool {
	return c != nil && slices.Contains(c.Pieces, kind) && inside <= c.WidthMost && max(turn, -turn) <= c.TurnMost
}

// turned are the kinds of piece that balance on their hold-downs.
func turned() []choice[string] {
	return asThey("corner", "double miter", "corner with end", "tee", "end cap", "wall end", "transition",
		"pitch miter")
}

// SupportTier says how many supports stand under a miter up to a width, and
// where, in thousandths of the miter from the outside corner.
type SupportTier struct {
	WidthTo length.Length
	At      []int
}

// EndRules are the rules for a closed or flanged end.
type EndRules struct {
	Leg length.Length // shop-made piece from the end to its joint
	// end cap: inside of the cap's end to the wall's end; wall end: end of cap to the higher wall
	Clearance length.Length
	Upstand   length.Length // flange against the higher wall
}

// TeeRules apply where the coping of a cross wall, the branch, meets the roof
// side of another, the main. The tee is one welded piece of the main run.
type TeeRules struct {
	Leg       length.Length // of the main, at each side of the branch, to the joint
	Branch    length.Length // stub of the branch, from the main's rear mold line to its joint
	DropLeast length.Length // the branch's front fold below the main's rear fold: least,
	DropMost  length.Length // and most
}

func (c *CornerRules) keys(k keys) {
	k.length("leg", &c.Leg, "the least leg of a corner", `2'-3"`)
	word(k, "leg_face", &c.LegFace, faces(), "the face that legs are measured on", "front")
	k.length("longest_leg", &c.LongestLeg, "the longest leg the shop welds", `5'-0"`)
	k.length("leg_step", &c.LegStep, "the step in which legs grow", `1/2"`)
	k.may().length("short_leg", &c.ShortLeg,
		"the least leg of a corner or an end beside a run that is too short for two of `leg`; left out, a shorter "+
			"one than `leg` is on hold", `1'-2"`)
	k.angle("absorb", &c.Absorb, 0, 30*Degree, "the turn in degrees up to which a plain joint takes it up", "1.5")
	k.may().angle("angle_play", &c.AnglePlay, 0, 5*Degree,
		"how many degrees the turn of a welded corner may differ from its lines'; within them it is made to the "+
			"wall's turn", "0.25")
	k.group("support", "the corner support under a miter", c.Support.keys)
	list(k, "supports", "supports", &c.Supports, (*SupportTier).keys,
		"how many corner supports stand under a miter, by inside width")
	optional(k.may(), "two_widths", &c.TwoWidths, (*TwoWidths).keys,
		"what the shop accepts of a corner whose legs have different widths; without it one width goes through every "+
			"corner")
	optional(k.may(), "covered_by", &c.Covered, (*Covered).keys,
		"the report or the engineer that answers for pieces whose chairs and supports do not balance the uplift, and "+
			"what it covers")
}

func (c *Covered) keys(k keys) {
	c.At = k.at
	k.text("by", &c.By, "the laboratory or the engineer who answers for it", "K. Sundqvist-Abara, engineer of record")
	k.text("document", &c.Document, "the report or letter that says so", "Letter L-22")
	values(k, "pieces", &c.Pieces, words(turned()), "the kinds of piece it covers", "[corner, double miter]")
	k.length("width_most", &c.WidthMost, "the widest inside width it covers", `20"`)
	k.angle("turn_most", &c.TurnMost, 0, straight, "the sharpest turn it covers, in degrees", "90")
}

func (h *Hook) keys(k keys) {
	h.At = k.at
	k.force("allowable", &h.Allowable, "what one support holds down, its factor taken", "180 lb")
	k.text("by", &h.By, "the laboratory or the engineer who answers for it", "Fennmark Test House")
	k.text("document", &h.Document, "the report or letter that says so", "LR-2214")
}

func (f *Fixing) keys(k keys) {
	f.At = k.at
	k.text("fastener", &f.Fastener, "the name of one of the fasteners", "stainless wood screw, hex washer head")
	k.count("count", &f.Count, "how many fasten one support", "4")
}

func (s *Support) keys(k keys) {
	s.At = k.at
	k.length("length", &s.Length, "the length of the corner support along the miter", `6"`)
	k.length("width", &s.Width, "the width of the corner support across the miter", `4"`)
	optional(k.may(), "blank", &s.Blank, (*Blank).supportKeys,
		"the section of the corner support, for its flat pattern")
	optional(k.may(), "hook", &s.Hook, (*Hook).keys,
		"what the corner support holds down, if it hooks the cap; without it, it only bears")
	optional(k.when(k.given("hook"), "the support hooks the cap"), "fixing", &s.Fixing, (*Fixing).keys,
		"what fastens one corner support")
}

func (t *SupportTier) keys(k keys) {
	k.length("width_to", &t.WidthTo, "the inside width up to which this holds", `20"`)
	values(k, "at", &t.At, withUnit("value-percent", parsePercent),
		"the places of the supports in per cent of the miter from the outside corner", "[35%, 75%]")
}

func (w *TwoWidths) keys(k keys) {
	k.lengthOrZero("mismatch_most", &w.MismatchMost,
		"how much higher or lower the wider leg's fold may stand than that of the cap beside it", `1/8"`)
	k.slope("slope_least", &w.SlopeLeast, "the least slope of the wider leg", `3/8" in 12"`)
}

func (r *EndRules) freeKeys(k keys) {
	k.length("leg", &r.Leg, "the length of the shop-made piece from the end to its joint", `2'-0"`)
	k.lengthOrZero("clearance", &r.Clearance,
		"the distance from the inside of the end cap to the end of the wall", `1/4"`)
}

func (r *EndRules) wallKeys(k keys) {
	k.length("leg", &r.Leg, "the length of the shop-made piece from the end to its joint", `2'-0"`)
	k.lengthOrZero("clearance", &r.Clearance, "the distance from the end of the cap to the higher wall", `1/8"`)
	k.length("upstand", &r.Upstand, "the height of the flange against the higher wall", `4"`)
}

func (r *TeeRules) keys(k keys) {
	k.length("leg", &r.Leg, "the length of the main cap at each side of the branch, to its joint", `1'-6"`)
	k.length("branch", &r.Branch, "the length of the branch stub, from the main cap to its joint", `1'-6"`)
	k.group("drop", "how far the branch's front fold lies below the main's rear fold: least and most", func(k keys) {
		k.length("least", &r.DropLeast, "the least drop, which leaves the rear leg a strip that can be bent", `1/2"`)
		k.length("most", &r.DropMost, "the greatest drop", `1 1/2"`)
	})
}
