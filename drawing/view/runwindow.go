package view

import (
	"copingset/layout/length"
	"copingset/layout/plan"
)

// The scales of a run along its wall. Larger than the largest shows nothing more; below
// the least chairs and joints are hard to tell apart, and one step farther down is taken
// only where it saves a sheet.
const (
	runLargest, runLargestMM   = 16, 20
	runLeast, runLeastMM       = 64, 100
	runSmallest, runSmallestMM = 96, 100
)

// runScales are the usual scales lengthwise that a run is drawn at, largest first, and
// those that only a sheet saved is worth.
func runScales(metric bool) (usual, smaller []Scale) {
	most, least, smallest := int64(runLargest), int64(runLeast), int64(runSmallest)
	if metric {
		most, least, smallest = runLargestMM, runLeastMM, runSmallestMM
	}
	for _, s := range Scales(metric) {
		switch {
		case s.Ratio >= most && s.Ratio <= least:
			usual = append(usual, s)
		case s.Ratio > least && s.Ratio <= smallest:
			smaller = append(smaller, s)
		}
	}
	return usual, smaller
}

// RunStrips are the fewest strips that show a run, each no wider than the room: the
// whole of it at one scale, or windows as alike as its joints allow, each of which
// repeats a piece, or some two feet of it, beyond its match lines. of gives the strip
// of a window at a scale. A strip is drawn no larger than its columns ask for. The run
// is whole where nothing fits.
func RunStrips(r *plan.Run, of func(w Window, along Scale) *RunStrip) []*RunStrip {
	whole := Window{From: 0, To: r.Cap.Real, N: 1, Of: 1}
	usual, smaller := runScales(r.Metric)
	last := usual[len(usual)-1]
	for _, s := range append(usual, smaller...) {
		q := of(whole, s)
		if q.Fits() && (s.Ratio >= last.Ratio || s.Units(r.Cap.Real) <= max(columnsWidth(q.Columns), 3000)) {
			return []*RunStrip{q}
		}
	}
	var best []*RunStrip
	for _, s := range append([]Scale{last}, smaller...) {
		for _, repeat := range []length.Length{24, 48, 12, 0} {
			wins := runCut(r, func(w Window) bool { return of(w, s).Fits() }, repeat*length.Inch)
			if wins == nil || best != nil && len(wins) >= len(best) {
				continue
			}
			best = nil
			for _, w := range wins {
				best = append(best, of(w, s))
			}
		}
	}
	if best != nil {
		return best
	}
	for _, s := range Scales(r.Metric) { // no joint to cut at: a smaller scale, or its room stays too small
		if q := of(whole, s); s.Ratio > last.Ratio && q.Fits() {
			return []*RunStrip{q}
		}
	}
	return []*RunStrip{of(whole, last)}
}

// runCut cuts a run at joints into the fewest windows that fit, as alike as the
// joints allow. It returns nil if no cut fits.
func runCut(r *plan.Run, fits func(Window) bool, repeat length.Length) []Window {
	joints := runMatches(r)
	n := len(joints)
	// Places 0..n+1: the left end, each joint, the right end.
	window := func(i, k int) Window {
		w := Window{From: 0, To: r.Cap.Real}
		if i > 0 {
			j := joints[i-1]
			c := j.Centre
			w.MatchLeft, w.From = &c, runBeyond(r, j.From, -repeat)
		}
		if k <= n {
			j := joints[k-1]
			c := j.Centre
			w.MatchRight, w.To = &c, runBeyond(r, j.To, repeat)
		}
		return w
	}
	type state struct {
		count   int
		squares int64 // of the lengths shown, in inches: least when they are alike
		prev    int
	}
	best := make([]state, n+2)
	for k := 1; k <= n+1; k++ {
		best[k].count = -1
		for i := k - 1; i >= 0; i-- {
			w := window(i, k)
			if !fits(w) {
				break
			}
			if best[i].count < 0 {
				continue
			}
			shown := int64((w.To - w.From) / length.Inch)
			c := state{best[i].count + 1, best[i].squares + shown*shown, i}
			if b := best[k]; b.count < 0 || c.count < b.count || c.count == b.count && c.squares < b.squares {
				best[k] = c
			}
		}
	}
	if best[n+1].count < 1 {
		return nil
	}
	out := make([]Window, best[n+1].count)
	for k, at := n+1, len(out)-1; k > 0; k, at = best[k].prev, at-1 {
		out[at] = window(best[k].prev, k)
		out[at].N, out[at].Of = at+1, len(out)
	}
	return out
}

// runMatches are the joints a run may be cut at. A building expansion joint
// and a kink keep both their sides on one sheet.
func runMatches(r *plan.Run) []plan.Joint {
	var out []plan.Joint
	for _, j := range r.Joints {
		if j.Kind == plan.PlainJoint && j.From > 0 && j.To < r.Cap.Real {
			out = append(out, j)
		}
	}
	return out
}

// runBeyond is where the repeat of a piece beyond a match line ends: the far
// end of the piece if it is short, or as far as the repeat goes. by is
// negative to the left.
func runBeyond(r *plan.Run, edge, by length.Length) length.Length {
	to := edge + by
	for _, p := range r.Pieces {
		if by < 0 && p.To == edge && p.From > to {
			to = p.From
		}
		if by > 0 && p.From == edge && p.To < to {
			to = p.To
		}
	}
	return length.Min(length.Max(to, 0), r.Cap.Real)
}
