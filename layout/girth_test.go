package layout_test

import (
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/crate"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/shop"

	"pgregory.net/rapid"
)

// One girth: that of the metal as it is bent, on the schedule, in the flat pattern, in
// the cutting plan and in the tape of the crates; and one weight in schedule, takeoff,
// crates and shop.
func TestGirthAndWeightAreOne(t *testing.T) {
	bodies, formed := 0, 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := jobtest.Uneven(t)
		j.System.RearClearance = 3 * length.Inch / 8 // its hook reaches in so far
		j.Shop = &job.Shop{K: 0.41, LeastRadius: length.Inch / 32, LeastFlange: length.Inch / 4, Brake: 2000 * length.Inch, MostTurn: 170 * job.Degree, WeldGap: length.Inch / 32,
			Sheets: []job.ShopSheet{{Width: 60 * length.Inch, Length: 200 * length.Inch}}, LeastDrop: 28 * length.Inch, Effort: 20}
		l, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		if j.Crating.TapeRoll == 0 {
			t.Fatal("no tape is packed")
		}
		for _, f := range l.Families {
			p := f.Pieces[0]
			for k, part := range p.Parts {
				if len(f.Bodies) == len(p.Parts) && f.Bodies[k].Metal != nil && p.Kind != cap.Transition {
					bodies++
					if got, want := l.Girth(part), f.Bodies[k].Girth; got != want {
						t.Fatalf("%s: girth %v on the schedule, %v on its pattern", p.Mark, got, want)
					}
				}
			}
			for _, q := range f.Pieces {
				if len(f.Bodies) > 0 && l.Weight(q).Shipped != f.Grams {
					t.Fatalf("%s weighs %d g, its pattern %d", q.Mark, l.Weight(q).Shipped, f.Grams)
				}
			}
		}
		plan, _ := shop.Cut(j, l.Families, 0, nil) // what is on hold too
		for _, lot := range plan.Lots {
			for _, b := range lot.Blanks {
				if b.Family == nil {
					formed++
					if !cutFrom(l, b.Girth) {
						t.Fatalf("a formed cap of a girth of %v, and no cap has that", b.Girth)
					}
				} else if b.Girth != b.Family.Bodies[b.Body].Girth {
					t.Fatalf("%s is cut %v wide, its pattern is %v", b.Mark(), b.Girth, b.Family.Bodies[b.Body].Girth)
				}
			}
		}
		var tape length.Length
		rolls := 0
		for _, r := range l.Runs() {
			for _, q := range r.Joints {
				if q.Left != nil {
					tape += 2 * l.GirthOf(q.Left)
				}
			}
		}
		var shipped int64
		for _, c := range l.Crates {
			for _, x := range c.Items {
				if x.Sort == crate.Tape {
					rolls += x.Count - x.Spare
				}
				if x.Piece != nil {
					shipped += x.Grams - l.Weight(x.Piece).Shipped
				}
			}
		}
		roll := j.Crating.TapeRoll
		if want := int((tape + roll - 1) / roll); shipped != 0 || rolls != want {
			t.Fatalf("crates weigh %d g more than their pieces; %d rolls of tape, want %d", shipped, rolls, want)
		}
	})
	if bodies == 0 || formed == 0 {
		t.Errorf("%d bodies, %d formed caps", bodies, formed)
	}
}

// cutFrom reports whether some straight cap has a girth.
func cutFrom(l *layout.Layout, girth length.Length) bool {
	for _, f := range l.Families {
		for _, q := range f.Pieces {
			if f.Kind == cap.Straight && l.Girth(q.Parts[0]) == girth {
				return true
			}
		}
	}
	return false
}
