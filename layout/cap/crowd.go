package cap

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
)

// crowding is why the chairs of the piece at a corner cannot stand by any choice of
// legs, and what would free them.
type crowding struct {
	why   string
	frees []string
}

// spans are the pieces of a plan, in the direction of solving.
func (q *question) spans(chosen []stand.Chosen) []stand.Span {
	n := len(chosen)
	first := slices.IndexFunc(chosen, func(c stand.Chosen) bool { return !c.Whole })
	if first < 0 {
		if q.ring {
			return nil
		}
		return []stand.Span{{From: -1, To: n}}
	}
	var out []stand.Span
	from := stand.Span{From: -1}
	if q.ring {
		from = stand.Span{From: first, Right: chosen[first].Right}
	}
	for i := range n {
		k := i
		if q.ring {
			k = (first + 1 + i) % n
		}
		if chosen[k].Whole {
			continue
		}
		from.To, from.Left = k, chosen[k].Left
		out = append(out, from)
		from = stand.Span{From: k, Right: chosen[k].Right}
	}
	if !q.ring {
		from.To = n
		out = append(out, from)
	}
	return out
}

// bad are the pieces that cannot stand in a plan.
func (q *question) bad(chosen []stand.Chosen) []stand.Span {
	var out []stand.Span
	for _, s := range q.spans(chosen) {
		if parts, _, judged := q.parts(s); judged && len(parts) > 1 && q.stands.judge(parts).Bad > 0 {
			out = append(out, s)
		}
	}
	return out
}

// hold notes for each piece that cannot stand why no choice is left, and which
// single change would leave one: each is tried by asking again.
func (q *question) hold(chosen []stand.Chosen) {
	for _, s := range q.bad(chosen) {
		parts, _, _ := q.parts(s)
		miters := q.stands.miters(parts)
		c := crowding{why: q.stands.why(parts)}
		if len(miters) <= 2 {
			c.frees = q.near(s).frees(miters)
		}
		for _, m := range miters {
			q.b.crowds[m.Corner] = c
		}
	}
}

// near is the question round one piece: it, and what stands at both sides of it,
// whose own other ends are left open.
func (q *question) near(s stand.Span) *question {
	n := len(q.links)
	from, to := s.From-1, s.To+1
	if q.ring && s.To <= s.From {
		to += n
	}
	if q.ring && to-from+1 >= n {
		return q
	}
	if !q.ring {
		from, to = max(from, 0), min(to, n-1)
	}
	out := &question{b: q.b, stands: q.stands, turned: q.turned}
	for k := from; k <= to; k++ {
		l := q.links[(k+n)%n]
		switch {
		case k == from && (q.ring || from > 0) && l.half == both:
			l.half = beginning
		case k == to && (q.ring || to < n-1) && l.half == both:
			l.half = ending
		}
		out.links = append(out.links, l)
	}
	return out
}

// frees are the single changes that would let the piece with these miters stand, the
// mildest of each kind.
func (q *question) frees(miters []Seam) []string {
	var out []string
	frees := func(c change) bool {
		again := q.with(c)
		chosen, _, ok := again.answer()
		if !ok {
			return false
		}
		return !slices.ContainsFunc(again.bad(chosen), func(s stand.Span) bool {
			parts, _, _ := again.parts(s)
			return slices.ContainsFunc(again.stands.miters(parts), func(m Seam) bool {
				return slices.ContainsFunc(miters, func(o Seam) bool { return o.Corner == m.Corner })
			})
		})
	}
	for _, kind := range q.changes() {
		if n := len(kind); n == 0 || !frees(kind[n-1]) && !frees(kind[n/2]) {
			continue
		}
		for _, c := range kind {
			if frees(c) {
				out = append(out, c.key+c.said)
				break
			}
		}
	}
	return out
}

// change is one change of the job.
type change struct {
	key, said string
	do        func(s *job.System)
	spacing   length.Length
}

// changes are those tried, the mildest of each kind first.
func (q *question) changes() [][]change {
	s, b := q.b.sys, q.b
	unit := length.Inch
	if b.job.Units == job.Metric {
		unit = 25 * length.Millimetre
	}
	var short, long, chair, wide, close, none []change
	for _, n := range []length.Length{2, 4, 8, 12, 18, 24} {
		if l := length.CeilTo(s.Corner.LongestLeg+n*unit, s.Corner.LegStep); true {
			long = append(long, change{"`corner: longest_leg:` ", job.Both(l), func(s *job.System) { s.Corner.LongestLeg = l }, 0})
		}
		least := s.Corner.Leg
		if s.Corner.ShortLeg > 0 {
			least = s.Corner.ShortLeg
		}
		if l := length.FloorTo(least-n*unit, s.Corner.LegStep); l > 0 {
			short = append(short, change{"`corner: short_leg:` ", job.Both(l), func(s *job.System) { s.Corner.ShortLeg = l }, 0})
		}
	}
	for _, n := range []length.Length{1, 2, 3, 4, 6} {
		if l := s.Chair.Length - n*unit; l >= s.Chair.Length/2 {
			chair = append(chair, change{"`chair: length:` ", job.Both(l), func(s *job.System) { s.Chair.Length = l }, 0})
		}
	}
	if near := q.spacing(); near > 0 {
		for _, n := range []length.Length{1, 2, 4, 8, 16} {
			w, c := near+n*unit, near-n*unit
			wide = append(wide, change{"an assembly tested at a wider `chair_spacing:`, ", job.Both(w), func(*job.System) {}, w})
			if c > near/2 {
				close = append(close, change{"an assembly tested at a closer `chair_spacing:`, ", job.Both(c), func(*job.System) {}, c})
			}
		}
	}
	if len(s.Corner.Supports) > 0 {
		none = append(none, change{"another place or number of the corner supports", "", func(s *job.System) { s.Corner.Supports = nil }, 0})
	}
	return [][]change{short, long, wide, close, none, chair}
}

// spacing is the closest tested spacing of the question's runs.
func (q *question) spacing() length.Length {
	near := length.Length(0)
	for _, l := range q.links {
		for _, c := range l.lay.run.Choices {
			for _, z := range l.lay.run.Zones {
				if s := c.Choice[z.Zone].Assembly.ChairSpacing; near == 0 || s < near {
					near = s
				}
			}
		}
	}
	return near
}

// with is the question of a changed job.
func (q *question) with(c change) *question {
	sys, b := *q.b.sys, *q.b
	c.do(&sys)
	b.sys, b.found, b.quick = &sys, finding.Set{}, true
	stands := newStands(&sys, b.runs, b.seams, b.grid)
	stands.wide = c.spacing
	again := &question{b: &b, stands: stands, ring: q.ring, turned: q.turned}
	for _, l := range q.links {
		cuts := l.on.cuts
		r := cuts.run
		cuts.sys, cuts.blocked = &sys, b.blocked(r)
		cuts.left, _ = b.leg(r, false)
		cuts.right, _ = b.leg(r, true)
		if c.spacing > 0 {
			cuts.stock.crowd = window{}
		}
		l.lay = cuts.sections(r.Tapers)[l.k].lay(r, cuts.stock, false)
		again.links = append(again.links, l)
	}
	return again
}

// why says which part of a piece has no room for its chairs.
func (s *Stands) why(parts []Footing) string {
	z := s.Zone(parts...)
	miters := s.miters(parts)
	for i, m := range miters {
		if !supportsClear(Supports(s.sys, m)) {
			return "the supports under the miter of corner " + m.Corner.Name + " overlap one another"
		}
		if i > 0 && s.supportsMeet(parts[i].Run, miters[i-1], m) {
			return "the supports under its two miters overlap one another"
		}
		if len(miters) > 1 && m.Corner.Straight() {
			return "it would slope over the " + m.Corner.Word() + " " + m.Corner.Name + " and turn besides"
		}
	}
	for i, p := range parts {
		switch {
		case s.jointBarred(p):
			return "the chair of its joint on run " + p.Run.Name + " would stand on its miter, on a corner support or on what blocks a chair there"
		case s.cost(p, z).Bad > 0:
			return fmt.Sprintf("its part on run %s, %s long, needs a chair within the tested spacing of %s and has no room for it", p.Run.Name, job.Both(p.To-p.From), job.Both(s.spacing(p, z)))
		case i > 0 && i+1 < len(parts) && s.vanishes(p):
			return "its part on run " + p.Run.Name + " has no rear left between its miters"
		}
	}
	return "no chairs of its legs stand so near that the bay round its miter is within the tested spacing"
}

// crowded holds a piece whose chairs no choice of legs makes room for: once, with
// all that it touches.
func (b *builder) crowded(p *Piece) {
	for _, m := range p.Miters {
		c, is := b.crowds[m.Corner]
		if !is || p.Crowded {
			continue
		}
		p.Crowded = true
		mend := "no other leg, spacing, support or chair by itself frees it: have this stretch detailed by hand with the fabricator"
		if len(c.frees) > 0 {
			mend = "would free it: " + strings.Join(c.frees, "; or ")
		}
		b.hold("corner-crowded", m.Corner.Arrive.Job.Right.At, finding.Ref{Perimeter: p.Perimeter.Job.Name, Pieces: []string{p.Mark}},
			"piece "+p.Mark+": "+c.why, "of all legs and joints that the job allows here none leaves room for its chairs", mend)
	}
}

// shortLegs says which legs of a piece are under the job's least, by its leave.
func (b *builder) shortLegs(p *Piece) {
	if p.Kind == Straight || p.Kind == Transition || p.Kind == Tee {
		return
	}
	for i, q := range p.Parts {
		var r legRange
		switch {
		case i == 0 && p.LeftEnd == job.EndTurn:
			r = b.legRange(q.Run, true, b.seams[q.Run.Right.Corner])
		case i == len(p.Parts)-1 && p.RightEnd == job.EndTurn:
			r = b.legRange(q.Run, false, b.seams[q.Run.Left.Corner])
		default:
			continue
		}
		if !r.has() || r.fixed || q.Length() >= r.least {
			continue
		}
		b.found.Append(finding.Finding{Code: "leg-under-least", Severity: finding.Note, At: b.sys.At,
			Where: finding.Ref{Perimeter: p.Perimeter.Job.Name, Run: q.Run.Name, Pieces: []string{p.Mark}},
			What:  "piece " + p.Mark + ": its leg on run " + q.Run.Name + " is " + job.Both(q.Length()) + " long, the job's least is " + job.Both(r.least),
			Why:   "the run is too short for two legs of that length, and `corner: short_leg` gives leave for shorter ones"})
	}
}
