package layout

import (
	"copingset/layout/job"
	"copingset/layout/length"
)

// ChairTape is what the stations of a run's chairs, and of the joints they stand
// under, are lettered to: the crew's tape, or half its step where chairs are laid
// so that a bay keeps the tested spacing.
func (l *Layout) ChairTape(r *Run) length.Style {
	s := length.Crew(l.Job.Units == job.Metric)
	if r.Step >= s.Step() {
		return s
	}
	if s.Metric {
		s.Places = 1
		return s
	}
	s.Denominator *= 2
	return s
}
