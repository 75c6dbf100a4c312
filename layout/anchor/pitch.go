package anchor

import (
	"fmt"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// breakOf is the break of slope that a leg of a pitch miter ends at; nil where
// the part is no such leg, or has no chair at its other end.
func (b *builder) breakOf(a *Run, p cap.Part, l, r stand) *wall.Corner {
	if p.Piece.Kind != cap.PitchMiter || l.chair == r.chair {
		return nil
	}
	if l.chair {
		return a.Run.Right.Corner
	}
	return a.Run.Left.Corner
}

// overBreak stands the chairs of one leg of a pitch miter, within half the
// tested spacing of the break; what an obstacle blocks moves to its edge.
func (b *builder) overBreak(a *Run, p cap.Part, c *wall.Corner, l, r stand, spacing length.Length) {
	from := func(u length.Length) length.Length { return l.at + u } // of the break, in stations
	if l.chair {
		from = func(u length.Length) length.Length { return r.at - u }
	}
	us, ok := cap.PitchChairs(b.sys, c, p.Piece.Inside, r.at-l.at, spacing, b.grid)
	at := make([]length.Length, 0, len(us))
	for _, u := range us {
		x, free := b.clearOf(a, from(u))
		ok = ok && free
		at = append(at, x)
	}
	slices.Sort(at)
	last := l
	for _, next := range append(slices.Clone(at), r.at) {
		most, least := spacing, b.sys.Chair.Length
		if !last.chair || next == r.at && !r.chair {
			most, least = spacing/2, 0
		}
		ok = ok && next-last.at <= most && next-last.at >= least
		last = stand{next, true}
	}
	for _, x := range at {
		near := x - l.at
		if l.chair {
			near = r.at - x
		}
		ok = ok && !cap.PastMiter(b.sys, cap.One(c, p.Piece.Inside), 0, p.Piece.Inside, near-b.sys.Chair.Length/2)
	}
	if len(us) == 0 {
		ok = r.at-l.at <= spacing/2
	}
	if !ok {
		b.hold("chairs-crowded", a.Job.At, a.Run, l.at,
			fmt.Sprintf("run %s: the leg of piece %s at the %s needs its chairs within %s of the break and %s of one another, and there is no room for them", a.Name, p.Piece.Mark, c.Word(), job.Both(spacing/2), job.Both(spacing)),
			"no chair lies across a break of slope", "another leg, a shorter chair, or an assembly tested at another spacing")
	}
	b.between(a, p.Piece, l, r, at)
}
