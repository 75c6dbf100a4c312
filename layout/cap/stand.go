package cap

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
)

// Held tells whether the supports under a miter hold the cap down: they hook it,
// and somebody answers for what a hook holds.
func (m Seam) Held(s *job.System) bool {
	return s.Corner.Support.Hook != nil && len(Supports(s, m)) > 0
}

// Extra is how much longer the longer face of each leg is than its front, which
// stations are counted on: its rear at an inside corner.
func (m Seam) Extra(s *job.System) [2]length.Length {
	t := m.Trims(s)
	return [2]length.Length{length.Max(0, -t[0]), length.Max(0, -t[1])}
}

// Turn is the greatest turn that is covered or not: of a break of slope its bend.
func (m Seam) Turn() job.Angle {
	if m.Corner.Straight() {
		return max(m.Corner.Bend, -m.Corner.Bend)
	}
	return max(m.Corner.CapTurn, -m.Corner.CapTurn)
}

// Place is a place on a leg of a corner in the corner's frame: x is a station
// from the corner point, below zero on the arriving leg; y lies behind the cap line.
func (m Seam) Place(side int, x, y length.Length) stand.Point {
	if side == 0 {
		return stand.Point{X: x.MM(), Y: y.MM()}
	}
	sin, cos := math.Sincos(m.Corner.CapTurn.Degrees() * math.Pi / 180)
	return stand.Point{X: x.MM()*cos - y.MM()*sin, Y: x.MM()*sin + y.MM()*cos}
}

// Patches are the tops of both legs of a corner piece under one pascal.
func (m Seam) Patches(s *job.System, leg [2]length.Length) []stand.Patch {
	t := m.Trims(s)
	var out []stand.Patch
	for i, l := range leg {
		w, way := m.Inside[i]+2*s.Metal.Thickness, length.Length(2*i-1)
		out = append(out, stand.Patch{Pa: 1, Ring: []stand.Point{m.Place(i, 0, 0), m.Place(i, way*l, 0), m.Place(i, way*l, w), m.Place(i, way*t[i], w)}})
	}
	return out
}
