package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout/crate"
	"copingset/layout/length"
)

// crates makes one checklist for each crate, and one for what was withheld.
// Each starts on a sheet of its own: it travels on a clipboard with its crate.
func (b *book) crates() []page {
	var out []page
	for i, c := range b.l.Crates {
		first := page{id: b.id("crate", itoa(c.N)), title: fmt.Sprintf("Crate %d of %d: %s", c.N, len(b.l.Crates), c.Kind), kind: CrateList, paper: b.lists,
			about: "What the crate holds, to be counted and inspected before anyone signs."}
		items, closing := b.crateTable(c), b.closing()
		items.tail = closing.h // a signature stands on the page of the list it signs for
		blocks := []block{b.crateFacts(c), items, closing}
		if i == 0 && len(b.l.Withheld) > 0 {
			blocks = append(blocks, b.withheld())
		}
		out = append(out, b.pages(first, blocks, across)...)
	}
	if len(b.l.Crates) == 0 && len(b.l.Withheld) > 0 {
		first := page{id: b.id("crate", "withheld"), title: "Pieces withheld", kind: CrateList, paper: b.lists, holds: b.l.Holds(), about: "Pieces not released and in no crate."}
		first.banner = "NOT RELEASED: nothing is crated."
		out = append(out, b.pages(first, []block{b.withheld()}, across)...)
	}
	return out
}

func (b *book) crateFacts(c *crate.Crate) table {
	order := [...]string{"first: chairs, plates, fasteners and tape go up before any cap", "after the hardware: corners and ends are laid before the straight caps", "in laying order: the first to be laid lies on top"}
	rows := [][]string{{"Opened", order[c.Kind]}}
	if c.Perimeter != "" {
		rows = append(rows, []string{"Perimeter", prose(c.Perimeter)})
	}
	if c.Grams > 0 {
		rows = append(rows, []string{"Weight", b.weight(b.crateGrams(c)) + " of pieces (calculated" + b.allowed(c) + "), crate not counted"})
	}
	if c.Longest > 0 {
		rows = append(rows, []string{"Longest piece", b.text(c.Longest)})
	}
	if c.Over {
		rows = append(rows, []string{"CAUTION", "OVER the weight or length the job allows a crate"})
	}
	if c.Kind == crate.Hardware {
		rows = append(rows, []string{"Not in it", othersNote + " " + supportNote})
	}
	rows = append(rows, []string{"Delivery", "ticket no. ____________   date ____________   carrier ____________"})
	t := facts("", rows)
	t.fill = true
	return t
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
			return ", with allowance"
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
		z.what, z.length, z.grams = kindOf(q), b.shopLong(x.Length), b.l.ShippedGrams(q)
		return z
	}
	z.length = b.shopShort(x.Length)
	switch what, thick := strings.CutSuffix(x.What, ", this thick"); {
	case thick:
		z.what, z.length, z.long = prose(what), "", 0
		z.thick, z.thickness = x.Length, b.exact(x.Length)
	case x.Length == b.j.Crating.TapeRoll && strings.HasPrefix(x.What, "sealant tape"):
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

// crateTable is one row a line of the packing list, with room to write in.
func (b *book) crateTable(c *crate.Crate) table {
	hardware := c.Kind == crate.Hardware
	t := table{title: "Count and look at every piece", fill: true, cols: []column{{head: "No.", align: drawing.Right}, {head: "Count"}}, high: 750}
	if !hardware {
		t.cols = append(t.cols, column{head: "Mark"})
	}
	t.cols = append(t.cols, column{head: "What", flex: true})
	if hardware {
		t.cols = append(t.cols, column{head: "Diameter, thickness"})
	}
	t.cols = append(t.cols, column{head: "Length", align: drawing.Right}, column{head: "All here", align: drawing.Middle}, column{head: "Sound", align: drawing.Middle},
		column{head: "Damage", least: 1600}, column{head: "Photo no.", least: 800}, column{head: "Short or over", least: 800})
	for i, x := range c.Items {
		count := itoa(x.Count)
		if x.Spare > 0 {
			count = fmt.Sprintf("%d + %d spare = %d", x.Count-x.Spare, x.Spare, x.Count)
		}
		z := b.sizes(x)
		what := z.what
		if q := x.Piece; q != nil {
			if h := q.Hand.String(); h != "" {
				what += ", " + h + " hand"
			}
			for _, m := range q.Miters {
				what += ", " + madeTo(m.Corner)
			}
			if q.Allowance > 0 {
				what += ", long by " + b.shopShort(q.Allowance) + ", cut at the " + q.CutAt.String()
			}
			what += lifting(q, ", ", " to lift")
		}
		row := []string{itoa(i + 1), count}
		switch {
		case !hardware:
			row = append(row, orDash(x.Mark), what)
		case z.diameter != "":
			row = append(row, what, z.diameter+" dia.")
		case z.thickness != "":
			row = append(row, what, z.thickness+" thick")
		case x.Mark != "":
			row = append(row, what+"\n"+x.Mark, "–")
		default:
			row = append(row, what, "–")
		}
		t.rows = append(t.rows, append(row, orDash(z.length), tickBox, tickBox, "", "", ""))
	}
	return t
}

// withheld lists what is in no crate, so that nobody looks for it.
func (b *book) withheld() table {
	t := table{title: "WITHHELD: not released, in no crate", fill: true, cols: []column{{head: "Mark"}, {head: "Kind"}, {head: "Held by", flex: true}}, whole: true}
	for _, q := range b.l.Withheld {
		t.rows = append(t.rows, []string{q.Mark, kindOf(q), strings.Join(holdNames(q.Holds), "; ")})
	}
	return t
}

func (b *book) storage() []string {
	return []string{
		"Keep dry, covered and off the ground, a little on the slope so that water runs off, with air under the cover. Sheets stored wet in a stack stain.",
		"Lift pieces off the stack; do not drag one over another. Leave the film on until the cap is set.",
		"On the roof: back from the edge, banded or weighed down. A loose cap flies.",
		"Edges cut. Wear gloves. Pieces marked TWO take two persons, those marked MECHANICAL LIFT a machine.",
	}
}

// closing keeps storage and signature together: a signature is not asked for
// on a page that says nothing else.
func (b *book) closing() whole {
	store, sign := list{title: "Store", items: b.storage()}, signature()
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

const signHigh drawing.Unit = 2800

// signature stands at the end: counted and inspected first.
func signature() whole {
	return fixed(signHigh, func(s *drawing.Scene, r drawing.Rect) {
		s.Group(drawing.Tables, "", func(g *drawing.Scene) {
			box := drawing.Box(r.Min.X, r.Min.Y, r.Max.X, r.Min.Y+2700)
			g.Rect(drawing.Medium, box)
			g.Text(drawing.Pt(box.Min.X+250, box.Min.Y+600), "COUNTED AND INSPECTED BEFORE SIGNING", drawing.Style{Size: drawing.Head, Face: drawing.Bold})
			g.Text(drawing.Pt(box.Min.X+250, box.Min.Y+1070), "Shortage and damage are written above and on the delivery ticket.", drawing.Style{})
			w := box.Width() / 3
			for i, words := range []string{"Name", "Signature", "Date and time"} {
				x := box.Min.X + 250 + drawing.Unit(i)*w
				g.Line(drawing.Thin, drawing.Pt(x, box.Min.Y+2050), drawing.Pt(x+w-500, box.Min.Y+2050))
				g.Text(drawing.Pt(x, box.Min.Y+2450), words, drawing.Style{})
			}
		})
	})
}
