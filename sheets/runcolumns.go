package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// chairRow is a row of the columns under the chairs: its head, and what it says of a
// chair. What it says of all alike is said once beside them.
type chairRow struct {
	head   string
	always bool // stands under every chair, alike or not
	is     func(c plan.Chair) view.RunCell
	once   words.Key // how a value is said once for all chairs, in place of it alone
}

// columns are the rows and columns under the chairs of a run, and what is alike at
// every chair, as rows of a table.
type chairColumns struct {
	rows  []view.RunRow
	cols  []view.RunColumn
	alike []lineRow
}

// alikeFrom is how many chairs have to say the same that it is said once.
const alikeFrom = 3

// chairColumns are the columns of a run: narrow ones letter metric stations upright.
func (b *book) chairColumns(of *plan.Run, narrow bool) chairColumns {
	var t chairColumns
	rows := b.chairRows(of, narrow)
	kept := rows[:0]
	for _, r := range rows {
		if said, facts, ok := sameAtAll(r, of.Chairs); ok {
			if r.once != "" {
				said = b.say.Say(r.once, words.In("value", said))
			}
			t.alike = append(t.alike, lineRow{r.head, said, facts})
			continue
		}
		kept = append(kept, r)
		t.rows = append(t.rows, view.RunRow{Head: r.head})
	}
	for _, c := range of.Chairs {
		col := view.RunColumn{At: c.At}
		for _, r := range kept {
			col.Cells = append(col.Cells, r.is(c))
		}
		t.cols = append(t.cols, col)
	}
	for _, j := range of.Joints {
		if slices.ContainsFunc(of.Chairs, func(c plan.Chair) bool { return c.At == j.Centre }) {
			continue
		}
		col := view.RunColumn{At: j.Centre, Cells: make([]view.RunCell, len(kept))}
		col.Cells[1] = view.RunCell{Lines: []string{local(j.Mark, of.Name)}, Face: drawing.Bold}
		col.Cells[2] = b.stationCell(of, j.Station, narrow)
		t.cols = append(t.cols, col)
	}
	slices.SortStableFunc(t.cols, func(a, z view.RunColumn) int { return cmp.Compare(a.At, z.At) })
	return t
}

// explained says what the heights in the columns are measured from.
func (t chairColumns) explained(b *book) []lineRow {
	for _, k := range []words.Key{words.RunRod, words.RunRodStreet, words.RunRodRoof} {
		head := b.say.Say(k)
		if slices.ContainsFunc(t.rows, func(r view.RunRow) bool { return r.Head == head }) {
			return []lineRow{{head: b.say.Say(words.RunRod), words: b.say.Say(words.RunRodUnder)}}
		}
	}
	for _, k := range []words.Key{words.RunChairsUnder, words.RunChairsUnderStreet, words.RunChairsUnderRoof} {
		head := b.say.Say(k)
		if slices.ContainsFunc(t.rows, func(r view.RunRow) bool { return r.Head == head }) {
			return []lineRow{{head: b.say.Say(words.RunChairsUnder), words: b.say.Say(words.RunUnderDatum)}}
		}
	}
	return nil
}

// sameAtAll is what a row says of all chairs, where it says the same of every one.
func sameAtAll(r chairRow, chairs []plan.Chair) (said, facts string, ok bool) {
	if r.always || len(chairs) < alikeFrom {
		return "", "", false
	}
	var names []string
	for i, c := range chairs {
		q := r.is(c)
		w := q.Words
		if w == "" {
			w = strings.Join(q.Lines, " ")
		}
		if i > 0 && w != said {
			return "", "", false
		}
		said, names = w, append(names, q.Fact)
	}
	return said, layout.AllNamed(names...), true
}

// stationCell letters a station: feet and inches over the fraction, or whole millimetres,
// upright where columns are narrow.
func (b *book) stationCell(of *plan.Run, at plan.Value, narrow bool) view.RunCell {
	return view.RunCell{Lines: stationLines(drawing.Letter(of.ChairTape.Long(at.Real)), of.Metric),
		Upright: narrow && of.Metric, Fact: at.Fact}
}

func stationLines(said string, metric bool) []string {
	if metric {
		return []string{said}
	}
	return strings.Fields(strings.ReplaceAll(said, "\u00a0", " "))
}

// chairRows are the rows of a run's columns, whether their chairs differ or not.
func (b *book) chairRows(of *plan.Run, narrow bool) []chairRow {
	say := b.say.Say
	words1 := func(w, fact string) view.RunCell { return view.RunCell{Words: w, Fact: fact} }
	line := func(w, fact string) view.RunCell { return view.RunCell{Lines: []string{w}, Fact: fact} }
	rows := []chairRow{
		{head: say(words.RunChairsChair), always: true, is: func(c plan.Chair) view.RunCell {
			return view.RunCell{Lines: []string{fmt.Sprintf("C%d", c.N)}, Face: drawing.Bold, Size: drawing.Head,
				Fact: layout.Named(c.Mark, "number")}
		}},
		{head: say(words.RunChairsJoint), always: true, is: func(c plan.Chair) view.RunCell {
			if c.Joint == "" {
				return view.RunCell{}
			}
			said := local(c.Joint, of.Name)
			if c.Kind == plan.ChairAtExpansion {
				said = say(words.RunChairsBy, words.In("joint", said))
			}
			return view.RunCell{Words: said, Face: drawing.Bold, Fact: layout.Named(c.Mark, "joint")}
		}},
		{head: say(words.RunChairsStation), always: true, is: func(c plan.Chair) view.RunCell {
			at := c.Station
			for _, j := range of.Joints {
				if j.Centre == c.At {
					at.Fact = layout.AllNamed(at.Fact, j.Station.Fact)
				}
			}
			return b.stationCell(of, at, narrow)
		}},
	}
	if len(of.Line.Tapers) > 0 {
		rows = append(rows, chairRow{head: say(words.RunChairsInside),
			is: func(c plan.Chair) view.RunCell { return words1(b.short(c.Inside), layout.Named(c.Mark, "inside")) }})
	}
	if of.Plies {
		rows = append(rows, chairRow{head: say(words.RunChairsPlies), is: func(c plan.Chair) view.RunCell {
			return line(itoa(c.Plies), layout.Named(c.Mark, "plies"))
		}})
	}
	rows = append(rows,
		chairRow{head: say(words.RunChairsStreet),
			is: func(c plan.Chair) view.RunCell { return words1(b.packing(c.Front), c.Front.Thick.Fact) }},
		chairRow{head: say(words.RunChairsStreetShims), is: func(c plan.Chair) view.RunCell {
			return words1(stacked(b.shims(c.Front.Shims)), layout.Named(c.Mark, "shims-front"))
		}},
		chairRow{head: say(words.RunChairsRoof), is: func(c plan.Chair) view.RunCell {
			return words1(b.packing(c.Rear),
				c.Rear.Thick.Fact)
		}},
		chairRow{head: say(words.RunChairsRoofShims), is: func(c plan.Chair) view.RunCell {
			return words1(stacked(b.shims(c.Rear.Shims)), layout.Named(c.Mark, "shims-rear"))
		}})
	rows = append(rows, b.screwRows(of)...)
	rows = append(rows, b.heightRows(of)...)
	rows = append(rows, chairRow{head: say(words.RunChairsString), is: func(c plan.Chair) view.RunCell {
		return words1(b.signed(c.StringToWall.Real), c.StringToWall.Fact)
	}})
	return append(rows, chairRow{head: say(words.RunChairsSet), always: true,
		is: func(plan.Chair) view.RunCell { return view.RunCell{Tick: true} }})
}

// stacked keeps the plus of a stack of shims with the shim before it.
func stacked(shims string) string { return strings.ReplaceAll(shims, " +", "\u00a0+") }

// signed letters a short length with its sign.
func (b *book) signed(l length.Length) string {
	if l < 0 {
		return "–" + b.short(-l)
	}
	return b.short(l)
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

// screwRows are count, kind, length and pilot of the screws in both rows of a chair.
func (b *book) screwRows(of *plan.Run) []chairRow {
	say := b.say.Say
	heads := [2][3]words.Key{{words.RunChairsStreetScrews, words.RunChairsStreetLong, words.RunChairsStreetPilot},
		{words.RunChairsRoofScrews, words.RunChairsRoofLong, words.RunChairsRoofPilot}}
	_, _, byScrew := pilotsOf(of)
	var out []chairRow
	for i := range 2 {
		name := layout.ScrewsOf(i)
		out = append(out, chairRow{head: say(heads[i][0]), is: func(c plan.Chair) view.RunCell {
			w := c.Rows[i]
			if !w.Fits() {
				return view.RunCell{Words: say(words.RunChairsHold), Face: drawing.Bold, Fact: layout.Named(c.Mark,
					name)}
			}
			said := itoa(w.Count)
			if len(of.Fasteners) > 1 {
				said += " " + prose(w.Name)
			}
			return view.RunCell{Words: said, Fact: layout.Named(c.Mark, name)}
		}}, chairRow{head: say(heads[i][1]), is: func(c plan.Chair) view.RunCell {
			if !c.Rows[i].Fits() {
				return view.RunCell{}
			}
			return view.RunCell{Words: b.exact(c.Rows[i].Length), Fact: layout.Named(c.Mark, name+"-length")}
		}})
		if !byScrew && slices.ContainsFunc(of.Chairs, func(c plan.Chair) bool { return c.Rows[i].Pilot > 0 }) {
			out = append(out, chairRow{head: say(heads[i][2]), is: func(c plan.Chair) view.RunCell {
				if c.Rows[i].Pilot == 0 {
					return view.RunCell{}
				}
				return view.RunCell{Words: b.short(c.Rows[i].Pilot), Fact: layout.Named(c.Mark, name+"-pilot")}
			}})
		}
	}
	return out
}

// heightRows are the heights of a chair's underside: one where street and roof side
// are at the same.
func (b *book) heightRows(of *plan.Run) []chairRow {
	say := b.say.Say
	street := func(c plan.Chair) view.RunCell {
		return view.RunCell{Words: b.signed(c.UnderFront.Real), Fact: c.UnderFront.Fact}
	}
	roof := func(c plan.Chair) view.RunCell {
		return view.RunCell{Words: b.signed(c.UnderRear.Real), Fact: c.UnderRear.Fact}
	}
	if !of.Elevation.Surveyed {
		return nil
	}
	if of.Benchmark.Here {
		return b.rodRows(of)
	}
	if slices.ContainsFunc(of.Chairs,
		func(c plan.Chair) bool { return b.short(c.UnderFront.Real) != b.short(c.UnderRear.Real) }) {
		return []chairRow{{head: say(words.RunChairsUnderStreet), is: street, once: words.RunUnderAt},
			{head: say(words.RunChairsUnderRoof), is: roof, once: words.RunUnderAt}}
	}
	return []chairRow{{head: say(words.RunChairsUnder), once: words.RunUnderAt, is: func(c plan.Chair) view.RunCell {
		q := street(c)
		q.Fact = layout.AllNamed(q.Fact, c.UnderRear.Fact)
		return q
	}}}
}

// rodRows are what a rod on a chair's base reads, from its reading on the benchmark:
// minus where the chair is higher, plus where it is lower, as a word.
func (b *book) rodRows(of *plan.Run) []chairRow {
	row := func(head words.Key, at func(c plan.Chair) plan.Value, facts func(c plan.Chair) string) chairRow {
		return chairRow{head: b.say.Say(head), once: words.RunRodAt, is: func(c plan.Chair) view.RunCell {
			v := at(c)
			return view.RunCell{Lines: append([]string{b.rodSign(v.Real)}, stationLines(b.long(length.Abs(v.Real)),
				of.Metric)...), Fact: facts(c)}
		}}
	}
	street := func(c plan.Chair) plan.Value { return c.RodFront }
	if slices.ContainsFunc(of.Chairs,
		func(c plan.Chair) bool { return b.long(c.RodFront.Real) != b.long(c.RodRear.Real) }) {
		return []chairRow{row(words.RunRodStreet, street, func(c plan.Chair) string { return c.RodFront.Fact }),
			row(words.RunRodRoof, func(c plan.Chair) plan.Value { return c.RodRear },
				func(c plan.Chair) string { return c.RodRear.Fact })}
	}
	return []chairRow{row(words.RunRod, street, func(c plan.Chair) string {
		return layout.AllNamed(c.RodFront.Fact,
			c.RodRear.Fact)
	})}
}

// rodSign says whether a height over the benchmark is taken off the rod's reading there
// or added to it.
func (b *book) rodSign(over length.Length) string {
	if over < 0 {
		return b.say.Say(words.RunRodPlus)
	}
	return b.say.Say(words.RunRodMinus)
}
