package sheets

import (
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// lineRow is a row of what the crew strings and checks before the first chair: its
// head, its words and the facts that they letter.
type lineRow struct{ head, words, facts string }

// lineFacts are what the crew strings and checks before the first chair.
func (b *book) lineFacts(r *layout.Run) table {
	of := b.planOf(r)
	rows := b.lineRows(of)
	rows = append(rows, b.widthRows(of)...)
	for _, row := range b.twoWidthEnds(r) {
		rows = append(rows, lineRow{head: row[0], words: row[1]})
	}
	rows = append(rows, b.taperRows(of)...)
	if of.Line.Played {
		rows = append(rows, lineRow{"Play at the rear", span(b.short(of.Line.PlayLeast.Real), b.short(of.Line.PlayMost.Real)),
			layout.AllNamed(of.Line.PlayLeast.Fact, of.Line.PlayMost.Fact)})
	}
	rows = append(rows,
		lineRow{"Packing", span(b.short(of.Line.PackLeast.Real), b.short(of.Line.PackMost.Real)) + " at any reading, either face",
			layout.AllNamed(of.Line.PackLeast.Fact, of.Line.PackMost.Fact)},
		lineRow{head: "Set surface", words: b.surface(of)})
	for _, f := range of.Fasteners {
		rows = append(rows, lineRow{head: "Screws", words: b.diameterOf(f.Name, f.Diameter)})
	}
	var words [][]string
	for _, row := range rows {
		words = append(words, []string{row.head, row.words})
	}
	t := facts("String, width, surface and screws", words)
	t.fill = true
	for _, row := range rows {
		t.names = append(t.names, []string{"", row.facts})
	}
	return t
}

// starts says where crew stations start.
func starts(of *plan.Run) string {
	left := of.Left
	switch {
	case of.Datum.Mark != "":
		return of.Datum.Mark
	case left.Break.Word != "":
		return "break in the slope of the wall top at the left hand, the " + left.Break.Word + " " + left.Name + ", front face"
	case left.Step == plan.StepUp:
		return "riser of the step at the left hand, up to run " + left.Beyond
	case left.Step == plan.StepDown:
		return "edge of the step at the left hand, down to run " + left.Beyond + ", plumbed"
	case left.Kind == plan.EndTee:
		return "roof face of the wall of run " + left.Beyond + ", at the front face of this wall"
	case left.Kind == plan.EndFree:
		return "left-hand end of the wall, plumbed"
	case left.Kind == plan.EndWall:
		return "face of the higher wall at the left hand"
	}
	return "plumbed left-hand corner of the wall, front face"
}

// lineRows are the lines of a run and the string.
func (b *book) lineRows(of *plan.Run) []lineRow {
	begins := b.long(length.Abs(of.Datum.Begins.Real)) + " left of the start"
	if of.Datum.Begins.Real > 0 {
		begins = b.long(of.Datum.Begins.Real) + " right of the start"
	}
	measured := "measured"
	if of.Line.Drawn {
		measured = "FROM A DRAWING, not measured"
	}
	rows := []lineRow{
		{head: "Stations start", words: prose(starts(of))},
		{"Cap line begins", begins, of.Datum.Begins.Fact},
		{"Cap line", b.long(of.Cap.Real) + ", pieces and gaps together", of.Cap.Fact},
		{"Wall line", b.long(of.Front.Real) + ", " + measured, of.Front.Fact},
		{head: "String", words: "along the chairs’ front edges, from the first chair to the last"},
	}
	if w := of.ToWall; w.Here {
		at := func(v plan.Value) string {
			if v.Real < 0 {
				return b.short(-v.Real) + " in front of it"
			}
			return b.short(v.Real) + " behind it"
		}
		rows = append(rows, lineRow{"Wall face from string", "left end " + at(w.Left) + "; right end " + at(w.Right) + "; most " + at(w.Most) + " at " + b.long(w.MostAt.Real),
			layout.AllNamed(w.Left.Fact, w.Right.Fact, w.Most.Fact, w.MostAt.Fact)})
	}
	return rows
}

// widthRows are the widths of the wall and of its cap.
func (b *book) widthRows(of *plan.Run) []lineRow {
	v := &of.Line
	var rows []lineRow
	if v.Surveyed {
		rows = append(rows,
			lineRow{"Wall width", span(b.short(v.WidthLeast.Real), b.short(v.WidthMost.Real)), layout.AllNamed(v.WidthLeast.Fact, v.WidthMost.Fact)},
			lineRow{"Width needed", b.short(v.Need.Real) + " at " + b.long(v.NeedAt.Real), layout.AllNamed(v.Need.Fact, v.NeedAt.Fact)})
	}
	outside := v.Outside.Real
	width := "inside " + b.short(v.Inside.Real) + ", outside " + b.short(outside)
	if e := b.shopShort(outside); e != b.short(outside) {
		width += " (" + e + " exact)"
	}
	names := []string{v.Inside.Fact, v.Outside.Fact}
	for _, c := range of.Chairs {
		names = append(names, layout.Named(c.Mark, "inside"))
	}
	if len(v.Tapers) > 0 {
		width, names = "inside "+b.short(v.InsideLeft)+" at the left", nil
	}
	if v.Governs != "" {
		width += ", governed by run " + v.Governs + ", which needs " + b.short(v.GovernsNeed)
	}
	return append(rows, lineRow{"Cap width", width, layout.AllNamed(names...)})
}

// taperRows are where the cap tapers, one row each: a row is never split over pages.
func (b *book) taperRows(of *plan.Run) []lineRow {
	var rows []lineRow
	for _, t := range of.Line.Tapers {
		rows = append(rows, lineRow{head: "Cap tapers", words: b.long(t.From.Real) + " to " + b.long(t.To.Real) + ", into inside " + b.short(t.Right)})
	}
	return rows
}

// surface says how the set surface lies.
func (b *book) surface(of *plan.Run) string {
	v := &of.Line
	words := "level along the run"
	if v.Rise != 0 {
		way := "rises "
		if v.Rise < 0 {
			way = "falls "
		}
		words = way + b.text(length.Abs(v.Rise)) + " from the left end to the right, " + angle(v.Incline) + "; stations are taped along it"
	}
	switch {
	case v.Cross != 0:
		return words + ", falls to the roof by " + slope(v.Cross, b.metric)
	case v.Rise == 0:
		return words + " and across"
	}
	return words + "; level across"
}
