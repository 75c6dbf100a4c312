package cap_test

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// varied is a rectangle whose rear leg takes up 7/8 in and whose shop makes
// transitions; width says how wide its first wall is.
func varied(long length.Length, width func(x length.Length) length.Length) *job.Job {
	j := jobtest.Job()
	s := &j.System
	s.PlayMost = 7 * in / 8
	s.Transition = job.Transition{Length: 48 * in, Leg: 7 * in, ChangeMost: 3 * in}
	p := jobtest.Rectangle(long, 240*in)
	for i := range p.Runs[0].Readings {
		q := &p.Runs[0].Readings[i]
		q.Width = width(q.Station)
	}
	j.Perimeters = []job.Perimeter{p}
	return j
}

// A wall that grows wider in the middle takes two transitions, one of each
// hand, and the narrow width goes through the corners.
func TestWideMiddle(t *testing.T) {
	l, codes := solve(t, varied(480*in, func(x length.Length) length.Length {
		if x > 180*in && x < 300*in {
			return 14 * in
		}
		return 12 * in
	}))
	if codes != "" {
		t.Fatal(codes)
	}
	r := l.Runs()[0]
	if len(r.Bands) != 3 || r.Bands[0].Inside != 12*in+in/2 || r.Bands[1].Inside != 14*in+in/2 || r.Bands[2].Inside != 12*in+in/2 {
		t.Fatalf("%+v", r.Bands)
	}
	var got []*layout.Piece
	for _, p := range r.Parts {
		if p.Piece.Kind == cap.Transition {
			got = append(got, p.Piece)
		}
	}
	if len(got) != 2 || got[0].Hand != cap.RightHand || got[1].Hand != cap.LeftHand {
		t.Fatalf("%d transitions", len(got))
	}
	for _, o := range l.Runs()[1:] {
		if len(o.Bands) != 1 || o.Inside != 12*in+in/2 {
			t.Errorf("run %s: %+v", o.Name, o.Bands)
		}
	}
}

// The hand of a transition is that at which its wide end lies, of a person on
// the roof looking out: stations are measured from the left hand to the right.
func TestHandOfTransition(t *testing.T) {
	for _, c := range []struct {
		left, right length.Length
		want        cap.Hand
	}{{12 * in, 14 * in, cap.RightHand}, {14 * in, 12 * in, cap.LeftHand}, {300 * length.Millimetre, 301 * length.Millimetre, cap.RightHand}} {
		p := cap.Taper{From: 0, To: 30 * in, Left: c.left, Right: c.right}
		if p.Hand() != c.want || p.Wide() != max(c.left, c.right) || p.Narrow() != min(c.left, c.right) {
			t.Errorf("%v to %v: %v, %v to %v", c.left, c.right, p.Hand(), p.Narrow(), p.Wide())
		}
	}
}

// By hand: a transition of 48 in with 7 in legs from 12 1/2 to 14 1/2 in, its
// chairs, its girth of the mean width, its place in the order of work.
func TestTransitionByHand(t *testing.T) {
	l, codes := solve(t, varied(480*in, func(x length.Length) length.Length {
		if x > 180*in && x < 300*in {
			return 14 * in
		}
		return 12 * in
	}))
	if codes != "" {
		t.Fatal(codes)
	}
	r := l.Runs()[0]
	var p layout.Part
	for _, q := range r.Parts {
		if q.Piece.Mark == "A-T1" {
			p = q
		}
	}
	for _, c := range []struct{ at, want length.Length }{
		{0, 12*in + in/2}, {7 * in, 12*in + in/2}, {24 * in, 13*in + in/2}, {41 * in, 14*in + in/2}, {48 * in, 14*in + in/2},
		{7*in + 17*in/2, 13 * in},
	} {
		if got := r.InsideAt(p.From + c.at); got != c.want {
			t.Errorf("%v along: %v inside, want %v", c.at, got, c.want)
		}
	}
	// Four corners first, then the two transitions of the run, then its straight pieces.
	if p.Piece.Laying != 5 {
		t.Errorf("laid as number %d", p.Piece.Laying)
	}
	front, rear := cap.Rise(&l.Job.System, p.Piece)
	if want := l.Job.System.Profile.TopSlope.Rise(2 * in); front != want || rear != 0 {
		t.Errorf("front rises %v, rear falls %v", front, rear)
	}
}

// Without transition pieces one width serves, and what it leaves loose is held
// with what would mend it.
func TestNoTransitionOffered(t *testing.T) {
	j := varied(480*in, func(x length.Length) length.Length {
		if x > 180*in && x < 300*in {
			return 14 * in
		}
		return 12 * in
	})
	j.System.Transition = job.Transition{}
	l, codes := solve(t, j)
	if r := l.Runs()[0]; len(r.Bands) != 1 || r.Inside != 14*in+in/2 || !strings.Contains(codes, "rear-play") {
		t.Errorf("%+v %s", r.Bands, codes)
	}
	for _, f := range l.Findings {
		if f.Code == "rear-play" && !strings.Contains(f.Mend, "transition:") {
			t.Error(f)
		}
	}
}

// A chair tested on narrower caps only holds the pieces that are no wider.
func TestAssemblyByWidth(t *testing.T) {
	j := varied(480*in, func(x length.Length) length.Length {
		if x > 180*in && x < 300*in {
			return 14 * in
		}
		return 12 * in
	})
	j.Assemblies[0].WidthMost = 13 * in // the wider pieces fall to the closer chairs
	l, codes := solve(t, j)
	if codes != "" {
		t.Fatal(codes)
	}
	seen := map[string]bool{}
	for _, p := range l.Runs()[0].Parts {
		if p.Piece.Assembly.WidthMost < p.Piece.Wide {
			t.Errorf("piece %s: %v wide, tested to %v", p.Piece.Mark, p.Piece.Wide, p.Piece.Assembly.WidthMost)
		}
		seen[p.Piece.Assembly.Name] = true
	}
	if len(seen) != 2 {
		t.Errorf("one assembly for all widths: %v", seen)
	}
}
