package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// chord is how far a pattern's corners may leave a cut or an arc between them,
// millimetres: half the step a blank is lettered in.
const chord = 0.05

// legs are the straights of a cap as the job states them, from the street edge
// to the roof edge, and which of them is the top. A hem is folded to the back of
// the metal, closed flat.
func (b *builder) legs(m measures, width float64) ([]fold.Leg, int) {
	var out []fold.Leg
	street, roof := b.s.Profile.Hems()
	r := b.bend.Radius
	fall := math.Atan(m.slope) * 180 / math.Pi
	if street.Return > 0 {
		out = append(out, b.hem(street))
	}
	if m.drip > 0 {
		out = append(out, fold.Leg{Name: "drip", Outside: m.drip, Turn: m.dripTurn, Radius: r, To: m.dripTo})
	}
	out = append(out, fold.Leg{Name: "front leg", Outside: m.front, Turn: -90 - fall, Radius: r})
	top := len(out)
	out = append(out,
		fold.Leg{Name: "top", Outside: math.Hypot(width, m.slope*width), Turn: -90 + fall, Radius: r},
		fold.Leg{Name: "rear leg", Outside: m.rear})
	if m.hook > 0 {
		last := &out[len(out)-1]
		last.Turn, last.Radius, last.To = -m.hookTurn, r, m.hookTo
		out = append(out, fold.Leg{Name: "hook", Outside: m.hook})
	}
	if roof.Return > 0 {
		last, hem := &out[len(out)-1], b.hem(roof)
		last.Turn, last.Radius, last.To = hem.Turn, hem.Radius, hem.To
		out = append(out, fold.Leg{Name: "hem", Outside: hem.Outside})
	}
	for i := range out {
		if out[i].Turn != 0 && out[i].Turn > -180 {
			out[i].Take = b.take(math.Abs(out[i].Turn))
		}
	}
	return out, top
}

// hem is the leaf of a hem with its fold, to the back of the metal: closed flat, open
// about its radius, or turned on till the edge of its leaf F lies on the flange, by
// b = 2 atan((sqrt(F F + 2 R T) - F) / T) past 180 degrees.
//
// source: plane geometry: R (1 + cos b) - F sin b = T/2 (1 - cos b), the middles of
// both then a thickness apart.
func (b *builder) hem(h job.Hem) fold.Leg {
	out := fold.Leg{Name: "hem", Outside: h.Return.MM(), Turn: -180, Radius: h.Inside.MM(), To: fold.ToTangent}
	t, r := b.bend.Thickness, out.Radius
	if leaf := out.Outside - r - t; h.Kind == job.TeardropHem && leaf > 0 {
		out.Turn -= 2 * math.Atan((math.Sqrt(leaf*leaf+2*r*t)-leaf)/t) * 180 / math.Pi
	}
	return out
}

// path is the section of a cap of an outside width as one sheet of metal.
func (b *builder) path(m measures, width float64) (fold.Path, error) {
	legs, top := b.legs(m, width)
	p, err := fold.NewPath(b.bend.Thickness, b.bend.K, legs, top)
	p.Slope = m.slope
	return p, err
}

// cutOf is the cut of a leg at a miter, at its right end (side +1, where it
// arrives) or its left. The gap of the weld is the least distance between the
// two bodies.
func (b *builder) cutOf(mt cap.Miter, sec section, x, side float64) fold.Cut {
	gap := b.shop.WeldGap.MM()
	if mt.Corner.Straight() {
		return fold.Cut{Seam: pitchCut(x, side, mt.Corner.Bend.Degrees()), Gap: gap}
	}
	half := madeTurn(mt).Degrees() / 2 * math.Pi / 180
	trim := mt.Trim[0].MM()
	if side < 0 {
		trim = mt.Trim[1].MM()
	}
	if !mt.Two() {
		return fold.Cut{Seam: miter(x, side, trim/sec.width), Gap: gap}
	}
	return fold.Cut{Seam: seam(sec, x, side, trim, math.Tan(half), b.bend.Radius+b.bend.Thickness), Gap: gap}
}

// sheet gives a raw body its metal between two cuts, and the solid that its
// formed view shows.
func (b *builder) sheet(r raw, m measures, sec section, left, right fold.Cut) raw {
	path, err := b.path(m, sec.width)
	if err != nil {
		r.err = err
		return r
	}
	if r.welded[0] {
		left = b.cutBack(path, left)
	}
	if r.welded[1] {
		right = b.cutBack(path, right)
	}
	r.metal = &fold.Sheet{Path: path, Left: left, Right: right}
	r.solid = prism(r.metal)
	return r
}

func prism(s *fold.Sheet) fold.Solid {
	profile, root := s.Path.Profile()
	return fold.Prism(profile, root, s.Left.Seam, s.Right.Seam)
}

// tray gives a raw body its metal where that has no one section.
func (r raw) tray(t fold.Tray, err error) raw {
	r.err = err
	if err == nil {
		r.winged, r.solid = &t, t.Solid()
	}
	return r
}

// upstand hangs the flange of a wall end on a body's top.
func (b *builder) upstand(r raw, right bool) raw {
	if r.err != nil {
		return r
	}
	high, end := b.s.WallEnd.Upstand.MM(), 0
	if right {
		end = 1
	}
	r.metal.Tabs[end] = &fold.Tab{Name: "upstand", Height: high, Radius: b.bend.Radius}
	// On the top of the solid: roof edge left, roof edge right, street right, street left.
	top, edge := r.solid.Faces[0].Corners, 3-2*end
	p, q := top[edge], top[(edge+1)%4]
	up := func(v fold.Vec) fold.Vec { return fold.Vec{X: v.X, Y: v.Y, Z: v.Z + high} }
	r.solid.Faces = append(r.solid.Faces, fold.Face{Name: "upstand", Corners: []fold.Vec{q, p, up(p), up(q)}})
	r.solid.Folds = append(r.solid.Folds, fold.Fold{A: 0, EdgeA: edge, B: len(r.solid.Faces) - 1, EdgeB: 0})
	return r
}

// develop lays a body flat.
func (r raw) develop() (fold.Flat, error) {
	switch {
	case r.err != nil:
		return fold.Flat{}, r.err
	case r.metal != nil:
		return r.metal.Pattern(chord)
	}
	return r.winged.Pattern(chord)
}

// paths are the sections of a body: its own, or those of its wings.
func (r raw) paths() []fold.Path {
	if r.metal != nil {
		return []fold.Path{r.metal.Path}
	}
	var out []fold.Path
	if r.winged != nil {
		for _, w := range r.winged.Wings {
			out = append(out, w.Path)
		}
	}
	return out
}
