package layout_test

import (
	"slices"
	"testing"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// doubtful is a roof with readings out by so much, each at the fourth of a run; the
// lines of its file are those of its readings.
func doubtful(out ...length.Length) *job.Job {
	j := jobtest.Job()
	j.System.PlayMost = 7 * length.Inch / 8
	j.Perimeters = []job.Perimeter{jobtest.Rectangle(480*in, 240*in)}
	line := 0
	for i := range j.Perimeters[0].Runs {
		r := &j.Perimeters[0].Runs[i]
		for k := range r.Readings {
			line++
			r.Readings[k].At = finding.Place{File: "roof.csv", Line: line}
		}
		if i < len(out) {
			r.Readings[3].Width += out[i]
		}
	}
	return j
}

// What follows from a doubted reading is what is not found once it is as its
// neighbours have it; what it holds stays held.
func TestConsequences(t *testing.T) {
	for _, c := range []struct {
		name   string
		out    []length.Length
		causes int
	}{{"no reading in doubt", nil, 0}, {"one", []length.Length{4 * in}, 1}, {"two", []length.Length{4 * in, 5 * in},
		2}} {
		l, found := layout.Build(doubtful(c.out...))
		all := l.Consequences(found)
		var causes []int
		for _, q := range all {
			if !slices.Contains(causes, q.Cause) {
				causes = append(causes, q.Cause)
			}
			if f := found[q.Cause]; f.Code != "survey-slip" || found[q.Of].Code == "survey-slip" ||
				found[q.Of].Severity == finding.Error {
				t.Errorf("%s: %v follows from %v", c.name, found[q.Of], f)
			}
		}
		if len(causes) < min(c.causes, 1) || len(causes) > c.causes {
			t.Errorf("%s: %d causes of %d, in %v", c.name, len(causes), c.causes, found)
		}
		if c.causes == 1 { // all that the job without the slip does not find
			_, plain := layout.Build(doubtful())
			if len(plain)+1+len(all) != len(found) {
				t.Errorf("%s: %d findings, %d of them follow, %d without the slip", c.name, len(found), len(all),
					len(plain))
			}
		}
		again, repeated := layout.Build(doubtful(c.out...))
		if !slices.Equal(all, again.Consequences(repeated)) {
			t.Errorf("%s: another answer the second time", c.name)
		}
	}
}
