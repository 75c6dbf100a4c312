package short

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
)

// kinds of trouble, as a set.
type kinds int

const (
	ofPlaces  kinds = 1 << iota // no room, or stood on what it must not
	ofBalance                   // a piece that turns and that its hold-downs do not hold
	ofLoads                     // what a chair or a support carries
	lasting                     // what no place of a leg or a joint mends
)

// kindOf is the kind of a trouble.
func kindOf(t anchor.Trouble) kinds {
	switch {
	case t.Fixed:
		return lasting
	case t.Unheld():
		return ofBalance
	case t.Loaded():
		return ofLoads
	}
	return ofPlaces
}

// leaves is what is left out of the judgment of a stretch that nothing frees of all its
// trouble, so that it is freed of the rest.
type leaves int

const (
	nothing leaves = iota
	balance        // pieces that turn a corner where no legs are held
	loads          // and all that chairs and supports carry: places alone are judged
)

// kinds that are left out; what lasts always is.
func (l leaves) kinds() kinds {
	return [...]kinds{lasting, lasting | ofBalance, lasting | ofBalance | ofLoads}[l]
}

// better searches for ways that free a stretch of some of its trouble: first of all but
// what no legs hold, then of places alone, which a chair that stands on another or has no
// room is in trouble with.
func (t *stretch) better(p Laid, bad map[string]kinds) bool {
	unheld := false
	for i, r := range t.rooms {
		unheld = unheld || t.turns(i) && !r.Held
	}
	for _, l := range []leaves{balance, loads} {
		if l == balance && !unheld {
			continue
		}
		if t.leaves = l; !t.troubled(p, bad) {
			break // it stands as it is
		}
		if t.solve(true) {
			return true
		}
	}
	t.leaves = nothing
	return false
}

// lasts tells whether a piece of the stretch is in trouble that no place mends.
func (t *stretch) lasts(runs []*cap.Run, bad map[string]kinds) bool {
	for m := range t.marks(runs) {
		if bad[m]&lasting != 0 {
			return true
		}
	}
	return false
}

// leftOut tells whether a trouble does not count in the judgment.
func (t *stretch) leftOut(k anchor.Trouble) bool {
	of := kindOf(k)
	if of != ofBalance {
		return of&t.leaves.kinds() != 0
	}
	return t.leaves != nothing && slices.ContainsFunc(k.On, func(on []*cap.Piece) bool {
		return slices.ContainsFunc(on, func(q *cap.Piece) bool { return slices.ContainsFunc(q.Miters, t.neverHeld) })
	})
}

// neverHeld tells whether no legs are held at a miter.
func (t *stretch) neverHeld(m cap.Miter) bool {
	return slices.ContainsFunc(t.rooms, func(r cap.Room) bool { return r.Corner == m.Corner && !r.Held })
}

// say keeps what was tried to free a stretch of all its trouble; once told, it stays told.
func (t *stretch) say(tried string) {
	if t.leaves == nothing {
		t.tried = tried
	}
}
