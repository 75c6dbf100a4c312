package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// parts are the sheets of the small made parts: each with its flat pattern, its
// section, how many, of what and for what; then how they are cut.
func (b *book) parts() []page {
	if len(b.l.Parts) == 0 {
		return nil
	}
	p := page{
		id:    b.id("parts"),
		title: b.say.Say(words.PartsTitle),
		kind:  PartSheet,
		paper: b.runs,
		scale: b.say.Say(words.FrameAsNoted),
		about: b.say.Say(words.PartsAbout),
	}
	none, some := b.heldParts()
	if len(none)+len(some) > 0 {
		p.holds = b.l.Holds()
	}
	switch {
	case len(none) > 0:
		p.banner = b.say.Say(words.PartNoneReleased, words.In("none", strings.Join(none, ", ")))
	case len(some) > 0:
		p.banner = b.say.Say(words.PartSomeReleased, words.In("some", strings.Join(some, ", ")))
	}
	regions := across
	if p.paper.room(p.banner != "").Width() >= 35000 {
		regions = inColumns(2)
	}
	blocks := []block{b.partTable().naming(b.partNames())}
	for _, q := range b.l.Parts {
		blocks = append(blocks, b.partBlock(q, p.paper.room(p.banner != "").Height()))
	}
	blocks = append(blocks, b.partCutting()...)
	return b.pages(p, blocks, regions)
}

// heldParts are the marks of parts of which none may be made, and of those of
// which not all may.
func (b *book) heldParts() (none, some []string) {
	for _, q := range b.l.Parts {
		switch n, _ := q.Make(b.l.Held); {
		case n == 0:
			none = append(none, q.Mark)
		case n < q.Count():
			some = append(some, q.Mark)
		}
	}
	return none, some
}

// partTable is one row for each part.
func (b *book) partTable() table {
	t := table{
		title: b.say.Say(words.PartsTitle),
		fill:  true,
		cols: []column{
			b.col(words.ColPart), b.flex(words.ColWhat), b.right(words.ColCount), b.right(words.ColSpare),
			b.right(words.ColMakeNow), b.flex(words.ColBlankGirthLength), b.flex(words.ColMetal),
			b.right(words.ColEach),
		},
	}
	for _, q := range b.l.Parts {
		n, more := q.Make(b.l.Held)
		blank := b.say.Say(words.PartByHand)
		if len(q.Bodies) > 0 {
			blank = b.inBlank(q.Bodies[0].Girth) + " × " + b.inBlankLong(q.Bodies[0].Length)
		}
		t.rows = append(t.rows, []string{
			q.Mark, b.partName(q), itoa(q.Count()), itoa(q.Spare()), itoa(n + more), blank, b.partMetal(q),
			b.partWeight(q),
		})
	}
	t.bold = func(_, col int) bool { return col == 0 }
	return t
}

// partName names a part with what tells it from its like.
func (b *book) partName(q *layout.MadePart) string {
	name := []string{q.Kind.String()}
	if q.Inside > 0 {
		name = append(name, b.say.Say(words.PartCapInside, words.In("inside", b.shopShort(q.Inside))))
	}
	if q.Tested != "" {
		name = append(name, b.say.Say(words.PartAssembly, words.In("assembly", prose(q.Tested))))
	}
	if q.Twin != nil {
		name = append(name, b.say.Say(words.PartTwinOf, words.In("mark", q.Twin.Mark)))
	}
	return strings.Join(name, ", ")
}

func (b *book) partMetal(q *layout.MadePart) string {
	thick := words.In("thickness", b.thick(q.Thickness))
	if q.Metal == "" {
		return b.say.Say(words.PartMetalUnstated, thick)
	}
	return b.say.Say(words.PartMetalOf, thick, words.In("metal", prose(q.Metal)))
}

func (b *book) partWeight(q *layout.MadePart) string {
	if q.Grams == 0 {
		return "–"
	}
	if b.metric {
		return b.say.Say(words.UnitKg, words.In("n", strconv.FormatFloat(float64(q.Grams)/1000, 'f', 2, 64)))
	}
	return b.say.Say(words.UnitLb, words.In("n", strconv.FormatFloat(float64(q.Grams)/453.59237, 'f', 2, 64)))
}

// partBlock draws one part: what it is and how many, its flat pattern, its
// section.
func (b *book) partBlock(q *layout.MadePart, most drawing.Unit) block {
	title := b.say.Say(words.PartTitle, words.In("mark", q.Mark), words.In("name", b.partName(q)))
	items, names := b.partFacts(q)
	about := layout.AllNamed(factsOf(layout.FactOfPart(q), "mark"), kindNames(q))
	if len(q.Bodies) == 0 {
		return list{
			title: title,
			items: append([]string{b.say.Say(words.PartByHandWhy, words.In("fails", q.Fails))}, items...),
			names: append([]string{factsOf(layout.FactOfPart(q), "fails")}, names...),
			about: about,
			plain: true,
		}
	}
	again := b.say.Say(words.FrameContinued, words.In("title", title))
	return captioned{
		text: list{title: title, again: again, items: items, names: names, about: about, plain: true, tight: true},
		most: most,
		views: func(w, h drawing.Unit) (flat, section drawing.Scene) {
			right := w * 29 / 100
			draw := func(h drawing.Unit) drawing.Scene {
				return view.PartFlat(b.say, q.Mark, b.l.PartBlank(q), w-right-300, h)
			}
			// Two of them stand in a column of a B sheet.
			low := min(9400, h-150)
			if flat = draw(low); flat.H > h {
				flat = draw(low - (flat.H - h)) // what stands beside it is spread beyond it
			}
			return flat, view.PartSection(b.say, b.l.FormedPart(q), right, max(4800, min(flat.H, 7600)))
		},
		names: [2]string{slug("flat-" + q.Mark), slug("section-" + q.Mark)},
	}
}

// partFacts say how many, for what, of what, and what the drawing must say
// besides.
func (b *book) partFacts(q *layout.MadePart) (out, names []string) {
	n, more := q.Make(b.l.Held)
	say := func(phrase string, what ...string) {
		out, names = append(out, phrase), append(names, factsOf(layout.FactOfPart(q), what...))
	}
	if s := q.Sentence(); s != "" {
		say(b.say.Say(words.PartHand, words.In("hand", b.j.Units.OwnUnits(s))), "hand")
	}
	made, counts := b.say.Say(words.PartMake, words.In("n", itoa(n))), []string{"to-make", "for"}
	if more > 0 {
		counts = append(counts, "spares")
		made = b.say.Count(words.PartMakeSpare, more, words.In("n", itoa(n)), words.In("spare", itoa(more)))
	}
	if yes := b.ranges(q.For(b.l.Held, true)); len(yes) > 0 && n > 0 {
		made += ": " + strings.Join(yes, ", ")
	}
	say(made+".", counts...)
	if no := b.ranges(q.For(b.l.Held, false)); len(no) > 0 {
		say(b.say.Say(words.PartHeld, words.In("marks", strings.Join(no, ", "))), "for-held")
	}
	stuff, of := []string{b.say.Say(words.PartMetal, words.In("metal", b.partMetal(q)))}, []string{"metal", "thickness"}
	if len(q.Bodies) > 0 && len(q.Bodies[0].Bends) > 0 {
		stuff = append(
			stuff,
			b.say.Say(words.PartBends, words.In("radius", b.exactly(q.Radius)), words.In("k", trimFloat(q.K))),
		)
		of = append(of, "radius", "k-factor")
	}
	if q.Grams > 0 {
		stuff = append(stuff, b.say.Say(words.PartEach, words.In("weight", b.partWeight(q))))
		of = append(of, "weight")
	}
	if len(q.Bodies) > 0 && len(q.Bodies[0].Holes) > 0 {
		stuff = append(stuff, b.partHoles(q))
		of = append(of, "holes-drilled")
	}
	say(strings.Join(stuff, "; ")+".", of...)
	if phrase, gauges := b.partGauge(q); phrase != "" {
		say(phrase, gauges...)
	}
	if len(q.Words) > 0 {
		say(drawing.Letter(strings.Join(q.Words, " ")), "notes")
	}
	if q.Twin != nil {
		say(b.say.Say(words.PartTwin, words.In("mark", q.Twin.Mark)), "twin")
	}
	for _, fault := range q.Faults {
		out = append(out, b.say.Say(words.PartHold, words.In("what", drawing.Letter(b.j.Units.OwnUnits(fault)))))
	}
	return out, names
}

// partGauge is what the back gauge is set to at each bend of a part, and what it
// touches; the distances on its drawing are those of the lines to scribe.
func (b *book) partGauge(q *layout.MadePart) (phrase string, names []string) {
	if len(q.Bodies) == 0 || len(q.Bodies[0].Bends) == 0 {
		return "", nil
	}
	e := q.Bodies[0].Edges()
	named := strings.NewReplacer("street edge", e.Top, "roof edge", e.Bottom)
	var out []string
	for i, x := range q.Bodies[0].Bends {
		names = append(names, fmt.Sprintf("body-1-bend-%d-gauge", i+1))
		out = append(
			out,
			b.say.Say(
				words.PartGaugeBend, words.In("order", itoa(x.Order)), words.In("gauge", b.inBlank(x.Gauge)),
				words.In("edge", named.Replace(x.GaugeAt)),
			),
		)
	}
	return b.say.Say(words.PartGauge, words.In("bends", strings.Join(out, "; "))), names
}

// partHoles count the holes by diameter.
func (b *book) partHoles(q *layout.MadePart) string {
	var sizes []length.Length
	count := map[length.Length]int{} // look-up only
	for i := range q.Bodies[0].Holes {
		d := b.l.HoleDiameter(q, i)
		if count[d] == 0 {
			sizes = append(sizes, d)
		}
		count[d]++
	}
	var out []string
	for _, d := range sizes {
		out = append(out, itoa(count[d])+" × Ø\u00a0"+b.exactly(d))
	}
	return b.say.Say(words.PartHoles, words.In("holes", strings.Join(out, ", ")))
}

// ranges shorten a list of names that count up: N-J2 to N-J5.
func (b *book) ranges(names []string) []string {
	split := func(s string) (string, int) {
		i := len(s)
		for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
			i--
		}
		n, err := strconv.Atoi(s[i:])
		if err != nil {
			return s, -1
		}
		return s[:i], n
	}
	var out []string
	for i := 0; i < len(names); {
		head, n := split(names[i])
		k := i + 1
		for k < len(names) {
			h, m := split(names[k])
			if n < 0 || h != head || m != n+k-i {
				break
			}
			k++
		}
		switch k - i {
		case 1, 2:
			out = append(out, names[i:k]...)
		default:
			out = append(out, b.say.Say(words.UnitRange, words.In("from", names[i]), words.In("to", names[k-1])))
		}
		i = k
	}
	return out
}

// partCutting is how the released parts are cut, each sheet by itself.
func (b *book) partCutting() []block {
	t := table{
		title: b.say.Say(words.PartCut),
		fill:  true,
		cols: []column{
			b.flex(words.ColSheet), b.flex(words.ColParts), b.flex(words.ColSheets), b.right(words.ColCost),
			b.flex(words.ColHowGood), b.right(words.ColYield),
		},
	}
	strips := table{
		title: b.say.Say(words.PartStrips),
		fill:  true,
		cols: []column{
			b.flex(words.ColSheet), b.right(words.ColTimes), b.right(words.ColStrip),
			b.flex(words.ColBlanksLeftRight),
		},
	}
	for i, lot := range b.l.PartLots {
		of := layout.FactOfPartLot(i)
		name := b.partMetal(lot.Parts[0])
		if len(lot.Plan.Sheets) == 0 {
			from := lettered{b.say.Say(words.PartUnplanned), ""}
			if len(lot.Offcuts) > 0 {
				from = lettered{b.fromOffcuts(lot), factsOf(of, "from-offcuts")}
			}
			of := []lettered{{name, factsOf(of, "metal", "thickness")}, {partMarks(lot), factsOf(of, "parts")}, from}
			t.add(append(of, unnamed("–", "–", "–")...)...)
			continue
		}
		bought, used := lot.Areas()
		p := layout.PartPlan(lot)
		t.add(
			lettered{name, factsOf(of, "metal", "thickness")}, lettered{partMarks(lot), factsOf(of, "parts")},
			b.partStocks(of, lot, p),
			lettered{b.cost(p.Cost, p.Priced, true), factsOf(of, "sheets-price")},
			lettered{b.proven(p, words.CutLeastSheets), provenNames(p, plan.Key(layout.Named(of, "")), "sheets-")},
			lettered{strconv.Itoa(int(100*used/bought)) + " %", factsOf(of, "yield-percent")},
		)
		for i, r := range lot.Plan.Sheets {
			size := lot.Stocks[r.Stock]
			for k, strip := range r.Strips {
				cut := factsOf(of, fmt.Sprintf("sheet-%d-strip-%d", i+1, k+1))
				row := []lettered{{}, {}, {b.inBlank(strip.Width), cut}, {b.cutsOf(lot, r.Strips[k]), cut + "-of"}}
				if k == 0 {
					row[0] = lettered{b.say.Say(
						words.PartSheetOf, words.In("name", name), words.In("n", itoa(i+1)),
						words.In("width", b.shopShort(size.Width)), words.In("length", b.shopLong(size.Length)),
					), factsOf(of, "metal", "thickness", fmt.Sprintf("sheet-%d-size", i+1))}
					row[1] = lettered{itoa(r.Count), factsOf(of, fmt.Sprintf("sheet-%d-count", i+1))}
				}
				strips.add(row...)
			}
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	ripped := words.PartCutHow
	if !b.j.System.Metal.Directional {
		ripped = words.PartCutHowTurned
	}
	if len(strips.rows) == 0 {
		return []block{t}
	}
	return []block{t, list{items: []string{b.say.Say(ripped)}, plain: true}, strips}
}

// partStocks are the sheets that parts are cut from, and what of them is cut from offcuts.
func (b *book) partStocks(of string, lot *layout.PartLot, p plan.CutPlan) lettered {
	if len(lot.Offcuts) == 0 {
		return lettered{b.stocks(p), factsOf(of, "sheets-from")}
	}
	return lettered{b.stocks(p) + "; " + b.fromOffcuts(lot), factsOf(of, "sheets-from", "from-offcuts")}
}

func (b *book) fromOffcuts(lot *layout.PartLot) string {
	var out []string
	for _, x := range lot.Offcuts {
		out = append(out, b.say.Say(words.CutMany, words.In("n", itoa(x.Count)), words.In("mark", x.Part.Mark)))
	}
	return b.say.Say(words.PartOffcuts, words.In("parts", strings.Join(out, ", ")))
}

// cutsOf are the blanks of a strip with their counts.
func (b *book) cutsOf(lot *layout.PartLot, s layout.CutStrip) string {
	var out []string
	for i := 0; i < len(s.Cuts); {
		part, turned, k := lot.Blanks[s.Cuts[i]].Part, s.TurnedAt(i), i
		for k < len(s.Cuts) && lot.Blanks[s.Cuts[k]].Part == part && s.TurnedAt(k) == turned {
			k++
		}
		mark := part.Mark
		if turned {
			mark = b.say.Say(words.CutTurned, words.In("mark", mark))
		}
		out = append(out, b.say.Say(words.CutMany, words.In("n", itoa(k-i)), words.In("mark", mark)))
		i = k
	}
	return strings.Join(out, ", ")
}

func partMarks(lot *layout.PartLot) string {
	var out []string
	for _, q := range lot.Parts {
		out = append(out, q.Mark)
	}
	return strings.Join(out, ", ")
}
