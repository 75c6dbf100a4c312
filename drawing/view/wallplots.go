package view

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// straight draws what the part shows of a line, each stretch by itself.
func (v *wallReport) straight(g *drawing.Scene, pen drawing.Pen, q *wallPlot, of []plan.Pt) {
	for i := 1; i < len(of); i++ {
		if pts := v.line(q, of[i-1:i+1]); len(pts) == 2 && pts[0] != pts[1] {
			g.Line(pen, pts...)
			v.placer.Stroke(60, pts...)
		}
	}
}

// say places a label of a plot near a point of it. What finds no room is said
// below the plots.
func (v *wallReport) say(g *drawing.Scene, q *wallPlot, phrase, fact string, at drawing.Point, toward int) {
	l := place.Label{Lines: []string{phrase}, Facts: []string{fact}, Face: drawing.Bold, About: at, Halo: true}
	got, ok := v.placer.Try(
		l,
		l.Fan(place.Fan{Toward: toward, From: 160, To: 3200, Step: 160, Spread: 180, Reach: 320})...)
	if !ok {
		v.unsaid = append(v.unsaid, drawing.Said{Words: q.title + ": " + phrase, Fact: fact})
	}
	g.Add(got.Marks...)
}

// values of points.
func valuesOf(line []plan.Pt) []length.Length {
	var out []length.Length
	for _, p := range line {
		out = append(out, p.Y)
	}
	return out
}

// widths is the plot of wall widths and needs, with the inside width of the
// cap and the band of needs that it takes.
func (v *wallReport) widths() *wallPlot {
	q := &wallPlot{title: v.said.Say(words.PlotWidth), of: plan.WallWidths}
	q.series = []wallSeries{
		{v.said.Say(words.PlotNeed), v.of.Need, squareMark, drawing.Hidden},
		{v.said.Say(words.PlotWall), v.of.Width, dotMark, drawing.Thin},
	}
	q.extra = append(valuesOf(v.of.Inside), valuesOf(v.of.NeedMost)...)
	for _, least := range valuesOf(v.of.NeedLeast) { // the band's lower edge where it does not make all else small
		if lo := v.of.WidthLeast; least >= lo-(v.of.InsideMost-lo) {
			q.extra = append(q.extra, least)
		}
	}
	q.under = func(g *drawing.Scene, q *wallPlot) {
		for i := 1; i < len(v.of.Inside); i++ {
			a, b := length.Max(v.of.Inside[i-1].X, v.part.From), length.Min(v.of.Inside[i].X, v.part.To)
			if a >= b {
				continue
			}
			edge := func(line []plan.Pt, x length.Length) drawing.Point {
				return drawing.Pt(v.at(x), q.y(length.Max(plan.On(line, x), q.lo)))
			}
			g.Fill(
				drawing.Light,
				drawing.NoPen,
				edge(v.of.NeedMost, a),
				edge(v.of.NeedMost, b),
				edge(v.of.NeedLeast, b),
				edge(v.of.NeedLeast, a),
			)
		}
	}
	q.over = func(g *drawing.Scene, q *wallPlot) { v.straight(g, drawing.Medium, q, v.of.Inside) }
	q.legend = []wallKey{
		lineKey(v.said.Say(words.PlotInsideWidth), drawing.Medium),
		{
			v.said.Say(words.PlotNeeds),
			func(g *drawing.Scene, b drawing.Rect) { g.Fill(drawing.Light, drawing.Thin, b.Corners()...) },
		},
	}
	return q
}

// offsets is the plot of the face with the front-face line that clears it.
func (v *wallReport) offsets() *wallPlot {
	q := &wallPlot{title: v.said.Say(words.PlotOffset), of: plan.WallOffsets}
	face := v.said.Say(words.PlotFace)
	if v.of.Low {
		face = v.said.Say(words.PlotFaceLow)
		q.series = append(q.series, wallSeries{v.said.Say(words.PlotFaceTop), v.of.Top, squareMark, drawing.Hidden})
	}
	q.series = append(q.series, wallSeries{face, v.of.Face, dotMark, drawing.Thin})
	q.extra = append([]length.Length{0}, valuesOf(v.of.Line)...)
	q.over = func(g *drawing.Scene, q *wallPlot) {
		v.straight(g, drawing.Centre, q, []plan.Pt{{X: 0}, {X: v.of.Front}})
		v.straight(g, drawing.String, q, v.of.Line)
		if !v.gap() {
			return
		}
		x := v.at(v.of.GapAt)
		a, b := q.y(v.of.GapFrom), q.y(v.of.GapTo)
		g.Line(drawing.Thin, drawing.Pt(x, a), drawing.Pt(x, b))
		for _, y := range []drawing.Unit{a, b} {
			g.Line(drawing.Medium, drawing.Pt(x-100, y+100), drawing.Pt(x+100, y-100))
		}
	}
	q.legend = []wallKey{
		lineKey(v.said.Say(words.PlotLine), drawing.String),
		lineKey(v.said.Say(words.PlotWallLine), drawing.Centre),
	}
	return q
}

// gap says that the part shows the greatest gap.
func (v *wallReport) gap() bool { return v.of.GapMost > 0 && v.shows(v.of.GapAt) }

// tops is the plot of both edges of the wall top with the set surface.
func (v *wallReport) tops() *wallPlot {
	q := &wallPlot{title: v.said.Say(words.PlotTop), of: plan.WallTops}
	q.series = []wallSeries{
		{v.said.Say(words.PlotTopRoof), v.of.TopRoof, squareMark, drawing.Hidden},
		{v.said.Say(words.PlotTopStreet), v.of.TopStreet, dotMark, drawing.Thin},
	}
	slopes := len(v.of.SetRoof) > 0
	q.extra = append(valuesOf(v.of.Set), valuesOf(v.of.SetRoof)...)
	phrase := v.said.Say(words.PlotSetSurface)
	if slopes {
		phrase = v.said.Say(words.PlotSetSurfaceStreet)
	}
	q.over = func(g *drawing.Scene, q *wallPlot) {
		v.straight(g, drawing.Medium, q, v.of.Set)
		if pts := v.line(q, v.of.SetRoof); len(pts) > 1 {
			g.Line(drawing.Centre, pts...)
			v.placer.Stroke(60, pts...)
		}
	}
	q.legend = []wallKey{lineKey(phrase, drawing.Medium)}
	if slopes {
		q.legend = append(q.legend, lineKey(v.said.Say(words.PlotSetSurfaceRoof), drawing.Centre))
	}
	return q
}

// states names under the axis what is wrong with the wall top, and shows the
// stretches that nothing may be fastened to.
func (v *wallReport) states() {
	if v.stateHigh() == 0 {
		return
	}
	top := v.foot + reportAxis
	v.s.Group(drawing.Holds, "", func(g *drawing.Scene) {
		g.Text(
			drawing.Pt(0, top+drawing.Unit(drawing.Note)),
			v.said.Say(words.PlotCondition),
			drawing.Style{Face: drawing.Bold},
		)
		bar := drawing.Box(reportLeft, top, v.right(), top+250)
		for _, u := range v.of.Unsound {
			a, b := v.at(length.Max(u.From, v.part.From)), v.at(length.Min(u.To, v.part.To))
			if a < b {
				g.Hatch(drawing.HoldStripe, drawing.Thin, drawing.Box(a, bar.Min.Y, b, bar.Max.Y).Corners()...)
			}
		}
		g.Rect(drawing.Thin, bar)
		v.placer.Block(drawing.Box(0, top, v.width, bar.Max.Y+40))
		var all []place.Wish
		for _, r := range v.of.Readings {
			if len(r.Conditions) == 0 || !v.shows(r.At) {
				continue
			}
			x := v.at(r.At)
			mark := drawing.Pt(x, bar.Centre().Y)
			g.Dot(mark, reportMark, drawing.Black)
			l := place.Label{
				Lines: []string{strings.Join(r.Conditions, ", ")},
				About: drawing.Pt(x, bar.Max.Y),
				Bare:  true,
			}
			w, h := l.Extent()
			y := bar.Max.Y + 120 + h/2
			var spots []place.Spot
			for d := drawing.Unit(0); d < 1600; d += 200 {
				for _, to := range []drawing.Unit{x + d, x - d} {
					spots = append(spots, place.At(min(max(to, w/2+50), v.width-w/2-50), y))
				}
			}
			all = append(all, place.Wish{Label: l, Spots: spots})
		}
		for _, q := range v.placer.TryAll(all) { // the list of what to put right has all of them
			g.Add(q.Marks...)
		}
	})
}

// SuspectName is the number a wall report gives the doubted reading i of a run,
// on its plots and in the list below them.
func SuspectName(i int) string { return "Q" + strconv.Itoa(i+1) }

// marked visits the doubted readings of the part with the plot and the place
// they stand at.
func (v *wallReport) marked(visit func(i int, s plan.WallDoubt, q *wallPlot, at drawing.Point)) {
	for i, s := range v.of.Doubts {
		if s.Plot != plan.WallNowhere && v.shows(s.At) {
			q := v.plots[s.Plot]
			visit(i, s, q, drawing.Pt(v.at(s.At), q.y(s.Shown)))
		}
	}
}

// rings rings every doubted reading of the part, with a short line at the value
// its neighbours lead to.
func (v *wallReport) rings(g *drawing.Scene) {
	v.marked(func(_ int, s plan.WallDoubt, q *wallPlot, at drawing.Point) {
		pen := drawing.Hold
		if s.Cleared {
			pen = drawing.Medium
		}
		g.Circle(pen, at, reportRing)
		v.placer.Area(
			drawing.Box(at.X-reportRing-60, at.Y-reportRing-60, at.X+reportRing+60, at.Y+reportRing+60).Corners()...)
		if !s.OfStation {
			y := q.y(s.Shown + s.Expected - s.Value)
			g.Line(drawing.Thin, drawing.Pt(at.X-200, y), drawing.Pt(at.X+200, y))
			v.placer.Stroke(60, drawing.Pt(at.X-200, y), drawing.Pt(at.X+200, y))
		}
	})
}

// suspects says of every doubted reading of the part what its neighbours lead
// to. Where that finds no room its number stands alone: the list on the sheet
// has the words.
func (v *wallReport) suspects(g *drawing.Scene) {
	var full, short []place.Wish
	v.marked(func(i int, s plan.WallDoubt, _ *wallPlot, at drawing.Point) {
		letter := v.inch
		if s.OfStation {
			letter = v.inWords
		}
		lines := []string{
			SuspectName(i) + ": " + s.Measure + " " + letter(s.Value),
			v.said.Say(words.PlotBeside, words.In("expected", letter(s.Expected))),
		}
		if s.Cleared {
			lines[1] = v.said.Say(words.PlotCleared)
		}
		wish := func(lines []string) place.Wish {
			l := place.Label{
				Lines:    lines,
				Face:     drawing.Bold,
				LeadFace: drawing.Bold,
				LeadSize: drawing.Note,
				About:    at,
				Halo:     true,
				Bare:     true,
			}
			return place.Wish{
				Label: l,
				Spots: l.Fan(
					place.Fan{
						Toward: 0,
						From:   reportRing + 120,
						To:     3600,
						Step:   240,
						Spread: 180,
						Reach:  reportRing + 400,
					},
				),
			}
		}
		full, short = append(full, wish(lines)), append(short, wish([]string{SuspectName(i)}))
	})
	var left []place.Wish
	for i, q := range v.placer.TryAll(full) {
		if !q.Stands() {
			left = append(left, short[i])
		}
		g.Add(q.Marks...)
	}
	for _, q := range v.placer.TryAll(left) {
		g.Add(q.Marks...)
	}
}

// heights letters what the lines of the plots are: inside widths, the greatest
// gap, the set surface at both ends.
func (v *wallReport) heights(g *drawing.Scene) {
	widths, offsets, tops := v.plots[0], v.plots[1], v.plots[2]
	for i, b := range v.of.Bands {
		from, to := length.Max(b.From, v.part.From), length.Min(b.To, v.part.To)
		if from < to {
			mid := from + (to-from)/2
			v.say(
				g,
				widths,
				v.said.Say(words.PlotInside, words.In("inside", v.inch(b.Inside))),
				v.of.Key.Fact("band-"+strconv.Itoa(i+1)+"-inside"),
				drawing.Pt(v.at(mid), widths.y(b.Inside)),
				900,
			)
		}
	}
	if v.gap() {
		y := (offsets.y(v.of.GapFrom) + offsets.y(v.of.GapTo)) / 2
		x := min(max(v.at(v.of.GapAt), v.at(v.part.From)+320), v.right()-320)
		v.say(g, offsets, v.said.Say(words.PlotGap, words.In("gap-most", v.inch(v.of.GapMost))),
			v.of.Key.Fact("gap-most"),
			drawing.Pt(x, y), 0)
	}
	const in = 320 // from the ends, where the values of the axis stand
	from, to := plan.On(v.of.Set, v.part.From), plan.On(v.of.Set, v.part.To)
	set := drawing.FactNames(v.of.Key.Fact("set-surface-left"), v.of.Key.Fact("set-surface-right"))
	v.say(
		g,
		tops,
		v.said.Say(words.PlotSet, words.In("height", v.inch(from))),
		set,
		drawing.Pt(v.at(v.part.From)+in, tops.y(from)),
		600,
	)
	if from != to {
		v.say(
			g,
			tops,
			v.said.Say(words.PlotSet, words.In("height", v.inch(to))),
			set,
			drawing.Pt(v.right()-in, tops.y(to)),
			1200,
		)
	}
}
