package cap

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
)

// The widths of a chain of runs by dynamic programming over the places where
// its transition pieces can stand. Plans are compared by, in this order: the
// readings whose play the rear leg cannot take up, the transitions, the metal.
// Every reading is covered in all of them.
//
// A run is solved from the side away from its cut pieces: a mirrored job is
// then the same problem, and gets the mirrored answer. The places looked at are
// those at which a best plan can have a transition: hard against a limit of
// its own (a reading it must cover, an obstacle, a leg, the edge of a stretch
// a width can serve), or a least piece from one that is.

// cost of a plan.
type cost struct {
	held   int
	pieces int   // transitions
	area   int64 // inside width by length, in units of half a micrometre each way
}

func (a cost) plus(b cost) cost  { return cost{a.held + b.held, a.pieces + b.pieces, a.area + b.area} }
func (a cost) minus(b cost) cost { return cost{a.held - b.held, a.pieces - b.pieces, a.area - b.area} }

func (a cost) less(b cost) bool {
	switch {
	case a.held != b.held:
		return a.held < b.held
	case a.pieces != b.pieces:
		return a.pieces < b.pieces
	}
	return a.area < b.area
}

// passes reports a cost beyond a limit, whatever the metal.
func (a cost) passes(limit cost) bool {
	return a.held > limit.held || a.held == limit.held && a.pieces > limit.pieces
}

func area(width, along length.Length) int64 { return int64(width/500) * int64(along/500) }

// move is a transition at a candidate place, from one width to another by
// their index.
type move struct {
	w, v int
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

	widths []length.Length
	at     []length.Length // candidate places: where a transition begins, ascending
	moves  [][]move        // at each
	begin  [][]share       // by place and width: the run up to where the taper begins
	end    [][]share       // up to where it ends
	whole  []share         // by width: all of the run
}

// share is what a width costs from a run's beginning to a station, and how
// many readings up to it are not covered.
type share struct {
	cost cost
	bare int
}

func (s *stretch) share(w int, x length.Length) share {
	bare, loose := s.before(s.widths[w], x)
	return share{cost{held: loose, area: area(s.widths[w], length.Min(x, s.cap))}, bare}
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
	for _, w := range widths {
		l, r := quiet.legRange(r, false, w), quiet.legRange(r, true, w)
		if s.turned {
			l, r = r, l
		}
		s.legs[0], s.legs[1] = append(s.legs[0], l), append(s.legs[1], r)
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
func (s *stretch) before(w, x length.Length) (bare, loose int) {
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
	c := cost{pieces: 1}
	for _, e := range []struct{ at, inside length.Length }{{t.From, w}, {t.To, v}} {
		n := s.needAt(e.at)
		if s.f.covering(n) > e.inside {
			return c, false
		}
		if s.f.loosest(n) < e.inside {
			c.held++
		}
	}
	i, _ := slices.BinarySearch(s.x, t.From+1)
	for ; i < len(s.x) && s.x[i] <= t.To; i++ {
		inside := t.at(s.x[i])
		if s.cover[i] > inside {
			return c, false
		}
		if s.loose[i] < inside {
			c.held++
		}
	}
	c.area = area(w+(v-w)/2, t.To-t.From)
	return c, true
}

// stands tells whether a transition may begin at x as far as joints and
// building expansion joints go: both its joints clear of what blocks them, and
// a straight piece between it and a building expansion joint.
func (s *stretch) stands(x length.Length) bool {
	g := s.f.sys.Joint.Gap
	end := x + s.f.sys.Transition.Length
	if inWindow(x-g+g/2, s.blocked) || inWindow(end+g/2, s.blocked) {
		return false
	}
	i := s.section(x)
	if x-g < s.from[i] || end+g > s.to[i] {
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

// roomy tells whether the leg at one end of the run, and straight pieces
// beside it, fill a room.
func (s *stretch) roomy(end, w int, room length.Length) bool {
	l, g := s.legs[end][w], s.f.sys.Joint.Gap
	if l.least > 0 && room >= l.least && room <= l.longest {
		return true
	}
	return room >= l.least+g+s.least
}

// places gathers the candidates and what can be done at each.
func (s *stretch) places() {
	t, g, grid := &s.f.sys.Transition, s.f.sys.Joint.Gap, s.f.grid
	var base []length.Length
	add := func(x length.Length) {
		for _, y := range []length.Length{length.FloorTo(x, grid), length.CeilTo(x, grid)} {
			if y > 0 && y < s.cap && s.stands(y) {
				base = append(base, y)
			}
		}
	}
	kink := func(x length.Length) {
		add(x - t.Leg)
		add(x - t.Length + t.Leg)
	}
	for i := range s.from {
		add(s.from[i] + g + s.least)
		add(s.to[i] - g - s.least - t.Length)
	}
	for _, w := range s.blocked {
		for _, x := range []length.Length{w.from, w.to} {
			add(x + g - g/2)
			add(x - g/2 - t.Length)
		}
	}
	for w := range s.widths {
		for end := range s.legs {
			l := s.legs[end][w]
			for _, room := range []length.Length{l.least, l.longest, l.least + g + s.least} {
				if end == 0 {
					add(room + g)
				} else {
					add(s.cap - room - g - t.Length)
				}
			}
		}
	}
	for i, x := range s.x {
		kink(x)
		if i == 0 || s.x[i-1] == x {
			continue
		}
		for _, w := range s.widths {
			for _, lines := range [][]length.Length{s.cover, s.loose} {
				p, q := lines[i-1], lines[i]
				if p != q && (p-w < 0) != (q-w < 0) {
					kink(s.x[i-1] + length.MulDiv(x-s.x[i-1], int64(w-p), int64(q-p)))
				}
			}
		}
	}
	for i, x := range s.x {
		for _, w := range s.widths {
			for _, v := range s.widths {
				if w == v || length.Abs(w-v) > t.ChangeMost {
					continue
				}
				for _, h := range []length.Length{s.cover[i], s.loose[i]} {
					if (h-w < 0) != (h-v < 0) {
						add(x - t.Leg - length.MulDiv(t.Length-2*t.Leg, int64(h-w), int64(v-w)))
					}
				}
			}
		}
	}
	known := map[length.Length][]move{} // looked up, never gone through
	useful := func(all []length.Length) []length.Length {
		slices.Sort(all)
		return slices.DeleteFunc(slices.Compact(all), func(x length.Length) bool {
			m, ok := known[x]
			if !ok {
				m = s.movesAt(x)
				known[x] = m
			}
			return len(m) == 0
		})
	}
	base = useful(base)
	far := t.Length + 2*g + s.least
	all := slices.Clone(base)
	for _, x := range all {
		for k := length.Length(1); k <= 2; k++ {
			for _, y := range []length.Length{x - k*far, x + k*far} {
				add(y)
			}
		}
	}
	s.at = useful(append(all, base...))
	s.moves = make([][]move, len(s.at))
	for i, x := range s.at {
		s.moves[i] = known[x]
		var begin, end []share
		for w := range s.widths {
			begin = append(begin, s.share(w, x+t.Leg))
			end = append(end, s.share(w, x+t.Length-t.Leg))
		}
		s.begin, s.end = append(s.begin, begin), append(s.end, end)
	}
	for w := range s.widths {
		s.whole = append(s.whole, s.share(w, beyond))
	}
}

func (s *stretch) movesAt(x length.Length) []move {
	out := make([]move, 0, len(s.widths))
	for i, w := range s.widths {
		for k, v := range s.widths {
			if i == k || length.Abs(w-v) > s.f.sys.Transition.ChangeMost {
				continue
			}
			if c, ok := s.move(x, w, v); ok {
				out = append(out, move{i, k, c})
			}
		}
	}
	return out
}

// entry is the best plan up to a run's end in one width.
type entry struct {
	cost cost
	ok   bool
	last int // step of the run; under zero: none, and the width at its beginning is -1-last
}

// step is the best plan whose last transition is this one.
type step struct {
	place, w, v int
	cost        cost // up to the end of its taper
	prev        int  // as entry.last
}

// head is the best plan that a next transition or the run's end can follow.
type head struct {
	cost cost // less what its width costs from the run's beginning
	bare int
	prev int
	ok   bool
}

// pass carries the plans over one run. Those that are worse than the limit
// already, but for the metal, are dropped.
func (s *stretch) pass(in []entry, limit cost) ([]entry, []step) {
	t, g := &s.f.sys.Transition, s.f.sys.Joint.Gap
	far := t.Length + 2*g + s.least
	var steps []step
	heads := make([]head, len(s.widths))
	next := 0
	for i, x := range s.at {
		for ; next < len(steps) && s.at[steps[next].place]+far <= x; next++ {
			p := steps[next]
			e := s.end[p.place][p.v]
			h := head{p.cost.minus(e.cost), e.bare, next, true}
			if o := heads[p.v]; !o.ok || o.bare < h.bare || h.cost.less(o.cost) {
				heads[p.v] = h
			}
		}
		first := len(steps)
		for _, m := range s.moves[i] {
			b := s.begin[i][m.w]
			try := func(h head) {
				if !h.ok || h.bare != b.bare {
					return
				}
				n := step{i, m.w, m.v, h.cost.plus(b.cost).plus(m.cost), h.prev}
				if n.cost.passes(limit) {
					return
				}
				for k := first; k < len(steps); k++ {
					if steps[k].v == m.v {
						if n.cost.less(steps[k].cost) {
							steps[k] = n
						}
						return
					}
				}
				steps = append(steps, n)
			}
			if s.section(x) > 0 || s.roomy(0, m.w, x-g) {
				try(head{in[m.w].cost, 0, -1 - m.w, in[m.w].ok})
			}
			try(heads[m.w])
		}
	}
	out := make([]entry, len(s.widths))
	for w := range s.widths {
		all := s.whole[w]
		if in[w].ok && all.bare == 0 {
			out[w] = entry{in[w].cost.plus(all.cost), true, -1 - w}
		}
		for k, p := range steps {
			if p.v != w {
				continue
			}
			x := s.at[p.place]
			e := s.end[p.place][w]
			if e.bare != all.bare || s.section(x) == len(s.to)-1 && !s.roomy(1, w, s.cap-x-t.Length-g) {
				continue
			}
			if n := (entry{p.cost.plus(all.cost.minus(e.cost)), true, k}); !out[w].ok || n.cost.less(out[w].cost) {
				out[w] = n
			}
		}
	}
	return out, steps
}

// split finds the best plan of the chain in the widths given and sets it.
func (f *frame) split(widths []length.Length) {
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
	if !f.chain.ring {
		for w := range in {
			in[w].ok = true
		}
		best := f.carry(all, in, limit)
		best.set()
		return
	}
	var best *plan
	for w := range widths {
		for k := range in {
			in[k] = entry{ok: k == w}
		}
		p := f.carry(all, in, limit)
		p.choose(w)
		if p.end.ok && (best == nil || p.end.cost.less(best.end.cost)) {
			best, limit = p, p.end.cost
		}
	}
	best.set()
}

// plan is a solved chain.
type plan struct {
	all   []*stretch
	out   [][]entry // by run
	steps [][]step
	w     int // width at the end
	end   entry
}

// carry passes over all runs of a chain; the best end is chosen.
func (f *frame) carry(all []*stretch, in []entry, limit cost) *plan {
	p := &plan{all: all}
	for _, s := range all {
		out, steps := s.pass(in, limit)
		p.out, p.steps = append(p.out, out), append(p.steps, steps)
		in = out
	}
	for w, e := range in {
		if e.ok && (!p.end.ok || e.cost.less(p.end.cost)) {
			p.w, p.end = w, e
		}
	}
	return p
}

// choose takes the plan that ends in one width.
func (p *plan) choose(w int) { p.w, p.end = w, p.out[len(p.out)-1][w] }

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
		w = -1 - last
		slices.Reverse(tapers)
		s.set(s.widths[w], tapers)
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

// legRange is what the leg at one end of a run may be in one inside width.
func (b *builder) legRange(r *Run, right bool, inside length.Length) legRange {
	e := r.Left
	if right {
		e = r.Right
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
		return legRange{short, least, length.Max(least, b.sys.Corner.LongestLeg)}
	}
	if e.Corner.Absorb {
		h := -b.sys.Joint.Gap / 2
		return legRange{h, h, h}
	}
	l := b.legsOf(e.Corner, inside)
	return legRange{l.Short, l.Least, l.Longest}
}
