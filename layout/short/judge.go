package short

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/stand"
)

var none = stand.Jointed{Run: -2}

// Spent is of stand.Rules.
func (t *stretch) Spent() bool {
	return t.spent >= t.limit || t.stands.Stood()-t.stood >= t.limit*stoodEach
}

// Piece is of stand.Rules.
func (t *stretch) Piece(a, b stand.Jointed) bool { return t.ask(a, none, b) }

// Joint is of stand.Rules.
func (t *stretch) Joint(a, b, c stand.Jointed) bool { return t.ask(a, b, c) }

// ask lays out what stands from one joint to another, with one between or none, and
// judges it, once.
func (t *stretch) ask(a, b, c stand.Jointed) bool {
	k := [3]stand.Jointed{a, b, c}
	if t.ring { // a joint further round is the same
		n := len(t.rooms)
		turn := k[0].Run / n * n
		for i := range k {
			if k[i] != none {
				k[i].Run -= turn
			}
		}
	}
	ok, known := t.asked[k]
	if !known {
		t.spent++
		ok = t.judge(a, b, c)
		t.asked[k] = ok
	}
	return ok
}

// judge tells whether the pieces that turn between two joints stand.
func (t *stretch) judge(a, b, c stand.Jointed) bool {
	n := len(t.rooms)
	ways := cap.Ways{}
	from, to := a.Run, c.Run
	if !t.ring {
		from, to = max(from, 0), min(to, n-1)
	}
	for i := from; i <= to; i++ {
		switch i {
		case a.Run:
			t.put(ways, a)
		case b.Run:
			t.put(ways, b)
		case c.Run:
			t.put(ways, c)
		default:
			t.put(ways, stand.Jointed{Run: i, Way: stand.Whole})
		}
	}
	first, count := from%n, to-from+1
	if t.left {
		first = t.place(to % n)
	}
	if count > len(t.runs) {
		count = 0 // all round
	}
	runs, pieces, found := t.caps.Lay(t.rooms[first].Run, count, ways)
	w := &window{of: t, runs: runs, pieces: pieces, open: map[*cap.Piece]bool{}, ours: map[*cap.Piece]bool{}}
	if count > 0 {
		w.edges()
	}
	begins, ends := a.Run < 0, c.Run == n && !t.ring
	if t.left {
		begins, ends = ends, begins
	}
	inner := -1
	if b != none {
		inner = t.rooms[t.place(b.Run%n)].Run
	}
	w.own(begins, ends, inner)
	// Between two runs that go on by themselves a piece is asked about but once.
	partial := b == none && !(t.alone(a) && t.alone(c))
	return w.stands(found, partial)
}

// alone tells whether no joint of a cut is asked about: it is one of the chain's ends.
func (t *stretch) alone(c stand.Jointed) bool {
	return c.Run < 0 || !t.ring && (c.Run >= len(t.rooms) || !t.rooms[t.place(c.Run)].Short)
}

// window is a part of a perimeter laid out by itself.
type window struct {
	of     *stretch
	runs   []*cap.Run
	pieces []*cap.Piece
	open   map[*cap.Piece]bool // they turn on beyond it; look-up only
	ours   map[*cap.Piece]bool // they are judged; look-up only
}

// edges finds the halves of pieces that turn off the window.
func (w *window) edges() {
	first, last := w.runs[0], w.runs[len(w.runs)-1]
	for _, p := range w.pieces {
		l, r := p.Parts[0], p.Parts[len(p.Parts)-1]
		w.open[p] = l.Run == first && l.From == 0 && first.Left.Kind == job.EndTurn ||
			r.Run == last && r.To == last.Cap && last.Right.Kind == job.EndTurn
	}
}

// own finds the pieces to be judged: all that turn; those at the ends of the chain; the straight
// ones of the inner run.
func (w *window) own(begins, ends bool, inner int) {
	first, last := w.runs[0], w.runs[len(w.runs)-1]
	for _, p := range w.pieces {
		l, r := p.Parts[0], p.Parts[len(p.Parts)-1]
		w.ours[p] = !w.open[p] && (len(p.Miters) > 0 || l.Run.Index == inner ||
			begins && l.Run == first && p.LeftEnd != job.EndTurn || ends && r.Run == last && p.RightEnd != job.EndTurn)
	}
}

// stands tells whether nothing is wrong with the pieces to be judged.
func (w *window) stands(found finding.List, partial bool) bool {
	for _, p := range w.pieces {
		if w.open[p] && len(p.Miters) > 0 {
			return false // it would turn on beyond a joint that is none
		}
	}
	for _, f := range found {
		if f.Severity == finding.Hold && ofPlace(f.Code) && f.Code != "corner-crowded" &&
			slices.ContainsFunc(w.pieces, func(p *cap.Piece) bool {
				return w.ours[p] &&
					slices.Contains(f.Where.Pieces, p.Mark)
			}) {
			return false
		}
	}
	return w.of.stands.Judge(w.runs, w.pieces, anchor.Asked{Counts: w.counts, Partial: partial,
		Places: w.of.leaves == loads})
}

// counts tells whether a trouble is one of the pieces to be judged. What a chair carries
// beyond the window is not known, and neither is what stands there.
func (w *window) counts(t anchor.Trouble) bool {
	if w.of.leftOut(t) {
		return false
	}
	ours := false
	for _, on := range t.On {
		known := false
		for _, p := range on {
			ours = ours || w.ours[p]
			known = known || !w.open[p]
			if t.Overloaded() && w.open[p] {
				return false
			}
		}
		if !known {
			return false
		}
	}
	return ours
}
