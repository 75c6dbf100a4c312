package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/crate"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// crates makes one checklist for each crate, and one for what was withheld.
// Each starts on a sheet of its own: it travels on a clipboard with its crate.
func (b *book) crates() []page {
	var out []page
	for i, c := range b.l.Crates {
		first := page{id: b.id("crate", itoa(c.N)), title: fmt.Sprintf("Crate %d of %d: %s", c.N, len(b.l.Crates), c.Kind), kind: CrateList, paper: b.lists,
			about: "What the crate holds, to be counted and inspected before anyone signs."}
		counted := "lines"
		if c.Kind != crate.Hardware {
			counted = "pieces"
		}
		items, closing := b.crateTable(c), b.closing("Counted ________ of "+itoa(len(c.Items))+" "+counted)
		items.tail = closing.h // a signature stands on the page of the list it signs for
		blocks := []block{b.crateFacts(c)}
		if i == 0 && len(b.l.Withheld) > 0 {
			blocks = append(blocks, b.withheld())
		}
		blocks = append(blocks, items, closing)
		out = append(out, b.pages(first, blocks, across)...)
	}
	if len(b.l.Crates) == 0 && len(b.l.Withheld) > 0 {
		first := page{id: b.id("crate", "withheld"), title: "Pieces withheld", kind: CrateList, paper: b.lists, holds: b.l.Holds(), about: "Pieces not released and in no crate."}
		first.banner = "NOT RELEASED: nothing is crated."
		out = append(out, b.pages(first, []block{b.withheld()}, across)...)
	}
	return out
}

// crateFacts say what a crate is: when it is opened, what it holds in all, what it
// weighs and how it is lifted.
func (b *book) crateFacts(c *crate.Crate) table {
	order := [...]string{"first: chairs, plates, fasteners and tape go up before any cap", "after the hardware: corners and ends are laid before the straight caps", "in laying order: row 1 lies on top and is laid first"}
	rows := [][]string{{"Opened", order[c.Kind]}}
	if c.Kind == crate.Hardware {
		rows = append(rows, []string{"Holds", plural(len(c.Items), "line") + " of hardware. " + b.spareWords()})
	} else {
		rows = append(rows, []string{"Holds", b.holdsWords(c)})
	}
	if lots := b.lotWords(c); lots != "" {
		rows = append(rows, []string{"Lots of finish", lots + ". One elevation, one lot."})
	}
	rows = append(rows, []string{"Weight", b.weightWords(c) + " " + b.liftWords(c)})
	if len(c.Over) > 0 {
		var marks []string
		for _, q := range c.Over {
			marks = append(marks, q.Mark)
		}
		rows = append(rows, []string{"CAUTION", strings.Join(marks, ", ") + " alone: OVER the weight or length the job allows a crate"})
	}
	if c.Kind == crate.Hardware {
		rows = append(rows, []string{"Not in it", othersNote + " " + supportNote})
	}
	rows = append(rows, []string{"Delivery", "ticket no. ____________   date ____________   carrier ____________"})
	t := facts("", rows)
	t.fill = true
	return t
}

// holdsWords count the pieces of a crate and name the runs they go to.
func (b *book) holdsWords(c *crate.Crate) string {
	runs := c.Runs()
	words := plural(len(c.Items), "piece") + " of perimeter " + prose(c.Perimeter) + ", run"
	if len(runs) > 1 {
		words += "s"
	}
	return words + " " + strings.Join(runs, ", ") + "; longest " + b.text(c.Longest)
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

// spareWords are the job's percentages.
func (b *book) spareWords() string {
	k := &b.j.Crating
	return fmt.Sprintf("Spares by the job: chairs %d %%, splice plates %d %%, fasteners %d %%, supports %d %%, shims %d %%, tape %d %%.",
		k.SpareChair, k.SpareSplice, k.SpareFastener, k.SpareSupport, k.SpareShim, k.SpareTape)
}

// weighed says what the weights are reckoned from.
func (b *book) weighed() string {
	if b.j.Shop != nil {
		return "from the developed area of the flat patterns, metal alone"
	}
	return "from girth and length, metal alone"
}

// weightWords are the weight of what is in a crate, of the crate, and of both.
func (b *book) weightWords(c *crate.Crate) string {
	pieces := b.weight(b.crateGrams(c)) + b.allowed(c)
	switch {
	case c.Grams == 0:
		return "GROSS NOT KNOWN: the job does not state what chairs, plates and screws weigh."
	case c.Gross() == 0:
		return "pieces " + pieces + "; GROSS NOT KNOWN: the job does not state what the crate weighs."
	}
	return "GROSS " + b.weight(c.Gross()) + ": pieces " + pieces + ", crate and dunnage " + b.weight(c.Tare) + "."
}

// liftWords say how the closed crate is lifted.
func (b *book) liftWords(c *crate.Crate) string {
	one := b.j.Site.OnePerson
	lift, known := b.l.LiftOfCrate(c)
	switch {
	case !known:
		return "Lift it by machine, or weigh it first."
	case lift == plan.ByMachine:
		return mechanical + ": over the " + b.weight(2*one) + " of two persons."
	case lift == plan.ByTwo:
		return "TWO persons lift it: over " + b.weight(one) + " or longer than " + b.text(b.j.Site.LongPiece) + "."
	}
	return "One person may lift it."
}

// crateGrams is the weight of what a crate holds, as shipped.
func (b *book) crateGrams(c *crate.Crate) int64 {
	var sum int64
	for _, x := range c.Items {
		sum += b.sizes(x).grams
	}
	return sum
}

// allowed says that the weight counts what field closers ship over.
func (b *book) allowed(c *crate.Crate) string {
	for _, x := range c.Items {
		if x.Piece != nil && x.Piece.Allowance > 0 {
			return " with allowance"
		}
	}
	return ""
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
		z.length = strconv.FormatFloat(float64(x.Length)/float64(length.Foot), 'f', -1, 64) + " ft"
		if b.metric {
			z.length = strconv.FormatFloat(x.Length.MM()/1000, 'f', -1, 64) + " m"
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
	what := b.l.Made(q).Name
	if h := q.Hand.String(); h != "" {
		what += ", " + h + " hand"
	}
	for _, m := range q.Miters {
		what += ", " + madeTo(m.Corner)
	}
	if q.Allowance > 0 {
		what += ", long by " + b.shopShort(q.Allowance) + ", cut at the " + q.CutAt.String()
	}
	return what
}

// crateTable is one row a line of the packing list, with room to write in. Lots are
// kept apart by a heavier line.
func (b *book) crateTable(c *crate.Crate) table {
	t := table{title: "Count and look at every piece. OK: all here and sound.", fill: true, high: 750}
	if c.Kind == crate.Hardware {
		t.title = "Count every line. OK: all here and sound."
		t.cols = []column{{head: "No.", align: drawing.Right}, {head: "Count", align: drawing.Right}, {head: "of these spare", align: drawing.Right}, {head: "What", flex: true},
			{head: "Diameter, thickness"}, {head: "Length", align: drawing.Right}}
		t.bold = func(_, col int) bool { return col == 1 }
	} else {
		t.cols = []column{{head: "No.", align: drawing.Right}, {head: "Count", align: drawing.Right}, {head: "Mark"}, {head: "Kind and hand", flex: true},
			{head: "Length", align: drawing.Right}, {head: "Lift"}, {head: "Lot", flex: true}}
		t.bold = func(row, col int) bool {
			return col == 2 || col == 6 && (row == 0 || c.Items[row-1].Lot != c.Items[row].Lot)
		}
		t.ends = func(row int) bool { return row+1 < len(c.Items) && c.Items[row+1].Lot != c.Items[row].Lot }
	}
	t.cols = append(t.cols, column{head: "OK", align: drawing.Middle}, column{head: "Damage", least: 1500}, column{head: "Photo no.", least: 800}, column{head: "Short or over", least: 800})
	for i, x := range c.Items {
		row := []string{itoa(i + 1), itoa(x.Count)}
		if x.Piece != nil {
			row = append(row, x.Mark, b.pieceWords(x.Piece), b.sizes(x).length, b.liftShort(x.Piece), orDash(prose(x.Lot)))
		} else {
			row = append(row, b.hardwareRow(x)...)
		}
		t.rows = append(t.rows, append(row, tickBox, "", "", ""))
	}
	return t
}

// hardwareRow are the spares, words and sizes of a line of hardware.
func (b *book) hardwareRow(x crate.Item) []string {
	z := b.sizes(x)
	what, across := z.what, "–"
	if x.Mark != "" {
		what += "\n" + x.Mark
	}
	if x.Box > 0 {
		what += "\n" + boxes(x)
	}
	switch {
	case z.diameter != "":
		across = z.diameter + " dia."
	case z.thickness != "":
		across = z.thickness + " thick"
	}
	spare := "–"
	if x.Spare > 0 {
		spare = itoa(x.Spare)
	}
	return []string{spare, what, across, orDash(z.length)}
}

// boxes are the boxes that hold a count of screws.
func boxes(x crate.Item) string {
	n := (x.Count + x.Box - 1) / x.Box
	if n == 1 {
		return "1 box of " + itoa(x.Box)
	}
	return itoa(n) + " boxes of " + itoa(x.Box)
}

// liftShort is how a piece is lifted, in a column.
func (b *book) liftShort(q *layout.Piece) string {
	if w := b.lifting(q, "", ""); w != "" {
		return w
	}
	return "one"
}

// withheld lists what is in no crate, so that nobody looks for it.
func (b *book) withheld() table {
	t := table{title: "WITHHELD: not released, in no crate", fill: true, cols: []column{{head: "Mark"}, {head: "Kind"}, {head: "Held by", flex: true}}, whole: true}
	for _, q := range b.l.Withheld {
		t.rows = append(t.rows, []string{q.Mark, b.l.Made(q).Name, strings.Join(b.holdNames(b.l.Held[q]), "; ")})
	}
	return t
}

// storage says how crates are kept and how pieces are lifted, with whose rule it
// is. The figures of the lifting equation are a caution; the job's limit governs.
func (b *book) storage() []string {
	film := "Leave the film on until the cap is set. The job does not state by when the fabricator wants it off: ask."
	if w := b.j.Crating.FilmOff; w != "" {
		film = "Leave the film on until the cap is set, and have it off " + w + ", as the fabricator states."
	}
	lift := "Weights are calculated " + b.weighed() + "."
	if one := b.j.Site.OnePerson; one > 0 {
		lift = "TWO: over " + b.weight(one) + " or longer than " + b.text(b.j.Site.LongPiece) + "; " + mechanical + ": over " + b.weight(2*one) + "; the job's rule. " +
			b.j.Units.InUnits("NIOSH publication 94-110 begins at 51 lb (23 kg) for one person in the best of cases and allows less in all others. ") + lift
	}
	return []string{
		"Keep dry, covered, off the ground on dry timber, a little on the slope, with air under the cover (16.11). Coated metal stacked wet stains: open, dry and report it (14.3). " +
			"14.3, 16.11: New Zealand Metal Roof and Wall Cladding Code of Practice v3.0.",
		"Lift pieces, never drag them; by crane with spreader and soft slings (14.3). On the roof: back from the edge, banded or weighed down. Edges cut: wear gloves.",
		film,
		lift,
	}
}

// closing keeps storage and signature together: a signature is not asked for
// on a page that says nothing else.
func (b *book) closing(counted string) whole {
	store, sign := list{title: "Store and lift", items: b.storage()}, signature(counted)
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

const signHigh drawing.Unit = 3000

// signature stands at the end: counted and inspected first.
func signature(counted string) whole {
	return fixed(signHigh, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			box := drawing.Box(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+signHigh-100)
			g.Rect(drawing.Medium, box)
			x := box.Min.X + 250
			z := drawing.Head
			const head = "COUNTED AND INSPECTED BEFORE SIGNING THE CARRIER’S SLIP"
			for z > drawing.Note && drawing.Width(drawing.Bold, head, z) > box.Width()-500 {
				z -= 10
			}
			g.Text(drawing.Pt(x, box.Min.Y+600), head, drawing.Style{Size: z, Face: drawing.Bold})
			g.Text(drawing.Pt(x, box.Min.Y+1050), "Write shortage and damage above and on the slip first. Photograph damage where it lies.", drawing.Style{})
			g.Text(drawing.Pt(x, box.Min.Y+1550), counted, drawing.Style{Face: drawing.Bold})
			w := box.Width() / 3
			for i, words := range []string{"Name", "Signature", "Date and time"} {
				x := x + drawing.Unit(i)*w
				g.Line(drawing.Thin, drawing.Pt(x, box.Min.Y+2350), drawing.Pt(x+w-500, box.Min.Y+2350))
				g.Text(drawing.Pt(x, box.Min.Y+2730), words, drawing.Style{})
			}
		})
	})
}
