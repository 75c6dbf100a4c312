package layout

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Consequence is a finding that would not be made if a doubted reading were as its
// neighbours have it. Both are places in a list of findings.
type Consequence struct{ Of, Cause int }

// mostTried is how many doubted readings of a job are tried: of more, the survey has
// to be looked at as a whole, and nothing is said to follow from one of them.
const mostTried = 8

// mostRuns is of the largest job in which they are tried, since each takes a layout
// of its own.
const mostRuns = 400

// Consequences tells which holds and notes of a solved job follow from a reading in
// doubt: each doubted reading is taken as its neighbours have it, the job is solved
// again, and what is not found then followed from it. Errors, and what is said of the
// reading itself, follow from nothing. They are all still there: what they hold stays
// held until the reading is cleared or measured again.
func (l *Layout) Consequences(found finding.List) []Consequence {
	doubted := l.doubted()
	if len(doubted) == 0 || len(doubted) > mostTried || len(l.Runs()) > mostRuns {
		return nil
	}
	var out []Consequence
	said := map[int]bool{} // look-up only
	for _, d := range doubted {
		cause := slices.IndexFunc(found, func(f finding.Finding) bool {
			return f.Code == "survey-slip" &&
				f.At == d.at
		})
		if cause < 0 {
			continue
		}
		_, without := Build(l.taking(d))
		still := map[[4]string]bool{} // look-up only
		for _, f := range without {
			still[kindOf(f)] = true
		}
		for i, f := range found {
			if f.Severity == finding.Error || f.Code == "survey-slip" || said[i] || still[kindOf(f)] {
				continue
			}
			said[i] = true
			out = append(out, Consequence{i, cause})
		}
	}
	slices.SortFunc(out, func(a, b Consequence) int { return a.Of - b.Of })
	return out
}

// kindOf is what two findings have in common that say the same of one thing, in other
// figures.
func kindOf(f finding.Finding) [4]string {
	return [4]string{f.Code, f.At.String(), f.Where.Perimeter, f.Where.Run}
}

// doubt is a reading in doubt, with what its neighbours lead to.
type doubt struct {
	at       finding.Place
	reading  *job.Reading
	measures []job.Measure
	expected []length.Length
}

// doubted are the readings in doubt that nobody has cleared, each once. A run that is
// doubted as a whole is not among them.
func (l *Layout) doubted() []doubt {
	var out []doubt
	for _, r := range l.Runs() {
		for _, s := range r.Suspects {
			if s.Cleared != nil || s.Whole || job.Measure(s.Measure) == job.MeasureStation {
				continue
			}
			q := s.Reading.Job
			i := slices.IndexFunc(out, func(d doubt) bool { return d.reading == q })
			if i < 0 {
				i = len(out)
				out = append(out, doubt{at: q.At, reading: q})
			}
			out[i].measures = append(out[i].measures, job.Measure(s.Measure))
			out[i].expected = append(out[i].expected, s.Expected)
		}
	}
	return out
}

// taking is the job with a doubted reading as its neighbours have it.
func (l *Layout) taking(d doubt) *job.Job {
	j := *l.Job
	j.Perimeters = slices.Clone(j.Perimeters)
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		p.Runs = slices.Clone(p.Runs)
		for k := range p.Runs {
			r := &p.Runs[k]
			for n := range r.Readings {
				if &r.Readings[n] != d.reading {
					continue
				}
				r.Readings = slices.Clone(r.Readings)
				for m, measure := range d.measures {
					r.Readings[n] = as(r.Readings[n], measure, d.expected[m])
				}
				break
			}
		}
	}
	return &j
}

// as is a reading with another value of a measure.
func as(q job.Reading, m job.Measure, v length.Length) job.Reading {
	switch m {
	case job.MeasureWidth:
		q.Width = v
	case job.MeasureTopOutside:
		q.TopOutside = v
	case job.MeasureTopInside:
		q.TopInside = v
	case job.MeasureOffset:
		q.Offset = v
	case job.MeasureWidthLow:
		q.WidthLow = &v
	case job.MeasureOffsetLow:
		q.OffsetLow = &v
	}
	return q
}
