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

// secondSheets show the corners and ends of a perimeter's runs at true shape, run by
// run, as many on a sheet as stand there. A corner stands with the run at whose right
// end it is, so that each has its own figures once.
func (b *book) secondSheets(p *layout.Perimeter) []page {
	var pieces []*layout.Piece
	for _, r := range p.Runs {
		for _, q := range p.Pieces {
			if b.l.Made(q).Making != plan.MadeStraight && q.Parts[0].Run == r.Run {
				pieces = append(pieces, q)
			}
		}
	}
	var out []page
	for len(pieces) > 0 {
		pages, n := together(b, pieces, func(some []*layout.Piece) (page, blocks.Spec, composing) {
			return b.secondOn(p,
				some)
		})
		for _, q := range pieces[:n] {
			b.where[q.Mark] = pages[0].id
		}
		out, pieces = append(out, pages...), pieces[n:]
	}
	return out
}

// secondOn is the second sheet of the runs that some pieces stand with.
func (b *book) secondOn(on *layout.Perimeter, all []*layout.Piece) (page, blocks.Spec, composing) {
	spec := blocks.Spec{Gap: between, Gutter: gutter, Columns: 11000}
	var runs []*layout.Run
	var names []string
	for n, q := range all {
		for _, r := range on.Runs {
			if q.Parts[0].Run == r.Run && !slices.Contains(runs, r) {
				runs, names = append(runs, r), append(names, r.Name)
			}
		}
		spec.Slots = append(spec.Slots, blocks.Slot{Block: b.cornerBlock(q), Cell: blocks.Cell{Row: n},
			ID: fmt.Sprintf("c%d", n+1), Least: cornerLeast})
	}
	spec.Grids = arranged(spec.Slots)
	t := b.stretch(on, runs)
	p := t.page
	p.scale = b.say.Say(words.SectionScale)
	p.title = b.say.Count(words.RunTitle, len(runs), words.In("run", t.title(b)),
		words.In("what", b.say.Say(words.SecondCorners)))
	p.about = b.say.Count(words.SecondAbout, len(runs), words.In("runs", strings.Join(names, ", ")))
	return p, spec, composing{id: []string{"run", on.Job.Name, strings.Join(names, "-")}, caution: true, over: 900,
		head: func(s *drawing.Scene, r drawing.Rect, refer func(string) string) { b.references(s, r, runs, refer) },
		foot: func(s *drawing.Scene, r drawing.Rect, _ []drawing.Mark) {
			place(s, view.KeyPlanSmall(b.say, b.keyPlan(), b.l.SpotOfRuns(runs...), keyWide, r.Height()), r.Min, "key")
		}}
}

// references are bubbles that lead to the first sheet of each run, and to the sheets of
// sections and of the order of work.
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
		var told []string
		for _, run := range runs {
			if id := b.sectionsOf[run]; id != "" && !slices.Contains(told, id) {
				told = append(told, id)
				lead(b.say.Say(words.SecondSections), id)
			}
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
