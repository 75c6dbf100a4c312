package view

import (
	"math"
	"slices"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// KeyPlanSmall shows where on its perimeter something lies: the runs it is on
// thick, its corner ringed, with its name, the others thin, north. It carries no
// dimension.
func KeyPlanSmall(say words.Book, k plan.KeyPlan, spot plan.KeySpot, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: "key-plan-small", Title: say.Say(words.KeyplanTitle), Desc: spot.Words, W: w, H: h}
	at := slices.IndexFunc(k.Perimeters, func(p plan.KeyPerimeter) bool { return p.Name == spot.Perimeter })
	if at < 0 || len(spot.Runs) == 0 {
		return s
	}
	sh := keyShapeOf(k.Perimeters[at])
	small := drawing.Style{Size: drawing.Small}
	title := say.Say(words.KeyplanSmall)
	if len(k.Perimeters) > 1 {
		title = say.Say(words.KeyplanSmallOf, words.In("name", sh.per.Name))
	}
	c := place.New(drawing.Box(0, 0, w, h))
	s.Group(drawing.KeyPlan, "", func(g *drawing.Scene) {
		lines := drawing.Wrap(title, drawing.Regular, drawing.Small, w-200)
		for i, line := range lines {
			t := g.Text(
				drawing.Point{X: 100, Y: h - 120 - drawing.Unit(len(lines)-1-i)*drawing.Size(drawing.Small).Line()},
				line,
				small,
			)
			c.Letter(drawing.BoundsOf([]drawing.Mark{t}))
		}
		north := drawing.NorthArrow{At: drawing.Point{X: w - 880, Y: 880}, R: 280, North: k.North}.Figure()
		g.Draw(north)
		c.Area(drawing.Box(w-1700, 60, w-60, 1700).Corners()...)
		foot := drawing.Unit(len(lines))*drawing.Size(drawing.Small).Line() + 150
		d := keyDrawing{
			keyPlan: &keyPlan{of: k, say: say, crew: length.Crew(k.Metric)},
			sh:      sh,
			m:       smallMap(sh, drawing.Box(0, 0, w-1700, h-foot)),
			c:       c,
		}
		d.locator(g, spot)
	})
	return s
}

// smallMap fits a perimeter in a box, with room for a name on every side.
func smallMap(sh keyShape, box drawing.Rect) paperMap {
	e := sh.extent(0)
	in := box.Inset(550)
	ratio := math.Max(
		(e.hi.x-e.lo.x)/math.Max(in.Width().Millimetres(), 5),
		(e.hi.y-e.lo.y)/math.Max(in.Height().Millimetres(), 5),
	)
	ratio = math.Max(ratio, 1)
	mid := e.lo.between(e.hi)
	c := box.Centre()
	return paperMap{
		ratio:  ratio,
		origin: drawing.Point{X: c.X - drawing.Round(mid.x/ratio), Y: c.Y - drawing.Round(mid.y/ratio)},
	}
}

// locator draws the runs as single lines, the picked ones thick.
func (d *keyDrawing) locator(g *drawing.Scene, spot plan.KeySpot) {
	var tip drawing.Point
	dir := xy{0, 1}
	for i, r := range d.sh.runs {
		pen := drawing.Thin
		if spot.On(r.Name) {
			pen = drawing.Thick
		}
		a, b := d.m.at(r.o), d.m.at(r.at(r.long, 0))
		g.Line(pen, a, b)
		d.c.Stroke(60, a, b)
		if pen == drawing.Thick && spot.Corner == "" {
			tip, dir = d.m.at(r.at(r.long/2, 0)), r.dir.roofward()
		}
		if spot.Corner != "" && r.rite && r.Ends[1].Corner.Name == spot.Corner {
			tip = b
			dir = awayFrom(r, d.sh.runs[(i+1)%len(d.sh.runs)]).times(-1)
			g.Circle(drawing.Medium, b, 200)
			d.c.Area(drawing.Box(b.X-220, b.Y-220, b.X+220, b.Y+220).Corners()...)
		}
	}
	l := place.Label{
		Lines: []string{spot.Name},
		Size:  drawing.Head,
		Face:  drawing.Bold,
		Pad:   besideLine,
		Bare:  true,
		About: tip,
	}
	got, ok := d.c.Try(
		l,
		l.Fan(place.Fan{Toward: tenths(dir), From: 200, To: 2500, Step: 150, Spread: 180, Reach: 450})...)
	if !ok {
		l.Size = drawing.Small
		got, ok = d.c.Try(
			l,
			l.Fan(place.Fan{Toward: tenths(dir), From: 150, To: 6000, Step: 150, Spread: 180, Reach: 100})...)
	}
	g.Add(got.Marks...)
	if !ok {
		g.Text(
			drawing.Point{X: 100, Y: drawing.Unit(drawing.Small) + 60},
			spot.Name,
			drawing.Style{Size: drawing.Small, Face: drawing.Bold},
		)
	}
	for i, r := range d.sh.runs {
		if !spot.On(r.Name) || r.long/d.m.ratio <= 8 {
			continue
		}
		roof := place.Label{
			Lines: []string{d.say.Say(words.KeyplanRoofLarge)},
			Size:  drawing.Small,
			Pad:   besideLine,
			Only:  d.onRoof,
			About: d.m.at(r.at(r.long/2, 0)),
		}
		got, ok := d.c.Try(
			roof,
			roof.Fan(
				place.Fan{Toward: tenths(d.inwards(i)), From: 150, To: 1500, Step: 200, Spread: 60, Reach: place.Never},
			)...)
		g.Add(got.Marks...)
		if ok {
			return
		}
	}
}
