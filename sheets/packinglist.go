package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/crate"
)

// packingList is the list the shop packs by: hardware with its spares, then each
// crate in the order in which its pieces go in.
func (b *book) packingList() []page {
	if len(b.l.Crates) == 0 {
		return nil
	}
	first := page{
		id:    b.id("packing"),
		title: b.say.Say(words.PackingTitle),
		kind:  PackingList,
		paper: b.lists,
		holds: b.l.Holds(),
		about: b.say.Say(words.PackingAbout),
	}
	first.banner = b.holdWords(first.holds)
	say := b.say.Say
	only := say(words.PackingOnly)
	if n := len(b.l.Withheld); n > 0 {
		var marks []string
		for _, q := range b.l.Withheld {
			marks = append(marks, b.pieceMark(q))
		}
		only = say(words.PackingHeld, words.In("marks", strings.Join(marks, ", ")))
	}
	how := list{
		title: say(words.PackingHow),
		items: []string{
			say(words.PackingOrder), say(words.PackingLots), only, b.weighed() + " " + say(words.PackingFilm),
		},
	}
	if s := b.j.Shop; s != nil && s.Seam != nil && s.Seam.After {
		how.items = append(how.items, say(words.PackingAfter))
	}
	blocks := []block{how}
	for _, c := range b.l.Crates {
		if c.Kind == crate.Hardware {
			blocks = append(blocks, b.takeoff(c))
			continue
		}
		blocks = append(blocks, b.packingTable(c))
	}
	return b.pages(first, blocks, b.wideColumns(blocks))
}

// takeoff counts hardware and consumables with the job's spares.
func (b *book) takeoff(c *crate.Crate) table {
	say := b.say.Say
	t := table{
		title: say(
			words.PackingTakeoff,
			words.In("n", itoa(c.N)),
			words.In("of", itoa(len(b.l.Crates))),
			words.In("kind", b.crateKind(c)),
		),
		about: factsOf(layout.FactOfCrate(c), "number", "of"),
		fill:  true,
		cols: []column{
			{head: say(words.PackingColNeeded), align: drawing.Right},
			{head: say(words.PackingColSpare), align: drawing.Right},
			{head: say(words.PackingColTotal), align: drawing.Right},
			{
				head: say(words.CrateColWhat),
				flex: true,
			},
			{head: say(words.CrateColSize)},
			{head: say(words.CrateColLength), align: drawing.Right},
			{head: say(words.PackingColIn), align: drawing.Middle},
		},
	}
	t.bold = func(_, col int) bool { return col == 2 }
	for i, x := range c.Items {
		row := b.hardwareRow(x)
		spare := "–"
		if x.Percent > 0 {
			spare = say(words.PackingSpare, words.In("n", itoa(x.Spare)), words.In("percent", itoa(x.Percent)))
		}
		t.rows = append(
			t.rows, []string{itoa(x.Count - x.Spare), spare, itoa(x.Count), row[1], row[2], row[3], tickBox},
		)
		t.names = append(t.names, takeoffNames(c, i))
	}
	return t
}

// packingTable is a crate from the bottom up.
func (b *book) packingTable(c *crate.Crate) table {
	items := c.Packed()
	say := b.say.Say
	key, weight, weighs := words.PackingCrateGross, c.Gross(), "gross"
	if weight == 0 {
		key, weight, weighs = words.PackingCrateNet, b.crateGrams(c), "weight"
	}
	title := b.say.Count(
		key, len(items), words.In("n", itoa(c.N)), words.In("of", itoa(len(b.l.Crates))),
		words.In("kind", b.crateKind(c)), words.In("perimeter", prose(c.Perimeter)),
		words.In("count", itoa(len(items))), words.In("weight", b.weight(weight)),
	)
	t := table{
		title: title,
		about: factsOf(layout.FactOfCrate(c), "number", "of", "lines", weighs),
		fill:  true,
		cols: []column{
			{head: say(words.PackingColGoes), align: drawing.Right},
			{head: say(words.CrateColMark)},
			{head: say(words.PackingColShop)},
			{
				head: say(words.CrateColKind),
				flex: true,
			},
			{head: say(words.CrateColLength), align: drawing.Right},
			{head: say(words.PackingColWeight), align: drawing.Right},
			{head: say(words.CrateColLift)},
			{
				head: say(words.CrateColLot),
				flex: true,
			},
			{head: say(words.PackingColLay), align: drawing.Right},
			{head: say(words.PackingColIn), align: drawing.Middle},
		},
	}
	t.bold = func(_, col int) bool { return col == 1 }
	t.ends = func(row int) bool { return row+1 < len(items) && items[row+1].Lot != items[row].Lot }
	for i, x := range items {
		order := itoa(i + 1)
		switch {
		case len(items) == 1:
			order = say(words.PackingAlone)
		case i == 0:
			order = say(words.PackingBottom, words.In("n", order))
		case i == len(items)-1:
			order = say(words.PackingTop, words.In("n", order))
		}
		family := "–"
		if f := b.l.FamilyOf(x.Piece); f != nil {
			family = f.Mark
		}
		z := b.sizes(x)
		t.names = append(t.names, b.packedNames(c, len(items)-1-i))
		t.rows = append(t.rows, []string{
			order, x.Mark, family, b.pieceWords(x.Piece), z.length, b.weight(z.grams), b.liftShort(x.Piece),
			orDash(prose(x.Lot)), itoa(x.Piece.Laying), tickBox,
		})
	}
	return t
}
