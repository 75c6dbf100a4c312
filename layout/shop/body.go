package shop

import (
	"math"

	"copingset/layout/fold"
)

// A section is what the cuts of a cap's cross-section depend on, in millimetres:
// its outside width from front to rear mold line, and the fall of its top to the
// roof over that width.
type section struct{ width, slope float64 }

// measures are the outside lengths a section is stated in, in millimetres and
// degrees, and what those at each foot are stated to.
type measures struct {
	front, drip, dripTurn float64
	rear, hook, hookTurn  float64
	dripTo, hookTo        fold.Measure
	slope                 float64
}

// square is a cut square across at a station, with no gap to keep.
func square(x float64) fold.Seam { return fold.Square(x, true) }

// miter is a cut at the right end of a leg (side +1) or the left (-1) in the
// plumb plane that bisects a turn: x moves by y tan(turn/2), whatever the
// height. Outside corners (positive turns) shorten the roof side.
func miter(x, side, perWidth float64) fold.Seam {
	slant := math.Hypot(1, perWidth)
	return func(y, _, off float64) float64 { return x - side*(y*perWidth+off*slant) }
}

// seam is the surface in which the legs of a corner of two widths meet, at the
// right end of a leg (side +1) or the left. The top is cut from the outer corner
// point to the inner one, by the leg's own trim at its rear mold line. What is
// turned from the front legs, and from the rear legs, stands alike off both of
// them, so it meets in the plane that bisects the turn: the drip in that through
// the outer point, the hook in that through the inner one. In the bends at the
// folds, `bend` deep, metal keeps off both planes.
func seam(s section, x, side, trim, perWidth, bend float64) fold.Seam {
	const hair = 1e-6
	slant, across := math.Hypot(1, perWidth), math.Hypot(s.width, trim)/s.width
	return func(y, z, off float64) float64 {
		leg := y*perWidth + off*slant
		if y > s.width/2 {
			leg = trim + (y-s.width)*perWidth + off*slant
		}
		top := y*trim/s.width + off*across
		switch {
		case z < -s.slope*y-bend-hair, y < 0, y > s.width:
			return x - side*leg
		case y < bend, y > s.width-bend:
			return x - side*math.Max(leg, top)
		}
		return x - side*top
	}
}

// pitchCut is a cut at the right end of a leg (side +1) or the left (-1) in the
// plane that bisects a change of slope, positive at a peak: x moves by the
// depth below the front fold x tan(bend/2). The top falls to the roof, so its
// own cut is not quite square.
func pitchCut(x, side, bend float64) fold.Seam {
	half := bend / 2 * math.Pi / 180
	return func(_, z, off float64) float64 { return x + side*(z*math.Tan(half)-off/math.Cos(half)) }
}

// taper is a transition. Its front is straight; its rear edge runs along one
// width, then across to the other, then along that one. Where the rear edge
// turns inwards seen from the metal (at the narrow end) the legs would overlap
// on the flat, so the piece is welded there from two bodies: the straight narrow
// end, and the taper with the wide end, whose rear legs part in a notch that
// closes when they are bent.
type taper struct {
	m                       measures
	wide, narrow, long, leg float64
	right                   bool // the wide end is at the right hand
}

// x brings a station from the narrow end to one from the left hand.
func (t taper) x(from float64) float64 {
	if t.right {
		return from
	}
	return t.long - from
}

// rear is the width outside at a station from the narrow end.
func (t taper) rear(from float64) float64 {
	k := (from - t.leg) / (t.long - 2*t.leg)
	return t.narrow + (t.wide-t.narrow)*math.Max(0, math.Min(1, k))
}

// tray is the taper with the wide end. The top is one plane, since its slope does
// not change; so the rear edge falls as it goes out. Its rear legs meet in the
// plumb plane that bisects their turn, half the gap off it each; the seam with
// the narrow end is the plumb plane square across.
func (t taper) tray(b *builder) (fold.Tray, error) {
	gap := b.shop.WeldGap.MM()
	a, c := t.leg, t.long
	corner := t.long - t.leg // of the rear edge
	at := func(from, y float64) fold.Vec { return fold.FromLayout(t.x(from), y, -t.m.slope*y) }
	ring := []fold.Vec{at(a, t.rear(a)), at(corner, t.wide), at(c, t.wide), at(c, 0), at(a, 0)}
	out := fold.Tray{Face: fold.Face{Name: "top", Corners: ring}, Level: 3, AtTop: true}
	wings := []int{0, 1, 3}
	if !t.right { // counterclockwise again: corner k goes to 4-k, edge k to 3-k
		for i, j := 0, 4; i < j; i, j = i+1, j-1 {
			ring[i], ring[j] = ring[j], ring[i]
		}
		out.Level, wings = 0, []int{3, 2, 0}
	}
	// The planes of its ends, normals away from it, and the one between its rear legs.
	sin, cos := math.Sincos(math.Atan2(t.wide-t.narrow, t.long-2*t.leg) / 2)
	way := t.x(1) - t.x(0)
	along := fold.Vec{X: way}
	type plane struct {
		at, normal fold.Vec
		gap        float64
	}
	seam := plane{fold.Vec{X: t.x(t.leg)}, along, gap}
	end := plane{fold.Vec{X: t.x(c)}, along, 0}
	between := plane{at(corner, t.wide), fold.Vec{X: way * cos, Y: -sin}, gap}
	for i, edge := range wings {
		first, last := seam, between
		switch i {
		case 1:
			first, last = between, end
		case 2:
			first, last = seam, end
		}
		if i == 2 == t.right {
			first, last = last, first // edges run counterclockwise
		}
		path, err := b.wing(t.m, ring[edge], ring[(edge+1)%5], i == 2)
		if err != nil {
			return out, err
		}
		out.Wings = append(out.Wings, fold.Wing{Edge: edge, Path: path, Street: i == 2,
			Left: out.CutBy(edge, first.at, first.normal, first.gap, false), Right: out.CutBy(edge, last.at, last.normal, last.gap, true)})
	}
	return out, nil
}

// wing is what hangs plumb on an edge of a top, from corner p to q of a face that
// falls to the roof: the front leg with its drip, or the rear leg with its hook,
// and their hems.
func (b *builder) wing(m measures, p, q fold.Vec, front bool) (fold.Path, error) {
	dx, dy := q.X-p.X, q.Y-p.Y
	// The angle between the top's normal and that of what hangs plumb, away from it.
	turn := math.Acos(dx*m.slope/math.Hypot(dx, dy)/math.Hypot(1, m.slope)) * 180 / math.Pi
	legs, top := b.legs(m, 1000)
	var out []fold.Leg
	if front {
		for i := top; i >= 0; i-- {
			leg := legs[i]
			leg.Turn, leg.Radius, leg.To, leg.Take = 0, 0, 0, 0
			if i > 0 { // the bend before it, seen from the edge, is the one after it from the top
				leg.Turn, leg.Radius, leg.To, leg.Take = legs[i-1].Turn, legs[i-1].Radius, legs[i-1].To, legs[i-1].Take
			}
			out = append(out, leg)
		}
	} else {
		out = append(out, legs[top:]...)
	}
	out[0].Turn = -turn
	out[0].Take = b.take(turn)
	return fold.NewPath(b.bend.Thickness, b.bend.K, out, 0)
}
