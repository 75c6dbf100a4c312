package cap

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/wall"

	"pgregory.net/rapid"
)

const inch = length.Inch

// small draws a run between two free ends or corners for the solver alone:
// readings, widths, legs, blocked joints, an expansion joint.
func small(t *rapid.T) *stretch {
	n := func(lo, hi int, what string) length.Length {
		return length.Length(rapid.IntRange(lo, hi).Draw(t, what)) * inch
	}
	sys := &job.System{
		FrontClearance: inch / 4, RearClearance: inch / 4, PlayMost: n(1, 2, "play"),
		Widths:     job.Widths{Least: 8 * inch, Most: 40 * inch, Step: inch},
		Transition: job.Transition{Leg: n(2, 4, "leg"), ChangeMost: n(1, 4, "change")},
		Joint:      job.Joint{Gap: inch},
		Metal:      job.Metal{Thickness: inch / 16},
	}
	sys.Transition.Length = 2*sys.Transition.Leg + n(2, 12, "taper")
	f := &frame{job: &job.Job{System: *sys}, sys: sys, grid: inch}
	run := &Run{Run: &wall.Run{}}
	s := &stretch{f: f, run: run, cap: n(60, 140, "cap"), least: n(4, 12, "least"), widths: []length.Length{13 * inch, 14 * inch, 15 * inch, 16 * inch}}
	run.Cap = s.cap
	s.from, s.to = []length.Length{0}, []length.Length{s.cap}
	if rapid.IntRange(0, 4).Draw(t, "expansion") == 0 {
		at := n(20, int(s.cap/inch)-20, "expansion at")
		s.from, s.to = []length.Length{0, at + inch}, []length.Length{at, s.cap}
	}
	if rapid.IntRange(0, 2).Draw(t, "blocked") == 0 {
		at := n(0, int(s.cap/inch), "blocked at")
		s.blocked = []window{{at - 3*inch, at + 3*inch}}
	}
	for x := length.Length(0); x <= s.cap; x += n(6, 20, "apart") {
		need := 12*inch + n(0, 12, "need")/4
		s.x, s.need = append(s.x, x), append(s.need, need)
		s.cover, s.loose = append(s.cover, f.covering(need)), append(s.loose, f.loosest(need))
	}
	for end := range s.legs {
		l := n(6, 10, "corner leg")
		longest := l + n(0, 10, "longest")
		for range s.widths {
			s.legs[end] = append(s.legs[end], legRange{short: l, least: l, longest: longest})
		}
	}
	return s
}

// brute tries up to two transitions at every inch and every pair of widths.
func brute(s *stretch, first, last int) (cost, bool) {
	var best cost
	found := false
	keep := func(tapers []Taper) {
		s.run.setBands(s.widths[first], tapers, 0)
		if e := s.plan(tapers); e.ok && (!found || e.cost.less(best)) {
			best, found = e.cost, true
		}
	}
	if first == last {
		keep(nil)
	}
	g, long := s.f.sys.Joint.Gap, s.f.sys.Transition.Length
	var all []length.Length
	for x := inch; x < s.cap; x += inch {
		if s.stands(x) {
			all = append(all, x)
		}
	}
	ok := func(tapers []Taper, x ...length.Length) bool {
		n := len(x) - 1
		if s.section(x[0]) == 0 && !s.roomy(0, first, x[0]-g) || s.section(x[n]) == len(s.to)-1 && !s.roomy(1, last, s.cap-x[n]-long-g) {
			return false
		}
		for i := range x {
			if length.Abs(tapers[i].Left-tapers[i].Right) > s.f.sys.Transition.ChangeMost || tapers[i].Left == tapers[i].Right {
				return false
			}
			if i > 0 && x[i]-x[i-1]-long-2*g < s.least {
				return false
			}
		}
		return true
	}
	for _, x := range all {
		one := []Taper{s.taper(x, s.widths[first], s.widths[last])}
		if ok(one, x) {
			keep(one)
		}
		for _, y := range all {
			for _, w := range s.widths {
				two := []Taper{s.taper(x, s.widths[first], w), s.taper(y, w, s.widths[last])}
				if y > x && ok(two, x, y) {
					keep(two)
				}
			}
		}
	}
	return best, found
}

// The plan of a run is as good as the best of all that stand on the grid with
// up to two transitions.
func TestWidthsAgainstEveryPlan(t *testing.T) {
	draws.Check(t, 50, func(t *rapid.T) {
		s := small(t)
		s.places()
		limit := cost{held: 1 << 20}
		for first := range s.widths {
			in := make([]entry, len(s.widths))
			in[first].ok = true
			out, _ := s.pass(in, limit)
			for last := range s.widths {
				want, ok := brute(s, first, last)
				got := out[last]
				if ok && !got.ok || ok && want.less(got.cost) {
					t.Fatalf("from %v to %v: %+v, every plan gives %+v", s.widths[first], s.widths[last], got, want)
				}
				if got.ok && got.cost.pieces <= 2 && (!ok || got.cost.less(want)) {
					t.Fatalf("from %v to %v: %+v is better than every plan, %+v", s.widths[first], s.widths[last], got, want)
				}
			}
		}
	})
}
