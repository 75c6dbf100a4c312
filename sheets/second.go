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

// shown is something that the second sheets of a perimeter show: a corner or end at true
// shape, a section, or what found no room on the first sheet of its run.
type shown struct {
	with  []*layout.Run // it stands with: named in the title
	of    []*layout.Run // all that it is true of
	what  words.Key
	piece *layout.Piece
	cuts  []plan.Section
	slots []blocks.Slot
	flow  []blocks.Flow // what is too long to stand whole
}

// sectionLeast is the smallest scale at which the parts of a section can be told apart.
const sectionLeast int64 = 10

// seconds are the second sheets: corners and ends at true shape, sections at chairs and
// joints and what is particular to a run, in the order of the runs, as many on a sheet as
// stand there. A corner stands with the run at whose right end it is, a section with the
// first run that it is true of, so that each is told once: sheets of runs lead to them.
func (b *book) seconds() []page {
	cases := b.l.SectionDrawings()
	var out []page
	for _, p := range b.l.Perimeters {
		on := b.on(p.Job)
		var all []shown
		var told []plan.Section
		for _, r := range p.Runs {
			all = append(all, on.trueShapes(p, r)...)
			for _, c := range cases {
				if c.Run == r {
					all = append(all, on.sectionsOf(c, &told)...)
				}
			}
			for _, t := range b.stretchesOf(p) {
				if t.runs[len(t.runs)-1] == r {
					all = append(all, on.leftOver(t)...)
				}
			}
		}
		var carried []blocks.Note
		sets := on.fewest(all, func(some []shown) (page, blocks.Spec, composing) {
			return on.secondOn(p, some)
		})
		for i, set := range sets {
			first, spec, k := on.secondOn(p, set)
			if k.carried = carried; i < len(sets)-1 {
				k.carry = &carried
			}
			pages := on.its(on.composed(first, spec, k))
			for _, q := range set {
				if q.piece != nil {
					b.where[q.piece.Mark] = pages[0].id
				}
				for _, c := range q.cuts {
					b.where[sectionMark(c.Mark)] = pages[0].id
				}
			}
			out = append(out, pages...)
		}
	}
	return out
}

// fewest parts what is shown into the fewest sheets: in the order of the runs, or where
// that saves a sheet what is of one kind together.
func (b *book) fewest(all []shown, on func([]shown) (page, blocks.Spec, composing)) [][]shown {
	var best [][]shown
	for _, kinds := range [][]words.Key{nil, {words.SecondCorners, words.SecondSections, words.SecondFigures},
		{words.SecondSections, words.SecondCorners, words.SecondFigures}} {
		some := slices.Clone(all)
		slices.SortStableFunc(some, func(x, y shown) int {
			return slices.Index(kinds, x.what) - slices.Index(kinds, y.what)
		})
		var sets [][]shown
		for len(some) > 0 {
			var set []shown
			set, some = together(b, some, on)
			sets = append(sets, set)
		}
		if best == nil || len(sets) < len(best) {
			best = sets
		}
	}
	return best
}

// sectionMark is the section of a chair or joint in look-ups.
func sectionMark(of string) string { return "§" + of }

// trueShapes are the pieces of a run that are not straight.
func (b *book) trueShapes(p *layout.Perimeter, r *layout.Run) (out []shown) {
	for _, q := range p.Pieces {
		if b.l.Made(q).Making == plan.MadeStraight || q.Parts[0].Run != r.Run {
			continue
		}
		of := []*layout.Run{r}
		for _, o := range p.Runs {
			if o != r && slices.ContainsFunc(o.Parts, func(t layout.Part) bool { return t.Piece == q }) {
				of = append(of, o)
			}
		}
		out = append(out, shown{with: of[:1], of: of, what: words.SecondCorners, piece: q,
			slots: []blocks.Slot{{Block: b.cornerBlock(q), Least: cornerLeast}}})
	}
	return out
}

// sectionsOf is a wall, assembly and width through a chair and a joint, and further kinds
// of joints each by itself. What one of those told before says alike is not said again.
func (b *book) sectionsOf(c layout.SectionDrawing, told *[]plan.Section) []shown {
	one := func(of plan.Section, how view.SectionTold, notes ...drawing.Said) shown {
		block := view.Section(b.say, of, how, notes...)
		for _, like := range *told {
			if (like.Joined == nil) != (of.Joined == nil) {
				continue
			}
			if less := view.SectionLike(b.say, of, &like, how, notes...); less.Told() < block.Told() {
				block = less
			}
		}
		*told = append(*told, of)
		return shown{with: []*layout.Run{c.Run}, of: c.Runs, what: words.SecondSections, cuts: []plan.Section{of},
			slots: []blocks.Slot{{Block: block, Least: sectionLeast}}}
	}
	names, facts := []string(nil), []string{factsOf(c.Chair.Name, "inside")}
	for _, a := range c.Assemblies {
		facts = append(facts, factsOf(layout.FactOfAssembly(a), "name", "report"))
		names = append(names, b.say.Say(words.SectionCaseAssembly, words.In("name", a.Name),
			words.In("report", a.Report)))
	}
	out := []shown{one(b.l.Section(c.Run, c.Chair.At, c.Chair, nil), view.SectionPlain,
		drawing.Said{Words: b.say.Count(words.SectionCase, len(names), words.In("runs", b.runsSaid(c.Runs)),
			words.In("assembly", strings.Join(names, ", ")), words.In("inside", b.small(c.Chair.Inside))),
			Fact: layout.AllNamed(facts...)})}
	for i, q := range c.Joints {
		j := one(b.l.SectionAtJoint(q.Run, q.Joint), view.SectionBrief)
		if i > 0 || len(*told) > 2 { // what is told in full stays beside its chair
			out = append(out, j)
			continue
		}
		out[0].cuts, out[0].slots = append(out[0].cuts, j.cuts...), append(out[0].slots, j.slots...)
	}
	return out
}

// leftOver is what stands beside the strips of a run's first sheet where there is room,
// and found none.
func (b *book) leftOver(t stretch) (out []shown) {
	named := func(title string) string {
		return b.say.Count(words.RunTitle, len(t.runs), words.In("run", t.title(b)), words.In("what", title))
	}
	for i, f := range t.rest {
		key := fmt.Sprintf("rest %s %d", strings.Join(t.names(), " "), i)
		x := retitled(f.(flowing).of, named)
		q := shown{with: t.runs, of: t.runs, what: words.SecondFigures}
		whole := &wholeOf{key: key, of: x, widths: restWidths}
		if room := t.page.paper.room(t.page.banner != ""); whole.fits(room.Width(), room.Height()-cautionHigh-1100) {
			q.slots = []blocks.Slot{{Block: whole}}
		} else {
			q.flow = []blocks.Flow{flowing{key, x}}
		}
		out = append(out, q)
	}
	return out
}

// restWidths are the widths of what is left over.
var restWidths = []drawing.Unit{7000, 9000, 12000, 16000}

// secondOn is the second sheet of the runs that some things stand with.
func (b *book) secondOn(on *layout.Perimeter, all []shown) (page, blocks.Spec, composing) {
	spec := blocks.Spec{Gap: secondGap, Gutter: gutter, Columns: 11000, Pack: true}
	var with, of []*layout.Run
	var what []string
	var cuts []plan.Section
	add := func(to *[]*layout.Run, runs []*layout.Run) {
		for _, r := range runs {
			if !slices.Contains(*to, r) {
				*to = append(*to, r)
			}
		}
	}
	for _, q := range all {
		add(&with, q.with)
		add(&of, q.of)
		if said := b.say.Say(q.what); !slices.Contains(what, said) {
			what = append(what, said)
		}
		cuts = append(cuts, q.cuts...)
		for _, s := range q.slots {
			s.ID = fmt.Sprintf("v%d", len(spec.Slots)+1)
			spec.Slots = append(spec.Slots, s)
		}
		spec.Flow = append(spec.Flow, q.flow...)
	}
	p := page{kind: Sections, paper: b.runs, scale: b.say.Say(words.SectionScale)}
	var names []string
	for _, r := range with {
		names = append(names, r.Name)
	}
	for _, r := range of {
		p.runs = append(p.runs, r.Name)
	}
	held := slices.Clone(with)
	for _, q := range all {
		if len(q.cuts) > 0 {
			add(&held, q.of)
		}
	}
	for _, f := range b.l.Holds() {
		if slices.ContainsFunc(held, func(r *layout.Run) bool { return f.Where.TouchesRun(on.Job.Name, r.Name) }) {
			p.holds = append(p.holds, f)
		}
	}
	p.banner = b.runBanner(with, p.holds)
	p.title = b.say.Count(words.RunTitle, len(with), words.In("run", b.of(on, strings.Join(names, ", "))),
		words.In("what", strings.Join(what, ", ")))
	p.about = b.say.Count(words.SecondAbout, len(with), words.In("runs", strings.Join(names, ", ")))
	hatches := view.SectionHatches(b.say, cuts...)
	return p, spec, composing{id: []string{"second", on.Job.Name}, caution: true, over: 800,
		head: func(s *drawing.Scene, r drawing.Rect, refer func(string) string) { b.references(s, r, with, refer) },
		foot: func(s *drawing.Scene, r drawing.Rect, marks []drawing.Mark) {
			w := min(keyWide, r.Width()*55/100)
			place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfRuns(with...), w, r.Height()), r.Min, "key")
			b.legend(s, drawing.Box(r.Min.X+w+400, r.Min.Y, r.Max.X, r.Max.Y),
				view.Drawn(hatches, drawing.Scene{Marks: marks}))
		}}
}

// secondGap stands between what stands under another on a second sheet.
const secondGap drawing.Unit = 450

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

// references are bubbles that lead to the first sheet of each run, and to the order of
// work.
func (b *book) references(s *drawing.Scene, r drawing.Rect, runs []*layout.Run, refer func(string) string) {
	x := r.Min.X
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		lead := func(said, id string) {
			no := refer(id)
			if no == "" {
				return
			}
			w := drawing.Width(drawing.Bold, no, drawing.Note) + 500
			box := drawing.Box(x, r.Min.Y+50, x+w, r.Min.Y+700)
			words := drawing.Width(drawing.Regular, said, drawing.Note)
			if box.Max.X+150+words > r.Max.X {
				return
			}
			bubble(g, box, no)
			g.Text(drawing.Pt(box.Max.X+150, box.Centre().Y+drawing.Unit(drawing.Note)/2), said, drawing.Style{})
			g.Link(box, id)
			x = box.Max.X + words + 750
		}
		for _, run := range runs {
			lead(b.say.Say(words.SecondFirst, words.In("run", run.Name)), b.firsts[run])
		}
		lead(b.say.Say(words.SecondWork), "work")
	})
}

// bubble is the number of a sheet in a rounded box.
func bubble(g *drawing.Scene, box drawing.Rect, no string) {
	h := box.Height() / 2
	a, z := drawing.Pt(box.Min.X+h, box.Centre().Y), drawing.Pt(box.Max.X-h, box.Centre().Y)
	g.Line(drawing.Medium, drawing.Pt(a.X, box.Min.Y), drawing.Pt(z.X, box.Min.Y))
	g.Line(drawing.Medium, drawing.Pt(a.X, box.Max.Y), drawing.Pt(z.X, box.Max.Y))
	g.Arc(drawing.Medium, a, h, 900, 2700)
	g.Arc(drawing.Medium, z, h, 2700, 4500)
	g.Text(drawing.Pt(box.Centre().X, box.Centre().Y+drawing.Unit(drawing.Note)/2), no,
		drawing.Style{Face: drawing.Bold, Align: drawing.Middle})
}
