package anchor

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wall"
)

// leg is one part of a piece, with the chairs between its ends.
type leg struct {
	stand.Part
	run  *Run
	part cap.Part
	row  stand.Laid
	why  stand.Why
}

// partKey names a part of a piece.
type partKey struct {
	piece *cap.Piece
	part  int
}

// stand places the chairs of all runs: under the joints and at the ends, which
// never move, and between them.
func (b *builder) stand(runs []*Run) {
	on := map[*cap.Run]*Run{} // look-up only
	for _, a := range runs {
		on[a.Run], a.Step, a.Chairs, a.PitchMost = a, b.grid, nil, 0
		b.joints(a)
	}
	seen := map[*cap.Piece]bool{} // look-up only
	for _, a := range runs {
		for _, p := range a.Parts {
			if len(p.Piece.Miters) == 0 {
				b.keep([]*leg{b.lay(b.alone(a, p))})
			} else if !seen[p.Piece] {
				seen[p.Piece] = true
				b.keep(b.turned(p.Piece, on))
			}
		}
	}
	for _, a := range runs {
		slices.SortStableFunc(a.Chairs, func(p, q *Chair) int { return cmp.Compare(p.At, q.At) })
	}
}

// index is which of its piece's parts a part is.
func index(p cap.Part) int {
	return slices.IndexFunc(p.Piece.Parts, func(q cap.Part) bool { return q.Run == p.Run && q.From == p.From })
}

// alone is a part as its ends alone have it.
func (b *builder) alone(a *Run, p cap.Part) *leg {
	g := &leg{Part: b.feet.Part(b.feet.FootingOf(p), p.Piece.Zone), run: a, part: p}
	g.More = b.more[partKey{p.Piece, index(p)}]
	return g
}

// ended reports whether a coping ends there, with a chair of its own.
func ended(e wall.End) bool { return e.Kind != job.EndTurn && e.Kind != job.EndTee }

// lay places the chairs of one part.
func (b *builder) lay(g *leg) *leg {
	r := cap.Row{Part: g.Part}
	r.Lay(b.grid)
	if r.More < g.More {
		b.filled(partKey{g.part.Piece, index(g.part)}, r.More)
	}
	g.Part, g.row, g.why = r.Part, r.Laid, r.Why
	return g
}

// filled notes that no more chairs have room on a part than so many beyond the fewest.
func (b *builder) filled(k partKey, more int) {
	t := b.tried[k]
	t.full = true
	b.more[k], b.tried[k] = more, t
}

// turned lays the parts of a piece that turns.
func (b *builder) turned(p *cap.Piece, on map[*cap.Run]*Run) []*leg {
	more := make([]int, len(p.Parts))
	for i := range more {
		more[i] = b.more[partKey{p, i}]
	}
	var legs []*leg
	for i, r := range b.feet.PieceOf(p, more).Rows {
		legs = append(legs, &leg{Part: r.Part, run: on[p.Parts[i].Run], part: p.Parts[i], row: r.Laid, why: r.Why})
		if r.More < more[i] {
			b.filled(partKey{p, i}, r.More)
		}
	}
	return legs
}

// keep adds the chairs of the parts of a piece, and holds those that have no room.
func (b *builder) keep(legs []*leg) {
	for _, g := range legs {
		if g.Span() <= 0 {
			continue
		}
		a, at := g.run, g.row.At
		if g.why == stand.Stands {
			a.Step = length.Min(a.Step, g.row.Step)
		} else {
			b.noRoom(g)
			// Drawn as if there were room, to be held.
			free := g.Part
			free.Bars, free.Chair = nil, g.Chair/4
			for i := range free.Ends {
				free.Ends[i].Near, free.Ends[i].Far = 0, length.Max(g.Spacing, free.Ends[i].Far)
			}
			r, _ := stand.Row(free, b.grid)
			at = r.At
		}
		last, open := g.Ends[0].At, !g.Ends[0].Chair
		for i, e := range g.Ends {
			if e.Chair && b.atEnd(g, i) {
				b.add(a, &Chair{At: e.At, Kind: AtEnd, Piece: g.part.Piece, Assembly: taken(a, g.part.Piece.Zone, g.part.Inside())})
			}
		}
		for _, x := range at {
			b.add(a, &Chair{At: x, Kind: Between, Piece: g.part.Piece, Assembly: taken(a, g.part.Piece.Zone, g.part.Piece.InsideOn(a.Run))})
			if !open {
				a.PitchMost = length.Max(a.PitchMost, x-last)
			}
			last, open = x, false
		}
		if !open && g.Ends[1].Chair {
			a.PitchMost = length.Max(a.PitchMost, g.Ends[1].At-last)
		}
	}
}

// atEnd tells whether the chair at one end of a part is that of a coping's end.
func (b *builder) atEnd(g *leg, side int) bool {
	if side == 0 {
		return g.part.From == 0 && ended(g.run.Run.Left)
	}
	return g.part.To == g.run.Cap && ended(g.run.Run.Right)
}

// noRoom holds a part whose chairs cannot stand.
func (b *builder) noRoom(g *leg) {
	a, p, s := g.run, g.part.Piece, job.Both(g.Spacing)
	if p.Crowded { // held with its legs
		return
	}
	switch {
	case p.Kind == cap.Tee && g.why == stand.Blocked:
		b.hold("chair-blocked", a.Job.At, a.Run, g.Ends[0].At,
			"run "+a.Name+": piece "+p.Mark+" cannot have its chairs clear of the opening in its rear leg within the tested spacing",
			"under the opening a chair has no rear leg to hold", "another `tee: leg:`, a shorter chair, or an assembly tested at a wider spacing")
	case g.why == stand.Blocked:
		b.hold("chair-blocked", a.Job.At, a.Run, g.Ends[0].At,
			"run "+a.Name+": piece "+p.Mark+" cannot have its chairs clear of the obstacles within the tested spacing of "+s,
			"", "move what blocks the chair, or name an assembly tested with closer chairs")
	case p.Kind == cap.PitchMiter:
		b.hold("chairs-crowded", a.Job.At, a.Run, g.Ends[0].At,
			fmt.Sprintf("run %s: the leg of piece %s at the %s needs its chairs within %s of the break and %s of one another, and there is no room for them",
				a.Name, p.Mark, p.Miters[0].Corner.Word(), job.Both(g.Spacing/2), s),
			"no chair lies across a break of slope", "another leg, a shorter chair, or an assembly tested at another spacing")
	default:
		b.hold("chairs-crowded", a.Job.At, a.Run, g.Ends[0].At,
			fmt.Sprintf("run %s: piece %s needs a chair between, within the tested spacing of %s, and there is no room for one beside the others", a.Name, p.Mark, s),
			"two chairs cannot stand on one place of the wall", "a shorter chair, or an assembly tested at a wider spacing")
	}
}

// Bay is from one chair of a piece to the next on its run.
type Bay struct {
	Piece *cap.Piece
	Metal length.Length // what of it is the piece's metal, which the tested spacing counts on
	Pitch length.Length // from chair to chair
}

// Bays are those of a run's pieces, in station order. Its chairs do.
func (r *Run) Bays() []Bay {
	var out []Bay
	for _, p := range r.Parts {
		for i := 1; i < len(r.Chairs); i++ {
			from, to := r.Chairs[i-1].At, r.Chairs[i].At
			if mid := from + (to-from)/2; mid > p.From && mid < p.To {
				out = append(out, Bay{p.Piece, length.Min(to, p.To) - length.Max(from, p.From), to - from})
			}
		}
	}
	return out
}
