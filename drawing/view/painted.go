package view

import (
	"cmp"
	"math"
	"slices"

	"copingset/drawing"
)

// facet is a flat face of a folded piece on paper: its outline as it is seen,
// and the plane it lies in, near = a x + b y + c, larger towards the viewer.
type facet struct {
	pts     []xy
	near    []float64 // at each point
	a, b, c float64
	tone    drawing.Tone
	seam    []bool // the edge from a point to the next is where the face was cut in two, and is not drawn
	thin    bool   // seen on edge: its neighbours draw its edges
}

// newFacet is a face seen from where near grows.
func newFacet(pts []xy, near []float64, tone drawing.Tone) facet {
	f := facet{pts: pts, near: near, tone: tone, seam: make([]bool, len(pts))}
	f.thin = math.Abs(ringOf(pts)) < 1
	if f.thin {
		return f
	}
	// The plane through the three corners that lie farthest from one line.
	var best float64
	for i := range pts {
		for k := i + 1; k < len(pts); k++ {
			for m := k + 1; m < len(pts); m++ {
				p, q, r := pts[i], pts[k].sub(pts[i]), pts[m].sub(pts[i])
				d := float64(q.x*r.y) - float64(q.y*r.x)
				if math.Abs(d) <= best {
					continue
				}
				best = math.Abs(d)
				u, v := near[k]-near[i], near[m]-near[i]
				f.a = (float64(u*r.y) - float64(v*q.y)) / d
				f.b = (float64(v*q.x) - float64(u*r.x)) / d
				f.c = near[i] - float64(f.a*p.x) - float64(f.b*p.y)
			}
		}
	}
	return f
}

// at is how near a face is at a place on paper.
func (f *facet) at(p xy) float64 { return float64(f.a*p.x) + float64(f.b*p.y) + f.c }

// ringOf is twice the area of a ring, signed.
func ringOf(pts []xy) float64 {
	var s float64
	for i, p := range pts {
		q := pts[(i+1)%len(pts)]
		s += float64(p.x*q.y) - float64(q.x*p.y)
	}
	return s
}

// hair is the distance in millimetres of the piece within which two faces are
// taken to touch.
const hair = 0.5

// over compares two faces along the lines of sight on which both are seen: 1 if
// f covers g, -1 if g covers f, 0 if neither does. Faces that pierce each other
// cover each other, each on its side.
func (f *facet) over(g *facet) (order int, pierced bool) {
	if f.thin || g.thin {
		return 0, false
	}
	both := common(f.pts, g.pts)
	if len(both) < 3 || math.Abs(ringOf(both)) < 2*hair*hair {
		return 0, false
	}
	var most, least float64
	for _, p := range both {
		d := f.at(p) - g.at(p)
		most, least = math.Max(most, d), math.Min(least, d)
	}
	pierced = most > hair && least < -hair
	switch {
	case most > hair && most >= -least:
		return 1, pierced
	case least < -hair:
		return -1, pierced
	}
	return 0, false
}

// common is the part of the paper on which two convex faces both lie.
func common(f, g []xy) []xy {
	side := 1.0
	if ringOf(g) < 0 {
		side = -1
	}
	out := f
	for i, p := range g {
		d := g[(i+1)%len(g)].sub(p)
		out = cutRing(out, func(q xy) float64 {
			e := q.sub(p)
			return side * (float64(d.x*e.y) - float64(d.y*e.x))
		})
	}
	return out
}

// cutRing keeps the part of a ring where a linear function is not negative.
func cutRing(ring []xy, f func(xy) float64) []xy {
	var out []xy
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		u, v := f(p), f(q)
		if u >= 0 {
			out = append(out, p)
		}
		if u > 0 && v < 0 || u < 0 && v > 0 {
			out = append(out, p.add(q.sub(p).times(u/(u-v))))
		}
	}
	return out
}

// cut parts a face along the line where its plane meets another's.
func (f *facet) cut(g *facet) []facet {
	var out []facet
	for _, s := range []float64{1, -1} {
		apart := func(p xy) float64 { return s * (f.at(p) - g.at(p)) }
		ring := withoutTwins(cutRing(f.pts, apart))
		if len(ring) < 3 || math.Abs(ringOf(ring)) < 2*hair*hair {
			continue
		}
		h := *f
		h.pts, h.near, h.seam = ring, nil, nil
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			h.near = append(h.near, f.at(p))
			mid := p.between(q)
			seam := true // unless it lies on an edge that was there
			for k, was := range f.seam {
				a, b := f.pts[k], f.pts[(k+1)%len(f.pts)]
				d, e := b.sub(a), mid.sub(a)
				if math.Abs(float64(d.x*e.y)-float64(d.y*e.x)) < 1e-6*math.Max(1, d.length()) {
					seam = was
				}
			}
			h.seam = append(h.seam, seam)
		}
		out = append(out, h)
	}
	return out
}

// withoutTwins drops corners that stand on the one before: a cut through a corner
// leaves two, and the edge between them has any direction.
func withoutTwins(ring []xy) []xy {
	var out []xy
	for i, p := range ring {
		if q := ring[(i+len(ring)-1)%len(ring)]; len(ring) < 2 || p.sub(q).length() > 1e-6 {
			out = append(out, p)
		}
	}
	return out
}

// painted orders faces so that each is drawn before those that cover it, by
// comparing every two along the lines of sight they share. Of faces that pierce
// each other, or cover each other in a ring, one is cut in two.
func painted(faces []facet) []facet {
	var left []facet
	for _, f := range faces {
		parts := []facet{f}
		for k := range faces {
			var next []facet
			for _, p := range parts {
				if _, pierced := p.over(&faces[k]); pierced {
					next = append(next, p.cut(&faces[k])...)
					continue
				}
				next = append(next, p)
			}
			parts = next
		}
		left = append(left, parts...)
	}
	slices.SortStableFunc(left, func(p, q facet) int { return cmp.Compare(mean(p.near), mean(q.near)) })
	covers := func(f *facet) func(facet) bool {
		return func(g facet) bool {
			order, _ := f.over(&g)
			return order > 0
		}
	}
	var out []facet
	for cuts := 0; len(left) > 0; {
		free := slices.IndexFunc(left, func(f facet) bool { return !slices.ContainsFunc(left, covers(&f)) })
		if free >= 0 {
			out = append(out, left[free])
			left = slices.Delete(left, free, free+1)
			continue
		}
		k := slices.IndexFunc(left, covers(&left[0]))
		if parts := left[0].cut(&left[k]); len(parts) == 2 && cuts < 4*len(faces) {
			cuts++
			left = append(parts, left[1:]...)
			continue
		}
		out = append(out, left[0])
		left = left[1:]
	}
	return out
}

func mean(v []float64) float64 {
	var s float64
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// draw fills a face and draws its edges.
func (f *facet) draw(s *drawing.Scene, m paperMap) {
	if f.thin {
		return
	}
	ring := m.all(f.pts...)
	if !slices.Contains(f.seam, true) {
		s.Fill(f.tone, drawing.Medium, ring...)
		return
	}
	s.Fill(f.tone, drawing.NoPen, ring...)
	for i, cut := range f.seam {
		if !cut {
			s.Line(drawing.Medium, ring[i], ring[(i+1)%len(ring)])
		}
	}
}
