package layout_test

import (
	"math"
	"testing"

	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// bent gives a job a shop that bends and cuts whatever it is given.
func bent(j *job.Job) *job.Job {
	const in = length.Inch
	j.System.RearClearance = 3 * length.Inch / 8 // its hook reaches in so far
	j.Shop = &job.Shop{K: 0.41, LeastRadius: in / 32, LeastFlange: in / 4, Brake: 2000 * in, MostTurn: 170 * job.Degree, WeldGap: in / 32, Film: "finish side, out",
		Sheets: []job.ShopSheet{{Width: 60 * in, Length: 200 * in, Price: 100}}, Kerf: in / 8, EndTrim: in / 4, EdgeTrim: in / 4, LeastDrop: 28 * in, Effort: 20}
	return j
}

// Every distance of a blank is that of its outline, and what lies on it lies within.
func TestBlanksAgreeWithTheirOutlines(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(bent(anyJob(t)))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		step := length.Inch.MM() / 64
		if l.Job.Units == job.Metric {
			step = 0.1
		}
		for _, f := range l.Families {
			for i, b := range l.Patterns(f) {
				lo, hi := b.Bounds()
				if b.Length.MM() < hi.X-lo.X-1e-3 || b.Length.MM() > hi.X-lo.X+step || b.Girth.MM() < hi.Y-lo.Y-1e-3 || b.Girth.MM() > hi.Y-lo.Y+step {
					t.Errorf("%s, %s: %v by %v, its outline %.2f by %.2f mm", f.Mark, b.Name, b.Length, b.Girth, hi.X-lo.X, hi.Y-lo.Y)
				}
				for _, c := range b.Corners {
					if math.Abs(c.FromLeft.MM()-c.At.X) > step || math.Abs(c.FromStreet.MM()-(hi.Y-c.At.Y)) > step {
						t.Errorf("%s, %s: a corner at %.2f, %.2f is said to be %v from left, %v from street", f.Mark, b.Name, c.At.X, c.At.Y, c.FromLeft, c.FromStreet)
					}
				}
				for _, q := range b.Bends {
					for side, p := range []struct{ x, y float64 }{{q.Left.X, q.Left.Y}, {q.Right.X, q.Right.Y}} {
						if math.Abs(q.EndsFromStreet[side].MM()-(hi.Y-p.y)) > step || p.x < lo.X-1 || p.x > hi.X+1 {
							t.Errorf("%s, %s: bend %d ends at %.2f, %.2f, said to be %v from street", f.Mark, b.Name, q.Order, p.x, p.y, q.EndsFromStreet[side])
						}
					}
					if q.Left.X > q.Right.X || q.Up == q.Hem && q.Up || q.Up != (q.Turn > 0 && !q.Hem) {
						t.Errorf("%s, %s: bend %+v", f.Mark, b.Name, q)
					}
					if q.Level && q.FromStreet != q.EndsFromStreet[0] && math.Abs((q.FromStreet-q.EndsFromStreet[0]).MM()) > step {
						t.Errorf("%s, %s: bend %d is %v from street and %v at its left end", f.Mark, b.Name, q.Order, q.FromStreet, q.EndsFromStreet[0])
					}
				}
				if len(b.Faces) != len(f.Bodies[i].Solid.Faces) || b.Square != (len(b.Corners) == 4 && squareEdges(b.Blank)) {
					t.Errorf("%s, %s: %d faces, %d corners, square %v", f.Mark, b.Name, len(b.Faces), len(b.Corners), b.Square)
				}
			}
		}
	})
}

// squareEdges says that both edges of a blank go from end to end.
func squareEdges(b plan.Blank) bool {
	for _, e := range b.Edges {
		if e.From.MM() > 1e-3 || e.To != b.Length {
			return false
		}
	}
	return true
}

// Twins have blanks that are mirror images, corner by corner.
func TestBlanksOfTwinsAreMirrors(t *testing.T) {
	twins := 0
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(bent(anyJob(t)))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		for _, f := range l.Families {
			if f.Twin == nil || len(f.Bodies) == 0 || len(f.Bodies) != len(f.Twin.Bodies) || l.Made(f.Pieces[0]).Making == plan.MadeTee {
				continue // of a tee the main comes first in both
			}
			a, b := l.Patterns(f), l.Patterns(f.Twin)
			for i, x := range a {
				y := b[len(b)-1-i]
				if x.Name == "end plate" || y.Name == "end plate" {
					continue // it stands behind its leg in both
				}
				twins++
				if x.Girth != y.Girth || x.Length != y.Length || len(x.Bends) != len(y.Bends) || x.Faces[0].Slope != y.Faces[0].Slope {
					t.Fatalf("%s and its twin %s, %s and %s: %v by %v with %d corners, %v by %v with %d", f.Mark, f.Twin.Mark, x.Name, y.Name, x.Girth, x.Length, len(x.Corners), y.Girth, y.Length, len(y.Corners))
				}
				_, hi := y.Bounds()
				// Corner by corner, both ways: where two stand nearer than the hundredth part of
				// a sheet's grid to one line, one outline may have one point more of it.
				stands := func(one, other []fold.Point, name string) {
					for _, p := range one {
						near := math.Inf(1)
						for _, q := range other {
							near = math.Min(near, math.Hypot(p.X-(hi.X-q.X), p.Y-q.Y))
						}
						if near > 1e-3 && !onSide(p, other, hi.X) {
							t.Fatalf("%s and its twin %s: the corner at %.2f, %.2f of the %s is %.3f mm off the other", f.Mark, f.Twin.Mark, p.X, p.Y, name, near)
						}
					}
				}
				stands(x.Outline, y.Outline, x.Name)
				stands(y.Outline, x.Outline, y.Name)
			}
		}
	})
	if twins == 0 {
		t.Error("no draw had twins")
	}
}

// onSide says that a point lies on a side of a mirrored outline, to a thousandth of a
// millimetre.
func onSide(p fold.Point, ring []fold.Point, wide float64) bool {
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		ax, bx := wide-a.X, wide-b.X
		dx, dy := bx-ax, b.Y-a.Y
		long := dx*dx + dy*dy
		if long == 0 {
			continue
		}
		f := math.Max(0, math.Min(1, ((p.X-ax)*dx+(p.Y-a.Y)*dy)/long))
		if math.Hypot(ax+f*dx-p.X, a.Y+f*dy-p.Y) < 1e-3 {
			return true
		}
	}
	return false
}

// What is cut from a cap or a sheet fits it with its cuts and trims, and is all that
// is to be cut.
func TestCutsFitTheirStock(t *testing.T) {
	j := bent(jobtest.Job())
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(500*length.Inch, 390*length.Inch)}
	l := build(t, j)
	sheets, bars := 0, 0
	for i := range l.Cutting.Lots {
		lot := &l.Cutting.Lots[i]
		closers := map[string]bool{}
		for _, o := range lot.Bars {
			for _, c := range l.CutBars(o, "") {
				bars++
				sum := c.Drop
				for k, q := range c.Cuts {
					if closers[q.Mark] && c.Count == 1 {
						t.Errorf("%s is cut twice", q.Mark)
					}
					closers[q.Mark] = true
					sum += q.Long
					if k > 0 {
						sum += c.Kerf
					}
				}
				if over := sum - c.Length; over > 0 || -over > c.Kerf {
					t.Errorf("cap %d of %v: cuts and drop come to %v", c.N, c.Length, sum)
				}
			}
			for _, q := range o.Closers {
				if !closers[q.Mark] {
					t.Errorf("%s is not cut", q.Mark)
				}
			}
		}
		blanks := 0
		for _, s := range l.CutSheets(lot, "") {
			sheets++
			wide, area := s.Rest+2*s.EdgeTrim, 0.0
			for _, strip := range s.Strips {
				wide += strip.Width
				long := 2 * s.EndTrim
				for _, b := range strip.Cuts {
					blanks += s.Count
					long += b.Length
					area += b.Girth.MM() * b.Length.MM()
					if b.Girth > strip.Width {
						t.Errorf("a blank %v wide in a strip of %v", b.Girth, strip.Width)
					}
				}
				if long > s.Length {
					t.Errorf("a strip of %v on a sheet of %v", long, s.Length)
				}
			}
			if wide != s.Width || s.Yield != int(100*area/(s.Width.MM()*s.Length.MM())) {
				t.Errorf("sheet %d: strips and rest come to %v of %v, yield %d %%", s.N, wide, s.Width, s.Yield)
			}
		}
		count := 0
		for _, b := range l.CutBlanks(lot, "") {
			count += b.Count
		}
		if blanks != count {
			t.Errorf("%d blanks are cut of %d", blanks, count)
		}
	}
	if sheets == 0 || bars == 0 {
		t.Errorf("%d sheets and %d caps: the case tests nothing", sheets, bars)
	}
}
