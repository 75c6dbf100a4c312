package cap

import (
	"math"
	"slices"

	"copingset/layout/length"
)

// The widths of a chain of runs by dynamic programming over the places where
// its transition pieces can stand. Plans are compared by, in this order: the
// readings whose play the rear leg cannot take up, the transitions, the corners
// of two widths, the metal. A transition is one more piece to make and to set; a
// corner of two widths costs no more than another, but a fold stands off its
// neighbour there. Every reading is covered in all plans.
//
// A run is solved from the side away from its cut pieces: a mirrored job is
// then the same problem, and gets the mirrored answer. The places looked at are
// those at which a best plan can have a transition: hard against a limit of
// its own (a reading it must cover, an obstacle, a leg, the edge of a stretch
// a width can serve), or a least piece from one that is.

// cost of a plan.
type cost struct {
	held    int32
	pieces  int32 // transitions
	corners int32 // of two widths
	area    int64 // inside width by length, in units of half a micrometre each way
}

func (a cost) plus(b cost) cost {
	return cost{a.held + b.held, a.pieces + b.pieces, a.corners + b.corners, a.area + b.area}
}

func (a cost) minus(b cost) cost {
	return cost{a.held - b.held, a.pieces - b.pieces, a.corners - b.corners, a.area - b.area}
}

func (a cost) less(b cost) bool {
	switch {
	case a.held != b.held:
		return a.held < b.held
	case a.pieces != b.pieces:
		return a.pieces < b.pieces
	case a.corners != b.corners:
		return a.corners < b.corners
	}
	return a.area < b.area
}

// passes reports a cost beyond a limit.
func (a cost) passes(limit cost) bool { return limit.less(a) }

// anyMetal is the area of a limit that no plan is known to keep to: more than
// any roof has, so that plans are not judged by their metal.
const anyMetal = math.MaxInt64 / 4

func area(width, along length.Length) int64 { return int64(width/500) * int64(along/500) }

// move is a transition at a candidate place, from one width to another by
// their index.
type move struct {
	w, v int16
	cost cost
}

// stretch is a run in the direction of solving.
type stretch struct {
	f        *frame
	run      *Run
	turned   bool
	cap      length.Length
	x        []length.Length // stations of readings, ascending
	need     []length.Length
	cover    []length.Length // least inside width at each reading
	loose    []length.Length // greatest
	from, to []length.Length // sections between building expansion joints
	blocked  []window        // joint centres
	least    length.Length   // least straight piece
	legs     [2][]legRange   // at the beginning and the end, by width
	meets    [][]bool        // the widths that may follow each round the corner at the end; nil: each only itself

	widths []length.Length
	counts []counted       // by number of readings and width
	at     []length.Length // candidate places: where a transition begins, ascending
	block  []move          // room for the moves of the next places
	moves  [][]move        // at each
	ahead  []cost          // by place and width: what the rest of the run costs at least
	free   []cost          // filled by a pass where it is not nil: the plans up to each place and width
	begin  []share         // by place and width: the run up to where the taper begins
	end    []share         // up to where it ends
	whole  []share         // by width: all of the run
}

// share is what a width costs from a run's beginning to a station, and how
// many readings up to it are not covered.
type share struct {
	cost cost
	bare int32
}

// shares gives what each width costs from the run's beginning to a station.
func (s *stretch) shares(out []share, x length.Length) []share {
	i, _ := slices.BinarySearch(s.x, x+1)
	for w, inside := range s.widths {
		c := s.counts[i*len(s.widths)+w]
		out = append(out, share{cost{held: c.loose, area: area(inside, length.Min(x, s.cap))}, c.bare})
	}
	return out
}

// counted is how many readings a width leaves uncovered and too loose.
type counted struct{ bare, loose int32 }

// count fills counts: by the number of readings passed, and by width.
func (s *stretch) count() {
	n := len(s.widths)
	s.counts = make([]counted, n, n*(len(s.x)+1))
	for i := range s.x {
		for w, inside := range s.widths {
			c := s.counts[i*n+w]
			if s.cover[i] > inside {
				c.bare++
			}
			if s.loose[i] < inside {
				c.loose++
			}
			s.counts = append(s.counts, c)
		}
	}
}

// stretchOf turns a run round where the solving goes from the right.
func (f *frame) stretchOf(b *builder, r *Run, widths []length.Length) *stretch {
	s := &stretch{f: f, run: r, turned: b.closerLeft(), cap: r.Cap, widths: widths}
	at := func(x length.Length) length.Length {
		if s.turned {
			return r.Cap - x
		}
		return x
	}
	for _, q := range r.Readings {
		s.x = append(s.x, at(r.ToCap(q.Station)))
		s.need = append(s.need, q.Need)
	}
	quiet := &builder{job: b.job, sys: b.sys, runs: b.runs, grid: b.grid} // Build says again what is wrong with a joint
	joints := quiet.expansion(r)
	from := length.Length(0)
	if s.turned {
		slices.Reverse(s.x)
		slices.Reverse(s.need)
		slices.Reverse(joints)
	}
	for _, j := range joints {
		a, z := at(j.From), at(j.To)
		s.from, s.to = append(s.from, from), append(s.to, length.Min(a, z))
		from = length.Max(a, z)
	}
	s.from, s.to = append(s.from, from), append(s.to, r.Cap)
	for _, w := range b.blocked(r) {
		s.blocked = append(s.blocked, window{length.Min(at(w.from), at(w.to)), length.Max(at(w.from), at(w.to))})
	}
	s.least = b.leastPiece(len(joints) > 0)
	for _, n := range s.need {
		s.cover = append(s.cover, f.covering(n))
		s.loose = append(s.loose, f.loosest(n))
	}
	left, right := f.pairs(quiet, r.Left.Corner), f.pairs(quiet, r.Right.Corner)
	for w, inside := range widths {
		var before, behind []Seam // a leg has to serve whatever width it meets
		for v, other := range widths {
			if r.Left.Corner != nil && (v == w || left != nil && left[v][w]) {
				before = append(before, Seam{r.Left.Corner, [2]length.Length{other, inside}})
			}
			if r.Right.Corner != nil && (v == w || right != nil && right[w][v]) {
				behind = append(behind, Seam{r.Right.Corner, [2]length.Length{inside, other}})
			}
		}
		l, r := quiet.legRange(r, false, before...), quiet.legRange(r, true, behind...)
		if s.turned {
			l, r = r, l
		}
		s.legs[0], s.legs[1] = append(s.legs[0], l), append(s.legs[1], r)
	}
	s.meets = right
	if s.turned {
		s.meets = transposed(left)
	}
	return s
}

// needAt is the need between readings, worked as wall.Run.At does.
func (s *stretch) needAt(x length.Length) length.Length {
	n := len(s.x)
	i, _ := slices.BinarySearch(s.x, x)
	switch {
	case n == 0:
		return 0
	case i == 0:
		return s.need[0]
	case i == n:
		return s.need[n-1]
	}
	a, b, p, q := s.x[i-1], s.x[i], s.need[i-1], s.need[i]
	if q < p {
		return q + length.MulDiv(p-q, int64(b-x), int64(b-a))
	}
	return p + length.MulDiv(q-p, int64(x-a), int64(b-a))
}

// before counts the readings up to x that a width does not cover, and those
// it leaves too loose.
func (s *stretch) before(w, x length.Length) (bare, loose int32) {
	for i, at := range s.x {
		if at > x {
			break
		}
		if s.cover[i] > w {
			bare++
		}
		if s.loose[i] < w {
			loose++
		}
	}
	return bare, loose
}

// beyond is past any run's end.
const beyond = length.Length(1) << 60

// taper of a transition that begins at x.
func (s *stretch) taper(x, w, v length.Length) Taper {
	t := &s.f.sys.Transition
	return Taper{From: x + t.Leg, To: x + t.Length - t.Leg, Left: w, Right: v}
}

// move tries a transition at x: whether it covers all it stands on, and what
// it leaves loose. Readings up to its taper's beginning count with the width
// before, those after its end with the width behind.
func (s *stretch) move(x, w, v length.Length) (cost, bool) {
	t := s.taper(x, w, v)
	from, to := s.needAt(t.From), s.needAt(t.To)
	if s.f.covering(from) > w || s.f.covering(to) > v {
		return cost{}, false
	}
	return s.taperCost(t, from, to)
}

// taperCost is move for a taper whose two ends cover their needs.
func (s *stretch) taperCost(t Taper, from, to length.Length) (cost, bool) {
	c := cost{pieces: 1}
	if s.f.loosest(from) < t.Left {
		c.held++
	}
	if s.f.loosest(to) < t.Right {
		c.held++
	}
	wide, narrow := t.Wide(), t.Narrow()
	i, _ := slices.BinarySearch(s.x, t.From+1)
	for ; i < len(s.x) && s.x[i] <= t.To; i++ {
		cover, loose := s.cover[i], s.loose[i]
		switch {
		case cover > wide:
			return c, false
		case cover <= narrow && loose >= wide:
			continue
		}
		inside := t.at(s.x[i])
		if cover > inside {
			return c, false
		}
		if loose < inside {
			c.held++
		}
	}
	c.area = area(t.Left+(t.Right-t.Left)/2, t.To-t.From)
	return c, true
}

// stands tells whether a transition may begin at x as far as joints and
// building expansion joints go: both its joints clear of what blocks them, and
// a straight piece between it and a building expansion joint. None stands in a
// run that a branch meets: where its tee stands follows from the run's width.
func (s *stretch) stands(x length.Length) bool {
	g := s.f.sys.Joint.Gap
	end := x + s.f.sys.Transition.Length
	if inWindow(x-g+g/2, s.blocked) || inWindow(end+g/2, s.blocked) {
		return false
	}
	i := s.section(x)
	if s.run.crossed || x-g < s.from[i] || end+g > s.to[i] {
		return false
	}
	return (i == 0 || x-g-s.from[i] >= s.least) && (i == len(s.to)-1 || s.to[i]-end-g >= s.least)
}

// section is the index of the section a station lies in.
func (s *stretch) section(x length.Length) int {
	i := len(s.from) - 1
	for i > 0 && x < s.from[i] {
		i--
	}
	return i
}

// entry is the best plan up to a run's end in one width.
type entry struct {
	cost cost
	ok   bool
	last int32 // step of the run; under zero: none, and the width at its beginning is -1-last
}

// step is the best plan whose last transition is this one.
type step struct {
	place int32
	prev  int32 // as entry.last
	w, v  int16
	cost  cost // up to the end of its taper
}

// head is the best plan that a next transition or the run's end can follow.
type head struct {
	cost cost // less what its width costs from the run's beginning
	bare int32
	prev int32
	ok   bool
}

// pass carries the plans over one run. Those that are worse than the limit
// already are dropped, and so are those that a plan which
// comes to the same width earlier is no dearer than: whatever can follow the
// one can follow the other. The steps are overwritten by the next pass.
func (s *stretch) pass(in []entry, limit cost) ([]entry, []step) {
	t, g := &s.f.sys.Transition, s.f.sys.Joint.Gap
	far := t.Length + 2*g + s.least
	n := len(s.widths)
	steps := s.f.steps[:0]
	heads, best := make([]head, n), make([]head, n)
	// what a transition at this place can follow; the best to each width
	first, here := make([]head, n), make([]step, n)
	next := 0
	for i, x := range s.at {
		for ; next < len(steps) && s.at[steps[next].place]+far <= x; next++ {
			p := steps[next]
			e := s.end[int(p.place)*n+int(p.v)]
			if h := (head{p.cost.minus(e.cost), e.bare, int32(next), true}); h.betters(heads[p.v]) {
				heads[p.v] = h
			}
		}
		inner := s.section(x) > 0
		any := false
		for w := range first {
			b, h := s.begin[i*n+w], &first[w]
			h.ok = false
			if in[w].ok && b.bare == 0 && (inner || s.roomy(0, w, x-g)) {
				*h = head{in[w].cost.plus(b.cost), 0, -1 - int32(w), true}
			}
			if o := heads[w]; o.ok && o.bare == b.bare {
				if c := o.cost.plus(b.cost); !h.ok || c.less(h.cost) {
					*h = head{c, 0, o.prev, true}
				}
			}
			if s.free != nil && h.ok {
				s.free[i*n+w] = h.cost
			}
			if s.ahead != nil {
				h.ok = h.ok && !h.cost.plus(s.ahead[i*n+w]).passes(limit)
			}
			h.ok = h.ok && !h.cost.passes(limit)
			any = any || h.ok
		}
		if !any {
			continue
		}
		for v := range here {
			here[v].place = -1
		}
		for k := range s.moves[i] {
			m := &s.moves[i][k]
			h := &first[m.w]
			if !h.ok {
				continue
			}
			c := h.cost.plus(m.cost)
			if q := &here[m.v]; !c.passes(limit) && (q.place < 0 || c.less(q.cost)) {
				*q = step{int32(i), h.prev, m.w, m.v, c}
			}
		}
		last := s.section(x) == len(s.to)-1
		for v, p := range here {
			if p.place < 0 {
				continue
			}
			e := s.end[i*n+v]
			h := head{p.cost.minus(e.cost), e.bare, 0, true}
			switch {
			case h.betters(best[v]):
				best[v] = h
			case !last || s.cap-x-t.Length-g >= s.legs[1][v].least+g+s.least:
				continue // the earlier one has room before the run's end too
			}
			steps = append(steps, p)
		}
	}
	out := make([]entry, n)
	for w := range out {
		if all := s.whole[w]; in[w].ok && all.bare == 0 {
			out[w] = entry{in[w].cost.plus(all.cost), true, -1 - int32(w)}
		}
	}
	for k, p := range steps {
		x, w := s.at[p.place], int(p.v)
		e, all := s.end[int(p.place)*n+w], s.whole[w]
		if e.bare != all.bare || s.section(x) == len(s.to)-1 && !s.roomy(1, w, s.cap-x-t.Length-g) {
			continue
		}
		if c := (entry{p.cost.plus(all.cost.minus(e.cost)), true, int32(k)}); !out[w].ok || c.cost.less(out[w].cost) {
			out[w] = c
		}
	}
	s.f.steps = steps
	return out, steps
}

// bound finds what a run costs at least, whatever the widths at its ends, and
// from that what is ahead of each place in it: no less than the whole, less
// the best way to come there.
func (s *stretch) bound(limit cost) (least cost) {
	in := make([]entry, len(s.widths))
	for w := range in {
		in[w].ok = true
	}
	s.free = make([]cost, len(s.at)*len(s.widths))
	out, _ := s.pass(in, limit)
	best := entry{}
	for _, e := range out {
		if e.ok && (!best.ok || e.cost.less(best.cost)) {
			best = e
		}
	}
	s.ahead, s.free = s.free, nil
	for i, c := range s.ahead {
		s.ahead[i] = best.cost.minus(c)
	}
	return best.cost
}

// betters tells whether a later head serves better than one before it: that
// one leaves a reading since uncovered, or it is dearer.
func (h head) betters(o head) bool { return !o.ok || o.bare < h.bare || h.cost.less(o.cost) }

// split finds the best plan of the chain in the widths given and sets it.
func (f *frame) split(widths []length.Length) {
	f.widths = widths
	for _, r := range f.chain.runs {
		choose(f.job, f.demand, r, widths)
	}
	b := &builder{job: f.job, sys: f.sys, runs: f.all, grid: f.grid}
	var all []*stretch
	for _, r := range f.chain.runs {
		s := f.stretchOf(b, r, widths)
		s.places()
		r.lay = s
		all = append(all, s)
	}
	if b.closerLeft() {
		slices.Reverse(all)
	}
	in := make([]entry, len(widths))
	var limit cost // of the widest all round
	for _, s := range all {
		limit = limit.plus(s.whole[len(widths)-1].cost)
	}
	limit.area = anyMetal // the widest may not serve
	if !f.chain.ring {
		for w := range in {
			in[w].ok = true
		}
		best := f.carry(all, in, limit, make([]cost, len(all)+1), true)
		best.set()
		return
	}
	ahead := make([]cost, len(all)+1)
	for i := len(all) - 1; i >= 0; i-- {
		ahead[i] = ahead[i+1].plus(all[i].bound(limit))
	}
	var best entry
	from := 0
	start := func(w int, keep bool) *plan {
		for k := range in {
			in[k] = entry{ok: k == w}
		}
		p := f.carry(all, in, limit, ahead, keep)
		p.close(w)
		return p
	}
	// The width that an open chain would end in sets the limit for all.
	for w := range in {
		in[w].ok = true
	}
	if p := start(f.carry(all, in, limit, ahead, false).w, false); p.end.ok {
		limit = p.end.cost
	}
	for w := range widths {
		if p := start(w, false); p.end.ok && (!best.ok || p.end.cost.less(best.cost)) {
			best, from, limit = p.end, w, p.end.cost
		}
	}
	start(from, true).set()
}

// plan is a solved chain.
type plan struct {
	all   []*stretch
	out   [][]entry // by run
	from  [][]int   // by run: the width at its end that each width at the next one's beginning follows
	steps [][]step
	w     int // width at the end
	end   entry
}

// carry passes over all runs of a chain; the best end is chosen. What is ahead
// of each run costs so much at least. A plan that is to be set keeps its steps.
func (f *frame) carry(all []*stretch, in []entry, limit cost, ahead []cost, keep bool) *plan {
	p := &plan{all: all}
	for i, s := range all {
		out, steps := s.pass(in, limit.minus(ahead[i+1]))
		if keep {
			p.steps = append(p.steps, slices.Clone(steps))
		}
		next, from := s.round(out)
		p.out, p.from = append(p.out, out), append(p.from, from)
		in = next
	}
	for w, e := range p.out[len(all)-1] {
		if e.ok && (!p.end.ok || e.cost.less(p.end.cost)) {
			p.w, p.end = w, e
		}
	}
	return p
}

// close takes the plan of a ring that comes back to the width it began in.
func (p *plan) close(w int) {
	n := len(p.out) - 1
	back, from := p.all[n].round(p.out[n])
	p.w, p.end = from[w], back[w]
}

// set gives the runs their bands, back from the end.
func (p *plan) set() {
	w := p.w
	for i := len(p.all) - 1; i >= 0; i-- {
		s := p.all[i]
		var tapers []Taper
		last := p.out[i][w].last
		for last >= 0 {
			t := p.steps[i][last]
			tapers = append(tapers, s.taper(s.at[t.place], s.widths[t.w], s.widths[t.v]))
			last = t.prev
		}
		w = int(-1 - last)
		slices.Reverse(tapers)
		s.set(s.widths[w], tapers)
		if i > 0 {
			w = p.from[i-1][w]
		}
	}
}

// set gives the run its bands: first is the width where solving began.
func (s *stretch) set(first length.Length, tapers []Taper) {
	if s.turned {
		tapers = slices.Clone(tapers)
		slices.Reverse(tapers)
		for i, t := range tapers {
			tapers[i] = Taper{s.cap - t.To, s.cap - t.From, t.Right, t.Left}
		}
		if len(tapers) > 0 {
			first = tapers[0].Left
		}
	}
	s.run.setBands(first, tapers, s.f.sys.Metal.Thickness)
}

// leastPiece is the least straight piece of a run: one beside a building
// expansion joint carries that joint's chair too.
func (b *builder) leastPiece(expansion bool) length.Length {
	if !expansion {
		return b.sys.LeastPiece
	}
	return length.Max(b.sys.LeastPiece, b.sys.Expansion.ChairFrom+b.sys.Chair.Length-b.sys.Joint.Gap/2)
}
