package cap_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// expanding is a wall with one building expansion joint in its middle.
func expanding(long length.Length) *job.Job {
	j := jobtest.Job()
	j.System.Stock = 120 * in
	m := in / 8
	r := jobtest.Run("R", long, 0)
	r.Right = job.End{Kind: job.EndFree}
	r.Expansion = []job.ExpansionJoint{{Station: long / 2, Gap: in, Movement: &m}}
	p := jobtest.Perimeter("O", job.Open, r)
	p.Starts = job.End{Kind: job.EndFree}
	j.Perimeters = []job.Perimeter{p}
	return j
}

func overBuilding(t *testing.T, l *layout.Layout) *cap.Joint {
	for _, q := range l.Runs()[0].Joints {
		if q.Kind == cap.Expansion {
			return q
		}
	}
	t.Fatal("no building expansion joint")
	return nil
}

// The building closes and the caps grow at once. Worked by hand: 119 1/16 in
// grow by 23.22e-6 x 36 C x 119.06 = 0.0995 in, and of a nominal joint of 1/8 in
// 0.0255 in are left.
func TestABuildingExpansionJointClosesWhenHot(t *testing.T) {
	for _, c := range []struct {
		least length.Length
		held  bool
	}{{in / 40, false}, {26 * in / 1000, true}} {
		j := expanding(282 * in)
		j.System.EndCap.Leg = 22 * in
		j.System.Joint.Gap, j.System.Joint.LeastGap, j.System.Joint.Hottest = in/8, c.least, 56000
		l, _ := solve(t, j)
		q := overBuilding(t, l)
		said := false
		for _, f := range l.Holds() {
			said = said || f.Code == "joint-closes" && f.Severity == finding.Hold && f.Where.HasStation && f.Where.Station == 141*in
		}
		if said != c.held || q.Gap() != in/4 {
			t.Errorf("joint of %v, mean %v, at least %v: held %v; %v", q.Gap(), q.Mean(), c.least, said, l.Holds())
		}
	}
}

// A cap that is fixed at its end moves by all its length: where that is more
// than half a stock length, the cover plate is longer by what it opens.
func TestCoverPlateOfLongLegs(t *testing.T) {
	j := expanding(180 * in)
	j.System.Stock, j.System.EndCap.Leg = 100*in, 80*in
	j.System.Corner.LongestLeg = 100 * in
	l, _ := solve(t, j)
	q := overBuilding(t, l)
	if q.Mean() <= j.System.Stock {
		t.Fatalf("no long legs: a mean of %v", q.Mean())
	}
	s := &j.System
	opens := in/8 + cap.Growth(s, q.Mean(), s.Joint.Reference-s.Joint.Coldest)
	if want := q.Gap() + 2*(s.Expansion.Bearing+opens); q.Plate != want {
		t.Errorf("cover plate %v, want %v", q.Plate, want)
	}
}
