package layout_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// windowed is a stretch of a perimeter unrolled: where chairs can stand on it, and what the
// wind asks of the front and of the rear leg along it, both in inches.
type windowed struct {
	sys    *job.System
	places []spot
	lines  [2][]pressed // front, rear
}

type spot struct {
	at  [2]float64 // along the front, along the rear
	n   int        // of its run, from the first of the stretch
	run *cap.Run
	on  length.Length // station of the run
}

// apart tells whether chairs can stand on two places, the one before the other.
func (w windowed) apart(a, b spot) bool {
	s := w.sys
	long, half := s.Chair.Length, s.Chair.Length/2
	switch c := a.run.Right.Corner; {
	case a.n == b.n:
		return b.on-a.on >= long
	case a.n+1 != b.n || c == nil || c.Absorb:
		return true
	default:
		u := a.run.Cap - a.on
		return !cap.Overlap(cap.ChairOn(s, c, false, a.run.Inside, u-half, u+half),
			cap.ChairOn(s, c, true, b.run.Inside, b.on-half, b.on+half))
	}
}

type pressed struct{ from, to, pa float64 }

const (
	proofStep = 0.25  // between two places that are tried
	proofRoom = 150.0 // of the runs at a stretch's ends
	proofRuns = 6     // on each side of the chair at most
)

// unrolled is the stretch around a run of a perimeter, up to the next runs that have room
// for chairs as near as they can stand. A chair keeps clear of the miters and of the supports.
func unrolled(l *layout.Layout, p *layout.Perimeter, at int) windowed {
	s, n := &l.Job.System, len(p.Runs)
	all := make([]*cap.Run, n)
	for i, r := range p.Runs {
		all[i] = r.Run
	}
	seams := cap.Seams(all)
	long := func(i int) bool { return all[(i+2*n)%n].Cap > length.FromMM(25.4*proofRoom) }
	first, last := at, at
	for first > at-proofRuns && last-first < n-1 && (first == at || !long(first)) && all[(first+2*n)%n].Left.Corner != nil {
		first--
	}
	for last < at+proofRuns && last-first < n-1 && (last == at || !long(last)) && all[(last+2*n)%n].Right.Corner != nil {
		last++
	}
	w := windowed{sys: s}
	front, less := 0.0, 0.0
	half := s.Chair.Length.Inch() / 2
	for i := first; i <= last; i++ {
		r := all[(i+2*n)%n]
		from, to, near, far := 0.0, r.Cap.Inch(), half, r.Cap.Inch()-half
		trims := [2]float64{}
		if c := r.Left.Corner; c != nil && !c.Absorb && i > first {
			m := seams[c]
			u, _ := m.Near(s, 1, l.Grid, false)
			near, trims[0] = u.Inch(), m.Trims(s)[1].Inch()
			less += (m.Trims(s)[0] + m.Trims(s)[1]).Inch()
		}
		if c := r.Right.Corner; c != nil && !c.Absorb && i < last {
			m := seams[c]
			u, _ := m.Near(s, 0, l.Grid, false)
			far, trims[1] = r.Cap.Inch()-u.Inch(), m.Trims(s)[0].Inch()
		}
		if i == first {
			from = max(0, r.Cap.Inch()-proofRoom)
			near = from
		}
		if i == last && i > first {
			to = min(to, proofRoom)
			far = to
		}
		for x := near; x <= far+1e-9; x += proofStep {
			w.places = append(w.places, spot{[2]float64{front + x, front + x - less}, i, r, length.FromMM(25.4 * x)})
		}
		for _, z := range r.Zones {
			a, e := r.ToCap(z.From).Inch(), r.ToCap(z.To).Inch()
			for k, rear := range []float64{0, 1} {
				lo, hi := from+rear*trims[0], to-rear*trims[1]
				q := [2]job.Pressure{l.Demand.Out[z.Zone], l.Demand.Rear[z.Zone]}[k].Pa
				x, y := max(a, lo), min(e, hi)
				if z.From == 0 { // what an inside corner adds lies in the zone beside it
					x = lo
				}
				if z.To == r.Front {
					y = hi
				}
				if x < y {
					w.lines[k] = append(w.lines[k], pressed{front + x - rear*less, front + y - rear*less, q})
				}
			}
		}
		front += r.Cap.Inch()
	}
	return w
}

// load is what lies on a line between two places, in pascals times inches.
func load(line []pressed, from, to float64) (sum float64) {
	for _, q := range line {
		if a, e := max(from, q.from), min(to, q.to); a < e {
			sum += q.pa * (e - a)
		}
	}
	return sum
}

// carried tells whether chairs can stand on a stretch, whatever bays, joints and pieces that
// makes, so that none is asked for more of one leg than a chair holds, give or take a step. To
// carry the less a chair wants the one before it as near as can be, so for each place but that
// is kept: where no row comes to the end there is none.
func (w windowed) carried(leg int, holds, chair float64) bool {
	n := len(w.places)
	before := make([]int, n) // the nearest place that the one before can have; n: it is not come to
	mid := func(i, k int) float64 { return (w.places[i].at[leg] + w.places[k].at[leg]) / 2 }
	for i := range before {
		before[i] = n
		if w.places[i].at[0] < w.places[0].at[0]+chair {
			before[i] = -1
		}
	}
	for i := range before {
		if before[i] == n {
			continue
		}
		left := w.places[i].at[leg] - chair/2
		if before[i] >= 0 {
			left = mid(before[i], i)
		}
		if w.places[n-1].at[0]-w.places[i].at[0] < chair {
			return true
		}
		for k := i + 1; k < n; k++ {
			right := mid(i, k)
			if load(w.lines[leg], left+proofStep/2, right-proofStep/2) > holds {
				break
			}
			if w.apart(w.places[i], w.places[k]) {
				before[k] = i // a later one is nearer
			}
		}
	}
	return false
}

// openOverloads counts the runs with a chair that is asked for more than was proved, and those
// of them of which it is not proven so that no row of chairs could carry them.
func openOverloads(l *layout.Layout) (all int, open []string) {
	s := &l.Job.System
	for _, p := range l.Perimeters {
		for i, r := range p.Runs {
			over, proven := false, false
			for _, c := range r.Chairs {
				if !c.Load.Over() {
					continue
				}
				over = true
				w := unrolled(l, p, i)
				legs := [2]float64{s.FrontLeg(job.ToMoldLine).MM(), s.RearLeg(job.ToMoldLine).MM()}
				for leg, q := range []float64{c.Load.Out.Holds, c.Load.Rear.Holds} {
					proven = proven || q > 0 && !w.carried(leg, q/legs[leg]*1e6/25.4, s.Chair.Length.Inch())
				}
			}
			if over {
				all++
				if !proven {
					open = append(open, r.Name)
				}
			}
		}
	}
	return all, open
}

// roomy tells whether some row of chairs stands on a run between two miters that are held, or
// between one and a joint: within the spacing of each along the longer face, and clear of it.
func roomy(l *layout.Layout, seams map[*layout.Corner]cap.Seam, r *cap.Run, spacing length.Length) bool {
	s := &l.Job.System
	near, more, face := [2]length.Length{}, [2]length.Length{}, length.Length(0)
	for i, c := range []*layout.Corner{r.Left.Corner, r.Right.Corner} {
		if c == nil || c.Absorb {
			return true // its end is not looked at
		}
		u, ok := seams[c].Near(s, 1-i, l.Grid, false)
		if !ok || u > s.Corner.LongestLeg+s.Joint.Gap {
			return false
		}
		t := seams[c].Trims(s)[1-i]
		near[i], more[i] = u, length.Max(0, -t)
		face += t
	}
	if length.Max(r.Cap, r.Cap-face) <= spacing {
		return true
	}
	first, last := [2]length.Length{near[0], spacing - more[0]}, [2]length.Length{r.Cap - spacing + more[1], r.Cap - near[1]}
	if first[0] > first[1] || last[0] > last[1] {
		return false
	}
	for n := length.Length(0); n < 400; n++ {
		if lo, hi := last[0]-first[1], last[1]-first[0]; hi >= n*s.Chair.Length && lo <= n*spacing && (n > 0 || lo <= 0 && hi >= 0) {
			return true
		}
	}
	return false
}

// openCrowds counts the holds for want of room, and those of them that some row might have.
func openCrowds(l *layout.Layout) (all int, open []string) {
	for _, f := range l.Holds() {
		if f.Code != "chairs-crowded" && f.Code != "corner-crowded" {
			continue
		}
		all++
		for _, p := range l.Perimeters {
			runs := make([]*cap.Run, len(p.Runs))
			for i, r := range p.Runs {
				runs[i] = r.Run
			}
			seams := cap.Seams(runs)
			if p.Job.Name != f.Where.Perimeter {
				continue
			}
			proven := false
			for _, r := range runs {
				on := r.Name == f.Where.Run
				for _, name := range f.Where.Runs {
					on = on || r.Name == name
				}
				for _, q := range p.Pieces { // and on the runs beside it that its piece turns onto
					if len(q.Parts) > 1 && strings.Contains(f.What, "piece "+q.Mark+" ") {
						for _, t := range q.Parts {
							on = on || t.Run == r
						}
					}
				}
				proven = proven || on && !roomy(l, seams, r, r.Choice[1].Assembly.ChairSpacing)
			}
			if !proven {
				open = append(open, f.Where.Run)
			}
		}
	}
	return all, open
}

// The proof finds the jog of 39 3/8 in that no chairs can carry, and none for one of 35 in.
func TestOverloadsAreProven(t *testing.T) {
	sq := 90 * job.Degree
	for _, c := range []struct {
		jog     length.Length
		carried bool
	}{{35 * in, true}, {315 * in / 8, false}} {
		l, _ := solved(imperialRuns(t, []length.Length{470 * in, c.jog, 472 * in}, []job.Angle{sq, -sq}))
		q := l.Runs()[1].Chairs[0].Load.Rear
		w := unrolled(l, l.Perimeters[0], 1)
		leg := l.Job.System.RearLeg(job.ToMoldLine).MM()
		if got := w.carried(1, q.Holds/leg*1e6/25.4, l.Job.System.Chair.Length.Inch()); got != c.carried {
			t.Errorf("a jog of %v: %v", c.jog, got)
		}
	}
}
