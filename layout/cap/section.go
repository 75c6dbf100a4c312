package cap

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// A section is a run, or the part of one between building expansion joints.
// At each end stands a feature with a leg: a corner, a closed end, an
// expansion joint or a kink the joint absorbs. The last two have no leg: a
// leg of minus one gap puts the first piece hard against the expansion joint's
// edge, minus half a gap centres the joint on the kink.
type section struct {
	from, to    length.Length
	left, right legRange
	blocked     []window        // joint centres, from the run's cap origin
	set         []length.Length // joints that stand already, likewise
}

// row is a solved section.
type row struct {
	leftLeg, rightLeg length.Length
	pieces            []length.Length
	oneJoint          bool // the two legs meet at one joint
	merged            bool // one piece from feature to feature
	problem           string
}

// solve lays out one section. In a short one the legs meet at one joint,
// shortened as far as plate, bearing and chairs allow; under that it becomes
// one piece with both features.
func (s section) solve(k stock, legStep length.Length) row {
	total := s.to - s.from
	ll, lr := s.left.least, s.right.least
	fixed := s.left.fixed || s.right.fixed
	if total < ll+lr+k.gap && (fixed && total < s.left.short+s.right.short+k.gap || s.left.fixed && s.right.fixed) {
		return row{merged: true, problem: "it is too short for the stub of its tee and what stands at its other end"}
	}
	if total < ll+lr+k.gap {
		if total >= s.left.short+s.right.short+k.gap && (ll > 0 || lr > 0) {
			// Shorter legs than the job's meet at one joint.
			s.left.least, s.right.least = s.left.short, s.right.short
			return s.meet(k)
		}
		if s.left.least > 0 && s.right.least > 0 {
			return row{merged: true}
		}
		if s.left.least > 0 || s.right.least > 0 {
			return row{merged: true, problem: "it is shorter than the least leg of the corner or end beside it"}
		}
		return row{merged: true, problem: "no piece fits between its joints"}
	}
	ll, lr, legsClear := s.clearLegs(k, ll, lr, legStep)
	stretch := total - ll - lr - 2*k.gap
	if stretch >= k.least {
		if p, ok := s.kept(k, s.from+ll+k.gap, stretch); ok {
			return row{leftLeg: ll, rightLeg: lr, pieces: p}
		}
		blocked := shifted(s.blocked, s.from+ll+k.gap)
		p, ok := divide(stretch, k, blocked)
		if !ok || !k.allFit(p) { // a leg takes up what makes no piece, or one under which no chairs stand
			if grown, legs, found := s.grow(k, ll, lr, legStep, ok); found {
				return row{leftLeg: legs[0], rightLeg: legs[1], pieces: grown}
			}
		}
		r := row{leftLeg: ll, rightLeg: lr, pieces: p}
		if !ok {
			r.pieces, ok = divide(stretch, k, nil)
			r.problem = "no row of pieces keeps its joints clear of the obstacles"
			if !ok {
				r.pieces = []length.Length{stretch}
				r.problem = "its straight part cannot be cut into pieces between the least and the stock length"
			}
		}
		if !legsClear {
			r.problem = "the joint at a corner leg cannot clear an obstacle within the longest leg"
		}
		return r
	}
	return s.meet(k)
}

// grow lengthens the legs, both alike, until the stretch between them divides:
// an oversize leg takes up what makes no piece. With chairs, every piece has to have room
// for its own.
func (s section) grow(k stock, ll, lr, step length.Length, chairs bool) ([]length.Length, [2]length.Length, bool) {
	for {
		if ll > 0 && !s.left.fixed {
			ll += step
		}
		if lr > 0 && !s.right.fixed {
			lr += step
		}
		stretch := s.to - s.from - ll - lr - 2*k.gap
		if (ll <= 0 || s.left.fixed) && (lr <= 0 || s.right.fixed) || ll > s.left.longest || lr > s.right.longest ||
			stretch < k.least {
			return nil, [2]length.Length{}, false
		}
		if ll > 0 && inWindow(s.from+ll+k.gap/2, s.blocked) || lr > 0 && inWindow(s.to-lr-k.gap/2, s.blocked) {
			continue
		}
		if p, ok := divide(stretch, k, shifted(s.blocked, s.from+ll+k.gap)); ok && (!chairs || k.allFit(p)) {
			return p, [2]length.Length{ll, lr}, true
		}
	}
}

// shifted measures windows from a new origin.
func shifted(blocked []window, origin length.Length) []window {
	out := make([]window, 0, len(blocked))
	for _, w := range blocked {
		out = append(out, window{w.from - origin, w.to - origin})
	}
	return out
}

// clearLegs grows a leg by the job's step while its joint is blocked.
func (s section) clearLegs(k stock, ll, lr, step length.Length) (length.Length, length.Length, bool) {
	grow := func(leg, longest length.Length, centre func(length.Length) length.Length) (length.Length, bool) {
		if leg <= 0 {
			return leg, true
		}
		for l := leg; l <= longest; l += step {
			if !inWindow(centre(l), s.blocked) {
				return l, true
			}
		}
		return leg, false
	}
	a, ok1 := grow(ll, s.left.longest, func(l length.Length) length.Length { return s.from + l + k.gap/2 })
	b, ok2 := grow(lr, s.right.longest, func(l length.Length) length.Length { return s.to - l - k.gap/2 })
	return a, b, ok1 && ok2
}

// meet brings the two legs to one joint; an oversize leg takes up what is
// under the least piece.
func (s section) meet(k stock) row {
	total := s.to - s.from
	ll, lr := s.left.least, s.right.least
	extra := total - k.gap - ll - lr
	roomL, roomR := s.left.longest-ll, s.right.longest-lr
	r := row{leftLeg: ll, rightLeg: lr, oneJoint: true}
	if ll <= 0 && lr <= 0 {
		// No leg to lengthen: the stretch itself is under the least piece.
		r.oneJoint = false
		r.pieces = []length.Length{total - ll - lr - 2*k.gap}
		r.problem = "the piece between its joints is under the least piece"
		return r
	}
	two := length.Split(extra, 2, k.grid, k.remainder == job.Left)
	a, b := two[0], two[1]
	switch {
	case lr <= 0:
		a, b = extra, 0
	case ll <= 0:
		a, b = 0, extra
	case s.right.fixed:
		a, b = extra, 0
	case s.left.fixed:
		a, b = 0, extra
	case extra <= roomL+roomR && a > roomL:
		a, b = roomL, extra-roomL
	case extra <= roomL+roomR && b > roomR:
		a, b = extra-roomR, roomR
	}
	if a > roomL || b > roomR {
		r.problem = "its legs would pass the longest the shop welds, and what is left is under the least piece"
	}
	r.leftLeg, r.rightLeg = ll+a, lr+b
	centre := s.from + r.leftLeg + k.gap/2
	if inWindow(centre, s.blocked) {
		if c, ok := s.shift(k, a, b, roomL, roomR); ok {
			r.leftLeg, r.rightLeg = ll+c, lr+extra-c
		} else if r.problem == "" {
			r.problem = "its one joint cannot clear the obstacles"
		}
	}
	return r
}

// shift looks for the nearest place of a meeting joint outside the windows;
// a tie goes to the side that takes remainders.
func (s section) shift(k stock, a, b, roomL, roomR length.Length) (length.Length, bool) {
	for d := k.grid; d <= a+b; d += k.grid {
		tries := []length.Length{a + d, a - d}
		if k.remainder == job.Left {
			tries[0], tries[1] = tries[1], tries[0]
		}
		for _, c := range tries {
			rest := a + b - c
			if c < 0 || rest < 0 || c > roomL || rest > roomR {
				continue
			}
			if !inWindow(s.from+s.left.least+c+k.gap/2, s.blocked) {
				return c, true
			}
		}
	}
	return 0, false
}
