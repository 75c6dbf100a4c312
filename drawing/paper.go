package drawing

import (
	"fmt"
	"math"
)

// Unit is a length or a coordinate on paper, in hundredths of a millimetre.
type Unit int32

// MM is one millimetre and Inch one inch on paper.
const (
	MM   Unit = 100
	Inch Unit = 2540
)

// Round turns millimetres on paper into units. It is the one place where a computed coordinate
// is rounded, half away from zero. A coordinate that is not a number, or off any paper, is a
// programming error.
func Round(mm float64) Unit {
	v := math.Round(float64(mm * 100))
	if math.IsNaN(v) || v > math.MaxInt32 || v < math.MinInt32 {
		panic(fmt.Sprintf("drawing: %v mm is no place on paper", mm))
	}
	return Unit(v)
}

// String prints the length in millimetres with two decimals.
func (u Unit) String() string {
	sign, v := "", int64(u)
	if v < 0 {
		sign, v = "-", -v
	}
	return fmt.Sprintf("%s%d.%02d", sign, v/100, v%100)
}

// Millimetres returns the length as a number of millimetres.
func (u Unit) Millimetres() float64 { return float64(u) / 100 }

// Point is a place on paper.
type Point struct{ X, Y Unit }

// Pt is short for a Point.
func Pt(x, y Unit) Point { return Point{x, y} }

// Add returns p moved by d.
func (p Point) Add(d Point) Point { return Point{p.X + d.X, p.Y + d.Y} }

// Sub returns the way from q to p.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// String prints the point as "x,y" in millimetres.
func (p Point) String() string { return p.X.String() + "," + p.Y.String() }

// Polar returns the point at distance r from centre in the direction tenths (tenths of a
// degree, counter-clockwise on paper). Quarter turns are exact.
func Polar(centre Point, r Unit, tenths int) Point {
	cos, sin := CosSin(tenths)
	return Point{
		centre.X + Unit(math.Round(float64(float64(r)*cos))),
		centre.Y - Unit(math.Round(float64(float64(r)*sin))),
	}
}

// CosSin returns the cosine and sine of an angle in tenths of a degree: exact at quarter turns,
// and cut to nine decimals elsewhere so that every processor gives the same number.
func CosSin(tenths int) (cos, sin float64) {
	t := ((tenths % 3600) + 3600) % 3600
	switch t {
	case 0:
		return 1, 0
	case 900:
		return 0, 1
	case 1800:
		return -1, 0
	case 2700:
		return 0, -1
	}
	s, c := math.Sincos(float64(float64(t) * (math.Pi / 1800)))
	return math.Round(float64(c*1e9)) / 1e9, math.Round(float64(s*1e9)) / 1e9
}

// Rect is an upright rectangle on paper. Min is its upper left corner.
type Rect struct{ Min, Max Point }

// Box is short for a Rect from corner to corner, in any order.
func Box(x0, y0, x1, y1 Unit) Rect {
	return Rect{Point{min(x0, x1), min(y0, y1)}, Point{max(x0, x1), max(y0, y1)}}
}

// Width is the extent of the rectangle in x.
func (r Rect) Width() Unit { return r.Max.X - r.Min.X }

// Height is the extent of the rectangle in y.
func (r Rect) Height() Unit { return r.Max.Y - r.Min.Y }

// Centre is the middle of the rectangle.
func (r Rect) Centre() Point {
	return Point{r.Min.X + r.Width()/2, r.Min.Y + r.Height()/2}
}

// Empty says that the rectangle is the zero rectangle, which holds nothing.
func (r Rect) Empty() bool { return r == Rect{} }

// Inset returns the rectangle with every side moved inwards by d (outwards when d is negative).
func (r Rect) Inset(d Unit) Rect {
	return Rect{Point{r.Min.X + d, r.Min.Y + d}, Point{r.Max.X - d, r.Max.Y - d}}
}

// Translate returns the rectangle moved by d.
func (r Rect) Translate(d Point) Rect { return Rect{r.Min.Add(d), r.Max.Add(d)} }

// Union returns the smallest rectangle that holds both. The zero rectangle adds nothing.
func (r Rect) Union(q Rect) Rect {
	if r.Empty() {
		return q
	}
	if q.Empty() {
		return r
	}
	return Rect{
		Point{min(r.Min.X, q.Min.X), min(r.Min.Y, q.Min.Y)},
		Point{max(r.Max.X, q.Max.X), max(r.Max.Y, q.Max.Y)},
	}
}

// Intersects says whether the two rectangles share more than an edge.
func (r Rect) Intersects(q Rect) bool {
	return r.Min.X < q.Max.X && q.Min.X < r.Max.X && r.Min.Y < q.Max.Y && q.Min.Y < r.Max.Y
}

// Contains says whether q lies wholly in r, edges included.
func (r Rect) Contains(q Rect) bool {
	return r.Min.X <= q.Min.X && q.Max.X <= r.Max.X && r.Min.Y <= q.Min.Y && q.Max.Y <= r.Max.Y
}

// Holds says whether p lies in r, edges included.
func (r Rect) Holds(p Point) bool { return r.Contains(Rect{p, p}) }

// Corners returns the four corners, clockwise from the upper left.
func (r Rect) Corners() []Point {
	return []Point{r.Min, {r.Max.X, r.Min.Y}, r.Max, {r.Min.X, r.Max.Y}}
}

// String prints the rectangle as "x,y to x,y" in millimetres.
func (r Rect) String() string { return r.Min.String() + " to " + r.Max.String() }

// boundsOf returns the smallest rectangle that holds the points.
func boundsOf(pts []Point) Rect {
	if len(pts) == 0 {
		return Rect{}
	}
	b := Rect{pts[0], pts[0]}
	for _, p := range pts[1:] {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return b
}
