package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// legRange is what the leg of a feature at one end of a run may be, along the
// front: short where a short run asks for it and the job gives leave, least
// elsewhere, longest as the shop welds it; usual between two long runs. A feature
// without a leg has all alike and negative. The stub of a tee is fixed: nothing
// lengthens it.
type legRange struct {
	short, least, longest length.Length
	usual                 length.Length
	fixed                 bool
}

// cornerLegs are what the legs of a corner may be: the arriving one's and the
// leaving one's. The least is the greater of the job's leg and trim + half a splice
// plate + sealant bearing, up to the job's own step, since the leg is a number that
// a crew tapes. Beside a run too short for it a leg may be as short as the job gives
// leave to, not below the rest.
func cornerLegs(s *job.System, m Seam) [2]legRange {
	if m.Corner.Straight() {
		l := pitchLegs(s, m.Corner, m.Inside[0])
		return [2]legRange{l, l}
	}
	up := func(l length.Length) length.Length { return length.CeilTo(l, s.Corner.LegStep) }
	var out [2]legRange
	for i, trim := range m.Trims(s) {
		onFront := func(l length.Length) length.Length {
			if s.Corner.LegFace == job.Rear {
				return l + trim
			}
			return l
		}
		made := up(length.Max(trim, 0) + s.Splice.Length/2 + s.Splice.Bearing)
		least := length.Max(made, up(onFront(s.Corner.Leg)))
		out[i] = legRange{short: least, least: least, longest: length.Max(onFront(s.Corner.LongestLeg), least)}
		if s.Corner.ShortLeg > 0 {
			out[i].short = length.Min(least, length.Max(made, up(onFront(s.Corner.ShortLeg))))
		}
	}
	return out
}

// alone are the legs of a corner between two long runs: the shortest from the
// least at which all their chairs stand, grown alike by the job's step. ok is false
// where there are none up to the longest; then they are the least.
func (b *builder) alone(m Seam) (legs [2]length.Length, ok bool) {
	r := cornerLegs(b.sys, m)
	legs = [2]length.Length{r[0].least, r[1].least}
	on := [2]*Run{b.runOf(m.Corner.Arrive), b.runOf(m.Corner.Leave)}
	if on[0] == nil || on[1] == nil {
		return legs, true
	}
	s := newStands(b.sys, b.runs, map[*wall.Corner]Seam{m.Corner: m}, b.grid)
	s.open = true
	for l := legs; l[0] <= r[0].longest && l[1] <= r[1].longest; l[0], l[1] = l[0]+b.sys.Corner.LegStep, l[1]+b.sys.Corner.LegStep {
		c := s.judge([]Footing{
			{Run: on[0], From: on[0].Cap - l[0], To: on[0].Cap, Ends: [2]Stop{AtJoint, AtMiter}, Inside: m.Inside[0]},
			{Run: on[1], To: l[1], Ends: [2]Stop{AtMiter, AtJoint}, Inside: m.Inside[1]}})
		if c.Bad == 0 {
			return l, true
		}
	}
	return legs, false
}

// ClearOfMiter is the nearest distance from a corner point along the arriving
// leg (side 0) or the leaving one (1), from u to most, at which a chair's centre
// keeps the chair clear of the supports, of the miter line and, with twin, of a
// like chair on the other leg.
func ClearOfMiter(s *job.System, m Seam, side int, u, most, grid length.Length, twin bool) (length.Length, bool) {
	if side == 1 {
		m = m.turned()
	}
	half := s.Chair.Length / 2
	sup := Supports(s, m)
	for ; u <= most; u += grid {
		q := ChairOn(s, m.Corner, false, m.Inside[0], u-half, u+half)
		ok := !PastMiter(s, m, 0, m.Inside[0], u-half) && !(twin && Overlap(q, ChairOn(s, m.Corner, true, m.Inside[1], u-half, u+half)))
		for _, p := range sup {
			ok = ok && !Overlap(q, p.Quad)
		}
		if ok {
			return u, true
		}
	}
	return 0, false
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
