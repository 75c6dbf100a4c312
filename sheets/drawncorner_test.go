package sheets

import (
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/plan"
	"copingset/sheets/internal/refold"
)

// drawnCorner is the plan of a corner piece as its sheet draws it.
func drawnCorner(mark string, of plan.Corner) refold.Drawn {
	at := func(p plan.Pt) refold.Pt { return refold.Pt{X: p.X.MM(), Y: p.Y.MM()} }
	d := refold.Drawn{Mark: mark, Seam: [2]refold.Pt{at(of.Miters[0].Front), at(of.Miters[0].Rear)},
		One: !of.TwoWidths()}
	for i, g := range of.Legs {
		on := func(k int) refold.Pt { return at(g.Place(g.Ring[k])) }
		d.Legs[i] = refold.DrawnLeg{Street: [2]refold.Pt{on(0), on(1)}, Roof: [2]refold.Pt{on(3), on(2)}}
	}
	return d
}

// Every corner of two legs that is drawn in plan is the metal that the files for machines
// fold to: its street edge and its roof edge, its square ends, its seam and its lengths.
func TestDrawnCornersAreTheFoldedOnes(t *testing.T) {
	seen := map[string]int{} // look-up only
	look := func(name string, l *layout.Layout) {
		all, err := refold.Read(machineFiles(t, l))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range l.Families {
			of := l.Corner(f.Pieces[0])
			if len(f.Bodies) == 0 || len(of.Legs) != 2 || len(of.Miters) != 1 || of.Pitched() || f.Laps() ||
				f.Released(l.Held) == 0 { // no file is written of what is held
				continue
			}
			kind := "inside corner"
			if of.Miters[0].Outside {
				kind = "outside corner"
			}
			if of.TwoWidths() {
				kind = "corner of two widths"
			}
			seen[kind]++
			for _, fault := range refold.CheckDrawn(all, l.Job, drawnCorner(f.Mark, of)) {
				t.Errorf("%s, %s: %s", name, f.Pieces[0].Mark, fault)
			}
		}
	}
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		look(name, l)
	}
	shopJobs(t, look)
	t.Log(seen)
	for _, kind := range []string{"outside corner", "inside corner", "corner of two widths"} {
		if seen[kind] == 0 {
			t.Errorf("no %s was drawn", kind)
		}
	}
}

// A corner drawn a millimetre out is told.
func TestDrawnCornersAreTold(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	l := all["rectangle"]
	files, err := refold.Read(machineFiles(t, l))
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(l.Families, func(f *layout.Family) bool { return len(f.Pieces[0].Miters) == 1 })
	f := l.Families[i]
	d := drawnCorner(f.Mark, l.Corner(f.Pieces[0]))
	for name, change := range map[string]func(d *refold.Drawn){
		"a wider leg":    func(d *refold.Drawn) { d.Legs[0].Roof[0].Y++; d.Legs[0].Roof[1].Y++ },
		"a longer leg":   func(d *refold.Drawn) { d.Legs[0].Street[0].X-- },
		"a skewed seam":  func(d *refold.Drawn) { d.Seam[1].X++ },
		"a moved street": func(d *refold.Drawn) { d.Legs[1].Street[0].X++; d.Legs[1].Street[1].X++ },
	} {
		q := d
		change(&q)
		if len(refold.CheckDrawn(files, l.Job, q)) == 0 {
			t.Errorf("%s is not told", name)
		}
	}
}
