package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	blocks "copingset/drawing/block"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/plan"
)

// testedSections show each distinct wall, assembly and width through a chair
// with the limits of its test beside it.
func (b *book) testedSections() []page {
	var out []page
	for i, c := range b.l.SectionCases() {
		a := c.Chair.Assembly
		if a == nil {
			continue
		}
		var names []string
		for _, r := range c.Runs {
			names = append(names, r.Name)
		}
		p := page{
			id: b.id("tested", names[0], a.Name),
			title: b.say.Count(
				words.TestedTitle, len(names), words.In("names", strings.Join(names, ", ")),
				words.In("name", prose(a.Name)),
			),
			kind:  TestedSection,
			paper: b.runs,
			scale: b.say.Say(words.FrameAsNoted),
			holds: b.l.Holds(),
			about: b.say.Say(words.TestedAbout),
		}
		p.banner = b.holdWords(p.holds)
		cut := b.l.Section(c.Run, c.Chair.At, c.Chair, nil)
		tables := []block{
			b.limitTable(b.say.Say(words.TestedAgainstBuilt, words.In("name", prose(a.Name))),
				layout.FactOfTestedSection(i), b.l.CaseOf(c)),
			b.placesTable(c),
			list{items: []string{
				b.say.Say(words.TestedReport, words.In("report-of", b.reportOf(a))),
				b.say.Say(words.TestedDemand),
			}, plain: true},
		}
		out = append(out, b.sectionBeside(p, cut, tables)...)
	}
	return out
}

// placesTable letters where the rows of holes stand, which no screw may leave.
func (b *book) placesTable(c layout.SectionCase) table {
	a, s := c.Chair.Assembly, &b.j.System
	chair := s.ChairOf(a)
	t := facts(b.say.Say(words.TestedPlaces), [][]string{
		{
			b.say.Say(words.TestedStreetRow),
			b.say.Say(words.TestedStreetRowAt, words.In("front-row-from", b.exactly(a.FrontRowFrom))),
		},
		{
			b.say.Say(words.TestedRoofRow),
			b.say.Say(words.TestedRoofRowAt, words.In("rear-row-from", b.exactly(a.RearRowFrom))),
		},
		{
			b.say.Say(words.TestedChair),
			b.say.Say(
				words.TestedAlongRun, words.In("length", b.exactly(s.Chair.Length)),
				words.In("thickness", b.thick(chair.Thickness)),
			),
		},
		{
			b.say.Say(words.TestedStreetEdge),
			b.say.Say(words.TestedStreetEdgeAt, words.In("front-edge", b.exactly(s.Chair.FrontEdge))),
		},
		{
			b.say.Say(words.TestedRoofEdge),
			b.say.Say(words.TestedRoofEdgeAt, words.In("rear-edge", b.exactly(s.Chair.RearEdge))),
		},
		{b.say.Say(words.TestedInsideWidth), b.shopText(c.Chair.Inside)},
	})
	return t
}

// sectionBeside puts the section on a page with its tables beside and under it.
func (b *book) sectionBeside(p page, of plan.Section, tables []block) []page {
	spec := blocks.Spec{Gap: between, Gutter: gutter, Columns: 12000,
		Slots: []blocks.Slot{{Block: view.Section(b.say, of, view.SectionDetailed), ID: "v1", Least: sectionLeast}}}
	for i, t := range tables {
		spec.Flow = append(spec.Flow, flowing{fmt.Sprintf("tested-%d", i), t})
	}
	hatches := view.SectionHatches(b.say, of)
	return b.composed(p, spec, composing{foot: func(s *drawing.Scene, r drawing.Rect, marks []drawing.Mark) {
		b.legend(s, r, view.Drawn(hatches, drawing.Scene{Marks: marks}))
	}})
}
