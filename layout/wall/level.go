package wall

import (
	"strconv"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// levelled holds every top where the levelling does not come back to its benchmark:
// nobody can say at which top the instrument or the rod was moved unseen.
func levelled(j *job.Job, found *finding.Set) {
	if j.Benchmark == nil || j.Benchmark.Loop == nil {
		return
	}
	l := j.Benchmark.Loop
	miss := l.Misclosure()
	if length.Abs(miss) <= l.Most {
		return
	}
	side := "higher"
	if miss < 0 {
		side = "lower"
	}
	found.Append(finding.Finding{Code: "level-misclosure", Severity: finding.Hold, At: l.At,
		What: "the levelling comes back to the benchmark " + job.Both(length.Abs(miss)) + " " + side +
			" than it left it, over " + strconv.Itoa(len(l.Moves)) + " moves of the instrument; the job accepts " +
			job.Both(l.Most),
		Why: "every top, and all that stands under the chairs, may be out by as much",
		Mend: "look at the rod readings on the mark and at each move as they were written down; " +
			"if they stand, level again"})
}
