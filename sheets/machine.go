package sheets

import (
	"strings"

	"copingset/drawing/dxf"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/plan"
)

// Machine is a drawing at 1:1 for a machine.
type Machine struct {
	Name    string // file name
	Drawing dxf.Drawing
}

// Machines are the flat patterns of what is released, one file for each body,
// and a key plan of each perimeter. Each is composed at 1:1 from the pattern
// itself, in the units of the job, and never from a sheet.
func Machines(l *layout.Layout) []Machine {
	b := newBook(l, Options{})
	var out []Machine
	cut, plans := l.MachineFiles()
	for _, c := range cut {
		if c.Part != nil {
			out = append(out, Machine{c.Name, b.partDXF(c.Part, c.Rev)})
		} else {
			out = append(out, Machine{c.Name, b.flatDXF(c.Family, c.Body, c.Rev)})
		}
	}
	for i, p := range b.keyPlan().Perimeters {
		out = append(out, Machine{plans[i], b.planDXF(p)})
	}
	return out
}

// unit is what a millimetre is in the drawing.
func (b *book) unit() float64 {
	if b.j.Units == job.Metric {
		return 1
	}
	return 1 / 25.4
}

func (b *book) points(pts []fold.Point) []dxf.Point {
	k := b.unit()
	out := make([]dxf.Point, len(pts))
	for i, p := range pts {
		out[i] = dxf.Point{X: p.X * k, Y: p.Y * k}
	}
	return out
}

// flatDXF is the pattern of one body with its finish side up, street edge at the
// top: what is cut, what is bent which way, and what it is.
func (b *book) flatDXF(f *layout.Family, i int, rev string) dxf.Drawing {
	m := b.j.System.Metal
	mark := f.Mark
	if len(f.Bodies) > 1 {
		mark += " " + f.Bodies[i].Name
	}
	return b.bodyDXF(
		f.Bodies[i],
		mark,
		rev,
		b.say.Say(
			words.MachineMake, words.In("held", itoa(len(b.l.FromSheet(f)))),
			words.In("true", strings.Join(b.marksOf(b.l.FromSheet(f)), ", ")),
		),
		m.Name+" "+b.shop.Thin(m.Thickness),
	)
}

// partDXF is the pattern of a made part.
func (b *book) partDXF(q *layout.MadePart, rev string) dxf.Drawing {
	n, more := q.Make(b.l.Held)
	return b.bodyDXF(
		q.Bodies[0],
		q.Mark,
		rev,
		b.say.Say(words.MachineMake2, words.In("n", itoa(n+more)), words.In("kind", q.Kind.String())),
		strings.TrimSpace(q.Metal+" "+b.shop.Thin(q.Thickness)),
	)
}

func (b *book) bodyDXF(body layout.Body, mark, rev, make, metal string) dxf.Drawing {
	d := dxf.Drawing{Inches: !b.metric}
	k := b.unit()
	d.Lines = append(d.Lines, dxf.Polyline{Layer: dxf.Cut, Points: b.points(body.Outline()), Closed: true})
	round := map[int]layout.Drill{} // look-up only
	for _, q := range body.Drills {
		round[q.Hole] = q
	}
	for i, h := range body.Holes {
		if q, ok := round[i]; ok {
			d.Circles = append(
				d.Circles,
				dxf.Circle{Layer: dxf.Cut, Centre: b.points([]fold.Point{q.At})[0], Radius: q.Diameter / 2 * k},
			)
			continue
		}
		d.Lines = append(d.Lines, dxf.Polyline{Layer: dxf.Cut, Points: b.points(h), Closed: true})
	}
	for _, q := range body.Bends {
		layer := dxf.BendDown
		if q.Up() {
			layer = dxf.BendUp
		}
		from, to := q.Ends()
		d.Lines = append(d.Lines, dxf.Polyline{Layer: layer, Points: b.points([]fold.Point{from, to})})
	}
	w := newBlankWords(body)
	e := body.Edges()
	if e.Left != "" {
		make = b.say.Say(words.MachineLeft, words.In("left", e.Left), words.In("make", make))
	}
	lines := []string{
		b.say.Say(
			words.MachineJobRev, words.In("mark", mark), words.In("number", orDash(prose(b.j.Info.Number))),
			words.In("revision", rev), words.In("preliminary", b.status()),
		),
		b.say.Say(words.MachineFinishFaceTowards, words.In("top", strings.ToUpper(e.Top))),
		make,
		metal,
	}
	w.block(lines)
	for _, q := range body.Bends {
		w.beside(q, itoa(q.Order)+" "+view.BendWords(b.say, q.Hem, q.Line.Turn, q.Line.Radius))
	}
	if etched, ok := w.etch(b.j.Shop.Etch, mark); ok {
		w.notes = append(w.notes, etched)
	}
	for _, n := range w.notes {
		n.At, n.Height = dxf.Point{X: n.At.X * k, Y: n.At.Y * k}, n.Height*k
		d.Notes = append(d.Notes, n)
	}
	return d
}

// planDXF is the key plan of a perimeter: wall lines and cap lines as adjusted
// for drawing. It is to be read, not cut.
func (b *book) planDXF(p plan.KeyPerimeter) dxf.Drawing {
	d := dxf.Drawing{Inches: !b.metric}
	k := b.unit()
	for _, q := range view.KeyLines(p) {
		d.Lines = append(
			d.Lines, dxf.Polyline{Layer: dxf.Reference, Points: b.points([]fold.Point{q.WallFrom, q.WallTo})},
			dxf.Polyline{Layer: dxf.Reference, Points: b.points([]fold.Point{q.CapFrom, q.CapTo})},
		)
		name := q.Run.Name
		if q.Run.Held {
			name = b.say.Say(words.MachineHeld, words.In("run", name))
		}
		mid := fold.Point{X: (q.CapFrom.X + q.CapTo.X) / 2, Y: (q.CapFrom.Y + q.CapTo.Y) / 2}
		d.Notes = append(
			d.Notes,
			dxf.Note{
				Layer:  dxf.Text,
				At:     dxf.Point{X: mid.X * k, Y: mid.Y * k},
				Height: 150 * k,
				Text:   name,
				Centre: true,
			},
		)
	}
	lo := b.points([]fold.Point{{X: 0, Y: -600}})[0]
	d.Notes = append(
		d.Notes,
		dxf.Note{
			Layer:  dxf.Text,
			At:     lo,
			Height: 100 * k,
			Text:   b.say.Say(words.MachineKeyPlan, words.In("name", p.Name)),
		},
	)
	return d
}
