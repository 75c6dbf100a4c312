package cap

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wind"
)

// Row is a part of a piece with the chairs between its ends.
type Row struct {
	stand.Part
	stand.Laid
	Why stand.Why
}

// PieceRows are the chairs of a piece, part by part in station order.
type PieceRows struct {
	Rows  []Row
	Loose bool // each part stands by itself; round a miter the bay is over the tested spacing
}

// Piece stands the chairs of a piece that turns: round its miters within the tested
// spacing or, where that cannot be, each part by itself. more chairs than the fewest
// may be asked for, part by part.
func (s *Stands) Piece(parts []Footing, more []int) PieceRows {
	z := s.Zone(parts...)
	p := PieceRows{Rows: make([]Row, len(parts))}
	for _, p.Loose = range []bool{false, true} {
		for i, f := range parts {
			p.Rows[i] = Row{Part: s.Part(f, z)}
			if more != nil {
				p.Rows[i].More = more[i]
			}
		}
		ok := p.Loose || s.round(parts, p.Rows)
		for i := range p.Rows {
			p.Rows[i].Lay(s.grid)
			ok = ok && p.Rows[i].Why == stand.Stands
		}
		if ok {
			break
		}
	}
	return p
}

// Lay places the chairs of one part, of those asked for beyond the fewest as many
// as have room.
func (r *Row) Lay(step length.Length) {
	r.Laid, r.Why = stand.Row(r.Part, step)
	for r.Why != stand.Stands && r.More > 0 {
		r.More--
		r.Laid, r.Why = stand.Row(r.Part, step)
	}
}

// miters are those between the parts of a piece.
func (s *Stands) miters(parts []Footing) []Seam {
	var out []Seam
	for i := 1; i < len(parts); i++ {
		out = append(out, s.seamAt(parts[i-1].Run, true))
	}
	return out
}

// held tells whether the bay round a miter ends at the miter: its supports hold the
// cap down, or it is a break of slope, whose halves each keep half the spacing; or
// somebody answers for the piece.
func (s *Stands) held(parts []Footing, m Seam) bool {
	return m.Corner.Straight() || m.Held(s.sys) || s.covered(parts)
}

// covered tells whether a report or an engineer covers a piece as it stands.
func (s *Stands) covered(parts []Footing) bool {
	turn, inside := job.Angle(0), length.Length(0)
	miters := s.miters(parts)
	for _, m := range miters {
		turn = max(turn, m.Turn())
	}
	for _, p := range parts {
		inside = length.Max(inside, p.Inside)
	}
	kind := Corner
	switch ended := parts[0].Ends[0] == AtEnd || parts[len(parts)-1].Ends[1] == AtEnd; {
	case ended:
		kind = Combined
	case len(miters) > 1:
		kind = DoubleMiter
	case len(miters) == 1 && miters[0].Corner.Straight():
		kind = PitchMiter
	}
	return s.sys.Corner.Covered.Covers(kind.String(), inside, turn)
}

// round shares the bays round the miters that nothing holds down between the
// parts they join.
func (s *Stands) round(parts []Footing, rows []Row) bool {
	miters := s.miters(parts)
	left := s.sys.Remainder == job.Left
	most := func(k int) length.Length {
		e := miters[k].Extra(s.sys)
		return length.Min(rows[k].Spacing, rows[k+1].Spacing) - e[0] - e[1]
	}
	free := func(k int) bool { return k >= 0 && k < len(miters) && !s.held(parts, miters[k]) }
	share := func(i, k int, most length.Length) bool {
		two, _, ok := stand.Round([2]stand.Part{rows[i].Part, rows[k].Part}, most, s.grid, left)
		rows[i].Part, rows[k].Part = two[0], two[1]
		return ok
	}
	for k := 0; k < len(miters); k++ {
		switch {
		case !free(k):
		case !free(k + 1):
			if free(k - 1) { // shared already, with the one before
				continue
			}
			if !rows[k].Ends[0].Chair || !rows[k+1].Ends[1].Chair {
				halve(&rows[k], &rows[k+1], most(k))
				continue
			}
			if !share(k, k+1, most(k)) {
				return false
			}
		case rows[k].Ends[0].Chair && rows[k+2].Ends[1].Chair:
			// Both miters of a short part: none on it, if the bay over it is short
			// enough, else its own chairs in the middle of the spacing.
			mid := &rows[k+1]
			over := most(k) + most(k+1) - mid.Spacing - mid.Metal()
			if share(k, k+2, over) {
				mid.Ends[0].Far, mid.Ends[1].Far = mid.Span(), mid.Span()
				continue
			}
			if !s.middle(rows[k:k+3], most(k), most(k+1)) {
				return false
			}
		default:
			halve(&rows[k], &rows[k+1], most(k))
		}
	}
	return true
}

// middle stands chairs on a part between two miters, and gives the legs beside it
// what they leave of the bays round both.
func (s *Stands) middle(rows []Row, left, right length.Length) bool {
	mid := &rows[1]
	for i, most := range []length.Length{left, right} {
		e := &mid.Ends[i]
		e.Far = length.Max(e.Near, most/2)
	}
	if mid.Lay(s.grid); mid.Why != stand.Stands || len(mid.Laid.At) == 0 {
		return false
	}
	rows[0].Ends[1].Far = left - (mid.Laid.At[0] - mid.Ends[0].At)
	rows[2].Ends[0].Far = right - (mid.Ends[1].At - mid.Laid.At[len(mid.Laid.At)-1])
	return true
}

// halve gives each side of a miter half of the bay round it.
func halve(l, r *Row, most length.Length) {
	l.Ends[1].Far, r.Ends[0].Far = length.Min(l.Ends[1].Far, most/2), length.Min(r.Ends[0].Far, most/2)
}

// cost is what the chairs of one part cost by themselves in a zone.
func (s *Stands) cost(p Footing, z wind.Zone) stand.Cost {
	r, why := s.Row(p, z)
	if why != stand.Stands || s.jointBarred(p) {
		return stand.Cost{Bad: 1}
	}
	return stand.Cost{Chairs: len(r.At), Over: s.over(p, z, r.At)}
}

// over counts the miters of a part beside which the nearest chair would carry more
// of a leg's load than was tested: what lies nearer to it than to the next chair,
// all the way to the miter, since no support holds a leg. The rear is longer than
// the front there at an inside corner. It only ranks legs: what each chair carries
// is worked out, and held, where the chairs are stood.
func (s *Stands) over(p Footing, z wind.Zone, between []length.Length) int {
	n := 0
	taken := p.Run.ChoiceFor(z, p.Inside)
	for side, e := range p.Ends {
		if e != AtMiter {
			continue
		}
		m := s.seamAt(p.Run, side == 1)
		corner, far := p.From, p.To
		if side == 1 {
			corner, far = p.To, p.From
		}
		var us []length.Length
		for _, x := range between {
			us = append(us, length.Abs(x-corner))
		}
		if p.Ends[1-side] != AtMiter && p.Ends[1-side] != AtStub {
			us = append(us, length.Abs(s.end(p, 1-side, 1).At-corner))
		}
		slices.Sort(us)
		if len(us) < 2 {
			continue
		}
		share := (us[0] + us[1]) / 2
		from, to := corner, corner+share
		if far < corner {
			from, to = corner-share, corner
		}
		asked := p.Run.ChoiceFor(wind.Touches(p.Run.Zones, p.Run.ToFront(from), p.Run.ToFront(to)), p.Inside)
		rear := share - m.Trims(s.sys)[1-side]
		spacing := s.spacing(p, z).MM()
		if asked.OutDemand*share.MM() > taken.OutResists*spacing || asked.RearKnown && asked.RearDemand*rear.MM() > taken.RearResists*spacing {
			n++
		}
	}
	return n
}

// jointBarred tells whether a joint that follows from the legs has its chair where
// none can stand.
func (s *Stands) jointBarred(p Footing) bool {
	for side, e := range p.Ends {
		if e == AtJoint && s.Barred(p.Run, s.end(p, side, 1).At) {
			return true
		}
	}
	return false
}

// judge is what the chairs of a piece of these parts cost, in station order.
func (s *Stands) judge(parts []Footing) stand.Cost {
	var cost stand.Cost
	z := s.Zone(parts...)
	for i, p := range parts {
		cost = cost.Plus(s.cost(p, z))
		if i > 0 && i+1 < len(parts) && s.vanishes(p) {
			cost.Bad++
		}
	}
	miters := s.miters(parts)
	cost.Bad += max(0, len(miters)-2) // more than one piece takes
	for i, m := range miters {
		if !s.supportsApart(m) || len(miters) > 1 && m.Corner.Straight() {
			cost.Bad++
		}
		if i > 0 && s.supportsMeet(parts[i].Run, miters[i-1], m) {
			cost.Bad++
		}
	}
	if cost.Bad > 0 || len(parts) < 2 {
		return cost
	}
	if len(parts) == 2 && !s.held(parts, miters[0]) {
		if p := s.pair(parts, z, miters[0]); p.Chairs < 0 {
			cost.Over++ // each leg by itself, which is held where the piece is balanced
			return cost
		}
	}
	rows := s.Piece(parts, nil)
	if rows.Loose {
		cost.Over++
		return cost
	}
	if len(parts) == 2 && !s.covered(parts) && !s.balanced(parts, rows.Rows, miters[0]) {
		cost.Over++
	}
	cost.Chairs = 0
	for _, r := range rows.Rows {
		if r.Why != stand.Stands {
			cost.Bad++
		}
		cost.Chairs += len(r.Laid.At)
	}
	return cost
}

// balanced tells whether the hold-downs of a corner piece balance an even uplift on
// it. It ranks legs as over does.
func (s *Stands) balanced(parts []Footing, rows []Row, m Seam) bool {
	if m.Corner.Straight() {
		return true
	}
	var feet []stand.Foot
	var leg [2]length.Length
	for i, r := range rows {
		corner := parts[i].From
		if i == 0 {
			corner = parts[i].To
		}
		leg[i] = parts[i].To - parts[i].From
		at := slices.Clone(r.Laid.At)
		for _, e := range r.Ends {
			if e.Chair {
				at = append(at, e.At)
			}
		}
		for _, x := range at {
			feet = append(feet, stand.Foot{At: m.Place(i, x-corner, (ChairLine(s.sys)+ChairRear(s.sys, m.Inside[i]))/2), Holds: true})
		}
	}
	for _, p := range Supports(s.sys, m) {
		feet = append(feet, stand.Foot{At: stand.Point{X: p.X.MM(), Y: p.Y.MM()}, Holds: m.Held(s.sys)})
	}
	return stand.Balance(feet, stand.Uplift(m.Patches(s.sys, leg))).OK
}

// supportsApart tells whether no two supports under a miter overlap.
func (s *Stands) supportsApart(m Seam) bool {
	apart, known := s.apart[m]
	if !known {
		apart = supportsClear(Supports(s.sys, m))
		s.apart[m] = apart
	}
	return apart
}

// pair is how many chairs the legs of a corner need between them; under zero where
// no chairs make the bay round it short enough.
func (s *Stands) pair(parts []Footing, z wind.Zone, m Seam) stand.Cost {
	var near [2][]length.Length
	var spacing [2]length.Length
	for i, p := range parts {
		near[i], spacing[i] = s.near(p, z), s.spacing(p, z)
	}
	e := m.Extra(s.sys)
	_, chairs, _, ok := stand.Share(near, spacing, length.Min(spacing[0], spacing[1])-e[0]-e[1], s.sys.Remainder == job.Left)
	if !ok {
		return stand.Cost{Chairs: -1}
	}
	return stand.Cost{Chairs: chairs[0] + chairs[1]}
}

// near is how near the miter a leg's hold-downs can lie, by their number.
func (s *Stands) near(p Footing, z wind.Zone) []length.Length {
	key := rowKey{p, z}
	if known, ok := s.nears[key]; ok {
		return known
	}
	part := s.Part(p, z)
	out := part.Nearest(s.grid)
	s.nears[key] = out
	return out
}

// supportsMeet tells whether a support under one miter of a short run stands where
// one under the other does.
func (s *Stands) supportsMeet(r *Run, left, right Seam) bool {
	for _, a := range Supports(s.sys, left) {
		q := a.Quad.ToLeaving(left.Corner.CapTurn)
		for _, b := range Supports(s.sys, right) {
			if Overlap(q, b.Quad.Shift(r.Cap)) {
				return true
			}
		}
	}
	return false
}

// vanishes tells whether a part between two miters has no rear left.
func (s *Stands) vanishes(p Footing) bool {
	rear := p.To - p.From
	for side, e := range p.Ends {
		if e == AtMiter {
			m := s.seamAt(p.Run, side == 1)
			rear -= m.Trims(s.sys)[1-side]
		}
	}
	return rear < 1
}

// PieceOf stands the chairs of a piece that was made.
func (s *Stands) PieceOf(p *Piece, more []int) PieceRows {
	var parts []Footing
	for _, q := range p.Parts {
		parts = append(parts, s.FootingOf(q))
	}
	return s.Piece(parts, more)
}

// Covered tells whether a report or an engineer covers a piece that was made.
func (s *Stands) Covered(p *Piece) bool {
	turn := job.Angle(0)
	for _, m := range p.Miters {
		turn = max(turn, m.Turn())
	}
	return s.sys.Corner.Covered.Covers(p.Kind.String(), p.Inside, turn)
}
