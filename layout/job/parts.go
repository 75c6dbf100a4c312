package job

import (
	"fmt"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Stuff is the sheet a made part is bent from, where it is not the caps'. What
// is left empty is the caps'.
type Stuff struct {
	Metal     string
	Thickness length.Length
	Density   float64        // kg/m3
	Radius    *length.Length // inside radius of its bends; nil: not stated
	K         float64        // neutral axis, in thicknesses; zero: the shop's
}

// Flange is one face of a part's section, from the street to the roof, by its
// outside length. The one that reaches across takes up the part's own width,
// less what the section leaves before and behind it.
type Flange struct {
	Name   string
	Length length.Length
	Across bool
	Before length.Length // from the front of the part to the face that reaches across
	Behind length.Length // from that face to the rear of the part
	Turn   Angle         // from the face before it; positive UP, towards the finish side
	// Rises says that the face is so much longer as the cap's top rises over the face
	// that reaches across: the web under the high edge of a chair that makes the slope.
	Rises bool
}

// Hole is a round hole of a part, in the face that reaches across: from the
// left end of the part and from the front end of the face, outside.
type Hole struct{ FromLeft, FromFront, Diameter length.Length }

// Blank is a part bent to a section of the fabricator's own.
type Blank struct {
	At      finding.Place
	Stuff   Stuff
	Section []Flange
	Holes   []Hole        // of a corner support
	HoleDia length.Length // of a chair's rows; zero: not stated
	Inset   length.Length // outermost hole of a row from the chair's end
}

// Legs are the legs a plate has besides its top; zero for none.
type Legs struct {
	Front, Rear length.Length // outside, from the plate's fold
	Fit         length.Length // the plate is so much narrower than what it lies in, or wider than what it lies on
	Stuff       Stuff
}

// Cover is the cover plate of a building expansion joint.
type Cover struct {
	At   finding.Place
	Over bool // it lies over the caps; else under them
	Legs Legs
}

// ExtenderRules are the separate piece below a leg that is taller than anything
// tested; its finish faces away from the wall, to the street or to the roof.
type ExtenderRules struct {
	At      finding.Place
	Stuff   Stuff
	Section []Flange
	Stock   length.Length // longest piece
	Gap     length.Length // between two pieces
}

// RiserRules are the plate over the riser of a step in the wall top.
type RiserRules struct {
	At          finding.Place
	Stuff       Stuff
	ReturnFront length.Length // round the street face of the higher wall
	ReturnRear  length.Length // round its roof face
	Lap         length.Length // over the upstand below, and under the end cap above
}

// Relief is cut where bends end at a weld or in one corner, so that the metal
// does not tear: a notch of a width and a depth, or a drilled hole. Zero: none.
type Relief struct{ Width, Depth, Diameter length.Length }

// Stated reports whether the job asks for reliefs.
func (r Relief) Stated() bool { return r.Width > 0 || r.Diameter > 0 }

// PartSheet is a sheet that parts of another metal or thickness are cut from.
type PartSheet struct {
	Metal     string // empty: the caps'
	Thickness length.Length
	ShopSheet
}

// keys of the sheet that a part, named by of, is bent from.
func (s *Stuff) keys(k keys, of string) {
	k.may().text("metal", &s.Metal, "the metal of "+of+", if it is not the caps'", "galvanized steel")
	k.may().length("thickness", &s.Thickness, "the thickness of "+of+", if it is not the caps'", `0.063"`)
	s.densityKey(k, "0.099 lb/in3")
	s.bendKeys(k)
}

func (s *Stuff) densityKey(k keys, example string) {
	k.may().density("density", &s.Density, "the density of its metal, if it is not the caps'", example)
}

func (s *Stuff) bendKeys(k keys) {
	k.may().statedLength("inside_radius", &s.Radius, notNegative,
		"the inside radius of its bends, if it is of another sheet", `3/32"`)
	k.may().neutralAxis("k_factor", &s.K, "where the neutral axis of its bends lies, if not as in the caps", "0.42")
}

// sectionKeys declares the faces of a section, one of which takes up what
// across names; with rises it may have faces that follow the slope.
func sectionKeys(k keys, to *[]Flange, across string, rises bool) {
	list(k, "section", "face", to, func(f *Flange, k keys) { f.keys(k, across, rises) },
		"the faces of its section from the street to the roof, of an extender from its foot up, by outside dimensions")
	n, all := 0, 0
	for _, f := range *to {
		all++
		if f.Across {
			n++
		}
	}
	if k.given("section") && all > 0 && n != 1 {
		k.errorf("across-once", k.placeOf("section"),
			"write `across: {before: 0\", behind: 0\"}` at the one face that takes up "+across,
			"%s: %s of its faces take up %s, and one does", k.called("section"), countWord(n), across)
	}
}

func (f *Flange) keys(k keys, across string, rises bool) {
	k.name("name", &f.Name, "the name of the face", "base")
	k.may().show().group("across",
		"at the one face that takes up "+across+", what the section leaves before and behind it", func(k keys) {
			f.Across = true
			k.lengthOrZero("before", &f.Before, "what lies before the face", `0"`)
			k.lengthOrZero("behind", &f.Behind, "what lies behind the face", `0"`)
		})
	k.when(!k.given("across"), "the face does not reach across").or("or `across`, if it takes up "+across).
		length("length", &f.Length, "the outside length of the face", `1 1/4"`)
	if rises {
		k.may().yes("rises", &f.Rises,
			"yes if the face is so much longer as the cap's top rises over the face that reaches across, where chair "+
				"and cap make the slope", "no")
	}
	if f.Across {
		k.both("length", "across", "keep one of them",
			"%s: its length is stated, and it is what takes up %s", k.label, across)
	}
	value(k.when(!k.first(), "it is bent from the face before it"),
		"turn", &f.Turn, withUnit("value-turn", parseBendTurn),
		"how the face is bent from the one before, up (towards the finish side) or down, in degrees", "up 90")
	if k.first() && k.given("turn") {
		k.errorf("turn-first", k.keyAt("turn"), "leave it out; the second face says how it is bent from the first",
			"%s: the first face of a section turns from nothing", k.label)
	}
}

func countWord(n int) string {
	if n == 0 {
		return "none"
	}
	return fmt.Sprint(n)
}

// parseBendTurn reads which way a face is bent, and how far: up 90, down 88.2.
func parseBendTurn(s string) (Angle, error) {
	a, up, err := sided(s, "up", "down")
	if err != nil {
		return 0, wrong("value-turn", "write which way the face is bent and how far, like `up 90`; up is towards the "+
			"finish side", "%s is no bend", show(s))
	}
	if a <= 0 || a >= straight {
		return 0, wrong("angle-range", "check the angle",
			"%s: a bend turns more than nothing and less than 180 degrees", show(s))
	}
	if !up {
		a = -a
	}
	return a, nil
}

func (l *Legs) keys(k keys, of string) {
	k.may().lengthOrZero("front_leg", &l.Front, "the front leg of "+of+", from its fold, if it has one", `1 1/2"`)
	k.may().lengthOrZero("rear_leg", &l.Rear, "the rear leg of "+of+", from its fold, if it has one", `1"`)
	k.may().lengthOrZero("fit", &l.Fit,
		"what "+of+" is narrower than the cap it lies in, or wider than the cap it lies on", `1/16"`)
	l.Stuff.keys(k, of)
}

func (c *Cover) keys(k keys) {
	c.At = k.at
	word(k, "lies", &c.Over, []choice[bool]{{"over", true}, {"under", false}},
		"whether it lies over or under the caps", "over")
	c.Legs.keys(k, "the cover plate")
}

// chairKeys are those of a chair, whose metal and thickness stand beside it.
func (b *Blank) chairKeys(k keys) {
	b.At = k.at
	sectionKeys(k, &b.Section, "the width of the chair", true)
	k.may().group("holes", "the holes of the fasteners, at the rows of the tested assembly", func(k keys) {
		k.length("diameter", &b.HoleDia, "the diameter of a hole", `9/32"`)
		k.length("inset", &b.Inset, "the distance of the outermost hole of a row from the chair's end", `1 1/2"`)
	})
	b.Stuff.densityKey(k, "0.284 lb/in3")
	b.Stuff.bendKeys(k)
}

func (b *Blank) supportKeys(k keys) {
	b.At = k.at
	sectionKeys(k, &b.Section, "the width of the support", false)
	list(k.may(), "holes", "hole", &b.Holes, (*Hole).keys, "its holes, in the face that reaches across")
	b.Stuff.keys(k, "the support")
}

func (h *Hole) keys(k keys) {
	k.length("from_left", &h.FromLeft, "the distance of the hole from the left end", `1"`)
	k.length("from_front", &h.FromFront, "the distance of the hole from the front of the face, outside", `2"`)
	k.length("diameter", &h.Diameter, "the diameter of the hole", `9/32"`)
}

func (r *ExtenderRules) keys(k keys) {
	r.At = k.at
	sectionKeys(k, &r.Section, "the height of the extender", false)
	k.length("stock", &r.Stock, "the longest piece of it", `9'-6"`)
	k.lengthOrZero("gap", &r.Gap, "the joint between two pieces of it", `1/4"`)
	r.Stuff.keys(k, "the extender")
}

func (r *RiserRules) keys(k keys) {
	r.At = k.at
	k.lengthOrZero("return_front", &r.ReturnFront,
		"its return round the street face of the higher wall, 0 for none", `2 1/2"`)
	k.lengthOrZero("return_rear", &r.ReturnRear, "its return round the roof face, 0 for none", `2"`)
	k.length("lap", &r.Lap, "how far it laps the upstand below and the end cap above", `1 1/2"`)
	r.Stuff.keys(k, "the riser")
}

func (r *Relief) keys(k keys) {
	notch := k.when(!k.given("diameter"), "it is a notch").
		or("give width and depth of a notch, or the diameter of a drilled relief")
	notch.length("width", &r.Width, "the width of the notch, across the bend", `1/8"`)
	notch.length("depth", &r.Depth, "the depth of the notch, along the bend", `1/8"`)
	k.may().length("diameter", &r.Diameter, "the diameter of a drilled relief, instead of width and depth", `3/16"`)
	for _, key := range []string{"width", "depth"} {
		k.both(key, "diameter", "keep the diameter of a drilled relief, or the width and depth of a notch",
			"%s stands beside a diameter", k.called(key))
	}
}

func (s *PartSheet) keys(k keys) {
	k.may().text("metal", &s.Metal, "the metal, if it is not the caps'", "galvanized steel")
	k.length("thickness", &s.Thickness, "the thickness of the sheet", `0.080"`)
	k.length("width", &s.Width, "the width of the sheet, which is ripped", `48"`)
	k.length("length", &s.Length, "the length of the sheet", `10'-0"`)
	k.may().money("price", &s.Price, "what a sheet costs, in the job's money", "120.00")
}

// checkParts compares what the job says of its made parts.
func (d *decoder) checkParts(j *Job) {
	if r := j.System.StepRiser; r != nil {
		d.atMost("system.step_riser.lap", r.Lap, "system.wall_end.upstand", j.System.WallEnd.Upstand,
			"the riser laps the upstand, and would stand into the coping below it")
	}
	d.checkReach(j)
	if j.Shop == nil {
		return
	}
	d.atMost("shop.relief.width", j.Shop.Relief.Width,
		"shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
	d.atMost("shop.relief.depth", j.Shop.Relief.Depth,
		"shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
	d.atMost("shop.relief.diameter", j.Shop.Relief.Diameter,
		"shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
}

// checkReach asks whether plates, clearances and supports reach what they are for.
func (d *decoder) checkReach(j *Job) {
	s := &j.System
	const fit, thick = "system.splice.fit", "system.metal.thickness"
	// The seal lies on the flat of the top, between the radii of both folds.
	if flat := 2 * (s.Metal.Thickness + s.Profile.InsideR); d.has(fit, thick) && s.Splice.Legs.Fit > flat {
		d.conflict("splice-narrow", d.places[fit], d.places[thick],
			"a splice plate so much narrower than the cap that its seal still reaches across the flat of the top",
			"%s makes the splice plate %s narrower than the cap, and the top is flat to within %s of both legs: the "+
				"plate would be narrower than its seal", d.name(fit), Both(s.Splice.Legs.Fit), Both(flat/2))
	}
	plate := s.Metal.Thickness
	if s.Splice.Legs.Stuff.Thickness > 0 {
		plate = s.Splice.Legs.Stuff.Thickness
	}
	under := func(side string, clear, leg length.Length) {
		at := "system.clearance." + side
		need := j.Membrane.Thickness
		if leg > 0 {
			need += plate
		}
		if d.has(at, "membrane.thickness") && clear < need {
			d.conflict("clearance-tight", d.places[at], d.places["membrane.thickness"], "a greater clearance",
				"%s leaves %s between leg and wall, and the membrane with what hangs of the splice plate is %s thick",
				d.name(at), Both(clear), Both(need))
		}
	}
	under("front", s.FrontClearance, s.Splice.Legs.Front)
	under("rear", s.RearClearance, s.Splice.Legs.Rear)
	const support = "system.corner.support.length"
	least := s.Widths.Least
	if len(s.Widths.Offered) > 0 {
		least = s.Widths.Offered[0]
	}
	if d.has(support) && least > 0 && s.Corner.Support.Length > least {
		d.errorf("support-long", d.places[support], "a shorter support, or wider caps",
			"%s, %s, is more than the narrowest cap is wide inside, %s: it would stand out under its legs",
			d.name(support), Both(s.Corner.Support.Length), Both(least))
	}
}
