package fold

import "math"

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
	Arc      float64 // developed length of the bend, half of it either side of the line
	Radius   float64 // inside
	Wing     int     // of a tray: which wing's path the bend is of; else 0
	Seg      int     // the straight of the path before it; -1: a tab's
}

// Flat is a flat pattern.
type Flat struct {
	Outline []Point // counterclockwise
	Bends   []BendLine
	Faces   [][]Point // each face's own corners, between the tangents of its bends
	Depths  []float64 // outside depth of each face as the shop states it; NaN: it has none
	root    isometry  // of the first face, on its finish side
}

// isometry lays a plane on the sheet.
type isometry struct {
	o    Vec // this point
	u, v Vec // and these directions
	at   Point
	x, y Point // go here and there
}

// raise brings a place of the sheet back to the plane.
func (m isometry) raise(p Point) Vec {
	d := p.minus(m.at)
	return m.o.plus(m.u.times(d.X*m.x.X + d.Y*m.x.Y)).plus(m.v.times(d.X*m.y.X + d.Y*m.y.Y))
}

func (m isometry) flat(p Vec) Point {
	d := p.minus(m.o)
	return m.at.plus(m.x.times(d.dot(m.u))).plus(m.y.times(d.dot(m.v)))
}

// TooShort is a face that its bends would use up.
type TooShort struct{ Face string }

func (e *TooShort) Error() string { return "the " + e.Face + " is too short for its bends" }

// plane lays a face so that p goes to `at` and the direction from p to q along
// dir, its inside to the left.
func plane(f Face, p, q Vec, at, dir Point) isometry {
	u := q.minus(p).unit()
	return isometry{o: p, u: u, v: f.normal().unit().cross(u), at: at, x: dir, y: dir.left()}
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
