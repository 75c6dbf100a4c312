// Package metal knows the common metals of sheet work by family: what each
// grows with temperature, and which pairs of them may touch.
//
// The tables only check what a job states: the coefficient in use is always
// the job's own. Every row names its source; what is from memory says so.
package metal

import "strings"

// Family of metals that behave alike in expansion and in contact.
type Family int

// The families. Unknown is a name that says none.
const (
	Unknown Family = iota
	Aluminum
	CoatedSteel // galvanized, or with an aluminum-zinc coating
	Stainless
	Copper
	Zinc
	BareSteel
)

func (f Family) String() string {
	return [...]string{"unknown metal", "aluminum", "coated steel", "stainless steel", "copper", "zinc",
		"bare steel"}[f]
}

// FamilyOf reads the family from a metal's name as the job writes it.
func FamilyOf(name string) Family {
	n := strings.ToLower(name)
	has := func(words ...string) bool {
		for _, w := range words {
			if strings.Contains(n, w) {
				return true
			}
		}
		return false
	}
	switch {
	case has("stainless"):
		return Stainless
	case has("galvan"), has("steel") && has("coat", "zinc", "g90", "g60", "z275", "az1", "az5"):
		return CoatedSteel
	case has("steel"):
		return BareSteel
	case has("alumin"):
		return Aluminum
	case has("zinc"): // before copper: architectural zinc is alloyed with it
		return Zinc
	case has("copper"):
		return Copper
	}
	return Unknown
}

// Expansion is what handbooks print for a metal, in 1e-9 per degree Celsius:
// the least and the greatest printed value.
type Expansion struct {
	Family      Family
	Alloy       string // part of the metal's name; empty: the whole family
	Least, Most int64
	Source      string
	Memory      bool // from memory
}

// Fahrenheit coefficients are brought over by 9/5 exactly.
func perF(millionths float64) int64 { return int64(millionths*1800 + 0.5) }

// Expansions lists the common metals, alloys before their family.
func Expansions() []Expansion {
	const association = "Aluminum Association data (13 for the family is read, the alloys are from memory)"
	return []Expansion{
		{Aluminum, "3003", perF(12.9), perF(12.9), association, true},
		{Aluminum, "3105", perF(13.1), perF(13.1), association, true},
		{Aluminum, "5052", perF(13.2), perF(13.2), association, true},
		{Aluminum, "", perF(12.9), perF(13.2), association, true},
		{CoatedSteel, "", perF(6.06), perF(6.89), "sheet-metal shop text, least and greatest for steel", false},
		{BareSteel, "", perF(6.06), perF(6.89), "sheet-metal shop text, least and greatest for steel", false},
		{Stainless, "", perF(9.6), 17300, "type 304 data sheet, 32 to 212 F", false},
		{Copper, "", perF(9.33), perF(9.83), "copper handbooks: 9.33 (77 to 212 F) to 9.83 (68 to 572 F)", false},
		{Zinc, "", perF(12.2), 22000, "EN 988, along the rolling direction", true},
	}
}

// Band is how far, in per cent of what is printed, a stated coefficient may
// lie before it is remarked on: the printed values for copper alone lie that
// far apart. Far is another metal, or per the wrong degree.
const (
	Band = 5.0
	Far  = 20.0
)

// ExpansionOf finds the printed values for a metal by its name.
func ExpansionOf(name string) (Expansion, bool) {
	f := FamilyOf(name)
	for _, e := range Expansions() {
		if e.Family == f && f != Unknown && strings.Contains(name, e.Alloy) {
			return e, true
		}
	}
	return Expansion{}, false
}

// Off is how far a stated coefficient lies outside the printed values, in per
// cent of the nearer one; below them it is negative.
func (e Expansion) Off(stated int64) float64 {
	switch {
	case stated < e.Least:
		return 100 * float64(stated-e.Least) / float64(e.Least)
	case stated > e.Most:
		return 100 * float64(stated-e.Most) / float64(e.Most)
	}
	return 0
}
