package layout_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// Widths: every reading covered and its play within limits, or a hold there;
// bands cover the run once; neighbours agree at every joint and round every
// corner; transitions stand by their rules.
func checkWidths(t *rapid.T, l *layout.Layout) {
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			checkBands(t, r)
			checkPlay(t, l, r)
			checkTransitions(t, l, r)
			if c := r.Right.Corner; c != nil {
				next := p.Runs[(r.Index+1)%len(p.Runs)]
				if a, b := r.InsideAt(r.Cap), next.InsideAt(0); a != b {
					checkTwoWidths(t, l, c, min(a, b), max(a, b))
				}
			}
			for _, c := range r.Chairs {
				if c.Inside != r.InsideAt(c.At) {
					t.Fatalf("chair %s is %v wide inside, the cap %v", c.Name, c.Inside, r.InsideAt(c.At))
				}
			}
		}
		for _, q := range p.Pieces {
			a := q.Assembly
			if q.Inside > a.WidthMost && l.Held.Released(q) {
				t.Fatalf("piece %s of %v is tested to %v", q.Mark, q.Inside, a.WidthMost)
			}
		}
	}
}

// A corner of two widths: the job accepts it, it is a welded one, and the wider
// leg's slope and mismatch are within what the job says.
func checkTwoWidths(t *rapid.T, l *layout.Layout, c *layout.Corner, narrow, wide length.Length) {
	s := &l.Job.System
	w := s.Corner.TwoWidths
	if w == nil || c.Absorb || c.Kink {
		t.Fatalf("corner %s: %v and %v meet", c.Name, narrow, wide)
	}
	off := s.Profile.TopSlope.Rise(wide - narrow)
	slope := float64(s.Profile.TopSlope) * (narrow + 2*s.Metal.Thickness).MM() / (wide + 2*s.Metal.Thickness).MM()
	if off > w.MismatchMost || slope < float64(w.SlopeLeast)-1 {
		t.Fatalf("corner %s: %v and %v meet, %v apart, with a slope of %.0f", c.Name, narrow, wide, off, slope)
	}
}

func checkBands(t *rapid.T, r *layout.Run) {
	at, widest := length.Length(0), length.Length(0)
	for _, b := range r.Bands {
		if b.From != at || b.To <= b.From {
			t.Fatalf("run %s: a band begins at %v, want %v", r.Name, b.From, at)
		}
		at, widest = b.To, max(widest, b.Inside)
	}
	if at != r.Cap || widest != r.Inside || len(r.Tapers) != len(r.Bands)-1 {
		t.Fatalf("run %s: bands end at %v of %v, widest %v of %v", r.Name, at, r.Cap, widest, r.Inside)
	}
}

func checkPlay(t *rapid.T, l *layout.Layout, r *layout.Run) {
	s := &l.Job.System
	for i, q := range r.Readings {
		play := r.InsideAt(r.ToCap(q.Station)) - q.Need - s.FrontClearance
		if play != r.Play[i] {
			t.Fatalf("run %s at %v: play %v, said %v", r.Name, q.Station, play, r.Play[i])
		}
		if play < max(s.RearClearance, s.PlayLeast) && !held(l, r.Name, "width-not-offered") {
			t.Fatalf("run %s at %v: not covered, play %v", r.Name, q.Station, play)
		}
		if play > s.PlayMost && !held(l, r.Name, "rear-play") {
			t.Fatalf("run %s at %v: play %v is not held", r.Name, q.Station, play)
		}
	}
}

func checkTransitions(t *rapid.T, l *layout.Layout, r *layout.Run) {
	s := &l.Job.System
	n := 0
	for i, p := range r.Parts {
		q := p.Piece
		if q.Kind != cap.Transition {
			if q.Wide != q.Inside || len(q.Miters) == 0 && q.Narrow != q.Inside || r.InsideAt(p.From) != p.Inside() || r.InsideAt(p.To) != p.Inside() ||
				q.Kind != cap.Tee && (p.Inside() < q.Narrow || p.Inside() > q.Wide) {
				t.Fatalf("piece %s: %v..%v of %v, the run has %v and %v", q.Mark, q.Narrow, q.Wide, q.Inside, r.InsideAt(p.From), r.InsideAt(p.To))
			}
			continue
		}
		n++
		left, right := r.InsideAt(p.From), r.InsideAt(p.To)
		hand := cap.RightHand
		if left > right {
			hand = cap.LeftHand
		}
		if p.Length() != s.Transition.Length || q.Hand != hand || q.Straight != job.Front || q.Wide != max(left, right) || q.Narrow != min(left, right) ||
			q.Wide-q.Narrow > s.Transition.ChangeMost || q.Wide == q.Narrow {
			t.Fatalf("transition %s: %v long, %v to %v, hand %v, from %v to %v", q.Mark, p.Length(), left, right, q.Hand, q.Narrow, q.Wide)
		}
		if q.Taper.From-p.From != s.Transition.Leg || p.To-q.Taper.To != s.Transition.Leg {
			t.Fatalf("transition %s tapers from %v to %v of %v to %v", q.Mark, q.Taper.From, q.Taper.To, p.From, p.To)
		}
		if i == 0 || i == len(r.Parts)-1 || r.Parts[i-1].Piece.Kind == cap.Transition || r.Parts[i+1].Piece.Kind == cap.Transition {
			t.Fatalf("transition %s stands at an end or beside another", q.Mark)
		}
		for _, j := range r.Joints {
			if j.Kind == cap.Expansion && (j.Left == q || j.Right == q) {
				t.Fatalf("transition %s stands at the expansion joint %s", q.Mark, j.Name)
			}
			if (j.Left == q || j.Right == q) && (r.InsideAt(j.Centre()-j.Plate/2) != r.InsideAt(j.Centre()+j.Plate/2)) {
				t.Fatalf("the plate of joint %s lies on a taper", j.Name)
			}
		}
	}
	if n != len(r.Tapers) {
		t.Fatalf("run %s: %d transitions, %d tapers", r.Name, n, len(r.Tapers))
	}
}

// Walls of widths that vary: covered, held where they cannot be, tiled.
func TestUnevenWalls(t *testing.T) {
	n, two := 0, 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		l := build(t, jobtest.Uneven(t))
		checkTiling(t, l)
		checkJoints(t, l)
		checkBays(t, l)
		checkChairs(t, l)
		checkPieces(t, l)
		checkCrates(t, l)
		checkWidths(t, l)
		n += checkNeeded(t, l)
		two += checkLegs(t, l)
	})
	if n == 0 || two == 0 {
		t.Errorf("%d transitions and %d corners of two widths were wanted", n, two)
	}
}

// The legs of a corner of two widths rise alike, each has its own rear length,
// and each of its chairs has the width of its leg. It returns how many there are.
func checkLegs(t *rapid.T, l *layout.Layout) (n int) {
	s := &l.Job.System
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			for i, m := range q.Miters {
				if !m.Two() {
					continue
				}
				n++
				var rises, fronts [2]length.Length
				for k := range rises {
					part := q.Parts[i+k]
					if part.Inside() != m.Inside[k] {
						t.Fatalf("piece %s: leg %d is %v wide inside, its seam %v", q.Mark, k, part.Inside(), m.Inside[k])
					}
					rises[k] = part.Slope(s).Rise(part.Inside() + 2*s.Metal.Thickness)
					fronts[k] = part.Mismatch(s)
				}
				if length.Abs(rises[0]-rises[1]) > 10 {
					t.Fatalf("piece %s: its legs rise %v and %v", q.Mark, rises[0], rises[1])
				}
				if min(fronts[0], fronts[1]) != 0 && len(q.Parts) == 2 {
					t.Fatalf("piece %s: both legs stand off their neighbours, by %v", q.Mark, fronts)
				}
			}
		}
	}
	return n
}

// The mirror of an uneven wall has the mirrored widths and pieces.
func TestUnevenMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) { checkMirror(t, jobtest.Uneven(t)) })
}

// served tells whether a run is covered with the widths given, first at its
// left end and then as its tapers go, and how many stations have more play
// than the rear leg takes up.
func served(s *job.System, r *layout.Run, first length.Length, tapers []cap.Taper) (covered bool, loose int) {
	try := *r.Run
	try.Tapers, try.Bands = tapers, nil
	w := first
	for _, t := range tapers {
		try.Bands = append(try.Bands, cap.Band{To: t.From + (t.To-t.From)/2, Inside: w})
		w = t.Right
	}
	try.Bands = append(try.Bands, cap.Band{To: r.Cap, Inside: w})
	covered = true
	at := func(inside, need length.Length) {
		play := inside - need - s.FrontClearance
		covered = covered && play >= max(s.RearClearance, s.PlayLeast)
		if play > s.PlayMost {
			loose++
		}
	}
	for _, q := range r.Readings {
		at(try.InsideAt(r.ToCap(q.Station)), q.Need)
	}
	for _, t := range tapers {
		at(t.Left, r.At(r.ToFront(t.From)).Need)
		at(t.Right, r.At(r.ToFront(t.To)).Need)
	}
	return covered, loose
}

// Every transition is needed: without it, and with one of its two widths in
// the place of both, a reading is not covered or one more has too much play.
// It returns how many it tried.
func checkNeeded(t *rapid.T, l *layout.Layout) (n int) {
	s := &l.Job.System
	for _, r := range l.Runs() {
		first := r.InsideAt(0)
		_, was := served(s, r, first, r.Tapers)
		for i, gone := range r.Tapers {
			for _, w := range []length.Length{gone.Left, gone.Right} {
				if i == 0 && w != gone.Left || i == len(r.Tapers)-1 && w != gone.Right {
					continue // the width of an end goes on round the corner
				}
				var rest []cap.Taper
				for k, q := range r.Tapers {
					switch {
					case k == i:
						continue
					case k == i-1:
						q.Right = w
					case k == i+1:
						q.Left = w
					}
					rest = append(rest, q)
				}
				ok, loose := served(s, r, first, rest)
				for _, q := range rest {
					ok = ok && q.Left != q.Right && max(q.Left, q.Right)-min(q.Left, q.Right) <= s.Transition.ChangeMost
				}
				if n++; ok && loose <= was {
					t.Fatalf("run %s: transition %d of %+v is not needed: %v would do", r.Name, i+1, r.Tapers, w)
				}
			}
		}
	}
	return n
}
