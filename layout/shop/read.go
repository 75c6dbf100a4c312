package shop

import (
	"math"
	"slices"

	"copingset/layout/fold"
	"copingset/layout/length"
)

// CutPoint is a corner of a blank's outline, measured on the flat blank.
type CutPoint struct {
	At                   fold.Point
	FromLeft, FromStreet length.Length
}

// CutPoints are the corners of the outline that a rule can tell, clockwise as the
// finish side is seen, from the left one of the street edge: straight from one to
// the next no metal stands off by a step, or by what can be scribed. The drawing
// for machines has them all.
func (b Body) CutPoints(step length.Length) []CutPoint {
	lo, hi := b.Flat.Bounds()
	pts := told(b.Flat.Outline, math.Max(step.MM(), scribed))
	slices.Reverse(pts)
	first := 0
	for i, p := range pts {
		q := pts[first]
		if p.Y > q.Y+1e-6 || math.Abs(p.Y-q.Y) <= 1e-6 && p.X < q.X {
			first = i
		}
	}
	out := make([]CutPoint, 0, len(pts))
	for i := range pts {
		p := pts[(first+i)%len(pts)]
		c := CutPoint{p, length.RoundTo(length.FromMM(p.X), step), length.RoundTo(length.FromMM(hi.Y-p.Y), step)}
		if hi.X-p.X < 1e-3 { // the blank's own sizes, which are rounded up
			c.FromLeft = b.Length
		}
		if p.Y-lo.Y < 1e-3 {
			c.FromStreet = b.Girth
		}
		out = append(out, c)
	}
	return out
}

// scribed is how well a line is scribed and cut by hand, millimetres.
const scribed = 0.4

// told leaves out the corners of a ring that stand off the rest by less than a
// tolerance; those farthest apart stay.
func told(ring []fold.Point, within float64) []fold.Point {
	n := len(ring)
	if n < 4 {
		return slices.Clone(ring)
	}
	// The lowest at the left, and what is farthest from it.
	first, far := 0, 0
	for i, p := range ring {
		if p.Y < ring[first].Y-1e-6 || p.Y < ring[first].Y+1e-6 && p.X < ring[first].X {
			first = i
		}
	}
	at := func(i int) fold.Point { return ring[(first+i)%n] }
	for i := range n {
		if apart(at(i), at(0)) > apart(at(far), at(0)) {
			far = i
		}
	}
	keep := make([]bool, n+1)
	var split func(a, b int)
	split = func(a, b int) {
		keep[a], keep[b] = true, true
		worst, k := within, -1
		p, q := at(a), at(b)
		l := apart(p, q)
		for i := a + 1; i < b; i++ {
			d := apart(at(i), p)
			if l > 0 {
				t := math.Max(0, math.Min(1, ((at(i).X-p.X)*(q.X-p.X)+(at(i).Y-p.Y)*(q.Y-p.Y))/l/l))
				d = math.Hypot(at(i).X-p.X-t*(q.X-p.X), at(i).Y-p.Y-t*(q.Y-p.Y))
			}
			if d > worst {
				worst, k = d, i
			}
		}
		if k >= 0 {
			split(a, k)
			split(k, b)
		}
	}
	split(0, far)
	split(far, n)
	var out []fold.Point
	for i := range n {
		if keep[i] {
			out = append(out, at(i))
		}
	}
	return out
}

// Square reports whether a blank is a plain rectangle.
func (b Body) Square() bool {
	lo, hi := b.Flat.Bounds()
	for _, p := range b.Flat.Outline {
		if math.Min(p.X-lo.X, hi.X-p.X) > 1e-3 || math.Min(p.Y-lo.Y, hi.Y-p.Y) > 1e-3 {
			return false
		}
	}
	return true
}

// EdgeAt are the ends of an edge of the blank along the grain: where the
// street edge (or the roof edge) begins and ends, from the left.
func (b Body) EdgeAt(street bool) (from, to length.Length) {
	lo, hi := b.Flat.Bounds()
	y := lo.Y
	if street {
		y = hi.Y
	}
	x0, x1 := math.Inf(1), math.Inf(-1)
	for _, p := range b.Flat.Outline {
		if math.Abs(p.Y-y) < 0.01 {
			x0, x1 = math.Min(x0, p.X), math.Max(x1, p.X)
		}
	}
	from, to = length.FromMM(x0), length.FromMM(x1)
	if hi.X-x1 < 1e-3 { // the blank's own length, which is rounded up
		to = b.Length
	}
	return from, to
}

// Level reports whether a bend runs along the blank; another is set by both its
// ends.
func (b Bend) Level() bool { return math.Abs(b.Line.From.Y-b.Line.To.Y) < 0.05 }

// Across reports whether a bend runs across the blank, as an upstand's does: it
// is set from the ends.
func (b Bend) Across() bool {
	return math.Abs(b.Line.From.Y-b.Line.To.Y) > math.Abs(b.Line.From.X-b.Line.To.X)
}

// FromLeft is the place of a bend across the blank from its left end.
func (b Bend) FromLeft(step length.Length) length.Length {
	return length.RoundTo(length.FromMM((b.Line.From.X+b.Line.To.X)/2), step)
}

// Ends are the left and the right end of a bend line.
func (b Bend) Ends() (left, right fold.Point) {
	if b.Line.From.X <= b.Line.To.X {
		return b.Line.From, b.Line.To
	}
	return b.Line.To, b.Line.From
}

// FromStreetAt is the place of a point of the blank from its street edge.
func (b Body) FromStreetAt(p fold.Point, step length.Length) length.Length {
	_, hi := b.Flat.Bounds()
	return length.RoundTo(length.FromMM(hi.Y-p.Y), step)
}

// Included is the angle between the faces of a bend, in degrees.
func (b Bend) Included() float64 { return 180 - math.Abs(b.Line.Turn) }

// Outside is the outside depth of a face of the formed body, across its fold,
// in the measures its job states; the top's is measured down its slope.
func (b Body) Outside(face int) length.Length {
	if d := b.Flat.Depths[face]; !math.IsNaN(d) {
		return length.FromMM(d)
	}
	return length.FromMM(b.depth(face))
}

// depth is how far a face that hangs on nothing reaches from its first edge.
func (b Body) depth(face int) float64 {
	c := b.Solid.Faces[face].Corners
	p, q := c[0], c[1]
	l := lengthOfEdge(b.Solid.Faces[face], 0)
	var most float64
	for _, v := range c[2:] {
		// Distance of a corner from the line of the first edge.
		cx := (v.Y-p.Y)*(q.Z-p.Z) - (v.Z-p.Z)*(q.Y-p.Y)
		cy := (v.Z-p.Z)*(q.X-p.X) - (v.X-p.X)*(q.Z-p.Z)
		cz := (v.X-p.X)*(q.Y-p.Y) - (v.Y-p.Y)*(q.X-p.X)
		most = math.Max(most, math.Sqrt(cx*cx+cy*cy+cz*cz)/l)
	}
	return most
}

// Box is the place of a hole on the blank: its left, right, street and roof
// sides from the left end and from the street edge.
type Box struct{ Left, Right, Street, Roof length.Length }

// HoleBox says where a hole lies.
func (b Body) HoleBox(i int, step length.Length) Box {
	_, hi := b.Flat.Bounds()
	lo0, hi0 := fold.Flat{Outline: b.Holes[i]}.Bounds()
	r := func(mm float64) length.Length { return length.RoundTo(length.FromMM(mm), step) }
	return Box{r(lo0.X), r(hi0.X), r(hi.Y - hi0.Y), r(hi.Y - lo0.Y)}
}

// Deduction is what a bend takes off the sum of outside dimensions; a hem adds,
// which is less than nothing.
type Deduction struct {
	Turn float64 // degrees
	Less float64 // millimetres
	Hem  bool
}

// Deductions are those of a body's bends in their order, from the outside
// dimensions it states.
func Deductions(b Body) []Deduction {
	var out []Deduction
	for _, q := range b.Bends {
		d := Deduction{Turn: math.Abs(q.Line.Turn), Hem: q.Hem}
		i := q.Line.Seg
		if i < 0 {
			t := b.Metal.Tabs[q.Line.Wing]
			if t == nil {
				continue // a seam's tab is no part of the girth
			}
			bend := fold.Bend{Thickness: b.Metal.Path.T, Radius: t.Radius, K: b.Metal.Path.K}
			d.Less, _ = bend.Deduction(d.Turn) // 90 degrees has one
		} else {
			p := b.paths[q.Line.Wing]
			d.Less = p.Deduction(i)
			if q.Hem { // the leaf itself adds to the flange it lies on
				d.Less -= p.Stated(leafOf(p, i))
			}
		}
		out = append(out, d)
	}
	return out
}

// leafOf is the leaf of the hem whose fold follows a straight.
func leafOf(p fold.Path, i int) int {
	if p.Hem(i) {
		return i
	}
	return i + 1
}

// Edges names the four sides of a blank as it lies with its finish side up. A
// cap has the street at the top and the left hand at the left; an end plate
// stands on edge, and has the street at one side.
type Edges struct{ Top, Bottom, Left, Right string }

// Edges of a body.
func (b Body) Edges() Edges {
	if b.Sides != (Edges{}) {
		return b.Sides
	}
	if b.Name != "end plate" {
		return Edges{"street edge", "roof edge", "L", "R"}
	}
	c := b.Solid.Faces[0].Corners
	if c[0].Y > c[1].Y { // in the solid's frame y grows to the street
		return Edges{"top edge", "foot", "STREET", "ROOF"}
	}
	return Edges{"top edge", "foot", "ROOF", "STREET"}
}
