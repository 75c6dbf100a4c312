package job

import "copingset/layout/length"

// HemKind is how the edge of a hem lies.
type HemKind int

// Flat on its flange; open, its leaf as far off it as its fold is wide; or like a
// drop, open at its fold and closed at the leaf's edge.
const (
	ClosedHem HemKind = iota
	OpenHem
	TeardropHem
)

func (k HemKind) String() string { return [...]string{"closed", "open", "teardrop"}[k] }

// Hem is a hemmed edge.
type Hem struct {
	Return length.Length // outside; zero: a raw edge
	Kind   HemKind
	Inside length.Length // inside radius of its fold; zero of a closed one
}

// Hems are those of the street edge and of the roof edge.
func (p *Profile) Hems() (street, roof Hem) {
	street = Hem{p.HemReturn, p.HemKind, p.HemInside}
	if p.RearHem != nil {
		return street, *p.RearHem
	}
	return street, street
}

var hemKinds = []choice[HemKind]{{"closed", ClosedHem}, {"open", OpenHem}, {"teardrop", TeardropHem}}

func (p *Profile) hemKeys(k keys) {
	k.may().group("hem_fold", "how the hems lie; otherwise closed on their flanges", func(k keys) {
		word(k, "kind", &p.HemKind, hemKinds, "whether they lie closed on their flanges, open, or like a teardrop",
			"open")
		insideKey(k, "inside", p.HemKind, &p.HemInside)
	})
	optional(k.may(), "rear_hem", &p.RearHem, (*Hem).keys,
		"the hem of the roof edge, if it is not like that of the street edge")
}

func (h *Hem) keys(k keys) {
	k.lengthOrZero("return", &h.Return, "the return of the hem, 0 for a raw edge", `3/8"`)
	word(k.may(), "kind", &h.Kind, hemKinds,
		"whether it lies closed on its flange, open, or like a teardrop; otherwise closed", "teardrop")
	insideKey(k, "inside", h.Kind, &h.Inside)
}

// insideKey declares the inside radius of a hem's fold, which a closed one has not.
func insideKey(k keys, name string, kind HemKind, to *length.Length) {
	k.when(kind != ClosedHem, "the hem is not closed").
		length(name, to, "the inside radius of the hem's fold", `1/16"`)
	if kind == ClosedHem && k.given(name) {
		k.errorf("hem-closed", k.keyAt(name), "leave it out, or say that the hem is open or like a teardrop",
			"%s is stated, and a closed hem is folded flat on itself", k.called(name))
	}
}
