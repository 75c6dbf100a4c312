package sheets

import (
	"slices"
	"strings"

	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/plan"
)

// shopPages are the sheets of the fabricator.
func (b *book) shopPages() []page {
	if b.j.Shop == nil {
		return nil
	}
	var out []page
	for _, g := range b.familyGroups() {
		out = append(out, b.familyPages(g)...)
	}
	out = append(out, b.profilePage()...)
	out = append(out, b.trialPages()...)
	out = append(out, b.parts()...)
	out = append(out, b.handCheck()...)
	out = append(out, b.cuttingPlan()...)
	out = append(out, b.blankList()...)
	out = append(out, b.pieceLabels()...)
	out = append(out, b.crateLabels()...)
	return out
}

// familyGroups are the families that share a drawing: straight pieces of one
// inside width, which differ in length, in holes and in the end that is cut on
// the roof. Others stand by themselves, twins next to each other.
func (b *book) familyGroups() [][]*layout.Family {
	var out [][]*layout.Family
	alike := func(f *layout.Family) bool {
		return layout.Straight(f) && len(f.Bodies) == 1 && f.Bodies[0].Square()
	}
	seen := map[*layout.Family]bool{} // look-up only
	for _, f := range b.l.Families {
		if seen[f] {
			continue
		}
		seen[f] = true
		g := []*layout.Family{f}
		switch {
		case alike(f):
			for _, o := range b.l.Families {
				if !seen[o] && alike(o) && o.Pieces[0].Inside == f.Pieces[0].Inside &&
					view.SameBends(b.blanksOf(o)[0].Blank, b.blanksOf(f)[0].Blank) {
					seen[o] = true
					g = append(g, o)
				}
			}
		case f.Twin != nil && !seen[f.Twin]:
			seen[f.Twin] = true
			out = append(out, g)
			g = []*layout.Family{f.Twin}
		}
		out = append(out, g)
	}
	return out
}

// familyID is the id of a family's first sheet.
func familyID(g []*layout.Family) string { return "type-" + slug(g[0].Mark) }

// pieceMarks are the marks of a family's pieces, with the perimeter where the job
// has several.
func (b *book) pieceMarks(f *layout.Family, released bool) []string {
	var out []string
	for _, q := range f.Pieces {
		if b.l.Held.Released(q) == released {
			out = append(out, b.pieceMark(q))
		}
	}
	return out
}

func (b *book) marksOf(pieces []*layout.Piece) []string {
	var out []string
	for _, q := range pieces {
		out = append(out, b.pieceMark(q))
	}
	return out
}

func (b *book) pieceMark(q *layout.Piece) string {
	if len(b.l.Perimeters) > 1 {
		return prose(q.Perimeter.Job.Name) + " " + q.Mark
	}
	return q.Mark
}

// familyPages draw a group of families: the patterns at one scale, the formed
// piece, its hand and its tables, on one sheet wherever it can be read.
func (b *book) familyPages(g []*layout.Family) []page {
	f := g[0]
	var all []*layout.Piece
	for _, o := range g {
		all = append(all, o.Pieces...)
	}
	p := page{
		id:    b.id("type", g[0].Mark),
		title: b.say.Say(words.TypeTitle, words.In("marks", b.groupName(g))),
		kind:  ShopSheet,
		paper: b.runs,
		holds: b.l.HoldsOnPieces(all),
		scale: b.say.Say(words.FrameAsNoted),
		about: b.say.Say(words.TypeAbout),
	}
	p.banner = b.releaseWords(all, p.holds)
	if layout.Straight(f) && len(f.Bodies) > 0 {
		p.title = b.say.Say(
			words.TypeTitleWidth, words.In("marks", b.groupName(g)),
			words.In("inside", b.shopShort(f.Pieces[0].Inside)),
		)
		p.named = layout.AllNamed(b.groupFacts(g), factsOf(f.Pieces[0].Mark, "inside"))
	}
	if len(f.Bodies) == 0 {
		note := list{
			title: b.say.Say(words.ShopByHand, words.In("mark", f.Mark)),
			items: []string{
				b.say.Say(
					words.ShopByHandPieces,
					words.In("marks", strings.Join(append(b.pieceMarks(f, true), b.pieceMarks(f, false)...), ", ")),
				),
			},
			plain: true,
		}
		return b.pages(p, []block{note, b.familyFacts(g)}, across)
	}
	twin := ""
	if len(g) == 1 && f.Twin != nil {
		twin = familyID([]*layout.Family{f.Twin})
	}
	return b.compose(p, b.sentence(g), twin, b.patterns(g), b.familyTables(g))
}

// groupName names the families of a drawing.
func (b *book) groupName(g []*layout.Family) string {
	if len(g) > 6 {
		return b.say.Say(words.TypeMany, words.In("mark", g[0].Mark), words.In("n", itoa(len(g)-1)))
	}
	var marks []string
	for _, o := range g {
		marks = append(marks, o.Mark)
	}
	name := strings.Join(marks, ", ")
	if len(g) > 1 {
		return b.say.Say(words.TypeStraight, words.In("marks", name))
	}
	return name
}

// groupFacts names the marks that groupName letters.
func (b *book) groupFacts(g []*layout.Family) string {
	if len(g) > 6 {
		g = g[:1]
	}
	var names []string
	for _, o := range g {
		names = append(names, factsOf(layout.FactOfFamily(o), "mark"))
	}
	return layout.AllNamed(names...)
}

// blanksOf are the blanks of a family, worked out once.
func (b *book) blanksOf(f *layout.Family) []plan.Pattern {
	out, ok := b.blanks[f]
	if !ok {
		out = b.l.Patterns(f)
		b.blanks[f] = out
	}
	return out
}

// formedOf is a family's finished piece, worked out once.
func (b *book) formedOf(f *layout.Family) plan.Formed {
	out, ok := b.formed[f]
	if !ok {
		out = b.l.Formed(f)
		b.formed[f] = out
	}
	return out
}

// patterns are the blanks drawn for a group: of pieces that differ in length
// alone the longest stands for all.
func (b *book) patterns(g []*layout.Family) []plan.Pattern {
	if len(g) == 1 {
		out := slices.Clone(b.blanksOf(g[0]))
		for i := range out {
			out[i].Held = false // the banner says it of the whole sheet
		}
		return out
	}
	var plain []*layout.Family
	var holed []plan.Pattern
	for _, f := range g {
		if len(f.Bodies[0].Holes) == 0 {
			plain = append(plain, f)
			continue
		}
		x := b.blanksOf(f)[0]
		x.Title = f.Mark
		holed = append(holed, x)
	}
	if len(plain) == 0 {
		return holed
	}
	long, held := plain[0], true
	for _, f := range plain {
		held = held && f.Released(b.l.Held) == 0
		if f.Bodies[0].Length > long.Bodies[0].Length {
			long = f
		}
	}
	x := b.blanksOf(long)[0]
	x.Varies, x.Held = len(plain) > 1, held
	x.Title = b.say.Say(words.ShopAllWithoutHoles)
	if len(holed) == 0 {
		x.Title = ""
	}
	return append([]plan.Pattern{x}, holed...)
}

// familyTables are what stands beside and under the patterns of a group, the
// first nearest to them.
func (b *book) familyTables(g []*layout.Family) []block {
	f := g[0]
	out := []block{b.formedBlock(g)}
	if layout.Straight(f) {
		out = append(out, b.lengthTable(g).naming(b.lengthNames(g)))
	}
	for i, x := range f.Bodies {
		if len(x.Bends) > 0 && b.firstBent(f, i) == i {
			out = append(out, b.bendTable(f, i).naming(b.bendNames(f, i)))
		}
	}
	out = append(out, b.seamBlocks(f)...)
	var points []table
	for i, x := range f.Bodies {
		if !x.Square() {
			points = append(points, b.pointTable(f, i).naming(b.pointNames(f, i)))
		}
	}
	if len(points) > 0 {
		out = append(out, shelfOf(points))
		out = append(out, b.details(f)...)
	}
	for _, o := range g {
		for i, x := range o.Bodies {
			if len(x.Holes) > x.Riveted {
				out = append(out, b.holeTable(o, i).naming(b.holeNames(o, i)))
			}
		}
	}
	return append(out, b.familyFacts(g))
}

// firstBent is the first body of a family that is bent like one of its bodies.
func (b *book) firstBent(f *layout.Family, i int) int {
	all := b.blanksOf(f)
	for k := range i {
		if view.SameBends(all[k].Blank, all[i].Blank) {
			return k
		}
	}
	return i
}
