package cap

import (
	"slices"

	"copingset/layout/job"
	"copingset/layout/length"
)

// window is a stretch in which the centre of a joint may not lie, open at
// both ends, measured from the left of the stretch being divided.
type window struct{ from, to length.Length }

// stock is what a stretch is divided by.
type stock struct {
	most, least, gap length.Length
	grid             length.Length
	closer           job.Closer
	remainder        job.Side
	unfit            []window // lengths that no row of chairs stands under, open at both ends
}

// fits tells whether chairs can stand under a piece of a length.
func (k stock) fits(l length.Length) bool { return !inWindow(l, k.unfit) }

// allFit tells whether chairs stand under each piece of a row.
func (k stock) allFit(row []length.Length) bool {
	return !slices.ContainsFunc(row, func(l length.Length) bool { return !k.fits(l) })
}

// unfit are the lengths between two joints under which no chairs stand: so many bays
// are over the tested spacing, and one more chair has no room beside the others.
func unfit(chair, gap, most length.Length, spacings ...length.Length) []window {
	var out []window
	for _, s := range spacings {
		for bays := length.Length(1); s > 0 && bays*s < most; bays++ {
			if from, to := bays*s, (bays+1)*chair-gap; from < to {
				out = append(out, window{from, to})
			}
		}
	}
	return out
}

// mirrored swaps left and right.
func (k stock) mirrored() stock {
	switch k.closer {
	case job.CloserLeft:
		k.closer = job.CloserRight
	case job.CloserRight:
		k.closer = job.CloserLeft
	}
	if k.remainder == job.Left {
		k.remainder = job.Right
	} else {
		k.remainder = job.Left
	}
	return k
}

// divide cuts a stretch between two joints into pieces with gaps between:
// fewest pieces, then most stock lengths, no joint centre in a blocked window,
// no piece under the least or over the stock, nor of a length that no chairs stand
// under unless nothing else is left. ok is false when there is none.
//
// It is solved with the cut piece at the right; a closer at the left is the
// mirror of that, and a shared one goes to the side that takes remainders.
func divide(total length.Length, k stock, blocked []window) (pieces []length.Length, ok bool) {
	if pieces, ok = divideSide(total, k, blocked); !ok && len(k.unfit) > 0 {
		k.unfit = nil // held where its chairs stand
		pieces, ok = divideSide(total, k, blocked)
	}
	return pieces, ok
}

// divideSide is divide with the cut piece at its side.
func divideSide(total length.Length, k stock, blocked []window) (pieces []length.Length, ok bool) {
	side := job.Right
	if k.closer == job.CloserLeft || k.closer == job.CloserShared && k.remainder == job.Left {
		side = job.Left
	}
	if side == job.Right {
		return divideRight(total, k, blocked)
	}
	turned := make([]window, 0, len(blocked))
	for _, w := range blocked {
		turned = append(turned, window{total - w.to, total - w.from})
	}
	pieces, ok = divideRight(total, k.mirrored(), turned)
	slices.Reverse(pieces)
	return pieces, ok
}

func divideRight(total length.Length, k stock, blocked []window) ([]length.Length, bool) {
	if total < k.least {
		return nil, false
	}
	if p, ok := plainRow(total, k); ok && clear(p, k, blocked) {
		return p, true
	}
	return search(total, k, blocked)
}

// plainRow is the row with nothing in the way: stock lengths from the left,
// the remainder in the last piece; shared by the last two where the job says
// so or where it would be under the least.
func plainRow(total length.Length, k stock) ([]length.Length, bool) {
	n := int((total + k.gap + k.most + k.gap - 1) / (k.most + k.gap))
	p := make([]length.Length, n)
	for i := range p {
		p[i] = k.most
	}
	rest := total - length.Length(n-1)*(k.most+k.gap)
	if n == 1 {
		p[0] = total
		return p, k.fits(total)
	}
	p[n-1] = rest
	if rest < k.least || !k.fits(rest) || k.closer == job.CloserShared && rest < k.most {
		two := length.Split(k.most+rest, 2, k.grid, k.remainder == job.Left)
		// Two nearly whole lengths of an odd stock: the odd step must not pass it.
		if two[0] <= k.most && two[1] <= k.most {
			p[n-2], p[n-1] = two[0], two[1]
		}
	}
	return p, p[n-1] >= k.least && p[n-2] >= k.least && k.fits(p[n-1]) && k.fits(p[n-2])
}

// clear tells whether every joint of a row is outside the blocked windows.
func clear(p []length.Length, k stock, blocked []window) bool {
	at := length.Length(0)
	for _, l := range p[:len(p)-1] {
		at += l + k.gap
		if inWindow(at-k.gap/2, blocked) {
			return false
		}
	}
	return true
}

func inWindow(c length.Length, blocked []window) bool {
	for _, w := range blocked {
		if c > w.from && c < w.to {
			return true
		}
	}
	return false
}

// search finds the row round obstacles by dynamic programming over the places
// a best row can have its joints at: whole stock lengths from either end or
// from the edge of a blocked window, and least lengths from those.
func search(total length.Length, k stock, blocked []window) ([]length.Length, bool) {
	at := edges(total, k, blocked)
	type state struct {
		count, cut int
		next       int // index into at; -1: the last piece ends the stretch
		ok         bool
	}
	best := make([]state, len(at))
	better := func(a, b state) bool { // a over b; equal keeps the earlier, longer first piece
		if a.count != b.count {
			return a.count < b.count
		}
		return a.cut < b.cut
	}
	for i := len(at) - 1; i >= 0; i-- {
		consider := func(s state) {
			if !best[i].ok || better(s, best[i]) {
				best[i] = s
			}
		}
		if l := total - at[i]; l >= k.least && l <= k.most && k.fits(l) {
			consider(state{1, notStock(l, k), -1, true})
		}
		for n := len(at) - 1; n > i; n-- {
			l := at[n] - k.gap - at[i]
			if l < k.least || l > k.most || !k.fits(l) || !best[n].ok {
				continue
			}
			consider(state{1 + best[n].count, notStock(l, k) + best[n].cut, n, true})
		}
	}
	if len(at) == 0 || !best[0].ok {
		return nil, false
	}
	var p []length.Length
	for i := 0; i >= 0; {
		n := best[i].next
		if n < 0 {
			p = append(p, total-at[i])
		} else {
			p = append(p, at[n]-k.gap-at[i])
		}
		i = n
	}
	return p, true
}

func notStock(l length.Length, k stock) int {
	if l == k.most {
		return 0
	}
	return 1
}

// edges lists the left edges a piece may start at, ascending; the first is 0.
func edges(total length.Length, k stock, blocked []window) []length.Length {
	step, least := k.most+k.gap, k.least+k.gap
	var seeds []length.Length
	seeds = append(seeds, 0, total+k.gap)
	for _, w := range blocked {
		// A joint just outside the window, on the grid of the sheets.
		seeds = append(seeds, length.CeilTo(w.to+k.gap/2, k.grid), length.FloorTo(w.from+k.gap/2, k.grid))
	}
	out := []length.Length{0}
	add := func(e length.Length) {
		if e >= least && e <= total-k.least && !inWindow(e-k.gap/2, blocked) {
			out = append(out, e)
		}
	}
	for _, s := range seeds {
		for _, o := range []length.Length{s, s + least, s - least} {
			for e := o; e <= total; e += step {
				add(e)
			}
			for e := o; e >= 0; e -= step {
				add(e)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
