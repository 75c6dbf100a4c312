package layout

import (
	"copingset/layout/cap"
	"copingset/layout/fact"
)

// ofTurned are the lengths that the plan of a piece works out: widths outside, what
// chairs stand off its corner, stations of a branch.
func (b *facts) ofTurned(q *Piece) {
	if q.Kind == cap.Straight {
		return
	}
	b.about(fact.Make, q.Mark)
	p := b.l.cornerPlan(q)
	for i, what := range p.own {
		b.length(what, p.lengths[i])
	}
}
