package sheets

import (
	"fmt"
	"strings"
	"testing"
)

// No mark of a packet means two things: whatever letters and digits name a run, a
// piece, a joint, a chair, a support, a shop type, a part or an assembly name no other
// kind of thing, with the run's name or, as on its own sheets, without.
func TestMarksMeanOneThing(t *testing.T) {
	for _, c := range workshops() {
		kind := map[string]string{} // look-up only: what a mark names
		names := func(what, mark string) {
			if was, ok := kind[mark]; ok && was != what {
				t.Errorf("%s: %s is %s and %s", c.name, mark, was, what)
			}
			kind[mark] = what
		}
		short := func(what, run, mark string) {
			names(what, mark)
			if rest, ok := strings.CutPrefix(mark, run+"-"); ok {
				names(what, rest)
			}
		}
		for _, p := range c.layout.Perimeters {
			for _, r := range p.Runs {
				names("a run", r.Name)
				for _, q := range r.Joints {
					short("a joint", r.Name, q.Name)
				}
				for _, q := range r.Chairs {
					short("a chair", r.Name, q.Name)
				}
			}
			for _, q := range p.Pieces {
				names("piece "+p.Job.Name+" "+q.Mark, p.Job.Name+" "+q.Mark)
				names("a piece", q.Mark)
			}
			for _, q := range p.Supports {
				names("a support", q.Name)
				names("a support", q.Name[strings.LastIndex(q.Name, "-")+1:])
			}
		}
		for _, f := range c.layout.Families {
			names("shop type "+f.Mark, f.Mark)
		}
		for i, q := range c.layout.Parts {
			names(fmt.Sprint("part ", i), q.Mark)
		}
		for _, a := range c.layout.Job.Assemblies {
			names("an assembly", a.Name)
		}
		if len(kind) < 10 {
			t.Errorf("%s has %d marks", c.name, len(kind))
		}
	}
}

// What goes to a shop says that its marks were not issued, and of which input they
// are: of another input other words.
func TestPreliminary(t *testing.T) {
	all, err := sampleLayouts()
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]string{}
	for name, l := range all {
		says := newBook(l, Options{}).status()
		if was, ok := seen[says]; ok {
			t.Errorf("%s and %s are both %s", was, name, says)
		}
		seen[says] = name
	}
	for _, c := range workshops() {
		want := newBook(c.layout, Options{}).status()
		for _, s := range c.sheets {
			says := want
			if s.Kind == PieceLabels {
				says = strings.Replace(want, "INARY", ".", 1)
			}
			if said := strings.Contains(wordsOf(s.Scene), says); said != s.Kind.shopMarks() {
				t.Errorf("%s: sheet %s says %s: %v", c.name, s.Number, want, said)
			}
		}
	}
}
