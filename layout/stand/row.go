package stand

import (
	"slices"

	"copingset/layout/length"
)

// Why tells why a row cannot stand.
type Why int

// The reasons.
const (
	Stands  Why = iota
	Crowded     // no room for a chair beside the others
	Blocked     // there would be room, but for the bars
)

func (w Why) String() string { return [...]string{"stands", "crowded", "blocked"}[w] }

// Laid is a row of chairs between the two stands of a part.
type Laid struct {
	At   []length.Length // centres, in station order; those of the ends are not among them
	Step length.Length   // that the centres stand on, from the first stand or the metal's edge
}

// Row places the fewest chairs between the two ends of a part, and p.More beyond
// that, on a step. Bays are equal where the equal bay is at or under the tested
// spacing. Else the chairs stand from the metal's edges, on half the step: inner
// bays are at most the spacing, to the nanometre, and only a bay that ends at a
// joint has half its gap more, since so much less of it is metal. What is barred
// moves to the nearest free place that leaves all bays within their bounds.
//
// A mirrored part has the mirrored row.
func Row(p Part, step length.Length) (Laid, Why) { return sided(p, step, row) }

// Fullest is Row with as many chairs as have room.
func Fullest(p Part, step length.Length) (Laid, Why) {
	return sided(p, step, func(p Part, step length.Length) (Laid, Why) {
		for n := p.most(step); n >= p.least(); n-- {
			if r, ok := p.chairs(n, step); ok {
				return r, Stands
			}
		}
		return row(p, step)
	})
}

// Spared is Row where no row stands: of n chairs as many as have room, spread over the
// part, whatever the spacing asks for.
func Spared(p Part, n int, step length.Length) Laid {
	p.Spacing, p.Alone = length.Max(p.Spacing, p.Span()), 0
	for i := range p.Ends {
		p.Ends[i].Far = p.Spacing
	}
	r, _ := sided(p, step, func(p Part, step length.Length) (Laid, Why) {
		for n := min(n, p.most(step)); n > 0; n-- {
			if r, ok := p.chairs(n, step); ok {
				return r, Stands
			}
		}
		return Laid{Step: step}, Stands
	})
	return r
}

// sided places the chairs of a part whose odd steps go to the left as those of its mirror
// image.
func sided(p Part, step length.Length, row func(Part, length.Length) (Laid, Why)) (Laid, Why) {
	if !p.Left {
		return row(p, step)
	}
	r, why := row(p.mirrored(), step)
	for i := range r.At {
		r.At[i] = -r.At[i]
	}
	slices.Reverse(r.At)
	return r, why
}

// most is a number of chairs above which no row stands. Two chairs are a step apart at
// least, so that there is an end to trying where one is taken to have no length and its
// end allows it nowhere.
func (p Part) most(step length.Length) int {
	if p.Span() < 0 {
		return -1
	}
	return int(p.Span()/length.Max(p.Chair, step)) + 1
}

// row is Row with odd steps at the right.
func row(p Part, step length.Length) (Laid, Why) {
	if r, ok := fewest(p, step); ok {
		return r, Stands
	}
	if len(p.Bars) > 0 {
		free := p
		free.Bars = nil
		if _, ok := fewest(free, step); ok {
			return Laid{}, Blocked
		}
	}
	return Laid{}, Crowded
}

// fewest tries more and more chairs until some row of them stands.
func fewest(p Part, step length.Length) (Laid, bool) {
	first := -1
	for n := p.least(); n <= p.most(step); n++ {
		r, ok := p.chairs(n, step)
		if !ok {
			continue
		}
		if first < 0 {
			first = n
		}
		if n >= first+p.More {
			return r, true
		}
	}
	return Laid{}, false
}

// least is a number of chairs under which no row stands: what the spacing asks of
// the part's metal, what lies beyond a chair at its end included, and of the way
// from end to end, half joints left out.
func (p Part) least() int {
	reach := p.Span() - p.Ends[0].joint(true) - p.Ends[1].joint(false)
	for _, e := range p.Ends {
		if !e.Chair {
			reach -= length.Max(0, e.Far-p.Spacing)
		}
	}
	reach = length.Max(reach, p.Metal())
	return max(0, int((reach+p.Spacing-1)/p.Spacing)-1)
}

// way is one of the ways to count the places of a row: on a step, from a station.
// The loose one has half gaps in the bays that end at a joint.
type way struct {
	step, origin length.Length
	loose        bool
}

// ways are those of a part, best first.
func (p Part) ways(step length.Length) []way {
	w := way{step / 2, p.Ends[0].At, false}
	if p.Ends[0].joint(true) > 0 || p.Ends[1].joint(false) > 0 {
		w.origin, w.loose = p.Ends[0].Edge, true
	}
	return []way{{step, p.Ends[0].At, false}, w}
}

// chairs places n of them, in equal bays if those are within the spacing, else
// from the metal's edges on half the step.
func (p Part) chairs(n int, step length.Length) (Laid, bool) {
	for _, w := range p.ways(step) {
		if r, ok := p.lay(n, w); ok {
			return r, true
		}
	}
	return Laid{}, false
}

// bound is how long a bay may be.
type bound struct{ least, most length.Length }

// bay is the bound of the bay at one end: with loose, a joint's half gap more.
func (p Part) bay(end, n int, loose bool) bound {
	e, other := p.Ends[end], p.Ends[1-end]
	if !e.Chair {
		b := bound{e.Near, e.Far}
		if n == 0 {
			b.least = 0 // the chair at the other end is not this part's to place
			if loose && other.Chair {
				b.most += other.joint(end == 1)
			}
		}
		return b
	}
	b := bound{p.Chair, p.Spacing}
	if loose {
		b.most += e.joint(end == 0)
		if n == 0 && other.Chair {
			b.most += other.joint(end == 1)
		}
	}
	if n == 0 {
		b.least = 0
	}
	return b
}

// lay places n chairs on a step counted from a station.
func (p Part) lay(n int, w way) (Laid, bool) {
	r := Laid{Step: w.step}
	if n == 0 {
		return r, p.Span() <= p.one(w.loose)
	}
	reach, ok := p.reach(n, w)
	if !ok {
		return Laid{}, false
	}
	least, most := p.steps(w.step)
	from := reach[0]
	for i, want := range p.targets(n, w) {
		x := from.nearest(want-w.origin, w.step)
		r.At = append(r.At, w.origin+length.Length(x)*w.step)
		if i+1 < n {
			from = reach[i+1].within(x+least, x+most)
		}
	}
	return r, true
}

// one is how long the only bay may be where no chair stands between the ends: a
// miter's Far holds where one of them is a miter, and the lesser where both are.
func (p Part) one(loose bool) length.Length {
	first, last := p.bay(0, 0, loose).most, p.bay(1, 0, loose).most
	switch {
	case p.Ends[0].Chair && !p.Ends[1].Chair:
		return last
	case p.Ends[1].Chair && !p.Ends[0].Chair:
		return first
	case !p.Ends[0].Chair && p.Alone > 0:
		return p.Alone
	}
	return length.Min(first, last)
}

// steps are the least and the most steps between two chairs of a row.
func (p Part) steps(step length.Length) (least, most int64) {
	return int64((p.Chair + step - 1) / step), int64(p.Spacing / step)
}

// reach is where each of n chairs can stand, so that all others can too.
func (p Part) reach(n int, w way) ([]set, bool) {
	first, last := p.bay(0, n, w.loose), p.bay(1, n, w.loose)
	up := func(x length.Length) int64 { return int64(length.CeilTo(x-w.origin, w.step) / w.step) }
	down := func(x length.Length) int64 { return int64(length.FloorTo(x-w.origin, w.step) / w.step) }
	a, z := p.Ends[0].At, p.Ends[1].At
	least, most := p.steps(w.step)
	reach := make([]set, n)
	reach[0] = set{}.add(stretch{up(a + first.least), down(a + first.most)}).without(p.Bars, up, down)
	for i := 1; i < n; i++ {
		reach[i] = reach[i-1].grown(least, most).without(p.Bars, up, down)
	}
	reach[n-1] = reach[n-1].within(up(z-last.most), down(z-last.least))
	for i := n - 2; i >= 0; i-- {
		reach[i] = reach[i].among(reach[i+1].grown(-most, -least))
	}
	return reach, len(reach[0]) > 0
}

// targets are where n chairs would stand with nothing in the way: evenly, or beside the
// ends that they hug.
func (p Part) targets(n int, w way) []length.Length {
	at, span := p.Ends[0].At, p.Span()
	if w.loose {
		at, span = p.Ends[0].Edge, p.Metal()
	}
	out := make([]length.Length, 0, n)
	for _, l := range length.Split(span, n+1, w.step, false)[:n] {
		at += l
		out = append(out, at)
	}
	// Those that hug both ends are halved; the odd one stays in the middle.
	first, last := 0, 0
	switch p.Hugs {
	case [2]bool{true, false}:
		first = n
	case [2]bool{false, true}:
		last = n
	case [2]bool{true, true}:
		first, last = n/2, n/2
	}
	for i := range first {
		out[i] = p.Ends[0].At + p.Ends[0].Near + length.Length(i)*p.Chair
	}
	for i := range last {
		out[n-1-i] = p.Ends[1].At - p.Ends[1].Near - length.Length(i)*p.Chair
	}
	return out
}

// set is a set of whole steps: stretches with both ends in, ascending, apart.
type set []stretch

type stretch struct{ from, to int64 }

// grown is every place that lies between least and most beyond one of the set.
func (s set) grown(least, most int64) set {
	var out set
	for _, t := range s {
		out = out.add(stretch{t.from + least, t.to + most})
	}
	return out
}

// add puts a stretch behind the others and joins it to the last if they meet.
func (s set) add(t stretch) set {
	if t.from > t.to {
		return s
	}
	if k := len(s) - 1; k >= 0 && t.from <= s[k].to+1 {
		s[k].to = max(s[k].to, t.to)
		return s
	}
	return append(s, t)
}

// within is what of a set lies between two places, both in.
func (s set) within(from, to int64) set {
	var out set
	for _, t := range s {
		out = out.add(stretch{max(t.from, from), min(t.to, to)})
	}
	return out
}

// among is what two sets have in common.
func (s set) among(o set) set {
	var out set
	for _, t := range o {
		for _, u := range s.within(t.from, t.to) {
			out = out.add(u)
		}
	}
	return out
}

// without leaves out what lies in a bar, whose own ends are free.
func (s set) without(bars []Bar, up, down func(length.Length) int64) set {
	for _, b := range bars {
		from, to := down(b.From), up(b.To)
		var out set
		for _, t := range s {
			if t.to > from {
				out = append(out, set{}.add(stretch{t.from, min(t.to, from)})...)
				out = append(out, set{}.add(stretch{max(t.from, to, from+1), t.to})...)
				continue
			}
			out = append(out, t)
		}
		s = out
	}
	return s
}

// nearest is the place of a set nearest to one off the steps. Of two alike it is
// the one farther left, so that what is over lies at the right.
func (s set) nearest(want, step length.Length) int64 {
	low := int64(length.FloorTo(want, step) / step)
	best, found := int64(0), false
	off := func(x int64) length.Length { return length.Abs(want - length.Length(x)*step) }
	for _, t := range s {
		for _, x := range []int64{low, low + 1} {
			x = min(max(x, t.from), t.to)
			if !found || off(x) < off(best) {
				best, found = x, true
			}
		}
	}
	return best
}
