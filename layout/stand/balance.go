package stand

import (
	"math"
	"slices"
)

// Point is a place in plan, in millimetres.
type Point struct{ X, Y float64 }

// Patch is a polygon in plan under an even uplift in pascals.
type Patch struct {
	Ring []Point
	Pa   float64
}

// Pull is a force and where it acts.
type Pull struct {
	N  float64 // newtons
	At Point
}

// Uplift is the resultant of the patches.
func Uplift(patches []Patch) Pull {
	var p Pull
	for _, q := range patches {
		area, c := centroid(q.Ring)
		f := q.Pa * area * 1e-6
		p.N += f
		p.At.X += f * c.X
		p.At.Y += f * c.Y
	}
	if p.N != 0 {
		p.At.X, p.At.Y = p.At.X/p.N, p.At.Y/p.N
	}
	return p
}

// centroid of a polygon by its triangles from the first corner; its area in mm2,
// whichever way round it goes.
func centroid(ring []Point) (area float64, c Point) {
	if len(ring) < 3 {
		return 0, c
	}
	o := ring[0]
	for i := 1; i+1 < len(ring); i++ {
		a, b := Point{ring[i].X - o.X, ring[i].Y - o.Y}, Point{ring[i+1].X - o.X, ring[i+1].Y - o.Y}
		t := (a.X*b.Y - a.Y*b.X) / 2
		area += t
		c.X += t * (a.X + b.X) / 3
		c.Y += t * (a.Y + b.Y) / 3
	}
	if area == 0 {
		return 0, o
	}
	c.X, c.Y = o.X+c.X/area, o.Y+c.Y/area
	return math.Abs(area), c
}

// Foot is a place that a piece rests on: a chair or a support.
type Foot struct {
	At    Point
	Holds bool // down; else it only bears, and pushes up or does nothing
}

// Balanced is how the feet of a piece hold an uplift.
type Balanced struct {
	Forces []float64 // of each foot in N, down positive; one that only bears has none or a negative one
	Off    float64   // how far the uplift acts outside the polygon of the hold-downs, mm; 0: within it
	OK     bool      // held in force and moment, and Off is 0
}

// hair is how far outside its polygon a pull may act before it is said to, mm:
// what rounding to nanometres can make of places that lie on it.
const hair = 0.01

// Balance holds an uplift on the feet of a piece in force and moment. The piece
// is taken as stiff and the feet as giving alike, as the elastic method takes a
// group of fasteners under a pull off its middle (any handbook of machine design:
// P/n and M y over the sum of y squared); what only bears never pulls. Without
// feet, or where those that are left do not hold it, OK is false and the forces
// are zero.
func Balance(feet []Foot, up Pull) Balanced {
	var holds []Point
	for _, f := range feet {
		if f.Holds {
			holds = append(holds, f.At)
		}
	}
	b := Balanced{Forces: make([]float64, len(feet)), Off: Outside(holds, up.At)}
	// Feet that only bear are tried at their hold-downs' side; those that would
	// pull are let go, the worst first, which ends at the latest without them.
	on := make([]bool, len(feet))
	for i := range on {
		on[i] = true
	}
	for {
		f, ok := elastic(feet, on, up)
		worst, most := -1, 1e-9*math.Abs(up.N)
		for i := range feet {
			if ok && on[i] && !feet[i].Holds && f[i] > most {
				worst, most = i, f[i]
			}
		}
		if worst < 0 {
			if ok {
				b.Forces = f
			}
			b.OK = ok && b.Off == 0
			return b
		}
		on[worst] = false
	}
}

// elastic is the pull on each foot of a stiff piece on equal springs, where the
// feet that are on can hold it: f = a + b x + c y from their middle.
func elastic(feet []Foot, on []bool, up Pull) ([]float64, bool) {
	out := make([]float64, len(feet))
	var n, mx, my float64
	for i, f := range feet {
		if on[i] {
			n, mx, my = n+1, mx+f.At.X, my+f.At.Y
		}
	}
	if n == 0 {
		return out, false
	}
	mx, my = mx/n, my/n
	var xx, xy, yy float64
	for i, f := range feet {
		if on[i] {
			x, y := f.At.X-mx, f.At.Y-my
			xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
		}
	}
	ex, ey := up.At.X-mx, up.At.Y-my
	var b, c float64
	size := xx + yy
	switch det := xx*yy - xy*xy; {
	case size < hair*hair: // all on one place
		if math.Hypot(ex, ey) > hair {
			return out, false
		}
	case det < 1e-9*size*size: // on one line: the pull must act on it
		l := math.Hypot(xx, xy)
		ux, uy := xx/l, xy/l
		if yy > xx {
			l = math.Hypot(xy, yy)
			ux, uy = xy/l, yy/l
		}
		along, across := ex*ux+ey*uy, ey*ux-ex*uy
		if math.Abs(across) > hair {
			return out, false
		}
		b, c = up.N*along*ux/size, up.N*along*uy/size
	default:
		b = up.N * (ex*yy - ey*xy) / det
		c = up.N * (ey*xx - ex*xy) / det
	}
	for i, f := range feet {
		if on[i] {
			out[i] = up.N/n + b*(f.At.X-mx) + c*(f.At.Y-my)
		}
	}
	return out, true
}

// Outside is how far a place lies outside the convex polygon of some points, in
// mm; less than a hair counts as on it.
func Outside(of []Point, at Point) float64 {
	if len(of) == 0 {
		return math.Inf(1)
	}
	ring := hull(of)
	off, within := math.Inf(1), len(ring) > 2
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		within = within && cross(a, b, at) >= 0
		off = min(off, fromSegment(a, b, at))
	}
	if within || off <= hair {
		return 0
	}
	return off
}

func cross(a, b, p Point) float64 { return (b.X-a.X)*(p.Y-a.Y) - (b.Y-a.Y)*(p.X-a.X) }

func fromSegment(a, b, p Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	l := dx*dx + dy*dy
	t := 0.0
	if l > 0 {
		t = min(1, max(0, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}

// hull is the convex polygon of some points, counter-clockwise where y goes up
// (monotone chain, Andrew 1979).
func hull(of []Point) []Point {
	p := slices.Clone(of)
	slices.SortFunc(p, func(a, b Point) int {
		switch {
		case a.X < b.X, a.X == b.X && a.Y < b.Y:
			return -1
		case a == b:
			return 0
		}
		return 1
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	half := func(p []Point) []Point {
		var out []Point
		for _, q := range p {
			for len(out) > 1 && cross(out[len(out)-2], out[len(out)-1], q) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		return out[:len(out)-1]
	}
	lower := half(p)
	slices.Reverse(p)
	return append(lower, half(p)...)
}
