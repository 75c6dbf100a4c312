package view

import (
	"strconv"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Reading limits of a run drawn lengthwise.
const (
	runLargest  = 16             // 3/4" = 1'-0", larger shows nothing more
	runReadable = 24             // 1/2" = 1'-0": below it a run is cut at match lines
	runPitch    = 8 * drawing.MM // least distance between chairs for their labels
	runMetric   = 25             // the metric neighbour of 1/2" = 1'-0"
	runLargeMM  = 20             // and of 3/4" = 1'-0"
	runStubby   = 12             // 1" = 1'-0", of a run about as short as its wall is wide
	runStubbyMM = 10             // its metric neighbour
)

func runCount(n int) string { return strconv.Itoa(n) }

// Windows chooses the lengthwise scale of a run on paper of a width, and the
// stretches of it that stand on one sheet each. The whole run stands on one if
// it fits at 1/2" = 1'-0" (1:25) or larger; if not, it is cut at the centres
// of coping joints into windows as equal as the joints allow, each of which
// repeats a piece, or some four feet of it, beyond its match lines. None takes
// less than a third of its sheet.
func Windows(r *plan.Run, width drawing.Unit) ([]Window, Scale) {
	metric := r.Metric
	largest, readable := int64(runLargest), int64(runReadable)
	if metric {
		largest, readable = runLargeMM, runMetric
	}
	switch {
	case runShort(r) && metric:
		largest = runStubbyMM
	case runShort(r):
		largest = runStubby
	}
	readable = runReadablePitch(r, largest, readable)
	whole := runWhole(r)
	scales := Scales(metric)
	for _, s := range scales {
		if s.Ratio >= largest && s.Ratio <= readable && runFits(r, whole, s, width) {
			return []Window{whole}, s
		}
	}
	// One more piece than fits is no reason for smaller letters; a piece longer than the sheet is.
	for _, s := range scales {
		if s.Ratio < readable {
			continue
		}
		// A shorter repeat is worth a sheet less; a longer one, up to the whole piece, keeps a strip from being an orphan.
		var best []Window
		for _, repeats := range [][]length.Length{{48, 36, 24, 18}, {72, 96, 144}} {
			for _, repeat := range repeats {
				if w := runCut(r, s, width, repeat*length.Inch); w != nil && (best == nil || len(w) < len(best)) {
					best = w
				}
			}
			if best != nil {
				break
			}
		}
		if best != nil {
			return best, s
		}
		if runFits(r, whole, s, width) {
			return []Window{whole}, s
		}
	}
	return []Window{whole}, scales[len(scales)-1]
}

// RunScales are the scale across the wall and the scale of heights at which plan
// and elevation of every window of a run stand over each other, apart from one
// another, in a height: one pair for the whole run, so that its sheets compare.
// together is false if none is large enough to be read; then each view has the
// largest scale at which all windows have it alone in that height.
func RunScales(say words.Book, r *plan.Run, wins []Window, along Scale, width, height, apart drawing.Unit) (across, up Scale, together bool) {
	plans := runHeights(r.Metric, 6, 20, func(s Scale) (most drawing.Unit) {
		for _, w := range wins {
			most = max(most, RunPlan(say, r, w, along, s, width).H)
		}
		return most
	})
	elevs := runHeights(r.Metric, 2, 24*5/4, func(s Scale) (most drawing.Unit) {
		for _, w := range wins {
			most = max(most, RunElevation(say, r, w, along, s, width).H)
		}
		return most
	})
	for _, p := range plans {
		for _, e := range elevs {
			if e.scale.Ratio <= runUpMost && p.high+apart+e.high <= height {
				return p.scale, e.scale, true
			}
		}
	}
	alone := func(all []runHeight) Scale {
		for _, v := range all {
			if v.high <= height {
				return v.scale
			}
		}
		return all[len(all)-1].scale
	}
	return alone(plans), alone(elevs), false
}

// runUpMost is the smallest scale of heights at which packing still shows.
const runUpMost = 10

// runHeight is how high the views of a run come out at a scale.
type runHeight struct {
	scale Scale
	high  drawing.Unit
}

func runHeights(metric bool, largest, smallest int64, high func(Scale) drawing.Unit) []runHeight {
	var out []runHeight
	for _, s := range Scales(metric) {
		if s.Ratio >= largest && s.Ratio <= smallest {
			out = append(out, runHeight{s, high(s)})
		}
	}
	return out
}

// runReadablePitch is the smallest readable scale at which neighbouring chairs
// stand far enough apart for their labels.
func runReadablePitch(r *plan.Run, largest, readable int64) int64 {
	pitch := length.Length(0)
	for i := 1; i < len(r.Chairs); i++ {
		if d := r.Chairs[i].At - r.Chairs[i-1].At; d > 0 && (pitch == 0 || d < pitch) {
			pitch = d
		}
	}
	if pitch == 0 {
		return readable
	}
	best := largest
	for _, s := range Scales(r.Metric) {
		if s.Ratio > best && s.Ratio <= readable && s.Units(pitch) >= runPitch {
			best = s.Ratio
		}
	}
	return best
}

// runFits says whether a window fits a width.
func runFits(r *plan.Run, w Window, s Scale, width drawing.Unit) bool {
	left, right := runSides(r, w, s)
	return left+s.Units(w.To)-s.Units(w.From)+right <= width
}

// runOrphan says whether a window would leave two thirds of its sheet empty.
func runOrphan(r *plan.Run, w Window, s Scale, width drawing.Unit) bool {
	left, right := runSides(r, w, s)
	return 3*(s.Units(w.To)-s.Units(w.From)) < width-left-right
}

// runCut cuts a run at joints into the fewest windows that fit, as alike as the
// joints allow, none of them an orphan. It returns nil if no cut fits.
func runCut(r *plan.Run, s Scale, width drawing.Unit, repeat length.Length) []Window {
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
		for i := 0; i < k; i++ {
			w := window(i, k)
			if best[i].count < 0 || !runFits(r, w, s, width) || runOrphan(r, w, s, width) {
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
