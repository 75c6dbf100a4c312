package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/crate"
)

// packingList is the list the shop packs by: hardware with its spares, then each
// crate in the order in which its pieces go in.
func (b *book) packingList() []page {
	if len(b.l.Crates) == 0 {
		return nil
	}
	first := page{id: b.id("packing"), title: "Packing list and takeoff of hardware", kind: PackingList, paper: b.lists, holds: b.l.Holds(),
		about: "What goes into each crate, in the order in which it goes in, with lots and weights."}
	first.banner = b.holdWords(first.holds)
	how := list{title: "How to pack", items: []string{
		"Row 1 of a crate goes in first, at the bottom. The last row lies on top and is laid first: reverse laying order.",
		"One elevation, one lot of finish: a heavier line parts the lots of a crate.",
		"What is not on this list is not released and goes into no crate.",
		"Weights are calculated " + b.weighed() + "; film and wet add to them.",
	}}
	if s := b.j.Shop; s != nil && s.Seam != nil && s.Seam.After {
		how.items = append(how.items, "Pieces of more than one sheet are "+layout.AfterJoining+" and are a lot of their own: none is packed before it is finished.")
	}
	if n := len(b.l.Withheld); n > 0 {
		var marks []string
		for _, q := range b.l.Withheld {
			marks = append(marks, b.pieceMark(q))
		}
		how.items[2] += " NOT RELEASED: " + strings.Join(marks, ", ") + "."
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
	t := table{title: fmt.Sprintf("Crate %d of %d: %s and consumables, with the job’s spares", c.N, len(b.l.Crates), c.Kind), fill: true,
		cols: []column{{head: "Needed", align: drawing.Right}, {head: "Spare", align: drawing.Right}, {head: "Total", align: drawing.Right}, {head: "What", flex: true},
			{head: "Diameter, thickness"}, {head: "Length", align: drawing.Right}, {head: "In", align: drawing.Middle}}}
	t.bold = func(_, col int) bool { return col == 2 }
	for _, x := range c.Items {
		row := b.hardwareRow(x)
		spare := "–"
		if x.Percent > 0 {
			spare = fmt.Sprintf("%d (%d %%)", x.Spare, x.Percent)
		}
		t.rows = append(t.rows, []string{itoa(x.Count - x.Spare), spare, itoa(x.Count), row[1], row[2], row[3], tickBox})
	}
	return t
}

// packingTable is a crate from the bottom up.
func (b *book) packingTable(c *crate.Crate) table {
	items := c.Packed()
	title := fmt.Sprintf("Crate %d of %d: %s, %s, %s", c.N, len(b.l.Crates), c.Kind, prose(c.Perimeter), plural(len(items), "piece"))
	if g := c.Gross(); g > 0 {
		title += ", gross " + b.weight(g)
	} else {
		title += ", " + b.weight(b.crateGrams(c)) + " without the crate"
	}
	t := table{title: title, fill: true, cols: []column{{head: "Goes in", align: drawing.Right}, {head: "Mark"}, {head: "Shop mark"}, {head: "Kind and hand", flex: true},
		{head: "Length", align: drawing.Right}, {head: "Weight", align: drawing.Right}, {head: "Lift"}, {head: "Lot", flex: true}, {head: "Lay", align: drawing.Right}, {head: "In", align: drawing.Middle}}}
	t.bold = func(_, col int) bool { return col == 1 }
	t.ends = func(row int) bool { return row+1 < len(items) && items[row+1].Lot != items[row].Lot }
	for i, x := range items {
		order := itoa(i + 1)
		switch {
		case len(items) == 1:
			order = "alone"
		case i == 0:
			order += ", bottom"
		case i == len(items)-1:
			order += ", top"
		}
		family := "–"
		if f := b.l.FamilyOf(x.Piece); f != nil {
			family = f.Mark
		}
		z := b.sizes(x)
		t.rows = append(t.rows, []string{order, x.Mark, family, b.pieceWords(x.Piece), z.length, b.weight(z.grams), b.liftShort(x.Piece), orDash(prose(x.Lot)), itoa(x.Piece.Laying), tickBox})
	}
	return t
}
