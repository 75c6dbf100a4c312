package view

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// runStop is one stop of a row of level labels: the place on paper it belongs
// to and the lines that stand there, nearest the drawing first.
type runStop struct {
	at     drawing.Unit
	lines  []runLine
	from   drawing.Unit // where its extension line starts
	width  drawing.Unit
	placed drawing.Unit
}

// runLine is a line of a level label.
type runLine struct {
	words string
	size  drawing.Size
	face  drawing.Face
}

// runLevels is a row of labels, each level under (or above) what it belongs
// to, so that nobody has to turn his head on a wall. Where stops are close the
// labels spread and a bent line leads to each; where that is not enough, all
// of the row are turned to be read from the right.
type runLevels struct {
	down   bool         // the labels hang below the line
	at     drawing.Unit // the dimension line, or where the labels begin
	line   bool         // draw the dimension line with its ends
	datum  *drawing.Unit
	ends   drawing.Ends
	stops  []runStop
	lo, hi drawing.Unit // where labels may stand
	a, b   drawing.Unit // the dimension line reaches at least from a to b
}

const (
	runSpread drawing.Unit = 1600 // labels shifted farther are turned instead
	runApart  drawing.Unit = 160  // between neighbouring labels
)

// draw draws the row and returns its box and the baseline of each line of its
// labels, none if they are turned.
func (v *runLevels) draw(s *drawing.Scene) (box drawing.Rect, bases []drawing.Unit) {
	if len(v.stops) == 0 {
		return drawing.Rect{}, nil
	}
	slices.SortStableFunc(v.stops, func(a, b runStop) int { return cmp.Compare(a.at, b.at) })
	for i := range v.stops {
		p := &v.stops[i]
		p.width = 0
		for _, l := range p.lines {
			p.width = max(p.width, drawing.Width(l.face, l.words, l.size))
		}
	}
	var g drawing.Scene
	shift, fits := runSpreadOut(v.stops, runApart, v.lo, v.hi)
	turned := !fits || shift > runSpread
	if turned {
		for i := range v.stops {
			v.stops[i].width = drawing.Unit(v.stops[i].lines[0].size) * 14 / 10
		}
		shift, _ = runSpreadOut(v.stops, 60, v.lo, v.hi)
	}
	jog := drawing.Unit(0)
	if shift > 20 {
		jog = min(max(shift*2/5, 200), 600)
	}
	over := drawing.Unit(0)
	if v.line {
		over = 200
	}
	v.lines(&g, over, jog)
	if turned {
		v.turned(&g, over+jog+80)
	} else {
		bases = v.level(&g, over+jog+80)
	}
	s.Add(g.Marks...)
	return g.Bounds(), bases
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

// level letters the lines of every stop at common heights.
func (v *runLevels) level(g *drawing.Scene, from drawing.Unit) []drawing.Unit {
	rows := 0
	for _, p := range v.stops {
		rows = max(rows, len(p.lines))
	}
	bases := make([]drawing.Unit, rows)
	d := from
	for k := range rows {
		size := drawing.Size(0)
		for _, p := range v.stops {
			if k < len(p.lines) {
				size = max(size, p.lines[k].size)
			}
		}
		if v.down {
			d += drawing.Unit(size)
			bases[k] = v.at + d
			d += drawing.Unit(size) / 2
			continue
		}
		bases[k] = v.at - d
		d += drawing.Unit(size) * 3 / 2
	}
	for _, p := range v.stops {
		for k, l := range p.lines {
			g.Text(drawing.Pt(p.placed, bases[k]), l.words, drawing.Style{Size: l.size, Face: l.face, Align: drawing.Middle})
		}
	}
	return bases
}

// turned letters every stop in one line, read from the right, with the line
// that would stand nearest the drawing still nearest to it.
func (v *runLevels) turned(g *drawing.Scene, from drawing.Unit) {
	for _, p := range v.stops {
		words, sep := "", ""
		for k := range p.lines {
			l := p.lines[k]
			if v.down {
				words = l.words + sep + words
			} else {
				words += sep + l.words
			}
			sep = "  "
		}
		st := drawing.Style{Size: p.lines[0].size, Rotate: 900}
		if v.down {
			st.Align = drawing.Right
		}
		at := v.off(p.placed, from)
		at.X += drawing.Unit(st.Size) / 2
		g.Text(at, words, st)
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
}

// runStack sets rows below each other from top, or above each other upwards,
// with their titles in the column at the left, and returns where it ends. The
// extension lines of a row start just beside it: carried on to the drawing
// they would strike out the rows between.
func runStack(s *drawing.Scene, from drawing.Unit, down bool, rows ...runRow) drawing.Unit {
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
		runTitle(s, r.title, base)
		from += dir * (box.Height() + 200)
	}
	return from
}

// runTitle letters the title of a row in the column at the left.
func runTitle(s *drawing.Scene, words string, base drawing.Unit) {
	if words != "" {
		s.Text(drawing.Pt(0, base), words, drawing.Style{Face: drawing.Bold, Size: drawing.Note})
	}
}

// chain is a row of dimensions between stops, lettered as parts that sum.
func (f *runFrame) chain(stops []drawing.Unit, labels []string) func(at, object drawing.Unit) drawing.Figure {
	return func(at, object drawing.Unit) drawing.Figure {
		if len(stops) < 2 {
			return drawing.Figure{}
		}
		return drawing.Chain{At: at, Stops: stops, Labels: labels, From: []drawing.Unit{object}, Ends: f.ends(), Lo: runHead, Hi: f.width}.Figure()
	}
}
