package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// straight draws a line along the part through the values at stations given in
// order, cut to what the plot shows.
func (v *wallReport) straight(g *drawing.Scene, pen drawing.Pen, q *wallPlot, at []length.Length, value func(i int) length.Length) {
	for i := 1; i < len(at); i++ {
		a, b := at[i-1], at[i]
		if b < v.part.From || a > v.part.To {
			continue
		}
		va, vb := value(i-1), value(i)
		on := func(s length.Length) length.Length {
			if a == b {
				return va
			}
			return va + length.MulDiv(vb-va, int64(s-a), int64(b-a))
		}
		from, to := length.Max(a, v.part.From), length.Min(b, v.part.To)
		pts := []drawing.Point{drawing.Pt(v.at(from), q.y(on(from))), drawing.Pt(v.at(to), q.y(on(to)))}
		if pts[0] != pts[1] {
			g.Line(pen, pts...)
			v.placer.Stroke(60, pts...)
		}
	}
}

// say places a label of a plot near a point of it. What finds no room is said
// below the plots.
func (v *wallReport) say(g *drawing.Scene, q *wallPlot, words string, at drawing.Point, toward int) {
	l := place.Label{Lines: []string{words}, Face: drawing.Bold, About: at, Halo: true}
	got, ok := v.placer.Try(l, l.Fan(place.Fan{Toward: toward, From: 160, To: 3200, Step: 160, Spread: 180, Reach: 320})...)
	if !ok {
		v.unsaid = append(v.unsaid, q.title+": "+words)
	}
	g.Add(got.Marks...)
}

// widths is the plot of wall widths and needs, with the inside width of the
// cap and the band of needs that it takes.
func (v *wallReport) widths() *wallPlot {
	q := &wallPlot{title: "WIDTH", of: []job.Measure{job.MeasureWidth, job.MeasureWidthLow, job.MeasureStation}}
	q.series = []wallSeries{
		{"need of the cap, bow counted", func(r wall.Reading) length.Length { return r.Need }, squareMark, drawing.Hidden},
		{"wall as read", func(r wall.Reading) length.Length { return r.Width }, dotMark, drawing.Thin},
	}
	profile := v.r.Profile()
	at := make([]length.Length, len(profile))
	lo := v.r.WidthLeast
	for i, p := range profile {
		at[i] = v.r.ToFront(p.At)
		switch i { // where the cap ends short of the wall's corner the wall goes on
		case 0:
			at[i] = length.Min(at[i], 0)
		case len(profile) - 1:
			at[i] = length.Max(at[i], v.r.Front)
		}
		q.extra = append(q.extra, p.Inside)
		_, most := v.l.NeedBand(p.Inside)
		q.extra = append(q.extra, most)
	}
	for _, p := range profile { // the band's lower edge where it does not make all else small
		if least, _ := v.l.NeedBand(p.Inside); least >= lo-(v.r.Inside-lo) {
			q.extra = append(q.extra, least)
		}
	}
	q.under = func(g *drawing.Scene, q *wallPlot) {
		for i := 1; i < len(profile); i++ {
			a, b := length.Max(at[i-1], v.part.From), length.Min(at[i], v.part.To)
			if a >= b {
				continue
			}
			on := func(s length.Length) length.Length { return v.r.InsideAt(v.r.ToCap(s)) }
			least, most := v.l.NeedBand(on(a))
			leastB, mostB := v.l.NeedBand(on(b))
			g.Fill(drawing.Light, drawing.NoPen,
				drawing.Pt(v.at(a), q.y(most)), drawing.Pt(v.at(b), q.y(mostB)),
				drawing.Pt(v.at(b), q.y(length.Max(leastB, q.lo))), drawing.Pt(v.at(a), q.y(length.Max(least, q.lo))))
		}
	}
	q.over = func(g *drawing.Scene, q *wallPlot) {
		v.straight(g, drawing.Medium, q, at, func(i int) length.Length { return profile[i].Inside })
	}
	q.legend = []wallKey{
		lineKey("inside width of the cap", drawing.Medium),
		{"needs it takes: clearances and rear play kept", func(g *drawing.Scene, b drawing.Rect) { g.Fill(drawing.Light, drawing.Thin, b.Corners()...) }},
	}
	return q
}

// offsets is the plot of the face with the front-face line that clears it.
func (v *wallReport) offsets() *wallPlot {
	q := &wallPlot{title: "FACE OFFSET, + to the street", of: []job.Measure{job.MeasureOffset, job.MeasureOffsetLow}}
	top := func(r wall.Reading) length.Length { return v.r.ShiftAt(r.Station) - r.Gap }
	low := false
	for _, r := range v.r.Readings {
		low = low || top(r) != r.Offset
	}
	face := "face as read"
	if low {
		face = "face, the farther out of top and leg depth"
		q.series = append(q.series, wallSeries{"face at the top", top, squareMark, drawing.Hidden})
	}
	q.series = append(q.series, wallSeries{face, func(r wall.Reading) length.Length { return r.Offset }, dotMark, drawing.Thin})
	line := v.r.Line
	q.extra = []length.Length{0, line.Left, line.Right}
	q.over = func(g *drawing.Scene, q *wallPlot) {
		ends := []length.Length{0, v.r.Front}
		v.straight(g, drawing.Centre, q, ends, func(int) length.Length { return 0 })
		v.straight(g, drawing.String, q, ends, func(i int) length.Length { return [...]length.Length{line.Left, line.Right}[i] })
		at := line.GapMostAt
		if line.GapMost <= 0 || at < v.part.From || at > v.part.To {
			return
		}
		x := v.at(at)
		a, b := q.y(v.r.ShiftAt(at)), q.y(v.r.ShiftAt(at)-line.GapMost)
		g.Line(drawing.Thin, drawing.Pt(x, a), drawing.Pt(x, b))
		for _, y := range []drawing.Unit{a, b} {
			g.Line(drawing.Medium, drawing.Pt(x-100, y+100), drawing.Pt(x+100, y-100))
		}
	}
	q.legend = []wallKey{lineKey("front-face line", drawing.String), lineKey("wall line, corner to corner", drawing.Centre)}
	return q
}

// tops is the plot of both edges of the wall top with the set surface.
func (v *wallReport) tops() *wallPlot {
	q := &wallPlot{title: "WALL TOP over the level datum", of: []job.Measure{job.MeasureTopOutside, job.MeasureTopInside}}
	q.series = []wallSeries{
		{"roof edge as read", func(r wall.Reading) length.Length { return r.TopInside }, squareMark, drawing.Hidden},
		{"street edge as read", func(r wall.Reading) length.Length { return r.TopOutside }, dotMark, drawing.Thin},
	}
	roof := func(r wall.Reading) length.Length { return r.TopInside + r.PackRear }
	slopes := v.r.Perimeter.Cross != 0
	q.extra = []length.Length{v.r.SetLeft, v.r.SetRight}
	words := "set surface"
	if slopes {
		words = "set surface at the street"
		for _, r := range v.r.Readings {
			q.extra = append(q.extra, roof(r))
		}
	}
	q.over = func(g *drawing.Scene, q *wallPlot) {
		v.straight(g, drawing.Medium, q, []length.Length{0, v.r.Front}, func(i int) length.Length { return [...]length.Length{v.r.SetLeft, v.r.SetRight}[i] })
		if pts := v.line(q, roof); slopes && len(pts) > 1 {
			g.Line(drawing.Centre, pts...)
			v.placer.Stroke(60, pts...)
		}
	}
	q.legend = []wallKey{lineKey(words, drawing.Medium)}
	if slopes {
		q.legend = append(q.legend, lineKey("set surface at the roof", drawing.Centre))
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
		g.Text(drawing.Pt(0, top+drawing.Unit(drawing.Note)), "CONDITION", drawing.Style{Face: drawing.Bold})
		bar := drawing.Box(reportLeft, top, v.right(), top+250)
		for _, u := range v.r.Unsound {
			a, b := v.at(length.Max(u.From, v.part.From)), v.at(length.Min(u.To, v.part.To))
			if a < b {
				g.Hatch(drawing.HoldStripe, drawing.Thin, drawing.Box(a, bar.Min.Y, b, bar.Max.Y).Corners()...)
			}
		}
		g.Rect(drawing.Thin, bar)
		v.placer.Block(drawing.Box(0, top, v.width, bar.Max.Y+40))
		var all []place.Wish
		for _, r := range v.inPart() {
			if len(r.Job.Conditions) == 0 {
				continue
			}
			x := v.at(r.Station)
			mark := drawing.Pt(x, bar.Centre().Y)
			g.Dot(mark, reportMark, drawing.Black)
			var words []string
			for _, c := range r.Job.Conditions {
				words = append(words, string(c))
			}
			l := place.Label{Lines: []string{strings.Join(words, ", ")}, About: drawing.Pt(x, bar.Max.Y), Bare: true}
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
func SuspectName(i int) string { return "Q" + runCount(i+1) }

// marked visits the doubted readings of the part with the plot and the place
// they stand at.
func (v *wallReport) marked(visit func(i int, s *wall.Suspect, q *wallPlot, at drawing.Point)) {
	for i := range v.r.Suspects {
		s := &v.r.Suspects[i]
		q := v.plotOf(job.Measure(s.Measure))
		if q != nil && s.Reading.Station >= v.part.From && s.Reading.Station <= v.part.To {
			visit(i, s, q, drawing.Pt(v.at(s.Reading.Station), q.y(v.shown(s))))
		}
	}
}

// rings rings every doubted reading of the part, with a short line at the value
// its neighbours lead to.
func (v *wallReport) rings(g *drawing.Scene) {
	v.marked(func(_ int, s *wall.Suspect, q *wallPlot, at drawing.Point) {
		pen := drawing.Hold
		if s.Cleared != nil {
			pen = drawing.Medium
		}
		g.Circle(pen, at, reportRing)
		v.placer.Area(drawing.Box(at.X-reportRing-60, at.Y-reportRing-60, at.X+reportRing+60, at.Y+reportRing+60).Corners()...)
		if job.Measure(s.Measure) != job.MeasureStation {
			y := q.y(v.shown(s) + s.Expected - s.Value)
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
	v.marked(func(i int, s *wall.Suspect, _ *wallPlot, at drawing.Point) {
		letter := v.inch
		if job.Measure(s.Measure) == job.MeasureStation {
			letter = v.inWords
		}
		lines := []string{SuspectName(i) + ": " + s.Measure + " " + letter(s.Value), "neighbours: " + letter(s.Expected)}
		if s.Cleared != nil {
			lines[1] = "cleared"
		}
		wish := func(lines []string) place.Wish {
			l := place.Label{Lines: lines, Face: drawing.Bold, LeadFace: drawing.Bold, LeadSize: drawing.Note, About: at, Halo: true, Bare: true}
			return place.Wish{Label: l, Spots: l.Fan(place.Fan{Toward: 0, From: reportRing + 120, To: 3600, Step: 240, Spread: 180, Reach: reportRing + 400})}
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

// plotOf is the plot that shows a measure.
func (v *wallReport) plotOf(m job.Measure) *wallPlot {
	for _, q := range v.plots {
		for _, of := range q.of {
			if of == m {
				return q
			}
		}
	}
	return nil
}

// heights letters what the lines of the plots are: inside widths, the greatest
// gap, the set surface at both ends.
func (v *wallReport) heights(g *drawing.Scene) {
	widths, offsets, tops := v.plots[0], v.plots[1], v.plots[2]
	for _, b := range v.r.Bands {
		from, to := length.Max(v.r.ToFront(b.From), v.part.From), length.Min(v.r.ToFront(b.To), v.part.To)
		if from < to {
			mid := from + (to-from)/2
			v.say(g, widths, "inside "+v.inch(b.Inside), drawing.Pt(v.at(mid), widths.y(b.Inside)), 900)
		}
	}
	if l := v.r.Line; l.GapMost > 0 && l.GapMostAt >= v.part.From && l.GapMostAt <= v.part.To {
		y := (offsets.y(v.r.ShiftAt(l.GapMostAt)) + offsets.y(v.r.ShiftAt(l.GapMostAt)-l.GapMost)) / 2
		x := min(max(v.at(l.GapMostAt), v.at(v.part.From)+320), v.right()-320)
		v.say(g, offsets, "greatest gap "+v.inch(l.GapMost), drawing.Pt(x, y), 0)
	}
	const in = 320 // from the ends, where the values of the axis stand
	from, to := v.r.SetAt(v.part.From), v.r.SetAt(v.part.To)
	v.say(g, tops, "set "+v.inch(from), drawing.Pt(v.at(v.part.From)+in, tops.y(from)), 600)
	if from != to {
		v.say(g, tops, "set "+v.inch(to), drawing.Pt(v.right()-in, tops.y(to)), 1200)
	}
}
