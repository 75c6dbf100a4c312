package view

import (
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// Every corner of a blank is in one group, and the groups go round it clockwise.
func TestCornerGroupsHoldEveryCornerOnce(t *testing.T) {
	several := 0
	for _, s := range relieved() {
		l := solved(t, s)
		for _, f := range l.Families {
			for _, b := range l.Patterns(f) {
				var all []int
				for _, g := range CornerGroups(b.Blank) {
					all = append(all, g.Of...)
					if g.Shown() {
						several++
					}
				}
				n := len(b.Corners)
				for k, i := range all {
					if i != (all[0]+k)%n {
						t.Fatalf("%s, %s: corners in the order %v", f.Mark, b.Name, all)
					}
				}
				if len(all) != n {
					t.Errorf("%s, %s: %d corners, %d in groups", f.Mark, b.Name, n, len(all))
				}
			}
		}
	}
	if several == 0 {
		t.Error("no blank has corners that a detail shows")
	}
}

func TestGroupNames(t *testing.T) {
	at := func(xs ...float64) (b plan.Blank) {
		for _, x := range xs {
			b.Corners = append(b.Corners, plan.BlankCorner{At: fold.Point{X: x}})
		}
		return b
	}
	for _, c := range []struct {
		of   plan.Blank
		want string
	}{
		{at(0, 100, 200), "a;b;c"},
		{at(0, 30, 200), "a b;c"},
		{at(0, 100, 110, 120, 300), "b–d;e;a"},
		{at(0, 300, 600, 5), "d, a;b;c"},
		{at(0, 300, 8, 5), "c d, a;b"},
		{at(0, 10, 20), "a–c"},
	} {
		var got []string
		for _, g := range CornerGroups(c.of) {
			got = append(got, g.Name)
		}
		slices.Sort(got)
		want := strings.Split(c.want, ";")
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%v: groups %q, want %q", c.of.Corners, got, want)
		}
	}
}

// A detail letters each of its corners, clear of the others and of the metal's edge,
// whatever its size; what a pattern letters as one is shown by a detail or is a pair.
func TestDetailsLetterEveryCorner(t *testing.T) {
	for _, s := range slices.Concat(tooled(), relieved()) {
		l := solved(t, s)
		for _, f := range l.Families {
			for _, b := range l.Patterns(f) {
				for _, g := range CornerGroups(b.Blank) {
					if !g.Shown() {
						continue
					}
					v := CornerDetail(words.Book{}, b.Blank, g, 3300, 5700)
					for _, q := range drawing.Check(v) {
						t.Errorf("%s, %s of %s, %s: %v", s.name, g.Name, f.Mark, b.Name, q)
					}
					for _, i := range g.Of {
						if !slices.ContainsFunc(v.Texts(), func(x drawing.Text) bool { return x.Words == PointName(i) }) {
							t.Errorf("%s, %s of %s, %s: corner %s has no letter", s.name, g.Name, f.Mark, b.Name, PointName(i))
						}
					}
				}
			}
		}
	}
}

// A line that crosses a box is cut where it leaves it.
func TestClipped(t *testing.T) {
	box := drawing.Box(0, 0, 100, 50)
	for _, c := range []struct {
		a, z, from, to drawing.Point
		ok             bool
	}{
		{drawing.Pt(-50, 20), drawing.Pt(150, 20), drawing.Pt(0, 20), drawing.Pt(100, 20), true},
		{drawing.Pt(10, 10), drawing.Pt(20, 40), drawing.Pt(10, 10), drawing.Pt(20, 40), true},
		{drawing.Pt(50, 100), drawing.Pt(50, 25), drawing.Pt(50, 50), drawing.Pt(50, 25), true},
		{drawing.Pt(-50, 60), drawing.Pt(150, 60), drawing.Point{}, drawing.Point{}, false},
		{drawing.Pt(-50, 0), drawing.Pt(0, -50), drawing.Point{}, drawing.Point{}, false},
	} {
		from, to, ok := clipped(box, c.a, c.z)
		if ok != c.ok || ok && (from != c.from || to != c.to) {
			t.Errorf("%v to %v: %v to %v, %v", c.a, c.z, from, to, ok)
		}
	}
}
