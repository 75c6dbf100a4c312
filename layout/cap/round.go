package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// pairs are the widths that may arrive at a corner and leave it, by their index;
// nil where both are always one. They are the same from either side of it.
func (f *frame) pairs(b *builder, c *wall.Corner) [][]bool {
	if c == nil || f.sys.Corner.TwoWidths == nil {
		return nil
	}
	if known, ok := f.meet[c]; ok {
		return known
	}
	n := len(f.widths)
	out := make([][]bool, n)
	for w := range out {
		out[w] = make([]bool, n)
		for v := range out[w] {
			out[w][v] = w == v || b.twoWidths(Seam{c, [2]length.Length{f.widths[w], f.widths[v]}})
		}
	}
	if f.meet == nil {
		f.meet = map[*wall.Corner][][]bool{}
	}
	f.meet[c] = out
	return out
}

// transposed exchanges what arrives and what leaves.
func transposed(pairs [][]bool) [][]bool {
	out := make([][]bool, len(pairs))
	for w := range out {
		out[w] = make([]bool, len(pairs))
		for v := range out[w] {
			out[w][v] = pairs[v][w]
		}
	}
	if pairs == nil {
		return nil
	}
	return out
}

// round carries the best plans of a run round the corner at its end: into each
// width, from the same one or from one that may meet it there, whose index comes
// with it.
func (s *stretch) round(out []entry) (in []entry, from []int) {
	for v := range out {
		e, w := out[v], v
		for o := range out {
			if o == v || s.meets == nil || !out[o].ok || !s.meets[o][v] {
				continue
			}
			if c := out[o].cost.plus(cost{corners: 1}); !e.ok || c.less(e.cost) {
				e, w = entry{cost: c, ok: true}, o
			}
		}
		in, from = append(in, e), append(from, w)
	}
	return in, from
}

// legRange is what the leg at one end of a run may be: at a corner, whichever of
// the seams it has.
func (b *builder) legRange(r *Run, right bool, seams ...Seam) legRange {
	e, side := r.Left, 1
	if right {
		e, side = r.Right, 0
	}
	s := b.sys
	if e.Kind == job.EndTee {
		l := s.Tee.Branch
		return legRange{short: l, least: l, longest: l, usual: l, fixed: true}
	}
	if e.Kind != job.EndTurn {
		rule := s.EndCap
		if e.Kind == job.EndWall {
			rule = s.WallEnd
		}
		// Two chairs stand on the leg: the joint's and the end's.
		made := s.Chair.EndChair + s.Chair.Length - s.Joint.Gap/2
		made = length.CeilTo(length.Max(made, s.Splice.Length/2+s.Splice.Bearing), b.grid)
		least := length.Max(made, length.CeilTo(rule.Leg, b.grid))
		out := legRange{short: least, least: least, longest: length.Max(least, s.Corner.LongestLeg), usual: least}
		if s.Corner.ShortLeg > 0 {
			out.short = length.Min(least, length.Max(made, length.CeilTo(s.Corner.ShortLeg, b.grid)))
		}
		return out
	}
	if e.Corner.Absorb {
		h := -s.Joint.Gap / 2
		return legRange{short: h, least: h, longest: h, usual: h}
	}
	var out legRange
	for i, m := range seams {
		l := cornerLegs(s, m)[side]
		if l.usual = l.least; !b.quick {
			legs, _ := b.alone(m)
			l.usual = legs[side]
		}
		if i == 0 {
			out = l
			continue
		}
		out = legRange{short: length.Max(out.short, l.short), least: length.Max(out.least, l.least),
			longest: length.Min(out.longest, l.longest), usual: length.Max(out.usual, l.usual)}
	}
	return out
}
