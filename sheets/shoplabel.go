package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/crate"
)

// Least sizes of a label that can hold its words.
const (
	labelWide drawing.Unit = 5600
	labelHigh drawing.Unit = 2500
)

// pieceLabels are labels for what is released, in the grid the job asks for.
func (b *book) pieceLabels() []page {
	var pieces []*layout.Piece
	for _, f := range b.l.Families {
		for _, q := range f.Pieces {
			if q.Released() {
				pieces = append(pieces, q)
			}
		}
	}
	if len(pieces) == 0 {
		return nil
	}
	p := page{id: b.id("labels"), title: "Piece labels", kind: PieceLabels, paper: b.lists, about: "Labels of the released pieces with mark, run, hand, length and crate."}
	room := p.paper.room(false)
	cols := max(1, min(b.j.Shop.Labels.Columns, int(room.Width()/labelWide)))
	rows := max(1, min(b.j.Shop.Labels.Rows, int(room.Height()/labelHigh)))
	w, h := room.Width()/drawing.Unit(cols), room.Height()/drawing.Unit(rows)
	var out []page
	for from := 0; from < len(pieces); from += cols * rows {
		here := pieces[from:min(len(pieces), from+cols*rows)]
		q := p
		if from > 0 {
			q.id = b.id(p.id)
			q.title += ", continued"
		}
		q.draw = func(s *drawing.Scene, _ func(string) string) {
			for i, piece := range here {
				x, y := room.Min.X+drawing.Unit(i%cols)*w, room.Min.Y+drawing.Unit(i/cols)*h
				b.label(s, piece, drawing.Box(x, y, x+w, y+h), fmt.Sprintf("l%d", i))
			}
		}
		out = append(out, q)
	}
	return out
}

// label is one label: the mark large, what the crew asks for, and the piece
// from above.
func (b *book) label(s *drawing.Scene, q *layout.Piece, r drawing.Rect, prefix string) {
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		g.Rect(drawing.Thin, r)
		in := r.Inset(150)
		left := in.Width() * 56 / 100
		z := drawing.Size(800)
		for z > drawing.Note && (drawing.Width(drawing.Bold, q.Mark, z) > left || drawing.Unit(z) > r.Height()/4) {
			z -= 20
		}
		y := in.Min.Y + drawing.Unit(z)
		g.Text(drawing.Pt(in.Min.X, y), shorten(q.Mark, drawing.Bold, z, left), drawing.Style{Size: z, Face: drawing.Bold})
		var run []string
		for _, t := range q.Parts {
			run = append(run, t.Run.Name)
		}
		f := b.l.FamilyOf(q)
		lines := []string{"run " + strings.Join(run, ", ")}
		if len(b.l.Perimeters) > 1 {
			lines[0] = prose(q.Perimeter.Job.Name) + " " + lines[0]
		}
		if h := q.Hand.String(); h != "" {
			lines = append(lines, strings.ToUpper(h)+" HAND")
		} else if f != nil && f.Twin != nil {
			lines = append(lines, "twin is "+f.Twin.Mark+": look at L and R")
		}
		long := "length " + b.text(crate.Shipped(q))
		if len(q.Parts) > 1 {
			var legs []string
			for _, t := range q.Parts {
				legs = append(legs, b.long(t.Length()))
			}
			long = "legs from L: " + strings.Join(legs, " + ")
		}
		lines = append(lines, long, b.crateOf(q))
		if f != nil {
			lines[len(lines)-1] += ", family " + f.Mark
		}
		if w := lifting(q, "", " to lift"); w != "" {
			lines = append(lines, w)
		}
		step := min(drawing.Note.Line(), (in.Max.Y-y)/drawing.Unit(len(lines)))
		for _, l := range lines {
			y += max(step, 330)
			z := drawing.Note
			for z > drawing.Small && drawing.Width(drawing.Regular, l, z) > left {
				z -= 10
			}
			g.Text(drawing.Pt(in.Min.X, y), shorten(l, drawing.Regular, z, left), drawing.Style{Size: z})
		}
		if f != nil && len(f.Bodies) > 0 {
			w := in.Width() - left - 100
			place(g, view.FormedTop(b.l, f, w, in.Height()), drawing.Pt(in.Max.X-w, in.Min.Y), prefix)
		}
	})
}

// crateOf says in which crate a piece travels.
func (b *book) crateOf(q *layout.Piece) string {
	for _, c := range b.l.Crates {
		for _, x := range c.Items {
			if x.Piece == q {
				return fmt.Sprintf("crate %d of %d", c.N, len(b.l.Crates))
			}
		}
	}
	return "no crate"
}

// crateLabels are one large label for each crate.
func (b *book) crateLabels() []page {
	if len(b.l.Crates) == 0 {
		return nil
	}
	p := page{id: b.id("crate-labels"), title: "Crate labels", kind: CrateLabels, paper: b.lists, about: "A label for each crate with its number, contents, weight and when it is opened."}
	var blocks []block
	for _, c := range b.l.Crates {
		blocks = append(blocks, b.crateLabel(c))
	}
	return b.pages(p, blocks, across)
}

func (b *book) crateLabel(c *crate.Crate) whole {
	opened := [...]string{"OPEN FIRST", "OPEN SECOND: corners and ends", "OPEN LAST: caps, in laying order from the top"}[c.Kind]
	var marks []string
	for _, x := range c.Items {
		name := x.Mark
		if x.Piece == nil {
			z := b.sizes(x)
			name = itoa(x.Count) + " " + z.what
			for _, size := range []string{z.diameter, z.thickness, z.length} {
				if size != "" {
					name += " " + size
				}
			}
		}
		marks = append(marks, name)
	}
	about := c.Kind.String()
	if c.Perimeter != "" {
		about += ", perimeter " + prose(c.Perimeter)
	}
	facts := []string{about, strings.Join(marks, ", ")}
	if c.Grams > 0 {
		facts = append(facts, b.weight(b.crateGrams(c))+" of pieces, crate not counted")
	}
	if c.Longest > 0 {
		facts = append(facts, "longest piece "+b.text(c.Longest))
	}
	if c.Over {
		facts = append(facts, "CAUTION: over the weight or length the job allows a crate")
	}
	facts = append(facts, "Keep dry and off the ground. Edges cut: wear gloves.")
	wrap := func(w drawing.Unit) (lines []string) {
		for _, f := range facts {
			lines = append(lines, drawing.Wrap(f, drawing.Regular, drawing.Head, w-600)...)
		}
		return lines
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit { return 3000 + drawing.Unit(len(wrap(w)))*drawing.Head.Line() },
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Rect(drawing.Border, r)
			x := r.Min.X + 300
			s.Text(drawing.Pt(x, r.Min.Y+1350), fmt.Sprintf("CRATE %d of %d", c.N, len(b.l.Crates)), drawing.Style{Size: drawing.Display, Face: drawing.Bold})
			s.Text(drawing.Pt(x, r.Min.Y+2150), opened, drawing.Style{Size: drawing.Title, Face: drawing.Bold})
			y := r.Min.Y + 2350
			for _, l := range wrap(r.Width()) {
				y += drawing.Head.Line()
				s.Text(drawing.Pt(x, y), l, drawing.Style{Size: drawing.Head})
			}
		},
	}
}
