package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/plan"
)

// keyDrawing draws one perimeter of a key plan on its panel.
type keyDrawing struct {
	*keyPlan
	sh    keyShape
	m     paperMap
	c     *place.Placer
	rear  [][2]xy
	outer [][2]xy // outer edge of the zone band
	inner [][2]xy

	others []*keyDrawing // all perimeters of its panel
}

func newKeyDrawing(k *keyPlan, sh keyShape, m paperMap, c *place.Placer) *keyDrawing {
	real := func(u drawing.Unit) float64 { return u.Millimetres() * m.ratio }
	return &keyDrawing{
		keyPlan: k, sh: sh, m: m, c: c,
		rear:  sh.beside(func(r keyRun) float64 { return math.Max(r.wide, real(keyWall)) }),
		inner: sh.beside(func(keyRun) float64 { return -real(keyBandO) }),
		outer: sh.beside(func(keyRun) float64 { return -real(keyBandO + keyBand) }),
	}
}

// real brings a distance on paper to the building.
func (d *keyDrawing) real(u drawing.Unit) float64 { return u.Millimetres() * d.m.ratio }

func (d *keyDrawing) wide(r keyRun) float64 { return math.Max(r.wide, d.real(keyWall)) }

// marks draws what is no lettering.
func (d *keyDrawing) marks() {
	d.s.Group(drawing.Zones, "", d.zones)
	d.s.Group(drawing.Wall, "", func(g *drawing.Scene) {
		d.walls(g)
		d.meetingWalls(g)
	})
	d.s.Group(drawing.KeyPlan, "", func(g *drawing.Scene) {
		for i := range d.sh.runs {
			d.joints(g, i)
			d.direction(g, i)
			d.end(g, i, false)
			d.end(g, i, true)
		}
		for i := range d.sh.runs {
			d.corner(g, i)
		}
	})
}

// letters draws the lettering, and the marks of what is on hold.
func (d *keyDrawing) letters() {
	names, corners := d.names, d.cornerWords
	if d.brief {
		names, corners = d.briefNames, d.endsAlone
	}
	d.s.Group(drawing.Lettering, "", names)
	d.s.Group(drawing.Holds, "", d.holds)
	d.s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		corners(g)
		d.meetingWords(g)
		d.sides(g)
	})
}

// zones hatches the zones of pressure in a band along the street side, mitered
// at the corners so that neighbouring bands do not overlap.
func (d *keyDrawing) zones(g *drawing.Scene) {
	for i, r := range d.sh.runs {
		in, out := d.inner[i], d.outer[i]
		if in[1].sub(in[0]).length() < 1e-6 {
			continue
		}
		along := func(e [2]xy, u float64) xy { // the point of an edge at a station, kept within the edge
			p := e[0].sub(r.o)
			a := float64(p.x*r.dir.x) + float64(p.y*r.dir.y)
			q := e[1].sub(r.o)
			b := float64(q.x*r.dir.x) + float64(q.y*r.dir.y)
			return e[0].add(r.dir.times(math.Min(math.Max(u, a), math.Max(a, b)) - a))
		}
		for n, z := range r.Zones {
			a, b := r.along(z.From), r.along(z.To)
			if n == 0 {
				a = math.Inf(-1)
			}
			if n == len(r.Zones)-1 {
				b = math.Inf(1)
			}
			kind := drawing.ZoneEdge
			if z.Corner {
				kind = drawing.ZoneCorner
			}
			q := d.m.all(along(in, a), along(in, b), along(out, b), along(out, a))
			g.Hatch(kind, drawing.Thin, q...)
			d.c.Area(q...)
		}
	}
}

// walls draws each run as the two lines of its wall, dashed where it has not
// been measured.
func (d *keyDrawing) walls(g *drawing.Scene) {
	for i, r := range d.sh.runs {
		front := d.m.all(r.o, r.at(r.long, 0))
		rear := d.m.all(d.rear[i][0], d.rear[i][1])
		quad := []drawing.Point{front[0], front[1], rear[1], rear[0]}
		g.Fill(drawing.Light, drawing.NoPen, quad...)
		d.c.Area(quad...)
	}
	for i, r := range d.sh.runs {
		pens := [2]drawing.Pen{drawing.Medium, drawing.Medium}
		if r.Unmeasured != "" {
			pens = [2]drawing.Pen{drawing.Hidden, drawing.Hidden}
		}
		front, rear := d.m.all(r.o, r.at(r.long, 0)), d.m.all(d.rear[i][0], d.rear[i][1])
		g.Line(pens[0], front...)
		d.c.Stroke(40, front[0], front[1])
		if rear[0] != rear[1] {
			g.Line(pens[1], rear...)
			d.c.Stroke(40, rear[0], rear[1])
		}
		for _, left := range []bool{true, false} {
			if left && !r.left || !left && !r.rite {
				k := 1
				if left {
					k = 0
				}
				g.Line(pens[0], front[k], rear[k])
			}
		}
	}
}

// joints ticks the joints of the caps across the wall, where the scale leaves
// room between them, and marks building expansion joints at any scale.
func (d *keyDrawing) joints(g *drawing.Scene, i int) {
	r := d.sh.runs[i]
	for _, j := range r.Joints {
		u := r.along(j.At)
		if j.Expansion {
			half := d.real(60)
			over := d.real(150)
			for _, k := range []float64{-half, half} {
				a, b := d.m.at(r.at(u+k, -over)), d.m.at(r.at(u+k, d.wide(r)+over))
				g.Line(drawing.Medium, a, b)
				d.c.Stroke(40, a, b)
			}
			continue
		}
		if d.m.ratio <= 130 && !j.Kink {
			a, b := d.m.at(r.at(u, 0)), d.m.at(r.at(u, d.wide(r)))
			g.Line(drawing.Thin, a, b)
		}
	}
}

// direction shows which way the stations of a run grow: a small circle and an
// arrow on the roof side, on a short run only the arrowhead in the wall.
func (d *keyDrawing) direction(g *drawing.Scene, i int) {
	r := d.sh.runs[i]
	a, b := d.rear[i][0], d.rear[i][1]
	free := b.sub(a).length() / d.m.ratio // mm of paper
	right := r.dir
	if free < 9 {
		tip := off(d.m.at(r.at(r.long/2, d.wide(r)/2)), right, 100)
		g.Fill(
			drawing.Black,
			drawing.NoPen,
			tip,
			off(off(tip, right, -200), right.roofward(), 50),
			off(off(tip, right, -200), right.roofward(), -50),
		)
		return
	}
	start := off(off(d.m.at(a), right, 250), right.roofward(), 220)
	long := drawing.Round(math.Min(14, free-5))
	tip := off(start, right, long)
	g.Circle(drawing.Thin, start, 70)
	g.Line(drawing.Thin, off(start, right, 70), tip)
	g.Fill(
		drawing.Black,
		drawing.NoPen,
		tip,
		off(off(tip, right, -300), right.roofward(), 60),
		off(off(tip, right, -300), right.roofward(), -60),
	)
	d.c.Stroke(100, off(start, right, -100), tip)
}

// end draws how a run ends without a corner: a bar at a free end, the higher
// wall it dies into.
func (d *keyDrawing) end(g *drawing.Scene, i int, right bool) {
	r := d.sh.runs[i]
	e, u, out := r.Ends[0], 0.0, -1.0
	if right {
		e, u, out = r.Ends[1], r.long, 1.0
	}
	w := d.wide(r)
	switch e.Kind {
	case plan.KeyFree, plan.KeyStepUp, plan.KeyStepDown: // at a step the higher wall is a run of its own
		x := u + out*d.real(50)
		a, b := d.m.at(r.at(x, -d.real(80))), d.m.at(r.at(x, w+d.real(80)))
		g.Line(drawing.Thick, a, b)
		d.c.Stroke(60, a, b)
	case plan.KeyDies:
		over := d.real(450)
		deep := d.real(350)
		q := d.m.all(r.at(u, -over), r.at(u+out*deep, -over), r.at(u+out*deep, w+over), r.at(u, w+over))
		g.Hatch(drawing.Masonry, drawing.NoPen, q...)
		g.Line(drawing.Medium, q[0], q[3])
		d.c.Area(q...)
	}
}

// corner marks the corner point at the right end of a run: filled where the
// wall turns towards the roof, open where it turns away.
func (d *keyDrawing) corner(g *drawing.Scene, i int) {
	r := d.sh.runs[i]
	if !r.rite {
		return
	}
	fill := drawing.Black
	if !r.Ends[1].Corner.Outside {
		fill = drawing.White
	}
	at := d.m.at(r.at(r.long, 0))
	g.Add(drawing.Arc{Pen: drawing.Medium, Centre: at, R: 75, To: 3600, Fill: fill})
	d.c.Area(drawing.Box(at.X-80, at.Y-80, at.X+80, at.Y+80).Corners()...)
}
