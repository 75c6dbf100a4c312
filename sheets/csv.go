package sheets

import (
	"encoding/csv"
	"fmt"
	"io"
	"strings"

	"copingset/layout"
	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/length"
)

// Schedule is one table of the packet as plain rows. Lengths stand as they are
// lettered on the sheets, each followed by a column of plain millimetres for
// whoever computes with them.
type Schedule struct {
	Name   string // file name, as pieces.csv
	Of     string // the perimeter it is of; empty: the whole job
	Header []string
	Rows   [][]string
}

// WriteCSV writes a schedule with a header line.
func WriteCSV(w io.Writer, s Schedule) error {
	c := csv.NewWriter(w)
	if err := c.Write(s.Header); err != nil {
		return err
	}
	for _, r := range s.Rows {
		if len(r) != len(s.Header) {
			return fmt.Errorf("%s: a row of %d cells under a header of %d", s.Name, len(r), len(s.Header))
		}
	}
	if err := c.WriteAll(s.Rows); err != nil {
		return err
	}
	return c.Error()
}

// Schedules are all tables of a layout, in a fixed order.
func Schedules(l *layout.Layout) []Schedule {
	b := newBook(l, Options{})
	return []Schedule{
		b.piecesCSV(), b.jointsCSV(), b.chairsCSV(), b.fastenersCSV(), b.shimsCSV(), b.zonesCSV(), b.cratesCSV(), b.partsCSV(), b.findingsCSV(),
	}
}

// mm letters millimetres to a hundredth, without unit.
func mm(l length.Length) string { return length.Millimetres(l, 2) }

// typed is a length as a spreadsheet takes it: the foot and inch marks of a
// keyboard, as the job file writes them.
func typed(s string) string {
	return strings.NewReplacer("′", "'", "″", `"`, "’", "'", "\u00a0\u00a0", " ", "\u00a0", " ").Replace(s)
}

// some is mm of what there is.
func some(l length.Length) string {
	if l == 0 {
		return ""
	}
	return mm(l)
}

func yesNo(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

func (b *book) piecesCSV() Schedule {
	s := Schedule{Name: "pieces.csv", Header: []string{"perimeter", "mark", "laying", "kind", "hand", "turn", "front", "front mm", "rear", "rear mm", "inside", "inside mm", "narrow end inside", "narrow end inside mm",
		"girth", "girth mm", "allowance", "allowance mm", "cut at", "cut length", "cut length mm", "weight with allowance", "grams with allowance", "lift", "zone", "assembly", "holes", "released", "holds", "held by"}}
	for _, p := range b.l.Perimeters {
		for _, q := range p.Pieces {
			var front, frontMM, rear, rearMM, cut, cutMM, turns, holes []string
			for i, t := range q.Parts {
				front, frontMM = append(front, b.shop.Long(t.Length())), append(frontMM, mm(t.Length()))
				rear, rearMM = append(rear, b.shop.Long(q.RearLength(i))), append(rearMM, mm(q.RearLength(i)))
				f, _ := layout.Shipped(q, i)
				cut, cutMM = append(cut, b.shop.Long(f)), append(cutMM, mm(f))
			}
			for _, o := range q.Cutouts {
				holes = append(holes, typed(b.holeWords(q, o)))
			}
			for _, m := range q.Miters {
				turns = append(turns, shortTurn(m.Corner))
			}
			as := ""
			if q.Assembly != nil {
				as = q.Assembly.Name
			}
			at := ""
			if q.Allowance > 0 {
				at = q.CutAt.String()
			}
			inside := func(as func(length.Length) string) string {
				if q.Kind == cap.Transition {
					return as(q.Inside)
				}
				return b.legByLeg(q, func(p layout.Part) string { return as(p.Inside()) })
			}
			girth := func(as func(length.Length) string) string {
				if q.Kind == cap.Transition {
					return as(q.Girth)
				}
				return b.legByLeg(q, func(p layout.Part) string { return as(p.Girth(&b.j.System)) })
			}
			s.Rows = append(s.Rows, []string{p.Job.Name, q.Mark, itoa(q.Laying), kindOf(q), q.Hand.String(), strings.Join(turns, "; "),
				strings.Join(front, " + "), strings.Join(frontMM, " + "), strings.Join(rear, " + "), strings.Join(rearMM, " + "),
				inside(b.shop.Short), inside(mm), b.shop.Short(q.Narrow), mm(q.Narrow), girth(b.shop.Short), girth(mm), b.shop.Short(q.Allowance), mm(q.Allowance), at,
				strings.Join(cut, " + "), strings.Join(cutMM, " + "), b.weight(b.l.Weight(q).Shipped), fmt.Sprint(b.l.Weight(q).Shipped),
				liftWord(b.l.Weight(q).Lift), q.Zone.String(), as, strings.Join(holes, "; "), yesNo(b.l.Held.Released(q)), strings.Join(b.l.Held[q], " "), strings.Join(holdNames(b.l.Held[q]), "; ")})
		}
	}
	return s
}

func (b *book) jointsCSV() Schedule {
	s := Schedule{Name: "joints.csv", Header: []string{"perimeter", "run", "joint", "kind", "left piece", "right piece", "station", "station mm", "gap", "gap mm", "plate", "plate mm", "movement", "movement mm", "held"}}
	mark := func(q *layout.Piece) string {
		if q == nil {
			return ""
		}
		return q.Mark
	}
	for _, p := range b.l.Perimeters {
		for _, r := range p.Runs {
			for _, q := range r.Joints {
				at := r.ToCrew(q.Centre())
				move, moveMM, held := "", "", ""
				if q.Kind == cap.Expansion {
					move, held = "not stated", q.Held.String()
					if q.Movement != nil {
						move, moveMM = b.crew.Short(*q.Movement), mm(*q.Movement)
					}
				}
				s.Rows = append(s.Rows, []string{p.Job.Name, r.Name, q.Name, [...]string{"plain", "expansion", "kink"}[q.Kind], mark(q.Left), mark(q.Right),
					b.crew.Long(at), mm(at), b.shop.Short(q.Gap()), mm(q.Gap()), b.shop.Short(q.Plate), mm(q.Plate), move, moveMM, held})
			}
		}
	}
	return s
}

func (b *book) chairsCSV() Schedule {
	s := Schedule{Name: "chairs.csv", Header: []string{"perimeter", "run", "chair", "number", "station", "station mm", "stands at", "packing front face", "packing front face mm", "packing rear face", "packing rear face mm",
		"built front mm", "built rear mm", "layers", "shims front", "shims rear", "fastener", "count front", "length front", "length front mm", "count rear", "length rear", "length rear mm", "pilot from top of packing front mm", "pilot from top of packing rear mm", "assembly", "inside width", "inside width mm", "inside at left edge mm", "inside at right edge mm"}}
	for _, p := range b.l.Perimeters {
		for _, r := range p.Runs {
			for _, c := range r.Chairs {
				at := r.ToCrew(c.At)
				row := []string{p.Job.Name, r.Name, c.Name, itoa(c.N), b.crew.Long(at), mm(at), b.standsAt(c), b.crew.Short(c.PackFront), mm(c.PackFront), b.crew.Short(c.PackRear), mm(c.PackRear),
					mm(c.Made(&b.j.Packing, c.ShimFront)), mm(c.Made(&b.j.Packing, c.ShimRear)), itoa(c.Layers), typed(b.shims(c.ShimFront)), typed(b.shims(c.ShimRear))}
				name := ""
				if f := c.Rows[0].Fastener; f != nil {
					name = f.Name
				}
				row = append(row, name)
				for _, w := range c.Rows {
					row = append(row, b.rowCSV(w)...)
				}
				as := ""
				if c.Assembly != nil {
					as = c.Assembly.Name
				}
				left, right := c.Edges(&b.j.System)
				row = append(row, mm(c.Rows[0].Pilot), mm(c.Rows[1].Pilot), as, b.shop.Short(c.Inside), mm(c.Inside), mm(left), mm(right))
				s.Rows = append(s.Rows, row)
			}
		}
	}
	return s
}

func (b *book) rowCSV(w anchor.Row) []string {
	if w.Fastener == nil || w.Length == 0 {
		return []string{itoa(w.Count), "hold", ""}
	}
	return []string{itoa(w.Count), typed(b.exact(w.Length)), mm(w.Length)}
}

func (b *book) fastenersCSV() Schedule {
	s := Schedule{Name: "fasteners.csv", Header: []string{"fastener", "diameter", "diameter mm", "length", "length mm", "perimeter", "run", "count", "in all", "spare", "boxes"}}
	runs := b.l.Runs()
	for _, f := range b.l.FastenerSchedule() {
		for i, n := range f.ByRun {
			if n > 0 {
				s.Rows = append(s.Rows, []string{f.Fastener.Name, typed(b.exact(f.Fastener.Diameter)), mm(f.Fastener.Diameter), typed(b.exact(f.Length)), mm(f.Length), runs[i].Perimeter.Job.Name, runs[i].Name, itoa(n), itoa(f.Count), itoa(f.Spare), itoa(f.Boxes)})
			}
		}
	}
	return s
}

func (b *book) shimsCSV() Schedule {
	s := Schedule{Name: "shims.csv", Header: []string{"perimeter", "run", "thickness", "thickness mm", "front", "rear"}}
	for _, r := range b.l.Runs() {
		for _, c := range b.l.Shims(r) {
			s.Rows = append(s.Rows, []string{r.Perimeter.Job.Name, r.Name, typed(b.exact(c.Thickness)), mm(c.Thickness), itoa(c.Front), itoa(c.Rear)})
		}
	}
	return s
}

func (b *book) zonesCSV() Schedule {
	s := Schedule{Name: "shim-zones.csv", Header: []string{"perimeter", "run", "from", "from mm", "to", "to mm", "layers", "shims front least mm", "shims front most mm", "shims rear least mm", "shims rear most mm"}}
	for _, r := range b.l.Runs() {
		for _, z := range r.BuildUp {
			from, to := r.ToCrew(r.ToCap(z.From)), r.ToCrew(r.ToCap(z.To))
			s.Rows = append(s.Rows, []string{r.Perimeter.Job.Name, r.Name, b.crew.Long(from), mm(from), b.crew.Long(to), mm(to), itoa(z.Layers), mm(z.FrontLeast), mm(z.FrontMost), mm(z.RearLeast), mm(z.RearMost)})
		}
	}
	return s
}

func (b *book) cratesCSV() Schedule {
	s := Schedule{Name: "crates.csv", Header: []string{"crate", "kind", "perimeter", "line", "count", "spare", "what", "mark", "length", "length mm", "thickness", "thickness mm", "diameter", "diameter mm", "grams", "lot", "laid"}}
	for _, c := range b.l.Crates {
		for i, x := range c.Items {
			z, laid := b.sizes(x), ""
			if x.Piece != nil {
				laid = itoa(x.Piece.Laying)
			}
			s.Rows = append(s.Rows, []string{itoa(c.N), c.Kind.String(), c.Perimeter, itoa(i + 1), itoa(x.Count), itoa(x.Spare), typed(z.what), x.Mark,
				typed(z.length), some(z.long), typed(z.thickness), some(z.thick), typed(z.diameter), some(z.wide), fmt.Sprint(z.grams), x.Lot, laid})
		}
	}
	for _, q := range b.l.Withheld {
		long := crate.Shipped(q)
		s.Rows = append(s.Rows, []string{"withheld", "", q.Perimeter.Job.Name, "", "1", "0", kindOf(q), q.Mark, b.shop.Long(long), mm(long), "", "", "", "", fmt.Sprint(b.l.Weight(q).Shipped), q.Lot, itoa(q.Laying)})
	}
	return s
}

func (b *book) findingsCSV() Schedule {
	s := Schedule{Name: "findings.csv", Header: []string{"severity", "code", "file", "line", "column", "perimeter", "run", "corner", "station", "station mm", "pieces", "what", "why", "what to do"}}
	for _, f := range b.l.Findings {
		station, stationMM := "", ""
		if f.Where.HasStation {
			at := b.crewStation(f.Where)
			station, stationMM = b.crew.Long(at), mm(at)
		}
		line, col := "", ""
		if f.At.Line > 0 {
			line, col = itoa(f.At.Line), itoa(f.At.Col)
		}
		s.Rows = append(s.Rows, []string{f.Severity.String(), f.Code, f.At.File, line, col, f.Where.Perimeter, f.Where.Run, f.Where.Corner, station, stationMM, strings.TrimSpace(strings.Join(f.Where.Pieces, " ") + " " + f.Where.Part), f.What, f.Why, f.Mend})
	}
	return s
}

// liftWord is how a piece is lifted, for programs.
func liftWord(l cap.Lift) string { return [...]string{"one person", "two persons", "mechanical"}[l] }
