package metal_test

import (
	"math"
	"os"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/metal"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/metal")) }

// perF is a coefficient in millionths per degree Fahrenheit as the package has it.
func perF(millionths float64) int64 { return int64(millionths*1800 + 0.5) }

func TestFamilies(t *testing.T) {
	for name, want := range map[string]metal.Family{
		"aluminum 3003-H14": metal.Aluminum, "Aluminium 5052": metal.Aluminum, "coated steel G90": metal.CoatedSteel,
		"galvanized sheet":           metal.CoatedSteel,
		"aluminum-zinc coated steel": metal.CoatedSteel, "stainless steel 304": metal.Stainless,
		"cold-rolled copper, 20 oz": metal.Copper,
		"titanium zinc sheet":       metal.Zinc, "zinc-copper-titanium": metal.Zinc, "steel": metal.BareSteel,
		"lead": metal.Unknown, "": metal.Unknown,
	} {
		if got := metal.FamilyOf(name); got != want {
			t.Errorf("%q is %s, want %s", name, got, want)
		}
	}
}

// What others print for a metal lies within the printed values of its row, and
// what they print for another does not.
func TestPublishedExpansion(t *testing.T) {
	const rule = "expansion: printed values"
	aluminum := published.From("Aluminum Association, read in a metal-building text", "coefficient of the family, per F")
	copper := published.From("copper handbook, three ranges of temperature", "per F")
	for _, c := range []struct {
		src    published.Source
		name   string
		perF   float64
		within bool
	}{
		{aluminum, "aluminum", 13, true},
		{copper, "copper", 9.61, true},
		{published.From("historic copper flashing handbook", "per F"), "copper", 9.5, true},
		{published.From("CDA Architecture Design Handbook", "Table 1.1A"), "copper, cold rolled", 9.8, true},
		{published.Recalled("Aluminum Association"), "aluminum 3105", 13.1, true},
		{published.Recalled("steel handbooks"), "coated steel G90", 6.5, true},
		{published.Recalled("EN 988 along the rolling direction"), "titanium zinc", 12.2, true},
		{published.From("sheet-metal shop text of the 1910s", "pure metals, per F"), "titanium zinc", 14.07, false},
		{aluminum, "stainless", 13, false},
	} {
		e, ok := metal.ExpansionOf(c.name)
		off := math.Abs(e.Off(perF(c.perF)))
		published.Holds(t, rule, c.src, c.name, ok && (off <= metal.Band) == c.within)
		// Per the wrong degree is never within the band.
		if off := e.Off(int64(c.perF * 1000)); c.within && off > -metal.Far {
			t.Errorf("%s per C taken for per F lies only %.1f per cent off", c.name, off)
		}
	}
}

// The growth of the layout, by the printed coefficients.
func TestPublishedGrowth(t *testing.T) {
	const rule = "growth with temperature"
	grows := func(ppb int64, inches, degreesF float64) float64 {
		s := &job.System{}
		s.Metal.Expansion = ppb
		return cap.Growth(s, length.FromInches(inches), job.Temperature(math.Round(degreesF/1.8*1000))).Inch()
	}
	flashing := published.From("historic copper flashing handbook", "p. 60: 1 in of copper over 60 F")
	published.Near(t, rule, flashing, "by its own 9.5", grows(perF(9.5), 1, 60), 0.00057, 0.000005)
	range0 := published.From("copper handbook, three ranges of temperature", "ten feet over 100 F: 0.112 to 0.118 in")
	e, _ := metal.ExpansionOf("copper")
	published.Near(t, rule, range0, "least", grows(e.Least, 120, 100), 0.112, 0.0005)
	published.Near(t, rule, range0, "most", grows(e.Most, 120, 100), 0.118, 0.0005)
	for _, c := range []struct {
		name string
		want float64
	}{{"aluminum 3003", 0.1548}, {"aluminum 5052", 0.1584}, {"stainless", 0.1152}, {"zinc", 0.1464}} {
		e, _ := metal.ExpansionOf(c.name)
		published.Near(t, rule, published.ByHand("alpha L dT, ten feet over 100 F"), c.name, grows(e.Least, 120, 100),
			c.want, 0.00005)
	}
}

func TestPublishedPairs(t *testing.T) {
	const rule = "pairs that touch"
	const al, gal, ss, cu, zn, fe = metal.Aluminum, metal.CoatedSteel, metal.Stainless, metal.Copper, metal.Zinc,
		metal.BareSteel
	guide := published.From("UFGS 07600, dissimilar metals", "aluminum beside others")
	page := published.From("university page on compatibility", "five groups")
	runoff := published.From("UFGS 07600, products", "copper does not drain over other metals")
	for _, c := range []struct {
		src  published.Source
		a, b metal.Family
		want []metal.Verdict
	}{
		{guide, al, ss, []metal.Verdict{metal.Compatible}},
		{guide, al, cu, []metal.Verdict{metal.Apart}},
		{guide, al, gal, []metal.Verdict{metal.Caution}},
		{page, gal, zn, []metal.Verdict{metal.Compatible}},
		{page, zn, ss, []metal.Verdict{metal.Apart}},
		{page, zn, cu, []metal.Verdict{metal.Apart}},
		{page, zn, fe, []metal.Verdict{metal.Caution}},
		{page, gal, ss, []metal.Verdict{metal.Apart}},
		{runoff, cu, ss, []metal.Verdict{metal.Caution, metal.Apart}},
		{runoff, cu, gal, []metal.Verdict{metal.Caution, metal.Apart}},
		{runoff, cu, fe, []metal.Verdict{metal.Caution, metal.Apart}},
		{published.Recalled("bare steel never in aluminum"), fe, al, []metal.Verdict{metal.Apart}},
	} {
		ab, ok := metal.Pair(c.a, c.b)
		ba, _ := metal.Pair(c.b, c.a)
		so := false
		for _, v := range c.want {
			so = so || ab.Verdict == v
		}
		published.Holds(t, rule, c.src, c.a.String()+" and "+c.b.String(), ok && so && ba == ab && ab.Source != "")
		if ab.Verdict != metal.Compatible && ab.Mend == "" {
			t.Errorf("%s and %s: no way to keep them apart", c.a, c.b)
		}
	}
	if _, ok := metal.Pair(metal.Unknown, metal.Unknown); ok {
		t.Error("two unknown metals are not one metal")
	}
	wood, _ := metal.OnWood(al, true)
	published.Holds(t, rule, guide, "aluminum on treated wood", wood.Verdict == metal.Apart)
	masonry, _ := metal.OnMasonry(al)
	published.Holds(t, rule, guide, "aluminum on masonry", masonry.Verdict == metal.Apart)
	lumber, _ := metal.OnWood(gal, true)
	published.Holds(t, rule, published.From("roofing guidance", "copper-treated lumber"), "a membrane between",
		lumber.Verdict == metal.Caution)
}

// A screw is the small part: it may be nobler than its sheet, never baser.
func TestPublishedScrews(t *testing.T) {
	const rule = "screws in sheet"
	bolts := published.From("MIL-STD-1250A, p. 28", "5.6 and 5.7, bolts in sheet")
	for _, c := range []struct {
		src          published.Source
		sheet, screw metal.Family
		want         metal.Verdict
	}{
		{bolts, metal.Aluminum, metal.Stainless, metal.Compatible},
		{bolts, metal.Stainless, metal.Aluminum, metal.Apart},
		{bolts, metal.Stainless, metal.CoatedSteel, metal.Apart},
		{bolts, metal.Copper, metal.Aluminum, metal.Apart},
		{bolts, metal.Copper, metal.CoatedSteel, metal.Apart},
		{published.From("MIL-DTL-14072F, p. 14", "3.13.1: the small part is the cathode"), metal.Copper, metal.BareSteel,
			metal.Apart},
	} {
		k, ok := metal.Screw(c.sheet, c.screw)
		published.Holds(t, rule, c.src, c.screw.String()+" in "+c.sheet.String(),
			ok && k.Verdict == c.want && k.Source != "" && (k.Verdict == metal.Compatible || k.Mend != ""))
	}
	// The order in sea water of MIL-STD-889: zinc 4, 5052 16, steel 30, 304 40,
	// copper 55. A baser screw is never let off, a nobler one never held by it.
	order := published.From("MIL-STD-889, order in sea water", "zinc, 5052, steel, 304, copper")
	row := []metal.Family{metal.Zinc, metal.Aluminum, metal.BareSteel, metal.Stainless, metal.Copper}
	for i := 1; i < len(row); i++ {
		k, ok := metal.Screw(row[i], row[i-1])
		one := row[i] == metal.Aluminum || row[i] == metal.Copper // of one group with the one before it
		published.Holds(t, rule, order, row[i-1].String()+" in "+row[i].String(), ok && (k.Verdict == metal.Apart) == !one)
	}
	for _, f := range row {
		if k, ok := metal.Screw(f, f); !ok || k.Verdict != metal.Compatible {
			t.Errorf("%s in %s: %s", f, f, k.Verdict)
		}
	}
}
