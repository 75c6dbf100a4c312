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

// Contacts is the table of pairs of different metals. Aluminum beside a metal
// other than stainless is kept apart by the guide specification even where
// memory has it harmless.
func Contacts() []Contact {
	const (
		guide   = "UFGS 07600, dissimilar metals"
		common  = "galvanic table of common practice"
		paint   = "prime and paint the other metal with two coats of aluminum paint, coat it with heavy bituminous coating, or lay a non-absorptive tape or gasket between"
		gasket  = "lay a non-absorptive tape or gasket between"
		another = "choose another metal, or have the engineer of record settle how they are kept apart"
	)
	return []Contact{
		{Aluminum, CoatedSteel, Caution, paint, guide + ": in humid or coastal work zinc coatings count as dissimilar", false},
		{Aluminum, Stainless, Compatible, "", guide + ": stainless is excepted", false},
		{Aluminum, Copper, Apart, another, guide, false},
		{Aluminum, Zinc, Caution, paint, guide, false},
		{Aluminum, BareSteel, Apart, another, guide + "; bare steel never in aluminum", true},
		{CoatedSteel, Stainless, Caution, gasket, common, true},
		{CoatedSteel, Copper, Apart, another, common, true},
		{CoatedSteel, Zinc, Compatible, "", common, true},
		{Stainless, Copper, Caution, gasket, common, true},
		{Stainless, Zinc, Caution, gasket, common, true},
		{Copper, Zinc, Apart, another, common, true},
		{Copper, BareSteel, Apart, another, common + "; bare steel never in copper", true},
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

// OnWood is what a metal asks for on wood under a coping; false: no rule.
func OnWood(f Family, treated bool) (Contact, bool) {
	switch {
	case f == Unknown:
		return Contact{}, false
	case f == Aluminum && treated:
		return Contact{A: f, Verdict: Apart, Mend: "keep the membrane whole between them, or coat the wood heavily with aluminum-pigmented bituminous paint",
			Source: "UFGS 07600: treated wood reacts with aluminum"}, true
	case treated:
		return Contact{A: f, Verdict: Caution, Mend: "keep the membrane whole between them",
			Source: "published roofing guidance: copper-treated lumber is separated from metal by a polymer membrane"}, true
	case f == Aluminum:
		return Contact{A: f, Verdict: Caution, Mend: "keep the membrane whole between them, or coat the wood heavily with aluminum-pigmented bituminous paint",
			Source: "UFGS 07600: aluminum on wood that may get wet"}, true
	}
	return Contact{}, false
}

// OnMasonry is what a metal asks for on masonry or concrete; false: no rule.
func OnMasonry(f Family) (Contact, bool) {
	if f != Aluminum {
		return Contact{}, false
	}
	return Contact{A: f, Verdict: Apart, Mend: "keep the membrane whole between them, or coat with heavy alkali-resistant bituminous coating",
		Source: "UFGS 07600: aluminum on masonry, concrete or plaster"}, true
}
