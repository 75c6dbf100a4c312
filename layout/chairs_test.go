package layout_test

import (
	"os"
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// The section of a run, the flat pattern and the tested sheet show one chair for each
// assembly: that of its report.
func TestChairsOfTheirAssemblies(t *testing.T) {
	j, found := job.Read(os.DirFS("../samples"), "l-shape/job.yaml")
	if found.HasErrors() {
		t.Fatal(found)
	}
	l, _ := layout.Build(j)
	want := map[string]length.Length{}
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		want[a.Name] = j.System.ChairOf(a).Blank.Section[2].Length
	}
	if want["K-37"] == want["K-28"] {
		t.Fatal("both assemblies have one chair")
	}
	made := map[string]int{}
	for _, p := range l.Parts {
		if p.Kind.String() != "chair" || len(p.Bodies) == 0 {
			continue
		}
		made[p.Tested]++
		if f := l.FormedPart(p).Faces[2]; length.Abs(f.Long-want[p.Tested]) > length.Inch/128 {
			t.Errorf("part %s of assembly %s: %s of %v, want %v", p.Mark, p.Tested, f.Name, f.Long, want[p.Tested])
		}
		for _, q := range p.Serves {
			for _, r := range l.Runs() {
				for _, c := range r.Chairs {
					if strings.HasSuffix(q.Name, c.Name) && q.Pieces[0] == c.Piece && c.Assembly.Name != p.Tested {
						t.Errorf("part %s of assembly %s is for %s of %s", p.Mark, p.Tested, q.Name, c.Assembly.Name)
					}
				}
			}
		}
	}
	if made["K-37"] == 0 || made["K-28"] == 0 || len(made) != 2 {
		t.Errorf("chairs made for %v", made)
	}
	// The base of a chair begins where its front flange ends.
	seen := map[string]bool{}
	for _, c := range l.SectionCases() {
		cut := l.Section(c.Run, c.Chair.At, c.Chair, nil)
		name := c.Chair.Assembly.Name
		seen[name] = true
		if d := baseFront(cut, c.Chair.Name) - cut.Seat.Front; length.Abs(d-want[name]) > length.Inch/4 {
			t.Errorf("assembly %s: the base begins %v behind the chair's edge, its flange is %v", name, d, want[name])
		}
	}
	if !seen["K-37"] || !seen["K-28"] {
		t.Errorf("sections of %v", seen)
	}
}

// baseFront is where the base of a chair begins: its lowest metal over the wall.
func baseFront(cut plan.Section, name string) length.Length {
	var low plan.Pt
	found := false
	for _, p := range cut.Of(plan.ChairMetal) {
		for _, q := range p.Ring {
			if p.Mark != name || q.X <= cut.Street || q.X >= cut.Roof {
				continue
			}
			if lower := low.Y - q.Y; !found || lower > length.Inch/64 || lower > -length.Inch/64 && q.X < low.X {
				low, found = q, true
			}
		}
	}
	return low.X
}

// A chair whose section is stated nowhere is said once, at the system's chair, for
// those assemblies alone that have none and carry the coping.
func TestChairNotStated(t *testing.T) {
	own := func(a *job.Assembly) {
		r := length.Inch / 8
		a.Chair = &job.OwnChair{Thickness: length.Inch / 10, Blank: &job.Blank{Stuff: job.Stuff{Thickness: length.Inch / 10, Radius: &r},
			Section: []job.Flange{{Name: "base", Across: true}, {Name: "lip", Length: length.Inch, Turn: 90 * job.Degree}}}}
	}
	for _, c := range []struct {
		name, says string
		state      func(j *job.Job)
	}{
		{"nowhere", "for assemblies T1, T2", func(*job.Job) {}},
		{"of one assembly", "for assembly T2:", func(j *job.Job) { own(&j.Assemblies[0]) }},
		{"of all", "", func(j *job.Job) { own(&j.Assemblies[0]); own(&j.Assemblies[1]) }},
	} {
		j := jobtest.Job()
		j.System.Chair.At.Line = 7
		j.Shop = &job.Shop{K: 0.4, LeastFlange: length.Inch / 4, Brake: 2000 * length.Inch, MostTurn: 170 * job.Degree, WeldGap: length.Inch / 32}
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(960*length.Inch, 480*length.Inch)}
		c.state(j)
		_, found := layout.Build(j)
		n := 0
		for _, f := range found {
			if f.Code != "chair-not-stated" {
				continue
			}
			if n++; f.At.Line != 7 || !strings.Contains(f.What, c.says) {
				t.Errorf("%s: line %d: %s", c.name, f.At.Line, f.What)
			}
		}
		if want := min(len(c.says), 1); n != want {
			t.Errorf("%s: said %d times, want %d", c.name, n, want)
		}
	}
}

// The thickness under a screw's head, and the metal that touches cap and screw, are
// those of the assembly's own chair.
func TestOwnChairOfScrewsAndMetals(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(960*length.Inch, 480*length.Inch)}
	above := func() (out []length.Length) {
		for _, c := range build(t, j).Runs()[0].Chairs {
			out = append(out, c.Rows[0].Above)
		}
		return out
	}
	before := above()
	r := length.Inch / 8
	thick := j.System.Chair.Thickness + length.Inch/16
	for i := range j.Assemblies {
		j.Assemblies[i].Chair = &job.OwnChair{Thickness: thick, Metal: "copper", Blank: &job.Blank{HoleDia: length.Inch / 8, Inset: length.Inch,
			Stuff: job.Stuff{Thickness: thick, Radius: &r}, Section: []job.Flange{{Name: "base", Across: true}, {Name: "lip", Length: length.Inch, Turn: 90 * job.Degree}}}}
	}
	for i, x := range above() {
		if x-before[i] != length.Inch/16 {
			t.Errorf("chair %d: %v under the head of a screw, %v under the system's chair", i+1, x, before[i])
		}
	}
	said := map[string]bool{}
	for _, f := range build(t, j).Findings {
		said[f.Code] = true
	}
	if !said["metals-dissimilar"] || !said["screw-hole"] {
		t.Errorf("copper chairs with holes of 1/8 in under aluminum: %v", said)
	}
}
