package job

import (
	"copingset/layout/finding"
	"copingset/layout/length"
)

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

// Wall is one construction, layers from the top down.
type Wall struct {
	At                    finding.Place
	Name                  string
	Layers                []Layer
	CoverFront, CoverRear length.Length // depth below the wall top of the joint each leg must cover
	MeasureLow            bool          // readings at leg depth are required
	Width                 length.Length // as drawn, for runs that nobody surveyed yet; zero: not stated
	Basis                 Basis         // Drawing: nobody has looked yet at how it is built
	Nailer                *Nailer       // nil: how the top layer is anchored is not stated
}

// Nailer is how a wall's top layer is anchored to what is below it. Its
// allowables come from the anchor's report.
type Nailer struct {
	At     finding.Place
	Anchor string
	Pull   float64       // allowable of one anchor in tension, N
	Shear  float64       // the same in shear, N; zero: not stated
	Most   length.Length // greatest spacing the job allows; zero: not stated, a hold
	Least  length.Length // least spacing its report allows; zero: not stated, a hold
	Report string        // where the allowables stand
}

// materials are the words for what a layer is made of.
func materials() []choice[string] { return asThey(Wood, Plywood, Masonry, Concrete, Steel) }

func (w *Wall) keys(k keys) {
	w.At = k.at
	k.name("name", &w.Name, "a short name for the construction", "block-12")
	list(k, "layers", "layer", &w.Layers, (*Layer).keys, "the layers from the top down")
	k.group("cover", "how far below the wall top lies the joint each leg must cover", func(k keys) {
		k.lengthOrZero("front", &w.CoverFront, "the depth of the joint in front", `1 1/2"`)
		k.lengthOrZero("rear", &w.CoverRear, "the depth of the joint at the rear", `1 1/2"`)
	})
	k.yes("measure_low", &w.MeasureLow,
		"yes if readings at leg depth are required (base flashing, brick, render), else no", "no")
	k.may().length("width", &w.Width,
		"how wide it is drawn, to lay out and price runs before they are surveyed; they stay on hold", `12"`)
	w.Basis = Measured
	word(k.may(), "basis", &w.Basis, bases(),
		"where the construction is known from: measured if somebody looked at it on site, drawing until then",
		"measured")
	optional(k.may(), "nailer", &w.Nailer, (*Nailer).keys, "how the top layer is anchored to the wall")
}

func (l *Layer) keys(k keys) {
	k.name("name", &l.Name, "the name of the layer", "nailer 2x12")
	word(k, "material", &l.Material, materials(), "its material", "wood")
	k.length("thickness", &l.Thickness, "its thickness, from the top down", `1 1/2"`)
	value(k.may(), "gravity", &l.Gravity, number("value-number", parseGravity),
		"the specific gravity of the wood", "0.42")
	word(k.may(), "service", &l.Wet, []choice[bool]{{"dry", false}, {"wet", true}},
		"the moisture of the wood in service, wet above 19 per cent", "dry")
	l.Service = k.given("service")
	k.may().yes("treated", &l.Treated, "yes if the wood is pressure-treated, else no", "no")
}

func (l *Layer) membraneKeys(k keys) {
	l.Material = "membrane"
	k.name("name", &l.Name, "the name of the membrane", "self-adhering membrane")
	k.lengthOrZero("thickness", &l.Thickness, "the thickness of the membrane", `0.055"`)
	var from Basis
	word(k.may(), "basis", &from, bases(),
		"where the membrane is known from: measured if it is the one that was bought, drawing until then", "measured")
	if from == Drawing {
		k.d.add(finding.New(finding.Hold, "membrane-unconfirmed", k.placeOf("basis"),
			"write the membrane that is bought, its thickness as laid, and take `basis: drawing` away",
			"the membrane is not the one that will be laid, or nobody has said so yet"))
	}
}

func (n *Nailer) keys(k keys) {
	n.At = k.at
	k.text("anchor", &n.Anchor, "the name of the anchor", `anchor bolt 1/2"`)
	k.name("report", &n.Report, "where its allowables stand", "S-501")
	k.force("allowable", &n.Pull, "the allowable pull of one anchor", "400 lb")
	k.may().force("shear", &n.Shear, "the allowable shear of one anchor", "300 lb")
	k.may().length("spacing_most", &n.Most,
		"the greatest spacing the job allows; without it the anchorage is on hold", `4'-0"`)
	k.may().length("spacing_least", &n.Least,
		"the least spacing the anchor's report allows; without it the anchorage is on hold", `6"`)
}
