package cap

import (
	"slices"

	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wall"
)

// Legs are chosen by package stand, chain by chain: sections tied to one another
// by the corners between them, as far as each is so short that what stands at its
// one end bears on the other. Questions go in the direction of solving, from the
// side away from the closers, so that a mirrored job asks the mirrored ones.

// onRun is a run ready to be laid out: its sections, and what can be made of them.
type onRun struct {
	cuts     cuts
	sections []cutSection
	laid     []*laying // nil where a section has no feature
	left     int       // node of the piece at its left end
	right    int
}

// link is a section of a chain, in the direction of solving.
type link struct {
	on   *onRun
	k    int // of the run's sections
	lay  *laying
	tied bool // to the link before, by a corner
	half half
}

// half is what of a link its chain asks for. A long section is the end of one
// chain and the beginning of the next.
type half int

const (
	both      half = iota
	beginning      // its ending leg alone
	ending         // its beginning leg alone
)

// question is one chain.
type question struct {
	b      *builder
	stands *Stands
	links  []link
	ring   bool
	turned bool
	shorts []stand.Short
}

// questions parts a perimeter's sections into chains.
func (b *builder) questions(all []*onRun, stands *Stands) []*question {
	turned := b.closerLeft()
	runs := slices.Clone(all)
	if turned {
		slices.Reverse(runs)
	}
	var links []link
	tied := b.runs[0].Perimeter.Closed() // to the link before
	for _, on := range runs {
		n := len(on.laid)
		for i := range n {
			k := i
			if turned {
				k = n - 1 - i
			}
			tied = tied && i == 0 && b.corner(on, turned) != nil
			switch l := (link{on: on, k: k, lay: on.laid[k], tied: tied}); {
			case l.lay == nil:
				tied = false
				continue
			case l.lay.free:
				l.half = ending
				links = append(links, l)
				l.half, l.tied = beginning, false
				links = append(links, l)
			default:
				links = append(links, l)
			}
			tied = true
		}
		if len(on.laid) > 0 {
			last := on.laid[n-1]
			if turned {
				last = on.laid[0]
			}
			tied = last != nil
		}
	}
	n := len(links)
	first := slices.IndexFunc(links, func(l link) bool { return !l.tied })
	if first < 0 && n > 0 {
		return []*question{{b: b, stands: stands, links: links, ring: true, turned: turned}}
	}
	var out []*question
	for i := range n {
		l := links[(first+i)%n]
		if !l.tied {
			out = append(out, &question{b: b, stands: stands, turned: turned})
		}
		q := out[len(out)-1]
		q.links = append(q.links, l)
	}
	return out
}

// corner is the corner at the beginning of a run that is made as a piece with a
// leg on it; nil if there is none.
func (b *builder) corner(on *onRun, turned bool) *wall.Corner {
	e := on.cuts.run.Left
	if turned {
		e = on.cuts.run.Right
	}
	if e.Corner == nil || e.Corner.Absorb {
		return nil
	}
	return e.Corner
}

// side is the end of a run, 0 left or 1 right, at a link's beginning or end.
func (q *question) side(end bool) int {
	if end != q.turned {
		return 1
	}
	return 0
}

// choose answers a question and sets what was chosen.
func (q *question) choose() {
	chosen, cost, ok := q.answer()
	if !ok {
		for _, l := range q.links { // one welded ring
			l.lay.chosen.whole = true
		}
		return
	}
	for k, l := range q.links {
		c := chosen[k]
		l.lay.chosen.whole = l.lay.chosen.whole || c.Whole
		if l.half != ending {
			l.lay.chosen.leg[q.side(true)] = c.Right
		}
		if l.half != beginning {
			l.lay.chosen.leg[q.side(false)] = c.Left
		}
	}
	if cost.Bad > 0 {
		q.hold(chosen)
	}
}

// answer asks package stand.
func (q *question) answer() ([]stand.Chosen, stand.Cost, bool) {
	q.shorts = nil
	for k, l := range q.links {
		s := stand.Short{Left: len(l.lay.legs[q.side(false)]), Right: len(l.lay.legs[q.side(true)]), Whole: l.lay.whole, Pairs: l.lay.pairs}
		switch l.half {
		case ending:
			s.Right = 1
			for a := range s.Left {
				s.Ways = append(s.Ways, stand.Way{Left: a})
			}
		case beginning:
			s.Left = 1
			for a := range s.Right {
				s.Ways = append(s.Ways, stand.Way{Right: a})
			}
		default:
			s.Ways = slices.Clone(l.lay.ways)
			for i, w := range s.Ways {
				if q.turned {
					s.Ways[i].Left, s.Ways[i].Right = w.Right, w.Left
				}
			}
			if q.turned {
				slices.Reverse(s.Ways)
			}
		}
		for end, n := range []int{s.Left, s.Right} {
			for i := range n {
				var c stand.Cost
				if !(end == 1 && l.half == ending || end == 0 && l.half == beginning) {
					_, c, _ = q.leg(k, end == 1, i)
				}
				s.Least[end] = append(s.Least[end], c)
			}
		}
		q.shorts = append(q.shorts, s)
	}
	return stand.Legs(q.shorts, q.ring, q)
}

// Pair is what straight pieces between two legs cost: as much as one. No leg is
// lengthened to spare a piece of the row, which is the cheaper metal.
func (q *question) Pair(k, left, right int) (stand.Cost, bool) {
	if q.turned {
		left, right = right, left
	}
	_, ok := q.links[k].lay.pair(left, right)
	return stand.Cost{Pieces: 1}, ok
}

// Leg is what a leg costs at least.
func (q *question) Leg(k int, end bool, i int) stand.Cost {
	l := q.links[k]
	if end && l.half == ending || !end && l.half == beginning {
		return stand.Cost{}
	}
	p, cost, ok := q.leg(k, end, i)
	if !ok {
		return stand.Cost{}
	}
	least := cost.Plus(q.stands.cost(p, q.stands.Zone(p)))
	if q.stands.Zone(p) == 0 { // beside a part in the corner zone it takes that one whole
		if c := cost.Plus(q.stands.cost(p, 1)); c.Less(least) {
			least = c
		}
	}
	return least
}

// leg is a leg at a link's beginning or end as a part of its piece, and what it
// costs besides its chairs; ok is false where there is nothing to judge: at what
// stays where it is, and at the stub of a tee.
func (q *question) leg(k int, end bool, i int) (p Footing, c stand.Cost, ok bool) {
	l := q.links[k].lay
	side := q.side(end)
	r, leg := l.left, l.legs[side][i]
	if side == 1 {
		r = l.right
	}
	if !r.has() || r.fixed {
		return p, c, false
	}
	if leg < r.least {
		c.Under = 1
	} else {
		c.Grown = leg - r.least
	}
	return l.footing(side, leg), c, true
}

// footing is a leg of a section as a part of its piece.
func (l *laying) footing(side int, leg length.Length) Footing {
	p := Footing{Run: l.run, From: l.from, To: l.to, Ends: [2]Stop{AtJoint, AtJoint}}
	p.Ends[side] = l.ends[side]
	if side == 0 {
		p.To = p.From + leg
	} else {
		p.From = p.To - leg
	}
	// A leg all along to what stays where it is.
	if p.From == l.from {
		p.Ends[0] = l.ends[0]
	}
	if p.To == l.to {
		p.Ends[1] = l.ends[1]
	}
	if other := 1 - side; l.ends[other] == AtKink && leg+l.stock.gap+(l.stock.gap-l.stock.gap/2) > l.to-l.from {
		p.Ends[other] = AtKink
	}
	p.Inside = l.run.InsideAt(p.From)
	return p
}

// parts are those of a piece, in station order; judged is false where there is
// nothing to judge.
func (q *question) parts(s stand.Span) (parts []Footing, cost stand.Cost, judged bool) {
	n := len(q.links)
	leg := func(k int, end bool, i int) {
		if p, c, ok := q.leg(k, end, i); ok {
			parts, cost, judged = append(parts, p), cost.Plus(c), true
		}
	}
	whole := s.To - s.From - 1
	if s.From < 0 {
		if q.links[0].half == beginning {
			return nil, cost, false
		}
	} else if q.links[s.From].half != ending {
		leg(s.From, true, s.Right)
	} else {
		return nil, cost, false
	}
	if q.ring && whole < 0 {
		whole += n
	}
	for i := range whole {
		l := q.links[(s.From+1+i)%n].lay
		p := Footing{Run: l.run, From: l.from, To: l.to, Ends: l.ends, Inside: l.run.InsideAt(l.from)}
		parts, judged = append(parts, p), true
	}
	if s.To < n && q.links[s.To].half != beginning {
		leg(s.To, false, s.Left)
	}
	if q.turned {
		slices.Reverse(parts)
	}
	return parts, cost, judged
}

// Piece is what a piece costs.
func (q *question) Piece(s stand.Span) stand.Cost {
	parts, cost, judged := q.parts(s)
	if !judged {
		return cost
	}
	cost = cost.Plus(q.stands.judge(parts))
	if s.From >= 0 && s.To < len(q.links) && q.links[s.From].half == beginning && q.links[s.To].half == ending {
		grown := func(k int, end bool, i int) length.Length {
			_, c, _ := q.leg(k, end, i)
			return c.Grown
		}
		cost.Uneven += length.Abs(grown(s.From, true, s.Right) - grown(s.To, false, s.Left))
	}
	return cost
}
