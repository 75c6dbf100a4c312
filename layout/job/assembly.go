package job

import (
	"math/big"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/length"
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
	Reserve      length.Length // beyond thread and tip, for packing that comes out thicker; zero: none
	TwoLengths   bool          // the rows of one chair may take two lengths; else they take one where it fits both
	PilotDia     length.Length // zero: none
	PilotBeyond  length.Length // pilot deeper than the tip by
	Cover        length.Length // substrate left below the tip
	EdgeDistance length.Length // least, from the wall's face
	Box          int           // pieces in a box
	Kind         string        // for the cross-check in wood; empty: none
	Thread       length.Length // of its thread, tip left out; zero: not stated
	Metal        string        // what it is made of; empty: not stated
	Shear        float64       // allowable of one under the chair's metal, N; zero: not stated
	Yield        *Yield        // for its shear by the wood standard; nil: not stated
}

// Yield is what the shear of one fastener follows from by the yield limits of
// the wood standard. None of it can be told from the fastener's name.
type Yield struct {
	Root    length.Length // diameter at the root of its thread
	Bending float64       // its bending yield strength, Pa
	Bearing float64       // dowel bearing strength of the chair's metal, Pa
}

// Signed says who stands behind a figure, and in which document.
type Signed struct {
	At           finding.Place
	Factor       float64 // the least that is signed for, at the allowable level
	By, Document string
}

// Assembly is one tested assembly.
type Assembly struct {
	At                        finding.Place
	Name, Report, Laboratory  string
	Test                      *Test  // what the report says of the test itself; nil: not stated
	Metal                     string // as System.Metal.Name
	ThicknessLeast            length.Length
	FrontLegMost, RearLegMost Leg
	WidthMost                 length.Length // inside width
	FrontHem                  HemKind       // at the edge that held the front
	ChairSpacing              length.Length
	Substrate                 string
	Fastener                  string        // name of a Fastener
	FrontRow, RearRow         int           // fasteners per chair in each row
	FrontRowFrom              length.Length // row's centre line behind the chair's front edge
	RearRowFrom               length.Length // row's centre line before the chair's rear edge
	Up, Out                   Pressure
	Rear                      Pressure // on the rear leg, towards the roof; zero: the report does not state it
	// safety factor asked of an as-pulled ultimate; already taken in an allowable
	Factor        float64
	FactorBasis   *FactorBasis // of that factor; nil: not stated
	FactorSigned  *Signed      // who stands behind a factor under the published one; nil: nobody
	ReferenceArea string
	TestedOn      *Specimen   // how the specimen stood; nil: not stated
	OneChair      *ChairHeld  // what the report gives of one chair; nil: nothing
	Chair         *OwnChair   // the chair it was tested with; nil: the system's
	Engagement    *Engagement // the least of hook and snap in the test; nil: not stated
	Cost          int64       // per chair, in thousandths of the job's money
}

// Test is what a report says of the test: by which standard and method it was
// made, by whose leave the laboratory tests, and when. What is empty is not stated.
type Test struct {
	At                        finding.Place
	Standard, Edition, Method string
	Accreditation             string
	On                        Date // of the report; zero: not stated
}

// Specimen is the cap that a test pulled: its length, and the chairs it stood on,
// the tested spacing apart.
type Specimen struct {
	At     finding.Place
	Length length.Length
	Chairs int
}

// ChairHeld is what one chair held in the test, in newtons at the level of the
// assembly's resistances; zero: not stated.
type ChairHeld struct {
	At         finding.Place
	Up         float64
	Hook, Snap float64 // at the street side and at the roof side
}

// Engagement is how far, at the least, the cap took hold of the chair in the test,
// across the wall: its drip under the chair's front kick, its rear hook under the
// chair's rear.
type Engagement struct {
	At         finding.Place
	Hook, Snap length.Length
}

func (e *Engagement) keys(k keys) {
	e.At = k.at
	k.lengthOrZero("hook", &e.Hook, "how far the drip lay under the chair's front kick, across the wall", `3/16"`)
	k.lengthOrZero("snap", &e.Snap, "how far the rear hook lay under the chair's rear, across the wall", `1/4"`)
}

// FactorBasis is where the safety factor on as-pulled values comes from: at
// which level demands are set against what it leaves, who chose it, and why.
type FactorBasis struct {
	At      finding.Place
	Level   Level // Allowable, or Strength
	By, Why string
}

// Kinds of fastener that a wood standard reckons withdrawal for.
const (
	WoodScrew = "wood screw"
	Nail      = "nail"
	LagScrew  = "lag screw"
)

func (f *Fastener) keys(k keys) {
	f.At = k.at
	k.name("name", &f.Name, "the generic name of the fastener", "stainless wood screw, hex washer head")
	k.length("diameter", &f.Diameter, "the fastener's diameter", `1/4"`)
	word(k, "substrate", &f.Substrate, materials(), "the material that holds the thread", "wood")
	k.lengths("lengths", &f.Lengths, "the stock lengths", `[2", 2 1/2", 3"]`)
	k.length("embedment", &f.Embedment, "the thread required in the holding material", `1 1/4"`)
	k.lengthOrZero("tip", &f.Tip, "the length of the tip, which does not hold", `1/4"`)
	k.may().lengthOrZero("reserve", &f.Reserve,
		"how much longer than thread and tip ask it is taken, for packing that comes out thicker", `1/8"`)
	k.may().yes("two_lengths", &f.TwoLengths,
		"yes if the rows of one chair may take two lengths; otherwise the longer goes in both where it fits", "no")
	drilled := f.Substrate == Masonry || f.Substrate == Concrete
	pilot := k.when(drilled, "the substrate is masonry or concrete, which is drilled first").
		group("pilot", "the pilot hole, with its diameter (0 for none) and how far beyond the tip", func(k keys) {
			k.lengthOrZero("diameter", &f.PilotDia, "the diameter of the pilot hole, 0 for none", `3/16"`)
			k.lengthOrZero("beyond", &f.PilotBeyond, "how much deeper than the tip the pilot hole goes", `1/2"`)
		})
	if drilled && f.PilotDia == 0 {
		pilot.refuse("diameter", "length-sign", "is nothing, and "+f.Substrate+" is drilled first")
	}
	k.lengthOrZero("cover", &f.Cover, "the material left below the tip", `1/4"`)
	k.lengthOrZero("edge_distance", &f.EdgeDistance, "the least distance from the face of the wall", `1"`)
	k.count("box", &f.Box, "how many come in a box", "100")
	word(k.may(), "kind", &f.Kind, asThey(WoodScrew, Nail, LagScrew),
		"what it is in wood, for a cross-check of its withdrawal", "wood screw")
	k.may().length("thread", &f.Thread,
		"the length of its thread without the tip, for that cross-check; left out, the embedment asked for is taken",
		`1 1/2"`)
	k.may().text("metal", &f.Metal, "the metal of the fastener", "stainless steel")
	k.may().force("shear", &f.Shear,
		"the allowable shear of one fastener under the metal of the chair, from its report", "140 lb")
	optional(k.may(), "yield", &f.Yield, (*Yield).keys,
		"what its shear follows from by the wood standard, where no report has it")
	slices.Sort(f.Lengths)
}

func (y *Yield) keys(k keys) {
	k.length("root", &y.Root, "the diameter at the root of the thread", `0.152"`)
	value(k, "bending", &y.Bending, withUnit("value-stress", parseStress).in(unitsOf(1e6, 10, "MPa")),
		"the bending yield strength of the fastener", "80 ksi")
	value(k, "side_bearing", &y.Bearing, withUnit("value-stress", parseStress).in(unitsOf(1e6, 10, "MPa")),
		"the dowel bearing strength of the metal of the chair", "45 ksi")
}

func (s *Signed) keys(k keys) {
	s.At = k.at
	k.factor("factor", &s.Factor, "the least factor that is signed for, against demands at the allowable level", "1.8")
	k.text("by", &s.By, "the engineer who signs", "K. Sundqvist-Abara, engineer of record")
	k.text("document", &s.Document, "the document that says so", "Letter L-9")
}

// parseStress gives pascals. A pound-force is 4.4482216152605 N exactly.
func parseStress(s string) (float64, error) {
	const mend = "write it like 80 ksi, 80000 psi or 550 MPa"
	perInch := new(big.Rat).Quo(rational("4.4482216152605"), rational("0.00064516"))
	r, err := quantity(s, "value-stress", mend, []unit{
		{[]string{"psi"}, perInch},
		{[]string{"ksi"}, times(perInch, 1000, 1)},
		{[]string{"mpa", "n/mm2"}, rational("1000000")},
	})
	if err != nil {
		return 0, err
	}
	f, _ := r.Float64()
	if !(f >= 1e7 && f <= 3e9) {
		return 0, wrong("value-stress", mend, "%s is not the strength of a metal", show(s))
	}
	return f, nil
}

func (t *Test) keys(k keys) {
	t.At = k.at
	k.may().show().text("standard", &t.Standard, "the test standard", "ANSI/SPRI/FM 4435/ES-1")
	k.may().show().text("edition", &t.Edition, "the edition of the test standard", "2017")
	k.may().show().text("method", &t.Method, "the method of the standard", "RE-3")
	k.may().show().text("accreditation", &t.Accreditation, "the accreditation of the laboratory",
		"ISO/IEC 17025, certificate T-118")
	k.may().show().date("date", &t.On, "the date of the report", "2024-09-12")
}

func (s *Specimen) keys(k keys) {
	s.At = k.at
	k.length("length", &s.Length, "the length of the cap tested", `12'-0"`)
	k.count("chairs", &s.Chairs, "how many chairs it stood on, the tested spacing apart", "4")
}

func (c *ChairHeld) keys(k keys) {
	c.At = k.at
	k.force("up", &c.Up, "the upward force one chair held", "310 lb")
	k.may().force("hook", &c.Hook, "what its hook at the street side held, if the report parts the two", "170 lb")
	k.when(k.given("hook"), "the hook is stated").force("snap", &c.Snap, "what its snap at the roof side held",
		"140 lb")
}

func (f *FactorBasis) keys(k keys) {
	f.At = k.at
	word(k, "level", &f.Level, []choice[Level]{{"allowable", Allowable}, {"strength", Strength}},
		"the level of the demands that are set against as-pulled values divided by the factor", "allowable")
	k.text("by", &f.By, "who chose the factor", "K. Sundqvist-Abara, engineer of record")
	k.text("why", &f.Why, "why this factor", "asked by specification section 07 71 00")
}

func (a *Assembly) keys(k keys) {
	a.At = k.at
	k.name("name", &a.Name, "a short name for the assembly", "T1")
	k.name("report", &a.Report, "the number of the test report", "LR-2208")
	k.name("laboratory", &a.Laboratory, "the laboratory", "Fennmark Test House")
	optional(k.may().show(), "test", &a.Test, (*Test).keys,
		"what the report says of the test; what is left out keeps the assembly's pieces on hold")
	k.text("metal", &a.Metal, "the metal tested, as system.metal.name has it", "aluminum 3003-H14")
	k.length("thickness_least", &a.ThicknessLeast, "the least thickness tested", `0.050"`)
	k.leg("front_leg_most", &a.FrontLegMost, "the highest front leg tested", `7 1/4"`)
	k.leg("rear_leg_most", &a.RearLegMost, "the highest rear leg tested", `4 3/4"`)
	word(k.may(), "front_hem", &a.FrontHem, hemKinds,
		"how the hem lay that held the front in the test; otherwise closed", "open")
	k.length("width_most", &a.WidthMost, "the widest inside width tested", `20"`)
	k.length("chair_spacing", &a.ChairSpacing, "the chair spacing tested", `46"`)
	optional(k.may().show(), "tested_on", &a.TestedOn, (*Specimen).keys,
		"how the specimen stood; left out, what a stiff cap shares out unevenly is not compared")
	word(k, "substrate", &a.Substrate, materials(), "the material tested into", "wood")
	k.text("fastener", &a.Fastener, "the name of one of the fasteners", "stainless wood screw, hex washer head")
	k.group("rows", "the two rows of fasteners in a chair", func(k keys) {
		k.count("front", &a.FrontRow, "how many fasteners a chair has in the front row", "3")
		k.count("rear", &a.RearRow, "how many fasteners a chair has in the rear row", "2")
		k.lengthOrZero("front_from_edge", &a.FrontRowFrom, "the front row's distance from the chair's front edge",
			`1 1/2"`)
		k.lengthOrZero("rear_from_edge", &a.RearRowFrom, "the rear row's distance from the chair's rear edge", `1 1/2"`)
	})
	optional(k.may(), "chair", &a.Chair, (*OwnChair).keys,
		"the chair it was tested with, if it is not system.chair: its sheet and its section")
	optional(k.may(), "engagement", &a.Engagement, (*Engagement).keys,
		"the least engagement of hook and snap in the test; left out, that of the job is not compared")
	k.group("resistance", "the resistances of the report", a.resistanceKeys)
	k.money("cost", &a.Cost, "the cost of a chair with its fasteners, in the job's money", "14.50")
}

// resistanceKeys also checks that the resistances stand at one level, and that
// a safety factor is asked exactly of an as-pulled ultimate: in an allowable it
// is taken already, and taking it twice, or never, is the same slip in two
// directions.
func (a *Assembly) resistanceKeys(k keys) {
	k.resistance("up", &a.Up, "the upward resistance and its level: as-pulled or allowable", "88 psf as-pulled")
	k.resistance("out", &a.Out, "the outward resistance and its level: as-pulled or allowable", "70 psf as-pulled")
	k.may().resistance("rear", &a.Rear,
		"the resistance of the rear leg towards the roof, with the top in the same test; left out, the outward one "+
			"is taken for it", "88 psf as-pulled")
	stated := k.has("up", "out")
	optional(k.may(), "one_chair", &a.OneChair, (*ChairHeld).keys,
		"the forces that the report gives of one chair, at the level of `up`; left out, the pressure on the tested "+
			"spacing and the piece's own width is taken")
	mixed := ""
	switch {
	case stated && a.Up.Level != a.Out.Level:
		mixed = "out"
	case stated && k.has("rear") && a.Rear.Level != a.Up.Level:
		mixed = "rear"
	}
	k.when(stated && mixed == "" && a.Up.Level == AsPulled, "the resistances are as-pulled").
		factor("factor", &a.Factor, "the safety factor asked of an as-pulled resistance", "2.0")
	optional(k.may().show(), "factor_basis", &a.FactorBasis, (*FactorBasis).keys,
		"the level of the factor, who chose it and why; left out, the assembly's pieces are on hold")
	optional(k.may(), "factor_signed", &a.FactorSigned, (*Signed).keys,
		"the engineer who signs for a factor under the published one")
	k.text("area", &a.ReferenceArea, "the area the resistance refers to", "per running foot times cap width")
	switch {
	case mixed != "":
		k.d.conflict("level-mixed", k.placeOf(mixed), k.placeOf("up"), "state both as the report does",
			"%s and %s stand at different levels", k.called("up"), mixed)
	case stated && a.Up.Level != AsPulled && k.given("factor"):
		k.d.conflict("factor-twice", k.keyAt("factor"), k.placeOf("up"),
			"leave the factor out, or state the resistance as-pulled",
			"%s stands beside resistances that have their factor already taken", k.called("factor"))
	}
}

// parseResistance reads a tested resistance: as pulled, or allowable with its
// factor taken. Strength is a level of demands.
func parseResistance(s string) (Pressure, error) {
	p, err := ParsePressure(s)
	if err == nil && p.Level == Strength {
		err = wrong("level-resistance",
			"write as-pulled for what the laboratory recorded, or allowable if the factor is taken already",
			"%s: a resistance is as-pulled or allowable, strength is a level of demands", show(s))
	}
	return p, err
}
