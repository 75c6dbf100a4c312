package view

import (
	"strings"

	"copingset/drawing"
	"copingset/layout/plan"
)

// breakWords name a break of slope and its change; nothing at a corner.
func breakWords(b plan.SlopeBreak) []string {
	if b.Word == "" {
		return nil
	}
	return []string{strings.ToUpper(b.Word), b.Angle}
}

// stubs draws the rear leg of the next run's cap beyond each break.
func (e *runElev) stubs(g *drawing.Scene) {
	for _, k := range e.up.Beyond {
		if !e.shows(k.Fold[0].X) {
			continue
		}
		fold, foot := e.all(k.Fold), e.all(k.Foot)
		g.Line(drawing.Medium, fold...)
		g.Line(drawing.Medium, foot...)
		runBreak(g, fold[1].Add(drawing.Pt(0, -60)), foot[1].Add(drawing.Pt(0, 60)))
	}
}

// tiltShows is the least tilt of a chair, from end to end on paper, that is
// drawn.
const tiltShows drawing.Unit = 20

// chairShape is a chair as it lies on the set surface, tilted with it where it
// shows.
func (e *runElev) chairShape(c plan.Chair) []drawing.Point {
	q := e.all(c.Side)
	if d := q[0].Y - q[1].Y; max(d, -d) < tiltShows {
		return e.chairBox(c).Corners()
	}
	return []drawing.Point{q[3], q[2], q[1], q[0]}
}
