package fold

import (
	"fmt"
	"math"
)

// Point of a flat pattern: x to the right, y up the sheet, in millimetres, as
// the finish side is seen.
type Point struct{ X, Y float64 }

func (a Point) plus(b Point) Point    { return Point{a.X + b.X, a.Y + b.Y} }
func (a Point) minus(b Point) Point   { return Point{a.X - b.X, a.Y - b.Y} }
func (a Point) times(f float64) Point { return Point{a.X * f, a.Y * f} }
func (a Point) cross(b Point) float64 { return a.X*b.Y - a.Y*b.X }
func (a Point) length() float64       { return math.Hypot(a.X, a.Y) }
func (a Point) middle(b Point) Point  { return a.plus(b).times(0.5) }
func (a Point) left() Point           { return Point{-a.Y, a.X} }

// BendLine is the middle of a bend on the flat pattern.
type BendLine struct {
	From, To Point
	Turn     float64 // degrees, positive UP, towards the viewer of the finish side
	Between  [2]string
}

// Flat is a flat pattern.
type Flat struct {
	Outline []Point // counterclockwise
	Bends   []BendLine
	Faces   [][]Point // each face's own corners on the mold lines, as placed
	placed  []isometry
}

// isometry lays a face's plane on the sheet.
type isometry struct {
	o    Vec // this point
	u, v Vec // and these directions
	at   Point
	x, y Point // go here and there
}

func (m isometry) flat(p Vec) Point {
	d := p.minus(m.o)
	return m.at.plus(m.x.times(d.dot(m.u))).plus(m.y.times(d.dot(m.v)))
}

// Unfold lays a solid flat, the edge of its root that it names as level running
// to the right along the bottom, or, where the solid says so, to the left along
// the top. Each fold loses its bend's deduction; the bend line is the middle of
// what is bent.
func Unfold(s Solid, b Bend) (Flat, error) {
	if err := s.Check(); err != nil {
		return Flat{}, err
	}
	out := Flat{placed: make([]isometry, len(s.Faces)), Faces: make([][]Point, len(s.Faces))}
	p, q := s.Faces[0].edge(s.Level)
	dir := Point{1, 0}
	if s.AtTop {
		dir = Point{-1, 0}
	}
	out.placed[0] = plane(s.Faces[0], p, q, Point{}, dir)
	loss := make([]float64, len(s.Folds))
	children := make([][]int, len(s.Faces)) // folds
	for i, f := range s.Folds {
		turn := s.Turn(f)
		d, err := b.Deduction(math.Abs(turn))
		if err != nil {
			return Flat{}, fmt.Errorf("between %s and %s: %w", s.Faces[f.A].Name, s.Faces[f.B].Name, err)
		}
		loss[i] = d
		children[f.A] = append(children[f.A], i)
		p, q := s.Faces[f.A].edge(f.EdgeA)
		m := out.placed[f.A]
		u, v := m.flat(p), m.flat(q)
		dir := v.minus(u).times(1 / v.minus(u).length())
		// The child's edge runs the other way; it moves in by the deduction.
		in := dir.left().times(d)
		out.placed[f.B] = plane(s.Faces[f.B], q, p, v.plus(in), dir.times(-1))
	}
	trimmed := make([][]Point, len(s.Faces))
	for i, f := range s.Faces {
		out.Faces[i] = make([]Point, len(f.Corners))
		for j, c := range f.Corners {
			out.Faces[i][j] = out.placed[i].flat(c)
		}
		trimmed[i] = trim(out.Faces[i], offsets(s, i, loss))
		if reversed(out.Faces[i], trimmed[i]) {
			return Flat{}, &TooShort{f.Name}
		}
	}
	for _, f := range s.Folds {
		a, b := trimmed[f.A], trimmed[f.B]
		p, q := joint(a, f.EdgeA, b, f.EdgeB)
		out.Bends = append(out.Bends, BendLine{p, q, s.Turn(f), [2]string{s.Faces[f.A].Name, s.Faces[f.B].Name}})
	}
	out.Outline = tidy(walk(s, trimmed, children, 0, -1))
	return out, nil
}

// TooShort is a face that its bends would use up.
type TooShort struct{ Face string }

func (e *TooShort) Error() string { return "the " + e.Face + " is too short for its bends" }

// reversed reports whether trimming has turned an edge of a face about.
func reversed(whole, trimmed []Point) bool {
	for i := range whole {
		j := (i + 1) % len(whole)
		a, b := whole[j].minus(whole[i]), trimmed[j].minus(trimmed[i])
		if a.X*b.X+a.Y*b.Y < 0 {
			return true
		}
	}
	return false
}

// plane lays a face so that p goes to `at` and the direction from p to q along
// dir, its inside to the left.
func plane(f Face, p, q Vec, at, dir Point) isometry {
	u := q.minus(p).unit()
	return isometry{o: p, u: u, v: f.normal().unit().cross(u), at: at, x: dir, y: dir.left()}
}

// offsets is how far each edge of a face moves in: half the deduction at a fold.
func offsets(s Solid, face int, loss []float64) []float64 {
	out := make([]float64, len(s.Faces[face].Corners))
	for i, f := range s.Folds {
		if f.A == face {
			out[f.EdgeA] = loss[i] / 2
		}
		if f.B == face {
			out[f.EdgeB] = loss[i] / 2
		}
	}
	return out
}

// trim moves the edges of a counterclockwise polygon in.
func trim(p []Point, by []float64) []Point {
	n := len(p)
	out := make([]Point, n)
	for i := range p {
		before := (i + n - 1) % n
		d1, d2 := p[i].minus(p[before]), p[(i+1)%n].minus(p[i])
		u1, u2 := d1.times(1/d1.length()), d2.times(1/d2.length())
		a := p[i].plus(u1.left().times(by[before]))
		c := p[i].plus(u2.left().times(by[i]))
		if x := u1.cross(u2); math.Abs(x) > 1e-9 {
			out[i] = a.plus(u1.times(c.minus(a).cross(u2) / x))
			continue
		}
		out[i] = a.middle(c) // straight on
	}
	return out
}

// joint is where two trimmed faces meet: the ends of both edges lie on the bend
// line, and where the sides slope, apart by a hair, so their middle is taken.
func joint(a []Point, ea int, b []Point, eb int) (Point, Point) {
	p, q := a[ea], a[(ea+1)%len(a)]
	u, v := b[eb], b[(eb+1)%len(b)]
	return p.middle(v), q.middle(u)
}

// walk goes round a face and what hangs on it, from the end of the edge it
// hangs by itself to that edge's start; those two corners are its parent's to
// tell. from is -1 at the root.
func walk(s Solid, trimmed [][]Point, children [][]int, face, from int) []Point {
	n := len(trimmed[face])
	hang := make([]int, n) // edge to fold, from 1
	for _, i := range children[face] {
		hang[s.Folds[i].EdgeA] = i + 1
	}
	var out []Point
	for k := range n {
		e := (from + 1 + k) % n
		if e == from {
			break
		}
		before := (e + n - 1) % n
		if hang[e] > 0 {
			f := s.Folds[hang[e]-1]
			p, q := joint(trimmed[face], e, trimmed[f.B], f.EdgeB)
			if n := len(out); n > 0 && hang[before] > 0 {
				p = p.middle(out[n-1]) // two bends end in one corner
				out = out[:n-1]
			}
			out = append(append(out, p), walk(s, trimmed, children, f.B, f.EdgeB)...)
			out = append(out, q)
		} else if hang[before] == 0 && before != from {
			out = append(out, trimmed[face][e])
		}
	}
	if m := len(out) - 1; from < 0 && hang[0] > 0 && hang[n-1] > 0 {
		out[0] = out[0].middle(out[m])
		out = out[:m]
	}
	return out
}

// tidy drops corners that lie on their neighbours or on the line between them.
func tidy(p []Point) []Point {
	for again := true; again && len(p) > 3; {
		again = false
		for i := 0; i < len(p) && len(p) > 3; i++ {
			a, b, c := p[(i+len(p)-1)%len(p)], p[i], p[(i+1)%len(p)]
			if b.minus(a).length() < 1e-7 || math.Abs(b.minus(a).cross(c.minus(b))) < 1e-7*c.minus(a).length() &&
				b.minus(a).X*c.minus(b).X+b.minus(a).Y*c.minus(b).Y > 0 {
				p = append(p[:i:i], p[i+1:]...)
				again = true
				i--
			}
		}
	}
	return p
}
