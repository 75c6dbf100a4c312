package view

import (
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Paper of a wall report.
const (
	reportLeft  drawing.Unit = 1900 // for the values of an axis
	reportRight drawing.Unit = 700
	reportRow   drawing.Unit = 480 // a line of a legend
	reportAxis  drawing.Unit = 1400
	reportState drawing.Unit = 1000 // the row of conditions
	reportLeast drawing.Unit = 1400 // of a plot
	reportPitch drawing.Unit = 260  // between readings, so that their marks stand apart
	reportMark  drawing.Unit = 75   // half a mark
	reportRing  drawing.Unit = 230  // radius of the ring round a doubted reading

	// ReportNotes is the room below a report for what finds none on its plots; where
	// that takes more, the plots give way.
	ReportNotes drawing.Unit = 700
)

// WallPart is the stretch of a run's front face that one wall report shows, and
// its lengthwise scale, which all parts of a run share.
type WallPart struct {
	From, To length.Length
	N, Of    int
	Along    Scale
}

// WallParts cuts the report of a run where its readings would stand too close
// to be told apart.
func WallParts(of plan.WallReport, width drawing.Unit) []WallPart {
	room := width - reportLeft - reportRight
	pitch := of.Pitch()
	n, along := 1, reportScale(of.Metric, of.Front, room)
	for n < 24 && along.Units(pitch) < reportPitch {
		n++
		along = reportScale(of.Metric, of.Front/length.Length(n)+1, room)
	}
	out := make([]WallPart, n)
	for i := range out {
		cut := func(k int) length.Length {
			if k == n {
				return of.Front
			}
			return length.RoundTo(length.MulDiv(of.Front, int64(k), int64(n)), of.Grid)
		}
		out[i] = WallPart{From: cut(i), To: cut(i + 1), N: i + 1, Of: n, Along: along}
	}
	return out
}

// reportScale is the largest usual lengthwise scale at which a stretch fits, but
// none so large that values could not be drawn larger than lengths.
func reportScale(metric bool, span length.Length, room drawing.Unit) Scale {
	for _, s := range Scales(metric) {
		if s.Ratio >= 4 && s.Units(span) <= room {
			return s
		}
	}
	return Fit(metric, span, room)
}

// wallReport is a report being drawn.
type wallReport struct {
	said   words.Book
	of     plan.WallReport
	part   WallPart
	width  drawing.Unit
	tape   length.Style
	s      drawing.Scene
	placer *place.Placer
	plots  []*wallPlot
	foot   drawing.Unit   // of the last plot
	unsaid []drawing.Said // labels that found no room
	bare   bool           // its marks are named elsewhere on the sheet
}

// wallPlot is one of the three plots: values against stations.
type wallPlot struct {
	title  string
	series []wallSeries
	extra  []length.Length // further values that have to show
	of     plan.WallPlot
	under  func(g *drawing.Scene, q *wallPlot)
	over   func(g *drawing.Scene, q *wallPlot)
	legend []wallKey

	lo, hi, step length.Length
	up           Scale
	top, high    drawing.Unit
}

// wallSeries is one thing read along the run.
type wallSeries struct {
	words string
	line  []plan.Pt // with a point at each reading
	mark  wallMark
	pen   drawing.Pen
}

// wallMark tells the readings of two series apart without colour.
type wallMark int

const (
	dotMark wallMark = iota
	squareMark
	crossMark
)

func (m wallMark) draw(g *drawing.Scene, at drawing.Point) {
	const d = reportMark
	switch m {
	case dotMark:
		g.Dot(at, d, drawing.Black)
	case squareMark:
		g.Fill(drawing.White, drawing.Thin, drawing.Box(at.X-d, at.Y-d, at.X+d, at.Y+d).Corners()...)
	case crossMark:
		g.Line(drawing.Thin, drawing.Pt(at.X-d, at.Y-d), drawing.Pt(at.X+d, at.Y+d))
		g.Line(drawing.Thin, drawing.Pt(at.X-d, at.Y+d), drawing.Pt(at.X+d, at.Y-d))
	}
}

// wallKey is one entry of a plot's legend: a sample and what it stands for.
type wallKey struct {
	words string
	draw  func(g *drawing.Scene, box drawing.Rect)
}

func lineKey(phrase string, pen drawing.Pen) wallKey {
	return wallKey{phrase, func(g *drawing.Scene, b drawing.Rect) {
		y := b.Centre().Y
		g.Line(pen, drawing.Pt(b.Min.X, y), drawing.Pt(b.Max.X, y))
	}}
}

// WallReport draws what was read on a stretch of a run in three plots against
// its crew stations: widths with the band that the chosen width takes, face
// offsets with the front-face line, wall tops with the set surface. Each plot
// has a scale of its own, named beside its title; doubted readings are ringed
// and say what their neighbours lead to. What finds no room on the plots is said
// below them, beyond the height by ReportNotes at most.
func WallReport(say words.Book, of plan.WallReport, part WallPart, width, height drawing.Unit) drawing.Scene {
	s := newWallReport(say, of, part, width).drawn(height)
	most := height + ReportNotes
	for range 4 { // plots less high may leave more to be said below them
		over := s.H - most
		if over <= 0 {
			break
		}
		height -= over
		s = newWallReport(say, of, part, width).drawn(height)
	}
	return s
}

func newWallReport(say words.Book, of plan.WallReport, part WallPart, width drawing.Unit) *wallReport {
	v := &wallReport{of: of, said: say, part: part, width: width, tape: length.Crew(of.Metric)}
	run := words.In("run", of.Run)
	title := say.Say(words.PlotTitle, run)
	if part.Of > 1 {
		title = say.Say(
			words.PlotTitlePart,
			run,
			words.In("n", strconv.Itoa(part.N)),
			words.In("of", strconv.Itoa(part.Of)),
		)
	}
	v.s = drawing.Scene{Name: "wall-report-" + of.Run + "-" + strconv.Itoa(part.N), Title: title, W: width,
		Desc: say.Say(words.PlotAbout, words.In("run", of.Run))}
	v.plots = []*wallPlot{v.widths(), v.offsets(), v.tops()}
	return v
}

func (v *wallReport) drawn(height drawing.Unit) drawing.Scene {
	v.shape(height)
	v.placer = place.New(drawing.Box(0, 0, v.width, v.s.H))
	for _, q := range v.plots {
		v.grid(q)
	}
	v.stations()
	for _, q := range v.plots {
		v.values(q)
	}
	v.states()
	v.s.Group(drawing.Holds, "", v.rings)
	v.s.Group(drawing.Lettering, "", v.heights)
	v.s.Group(drawing.Holds, "", v.suspects)
	v.notes()
	return v.s
}

// notes lists below all else what found no room on the plots.
func (v *wallReport) notes() {
	if len(v.unsaid) == 0 {
		return
	}
	var all, facts []string
	for _, q := range v.unsaid {
		all, facts = append(all, q.Words), append(facts, q.Fact)
	}
	st := drawing.Style{Fact: drawing.FactNames(facts...)}
	for _, phrase := range drawing.Wrap(strings.Join(all, "; "), drawing.Regular, drawing.Note, v.s.W) {
		v.s.Text(drawing.Pt(0, v.s.H+drawing.Unit(drawing.Note)), phrase, st)
		v.s.H += reportRow
	}
}

// long letters a length on the crew's tape, short a width or a height.
func (v *wallReport) long(l length.Length) string  { return drawing.Letter(v.tape.Long(l)) }
func (v *wallReport) short(l length.Length) string { return drawing.Letter(v.tape.Short(l)) }

// inch letters a width or a height in a sentence, with its unit.
func (v *wallReport) inch(l length.Length) string {
	if v.of.Metric {
		return v.said.Say(words.UnitMm, words.In("n", v.short(l)))
	}
	return v.short(l)
}

// inWords letters a station in a sentence, with its unit.
func (v *wallReport) inWords(l length.Length) string {
	switch {
	case v.of.Metric:
		return v.tape.InText(l)
	case l >= length.Foot:
		return v.long(l)
	}
	return v.short(l)
}

func (v *wallReport) at(station length.Length) drawing.Unit {
	return reportLeft + v.part.Along.Units(station-v.part.From)
}

func (v *wallReport) right() drawing.Unit { return v.at(v.part.To) }

// shows says that the part shows a station.
func (v *wallReport) shows(at length.Length) bool { return at >= v.part.From && at <= v.part.To }

func (q *wallPlot) y(value length.Length) drawing.Unit { return q.top + q.up.Units(q.hi-value) }

// spans are the least and the greatest value a plot has to show, of the whole
// run, so that its parts compare.
func (v *wallReport) spans(q *wallPlot) (lo, hi length.Length) {
	first := true
	hold := func(l length.Length) {
		if first {
			lo, hi, first = l, l, false
		}
		lo, hi = length.Min(lo, l), length.Max(hi, l)
	}
	for _, s := range q.series {
		for _, p := range s.line {
			hold(p.Y)
		}
	}
	for _, l := range q.extra {
		hold(l)
	}
	for _, s := range v.of.Doubts {
		if s.Plot == q.of {
			hold(s.Shown)
			hold(s.Shown + s.Expected - s.Value)
		}
	}
	return lo, hi
}

// wallSteps are the usual steps of an axis of widths and heights.
func wallSteps(metric bool) []length.Length {
	if metric {
		var out []length.Length
		for _, n := range []length.Length{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000} {
			out = append(out, n*length.Millimetre)
		}
		return out
	}
	return []length.Length{
		length.Inch16,
		length.Inch / 8,
		length.Inch / 4,
		length.Inch / 2,
		length.Inch,
		2 * length.Inch,
		3 * length.Inch,
		6 * length.Inch,
		length.Foot,
		2 * length.Foot,
		4 * length.Foot,
		8 * length.Foot,
		20 * length.Foot,
		40 * length.Foot,
	}
}

// stationSteps are those of the axis of stations.
func stationSteps(metric bool) []length.Length {
	var out []length.Length
	if metric {
		for _, n := range []length.Length{100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000} {
			out = append(out, n*length.Millimetre)
		}
		return out
	}
	for _, n := range []length.Length{3, 6, 12, 24, 60, 120, 240, 600, 1200} {
		out = append(out, n*length.Inch)
	}
	return out
}

// usualStep is the smallest usual step that prints no closer than apart.
func usualStep(all []length.Length, s Scale, apart drawing.Unit) length.Length {
	for _, l := range all {
		if s.Units(l) >= apart {
			return l
		}
	}
	return all[len(all)-1]
}

// fit gives a plot the largest scale at which its values fit a height, its steps
// and its limits.
func (v *wallReport) fit(q *wallPlot, high drawing.Unit) {
	lo, hi := v.spans(q)
	for _, ratio := range reportRatios(v.part.Along.Ratio) {
		s := Scale{Ratio: ratio}
		q.up, q.step = s, usualStep(wallSteps(v.tape.Metric), s, 480)
		pad := s.Real(reportRing + 60)
		q.lo, q.hi = -length.CeilTo(-(lo-pad), q.step), length.CeilTo(hi+pad, q.step)
		q.high = s.Units(q.hi - q.lo)
		if q.high <= high {
			return
		}
	}
}

// reportRatios are those of values to a lengthwise one: values are drawn larger
// than lengths by a whole number, or, on a wall that is higher than long,
// smaller by one.
func reportRatios(along int64) []int64 {
	var out []int64
	for r := int64(1); r <= along; r++ {
		if along%r == 0 {
			out = append(out, r)
		}
	}
	for _, k := range []int64{2, 4, 5, 10, 20, 50} {
		out = append(out, k*along)
	}
	return out
}

// shape shares the height among the plots.
func (v *wallReport) shape(height drawing.Unit) {
	rows := drawing.Unit(0)
	for _, q := range v.plots {
		if q.legend = q.keys(); v.bare {
			q.legend = nil
		}
		v.fit(q, reportLeast)
		rows += v.legendHigh(q)
	}
	each := max((height-rows-reportAxis-v.stateHigh())/3, reportLeast)
	y := drawing.Unit(0)
	for _, q := range v.plots {
		v.fit(q, each)
		q.top = y + v.legendHigh(q)
		y = q.top + q.high
	}
	v.foot = y
	v.s.H = y + reportAxis + v.stateHigh()
}

// keys are the entries of a plot's legend: what was read, then what it is
// compared with.
func (q *wallPlot) keys() []wallKey {
	out := slices.Clone(q.legend)
	for _, s := range q.series {
		out = slices.Insert(out, 0, wallKey{s.words, func(g *drawing.Scene, b drawing.Rect) {
			c := b.Centre()
			g.Line(s.pen, drawing.Pt(b.Min.X, c.Y), drawing.Pt(b.Max.X, c.Y))
			s.mark.draw(g, c)
		}})
	}
	return out
}

// stateHigh is the room of the row that names what is wrong with the wall top.
func (v *wallReport) stateHigh() drawing.Unit {
	if !slices.ContainsFunc(v.of.Readings, func(q plan.WallReading) bool { return len(q.Conditions) > 0 }) {
		return 0
	}
	return reportState
}

// heading is the title of a plot and what its scale is beside the lengthwise
// one.
func (v *wallReport) heading(q *wallPlot) string {
	phrase := q.title
	if q.up.Ratio != v.part.Along.Ratio {
		phrase = v.said.Say(
			words.PlotDrawn,
			words.In("title", phrase),
			words.In("times", runFactor(v.part.Along, q.up)),
		)
	}
	return phrase
}

const (
	keySample drawing.Unit = 900
	keyGap    drawing.Unit = 500
)

// keys places the entries of a plot's legend behind its title, in as many rows
// as they take.
func (v *wallReport) keys(q *wallPlot, put func(k wallKey, x drawing.Unit, row int)) (rows int) {
	x := drawing.Width(drawing.Bold, v.heading(q), drawing.Head) + keyGap
	for _, k := range q.legend {
		w := keySample + 150 + drawing.Width(drawing.Regular, k.words, drawing.Note)
		if x+w > v.width && x > keyGap {
			x, rows = 0, rows+1
		}
		if put != nil {
			put(k, x, rows)
		}
		x += w + keyGap
	}
	return rows + 1
}

func (v *wallReport) legendHigh(q *wallPlot) drawing.Unit {
	return drawing.Unit(v.keys(q, nil))*reportRow + 680
}

// grid draws the frame of a plot: title, legend, axis and steps.
func (v *wallReport) grid(q *wallPlot) {
	a, b := v.at(v.part.From), v.right()
	v.s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		y := q.top - v.legendHigh(q) + 630
		g.Text(drawing.Pt(0, y), v.heading(q), drawing.Style{Size: drawing.Head, Face: drawing.Bold})
		v.keys(q, func(k wallKey, x drawing.Unit, row int) {
			base := y + drawing.Unit(row)*reportRow
			k.draw(g, drawing.Box(x, base-drawing.Unit(drawing.Note), x+keySample, base))
			g.Text(drawing.Pt(x+keySample+150, base), k.words, drawing.Style{})
		})
	})
	v.placer.Letter(drawing.Box(0, q.top-v.legendHigh(q), v.width, q.top-200))
	v.placer.Letter(drawing.Box(0, q.top-200, a-reportMark, q.top+q.high+200))
	v.s.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		if q.under != nil {
			q.under(g, q)
		}
		for l := q.lo; l <= q.hi; l += q.step {
			y := q.y(l)
			if l > q.lo && l < q.hi {
				g.Line(drawing.HatchPen, drawing.Pt(a, y), drawing.Pt(b, y))
			}
			g.Text(drawing.Pt(a-350, y+drawing.Unit(drawing.Note)/2), v.short(l), drawing.Style{Align: drawing.Right})
			g.Line(drawing.Thin, drawing.Pt(a-120, y), drawing.Pt(a, y))
		}
		g.Rect(drawing.Thin, drawing.Box(a, q.top, b, q.top+q.high))
	})
}

// stations draws the axis of crew stations through all plots.
func (v *wallReport) stations() {
	from, to := v.part.From+v.of.Crew, v.part.To+v.of.Crew
	wide := drawing.Width(drawing.Regular, v.long(to), drawing.Note) + 400
	by := usualStep(stationSteps(v.tape.Metric), v.part.Along, wide)
	v.s.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		first := -length.CeilTo(-from, by)
		for c := first; c <= to; c += by {
			if c < from {
				continue
			}
			x := v.at(c - v.of.Crew)
			for _, q := range v.plots {
				g.Line(drawing.HatchPen, drawing.Pt(x, q.top), drawing.Pt(x, q.top+q.high))
			}
			g.Line(drawing.Thin, drawing.Pt(x, v.foot), drawing.Pt(x, v.foot+180))
			g.Text(
				drawing.Pt(x, v.foot+280+drawing.Unit(drawing.Note)),
				v.long(c),
				drawing.Style{Align: drawing.Middle},
			)
		}
		phrase := v.said.Say(words.PlotStations)
		if v.of.Mark != "" {
			phrase = v.said.Say(words.PlotStationsFrom, words.In("mark", drawing.Letter(v.of.Mark)))
		}
		t := g.Text(drawing.Pt(reportLeft, v.foot+1080), phrase, drawing.Style{Face: drawing.Bold})
		if len(v.of.Doubts) > 0 {
			key := v.said.Say(words.PlotRinged)
			x := t.At.X + t.Width + 600
			if x+drawing.Width(drawing.Regular, key, drawing.Note) > v.width {
				key = v.said.Say(words.PlotRingedShort)
			}
			g.Text(drawing.Pt(x, t.At.Y), key, drawing.Style{})
		}
	})
	v.placer.Letter(drawing.Box(0, v.foot, v.width, v.foot+reportAxis))
}

// line is what the part shows of a line.
func (v *wallReport) line(q *wallPlot, of []plan.Pt) []drawing.Point {
	var pts []drawing.Point
	for _, p := range plan.Within(of, v.part.From, v.part.To) {
		pts = append(pts, drawing.Pt(v.at(p.X), q.y(p.Y)))
	}
	return pts
}

// values draws the series of a plot and what is compared with them.
func (v *wallReport) values(q *wallPlot) {
	v.s.Group(drawing.Wall, "", func(g *drawing.Scene) {
		if q.over != nil {
			q.over(g, q)
		}
		for _, s := range q.series {
			pts := v.line(q, s.line)
			if len(pts) > 1 {
				g.Line(s.pen, pts...)
				v.placer.Stroke(60, pts...)
			}
			for _, p := range s.line {
				if !v.shows(p.X) {
					continue
				}
				at := drawing.Pt(v.at(p.X), q.y(p.Y))
				s.mark.draw(g, at)
				v.placer.Block(drawing.Box(at.X-reportMark, at.Y-reportMark, at.X+reportMark, at.Y+reportMark))
			}
		}
	})
}
