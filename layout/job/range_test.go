package job

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Days as the common spreadsheet programs show them for these numbers.
func TestDayOf(t *testing.T) {
	for n, want := range map[int64]string{61: "1900-03-01", 36526: "2000-01-01", 44196: "2020-12-31",
		44255: "2021-02-28", 45351: "2024-02-29", 46030: "2026-01-08", 73050: "2099-12-31"} {
		if got := dayOf(n); got != want {
			t.Errorf("day %d is %s, want %s", n, got, want)
		}
	}
}

func TestGuess(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		s       span
		l, unit length.Length
		want    string
	}{
		{topSpan("roof_top"), 46030 * in, in, "the day 2026-01-08"},
		{topSpan("roof_top"), -46030 * in, in, "the day 2026-01-08"},
		{topSpan("roof_top"), 46030 * length.Foot, length.Foot, "the day 2026-01-08"},
		{topSpan("roof_top"), 46030*in + 1, in, "measure it again, and check its unit"},
		{topSpan("roof_top"), 1000 * in, in, "if the number means millimetres"},
		{widthSpan("width"), 305 * in, in, "if the number means millimetres"},
		{widthSpan("width"), 12 * length.Foot, length.Foot, "if the number means centimetres"},
		{widthSpan("width"), in / 2, in, "if the number means metres"},
		{widthSpan("width"), 12 * length.Millimetre, length.Millimetre, "if the number means inches"},
		{offsetSpan("offset"), 99_000 * length.Metre, length.Metre, "measure it again, and check its unit"},
	} {
		if got := c.s.guess(c.l, c.unit); !strings.Contains(got, c.want) {
			t.Errorf("%s %v: %q, want %q", c.s.name, c.l, got, c.want)
		}
	}
}

// What no part of a coping measures, and what is more than one job, is refused
// before it is solved.
func TestAmounts(t *testing.T) {
	data, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	base := string(data)
	for _, c := range []struct{ old, new, code, want string }{
		{"stock: 11'-6\"", "stock: 1/16\"", "length-range", "is not the length of a cap as it is made"},
		{"stock: 11'-6\"", "stock: 61'", "length-range", "is not the length of a cap as it is made"},
		{"{length: 6\", width: 4\"}", "{length: 6\", width: 1000'}", "length-range", "is not the length of a support"},
		{"thickness: 19/32\"", "thickness: 0.01\"", "length-range", "is not the length of a layer of plywood"},
		{"1/8\", 1/16\"]", "1/8\", 0.001\"]", "length-range", "is not the length of a shim"},
		{"step: 1/4\"", "step: 0.001\"", "length-range", "is not the length of a step of widths"},
		{"rows: {front: 3", "rows: {front: 400", "count-range", "there are never 400 fasteners of a chair in one row"},
		{"length: 20'-0\"", "length: 5280'-1\"", "length-range", "is not the length of a straight run"},
		{"chair_spacing: 46\"", "chair_spacing: 1/2\"", "length-range", "is not the length of the spacing of chairs"},
		{"thickness: 16\"", "thickness: 46030\"", "length-range", "is not the length of a layer of a wall"},
		{"thickness: 0.045\"", "thickness: 45\"", "length-range", "is not the length of a membrane's thickness"},
		{"measure_low: no\n", "measure_low: no\n    nailer: {anchor: a bolt, report: R, allowable: 400 lb, " +
			"spacing_most: 4', spacing_least: 0.001\"}\n", "length-range", "is not the length of the spacing of anchors"},
		{"pressures:\n", "benchmark: {what: pin, where: hatch, reading: -46030\"}\npressures:\n", "length-range",
			"no mark that the crew levels from lies so far"},
		{"rows: {front: 3", "rows: {front: 99999999", "value-count", "is more than one job counts of anything"},
	} {
		text := strings.Replace(base, c.old, c.new, 1)
		if text == base {
			t.Fatalf("nothing to change: %s", c.old)
		}
		refused(t, text, c.code, c.want)
	}
}

// chains is a job of perimeters of so many runs of 20 ft each.
func chains(runs ...int) *Job {
	j := &Job{}
	for _, n := range runs {
		j.Perimeters = append(j.Perimeters, Perimeter{Name: "P", Kind: Open, Runs: make([]Run, n)})
		for k := range n {
			j.Perimeters[len(j.Perimeters)-1].Runs[k] = Run{Name: "N", Length: 20 * length.Foot}
		}
	}
	return j
}

func TestJobSize(t *testing.T) {
	steep := &Grade{Most: 10_000_000}
	for _, c := range []struct {
		name string
		j    *Job
		more func(j *Job)
		want string // empty: it is one job
	}{
		{"12,000 runs", chains(6000, 6000), nil, ""},
		{"12,001 runs", chains(6000, 6001), nil, "the job has 12001 runs; one job is 12000 at most"},
		{"5,000 obstacles", chains(2), func(j *Job) {
			j.Perimeters[0].Runs[0].Obstacles, j.Perimeters[0].Runs[1].Expansion = make([]Obstacle,
				4000), make([]ExpansionJoint, 1000)
		}, ""},
		{"5,001 obstacles", chains(2), func(j *Job) {
			j.Perimeters[0].Runs[0].Obstacles, j.Perimeters[0].Runs[1].Expansion = make([]Obstacle,
				4000), make([]ExpansionJoint, 1001)
		}, "the job has 5001 obstacles and building expansion joints"},
		{"201 assemblies", chains(1), func(j *Job) { j.Assemblies = make([]Assembly, 201) },
			"the job has 201 tested assemblies"},
		{"a reading every half inch", chains(1), func(j *Job) {
			j.Perimeters[0].Runs[0].Readings = make([]Reading,
				580)
		}, ""},
		{"more than that", chains(1), func(j *Job) { j.Perimeters[0].Runs[0].Readings = make([]Reading, 581) },
			"run N has 581 readings on 20'-0\""},
		{"400 runs with a grade", chains(400, 400), func(j *Job) { j.Packing.Grade = 1 }, ""},
		{"401 runs with a grade", chains(400, 401), func(j *Job) { j.Packing.Grade = 1 },
			"401 runs share one set surface with a grade"},
		{"one of 401 with a grade", chains(401), func(j *Job) { j.Perimeters[0].Runs[7].Grade = steep },
			"401 runs share one set surface"},
		{"401 runs and a step", chains(401), func(j *Job) {
			j.Packing.Grade, j.Perimeters[0].Runs[200].Right.Kind = 1,
				EndStep
		}, ""},
		{"in a ring they are one", chains(401), func(j *Job) {
			j.Packing.Grade, j.Perimeters[0].Kind, j.Perimeters[0].Runs[200].Right.Kind = 1, Roof, EndStep
		}, "401 runs share one set surface"},
		{"a mile at a foot a cap", chains(1), func(j *Job) {
			j.System.Stock,
				j.Perimeters[0].Runs[0].Length = length.Foot, runMost
		}, ""},
		{"six miles at a foot a cap", chains(6), func(j *Job) {
			j.System.Stock = length.Foot
			for i := range j.Perimeters[0].Runs {
				j.Perimeters[0].Runs[i].Length = runMost
			}
		}, "the job has 31680 caps of stock length; one job is 30000 at most"},
		{"a chair every inch of four miles", chains(4), func(j *Job) {
			j.Assemblies = []Assembly{{ChairSpacing: length.Inch}}
			for i := range j.Perimeters[0].Runs {
				j.Perimeters[0].Runs[i].Length = runMost
			}
		}, "the job has 253440 chairs; one job is 200000 at most"},
	} {
		if c.more != nil {
			c.more(c.j)
		}
		d := newDecoder(fstest.MapFS{}, "a.yaml")
		for _, path := range []string{"perimeters", "system.stock", "assemblies[0].chair_spacing",
			"perimeters[0].runs[0].length"} {
			d.places[path] = finding.Place{File: "a.yaml", Line: 7}
		}
		d.checkAmounts(c.j)
		switch {
		case c.want == "" && len(d.list) > 0:
			t.Errorf("%s: %v", c.name, d.list)
		case c.want != "" && (len(d.list) != 1 || !strings.Contains(d.list[0].What,
			c.want) || d.list[0].Severity != finding.Error):
			t.Errorf("%s: %v, want %s", c.name, d.list, c.want)
		}
	}
}

func refused(t *testing.T, text, code, want string) {
	t.Helper()
	j, list := Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
	if j != nil {
		t.Errorf("%s: not refused", want)
	}
	for _, f := range list {
		if f.Code == code && strings.Contains(f.What, want) && f.At.Line > 1 {
			plainWords(t, f.String())
			return
		}
	}
	t.Errorf("no %s %q among %d findings, the first %v", code, want, len(list), list[:min(3, len(list))])
}
