package layout_test

import (
	"testing"

	"copingset/layout/crate"
	"copingset/layout/shop"
)

// What of the hardware comes with a shipment is what may be made of parts: the list of
// parts and the crate tell of as many, with their spares, whatever is on hold.
func TestPartsAndCratesAgreeUnderHolds(t *testing.T) {
	held := 0
	for _, name := range []string{"rectangle", "l-shape", "metric"} {
		l, _ := solved(sampled(t, name))
		made := map[crate.Sort]int{}
		for _, q := range l.Parts {
			n, more := q.Make(l.Held)
			if len(q.Holds) > 0 {
				t.Fatalf("%s: part %s is on hold itself", name, q.Mark)
			}
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
		packed := map[crate.Sort]int{}
		for _, c := range l.Crates {
			for _, x := range c.Items {
				packed[x.Sort] += x.Count - x.Later
				held += x.Later
			}
		}
		for _, s := range []crate.Sort{crate.Chair, crate.Support, crate.Plate} {
			if made[s] > 0 && packed[s] != made[s] {
				t.Errorf("%s: %d of sort %d come in a crate, %d are made", name, packed[s], s, made[s])
			}
		}
	}
	if held == 0 {
		t.Error("no hardware waits for a piece on hold")
	}
}
