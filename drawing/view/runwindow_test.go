package view

import (
	"testing"

	"pgregory.net/rapid"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"
)

// runWidths are what the usual papers held broad leave for a view: ANSI A to D
// and A4 to A2, less margins.
var runWidths = []drawing.Unit{24940, 40180, 52880, 83360, 26700, 39000, 56400}

// runOfLength is a run between square corners or with free ends.
func runOfLength(t interface{ Fatalf(string, ...any) }, j *job.Job, l length.Length, units job.Units, corners bool) (*layout.Layout, *layout.Run) {
	j.Units = units
	if corners {
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(l, 300*runInch)}
	} else {
		p := jobtest.Perimeter("OPEN", job.Open, jobtest.Run("A", l, 0))
		p.Starts, p.Runs[0].Right = job.End{Kind: job.EndFree}, job.End{Kind: job.EndFree}
		j.Perimeters = []job.Perimeter{p}
	}
	solved, found := layout.Build(j)
	if found.HasErrors() {
		t.Fatalf("a run of %v does not build: %v", l, found)
	}
	return solved, solved.Runs()[0]
}

// runBalanced checks the windows of a run: each fits, shows a third of the
// sheet or more, is about as long as the others, and repeats what lies beyond
// its match lines, which are joints.
func runBalanced(t runFails, l *layout.Layout, r *layout.Run, width drawing.Unit) {
	of := planned(l, r)
	wins, s := Windows(of, width)
	longest := length.Length(0)
	for _, q := range r.Parts {
		longest = length.Max(longest, q.To-q.From)
	}
	var least, most length.Length
	for i, w := range wins {
		left, right := runSides(of, w, s)
		usable := width - left - right
		if shown := s.Units(w.To) - s.Units(w.From); shown > usable {
			t.Errorf("cap %v on %v: part %d of %d passes the sheet", r.Cap, width, i+1, len(wins))
		} else if len(wins) > 1 && 3*shown < usable {
			t.Errorf("cap %v on %v at %s: part %d of %d takes %v of %v", r.Cap, width, s.Name, i+1, len(wins), shown, usable)
		}
		from, to := length.Length(0), r.Cap
		if w.N != i+1 || w.Of != len(wins) {
			t.Errorf("cap %v: part %d is numbered %d of %d", r.Cap, i+1, w.N, w.Of)
		}
		if w.MatchLeft != nil {
			from = *w.MatchLeft
		}
		if w.MatchRight != nil {
			to = *w.MatchRight
		}
		if i == 0 || to-from < least {
			least = to - from
		}
		most = length.Max(most, to-from)
		if i > 0 && w.MatchLeft != nil {
			runEven(t, of, wins[i-1], w, s, width)
		}
		for _, m := range []*length.Length{w.MatchLeft, w.MatchRight} {
			if m == nil {
				continue
			}
			at := false
			for _, q := range r.Joints {
				at = at || q.Centre() == *m
			}
			if !at {
				t.Errorf("cap %v: part %d is cut at %v, where no joint is", r.Cap, i+1, *m)
			}
		}
		if i > 0 {
			before := wins[i-1]
			if before.MatchRight == nil || w.MatchLeft == nil || *before.MatchRight != *w.MatchLeft {
				t.Errorf("cap %v: parts %d and %d do not meet", r.Cap, i, i+1)
				continue
			}
			for k, repeat := range []length.Length{before.To - *before.MatchRight, *w.MatchLeft - w.From} {
				if repeat < 12*runInch && !runIsPiece(r, before, w, k) {
					t.Errorf("cap %v: at the match line of parts %d and %d only %v is repeated", r.Cap, i, i+1, repeat)
				}
			}
		}
	}
	// A cut moves by a piece and its gap; an end may have the leg of its corner besides.
	if step := longest + longest/4; len(wins) > 1 && most-least > step {
		t.Errorf("cap %v on %v at %s: parts from %v to %v, pieces up to %v", r.Cap, width, s.Name, least, most, longest)
	}
}

// runEven checks that no joint beside the cut between two parts would part them
// more evenly, where both would still fit.
func runEven(t runFails, r *plan.Run, a, b Window, s Scale, width drawing.Unit) {
	from, to := length.Length(0), r.Cap.Real
	if a.MatchLeft != nil {
		from = *a.MatchLeft
	}
	if b.MatchRight != nil {
		to = *b.MatchRight
	}
	uneven := func(cut length.Length) length.Length { return length.Abs(2*cut - from - to) }
	before, after := *a.MatchRight-a.From, b.To-*b.MatchLeft
	for _, q := range runMatches(r) {
		c := q.Centre
		if c <= from || c >= to || uneven(c)+length.Foot*5 >= uneven(*a.MatchRight) {
			continue
		}
		// The repeat beyond the match line is four feet at most.
		before, after := before+c-*a.MatchRight, after-c+*a.MatchRight
		la, ra := runSides(r, a, s)
		lb, rb := runSides(r, b, s)
		if la+s.Units(before+4*length.Foot+runInch)+ra <= width && lb+s.Units(after+4*length.Foot+runInch)+rb <= width {
			t.Errorf("cap %v on %v: cut at %v, %v would part it more evenly", r.Cap.Real, width, *a.MatchRight, c)
		}
	}
}

// runIsPiece says whether what is repeated is a whole short piece.
func runIsPiece(r *layout.Run, before, after Window, side int) bool {
	for _, q := range r.Parts {
		if side == 0 && q.To == before.To || side == 1 && q.From == after.From {
			return true
		}
	}
	return false
}

func TestPartsOfARunAreBalanced(t *testing.T) {
	for _, units := range []job.Units{job.Imperial, job.Metric} {
		for _, feet := range []length.Length{2, 5, 9, 14, 21, 26, 30, 33, 37, 45, 61, 88, 120, 173, 250, 333, 480, 500, 777, 1000} {
			for _, corners := range []bool{true, false} {
				l, r := runOfLength(t, jobtest.Job(), feet*length.Foot, units, corners)
				for _, w := range runWidths {
					runBalanced(t, l, r, w)
				}
			}
		}
	}
}

func TestPartsOfAnyRunAreBalanced(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Job()
		j.System.Closer = job.Closer(rapid.IntRange(0, 2).Draw(t, "closer"))
		j.System.Remainder = job.Side(rapid.IntRange(0, 1).Draw(t, "remainder"))
		inches := length.Length(rapid.IntRange(24, 12000).Draw(t, "inches"))
		l, r := runOfLength(t, j, inches*runInch, job.Units(rapid.IntRange(0, 1).Draw(t, "units")), rapid.Bool().Draw(t, "corners"))
		runBalanced(t, l, r, rapid.SampledFrom(runWidths).Draw(t, "width"))
	})
}
