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
// the narrow end is that of narrowSeam.
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
	// The planes of its ends, normals away from it, and those that bisect the turns of
	// its rear edge, where that leaves the narrow end and where it comes to the wide one.
	sin, cos := math.Sincos(t.turn() / 2)
	way := t.x(1) - t.x(0)
	along, bisector := fold.Vec{X: way}, fold.Vec{X: way * cos, Y: -sin}
	type ends func(edge int, p fold.Path, right bool) fold.Cut
	plane := func(at, normal fold.Vec, gap float64) ends {
		return func(edge int, _ fold.Path, right bool) fold.Cut { return out.CutBy(edge, at, normal, gap, right) }
	}
	seam, end, between := plane(fold.Vec{X: t.x(t.leg)}, along, gap), plane(fold.Vec{X: t.x(c)}, along, 0),
		plane(at(corner, t.wide), bisector, gap)
	narrow := plane(at(a, t.narrow), bisector, gap)
	turned := func(edge int, p fold.Path, right bool) fold.Cut {
		return keepOff(p, seam(edge, p, right), narrow(edge, p, right), right)
	}
	for i, edge := range wings {
		first, last := turned, between
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
		out.Wings = append(out.Wings, fold.Wing{Edge: edge, Path: path, Street: i == 2, Left: first(edge, path, false),
			Right: last(edge, path, true)})
	}
	return out, nil
}

// turn is how far the rear edge of a taper turns at its narrow end, and back at its
// wide one, radians in plan.
func (t taper) turn() float64 { return math.Atan2(t.wide-t.narrow, t.long-2*t.leg) }

// keepOff is the cut of a wing whose face ends in one surface and whose hanging
// flanges in another; in the bend between, its metal keeps off both.
func keepOff(p fold.Path, face, hanging fold.Cut, right bool) fold.Cut {
	const hair = 1e-6
	bend := p.Segs[0].Radius + p.T
	tangent := bend * math.Tan(math.Abs(p.Segs[0].Turn)/2*math.Pi/180)
	return fold.Cut{Gap: face.Gap, Seam: func(y, z, off float64) float64 {
		f, h := face.Seam(y, z, off), hanging.Seam(y, z, off)
		switch {
		case y < hair-tangent && z > -bend:
			return f
		case z < -bend-hair:
			return h
		case right:
			return math.Min(f, h)
		}
		return math.Max(f, h)
	}}
}

// narrowSeam is the surface in which the narrow end of a transition meets its taper,
// at the right end of that body (side +1) or its left: plumb and square across under
// the front leg and the top. The rear legs turn from one another, and what is turned
// from them stands alike off both in the plane that bisects their turn alone. In the
// bend at their fold, `bend` deep, metal keeps off both.
func narrowSeam(s section, x, side, turn, bend float64) fold.Seam {
	const hair = 1e-6
	perWidth := math.Tan(turn / 2)
	slant := math.Hypot(1, perWidth)
	return func(y, z, off float64) float64 {
		leg := (y-s.width)*perWidth + off*slant
		switch {
		case y < s.width/2:
			return x - side*off
		case z < -s.slope*y-bend-hair, y > s.width:
			return x - side*leg
		case y > s.width-bend:
			return x - side*math.Max(leg, off)
		}
		return x - side*off
	}
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
