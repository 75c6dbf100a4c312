package place

import (
	"math"

	"copingset/drawing"
)

// shape is a convex area or a segment, with the upright box that holds it. One
// without points is that box.
type shape struct {
	box drawing.Rect
	pts []drawing.Point
}

// level is an upright box.
func level(b drawing.Rect) shape { return shape{box: b} }

// segment is the straight line between two points.
func segment(a, b drawing.Point) shape {
	s := shape{box: drawing.Box(a.X, a.Y, b.X, b.Y)}
	if a.X != b.X && a.Y != b.Y {
		s.pts = []drawing.Point{a, b}
	}
	return s
}

// convex is the area in a ring of points.
func convex(pts []drawing.Point) shape {
	s := shape{pts: pts}
	if len(pts) == 0 {
		return s
	}
	s.box = drawing.Rect{Min: pts[0], Max: pts[0]}
	for _, p := range pts[1:] {
		s.box.Min = drawing.Pt(min(s.box.Min.X, p.X), min(s.box.Min.Y, p.Y))
		s.box.Max = drawing.Pt(max(s.box.Max.X, p.X), max(s.box.Max.Y, p.Y))
	}
	if len(pts) == 4 {
		for i, p := range pts { // an upright box: every side runs along the paper
			if q := pts[(i+1)%4]; p.X != q.X && p.Y != q.Y {
				return s
			}
		}
		s.pts = nil
	}
	return s
}

// strip is a line drawn out to half a width on either side and beyond its ends.
func strip(a, b drawing.Point, half drawing.Unit) shape {
	if a.X == b.X || a.Y == b.Y {
		return level(drawing.Box(a.X, a.Y, b.X, b.Y).Inset(-half))
	}
	x, y := float64(b.X-a.X), float64(b.Y-a.Y)
	k := float64(half) / math.Hypot(x, y)
	u := drawing.Pt(drawing.Unit(math.Round(x*k)), drawing.Unit(math.Round(y*k)))
	n := drawing.Pt(-u.Y, u.X)
	return convex([]drawing.Point{a.Sub(u).Add(n), b.Add(u).Add(n), b.Add(u).Sub(n), a.Sub(u).Sub(n)})
}

// turnedBox is a box about a point, turned counter-clockwise by tenths of a
// degree.
func turnedBox(c drawing.Point, w, h drawing.Unit, tenths int) shape {
	switch ((tenths % 1800) + 1800) % 1800 {
	case 0:
		return level(around(c, w, h))
	case 900:
		return level(around(c, h, w))
	}
	l, r, up, down := -w/2, w-w/2, h/2, h/2-h
	return convex(
		[]drawing.Point{
			turned(c, tenths, l, up),
			turned(c, tenths, r, up),
			turned(c, tenths, r, down),
			turned(c, tenths, l, down),
		},
	)
}

// turned is the point along and up from c in a frame turned by tenths of a
// degree.
func turned(c drawing.Point, tenths int, along, up drawing.Unit) drawing.Point {
	cos, sin := drawing.CosSin(tenths)
	a, u := float64(along), float64(up)
	return drawing.Pt(
		c.X+drawing.Unit(math.Round(float64(a*cos)-float64(u*sin))),
		c.Y-drawing.Unit(math.Round(float64(a*sin)+float64(u*cos))),
	)
}

func around(c drawing.Point, w, h drawing.Unit) drawing.Rect {
	x, y := c.X-w/2, c.Y-h/2
	return drawing.Rect{Min: drawing.Pt(x, y), Max: drawing.Pt(x+w, y+h)}
}

// nearest is the point of a box's edge nearest to a point outside it.
func nearest(box drawing.Rect, p drawing.Point) drawing.Point {
	return drawing.Pt(min(max(p.X, box.Min.X), box.Max.X), min(max(p.Y, box.Min.Y), box.Max.Y))
}

// touches says whether two shapes share more than an edge: their boxes do, and
// along the normal of no side they keep apart (separating axis theorem, in
// whole numbers).
func (s *shape) touches(t *shape) bool {
	if !s.box.Intersects(t.box) {
		return false
	}
	if s.pts == nil && t.pts == nil {
		return true
	}
	var a, b [4]drawing.Point
	p, q := s.ring(&a), t.ring(&b)
	return !apart(p, p, q) && !apart(q, p, q)
}

// ring lists the corners of a shape.
func (s *shape) ring(room *[4]drawing.Point) []drawing.Point {
	if s.pts != nil {
		return s.pts
	}
	*room = [4]drawing.Point{s.box.Min, {X: s.box.Max.X, Y: s.box.Min.Y}, s.box.Max, {X: s.box.Min.X, Y: s.box.Max.Y}}
	return room[:]
}

func apart(sides, p, q []drawing.Point) bool {
	for i, a := range sides {
		e := sides[(i+1)%len(sides)].Sub(a)
		if e.X == 0 && e.Y == 0 {
			continue
		}
		lo1, hi1 := shadow(p, e)
		lo2, hi2 := shadow(q, e)
		if hi1 <= lo2 || hi2 <= lo1 {
			return true
		}
	}
	return false
}

func shadow(pts []drawing.Point, e drawing.Point) (lo, hi int64) {
	for i, p := range pts {
		v := int64(e.X)*int64(p.Y) - int64(e.Y)*int64(p.X)
		if i == 0 {
			lo, hi = v, v
		}
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi
}
