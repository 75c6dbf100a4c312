package wind

import (
	"math"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Fronts gives the length of a run between its corners on the front face of the
// wall: a run may be measured on its rear face, which is shorter at outside
// corners. Nil, or no length: it is taken as the job has it.
type Fronts func(*job.Run) length.Length

func (f Fronts) of(r *job.Run) length.Length {
	if f != nil {
		if l := f(r); l > 0 {
			return l
		}
	}
	return r.Length
}

// leastOf takes the least plan dimension from the job, or from its one roof
// perimeter: the narrowest of the rectangles that stand along one of its runs
// and hold it all. A rectangle is never narrower than what it holds, so that
// zones come out no shorter than they should.
func (s *site) leastOf(j *job.Job, fronts Fronts, found *finding.List) {
	if s.job.Least > 0 {
		s.least, s.leastBy = feetOf(s.job.Least), inJob()
		return
	}
	var roofs []*job.Perimeter
	for i := range j.Perimeters {
		if j.Perimeters[i].Kind == job.Roof {
			roofs = append(roofs, &j.Perimeters[i])
		}
	}
	if len(roofs) != 1 {
		found.Holdf(
			"wind-least-dimension",
			s.job.At,
			"write `least_dimension`",
			"the least plan dimension of the building is not stated, and %d perimeters of kind roof do not show it",
			len(roofs),
		)
		return
	}
	s.least = narrowest(roofs[0], fronts)
	f := finding.New(finding.Note, "wind-least-taken", s.job.At,
		"write `least_dimension` if the building is wider, narrower or more than this roof",
		"the least plan dimension of the building is taken from perimeter %s as measured: %s", roofs[0].Name,
		job.Both(fromFeet(s.least)))
	f.Why = "the widths of the corner zones follow from it"
	found.Append(f)
	s.leastBy = source{"perimeter " + roofs[0].Name + " as measured, narrowest enclosing rectangle", Computed}
}

// narrowest is the width in feet of the narrowest rectangle along a run of a
// perimeter that holds all its corners.
func narrowest(p *job.Perimeter, fronts Fronts) float64 {
	type point struct{ x, y float64 }
	var corners []point
	var headings []float64
	at, heading := point{}, 0.0
	for i := range p.Runs {
		r := &p.Runs[i]
		corners = append(corners, at)
		headings = append(headings, heading)
		l := feetOf(fronts.of(r))
		at = point{at.x + l*math.Cos(heading), at.y + l*math.Sin(heading)}
		heading += r.Right.Turn.Degrees() * math.Pi / 180
	}
	corners = append(corners, at)
	best := math.Inf(1)
	for _, h := range headings {
		var u, v [2]float64 // least and most along and across
		u, v = [2]float64{math.Inf(1), math.Inf(-1)}, [2]float64{math.Inf(1), math.Inf(-1)}
		for _, c := range corners {
			a, b := c.x*math.Cos(h)+c.y*math.Sin(h), -c.x*math.Sin(h)+c.y*math.Cos(h)
			u[0], u[1] = math.Min(u[0], a), math.Max(u[1], a)
			v[0], v[1] = math.Min(v[0], b), math.Max(v[1], b)
		}
		best = math.Min(best, math.Min(u[1]-u[0], v[1]-v[0]))
	}
	return best
}
