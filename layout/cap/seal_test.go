package cap_test

import (
	"testing"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// A splice plate seals what is left between its two bearings. By hand: caps of
// 138 in, 23.22e-6 a degree and 40 degrees colder open a joint of 5/16 in by
// 0.1282 in, to 0.4407 in; a plate of 7 in with bearings of 3.27 in seals up to
// 0.46 in, with 3.29 in up to 0.42 in.
func TestBothBearingsAreSealed(t *testing.T) {
	for _, c := range []struct {
		bearing length.Length
		opens   bool
	}{{327 * in / 100, false}, {329 * in / 100, true}} {
		j := jobtest.Job()
		j.System.Splice.Bearing = c.bearing
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 480*in)}
		l, _ := solve(t, j)
		opens := false
		for _, f := range l.Findings {
			opens = opens || f.Code == "joint-opens"
		}
		if opens != c.opens {
			t.Errorf("bearings of %v: joint-opens %v, want %v", c.bearing, opens, c.opens)
		}
	}
}

// Of a corner of two widths whose slope is in the chairs, the front fold of the
// wider leg stands lower, so that its front leg, as long as all others, reaches
// so much further down; its rear leg laps as a straight cap's does.
func TestTwoWidthsLapFurtherInFront(t *testing.T) {
	l, _ := solve(t, oneWide(2*in))
	s := &l.Job.System
	lower := s.Profile.TopSlope.Rise(2 * in)
	for _, r := range l.Runs() {
		front, rear := cap.Laps(s, r.Wall, r.Inside, in/4, in/8)
		f, q := r.LapsAt(s, r.Cap, in/4, in/8)
		fold, _ := r.FoldAt(s, r.Cap)
		want := length.Length(0)
		if r.Name == "D" {
			want = lower
		}
		if f-front != want || q != rear {
			t.Errorf("run %s: laps %v and %v, a straight cap's are %v and %v", r.Name, f, q, front, rear)
		}
		if foot := s.FrontFoot() - fold - in/4 - r.Wall.CoverFront; f != foot {
			t.Errorf("run %s: its front leg reaches %v below the joint, and laps by %v", r.Name, foot, f)
		}
	}
}
