package job_test

import (
	"fmt"
	"testing/fstest"

	"copingset/layout/job"
)

// A job is read from any file system, so that a test can write one where it
// stands. Whatever is wrong comes back as findings, each at its line, in the
// words of the file and with what to do; a job with an error is no job.
func ExampleRead() {
	files := fstest.MapFS{"job.yaml": {Data: []byte(`format: copingset/2
job:
  name: Heron Street Archive
  issued: the 16th
units: feet
`)}}
	j, found := job.Read(files, "job.yaml")
	fmt.Println("a job:", j != nil)
	for _, f := range found {
		if f.At.Line > 3 { // not what is missing, which is listed too
			fmt.Println(f)
		}
	}
	// Output:
	// a job: false
	// job.yaml:4:11: error: job.issued: `the 16th` is not a date; write it as year-month-day, like 2026-03-16 [value-date]
	// job.yaml:5:8: error: units: `feet` is not known here; write imperial or metric [value-word]
}
