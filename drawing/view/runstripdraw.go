package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// draw draws all that the strip holds, from the top down.
func (s *strip) draw(g *drawing.Scene) {
	if len(s.Run.WindZones) > 0 {
		g.Group(drawing.Zones, "", s.zoneBand)
	}
	g.Group(drawing.Lettering, "", s.drawAbove)
	var p, e drawing.Scene
	s.plan.draw(&p)
	p.Group(drawing.Dimensions, "", s.plan.datum)
	s.elev.draw(&e)
	p.Group(drawing.Dimensions, "", s.cutMarks)
	g.Add(drawing.Translate(p.Marks, drawing.Pt(0, s.planAt))...)
	g.Group(drawing.Dimensions, "", s.leaders)
	s.table.draw(g, s.tableAt, s.wide)
	g.Add(drawing.Translate(e.Marks, drawing.Pt(0, s.elevAt))...)
	g.Group(drawing.Lettering, "", s.drawBelow)
	g.Group(drawing.Lettering, "", s.drawFoot)
}

// head letters words in the column at the left.
func (s *strip) head(g *drawing.Scene, k words.Key, base drawing.Unit, slots ...words.Slot) {
	said := s.Say.Say(k, slots...)
	st := drawing.Style{Face: drawing.Bold, Size: drawing.Note}
	for st.Size > drawing.Small && drawing.Width(st.Face, said, st.Size) > headWide {
		st.Size -= 10 // some languages need more room than the column has
	}
	g.Text(drawing.Pt(0, base), said, st)
}

// zoneBand draws the zones of pressure as a band over all.
func (s *strip) zoneBand(g *drawing.Scene) {
	f := s.plan.runFrame
	for _, z := range s.Run.WindZones {
		a, b, ok := f.cut(length.Max(z.From, length.Max(s.Win.From, 0)),
			length.Min(z.To, length.Min(s.Win.To, s.Run.Cap.Real)))
		if !ok {
			continue
		}
		kind := drawing.ZoneEdge
		if z.Corner {
			kind = drawing.ZoneCorner
		}
		g.Hatch(kind, drawing.Thin, drawing.Box(f.x(a), s.zones, f.x(b), s.zones+200).Corners()...)
	}
}

// drawAbove letters what stands over the plan, with the leaders to it.
func (s *strip) drawAbove(g *drawing.Scene) {
	g.Text(drawing.Pt(0, drawing.Unit(drawing.Head)+20), s.Say.Say(words.ViewRun, words.In("run", s.Run.Name)),
		drawing.Style{Face: drawing.Bold, Size: drawing.Head})
	right := s.Run.Toward == plan.RightHand
	if len(s.Labels) > 0 {
		s.labels.letter(g, s.labelAt, right)
		s.labels.lead(g, s.labelAt+s.labels.high+80, s.pieceAt, false)
	}
	s.pieces.letter(g, s.pieceAt, right)
	low := s.pieceAt + s.pieces.high + 100
	for _, q := range s.pieces.all {
		if len(q.lines) == 0 { // the leader of a label farther out
			g.Line(drawing.Thin, drawing.Pt(q.placed, s.pieceAt), drawing.Pt(q.placed, low))
		}
	}
	s.pieces.lead(g, low, s.planAt-60, true)
	base := s.pieceAt + drawing.Unit(drawing.Head)
	s.head(g, words.ViewHeadPieces, base)
	if gap, fact := s.usualGap(); gap != "" {
		said := s.Say.Say(words.ViewHeadGap, words.In("gap", gap))
		g.Text(drawing.Pt(0, base+runPitch), said, drawing.Style{Face: drawing.Bold, Fact: fact})
	}
	s.head(g, words.ViewStreet, s.planAt-60)
	sums, _ := s.plan.pieceLengths()
	for _, u := range sums {
		g.Claim(u)
	}
}

// usualGap is the gap as designed, and the joints of the window that have it.
func (s *strip) usualGap() (gap, fact string) {
	usual := s.plan.short(s.Run.Gap.Real)
	var names []string
	for _, j := range s.plan.joints() {
		if s.plan.short(j.Gap.Real) == usual {
			gap, names = usual, append(names, j.Gap.Fact)
		}
	}
	return gap, drawing.FactNames(names...)
}

// leaders lead from each chair, or joint without one, to its column.
func (s *strip) leaders(g *drawing.Scene) {
	jog := s.table.at.jog()
	for _, q := range s.table.at.all {
		from := s.planAt + s.plan.deep + 60
		g.Line(drawing.Thin, drawing.Pt(q.at, from), drawing.Pt(q.at, s.tableAt-50-jog),
			drawing.Pt(q.placed, s.tableAt))
	}
}

// cutMarks mark where the run is cut: a short line past the roof-side edge of the plan,
// with an arrow to where the section looks.
func (s *strip) cutMarks(g *drawing.Scene) {
	for _, c := range s.Cuts {
		if !c.Here || !s.plan.shows(c.At) {
			continue
		}
		x, y := s.plan.x(c.At), s.plan.deep+40
		g.Line(drawing.Thick, drawing.Pt(x, y), drawing.Pt(x, y+cutMark))
		g.Fill(drawing.Black, drawing.NoPen, drawing.Pt(x, y+cutMark-120), drawing.Pt(x+260, y+cutMark),
			drawing.Pt(x, y+cutMark+120))
	}
}

// cutMark is how far the mark of a section stands out.
const cutMark = 260

// drawBelow letters the elevation: the chairs over it.
func (s *strip) drawBelow(g *drawing.Scene) {
	s.chairs.letter(g, s.numbers, true)
	from := s.numbers + s.chairs.high + 100
	jog := s.chairs.jog()
	for i, q := range s.chairs.all {
		c := s.elev.chairs()[i]
		to := s.elevAt + s.elev.z(c.Set+s.elev.up.Rise)
		g.Line(drawing.Thin, drawing.Pt(q.placed, from), drawing.Pt(q.at, from+jog), drawing.Pt(q.at, to))
	}
	s.head(g, words.ViewRowChair, s.numbers+drawing.Unit(drawing.Head))
	s.head(g, words.ViewRowSeen, s.elevAt+s.elev.deep/2+drawing.Unit(drawing.Note)/2)
}

// footFrom is where the words at the foot begin: beside the graphic scale and the
// reader.
func (s *strip) footFrom() drawing.Unit {
	x := footBar + 2500 + s.readerWide() + 500
	if s.wide-x < 6000 {
		return 0
	}
	return x
}

// readerTo is where the reader at the foot and his words end.
func (s *strip) readerTo() drawing.Unit {
	if x := footBar + 2500 + s.readerWide(); s.footFrom() > 0 || s.wide > x {
		return x + 300
	}
	return footBar + 2500
}

// footWords say the scales.
func (s *strip) footWords() string {
	slots := []words.Slot{words.In("along", drawing.Letter(s.Along.Name)),
		words.In("across", runCount(int(s.plan.cross.times))), words.In("up", runCount(int(s.elev.cross.times)))}
	said := s.Say.Say(words.ViewStripScale, slots...)
	if !s.elev.up.Surveyed {
		return s.Say.Say(words.ViewUnsurveyed) + ". " + said
	}
	if s.Lines {
		said = sentences(said, ElevationLines(s.Say, s.Run))
	}
	return said
}

// ElevationLines says which line of an elevation is which; of one without a survey,
// nothing.
func ElevationLines(say words.Book, of *plan.Run) string {
	switch {
	case !of.Elevation.Surveyed:
		return ""
	case of.Elevation.Slopes:
		return say.Say(words.ViewLinesSlopes)
	}
	return say.Say(words.ViewLines)
}

// drawFoot draws the graphic scale, the reader, the words of the scales and the labels
// that had no room.
func (s *strip) drawFoot(g *drawing.Scene) {
	stops, labels := scaleStops(s.Run.Metric, s.Along, footBar)
	g.Draw(drawing.ScaleBar{At: drawing.Pt(200, s.footAt+480), Stops: stops, Labels: labels,
		Size: drawing.Small}.Figure())
	x := footBar + 1500
	people(g, drawing.Pt(x, s.footAt+620), xy{1, 0})
	if at := s.footFrom(); at > 0 || s.wide > x+1000+s.readerWide() {
		g.Text(drawing.Pt(x+1000, s.footAt+620+drawing.Unit(drawing.Head)/2), s.Say.Say(words.ViewHere),
			drawing.Style{Size: drawing.Head, Face: drawing.Bold})
	}
	y := s.footAt
	if s.footFrom() == 0 {
		y += footHigh
	}
	for _, line := range s.foot {
		y += drawing.Note.Line()
		g.Text(drawing.Pt(s.footFrom(), y-160), line, drawing.Style{})
	}
	y = s.high
	for i := range s.listed {
		y -= drawing.Unit(len(s.listedLines(i)))*drawing.Note.Line() + 100
	}
	for i, q := range s.listed {
		g.Text(drawing.Pt(0, y+drawing.Unit(drawing.Note)), "("+runCount(i+1)+")", drawing.Style{Face: drawing.Bold})
		for _, line := range s.listedLines(i) {
			g.Text(drawing.Pt(listIndent, y+drawing.Unit(drawing.Note)), line, drawing.Style{Face: q.Face,
				Fact: q.Fact})
			y += drawing.Note.Line()
		}
		y += 100
	}
}

func (s *strip) readerWide() drawing.Unit {
	return drawing.Width(drawing.Bold, s.Say.Say(words.ViewHere), drawing.Head)
}

// pieceLabels are the pieces that the window shows: mark, length, when and which way
// they are laid, and what has to be minded with them, in one line or in several.
func (f *runFrame) pieceLabels(joined bool) []runLabel {
	var out []runLabel
	_, lengths := f.pieceLengths()
	n := 0
	for _, q := range f.of.Pieces {
		from, to, ok := f.cut(q.From, q.To)
		whole := q.Whole(f.lo(), f.hi())
		if !ok || !whole && to-from < (q.To-q.From)/4 && q.To-q.From > length.Foot {
			continue // a sliver at the break line: it is named on the next sheet
		}
		l := runLabel{at: (f.x(from) + f.x(to)) / 2, lines: []RunLine{{Words: q.Mark, Fact: q.MarkFact,
			Face: drawing.Bold, Size: drawing.Head}}}
		if whole && q.From < q.To {
			l.lines = append(l.lines, RunLine{Words: lengths[n], Fact: q.Long.Fact})
			n++
		}
		if q.LaidWith != "" {
			l.lines = append(l.lines, RunLine{Words: f.say.Say(words.ViewLayWith, words.In("run", q.LaidWith))})
		} else {
			l.lines = append(l.lines, RunLine{Words: f.say.Say(words.ViewLay, words.In("n", runCount(q.Laying))),
				Fact: q.LayingFact})
			if f.of.Toward != plan.NoHand && q.Kind == plan.StraightPiece && q.Allowance == 0 {
				l.arrow = len(l.lines)
			}
		}
		cares := f.pieceCares(q)
		if joined && len(cares) > 1 {
			cares = []string{strings.Join(cares, ", ")}
		}
		for _, w := range cares {
			l.lines = append(l.lines, RunLine{Words: w, Face: drawing.Bold})
		}
		out = append(out, l)
	}
	return out
}

// pieceCares are what has to be minded with a piece: who lifts it, whether it may be
// laid, which end is trimmed.
func (f *runFrame) pieceCares(q plan.Piece) []string {
	var out []string
	switch q.Persons {
	case 2:
		out = append(out, f.say.Say(words.ViewLiftTwo))
	case 0:
		out = append(out, f.say.Say(words.ViewLiftMachine))
	}
	if q.Held {
		out = append(out, f.say.Say(words.ViewHold))
	}
	if q.Kind == plan.PitchMiterPiece {
		out = append(out, strings.Join(breakWords(q.Break), " "))
	}
	if q.Allowance > 0 && q.CutAt != plan.NoHand {
		k := words.ViewTrimRight
		if q.CutAt == plan.LeftHand {
			k = words.ViewTrimLeft
		}
		out = append(out, f.say.Say(k))
	}
	return out
}

// pieceLengths are the ends of the parts that the window shows whole and their lengths
// as lettered, which sum to the cap line with the gaps between them.
func (f *runFrame) pieceLengths() (sums []drawing.Sum, labels []string) {
	var ends []length.Length
	var pieces []bool
	flush := func() {
		if len(ends) < 2 {
			ends, pieces = nil, nil
			return
		}
		_, parts := length.Chain(ends, f.tape.Step())
		var said []string
		for i, p := range parts {
			w := f.long(p)
			if p < length.Foot/2 {
				w = f.short(p)
			}
			said = append(said, w)
			if pieces[i] {
				labels = append(labels, w)
			}
		}
		if n := len(ends); ends[0] == 0 && ends[n-1] == f.of.Cap.Real {
			sums = append(sums, drawing.Sum{What: "pieces and gaps", Parts: said, From: f.station(0),
				To: f.station(f.of.Cap.Real)})
		}
		ends, pieces = nil, nil
	}
	for _, q := range f.of.Pieces {
		if !q.Whole(f.lo(), f.hi()) || q.From >= q.To {
			continue
		}
		n := len(ends)
		switch {
		case n == 0:
			ends = append(ends, q.From, q.To)
			pieces = append(pieces, true)
		case ends[n-1] == q.From:
			ends, pieces = append(ends, q.To), append(pieces, true)
		default:
			ends, pieces = append(ends, q.From, q.To), append(pieces, false, true)
		}
	}
	flush()
	return sums, labels
}

// station letters a station of the crew's, a short one before the datum in
// inches alone: it is an offset.
func (f *runFrame) station(at length.Length) string {
	switch crew := f.of.ToCrew(at); {
	case crew == 0:
		return "0"
	case crew < 0 && crew > -length.Foot:
		return "-" + f.short(-crew)
	case crew > 0 && crew < length.Inch:
		return f.short(crew)
	default:
		return f.long(crew)
	}
}
