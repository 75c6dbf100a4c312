package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/layout/cap"
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
		blocks := []block{b.crateFacts(c), b.crateTable(c)}
		if i == 0 && len(b.l.Withheld) > 0 {
			blocks = append(blocks, b.withheld())
		}
		blocks = append(blocks, b.closing())
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
		rows = append(rows, []string{"Weight", b.weight(c.Grams) + " of pieces (calculated), crate not counted"})
	}
	if c.Longest > 0 {
		rows = append(rows, []string{"Longest piece", b.text(c.Longest)})
	}
	if c.Over {
		rows = append(rows, []string{"CAUTION", "OVER the weight or length the job allows a crate"})
	}
	rows = append(rows, []string{"Delivery", "ticket no. ____________   date ____________   carrier ____________"})
	t := facts("", rows)
	t.fill = true
	return t
}

// crateTable is one row a line of the packing list, with room to write in.
func (b *book) crateTable(c *crate.Crate) table {
	t := table{title: "Count and look at every piece", fill: true, cols: []column{{head: "No.", align: drawing.Right}, {head: "Count", align: drawing.Right}, {head: "Mark"}, {head: "What", flex: true},
		{head: "Length", align: drawing.Right}, {head: "All here", align: drawing.Middle}, {head: "Sound", align: drawing.Middle},
		{head: "Damage", least: 2200}, {head: "Photo no.", least: 900}, {head: "Short or over", least: 900}}, high: 750}
	for i, x := range c.Items {
		count := itoa(x.Count)
		if x.Spare > 0 {
			count += fmt.Sprintf(" (%d spare)", x.Spare)
		}
		what := prose(x.What)
		if q := x.Piece; q != nil {
			if h := q.Hand.String(); h != "" {
				what += ", " + h + " hand"
			}
			for _, m := range q.Miters {
				what += ", turns " + shortTurn(m.Corner)
			}
			if q.Closer && q.Kind == cap.Straight {
				what = "closer"
			}
			if q.Allowance > 0 {
				what += ", long by " + b.shopShort(q.Allowance) + ", cut at the " + q.CutAt.String()
			}
			if q.TwoPerson {
				what += ", TWO to lift"
			}
		}
		long := "–"
		if x.Length > 0 {
			long = b.short(x.Length)
			if x.Piece != nil || x.Length >= 4*length.Foot { // a cap, or a roll of tape
				long = b.long(x.Length)
			}
		}
		t.rows = append(t.rows, []string{itoa(i + 1), count, orDash(x.Mark), what, long, tickBox, tickBox, "", "", ""})
	}
	return t
}

// withheld lists what is in no crate, so that nobody looks for it.
func (b *book) withheld() table {
	t := table{title: "WITHHELD: not released, in no crate", fill: true, cols: []column{{head: "Mark"}, {head: "Kind"}, {head: "Held by", flex: true}}}
	for _, q := range b.l.Withheld {
		t.rows = append(t.rows, []string{q.Mark, q.Kind.String(), strings.Join(q.Holds, ", ")})
	}
	return t
}

func (b *book) storage() []string {
	return []string{
		"Keep dry, covered and off the ground, a little on the slope so that water runs off, with air under the cover. Sheets stored wet in a stack stain.",
		"Lift pieces off the stack; do not drag one over another. Leave the film on until the cap is set.",
		"On the roof: back from the edge, banded or weighed down. A loose cap flies.",
		"Edges cut. Wear gloves. Pieces marked TWO take two persons.",
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
