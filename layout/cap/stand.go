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

// Near is how near a corner point the centre of a chair may stand on the arriving
// leg (side 0) or the leaving one (1), so that the chair keeps clear of the
// miter, of the supports and, with twin, of a like chair on the other leg. There
// is none where it is not clear anywhere near.
func (m Seam) Near(s *job.System, side int, grid length.Length, twin bool) (length.Length, bool) {
	half := s.Chair.Length / 2
	if m.Corner.Straight() {
		return length.CeilTo(pitchFoot(s, m.Corner, m.Inside[side])+half, grid), true
	}
	if side == 1 {
		m = m.turned()
	}
	from := length.Max(m.at(s, 0, ChairLine(s)), m.at(s, 0, ChairRear(s, m.Inside[0])))
	from = length.Max(0, length.CeilTo(from+half, grid))
	sup := Supports(s, m)
	most := from + 2*s.Chair.Length + 4*length.Max(m.Inside[0], m.Inside[1])
	for u := from; u <= most; u += grid {
		q := ChairOn(s, m.Corner, false, m.Inside[0], u-half, u+half)
		ok := !twin || !Overlap(q, ChairOn(s, m.Corner, true, m.Inside[1], u-half, u+half))
		for _, p := range sup {
			ok = ok && !Overlap(q, p.Quad)
		}
		if ok {
			return u, true
		}
	}
	return 0, false
}

// legs are the two legs of a corner as parts that end at its miter and at the
// chairs under their joints, in stations from the corner point: the arriving one
// runs from below zero to it.
func (m Seam) legs(s *job.System, leg [2]length.Length, spacing, grid length.Length, twin bool) (out [2]stand.Part,
	ok bool) {
	g := s.Joint.Gap
	for i, l := range leg {
		miter, ok := m.MiterEnd(s, i, spacing, grid, twin)
		if !ok {
			return out, false
		}
		joint := stand.End{Edge: l, At: l + g/2, Chair: true}
		p := stand.Part{Spacing: spacing, Chair: s.Chair.Length, Left: s.Remainder == job.Left,
			Ends: [2]stand.End{miter, joint}}
		if i == 0 {
			joint.Edge, joint.At = -joint.Edge, -joint.At
			p.Ends = [2]stand.End{joint, miter}
		}
		out[i] = p
	}
	return out, true
}

// stands tells whether the chairs of two legs stand by all rules: within the
// spacing, round the miter too, and balanced on what holds down. loose leaves
// the miter out: each leg by itself has a chair within the spacing of it.
func (m Seam) stands(s *job.System, leg [2]length.Length, spacing, grid length.Length, loose bool) bool {
	parts, ok := m.legs(s, leg, spacing, grid, true)
	if !ok {
		return false
	}
	held := m.Held(s)
	if !held && !loose {
		e := m.Extra(s)
		if parts, _, ok = stand.Round(parts, spacing-e[0]-e[1], grid, s.Remainder == job.Left); !ok {
			return false
		}
	}
	feet := []stand.Foot{}
	for i, p := range parts {
		r, why := stand.Row(p, grid)
		if why != stand.Stands {
			return false
		}
		for _, x := range append(r.At, p.Ends[i].At) {
			feet = append(feet, stand.Foot{At: m.Place(i, x, (ChairLine(s)+ChairRear(s, m.Inside[i]))/2), Holds: true})
		}
	}
	if loose {
		return true
	}
	for _, p := range Supports(s, m) {
		feet = append(feet, stand.Foot{At: stand.Point{X: p.X.MM(), Y: p.Y.MM()}, Holds: held})
	}
	return stand.Balance(feet, stand.Uplift(m.Patches(s, leg))).OK
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
		out = append(out, stand.Patch{Pa: 1, Ring: []stand.Point{m.Place(i, 0, 0), m.Place(i, way*l, 0),
			m.Place(i, way*l, w), m.Place(i, way*t[i], w)}})
	}
	return out
}

// MiterEnd is the end of a leg at a miter, as chairs see it: how near one may
// stand, and how far the nearest hold-down may be where the miter itself is held,
// or where each leg is looked at by itself. Over a break of slope that is half the
// tested spacing, since nothing stands on the break. Its station is the caller's.
func (m Seam) MiterEnd(s *job.System, side int, spacing, grid length.Length, twin bool) (stand.End, bool) {
	near, ok := m.Near(s, side, grid, twin)
	far := spacing - m.Extra(s)[side]
	switch {
	case m.Corner.Straight():
		far = spacing / 2
	case !m.Held(s): // by itself a leg is as long as its front or its centre line
		far = spacing - m.Extra(s)[side]/2
	}
	return stand.End{Near: near, Far: far}, ok
}
