package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Paper the elevation of a run takes besides the wall top itself: packing of
// the chairs above, zones below, scales.
const runUpRows = 4600

// RunUp is the largest usual scale of heights at which the elevation of a run
// fits a height.
func RunUp(l *layout.Layout, r *layout.Run, room drawing.Unit) Scale {
	e := &runElev{runFrame: &runFrame{l: l, r: r, sys: &l.Job.System, win: Window{From: 0, To: r.Cap}, cross: Scale{Ratio: 1}}}
	top, low := e.heights()
	return runLargestFit(l, top-low, room-runUpRows, 2, 24)
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
func RunElevation(l *layout.Layout, r *layout.Run, win Window, along, up Scale, width drawing.Unit) drawing.Scene {
	return runElevationOf(newRunFrame(l, r, win, along, runUpright(along, up), width))
}

func runElevationOf(f *runFrame) drawing.Scene {
	r, win, width := f.r, f.win, f.width
	e := &runElev{runFrame: f}
	e.pad.W = width
	e.top, e.low = e.heights()
	e.deep = e.cross.Units(e.top - e.low)
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
	return runScene(e.pad, "run-elevation-"+r.Name+"-"+runCount(win.N), e.partWords()+" elevation",
		"Elevation of run "+r.Name+" seen from the roof, left hand at the left: wall top, packing, chairs and rear leg.", top, bottom)
}

// runElev is an elevation being drawn: paper y is 0 at the top of the caps'
// rear leg.
type runElev struct {
	*runFrame
	pad      drawing.Scene
	placer   *place.Placer
	bare     []int         // numbers of notes without a balloon on the drawing
	top, low length.Length // heights drawn from and to
	deep     drawing.Unit
}

// insideEnds are the front stations between which the wall's inside face is
// drawn: at an inside corner it reaches beyond the front face.
func (e *runElev) insideEnds() (from, to length.Length) {
	return length.Min(0, e.r.Trim.Left), length.Max(e.r.Front, e.r.Front-e.r.Trim.Right)
}

// surveyed says whether there is a wall top to draw.
func (e *runElev) surveyed() bool { return len(e.r.Readings) > 0 }

// set is the height of the plane the chairs sit on at the rear face of the
// wall, at a front station: it may rise or fall along the run, and across it.
func (e *runElev) set(front length.Length) length.Length {
	z := e.r.SetAt(front)
	if !e.slopes() {
		return z
	}
	q := e.r.At(front)
	return z - e.r.Perimeter.Cross.Rise(q.Gap+q.Width)
}

// street is the same plane at the wall's front face: higher where the packing
// makes the slope of the top.
func (e *runElev) street(front length.Length) length.Length {
	z := e.r.SetAt(front)
	if !e.slopes() {
		return z
	}
	return z - e.r.Perimeter.Cross.Rise(e.r.At(front).Gap)
}

// slopes says that the two edges of the plane are at different heights.
func (e *runElev) slopes() bool { return e.surveyed() && e.r.Perimeter.Cross != 0 }

// leg is the rear leg of the cap: its fold and its foot.
func (e *runElev) leg(front length.Length) (fold, foot length.Length) {
	fold = e.set(front) + e.sys.Chair.Rise + e.sys.Metal.Thickness
	return fold, fold - e.sys.RearFoot()
}

// heights are the highest and the lowest thing drawn: the same for every
// window of a run, so that its sheets compare.
func (e *runElev) heights() (top, low length.Length) {
	for i, s := range []length.Length{0, e.r.Front} {
		fold, foot := e.leg(s)
		if i == 0 {
			top, low = fold, foot
		}
		top, low = length.Max(top, fold), length.Min(low, foot)
		if e.slopes() {
			top = length.Max(top, e.street(s))
		}
	}
	for _, q := range e.r.Readings {
		fold, foot := e.leg(q.Station)
		top = length.Max(top, fold)
		if e.slopes() {
			top = length.Max(top, e.street(q.Station))
		}
		low = length.Min(length.Min(low, foot), length.Min(q.TopInside, q.TopOutside))
	}
	for _, b := range e.breaks() {
		fold, foot := e.leg(e.r.ToFront(b.at))
		top, low = length.Max(top, fold+b.rise), length.Min(low, foot+b.rise)
	}
	return top, low - length.Inch/4
}

func (e *runElev) z(height length.Length) drawing.Unit { return e.cross.Units(e.top - height) }

// line is a height along the run, at every reading between two front stations.
func (e *runElev) line(from, to length.Length, height func(front length.Length) length.Length) []drawing.Point {
	lo, hi, ok := e.cut(e.r.ToCap(from), e.r.ToCap(to))
	if !ok {
		return nil
	}
	from, to = e.r.ToFront(lo), e.r.ToFront(hi)
	at := []length.Length{from}
	for _, q := range e.r.Readings {
		if q.Station > from && q.Station < to {
			at = append(at, q.Station)
		}
	}
	at = append(at, to)
	pts := make([]drawing.Point, len(at))
	for i, s := range at {
		pts[i] = drawing.Pt(e.x(e.r.ToCap(s)), e.z(height(s)))
	}
	return pts
}

func (e *runElev) inside(s length.Length) length.Length  { return e.r.At(s).TopInside }
func (e *runElev) outside(s length.Length) length.Length { return e.r.At(s).TopOutside }

// band is the area between two lines.
func band(a, b []drawing.Point) []drawing.Point {
	ring := append([]drawing.Point{}, a...)
	for i := len(b) - 1; i >= 0; i-- {
		ring = append(ring, b[i])
	}
	return ring
}

// runWallHatch is the hatch of the material at the top of a wall.
func runWallHatch(w *job.Wall) (drawing.HatchKind, string) {
	if w == nil || len(w.Layers) == 0 {
		return drawing.NoHatch, ""
	}
	t := w.Layers[0]
	switch t.Material {
	case job.Wood:
		return drawing.Wood, t.Name
	case job.Plywood:
		return drawing.Plywood, t.Name
	case job.Masonry:
		return drawing.Masonry, t.Name
	case job.Concrete:
		return drawing.Concrete, t.Name
	case job.Steel:
		return drawing.Metal, t.Name
	}
	return drawing.NoHatch, ""
}

// wallBody hatches the wall below its top at the inside edge.
func (e *runElev) wallBody(g *drawing.Scene) {
	if !e.surveyed() {
		return
	}
	from, to := e.insideEnds()
	pts := e.line(from, to, e.inside)
	if len(pts) < 2 {
		return
	}
	kind, _ := runWallHatch(e.r.Wall)
	n := len(pts)
	foot := []drawing.Point{drawing.Pt(pts[0].X, e.deep), drawing.Pt(pts[n-1].X, e.deep)}
	g.Hatch(kind, drawing.NoPen, band(pts, foot)...)
	g.Line(drawing.Thin, foot...)
	g.Line(drawing.Medium, pts[0], foot[0])
	g.Line(drawing.Medium, pts[n-1], foot[1])
	for _, x := range e.r.Job.Expansion {
		c := e.r.ToCap(e.r.FrontStation(x.Station))
		if !e.shows(c) {
			continue
		}
		half := max(e.along.Units(x.Gap), runTrueJ) / 2
		at := e.x(c)
		y := e.z(e.inside(e.r.ToFront(c)))
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
	if !e.surveyed() {
		return
	}
	if e.l.Job.Packing.Method == job.PackChairs {
		for _, c := range e.chairs() {
			from, to := e.r.ToFront(c.Left(e.sys)), e.r.ToFront(c.Right(e.sys))
			if set, top := e.line(from, to, e.set), e.line(from, to, e.inside); len(set) > 1 {
				g.Hatch(drawing.Packing1, drawing.Thin, band(set, top)...)
			}
		}
		return
	}
	from, to := e.insideEnds()
	zones := e.r.BuildUp
	for i, z := range zones {
		if i == 0 {
			z.From = from
		}
		if i == len(zones)-1 {
			z.To = to
		}
		for _, s := range e.between(z.From, z.To) {
			if set, top := e.line(s[0], s[1], e.set), e.line(s[0], s[1], e.inside); len(set) > 1 {
				g.Hatch(runPacking(z.Layers), drawing.Thin, band(set, top)...)
			}
		}
	}
}

// between takes the building expansion joints out of a stretch of the wall.
func (e *runElev) between(from, to length.Length) [][2]length.Length {
	var out [][2]length.Length
	for _, x := range e.r.Job.Expansion {
		c := e.r.FrontStation(x.Station)
		if c > from && c < to {
			out = append(out, [2]length.Length{from, c - x.Gap/2})
			from = c + x.Gap/2
		}
	}
	return append(out, [2]length.Length{from, to})
}

// wallTops draws the wall top at the outside edge dashed, as it lies behind,
// at the inside edge full, and the set surface.
func (e *runElev) wallTops(g *drawing.Scene) {
	from, to := e.insideEnds()
	set := e.line(from, to, e.set)
	if len(set) > 1 {
		g.Line(drawing.Centre, set...)
	}
	if !e.surveyed() {
		return
	}
	if pts := e.line(0, e.r.Front, e.outside); len(pts) > 1 {
		g.Line(drawing.Hidden, pts...)
	}
	if pts := e.line(0, e.r.Front, e.street); e.slopes() && len(pts) > 1 {
		g.Line(drawing.Hidden, pts...)
	}
	if pts := e.line(from, to, e.inside); len(pts) > 1 {
		g.Line(drawing.Medium, pts...)
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

func (e *runElev) chairBox(c *layout.Chair) drawing.Rect {
	set := e.set(e.r.ToFront(c.At))
	return drawing.Box(e.x(c.Left(e.sys)), e.z(set+e.sys.Chair.Rise), e.x(c.Right(e.sys)), e.z(set))
}

// caps outlines the rear leg of every part. At a corner the rear mold line is
// shorter than the front by the trim, or longer.
func (e *runElev) caps(g *drawing.Scene) {
	for _, q := range e.r.Parts {
		a, b := q.From, q.To
		left, right := runMiters(q)
		if left != nil {
			a += left.Trim[1]
		}
		if right != nil {
			b -= right.Trim[0]
		}
		from, to, ok := e.cut(a, b)
		if !ok {
			continue
		}
		xa, xb := e.jointEdge(from, false), e.jointEdge(to, true)
		fa, ta := e.leg(e.r.ToFront(from))
		fb, tb := e.leg(e.r.ToFront(to))
		g.Line(drawing.Medium, drawing.Pt(xa, e.z(fa)), drawing.Pt(xb, e.z(fb)))
		g.Line(drawing.Medium, drawing.Pt(xa, e.z(ta)), drawing.Pt(xb, e.z(tb)))
		if from == a {
			g.Line(drawing.Medium, drawing.Pt(xa, e.z(fa)), drawing.Pt(xa, e.z(ta)))
		}
		if to == b {
			g.Line(drawing.Medium, drawing.Pt(xb, e.z(fb)), drawing.Pt(xb, e.z(tb)))
		}
	}
	for _, c := range []struct {
		cut bool
		x   drawing.Unit
	}{{e.win.From > 0, e.x(e.win.From)}, {e.win.To < e.r.Cap, e.x(e.win.To)}} {
		if c.cut {
			runBreak(g, drawing.Pt(c.x, -100), drawing.Pt(c.x, e.deep+100))
		}
	}
	for _, m := range []*length.Length{e.win.MatchLeft, e.win.MatchRight} {
		if m != nil {
			g.Line(drawing.Match, drawing.Pt(e.x(*m), -100), drawing.Pt(e.x(*m), e.deep+100))
		}
	}
}

// jointEdge sets the edges of a joint that would print too narrow apart.
func (e *runElev) jointEdge(at length.Length, right bool) drawing.Unit {
	for _, j := range e.r.Joints {
		if e.along.Units(j.Gap()) >= runTrueJ {
			continue
		}
		if right && at == j.From {
			return e.x(j.Centre()) - runTrueJ/2
		}
		if !right && at == j.To {
			return e.x(j.Centre()) + runTrueJ/2
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
	for _, m := range []*length.Length{e.win.MatchLeft, e.win.MatchRight} {
		if m != nil {
			e.placer.Stroke(90, drawing.Pt(e.x(*m), -100), drawing.Pt(e.x(*m), e.deep))
		}
	}
	e.placer.Block(drawing.Box(0, -90, e.width, 20000)) // what lies below has its own rows
	var marks []place.Wish
	for _, q := range e.r.Parts {
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
		v.stops = append(v.stops, runStop{at: e.x(c.At), from: e.chairBox(c).Min.Y, note: runTag(c.Name) + ": packing front " + e.short(c.PackFront) + ", rear " + e.short(c.PackRear), lines: []runLine{
			{e.short(c.PackRear), drawing.Note, drawing.Regular, layout.Named(c.Name, "packing-rear")},
			{e.short(c.PackFront), drawing.Note, drawing.Regular, layout.Named(c.Name, "packing-front")},
			{runTag(c.Name), drawing.Note, drawing.Bold, ""}}})
	}
	box, bases := v.draw(g)
	for i, words := range []string{"PACKING REAR", "PACKING FRONT", "CHAIR"} {
		if i < len(bases) {
			e.title(g, words, "", bases[i])
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
	e.title(g, "SEEN FROM ROOF", "", at)
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
	from := e.r.ToFront(length.Max(e.win.From, 0))
	if !e.slopes() {
		return 0, 0
	}
	const apart = 420
	x := min(e.x(length.Max(e.win.From, e.r.ToCap(0))), e.x(e.win.From)) - 150
	street, roof := e.z(e.street(from)), e.z(e.set(from))
	a, b := street, roof
	if over := apart - (b - a); over > 0 {
		a, b = a-over/2, b+(over+1)/2
	}
	if over := b - e.deep; over > 0 {
		a, b = a-over, b-over
	}
	for _, t := range []struct {
		words   string
		at, tip drawing.Unit
	}{{"set at street edge", a, street}, {"set at roof edge", b, roof}} {
		g.Text(drawing.Pt(x-450, t.at+drawing.Unit(drawing.Note)/2), t.words, drawing.Style{Align: drawing.Right})
		g.Line(drawing.Thin, drawing.Pt(x-400, t.at), drawing.Pt(x, t.tip))
	}
	return a - drawing.Unit(drawing.Note)/2, b + drawing.Unit(drawing.Note)/2
}

// mark is the mark of a piece, to stand just above its rear leg.
func (e *runElev) mark(q layout.Part) (place.Wish, bool) {
	from, to, ok := e.cut(q.From, q.To)
	if !ok || to-from < (q.To-q.From)/4 && q.To-q.From > length.Foot && (from > q.From || to < q.To) {
		return place.Wish{}, false
	}
	a, b := e.x(from), e.x(to)
	l := place.Label{Lines: []string{q.Piece.Mark}, Size: drawing.Head, Face: drawing.Bold, About: drawing.Pt((a+b)/2, -60)}
	if q.Piece.Kind == cap.PitchMiter {
		l.Lines = append(l.Lines, strings.Join(breakWords(q.Piece.Miters[0].Corner), " "))
		l.LeadFace, l.Face, l.Size = drawing.Bold, drawing.Regular, drawing.Note
		fold, foot := e.leg(e.r.ToFront((from + to) / 2))
		l.About = drawing.Pt((a+b)/2, (e.z(fold)+e.z(foot))/2) // on its metal, which may lie far down a slope
	}
	w, h := l.Extent()
	aside := max((b-a-w)/2, 0) + 300
	far := false                        // from its metal
	if q.Piece.Kind == cap.PitchMiter { // its words may be wider than the room between two chairs
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
