package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/plan"
)

// sectionLeast is the smallest scale at which the parts of a section can be told apart.
const sectionLeast int64 = 10

// sections shows each distinct wall, assembly and width through a chair and
// through a joint, as many to a sheet as stand there. They are made once: sheets of runs
// lead to them.
func (b *book) sections() []page {
	if b.cuts != nil {
		return b.cuts
	}
	out := []page{}
	for cases := b.l.SectionCases(); len(cases) > 0; {
		pages, n := together(b, cases, b.sectionsOn)
		for _, c := range cases[:n] {
			for _, r := range c.Runs {
				if b.sectionsOf[r] == "" {
					b.sectionsOf[r] = pages[0].id
				}
			}
		}
		out, cases = append(out, pages...), cases[n:]
	}
	b.cuts = out
	return out
}

// sectionsOn is a sheet of sections.
func (b *book) sectionsOn(cases []layout.SectionCase) (page, blocks.Spec, composing) {
	spec := blocks.Spec{Gap: between, Gutter: gutter}
	var runs []*layout.Run
	var cuts []plan.Section
	put := func(of plan.Section, told view.SectionTold, notes ...drawing.Said) {
		cuts = append(cuts, of)
		spec.Slots = append(spec.Slots, blocks.Slot{Block: view.Section(b.say, of, told, notes...),
			Cell: blocks.Cell{Row: len(spec.Slots)}, ID: fmt.Sprintf("v%d", len(spec.Slots)+1), Least: sectionLeast})
	}
	for _, c := range cases {
		put(b.l.Section(c.Run, c.Chair.At, c.Chair, nil), view.SectionPlain, drawing.Said{
			Words: b.say.Say(words.SectionCase, words.In("runs", b.runsSaid(c.Runs)),
				words.In("assembly", c.Chair.Assembly.Name), words.In("inside", b.small(c.Chair.Inside))),
			Fact: factsOf(c.Chair.Name, "inside")})
		for _, q := range c.Joints {
			put(b.l.SectionAtJoint(q.Run, q.Joint), view.SectionBrief)
		}
		for _, r := range c.Runs {
			if !slices.Contains(runs, r) {
				runs = append(runs, r)
			}
		}
	}
	spec.Grids = arranged(spec.Slots)
	p := page{kind: Sections, paper: b.runs, scale: b.say.Say(words.SectionScale), title: b.say.Say(words.SectionSheet,
		words.In("runs", b.runsSaid(runs))), about: b.say.Say(words.SectionSheetAbout)}
	for _, f := range b.l.Holds() {
		if slices.ContainsFunc(runs, func(r *layout.Run) bool {
			return f.Where.TouchesRun(r.Perimeter.Job.Name,
				r.Name)
		}) {
			p.holds = append(p.holds, f)
		}
	}
	p.banner = b.holdWords(p.holds)
	hatches := view.SectionHatches(b.say, cuts...)
	return p, spec, composing{id: []string{"sections", cases[0].Run.Name, cases[0].Chair.Assembly.Name},
		foot: func(s *drawing.Scene, r drawing.Rect, marks []drawing.Mark) {
			w := min(keyWide, r.Width()*55/100)
			place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfRuns(runs...), w, r.Height()), r.Min, "key")
			b.legend(s, drawing.Box(r.Min.X+w+400, r.Min.Y, r.Max.X, r.Max.Y),
				view.Drawn(hatches, drawing.Scene{Marks: marks}))
		}}
}

// runsSaid names runs in a list, with their perimeters where two have one name.
func (b *book) runsSaid(runs []*layout.Run) string {
	var names []string
	for _, r := range runs {
		name := r.Name
		if !b.runsAreApart() {
			name = r.Perimeter.Job.Name + " " + name
		}
		names = append(names, prose(name))
	}
	return strings.Join(names, ", ")
}

// arranged are other arrangements of slots: all side by side, in rows of two and of
// three.
func arranged(slots []blocks.Slot) [][]blocks.Cell {
	var out [][]blocks.Cell
	for _, n := range []int{len(slots), 3, 2} {
		var grid []blocks.Cell
		for i := range slots {
			grid = append(grid, blocks.Cell{Row: i / n, Col: i % n})
		}
		out = append(out, grid)
	}
	return out
}

// sits says that a view keeps to its room and can be read in it. A view that
// gave up its scale was squeezed.
func sits(v drawing.Scene, w, h drawing.Unit) bool {
	return !v.Squeezed && drawing.Box(0, 0, w, h).Contains(v.Bounds()) && len(drawing.Check(v)) == 0
}
