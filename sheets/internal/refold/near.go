package refold

import "math"

// cell is the side of the cells that edges are sorted into, and so how far apart
// metal may stand to be measured.
const cell = 4.0

type key [3]int32

// Metal is cut edges, to measure distances to.
type Metal struct {
	edges []Edge
	boxes [][2]Vec // of each, least and greatest
	cells map[key][]int
}

// NewMetal sorts edges into cells.
func NewMetal(edges []Edge) Metal {
	m := Metal{edges: edges, boxes: make([][2]Vec, len(edges)), cells: map[key][]int{}}
	for i, e := range edges {
		lo, hi := e.bounds()
		m.boxes[i] = [2]Vec{lo, hi}
		a, b := keyOf(lo), keyOf(hi)
		for x := a[0]; x <= b[0]; x++ {
			for y := a[1]; y <= b[1]; y++ {
				for z := a[2]; z <= b[2]; z++ {
					m.cells[key{x, y, z}] = append(m.cells[key{x, y, z}], i)
				}
			}
		}
	}
	return m
}

func (e Edge) bounds() (lo, hi Vec) {
	lo, hi = e.Finish[0], e.Finish[0]
	for _, p := range []Vec{e.Finish[1], e.Back[0], e.Back[1]} {
		lo = Vec{math.Min(lo.X, p.X), math.Min(lo.S, p.S), math.Min(lo.Z, p.Z)}
		hi = Vec{math.Max(hi.X, p.X), math.Max(hi.S, p.S), math.Max(hi.Z, p.Z)}
	}
	return lo, hi
}

func keyOf(p Vec) key {
	f := func(v float64) int32 { return int32(math.Floor(v / cell)) }
	return key{f(p.X), f(p.S), f(p.Z)}
}

// Off is how far a place stands off the metal; infinite where that is more than a cell.
func (m Metal) Off(p Vec) float64 {
	k, best := keyOf(p), math.Inf(1)
	for x := k[0] - 1; x <= k[0]+1; x++ {
		for y := k[1] - 1; y <= k[1]+1; y++ {
			for z := k[2] - 1; z <= k[2]+1; z++ {
				for _, i := range m.cells[key{x, y, z}] {
					e, box := m.edges[i], m.boxes[i]
					if apart(p.X, box[0].X, box[1].X) > best || apart(p.S, box[0].S, box[1].S) > best ||
						apart(p.Z, box[0].Z, box[1].Z) > best {
						continue // no nearer than another
					}
					best = math.Min(best, math.Min(toTriangle(p, e.Finish[0], e.Finish[1], e.Back[1]),
						toTriangle(p, e.Finish[0], e.Back[1], e.Back[0])))
				}
			}
		}
	}
	if best > cell {
		return math.Inf(1)
	}
	return best
}

// apart is how far a number lies off the stretch between two others.
func apart(v, a, b float64) float64 { return max(min(a, b)-v, v-max(a, b), 0) }

// toTriangle is the distance of a point from a triangle.
func toTriangle(p, a, b, c Vec) float64 {
	n := b.sub(a).cross(c.sub(a))
	if l := n.len(); l > 1e-12 {
		n = n.by(1 / l)
		within := true
		for _, e := range [][2]Vec{{a, b}, {b, c}, {c, a}} {
			within = within && e[1].sub(e[0]).cross(p.sub(e[0])).dot(n) >= 0
		}
		if within {
			return math.Abs(p.sub(a).dot(n))
		}
	}
	return math.Min(toLine(p, a, b), math.Min(toLine(p, b, c), toLine(p, c, a)))
}

func toLine(p, a, b Vec) float64 {
	u := b.sub(a)
	l := u.dot(u)
	if l == 0 {
		return p.sub(a).len()
	}
	v := p.sub(a)
	return v.sub(u.by(math.Max(0, math.Min(1, v.dot(u)/l)))).len()
}

// Gap measures the edges of one body against the metal of another: of each stretch
// the middle of its finish edge and of its back edge, whichever is the nearer.
type Gap struct {
	Edge Edge
	Off  float64
}

// Gaps of edges to metal.
func Gaps(edges []Edge, to Metal) []Gap {
	out := make([]Gap, len(edges))
	for i, e := range edges {
		out[i] = Gap{e, math.Min(to.Off(e.Finish[0].mix(e.Finish[1], 0.5)), to.Off(e.Back[0].mix(e.Back[1], 0.5)))}
	}
	return out
}
