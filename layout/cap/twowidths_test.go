package cap_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/wall"

	"pgregory.net/rapid"
)

// oneWide is an ell whose run D, between an inside and an outside corner, is
// wider than the others; its rear leg takes up 7/8 in, its slope is 1 in 24.
func oneWide(wider length.Length) *job.Job {
	j := jobtest.Job()
	s := &j.System
	s.PlayMost = 7 * in / 8
	s.Corner.TwoWidths = &job.TwoWidths{MismatchMost: in / 8, SlopeLeast: 25_000_000}
	s.Corner.Support.Length, s.Corner.Support.Width = 4*in, 3*in // within the legs of the seam, which stands askew
	const ft = length.Foot
	p := jobtest.Perimeter("ELL", job.Roof, jobtest.Run("A", 40*ft, sq), jobtest.Run("B", 20*ft, sq), jobtest.Run("C", 15*ft, -sq),
		jobtest.Run("D", 12*ft, sq), jobtest.Run("E", 25*ft, sq), jobtest.Run("F", 32*ft, sq))
	for i := range p.Runs[3].Readings {
		p.Runs[3].Readings[i].Width += wider
	}
	j.Perimeters = []job.Perimeter{p}
	return j
}

func pieceOf(l *layout.Layout, mark string) *layout.Piece {
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			if q.Mark == mark {
				return q
			}
		}
	}
	return nil
}

// By hand: 12 1/2 in and 14 1/2 in inside, 12.6 and 14.6 outside. The seam of a
// square corner swaps the widths; the wider leg slopes 12.6/14.6 of 1/2 in 12;
// 2 in of 1 in 24 is a mismatch of 1/12 in.
func TestTwoWidthsByHand(t *testing.T) {
	l, codes := solve(t, oneWide(2*in))
	if codes != "" {
		t.Fatal(codes)
	}
	s := &l.Job.System
	for _, c := range []struct {
		mark       string
		inside     [2]length.Length
		rear       [2]length.Length
		narrowLeft bool
	}{
		{"C/D", [2]length.Length{12*in + in/2, 14*in + in/2}, [2]length.Length{27*in + 14*in + 6*in/10, 27*in + 12*in + 6*in/10}, true},
		{"D/E", [2]length.Length{14*in + in/2, 12*in + in/2}, [2]length.Length{27*in - 12*in - 6*in/10, 27*in - 14*in - 6*in/10}, false},
	} {
		p := pieceOf(l, c.mark)
		if p == nil || len(p.Parts) != 2 {
			t.Fatalf("no piece %s", c.mark)
		}
		for i, q := range p.Parts {
			if q.Inside() != c.inside[i] || length.Abs(p.RearLength(i)-c.rear[i]) > length.Micrometre || q.Length() != 27*in {
				t.Errorf("piece %s, leg %d: %v inside, %v front, %v rear; want %v and %v", c.mark, i, q.Inside(), q.Length(), p.RearLength(i), c.inside[i], c.rear[i])
			}
			slope, off := job.Slope(41_666_667), length.Length(0)
			if (i == 1) == c.narrowLeft {
				slope, off = 35_958_905, s.Profile.TopSlope.Rise(2*in) // 41,666,667 x 12.6/14.6
			}
			if got := q.Slope(s); got < slope-1 || got > slope+1 || q.Mismatch(s) != off {
				t.Errorf("piece %s, leg %d: slope %d, mismatch %v; want %d and %v", c.mark, i, got, q.Mismatch(s), slope, off)
			}
		}
	}
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			if want := map[bool]length.Length{true: 14*in + in/2, false: 12*in + in/2}[r.Name == "D"]; c.Inside != want {
				t.Errorf("chair %s is %v inside, want %v", c.Name, c.Inside, want)
			}
		}
		// The fold of the wider leg stands lower; a straight cap's does not.
		front, rear := cap.Fold(s, r.Inside)
		at, atRear := r.FoldAt(s, r.Cap)
		if off := front - at; atRear != rear || (off != 0) != (r.Name == "D") || off != 0 && off != s.Profile.TopSlope.Rise(2*in) {
			t.Errorf("run %s: its front fold stands %v lower at the right corner, its rear fold %v of %v", r.Name, off, atRear, rear)
		}
	}
	// The supports stand on the seam, at 30 and 75 hundredths of it: D/E's runs 12.6 back along D and 14.6 across.
	n := 0
	for _, p := range l.Perimeters[0].Supports {
		if p.Corner.Name != "D/E" {
			continue
		}
		f := []length.Length{30, 75}[n]
		x, y := -(12*in+6*in/10)*f/100, (14*in+6*in/10)*f/100
		if length.Abs(p.X-x) > length.Micrometre || length.Abs(p.Y-y) > length.Micrometre {
			t.Errorf("support %s at %v, %v; want %v, %v", p.Name, p.X, p.Y, x, y)
		}
		n++
	}
	if n != 2 {
		t.Errorf("%d supports at D/E", n)
	}
}

// With the slope in the packing the rear fold of the wider leg is the one that
// stands off, and its rear lap is so much less.
func TestTwoWidthsOnPacking(t *testing.T) {
	j := oneWide(2 * in)
	j.System.Profile.SlopeBy = job.SlopeByPacking
	l, _ := solve(t, j)
	s := &l.Job.System
	r := l.Runs()[3]
	// The plane of a straight cap's top stands the rise and its metal over the set
	// surface's; the faces of the wall lie in from its folds.
	f, q := r.FoldAt(s, r.Cap)
	at, low, fall := r.FaceAt(s, r.Cap), s.Chair.Rise+wall.OverUnderside(s), s.Profile.TopSlope
	front, rear := low+fall.Rise(at.Street), low-fall.Rise(r.OutsideAt(r.Cap)-at.Deepest)
	if f != front || q-rear != fall.Rise(2*in) {
		t.Errorf("folds at %v and %v, want %v and %v more than %v", f, q, front, fall.Rise(2*in), rear)
	}
	if _, got := r.LapsAt(s, r.Cap, 0, 0); got != s.RearFoot()-q-r.Wall.CoverRear {
		t.Errorf("the rear leg laps by %v, its fold stands %v over the set surface", got, q)
	}
}

// When a corner of two widths is made and when not: a transition, or a hold.
func TestWhenTwoWidths(t *testing.T) {
	made := job.Transition{Length: 30 * in, Leg: 7 * in, ChangeMost: 3 * in}
	for _, c := range []struct {
		name        string
		change      func(j *job.Job)
		two, tapers int
		codes       string
	}{
		{"accepted", func(j *job.Job) {}, 2, 0, ""},
		{"accepted, and cheaper than transitions", func(j *job.Job) { j.System.Transition = made }, 2, 0, ""},
		{"not accepted: transitions", func(j *job.Job) { j.System.Corner.TwoWidths, j.System.Transition = nil, made }, 0, 2, "rear-play"},
		{"not accepted: held", func(j *job.Job) { j.System.Corner.TwoWidths = nil }, 0, 0, "rear-play"},
		{"too great a mismatch: transitions", func(j *job.Job) { j.System.Corner.TwoWidths.MismatchMost, j.System.Transition = in/20, made }, 0, 2, "rear-play"},
		{"too great a mismatch: by steps that come near, and held", func(j *job.Job) { j.System.Corner.TwoWidths.MismatchMost = in / 20 }, 4, 0, "rear-play"},
		{"too great a mismatch for any step", func(j *job.Job) { j.System.Corner.TwoWidths.MismatchMost = in / 100 }, 0, 0, "rear-play"},
		{"the wider leg too flat", func(j *job.Job) { j.System.Corner.TwoWidths.SlopeLeast = 41_000_000 }, 0, 0, "rear-play"},
		{"one width will do", func(j *job.Job) { j.System.PlayMost = 3 * in }, 0, 0, "edge-distance"},
		{"chairs with no room in plan", func(j *job.Job) {
			j.System.Corner.LongestLeg = j.System.Corner.Leg
			j.System.Corner.Support.Width = 80 * in
		}, 0, 0, "corner-crowded"},
	} {
		j := oneWide(2 * in)
		c.change(j)
		l, codes := solve(t, j)
		two, tapers := 0, 0
		for _, p := range l.Perimeters[0].Pieces {
			for _, m := range p.Miters {
				if m.Two() {
					two++
				}
			}
			if p.Kind == cap.Transition {
				tapers++
			}
		}
		if two != c.two || tapers != c.tapers || c.codes == "" && codes != "" || !strings.Contains(codes, c.codes) {
			t.Errorf("%s: %d corners of two widths, %d transitions, %s", c.name, two, tapers, codes)
		}
	}
}

// A kink keeps one width, whatever the walls.
func TestNoTwoWidthsAtAKink(t *testing.T) {
	j := oneWide(2 * in)
	p := jobtest.Perimeter("P", job.Open, jobtest.Run("A", 240*in, 12*job.Degree), jobtest.Run("B", 240*in, 0))
	p.Starts.Kind, p.Runs[1].Right = job.EndFree, job.End{Kind: job.EndFree}
	for i := range p.Runs[1].Readings {
		p.Runs[1].Readings[i].Width += 2 * in
	}
	j.Perimeters = []job.Perimeter{p}
	l, codes := solve(t, j)
	if a, b := l.Runs()[0], l.Runs()[1]; a.InsideAt(a.Cap) != b.InsideAt(0) || !strings.Contains(codes, "rear-play") {
		t.Errorf("%v meets %v; %s", a.InsideAt(a.Cap), b.InsideAt(0), codes)
	}
}

// A short run between two corners makes one piece of three widths: each pair is
// within the mismatch, the piece is not.
func TestThreeWidthsInOnePiece(t *testing.T) {
	j := oneWide(0)
	j.System.Corner.TwoWidths.MismatchMost = in / 20
	p := jobtest.Perimeter("P", job.Open, jobtest.Run("A", 240*in, -sq), jobtest.Run("B", 20*in, sq), jobtest.Run("C", 240*in, 0))
	p.Starts.Kind, p.Runs[2].Right = job.EndFree, job.End{Kind: job.EndFree}
	for k := range p.Runs {
		for i := range p.Runs[k].Readings {
			p.Runs[k].Readings[i].Width += length.Length(k) * 9 * in / 8
		}
	}
	j.Perimeters = []job.Perimeter{p}
	l, codes := solve(t, j)
	q := pieceOf(l, "A/B/C")
	if q == nil || q.Wide == q.Narrow || !strings.Contains(codes, "two-widths") || l.Held.Released(q) {
		t.Fatalf("%+v; %s", q, codes)
	}
}

// Where no transitions are made, the widths of a ring are as good as the best of
// all: no more readings held, then no more corners of two widths, then no more
// metal.
func TestTwoWidthsAgainstEveryPlan(t *testing.T) {
	tried := 0
	rapid.Check(t, func(t *rapid.T) {
		j := oneWide(0)
		s := &j.System
		s.PlayMost = length.Length(rapid.IntRange(5, 16).Draw(t, "most play")) * in / 8
		s.Widths.Step = in
		s.Corner.TwoWidths.MismatchMost = length.Length(rapid.IntRange(1, 3).Draw(t, "mismatch")) * in / 16
		s.Closer = job.Closer(rapid.IntRange(0, 2).Draw(t, "closer"))
		p := jobtest.Rectangle(400*in, 300*in)
		for k := range p.Runs {
			w := length.Length(rapid.IntRange(0, 16).Draw(t, "wider")) * in / 4
			for i := range p.Runs[k].Readings {
				p.Runs[k].Readings[i].Width += w + length.Length(rapid.IntRange(0, 6).Draw(t, "uneven"))*in/16
			}
		}
		j.Perimeters = []job.Perimeter{p}
		l, _ := layout.Build(j)
		runs := l.Perimeters[0].Runs
		var widths []length.Length
		for w := 8 * in; w <= 20*in; w += in {
			widths = append(widths, w)
		}
		type cost struct {
			held, two int
			metal     float64
		}
		less := func(a, b cost) bool {
			if a.held != b.held {
				return a.held < b.held
			}
			if a.two != b.two {
				return a.two < b.two
			}
			return a.metal < b.metal-1
		}
		of := func(w [4]length.Length) (c cost, ok bool) {
			for i, r := range runs {
				for _, q := range r.Readings {
					play := w[i] - q.Need - s.FrontClearance
					if play < length.Max(s.RearClearance, s.PlayLeast) {
						return c, false
					}
					if play > s.PlayMost {
						c.held++
					}
				}
				if a, b := w[i], w[(i+1)%4]; a != b {
					c.two++
					if s.Profile.TopSlope.Rise(length.Abs(a-b)) > s.Corner.TwoWidths.MismatchMost {
						return c, false
					}
				}
				c.metal += w[i].MM() * r.Cap.MM()
			}
			return c, true
		}
		got := [4]length.Length{runs[0].Inside, runs[1].Inside, runs[2].Inside, runs[3].Inside}
		mine, ok := of(got)
		if !ok {
			t.Fatalf("%v does not cover the walls", got)
		}
		if mine.two > 0 {
			tried++
		}
		if mine.held == 0 && got[0] == got[1] && got[1] == got[2] && got[2] == got[3] {
			return // one width from corner to corner is taken where it will do, though it may be more metal
		}
		for _, a := range widths {
			for _, b := range widths {
				for _, c := range widths {
					for _, d := range widths {
						w := [4]length.Length{a, b, c, d}
						if o, ok := of(w); ok && less(o, mine) {
							t.Fatalf("%v costs %+v, %v costs %+v", got, mine, w, o)
						}
					}
				}
			}
		}
	})
	if tried == 0 {
		t.Error("no ring wanted two widths")
	}
}
