package view

import (
	"math"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// stepDrawing draws the pictures of one run in rooms of one size.
type stepDrawing struct {
	Steps
	room  drawing.Rect
	chair *plan.Chair // the one the sections cut through; nil without chairs
	p     stepProfile // of the section
	m     paperMap
	tilt  float64 // degrees a hooked cap stands up at the rear
	floor float64
}

// stepFoot is the room of the words street side and roof side.
const stepFoot drawing.Unit = 450

func newStepDrawing(of Steps, w, h drawing.Unit) *stepDrawing {
	d := &stepDrawing{Steps: of, room: drawing.Box(0, 0, w, h)}
	if n := of.Work.Cut.Chair; n >= 0 {
		d.chair = &of.Run.Chairs[n]
	}
	d.fit()
	return d
}

// fit finds the largest section at which the cap, hooked and turned up, still
// fits: every section of the strip has this scale and place.
func (d *stepDrawing) fit() {
	const edge, ring = 40, 180
	wide, high := d.room.Width()-2*ring, d.room.Height()-stepFoot-edge
	for ratio := 1.0; ratio < 1000; ratio *= 1.02 {
		d.open(ratio)
		var e extent
		e.hold(d.p.cap()...)
		e.hold(d.hooked(d.p.cap())...)
		e.hold(xy{d.p.face - 2.5*ratio, d.floor + 2*ratio}, xy{d.p.back + 2.5*ratio, d.floor})
		lo, hi := paperMap{ratio: ratio}.at(e.lo), paperMap{ratio: ratio}.at(e.hi)
		if hi.X-lo.X <= wide && hi.Y-lo.Y <= high {
			d.m = paperMap{ratio: ratio, origin: drawing.Pt(ring+(wide-hi.X-lo.X)/2, d.room.Height()-stepFoot-hi.Y)}
			return
		}
	}
}

// open makes the profile for one scale.
func (d *stepDrawing) open(ratio float64) {
	d.p = openedProfile(&d.Work.Cut, 1.3*ratio, 1.7*ratio)
	p := &d.p
	low := math.Max(math.Max(p.footF+d.Work.Below.MM(), p.footR+d.Work.BelowRoof.MM()),
		kicked(xy{0, p.footF}, p.of.Drip).y)
	d.floor = math.Max(low, math.Max(p.top(p.face), p.top(p.back))) + 2.5*ratio
	rise := p.footR - p.foldR + 0.12*p.outside
	d.tilt = math.Min(math.Max(math.Asin(math.Min(rise/p.outside, 0.7))*180/math.Pi, 14), 35)
}

// hooked turns places of the cap up about the foot of its front leg.
func (d *stepDrawing) hooked(pts []xy) []xy { return d.turned(pts, d.tilt) }

func (d *stepDrawing) turned(pts []xy, degrees float64) []xy {
	about, u := d.pivot(), heading(degrees)
	out := make([]xy, len(pts))
	for i, q := range pts {
		v := q.sub(about)
		out[i] = about.add(xy{float64(v.x*u.x) + float64(v.y*u.y), float64(v.y*u.x) - float64(v.x*u.y)})
	}
	return out
}

// pivot is the foot of the front leg, where the drip hooks the chair.
func (d *stepDrawing) pivot() xy { return xy{d.p.t / 2, d.p.footF} }

// picture draws one step.
func (d *stepDrawing) picture(g *drawing.Scene, k plan.StepKind) {
	const old, fresh = drawing.Thin, drawing.Thick
	above := d.Work.UnderChairs && d.Work.AboveMembrane
	st := stepState{pack: old, membrane: old, chair: old, screws: old}
	if d.Work.Membrane == "" {
		st.membrane = drawing.NoPen
	}
	if d.chair == nil {
		st.chair, st.screws = drawing.NoPen, drawing.NoPen
	}
	switch k {
	case plan.NailerStep:
		st = stepState{nailer: fresh, pack: fresh}
		if above {
			st.pack = drawing.NoPen
		}
		d.section(g, st)
	case plan.MembraneStep:
		st = stepState{pack: old, membrane: fresh}
		if above {
			st.pack = drawing.NoPen
		}
		d.section(g, st)
	case plan.PackingStep:
		d.section(g, stepState{pack: fresh, membrane: st.membrane})
	case plan.MarkStep:
		d.marks(g)
	case plan.StringStep:
		st.chair, st.screws = drawing.NoPen, drawing.NoPen
		d.section(g, st)
		d.stringEnd(g)
		d.row(g, d.above(d.p.under(0)), stepRow{string: fresh})
	case plan.CornersStep:
		d.corner(g, fresh, drawing.NoPen)
	case plan.ChairsStep:
		st.chair, st.screws = fresh, fresh
		ends := old
		if !d.Work.Later {
			ends = fresh
		}
		d.section(g, st)
		d.row(g, d.above(d.p.under(0)), stepRow{ends: ends, chairs: fresh, string: drawing.String, stations: true})
	case plan.ExtenderStep:
		st.below = fresh
		d.section(g, st)
	case plan.TryStep:
		d.corner(g, old, fresh)
	case plan.InspectStep:
		d.section(g, st)
		d.stop(g)
	case plan.SplicesStep:
		d.splices(g)
	case plan.TrimStep:
		d.trim(g)
	case plan.HookStep:
		st.cap, st.tilt = fresh, d.tilt
		d.section(g, st)
		d.ring(g, d.pivot())
		d.hookArrow(g)
	case plan.GapStep:
		d.gap(g)
	case plan.SnapStep:
		st.cap = fresh
		d.section(g, st)
		d.ring(g, xy{d.p.outside - d.p.t/2, d.p.footR})
		d.snapArrow(g)
	case plan.CheckStep:
		st.cap = old
		d.section(g, st)
		d.ticks(g)
		d.row(g, d.above(d.p.foldF), stepRow{caps: old, check: true})
	}
}

// stepState is how far the work in a section is: the pens of its parts, NoPen
// for what is not there.
type stepState struct {
	nailer, pack, membrane, chair, screws, below, cap drawing.Pen
	tilt                                              float64 // of the cap
}

// section draws the cut across the wall in a state of the work.
func (d *stepDrawing) section(g *drawing.Scene, st stepState) {
	m, p := d.m, &d.p
	g.Group(drawing.Wall, "", func(g *drawing.Scene) { d.wall(g, st) })
	if st.pack != drawing.NoPen {
		g.Group(drawing.Packing, "", func(g *drawing.Scene) { d.packing(g, st.pack) })
	}
	if st.membrane != drawing.NoPen {
		g.Group(drawing.Packing, "", func(g *drawing.Scene) { d.membrane(g, st.membrane, st.pack != drawing.NoPen) })
	}
	if st.chair != drawing.NoPen {
		g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
			for _, path := range p.chair(0.75*m.ratio, 0.75*m.ratio) {
				g.Line(st.chair, m.all(path...)...)
			}
		})
	}
	if st.screws != drawing.NoPen {
		g.Group(drawing.Fasteners, "", func(g *drawing.Scene) { d.screws(g, st.screws) })
	}
	if st.below != drawing.NoPen {
		g.Group(drawing.Caps, "", func(g *drawing.Scene) { d.extenders(g, st.below) })
	}
	if st.cap != drawing.NoPen {
		g.Group(drawing.Caps, "", func(g *drawing.Scene) { g.Line(st.cap, m.all(d.turned(p.cap(), st.tilt)...)...) })
	}
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		d.foot(g)
	})
}

// foot names the two sides under a section.
func (d *stepDrawing) foot(g *drawing.Scene) {
	g.Text(drawing.Pt(0, d.room.Max.Y-110), d.Say.Say(words.WorkStreet), drawing.Style{Face: drawing.Bold})
	g.Text(drawing.Pt(d.room.Max.X, d.room.Max.Y-110), d.Say.Say(words.WorkRoof), drawing.Style{Face: drawing.Bold,
		Align: drawing.Right})
}

// extenders draws the pieces that hang below the legs of the cap, which is not there
// yet: each begins above the leg's foot.
func (d *stepDrawing) extenders(g *drawing.Scene, pen drawing.Pen) {
	off := 1.2 * d.m.ratio
	for _, e := range []struct {
		high length.Length
		x, y float64
	}{{d.Work.Below, d.p.face - off, d.p.footF}, {d.Work.BelowRoof, d.p.back + off, d.p.footR}} {
		if e.high > 0 {
			foot := math.Min(e.y+e.high.MM(), d.floor)
			g.Line(pen, d.m.all(xy{e.x, foot - e.high.MM()}, xy{e.x, foot})...)
		}
	}
}

// stop is the sign of the step at which everything waits for a signature.
func (d *stepDrawing) stop(g *drawing.Scene) {
	said := d.Say.Say(words.WorkStop)
	room := d.above(d.p.under(0))
	r := min(drawing.Width(drawing.Bold, said, drawing.Title)*7/10+150, room.Height()/2, d.room.Width()/2-40)
	c := room.Centre()
	var ring []drawing.Point
	for k := range 8 {
		ring = append(ring, drawing.Polar(c, r, 225+450*k))
	}
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		z := drawing.Title
		for z > drawing.Note && drawing.Width(drawing.Bold, said, z) > r*14/10 {
			z -= 10
		}
		if drawing.Width(drawing.Bold, said, z) <= r*14/10 {
			g.Polygon(drawing.Thick, ring...)
		}
		g.Text(drawing.Pt(c.X, c.Y+drawing.Unit(z)/2), said, drawing.Style{Size: z, Face: drawing.Bold,
			Align: drawing.Middle})
	})
}

// wall draws the layers of the wall down to the floor of the picture.
func (d *stepDrawing) wall(g *drawing.Scene, st stepState) {
	m, p := d.m, &d.p
	pen := drawing.Thin
	if !p.of.Surveyed {
		pen = drawing.Hidden
	}
	depth := 0.0
	for i, y := range d.Run.Layers {
		a, b := p.top(p.face)+depth, p.top(p.back)+depth
		if a >= d.floor && b >= d.floor {
			break
		}
		depth += y.Thickness.Real.MM()
		e, c := math.Min(p.top(p.face)+depth, d.floor), math.Min(p.top(p.back)+depth, d.floor)
		q := m.all(xy{p.face, math.Min(a, d.floor)}, xy{p.back, math.Min(b, d.floor)}, xy{p.back, c}, xy{p.face, e})
		g.Hatch(layerHatch(y.Material), pen, q...)
		if i == 0 && st.nailer != drawing.NoPen {
			if d.Work.Nailed {
				g.Polygon(st.nailer, q...)
			} else {
				g.Line(st.nailer, q[0], q[1])
			}
		}
	}
	x0, x1 := p.face-2*m.ratio, p.back+2*m.ratio
	mid, z := (x0+x1)/2, 1.2*m.ratio
	g.Line(drawing.Thin, m.all(xy{x0, d.floor}, xy{mid - z, d.floor}, xy{mid - z/2, d.floor - z},
		xy{mid + z/2, d.floor + z}, xy{mid + z, d.floor}, xy{x1, d.floor})...)
}

// packing draws plywood layers and shims.
func (d *stepDrawing) packing(g *drawing.Scene, pen drawing.Pen) {
	m, p := d.m, &d.p
	x0, x1 := p.face, p.back
	if d.Work.UnderChairs {
		x0, x1 = math.Max(x0, p.chairA), math.Min(x1, p.chairB)
	}
	lift := 0.0
	if d.chair != nil && !d.Work.UnderChairs {
		for range d.chair.Plies {
			t := p.of.Ply.MM()
			g.Hatch(drawing.Plywood, pen, m.all(xy{x0, p.top(x0) - lift}, xy{x1, p.top(x1) - lift},
				xy{x1, p.top(x1) - lift - t}, xy{x0, p.top(x0) - lift - t})...)
			lift += t
		}
	}
	a, b := p.top(x0)-lift, p.top(x1)-lift
	if math.Max(a-p.set(x0), b-p.set(x1)) > 0.3*m.ratio {
		g.Hatch(drawing.Packing1, pen, m.all(xy{x0, math.Max(a, p.set(x0))}, xy{x1, math.Max(b, p.set(x1))},
			xy{x1, p.set(x1)}, xy{x0, p.set(x0)})...)
	}
}

// membrane draws it over what it lies on and down both faces, its edges nailed.
func (d *stepDrawing) membrane(g *drawing.Scene, pen drawing.Pen, packed bool) {
	m, p := d.m, &d.p
	y := p.set
	if d.Work.UnderChairs && d.Work.AboveMembrane || !packed {
		y = p.top
	}
	over := 0.45 * m.ratio
	a, b := p.face-over, p.back+over
	down := func(x, cover, foot float64) float64 {
		return math.Max(math.Min(p.top(x)+cover+2*m.ratio, foot-1.5*m.ratio), y(x)+2*m.ratio)
	}
	downF := math.Min(down(p.face, p.of.CoverFront.MM(), p.footF), d.floor-m.ratio)
	downR := math.Min(down(p.back, p.of.CoverRear.MM(), p.footR), d.floor-m.ratio)
	path := []xy{{a, downF}, {a, y(a) - over}, {b, y(b) - over}, {b, downR}}
	if pen != drawing.Thick {
		g.Line(drawing.Hidden, m.all(path...)...)
		return
	}
	dashed(g, m, path)
	for _, e := range []struct{ x, y, side float64 }{{a, downF, 1}, {b, downR, -1}} {
		q := m.at(xy{e.x, e.y - 0.9*m.ratio})
		out := drawing.Round(1.1 * e.side)
		g.Line(drawing.Medium, q.Sub(drawing.Pt(out, 0)), q.Add(drawing.Pt(2*out, 0)))
		g.Line(drawing.Thick, q.Add(drawing.Pt(-out, -70)), q.Add(drawing.Pt(-out, 70)))
	}
}

// screws draws both rows to their lengths, as far as the picture goes.
func (d *stepDrawing) screws(g *drawing.Scene, pen drawing.Pen) {
	m, p := d.m, &d.p
	for i, row := range d.chair.Rows {
		x := p.chairA + (row.Behind - p.of.ChairFront).MM()
		if i == 1 {
			x = p.chairB - (p.of.ChairRear - row.Behind).MM()
		}
		head := p.set(x) - 0.75*m.ratio
		deep := row.Length.MM()
		if !row.Fits() {
			g.Line(drawing.Centre, m.all(xy{x, head}, xy{x, p.top(x) + 6*m.ratio})...)
			continue
		}
		top := m.at(xy{x, head})
		g.Line(pen, top, m.at(xy{x, math.Min(p.set(x)+deep, d.floor-0.5*m.ratio)}))
		half := pen.Stroke().Width + 50
		g.Fill(drawing.Black, drawing.NoPen, top.Add(drawing.Pt(-half, -80)), top.Add(drawing.Pt(half, -80)),
			top.Add(drawing.Pt(half, 0)), top.Add(drawing.Pt(-half, 0)))
	}
}

// stepArrow draws a line with a head at its last point.
func stepArrow(g *drawing.Scene, pen drawing.Pen, pts ...drawing.Point) {
	n := len(pts)
	tip, dir := pts[n-1], xy{float64(pts[n-1].X - pts[n-2].X), float64(pts[n-1].Y - pts[n-2].Y)}
	back := off(tip, dir, -210)
	line := append(append([]drawing.Point{}, pts[:n-1]...), off(tip, dir, -150))
	g.Line(pen, line...)
	u := dir.unit().roofward()
	g.Fill(drawing.Black, drawing.NoPen, tip, off(back, u, 95), off(back, u, -95))
}

// sweep lists the places of an arc about the pivot on paper, from one angle
// above the horizontal to another.
func (d *stepDrawing) sweep(r, from, to float64) []drawing.Point {
	var out []drawing.Point
	for i := 0; i <= 12; i++ {
		u := heading(from + (to-from)*float64(i)/12)
		out = append(out, d.m.at(d.pivot().add(xy{u.x * r, -u.y * r})))
	}
	return out
}

// stepSwing is where along the cap its turning arrow stands.
const stepSwing = 0.72

// hookArrow shows that the cap, hooked in front, will turn down.
func (d *stepDrawing) hookArrow(g *drawing.Scene) {
	q := d.p.cap()
	top := d.turned([]xy{{d.p.outside * stepSwing, d.p.under(d.p.outside*stepSwing) + d.p.t}}, d.tilt)[0].sub(d.pivot())
	rest := xy{d.p.outside * stepSwing, d.p.under(d.p.outside * stepSwing)}.sub(d.pivot())
	r := top.length()
	a, b := math.Atan2(-top.y, top.x)*180/math.Pi, math.Atan2(-rest.y, rest.x)*180/math.Pi
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		stepArrow(g, drawing.Thick, d.sweep(r, a-3.5, b+3)...)
		tip := off(d.m.at(q[0]), xy{-1, 1}, 60)
		stepArrow(g, drawing.Medium, drawing.Pt(max(tip.X-260, 20), tip.Y+330), tip)
	})
}

// snapArrow shows the turn down and where it ends.
func (d *stepDrawing) snapArrow(g *drawing.Scene) {
	rest := xy{d.p.outside * 0.86, d.p.under(d.p.outside*0.86) - d.p.t}.sub(d.pivot())
	a := math.Atan2(-rest.y, rest.x) * 180 / math.Pi
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		stepArrow(g, drawing.Thick, d.sweep(rest.length(), a+d.tilt, a+2.5)...)
	})
}

// ring draws attention to a place.
func (d *stepDrawing) ring(g *drawing.Scene, at xy) {
	c := d.m.at(at)
	r := min(drawing.Unit(330), c.X-20, d.room.Max.X-c.X-20)
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) { g.Circle(drawing.Medium, c, max(r, 150)) })
}

// stringEnd shows the string from its end, where the street-side edges of the chairs
// will stand.
func (d *stepDrawing) stringEnd(g *drawing.Scene) {
	a := d.p.chairA
	at := d.m.at(xy{a, d.p.set(a) - 0.75*d.m.ratio})
	g.Group(drawing.Chairs, "", func(g *drawing.Scene) {
		g.Dot(at, 75, drawing.Black)
		stepArrow(g, drawing.Medium, at.Add(drawing.Pt(-60, -560)), at.Add(drawing.Pt(-20, -130)))
	})
}

// tick draws a check mark whose foot stands at a point.
func stepTick(g *drawing.Scene, at drawing.Point) {
	g.Line(drawing.Thick, at.Add(drawing.Pt(-130, -150)), at, at.Add(drawing.Pt(210, -330)))
}

// ticks checks front lap and rear leg in the section.
func (d *stepDrawing) ticks(g *drawing.Scene) {
	mid := d.m.at(xy{(d.p.face + d.p.back) / 2, 0}).X
	g.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		for _, q := range []xy{{d.p.face, d.p.footF}, {d.p.back, d.p.footR}} {
			at := d.m.at(q)
			at.X += min(max(mid-at.X, -420), 420)
			box := drawing.Box(at.X-170, at.Y-380, at.X+250, at.Y+60)
			g.Fill(drawing.White, drawing.NoPen, box.Corners()...)
			stepTick(g, at)
		}
	})
}

// above is the room over the section for a small plan.
func (d *stepDrawing) above(y float64) drawing.Rect {
	return drawing.Box(0, 0, d.room.Max.X, max(d.m.at(xy{0, y}).Y-200, 500))
}
