package view

import (
	"math"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// formed is a finished piece in space: plan places in millimetres as xy, street
// at the top, and heights.
type formed struct {
	of    plan.Formed
	legs  []cornerLeg
	wide  float64
	faces []formedFace
	weld  float64 // pitch miter: where its legs meet along the front
	half  float64 // radians each leg is turned down from it
}

// formedFace is one face of the folded piece.
type formedFace struct {
	name string
	pts  []fold.Vec // x and y in plan with y to the roof, z up
}

// shortened is the length a leg is drawn with: true up to what shows its ends,
// then growing ever less, so that the longer of two legs stays the longer.
func shortened(long, least, wide float64) float64 {
	if long <= least {
		return long
	}
	return least + 1.6*wide*(1-math.Exp(-(long-least)/(8*wide)))
}

// formedOf lays the legs of a finished piece out about its miters.
func formedOf(of plan.Formed) formed {
	c := newCorner(words.Book{}, of.Corner)
	out := formed{of: of, wide: c.wide}
	frame := legFrame{dir: xy{1, 0}}
	turned := 0.0
	short := make([]float64, len(c.legs))
	for i := range c.legs {
		g := c.legs[i]
		if c.tees() { // its legs are short
			out.legs = append(out.legs, g)
			continue
		}
		trims := math.Abs(g.leftTrim) + math.Abs(g.rightTrim)
		short[i] = shortened(g.long, trims+1.3*c.wide, c.wide)
		g.legFrame, g.long = frame, short[i]
		out.legs = append(out.legs, g)
		if i < len(of.Miters) {
			turned += of.Miters[i].By.Degrees()
			frame = legFrame{o: g.at(g.long, 0), dir: heading(turned)}
		}
	}
	leg := -1
	if of.Bend != 0 { // half of the change of slope is on each leg
		out.weld, out.half = out.legs[1].o.x, of.Bend.Degrees()/2*math.Pi/180
	}
	for _, b := range of.Bodies {
		if b.Plate {
			out.plate(b, max(leg, 0))
			continue
		}
		leg = min(leg+1, len(out.legs)-1)
		g := out.legs[leg]
		true0 := c.legs[leg].long
		below := 0.0 // a branch's front fold, under the main's
		if c.tees() && leg == 1 {
			below = of.Below.MM()
		}
		for _, face := range b.Faces {
			if face.Name == "hem" {
				continue
			}
			ff := formedFace{name: face.Name}
			for _, v := range face.Corners {
				v.Z -= below
				ff.pts = append(ff.pts, out.put(g, true0, v))
			}
			out.faces = append(out.faces, ff)
		}
	}
	return out
}

// last is the leg at whose end the right hand is.
func (q formed) last() cornerLeg {
	if q.of.Kind == plan.Branching {
		return q.legs[0]
	}
	return q.legs[len(q.legs)-1]
}

// put brings a corner of a leg's solid to the piece: right of the middle of
// the leg it moves with the right end.
func (q formed) put(g cornerLeg, long float64, v fold.Vec) fold.Vec {
	x, y := v.X, -v.Y // back to the layout's frame
	if x > long/2 {
		x -= long - g.long
	} else if x > g.long/2 {
		x = g.long / 2
	}
	p := g.at(x, y)
	return q.tilted(fold.Vec{X: p.x, Y: p.y, Z: v.Z}, g.atLeft)
}

// tilted turns a place of a leg of a pitch miter about the weld: the outer ends
// go down from a peak.
func (q formed) tilted(v fold.Vec, left bool) fold.Vec {
	if q.half == 0 {
		return v
	}
	turn := q.half
	if left {
		turn = -q.half
	}
	sin, cos := math.Sincos(turn)
	x := v.X - q.weld
	return fold.Vec{X: q.weld + x*cos + v.Z*sin, Y: v.Y, Z: v.Z*cos - x*sin}
}

// plate stands a closed end's plate at the end it closes: of the first leg if
// the piece is closed at the left, of the last otherwise.
func (q *formed) plate(b plan.FormedBody, leg int) {
	g := q.legs[leg]
	x := g.long
	if leg == 0 && q.of.Ends[0].Kind == plan.ClosedEnd &&
		!slices.ContainsFunc(q.faces, func(f formedFace) bool { return f.name == "end plate" }) {
		x = 0
	}
	for _, f := range b.Faces {
		ff := formedFace{name: "end plate"}
		for _, v := range f.Corners {
			p := g.at(x, -v.Y)
			ff.pts = append(ff.pts, fold.Vec{X: p.x, Y: p.y, Z: v.Z})
		}
		q.faces = append(q.faces, ff)
	}
}

// tapered is the outline of a leg from above. A taper is drawn as a quarter of
// the width, whatever it is: the wide end must be told from the narrow one at a
// glance, and the sheet gives both widths.
func (q formed) tapered(g cornerLeg, p []xy) []xy {
	if q.of.Kind != plan.Tapering {
		return p
	}
	at := func(x, y float64) xy { return g.at(x*g.long, y*q.wide) }
	if q.of.Hand == plan.RightHand {
		return []xy{p[0], p[1], p[2], at(0.75, 1), at(0.25, 0.75), at(0, 0.75)}
	}
	return []xy{p[0], p[1], at(1, 0.75), at(0.75, 0.75), at(0.25, 1), p[3]}
}

// FormedTop draws a piece as a person on the roof sees it from above: street at
// the top, L and R at its ends, legs told apart. Long legs are shortened.
func FormedTop(say words.Book, of plan.Formed, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{
		Name:  "top-" + fileName(of.Family),
		Title: say.Say(words.FormedTop, words.In("mark", of.Family)),
		W:     w,
		H:     h,
	}
	s.Desc = say.Say(words.FormedTopAbout)
	q := formedOf(of)
	var e extent
	for _, g := range q.legs {
		p := g.polygon()
		e.hold(p[:]...)
	}
	sideW, topH := min(850, max(620, w/4)), min(1000, max(480, h/4)) // on a small label the piece is what counts
	ew, eh := e.hi.x-e.lo.x, e.hi.y-e.lo.y
	availW, availH := w-2*sideW, h-2*topH
	ratio := math.Max(ew/availW.Millimetres(), eh/availH.Millimetres())
	o := drawing.Pt(w/2-drawing.Round((e.lo.x+e.hi.x)/2/ratio), h/2-drawing.Round((e.lo.y+e.hi.y)/2/ratio))
	m := paperMap{ratio: ratio, origin: o}
	for i, g := range q.legs {
		p := g.polygon()
		s.Fill(drawing.White, drawing.Medium, m.all(q.tapered(g, p[:])...)...)
		// The street face is the thick one.
		s.Line(drawing.Thick, m.at(p[0]), m.at(p[1]))
		if i == 0 && of.Ends[0].Kind != plan.Jointed {
			q.closed(&s, m, p[0], p[3], g.dir.times(-1), of.Ends[0].Kind)
		}
		if i == len(q.legs)-1 && of.Ends[1].Kind != plan.Jointed {
			q.closed(&s, m, p[1], p[2], g.dir, of.Ends[1].Kind)
		}
	}
	leg := -1
	for _, b := range of.Bodies {
		if b.Plate {
			continue
		}
		leg = min(leg+1, len(q.legs)-1)
		g, full := q.legs[leg], b.Leg.MM()
		for _, h := range b.Holes {
			var ring []xy
			var c fold.Vec
			for _, w := range h {
				c = fold.Vec{X: c.X + w.X/float64(len(h)), Y: c.Y + w.Y/float64(len(h))}
				ring = append(ring, xy{w.X, -w.Y})
			}
			// A hole keeps its size and its place between the ends of a shortened leg.
			by := c.X*(g.long/full) - c.X
			for i, v := range ring {
				ring[i] = g.at(v.x+by, v.y)
			}
			s.Polygon(drawing.Medium, m.all(ring...)...)
		}
	}
	if of.Kind == plan.Branching {
		q.highEdge(say, &s, m)
	}
	mid := drawing.Style{Size: drawing.Note, Face: drawing.Bold, Align: drawing.Middle}
	s.Text(drawing.Pt(w/2, 330), say.Say(words.FormedStreet), mid)
	s.Text(drawing.Pt(w/2, h-60), say.Say(words.FormedRoof), mid)
	var strokes [][]drawing.Point
	for _, g := range q.legs {
		p := g.polygon()
		strokes = append(strokes, m.all(append(p[:], p[0])...))
	}
	first, last := q.legs[0], q.last()
	hands(
		say,
		&s,
		strokes,
		m.at(first.at(0, first.wide/2)),
		first.dir.times(-1),
		m.at(last.at(last.long, last.wide/2)),
		last.dir,
	)
	if of.CutAt != plan.NoHand {
		q.trimmed(&s, m)
	}
	return s
}

// highEdge names the branch's front, which is its high edge, beside the stub. On
// a small label the stub has no room for it: there the label's words say it.
func (q formed) highEdge(say words.Book, s *drawing.Scene, m paperMap) {
	b := q.legs[1]
	st := drawing.Style{Size: drawing.Small, Face: drawing.Bold}
	if from, to := m.at(b.at(0, 0)), m.at(b.at(b.long, 0)); to.Y-from.Y < 2*st.Size.Line() {
		return
	}
	at := m.at(b.at(b.long/2, 0))
	at.X += 150
	if q.of.Hand == plan.LeftHand {
		at.X -= 300
		st.Align = drawing.Right
	}
	for i, w := range strings.Fields(say.Say(words.FormedHigh)) {
		s.Text(drawing.Pt(at.X, at.Y+drawing.Unit(i)*st.Size.Line()), w, st)
	}
}

// closed marks a closed end by a black bar, an upstand by two lines.
func (q formed) closed(s *drawing.Scene, m paperMap, a, b, out xy, k plan.CornerEndKind) {
	p, z := m.at(a), m.at(b)
	if k != plan.AgainstEnd {
		s.Fill(drawing.Black, drawing.Medium, p, z, off(z, out, -110), off(p, out, -110))
		return
	}
	s.Line(drawing.Thick, p, z)
	s.Line(drawing.Thick, off(p, out, -150), off(z, out, -150))
}

// trimmed hatches the end that is cut on the roof.
func (q formed) trimmed(s *drawing.Scene, m paperMap) {
	g := q.legs[len(q.legs)-1]
	x0, x1 := g.long*0.9, g.long
	if q.of.CutAt == plan.LeftHand {
		g = q.legs[0]
		x0, x1 = 0, g.long*0.1
	}
	s.Hatch(drawing.HoldStripe, drawing.Thin, m.all(g.at(x0, 0), g.at(x1, 0), g.at(x1, g.wide), g.at(x0, g.wide))...)
}

// seen projects a place of a folded piece to paper, and says how near it is to
// the viewer, who stands on the roof, a little to the right: x to the right, up
// the paper is up and away to the street.
func seen(v fold.Vec) (at xy, near float64) {
	const turn, tilt = 25 * math.Pi / 180, 32 * math.Pi / 180
	st, ct := math.Sincos(turn)
	sp, cp := math.Sincos(tilt)
	x := float64(v.X*ct) - float64(v.Y*st)
	y := float64(v.X*st) + float64(v.Y*ct) // grows towards the viewer
	return xy{x, float64(y*sp) - float64(v.Z*cp)}, float64(y*cp) + float64(v.Z*sp)
}

// facets are the faces of a folded piece as they are seen.
func (q formed) facets() []facet {
	var out []facet
	for _, fc := range q.faces {
		var pts []xy
		var near []float64
		for _, v := range fc.pts {
			p, d := seen(v)
			pts, near = append(pts, p), append(near, d)
		}
		tone := drawing.Light
		switch fc.name {
		case "top":
			tone = drawing.White
		case "hook", "drip":
			tone = drawing.Mid
		}
		out = append(out, newFacet(pts, near, tone))
	}
	return out
}

// FormedSolid draws the folded piece from above the roof, looking to the
// street: near faces cover far ones. It is not to scale, and long legs are
// shortened.
func FormedSolid(say words.Book, of plan.Formed, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{
		Name:  "formed-" + fileName(of.Family),
		Title: say.Say(words.FormedSolid, words.In("mark", of.Family)),
		W:     w,
		H:     h,
	}
	s.Desc = say.Say(words.FormedSolidAbout)
	q := formedOf(of)
	all := painted(q.facets())
	if len(all) == 0 {
		return s
	}
	var e extent
	for _, f := range all {
		e.hold(f.pts...)
	}
	side, top := drawing.Unit(850), min(800, max(560, h/5))
	ratio := math.Max((e.hi.x-e.lo.x)/(w-2*side).Millimetres(), (e.hi.y-e.lo.y)/(h-2*top).Millimetres())
	m := paperMap{
		ratio:  ratio,
		origin: drawing.Pt(w/2-drawing.Round((e.lo.x+e.hi.x)/2/ratio), h/2-drawing.Round((e.lo.y+e.hi.y)/2/ratio)),
	}
	for _, f := range all {
		f.draw(&s, m)
	}
	var strokes [][]drawing.Point
	for _, f := range all {
		strokes = append(strokes, m.all(append(slices.Clone(f.pts), f.pts[0])...))
	}
	first, last := q.legs[0], q.last()
	low := math.Min(0, -of.RearFoot.MM()/2)
	end := func(at, dir xy, left bool) (drawing.Point, xy) {
		a, _ := seen(q.tilted(fold.Vec{X: at.x, Y: at.y, Z: low}, left))
		b, _ := seen(q.tilted(fold.Vec{X: at.x + dir.x, Y: at.y + dir.y, Z: low}, left))
		return m.at(a), b.sub(a)
	}
	la, ld := end(first.at(0, first.wide/2), first.dir.times(-1), true)
	ra, rd := end(last.at(last.long, last.wide/2), last.dir, false)
	hands(say, &s, strokes, la, ld, ra, rd)
	return s
}

// hands letters L and R beyond the two ends of a piece, clear of its edges.
func hands(
	say words.Book,
	s *drawing.Scene,
	edges [][]drawing.Point,
	left drawing.Point,
	leftOut xy,
	right drawing.Point,
	rightOut xy,
) {
	p := place.New(drawing.Box(0, 0, s.W, s.H))
	for _, t := range s.Texts() {
		p.Letter(boundsOf(t.HaloQuad()).Inset(-60))
	}
	for _, e := range edges {
		p.Stroke(110, e...)
		if len(e) > 3 && convex(e[:len(e)-1]) {
			p.Area(e[:len(e)-1]...)
		}
	}
	var wishes []place.Wish
	for _, t := range []struct {
		words string
		at    drawing.Point
		out   xy
	}{{"L", left, leftOut}, {"R", right, rightOut}} {
		lab := place.Label{
			Lines: []string{t.words},
			Size:  drawing.Title,
			Face:  drawing.Bold,
			About: t.at,
			Where: say.Say(words.FormedEnd, words.In("hand", t.words)),
		}
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(
					place.Fan{Toward: tenths(t.out), From: 120, To: 2500, Step: 80, Spread: 90, Reach: place.Never},
				),
			},
		)
	}
	for _, q := range p.PlaceAll(wishes) {
		s.Add(q.Marks...)
	}
}

// convex reports whether a ring turns one way throughout.
func convex(ring []drawing.Point) bool {
	plus, minus := false, false
	n := len(ring)
	for i := range ring {
		a, b, c := ring[i], ring[(i+1)%n], ring[(i+2)%n]
		x := int64(b.X-a.X)*int64(c.Y-b.Y) - int64(b.Y-a.Y)*int64(c.X-b.X)
		plus, minus = plus || x > 0, minus || x < 0
	}
	return plus != minus
}
