package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/plan"
)

// chairTable is one row for each chair, with a box to tick.
func (b *book) chairTable(of *plan.Run) table {
	pilots := slices.ContainsFunc(of.Chairs, func(c plan.Chair) bool { return c.Rows[0].Pilot > 0 || c.Rows[1].Pilot > 0 })
	say := b.say.Say
	t := table{title: say(words.RunChairsTitle, words.In("run", prose(of.Name))), cols: []column{
		{head: say(words.RunChairsChair)}, {head: say(words.RunChairsStation), align: drawing.Right}, {head: say(words.RunChairsWhere)},
	}}
	if of.Plies {
		t.cols = append(t.cols, column{head: say(words.RunChairsPlies, words.In("ply", b.exactly(of.Ply))), align: drawing.Middle})
	}
	t.cols = append(t.cols,
		column{head: say(words.RunChairsStreet), align: drawing.Right}, column{head: say(words.RunChairsStreetShims), align: drawing.Left},
		column{head: say(words.RunChairsRoof), align: drawing.Right}, column{head: say(words.RunChairsRoofShims), align: drawing.Left},
		column{head: say(words.RunChairsStreetScrews)}, column{head: say(words.RunChairsRoofScrews)})
	if pilots {
		t.cols = append(t.cols, column{head: say(words.RunChairsPilot)})
	}
	t.cols = append(t.cols, column{head: say(words.RunChairsSet), align: drawing.Middle})
	built := false
	for _, c := range of.Chairs {
		is := func(what ...string) string { return factsOf(c.Mark, what...) }
		where, names := b.standsAt(of, c)
		row := []lettered{{fmt.Sprintf("C%d", c.N), is("number")}, {drawing.Letter(of.ChairTape.Long(c.Station.Real)), c.Station.Fact}, {where, is(names...)}}
		if of.Plies {
			row = append(row, lettered{itoa(c.Plies), is("plies")})
		}
		front, rear := b.packing(c.Front), b.packing(c.Rear)
		built = built || strings.HasSuffix(front, ")") || strings.HasSuffix(rear, ")")
		row = append(row, lettered{front, c.Front.Thick.Fact}, lettered{b.shims(c.Front.Shims), is("shims-front")},
			lettered{rear, c.Rear.Thick.Fact}, lettered{b.shims(c.Rear.Shims), is("shims-rear")})
		for i, w := range c.Rows {
			row = append(row, lettered{b.screws(w, len(of.Fasteners) > 1), is(screwFacts(w, i)...)})
		}
		if pilots {
			row = append(row, lettered{b.pilot(c), is(pilotFacts(c)...)})
		}
		t.add(append(row, lettered{words: tickBox})...)
	}
	if built {
		t.title = say(words.RunChairsTitleBuilt, words.In("run", prose(of.Name)))
	}
	return t
}

// standsAt letters where a chair stands, and names what of it that letters. A run of
// several widths has chairs of several, some cut to a taper.
func (b *book) standsAt(of *plan.Run, c plan.Chair) (words string, what []string) {
	words, what = c.Kind.String(), []string{"stands-at"}
	if c.Joint != "" {
		words, what = layout.StandsAt(words, local(c.Joint, of.Name)), append(what, "joint")
	}
	if len(of.Line.Tapers) > 0 {
		words, what = words+", "+b.short(c.Inside)+" inside", append(what, "inside")
	}
	if left, right := c.Edges[0], c.Edges[1]; left != right {
		what = append(what, "inside-left-edge", "inside-right-edge")
		words += ", tapers " + b.short(left) + " to " + b.short(right)
	}
	return words, what
}

// packing letters the packing at one face and, where plies and shims come to
// something else, what is built.
func (b *book) packing(p plan.Pack) string {
	want, made := b.short(p.Thick.Real), b.exact(p.Built)
	if made == want || made == b.exact(p.Thick.Real) {
		return want
	}
	return want + " (" + made + ")"
}

// screws letters one row of a chair, with the name where the run has several;
// screwFacts names what of the chair that letters.
func (b *book) screws(w plan.Screws, named bool) string {
	if !w.Fits() {
		return b.say.Say(words.RunChairsHold)
	}
	if named {
		return fmt.Sprintf("%d × %s %s", w.Count, prose(w.Name), b.exact(w.Length))
	}
	return fmt.Sprintf("%d × %s", w.Count, b.exact(w.Length))
}

func screwFacts(w plan.Screws, row int) []string {
	name := layout.ScrewsOf(row)
	if !w.Fits() {
		return []string{name}
	}
	return []string{name, name + "-length"}
}

// pilot letters the depths of the pilots of both rows; pilotFacts names them.
func (b *book) pilot(c plan.Chair) string {
	f, r := c.Rows[0].Pilot, c.Rows[1].Pilot
	if f == r {
		return b.short(f)
	}
	return b.short(f) + " / " + b.short(r)
}

func pilotFacts(c plan.Chair) (what []string) {
	for i, w := range c.Rows {
		if w.Pilot != 0 {
			what = append(what, layout.ScrewsOf(i)+"-pilot")
		}
	}
	return what
}
