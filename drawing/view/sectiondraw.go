package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// scene arranges the view: the cut to the largest usual scale, the keyed list
// beside or below.
func (s *section) scene(name, title string, w, h drawing.Unit) drawing.Scene {
	s.items()
	k := keyedView{
		title: title, metric: s.crew.Metric,
		under: "run " + s.r.Name + ", crew station " + s.crew.InText(s.r.ToCrew(s.of.At)) + "; looking along growing stations, towards the right hand",
		draw:  func(ratio float64, _ drawing.Point) ([]drawing.Mark, []string) { return s.cut(ratio), nil }, finest: 1, list: keyedList{notes: s.lines(), holds: s.holds()},
	}
	for _, it := range s.keys {
		k.list.items = append(k.list.items, it.words)
	}
	out := k.scene(w, h)
	out.Name, out.Title = name, title
	out.Desc = title + ", run " + s.r.Name + ", looking along growing stations: street at the left, roof at the right."
	return out
}

// cut draws the section with its dimensions at one scale; x and y count from
// the cap line and the set surface.
func (s *section) cut(ratio float64) []drawing.Mark {
	m := paperMap{ratio: ratio}
	var sc drawing.Scene
	floor := s.floorOf(m)
	sc.Group(drawing.Wall, "", func(g *drawing.Scene) { s.wall(g, m, floor) })
	sc.Group(drawing.Packing, "", func(g *drawing.Scene) { s.packing(g, m) })
	if s.chair != nil {
		sc.Group(drawing.Chairs, "", func(g *drawing.Scene) { s.chairs(g, m) })
		sc.Group(drawing.Fasteners, "", func(g *drawing.Scene) { s.fasteners(g, m) })
	}
	if s.joint != nil {
		sc.Group(drawing.Splices, "", func(g *drawing.Scene) { s.splice(g, m) })
	}
	sc.Group(drawing.Caps, "", func(g *drawing.Scene) {
		if s.joint == nil {
			sheetMetal(g, m, drawing.Thick, s.p.t, s.p.cap(0))
			return
		}
		g.Line(drawing.Medium, m.all(s.p.cap(0)...)...)
	})
	sc.Group(drawing.Caps, "", func(g *drawing.Scene) { s.hangers(g, m) })
	sc.Group(drawing.Dimensions, "", func(g *drawing.Scene) { s.dims(g, m, floor) })
	sc.Group(drawing.Lettering, "", func(g *drawing.Scene) { s.callouts(g, m, floor) })
	return sc.Marks
}

// floorOf is where the wall is cut off: below the feet, the fasteners and the
// joints the legs must cover.
func (s *section) floorOf(m paperMap) float64 {
	p := &s.p
	low := math.Max(p.footF, p.footR)
	low = math.Max(low, kick(xy{0, p.footF}, s.sys.Profile.Drip).y)
	low = math.Max(low, p.packF+s.r.Wall.CoverFront.MM())
	low = math.Max(low, p.top(p.back)+s.r.Wall.CoverRear.MM())
	for _, e := range s.extenders() {
		low = math.Max(low, e.foot)
	}
	if s.chair != nil {
		for _, row := range s.chair.Rows {
			low = math.Max(low, p.set(row.Y.MM())+row.Length.MM())
		}
	}
	return low + 9*m.ratio
}

// wall draws the layers of the wall, cut off at the floor. Over a building
// expansion joint the wall behind the gap is seen, not cut.
func (s *section) wall(g *drawing.Scene, m paperMap, floor float64) {
	p := &s.p
	pen := drawing.Medium
	if !s.of.Surveyed {
		pen = drawing.Hidden
	}
	depth := 0.0
	for _, y := range s.r.Wall.Layers {
		a, b := p.top(p.face)+depth, p.top(p.back)+depth
		depth += y.Thickness.MM()
		c, d := p.top(p.back)+depth, p.top(p.face)+depth
		if a >= floor && b >= floor {
			break
		}
		q := m.all(xy{p.face, math.Min(a, floor)}, xy{p.back, math.Min(b, floor)}, xy{p.back, math.Min(c, floor)}, xy{p.face, math.Min(d, floor)})
		kind := layerHatch(y.Material)
		if s.expansion() {
			kind = drawing.NoHatch
		}
		g.Hatch(kind, drawing.NoPen, q...)
		g.Line(pen, q[0], q[1])
		g.Line(pen, q[1], q[2])
		g.Line(pen, q[3], q[0])
		if math.Min(c, d) < floor {
			g.Line(pen, q[2], q[3])
		}
	}
	// The break: wall goes on.
	x0, x1 := p.face-3*m.ratio, p.back+3*m.ratio
	mid := (x0 + x1) / 2
	z := 1.8 * m.ratio
	g.Line(drawing.Thin, m.all(xy{x0, floor}, xy{mid - z, floor}, xy{mid - z/2, floor - z}, xy{mid + z/2, floor + z}, xy{mid + z, floor}, xy{x1, floor})...)
	for _, j := range []struct {
		x, y, side float64
	}{{p.face, p.packF + s.r.Wall.CoverFront.MM(), 1}, {p.back, p.top(p.back) + s.r.Wall.CoverRear.MM(), -1}} {
		g.Line(drawing.Medium, m.all(xy{j.x - j.side*1.2*m.ratio, j.y}, xy{j.x + j.side*7*m.ratio, j.y})...)
	}
}

// packing draws plywood layers, shims and membrane.
func (s *section) packing(g *drawing.Scene, m paperMap) {
	p := &s.p
	x0, x1 := p.face, p.back
	k := &s.l.Job.Packing
	if k.Method == job.PackChairs && s.chair != nil {
		a, b := p.chairSpan()
		x0, x1 = math.Max(x0, a), math.Min(x1, b)
	}
	lift := 0.0
	if s.chair != nil && k.Method == job.PackContinuous {
		for range s.chair.Layers {
			d := k.Layer.MM()
			g.Hatch(drawing.Plywood, drawing.Medium, m.all(xy{x0, p.top(x0) - lift}, xy{x1, p.top(x1) - lift}, xy{x1, p.top(x1) - lift - d}, xy{x0, p.top(x0) - lift - d})...)
			lift += d
		}
	}
	if !s.expansion() {
		a, b := p.top(x0)-lift, p.top(x1)-lift
		if math.Max(a-p.set(x0), b-p.set(x1)) > 0.3*m.ratio {
			s.shims(g, m, x0, x1, lift)
		}
	}
	s.membrane(g, m)
}

// shims fill what is left between wall or layers and the set surface: under a
// chair in stacks that its two rows of screws pass through, and between them an
// outline, for how the bearing there is made full is the crew's.
func (s *section) shims(g *drawing.Scene, m paperMap, x0, x1, lift float64) {
	p := &s.p
	part := func(a, b float64) []drawing.Point {
		under := func(x float64) float64 { return math.Max(p.top(x)-lift, p.set(x)) }
		return m.all(xy{a, under(a)}, xy{b, under(b)}, xy{b, p.set(b)}, xy{a, p.set(a)})
	}
	if s.chair == nil {
		g.Fill(drawing.None, drawing.Medium, part(x0, x1)...)
		return
	}
	lo, hi := p.chairSpan()
	lo, hi = math.Max(lo, x0), math.Min(hi, x1)
	front, rear := s.chair.Rows[0].Y.MM(), s.chair.Rows[1].Y.MM()
	front, rear = math.Min(2*front-lo, (lo+hi)/2), math.Max(2*rear-hi, (lo+hi)/2)
	if front <= lo || rear >= hi { // no screws: the rows are not known
		front, rear = lo+(hi-lo)/4, hi-(hi-lo)/4
	}
	if rear > front {
		g.Line(drawing.Hidden, part(front, rear)[0], part(front, rear)[1])
	}
	g.Hatch(drawing.Shims, drawing.Medium, part(lo, front)...)
	g.Hatch(drawing.Shims, drawing.Medium, part(rear, hi)...)
}

// membrane runs over what it lies on and down both faces, past the joints the
// legs must cover.
func (s *section) membrane(g *drawing.Scene, m paperMap) {
	p := &s.p
	over := 0.35 * m.ratio // so that the thick line lies beside the wall's own
	y := s.membraneTop
	a, b := p.face-over, p.back+over
	downF := math.Min(p.packF+s.r.Wall.CoverFront.MM()+3*m.ratio, p.footF-2*m.ratio)
	downR := math.Min(p.top(p.back)+s.r.Wall.CoverRear.MM()+3*m.ratio, p.footR-2*m.ratio)
	dashed(g, m, []xy{{a, math.Max(downF, y(a))}, {a, y(a) - over}, {b, y(b) - over}, {b, math.Max(downR, y(b))}})
}

// membraneTop is where the membrane lies over the wall: on the packing, or on
// the wall itself where packing lies above it or none crosses the joint.
func (s *section) membraneTop(x float64) float64 {
	k := &s.l.Job.Packing
	if k.Method == job.PackChairs && k.AboveMembrane || s.expansion() {
		return s.p.top(x)
	}
	return s.p.set(x)
}

// chairs draws the chair over the membrane.
func (s *section) chairs(g *drawing.Scene, m paperMap) {
	for _, path := range s.p.chair(1.1*m.ratio, s.chairGap(m)) {
		if drawing.Round(s.sys.Chair.Thickness.MM()/m.ratio) >= asLine {
			sheetMetal(g, m, drawing.Thick, s.sys.Chair.Thickness.MM(), path)
			continue
		}
		g.Line(drawing.Medium, m.all(path...)...)
	}
}

// chairGap keeps the chair's line clear of the cap's, and of a splice between.
func (s *section) chairGap(m paperMap) float64 {
	if s.joint != nil {
		return 2.3 * m.ratio
	}
	return 0.7 * m.ratio
}

// fasteners draws both rows to their lengths, head on the chair's base.
func (s *section) fasteners(g *drawing.Scene, m paperMap) {
	for _, row := range s.chair.Rows {
		x := row.Y.MM()
		head := s.p.set(x) - s.l.Job.Membrane.Thickness.MM() - s.sys.Chair.Thickness.MM()
		head = math.Min(head, s.p.set(x)-1.2*m.ratio)
		if row.Fastener == nil || row.Length == 0 {
			g.Line(drawing.Centre, m.all(xy{x, head - 4*m.ratio}, xy{x, s.p.top(x) + 20*m.ratio})...)
			continue
		}
		seat := s.p.set(x) - s.l.Job.Membrane.Thickness.MM() - s.sys.Chair.Thickness.MM()
		tip := seat + row.Length.MM()
		d := math.Max(row.Fastener.Diameter.MM()/2, 0.35*m.ratio)
		point := math.Min(row.Fastener.Tip.MM(), row.Length.MM()/3)
		g.Fill(drawing.White, drawing.Medium, m.all(xy{x - d, head}, xy{x + d, head}, xy{x + d, tip - point}, xy{x, tip}, xy{x - d, tip - point})...)
		for y := tip - point; y > tip-math.Min(row.Into.MM(), row.Length.MM()*0.8); y -= 1.1 * m.ratio {
			g.Line(drawing.HatchPen, m.all(xy{x - d, y}, xy{x + d, y - 0.5*m.ratio})...)
		}
		hd, hh := d*2.1, math.Max(d*1.1, 0.8*m.ratio)
		g.Fill(drawing.Black, drawing.NoPen, m.all(xy{x - hd, head}, xy{x + hd, head}, xy{x + hd, head - hh}, xy{x - hd, head - hh})...)
		g.Line(drawing.Centre, m.all(xy{x, head - hh - 1.5*m.ratio}, xy{x, tip + 1.5*m.ratio})...)
	}
}

// splice draws the plate under the caps and the tape between, seen from its
// end; a little apart, so that three sheets do not run into one line.
func (s *section) splice(g *drawing.Scene, m paperMap) {
	tape := s.p.cap(0.75 * m.ratio)
	plate := s.p.cap(1.5 * m.ratio)
	for _, path := range [][]xy{tape, plate} { // both stop short of the feet
		path[0].y -= 3 * m.ratio
		path[len(path)-1].y -= 3 * m.ratio
	}
	outer := s.p.cap(0.45 * m.ratio)
	outer[0].y, outer[3].y = tape[0].y, tape[3].y
	inner := s.p.cap(1.05 * m.ratio)
	inner[0].y, inner[3].y = tape[0].y, tape[3].y
	g.Fill(drawing.Mid, drawing.NoPen, m.all(outer[0], outer[1], outer[2], outer[3], inner[3], inner[2], inner[1], inner[0])...)
	g.Line(drawing.Thick, m.all(plate...)...)
}

// jointGap is the width of a building expansion joint as surveyed.
func jointGap(j *cap.Joint) length.Length {
	if j.Source == nil {
		return 0
	}
	return j.Source.Gap
}
