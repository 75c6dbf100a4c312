package cap

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/stand"
)

// A section is a run, or the part of one between building expansion joints,
// transitions and tees. At each end stands a feature with a leg: a corner, a closed
// end or the stub of a tee; or what stays where it is and has none: a leg of minus one gap puts
// the first piece hard against the edge of an expansion joint or beside a
// transition's joint, minus half a gap centres the joint on a kink.
type section struct {
	from, to    length.Length
	left, right legRange
	ends        [2]Stop  // what its metal ends at
	blocked     []window // joint centres, from the run's cap origin
}

// row is a solved section.
type row struct {
	leftLeg, rightLeg length.Length
	pieces            []length.Length
	oneJoint          bool // the two legs meet at one joint
	merged            bool // one piece from feature to feature
	problem           string
}

// laying is what can be made of a section: the lengths that the leg at each end
// may have, and how they go together.
type laying struct {
	section
	run     *Run
	stock   stock
	legs    [2][]length.Length
	stepped [2][]bool // those on the job's step; the others only meet one of these
	ways    []stand.Way
	pairs   bool
	whole   bool
	free    bool   // any two legs go together: nothing at one end bears on the other
	problem string // of its only way
	chosen  choice

	divided map[[2]int]divided // look-up only
}

// choice is what was chosen of a laying.
type choice struct {
	whole bool
	leg   [2]int
}

// divided is a row of straight pieces between two legs.
type divided struct {
	pieces []length.Length
	ok     bool
}

// has tells whether a feature with a leg stands at an end.
func (l legRange) has() bool { return l.least > 0 }

// allows tells whether a leg may be so long.
func (l legRange) allows(leg length.Length) bool { return leg >= l.short && leg <= l.longest }

// lengths lists what a leg may be, on the job's step up and down from the least.
func (l legRange) lengths(step length.Length) []length.Length {
	if !l.has() || l.fixed {
		return []length.Length{l.least}
	}
	var out []length.Length
	for x := l.least - step; x >= l.short; x -= step {
		out = append(out, x)
	}
	slices.Reverse(out)
	for x := l.least; x <= l.longest; x += step {
		out = append(out, x)
	}
	return out
}

// laid finds what can be made of a section. Legs stand on the job's step; where
// two meet at one joint, the one does or both are even. Where no joint has room
// the section is one piece with the features at both its ends, which the shop
// welds up to its longest leg.
func (s section) laid(r *Run, k stock) *laying { return s.lay(r, k, s.plain(k)) }

// lay is laid, with free legs or without.
func (s section) lay(r *Run, k stock, free bool) *laying {
	l := &laying{section: s, run: r, stock: k, divided: map[[2]int]divided{}}
	total := s.to - s.from
	l.free = free
	for side, r := range []legRange{s.left, s.right} {
		l.legs[side] = r.lengths(k.step)
	}
	if l.free {
		l.index(nil)
		return l
	}
	var meets [][2]length.Length
	meet := func(a length.Length) {
		b := total - k.gap - a
		if s.left.allows(a) && s.right.allows(b) && !inWindow(s.from+a+k.gap/2, s.blocked) {
			meets = append(meets, [2]length.Length{a, b})
		}
	}
	if s.left.has() || s.right.has() {
		for _, a := range l.legs[0] {
			meet(a)
		}
		for _, b := range l.legs[1] {
			meet(total - k.gap - b)
		}
		if s.left.has() && s.right.has() {
			meet(length.Split(total-k.gap, 2, k.grid, k.remainder == job.Left)[0])
		}
	}
	l.pairs = total-s.left.short-s.right.short-2*k.gap >= k.least
	l.whole = s.left.has() && s.right.has() && !s.left.fixed && !s.right.fixed &&
		(total < s.left.least+s.right.least+k.gap || total <= length.Max(s.left.longest, s.right.longest))
	if len(meets) == 0 && !l.whole && !(l.pairs && l.anyPair()) {
		l.problem, l.pairs = s.refuses(k), false
		a, b := s.left.least, s.right.least
		switch {
		case !s.right.has():
			a = total - k.gap - b
		case !s.left.has():
			b = total - k.gap - a
		default:
			two := length.Split(total-k.gap, 2, k.grid, k.remainder == job.Left)
			a, b = two[0], two[1]
		}
		l.legs = [2][]length.Length{{a}, {b}}
		l.index([][2]length.Length{{a, b}})
		l.ways[0].Cost.Bad = 1
		return l
	}
	l.index(meets)
	return l
}

// plain tells whether a section is so long that whatever legs stand at its ends
// the stretch between them divides, with nothing in the way.
func (s section) plain(k stock) bool {
	stretch := s.to - s.from - s.left.longest - s.right.longest - 2*k.gap
	least := length.Max(k.least, k.crowd.to)
	return stretch >= least && k.most >= 2*least+k.gap+2*k.grid && !slices.ContainsFunc(s.blocked, func(w window) bool {
		return w.to > s.from && w.from < s.to
	})
}

// index lists the legs in order, those beside the step among them, and the ways
// in which two meet at one joint.
func (l *laying) index(meets [][2]length.Length) {
	on := [2][]length.Length{slices.Clone(l.legs[0]), slices.Clone(l.legs[1])}
	for side := range l.legs {
		for _, m := range meets {
			l.legs[side] = append(l.legs[side], m[side])
		}
		l.legs[side] = sorted(l.legs[side])
		l.stepped[side] = make([]bool, len(l.legs[side]))
		for _, x := range on[side] {
			i, _ := slices.BinarySearch(l.legs[side], x)
			l.stepped[side][i] = true
		}
	}
	slices.SortFunc(meets, func(a, b [2]length.Length) int { return int(min(1, max(-1, a[0]-b[0]))) })
	for _, m := range slices.Compact(meets) {
		a, _ := slices.BinarySearch(l.legs[0], m[0])
		b, _ := slices.BinarySearch(l.legs[1], m[1])
		w := stand.Way{Left: a, Right: b}
		if l.left.has() && l.right.has() {
			w.Cost.Uneven = length.Abs(m[0] - m[1])
			if longer := m[0] > m[1]; longer != (l.stock.remainder == job.Left) {
				w.Cost.Aside = w.Cost.Uneven
			}
		}
		l.ways = append(l.ways, w)
	}
}

// anyPair tells whether some two legs leave a stretch that divides.
func (l *laying) anyPair() bool {
	l.index(nil)
	for a := range l.legs[0] {
		for b := range l.legs[1] {
			if _, ok := l.pair(a, b); ok {
				return true
			}
		}
	}
	return false
}

// pair divides the stretch between two legs into straight pieces, both their
// joints and those between clear of what blocks them.
func (l *laying) pair(a, b int) ([]length.Length, bool) {
	if !l.stepped[0][a] || !l.stepped[1][b] {
		return nil, false
	}
	key := [2]int{a, b}
	if d, known := l.divided[key]; known {
		return d.pieces, d.ok
	}
	left, right, g := l.legs[0][a], l.legs[1][b], l.stock.gap
	var d divided
	stretch := l.to - l.from - left - right - 2*g
	if stretch >= l.stock.least && !(left > 0 && inWindow(l.from+left+g/2, l.blocked)) && !(right > 0 && inWindow(l.to-right-g/2, l.blocked)) {
		d.pieces, d.ok = divide(stretch, l.stock, shifted(l.blocked, l.from+left+g))
	}
	l.divided[key] = d
	return d.pieces, d.ok
}

// row is the section as it was chosen.
func (l *laying) row() row {
	if l.chosen.whole {
		return row{merged: true}
	}
	a, b := l.chosen.leg[0], l.chosen.leg[1]
	r := row{leftLeg: l.legs[0][a], rightLeg: l.legs[1][b], problem: l.problem}
	if r.leftLeg+r.rightLeg+l.stock.gap == l.to-l.from {
		r.oneJoint = true
		if r.problem != "" && (l.left.fixed || l.right.fixed || !l.left.has() || !l.right.has()) {
			return row{merged: true, problem: r.problem}
		}
		return r
	}
	if l.free {
		r.pieces, _ = divide(l.to-l.from-r.leftLeg-r.rightLeg-2*l.stock.gap, l.stock, nil)
		return r
	}
	r.pieces, _ = l.pair(a, b)
	return r
}

// refuses says why nothing can be made of a section.
func (s section) refuses(k stock) string {
	total := s.to - s.from
	if s.left.fixed || s.right.fixed {
		return "it is too short for the stub of its tee and what stands at its other end"
	}
	if total >= s.left.short+s.right.short+k.gap {
		open := s
		open.blocked = nil
		if len(s.blocked) > 0 && open.fits(k) {
			return "no legs and no row of pieces keep the joints clear of the obstacles"
		}
		return "its legs would pass the longest the shop welds, and what is left is under the least piece"
	}
	return "it is shorter than the least leg of the corner or end beside it"
}

// fits tells whether something can be made of a section.
func (s section) fits(k stock) bool {
	if !s.left.has() && !s.right.has() {
		_, ok := s.between(k)
		return ok
	}
	if s.plain(k) {
		return true
	}
	return s.laid(nil, k).problem == ""
}

// between divides a section that has no feature at either end.
func (s section) between(k stock) (row, bool) {
	r := row{leftLeg: s.left.least, rightLeg: s.right.least}
	stretch := s.to - s.from - r.leftLeg - r.rightLeg - 2*k.gap
	ok := false
	if r.pieces, ok = divide(stretch, k, shifted(s.blocked, s.from+r.leftLeg+k.gap)); ok {
		return r, true
	}
	if r.pieces, ok = divide(stretch, k, nil); ok {
		r.problem = "no row of pieces keeps its joints clear of the obstacles"
		return r, false
	}
	r.problem = "no piece fits between its joints"
	if stretch > 0 {
		r.problem = "the piece between its joints is under the least piece"
	}
	r.pieces = []length.Length{stretch}
	if stretch <= 0 {
		return row{merged: true, problem: r.problem}, false
	}
	return r, false
}

// shifted measures windows from a new origin.
func shifted(blocked []window, origin length.Length) []window {
	out := make([]window, 0, len(blocked))
	for _, w := range blocked {
		out = append(out, window{w.from - origin, w.to - origin})
	}
	return out
}
