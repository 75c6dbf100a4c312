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

// ExtenderRules are the separate piece below a front leg that is taller than
// anything tested.
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

func decodeStuff(p *part) Stuff {
	s := Stuff{
		Metal:     p.maybe("metal"),
		Thickness: p.length("thickness", positive),
		Density:   read(p, "density", "value-density", parseDensity),
	}
	decodeBend(p, &s)
	return s
}

func decodeBend(p *part, s *Stuff) {
	if p == nil {
		return
	}
	s.K = read(p, "k_factor", "value-number", parseK)
	if r := p.length("inside_radius", notNegative); p.d.has(p.full("inside_radius")) {
		s.Radius = &r
	}
}

func decodeSection(p *part, across string) []Flange {
	var out []Flange
	list := p.items("section", "face")
	n := 0
	for i, q := range list {
		if q == nil {
			continue
		}
		f := Flange{Name: q.text("name"), Length: q.length("length", positive), Turn: read(q, "turn", "value-turn", parseBendTurn)}
		if a := q.sub("across"); a != nil {
			f.Across, f.Before, f.Behind = true, a.length("before", notNegative), a.length("behind", notNegative)
			n++
		}
		switch {
		case f.Across && q.given("length"):
			q.d.conflict("key-both", q.n.field("length").at, q.n.field("across").at, "keep one of them",
				"%s: its length is stated, and it is what takes up %s", q.label, across)
		case !q.given("across"):
			q.need("length", "; or `across`, if it takes up "+across)
		}
		if i > 0 {
			q.need("turn", ", and it is bent from the face before it")
		} else if q.given("turn") {
			q.d.errorf("turn-first", q.n.field("turn").at, "leave it out; the second face says how it is bent from the first",
				"%s: the first face of a section turns from nothing", q.label)
		}
		out = append(out, f)
	}
	if p.given("section") && len(list) > 0 && n != 1 {
		p.d.errorf("across-once", p.d.places[p.full("section")], "write `across: {before: 0\", behind: 0\"}` at the one face that takes up "+across,
			"%s: %s of its faces take up %s, and one does", p.called("section"), countWord(n), across)
	}
	return out
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
		return 0, wrong("value-turn", "write which way the face is bent and how far, like `up 90`; up is towards the finish side", "%s is no bend", show(s))
	}
	if a <= 0 || a >= straight {
		return 0, wrong("angle-range", "check the angle", "%s: a bend turns more than nothing and less than 180 degrees", show(s))
	}
	if !up {
		a = -a
	}
	return a, nil
}

func decodeLegs(p *part) Legs {
	return Legs{Front: p.length("front_leg", notNegative), Rear: p.length("rear_leg", notNegative), Fit: p.length("fit", notNegative), Stuff: decodeStuff(p)}
}

func decodeCover(p *part) *Cover {
	if p == nil {
		return nil
	}
	return &Cover{At: p.at, Over: word(p, "lies", []choice[bool]{{"over", true}, {"under", false}}), Legs: decodeLegs(p)}
}

func decodeChairBlank(p *part, s Stuff) *Blank {
	if p == nil {
		return nil
	}
	s.Density = read(p, "density", "value-density", parseDensity)
	decodeBend(p, &s)
	b := &Blank{At: p.at, Stuff: s, Section: decodeSection(p, "the width of the chair")}
	if h := p.sub("holes"); h != nil {
		b.HoleDia, b.Inset = h.length("diameter", positive), h.length("inset", positive)
	}
	return b
}

func decodeSupportBlank(p *part) *Blank {
	if p == nil {
		return nil
	}
	b := &Blank{At: p.at, Stuff: decodeStuff(p), Section: decodeSection(p, "the width of the support")}
	for _, h := range p.items("holes", "hole") {
		b.Holes = append(b.Holes, Hole{FromLeft: h.length("from_left", positive), FromFront: h.length("from_front", positive), Diameter: h.length("diameter", positive)})
	}
	return b
}

func decodeExtender(p *part) *ExtenderRules {
	if p == nil {
		return nil
	}
	return &ExtenderRules{At: p.at, Stuff: decodeStuff(p), Section: decodeSection(p, "the height of the extender"),
		Stock: p.length("stock", positive), Gap: p.length("gap", notNegative)}
}

func decodeRiser(p *part) *RiserRules {
	if p == nil {
		return nil
	}
	return &RiserRules{At: p.at, Stuff: decodeStuff(p), ReturnFront: p.length("return_front", notNegative),
		ReturnRear: p.length("return_rear", notNegative), Lap: p.length("lap", positive)}
}

func decodeRelief(p *part) Relief {
	if p == nil {
		return Relief{}
	}
	r := Relief{Width: p.length("width", positive), Depth: p.length("depth", positive), Diameter: p.length("diameter", positive)}
	if p.given("diameter") {
		for _, k := range []string{"width", "depth"} {
			if p.given(k) {
				p.d.conflict("key-both", p.n.field(k).at, p.n.field("diameter").at, "keep the diameter of a drilled relief, or the width and depth of a notch",
					"%s stands beside a diameter", p.called(k))
			}
		}
		return r
	}
	p.need("width", "; give width and depth of a notch, or the diameter of a drilled relief")
	p.need("depth", ", and a notch has one")
	return r
}

func decodePartSheets(p *part) []PartSheet {
	var out []PartSheet
	for _, i := range p.items("part_sheets", "part sheet") {
		out = append(out, PartSheet{Metal: i.maybe("metal"), Thickness: i.length("thickness", positive),
			ShopSheet: ShopSheet{Width: i.length("width", positive), Length: i.length("length", positive), Price: read(i, "price", "value-money", parseMoney)}})
	}
	return out
}

// checkParts compares what the job says of its made parts.
func (d *decoder) checkParts(j *Job) {
	if r := j.System.StepRiser; r != nil {
		d.atMost("system.step_riser.lap", r.Lap, "system.wall_end.upstand", j.System.WallEnd.Upstand, "the riser laps the upstand, and would stand into the coping below it")
	}
	if j.Shop == nil {
		return
	}
	d.atMost("shop.relief.width", j.Shop.Relief.Width, "shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
	d.atMost("shop.relief.depth", j.Shop.Relief.Depth, "shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
	d.atMost("shop.relief.diameter", j.Shop.Relief.Diameter, "shop.least_flange", j.Shop.LeastFlange, "a relief would take a whole flange")
}

// partKeys are the keys of made parts and of reliefs.
func partKeys() []Key {
	may := func(path, means, example string) Key { return Key{Path: path, Means: means, Example: example} }
	must := func(path, means, example string) Key {
		return Key{Path: path, Required: true, Means: means, Example: example}
	}
	stuff := func(at, of string) []Key {
		return []Key{
			may(at+".metal", "the metal of "+of+", if it is not the caps'", "galvanized steel"),
			may(at+".thickness", "the thickness of "+of+", if it is not the caps'", `0.063"`),
			may(at+".density", "the density of its metal, if it is not the caps'", "0.099 lb/in3"),
		}
	}
	bend := func(at string) []Key {
		return []Key{
			may(at+".inside_radius", "the inside radius of its bends, if it is of another sheet", `3/32"`),
			may(at+".k_factor", "where the neutral axis of its bends lies, if not as in the caps", "0.42"),
		}
	}
	section := func(at, across string) []Key {
		return []Key{
			must(at+".section", "the faces of its section from the street to the roof, of an extender from its foot up, by outside dimensions", ""),
			must(at+".section[].name", "the name of the face", "base"),
			{Path: at + ".section[].length", When: "the face does not reach across", Means: "the outside length of the face", Example: `1 1/4"`},
			may(at+".section[].across", "at the one face that takes up "+across+", what the section leaves before and behind it", ""),
			must(at+".section[].across.before", "what lies before the face", `0"`),
			must(at+".section[].across.behind", "what lies behind the face", `0"`),
			{Path: at + ".section[].turn", When: "it is not the first face", Means: "how the face is bent from the one before, up (towards the finish side) or down, in degrees", Example: "up 90"},
		}
	}
	legs := func(at, of string) []Key {
		return []Key{
			may(at+".front_leg", "the front leg of "+of+", from its fold, if it has one", `1 1/2"`),
			may(at+".rear_leg", "the rear leg of "+of+", from its fold, if it has one", `1"`),
			may(at+".fit", "what "+of+" is narrower than the cap it lies in, or wider than the cap it lies on", `1/16"`),
		}
	}
	var out []Key
	add := func(more ...Key) { out = append(out, more...) }
	const plate, cover, chair, support, extender, riser = "system.splice", "system.expansion.cover", "system.chair.blank", "system.corner.support.blank", "system.extender", "system.step_riser"
	add(legs(plate, "the splice plate")...)
	add(stuff(plate, "the splice plate")...)
	add(bend(plate)...)
	add(may(cover, "the cover plate of a building expansion joint, for its flat pattern", ""),
		must(cover+".lies", "whether it lies over or under the caps", "over"))
	add(legs(cover, "the cover plate")...)
	add(stuff(cover, "the cover plate")...)
	add(bend(cover)...)
	add(may(chair, "the section of the chair, for its flat pattern", ""))
	add(section(chair, "the width of the chair")...)
	add(may(chair+".holes", "the holes of the fasteners, at the rows of the tested assembly", ""),
		must(chair+".holes.diameter", "the diameter of a hole", `9/32"`),
		must(chair+".holes.inset", "the distance of the outermost hole of a row from the chair's end", `1 1/2"`),
		may(chair+".density", "the density of its metal, if it is not the caps'", "0.284 lb/in3"))
	add(bend(chair)...)
	add(may(support, "the section of the corner support, for its flat pattern", ""))
	add(section(support, "the width of the support")...)
	add(may(support+".holes", "its holes, in the face that reaches across", ""),
		must(support+".holes[].from_left", "the distance of the hole from the left end", `1"`),
		must(support+".holes[].from_front", "the distance of the hole from the front of the face, outside", `2"`),
		must(support+".holes[].diameter", "the diameter of the hole", `9/32"`))
	add(stuff(support, "the support")...)
	add(bend(support)...)
	add(may(extender, "the piece below a front leg that is taller than anything tested, for its flat pattern", ""))
	add(section(extender, "the height of the extender")...)
	add(must(extender+".stock", "the longest piece of it", `9'-6"`),
		must(extender+".gap", "the joint between two pieces of it", `1/4"`))
	add(stuff(extender, "the extender")...)
	add(bend(extender)...)
	add(may(riser, "the plate over the riser of a step in the wall top", ""),
		must(riser+".return_front", "its return round the street face of the higher wall, 0 for none", `2 1/2"`),
		must(riser+".return_rear", "its return round the roof face, 0 for none", `2"`),
		must(riser+".lap", "how far it laps the upstand below and the end cap above", `1 1/2"`))
	add(stuff(riser, "the riser")...)
	add(bend(riser)...)
	add(may("shop.relief", "the relief cut where bends end at a weld or in one corner", ""),
		Key{Path: "shop.relief.width", When: "it is a notch", Means: "the width of the notch, across the bend", Example: `1/8"`},
		Key{Path: "shop.relief.depth", When: "it is a notch", Means: "the depth of the notch, along the bend", Example: `1/8"`},
		may("shop.relief.diameter", "the diameter of a drilled relief, instead of width and depth", `3/16"`),
		may("shop.part_sheets", "the sheets that parts of another metal or thickness are cut from", ""),
		may("shop.part_sheets[].metal", "the metal, if it is not the caps'", "galvanized steel"),
		must("shop.part_sheets[].thickness", "the thickness of the sheet", `0.080"`),
		must("shop.part_sheets[].width", "the width of the sheet, which is ripped", `48"`),
		must("shop.part_sheets[].length", "the length of the sheet", `10'-0"`),
		may("shop.part_sheets[].price", "what a sheet costs, in the job's money", "120.00"))
	return out
}
