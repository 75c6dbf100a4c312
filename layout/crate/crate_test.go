package crate_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

func TestCrates(t *testing.T) {
	j := jobtest.Job()
	j.Crating.WeightMost = 60000
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(960*length.Inch, 480*length.Inch)}
	l, found := layout.Build(j)
	if len(found) > 0 {
		t.Fatal(found)
	}
	if l.Crates[0].Kind != crate.Hardware || l.Crates[0].N != 1 {
		t.Errorf("the first crate opened holds %s", l.Crates[0].Kind)
	}
	last, kind := 0, crate.Hardware
	for _, c := range l.Crates[1:] {
		if c.Kind < kind {
			t.Errorf("crate %d, %s, comes after %s", c.N, c.Kind, kind)
		}
		if c.Kind != kind {
			last, kind = 0, c.Kind
		}
		if c.Grams > j.Crating.WeightMost {
			t.Errorf("crate %d weighs %d g", c.N, c.Grams)
		}
		for _, i := range c.Items {
			if (i.Piece.Kind == cap.Straight) != (c.Kind == crate.Caps) {
				t.Errorf("crate %d of %s holds %s", c.N, c.Kind, i.Mark)
			}
			// From the top down a crate is in laying order: loaded in reverse.
			if i.Piece.Laying <= last {
				t.Errorf("crate %d: %s, laid %d, lies under %d", c.N, i.Mark, i.Piece.Laying, last)
			}
			last = i.Piece.Laying
		}
	}
}

func TestHardwareCountsTheWall(t *testing.T) {
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*length.Inch, 240*length.Inch)}
	l, _ := layout.Build(j)
	chairs, joints, fasteners := 0, 0, 0
	for _, r := range l.Runs() {
		chairs += len(r.Chairs)
		joints += len(r.Joints)
	}
	for _, f := range l.Fasteners() {
		fasteners += f.Count
	}
	if fasteners != 4*chairs {
		t.Errorf("%d fasteners in %d chairs", fasteners, chairs)
	}
	want := map[string]int{"anchor chair": chairs + crate.Spare(chairs, 3), "splice plate": joints + crate.Spare(joints, 3), "corner support": 4}
	for _, i := range l.Crates[0].Items {
		if n, ok := want[i.What]; ok && i.Count != n {
			t.Errorf("%s: %d, want %d", i.What, i.Count, n)
		}
		delete(want, i.What)
	}
	if len(want) > 0 {
		t.Errorf("missing: %v", want)
	}
	for _, c := range []struct{ n, percent, want int }{{100, 3, 3}, {101, 3, 4}, {1, 5, 1}, {10, 0, 0}} {
		if got := crate.Spare(c.n, c.percent); got != c.want {
			t.Errorf("%d%% of %d: %d", c.percent, c.n, got)
		}
	}
}
