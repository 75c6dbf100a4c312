package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
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
		p.hatches = view.SectionHatches(cut)
		blocks := []block{
			b.limitTable(b.say.Say(words.TestedAgainstBuilt, words.In("name", prose(a.Name))), b.l.CaseOf(c)),
			b.placesTable(c),
			list{items: []string{
				b.say.Say(words.TestedReport, words.In("report-of", b.reportOf(a))),
				b.say.Say(words.TestedDemand),
			}, plain: true},
		}
		out = append(out, b.sectionBeside(p, cut, blocks)...)
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

// sectionBeside puts the section at the left of its page and the tables at the
// right, or where the paper is too small for both, the section on its own page
// and the tables on the next.
func (b *book) sectionBeside(p page, of plan.Section, blocks []block) []page {
	room := p.paper.room(p.banner != "")
	cut := view.Sections(of)
	left := drawing.Box(room.Min.X, room.Min.Y, room.Min.X+room.Width()*58/100, room.Max.Y)
	right := drawing.Box(left.Max.X+gutter, room.Min.Y, room.Max.X, room.Max.Y)
	if v := cut(left.Width(), left.Height()); sits(v, left.Width(), left.Height()) {
		leaves := b.flow(blocks, func(int) []drawing.Rect { return []drawing.Rect{right} })
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
	out := b.sideBySide(
		p,
		list{},
		[]func(w, h drawing.Unit) drawing.Scene{cut},
		[]string{b.say.Say(words.TestedSection)},
	)
	more := p
	more.id, more.title, more.scale = b.id(p.id), b.say.Say(words.TestedTable, words.In("title", p.title)), ""
	return append(out, b.pages(more, blocks, across)...)
}
