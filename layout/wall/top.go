package wall

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall/setplane"
)

// tops finds the set surface of a perimeter: straight along every run and
// continuous at its corners, with the least packing that leaves the job's
// least everywhere and no more grade than the job allows. Without a grade it
// is level, at the height of the greatest reading. Where the slope of the top
// comes from the packing it has the profile's cross slope. At a step in the
// wall top it ends, and another begins. The job may have a perimeter raised, so
// that its coping meets another's.
func tops(j *job.Job, p *Perimeter, grid length.Length, found *finding.Set) {
	first := true
	for _, r := range p.Runs {
		r.packing = &j.Packing
		for _, q := range r.Readings {
			for _, t := range []length.Length{q.TopOutside, q.TopInside} {
				if first || t > p.Greatest.Top {
					p.Greatest.Top, p.Greatest.Run, p.Greatest.At = t, r.Name, q.Station
				}
				if first || t < p.Least.Top {
					p.Least.Top, p.Least.Run, p.Least.At = t, r.Name, q.Station
				}
				first = false
			}
		}
	}
	if first {
		found.Errorf("no-survey", p.Job.At, "survey at least one run: station, width, two tops, offset",
			"perimeter %s has no readings at all", p.Job.Name)
		return
	}
	for _, c := range stretches(p) {
		c.set(j, grid)
	}
	breaks(j, p, grid, found)
	for i, r := range p.Runs {
		if i == 0 || length.Max(r.SetLeft, r.SetRight) > p.Set {
			p.Set = length.Max(r.SetLeft, r.SetRight)
		}
	}
	for _, r := range p.Runs {
		r.pack(j, found)
	}
	steps(j, p, found)
}

// stretch is a chain of runs with one set surface: between two steps, or the
// whole perimeter.
type stretch struct {
	runs   []*Run
	closed bool
}

// stretches divides a perimeter at its steps, in station order.
func stretches(p *Perimeter) []stretch {
	n := len(p.Runs)
	from := 0
	if p.Closed() {
		from = -1
		for i, r := range p.Runs {
			if r.Left.Step != nil {
				from = i
				break
			}
		}
		if from < 0 {
			return []stretch{{p.Runs, true}}
		}
	}
	var out []stretch
	for i := range n {
		r := p.Runs[(from+i)%n]
		if i == 0 || r.Left.Step != nil {
			out = append(out, stretch{})
		}
		s := &out[len(out)-1]
		s.runs = append(s.runs, r)
	}
	return out
}

// set finds the heights of the set surface at the corners of a stretch.
func (c stretch) set(j *job.Job, grid length.Length) {
	chain := make([]setplane.Run, 0, len(c.runs))
	for _, r := range c.runs {
		chain = append(chain, r.need(j, grid))
	}
	s, ok := setplane.Solve(chain, c.closed, grid)
	for i, r := range c.runs {
		if ok {
			up := r.Perimeter.Job.Raise
			r.SetLeft, r.SetRight = s.Heights[i]+up, s.Heights[(i+1)%len(s.Heights)]+up
			continue
		}
		// Nothing was read between two steps: it is held, and drawn at the
		// height of what was read elsewhere.
		r.SetLeft, r.SetRight = r.Perimeter.Greatest.Top+j.Packing.Least, r.Perimeter.Greatest.Top+j.Packing.Least
	}
}

// need is what a run asks of the set surface: at each reading the top at both
// faces, the fall to that face and the least packing. Beyond the end readings
// the wall is taken to go on as it is there.
func (r *Run) need(j *job.Job, grid length.Length) setplane.Run {
	long := length.Max(r.Front, 1)
	out := setplane.Run{Length: long, Rise: j.Packing.Grade.Rise(long)}
	if g := r.Job.Grade; g != nil {
		out.Rise = alongRise(g.Most, long)
		out.OneWay = map[job.Way]int{job.Rising: 1, job.Falling: -1}[g.Way]
	}
	// A slope is kept to 1e-9, so a stated one may come out half of that short
	// of a step of the grid.
	if up := length.RoundTo(out.Rise, grid); up > out.Rise && up-out.Rise <= long/2_000_000_000+1 {
		out.Rise = up
	}
	n := len(r.Readings)
	for i := range r.Readings {
		q := r.Readings[i]
		front, rear := fall(r.Perimeter, q)
		least := length.Max(q.TopOutside+front, q.TopInside+rear) + j.Packing.Least
		put := func(at length.Length) {
			out.Points = append(out.Points, setplane.Point{At: length.Min(length.Max(at, 0), long), Least: least})
		}
		if i == 0 {
			put(0)
		}
		put(q.Station)
		if i == n-1 {
			put(long)
		}
	}
	return out
}

// pack measures the packing at the readings of a run and holds what is over
// the greatest.
func (r *Run) pack(j *job.Job, found *finding.Set) {
	p := r.Perimeter
	why := "one level set surface serves the perimeter; the highest reading is " + job.Both(p.Greatest.Top) +
		" on run " + p.Greatest.Run
	if p.graded(j) {
		why = "the set surface is straight along each run, and its grade is limited; the highest reading is " +
			job.Both(p.Greatest.Top) + " on run " + p.Greatest.Run
	}
	for i := range r.Readings {
		q := &r.Readings[i]
		front, rear := fall(p, *q)
		set := r.SetAt(q.Station)
		q.PackFront = set - front - q.TopOutside
		q.PackRear = set - rear - q.TopInside
		lo, hi := length.Min(q.PackFront, q.PackRear), length.Max(q.PackFront, q.PackRear)
		if i == 0 || lo < r.PackLeast {
			r.PackLeast = lo
		}
		r.PackMost = length.Max(r.PackMost, hi)
		if hi > j.Packing.Most {
			found.Append(finding.Finding{
				Code: "packing-over", Severity: finding.Hold, At: q.Job.At, Where: refAt(r, q.Station),
				What: "run " + r.Name + " at station " + job.Both(r.CrewAt(q.Station)) + ": build-up " + job.Both(hi) +
					" is over the greatest the job allows, " + job.Both(j.Packing.Most),
				Why:  why,
				Mend: "measure the high and the low reading again, have the wall top built up, or allow more build-up",
			})
		}
	}
}

// fall is how far the set surface lies below its height at the front-face
// line, at the wall's front face and at its rear face.
func fall(p *Perimeter, q Reading) (front, rear length.Length) {
	return p.Cross.Rise(q.Gap), p.Cross.Rise(q.Gap + q.Width)
}
