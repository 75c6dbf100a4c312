package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
)

// KeyPlanSmall shows where on its perimeter a run lies: the run thick, with
// its name, the others thin, north. It carries no dimension.
func KeyPlanSmall(l *layout.Layout, pick *layout.Run, w, h drawing.Unit) drawing.Scene {
	return keySmall(l, w, h, func(r *layout.Run) bool { return r == pick }, nil, pick.Name,
		"Where run "+pick.Name+" lies on its perimeter.")
}

// KeyPlanSmallCorner shows where a corner lies: both its runs thick, the
// corner ringed, with its name.
func KeyPlanSmallCorner(l *layout.Layout, corner *layout.Corner, w, h drawing.Unit) drawing.Scene {
	return keySmall(l, w, h, func(r *layout.Run) bool { return r.OnWall() == corner.Arrive || r.OnWall() == corner.Leave }, corner, corner.Name,
		"Where corner "+corner.Name+" lies on its perimeter.")
}

// KeyPlanSmallPiece shows where a piece lies: the runs it stands on thick, the
// piece's mark beside it.
func KeyPlanSmallPiece(l *layout.Layout, p *layout.Piece, w, h drawing.Unit) drawing.Scene {
	var corner *layout.Corner
	if len(p.Miters) > 0 {
		corner = p.Miters[0].Corner
	}
	on := func(r *layout.Run) bool {
		for _, q := range p.Parts {
			if q.Run == r.Run {
				return true
			}
		}
		return false
	}
	return keySmall(l, w, h, on, corner, p.Mark, "Where piece "+p.Mark+" lies on its perimeter.")
}

// keySmall draws the perimeter that holds the picked runs.
func keySmall(l *layout.Layout, w, h drawing.Unit, picked func(*layout.Run) bool, corner *layout.Corner, name, desc string) drawing.Scene {
	s := drawing.Scene{Name: "key-plan-small", Title: "Key plan", Desc: desc, W: w, H: h}
	p := perimeterOf(l, picked)
	if p == nil {
		return s
	}
	sh := keyShapeOf(p, l.Job)
	small := drawing.Style{Size: drawing.Small}
	title := "KEY PLAN, not to scale"
	if len(l.Perimeters) > 1 {
		title = p.Job.Name + ", not to scale"
	}
	c := place.New(drawing.Box(0, 0, w, h))
	s.Group(drawing.KeyPlan, "", func(g *drawing.Scene) {
		lines := drawing.Wrap(title, drawing.Regular, drawing.Small, w-200)
		for i, line := range lines {
			t := g.Text(drawing.Point{X: 100, Y: h - 120 - drawing.Unit(len(lines)-1-i)*drawing.Size(drawing.Small).Line()}, line, small)
			c.Letter(drawing.BoundsOf([]drawing.Mark{t}))
		}
		north := drawing.NorthArrow{At: drawing.Point{X: w - 880, Y: 880}, R: 280, North: northOf(l.Job)}.Figure()
		g.Draw(north)
		c.Area(drawing.Box(w-1700, 60, w-60, 1700).Corners()...)
		foot := drawing.Unit(len(lines))*drawing.Size(drawing.Small).Line() + 150
		d := keyDrawing{keyPlan: &keyPlan{l: l, crew: Crew(l)}, sh: sh, m: smallMap(sh, drawing.Box(0, 0, w-1700, h-foot)), c: c}
		d.locator(g, picked, corner, name)
	})
	return s
}

// perimeterOf finds the perimeter of a picked run.
func perimeterOf(l *layout.Layout, picked func(*layout.Run) bool) *layout.Perimeter {
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			if picked(r) {
				return p
			}
		}
	}
	return nil
}

// smallMap fits a perimeter in a box, with room for a name on every side.
func smallMap(sh keyShape, box drawing.Rect) paperMap {
	e := sh.extent(0)
	in := box.Inset(550)
	ratio := math.Max((e.hi.x-e.lo.x)/math.Max(in.Width().Millimetres(), 5), (e.hi.y-e.lo.y)/math.Max(in.Height().Millimetres(), 5))
	ratio = math.Max(ratio, 1)
	mid := e.lo.between(e.hi)
	c := box.Centre()
	return paperMap{ratio: ratio, origin: drawing.Point{X: c.X - drawing.Round(mid.x/ratio), Y: c.Y - drawing.Round(mid.y/ratio)}}
}

// locator draws the runs as single lines, the picked ones thick.
func (d *keyDrawing) locator(g *drawing.Scene, picked func(*layout.Run) bool, corner *layout.Corner, name string) {
	var tip drawing.Point
	dir := xy{0, 1}
	for i, r := range d.sh.runs {
		pen := drawing.Thin
		if picked(r.Run) {
			pen = drawing.Thick
		}
		a, b := d.m.at(r.o), d.m.at(r.at(r.long, 0))
		g.Line(pen, a, b)
		d.c.Stroke(60, a, b)
		if pen == drawing.Thick && corner == nil {
			tip, dir = d.m.at(r.at(r.long/2, 0)), r.dir.roofward()
		}
		if corner != nil && r.Right.Corner == corner {
			tip = b
			dir = awayFrom(corner, r, d.sh.runs[(i+1)%len(d.sh.runs)]).times(-1)
			g.Circle(drawing.Medium, b, 200)
			d.c.Area(drawing.Box(b.X-220, b.Y-220, b.X+220, b.Y+220).Corners()...)
		}
	}
	l := place.Label{Lines: []string{name}, Size: drawing.Head, Face: drawing.Bold, Pad: besideLine, Bare: true, About: tip}
	got, ok := d.c.Try(l, l.Fan(place.Fan{Toward: tenths(dir), From: 200, To: 2500, Step: 150, Spread: 180, Reach: 450})...)
	if !ok {
		l.Size = drawing.Small
		got, ok = d.c.Try(l, l.Fan(place.Fan{Toward: tenths(dir), From: 150, To: 6000, Step: 150, Spread: 180, Reach: 100})...)
	}
	g.Add(got.Marks...)
	if !ok {
		g.Text(drawing.Point{X: 100, Y: drawing.Unit(drawing.Small) + 60}, name, drawing.Style{Size: drawing.Small, Face: drawing.Bold})
	}
	for i, r := range d.sh.runs {
		if !picked(r.Run) || r.long/d.m.ratio <= 8 {
			continue
		}
		roof := place.Label{Lines: []string{"ROOF"}, Size: drawing.Small, Pad: besideLine, Only: d.onRoof, About: d.m.at(r.at(r.long/2, 0))}
		got, ok := d.c.Try(roof, roof.Fan(place.Fan{Toward: tenths(d.inwards(i)), From: 150, To: 1500, Step: 200, Spread: 60, Reach: place.Never})...)
		g.Add(got.Marks...)
		if ok {
			return
		}
	}
}
