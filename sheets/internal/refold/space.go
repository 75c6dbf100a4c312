package refold

import (
	"fmt"
	"math"
	"strings"
)

// Vec is a place in space.
type Vec struct{ X, S, Z float64 }

func (a Vec) add(b Vec) Vec            { return Vec{a.X + b.X, a.S + b.S, a.Z + b.Z} }
func (a Vec) sub(b Vec) Vec            { return Vec{a.X - b.X, a.S - b.S, a.Z - b.Z} }
func (a Vec) by(k float64) Vec         { return Vec{a.X * k, a.S * k, a.Z * k} }
func (a Vec) dot(b Vec) float64        { return a.X*b.X + a.S*b.S + a.Z*b.Z }
func (a Vec) len() float64             { return math.Sqrt(a.dot(a)) }
func (a Vec) cross(b Vec) Vec          { return Vec{a.S*b.Z - a.Z*b.S, a.Z*b.X - a.X*b.Z, a.X*b.S - a.S*b.X} }
func (a Vec) mix(b Vec, k float64) Vec { return a.add(b.sub(a).by(k)) }

// Frame carries the flat blank into space: its origin and the directions that x, y
// and the viewer's side of the finish face go to.
type Frame struct{ O, X, Y, N Vec }

func (f Frame) at(p Pt) Vec  { return f.O.add(f.X.by(p.X)).add(f.Y.by(p.Y)) }
func (f Frame) dir(p Pt) Vec { return f.X.by(p.X).add(f.Y.by(p.Y)) }

// Face is what of a blank lies between the middles of its bends.
type Face struct {
	Name   string
	Frame  Frame
	Parent int // -1: the root
	ring   []Pt
	src    []int // edges of the ring: which of the blank's outline they are of; -1: the middle of a bend
	hinges []hinge
}

// hinge is a bend at the border of a face, seen from its parent face.
type hinge struct {
	mid, u, v    Pt // its middle, along it, from parent to child
	half, long   float64
	past         float64 // how far beyond its ends metal still bends with it
	turn, radius float64 // up is positive
	parent       int
}

// Solid is a body folded in space.
type Solid struct {
	Sheet Sheet
	T     float64
	Faces []Face // the root first
}

// Space folds a body. The root is the face that its bends start from; where only one
// bend does, the face named is told by `root`: the one above the bend (true) or below.
func (w Sheet) Space(above bool) (Solid, error) {
	out := Solid{Sheet: w, T: w.Thickness()}
	whole := Face{ring: w.Outline}
	for i := range w.Outline {
		whole.src = append(whole.src, i)
	}
	faces := []Face{whole}
	for _, b := range w.Bends {
		mid, u, _ := line(b)
		split := false
		for i := range faces {
			if !inside(faces[i].ring, mid) {
				continue
			}
			p, q, err := faces[i].cut(mid, u)
			if err != nil {
				return out, fmt.Errorf("%s, bend %s: %w", w.Name(), b["order"], err)
			}
			faces[i] = p
			faces = append(faces, q)
			split = true
			break
		}
		if !split {
			return out, fmt.Errorf("%s: bend %s does not lie on the blank", w.Name(), b["order"])
		}
	}
	return out, out.grow(faces, above)
}

// line is the middle of a bend, its direction and half its length.
func line(b Row) (mid, u Pt, half float64) {
	p, q := Pt{b.MM("x1"), b.MM("y1")}, Pt{b.MM("x2"), b.MM("y2")}
	d := q.sub(p)
	return p.add(q).by(0.5), d.by(1 / d.len()), d.len() / 2
}

func inside(ring []Pt, p Pt) bool {
	in := false
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (c.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(c.Y-a.Y)*(c.X-a.X) {
			in = !in
		}
	}
	return in
}

// cut parts a face along a line through a place of it, from edge to edge.
func (f Face) cut(mid, u Pt) (left, right Face, err error) {
	type hit struct {
		t    float64
		edge int
	}
	before, after := hit{t: math.Inf(-1)}, hit{t: math.Inf(1)}
	n := u.left()
	for i, a := range f.ring {
		b := f.ring[(i+1)%len(f.ring)]
		da, db := a.sub(mid).dot(n), b.sub(mid).dot(n)
		if (da > 0) == (db > 0) {
			continue
		}
		p := a.add(b.sub(a).by(da / (da - db)))
		if t := p.sub(mid).dot(u); t < 0 && t > before.t {
			before = hit{t, i}
		} else if t >= 0 && t < after.t {
			after = hit{t, i}
		}
	}
	if math.IsInf(before.t, 0) || math.IsInf(after.t, 0) {
		return f, f, fmt.Errorf("its line does not cross the blank")
	}
	p, q := mid.add(u.by(before.t)), mid.add(u.by(after.t))
	// From q round to p lies at the left of the way from p to q.
	walk := func(from, to Pt, e, last int) Face {
		out := Face{ring: []Pt{from}, src: []int{f.src[e]}}
		for i := (e + 1) % len(f.ring); ; i = (i + 1) % len(f.ring) {
			out.ring, out.src = append(out.ring, f.ring[i]), append(out.src, f.src[i])
			if i == last {
				break
			}
		}
		out.ring, out.src = append(out.ring, to), append(out.src, -1)
		return out
	}
	return walk(q, p, after.edge, before.edge), walk(p, q, before.edge, after.edge), nil
}

// grow hangs the faces on one another and folds them.
func (s *Solid) grow(faces []Face, above bool) error {
	type joint struct {
		row  Row
		side [2]int // faces at the left of its way and at its right
		mid  Pt
		u    Pt
		half float64
	}
	var joints []joint
	parents := map[string]bool{}
	children := map[string]bool{}
	for _, b := range s.Sheet.Bends {
		mid, u, half := line(b)
		q := joint{row: b, mid: mid, u: u, half: half, side: [2]int{-1, -1}}
		for i := range faces {
			for k, way := range []float64{1, -1} {
				if inside(faces[i].ring, mid.add(u.left().by(way*1e-4))) {
					q.side[k] = i
				}
			}
		}
		if q.side[0] < 0 || q.side[1] < 0 {
			return fmt.Errorf("%s: bend %s has no face at one side", s.Sheet.Name(), b["order"])
		}
		joints = append(joints, q)
		parents[b["between"]], children[b["and"]] = true, true
	}
	root := 0
	count := make([]int, len(faces))
	for _, q := range joints {
		if !children[q.row["between"]] {
			for _, i := range q.side {
				count[i]++
			}
		}
	}
	for i, n := range count {
		if n > count[root] {
			root = i
		}
	}
	if len(joints) == 1 {
		q := joints[0]
		root = q.side[0]
		if (q.u.left().Y > 0) != above {
			root = q.side[1]
		}
	}
	place := make([]int, len(faces)) // in s.Faces, plus one
	first := faces[root]
	first.Frame, first.Parent = Frame{X: Vec{X: 1}, Y: Vec{S: 1}, N: Vec{Z: 1}}, -1
	if len(joints) > 0 {
		first.Name = joints[0].row["between"]
		for _, q := range joints {
			if q.side[0] == root || q.side[1] == root {
				first.Name = q.row["between"]
			}
		}
	}
	s.Faces = []Face{first}
	place[root] = 1
	from := []int{root}
	for len(from) > 0 {
		at := from[0]
		from = from[1:]
		for _, q := range joints {
			k := 0
			if q.side[1] == at {
				k = 1
			} else if q.side[0] != at {
				continue
			}
			to := q.side[1-k]
			if place[to] > 0 {
				continue
			}
			p := place[at] - 1
			h := hinge{mid: q.mid, u: q.u, v: q.u.left(), half: q.row.MM("bend allowance") / 2, long: q.half, past: 5,
				turn: q.row.Number("turn"), radius: q.row.MM("inside radius"), parent: p}
			if strings.HasSuffix(q.row["and"], " tab") {
				h.past = 1e-3 // what lies beside it on the blank is not bent with it
			}
			if k == 0 {
				h.v = h.v.by(-1)
			}
			if q.row["up or down"] == "down" {
				h.turn = -h.turn
			}
			child := faces[to]
			child.Parent = p
			child.Name = q.row["and"]
			if plain(child.Name) == plain(s.Faces[p].Name) {
				child.Name = q.row["between"]
			}
			child.Frame = s.Faces[p].Frame.over(h, s.T)
			s.Faces[p].hinges = append(s.Faces[p].hinges, h)
			child.hinges = append(child.hinges, h)
			s.Faces = append(s.Faces, child)
			place[to] = len(s.Faces)
			from = append(from, to)
		}
	}
	if len(s.Faces) != len(faces) {
		return fmt.Errorf("%s: %d of %d faces hang together", s.Sheet.Name(), len(s.Faces), len(faces))
	}
	return nil
}

func plain(name string) string {
	return strings.TrimPrefix(strings.TrimPrefix(name, "left "), "right ")
}

// bend is the finish face and its normal at a part of a bend, 0 to 1 of its turn, a
// place `t` along it.
func (f Frame) bend(h hinge, thick, t, part float64) (at, normal, way Vec) {
	v := f.dir(h.v)
	from := f.at(h.mid.sub(h.v.by(h.half)).add(h.u.by(t)))
	sin, cos := math.Sincos(math.Abs(h.turn) * part * math.Pi / 180)
	if h.turn > 0 {
		c := from.add(f.N.by(h.radius))
		normal, way = f.N.by(cos).sub(v.by(sin)), v.by(cos).add(f.N.by(sin))
		return c.sub(normal.by(h.radius)), normal, way
	}
	r := h.radius + thick
	c := from.sub(f.N.by(r))
	normal, way = f.N.by(cos).add(v.by(sin)), v.by(cos).sub(f.N.by(sin))
	return c.add(normal.by(r)), normal, way
}

// over is the frame of the face beyond a bend.
func (f Frame) over(h hinge, thick float64) Frame {
	at, normal, way := f.bend(h, thick, 0, 1)
	u := f.dir(h.u)
	out := Frame{X: u.by(h.u.X).add(way.by(h.v.X)), Y: u.by(h.u.Y).add(way.by(h.v.Y)), N: normal}
	start := h.mid.add(h.v.by(h.half))
	out.O = at.sub(out.dir(start))
	return out
}

// Skins are the finish face and the back at a place of the blank that lies on a face.
func (s Solid) Skins(face int, p Pt) (finish, back Vec) {
	f := s.Faces[face]
	best, found := hinge{}, math.Inf(1)
	for _, h := range f.hinges {
		d := p.sub(h.mid)
		if a := math.Abs(d.dot(h.v)); a < h.half && a < found && math.Abs(d.dot(h.u)) < h.long+h.past {
			best, found = h, a
		}
	}
	if math.IsInf(found, 0) {
		finish = f.Frame.at(p)
		return finish, finish.sub(f.Frame.N.by(s.T))
	}
	d := p.sub(best.mid)
	at, normal, _ := s.Faces[best.parent].Frame.bend(best, s.T, d.dot(best.u), (d.dot(best.v)+best.half)/(2*best.half))
	return at, at.sub(normal.by(s.T))
}

// Move turns a solid by three directions that x, s and z go to, about the origin, and
// shifts it.
func (s *Solid) Move(x, y, z, by Vec) {
	to := func(a Vec) Vec { return x.by(a.X).add(y.by(a.S)).add(z.by(a.Z)) }
	for i := range s.Faces {
		f := &s.Faces[i].Frame
		*f = Frame{to(f.O).add(by), to(f.X), to(f.Y), to(f.N)}
	}
}

// Face of a name.
func (s Solid) Face(name string) (Face, bool) {
	for _, f := range s.Faces {
		if f.Name == name {
			return f, true
		}
	}
	return Face{}, false
}

// Stand turns a cap so that its front leg is plumb, faces the street in the plane s =
// 0, and the mold line of its front fold lies at z = 0. It tells the fall of its top.
func (s *Solid) Stand() (slope float64, err error) {
	leg, ok := s.Face("front leg")
	if !ok {
		return 0, fmt.Errorf("%s has no front leg", s.Sheet.Name())
	}
	n := leg.Frame.N
	if math.Abs(n.X) > 1e-6 {
		return 0, fmt.Errorf("%s: its front leg runs askew", s.Sheet.Name())
	}
	sin, cos := n.Z, n.S // turn n to the street about x
	s.Move(Vec{X: 1}, Vec{S: cos, Z: -sin}, Vec{S: sin, Z: cos}, Vec{})
	leg, _ = s.Face("front leg")
	top := s.Faces[0].Frame
	slope = top.Y.Z / top.Y.S
	z := top.O.Z + (leg.Frame.O.S-top.O.S)*slope
	s.Move(Vec{X: 1}, Vec{S: 1}, Vec{Z: 1}, Vec{S: -leg.Frame.O.S, Z: -z})
	return slope, nil
}

// An Edge is a stretch of cut edge: both faces of the metal at both its ends.
type Edge struct {
	At           [2]Pt // on the blank
	Face, Src    int   // and of which stretch of its outline
	Finish, Back [2]Vec
}

// Edges are the cut edges of a body in stretches of at most `step`.
func (s Solid) Edges(step float64) []Edge {
	var out []Edge
	for i, f := range s.Faces {
		for k, a := range f.ring {
			if f.src[k] < 0 {
				continue
			}
			b := f.ring[(k+1)%len(f.ring)]
			n := int(math.Ceil(b.sub(a).len() / step))
			for j := range n {
				e := Edge{Face: i, Src: f.src[k]}
				for m := range 2 {
					e.At[m] = a.add(b.sub(a).by(float64(j+m) / float64(n)))
					e.Finish[m], e.Back[m] = s.Skins(i, e.At[m])
				}
				out = append(out, e)
			}
		}
	}
	return out
}
