package shop_test

import (
	"math"
	"strings"
	"testing"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// A chair under a taper is a body: its hand is that of its wide end, the one under the
// mirrored taper is its mirror image, and its rear row keeps its distance from the
// slanting edge.
func TestChairsUnderTapers(t *testing.T) {
	j := withParts(jobtest.Job())
	a := &j.Assemblies[0]
	a.FrontRow, a.RearRow, a.FrontRowFrom, a.RearRowFrom = 2, 3, 5*in/2, 9*in/4
	ends := [2]length.Length{12 * in, 25 * in / 2}
	parts, found := shop.BuildParts(j, shop.Needs{Chairs: []shop.Chair{
		{Served: shop.Served{Name: "C1"}, Inside: 49 * in / 4, Ends: ends, Assembly: a},
		{Served: shop.Served{Name: "C2"}, Inside: 49 * in / 4, Ends: [2]length.Length{ends[1], ends[0]}, Assembly: a},
		{Served: shop.Served{Name: "C3"}, Inside: 49 * in / 4, Ends: ends, Assembly: a},
	}})
	if len(found) > 0 || len(parts) != 2 || parts[0].Count() != 2 {
		t.Fatalf("%d parts, %v", len(parts), found)
	}
	for i, hand := range []cap.Hand{cap.RightHand, cap.LeftHand} {
		if p := parts[i]; p.Hand != hand || p.Twin != parts[1-i] || !strings.Contains(p.Sentence(), "wide end is at your "+hand.String()) {
			t.Errorf("%s: hand %v, %q, twin %v", p.Mark, p.Hand, p.Sentence(), p.Twin)
		}
	}
	one, two := parts[0].Bodies[0], parts[1].Bodies[0]
	_, hi := one.Flat.Bounds()
	for _, p := range one.Flat.Outline {
		near := math.Inf(1)
		for _, q := range two.Flat.Outline {
			near = math.Min(near, math.Hypot(hi.X-p.X-q.X, p.Y-q.Y))
		}
		if near > 1e-6 {
			t.Fatalf("%v stands %g mm off the mirror image", p, near)
		}
	}
	s := &j.System
	for i, d := range one.Drills {
		v := one.Flat.Raise(d.At)
		x, y := v.X, -v.Y+s.Chair.Blank.Section[1].Before.MM()
		rear := (ends[0] - s.Chair.FrontEdge - s.Chair.RearEdge).MM() + x/s.Chair.Length.MM()*(ends[1]-ends[0]).MM()
		want := a.FrontRowFrom.MM()
		if i >= a.FrontRow {
			want = rear - a.RearRowFrom.MM()
		}
		if math.Abs(y-want) > 1e-6 {
			t.Errorf("hole %d lies %.3f mm behind the front edge, want %.3f", i+1, y, want)
		}
	}
	if fold.Crosses(one.Flat.Outline) || len(one.Bends) != 4 {
		t.Errorf("%d bends", len(one.Bends))
	}
}
