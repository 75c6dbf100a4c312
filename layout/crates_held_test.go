package layout_test

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// What of the hardware comes with a shipment is what may be made of parts: the list of
// parts and the crate tell of as many, with their spares, whatever is on hold.
func TestPartsAndCratesAgreeUnderHolds(t *testing.T) {
	const chairless = "rectangle with a chair that the hook does not find"
	held := 0
	for _, name := range []string{"rectangle", "l-shape", "metric", chairless} {
		j := *sampled(t, strings.Fields(name)[0])
		if name == chairless {
			k := *j.System.Chair.Blank
			k.Section = slices.Clone(k.Section)
			k.Section[len(k.Section)-1].Length -= length.Inch
			j.System.Chair.Blank = &k
			j.Assemblies = slices.Clone(j.Assemblies)
			for i := range j.Assemblies {
				j.Assemblies[i].Engagement = nil // it would hold the pieces
			}
		}
		l, found := layout.Build(&j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		ill := 0
		made := map[crate.Sort]int{}
		for _, q := range l.Parts {
			n, more := q.Make(l.Held)
			ill += len(q.Holds)
			switch q.Kind {
			case shop.ChairBlank:
				made[crate.Chair] += n
				if more > 0 {
					made[crate.Chair] += more
				}
			case shop.SupportBlank:
				made[crate.Support] += n + more
			case shop.SplicePlate, shop.CoverPlate:
				made[crate.Plate] += n + more
			}
		}
		if (ill > 0) != (name == chairless) {
			t.Fatalf("%s: %d parts are on hold themselves", name, ill)
		}
		packed := map[crate.Sort]int{}
		for _, c := range l.Crates {
			for _, x := range c.Items {
				packed[x.Sort] += x.Count - x.Later
				held += x.Later
			}
		}
		for _, s := range []crate.Sort{crate.Chair, crate.Support, crate.Plate} {
			if n, ok := made[s]; ok && packed[s] != n { // of what no part is made nothing is compared
				t.Errorf("%s: %d of sort %d come in a crate, %d are made", name, packed[s], s, made[s])
			}
		}
	}
	if held == 0 {
		t.Error("no hardware waits for a piece on hold")
	}
}
