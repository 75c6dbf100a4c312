package metal

import (
	"math"
	"testing"
)

func TestFamilies(t *testing.T) {
	for name, want := range map[string]Family{
		"aluminum 3003-H14": Aluminum, "Aluminium 5052": Aluminum, "coated steel G90": CoatedSteel, "galvanized sheet": CoatedSteel,
		"aluminum-zinc coated steel": CoatedSteel, "stainless steel 304": Stainless, "cold-rolled copper, 20 oz": Copper,
		"titanium zinc sheet": Zinc, "zinc-copper-titanium": Zinc, "steel": BareSteel, "lead": Unknown, "": Unknown,
	} {
		if got := FamilyOf(name); got != want {
			t.Errorf("%q is %s, want %s", name, got, want)
		}
	}
}

func TestPublishedExpansion(t *testing.T) {
	for _, c := range []struct {
		source, name string
		perF         float64
	}{
		{"Aluminum Association, from memory", "aluminum 3003-H14", 12.9},
		{"Aluminum Association, from memory", "aluminum 3105", 13.1},
		{"Aluminum Association, from memory", "aluminum 5052-H32", 13.2},
		{"Aluminum Association: about 13 for the family", "aluminum", 13},
		{"steel handbooks, from memory", "coated steel G90", 6.5},
		{"type 304 data sheet, 32 to 212 F", "stainless steel 304", 9.6},
		{"CDA Architecture Design Handbook Table 1.1A, 68 to 572 F", "copper, cold rolled", 9.8},
		{"a copper handbook of the 1920s", "copper", 9.5},
		{"EN 988 along the rolling direction, from memory", "titanium zinc", 12.2},
	} {
		e, ok := ExpansionOf(c.name)
		if !ok || e.Off(perF(c.perF)) != 0 {
			t.Errorf("%s: %s %.1f per F lies %.1f per cent off", c.source, c.name, c.perF, e.Off(perF(c.perF)))
		}
		// Per the wrong degree is never within the band.
		if off := e.Off(int64(c.perF * 1000)); off > -Far {
			t.Errorf("%s: %s per C taken for per F lies only %.1f per cent off", c.source, c.name, off)
		}
	}
	// Pure zinc (14.07) is not architectural zinc, and copper's 8.87 of the same text not sheet copper.
	for name, v := range map[string]float64{"zinc": 14.07, "stainless": 13, "aluminum 3003": 6.5} {
		e, _ := ExpansionOf(name)
		if math.Abs(e.Off(perF(v))) <= Band {
			t.Errorf("%s at %.2f per F passes", name, v)
		}
	}
}

// Ten feet over 100 F, and three metres over 100 K.
func TestPublishedGrowth(t *testing.T) {
	for _, c := range []struct {
		source, name string
		want         float64 // in
	}{
		{"worked by hand from 12.9e-6/F", "aluminum 3003", 0.1548},
		{"worked by hand from 13.2e-6/F", "aluminum 5052", 0.1584},
		{"worked by hand from 9.6e-6/F", "stainless", 0.1152},
		{"worked by hand from 12.2e-6/F", "zinc", 0.1464},
	} {
		e, _ := ExpansionOf(c.name)
		if got := 120 * float64(e.Least) * 1e-9 * 100 / 1.8; math.Abs(got-c.want) > 0.00005 {
			t.Errorf("%s: %s grows %.4f in, want %.4f", c.source, c.name, got, c.want)
		}
	}
}

func TestPublishedPairs(t *testing.T) {
	const memory = "galvanic table of common practice, from memory"
	for _, c := range []struct {
		source string
		a, b   Family
		want   Verdict
	}{
		{"UFGS 07600: stainless is excepted", Aluminum, Stainless, Compatible},
		{"UFGS 07600: a metal other than stainless", Aluminum, Copper, Apart},
		{"UFGS 07600: galvanized is dissimilar in humid or coastal work", Aluminum, CoatedSteel, Caution},
		{memory, CoatedSteel, Stainless, Caution},
		{memory, CoatedSteel, Copper, Apart},
		{memory, CoatedSteel, Zinc, Compatible},
		{memory, Stainless, Copper, Caution},
		{memory, Stainless, Zinc, Caution},
		{memory, Copper, Zinc, Apart},
		{"bare steel never in aluminum, from memory", BareSteel, Aluminum, Apart},
		{"bare steel never in copper, from memory", BareSteel, Copper, Apart},
	} {
		ab, ok := Pair(c.a, c.b)
		ba, _ := Pair(c.b, c.a)
		if !ok || ab.Verdict != c.want || ba != ab || ab.Source == "" {
			t.Errorf("%s: %s and %s %s, want %s", c.source, c.a, c.b, ab.Verdict, c.want)
		}
		if ab.Verdict != Compatible && ab.Mend == "" {
			t.Errorf("%s and %s: no way to keep them apart", c.a, c.b)
		}
	}
	if _, ok := Pair(BareSteel, Zinc); ok {
		t.Error("a pair the table does not have")
	}
	if _, ok := Pair(Unknown, Unknown); ok {
		t.Error("two unknown metals are not one metal")
	}
	if c, _ := OnWood(Aluminum, true); c.Verdict != Apart {
		t.Error("UFGS 07600: treated wood reacts with aluminum")
	}
	if c, _ := OnMasonry(Aluminum); c.Verdict != Apart {
		t.Error("UFGS 07600: aluminum on masonry is coated")
	}
}
