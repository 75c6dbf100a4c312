package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
)

// chord is how far a pattern's corners may leave a cut or an arc between them,
// millimetres: half the step a blank is lettered in.
const chord = 0.05

// legs are the straights of a cap as the job states them, from the street edge
// to the roof edge, and which of them is the top. A hem is folded to the back of
// the metal, closed flat.
func (b *builder) legs(m measures, width float64) ([]fold.Leg, int) {
	var out []fold.Leg
	hem := b.s.Profile.HemReturn.MM()
	r := b.bend.Radius
	fall := math.Atan(m.slope) * 180 / math.Pi
	if hem > 0 {
		out = append(out, fold.Leg{Name: "hem", Outside: hem, Turn: -180, To: fold.ToTangent})
	}
	if m.drip > 0 {
		out = append(out, fold.Leg{Name: "drip", Outside: m.drip, Turn: m.dripTurn, Radius: r})
	}
	out = append(out, fold.Leg{Name: "front leg", Outside: m.front, Turn: -90 - fall, Radius: r})
	top := len(out)
	out = append(out,
		fold.Leg{Name: "top", Outside: math.Hypot(width, m.slope*width), Turn: -90 + fall, Radius: r},
		fold.Leg{Name: "rear leg", Outside: m.rear})
	if m.hook > 0 {
		out[len(out)-1].Turn, out[len(out)-1].Radius = -m.hookTurn, r
		out = append(out, fold.Leg{Name: "hook", Outside: m.hook})
	}
	if hem > 0 {
		last := &out[len(out)-1]
		last.Turn, last.To = -180, fold.ToTangent
		out = append(out, fold.Leg{Name: "hem", Outside: hem})
	}
	return out, top
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

// sheet gives a raw body its metal between two cuts, and the solid on the mold
// lines that its formed view shows.
func (b *builder) sheet(r raw, m measures, sec section, left, right fold.Cut) raw {
	r.solid = fold.Prism(sec.profile, sec.top, left.Seam, right.Seam)
	path, err := b.path(m, sec.width)
	r.err = err
	r.metal = &fold.Sheet{Path: path, Left: left, Right: right}
	return r
}

// upstand hangs the flange of a wall end on a body's top.
func (b *builder) upstand(r raw, right bool) raw {
	r.solid = withUpstand(r.solid, right, b.s.WallEnd.Upstand.MM())
	end := 0
	if right {
		end = 1
	}
	r.metal.Tabs[end] = &fold.Tab{Name: "upstand", Height: b.s.WallEnd.Upstand.MM(), Radius: b.bend.Radius}
	return r
}

// develop lays a body flat.
func (b *builder) develop(r raw) (fold.Flat, error) {
	switch {
	case r.err != nil:
		return fold.Flat{}, r.err
	case r.metal != nil:
		return r.metal.Pattern(chord)
	}
	return fold.Unfold(r.solid, b.bend)
}
