// Package shop turns pieces into what is cut and bent: folded bodies, flat
// patterns, bend tables, families of like pieces.
package shop

import (
	"math"
	"slices"

	"copingset/layout/fold"
)

// A section is a cap's cross-section in millimetres, on outside mold lines.
type section struct {
	profile fold.Profile
	top     int     // index of the top among the faces
	width   float64 // outside, front mold line to rear
	slope   float64 // of the top, to the roof, as fall over width
}

// measures are the dimensions a section is made of, in millimetres and degrees.
type measures struct {
	front, drip, dripTurn float64
	rear, hook, hookTurn  float64
	slope                 float64
}

// sectionOf is the cross-section of a cap of an outside width. The drip is
// turned out from the line of the front leg, the hook in from the line of the
// rear leg.
func sectionOf(m measures, width float64) section {
	s := section{width: width, slope: m.slope}
	add := func(y, z float64) { s.profile.Y, s.profile.Z = append(s.profile.Y, y), append(s.profile.Z, z) }
	name := func(n string) { s.profile.Names = append(s.profile.Names, n) }
	if m.drip > 0 {
		sin, cos := math.Sincos(m.dripTurn * math.Pi / 180)
		add(-m.drip*sin, -m.front-m.drip*cos)
		name("drip")
	}
	add(0, -m.front)
	name("front leg")
	add(0, 0)
	s.top = len(s.profile.Names)
	name("top")
	add(width, -m.slope*width)
	name("rear leg")
	add(width, -m.slope*width-m.rear)
	if m.hook > 0 {
		sin, cos := math.Sincos(m.hookTurn * math.Pi / 180)
		add(width-m.hook*sin, -m.slope*width-m.rear-m.hook*cos)
		name("hook")
	}
	return s
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

// withUpstand hangs a flange on the top at one end, bent up against a higher
// wall. right says which end.
func withUpstand(s fold.Solid, right bool, height float64) fold.Solid {
	top := s.Faces[0].Corners // roof edge left, roof edge right, street right, street left
	edge := 1
	a, b := top[1], top[2]
	if !right {
		edge = 3
		a, b = top[3], top[0]
	}
	up := func(v fold.Vec) fold.Vec { return fold.Vec{X: v.X, Y: v.Y, Z: v.Z + height} }
	s.Faces = append(s.Faces, fold.Face{Name: "upstand", Corners: []fold.Vec{b, a, up(a), up(b)}})
	s.Folds = append(s.Folds, fold.Fold{A: 0, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: 0})
	return s
}

// endPlate is the flat plate that closes a free end: the outline of the section
// between the front leg, the top and the rear leg, down to the feet of the legs.
// Its finish side faces away from the piece, so the plate of the right end is
// the mirror image of the left one's: seen from beyond the end, the street is at
// the left at a left end and at the right at a right end.
func endPlate(s section, right bool) fold.Solid {
	p := s.profile
	n := s.top
	var c []fold.Vec
	foot := math.Max(p.Z[n-1], p.Z[n+2])
	// Its plane stands across the run.
	for _, k := range []int{n, n + 1} {
		c = append(c, fold.FromLayout(0, p.Y[k], p.Z[k]))
	}
	low := func(k int) fold.Vec { return fold.FromLayout(0, p.Y[k], foot) }
	c = append(c, low(n+1), low(n))
	ring := []fold.Vec{c[3], c[2], c[1], c[0]} // front foot, rear foot, rear fold, front fold
	if right {
		ring = []fold.Vec{c[2], c[3], c[0], c[1]}
	}
	return fold.Solid{Faces: []fold.Face{{Name: "end plate", Corners: ring}}}
}

// taper is a transition. Its front is straight; its rear edge runs along one
// width, then across to the other, then along that one. Where the rear edge
// turns inwards seen from the metal (at the narrow end) the legs would overlap
// on the flat, so the piece is welded there from two bodies: the straight narrow
// end, and the taper with the wide end, whose rear legs part in a notch that
// closes when they are bent. Half the gap of the weld comes off each body.
//
// hem is what a hem adds on the flat beyond each edge; nothing for raw edges.
func taper(m measures, wide, narrow, long, leg, gap, hem float64, wideRight bool) []fold.Solid {
	straight := sectionOf(m, narrow)
	// Laid out with the wide end at the right, then turned about for the twin.
	first := fold.Prism(straight.profile, straight.top, square(0), square(leg-gap/2))
	second := taperBody(m, wide, narrow, leg, long-leg, long, gap/2)
	first, second = hemmed(first, hem), hemmed(second, hem)
	if !wideRight {
		first, second = mirror(first, long), mirror(second, long)
	}
	return []fold.Solid{first, second}
}

// taperBody is the tapered part and the wide straight end, from station a over
// b to c; the rear edge goes from narrow to wide between a and b. The top is
// one plane, since its slope does not change; so the rear edge falls as it goes
// out, and the rear leg below the taper is a parallelogram that leans with it.
func taperBody(m measures, wide, narrow, a, b, c, gap float64) fold.Solid {
	n := sectionOf(m, narrow)
	rear := func(x float64) (y float64) {
		if x >= b {
			return wide
		}
		return narrow + (wide-narrow)*(x-a)/(b-a)
	}
	start := a + gap
	front := n.profile
	s := fold.Solid{Level: 3, AtTop: true} // the straight street edge
	top := fold.Face{Name: "top"}
	at := func(x, y, z float64) fold.Vec { return fold.FromLayout(x, y, z) }
	z := func(y float64) float64 { return -m.slope * y }
	top.Corners = []fold.Vec{at(start, rear(start), z(rear(start))), at(b, wide, z(wide)), at(c, wide, z(wide)), at(c, 0, 0), at(start, 0, 0)}
	s.Faces = append(s.Faces, top)
	hang := func(parent, edge int, f fold.Face, own int) int {
		s.Faces = append(s.Faces, f)
		s.Folds = append(s.Folds, fold.Fold{A: parent, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: own})
		return len(s.Faces) - 1
	}
	// Street side: the front leg and its drip, square at both ends.
	parent, edge := 0, 3
	for k := n.top - 1; k >= 0; k-- {
		f := fold.Face{Name: front.Names[k], Corners: []fold.Vec{
			at(start, front.Y[k+1], front.Z[k+1]), at(c, front.Y[k+1], front.Z[k+1]),
			at(c, front.Y[k], front.Z[k]), at(start, front.Y[k], front.Z[k]),
		}}
		parent, edge = hang(parent, edge, f, 0), 2
	}
	// Roof side: a rear leg and a hook under each stretch of the rear edge. The
	// hook of the taper is turned square to its own leg, and cut back where it
	// would meet its neighbour's.
	for i, q := range [][2]float64{{start, b}, {b, c}} {
		y0, y1 := rear(q[0]), rear(q[1])
		p0, p1 := at(q[0], y0, z(y0)), at(q[1], y1, z(y1))
		down := fold.Vec{Z: -m.rear}
		r0, r1 := add(p0, down), add(p1, down)
		leg := hang(0, i, fold.Face{Name: "rear leg", Corners: []fold.Vec{r0, r1, p1, p0}}, 2)
		if m.hook > 0 {
			h := hookOf(m, r0, r1)
			hang(leg, 0, fold.Face{Name: "hook", Corners: []fold.Vec{h[0], h[1], r1, r0}}, 2)
		}
	}
	return s
}

// hemmed adds a hem, as it lies on the flat, to every edge of a body that runs
// along it at the street or the roof: to the faces nothing hangs on.
func hemmed(s fold.Solid, flat float64) fold.Solid {
	if flat <= 0 {
		return s
	}
	hangs := make([]bool, len(s.Faces))
	for _, f := range s.Folds {
		hangs[f.A] = true
	}
	for _, f := range slices.Clone(s.Folds) {
		if hangs[f.B] {
			continue
		}
		face := s.Faces[f.B]
		edge := (f.EdgeB + 2) % len(face.Corners) // across from where it hangs
		p, q := face.Corners[edge], face.Corners[(edge+1)%len(face.Corners)]
		in := face.Corners[f.EdgeB]
		// Square to the edge, away from the fold.
		ux, uy, uz := q.X-p.X, q.Y-p.Y, q.Z-p.Z
		l := ux*ux + uy*uy + uz*uz
		dx, dy, dz := p.X-in.X, p.Y-in.Y, p.Z-in.Z
		k := (dx*ux + dy*uy + dz*uz) / l
		dx, dy, dz = dx-k*ux, dy-k*uy, dz-k*uz
		n := flat / math.Sqrt(dx*dx+dy*dy+dz*dz)
		out := fold.Vec{X: dx * n, Y: dy * n, Z: dz * n}
		s.Faces = append(s.Faces, fold.Face{Name: "hem", Corners: []fold.Vec{q, p, add(p, out), add(q, out)}})
		s.Folds = append(s.Folds, fold.Fold{A: f.B, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: 0})
	}
	return s
}

func add(a, b fold.Vec) fold.Vec { return fold.Vec{X: a.X + b.X, Y: a.Y + b.Y, Z: a.Z + b.Z} }

// hookOf is the free edge of a hook under a rear leg's foot from p to q: turned
// in from the line of the leg, square to its own foot in plan.
func hookOf(m measures, p, q fold.Vec) [2]fold.Vec {
	dx, dy := q.X-p.X, q.Y-p.Y
	l := math.Hypot(dx, dy)
	sin, cos := math.Sincos(m.hookTurn * math.Pi / 180)
	// Towards the street, square to the foot in plan; in the solid's frame y
	// grows towards the street.
	in := fold.Vec{X: -dy / l * m.hook * sin, Y: dx / l * m.hook * sin, Z: -m.hook * cos}
	return [2]fold.Vec{add(p, in), add(q, in)}
}

// mirror turns a solid about the middle of a length: its left end comes to the
// right. The corners of every face are told in reverse, so that the finish side
// stays the finish side.
func mirror(s fold.Solid, long float64) fold.Solid {
	root := len(s.Faces[0].Corners)
	out := fold.Solid{AtTop: s.AtTop, Level: (root - s.Level) % root}
	for _, f := range s.Faces {
		n := len(f.Corners)
		g := fold.Face{Name: f.Name, Corners: make([]fold.Vec, n)}
		for i, c := range f.Corners {
			// Edge e, from corner e to e+1, becomes the edge from 1-e to 2-e.
			g.Corners[((1-i)%n+n)%n] = fold.Vec{X: long - c.X, Y: c.Y, Z: c.Z}
		}
		out.Faces = append(out.Faces, g)
	}
	for _, f := range s.Folds {
		na, nb := len(s.Faces[f.A].Corners), len(s.Faces[f.B].Corners)
		out.Folds = append(out.Folds, fold.Fold{A: f.A, EdgeA: ((0-f.EdgeA)%na + na) % na, B: f.B, EdgeB: ((0-f.EdgeB)%nb + nb) % nb})
	}
	return out
}
