package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing/dxf"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/job"
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
	for _, f := range l.Families {
		if f.Released(b.l.Held) == 0 {
			continue
		}
		for i := range f.Bodies {
			words := []string{"flat", f.Mark}
			if len(f.Bodies) > 1 {
				words = append(words, f.Bodies[i].Name)
			}
			out = append(out, Machine{b.id(words...) + ".dxf", b.flatDXF(f, i)})
		}
	}
	for _, q := range l.Parts {
		if n, _ := q.Make(b.l.Held); n > 0 {
			out = append(out, Machine{b.id("part", q.Mark) + ".dxf", b.partDXF(q)})
		}
	}
	for _, p := range l.Perimeters {
		out = append(out, Machine{b.id("key plan", p.Job.Name) + ".dxf", b.planDXF(p)})
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
func (b *book) flatDXF(f *layout.Family, i int) dxf.Drawing {
	m := b.j.System.Metal
	mark := f.Mark
	if len(f.Bodies) > 1 {
		mark += " " + f.Bodies[i].Name
	}
	return b.bodyDXF(f.Bodies[i], mark, "Make "+itoa(f.Released(b.l.Held))+": "+strings.Join(b.pieceMarks(f, true), ", "), m.Name+" "+b.shop.Thin(m.Thickness))
}

// partDXF is the pattern of a made part.
func (b *book) partDXF(q *layout.MadePart) dxf.Drawing {
	n, more := q.Make(b.l.Held)
	return b.bodyDXF(q.Bodies[0], q.Mark, "Make "+itoa(n+more)+", "+q.Kind.String(), strings.TrimSpace(q.Metal+" "+b.shop.Thin(q.Thickness)))
}

func (b *book) bodyDXF(body layout.Body, mark, make, metal string) dxf.Drawing {
	d := dxf.Drawing{Inches: !b.metric}
	d.Lines = append(d.Lines, dxf.Polyline{Layer: dxf.Cut, Points: b.points(body.Outline()), Closed: true})
	for _, h := range body.Holes {
		d.Lines = append(d.Lines, dxf.Polyline{Layer: dxf.Cut, Points: b.points(h), Closed: true})
	}
	k := b.unit()
	text := func(layer dxf.Layer, x, y, high float64, words string) {
		d.Notes = append(d.Notes, dxf.Note{Layer: layer, At: dxf.Point{X: x * k, Y: y * k}, Height: high * k, Text: words})
	}
	lo, hi := body.Flat.Bounds()
	e := body.Edges()
	for _, q := range body.Bends {
		layer := dxf.BendDown
		if q.Up() {
			layer = dxf.BendUp
		}
		from, to := q.Ends()
		d.Lines = append(d.Lines, dxf.Polyline{Layer: layer, Points: b.points([]fold.Point{from, to})})
		text(dxf.Text, hi.X+10, (from.Y+to.Y)/2-1.5, 3, fmt.Sprintf("%d %s", q.Order, view.BendWords(q)))
	}
	if e.Left != "" {
		make = e.Left + " at the left. " + make
	}
	text(dxf.Mark, lo.X, hi.Y+30, 12, mark)
	text(dxf.Text, lo.X, hi.Y+10, 6, strings.ToUpper(e.Top)+". Finish face towards you. "+make)
	text(dxf.Text, lo.X, lo.Y-16, 6, strings.ToUpper(e.Bottom)+". "+metal)
	return d
}

// planDXF is the key plan of a perimeter: wall lines and cap lines as adjusted
// for drawing. It is to be read, not cut.
func (b *book) planDXF(p *layout.Perimeter) dxf.Drawing {
	d := dxf.Drawing{Inches: !b.metric}
	k := b.unit()
	for _, q := range view.KeyLines(b.l, p) {
		d.Lines = append(d.Lines, dxf.Polyline{Layer: dxf.Mark, Points: b.points([]fold.Point{q.WallFrom, q.WallTo})},
			dxf.Polyline{Layer: dxf.Mark, Points: b.points([]fold.Point{q.CapFrom, q.CapTo})})
		name := q.Run.Name
		if len(b.l.HoldsOn(q.Run)) > 0 {
			name += " HOLD"
		}
		mid := fold.Point{X: (q.CapFrom.X + q.CapTo.X) / 2, Y: (q.CapFrom.Y + q.CapTo.Y) / 2}
		d.Notes = append(d.Notes, dxf.Note{Layer: dxf.Text, At: dxf.Point{X: mid.X * k, Y: mid.Y * k}, Height: 150 * k, Text: name, Centre: true})
	}
	lo := b.points([]fold.Point{{X: 0, Y: -600}})[0]
	d.Notes = append(d.Notes, dxf.Note{Layer: dxf.Text, At: lo, Height: 100 * k, Text: "Key plan of " + p.Job.Name + ", adjusted to close: for reading, not for making. Wall lines inside, cap lines outside."})
	return d
}
