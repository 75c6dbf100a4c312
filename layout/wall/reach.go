package wall

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// What is wrong with one run reaches others: lines meet at corners, one line
// distance goes through kinks, one width and one set surface go from step to
// step. A hold names all the runs whose pieces or chairs may yet change.

// reached are runs of one perimeter, in station order.
type reached []*Run

// need is the greatest need of runs.
func (all reached) need() length.Length {
	var most length.Length
	for i, r := range all {
		if i == 0 || r.Need > most {
			most = r.Need
		}
	}
	return most
}

// ordered puts runs in station order, each once.
func (r *Run) ordered(in func(*Run) bool) reached {
	var out reached
	for _, o := range r.Perimeter.Runs {
		if in(o) {
			out = append(out, o)
		}
	}
	return out
}

// sharing are the runs that share one width and one set surface with a run:
// those between two steps, or the whole perimeter.
func (r *Run) sharing() reached { return r.shares }

// share tells each run of a perimeter the runs it shares with.
func share(p *Perimeter) {
	for _, s := range stretches(p) {
		runs := reached(slices.Clone(s.runs))
		slices.SortFunc(runs, func(a, b *Run) int { return a.Index - b.Index })
		for _, r := range runs {
			r.shares = runs
		}
	}
}

// corners of a run, with the run on the other side.
func (r *Run) corners(each func(c *Corner, beyond *Run, right bool)) {
	if c := r.Left.Corner; c != nil {
		each(c, c.Arrive, false)
	}
	if c := r.Right.Corner; c != nil {
		each(c, c.Leave, true)
	}
}

// group are the runs whose line distance follows from a run's: itself, and
// those it is joined to by kinks alone.
func (r *Run) group() reached {
	in := map[*Run]bool{r: true}
	for open := []*Run{r}; len(open) > 0; open = open[1:] {
		open[0].corners(func(c *Corner, beyond *Run, _ bool) {
			if c.Kink && !in[beyond] {
				in[beyond] = true
				open = append(open, beyond)
			}
		})
	}
	return r.ordered(func(o *Run) bool { return in[o] })
}

// follow are the runs whose corner points follow from where a run's line lies:
// its group and the neighbours of that.
func (r *Run) follow() reached {
	group := r.group()
	in := map[*Run]bool{}
	for _, o := range group {
		in[o] = true
		o.corners(func(_ *Corner, beyond *Run, _ bool) { in[beyond] = true })
	}
	return r.ordered(func(o *Run) bool { return in[o] })
}

// rearMeasured reports whether a width of a neighbour moves the run: its length
// or its stations are then brought to the front with it.
func (r *Run) rearMeasured() bool { return r.Job.Face == job.Rear || r.Job.StationFace == job.Rear }

// holdWith appends a hold on a run, and one on each of the others that it
// reaches; on the perimeter, where it reaches all of it. The mend of the others
// is that of the run.
func (r *Run) holdWith(f finding.Finding, others reached, what string, found *finding.Set) {
	if n := len(r.Perimeter.Runs); n > 1 && len(others) == n {
		f.Where.Run = ""
		found.Append(f)
		return
	}
	found.Append(f)
	for _, o := range others {
		if o != r {
			found.Append(finding.Finding{Code: f.Code, Severity: f.Severity, At: f.At, Where: ref(o),
				What: "run " + o.Name + ": " + what, Mend: "run " + r.Name + " first: " + f.Mend})
		}
	}
}

// holdSuspect holds what a doubted reading touches: its run, and whatever the
// true reading may move.
func (r *Run) holdSuspect(j *job.Job, s *Suspect, found *finding.Set) {
	if s.Cleared != nil {
		return
	}
	q := s.Reading
	others, what := r.suspectReaches(j, s)
	said := "run " + r.Name + " at station " + job.Both(q.Job.Station) + ": the " + s.Measure + ", " +
		job.Both(s.Value) +
		", stands out from its neighbours, which lead to " + job.Both(s.Expected)
	why := s.Hint
	if s.Whole {
		said, why = "run "+r.Name+": "+s.Hint, ""
	}
	r.holdWith(finding.Finding{
		Code: finding.Slip, Severity: finding.Hold, At: q.Job.At, Where: refAt(r, q.Station),
		What: said,
		Why:  why,
		Mend: "measure again; if it stands, say so under the run: `cleared: [{station: " +
			typed(q.Job.Station, j.Units) + ", measure: " +
			key(job.Measure(s.Measure)) + ", value: " + typed(s.Value, j.Units) + ", by: who measured, on: the date}]`",
	}, others, what+" follows from a doubted "+s.Measure+" of run "+r.Name, found)
}

// typed is a length as the job file of a system of units has it.
func typed(l length.Length, u job.Units) string {
	if u == job.Metric {
		return length.Millimetres(l, 2) + " mm"
	}
	return length.Inches(l, 16)
}

// suspectReaches are the runs that the true reading may change, and what of
// them.
func (r *Run) suspectReaches(j *job.Job, s *Suspect) (reached, string) {
	ends := r.trimmedBy(s)
	switch m := job.Measure(s.Measure); {
	case r.setsSurface(j, s, len(ends) > 0):
		return r.sharing(), "its set surface"
	case m == job.MeasureTopOutside || m == job.MeasureTopInside:
		return nil, ""
	case j.System.SplitsWidths() || r.setsWidth(s):
		return r.sharing(), "its width"
	case m == job.MeasureOffset || m == job.MeasureOffsetLow || m == job.MeasureStation:
		return r.follow(), "where its corner lies"
	}
	return ends, "its length on the street face, or where its corner lies,"
}

// trimmedBy are the runs whose front faces follow from a doubted width, because
// they were measured on the rear face beside it, and what follows from theirs.
func (r *Run) trimmedBy(s *Suspect) reached {
	if job.Measure(s.Measure) != job.MeasureWidth {
		return nil
	}
	first, last := &r.Readings[0], &r.Readings[len(r.Readings)-1]
	in := map[*Run]bool{}
	r.corners(func(_ *Corner, beyond *Run, right bool) {
		if right && s.Reading != last || !right && s.Reading != first {
			return
		}
		for _, o := range []*Run{r, beyond} {
			if !o.rearMeasured() {
				continue
			}
			for _, n := range o.follow() {
				in[n] = true
			}
		}
	})
	return r.ordered(func(o *Run) bool { return in[o] })
}

// couldBe is the greatest of what a doubted reading reads and of what a reading
// in its place could read without being doubted.
func (s *Suspect) couldBe() length.Length { return length.Max(s.Value, s.Expected+s.Limit) }

// setsSurface reports whether the set surface may follow from a doubted
// reading. A level one follows from the greatest top alone. One with a grade
// follows from all tops and from where they stand, and one that falls to the
// roof also from where the faces lie.
func (r *Run) setsSurface(j *job.Job, s *Suspect, trims bool) bool {
	m := job.Measure(s.Measure)
	top := m == job.MeasureTopOutside || m == job.MeasureTopInside
	switch {
	case r.Perimeter.Cross != 0:
		return m != job.MeasureWidthLow
	case r.Perimeter.graded(j):
		return top || trims || m == job.MeasureStation
	case !top:
		return false
	}
	for _, o := range r.sharing() {
		for _, q := range o.Readings {
			if length.Max(q.TopOutside, q.TopInside) > s.couldBe() {
				return false
			}
		}
	}
	return true
}

// setsWidth reports whether the width of the stretch may follow from a doubted
// reading: whether with the true one the need may be the greatest.
func (r *Run) setsWidth(s *Suspect) bool {
	need := s.Reading.Need
	switch group := r.group(); job.Measure(s.Measure) {
	case job.MeasureWidth, job.MeasureWidthLow:
		need += s.couldBe() - s.Value
	case job.MeasureStation:
		// The line moves no further than the face does along the run.
		need = group.need() + r.waver()
	default:
		// The true face lies no further out than a reading that nobody doubts, so
		// the line moves out by the limit at most. One that reads too far out may
		// leave more need behind it, and one at an end moves the line between the
		// corners that all others are brought to.
		need = group.need() + s.Limit
		if end := s.Reading == &r.Readings[0] || s.Reading == &r.Readings[len(r.Readings)-1]; end ||
			s.Value > s.Expected {
			need += length.Abs(s.Value - s.Expected)
		}
	}
	return need >= r.sharing().need()
}

// waver is how far the readings' faces lie apart.
func (r *Run) waver() length.Length {
	var least, most length.Length
	for i, q := range r.Readings {
		if i == 0 || q.Offset < least {
			least = q.Offset
		}
		if i == 0 || q.Offset > most {
			most = q.Offset
		}
	}
	return most - least
}
