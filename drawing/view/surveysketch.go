package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Paper of a survey sketch.
const (
	sketchThick drawing.Unit = 420  // the wall
	sketchStub  drawing.Unit = 900  // of a neighbour
	sketchSide  drawing.Unit = 3600 // beside the run, for its neighbours' names
	sketchFull  drawing.Unit = 3000 // a lower strip has no room for the run's name and for the arrow
)

// SurveySketch is the strip on a survey form that shows which run is meant: the
// street at the top, the roof at the bottom, stations from the left hand to the
// right, the neighbours with their names and turns, and what stands on the
// wall. It is not to scale.
func SurveySketch(say words.Book, of plan.Sketch, w, h drawing.Unit) drawing.Scene {
	k := &surveySketch{of: of, say: say, tape: length.Crew(of.Metric), w: w, h: h}
	k.left, k.right = sketchSide, w-sketchSide
	k.y = h/2 - sketchThick*3/4
	k.placer = place.New(drawing.Box(0, 0, w, h))
	k.s = drawing.Scene{
		Name:  "survey-sketch-" + k.of.Run,
		Title: say.Say(words.SurveyTitle, words.In("run", k.of.Run)),
		W:     w,
		H:     h,
		Desc:  say.Say(words.SurveyAbout, words.In("run", k.of.Run)),
	}
	k.s.Group(drawing.Wall, "", k.wall)
	k.s.Group(drawing.Lettering, "", k.words)
	return k.s
}

type surveySketch struct {
	of          plan.Sketch
	say         words.Book
	tape        length.Style
	w, h        drawing.Unit
	left, right drawing.Unit // of the run's front face
	y           drawing.Unit // its front face
	s           drawing.Scene
	placer      *place.Placer
}

// sketchEnd is where the faces of the run end on paper, and those of its
// neighbour.
type sketchEnd struct {
	front, rear       drawing.Point // of the corner
	stubFront, stubIn drawing.Point // of the neighbour's far end
	turned            bool
}

// end finds the faces at one end. Seen from either end of the run the
// neighbour goes off by the same turn: the left end is the right one mirrored.
func (k *surveySketch) end(e plan.SketchEnd, left bool) sketchEnd {
	x, dir := k.right, drawing.Unit(1)
	if left {
		x, dir = k.left, -1
	}
	c := sketchEnd{front: drawing.Pt(x, k.y), rear: drawing.Pt(x, k.y+sketchThick)}
	if !e.Goes() {
		return c
	}
	t := int(e.Turn / (length.Degree / 10))
	cos, sin := drawing.CosSin(t)
	tan := sin / (1 + cos) // of half the turn
	c.turned = true
	c.rear.X -= dir * drawing.Round(tan*sketchThick.Millimetres())
	along := sketchStub.Millimetres()
	c.stubFront = c.front.Add(drawing.Pt(dir*drawing.Round(cos*along), drawing.Round(sin*along)))
	thick := sketchThick.Millimetres()
	c.stubIn = c.stubFront.Add(drawing.Pt(-dir*drawing.Round(sin*thick), drawing.Round(cos*thick)))
	return c
}

// x is where a station lies on paper.
func (k *surveySketch) x(station length.Length) drawing.Unit {
	if k.of.Length <= 0 {
		return k.left
	}
	span := int64(k.right - k.left)
	u := int64(length.MulDiv(station, span, int64(k.of.Length)))
	return k.left + drawing.Unit(min(max(u, 0), span))
}

func (k *surveySketch) wall(g *drawing.Scene) {
	e, f := k.of.Ends[0], k.of.Ends[1]
	a, b := k.end(e, true), k.end(f, false)
	ring := []drawing.Point{a.front}
	if a.turned {
		ring = []drawing.Point{a.stubFront, a.front}
	}
	ring = append(ring, b.front)
	if b.turned {
		ring = append(ring, b.stubFront, b.stubIn)
	}
	ring = append(ring, b.rear, a.rear)
	if a.turned {
		ring = append(ring, a.stubIn)
	}
	g.Fill(drawing.Light, drawing.Thin, ring...)
	g.Line(drawing.Thick, a.front, b.front) // the street face is the one that offsets are taken to
	for _, c := range []struct {
		e   plan.SketchEnd
		at  sketchEnd
		dir drawing.Unit
	}{{e, a, -1}, {f, b, 1}} {
		if c.e.Kind == plan.KeyDies {
			g.Hatch(
				drawing.Masonry,
				drawing.Medium,
				drawing.Box(c.at.front.X, k.y-500, c.at.front.X+c.dir*500, k.y+sketchThick+500).Corners()...)
			k.placer.Block(drawing.Box(c.at.front.X, k.y-500, c.at.front.X+c.dir*500, k.y+sketchThick+500))
		}
		if c.at.turned {
			k.placer.Area(c.at.front, c.at.stubFront, c.at.stubIn, c.at.rear)
			k.placer.Stroke(100, c.at.front, c.at.stubFront)
		}
	}
	k.placer.Block(drawing.Box(k.left, k.y, k.right, k.y+sketchThick).Inset(-80))
	for _, at := range k.of.Expansion {
		x := k.x(at)
		g.Fill(drawing.White, drawing.NoPen, drawing.Box(x-60, k.y-40, x+60, k.y+sketchThick+40).Corners()...)
		for _, d := range []drawing.Unit{-60, 60} {
			g.Line(drawing.Medium, drawing.Pt(x+d, k.y-40), drawing.Pt(x+d, k.y+sketchThick+40))
		}
	}
	for _, t := range k.of.Things {
		x := k.x(t.At)
		g.Fill(drawing.Black, drawing.Medium, drawing.Box(x-90, k.y+120, x+90, k.y+sketchThick-120).Corners()...)
	}
}

// words letters the strip: the run in its wall, the sides, the ends, then what
// stands on it.
func (k *surveySketch) words(g *drawing.Scene) {
	mid := (k.left + k.right) / 2
	put := func(l place.Label, spots ...place.Spot) { g.Add(k.placer.Place(l, spots...).Marks...) }
	fixed := func(phrase string, base drawing.Unit, z drawing.Size) {
		t := g.Text(drawing.Pt(mid, base), phrase, drawing.Style{Size: z, Face: drawing.Bold, Align: drawing.Middle})
		k.placer.Letter(drawing.BoundsOf([]drawing.Mark{t}))
	}
	fixed(k.say.Say(words.SurveyStreetSide), 430, drawing.Note)
	if k.h >= sketchFull {
		fixed(k.say.Say(words.SurveyRun, words.In("run", k.of.Run)), k.y-250, drawing.Title)
	}
	fixed(k.say.Say(words.SurveyStand), k.h-130, drawing.Note)
	if k.h >= sketchFull {
		k.grows(g, mid, put)
	}
	k.neighbour(g, k.of.Ends[0], true)
	k.neighbour(g, k.of.Ends[1], false)
	k.things(g)
}

// grows draws the arrow that shows which way stations are measured.
func (k *surveySketch) grows(g *drawing.Scene, mid drawing.Unit, put func(place.Label, ...place.Spot)) {
	grow := place.Label{Lines: []string{k.say.Say(words.SurveyStationsGrow)}}
	y := k.y + sketchThick + 400
	long := k.half()
	g.Draw(drawing.DirectionArrow{Tail: drawing.Pt(mid-long, y), Head: drawing.Pt(mid+200, y)}.Figure())
	k.placer.Block(drawing.Box(mid-long, y-170, mid+200, y+170))
	w, _ := grow.Extent()
	grow.About = drawing.Pt(mid+400+w/2, y)
	put(grow, place.At(mid+400+w/2, y))
}

// half is the length of the arrow that shows which way stations are measured.
func (k *surveySketch) half() drawing.Unit { return min(3000, (k.right-k.left)/3) }

// neighbour says what lies beyond an end of the run.
func (k *surveySketch) neighbour(g *drawing.Scene, e plan.SketchEnd, left bool) {
	c := k.end(e, left)
	hand, dir := k.say.Say(words.SurveyRight), drawing.Unit(1)
	if left {
		hand, dir = k.say.Say(words.SurveyLeft), -1
	}
	lines := []string{hand, k.say.Say(words.SurveyFreeEnd)}
	at := c.front
	switch e.Kind {
	case plan.KeyDies:
		lines[1] = k.say.Say(words.SurveyHigherWall)
	case plan.KeyMeets:
		lines[1] = k.say.Say(words.SurveyMeetsRun, words.In("run", e.Run))
	case plan.KeyStepUp, plan.KeyStepDown:
		lines = []string{
			k.say.Say(words.SurveyNeighbour, words.In("hand", hand), words.In("run", e.Run)),
			k.say.Say(words.SurveyStraightOn), k.say.Say(words.SurveyLower),
		}
		if e.Kind == plan.KeyStepUp {
			lines[2] = k.say.Say(words.SurveyHigher)
		}
		at = c.stubFront
	case plan.KeyCorners:
		side, turn := words.SurveyOutside, e.Turn
		if turn < 0 {
			side, turn = words.SurveyInside, -turn
		}
		lines = []string{
			k.say.Say(words.SurveyNeighbour, words.In("hand", hand), words.In("run", e.Run)), k.say.Say(side),
			k.say.Say(words.SurveyTurn, words.In("turn", length.FormatAngle(turn))),
		}
		if turn == 0 { // the job does not say yet
			lines = append(lines[:1], strings.Split(k.say.Say(words.SurveyCornerBlank), "\n")...)
		}
		if e.Break != "" {
			lines = []string{
				k.say.Say(words.SurveyNeighbour, words.In("hand", hand), words.In("run", e.Run)),
				k.say.Say(words.SurveyBreak), e.Break,
			}
		}
		at = c.stubFront
	}
	l := place.Label{Lines: lines, LeadFace: drawing.Bold, LeadSize: drawing.Note, About: at}
	wide, high := l.Extent()
	x := c.front.X + dir*(wide/2+900)
	x = min(max(x, wide/2+20), k.w-wide/2-20)
	var spots []place.Spot
	for _, y := range []drawing.Unit{k.h / 2, high/2 + 60, k.h - high/2 - 60} {
		for d := drawing.Unit(0); d <= 1600; d += 200 {
			spots = append(spots, place.At(min(max(x+dir*d, wide/2+20), k.w-wide/2-20), y))
		}
	}
	g.Add(k.placer.Place(l, spots...).Marks...)
}

// things letters the stations of both ends and names what stands on the wall.
func (k *surveySketch) things(g *drawing.Scene) {
	var all []place.Wish
	add := func(x drawing.Unit, phrase string) {
		l := place.Label{Lines: []string{phrase}, About: drawing.Pt(x, k.y)}
		w, _ := l.Extent()
		var spots []place.Spot
		for _, y := range []drawing.Unit{k.y - 350, k.y - 800, k.y - 1250, k.y + sketchThick + 350, k.y + sketchThick +
			800, k.y + sketchThick + 1250} {
			for _, d := range []drawing.Unit{0, 300, -300, 700, -700, 1200, -1200, 2000, -2000} {
				spots = append(
					spots,
					place.Spot{
						Centre: drawing.Pt(min(max(x+d, w/2+20), k.w-w/2-20), y),
						Leader: y < k.y-500 || y > k.y+sketchThick+500 || d < -w/2 || d > w/2,
					},
				)
			}
		}
		all = append(all, place.Wish{Label: l, Spots: spots})
	}
	add(k.left, drawing.Letter(k.tape.Long(0)))
	if k.of.OnFront {
		add(k.right, drawing.Letter(k.tape.Long(k.of.Length)))
	}
	for _, t := range k.of.Things {
		add(k.x(t.At), drawing.Letter(t.Name))
	}
	for _, at := range k.of.Expansion {
		add(k.x(at), k.say.Say(words.SurveyExpansionJoint))
	}
	// What finds no room here stands by name beside its station in the table.
	for _, q := range k.placer.TryAll(all) {
		g.Add(q.Marks...)
	}
}
