package view

import (
	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// runElev draws a window of a run as seen from the roof, the left hand at the left:
// the wall top as surveyed at both edges, the plane the chairs sit on, what lies
// between hatched by its plies, the chairs and the rear leg of the caps. Paper y is 0
// at the highest of them.
type runElev struct {
	*runFrame
	up   *plan.Elevation
	deep drawing.Unit
}

func newRunElev(f runFrame, up stretched) *runElev {
	f.cross = up
	e := &runElev{runFrame: &f, up: &f.of.Elevation}
	e.deep = up.Units(e.up.Top - e.up.Low)
	return e
}

// draw draws the elevation.
func (e *runElev) draw(s *drawing.Scene) {
	s.Group(drawing.Wall, "", e.wallBody)
	s.Group(drawing.Packing, "", e.packing)
	s.Group(drawing.Wall, "", e.wallTops)
	s.Group(drawing.Chairs, "", e.chairRects)
	s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		e.caps(g)
		e.stubs(g)
	})
}

// at is a place of the elevation on paper; all brings several there.
func (e *runElev) at(q plan.Pt) drawing.Point { return drawing.Pt(e.x(q.X), e.z(q.Y)) }

func (e *runElev) all(of []plan.Pt) []drawing.Point {
	out := make([]drawing.Point, len(of))
	for i, q := range of {
		out[i] = e.at(q)
	}
	return out
}

func (e *runElev) z(height length.Length) drawing.Unit { return e.cross.Units(e.up.Top - height) }

// shown is what the window shows of a line.
func (e *runElev) shown(of []plan.Pt) []drawing.Point { return e.line(of, e.at) }

// within is what the window shows of a line between two stations.
func (e *runElev) within(of []plan.Pt, from, to length.Length) []drawing.Point {
	return e.shown(plan.Within(of, from, to))
}

// band is the area between two lines.
func band(a, b []drawing.Point) []drawing.Point {
	ring := append([]drawing.Point{}, a...)
	for i := len(b) - 1; i >= 0; i-- {
		ring = append(ring, b[i])
	}
	return ring
}

// runWallHatch is the hatch of the material at the top of a wall.
func runWallHatch(r *plan.Run) (drawing.HatchKind, string) {
	if len(r.Layers) == 0 {
		return drawing.NoHatch, ""
	}
	kind := layerHatch(r.Layers[0].Material)
	if kind == drawing.NoHatch {
		return kind, ""
	}
	return kind, r.Layers[0].Name
}

// wallBody hatches the wall below its top at the inside edge.
func (e *runElev) wallBody(g *drawing.Scene) {
	pts := e.shown(e.up.Roof)
	if len(pts) < 2 {
		return
	}
	kind, _ := runWallHatch(e.of)
	n := len(pts)
	foot := []drawing.Point{drawing.Pt(pts[0].X, e.deep), drawing.Pt(pts[n-1].X, e.deep)}
	g.Hatch(kind, drawing.NoPen, band(pts, foot)...)
	g.Line(drawing.Thin, foot...)
	g.Line(drawing.Medium, pts[0], foot[0])
	g.Line(drawing.Medium, pts[n-1], foot[1])
	for _, x := range e.of.Gaps {
		lo, hi := x.Ring.Bounds()
		c := lo.X + (hi.X-lo.X)/2
		if !e.shows(c) {
			continue
		}
		half := max(e.along.Units(hi.X-lo.X), runTrueJ) / 2
		at := e.x(c)
		y := e.z(plan.On(e.up.Roof, c))
		g.Fill(drawing.White, drawing.NoPen, drawing.Box(at-half, y, at+half, e.deep).Corners()...)
		g.Line(drawing.Medium, drawing.Pt(at-half, y), drawing.Pt(at-half, e.deep))
		g.Line(drawing.Medium, drawing.Pt(at+half, y), drawing.Pt(at+half, e.deep))
	}
}

// runPacking is the hatch of a number of plywood layers.
func runPacking(layers int) drawing.HatchKind {
	return [...]drawing.HatchKind{drawing.Packing1, drawing.Packing2, drawing.Packing3,
		drawing.Packing4}[min(max(layers, 0), 3)]
}

// packing hatches what lies between the wall top and the set surface: along
// the whole wall, or under the chairs alone. No packing bridges a building
// expansion joint.
func (e *runElev) packing(g *drawing.Scene) {
	if !e.up.Surveyed {
		return
	}
	fill := func(kind drawing.HatchKind, from, to length.Length) {
		if set, top := e.within(e.up.SetRoof, from, to), e.within(e.up.Roof, from, to); len(set) > 1 && len(top) > 1 {
			g.Hatch(kind, drawing.Thin, band(set, top)...)
		}
	}
	if e.of.UnderChairs {
		for _, c := range e.chairs() {
			lo, hi := c.Ring.Bounds()
			fill(drawing.Packing1, lo.X, hi.X)
		}
		return
	}
	zones := e.of.BuildUps
	for i, z := range zones { // those at the ends go on as far as the roof face does
		if i == 0 {
			z.From = e.up.Roof[0].X
		}
		if i == len(zones)-1 {
			z.To = e.up.Roof[len(e.up.Roof)-1].X
		}
		for _, s := range plan.Without(z.From, z.To, e.of.Gaps) {
			fill(runPacking(z.Plies), s[0], s[1])
		}
	}
}

// wallTops draws the wall top at the outside edge dashed, as it lies behind,
// at the inside edge full, and the set surface.
func (e *runElev) wallTops(g *drawing.Scene) {
	for _, line := range []struct {
		pen drawing.Pen
		of  []plan.Pt
	}{{drawing.Centre, e.up.SetRoof}, {drawing.Hidden, e.up.Street}, {drawing.Hidden, e.up.SetStreet},
		{drawing.Medium, e.up.Roof}} {
		if pts := e.shown(line.of); len(pts) > 1 {
			g.Line(line.pen, pts...)
		}
	}
}

// chairRects are the chairs from the set surface up.
func (e *runElev) chairRects(g *drawing.Scene) {
	for _, c := range e.chairs() {
		b := e.chairBox(c)
		g.Fill(drawing.White, drawing.Medium, e.chairShape(c)...)
		x := e.x(c.At)
		g.Line(drawing.Medium, drawing.Pt(x, b.Max.Y), drawing.Pt(x, b.Max.Y-min(b.Height(), 150)))
	}
}

// chairBox is the room of a chair on paper, as high as its middle.
func (e *runElev) chairBox(c plan.Chair) drawing.Rect {
	lo, hi := c.Ring.Bounds()
	return drawing.Box(e.x(lo.X), e.z(c.Set+e.up.Rise), e.x(hi.X), e.z(c.Set))
}

// caps outlines the rear leg of every part. At a corner the rear mold line is
// shorter than the front by the trim, or longer.
func (e *runElev) caps(g *drawing.Scene) {
	for _, k := range e.up.Legs {
		a, b := k.Fold[0].X, k.Fold[1].X
		from, to, ok := e.ofCap(a, b)
		if !ok {
			continue
		}
		fold, foot := e.shown(k.Fold), e.shown(k.Foot)
		for _, line := range [][]drawing.Point{fold, foot} {
			line[0].X, line[1].X = e.edge(from, false), e.edge(to, true)
			g.Line(drawing.Medium, line...)
		}
		if from == a {
			g.Line(drawing.Medium, fold[0], foot[0])
		}
		if to == b {
			g.Line(drawing.Medium, fold[1], foot[1])
		}
	}
	for _, x := range e.cuts() {
		runBreak(g, drawing.Pt(x, -100), drawing.Pt(x, e.deep+100))
	}
	for _, x := range e.matches() {
		g.Line(drawing.Match, drawing.Pt(x, -100), drawing.Pt(x, e.deep+100))
	}
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
