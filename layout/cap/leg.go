package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// legRange is what the leg of a feature at one end of a run may be, along the
// front: short where a short run asks for it, least elsewhere, longest as the
// shop welds it. A feature without a leg has all three alike and negative. The stub
// of a tee is fixed: nothing lengthens it.
type legRange struct {
	short, least, longest length.Length
	fixed                 bool
}

// Legs are the legs a corner may have, along the front of the cap line.
type Legs struct {
	Short   length.Length // trim + half a splice plate + sealant bearing, chairs clear
	Least   length.Length // the job's leg too
	Longest length.Length
	Clear   bool // false: no leg up to the longest keeps chairs and supports apart
}

// LegsOf finds the legs of a corner by the rules: the least front-face leg is
// the greater of the job's leg and trim + half a splice plate + sealant
// bearing, lengthened by the job's step until no two chairs or supports
// overlap in plan, those a long leg needs between its joint and the miter
// included. Both legs grow alike. A short run may go below the job's leg, not
// below the rest.
func LegsOf(s *job.System, c *wall.Corner, inside, spacing, grid length.Length) Legs {
	trim := MiterTrim(inside+2*s.Metal.Thickness, c.CapTurn)
	stated, longest := s.Corner.Leg, s.Corner.LongestLeg
	if s.Corner.LegFace == job.Rear {
		stated, longest = stated+trim, longest+trim
	}
	// The leg is a number a crew tapes: up to the job's own step.
	up := func(l length.Length) length.Length { return length.CeilTo(l, s.Corner.LegStep) }
	short := up(length.Max(trim, 0) + s.Splice.Length/2 + s.Splice.Bearing)
	least := length.Max(short, up(stated))
	longest = length.Max(longest, least)
	first := func(from length.Length) (length.Length, bool) {
		for l := from; l <= longest; l += s.Corner.LegStep {
			if legClear(s, c, inside, l) && betweenFits(s, c, inside, l, spacing, grid) {
				return l, true
			}
		}
		return from, false
	}
	out := Legs{Longest: longest}
	out.Short, _ = first(short)
	out.Least, out.Clear = first(least)
	return out
}

// legClear tells whether no two chairs or supports of a corner with two legs
// alike overlap.
func legClear(s *job.System, c *wall.Corner, inside, leg length.Length) bool {
	half, u := s.Chair.Length/2, leg+s.Joint.Gap/2
	q1, q2 := ChairOn(s, c, false, inside, u-half, u+half), ChairOn(s, c, true, inside, u-half, u+half)
	if Overlap(q1, q2) {
		return false
	}
	sup := Supports(s, c, inside)
	for _, p := range sup {
		if Overlap(p.Quad, q1) || Overlap(p.Quad, q2) {
			return false
		}
	}
	return supportsClear(sup)
}

// betweenFits tells whether the chairs that a leg longer than the tested
// spacing needs find room between its joint and the miter.
func betweenFits(s *job.System, c *wall.Corner, inside, leg, spacing, grid length.Length) bool {
	// As long as its front or its centre line, whichever is longer.
	long := length.Max(leg, leg-MiterTrim(inside+2*s.Metal.Thickness, c.CapTurn)/2)
	bays := (long + spacing - 1) / spacing
	if bays < 2 {
		return true
	}
	joint := leg + s.Joint.Gap/2
	most := length.Min(spacing, joint-(bays-1)*s.Chair.Length)
	_, ok := ClearOfMiter(s, c, inside, joint/bays, most, grid, true)
	return ok
}

// ClearOfMiter is the nearest distance from a corner point, from u to most, at
// which a chair's centre keeps the chair clear of the supports, of the miter
// line and, with twin, of a like chair on the other leg.
func ClearOfMiter(s *job.System, c *wall.Corner, inside, u, most, grid length.Length, twin bool) (length.Length, bool) {
	half := s.Chair.Length / 2
	sup := Supports(s, c, inside)
	for ; u <= most; u += grid {
		q := ChairOn(s, c, false, inside, u-half, u+half)
		ok := !PastMiter(s, c, inside, u-half) && !(twin && Overlap(q, ChairOn(s, c, true, inside, u-half, u+half)))
		for _, p := range sup {
			ok = ok && !Overlap(q, p.Quad)
		}
		if ok {
			return u, true
		}
	}
	return 0, false
}

// PastMiter tells whether a chair whose edge is this far from the corner point
// crosses the miter, beyond which there is no wall of its run.
func PastMiter(s *job.System, c *wall.Corner, inside, edge length.Length) bool {
	y0 := s.Metal.Thickness + s.Chair.FrontEdge
	y1 := s.Metal.Thickness + inside - s.Chair.RearEdge
	return edge < length.Max(MiterTrim(y0, c.CapTurn), MiterTrim(y1, c.CapTurn))
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
