package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Paper the elevation of a run takes besides the wall top itself: packing of
// the chairs above, zones below, scales.
const runUpRows = 4600

// RunUp is the largest usual scale of heights at which the elevation of a run
// fits a height.
func RunUp(r *plan.Run, room drawing.Unit) Scale {
	return runLargestFit(r.Metric, r.Elevation.Top-r.Elevation.Low, room-runUpRows, 2, 24)
}

// runUpright is the scale of heights an elevation is drawn to: never smaller
// than the lengthwise one.
func runUpright(along, asked Scale) Scale {
	if asked.Ratio > along.Ratio {
		return along
	}
	return asked
}

// RunElevation draws a window of a run as seen from the roof, the left hand at
// the left: the wall top as surveyed at both edges, the plane the chairs sit
// on, the packing between hatched by its layers of plywood, the chairs with
// their packing, the rear leg of the caps.
func RunElevation(say words.Book, r *plan.Run, win Window, along, up Scale, width drawing.Unit) drawing.Scene {
	return runElevationOf(newRunFrame(say, r, win, along, runUpright(along, up), width))
}

func runElevationOf(f *runFrame) drawing.Scene {
	r, win, width := f.of, f.win, f.width
	e := newRunElev(f)
	e.pad.W = width
	e.pad.Group(drawing.Wall, "", e.wallBody)
	e.pad.Group(drawing.Packing, "", e.packing)
	e.pad.Group(drawing.Wall, "", e.wallTops)
	e.pad.Group(drawing.Chairs, "", e.chairRects)
	e.pad.Group(drawing.Caps, "", func(g *drawing.Scene) {
		e.caps(g)
		e.stubs(g)
	})
	e.placer = place.New(drawing.Box(0, -5000, width, 20000))
	e.placer.First = e.first
	e.placed = e.placer.Notes
	var top, bottom drawing.Unit
	e.pad.Group(drawing.Lettering, "", func(g *drawing.Scene) { top = e.above(g) })
	e.pad.Group(drawing.Dimensions, "", func(g *drawing.Scene) { bottom = e.below(g) })
	return runScene(e.pad, "run-elevation-"+r.Name+"-"+runCount(win.N), e.partWords(words.ViewElevationTitle, words.ViewElevationPart),
		e.say.Say(words.ViewElevationAbout, words.In("run", r.Name)), top, bottom)
}

// runElev is an elevation being drawn: paper y is 0 at the top of the caps'
// rear leg.
type runElev struct {
	*runFrame
	up     *plan.Elevation
	pad    drawing.Scene
	placer *place.Placer
	bare   []int // numbers of notes without a balloon on the drawing
	deep   drawing.Unit
}

func newRunElev(f *runFrame) *runElev {
	e := &runElev{runFrame: f, up: &f.of.Elevation}
	e.deep = e.cross.Units(e.up.Top - e.up.Low)
	return e
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
	return [...]drawing.HatchKind{drawing.Packing1, drawing.Packing2, drawing.Packing3, drawing.Packing4}[min(max(layers, 0), 3)]
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
	}{{drawing.Centre, e.up.SetRoof}, {drawing.Hidden, e.up.Street}, {drawing.Hidden, e.up.SetStreet}, {drawing.Medium, e.up.Roof}} {
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
		from, to, ok := e.cut(a, b)
		if !ok {
			continue
		}
		fold, foot := e.shown(k.Fold), e.shown(k.Foot)
		for _, line := range [][]drawing.Point{fold, foot} {
			line[0].X, line[1].X = e.jointEdge(from, false), e.jointEdge(to, true)
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

// jointEdge sets the edges of a joint that would print too narrow apart.
func (e *runElev) jointEdge(at length.Length, right bool) drawing.Unit {
	for _, j := range e.of.Joints {
		if e.along.Units(j.Gap.Real) >= runTrueJ {
			continue
		}
		if right && at == j.From {
			return e.x(j.Centre) - runTrueJ/2
		}
		if !right && at == j.To {
			return e.x(j.Centre) + runTrueJ/2
		}
	}
	return e.x(at)
}

// above letters the marks of the pieces and, over them, the packing of every
// chair, front over rear.
func (e *runElev) above(g *drawing.Scene) drawing.Unit {
	for _, c := range e.chairs() {
		e.placer.Stroke(110, drawing.Pt(e.x(c.At), -2000), drawing.Pt(e.x(c.At), 0))
	}
	for _, x := range e.matches() {
		e.placer.Stroke(90, drawing.Pt(x, -100), drawing.Pt(x, e.deep))
	}
	e.placer.Block(drawing.Box(0, -90, e.width, 20000)) // what lies below has its own rows
	var marks []place.Wish
	for _, q := range e.of.Pieces {
		if w, ok := e.mark(q); ok {
			marks = append(marks, w)
		}
	}
	for _, got := range e.placer.PlaceAll(marks) {
		e.stands(got)
		g.Add(got.Marks...)
	}
	top := min(g.Bounds().Min.Y, 0) - runGap
	v := &runLevels{f: e.runFrame, at: top, lo: runHead, hi: e.width}
	for _, c := range e.chairs() {
		v.stops = append(v.stops, runStop{at: e.x(c.At), from: e.chairBox(c).Min.Y, note: e.say.Say(words.ViewNoteBuild, words.In("chair", runTag(c.Mark)),
			words.In("street", e.short(c.Front.Thick.Real)), words.In("roof", e.short(c.Rear.Thick.Real))), lines: []runLine{
			{e.short(c.Rear.Thick.Real), drawing.Note, drawing.Regular, c.Rear.Thick.Fact},
			{e.short(c.Front.Thick.Real), drawing.Note, drawing.Regular, c.Front.Thick.Fact},
			{runTag(c.Mark), drawing.Note, drawing.Bold, ""}}})
	}
	box, bases := v.draw(g)
	for i, k := range []words.Key{words.ViewRowRoof, words.ViewRowStreet, words.ViewRowChair} {
		if i < len(bases) {
			e.title(g, e.say.Say(k), "", bases[i])
		}
	}
	if len(v.stops) > 0 {
		top = box.Min.Y - 60
	}
	at := e.deep/2 + 120
	if high, low := e.edgeLabels(g); low > high {
		if at = max(at, low+500); at > e.deep+100 {
			at = top - 100 // over all else
			top = at - 400
		}
	}
	e.title(g, e.say.Say(words.ViewRowSeen), "", at)
	return top
}

// stands keeps the numbers of the notes that have no balloon on the drawing.
func (e *runElev) stands(q place.Placement) {
	if q.Note > 0 && !q.Stands() {
		e.bare = append(e.bare, q.Note)
	}
}

// edgeLabels says at the left which edge of the plane the chairs sit on is
// which, where they are at different heights, and returns the room it takes.
func (e *runElev) edgeLabels(g *drawing.Scene) (high, low drawing.Unit) {
	from := length.Max(e.win.From, 0)
	if !e.up.Slopes {
		return 0, 0
	}
	const apart = 420
	x := min(e.x(length.Max(e.win.From, e.of.FrontFrom)), e.x(e.win.From)) - 150
	street, roof := e.z(plan.On(e.up.SetStreet, from)), e.z(plan.On(e.up.SetRoof, from))
	a, b := street, roof
	if over := apart - (b - a); over > 0 {
		a, b = a-over/2, b+(over+1)/2
	}
	if over := b - e.deep; over > 0 {
		a, b = a-over, b-over
	}
	for _, t := range []struct {
		edge    words.Key
		at, tip drawing.Unit
	}{{words.ViewEdgeStreet, a, street}, {words.ViewEdgeRoof, b, roof}} {
		g.Text(drawing.Pt(x-450, t.at+drawing.Unit(drawing.Note)/2), e.say.Say(t.edge), drawing.Style{Align: drawing.Right})
		g.Line(drawing.Thin, drawing.Pt(x-400, t.at), drawing.Pt(x, t.tip))
	}
	return a - drawing.Unit(drawing.Note)/2, b + drawing.Unit(drawing.Note)/2
}

// legMiddle is the middle of a piece's rear leg on paper.
func (e *runElev) legMiddle(q plan.Piece, at length.Length) drawing.Unit {
	for i, p := range e.of.Pieces {
		if p.From == q.From {
			k := e.up.Legs[i]
			return (e.z(plan.On(k.Fold, at)) + e.z(plan.On(k.Foot, at))) / 2
		}
	}
	return 0
}

// mark is the mark of a piece, to stand just above its rear leg.
func (e *runElev) mark(q plan.Piece) (place.Wish, bool) {
	from, to, ok := e.cut(q.From, q.To)
	if !ok || to-from < (q.To-q.From)/4 && q.To-q.From > length.Foot && (from > q.From || to < q.To) {
		return place.Wish{}, false
	}
	a, b := e.x(from), e.x(to)
	l := place.Label{Lines: []string{q.Mark}, Size: drawing.Head, Face: drawing.Bold, About: drawing.Pt((a+b)/2, -60)}
	if q.Kind == plan.PitchMiterPiece {
		l.Lines = append(l.Lines, strings.Join(breakWords(q.Break), " "))
		l.LeadFace, l.Face, l.Size = drawing.Bold, drawing.Regular, drawing.Note
		l.About = drawing.Pt((a+b)/2, e.legMiddle(q, (from+to)/2)) // on its metal, which may lie far down a slope
	}
	w, h := l.Extent()
	aside := max((b-a-w)/2, 0) + 300
	far := false                        // from its metal
	if q.Kind == plan.PitchMiterPiece { // its words may be wider than the room between two chairs
		aside += w
		far = l.About.Y > 450
	}
	var spots []place.Spot
	for lift := drawing.Unit(0); lift < 1500; lift += 450 {
		for d := drawing.Unit(0); d <= aside; d += 100 {
			for _, x := range []drawing.Unit{(a+b)/2 + d, (a+b)/2 - d} {
				spots = append(spots, place.Spot{Centre: drawing.Pt(x, -100-h/2-60-lift), Leader: far || lift > 0})
			}
		}
	}
	return place.Wish{Label: l, Spots: spots}, true
}
