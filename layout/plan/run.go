package plan

import "copingset/layout/length"

// Pt is a place in the plan of a run: a cap station, and how far behind the cap
// line.
type Pt struct{ X, Y length.Length }

// Ring is the outline of something, its corners in order round it.
type Ring []Pt

// Box is an upright rectangle: the corner at the left hand and the street first.
func Box(x0, y0, x1, y1 length.Length) Ring {
	return Ring{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}
}

// Bounds of a ring: its least and its greatest station and distance.
func (r Ring) Bounds() (lo, hi Pt) {
	for i, p := range r {
		if i == 0 {
			lo, hi = p, p
		}
		lo = Pt{length.Min(lo.X, p.X), length.Min(lo.Y, p.Y)}
		hi = Pt{length.Max(hi.X, p.X), length.Max(hi.Y, p.Y)}
	}
	return lo, hi
}

// Shape is something with an outline.
type Shape struct {
	Mark string
	Ring Ring
}

// Piece is the stretch of a run that a cap covers: its two outside mold lines,
// each from the left hand to the right. The rear one is shorter by the miter at a
// corner that turns to the roof, and has a point at either end of a taper.
type Piece struct {
	Mark        string
	Front, Rear []Pt
}

// Support is one under a miter, in the frame of the run it is seen from.
type Support struct {
	Shape
	Right bool // under the corner at the run's right end
}

// Chair is one in plan; its rear edge follows a taper.
type Chair struct {
	Shape
	At    length.Length // its middle
	Holes []Pt          // spread evenly along each row: rows are as tested, the holes the chair's own
}

// Wall is the top of a run's wall from above, each face from corner to corner with
// a point at every reading; nothing where nobody measured.
type Wall struct {
	Street, Roof []Pt
	Read         []Pt // the roof face at each reading on the wall
}

// Run is a run from above. Pieces, Plates, Obstacles, Gaps and Chairs stand in the
// order of the run's parts, joints, obstacles, building expansion joints and chairs.
type Run struct {
	Wall
	String                  []Pt // from the first chair to the last
	Pieces                  []Piece
	Plates, Obstacles, Gaps []Shape
	Supports                []Support
	Chairs                  []Chair
}

// Within is the part of a line of growing stations between two of them, cut
// straight where it passes them.
func Within(line []Pt, lo, hi length.Length) []Pt {
	n := len(line)
	if n == 0 || line[0].X > hi || line[n-1].X < lo {
		return nil
	}
	var out []Pt
	for i, p := range line {
		if i > 0 {
			q := line[i-1]
			for _, x := range []length.Length{lo, hi} {
				if q.X < x && x < p.X {
					out = append(out, between(q, p, x))
				}
			}
		}
		if p.X >= lo && p.X <= hi {
			out = append(out, p)
		}
	}
	return out
}

// between is the place at a station on the way from one point to another, from the
// lower up, so that a run and its mirror round alike.
func between(a, b Pt, x length.Length) Pt {
	if b.Y < a.Y {
		return Pt{x, b.Y + length.MulDiv(a.Y-b.Y, int64(b.X-x), int64(b.X-a.X))}
	}
	return Pt{x, a.Y + length.MulDiv(b.Y-a.Y, int64(x-a.X), int64(b.X-a.X))}
}
