package stand

import (
	"container/heap"

	"copingset/layout/length"
)

// Cost is what a way to lay out a run costs beside the usual one. Two are compared by
// their fields in this order, and those of a chain add up.
type Cost struct {
	Whole  int           // runs that become one piece with what stands at both their ends
	Under  int           // legs under the job's least
	Uneven length.Length // by which legs that meet at a joint differ
	Grown  length.Length // legs beyond the usual ones
}

// Plus is the sum of two costs.
func (a Cost) Plus(b Cost) Cost {
	return Cost{a.Whole + b.Whole, a.Under + b.Under, a.Uneven + b.Uneven, a.Grown + b.Grown}
}

// Less compares two costs.
func (a Cost) Less(b Cost) bool {
	switch {
	case a.Whole != b.Whole:
		return a.Whole < b.Whole
	case a.Under != b.Under:
		return a.Under < b.Under
	case a.Uneven != b.Uneven:
		return a.Uneven < b.Uneven
	}
	return a.Grown < b.Grown
}

// Short is one run of a chain that turns from run to run.
type Short struct {
	Ways  []Cost // to lay it out with a joint at least, the preferred first of those that cost alike
	Whole *Cost  // as one piece with what stands at both its ends; nil: it is not
	Long  bool   // nothing beyond its straight pieces hangs on the chain, whose end it is
}

// Jointed is a run of a chain with a joint in it, and its way. Run -1 and the number
// of runs are what the chain ends at, if its first or last run is not long.
type Jointed struct{ Run, Way int }

// Rules tell what stands. Between two cuts lies one piece; a run between them is whole.
// Answers for the same question are alike.
type Rules interface {
	// Piece tells whether nothing is wrong with a piece, whatever stands beyond the
	// joints at its ends.
	Piece(a, b Jointed) bool
	// Joint tells whether two pieces stand, and the joint between them.
	Joint(a, b, c Jointed) bool
	// Spent tells that enough was asked.
	Spent() bool
}

// Whole is the choice of a run that is one piece with what is at both its ends.
const Whole = -1

// Legs chooses a way for each run of a chain so that all pieces and joints stand, at the
// least cost; of those that cost alike, the one that is come to first from the
// chain's beginning, so whoever wants a mirrored answer to a mirrored question
// begins both at the same end. No piece has more than two miters. A ring has no ends. It
// is not ok only where no choice stands, or the rules are spent.
//
// It is a search by least cost first (Dijkstra 1959) over pairs of neighbouring cuts,
// which asks about a piece or a joint only when the cheapest chain so far has it.
func Legs(chain []Short, ring bool, r Rules) ([]int, bool) {
	s := &legSearch{chain: chain, ring: ring, rules: r, done: map[legState]bool{}}
	s.begin()
	for s.open.Len() > 0 && !r.Spent() {
		n := heap.Pop(&s.open).(*legNode)
		if s.done[n.legState] || !s.stands(n) {
			continue
		}
		s.done[n.legState] = true
		if s.ends(n) {
			return s.choice(n), true
		}
		s.next(n)
	}
	return nil, false
}

// legState is how far a chain has come: nothing before its last two cuts matters but,
// of a ring, its first two.
type legState struct{ first, second, last, cut Jointed }

type legNode struct {
	legState
	cost   Cost
	depth  int // cuts before it
	order  int
	before *legNode
}

type legSearch struct {
	chain []Short
	ring  bool
	rules Rules
	open  legHeap
	done  map[legState]bool
	made  int
}

var noJoint = Jointed{-2, 0}

func (s *legSearch) push(before *legNode, c Jointed, cost Cost) {
	n := &legNode{legState: legState{noJoint, noJoint, noJoint, c}, cost: cost, order: s.made, before: before}
	if before != nil {
		n.cost, n.depth, n.last = before.cost.Plus(cost), before.depth+1, before.cut
		if n.first, n.second = before.first, before.second; s.ring && n.second == noJoint {
			n.second = c
		}
	} else if s.ring {
		n.first = c
	}
	s.made++
	heap.Push(&s.open, n)
}

func (s *legSearch) begin() {
	switch {
	case s.ring:
		for run := range 2 {
			if run == 1 && s.chain[0].Whole == nil {
				break
			}
			for w, c := range s.chain[run].Ways {
				if run == 1 {
					c = c.Plus(*s.chain[0].Whole)
				}
				s.push(nil, Jointed{run, w}, c)
			}
		}
	case s.chain[0].Long:
		for w, c := range s.chain[0].Ways {
			s.push(nil, Jointed{0, w}, c)
		}
	default:
		s.push(nil, Jointed{-1, 0}, Cost{})
	}
}

// last is where a chain ends.
func (s *legSearch) last(n *legNode) int {
	switch k := len(s.chain); {
	case s.ring:
		return n.first.Run + k
	case s.chain[k-1].Long:
		return k - 1
	default:
		return k
	}
}

func (s *legSearch) ends(n *legNode) bool { return n.before != nil && n.cut.Run == s.last(n) }

// next pushes what can follow: the next run with a joint, or the one after it.
func (s *legSearch) next(n *legNode) {
	last := s.last(n)
	between := Cost{}
	for run := n.cut.Run + 1; run <= min(last, n.cut.Run+2); run++ {
		if run == n.cut.Run+2 {
			w := s.chain[(run-1)%len(s.chain)].Whole
			if w == nil {
				return
			}
			between = *w
		}
		if s.ring && n.first.Run == 1 && run == len(s.chain) {
			continue // its first run is whole, or the ring began there
		}
		switch {
		case s.ring && run == last:
			if n.first.Run == 1 { // its whole first run was counted at the beginning
				between = Cost{}
			}
			s.push(n, Jointed{run, n.first.Way}, between)
		case run == len(s.chain) && !s.ring:
			s.push(n, Jointed{run, 0}, between)
		default:
			for w, c := range s.chain[run%len(s.chain)].Ways {
				s.push(n, Jointed{run, w}, between.Plus(c))
			}
		}
	}
}

// stands asks about the piece that ends at a cut and the joint it begins at.
func (s *legSearch) stands(n *legNode) bool {
	b := n.before
	if b == nil {
		return true
	}
	if !s.rules.Piece(b.cut, n.cut) {
		return false
	}
	if b.before != nil && b.cut.Run >= 0 && !s.rules.Joint(b.last, b.cut, n.cut) {
		return false
	}
	if s.ring && s.ends(n) {
		k := len(s.chain)
		return s.rules.Joint(b.cut, n.cut, Jointed{n.second.Run + k, n.second.Way})
	}
	return true
}

func (s *legSearch) choice(n *legNode) []int {
	out := make([]int, len(s.chain))
	for i := range out {
		out[i] = Whole
	}
	for ; n != nil; n = n.before {
		if r := n.cut.Run; r >= 0 && (s.ring || r < len(out)) {
			out[r%len(out)] = n.cut.Way
		}
	}
	return out
}

type legHeap []*legNode

func (h legHeap) Len() int { return len(h) }
func (h legHeap) Less(i, k int) bool {
	switch {
	case h[i].cost != h[k].cost:
		return h[i].cost.Less(h[k].cost)
	case h[i].depth != h[k].depth: // nearer the end, so that less is asked
		return h[i].depth > h[k].depth
	}
	return h[i].order < h[k].order
}
func (h legHeap) Swap(i, k int) { h[i], h[k] = h[k], h[i] }

// Push adds a node, as container/heap has it.
func (h *legHeap) Push(x any) { *h = append(*h, x.(*legNode)) }

// Pop takes the last off, as container/heap has it.
func (h *legHeap) Pop() any {
	old := *h
	n := old[len(old)-1]
	*h = old[:len(old)-1]
	return n
}
