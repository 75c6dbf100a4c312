package sheets

import "testing"

// The crew's packets of the samples in one language, without the pages of crates, take
// no more sheets than they did.
func TestCrewPacketsStayShort(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, most := range map[string]int{"rectangle": 14, "l-shape": 38, "metric": 22} {
		if got := len(Packet(all[name], Options{For: Crew})); got > most {
			t.Errorf("%s: %d sheets for the crew, want at most %d", name, got, most)
		}
	}
}

// Every corner, end and section is shown once, on the sheet that it is looked up by.
func TestEveryTrueShapeIsShownOnce(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	for name, l := range all {
		b := newBook(l, Options{})
		want := 0
		for _, p := range l.Perimeters {
			for _, r := range p.Runs {
				want += len(b.trueShapes(p, r))
			}
		}
		for _, c := range l.SectionDrawings() {
			want += 1 + len(c.Joints)
		}
		ids := map[string]bool{}
		for _, p := range b.seconds() {
			ids[p.id] = true
		}
		if len(b.where) != want {
			t.Errorf("%s: %d drawings are looked up, want %d", name, len(b.where), want)
		}
		for mark, id := range b.where {
			if !ids[id] {
				t.Errorf("%s: %s is looked up on %q, which is no second sheet", name, mark, id)
			}
		}
	}
}
