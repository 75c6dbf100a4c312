package view

import (
	"cmp"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// above sets the rows on the street side, nearest first, and returns where
// the plan ends at the top.
func (p *runPlan) above() drawing.Unit {
	top := min(p.pad.Bounds().Min.Y, -250) - runGap
	p.pad.Group(drawing.Zones, "", func(g *drawing.Scene) {
		top = p.zoneRow(g, top)
	})
	return top
}

// runLeg is the dimension of one corner leg: trim and what is left of it.
type runLeg struct {
	stops  []length.Length
	labels []string
}

// legs dimensions the legs of the corners the window shows. Trim is what the
// front mold line has over the rear: at an outside corner the rear leg is
// shorter by it, at an inside corner longer.
func (p *runPlan) legs() []runLeg {
	var out []runLeg
	for _, q := range p.of.Pieces {
		if !q.Whole(p.lo(), p.hi()) || q.Pitched { // pitched: no miter in plan, the legs stand in the row of pieces
			continue
		}
		if q.Left.Here {
			out = append(out, p.leg(0, q.Left.Trim, q.To, 1))
		}
		if q.Right.Here {
			out = append(out, p.leg(p.of.Cap.Real, q.Right.Trim, q.From, -1))
		}
	}
	return out
}

func (p *runPlan) leg(corner, trim, end, dir length.Length) runLeg {
	if trim == 0 {
		return runLeg{}
	}
	inner := corner + dir*trim
	g := runLeg{stops: []length.Length{corner, inner, end}}
	rest := words.ViewLegRoof
	if trim < 0 {
		g.stops, rest = []length.Length{inner, corner, end}, words.ViewLegStreet
	}
	if (end-g.stops[1])*dir <= 0 { // the trim is longer than the leg, as at a short double miter
		g.stops = g.stops[:2]
	}
	_, parts := length.Chain(g.stops, p.tape.Step())
	g.labels = append(g.labels, p.say.Say(words.ViewLegMiter, words.In("length", p.long(length.Abs(parts[0])))))
	if len(parts) > 1 {
		g.labels = append(g.labels, p.say.Say(rest, words.In("length", p.long(length.Abs(parts[1])))))
	}
	if dir < 0 { // from left to right, as all rows
		for i, k := 0, len(g.stops)-1; i < k; i, k = i+1, k-1 {
			g.stops[i], g.stops[k] = g.stops[k], g.stops[i]
		}
		for i, k := 0, len(g.labels)-1; i < k; i, k = i+1, k-1 {
			g.labels[i], g.labels[k] = g.labels[k], g.labels[i]
		}
	}
	return g
}

// legRows draws the leg dimensions, in one row where they do not meet.
func (p *runPlan) legRows(g *drawing.Scene, from drawing.Unit) drawing.Unit {
	var rows []drawing.Figure // heights relative to the line
	var makes []func(at, object drawing.Unit) drawing.Figure
	for _, q := range p.legs() {
		if len(q.stops) < 2 {
			continue
		}
		var stops []drawing.Unit
		for _, s := range q.stops {
			stops = append(stops, p.x(s))
		}
		mk := p.chain("corner leg", stops, q.labels, nil)
		makes = append(makes, mk)
		rows = append(rows, mk(0, 220))
	}
	for first := true; len(rows) > 0; first = false {
		low, high := drawing.Unit(0), drawing.Unit(0)
		var used []drawing.Rect
		var laterRows []drawing.Figure
		var laterMakes []func(at, object drawing.Unit) drawing.Figure
		var now []func(at, object drawing.Unit) drawing.Figure
		for i, r := range rows {
			meets := false
			for _, u := range used {
				meets = meets || r.Box.Min.X-100 < u.Max.X && u.Min.X < r.Box.Max.X+100
			}
			if meets {
				laterRows, laterMakes = append(laterRows, r), append(laterMakes, makes[i])
				continue
			}
			used = append(used, r.Box)
			now = append(now, makes[i])
			low, high = max(low, r.Box.Max.Y), max(high, -r.Box.Min.Y)
		}
		at := from - low
		if p.overMatch(used) {
			at = min(at, -runMatchTop-low-clearOfMatch)
		}
		for _, mk := range now {
			object := drawing.Unit(0)
			if !first { // an extension line down to the cap would strike out the row before
				object = at + 220
			}
			g.Draw(mk(at, object))
		}
		from = at - high - runGap
		rows, makes = laterRows, laterMakes
	}
	return from
}

// clearOfMatch is what a row keeps off the end of a match line.
const clearOfMatch drawing.Unit = 100

// overMatch reports whether one of some boxes, or the room beside it, lies over a
// match line: words of a leg too short for them stand beyond it.
func (p *runPlan) overMatch(boxes []drawing.Rect) bool {
	for _, x := range p.matches() {
		for _, b := range boxes {
			if b.Min.X-clearOfMatch < x && x < b.Max.X+clearOfMatch {
				return true
			}
		}
	}
	return false
}

// zoneRow draws the zones of pressure as a band outside the wall, with their
// lengths.
func (p *runPlan) zoneRow(g *drawing.Scene, from drawing.Unit) drawing.Unit {
	const band = 220
	var stops []drawing.Unit
	var labels []string
	var ends []length.Length
	for i, z := range p.of.WindZones { // in stations of the wall's front face
		if i == 0 {
			ends = append(ends, z.From-p.of.FrontFrom)
		}
		ends = append(ends, z.To-p.of.FrontFrom)
	}
	_, parts := length.Chain(ends, p.tape.Step())
	for i, z := range p.of.WindZones {
		a, b, ok := p.cut(z.From, z.To)
		if !ok {
			continue
		}
		kind, whole, cut := drawing.ZoneEdge, words.ViewZoneEdge, words.ViewZoneEdgeAll
		if z.Corner {
			kind, whole, cut = drawing.ZoneCorner, words.ViewZoneCorner, words.ViewZoneCornerAll
		}
		g.Hatch(kind, drawing.Thin, drawing.Box(p.x(a), from-band, p.x(b), from).Corners()...)
		if len(stops) == 0 {
			stops = append(stops, p.x(a))
		}
		stops = append(stops, p.x(b))
		if a != z.From || b != z.To { // cut at a match line
			whole = cut
		}
		labels = append(labels, p.say.Say(whole, words.In("length", p.long(parts[i]))))
	}
	if len(labels) == 0 {
		return from
	}
	mk := p.chain("wind zones", stops, labels, nil)
	box := mk(0, 220).Box
	at := from - band - box.Max.Y
	g.Draw(mk(at, from-band+100))
	p.title(g, p.say.Say(words.ViewRowZones), "", at-100)
	return at + min(box.Min.Y, -100-drawing.Unit(drawing.Note)*13/10) - runGap
}

// below sets the rows on the roof side and returns where the plan ends at the
// bottom.
func (p *runPlan) below() drawing.Unit {
	at := p.bottom()
	p.pad.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		at = p.stationRow(g, at)
		at = p.stack(g, at, true, p.pieceRow(), p.spacingRow(), p.overallRow())
		p.claims(g)
	})
	p.pad.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		at = p.foot(g, at)
	})
	return at
}

// claims says what the printed chains come to, for the checker: chairs between
// the stations of the first and the last, pieces and gaps between the cap's
// ends.
func (p *runPlan) claims(g *drawing.Scene) {
	if chairs := p.chairs(); len(chairs) > 1 {
		_, parts := p.spacings()
		g.Claim(drawing.Sum{What: "chair to chair", Parts: parts, From: p.byChairs().station(chairs[0].At), To: p.byChairs().station(chairs[len(chairs)-1].At)})
	}
	ends, parts, gap := p.pieceLabels()
	if n := len(ends); n < 2 || ends[0] != 0 || ends[n-1] != p.of.Cap.Real {
		return
	}
	for i := range parts {
		if parts[i] == "" {
			parts[i] = gap
		}
	}
	g.Claim(drawing.Sum{What: "pieces and gaps", Parts: parts, From: p.station(0), To: p.station(p.of.Cap.Real)})
}

// stationRow is what the crew tapes: chairs and joints from one datum, so that
// no error adds up.
func (p *runPlan) stationRow(g *drawing.Scene, from drawing.Unit) drawing.Unit {
	v := p.stations(from+150, true)
	notes, bare := p.rowNotes, p.rowBare
	var row drawing.Scene
	box, bases := v.draw(&row)
	if !v.flat {
		// The end of the cap beside the datum is said in the datum's own label too: rather without it than in two rows.
		all, lost := p.rowNotes, p.rowBare
		p.rowNotes, p.rowBare = notes, bare
		w := p.stations(from+150, false)
		var less drawing.Scene
		if box2, bases2 := w.draw(&less); w.flat {
			row, box, bases = less, box2, bases2
		} else {
			p.rowNotes, p.rowBare = all, lost
		}
	}
	g.Add(row.Marks...)
	for i, k := range []words.Key{words.ViewRowPlaces, words.ViewRowStations} {
		if i < len(bases) {
			p.title(g, p.say.Say(k), "", bases[i])
		}
	}
	return box.Max.Y + 250
}

// stations gathers the stops of the station row.
func (p *runPlan) stations(line drawing.Unit, capEnds bool) *runLevels {
	v := &runLevels{f: p.runFrame, down: true, line: true, at: line, ends: p.ends(), lo: runHead - 200, hi: p.width}
	var stops []length.Length
	chairs := p.byChairs()
	add := func(at length.Length, lettered, tag, fact string) {
		for i, s := range stops {
			if s == at {
				v.stops[i].lines[0].words += " " + tag
				v.stops[i].lines[1].fact = drawing.FactNames(v.stops[i].lines[1].fact, fact)
				return
			}
		}
		stops = append(stops, at)
		v.stops = append(v.stops, runStop{at: p.x(at), from: p.deep + 150, lines: []runLine{
			{tag, drawing.Note, drawing.Bold, ""}, {lettered, drawing.Head, drawing.Regular, fact}}})
	}
	for _, c := range p.chairs() {
		add(c.At, chairs.station(c.At), runTag(c.Mark), c.Station.Fact)
	}
	for _, j := range p.joints() {
		add(j.Centre, chairs.station(j.Centre), runTag(j.Mark), j.Station.Fact)
	}
	datum := p.of.Datum.At.X
	if p.shows(datum) {
		d := p.x(datum)
		v.datum = &d
		add(datum, p.station(datum), p.say.Say(words.ViewTagStart), "")
	}
	beside := datum != 0 && length.Abs(datum) < length.Inch
	if p.win.From <= 0 && (capEnds || !beside) {
		add(0, p.station(0), p.say.Say(words.ViewTagCap), p.of.Datum.Begins.Fact)
	}
	if p.win.To >= p.of.Cap.Real {
		add(p.of.Cap.Real, p.station(p.of.Cap.Real), p.say.Say(words.ViewTagCap), "")
	}
	for i := range v.stops {
		q := &v.stops[i]
		q.note = p.say.Say(words.ViewNoteAt, words.In("what", q.lines[0].words), words.In("station", q.lines[1].words))
	}
	v.a, v.b = p.edges()
	return v
}

// station letters a station of the crew's, a short one before the datum in
// inches alone: it is an offset, and room is scarce there.
func (p *runFrame) station(at length.Length) string {
	switch crew := p.of.ToCrew(at); {
	case crew == 0:
		return "0"
	case crew < 0 && crew > -length.Foot:
		return "-" + p.short(-crew)
	case crew > 0 && crew < length.Inch:
		return p.short(crew)
	}
	return p.crew(at)
}

// pieceRow chains the pieces and the gaps between them along the cap line.
// Where the gaps print alike their title says so once.
func (p *runPlan) pieceRow() runRow {
	ends, labels, gap := p.pieceLabels()
	title := p.say.Say(words.ViewRowPieces)
	if gap != "" {
		title = p.say.Say(words.ViewRowPiecesGap, words.In("gap", gap))
	}
	stops := make([]drawing.Unit, len(ends))
	for i, s := range ends {
		stops[i] = p.x(s)
	}
	facts, usual := p.pieceFacts(ends, labels, gap)
	return runRow{title, p.chain("pieces", stops, labels, facts), usual}
}

// pieceLabels are the ends of the chain and what its parts say; the gaps that
// say what the title says are left empty.
func (p *runPlan) pieceLabels() (ends []length.Length, labels []string, gap string) {
	ends = p.pieceEnds()
	_, parts := length.Chain(ends, p.tape.Step())
	_, labels = p.labelled(ends, parts, 0)
	usual := p.short(p.of.Gap.Real)
	for i := range labels {
		if _, ok := p.jointBetween(ends[i], ends[i+1]); ok && labels[i] == usual {
			labels[i], gap = "", usual
		}
	}
	return ends, labels, gap
}

// pieceFacts are what the parts of the chain letter, and what its title letters:
// the gap that it says once for all joints of the window, also for those beside a
// piece that the window cuts.
func (p *runPlan) pieceFacts(ends []length.Length, labels []string, gap string) (facts []string, usual string) {
	for i, words := range labels {
		name := ""
		if words != "" {
			name = p.factBetween(ends[i], ends[i+1])
		}
		facts = append(facts, name)
	}
	var once []string
	for _, j := range p.joints() {
		if p.short(j.Gap.Real) == gap && !slices.Contains(facts, j.Gap.Fact) {
			once = append(once, j.Gap.Fact)
		}
	}
	return facts, drawing.FactNames(once...)
}

// factBetween names the gap or the length of the part between two stations.
func (p *runPlan) factBetween(from, to length.Length) string {
	if j, ok := p.jointBetween(from, to); ok {
		return j.Gap.Fact
	}
	for _, q := range p.of.Pieces {
		if q.From == from && q.To == to {
			return q.Long.Fact
		}
	}
	return ""
}

// pieceEnds are the ends of the parts the window shows whole, in order.
func (p *runPlan) pieceEnds() []length.Length {
	var ends []length.Length
	for _, q := range p.of.Pieces {
		if q.Whole(p.lo(), p.hi()) && q.From < q.To {
			if n := len(ends); n > 0 && ends[n-1] == q.From {
				ends = append(ends, q.To)
				continue
			}
			ends = append(ends, q.From, q.To)
		}
	}
	return ends
}

// jointBetween is the joint between two stations, if there is one.
func (p *runPlan) jointBetween(from, to length.Length) (plan.Joint, bool) {
	for _, j := range p.of.Joints {
		if j.From == from && j.To == to {
			return j, true
		}
	}
	return plan.Joint{}, false
}

// spacingRow chains the chairs.
func (p *runPlan) spacingRow() runRow {
	stops, labels := p.spacings()
	return runRow{p.say.Say(words.ViewRowSpacing), p.chain("chair to chair", stops, labels, nil), ""}
}

// spacings are the chairs of the window and what lies between them.
func (p *runPlan) spacings() (stops []drawing.Unit, labels []string) {
	var at []length.Length
	for _, c := range p.chairs() {
		at = append(at, c.Station.Real)
	}
	_, parts := length.Chain(at, p.chairTape.Step())
	return p.byChairs().labelled(at, parts, p.of.Datum.At.X)
}

// byChairs letters as stations of chairs are.
func (f *runFrame) byChairs() *runFrame {
	g := *f
	g.tape = f.chairTape
	return &g
}

// overallRow is the whole cap line and the whole wall, where the window shows
// both ends.
func (p *runPlan) overallRow() runRow {
	if !p.whole() {
		return runRow{"", func(_, _ drawing.Unit) drawing.Figure { return drawing.Figure{} }, ""}
	}
	return runRow{p.say.Say(words.ViewRowWhole), p.chain("whole run", []drawing.Unit{p.x(0), p.x(p.of.Cap.Real)}, []string{p.overall(words.ViewOverall)},
		[]string{drawing.FactNames(p.of.Cap.Fact, p.of.Front.Fact)}), ""}
}

// overall says how long the cap line and the wall are.
func (p *runPlan) overall(k words.Key) string {
	return p.say.Say(k, words.In("cap", p.long(p.of.Cap.Real)+p.unit()), words.In("wall", p.long(p.of.Front.Real)+p.unit()))
}

// labelled brings stations to paper and letters the parts between them.
func (p *runFrame) labelled(at, parts []length.Length, shift length.Length) (stops []drawing.Unit, labels []string) {
	for i, s := range at {
		stops = append(stops, p.x(s+shift))
		if i > 0 {
			if parts[i-1] < length.Foot/2 {
				labels = append(labels, p.short(parts[i-1]))
				continue
			}
			labels = append(labels, p.long(parts[i-1]))
		}
	}
	return stops, labels
}

// foot says where the reader stands, the scales and the notes.
func (p *runPlan) foot(g *drawing.Scene, from drawing.Unit) drawing.Unit {
	at := from
	if !p.cell {
		scales := p.scaleWords(words.ViewScale, words.ViewScaleTwo)
		if !p.whole() {
			scales = sentences(scales, p.overall(words.ViewWhole))
		}
		at = p.footRow(g, from, []runBar{{runAlong, p.along}, {runAcross, p.cross}}, p.say.Say(words.ViewHere), scales)
	}
	return p.notes(g, at, p.placer.Notes(), p.bare)
}

// notes lists the notes of a view with their numbers in balloons, side by side
// where they are short, and returns where the list ends. Those without a
// balloon on the drawing say in words where they belong, and have no number
// here either.
func (f *runFrame) notes(g *drawing.Scene, from drawing.Unit, notes []place.Note, bare []int) drawing.Unit {
	width := f.width
	notes, bare = slices.Concat(notes, f.rowNotes), slices.Concat(bare, f.rowBare)
	f.listed = f.first + len(notes)
	slices.SortStableFunc(notes, func(a, b place.Note) int { return cmp.Compare(a.N, b.N) })
	const number, high = 800, 720
	x, low := drawing.Unit(0), from
	for _, n := range notes {
		words := drawing.Letter(n.Words)
		w := number + drawing.Width(drawing.Regular, words, drawing.Note)
		if x > 0 && x+w > width {
			x, from = 0, low
		}
		if !slices.Contains(bare, n.N) {
			g.Draw(drawing.Balloon{At: drawing.Pt(x+340, from+350), Words: runCount(n.N), Size: drawing.Note}.Figure())
		}
		box := g.Paragraph(drawing.Pt(x+number, from+350+drawing.Unit(drawing.Note)/2), words, width-number, drawing.Style{Fact: n.Fact})
		low = max(low, from+high, box.Max.Y+150)
		x += w + 800
	}
	return low
}

// runBar is a graphic scale and the direction it holds for.
type runBar struct {
	way   words.Key
	scale Scale
}

const (
	runAlong  = words.ViewAlong
	runAcross = words.ViewAcross
	runUp     = words.ViewHeights
)

// footRow is the last row of a view: graphic scales at the left, the reader in
// the middle, words at the right, or below each other on narrow paper.
func (f *runFrame) footRow(g *drawing.Scene, from drawing.Unit, bars []runBar, reader, words string) drawing.Unit {
	x, low := drawing.Unit(0), from
	bars = slices.DeleteFunc(bars, func(b runBar) bool { return b.way != runAlong && b.scale.Ratio == f.along.Ratio })
	for _, s := range bars {
		stops, labels := scaleStops(f.tape.Metric, s.scale, 4200)
		bar := drawing.ScaleBar{At: drawing.Pt(x+200, from+480), Stops: stops, Labels: labels, Size: drawing.Small}
		box := g.Draw(bar.Figure())
		if len(bars) > 1 { // which is which
			g.Text(drawing.Pt(x+200, box.Max.Y+drawing.Unit(drawing.Small)+70), f.say.Say(s.way), drawing.Style{Size: drawing.Small})
			box.Max.Y += drawing.Unit(drawing.Small) + 150
		}
		x, low = box.Max.X+700, max(low, box.Max.Y)
	}
	st := drawing.Style{Size: drawing.Head, Face: drawing.Bold}
	w := drawing.Width(st.Face, reader, st.Size)
	if reader != "" {
		a, b := f.edges()
		mid := max((a+b)/2-w/2, x+900)
		if mid+w > f.width {
			mid, from = 900, low+150
		}
		y := from + 700
		people(g, drawing.Pt(mid, y), xy{1, 0})
		t := g.Text(drawing.Pt(mid+1100, y+drawing.Unit(drawing.Head)/2), reader, st)
		x, low = mid+1100+t.Width+700, max(low, y+300)
	}
	if f.width-x < 5000 {
		x, from = 0, low+100
	}
	box := g.Paragraph(drawing.Pt(x, from+drawing.Unit(drawing.Note)+50), drawing.Letter(strings.TrimSpace(words)), f.width-x, drawing.Style{})
	return max(low, box.Max.Y) + runGap
}
