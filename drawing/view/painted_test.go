package view

import (
	"math"
	"testing"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job/jobtest"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// covered says where the last face drawn over a place is not the nearest there:
// a hidden line would show.
func covered(l *layout.Layout) (family string, at xy, wrong bool) {
	for _, f := range l.Families {
		if len(f.Bodies) == 0 {
			continue
		}
		raw := formedOf(l.Formed(f)).facets()
		drawn := painted(raw)
		for _, g := range raw {
			if g.thin {
				continue
			}
			c := xy{}
			for _, p := range g.pts {
				c = c.add(p.times(1 / float64(len(g.pts))))
			}
			for _, p := range g.pts {
				for _, k := range []float64{0, 0.3, 0.6, 0.9} {
					p := c.add(p.sub(c).times(k))
					last, nearest := math.Inf(-1), math.Inf(-1)
					for i := range drawn {
						if d := &drawn[i]; !d.thin && inFace(d, p) {
							last = d.at(p)
						}
					}
					for i := range raw {
						if d := &raw[i]; !d.thin && inFace(d, p) {
							nearest = math.Max(nearest, d.at(p))
						}
					}
					if last < nearest-2*hair {
						return f.Mark, p, true
					}
				}
			}
		}
	}
	return "", xy{}, false
}

// inFace reports whether a convex face holds a place well inside it. Where it was
// cut in two it has no edge, and either part holds what lies along the cut.
func inFace(f *facet, p xy) bool {
	side := 1.0
	if ringOf(f.pts) < 0 {
		side = -1
	}
	for i, a := range f.pts {
		d := f.pts[(i+1)%len(f.pts)].sub(a)
		e := p.sub(a)
		inside := hair
		if f.seam[i] {
			inside = -1e-6
		}
		if side*(d.x*e.y-d.y*e.x) < inside*d.length() {
			return false
		}
	}
	return true
}

func TestNoHiddenFaceShows(t *testing.T) {
	for _, s := range tooled() {
		if f, at, wrong := covered(solved(t, s)); wrong {
			t.Errorf("%s, family %s: at %v a face is drawn over one in front of it", s.name, f, at)
		}
	}
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Random(t)
		j.Shop = tools()
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		if f, at, wrong := covered(l); wrong {
			t.Fatalf("family %s: at %v a face is drawn over one in front of it", f, at)
		}
	})
}

// A face cut through one of its corners has no corner twice.
func TestACutThroughACorner(t *testing.T) {
	ring := []xy{{0, 0}, {100, 0}, {100, 100}, {0, 100}}
	square := newFacet(ring, []float64{0, 100, 0, -100}, drawing.White)
	square.c = 1e-13 // what arithmetic leaves
	level := newFacet(ring, []float64{0, 0, 0, 0}, drawing.White)
	parts := square.cut(&level)
	if len(parts) != 2 {
		t.Fatalf("%d parts", len(parts))
	}
	for _, p := range parts {
		for i, a := range p.pts {
			if a.sub(p.pts[(i+1)%len(p.pts)]).length() < 1e-6 {
				t.Errorf("a corner stands twice in %v", p.pts)
			}
		}
		if len(p.seam) != len(p.pts) || len(p.near) != len(p.pts) {
			t.Errorf("%d corners, %d seams, %d heights", len(p.pts), len(p.seam), len(p.near))
		}
	}
}

// Three strips that each lie over the next, like the flaps of a box, cannot be
// drawn one after the other: one is cut.
func TestARingOfFacesIsCut(t *testing.T) {
	strip := func(p, q, r, s xy, np, nq float64) facet {
		return newFacet([]xy{p, q, r, s}, []float64{np, nq, nq, np}, drawing.White)
	}
	faces := []facet{
		strip(xy{0, 0}, xy{100, 0}, xy{100, 20}, xy{0, 20}, 0, 50),
		strip(xy{80, -20}, xy{100, -20}, xy{60, 80}, xy{40, 80}, 0, 0),
		strip(xy{0, -20}, xy{20, -20}, xy{70, 80}, xy{50, 80}, 60, 60),
	}
	faces[1] = newFacet(faces[1].pts, []float64{0, 0, 80, 80}, drawing.White)
	faces[2] = newFacet(faces[2].pts, []float64{60, 60, 0, 0}, drawing.White)
	for i := range faces {
		if order, pierced := faces[i].over(&faces[(i+1)%3]); order != 1 || pierced {
			t.Fatalf("strip %d does not lie over the next: %d, pierced %v", i, order, pierced)
		}
	}
	if got := painted(faces); len(got) != 4 {
		t.Errorf("%d faces are drawn, want three with one of them cut in two", len(got))
	}
}
