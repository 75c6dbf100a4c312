package view

import (
	"cmp"
	"slices"

	"copingset/drawing"
)

// RunLine is a line of lettering and the facts that it letters.
type RunLine struct {
	Words, Fact string
	Face        drawing.Face
	Size        drawing.Size // Note if none
}

func (l RunLine) size() drawing.Size {
	if l.Size == 0 {
		return drawing.Note
	}
	return l.Size
}

func (l RunLine) width() drawing.Unit { return drawing.Width(l.Face, l.Words, l.size()) }

// runLabel is lettering that belongs to a place along a run. Without lines it is the
// leader of a label farther out, led through the row.
type runLabel struct {
	at     drawing.Unit // where it belongs
	lines  []RunLine
	arrow  int          // way of laying, drawn behind its line of that number, from 1; 0: none
	wide   drawing.Unit // of the lines, arrow and all
	placed drawing.Unit // its middle
}

// runLabels is a row of labels, each level and over (or under) what it belongs to.
// Where they are close they spread along the row, in order, and a bent leader leads
// to each, so that how high the row is follows from its words alone.
type runLabels struct {
	all   []runLabel
	lines int          // most of any label
	high  drawing.Unit // of the lettering
	shift drawing.Unit // the farthest a label stands from where it belongs
	fits  bool
}

const (
	runPitch drawing.Unit = 410 // from one line of a row to the next
	runApart drawing.Unit = 200 // between neighbouring labels
	runPass  drawing.Unit = 60  // beside a leader that is led through a row
)

// spreadLabels places labels between two limits.
func spreadLabels(all []runLabel, gap, lo, hi drawing.Unit) runLabels {
	slices.SortStableFunc(all, func(a, b runLabel) int { return cmp.Compare(a.at, b.at) })
	r := runLabels{all: all}
	at, wide := make([]drawing.Unit, len(all)), make([]drawing.Unit, len(all))
	for i := range all {
		q := &all[i]
		if q.wide == 0 {
			q.wide = labelWidth(*q)
		}
		at[i], wide[i] = q.at, q.wide
		r.lines = max(r.lines, len(q.lines))
	}
	if r.lines > 0 {
		r.high = drawing.Unit(r.lines-1)*runPitch + drawing.Unit(drawing.Head)
	}
	placed, shift, fits := drawing.Spread(at, wide, gap, lo, hi)
	for i := range all {
		all[i].placed = placed[i]
	}
	r.shift, r.fits = shift, fits
	return r
}

func labelWidth(q runLabel) drawing.Unit {
	if len(q.lines) == 0 {
		return 2 * runPass
	}
	w := drawing.Unit(0)
	for i, l := range q.lines {
		n := l.width()
		if q.arrow == i+1 {
			n += arrowLong + arrowApart
		}
		w = max(w, n)
	}
	return (w + 1) / 2 * 2 // even: its middle stands on a unit
}

// need is the least width labels take in a row.
func need(all []runLabel, gap drawing.Unit) drawing.Unit {
	w := -gap
	for _, q := range all {
		n := q.wide
		if n == 0 {
			n = labelWidth(q)
		}
		w += n + gap
	}
	return max(w, 0)
}

// jog is the height in which the leaders of a row bend.
func (r *runLabels) jog() drawing.Unit {
	if r.shift <= 20 {
		return 0
	}
	return min(max(r.shift/5, 150), 650)
}

const (
	arrowLong  drawing.Unit = 600
	arrowApart drawing.Unit = 120
)

// letter letters the labels with the first line's capitals hanging from top; right
// says which way the arrows of laying point.
func (r *runLabels) letter(s *drawing.Scene, top drawing.Unit, right bool) {
	for _, q := range r.all {
		for i, l := range q.lines {
			base := top + drawing.Unit(drawing.Head) + drawing.Unit(i)*runPitch
			x := q.placed
			if q.arrow == i+1 {
				x -= (arrowLong + arrowApart) / 2
				layingArrow(s, drawing.Pt(x+l.width()/2+arrowApart, base-drawing.Unit(l.size())/2), right)
			}
			s.Text(drawing.Pt(x, base), l.Words, drawing.Style{Size: l.size(), Face: l.Face, Align: drawing.Middle,
				Fact: l.Fact})
		}
	}
}

// layingArrow points the way pieces are laid.
func layingArrow(s *drawing.Scene, at drawing.Point, right bool) {
	tail, tip, back := at.X, at.X+arrowLong, drawing.Unit(-220)
	if !right {
		tail, tip, back = tip, tail, 220
	}
	s.Line(drawing.Medium, drawing.Pt(tail, at.Y), drawing.Pt(tip+back/2, at.Y))
	s.Fill(drawing.Black, drawing.NoPen, drawing.Pt(tip, at.Y), drawing.Pt(tip+back, at.Y-90),
		drawing.Pt(tip+back, at.Y+90))
}

// lead draws the leaders of the labels from the row's edge at a height, over its jog,
// to a height where they belong. Labels that stand where they belong need none, if
// the row is next to what it is about.
func (r *runLabels) lead(s *drawing.Scene, from, to drawing.Unit, near bool) {
	jog := r.jog()
	for _, q := range r.all {
		switch {
		case q.placed == q.at && near && len(q.lines) > 0:
		case q.placed == q.at:
			s.Line(drawing.Thin, drawing.Pt(q.at, from), drawing.Pt(q.at, to))
		case from < to:
			s.Line(drawing.Thin, drawing.Pt(q.placed, from), drawing.Pt(q.at, from+jog), drawing.Pt(q.at, to))
		default:
			s.Line(drawing.Thin, drawing.Pt(q.placed, from), drawing.Pt(q.at, from-jog), drawing.Pt(q.at, to))
		}
	}
}
