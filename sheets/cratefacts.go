package sheets

import (
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/plan"
)

// The facts that the lists of the crates letter, cell by cell, in the order of their
// columns; lines are counted from nought.

// lineNames are those of a line of a crate's list.
func lineNames(c *crate.Crate, i int, what ...string) string {
	var all []string
	for _, w := range what {
		all = append(all, layout.CrateLine(i)+w)
	}
	return factsOf(layout.FactOfCrate(c), all...)
}

// whatNames are those of the words, the size and the length of a line of hardware.
func whatNames(c *crate.Crate, i int) []string {
	x := c.Items[i]
	what := []string{"what"}
	if x.Mark != "" {
		what = append(what, "mark")
	}
	if x.Inside > 0 && x.Mark == "" && (x.Sort == crate.Chair || x.Sort == crate.Plate) {
		what = append(what, "inside")
	}
	if x.Box > 0 {
		what = append(what, "boxes", "box")
	}
	if x.Later > 0 {
		what = append(what, "later")
	}
	across, long := "", lineNames(c, i, "length")
	switch {
	case x.Sort == crate.Shim:
		across, long = long, ""
	case x.Sort == crate.Screw:
		across = lineNames(c, i, "diameter")
	}
	if x.Length == 0 {
		long = ""
	}
	return []string{lineNames(c, i, what...), across, long}
}

// takeoffNames are those of a line of hardware with its spares.
func takeoffNames(c *crate.Crate, i int) []string {
	spare := ""
	if c.Items[i].Percent > 0 {
		spare = lineNames(c, i, "spare", "spare-percent")
	}
	return append([]string{lineNames(c, i, "needed"), spare, lineNames(c, i, "count")}, whatNames(c, i)...)
}

// hardwareNames are those of a line of hardware that a crew counts.
func hardwareNames(c *crate.Crate, i int) []string {
	spare := ""
	if c.Items[i].Spare > 0 {
		spare = lineNames(c, i, "spare")
	}
	return append([]string{lineNames(c, i, "number"), lineNames(c, i, "count"), spare}, whatNames(c, i)...)
}

// kindFacts are those of the words for a piece: its kind, its hand, how it turns, what
// it has too much.
func (b *book) kindFacts(q *layout.Piece) string {
	out := factsOf(q.Mark, "kind")
	if q.Hand.String() != "" {
		out = layout.AllNamed(out, factsOf(q.Mark, "hand"))
	}
	for _, m := range q.Miters {
		what := []string{"cap-turn", "cap-included"}
		if m.Corner.Straight() {
			what = []string{"bend"}
		}
		out = layout.AllNamed(out, factsOf(layout.FactOfCorner(m.Corner), what...))
	}
	if q.Allowance > 0 {
		out = layout.AllNamed(out, factsOf(q.Mark, "allowance", "cut-at"))
	}
	return out
}

// crateNames are those of a piece that a crew counts.
func (b *book) crateNames(c *crate.Crate, i int) []string {
	x := c.Items[i]
	return []string{lineNames(c, i, "number"), lineNames(c, i, "count"), lineNames(c, i, "mark"),
		b.kindFacts(x.Piece), lineNames(c, i, "length"), factsOf(x.Mark, "lift"), lotNames(c, i)}
}

// packedNames are those of a piece as it goes in.
func (b *book) packedNames(c *crate.Crate, i int) []string {
	x := c.Items[i]
	order, family := lineNames(c, i, "packed"), ""
	if len(c.Items) == 1 {
		order = ""
	}
	if f := b.l.FamilyOf(x.Piece); f != nil {
		family = factsOf(layout.FactOfFamily(f), "mark")
	}
	return []string{order, lineNames(c, i, "mark"), family, b.kindFacts(x.Piece), lineNames(c, i, "length"),
		factsOf(x.Mark, "weight-shipped"), factsOf(x.Mark, "lift"), lotNames(c, i), factsOf(x.Mark, "laying")}
}

// lotNames names the lot of a line that has one.
func lotNames(c *crate.Crate, i int) string {
	if c.Items[i].Lot == "" {
		return ""
	}
	return lineNames(c, i, "lot")
}

// holdsNames are those of what a crate holds.
func (b *book) holdsNames(c *crate.Crate) string {
	if c.Kind == crate.Hardware {
		return layout.AllNamed(factsOf(layout.FactOfCrate(c), "lines"), factsOf("crating", "spare-chair",
			"spare-plate", "spare-fastener", "spare-support", "spare-shim", "spare-tape"))
	}
	return factsOf(layout.FactOfCrate(c), "lines", "perimeter", "longest")
}

// weightNames are those of what a crate weighs and how it is lifted.
func (b *book) weightNames(c *crate.Crate) string {
	out, of := "", layout.FactOfCrate(c)
	switch {
	case c.Grams == 0:
	case c.Gross() == 0:
		out = factsOf(of, "weight")
	default:
		out = factsOf(of, "gross", "weight", "tare")
	}
	switch lift, known := b.l.LiftOfCrate(c); {
	case !known:
	case lift == plan.ByMachine:
		out = layout.AllNamed(out, factsOf("job", "two-persons"))
	case lift == plan.ByTwo:
		out = layout.AllNamed(out, factsOf("job", "one-person", "long-piece"))
	}
	return out
}

// storageNames are those of how the pieces are kept and lifted.
func (b *book) storageNames() []string {
	if b.j.Site.OnePerson == 0 {
		return nil
	}
	return []string{"", "", "", factsOf("job", "one-person", "two-persons", "long-piece")}
}

// lotsNames are those of the lots of a crate, and how many pieces each has.
func lotsNames(c *crate.Crate) string {
	var what []string
	for i, name := range c.Lots() {
		if name != "" {
			what = append(what, layout.CrateLot(i), layout.CrateLot(i)+"-pieces")
		}
	}
	return factsOf(layout.FactOfCrate(c), what...)
}

// fasteningNames are those of a row of the schedule of fasteners by zone.
func fasteningNames(i int, f layout.Fastening) []string {
	is := func(what ...string) string { return factsOf(layout.FactOfFastening(i), what...) }
	long, thread, edge, pilot := "", is("thread-asked"), is("edge-asked"), ""
	if f.Length > 0 {
		long, thread = is("length"), is("thread", "thread-asked")
	}
	if !f.Edge.Unknown {
		edge = is("edge-distance", "edge-asked")
	}
	if f.PilotMost > 0 {
		pilot = is("pilot")
	}
	return []string{is("assembly"), is("wind-zone"), is("row"), long, is("chairs"), is("count"), is("packing"), thread,
		edge, pilot}
}
