package view

import (
	"strconv"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length/draws"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

// made states parts and reliefs for a job.
func made(j *job.Job) *job.Job {
	const in = inch
	r := in / 8
	j.Shop = tools()
	j.Shop.Relief = job.Relief{Width: in / 8, Depth: 3 * in / 32}
	s := &j.System
	s.Splice.Legs = job.Legs{Front: 2 * in, Rear: 3 * in / 2}
	s.Expansion.Cover = &job.Cover{Legs: job.Legs{Front: in, Fit: in / 16}}
	s.Chair.Metal = s.Metal.Name
	s.Chair.Blank = &job.Blank{Stuff: job.Stuff{Metal: s.Metal.Name, Thickness: s.Chair.Thickness, Radius: &r}, HoleDia: 9 * in / 32, Inset: 3 * in / 2,
		Section: []job.Flange{{Name: "front flange", Length: 5 * in / 4}, {Name: "front web", Length: in, Turn: 92 * job.Degree}, {Name: "base", Across: true, Before: in / 8, Turn: 90 * job.Degree}, {Name: "rear web", Length: 3 * in / 4, Turn: 80 * job.Degree}}}
	s.Corner.Support.Blank = &job.Blank{Section: []job.Flange{{Name: "base", Across: true}, {Name: "foot", Length: in, Turn: -75 * job.Degree}},
		Holes: []job.Hole{{FromLeft: in, FromFront: 2 * in, Diameter: in / 4}}}
	return j
}

// The drawings of any job's parts can be read in any room, and say of every
// bend its number, its way and its angle, of every face its outside length.
func TestAnyPartIsFaultless(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := made(jobtest.Random(t))
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		w := drawing.Unit(rapid.IntRange(11500, 17000).Draw(t, "width"))
		for _, p := range l.Parts {
			if len(p.Bodies) == 0 {
				continue
			}
			flat, section := PartFlat(words.Book{}, p.Mark, l.PartBlank(p), w, 9400), PartSection(words.Book{}, l.FormedPart(p), 5600, 5200)
			for _, v := range []drawing.Scene{flat, section} {
				if got := drawing.Check(v); len(got) > 0 {
					t.Fatalf("%s %s: %v", p.Mark, p.Kind, got)
				}
			}
			said := lettering(flat)
			for _, q := range p.Bodies[0].Bends {
				if !strings.Contains(said, drawing.Letter(BendWords(words.Book{}, q.Hem, q.Line.Turn, q.Line.Radius)+" "+q.Line.Between[1])) || !strings.Contains(said, strconv.Itoa(q.Order)) {
					t.Fatalf("%s: bend %d is not lettered in %q", p.Mark, q.Order, said)
				}
			}
			said = lettering(section)
			for _, n := range p.Names {
				if !strings.Contains(said, n) {
					t.Fatalf("%s: face %s is not lettered in %q", p.Mark, n, said)
				}
			}
		}
	})
}

// A riser's two heights stand at its two sides.
func TestRiserHeightsAreLettered(t *testing.T) {
	j := made(jobtest.Job())
	j.System.StepRiser = &job.RiserRules{ReturnFront: 5 * inch / 2, ReturnRear: 2 * inch, Lap: 3 * inch / 2}
	parts, found := shop.BuildParts(j, shop.Needs{Risers: []shop.Riser{{Width: 12 * inch, Height: 9 * inch, Falls: inch / 2, Higher: 2}}})
	if len(found) > 0 {
		t.Fatal(found)
	}
	said := lettering(PartFlat(words.Book{}, parts[0].Mark, (&layout.Layout{Job: j}).PartBlank(parts[0]), 14000, 9400))
	for _, w := range []string{"9″", "9\u00a0\u00a01/2″", "STREET", "ROOF", "DOWN 90° street return", "DOWN 90° roof return"} {
		if !strings.Contains(said, w) {
			t.Errorf("%q is not lettered in %q", w, said)
		}
	}
}

// What is relieved is ringed and told once on the drawing.
func TestReliefsAreTold(t *testing.T) {
	for _, s := range relieved() {
		l := solved(t, s)
		for _, f := range l.Families {
			for i, b := range f.Bodies {
				v := FlatPattern(words.Book{}, f.Mark, l.Patterns(f)[i], 24000, 17000)
				faultless(t, v)
				said := strings.ReplaceAll(lettering(v), "\n", " ")
				if got := strings.Contains(said, "Relief"); got != (len(b.Reliefs) > 0) {
					t.Errorf("%s, %s: %d reliefs, told %v", f.Mark, b.Name, len(b.Reliefs), got)
				}
			}
		}
	}
}
