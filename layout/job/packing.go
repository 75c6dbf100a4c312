package job

import (
	"math/big"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/length"
)

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
	Shim          ShimStuff       // zero: not stated
	Grade         Slope           // the set surface may rise or fall along a run by this; zero: it is level
	Twist         length.Length   // mismatch over a level corner leg that the pieces take up
	Sheet         Sheet           // plywood as it is bought; zero: not stated
	Nail          LayerNail       // what fastens the layers; zero: not stated
	Rates         *Rates          // nil: not stated
}

// MembraneOver says that the membrane lies over the packing, between it and the
// chairs; else it lies under it.
func (p *Packing) MembraneOver() bool { return p.Method != PackChairs || !p.AboveMembrane }

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

func (p *Packing) keys(k keys) {
	p.At = k.at
	word(k, "method", &p.Method, []choice[PackingMethod]{
		{"continuous", PackContinuous}, {"chair", PackChairs}, {"recommended", PackRecommended}},
		"how it is built up, recommended for the way that costs less by the rates", "continuous")
	known := k.has("method")
	chairs, layers := known && p.Method != PackContinuous, known && p.Method != PackChairs
	k.when(chairs, "the build-up may be under each chair alone").
		yes("above_membrane", &p.AboveMembrane, "yes if the build-up lies above the membrane, no if below", "no")
	k.lengthOrZero("least", &p.Least, "the least build-up", `0"`)
	k.lengthOrZero("most", &p.Most, "the greatest build-up", `2 1/2"`)
	k.when(layers, "the build-up may be continuous").group("layer",
		"the plywood layer, with its name and actual thickness", func(k keys) {
			k.name("name", &p.LayerName, "the name of the plywood", "plywood nominal 5/8")
			k.length("thickness", &p.Layer, "the actual thickness of the plywood", `19/32"`)
		})
	k.lengths("shims", &p.Shims, "the thicknesses of the shims", `[1/2", 1/4", 1/8", 1/16"]`)
	k.may().group("shim", "what the shims are, for who orders them", p.Shim.keys)
	k.may().slope("grade", &p.Grade,
		"the rise or fall that the set surface may have along a run; without it it is level", `1/16" in 12"`)
	k.when(p.Grade > 0, "the set surface may have a grade").
		lengthOrZero("twist", &p.Twist, "the mismatch over a level corner leg that its joint takes up", `1/16"`)
	two := k.when(chairs && layers, "the two ways to build up are to be compared")
	two.group("sheet", "the plywood sheet and its saw", p.Sheet.keys)
	k.may().group("nail", "what fastens the plywood layers", p.Nail.keys)
	optional(two, "rates", &p.Rates, (*Rates).keys,
		"the job's own rates, to compare continuous build-up with build-up under the chairs")
	slices.Sort(p.Shims)
	slices.Reverse(p.Shims)
}

func (s *Sheet) keys(k keys) {
	k.length("width", &s.Width, "the width of the sheet, across its rips", `48"`)
	k.length("length", &s.Length, "the length of the sheet, along its rips", `96"`)
	k.lengthOrZero("kerf", &s.Kerf, "the width of the saw cut", `1/8"`)
}

func (n *LayerNail) keys(k keys) {
	k.name("name", &n.Name, "the generic name of the nail or screw", "ring-shank nail 2 1/2 in")
	k.length("spacing", &n.Spacing, "the distance between them along the wall", `12"`)
	k.count("rows", &n.Rows, "how many rows", "2")
}

func (r *Rates) keys(k keys) {
	r.At = k.at
	k.minutes("per_cut", &r.Cut, "the time to saw one cut", "2 min")
	k.minutes("per_piece", &r.Piece, "the time to set one piece of plywood or one shim", "1.5 min")
	k.minutes("per_foot", &r.Foot, "the time to fix one foot of one plywood layer", "1 min")
	k.money("per_hour", &r.Hour, "the cost of an hour of labour, in the job's money", "60")
	k.money("per_sheet", &r.Sheet, "the cost of a sheet of plywood", "48.50")
	k.money("per_shim", &r.Shim, "the cost of a shim", "0.20")
}

// parseMinutes gives thousandths of a minute.
func parseMinutes(s string) (int64, error) {
	const mend = "write it like 1.5 min"
	v, rest, ok := plainNumber(s)
	if !ok || rest != "min" && rest != "s" {
		return 0, wrong("value-minutes", mend, "%s is not a time in minutes or seconds", show(s))
	}
	if rest == "s" {
		v = new(big.Rat).Quo(v, big.NewRat(60, 1))
	}
	n, ok := whole(times(v, 1000, 1))
	if !ok || n < 0 || n > 1_000_000 {
		return 0, wrong("value-minutes", mend, "%s is not the time of one cut, piece or foot", show(s))
	}
	return n, nil
}
