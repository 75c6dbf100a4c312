package sheets

import (
	"strings"

	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// lineRow is a row of what the crew strings and checks before the first chair: its
// head, its words and the facts that they letter.
type lineRow struct{ head, words, facts string }

// lineFacts are what the crew strings and checks before the first chair.
func (b *book) lineFacts(r *layout.Run) []lineRow {
	of, say := b.planOf(r), b.say.Say
	rows := append(b.checkRow(of), b.lineRows(of)...)
	if len(of.Chairs) > 0 {
		rows = append(rows, b.standRow(of))
	}
	rows = append(rows, b.widthRows(of)...)
	rows = append(rows, b.twoWidthEnds(r)...)
	rows = append(rows, b.taperRows(of)...)
	if of.Line.Played {
		rows = append(rows, lineRow{say(words.RunWidthPlay), b.span(b.short(of.Line.PlayLeast.Real),
			b.short(of.Line.PlayMost.Real)),
			layout.AllNamed(of.Line.PlayLeast.Fact, of.Line.PlayMost.Fact)})
	}
	return append(rows,
		lineRow{say(words.RunBuild), say(words.RunBuildAt, words.In("range", b.span(b.short(of.Line.PackLeast.Real),
			b.short(of.Line.PackMost.Real)))),
			layout.AllNamed(of.Line.PackLeast.Fact, of.Line.PackMost.Fact)},
		b.surface(of))
}

// starts says where crew stations start.
func (b *book) starts(of *plan.Run) string {
	left, say := of.Left, b.say.Say
	beyond := words.In("run", left.Beyond)
	switch {
	case of.Datum.Mark != "":
		return of.Datum.Mark
	case left.Break.Word != "":
		return say(words.RunStartBreak, words.In("joint", left.Break.Word+" "+left.Name))
	case left.Step == plan.StepUp:
		return say(words.RunStartStepUp, beyond)
	case left.Step == plan.StepDown:
		return say(words.RunStartStepDown, beyond)
	case left.Kind == plan.EndTee:
		return say(words.RunStartTee, beyond)
	case left.Kind == plan.EndFree:
		return say(words.RunStartFree)
	case left.Kind == plan.EndWall:
		return say(words.RunStartWall)
	}
	return say(words.RunStartCorner)
}

// lineRows are the lines of a run.
func (b *book) lineRows(of *plan.Run) []lineRow {
	say := b.say.Say
	wall := say(words.RunLineWallMeasured, words.In("length", b.long(of.Front.Real)))
	if of.Line.Drawn {
		wall = say(words.RunLineWallDrawn, words.In("length", b.long(of.Front.Real)))
	}
	rows := []lineRow{
		{say(words.RunLineCap), say(words.RunLineCapLong, words.In("length", b.long(of.Cap.Real))), of.Cap.Fact},
		{say(words.RunLineWall), wall, of.Front.Fact},
	}
	if w := of.ToWall; w.Here {
		rows = append(rows, lineRow{say(words.RunLineFace), say(words.RunLineFaceAt, words.In("left", b.toward(w.Left)),
			words.In("right", b.toward(w.Right)),
			words.In("most", b.toward(w.Most)), words.In("station", b.long(w.MostAt.Real))),
			layout.AllNamed(w.Left.Fact, w.Right.Fact, w.Most.Fact, w.MostAt.Fact)})
	}
	return rows
}

// widthRows are the widths of the wall and of its cap.
func (b *book) widthRows(of *plan.Run) []lineRow {
	v, say := &of.Line, b.say.Say
	var rows []lineRow
	if v.Surveyed {
		rows = append(rows,
			lineRow{say(words.RunWidthWall), b.span(b.short(v.WidthLeast.Real), b.short(v.WidthMost.Real)),
				layout.AllNamed(v.WidthLeast.Fact, v.WidthMost.Fact)},
			lineRow{say(words.RunWidthNeed), say(words.RunWidthNeedAt, words.In("width", b.short(v.Need.Real)),
				words.In("station", b.long(v.NeedAt.Real))),
				layout.AllNamed(v.Need.Fact, v.NeedAt.Fact)})
	}
	inside, outside := words.In("inside", b.short(v.Inside.Real)), words.In("outside", b.short(v.Outside.Real))
	width := say(words.RunWidthInside, inside, outside)
	if e := b.shopShort(v.Outside.Real); e != b.short(v.Outside.Real) {
		width = say(words.RunWidthExact, inside, outside, words.In("exact", e))
	}
	names := []string{v.Inside.Fact, v.Outside.Fact}
	for _, c := range of.Chairs {
		names = append(names, layout.Named(c.Mark, "inside"))
	}
	if len(v.Tapers) > 0 {
		width = say(words.RunWidthLeft, words.In("inside", b.short(v.InsideLeft.Real)))
		names = []string{v.InsideLeft.Fact}
	}
	if v.Governs != "" {
		width += "; " + say(words.RunWidthGoverned, words.In("run", v.Governs),
			words.In("need", b.short(v.GovernsNeed.Real)))
		names = append(names, v.GovernsNeed.Fact)
	}
	return append(rows, lineRow{say(words.RunWidthCap), width, layout.AllNamed(names...)})
}

// taperRows are where the cap tapers, one row each: a row is never split over pages.
func (b *book) taperRows(of *plan.Run) []lineRow {
	var rows []lineRow
	for _, t := range of.Line.Tapers {
		rows = append(rows, lineRow{b.say.Say(words.RunWidthTaper), b.say.Say(words.RunWidthTaperTo,
			words.In("from", b.long(t.From.Real)),
			words.In("to", b.long(t.To.Real)), words.In("width", b.short(t.Right.Real))),
			layout.AllNamed(t.From.Fact, t.To.Fact, t.Right.Fact)})
	}
	return rows
}

// surface says how the set surface lies, along and across.
func (b *book) surface(of *plan.Run) lineRow {
	v, say := &of.Line, b.say.Say
	rise, incline := words.In("rise", b.text(length.Abs(v.Rise.Real))), words.In("angle", angle(v.Incline))
	var lies, names []string
	if v.Rise.Real != 0 {
		names = append(names, v.Rise.Fact, v.Inclined)
	}
	switch {
	case v.Rise.Real > 0:
		lies = append(lies, say(words.RunSurfaceRises, rise, incline))
	case v.Rise.Real < 0:
		lies = append(lies, say(words.RunSurfaceFalls, rise, incline))
	default:
		lies = append(lies, say(words.RunSurfaceLevel))
	}
	if v.Cross != 0 {
		lies, names = append(lies, say(words.RunSurfaceRoofward, words.In("slope", b.slope(v.Cross)))),
			append(names, v.Crossed)
	} else {
		lies = append(lies, say(words.RunSurfaceAcross))
	}
	return lineRow{say(words.RunSurface), strings.Join(lies, "; "), layout.AllNamed(names...)}
}
