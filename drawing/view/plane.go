package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/length"
)

// xy is a place in plan or section in millimetres of the building, x to the
// right and y down the paper.
type xy struct{ x, y float64 }

func (a xy) add(b xy) xy        { return xy{a.x + b.x, a.y + b.y} }
func (a xy) sub(b xy) xy        { return xy{a.x - b.x, a.y - b.y} }
func (a xy) times(k float64) xy { return xy{a.x * k, a.y * k} }
func (a xy) cross(b xy) float64 { return float64(a.x*b.y) - float64(a.y*b.x) }
func (a xy) length() float64    { return math.Hypot(a.x, a.y) }
func (a xy) between(b xy) xy    { return a.add(b).times(0.5) }
func (a xy) unit() xy           { return a.times(1 / math.Max(a.length(), 1e-9)) }

// roofward is the direction a quarter turn to the right of a.
func (a xy) roofward() xy { return xy{-a.y, a.x} }

// meeting is where the line through a along d crosses the line through b along
// e; ok is false for lines too nearly parallel to say.
func meeting(a, d, b, e xy) (p xy, ok bool) {
	den := d.cross(e)
	if math.Abs(den) < 1e-6 {
		return a, false
	}
	return a.add(d.times(b.sub(a).cross(e) / den)), true
}

// legFrame is the frame of one run in plan: u along its stations from o, y
// towards its roof.
type legFrame struct {
	o   xy
	dir xy
}

// heading is the unit vector of a direction in degrees, clockwise from x. It
// is cut to nine decimals so that every processor draws the same line.
func heading(degrees float64) xy {
	s, c := math.Sincos(degrees * math.Pi / 180)
	return xy{math.Round(c*1e9) / 1e9, math.Round(s*1e9) / 1e9}
}

func (f legFrame) at(u, y float64) xy {
	return f.o.add(f.dir.times(u)).add(f.dir.roofward().times(y))
}

// paperMap brings the building to paper at one scale.
type paperMap struct {
	ratio  float64 // building over paper
	origin drawing.Point
}

func (m paperMap) at(p xy) drawing.Point {
	return drawing.Point{X: m.origin.X + drawing.Round(p.x/m.ratio), Y: m.origin.Y + drawing.Round(p.y/m.ratio)}
}

func (m paperMap) all(pts ...xy) []drawing.Point {
	out := make([]drawing.Point, len(pts))
	for i, p := range pts {
		out[i] = m.at(p)
	}
	return out
}

// off moves a paper point by d along a direction of the building.
func off(p drawing.Point, dir xy, d drawing.Unit) drawing.Point {
	u := dir.unit()
	return p.Add(drawing.Point{X: drawing.Round(u.x * d.Millimetres()), Y: drawing.Round(u.y * d.Millimetres())})
}

// tenths is a direction in tenths of a degree, counter-clockwise.
func tenths(dir xy) int { return int(math.Round(-math.Atan2(dir.y, dir.x) * 1800 / math.Pi)) }

// readable is the rotation of lettering along a direction, in tenths of a
// degree, so that it reads from the bottom or from the right.
func readable(dir xy) int {
	a := tenths(dir)
	for a <= -900 {
		a += 1800
	}
	for a > 900 {
		a -= 1800
	}
	return a
}

// extent is the box that holds places of the building.
type extent struct {
	lo, hi xy
	some   bool
}

func (e *extent) hold(pts ...xy) {
	for _, p := range pts {
		if !e.some {
			e.lo, e.hi, e.some = p, p, true
			continue
		}
		e.lo = xy{math.Min(e.lo.x, p.x), math.Min(e.lo.y, p.y)}
		e.hi = xy{math.Max(e.hi.x, p.x), math.Max(e.hi.y, p.y)}
	}
}

// size is the extent as lengths, for choosing a scale.
func (e extent) size() (w, h length.Length) {
	return length.FromMM(e.hi.x - e.lo.x), length.FromMM(e.hi.y - e.lo.y)
}
