package wall

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// heldRuns names the runs of the first perimeter that a hold of one code touches.
func heldRuns(t *testing.T, j *job.Job, code string) string {
	t.Helper()
	p, found := build(t, j)
	if found.HasErrors() {
		t.Fatal(found)
	}
	var out []string
	for _, r := range p[0].Runs {
		if slices.ContainsFunc(found.Holds(), func(f finding.Finding) bool { return f.Code == code && f.Where.TouchesRun("P", r.Name) }) {
			out = append(out, r.Name)
		}
	}
	return strings.Join(out, " ")
}

// wide is a square whose run C needs more width than any other.
func wide() *job.Job {
	j := square()
	j.Perimeters[0].MisclosureLength = 20 * in
	for i := range j.Perimeters[0].Runs[2].Readings {
		j.Perimeters[0].Runs[2].Readings[i].Width = 16 * in
	}
	return j
}

// high is a square whose run D stands higher than any other.
func high() *job.Job {
	j := square()
	for i := range j.Perimeters[0].Runs[3].Readings {
		q := &j.Perimeters[0].Runs[3].Readings[i]
		q.TopOutside, q.TopInside = 2*in, 2*in
	}
	return j
}

// terrace is an open wall whose third run is 8 in higher and 4 in wider.
func terrace() *job.Job {
	j := testJob(run("A", 240*in, 90), run("B", 240*in, 0), run("C", 240*in, 0))
	p := &j.Perimeters[0]
	p.Kind, p.Starts = job.Open, job.End{Kind: job.EndFree}
	p.Runs[1].Right, p.Runs[2].Right = job.End{Kind: job.EndStep, Step: 8 * in}, job.End{Kind: job.EndFree}
	for i := range p.Runs[2].Readings {
		q := &p.Runs[2].Readings[i]
		q.TopOutside, q.TopInside, q.Width = 8*in, 8*in, 16*in
	}
	return j
}

// onRear measures a run on its rear face.
func onRear(r *job.Run) {
	r.Face, r.StationFace = job.Rear, job.Rear
	r.Length -= 24 * in
	for i := range r.Readings {
		q := &r.Readings[i]
		q.Station = length.MulDiv(q.Station, int64(r.Length), int64(r.Length+24*in))
	}
}

// A hold reaches every run whose pieces or chairs the true reading may change,
// and no other.
func TestWhatAHoldReaches(t *testing.T) {
	reading := func(j *job.Job, run, k int) *job.Reading { return &j.Perimeters[0].Runs[run].Readings[k] }
	cases := []struct {
		name, code string
		job        func() *job.Job
		change     func(j *job.Job)
		want       string
	}{
		{"a width within", "survey-slip", wide, func(j *job.Job) { reading(j, 1, 4).Width = 13 * in }, "B"},
		{"a width at a corner", "survey-slip", wide, func(j *job.Job) { reading(j, 1, 0).Width = 10 * in }, "B"},
		{"a width at the corner of a run measured on the rear", "survey-slip", wide, func(j *job.Job) {
			onRear(&j.Perimeters[0].Runs[0])
			reading(j, 1, 0).Width = 10 * in
		}, "A B D"},
		{"a width at the corner of a run whose length alone was measured on the rear", "survey-slip", wide, func(j *job.Job) {
			onRear(&j.Perimeters[0].Runs[0])
			j.Perimeters[0].Runs[0].StationFace = job.Front
			reading(j, 1, 0).Width = 10 * in
		}, "A B D"},
		{"a width at the corner of a run whose stations alone were", "survey-slip", wide, func(j *job.Job) {
			j.Perimeters[0].Runs[0].StationFace = job.Rear
			reading(j, 1, 0).Width = 10 * in
		}, "A B D"},
		{"a width within, beside such a run", "survey-slip", wide, func(j *job.Job) {
			onRear(&j.Perimeters[0].Runs[0])
			reading(j, 1, 4).Width = 13 * in
		}, "B"},
		{"a width at the corner of a run itself measured on the rear", "survey-slip", wide, func(j *job.Job) {
			onRear(&j.Perimeters[0].Runs[0])
			reading(j, 0, 0).Width = 10 * in
		}, "A B D"},
		{"a width where transitions are made", "survey-slip", wide, func(j *job.Job) {
			j.System.Transition = job.Transition{Leg: 4 * in, Length: 32 * in, ChangeMost: 6 * in}
			reading(j, 1, 4).Width = 13 * in
		}, "A B C D"},
		{"a width where corners have two widths", "survey-slip", wide, func(j *job.Job) {
			j.System.Corner.TwoWidths = &job.TwoWidths{MismatchMost: in / 8}
			reading(j, 1, 4).Width = 13 * in
		}, "A B C D"},
		{"a top where transitions are made", "survey-slip", high, func(j *job.Job) {
			j.System.Transition = job.Transition{Leg: 4 * in, Length: 32 * in, ChangeMost: 6 * in}
			reading(j, 1, 4).TopOutside = in
		}, "B"},
		{"a width that reads too low and may be the greatest", "survey-slip", square, func(j *job.Job) { reading(j, 1, 4).Width = 11 * in }, "A B C D"},
		{"a low width that may be the greatest but for the limit of doubt", "survey-slip", func() *job.Job {
			j := square()
			for i := range j.Perimeters[0].Runs[3].Readings {
				j.Perimeters[0].Runs[3].Readings[i].Width += in / 8
			}
			return j
		}, func(j *job.Job) { reading(j, 1, 4).Width = 11 * in }, "A B C D"},
		{"a top that is not the highest", "survey-slip", high, func(j *job.Job) { reading(j, 1, 4).TopOutside = in }, "B"},
		{"the highest top", "survey-slip", high, func(j *job.Job) { reading(j, 1, 4).TopOutside = 3 * in }, "A B C D"},
		{"a top that reads too low and may be the highest", "survey-slip", high, func(j *job.Job) { reading(j, 3, 4).TopOutside = in }, "A B C D"},
		{"a top under a grade", "survey-slip", high, func(j *job.Job) {
			j.Packing.Grade = 5_000_000
			reading(j, 1, 4).TopOutside = in
		}, "A B C D"},
		{"a width under a slope that comes from the packing", "survey-slip", wide, func(j *job.Job) {
			j.System.Profile.SlopeBy = job.SlopeByPacking
			reading(j, 1, 4).Width = 13 * in
		}, "A B C D"},
		{"the highest top below a step", "survey-slip", terrace, func(j *job.Job) { reading(j, 0, 4).TopOutside = in }, "A B"},
		{"a low top below a step", "survey-slip", terrace, func(j *job.Job) { reading(j, 0, 4).TopOutside = -in }, "A B"},
		{"the greatest width below a step", "survey-slip", terrace, func(j *job.Job) { reading(j, 1, 4).Width = 14 * in }, "A B"},
		{"a low width below a step", "survey-slip", terrace, func(j *job.Job) { reading(j, 1, 4).Width = 11 * in }, "A B"},
		{"a top above a step", "survey-slip", terrace, func(j *job.Job) { reading(j, 2, 4).TopOutside = 9 * in }, "C"},
		{"a top under a grade below a step", "survey-slip", terrace, func(j *job.Job) {
			j.Packing.Grade = 5_000_000
			for i := range j.Perimeters[0].Runs[1].Readings {
				reading(j, 1, i).TopOutside, reading(j, 1, i).TopInside = 2*in, 2*in
			}
			reading(j, 0, 4).TopOutside = -in
		}, "A B"},
		{"an offset", "survey-slip", wide, func(j *job.Job) { reading(j, 0, 4).Offset = -in }, "A B D"},
		{"an offset that hides a need", "survey-slip", func() *job.Job {
			j := square()
			for i := range j.Perimeters[0].Runs[2].Readings {
				j.Perimeters[0].Runs[2].Readings[i].Width = 13 * in
			}
			j.Perimeters[0].MisclosureLength = 20 * in
			return j
		}, func(j *job.Job) { reading(j, 0, 4).Offset = 2 * in }, "A B C D"},
		{"a line that does not clear", "line-not-clear", wide, func(j *job.Job) {
			j.Perimeters[0].Runs[0].Line = job.Line{Kind: job.LineHeld}
			reading(j, 0, 3).Offset = in / 8
		}, "A B D"},
		{"a line that does not clear the greatest need", "line-not-clear", square, func(j *job.Job) {
			j.Perimeters[0].Runs[0].Line = job.Line{Kind: job.LineHeld}
			reading(j, 0, 3).Offset = in / 8
		}, "A B C D"},
		{"a survey not tied below a step", "survey-not-tied", terrace, func(j *job.Job) {
			r := &j.Perimeters[0].Runs[0]
			r.Readings = r.Readings[1 : len(r.Readings)-1]
			for i := range r.Readings {
				r.Readings[i].Offset = 2 * in
			}
		}, "A B"},
	}
	for _, c := range cases {
		j := c.job()
		c.change(j)
		if got := heldRuns(t, j, c.code); got != c.want {
			t.Errorf("%s: held %q, want %q", c.name, got, c.want)
		}
	}
}

// One line distance goes through a kink: what moves the line of a run moves the
// next one's, and the corner beyond that.
func TestAHoldGoesThroughKinks(t *testing.T) {
	bent := func() *job.Job {
		j := testJob(run("A", 240*in, 5), run("A2", 240*in, 85), run("B", 240*in, 90), run("C", 400*in, 90), run("D", 240*in, 90))
		j.Perimeters[0].MisclosureLength = 1000 * in
		for i := range j.Perimeters[0].Runs[3].Readings {
			j.Perimeters[0].Runs[3].Readings[i].Width = 16 * in
		}
		return j
	}
	j := bent()
	j.Perimeters[0].Runs[0].Readings[4].Offset = -in
	if got := heldRuns(t, j, "survey-slip"); got != "A A2 B D" {
		t.Errorf("a doubted offset holds %q", got)
	}
	j = bent()
	j.Perimeters[0].Runs[0].Line = job.Line{Kind: job.LineHeld, Left: in / 4, Right: in / 2}
	j.Perimeters[0].Runs[1].Line = job.Line{Kind: job.LineHeld, Left: in, Right: in}
	if got := heldRuns(t, j, "line-kink"); got != "A A2 B D" {
		t.Errorf("unlike lines hold %q", got)
	}
}
