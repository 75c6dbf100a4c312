package metal

// Verdict on two materials that touch.
type Verdict int

// From the best to the worst.
const (
	Compatible Verdict = iota
	Caution            // kept apart, or the site decides
	Apart              // must not touch, nor be washed by the other's runoff
)

func (v Verdict) String() string {
	return [...]string{"may touch", "keep apart where it stays wet", "must not touch"}[v]
}

// Contact is a row of the table of pairs.
type Contact struct {
	A, B    Family
	Verdict Verdict
	Mend    string // what keeps them apart
	Source  string
	Memory  bool
}

// Where the rows come from.
const (
	guide  = "UFGS 07600, dissimilar metals"
	groups = "university page on compatibility in five groups: contact within a group, or with the next one behind a " +
		"barrier in wet sites"
	bolting = "MIL-STD-1250A 5.6 and 5.7, MIL-DTL-14072F 3.13.1: the small part is the cathode; stainless bolts in " +
		"aluminum sheet, not the reverse"
	runoff = "UFGS 07600: copper does not drain over other metals"
)

// What keeps two metals apart.
const (
	paint = "prime and paint the other metal with two coats of aluminum paint, coat it with heavy bituminous " +
		"coating, or lay a non-absorptive tape or gasket between"
	gasket  = "lay a non-absorptive tape or gasket between"
	another = "choose another metal, or have the engineer of record settle how they are kept apart"
)

// group is the place of a family among the five groups, from the basest: of the
// five, aluminum with zinc and cadmium is the second, steel with iron and lead the
// third, 300-series stainless with copper the fourth. A coated steel is its zinc.
func (f Family) group() int {
	switch f {
	case Aluminum, CoatedSteel, Zinc:
		return 2
	case BareSteel:
		return 3
	case Stainless, Copper:
		return 4
	}
	return 0
}

// Contacts is the table of pairs of different metals. Aluminum beside a metal
// other than stainless is kept apart by the guide specification even where the
// groups let them touch.
func Contacts() []Contact {
	return []Contact{
		{Aluminum, CoatedSteel, Caution, paint, guide + ": in humid or coastal work zinc coatings count as dissimilar",
			false},
		{Aluminum, Stainless, Compatible, "", guide + ": stainless is excepted", false},
		{Aluminum, Copper, Apart, another, guide + "; " + groups, false},
		{Aluminum, Zinc, Caution, paint, guide, false},
		{Aluminum, BareSteel, Apart, another, guide + "; bare steel never in aluminum", true},
		{CoatedSteel, Stainless, Apart, another, groups, false},
		{CoatedSteel, Copper, Apart, another, groups, false},
		{CoatedSteel, Zinc, Compatible, "", groups, false},
		{CoatedSteel, BareSteel, Caution, gasket, groups, false},
		{Stainless, Copper, Caution, gasket, groups + "; " + runoff, false},
		{Stainless, Zinc, Apart, another, groups, false},
		{Stainless, BareSteel, Caution, gasket, groups, false},
		{Copper, Zinc, Apart, another, groups, false},
		{Copper, BareSteel, Apart, another, groups + "; bare steel never in copper", true},
		{Zinc, BareSteel, Caution, gasket, groups, false},
	}
}

// Pair finds the row of two metals; false: the table has none. Two of one
// family may touch.
func Pair(a, b Family) (Contact, bool) {
	if a == Unknown || b == Unknown {
		return Contact{}, false
	}
	if a == b {
		return Contact{A: a, B: b, Source: "one metal"}, true
	}
	for _, c := range Contacts() {
		if c.A == a && c.B == b || c.A == b && c.B == a {
			return c, true
		}
	}
	return Contact{}, false
}

// Screw is what a screw of one metal in a sheet of another asks for; false: the
// table has no such pair. The screw is the small part: where it is the baser of
// the two it is eaten by the sheet's whole area, and where it is the nobler the
// sheet hardly feels it.
func Screw(sheet, screw Family) (Contact, bool) {
	c, ok := Pair(sheet, screw)
	if !ok || sheet == screw {
		return c, ok
	}
	c.A, c.B = sheet, screw
	switch {
	case screw.group() < sheet.group():
		return Contact{sheet, screw, Apart, "take stainless screws", bolting, false}, true
	case screw == Stainless && sheet == Aluminum:
		return Contact{sheet, screw, Compatible, "", bolting, false}, true
	case screw == Stainless && c.Verdict == Apart:
		c.Verdict, c.Mend, c.Source = Caution, gasket, bolting+"; "+groups
	}
	return c, true
}

// OnWood is what a metal asks for on wood under a coping; false: no rule.
func OnWood(f Family, treated bool) (Contact, bool) {
	switch {
	case f == Unknown:
		return Contact{}, false
	case f == Aluminum && treated:
		return Contact{A: f, Verdict: Apart, Mend: "keep the membrane whole between them, or coat the wood heavily " +
			"with aluminum-pigmented bituminous paint",
			Source: "UFGS 07600: treated wood reacts with aluminum"}, true
	case treated:
		return Contact{A: f, Verdict: Caution, Mend: "keep the membrane whole between them",
				Source: "published roofing guidance: " +
					"copper-treated lumber is separated from metal by a polymer membrane"},
			true
	case f == Aluminum:
		return Contact{A: f, Verdict: Caution, Mend: "keep the membrane whole between them, or coat the wood heavily " +
			"with aluminum-pigmented bituminous paint",
			Source: "UFGS 07600: aluminum on wood that may get wet"}, true
	}
	return Contact{}, false
}

// OnMasonry is what a metal asks for on masonry or concrete; false: no rule.
func OnMasonry(f Family) (Contact, bool) {
	if f != Aluminum {
		return Contact{}, false
	}
	return Contact{A: f, Verdict: Apart, Mend: "keep the membrane whole between them, or coat with heavy " +
		"alkali-resistant bituminous coating",
		Source: "UFGS 07600: aluminum on masonry, concrete or plaster"}, true
}
