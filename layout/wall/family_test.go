package wall

import (
	"math/rand/v2"
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/length/draws"
)

// honest is a roof as walls are: each face bows and waves by itself, the top is
// level or built to fall to the roof, and the tape is read to the sixteenth. Some
// runs have a pier, whose face and width change together, or a step in both tops,
// some have their survey line off the wall.
func honest(r *rand.Rand) *job.Job {
	side := func() length.Length { return length.Length(120+r.IntN(600)) * in }
	a, b := side(), side()
	j := testJob(run("A", a, 90), run("B", b, 90), run("C", a, 90), run("D", b, 90))
	read := func(inches float64) length.Length { return length.RoundTo(length.FromInches(inches), length.Inch16) }
	fall, off := 0.0, 0.0
	if r.IntN(2) == 0 {
		fall = 0.25 + r.Float64()/2
	}
	if r.IntN(3) == 0 {
		off = r.NormFloat64() * 2
	}
	for i := range j.Perimeters[0].Runs {
		q := j.Perimeters[0].Runs[i].Readings
		n := float64(len(q) - 1)
		front, rear, crown := r.NormFloat64()*0.5, r.NormFloat64()*0.5, r.NormFloat64()*0.5
		thick := 8 + r.Float64()*8
		pier, high := r.IntN(3*len(q)), r.IntN(6*len(q))
		for k := range q {
			u := float64(k) / n
			bulge := 4 * u * (1 - u)
			f := off + front*bulge + r.NormFloat64()/16
			w := thick + (front-rear)*bulge + r.NormFloat64()/16
			top := crown*bulge + r.NormFloat64()/16
			if k >= pier && k < pier+3 {
				f, w = f+4, w+4
			}
			if k > high {
				top += 3
			}
			q[k].Offset, q[k].Width = read(f), read(w)
			q[k].TopOutside, q[k].TopInside = read(top), read(top-fall+r.NormFloat64()/32)
		}
	}
	return j
}

func wholes(found finding.List) []string {
	var out []string
	for _, f := range found {
		if f.Code == "survey-slip" && (strings.Contains(f.What, "look written") || strings.Contains(f.Why,
			"stand together")) {
			out = append(out, f.String())
		}
	}
	return out
}

// Of honest roofs fewer than one in a thousand has a run doubted as a whole.
func TestHonestWallsAreNotDoubtedAsAWhole(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	doubted, all := 0, draws.Times(500)
	n := 0
	for range all {
		n++
		_, found := build(t, honest(r))
		if w := wholes(found); len(w) > 0 {
			doubted++
			t.Log(w[0])
		}
	}
	if 1000*doubted > n {
		t.Errorf("%d of %d honest roofs doubted", doubted, n)
	}
}

// What a person gets wrong for a whole run is found, and one entry clears it.
func TestRunsReadWrongThroughout(t *testing.T) {
	bowed := func(j *job.Job) { // the street face of B bows out by 1 1/2 in, its roof face is straight
		for k := range j.Perimeters[0].Runs[1].Readings {
			q := &j.Perimeters[0].Runs[1].Readings[k]
			u := float64(k) / 8
			d := length.RoundTo(length.FromInches(6*u*(1-u)), length.Inch16)
			q.Offset, q.Width = d, 12*in+d
		}
	}
	sloped := func(j *job.Job) { // built to fall half an inch to the roof
		for i := range j.Perimeters[0].Runs {
			for k := range j.Perimeters[0].Runs[i].Readings {
				q := &j.Perimeters[0].Runs[i].Readings[k]
				q.TopOutside, q.TopInside = length.Length(k%2)*length.Inch16, -in/2
			}
		}
	}
	stood := func(j *job.Job) { // every line 2 in clear of the wall, on its street side
		for i := range j.Perimeters[0].Runs {
			for k := range j.Perimeters[0].Runs[i].Readings {
				j.Perimeters[0].Runs[i].Readings[k].Offset = -2 * in
			}
		}
	}
	cases := []struct {
		name        string
		make, wrong func(*job.Job)
		run, want   string
		measure     job.Measure
	}{
		{"offsets negated", bowed, func(j *job.Job) {
			for k := range j.Perimeters[0].Runs[1].Readings {
				j.Perimeters[0].Runs[1].Readings[k].Offset *= -1
			}
		}, "B", "with the other sign throughout, the roof face would be straight", job.MeasureOffset},
		{"tops swapped", sloped, func(j *job.Job) {
			for k := range j.Perimeters[0].Runs[2].Readings {
				q := &j.Perimeters[0].Runs[2].Readings[k]
				q.TopOutside, q.TopInside = q.TopInside, q.TopOutside
			}
		}, "C", "its top falls to the other side than that of every other run", job.MeasureTopOutside},
		{"lines on the other side", stood, func(j *job.Job) {
			for k := range j.Perimeters[0].Runs[3].Readings {
				j.Perimeters[0].Runs[3].Readings[k].Offset *= -1
			}
		}, "D", "stands off its wall on the other side", job.MeasureOffset},
	}
	for _, c := range cases {
		j := square()
		c.make(j)
		if _, found := build(t, j); len(wholes(found)) > 0 {
			t.Errorf("%s, not yet: %v", c.name, wholes(found))
		}
		c.wrong(j)
		_, found := build(t, j)
		w := wholes(found)
		if len(w) != 1 || !strings.Contains(w[0], c.want) || !strings.Contains(w[0], "run "+c.run+":") {
			t.Errorf("%s: %v", c.name, found)
			continue
		}
		// Cleared by the reading that it names.
		for i := range j.Perimeters[0].Runs {
			r := &j.Perimeters[0].Runs[i]
			if r.Name != c.run {
				continue
			}
			q := &r.Readings[0]
			for k := range r.Readings {
				if c.measure == job.MeasureOffset && length.Abs(r.Readings[k].Offset) > length.Abs(q.Offset) {
					q = &r.Readings[k]
				}
			}
			v, _ := q.Value(c.measure)
			r.Cleared = []job.Cleared{{Station: q.Station, Measure: c.measure, Value: v, By: "D. Quill"}}
		}
		if _, found := build(t, j); len(wholes(found)) > 0 {
			t.Errorf("%s, cleared: %v", c.name, wholes(found))
		}
	}
}
