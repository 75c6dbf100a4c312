package sheets

import (
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// crates makes one checklist for each crate, and one for what was withheld.
// Each starts on a sheet of its own: it travels on a clipboard with its crate.
func (b *book) crates() []page {
	var out []page
	say := b.say.Say
	for i, c := range b.l.Crates {
		first := page{
			id:    b.id("crate", itoa(c.N)),
			kind:  CrateList,
			paper: b.lists,
			about: say(words.CrateAbout),
			title: say(
				words.CrateTitle,
				words.In("n", itoa(c.N)),
				words.In("of", itoa(len(b.l.Crates))),
				words.In("kind", b.crateKind(c)),
			),
		}
		counted := words.CrateSignLines
		if c.Kind != crate.Hardware {
			counted = words.CrateSignPieces
		}
		items, closing := b.crateTable(c), b.closing(
			b.say.Count(counted, len(c.Items), words.In("n", itoa(len(c.Items)))),
			factsOf(layout.FactOfCrate(c), "lines"),
		)
		items.tail = closing.h // a signature stands on the page of the list it signs for
		blocks := []block{b.crateFacts(c)}
		if i == 0 && len(b.l.Withheld) > 0 {
			blocks = append(blocks, b.withheld())
		}
		blocks = append(blocks, items, closing)
		out = append(out, b.pages(first, blocks, across)...)
	}
	if len(b.l.Crates) == 0 && len(b.l.Withheld) > 0 {
		first := page{
			id:    b.id("crate", "withheld"),
			title: say(words.CrateHeldTitle),
			kind:  CrateList,
			paper: b.lists,
			holds: b.l.Holds(),
			about: say(words.CrateHeldAbout),
		}
		first.banner = say(words.CrateHeldBanner)
		out = append(out, b.pages(first, []block{b.withheld()}, across)...)
	}
	return out
}

// crateFacts say what a crate is: when it is opened, what it holds in all, what it
// weighs and how it is lifted.
func (b *book) crateFacts(c *crate.Crate) table {
	say := b.say.Say
	order := [...]words.Key{
		crate.Hardware: words.CrateOpenHardware,
		crate.Corners:  words.CrateOpenCorners,
		crate.Caps:     words.CrateOpenCaps,
	}
	rows := [][]string{
		{say(words.CrateOpen), say(order[c.Kind])}, {say(words.CrateHolds), strings.Join(b.holdsWords(c), " ")},
	}
	names := [][]string{nil, {"", b.holdsNames(c)}}
	if lots := b.lotWords(c); lots != "" {
		names = append(names, []string{"", lotsNames(c)})
		rows = append(rows, []string{say(words.CrateLots), say(words.CrateLotsWords, words.In("lots", lots))})
	}
	names = append(names, []string{"", b.weightNames(c)})
	rows = append(rows, []string{say(words.CrateWeight), strings.Join(append(b.weightWords(c), b.liftWords(c)), " ")})
	if len(c.Over) > 0 {
		var marks []string
		for _, q := range c.Over {
			marks = append(marks, q.Mark)
		}
		rows = append(
			rows,
			[]string{say(words.CrateOver), say(words.CrateOverWords, words.In("marks", strings.Join(marks, ", ")))},
		)
	}
	if c.Kind == crate.Hardware {
		rows = append(
			rows,
			[]string{say(words.CrateWithout), sentences(say(words.CrateWithoutOthers), b.supportsUnfixed())},
		)
	}
	rows = append(rows, []string{say(words.CrateDelivery), say(words.CrateDeliveryBlanks)})
	t := facts("", rows).naming(names)
	t.fill = true
	return t
}

// holdsWords count what a crate holds and name the runs it goes to.
func (b *book) holdsWords(c *crate.Crate) []string {
	n := words.In("n", itoa(len(c.Items)))
	if c.Kind == crate.Hardware {
		k := &b.j.Crating
		return []string{
			b.say.Count(words.CrateHoldsLines, len(c.Items), n),
			b.say.Say(
				words.CrateSpares,
				words.In("chairs", itoa(k.SpareChair)),
				words.In("plates", itoa(k.SpareSplice)),
				words.In("fasteners", itoa(k.SpareFastener)),
				words.In("supports", itoa(k.SpareSupport)),
				words.In("shims", itoa(k.SpareShim)),
				words.In("tape", itoa(k.SpareTape)),
			),
		}
	}
	runs := c.Runs()
	return []string{b.say.Count(words.CrateHoldsPieces, len(c.Items), n, words.In("perimeter", prose(c.Perimeter))),
		b.say.Count(words.CrateHoldsRuns, len(runs), words.In("runs", strings.Join(runs, ", "))),
		b.say.Say(words.CrateHoldsLongest, words.In("length", b.text(c.Longest)))}
}

// lotWords count the pieces of each lot in a crate.
func (b *book) lotWords(c *crate.Crate) string {
	var out []string
	for _, name := range c.Lots() {
		n := 0
		for _, x := range c.Items {
			if x.Lot == name {
				n++
			}
		}
		out = append(out, prose(name)+" ("+itoa(n)+")")
	}
	return strings.Join(out, ", ")
}

// weighed says what the weights are reckoned from.
func (b *book) weighed() string {
	if b.j.Shop != nil {
		return b.say.Say(words.CrateWeighedPatterns)
	}
	return b.say.Say(words.CrateWeighedGirth)
}

// weightWords are the weight of what is in a crate, of the crate, and of both.
func (b *book) weightWords(c *crate.Crate) []string {
	contents := words.In("contents", b.weight(b.crateGrams(c)))
	var out []string
	switch {
	case c.Grams == 0:
		return []string{b.say.Say(words.CrateWeightUnknown)}
	case c.Gross() == 0:
		out = append(out, b.say.Say(words.CrateWeightCrateless, contents))
	default:
		out = append(
			out,
			b.say.Say(
				words.CrateWeightGross, words.In("gross", b.weight(c.Gross())), contents,
				words.In("tare", b.weight(c.Tare)),
			),
		)
	}
	if slices.ContainsFunc(c.Items, func(x crate.Item) bool { return x.Piece != nil && x.Piece.Allowance > 0 }) {
		out = append(out, b.say.Say(words.CrateWeightExtra))
	}
	return out
}

// liftWords say how the closed crate is lifted.
func (b *book) liftWords(c *crate.Crate) string {
	one := b.j.Site.OnePerson
	lift, known := b.l.LiftOfCrate(c)
	switch {
	case !known:
		return b.say.Say(words.CrateLiftUnknown)
	case lift == plan.ByMachine:
		return b.say.Say(words.CrateLiftMachine, words.In("limit", b.weight(2*one)))
	case lift == plan.ByTwo:
		return b.say.Say(
			words.CrateLiftTwo, words.In("limit", b.weight(one)), words.In("long", b.text(b.j.Site.LongPiece)),
		)
	}
	return b.say.Say(words.CrateLiftOne)
}

// crateGrams is the weight of what a crate holds, as shipped.
func (b *book) crateGrams(c *crate.Crate) int64 {
	var sum int64
	for _, x := range c.Items {
		sum += b.sizes(x).grams
	}
	return sum
}

// sized is a line of a packing list with each of its sizes under its own name.
type sized struct {
	what                        string
	long, thick, wide           length.Length // zero: none
	length, thickness, diameter string
	grams                       int64
}

// sizes tells the lengths of a line apart: a shim's is its thickness, a roll's
// is lettered in feet or metres, a screw has a diameter besides.
func (b *book) sizes(x crate.Item) sized {
	z := sized{what: prose(x.What), long: x.Length, grams: x.Grams}
	if q := x.Piece; q != nil {
		z.what, z.length, z.grams = b.l.Made(q).Name, b.shopLong(x.Length), b.l.Weight(q).Shipped
		return z
	}
	z.length = b.shopShort(x.Length)
	switch x.Sort {
	case crate.Shim:
		z.length, z.long = "", 0
		z.thick, z.thickness = x.Length, b.exact(x.Length)
	case crate.Tape:
		z.length = b.say.Say(
			words.CrateFeet,
			words.In("n", strconv.FormatFloat(float64(x.Length)/float64(length.Foot), 'f', -1, 64)),
		)
		if b.metric {
			z.length = b.say.Say(words.CrateMetres, words.In("n", strconv.FormatFloat(x.Length.MM()/1000, 'f', -1, 64)))
		}
	}
	for i := range b.j.Fasteners {
		if f := &b.j.Fasteners[i]; f.Name == x.What {
			z.length, z.wide, z.diameter = b.exact(x.Length), f.Diameter, b.exact(f.Diameter)
		}
	}
	return z
}

// pieceWords are the kind of a piece and what tells its hands and its place in the
// crate from those of its neighbours.
func (b *book) pieceWords(q *layout.Piece) string {
	all := []string{b.kindName(q)}
	switch q.Hand.String() {
	case "left":
		all = append(all, b.say.Say(words.KindHandLeft))
	case "right":
		all = append(all, b.say.Say(words.KindHandRight))
	}
	for _, m := range q.Miters {
		all = append(all, b.turned(m.Corner))
	}
	if q.Allowance > 0 {
		at := words.KindExtraLeft
		if q.CutAt.String() == "right" {
			at = words.KindExtraRight
		}
		all = append(all, b.say.Say(at, words.In("extra", b.shopText(q.Allowance))))
	}
	return strings.Join(all, ", ")
}

// crateTable is one row a line of the packing list, with room to write in. Lots are
// kept apart by a heavier line.
func (b *book) crateTable(c *crate.Crate) table {
	say := b.say.Say
	t := table{title: say(words.CrateListPieces), fill: true, high: 750}
	if c.Kind == crate.Hardware {
		t.title = say(words.CrateListHardware)
		t.cols = []column{
			{head: say(words.CrateColNo), align: drawing.Right},
			{head: say(words.CrateColCount), align: drawing.Right},
			{head: say(words.CrateColSpare), align: drawing.Right},
			{
				head: say(words.CrateColWhat),
				flex: true,
			},
			{head: say(words.CrateColSize)},
			{head: say(words.CrateColLength), align: drawing.Right},
		}
		t.bold = func(_, col int) bool { return col == 1 }
	} else {
		t.cols = []column{
			{head: say(words.CrateColNo), align: drawing.Right},
			{head: say(words.CrateColCount), align: drawing.Right},
			{head: say(words.CrateColMark)},
			{
				head: say(words.CrateColKind),
				flex: true,
			},
			{head: say(words.CrateColLength), align: drawing.Right},
			{head: say(words.CrateColLift)},
			{head: say(words.CrateColLot), flex: true},
		}
		t.bold = func(row, col int) bool {
			return col == 2 || col == 6 && (row == 0 || c.Items[row-1].Lot != c.Items[row].Lot)
		}
		t.ends = func(row int) bool { return row+1 < len(c.Items) && c.Items[row+1].Lot != c.Items[row].Lot }
	}
	t.cols = append(
		t.cols, column{head: say(words.CrateColOk), align: drawing.Middle},
		column{head: say(words.CrateColDamage), least: 1500}, column{head: say(words.CrateColPhoto), least: 800},
		column{head: say(words.CrateColShort), least: 800},
	)
	for i, x := range c.Items {
		row := []string{itoa(i + 1), itoa(x.Count)}
		if x.Piece != nil {
			t.names = append(t.names, b.crateNames(c, i))
			row = append(
				row, x.Mark, b.pieceWords(x.Piece), b.sizes(x).length, b.liftShort(x.Piece), orDash(prose(x.Lot)),
			)
		} else {
			t.names = append(t.names, hardwareNames(c, i))
			row = append(row, b.hardwareRow(x)...)
		}
		t.rows = append(t.rows, append(row, tickBox, "", "", ""))
	}
	return t
}

// hardwareRow are the spares, words and sizes of a line of hardware.
func (b *book) hardwareRow(x crate.Item) []string {
	z := b.sizes(x)
	what, across := b.hardwareName(x), "–"
	if x.Mark != "" {
		what += "\n" + x.Mark
	}
	if x.Box > 0 {
		what += "\n" + b.boxes(x)
	}
	if x.Later > 0 {
		what += "\n" + b.say.Say(words.CrateLater, words.In("n", itoa(x.Later)))
	}
	switch {
	case z.diameter != "":
		across = b.say.Say(words.CrateDiameter, words.In("diameter", z.diameter))
	case z.thickness != "":
		across = b.say.Say(words.CrateThick, words.In("thickness", z.thickness))
	}
	spare := "–"
	if x.Spare > 0 {
		spare = itoa(x.Spare)
	}
	return []string{spare, what, across, orDash(z.length)}
}

// boxes are the boxes that hold a count of screws.
func (b *book) boxes(x crate.Item) string {
	n := (x.Count + x.Box - 1) / x.Box
	return b.say.Count(words.CrateBoxes, n, words.In("n", itoa(n)), words.In("each", itoa(x.Box)))
}

// liftShort is how a piece is lifted, in a column.
func (b *book) liftShort(q *layout.Piece) string {
	switch b.l.Made(q).Lift {
	case plan.ByMachine:
		return b.say.Say(words.KindLiftMachine)
	case plan.ByTwo:
		return b.say.Say(words.KindLiftTwo)
	}
	return b.say.Say(words.KindLiftOne)
}

// withheld lists what is in no crate, so that nobody looks for it.
func (b *book) withheld() table {
	t := table{
		title: b.say.Say(words.CrateHeldHead),
		fill:  true,
		whole: true,
		cols:  []column{b.col(words.CrateColMark), b.col(words.CrateHeldKind), b.flex(words.CrateHeldWhy)},
	}
	for _, q := range b.l.Withheld {
		t.rows = append(t.rows, []string{q.Mark, b.kindName(q), strings.Join(b.holdNames(b.l.Held[q]), "; ")})
	}
	return t
}

// storage says how crates are kept and how pieces are lifted, with whose rule it
// is. The figures of the lifting equation are a caution; the job's limit governs.
func (b *book) storage() []string {
	film, lift := b.say.Say(words.CrateStoreFilm), b.weighed()
	if w := b.j.Crating.FilmOff; w != "" {
		film = b.say.Say(words.CrateStoreFilmOff, words.In("when", w))
	}
	if one := b.j.Site.OnePerson; one > 0 {
		lift = b.say.Say(
			words.CrateStoreLimits, words.In("one", b.weight(one)), words.In("two", b.weight(2*one)),
			words.In("long", b.text(b.j.Site.LongPiece)), words.In("niosh", b.j.Units.InUnits("51 lb (23 kg)")),
		) + " " + lift
	}
	return []string{b.say.Say(words.CrateStoreDry), b.say.Say(words.CrateStoreMove), film, lift}
}

// closing keeps storage and signature together: a signature is not asked for
// on a page that says nothing else.
func (b *book) closing(counted, names string) whole {
	store := list{title: b.say.Say(words.CrateStore), items: b.storage(), names: b.storageNames()}
	sign := b.signature(counted, names)
	lay := func(w drawing.Unit) laid {
		got, _ := store.take(w, 1<<20, true)
		return got
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit { return lay(w).h + between + signHigh },
		draw: func(s *drawing.Scene, r drawing.Rect) {
			lay(r.Width()).draw(s, r.Min)
			sign.draw(s, drawing.Box(r.Min.X, r.Max.Y-signHigh, r.Max.X, r.Max.Y))
		},
	}
}

const signHigh drawing.Unit = 3400

// signature stands at the end: counted and inspected first.
func (b *book) signature(counted, names string) whole {
	say := b.say.Say
	return fixed(signHigh, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			box := drawing.Box(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+signHigh-100)
			g.Rect(drawing.Medium, box)
			x := box.Min.X + 250
			head := say(words.CrateSign)
			z := within(head, drawing.Bold, drawing.Head, box.Width()-500)
			g.Text(drawing.Pt(x, box.Min.Y+600), head, drawing.Style{Size: z, Face: drawing.Bold})
			y := box.Min.Y + 1050
			for _, line := range drawing.Wrap(say(words.CrateSignFirst), drawing.Regular, drawing.Note,
				box.Width()-500) {
				g.Text(drawing.Pt(x, y), line, drawing.Style{})
				y += drawing.Note.Line()
			}
			g.Text(drawing.Pt(x, y+100), counted, drawing.Style{Face: drawing.Bold, Fact: names})
			w := box.Width() / 3
			for i, what := range []words.Key{words.CrateSignName, words.CrateSignSignature, words.CrateSignDate} {
				x := x + drawing.Unit(i)*w
				g.Line(drawing.Thin, drawing.Pt(x, box.Max.Y-550), drawing.Pt(x+w-500, box.Max.Y-550))
				g.Text(drawing.Pt(x, box.Max.Y-170), say(what), drawing.Style{})
			}
		})
	})
}
