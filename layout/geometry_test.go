package layout_test

import (
	"fmt"
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
	"copingset/layout/length/draws"
	"copingset/layout/plan"

	"pgregory.net/rapid"
)

// The faces of the wall are reckoned here from the readings and the job alone.
// What is printed of them, the string, the play, the edge distances of screws and
// the holes of what comes through, must all stand where they stand.
func TestOneWallForAll(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		j.System.Chair.FrontEdge = length.Length(rapid.IntRange(0, 12).Draw(t, "front edge")) * length.Inch / 16
		l, _ := solved(j)
		facts := l.Facts()
		for _, r := range l.Runs() {
			for i, q := range r.Readings {
				checkFaces(t, l, r, i, q.Gap, q.Width, q.Need)
				if of := fmt.Sprintf("%s-R%d", r.Name, i+1); facts.Length(of, "string-to-wall") != q.Gap+j.System.FrontClearance-j.System.Chair.FrontEdge {
					t.Errorf("%s is said to be %v from the string", of, facts.Length(of, "string-to-wall"))
				}
			}
			for _, c := range r.Chairs {
				checkEdges(t, l, r, c)
			}
			for i := range r.Job.Obstacles {
				checkHole(t, l, r, &r.Job.Obstacles[i])
			}
		}
		for _, f := range l.Fastenings() {
			least := length.Length(1) << 60
			for _, r := range f.Runs {
				for _, c := range r.Chairs {
					if w := c.Rows[f.Row]; c.Assembly == f.Assembly && w.Fastener == f.Fastener && w.Length == f.Length {
						least = length.Min(least, edgeByHand(l, r, c, f.Row))
					}
				}
			}
			if want := least < f.Fastener.EdgeDistance; !f.Edge.Unknown && (least != f.Edge.Has || want != f.Edge.Fails()) {
				t.Errorf("the schedule says %v to the face (fails: %v), the nearest screw stands %v off", f.Edge.Has, f.Edge.Fails(), least)
			}
		}
	})
}

func checkFaces(t *rapid.T, l *layout.Layout, r *layout.Run, i int, gap, width, need length.Length) {
	s, at := &l.Job.System, r.ToCap(r.Readings[i].Station)
	line := s.Metal.Thickness + s.FrontClearance
	f := r.FaceAt(s, at)
	want := cap.Faces{Street: line + gap, Roof: line + gap + width, Deepest: line + need, Foremost: line + gap,
		Surveyed: true}
	if q := r.Readings[i].Job; q.OffsetLow != nil { // at leg depth the face may stand farther out
		want.Foremost -= length.Max(0, *q.OffsetLow-q.Offset)
	}
	if f != want {
		t.Errorf("run %s, reading %d: faces %v, want %v", r.Name, i+1, f, want)
	}
	if got := r.StringToWall(s, at); got != s.FrontClearance+gap-s.Chair.FrontEdge {
		t.Errorf("run %s, reading %d: string to wall %v", r.Name, i+1, got)
	}
	if i < len(r.Play) && (r.Play[i] != r.PlayAt(s, at) || r.Play[i] != r.InsideAt(at)-s.FrontClearance-need) {
		t.Errorf("run %s, reading %d: play %v and %v", r.Name, i+1, r.Play[i], r.PlayAt(s, at))
	}
}

// edgeByHand is the least distance of a row from a face, at a chair's two ends, its
// middle and the readings beside it. Half of a kink's chair stands on the next run.
func edgeByHand(l *layout.Layout, r *layout.Run, c *layout.Chair, row int) length.Length {
	half := l.Job.System.Chair.Length / 2
	if c.Joint == nil || c.Joint.Kind != cap.Kink {
		return edgeOn(l, r, c, row, c.At-half, c.At, c.At+half)
	}
	least := edgeOn(l, r, c, row, c.At-half, c.At)
	for _, q := range l.Runs() {
		if q.OnWall() == r.Right.Corner.Leave {
			least = length.Min(least, edgeOn(l, q, c, row, 0, half))
		}
	}
	return least
}

// edgeOn is the same of what of a chair stands on one run.
func edgeOn(l *layout.Layout, r *layout.Run, c *layout.Chair, row int, at ...length.Length) length.Length {
	s := &l.Job.System
	least := length.Length(1) << 60
	for _, q := range r.Readings {
		if x := r.ToCap(q.Station); x > at[0] && x < at[len(at)-1] {
			at = append(at, x)
			slices.Sort(at)
		}
	}
	for _, x := range at {
		q := r.At(r.ToFront(x))
		inside := s.Chair.FrontEdge + c.Assembly.FrontRowFrom
		if row == 1 {
			inside = r.InsideAt(x) - s.Chair.RearEdge - c.Assembly.RearRowFrom
		}
		d := inside - s.FrontClearance - q.Gap
		least = length.Min(least, length.Min(d, q.Width-d))
	}
	return least
}

func checkEdges(t *rapid.T, l *layout.Layout, r *layout.Run, c *layout.Chair) {
	for i, w := range c.Rows {
		if w.Fastener == nil || len(r.Readings) == 0 {
			continue
		}
		if got := edgeByHand(l, r, c, i); got != w.Edge.Has || w.Edge.Fails() != (got < w.Fastener.EdgeDistance) {
			t.Errorf("chair %s, row %d: %v from a face, by hand %v", c.Name, i, w.Edge.Has, got)
		}
	}
}

func checkHole(t *rapid.T, l *layout.Layout, r *layout.Run, o *job.Obstacle) {
	for _, p := range r.Parts {
		for _, x := range p.Piece.Cutouts {
			if x != o || len(r.Readings) == 0 {
				continue
			}
			s := &l.Job.System
			want := s.Metal.Thickness + s.FrontClearance + r.At(r.FrontStation(o.Station)).Gap + o.FromFace
			if got := l.HoleOf(p.Piece, o).FromFront; got != want {
				t.Errorf("the hole of %s stands %v behind the front, want %v", o.Name, got, want)
			}
		}
	}
}

// On a wall that nobody has measured the clearances are taken as kept, the front
// one in front and the rear one behind.
func TestFacesOfAnUnmeasuredWall(t *testing.T) {
	j := jobtest.Job()
	j.System.FrontClearance, j.System.RearClearance = length.Inch/4, length.Inch/2
	p := jobtest.Rectangle(300*length.Inch, 200*length.Inch)
	p.Runs[0].Readings = nil
	j.Perimeters = append(j.Perimeters, p)
	l, _ := solved(j)
	s, r := &l.Job.System, l.Runs()[0]
	f := r.FaceAt(s, 100*length.Inch)
	if front, rear := f.Street-s.Metal.Thickness, r.Outside-s.Metal.Thickness-f.Roof; f.Surveyed || front != length.Inch/4 || rear != length.Inch/2 {
		t.Errorf("surveyed %v, clear of the wall %v in front and %v behind", f.Surveyed, front, rear)
	}
}

// Every width of a perimeter's caps is said, each run stands where its caps do,
// and the usual width is the last.
func TestWidthsAreAllSaid(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, _ := solved(anyJob(t))
		for _, p := range l.Perimeters {
			all := p.Widths()
			for _, w := range all {
				if len(w.Runs) > len(all[len(all)-1].Runs) {
					t.Errorf("%v is on more runs than the last", w.Inside)
				}
			}
			for _, q := range p.Pieces {
				for _, part := range q.Parts {
					if q.Kind == cap.Transition || q.Kind == cap.Tee {
						continue
					}
					k := slices.IndexFunc(all, func(w layout.WidthOn) bool { return w.Inside == part.Inside() })
					on := func(r *layout.Run) bool { return r.Name == part.Run.Name }
					if k < 0 || !slices.ContainsFunc(all[k].Runs, on) && !slices.ContainsFunc(all[k].Parts, on) {
						t.Errorf("piece %s is %v wide inside on run %s, which is not said", q.Mark, part.Inside(), part.Run.Name)
					}
				}
			}
		}
	})
}

// A section's verdicts are those that the findings hold: a lap under the least at
// a chair, rear play at a reading, a row without a stock length.
func TestSectionsJudgeAsFindingsDo(t *testing.T) {
	judged := map[string]int{}
	draws.CheckLayouts(t, func(t *rapid.T) {
		j := anyJob(t)
		j.Walls[0].CoverRear += length.Length(rapid.IntRange(0, 32).Draw(t, "cover")) * length.Inch / 16
		l, _ := solved(j)
		for _, r := range l.Runs() {
			held := map[string]bool{}
			for _, f := range l.HoldsOn(r) {
				held[f.Code] = held[f.Code] || f.Where.Run == r.Name
			}
			for _, c := range r.Chairs {
				p := l.Section(r, c.At, c, nil)
				for _, k := range plan.Failing(p.Checks) {
					want := map[plan.Code]string{plan.FrontLap: "lap-under", plan.RearLap: "lap-under", plan.RearPlay: "rear-play",
						plan.FrontStock: "no-fastener-length", plan.RearStock: "no-fastener-length"}[k.Code]
					judged[want]++
					if want != "" && c.Assembly != nil && !held[want] {
						t.Errorf("chair %s: %s has %v, asked %v, and the findings have no %s", c.Name, k.Code, k.Has, k.Asked, want)
					}
				}
			}
		}
	})
	for _, code := range []string{"lap-under", "rear-play"} {
		if judged[code] == 0 {
			t.Errorf("no job drawn has %s", code)
		}
	}
}

// The plan of a run is one with what the layout says elsewhere: chairs stand under
// their cap and on the string, no nearer a face than their screws' check says,
// fronts of pieces and gaps sum to the cap line, and the rear is shorter by the
// miters.
func TestPlanOfARun(t *testing.T) {
	draws.CheckLayouts(t, func(t *rapid.T) {
		l, found := solved(anyJob(t))
		if found.HasErrors() {
			t.Skip("not a layout")
		}
		s := &l.Job.System
		for _, r := range l.Runs() {
			p := l.Plan(r)
			for i, c := range p.Chairs {
				lo, hi := c.Ring.Bounds()
				if lo.X != r.Chairs[i].Left(s) || hi.X != r.Chairs[i].Right(s) || lo.Y != p.String[0].Y || c.Mark != r.Chairs[i].Name {
					t.Errorf("chair %s lies from %v to %v, %v behind the cap line", c.Mark, lo.X, hi.X, lo.Y)
				}
				for _, h := range c.Holes {
					if h.X <= lo.X || h.X >= hi.X || h.Y <= lo.Y || h.Y >= hi.Y {
						t.Errorf("chair %s has a hole beside itself", c.Mark)
					}
				}
				checkHolesInWall(t, p, c, r.Chairs[i], s)
			}
			var sum length.Length
			for i, q := range p.Pieces {
				sum += q.Front[1].X - q.Front[0].X
				if i > 0 {
					sum += q.Front[0].X - p.Pieces[i-1].Front[1].X
				}
				for k, at := range []length.Length{q.Front[0].X, q.Front[1].X} {
					end := q.Rear[k*(len(q.Rear)-1)]
					if inside := end.Y - 2*s.Metal.Thickness; inside != r.InsideAt(at) {
						t.Errorf("piece %s is %v wide inside at %v, the run %v", q.Mark, inside, at, r.InsideAt(at))
					}
				}
			}
			if k := len(p.Pieces); k > 0 && sum != p.Pieces[k-1].Front[1].X-p.Pieces[0].Front[0].X {
				t.Errorf("run %s: pieces and gaps sum to %v", r.Name, sum)
			}
			if len(p.Supports) != len(supportsUnder(l, r)) {
				t.Errorf("run %s shows %d supports of %d", r.Name, len(p.Supports), len(supportsUnder(l, r)))
			}
		}
	})
}

// checkHolesInWall holds the drawn holes, which lie between the chair's two ends,
// against the check of their rows.
func checkHolesInWall(t *rapid.T, p plan.Run, c plan.Chair, of *layout.Chair, s *job.System) {
	if of.Rows[0].Edge.Unknown || of.Rows[1].Edge.Unknown || len(p.Street) == 0 {
		return
	}
	least := length.Min(of.Rows[0].Edge.Has, of.Rows[1].Edge.Has)
	for _, x := range []length.Length{of.Left(s), of.At, of.Right(s)} {
		for _, h := range c.Holes {
			street, roof := plan.Within(p.Street, x, x), plan.Within(p.Roof, x, x)
			if h.X != x || len(street) == 0 || len(roof) == 0 {
				continue
			}
			if d := length.Min(h.Y-street[0].Y, roof[0].Y-h.Y); d < least-2 {
				t.Errorf("a hole of chair %s is drawn %v from a face, its row is said to keep %v", c.Mark, d, least)
			}
		}
	}
}

func supportsUnder(l *layout.Layout, r *layout.Run) (out []*layout.Support) {
	for _, p := range l.Perimeters {
		for _, u := range p.Supports {
			if u.Corner != nil && (u.Corner == r.Left.Corner || u.Corner == r.Right.Corner) {
				out = append(out, u)
			}
		}
	}
	return out
}
