// Package short chooses the legs and joints of neighbouring short runs together,
// where the usual ones do not stand.
//
// Package cap lays every short run out by itself: legs as near alike as the job
// allows, one joint, or one piece. That is right nearly everywhere, and what it
// makes is kept wherever it stands. Where a chair, a support or a load does not, the
// runs from one straight piece to the next are a stretch, and their ways are searched
// by stand.Legs: the place of each joint, runs that become one piece with their
// neighbours, longer legs at both ends. Every piece and joint is laid out and
// loaded as in the layout, by packages cap and anchor, so that nothing is
// chosen which they would hold. What no place mends is left out of the judgment (a chair
// that could not carry the least bay, a corner where no legs are held), and where no ways
// free a stretch of all the rest, those are taken where every chair has its place.
package short

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
	"copingset/layout/wind"
)

// Laid is one perimeter as it was laid out: its runs and pieces, what stands under
// them, and what was found on the way. By are the ways that are not the usual ones.
type Laid struct {
	Runs         []*cap.Run
	Pieces       []*cap.Piece
	Standing     anchor.Standing
	Caps, Stands finding.List // by package cap, by package anchor
	By           cap.Ways
}

// lay lays out runs that have their widths.
func lay(j *job.Job, d wind.Demand, runs []*cap.Run, grid length.Length, ways cap.Ways) Laid {
	p := Laid{Runs: runs, By: ways}
	p.Pieces, p.Caps = cap.BuildBy(j, runs, grid, ways)
	p.Standing, p.Stands = anchor.Build(j, d, runs, p.Pieces, grid)
	return p
}

// legUnder is the hold on legs that the job has to give leave for.
const legUnder = "leg-under"

// holds counts what keeps pieces from release, but for leave that may be given.
func (p Laid) holds() int {
	n := 0
	for _, all := range []finding.List{p.Caps, p.Stands} {
		for _, f := range all {
			if f.Severity == finding.Hold && f.Code != legUnder {
				n++
			}
		}
	}
	return n
}

// How many pieces and joints are tried in one stretch, and where a change of the system is
// tried that might free it; and how many chairs are stood for each on the average. A search
// ends at whichever comes first: where chairs hold next to nothing, one piece alone is
// stood with more and more of them.
const (
	most       = 6000
	mostChange = 300
	stoodEach  = 10
)

// Settle lays the stretches of a perimeter that are in trouble out in other ways, if any
// stand, and says of the others what was tried and which one change would free them. Of
// what nothing frees, the ways are taken that hold for less. The perimeter given stays as
// it is.
func Settle(j *job.Job, d wind.Demand, p Laid, grid length.Length) Laid {
	q, left := settle(j, d, p, grid, most, true)
	return explained(j, d, q, grid, left)
}

// settle also returns the stretches that are left in trouble. With best, ways that free a
// stretch of some of it are looked for too.
func settle(j *job.Job, d wind.Demand, p Laid, grid length.Length, most int, best bool) (Laid, []*stretch) {
	bad, under := troubled(p), unallowed(p)
	if len(bad)+len(under) == 0 && !slices.ContainsFunc(p.Caps, noFit) {
		return p, nil
	}
	s := newSearch(j, d, p.Runs, grid)
	if s == nil {
		return p, nil
	}
	s.most = most
	var all, left []*stretch
	for _, t := range s.stretches() {
		t.heat(p, bad, under)
		switch trouble := t.troubled(p, bad); {
		case !trouble && !t.touched(p.Runs, under):
		case t.solve(trouble), trouble && best && t.better(p, bad):
			all = append(all, t)
		case trouble:
			left = append(left, t)
		}
	}
	for len(all) > 0 {
		ways := cap.Ways{}
		for _, t := range all {
			merge(ways, t.chosen)
		}
		q := lay(j, d, s.caps.Fresh(), grid, ways)
		// Two stretches share the run between them, and what stood in a part of the
		// perimeter has to stand in the whole.
		bad := troubled(q)
		stands := func(t *stretch) bool { return !t.troubled(q, bad) }
		freed := func(t *stretch) bool { return t.leaves == nothing }
		switch {
		case !every(all, stands):
			all, left = parted(all, left, stands)
		case q.holds() < p.holds() || q.holds() == p.holds() && len(unallowed(q)) < len(under):
			_, left = parted(all, left, freed)
			for _, t := range left {
				t.leaves = nothing
			}
			return q, left
		case !every(all, freed):
			all, left = parted(all, left, freed)
		default:
			return p, append(left, all...)
		}
	}
	return p, left
}

// every tells whether all stretches are so.
func every(all []*stretch, is func(*stretch) bool) bool {
	return !slices.ContainsFunc(all, func(t *stretch) bool { return !is(t) })
}

// parted leaves those that are so, and puts the others to what is left.
func parted(all, left []*stretch, is func(*stretch) bool) (kept, more []*stretch) {
	for _, t := range all {
		if is(t) {
			kept = append(kept, t)
		} else {
			left = append(left, t)
		}
	}
	return kept, left
}

// merge adds ways; of a long run each end's leg may come from another stretch.
func merge(to, more cap.Ways) {
	for k, w := range more {
		o := to[k]
		for i, l := range w.Legs {
			o.Legs[i] = length.Max(o.Legs[i], l)
		}
		o.Whole = o.Whole || w.Whole
		to[k] = o
	}
}

// search is what all stretches of a perimeter share.
type search struct {
	runs   []*cap.Run
	caps   *cap.Bench
	stands *anchor.Bench
	rooms  []cap.Room
	left   bool // odd steps go to the left: chains are searched from the right
	closed bool
	leave  bool // for legs under the job's least
	most   int  // pieces and joints tried in a stretch
}

func newSearch(j *job.Job, d wind.Demand, runs []*cap.Run, grid length.Length) *search {
	s := &search{runs: runs, caps: cap.NewBench(j, runs, grid), left: j.System.Remainder == job.Left,
		closed: runs[0].Perimeter.Closed(),
		leave:  j.System.Corner.ShortLeg > 0}
	if s.caps == nil {
		return nil
	}
	s.stands = anchor.NewBench(j, d, runs, grid)
	s.rooms = s.caps.Rooms()
	return s
}

// troubled tells what trouble pieces are in, by their marks.
func troubled(p Laid) map[string]kinds {
	bad := map[string]kinds{}
	for _, t := range p.Standing.Trouble {
		for _, on := range t.On {
			for _, q := range on {
				bad[q.Mark] |= kindOf(t)
			}
		}
	}
	for _, f := range p.Caps {
		if f.Severity == finding.Hold && ofPlace(f.Code) {
			for _, m := range f.Where.Pieces {
				bad[m] |= ofPlaces
			}
		}
	}
	return bad
}

// unallowed are the pieces with legs under the job's least that it gives no leave for.
func unallowed(p Laid) map[string]kinds {
	out := map[string]kinds{}
	for _, f := range p.Caps {
		if f.Code == legUnder && f.Severity == finding.Hold {
			for _, m := range f.Where.Pieces {
				out[m] = ofPlaces
			}
		}
	}
	return out
}

// ofPlace tells whether a hold on a piece's shape can hang on where its joints are.
func ofPlace(code string) bool {
	return slices.Contains([]string{"corner-crowded", "leg-vanishes", "many-miters", "no-assembly", "two-widths"}, code)
}

// stretch is a chain of rooms that turn into one another, from one that keeps a
// straight piece, or from an end of the wall, to the next.
type stretch struct {
	*search
	rooms []cap.Room // in station order
	ring  bool
	ways  [][]cap.Option            // of each room, in the order of the chain
	asked map[[3]stand.Jointed]bool // look-up only
	hot   []bool                    // of each room: a piece in trouble stands on it
	spent int
	limit int // of what may be asked
	stood int // chairs, before it was searched

	leaves leaves // what is left out of the judgment
	chosen cap.Ways

	tried   string // what was tried to free it of all trouble
	unasked bool   // there was nothing to try
}

// stretches cuts the perimeter into them.
func (s *search) stretches() []*stretch {
	n := len(s.rooms)
	linked := func(i int) bool { return s.rooms[i].Corner != nil && (s.closed || i+1 < n) }
	begin := slices.IndexFunc(s.rooms, func(r cap.Room) bool { return !r.Short })
	for i := 0; i < n && begin < 0; i++ {
		if !linked((i + n - 1) % n) {
			begin = i
		}
	}
	if begin < 0 {
		return []*stretch{{search: s, rooms: s.rooms, ring: true}}
	}
	var out []*stretch
	for k := 0; k < n; {
		t := &stretch{search: s, rooms: []cap.Room{s.rooms[(begin+k)%n]}}
		for ; k < n; k++ {
			i := (begin + k) % n
			if !linked(i) {
				k++
				break
			}
			next := s.rooms[(i+1)%n]
			t.rooms = append(t.rooms, next)
			if !next.Short {
				k++
				break
			}
		}
		if len(t.rooms) > 1 {
			out = append(out, t)
		}
	}
	return out
}

// marks are those of the pieces that stand on a short run of the stretch, or turn onto one.
func (t *stretch) marks(runs []*cap.Run) map[string]bool {
	out := map[string]bool{}
	for i, r := range t.rooms {
		run := runs[r.Run]
		for _, p := range run.Parts {
			if r.Short || i == 0 && p.To == run.Cap && r.Corner != nil || i > 0 && p.From == 0 {
				out[p.Piece.Mark] = true
			}
		}
	}
	return out
}

// touched tells whether a piece of the stretch is in trouble that is not left out.
func (t *stretch) touched(runs []*cap.Run, bad map[string]kinds) bool {
	for m := range t.marks(runs) {
		if bad[m]&^t.leaves.kinds() != 0 {
			return true
		}
	}
	return false
}

// troubled tells whether a piece of the stretch is in trouble, or one of its short runs
// cannot be cut into pieces.
func (t *stretch) troubled(p Laid, bad map[string]kinds) bool {
	return t.touched(p.Runs, bad) || slices.ContainsFunc(p.Caps, func(f finding.Finding) bool {
		return noFit(f) && slices.ContainsFunc(t.rooms, func(r cap.Room) bool {
			return r.Short &&
				t.runs[r.Run].Name == f.Where.Run
		})
	})
}

func noFit(f finding.Finding) bool { return f.Code == "no-fit" }

// jointless tells whether a run can only be one piece with what stands at both its ends.
func jointless(r cap.Room) bool { return r.Short && len(r.Ways) == 0 }

// covered tells whether a tested assembly covers every zone of a run: else its chairs are
// asked too much wherever they stand.
func covered(r *cap.Run) bool {
	for _, c := range r.Choices {
		for _, z := range r.Zones {
			if !c.Choice[z.Zone].Covers {
				return false
			}
		}
	}
	return true
}

// turns tells whether the stretch goes on beyond the corner at the right of a room.
func (t *stretch) turns(i int) bool { return i+1 < len(t.rooms) || t.ring }

// hopeless tells why no search can free a stretch; it is empty where one may.
func (t *stretch) hopeless() string {
	for i, r := range t.rooms {
		run := t.runs[r.Run]
		name := run.Name
		switch {
		case t.leaves != loads && !covered(run):
			return "no tested assembly covers run " + name
		case t.leaves == nothing && t.turns(i) && !r.Held:
			return "at corner " + r.Corner.Name + " no legs alike stand, up to the longest"
		case r.Short && r.Fixed:
			return "what run " + name + " ends at leaves it one way alone"
		case r.Short && len(r.Ways) == 0 && !r.Whole:
			return "run " + name + " has no room for a joint"
		case jointless(r) && i > 0 && jointless(t.rooms[i-1]):
			return "neither run " + t.runs[t.rooms[i-1].Run].Name + " nor run " + name +
				" has room for a joint, and a piece has two miters at most"
		}
	}
	return ""
}

// solve searches the ways of a stretch; those with legs under the job's least where it
// gives leave for them, or where they are asked for and no others stand.
func (t *stretch) solve(under bool) bool {
	if why := t.hopeless(); why != "" {
		t.unasked = t.unasked || t.leaves == nothing
		t.say(why)
		return false
	}
	left, ok := t.look(t.leave)
	if !ok && left && under {
		_, ok = t.look(true)
	}
	return ok
}

// look also tells whether it left ways out for their legs under the job's least. One run
// alone is laid out anew, or those near the ones in trouble, if that does.
func (t *stretch) look(under bool) (left, ok bool) {
	full := make([][]cap.Option, len(t.rooms))
	for i := range full {
		at := t.place(i)
		r := t.rooms[at]
		all := r.Ways
		if !r.Short {
			all = t.caps.Grown(r, at == 0)
		}
		if all = t.sorted(all); !under {
			most := len(all)
			all = slices.DeleteFunc(all, func(o cap.Option) bool { return o.Under > 0 })
			left = left || len(all) < most
		}
		full[i] = all
	}
	for _, p := range t.picks() {
		if t.choose(full, t.most/4, p) {
			return left, true
		}
	}
	return left, t.choose(full, t.most, func(_ int, all []cap.Option) []cap.Option { return all })
}

// pick are the ways of a room that are tried; none: the usual one alone.
type pick func(at int, all []cap.Option) []cap.Option

// picks are what is tried before all ways of all rooms: one room in trouble alone, all of them
// in the same way, those near them.
func (t *stretch) picks() []pick {
	n := len(t.rooms)
	free := func(is func(at int) bool) pick {
		return func(at int, all []cap.Option) []cap.Option {
			if is(at) {
				return all
			}
			return nil
		}
	}
	var out []pick
	for i, hot := range t.hot {
		if hot && n > 3 {
			out = append(out, free(func(at int) bool { return at == i }))
		}
	}
	if t.left { // a mirrored chain is tried in the mirrored order
		slices.Reverse(out)
	}
	for k := range alike {
		if n <= 3 {
			break
		}
		out = append(out, func(at int, all []cap.Option) []cap.Option {
			if t.hot[at] && k < len(all) {
				return all[k : k+1]
			}
			return nil
		})
	}
	for _, far := range []int{0, 1, 3} {
		if 2*far+1 < n {
			out = append(out, free(func(at int) bool { return t.near(at, far) }))
		}
	}
	return out
}

// alike is how many ways are tried in which all runs in trouble are laid out alike.
const alike = 24

// choose tries the ways of the rooms that are picked, and of the others the usual one alone.
func (t *stretch) choose(full [][]cap.Option, most int, p pick) bool {
	n := len(t.rooms)
	chain := make([]stand.Short, n)
	t.ways = make([][]cap.Option, n)
	for i := range chain {
		at := t.place(i)
		r := t.rooms[at]
		all, whole := p(at, full[i]), r.Short && r.Whole && !t.pitched(at)
		switch {
		case all == nil && (r.Usual.Whole && whole || usual(full[i]) != nil):
			all, whole = usual(full[i]), r.Usual.Whole
		case all == nil: // it has no usual way that stands
			all = full[i]
		}
		chain[i].Long = !r.Short
		if whole {
			chain[i].Whole = &stand.Cost{Whole: 1}
			if r.Usual.Whole {
				chain[i].Whole = &stand.Cost{}
			}
		}
		for _, o := range all {
			chain[i].Ways = append(chain[i].Ways, costOf(o))
		}
		t.ways[i] = all
	}
	t.spent, t.limit, t.stood = 0, most, t.stands.Stood()
	t.asked, t.chosen = map[[3]stand.Jointed]bool{}, cap.Ways{}
	choice, ok := stand.Legs(chain, t.ring, t)
	switch {
	case ok:
	case t.Spent():
		t.say("other places of its joints were tried until too many had been; one that stands may have been missed")
	default:
		t.say("no other place of its joints, no longer leg and no piece over a short run stands either")
	}
	for i, w := range choice {
		t.put(t.chosen, stand.Jointed{Run: i, Way: w})
	}
	return ok
}

// usual is the usual one of some ways; nil: it is not among them.
func usual(all []cap.Option) []cap.Option {
	if i := slices.IndexFunc(all, func(o cap.Option) bool { return o.Usual }); i >= 0 {
		return all[i : i+1]
	}
	return nil
}

// near tells whether a room is no farther from one in trouble than so many rooms.
func (t *stretch) near(at, far int) bool {
	n := len(t.rooms)
	for d := -far; d <= far; d++ {
		i := at + d
		if t.ring {
			i = (i%n + n) % n
		}
		if i >= 0 && i < n && t.hot[i] {
			return true
		}
	}
	return false
}

// heat marks the rooms that a piece in trouble stands on, or one that the job has to give leave
// for.
func (t *stretch) heat(p Laid, bad, under map[string]kinds) {
	t.hot = make([]bool, len(t.rooms))
	for i, r := range t.rooms {
		run := p.Runs[r.Run]
		for _, q := range run.Parts {
			t.hot[i] = t.hot[i] || bad[q.Piece.Mark]|under[q.Piece.Mark] != 0
		}
		for _, f := range p.Caps {
			t.hot[i] = t.hot[i] || noFit(f) && f.Where.Run == run.Name
		}
	}
}

// place is where in station order a run of the chain is.
func (t *stretch) place(i int) int {
	if t.left {
		return len(t.rooms) - 1 - i
	}
	return i
}

// pitched tells whether a break of slope is at an end of a room.
func (t *stretch) pitched(at int) bool {
	r := t.runs[t.rooms[at].Run]
	l, c := r.Left.Corner, r.Right.Corner
	return l != nil && l.Straight() || c != nil && c.Straight()
}

func costOf(o cap.Option) stand.Cost {
	return stand.Cost{Under: o.Under, Uneven: o.Uneven, Grown: o.Grown}
}

// sorted has the cheapest ways first and, of two that cost alike, the one with the longer leg
// on the side that takes remainders.
func (t *stretch) sorted(all []cap.Option) []cap.Option {
	side := 1
	if t.left {
		side = 0
	}
	all = slices.Clone(all)
	slices.SortStableFunc(all, func(a, b cap.Option) int {
		x, y := costOf(a), costOf(b)
		switch {
		case x.Less(y):
			return -1
		case y.Less(x):
			return 1
		case a.Usual != b.Usual:
			if a.Usual {
				return -1
			}
			return 1
		}
		return int(min(1, max(-1, b.Legs[side]-a.Legs[side])))
	})
	return all
}

// put adds the way of a run of the chain, where it is not the usual one.
func (t *stretch) put(ways cap.Ways, c stand.Jointed) {
	n := len(t.rooms)
	i := c.Run % n
	r := t.rooms[t.place(i)]
	w := cap.Way{Whole: true}
	if c.Way != stand.Whole {
		o := t.ways[i][c.Way]
		if w = o.Way; o.Usual {
			return
		}
	} else if r.Usual.Whole {
		return
	}
	merge(ways, cap.Ways{r.Section: w})
}
