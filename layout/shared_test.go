package layout_test

import (
	"sync"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// Random tests draw the same jobs, the same every day: what many of them need solved
// is solved once. Nobody writes into a layout that is shared.
var solvedJobs sync.Map // digest of a job to a function that solves it

// solved is the layout of a job, from the first who asked for one just like it.
func solved(j *job.Job) (*layout.Layout, finding.List) {
	type answer struct {
		l     *layout.Layout
		found finding.List
	}
	solve, _ := solvedJobs.LoadOrStore(digest(j), sync.OnceValue(func() answer {
		l, found := layout.Build(j)
		return answer{l, found}
	}))
	a := solve.(func() answer)()
	return a.l, a.found
}
