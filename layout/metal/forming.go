package metal

import "strings"

// Neutral is what handbooks print for the place of the neutral axis in a bend of
// 90 degrees, in thicknesses from the inside: a value to start from until the
// shop has bent a test piece.
type Neutral struct {
	Family      Family
	Thickness   float64 // in
	Least, Most float64 // over the inside radii of the table, 0.030 to 0.188 in
	Source      string
	Memory      bool // from memory
}

// Neutrals lists the printed rows, each family by thickness.
func Neutrals() []Neutral {
	const handbook = "table of a sheet-metal page citing Machinery's Handbook, 26th edition"
	const forms = "Machinery's Handbook, 90-degree bend forms"
	return []Neutral{
		{Aluminum, 0.032, 0.391, 0.398, handbook, false},
		{Aluminum, 0.063, 0.401, 0.404, handbook, false},
		{Aluminum, 0.100, 0.380, 0.406, handbook, false},
		{CoatedSteel, 0.048, 0.420, 0.438, handbook + ", cold-rolled steel", false},
		{CoatedSteel, 0.060, 0.453, 0.467, handbook + ", cold-rolled steel", false},
		{BareSteel, 0.048, 0.420, 0.438, handbook + ", cold-rolled steel", false},
		{BareSteel, 0.060, 0.453, 0.467, handbook + ", cold-rolled steel", false},
		{Stainless, 0.029, 0.454, 0.483, handbook, false},
		{Copper, 0.027, 0.350, 0.452, forms + ", soft to hard copper", true},
	}
}

// NeutralOf is the printed row of a metal nearest to a thickness in inches.
func NeutralOf(name string, thickness float64) (Neutral, bool) {
	var best Neutral
	found := false
	f := FamilyOf(name)
	for _, n := range Neutrals() {
		if n.Family != f || f == Unknown {
			continue
		}
		if !found || apart(n.Thickness, thickness) < apart(best.Thickness, thickness) {
			best, found = n, true
		}
	}
	return best, found
}

// NeutralBand is how far outside the printed values a shop's own figure may lie
// before it is remarked on: tables of different handbooks lie that far apart.
const NeutralBand = 0.05

// Off is how far a stated value lies outside the printed ones; below them it is
// negative.
func (n Neutral) Off(stated float64) float64 {
	switch {
	case stated < n.Least:
		return stated - n.Least
	case stated > n.Most:
		return stated - n.Most
	}
	return 0
}

// TightestBend is the least inside radius printed for a cold bend of 90 degrees.
type TightestBend struct {
	Family            Family
	Alloy             string  // part of the metal's name; empty: the whole family
	Thickness, Radius float64 // in
	Source            string
	Secondary         bool // the columns of the page read were not beyond doubt
}

// TightestBends lists the printed radii, alloys before their family.
func TightestBends() []TightestBend {
	const page = "minimum inside radii for cold bends, an engineering design-book page"
	var out []TightestBend
	row := func(f Family, alloy string, secondary bool, radii ...float64) {
		for i, t := range []float64{0.032, 0.040, 0.050, 0.063, 0.080} {
			out = append(out, TightestBend{f, alloy, t, radii[i], page, secondary})
		}
	}
	row(Aluminum, "5052-H32", false, 0.063, 0.063, 0.094, 0.094, 0.125)
	row(Aluminum, "5052-H34", false, 0.063, 0.094, 0.094, 0.125, 0.156)
	row(Aluminum, "3003-O", false, 0.031, 0.063, 0.063, 0.063, 0.094)
	row(Aluminum, "5052-O", false, 0.031, 0.063, 0.063, 0.063, 0.094)
	row(Stainless, "304", true, 0.063, 0.094, 0.094, 0.125, 0.156)
	row(BareSteel, "", true, 0.063, 0.094, 0.094, 0.094, 0.125)
	return out
}

// TightestOf is the printed least radius for a metal by its name, at the printed
// thickness nearest to its own in inches.
func TightestOf(name string, thickness float64) (TightestBend, bool) {
	var best TightestBend
	found := false
	f := FamilyOf(name)
	for _, b := range TightestBends() {
		if b.Family != f || f == Unknown || !strings.Contains(name, b.Alloy) {
			continue
		}
		if !found || apart(b.Thickness, thickness) < apart(best.Thickness, thickness) {
			best, found = b, true
		}
	}
	return best, found
}

func apart(a, b float64) float64 { return max(a-b, b-a) }
