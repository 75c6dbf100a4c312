package layout_test

import (
	"slices"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// What a wall report shows is the job's readings, with lines that stand where they
// must: the front-face line in front of every reading, the greatest gap the greatest
// of all, the band of needs as wide as the play.
func TestWallReportsAgreeWithReadings(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		l, found := solved(j)
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		s := &j.System
		for _, r := range l.Runs() {
			w := l.WallReport(r)
			read := r.Job.Readings
			if len(w.Readings) != len(read) || w.Run != r.Job.Name {
				t.Fatalf("run %s: %d readings of %d", w.Run, len(w.Readings), len(read))
			}
			var most length.Length
			for i, q := range read {
				x := w.Readings[i].At
				if w.Width[i] != (plan.Pt{X: x, Y: q.Width}) || w.TopStreet[i] != (plan.Pt{X: x, Y: q.TopOutside}) || w.TopRoof[i] != (plan.Pt{X: x, Y: q.TopInside}) {
					t.Errorf("run %s, reading %d at %v: %v %v %v", w.Run, i, x, w.Width[i], w.TopStreet[i], w.TopRoof[i])
				}
				gap := plan.On(w.Line, x) - w.Top[i].Y
				if gap < -1 {
					t.Errorf("run %s: the face stands %v before the line at %v", w.Run, -gap, x)
				}
				if low := w.Face[i].Y - w.Top[i].Y; low < 0 || low > 0 && !w.Low {
					t.Errorf("run %s: %v farther out at leg depth at %v, said %v", w.Run, low, x, w.Low)
				}
				most = length.Max(most, gap)
				if a, b := w.Need[i].Y, w.Width[i].Y+gap; a < b-1 {
					t.Errorf("run %s: a need of %v at %v, where wall and gap take %v", w.Run, a, x, b)
				}
			}
			if len(read) > 1 && (length.Abs(most-w.GapMost) > 1 || length.Abs(w.GapFrom-w.GapTo-w.GapMost) > 0) {
				t.Errorf("run %s: greatest gap %v, of the lines %v", w.Run, w.GapMost, most)
			}
			for i, p := range w.Inside {
				if got := w.NeedMost[i].Y - w.NeedLeast[i].Y; got != s.PlayMost-length.Max(s.PlayLeast, s.RearClearance) || w.NeedMost[i].Y >= p.Y {
					t.Errorf("run %s: inside %v takes needs from %v to %v", w.Run, p.Y, w.NeedLeast[i].Y, w.NeedMost[i].Y)
				}
			}
			if a, b := w.Inside[0].X, w.Inside[len(w.Inside)-1].X; a > 0 || b < w.Front {
				t.Errorf("run %s of %v: inside widths from %v to %v", w.Run, w.Front, a, b)
			}
		}
	})
}

// A wall report and that of the mirror are mirrors.
func TestWallReportsMirror(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		a, found := solved(j)
		b, twins := solved(mirror(j))
		if found.HasErrors() || twins.HasErrors() {
			t.Skip("not a layout")
		}
		for i, p := range a.Perimeters {
			n := len(p.Runs)
			for k, r := range p.Runs {
				w, m := a.WallReport(r), b.WallReport(b.Perimeters[i].Runs[n-1-k])
				for _, c := range []struct {
					of   string
					x, y []plan.Pt
				}{{"width", w.Width, m.Width}, {"need", w.Need, m.Need}, {"face", w.Face, m.Face}, {"top", w.Top, m.Top}, {"front-face line", w.Line, m.Line},
					{"set surface", w.Set, m.Set}, {"set surface at the roof", w.SetRoof, m.SetRoof}, {"needs", w.NeedMost, m.NeedMost}, {"inside", w.Inside, m.Inside}} {
					y := slices.Clone(c.y)
					slices.Reverse(y)
					for i := range y {
						y[i].X = m.Front - y[i].X
					}
					if !slices.Equal(c.x, y) {
						t.Fatalf("run %s, %s:\n%v\n%v", w.Run, c.of, c.x, y)
					}
				}
				if w.Pitch() != m.Pitch() || w.GapMost != m.GapMost || w.WidthLeast != m.WidthLeast || w.Plain() != m.Plain() {
					t.Errorf("run %s: %+v and %+v", w.Run, w, m)
				}
			}
		}
	})
}

// A reading in doubt stands where it was read, and is counted until somebody has
// measured again.
func TestWallReportDoubts(t *testing.T) {
	const in = length.Inch
	j := jobtest.Job()
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 480*in)}
	r := &j.Perimeters[0].Runs[0]
	r.Readings[3].TopInside += 4 * in
	l := build(t, j)
	w := l.WallReport(l.Runs()[0])
	if len(w.Doubts) != 1 || w.Again != 1 || w.Plain() {
		t.Fatalf("doubts %+v, %d to measure again", w.Doubts, w.Again)
	}
	d := w.Doubts[0]
	if d.Plot != plan.WallTops || d.At != r.Readings[3].Station || d.Shown != r.Readings[3].TopInside || d.Value-d.Expected < 3*in || d.OfStation {
		t.Errorf("doubt %+v of %v at %v", d, r.Readings[3].TopInside, r.Readings[3].Station)
	}
	if q := l.Questions(); len(q) != 1 || q[0].Run != w.Run || q[0].From != w.Crew+d.At || q[0].From != q[0].To {
		t.Errorf("asked %+v", q)
	}
}

func TestValueOnALine(t *testing.T) {
	line := []plan.Pt{{X: 10, Y: 100}, {X: 20, Y: 200}, {X: 40, Y: 100}}
	for x, want := range map[length.Length]length.Length{0: 100, 10: 100, 15: 150, 20: 200, 30: 150, 40: 100, 90: 100} {
		if got := plan.On(line, x); got != want {
			t.Errorf("at %d: %d, want %d", x, got, want)
		}
	}
	if plan.On(nil, 3) != 0 {
		t.Error("a line without points has a value")
	}
}
