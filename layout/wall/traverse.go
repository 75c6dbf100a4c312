package wall

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// kinkBelow is the turn under which the lines of two runs are too nearly
// parallel to meet at a useful corner on their own: such runs share one
// front-face line distance, and their widths are averaged when a rear length
// is brought to the front.
const kinkBelow = 20 * job.Degree

// chain builds runs and corners of one perimeter.
func chain(j *job.Job, jp *job.Perimeter, found *finding.Set) *Perimeter {
	p := &Perimeter{Job: jp, sloped: jp.Graded()}
	for _, r := range jp.Runs {
		for _, q := range r.Readings {
			p.widest = length.Max(p.widest, q.Width)
		}
	}
	if j.System.Profile.SlopeBy == job.SlopeByPacking {
		p.Cross = j.System.Profile.TopSlope
	}
	for i := range jp.Runs {
		jr := &jp.Runs[i]
		name := jr.Wall
		if name == "" {
			name = jp.Wall
		}
		r := &Run{Job: jr, Perimeter: p, Wall: wallNamed(j, name), Name: jr.Name, Index: i}
		p.Runs = append(p.Runs, r)
		if jr.Basis == job.Drawing {
			found.Append(finding.Finding{
				Code: "verify-in-field", Severity: finding.Hold, At: jr.At, Where: ref(r),
				What: "run " + r.Name + ": its length is taken from a drawing",
				Why:  "a wall is never built to the drawing; pieces cut to it would not fit",
				Mend: "verify in field, then write the measured length and `basis: measured`",
			})
		}
	}
	n := len(p.Runs)
	if n == 0 {
		found.Errorf("no-runs", jp.At, "list at least one run", "perimeter %s has no runs", jp.Name)
		return nil
	}
	var sum job.Angle
	for i, r := range p.Runs {
		last := i == n-1
		if last && !p.Closed() {
			r.Right = openEnd(r.Job.Right)
			break
		}
		next := p.Runs[(i+1)%n]
		if r.Job.Right.Kind == job.EndStep {
			step(r, next)
			continue
		}
		t := r.Job.Right.Turn
		c := &Corner{
			Name: r.Name + "/" + next.Name, Arrive: r, Leave: next, Turn: t,
			Kink: abs(t) < kinkBelow, Absorb: abs(t) <= j.System.Corner.Absorb, Pitch: r.Job.Right.Pitch,
		}
		sum += t
		r.Right = End{Kind: job.EndTurn, Corner: c}
		next.Left = End{Kind: job.EndTurn, Corner: c}
		p.Corners = append(p.Corners, c)
	}
	if !p.Closed() {
		p.Runs[0].Left = openEnd(jp.Starts)
		share(p)
		return p
	}
	share(p)
	want := 360 * job.Degree
	if jp.Kind == job.Well {
		want = -want
	}
	p.Closure.Angle = sum - want // judged by misses, which knows the lengths
	return p
}

func kindName(k job.Kind) string {
	switch k {
	case job.Roof:
		return "roof"
	case job.Well:
		return "well"
	}
	return "open perimeter"
}

func otherKind(k job.Kind) string {
	if k == job.Roof {
		return "well"
	}
	return "roof"
}

func wallNamed(j *job.Job, name string) *job.Wall {
	for i := range j.Walls {
		if j.Walls[i].Name == name {
			return &j.Walls[i]
		}
	}
	return nil
}

func abs(a job.Angle) job.Angle {
	if a < 0 {
		return -a
	}
	return a
}

func radians(a job.Angle) float64 { return a.Degrees() * math.Pi / 180 }

// FaceTrim is how much longer the front face is than the rear at one end of a
// run of wall width w whose neighbour there is nw thick: the seam runs from
// the outer to the inner corner of the two walls,
// (nw - w cos turn) / sin turn, which is w tan(turn/2) for equal widths and
// negative at an inside corner. Under kinkBelow the quotient magnifies a
// hair's difference of widths into inches, so their mean is used there.
func FaceTrim(w, nw length.Length, turn job.Angle) length.Length {
	if abs(turn) < kinkBelow {
		return length.FromMM((w.MM() + nw.MM()) / 2 * math.Tan(radians(turn)/2))
	}
	return seamTrim(w, nw, turn)
}

// seamTrim is the exact trim, (nw - w cos turn) / sin turn, of a corner that
// turns.
func seamTrim(w, nw length.Length, turn job.Angle) length.Length {
	t := radians(turn)
	return length.FromMM((nw.MM() - w.MM()*math.Cos(t)) / math.Sin(t))
}

// lengths brings each run's length and survey stations to the front face.
func lengths(p *Perimeter, grid length.Length, found *finding.Set) {
	for _, r := range p.Runs {
		if c := r.Left.Corner; c != nil {
			r.Trim.Left = length.RoundTo(FaceTrim(endWidth(r, false), endWidth(c.Arrive, true), c.Turn), grid)
		}
		if c := r.Right.Corner; c != nil {
			r.Trim.Right = length.RoundTo(FaceTrim(endWidth(r, true), endWidth(c.Leave, false), c.Turn), grid)
		}
		doubtfulRear(r, found)
		r.Front = r.Job.Length
		if r.Job.Face == job.Rear {
			r.Front += r.Trim.Left + r.Trim.Right
		}
		if r.Front <= 0 {
			found.Errorf("run-vanishes", r.Job.At, "check the length and the face it is measured on",
				"run %s: measured on the roof face, its street face would have no length", r.Name)
		}
		r.Surveyed = len(r.Job.Readings) >= 2 && !r.Job.Supposed
	}
}

// kinkDoubt is how far the mean width and the two walls' own may differ at a
// kink before a length measured on the rear face is not to be trusted.
const kinkDoubt = length.Inch / 4

// doubtfulRear holds a run measured on the rear face beside a kink of two
// unlike walls: where the rear faces meet is then far from where it seems.
func doubtfulRear(r *Run, found *finding.Set) {
	if r.Job.Face != job.Rear && r.Job.StationFace != job.Rear {
		return
	}
	ends := []struct {
		c     *Corner
		right bool
		trim  length.Length
	}{{r.Left.Corner, false, r.Trim.Left}, {r.Right.Corner, true, r.Trim.Right}}
	for _, e := range ends {
		if e.c == nil || !e.c.Kink || e.c.Straight() { // a break of slope crosses the wall square: both faces end at it
			continue
		}
		other := e.c.Leave
		if !e.right {
			other = e.c.Arrive
		}
		if length.Abs(seamTrim(endWidth(r, e.right), endWidth(other, !e.right), e.c.Turn)-e.trim) <= kinkDoubt {
			continue
		}
		found.Append(finding.Finding{
			Code: "rear-at-kink", Severity: finding.Hold, At: r.Job.At, Where: ref(r),
			What: "run " + r.Name + ": measured on the roof face beside the kink " + e.c.Name +
				" of two walls of unlike width",
			Why:  "so small a turn magnifies the difference of the widths",
			Mend: "measure this run on the street face",
		})
	}
}

// endWidth is the wall width nearest one end of a run; a run without readings
// borrows the widest of its perimeter, so that a plan can be drawn to hold.
func endWidth(r *Run, right bool) length.Length {
	rd := r.Job.Readings
	if len(rd) == 0 {
		return r.Perimeter.widest
	}
	if right {
		return rd[len(rd)-1].Width
	}
	return rd[0].Width
}

// traverse lays the runs end to end in plan, as measured, and reports how far
// a closed perimeter fails to close. The adjusted plan spreads the misclosure
// in proportion to length (compass rule) and is for drawing the key plan only.
func traverse(p *Perimeter, grid length.Length, found *finding.Set) {
	var x, y, dir, total float64
	first := make([][4]float64, len(p.Runs))
	for i, r := range p.Runs {
		l := r.InPlan(grid).MM()
		nx, ny := x+l*math.Cos(dir), y+l*math.Sin(dir)
		first[i] = [4]float64{x, y, nx, ny}
		r.Direction = dir * 180 / math.Pi
		x, y = nx, ny
		total += l
		if c := r.Right.Corner; c != nil {
			dir += radians(c.Turn)
		}
	}
	gx, gy := 0.0, 0.0
	if p.Closed() {
		gx, gy = x, y
		p.Closure.Length = length.FromMM(math.Hypot(gx, gy))
	}
	p.misses(gx, gy, grid, found)
	done := 0.0
	for i, r := range p.Runs {
		f := first[i]
		k0 := done / math.Max(total, 1)
		done += r.InPlan(grid).MM()
		k1 := done / math.Max(total, 1)
		r.Start = point(f[0], f[1])
		r.Plan = point(f[0]-gx*k0, f[1]-gy*k0)
		r.PlanEnd = point(f[2]-gx*k1, f[3]-gy*k1)
		if c := r.Right.Corner; c != nil {
			c.Measure = point(f[2], f[3])
			c.Plan = r.PlanEnd
		}
	}
}

// InPlan is the front face as it lies in plan: a length is taped along the wall
// top, and where that slopes the plan is shorter, the square root of length
// squared less rise squared. It differs by whole steps of the grid alone.
func (r *Run) InPlan(grid length.Length) length.Length {
	l, rise := r.Front.MM(), (r.SetRight - r.SetLeft).MM()
	if rise == 0 || math.Abs(rise) >= l {
		return r.Front
	}
	return r.Front - length.RoundTo(length.FromMM(l-math.Sqrt(l*l-rise*rise)), grid)
}

func point(x, y float64) Point { return Point{length.FromMM(x), length.FromMM(y)} }
