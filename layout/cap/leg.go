package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// legRange is what the leg of a feature at one end of a run may be, along the
// front: short where a short run asks for it, least elsewhere, longest as the
// shop welds it. A feature without a leg has all three alike and negative. The stub
// of a tee is fixed: nothing lengthens it.
type legRange struct {
	short, least, longest length.Length
	fixed                 bool
}

// Legs are what one leg of a corner may be, along the front of the cap line.
type Legs struct {
	Short   length.Length // trim + half a splice plate + sealant bearing, chairs clear
	Least   length.Length // the job's leg too
	Longest length.Length
	Clear   bool // false: no two legs up to the longest keep chairs and supports apart
	// legs alike stand by all rules, balanced and within the spacing round the miter, or somebody answers for that
	Held bool
}

// LegsOf finds the arriving and the leaving leg of a corner by the rules: the
// least front-face leg is the greater of the job's leg and trim + half a splice
// plate + sealant bearing, lengthened by the job's step until no two chairs or
// supports overlap in plan, those a long leg needs between its joint and the
// miter included. Both legs grow alike. A short run may go below the job's leg,
// not below the rest.
func LegsOf(s *job.System, m Seam, spacing, grid length.Length) [2]Legs {
	if m.Corner.Straight() {
		l := pitchLegs(s, m.Corner, m.Inside[0], spacing, grid)
		return [2]Legs{l, l}
	}
	// The leg is a number a crew tapes: up to the job's own step.
	up := func(l length.Length) length.Length { return length.CeilTo(l, s.Corner.LegStep) }
	var out [2]Legs
	var short, least [2]length.Length
	for i, trim := range m.Trims(s) {
		stated, longest, leave := s.Corner.Leg, s.Corner.LongestLeg, s.Corner.ShortLeg
		if s.Corner.LegFace == job.Rear {
			stated, longest, leave = stated+trim, longest+trim, leave+trim
		}
		made := up(length.Max(trim, 0) + s.Splice.Length/2 + s.Splice.Bearing)
		least[i] = length.Max(made, up(stated))
		short[i] = length.Max(made, length.Min(least[i], up(leave)))
		out[i].Longest = length.Max(longest, least[i])
	}
	held := false
	first := func(from [2]length.Length) ([2]length.Length, bool) {
		// By all rules if any legs do; else each leg by itself, and what the piece
		// lacks is held when it is laid out.
		for _, loose := range []bool{false, true} {
			if !loose && m.hopeless(s, from, spacing, grid) {
				continue
			}
			for l := from; l[0] <= out[0].Longest && l[1] <= out[1].Longest; l[0], l[1] = l[0]+s.Corner.LegStep,
				l[1]+s.Corner.LegStep {
				if legsClear(s, m, l) && m.stands(s, l, spacing, grid, loose) {
					held = !loose
					return l, true
				}
			}
		}
		return from, false
	}
	short, _ = first(short)
	least, ok := first(least)
	for i := range out {
		out[i].Short, out[i].Least, out[i].Clear, out[i].Held = short[i], least[i], ok, ok && (held || m.covered(s))
	}
	return out
}

// legsClear tells whether no two chairs or supports of a corner with these two
// legs overlap.
func legsClear(s *job.System, m Seam, legs [2]length.Length) bool {
	half := s.Chair.Length / 2
	var q [2]Quad
	for i, l := range legs {
		u := l + s.Joint.Gap/2
		q[i] = ChairOn(s, m.Corner, i == 1, m.Inside[i], u-half, u+half)
	}
	if Overlap(q[0], q[1]) {
		return false
	}
	sup := Supports(s, m)
	for _, p := range sup {
		if Overlap(p.Quad, q[0]) || Overlap(p.Quad, q[1]) {
			return false
		}
	}
	return supportsClear(sup)
}

// hopeless tells whether no legs make the bay round a miter that nothing holds
// down short enough, or whether somebody answers for that bay.
func (m Seam) hopeless(s *job.System, least [2]length.Length, spacing, grid length.Length) bool {
	if m.Held(s) {
		return false
	}
	e := m.Extra(s)
	if m.covered(s) {
		return true
	}
	sum := e[0] + e[1]
	for i, l := range least {
		near, ok := m.Near(s, i, grid, true)
		if !ok {
			return true
		}
		sum += length.Min(l, near)
	}
	return sum > spacing
}

// covered tells whether somebody answers for a corner piece of this seam as it stands.
func (m Seam) covered(s *job.System) bool {
	return s.Corner.Covered.Covers(Corner.String(), length.Max(m.Inside[0], m.Inside[1]), m.Turn())
}

// PastMiter tells whether a chair of an inside width on one leg, whose edge is
// this far from the corner point, crosses the miter, beyond which there is no
// wall of its run.
func PastMiter(s *job.System, m Seam, side int, inside, edge length.Length) bool {
	if m.Corner.Straight() {
		return edge < pitchFoot(s, m.Corner, inside)
	}
	return edge < length.Max(m.at(s, side, ChairLine(s)), m.at(s, side, ChairRear(s, inside)))
}

func supportsClear(sup []SupportPlace) bool {
	for i, p := range sup {
		for _, o := range sup[i+1:] {
			if Overlap(p.Quad, o.Quad) {
				return false
			}
		}
	}
	return true
}
