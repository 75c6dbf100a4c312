package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/plan"
)

// testedSections show each distinct wall, assembly and width through a chair
// with the limits of its test beside it.
func (b *book) testedSections() []page {
	var out []page
	for _, c := range b.l.SectionCases() {
		a := c.Chair.Assembly
		if a == nil {
			continue
		}
		var names []string
		for _, r := range c.Runs {
			names = append(names, r.Name)
		}
		p := page{id: b.id("tested", names[0], a.Name), title: "Tested dimensions, runs " + strings.Join(names, ", ") + ", assembly " + prose(a.Name), kind: TestedSection, paper: b.runs, scale: "as noted",
			holds: b.l.Holds(), about: "Section through a chair with the limits of its tested assembly beside what is built."}
		p.banner = b.holdWords(p.holds)
		cut := b.l.Section(c.Run, c.Chair.At, c.Chair, nil)
		p.hatches = view.SectionHatches(cut)
		blocks := []block{b.limitTable("Tested against built, assembly "+prose(a.Name), b.l.CaseOf(c)), b.placesTable(c), list{items: []string{
			"Report " + reportOf(a) + ". The holes of the chair and their places are part of the test.",
			"Demand is of the more onerous zone in which this assembly stands on these runs; whose it is: see the basis of design.",
		}, plain: true}}
		out = append(out, b.sectionBeside(p, cut, blocks)...)
	}
	return out
}

// placesTable letters where the rows of holes stand, which no screw may leave.
func (b *book) placesTable(c layout.SectionCase) table {
	a, s := c.Chair.Assembly, &b.j.System
	chair := s.ChairOf(a)
	t := facts("Places that are part of the test", [][]string{
		{"Front row", b.exactly(a.FrontRowFrom) + " behind the chair’s front edge"},
		{"Rear row", b.exactly(a.RearRowFrom) + " before the chair’s rear edge"},
		{"Chair", b.exactly(s.Chair.Length) + " along the run, " + b.thick(chair.Thickness)},
		{"Chair’s front edge", b.exactly(s.Chair.FrontEdge) + " behind the inside of the front leg"},
		{"Chair’s rear edge", b.exactly(s.Chair.RearEdge) + " before the inside of the rear leg"},
		{"Inside width", b.shopText(c.Chair.Inside)},
	})
	return t
}

// sectionBeside puts the section at the left of its page and the tables at the
// right, or where the paper is too small for both, the section on its own page
// and the tables on the next.
func (b *book) sectionBeside(p page, of plan.Section, blocks []block) []page {
	room := p.paper.room(p.banner != "")
	cut := view.Sections(of)
	left := drawing.Box(room.Min.X, room.Min.Y, room.Min.X+room.Width()*58/100, room.Max.Y)
	right := drawing.Box(left.Max.X+gutter, room.Min.Y, room.Max.X, room.Max.Y)
	if v := cut(left.Width(), left.Height()); sits(v, left.Width(), left.Height()) {
		leaves := flow(blocks, func(int) []drawing.Rect { return []drawing.Rect{right} })
		fits := len(leaves) == 1
		for _, q := range leaves[0] {
			fits = fits && q.at.X+q.w <= right.Max.X && q.at.Y+q.h <= right.Max.Y
		}
		if fits {
			p.foot = func(s *drawing.Scene, r drawing.Rect) { b.legend(s, r, view.Drawn(p.hatches, v)) }
			p.draw = func(s *drawing.Scene, _ func(string) string) {
				centred(s, v, left, "v1")
				for _, q := range leaves[0] {
					q.draw(s, q.at)
				}
			}
			return []page{p}
		}
	}
	out := b.sideBySide(p, list{}, []func(w, h drawing.Unit) drawing.Scene{cut}, []string{"section"})
	more := p
	more.id, more.title, more.scale = b.id(p.id), p.title+": table", ""
	return append(out, b.pages(more, blocks, across)...)
}
