package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// up brings a section to paper: plan.Pt has heights up, paper has y down.
func (m paperMap) up(p plan.Pt) drawing.Point { return m.at(xy{p.X.MM(), -p.Y.MM()}) }

func (m paperMap) ring(r plan.Ring) []drawing.Point {
	out := make([]drawing.Point, 0, len(r))
	for _, p := range r {
		if q := m.up(p); len(out) == 0 || out[len(out)-1] != q {
			out = append(out, q)
		}
	}
	return out
}

// real is a distance on paper as one of the section.
func (m paperMap) real(u drawing.Unit) length.Length { return length.FromMM(u.Millimetres() * m.ratio) }

// cut draws the section with its dimensions at one scale, and rings what its
// details show.
func (s *sectionView) cut(ratio float64, details bool) []drawing.Mark {
	m := paperMap{ratio: ratio}
	var sc drawing.Scene
	floor := s.floorOf(m)
	s.wall(&sc, m, floor)
	s.parts(&sc, m, func(r plan.Ring) plan.Ring { return r })
	details = details && ratio > 1
	if details {
		sc.Group(drawing.Lettering, "", func(g *drawing.Scene) { s.windows(g, m) })
	}
	sc.Group(drawing.Dimensions, "", func(g *drawing.Scene) { s.dims(g, m, floor) })
	sc.Group(drawing.Lettering, "", func(g *drawing.Scene) { s.callouts(g, m, floor) })
	if details {
		sc.Group(drawing.Lettering, "", func(g *drawing.Scene) { s.marks(g, m) })
	}
	return sc.Marks
}

// floorOf is where the wall is cut off: below the feet, the fasteners and the
// joints the legs must cover.
func (s *sectionView) floorOf(m paperMap) length.Length {
	low := length.Min(s.of.Joints[0].Y, s.of.Joints[1].Y)
	for _, p := range s.of.Parts {
		if lo, _ := p.Ring.Bounds(); p.Kind != plan.WallLayer {
			low = length.Min(low, lo.Y)
		}
	}
	return low - m.real(9*drawing.MM)
}

// wall draws the layers of the wall, cut off at the floor, and at each face the
// joint that the leg must cover. Over a building expansion joint the wall behind
// the gap is seen, not cut.
func (s *sectionView) wall(sc *drawing.Scene, m paperMap, floor length.Length) {
	sc.Group(drawing.Wall, "", func(g *drawing.Scene) {
		for _, p := range s.of.Of(plan.WallLayer) {
			layer(g, m, p, p.Ring.Above(floor), floor)
		}
		// The break: wall goes on.
		x0, x1 := m.up(plan.Pt{X: s.of.Street, Y: floor}), m.up(plan.Pt{X: s.of.Roof, Y: floor})
		const out, z = 300, 180
		mid := (x0.X + x1.X) / 2
		y := x0.Y
		g.Line(drawing.Thin, drawing.Pt(x0.X-out, y), drawing.Pt(mid-z, y), drawing.Pt(mid-z/2, y-z),
			drawing.Pt(mid+z/2, y+z), drawing.Pt(mid+z, y), drawing.Pt(x1.X+out, y))
		for i, side := range []drawing.Unit{1, -1} {
			at := m.up(s.of.Joints[i])
			g.Line(drawing.Medium, at.Sub(drawing.Pt(side*120, 0)), at.Add(drawing.Pt(side*700, 0)))
		}
	})
}

// layer draws what of a wall's layer is shown.
func layer(g *drawing.Scene, m paperMap, p plan.Part, r plan.Ring, floor length.Length) {
	if len(r) == 0 {
		return
	}
	pen, kind := drawing.Medium, layerHatch(p.Material)
	if p.Supposed {
		pen = drawing.Hidden
	}
	if p.Beyond {
		kind = drawing.NoHatch
	}
	g.Hatch(kind, drawing.NoPen, m.ring(r)...)
	for i, a := range r {
		if b := r[(i+1)%len(r)]; a.Y > floor || b.Y > floor {
			g.Line(pen, m.up(a), m.up(b))
		}
	}
}

// parts draws what lies on the wall, each to its true thickness, as much of it as
// a window shows.
func (s *sectionView) parts(sc *drawing.Scene, m paperMap, shown func(plan.Ring) plan.Ring) {
	layers := map[plan.PartKind]drawing.Layer{plan.PackingSheet: drawing.Packing, plan.Shim: drawing.Packing,
		plan.Shimmed:       drawing.Packing,
		plan.MembraneLayer: drawing.Packing, plan.ChairMetal: drawing.Chairs, plan.Screw: drawing.Fasteners,
		plan.PlateMetal: drawing.Splices,
		plan.Tape:       drawing.Splices, plan.CapMetal: drawing.Caps, plan.ExtenderMetal: drawing.Caps}
	for _, p := range s.of.Parts {
		on, ok := layers[p.Kind]
		if !ok {
			continue
		}
		if r := shown(p.Ring); len(r) > 0 {
			sc.Group(on, "", func(g *drawing.Scene) { s.part(g, m, p, r) })
		}
	}
	if s.of.Seat != nil {
		for _, row := range s.of.Seat.Rows {
			if r := (plan.Ring{row.Head, row.Head, row.Head}); len(shown(r)) > 0 {
				sc.Group(drawing.Fasteners, "", func(g *drawing.Scene) { s.head(g, m, row) })
			}
		}
	}
}

// part draws one thing.
func (s *sectionView) part(g *drawing.Scene, m paperMap, p plan.Part, r plan.Ring) {
	pts := m.ring(r)
	switch {
	case p.Kind == plan.PackingSheet:
		g.Hatch(drawing.Plywood, drawing.Medium, pts...)
	case p.Kind == plan.Shim:
		g.Hatch(drawing.Shims, drawing.Medium, pts...)
	case p.Kind == plan.Shimmed:
		g.Fill(drawing.None, drawing.Hidden, pts...)
	case p.Kind == plan.MembraneLayer:
		s.membrane(g, m, r)
	case p.Kind == plan.Screw:
		g.Fill(drawing.White, drawing.Medium, pts...)
	case p.Kind == plan.Tape:
		g.Fill(drawing.Mid, drawing.NoPen, pts...)
	case p.Supposed:
		g.Polygon(drawing.Hidden, pts...)
	case p.Beyond:
		g.Fill(drawing.White, drawing.Thin, pts...)
	default:
		tone, thick := drawing.Black, s.of.Sheet.Thickness.Real
		if p.Kind == plan.ChairMetal {
			tone, thick = drawing.Dark, s.of.Seat.Thickness.Real
		}
		pen := drawing.NoPen
		if drawing.Round(thick.MM()/m.ratio) < hairline {
			pen = drawing.Thin
		}
		g.Fill(tone, pen, pts...)
	}
}

// hairline is the thickness on paper under which sheet is drawn a little heavier,
// so that it stays the heaviest line of the drawing.
const hairline drawing.Unit = 35

// membrane is a dark band where the paper shows how thick it is, else thick
// dashes along its middle.
func (s *sectionView) membrane(g *drawing.Scene, m paperMap, r plan.Ring) {
	if drawing.Round(s.of.Membrane.Thickness.Real.MM()/m.ratio) >= asLine || len(r) != 8 {
		g.Fill(drawing.Mid, drawing.Thin, m.ring(r)...)
		return
	}
	var mid []xy // outside down to inside: the ring goes out one way and back the other
	for i := range 4 {
		a, b := r[i], r[7-i]
		mid = append(mid, xy{(a.X + b.X).MM() / 2, -(a.Y + b.Y).MM() / 2})
	}
	dashed(g, m, mid)
}

// head is a fastener's head and its centre line; the head is a sign, of which the
// job states nothing.
func (s *sectionView) head(g *drawing.Scene, m paperMap, row plan.Row) {
	at := m.up(row.Head)
	if !row.Fits {
		g.Line(drawing.Centre, at.Sub(drawing.Pt(0, 400)), at.Add(drawing.Pt(0, 2000)))
		return
	}
	d := drawing.Round(math.Max(row.Diameter.Real.MM()/2/m.ratio, 0.35))
	wide, high := d*21/10, max(d*11/10, 80)
	g.Fill(drawing.Black, drawing.NoPen, at.Add(drawing.Pt(-wide, 0)), at.Add(drawing.Pt(wide, 0)),
		at.Add(drawing.Pt(wide, -high)), at.Add(drawing.Pt(-wide, -high)))
	tip := m.up(plan.Pt{X: row.Head.X, Y: row.Head.Y - row.Length.Real})
	for y := tip.Y - drawing.Round(row.Tip.Real.MM()/m.ratio); y > tip.Y-drawing.Round(math.Min(row.Into.Real.MM(),
		row.Length.Real.MM()*0.8)/m.ratio); y -= 110 {
		g.Line(drawing.HatchPen, drawing.Pt(at.X-d, y), drawing.Pt(at.X+d, y-50))
	}
	g.Line(drawing.Centre, at.Sub(drawing.Pt(0, high+150)), tip.Add(drawing.Pt(0, 150)))
}
