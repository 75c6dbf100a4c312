package view

import (
	"math"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// breakWords name a break of slope and its change; nothing at a corner.
func breakWords(c *layout.Corner) []string {
	if c == nil || !c.Straight() {
		return nil
	}
	return []string{strings.ToUpper(c.Pitch.String()), job.FormatAngle(max(c.Bend, -c.Bend))}
}

// breakStub is how much of the next run's cap an elevation shows beyond a
// break.
const breakStub = 9 * length.Inch

// breaks are the breaks at the ends of the run, with the rise of the next run's
// cap over breakStub.
func (e *runElev) breaks() []elevBreak {
	var out []elevBreak
	put := func(c *layout.Corner, at length.Length, dir drawing.Unit, incline job.Angle) {
		if c != nil && c.Straight() {
			out = append(out, elevBreak{c, at, dir, length.FromMM(breakStub.MM() * math.Tan(incline.Degrees()*math.Pi/180))})
		}
	}
	if c := e.r.Left.Corner; c != nil {
		put(c, 0, -1, -c.Arrive.Incline())
	}
	if c := e.r.Right.Corner; c != nil {
		put(c, e.r.Cap, 1, c.Leave.Incline())
	}
	return out
}

type elevBreak struct {
	corner *layout.Corner
	at     length.Length // cap station
	dir    drawing.Unit  // outwards on paper
	rise   length.Length
}

// stubs draws the rear leg of the next run's cap beyond each break.
func (e *runElev) stubs(g *drawing.Scene) {
	for _, b := range e.breaks() {
		if !e.shows(b.at) {
			continue
		}
		fold, foot := e.leg(e.r.ToFront(b.at))
		x, far := e.x(b.at), e.x(b.at)+b.dir*e.along.Units(breakStub)
		g.Line(drawing.Medium, drawing.Pt(x, e.z(fold)), drawing.Pt(far, e.z(fold+b.rise)))
		g.Line(drawing.Medium, drawing.Pt(x, e.z(foot)), drawing.Pt(far, e.z(foot+b.rise)))
		runBreak(g, drawing.Pt(far, e.z(fold+b.rise)-60), drawing.Pt(far, e.z(foot+b.rise)+60))
	}
}

// tiltShows is the least tilt of a chair, from end to end on paper, that is
// drawn.
const tiltShows drawing.Unit = 20

// chairShape is a chair as it lies on the set surface, tilted with it where it
// shows.
func (e *runElev) chairShape(c *layout.Chair) []drawing.Point {
	l, r := c.Left(e.sys), c.Right(e.sys)
	zl, zr := e.set(e.r.ToFront(l)), e.set(e.r.ToFront(r))
	if d := e.z(zl) - e.z(zr); max(d, -d) < tiltShows {
		return e.chairBox(c).Corners()
	}
	rise := e.sys.Chair.Rise
	return []drawing.Point{drawing.Pt(e.x(l), e.z(zl+rise)), drawing.Pt(e.x(r), e.z(zr+rise)), drawing.Pt(e.x(r), e.z(zr)), drawing.Pt(e.x(l), e.z(zl))}
}
