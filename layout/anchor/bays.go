package anchor

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
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
	b.roomless = map[*cap.Piece]bool{}
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
	g := &leg{run: a, part: p}
	g.Spacing, g.Chair = taken(a, p.Piece.Zone, p.Inside()).ChairSpacing, b.sys.Chair.Length
	g.Left, g.More = b.sys.Remainder == job.Left, b.more[partKey{p.Piece, index(p)}]
	g.Bars = b.bars(a)
	// A stub begins at its main's rear, a leg at its miter: no chair stands there.
	open := stand.End{Near: g.Chair, Far: g.Spacing}
	l, r := open, open
	l.Edge, l.At, r.Edge, r.At = p.From, p.From, p.To, p.To
	chair := func(e *stand.End, at length.Length) { e.At, e.Chair = at, true }
	for _, j := range a.Joints {
		switch {
		case j.To == p.From && j.Kind == cap.Expansion:
			chair(&l, j.To+b.sys.Expansion.ChairFrom)
		case j.To == p.From:
			chair(&l, j.Centre())
		case j.From == p.To && j.Kind == cap.Expansion:
			chair(&r, j.From-b.sys.Expansion.ChairFrom)
		case j.From == p.To:
			chair(&r, j.Centre())
		}
	}
	// The joint of a kink at the left belongs to the arriving run; its centre is station zero.
	if c := a.Run.Left.Corner; c != nil && c.Absorb && p.From == b.sys.Joint.Gap/2 {
		chair(&l, 0)
	}
	if p.From == 0 && ended(a.Run.Left) {
		chair(&l, b.sys.Chair.EndChair)
	}
	if p.To == a.Cap && ended(a.Run.Right) {
		chair(&r, p.To-b.sys.Chair.EndChair)
	}
	g.Ends = [2]stand.End{l, r}
	return g
}

// ended reports whether a coping ends there, with a chair of its own.
func ended(e wall.End) bool { return e.Kind != job.EndTurn && e.Kind != job.EndTee }

// lay places the chairs of one part.
func (b *builder) lay(g *leg) *leg {
	if b.full {
		g.row, g.why = stand.Fullest(g.Part, b.grid)
		return g
	}
	g.row, g.why = stand.Row(g.Part, b.grid)
	if g.why == stand.Stands || g.More == 0 {
		return g
	}
	for g.why != stand.Stands && g.More > 0 { // no more have room than these
		g.More--
		g.row, g.why = stand.Row(g.Part, b.grid)
	}
	k := partKey{g.part.Piece, index(g.part)}
	t := b.tried[k]
	t.full = true
	b.more[k], b.tried[k] = g.More, t
	return g
}

// turned lays the parts of a piece that turns: clear of like chairs on the other
// legs if all have room so, else of the supports alone, since the other leg may
// have no such chair; round the miters by the tested spacing, or where that
// cannot be, each leg by itself, which is held.
func (b *builder) turned(p *cap.Piece, on map[*cap.Run]*Run) []*leg {
	var legs []*leg
	for _, loose := range []bool{false, true} {
		for _, twin := range []bool{true, false} {
			legs = legs[:0]
			ok := true
			for i, q := range p.Parts {
				g := b.alone(on[q.Run], q)
				for side, k := range []int{i, i - 1} { // the miter it arrives at, and the one it leaves
					if k < 0 || k >= len(p.Miters) {
						continue
					}
					e := &g.Ends[1-side]
					near, far, clear := b.miterEnd(p.Miters[k].Seam, side, g.Spacing, twin)
					e.Near, e.Far, ok = near, far, ok && clear
				}
				g.Alone = b.between(p, i, g.Spacing, loose)
				if b.allHug || b.tried[partKey{p, i}].hugs {
					g.Hugs = [2]bool{!g.Ends[0].Chair, !g.Ends[1].Chair}
				}
				legs = append(legs, g)
			}
			if !loose {
				ok = ok && b.round(p, legs)
			}
			for _, g := range legs {
				b.lay(g)
				ok = ok && g.why == stand.Stands
			}
			if ok {
				return legs
			}
		}
	}
	return legs
}

// between is how long a part between two miters may be without a chair of its own, where
// the bay over it ends at what holds at both of them: its longer face is within the
// spacing. What an inside corner adds to the rear an outside one takes off again. Where a
// part is looked at by itself it is as long as its front or its centre line.
func (b *builder) between(p *cap.Piece, i int, spacing length.Length, loose bool) length.Length {
	if i == 0 || i >= len(p.Miters) || p.Miters[i-1].Corner.Straight() || p.Miters[i].Corner.Straight() {
		return 0
	}
	longer := length.Max(0, -p.Miters[i-1].Trims(b.sys)[1]-p.Miters[i].Trims(b.sys)[0])
	switch {
	case p.Miters[i-1].Held(b.sys) && p.Miters[i].Held(b.sys):
		return length.Max(0, spacing-longer)
	case loose:
		return length.Max(0, spacing-longer/2)
	}
	return 0
}

// nearKey names a side of a miter.
type nearKey struct {
	corner  *wall.Corner
	side    int
	spacing length.Length
	twin    bool
}

// reachOf is how near and how far the first chair at a miter stands.
type reachOf struct {
	near, far length.Length
	ok        bool
}

func (b *builder) miterEnd(m cap.Seam, side int, spacing length.Length, twin bool) (near, far length.Length, ok bool) {
	k := nearKey{m.Corner, side, spacing, twin}
	r, known := b.nearest[k]
	if !known {
		e, ok := m.MiterEnd(b.sys, side, spacing, b.grid, twin)
		r = reachOf{e.Near, e.Far, ok}
		b.nearest[k] = r
	}
	return r.near, r.far, r.ok
}

// held tells whether the bay round a miter of a piece ends at the miter: its
// supports hold the cap down, or it is a break of slope, whose halves each keep
// half the spacing; or somebody answers for it.
func (b *builder) held(p *cap.Piece, m cap.Seam) bool {
	return m.Corner.Straight() || m.Held(b.sys) || b.covered(p)
}

// covered tells whether a report or an engineer covers a piece as it stands.
func (b *builder) covered(p *cap.Piece) bool {
	turn := job.Angle(0)
	for _, m := range p.Miters {
		turn = max(turn, m.Turn())
	}
	return b.sys.Corner.Covered.Covers(p.Kind.String(), p.Inside, turn)
}

// round shares the bays round the miters that nothing holds down between the
// parts they join.
func (b *builder) round(p *cap.Piece, legs []*leg) bool {
	most := func(k int) length.Length {
		e := p.Miters[k].Extra(b.sys)
		return length.Min(legs[k].Spacing, legs[k+1].Spacing) - e[0] - e[1]
	}
	free := func(k int) bool { return k >= 0 && k < len(p.Miters) && !b.held(p, p.Miters[k].Seam) }
	share := func(i, k int, most length.Length) bool {
		two, _, ok := stand.Round([2]stand.Part{legs[i].Part, legs[k].Part}, most, b.grid, b.sys.Remainder == job.Left)
		legs[i].Part, legs[k].Part = two[0], two[1]
		return ok
	}
	for k := 0; k < len(p.Miters); k++ {
		switch {
		case !free(k):
		case !free(k+1) || k+2 >= len(legs):
			if free(k - 1) { // shared already, with the one before
				continue
			}
			if !legs[k].Ends[0].Chair || !legs[k+1].Ends[1].Chair {
				b.halve(legs[k], legs[k+1], most(k))
				continue
			}
			if !share(k, k+1, most(k)) {
				return false
			}
		case legs[k].Ends[0].Chair && legs[k+2].Ends[1].Chair:
			// Both miters of a short part: none on it, if the bay over it is short
			// enough, else its own chairs in the middle of the spacing.
			mid := legs[k+1]
			t, u := p.Miters[k].Trims(b.sys), p.Miters[k+1].Trims(b.sys)
			over := length.Min(legs[k].Spacing, length.Min(mid.Spacing, legs[k+2].Spacing)) - mid.Metal() -
				length.Max(0, -t[0]-t[1]-u[0]-u[1])
			if share(k, k+2, over) {
				mid.Ends[0].Far, mid.Ends[1].Far = mid.Span(), mid.Span()
				continue
			}
			if !b.middle(legs[k:k+3], most(k), most(k+1)) {
				return false
			}
		default:
			b.halve(legs[k], legs[k+1], most(k))
		}
	}
	return true
}

// middle stands chairs on a part between two miters, and gives the legs beside it
// what they leave of the bays round both.
func (b *builder) middle(legs []*leg, left, right length.Length) bool {
	mid := legs[1]
	for i, most := range []length.Length{left, right} {
		e := &mid.Ends[i]
		e.Far = length.Max(e.Near, most/2)
	}
	if b.lay(mid); mid.why != stand.Stands || len(mid.row.At) == 0 {
		return false
	}
	legs[0].Ends[1].Far = left - (mid.row.At[0] - mid.Ends[0].At)
	legs[2].Ends[0].Far = right - (mid.Ends[1].At - mid.row.At[len(mid.row.At)-1])
	return true
}

// halve gives each side of a miter half of the bay round it.
func (b *builder) halve(l, r *leg, most length.Length) {
	l.Ends[1].Far, r.Ends[0].Far = length.Min(l.Ends[1].Far, most/2), length.Min(r.Ends[0].Far, most/2)
}

// keep adds the chairs of the parts of a piece, and holds once what has no room.
func (b *builder) keep(legs []*leg) {
	legs = slices.DeleteFunc(slices.Clone(legs), func(g *leg) bool { return g.Span() <= 0 })
	b.noRoom(legs, stand.Crowded)
	b.noRoom(legs, stand.Blocked)
	for _, g := range legs {
		a := g.run
		if g.why == stand.Stands {
			a.Step = length.Min(a.Step, g.row.Step)
		} else {
			// Those that have room are drawn, and none on another.
			g.row = stand.Spared(g.Part, wanted(g.Part, b.grid), b.grid)
		}
		at := g.row.At
		last, open := g.Ends[0].At, !g.Ends[0].Chair
		for i, e := range g.Ends {
			if e.Chair && b.atEnd(g, i) {
				b.add(a, &Chair{At: e.At, Kind: AtEnd, Piece: g.part.Piece, Assembly: taken(a, g.part.Piece.Zone,
					g.part.Inside())})
			}
		}
		for _, x := range at {
			b.add(a, &Chair{At: x, Kind: Between, Piece: g.part.Piece, Assembly: taken(a, g.part.Piece.Zone,
				g.part.Piece.InsideOn(a.Run))})
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

// wanted is how many chairs the spacing asks for in a part that has no room for them.
func wanted(p stand.Part, grid length.Length) int {
	p.Bars, p.Chair = nil, 0
	for i := range p.Ends {
		e := &p.Ends[i]
		e.Near = 0
		if e.Far <= 0 { // round the miter no bay is short enough
			e.Far = p.Spacing
		}
	}
	r, _ := stand.Row(p, grid)
	return len(r.At)
}

// atEnd tells whether the chair at one end of a part is that of a coping's end.
func (b *builder) atEnd(g *leg, side int) bool {
	if side == 0 {
		return g.part.From == 0 && ended(g.run.Run.Left)
	}
	return g.part.To == g.run.Cap && ended(g.run.Run.Right)
}

// noRoom holds the parts of a piece whose chairs cannot stand for one reason: once, on
// all their runs.
func (b *builder) noRoom(legs []*leg, why stand.Why) {
	var g *leg
	var runs []string
	for _, o := range legs {
		switch {
		case o.why != why:
		case g == nil:
			g = o
		case o.run.Name != g.run.Name && !slices.Contains(runs, o.run.Name):
			runs = append(runs, o.run.Name)
		}
	}
	if g == nil {
		return
	}
	a, p, s := g.run, g.part.Piece, job.Both(g.Spacing)
	b.trouble(why.String(), []*cap.Piece{p})
	b.roomless[p] = true
	f := finding.Finding{Code: "chairs-crowded", Severity: finding.Hold, At: a.Job.At, Where: on(a.Run, g.Ends[0].At)}
	f.Where.Runs = runs
	switch {
	case why == stand.Blocked:
		f.Code = "chair-blocked"
		f.What = "run " + a.Name + ": piece " + p.Mark +
			" cannot have its chairs clear of the obstacles within the tested spacing of " + s
		f.Mend = "move what blocks the chair, or name an assembly tested with closer chairs"
		if p.Kind == cap.Tee {
			f.What = "run " + a.Name + ": piece " + p.Mark +
				" cannot have its chairs clear of the opening in its roof-side leg within the tested spacing"
			f.Why, f.Mend = "under the opening a chair has no roof-side leg to hold",
				"another `tee: leg:`, a shorter chair, or an assembly tested at a wider spacing"
		}
	case p.Kind == cap.PitchMiter:
		f.What = fmt.Sprintf("run %s: the leg of piece %s at the %s needs its chairs within %s of the break and %s "+
			"of one another, and there is no room for them",
			a.Name, p.Mark, p.Miters[0].Corner.Word(), job.Both(g.Spacing/2), s)
		f.Why, f.Mend = "no chair lies across a break of slope",
			"another leg, a shorter chair, or an assembly tested at another spacing"
	default:
		f.What = fmt.Sprintf("run %s: piece %s needs a chair between, within the tested spacing of %s, and there is "+
			"no room for one beside the others", a.Name, p.Mark, s)
		f.Why, f.Mend = "two chairs cannot stand on one place of the wall",
			"a shorter chair, or an assembly tested at a wider spacing"
	}
	b.found.Append(f)
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
