package view

import (
	"cmp"
	"slices"

	"copingset/drawing"
	"copingset/drawing/place"
)

// runStop is one stop of a row of level labels: the place on paper it belongs
// to and the lines that stand there, nearest the drawing first.
type runStop struct {
	at     drawing.Unit
	lines  []runLine
	from   drawing.Unit // where its extension line starts
	note   string       // its words in a note; none: the lines joined
	width  drawing.Unit
	placed drawing.Unit
}

// runLine is a line of a level label.
type runLine struct {
	words string
	size  drawing.Size
	face  drawing.Face
	fact  string // that it letters
}

// runLevels is a row of labels, each level under (or above) what it belongs
// to, so that nobody has to turn his head on a wall. Where stops are close the
// labels spread along the row and a bent line leads to each, in order; where
// that takes them too far from their stops they stand in several rows, those
// above a row led past it; and what finds no room there either becomes a
// numbered note.
type runLevels struct {
	down   bool         // the labels hang below the line
	at     drawing.Unit // the dimension line, or where the labels begin
	line   bool         // draw the dimension line with its ends
	datum  *drawing.Unit
	ends   drawing.Ends
	stops  []runStop
	lo, hi drawing.Unit // where labels may stand
	a, b   drawing.Unit // the dimension line reaches at least from a to b
	f      *runFrame    // keeps the notes
	flat   bool         // set by draw: one row took them all
}

const (
	runSpread drawing.Unit = 1600 // labels shifted farther stand in several rows instead
	runApart  drawing.Unit = 160  // between neighbouring labels
	runTiers               = 4    // rows of labels at most
)

// draw draws the row and returns its box and the baseline of each line of the
// labels in its first row.
func (v *runLevels) draw(s *drawing.Scene) (box drawing.Rect, bases []drawing.Unit) {
	if len(v.stops) == 0 {
		return drawing.Rect{}, nil
	}
	slices.SortStableFunc(v.stops, func(a, b runStop) int { return cmp.Compare(a.at, b.at) })
	for i := range v.stops {
		p := &v.stops[i]
		p.width, _ = v.label(p).Extent()
	}
	shift, fits := runSpreadOut(v.stops, runApart, v.lo, v.hi)
	v.flat = fits && shift <= runSpread
	jog := drawing.Unit(0)
	if v.flat && shift > 20 {
		jog = min(max(shift*2/5, 200), 600)
	}
	over := drawing.Unit(0)
	if v.line {
		over = 200
	}
	var g drawing.Scene
	v.lines(&g, over, jog)
	bases = v.letter(&g, over+jog+20)
	s.Add(g.Marks...)
	return g.Bounds(), bases
}

// label is what stands at a stop, read from the top.
func (v *runLevels) label(p *runStop) place.Label {
	lines := slices.Clone(p.lines)
	if !v.down {
		slices.Reverse(lines)
	}
	last := lines[len(lines)-1]
	l := place.Label{Size: last.size, Face: last.face, LeadSize: lines[0].size, LeadFace: lines[0].face, About: drawing.Pt(p.at, v.at), Bare: true, Note: p.note}
	for _, q := range lines {
		l.Lines, l.Facts = append(l.Lines, q.words), append(l.Facts, q.fact)
	}
	return l
}

// letter places the labels from a distance of the line on, and returns the
// baselines of the first row, the line nearest the drawing first.
func (v *runLevels) letter(g *drawing.Scene, from drawing.Unit) (bases []drawing.Unit) {
	const over = 200
	most := drawing.Unit(0) // height of a label
	for i := range v.stops {
		_, h := v.label(&v.stops[i]).Extent()
		most = max(most, h)
	}
	tier := most + runApart
	a, b := v.off(0, from-20), v.off(0, from+runTiers*tier+600)
	p := place.New(drawing.Box(v.lo, a.Y, v.hi, b.Y))
	p.First = v.f.notesSoFar()
	var wishes []place.Wish
	for i := range v.stops {
		q := &v.stops[i]
		l := v.label(q)
		w := place.Wish{Label: l}
		_, h := l.Extent()
		if v.flat {
			w.Spots = []place.Spot{{Centre: v.off(q.placed, from+h/2)}}
		} else {
			w.About = v.off(q.at, over)
			if !v.line {
				w.About = v.off(q.at, 0)
			}
			for _, reach := range [][2]drawing.Unit{{0, 0}, {100, q.width / 2}, {q.width/2 + 100, q.width + 400}} {
				for k := range drawing.Unit(runTiers) {
					for d := reach[0]; d <= reach[1]; d += 150 {
						for _, x := range []drawing.Unit{q.at + d, q.at - d} {
							w.Spots = append(w.Spots, place.Spot{Centre: v.off(x, from+100+h/2+k*tier), Leader: true})
						}
					}
				}
			}
		}
		wishes = append(wishes, w)
	}
	near := drawing.Unit(-1) // of the first row from the line
	for _, got := range p.PlaceAll(wishes) {
		g.Add(got.Marks...)
		v.f.noted(got)
		d := got.Box.Centre().Y - v.at
		if d = max(d, -d); got.Note > 0 || !got.Stands() || near >= 0 && d >= near {
			continue
		}
		near, bases = d, nil
		for _, m := range got.Marks {
			if t, ok := m.(drawing.Text); ok {
				bases = append(bases, t.At.Y)
			}
		}
	}
	if !v.down {
		slices.Reverse(bases)
	}
	v.f.rowNotes = append(v.f.rowNotes, p.Notes()...)
	return bases
}

// notesSoFar is how many notes the sheet has already.
func (f *runFrame) notesSoFar() int {
	n := f.first + len(f.rowNotes)
	if f.placed != nil {
		n += len(f.placed())
	}
	return n
}

// noted keeps the number of a note that has no balloon on the drawing.
func (f *runFrame) noted(q place.Placement) {
	if q.Note > 0 && !q.Stands() {
		f.rowBare = append(f.rowBare, q.Note)
	}
}

// off is a place at a distance from the line, on the side of the labels.
func (v *runLevels) off(x, d drawing.Unit) drawing.Point {
	if v.down {
		return drawing.Pt(x, v.at+d)
	}
	return drawing.Pt(x, v.at-d)
}

// lines draws extension lines, leaders and the dimension line.
func (v *runLevels) lines(g *drawing.Scene, over, jog drawing.Unit) {
	for _, p := range v.stops {
		g.Line(drawing.Thin, drawing.Pt(p.at, p.from), v.off(p.at, over))
		if jog > 0 {
			g.Line(drawing.Thin, v.off(p.at, over), v.off(p.placed, over+jog))
		}
	}
	if !v.line {
		return
	}
	a, b := min(v.a, v.stops[0].at), max(v.b, v.stops[len(v.stops)-1].at)
	g.Line(drawing.Thin, drawing.Pt(a, v.at), drawing.Pt(b, v.at))
	for i, p := range v.stops {
		switch {
		case v.datum != nil && p.at == *v.datum:
		case v.ends == drawing.Ticks:
			g.Line(drawing.Medium, drawing.Pt(p.at-100, v.at+100), drawing.Pt(p.at+100, v.at-100))
		case i > 0 && p.at-v.stops[i-1].at < 400 || i+1 < len(v.stops) && v.stops[i+1].at-p.at < 400:
			g.Dot(drawing.Pt(p.at, v.at), 55, drawing.Black)
		default:
			back := drawing.Unit(-300) // arrowheads point away from the datum
			if v.datum != nil && p.at < *v.datum {
				back = 300
			}
			g.Fill(drawing.Black, drawing.NoPen, drawing.Pt(p.at, v.at), drawing.Pt(p.at+back, v.at+50), drawing.Pt(p.at+back, v.at-50))
		}
	}
	if v.datum != nil {
		g.Add(drawing.Arc{Pen: drawing.Medium, Centre: drawing.Pt(*v.datum, v.at), R: 110, To: 3600, Fill: drawing.White})
	}
}

// runSpreadOut places sorted labels in one row, in order and gap apart, as
// near as possible to where they belong: neighbours that would overlap are
// pooled about their mean (least squares). It returns the largest shift and
// whether all fit between lo and hi.
func runSpreadOut(stops []runStop, gap, lo, hi drawing.Unit) (shift drawing.Unit, fits bool) {
	offset := make([]int64, len(stops))
	for i := 1; i < len(stops); i++ {
		offset[i] = offset[i-1] + int64((stops[i-1].width+1)/2+(stops[i].width+1)/2+gap)
	}
	type pool struct{ sum, count int64 }
	var pools []pool
	for i, p := range stops {
		pools = append(pools, pool{int64(p.at) - offset[i], 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].sum*pools[k].count > pools[k].sum*pools[k-1].count; k-- {
			pools[k-1].sum += pools[k].sum
			pools[k-1].count += pools[k].count
			pools = pools[:k]
		}
	}
	last := len(stops) - 1
	least := int64(lo + (stops[0].width+1)/2)
	most := int64(hi-(stops[last].width+1)/2) - offset[last]
	fits = least <= most
	i := 0
	for _, b := range pools {
		for range b.count {
			at := max(min(b.sum/b.count, most), least)
			stops[i].placed = drawing.Unit(at + offset[i])
			d := stops[i].placed - stops[i].at
			shift = max(shift, d, -d)
			i++
		}
	}
	return shift, fits
}

// runRow is a row drawn beside others: draw draws it about a line at a height,
// with the object at another.
type runRow struct {
	title string
	draw  func(at, object drawing.Unit) drawing.Figure
	fact  string // that the title letters
}

// stack sets rows below each other from top, or above each other upwards,
// with their titles in the column at the left, and returns where it ends. The
// extension lines of a row start just beside it: carried on to the drawing
// they would strike out the rows between.
func (f *runFrame) stack(s *drawing.Scene, from drawing.Unit, down bool, rows ...runRow) drawing.Unit {
	dir := drawing.Unit(-1)
	if down {
		dir = 1
	}
	for _, r := range rows {
		near := -220 * dir
		box := r.draw(0, near).Box
		if box.Empty() {
			continue
		}
		at := from - box.Min.Y
		if !down {
			at = from - box.Max.Y
		}
		s.Draw(r.draw(at, at+near))
		base := at - 100
		if down { // a row whose labels hang below its line begins at the line
			base = max(base, from+drawing.Unit(drawing.Note))
		}
		f.title(s, r.title, r.fact, base)
		from += dir * (box.Height() + 200)
	}
	return from
}

// title letters the title of a row in the column at the left, clear of those
// that stand there.
func (f *runFrame) title(s *drawing.Scene, words, fact string, base drawing.Unit) {
	if words == "" {
		return
	}
	if f.heads == nil {
		f.heads = place.New(drawing.Box(0, -runHeads, f.width, runHeads))
	}
	l := place.Label{Lines: []string{words}, Face: drawing.Bold, Size: drawing.Note}
	for l.Size > drawing.Small && drawing.Width(l.Face, words, l.Size) > runHead-250 {
		l.Size -= 10 // some languages need more room than the column has
	}
	w, _ := l.Extent()
	at := base
	for d := drawing.Unit(0); d <= 900; d += 60 {
		if _, ok := f.heads.Try(l, l.OnLine(drawing.Pt(w/2, base+d))); ok {
			at = base + d
			break
		}
	}
	s.Text(drawing.Pt(0, at), words, drawing.Style{Face: l.Face, Size: l.Size, Fact: fact})
}

// runHeads is how far above and below the cap line rows may have titles.
const runHeads drawing.Unit = 60000

// chain is a row of dimensions between stops, lettered as parts that sum. Its
// labels stand in their parts; one too long stands beside the row's end, if its
// part is the first or the last, or in further rows on the side away from the
// object, led to its part; the last resort is a numbered note.
func (f *runFrame) chain(what string, stops []drawing.Unit, labels, facts []string) func(at, object drawing.Unit) drawing.Figure {
	var up, down *[]drawing.Mark // the labels about a line at 0, once they stand
	return func(at, object drawing.Unit) drawing.Figure {
		if len(stops) < 2 {
			return drawing.Figure{}
		}
		kept, away := &down, drawing.Unit(1)
		if object > at {
			kept, away = &up, -1
		}
		if *kept == nil {
			marks := f.chainLabels(what, stops, labels, facts, away)
			*kept = &marks
		}
		fig := drawing.Chain{At: at, Stops: stops, Labels: make([]string, len(labels)), From: []drawing.Unit{object}, Ends: f.ends()}.Figure()
		fig.Marks = append(fig.Marks, drawing.Translate(**kept, drawing.Pt(0, at))...)
		fig.Box = drawing.BoundsOf(fig.Marks)
		return fig
	}
}

// Measures of a chain's labels.
const (
	chainLift drawing.Unit = 100 // from the line to the baseline
	chainSide drawing.Unit = 130 // beside a label in its part
	chainEnd  drawing.Unit = 320 // from the last stop to a label beside the row
)

// nth is the one of a list, which may be shorter than what it goes with, as a
// list.
func nth(list []string, i int) []string {
	if i < len(list) {
		return list[i : i+1]
	}
	return nil
}

// chainLabels places the labels of a chain whose line lies at 0.
func (f *runFrame) chainLabels(what string, stops []drawing.Unit, labels, facts []string, away drawing.Unit) []drawing.Mark {
	z := drawing.Unit(drawing.Note)
	lift, drop := chainLift+z*11/10+20, drawing.Unit(4000)
	box := drawing.Box(runHead, -lift, f.width, drop)
	first := drawing.Unit(280) // from the line to the first further row: past the ends of the extension lines
	if away < 0 {
		box = drawing.Box(runHead, -drop, f.width, z)
		first = chainLift + z + 140 // past the labels in their parts
	}
	p := place.New(box)
	p.First = f.notesSoFar()
	p.Stroke(5, drawing.Pt(stops[0]-150, 0), drawing.Pt(stops[len(stops)-1]+150, 0))
	for _, x := range stops {
		if away > 0 {
			p.Stroke(chainSide-10, drawing.Pt(x, -lift), drawing.Pt(x, 200-chainSide))
		} else {
			p.Stroke(chainSide-10, drawing.Pt(x, chainSide-10-chainLift-z), drawing.Pt(x, 0))
		}
	}
	var wishes []place.Wish
	last := len(labels) - 1
	for i, words := range labels {
		if words == "" {
			continue
		}
		a, b := stops[i], stops[i+1]
		mid := (a + b) / 2
		l := place.Label{Lines: []string{drawing.Letter(words)}, Facts: nth(facts, i), Halo: true, Bare: true, About: drawing.Pt(mid, 0), Where: what + ", part " + runCount(i+1) + " from the left"}
		w, h := l.Extent()
		q := place.Wish{Label: l}
		if w+2*chainSide <= b-a {
			q.Spots = append(q.Spots, l.OnLine(drawing.Pt(mid, -chainLift)))
		} else {
			if i == last {
				q.Spots = append(q.Spots, l.OnLine(drawing.Pt(b+chainEnd+w/2, z/2)))
			}
			if i == 0 {
				q.Spots = append(q.Spots, l.OnLine(drawing.Pt(a-chainEnd-w/2, z/2)))
			}
		}
		for _, reach := range [][2]drawing.Unit{{0, w/2 - 80}, {w/2 + 100, w/2 + 700}, {w/2 + 800, w/2 + 2400}} {
			for k := range drawing.Unit(runTiers) {
				for d := reach[0]; d <= reach[1]; d += 150 {
					y := away * (first + h/2 + k*(h+140) + min(d*2/5, 600)/2)
					q.Spots = append(q.Spots, place.Pointed(mid+d, y), place.Pointed(mid-d, y))
				}
			}
		}
		wishes = append(wishes, q)
	}
	var out []drawing.Mark
	for _, got := range p.PlaceAll(wishes) {
		out = append(out, got.Marks...)
		f.noted(got)
	}
	f.rowNotes = append(f.rowNotes, p.Notes()...)
	return out
}
