package sheets

import (
	"strings"
	"testing"

	"copingset/drawing"
)

// A sheet with faults says so on itself; one without is left as it is.
func TestSheetsSayTheirFaults(t *testing.T) {
	l := sampleLayout(t, "rectangle")
	o := Options{For: Crew, Only: []string{"2.1"}}
	p := Packet(l, o)[0]
	before := p.Scene.Dump()
	if f := Look(l, o, &p); len(f) > 0 || p.Scene.Dump() != before {
		t.Fatalf("%v are found on a clean sheet", f)
	}
	at := drawing.Pt(5000, 5000)
	p.Scene.Text(at, "one", drawing.Style{})
	p.Scene.Text(at, "two", drawing.Style{})
	found := Look(l, o, &p)
	if len(found) == 0 || !strings.HasPrefix(found[0].Sheet, "sheet 2.1") {
		t.Fatalf("two texts in one place: %v", found)
	}
	said := 0
	for _, x := range p.Scene.Texts() {
		if strings.HasPrefix(x.Words, "DRAWING CHECK: ") {
			said++
			if r := (paper{p.Scene.W, p.Scene.H}).border(); !r.Contains(drawing.BoundsOf([]drawing.Mark{x})) {
				t.Errorf("%q leaves the frame", x.Words)
			}
		}
	}
	if said != 1 {
		t.Errorf("the sheet says %d times that it has faults", said)
	}
}
