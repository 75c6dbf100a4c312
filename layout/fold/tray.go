package fold

import "math"

// A Wing is what hangs on one edge of a flat face: bends and straights outwards
// from it, cut at both ends.
type Wing struct {
	Edge int // of the face, from corner Edge to the next
	// Path runs from the face outwards, square to the edge: its first straight is
	// the face itself and is not counted, its bends and the others hang on it.
	Path Path
	// Left is the cut at the edge's first corner, Right the one at its last: their
	// stations run along the edge from its first corner, their y away from the face
	// and their z to its finish side, both from the mold line.
	Left, Right Cut
	// Mouth is an opening from the free edge inwards, left to right: stations
	// along the edge and developed places. None: the edge is whole.
	Mouth []Point
	// Street tells the faces of the wing as those on the street side of a cap are
	// told: from the left, the edge nearer the roof first.
	Street bool
}

// A Tray is a flat face of any outline with wings along its edges: the metal of
// what has no one section. Its corners lie on the finish side, on the mold lines
// of its wings, counterclockwise as that side is seen.
type Tray struct {
	Face  Face
	Level int  // edge of the face that lies along the bottom of the pattern
	AtTop bool // it lies along the top instead
	Wings []Wing
}

// frame is the edge of a tray's face that a wing hangs on: along it, away from
// the face, and to the finish side.
type frame struct{ at, along, away, up Vec }

func (t Tray) frame(w Wing) frame {
	p, q := t.Face.edge(w.Edge)
	u, n := q.minus(p).unit(), t.Face.normal().unit()
	return frame{p, u, u.cross(n), n}
}

// in brings a point of a wing to the tray's space.
func (f frame) in(x, y, z float64) Vec {
	return f.at.plus(f.along.times(x)).plus(f.away.times(y)).plus(f.up.times(z))
}

// CutBy is the cut of a wing by a plane through a point, which has this normal:
// the wing's left or right end stands half the gap off it.
func (t Tray) CutBy(edge int, through, normal Vec, gap float64, right bool) Cut {
	f := t.frame(Wing{Edge: edge})
	n := normal.unit()
	side := -1.0
	if right {
		side = 1
	}
	nu, ny, nz := n.dot(f.along), n.dot(f.away), n.dot(f.up)
	at := n.dot(through.minus(f.at))
	return Cut{Gap: gap, Seam: func(y, z, off float64) float64 {
		return (at-y*ny-z*nz)/nu - side*off/math.Abs(nu)
	}}
}

// lay lays a wing so that y is 0 on its mold line at the edge, z 0 on the finish.
func (w Wing) lay() (Laid, float64) {
	p := w.Path
	p.Segs = append([]Seg(nil), p.Segs...)
	p.Segs[0].Flat = 0
	p.Root, p.Slope = 0, 0
	in := setback(p.T, p.Segs[0])
	p.At = Point{-in, 0}
	return p.Lay(), in
}

// setback is from a bend's tangent to the mold line on the finish side, which is
// the inside of a bend UP.
func setback(t float64, g Seg) float64 {
	r := g.Radius
	if g.Turn < 0 {
		r += t
	}
	return r * math.Tan(math.Abs(g.Turn)/2*radians)
}

// Pattern develops a tray as Sheet.Pattern does a sheet: strips of the bends'
// developed length between straights, corners at every tangent, cut edges along
// the developed curves of their surfaces.
func (t Tray) Pattern(chord float64) (Flat, error) {
	if err := (Solid{Faces: []Face{t.Face}}).Check(); err != nil {
		return Flat{}, err
	}
	p, q := t.Face.edge(t.Level)
	dir := Point{1, 0}
	if t.AtTop {
		dir = Point{-1, 0}
	}
	root := plane(t.Face, p, q, Point{}, dir)
	n := len(t.Face.Corners)
	wings, edges := make([]*Wing, n), make([][]Point, n)
	out := Flat{Depths: []float64{math.NaN()}, root: root}
	for i := range t.Wings {
		e := t.Wings[i].Edge
		edge, err := t.develop(root, i, chord, &out)
		if err != nil {
			return Flat{}, err
		}
		wings[e], edges[e] = &t.Wings[i], edge
	}
	var ring, face []Point
	for e := range n {
		before := (e + n - 1) % n
		switch {
		case wings[e] == nil && wings[before] == nil:
			corner := root.flat(t.Face.Corners[e])
			ring, face = append(ring, corner), append(face, corner)
		case wings[e] != nil && wings[before] != nil:
			corner := t.inner(root, *wings[before], *wings[e])
			ring, face = append(ring, corner), append(face, corner)
		}
		if edge := edges[e]; edge != nil {
			ring = append(ring, edge...)
			face = append(face, edge[0], edge[len(edge)-1])
		}
	}
	out.Outline = tidy(ring)
	out.Faces = append([][]Point{face}, out.Faces...)
	return out, nil
}

// inner is where the tangents of two wings beside one another meet on the face.
func (t Tray) inner(root isometry, a, b Wing) Point {
	fa, fb := t.frame(a), t.frame(b)
	corner := root.flat(fb.at)
	ua, ub := t.flatDir(root, fa.along), t.flatDir(root, fb.along)
	pa := corner.plus(ua.left().times(setback(a.Path.T, a.Path.Segs[0])))
	pb := corner.plus(ub.left().times(setback(b.Path.T, b.Path.Segs[0])))
	x := ua.cross(ub)
	if math.Abs(x) < 1e-9 {
		return pa.middle(pb)
	}
	return pa.plus(ua.times(pb.minus(pa).cross(ub) / x))
}

func (t Tray) flatDir(m isometry, v Vec) Point {
	return m.x.times(v.dot(m.u)).plus(m.y.times(v.dot(m.v)))
}

// develop adds a wing's faces and bend lines to a pattern, and tells its outline
// from the left end of its edge to the right.
func (t Tray) develop(root isometry, wing int, chord float64, out *Flat) ([]Point, error) {
	w := t.Wings[wing]
	l, in := w.lay()
	f := t.frame(w)
	from := root.flat(f.at)
	u := t.flatDir(root, f.along)
	away := u.left().times(-1)
	at := func(x, s float64) Point { return from.plus(u.times(x)).plus(away.times(s - in)) }
	girth := l.Path.Girth()
	places := (Sheet{Path: l.Path, Left: w.Left, Right: w.Right}).places(l, chord)
	left := func(s float64) float64 { return w.Left.X(l, s, false) }
	right := func(s float64) float64 { return w.Right.X(l, s, true) }
	var ring []Point
	for _, s := range places {
		if left(s) >= right(s) {
			return nil, &TooShort{l.Name(s)}
		}
		ring = append(ring, at(left(s), s))
	}
	for _, m := range w.Mouth {
		ring = append(ring, at(m.X, math.Min(m.Y, girth)))
	}
	for i := len(places) - 1; i >= 0; i-- {
		ring = append(ring, at(right(places[i]), places[i]))
	}
	for i, g := range l.Path.Segs {
		if i > 0 && !l.Path.Hem(i) {
			w.faces(l, i, at, left, right, out)
		}
		if g.Turn == 0 {
			continue
		}
		_, to := l.Span(i)
		s := to + g.Arc/2
		line := func(x0, x1 float64, side string) {
			a, b := l.Path.Segs[i].Name, l.Path.Segs[i+1].Name
			if side != "" {
				if i > 1 {
					a = side + a
				}
				if !l.Path.Hem(i + 1) {
					b = side + b
				}
			}
			p, q := at(x0, s), at(x1, s)
			out.Bends = append(out.Bends, BendLine{p, q, g.Turn, [2]string{a, b}, g.Arc, g.Radius, wing, i})
		}
		if x0, x1, ok := w.mouthAt(s); ok {
			line(left(s), x0, "left ")
			line(x1, right(s), "right ")
			continue
		}
		line(left(s), right(s), "")
	}
	return ring, nil
}

// mouthAt is where the opening lies at a developed place.
func (w Wing) mouthAt(s float64) (x0, x1 float64, ok bool) {
	n := len(w.Mouth)
	if n < 4 || s < math.Max(w.Mouth[1].Y, w.Mouth[n-2].Y) {
		return 0, 0, false
	}
	return w.Mouth[0].X, w.Mouth[n-1].X, true
}

// faces adds a straight of a wing, in two where the opening parts it.
func (w Wing) faces(l Laid, i int, at func(x, s float64) Point, left, right func(float64) float64, out *Flat) {
	from, to := l.Span(i)
	add := func(ring []Point) {
		if w.Street {
			ring = append(ring[len(ring)-2:], ring[:len(ring)-2]...)
		}
		out.Faces = append(out.Faces, ring)
		out.Depths = append(out.Depths, l.Path.Stated(i))
	}
	x0, x1, open := w.mouthAt(to)
	_, _, whole := w.mouthAt(from)
	switch {
	case !open:
		add([]Point{at(left(to), to), at(right(to), to), at(right(from), from), at(left(from), from)})
	case !whole: // the opening ends in this straight
		ring := []Point{at(left(to), to), at(x0, to)}
		for _, m := range w.Mouth[1 : len(w.Mouth)-1] {
			ring = append(ring, at(m.X, m.Y))
		}
		add(append(ring, at(x1, to), at(right(to), to), at(right(from), from), at(left(from), from)))
	default:
		add([]Point{at(left(to), to), at(x0, to), at(x0, from), at(left(from), from)})
		add([]Point{at(x1, to), at(right(to), to), at(right(from), from), at(x1, from)})
	}
}

// Solid is a tray folded, on the mold lines of its finish side: what a picture
// shows. Its faces stand in the order of the pattern's.
func (t Tray) Solid() Solid {
	s := Solid{Faces: []Face{t.Face}, Level: t.Level, AtTop: t.AtTop}
	for _, w := range t.Wings {
		l, _ := w.lay()
		f := t.frame(w)
		p, _ := l.Path.Profile()
		parents, edges := []int{0}, []int{w.Edge}
		for k := 1; k < len(p.Names); k++ {
			lo := func(c Cut, j int) Vec { return f.in(c.Seam(p.Y[j], p.Z[j], 0), p.Y[j], p.Z[j]) }
			at := func(x float64, j int) Vec { return f.in(x, p.Y[j], p.Z[j]) }
			inner, outer := k, k+1
			add := func(parent, edge int, name string, ring []Vec, free int) {
				own := len(ring) - 2
				if w.Street {
					ring = append(ring[len(ring)-2:], ring[:len(ring)-2]...)
					own, free = 0, 2
				}
				s.Faces = append(s.Faces, Face{name, ring})
				s.Folds = append(s.Folds, Fold{A: parent, EdgeA: edge, B: len(s.Faces) - 1, EdgeB: own})
				parents, edges = append(parents, len(s.Faces)-1), append(edges, free)
			}
			was, wasEdge := parents, edges
			parents, edges = nil, nil
			from, to := l.Span(k)
			x0, x1, open := w.mouthAt(to)
			_, _, whole := w.mouthAt(from)
			switch {
			case !open:
				add(was[0], wasEdge[0], p.Names[k], []Vec{lo(w.Left, outer), lo(w.Right, outer), lo(w.Right, inner),
					lo(w.Left, inner)}, 0)
			case !whole:
				ring := []Vec{lo(w.Left, outer), at(x0, outer)}
				for _, m := range w.Mouth[1 : len(w.Mouth)-1] {
					q, _ := l.Skins(m.Y)
					ring = append(ring, f.in(m.X, q.X, q.Y))
				}
				ring = append(ring, at(x1, outer), lo(w.Right, outer), lo(w.Right, inner), lo(w.Left, inner))
				add(was[0], wasEdge[0], p.Names[k], ring, 0)
				parents, edges = append(parents, parents[0]), append(edges, len(ring)-4)
			default:
				add(was[0], wasEdge[0], "left "+p.Names[k], []Vec{lo(w.Left, outer), at(x0, outer), at(x0, inner),
					lo(w.Left, inner)}, 0)
				add(was[1], wasEdge[1], "right "+p.Names[k], []Vec{at(x1, outer), lo(w.Right, outer),
					lo(w.Right, inner), at(x1, inner)}, 0)
			}
		}
	}
	return s
}
