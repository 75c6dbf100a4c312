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
	if e.Kind == job.EndTee {
		l := b.sys.Tee.Branch
		return legRange{short: l, least: l, longest: l, fixed: true}
	}
	if e.Kind != job.EndTurn {
		rule := b.sys.EndCap
		if e.Kind == job.EndWall {
			rule = b.sys.WallEnd
		}
		// Two chairs stand on the leg: the joint's and the end's.
		short := b.sys.Chair.EndChair + b.sys.Chair.Length - b.sys.Joint.Gap/2
		short = length.CeilTo(length.Max(short, b.sys.Splice.Length/2+b.sys.Splice.Bearing), b.grid)
		least := length.Max(short, length.CeilTo(rule.Leg, b.grid))
		short = length.Max(short, length.Min(least, length.CeilTo(b.sys.Corner.ShortLeg, b.grid)))
		return legRange{short: short, least: least, longest: length.Max(least, b.sys.Corner.LongestLeg)}
	}
	if e.Corner.Absorb {
		h := -b.sys.Joint.Gap / 2
		return legRange{short: h, least: h, longest: h}
	}
	var out legRange
	for i, m := range seams {
		l := b.legsOf(m)[side]
		if i == 0 {
			out = legRange{short: l.Short, least: l.Least, longest: l.Longest}
			continue
		}
		out = legRange{short: length.Max(out.short, l.Short), least: length.Max(out.least, l.Least),
			longest: length.Min(out.longest, l.Longest)}
	}
	return out
}
