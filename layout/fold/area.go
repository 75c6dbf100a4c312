package fold

import "math"

// Area of a closed polygon, positive where it is counterclockwise.
func Area(p []Point) float64 {
	var a float64
	for i := range p {
		a += p[i].cross(p[(i+1)%len(p)])
	}
	return a / 2
}

// Bounds of a pattern: its lower left and upper right corners.
func (f Flat) Bounds() (lo, hi Point) {
	lo, hi = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	for _, p := range f.Outline {
		lo = Point{math.Min(lo.X, p.X), math.Min(lo.Y, p.Y)}
		hi = Point{math.Max(hi.X, p.X), math.Max(hi.Y, p.Y)}
	}
	return lo, hi
}

// Place brings a point of the folded body's root, its first face, to the pattern: a
// corner of what is cut out of it.
func (f Flat) Place(p Vec) Point { return f.root.flat(p) }

// Raise brings a point of the pattern that lies on the root back to the folded body.
func (f Flat) Raise(p Point) Vec { return f.root.raise(p) }

// Move shifts a pattern.
func (f *Flat) Move(by Point) {
	for i := range f.Outline {
		f.Outline[i] = f.Outline[i].plus(by)
	}
	for i := range f.Bends {
		f.Bends[i].From, f.Bends[i].To = f.Bends[i].From.plus(by), f.Bends[i].To.plus(by)
	}
	for i := range f.Faces {
		for j := range f.Faces[i] {
			f.Faces[i][j] = f.Faces[i][j].plus(by)
		}
	}
	f.root.at = f.root.at.plus(by)
}

// Crosses reports whether an outline crosses itself, which no shear can cut:
// the folded surface then has to be made of more than one body.
func Crosses(p []Point) bool {
	n := len(p)
	for i := range n {
		for j := i + 2; j < n; j++ {
			if i == 0 && j == n-1 {
				continue
			}
			if properly(p[i], p[(i+1)%n], p[j], p[(j+1)%n]) {
				return true
			}
		}
	}
	return false
}

// properly reports whether two segments cross within both.
func properly(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 { return q.minus(p).cross(r.minus(p)) }
	const hair = 1e-6
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	return s1*s2 < -hair && s3*s4 < -hair
}
