package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/fold"
)

// SeamMark is what the symbol of a seam shows.
type SeamMark int

// What joins: nothing that has a symbol, a square butt weld, a fillet at the edge of
// a lap, solder between two faces; a tail alone.
const (
	NoSeamMark SeamMark = iota
	TailAlone
	SquareButt
	Fillet
	SurfaceJoint
)

// SeamSystem is how a symbol stands on its reference line.
type SeamSystem int

// ISO 2553 system A has a second, dashed line for the other side. System B, which
// AWS A2.4 is drawn like, has one line: the arrow side under it, the other above.
const (
	TwoLines SeamSystem = iota
	OneLine
)

// Seam is one face of a seam from above: the metal of both legs, millimetres, y to
// the roof.
type Seam struct {
	Title  string
	About  string // for those who cannot see it
	Rings  [2][]fold.Point
	Finish float64    // -1: the finish lies towards the street
	At     fold.Point // where the symbol points
	Other  bool       // the joint is made from the other side
	Mark   SeamMark
	System SeamSystem
	Tail   string
	Words  []string // under the picture
	Fact   string   // names of the facts that the first of them letters
}

// Room of a seam's picture.
const (
	seamWide drawing.Unit = 7000
	seamHigh drawing.Unit = 3300
)

// SeamPlan draws one face of a seam with its symbol.
func SeamPlan(q Seam) drawing.Scene {
	s := drawing.Scene{Name: "seam", Title: q.Title, Desc: q.About, W: seamWide}
	y := drawing.Unit(drawing.Note)
	s.Text(drawing.Pt(0, y), q.Title, drawing.Style{Face: drawing.Bold})
	var e extent
	for _, ring := range q.Rings {
		for _, p := range ring {
			e.hold(xy{p.X, p.Y})
		}
	}
	wide, high := e.hi.x-e.lo.x, e.hi.y-e.lo.y
	ratio := 1.0 / 8
	for _, r := range []float64{1. / 5, 1. / 4, 1. / 3, 1. / 2, 1, 2, 4} {
		if ratio = r; wide/r*100 <= 3000 && high/r*100 <= float64(seamHigh-1500) {
			break
		}
	}
	top := y + 250
	if q.Finish < 0 {
		top += 1250 // the symbol stands over it
	}
	m := paperMap{ratio: ratio, origin: drawing.Pt(-drawing.Round(e.lo.x/ratio), top-drawing.Round(e.lo.y/ratio))}
	for i, ring := range q.Rings {
		pts := make([]drawing.Point, len(ring))
		for k, p := range ring {
			pts[k] = m.at(xy{p.X, p.Y})
		}
		s.Fill([]drawing.Tone{drawing.Dark, drawing.Light}[i], drawing.Medium, pts...)
	}
	low := top + drawing.Round(high/ratio)
	at := m.at(xy{q.At.X, q.At.Y})
	elbow := drawing.Pt(max(at.X, 1000)+700, top-700)
	if q.Finish > 0 {
		elbow.Y = low + 600
	}
	if q.Mark == NoSeamMark {
		leader(&s, at, elbow)
		s.Line(drawing.Thin, elbow, drawing.Pt(elbow.X+300, elbow.Y))
		tail(&s, drawing.Pt(elbow.X+380, elbow.Y+90), q.Tail)
	} else {
		q.symbol(&s, at, elbow)
	}
	if q.Finish > 0 {
		low = elbow.Y + 500
	}
	of := q.Fact
	for _, w := range q.Words {
		for _, line := range drawing.Wrap(w, drawing.Regular, drawing.Note, seamWide) {
			low += drawing.Note.Line()
			s.Text(drawing.Pt(0, low+60), line, drawing.Style{Fact: of})
		}
		of = ""
	}
	s.H = low + 200
	return s
}

// leader is a thin line with an arrowhead at the place it points to.
func leader(s *drawing.Scene, at, from drawing.Point) {
	s.Line(drawing.Thin, at, from)
	dx, dy := float64(from.X-at.X), float64(from.Y-at.Y)
	long := math.Hypot(dx, dy)
	ux, uy := dx/long, dy/long
	const head, half = 220, 55
	place := func(along, across float64) drawing.Point {
		return drawing.Pt(
			at.X+drawing.Unit(math.Round(ux*along-uy*across)),
			at.Y+drawing.Unit(math.Round(uy*along+ux*across)),
		)
	}
	s.Fill(drawing.Black, drawing.NoPen, at, place(head, half), place(head, -half))
}

// symbol draws arrow, reference line, weld and tail. On one line the arrow side
// stands under it; on two it stands on the full line, the other side on the dashed
// one, which is drawn under it.
func (q Seam) symbol(s *drawing.Scene, at, elbow drawing.Point) {
	leader(s, at, elbow)
	const long, size = 1300, 260
	end := drawing.Pt(elbow.X+long, elbow.Y)
	s.Line(drawing.Thin, elbow, end)
	mid := drawing.Pt(elbow.X+long/2, elbow.Y)
	up := -1 // the weld stands over its line
	switch {
	case q.System == TwoLines && q.Other:
		mid.Y, up = mid.Y+100, 1
	case q.System == OneLine && !q.Other:
		up = 1
	}
	if q.System == TwoLines {
		s.Line(drawing.Hidden, drawing.Pt(elbow.X, elbow.Y+100), drawing.Pt(end.X, elbow.Y+100))
	}
	y := func(d drawing.Unit) drawing.Unit { return mid.Y + drawing.Unit(up)*d }
	switch q.Mark {
	case SquareButt:
		for _, dx := range []drawing.Unit{-60, 60} {
			s.Line(drawing.Medium, drawing.Pt(mid.X+dx, mid.Y), drawing.Pt(mid.X+dx, y(size)))
		}
	case Fillet: // its upright stands at the left
		s.Polygon(
			drawing.Medium,
			drawing.Pt(mid.X-size/2, mid.Y),
			drawing.Pt(mid.X-size/2, y(size)),
			drawing.Pt(mid.X+size/2, mid.Y),
		)
	case SurfaceJoint:
		for _, d := range []drawing.Unit{90, 200} {
			s.Line(drawing.Medium, drawing.Pt(mid.X-size/2, y(d)), drawing.Pt(mid.X+size/2, y(d)))
		}
	}
	if q.Tail != "" {
		s.Line(drawing.Thin, drawing.Pt(end.X+220, end.Y-220), end, drawing.Pt(end.X+220, end.Y+220))
		tail(s, drawing.Pt(end.X+330, end.Y+90), q.Tail)
	}
}

// tail letters what stands in a tail in the room that is left, about its line.
func tail(s *drawing.Scene, at drawing.Point, phrase string) {
	lines := drawing.Wrap(phrase, drawing.Regular, drawing.Note, max(seamWide-at.X, 1500))
	y := at.Y - drawing.Note.Line()*drawing.Unit(len(lines)-1)/2
	for _, l := range lines {
		s.Text(drawing.Pt(at.X, y), l, drawing.Style{})
		y += drawing.Note.Line()
	}
}
