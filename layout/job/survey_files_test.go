package job

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

func goodText(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/good/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// A survey means the same however its rows are spread over files, each in the
// order of its stations.
func TestSurveyInSeveralFiles(t *testing.T) {
	job, csv := goodText(t, "heron.yaml"), goodText(t, "heron.csv")
	whole, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(job)}, "heron.csv": {Data: []byte(csv)}}, "job.yaml")
	if whole == nil {
		t.Fatal(list)
	}
	lines := strings.SplitAfter(strings.TrimSuffix(csv, "\n"), "\n")
	draws.Check(t, 25, func(t *rapid.T) {
		names := rapid.Permutation([]string{"n.csv", "days/2.csv", "days/1.csv"}).Draw(t, "named")
		text := map[string]string{}
		for _, n := range names {
			text[n] = lines[0]
		}
		for _, row := range lines[1:] {
			text[rapid.SampledFrom(names).Draw(t, "file")] += strings.TrimSuffix(row, "\n") + "\n"
		}
		fsys := fstest.MapFS{"job.yaml": {Data: []byte(strings.Replace(job, "survey: heron.csv", "survey: ["+strings.Join(names, ", ")+"]", 1))}}
		for n, s := range text {
			fsys[n] = &fstest.MapFile{Data: []byte(s)}
		}
		j, list := Read(fsys, "job.yaml")
		if j == nil || len(list) > 0 {
			t.Fatal(list)
		}
		if j.Digest() != whole.Digest() {
			t.Fatal("the digests of what was read differ")
		}
		for i, r := range j.Perimeters[0].Runs {
			for k, q := range r.Readings {
				if want := whole.Perimeters[0].Runs[i].Readings[k]; q.Station != want.Station || q.Width != want.Width || q.Note != want.Note {
					t.Fatalf("run %s: reading %d is %v, want %v", r.Name, k, q, want)
				}
			}
		}
		if len(j.Sources) != 4 {
			t.Fatalf("files read: %v", j.Sources)
		}
	})
}

func TestSurveyFiles(t *testing.T) {
	const head = "run,station,width (in),street_top (in),roof_top (in),offset (in)\n"
	base := goodBase(t)
	i, k := strings.Index(base, "        readings:"), strings.Index(base, "      - name: B\n")
	if i < 0 || k < i {
		t.Fatal("the base file has changed")
	}
	base = base[:i] + base[k:]
	base = strings.Replace(base, "    starts:", "    survey: LIST\n    starts:", 1)
	for _, tt := range []struct {
		name, list string
		files      map[string]string
		want       []string
	}{
		{"a file a day", "[1.csv, 2.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n", "2.csv": head + "A,\"10'-0\"\"\",12,0,0,0\n"}, nil},
		{"one file without brackets", "1.csv", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n"}, nil},
		{"a station in both", "[1.csv, 2.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n", "2.csv": head + "A,240 in,12.5,0,0,0\n"},
			[]string{"2.csv:2:1: error: run A: two readings stand at station 20'-0\" (6096 mm) (see also 1.csv:3:1); keep one of the two [station-twice]"}},
		{"a copy under another name", "[1.csv, 2.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n", "2.csv": "# again\n" + head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n"},
			[]string{"2.csv:3:1: error: the surveys `1.csv` and `2.csv` both have readings at 2 stations of run A (see also 1.csv:2:1); if one is a copy of the other, name one of the two; if stations were measured again, take their first readings out [survey-twice]"}},
		{"a station in three", "[1.csv, 2.csv, 3.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n", "2.csv": head + "A,0 in,12,0,0,0\nA,\"20'-0\"\"\",12,0,0,0\n", "3.csv": head + "A,0 in,12,0,0,0\n"},
			[]string{"2.csv:2:1: error: the surveys `1.csv` and `2.csv` both have readings at 2 stations of run A (see also 1.csv:2:1)",
				"3.csv:2:1: error: run A: two readings stand at station 0'-0\" (0 mm) (see also 2.csv:2:1)"}},
		{"a job file", "1.yaml", map[string]string{"1.yaml": "# A job.\nformat: copingset/2\njob: {name: x, number: y}\n"},
			[]string{"1.yaml:2:1: error: the line `format: copingset/2` does not begin a survey but a job file or a part of one; name the CSV file with the readings [csv-heading]"}},
		{"a part of one", "1.yml", map[string]string{"1.yml": "job: {name: x, number: y}\nunits: metric\n"},
			[]string{"1.yml:1:1: error: the line `job: {name: x,number: y}` does not begin a survey"}},
		{"no heading", "1.csv", map[string]string{"1.csv": "A,0 in,12,0,0,0\nA,240 in,12,0,0,0\n"},
			[]string{"1.csv:1:1: error: the line `A,0 in,12,0,0,0` is no heading of a survey; begin it with the heading run,station,"}},
		{"tabs", "1.csv", map[string]string{"1.csv": strings.ReplaceAll(head, ",", "\t") + "A\t0 in\t12\t0\t0\t0\n"},
			[]string{"is no heading of a survey; separate the columns by commas or semicolons, not tabs"}},
		{"out of order in one", "[1.csv, 2.csv]", map[string]string{"1.csv": head + "A,120 in,12,0,0,0\nA,0 in,12,0,0,0\n", "2.csv": head + "A,240 in,12,0,0,0\n"},
			[]string{"1.csv:2:1: note: run A: the reading nearest the left end is 10'-0\"", "1.csv:3:1: error: run A: the reading at station 0'-0\" (0 mm) stands after the one at 10'-0\" (3048 mm) (see also 1.csv:2:1)"}},
		{"named twice", "[1.csv, ./1.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\nA,240 in,12,0,0,0\n"},
			[]string{"a.yaml:151:21: error: perimeter FRONT names the survey `./1.csv` twice; name it once [survey-named-twice]"}},
		{"one is not there", "[1.csv, 2.csv]", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\n"}, []string{"a.yaml:151:21: error: the survey `2.csv` is not there; did you mean `1.csv`?"}},
		{"no name", "[1.csv, '']", map[string]string{"1.csv": head + "A,0 in,12,0,0,0\n"}, []string{"survey: there is no text"}},
		{"a group", "{a: 1.csv}", nil, []string{"survey is a list"}},
		{"many", "[" + strings.Repeat("1.csv, ", 401) + "]", nil, []string{"perimeter FRONT names 401 surveys, and 400 are the most"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			fsys := fstest.MapFS{"a.yaml": {Data: []byte(strings.Replace(base, "LIST", tt.list, 1))}}
			for n, s := range tt.files {
				fsys[n] = &fstest.MapFile{Data: []byte(s)}
			}
			_, list := Read(fsys, "a.yaml")
			var got []string
			for _, f := range list {
				if f.Code != "run-unsurveyed" {
					got = append(got, f.String())
				}
			}
			if len(got) != len(tt.want) {
				t.Fatalf("got %q\nwant %q", got, tt.want)
			}
			for i, w := range tt.want {
				if !strings.Contains(got[i], w) {
					t.Errorf("got %s\nwant %s", got[i], w)
				}
			}
		})
	}
}

// A survey of several runs named under two names is one slip.
func TestSurveyUnderTwoNames(t *testing.T) {
	csv := goodText(t, "heron.csv")
	job := strings.Replace(goodText(t, "heron.yaml"), "survey: heron.csv", "survey: [heron.csv, copy.csv]", 1)
	_, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(job)}, "heron.csv": {Data: []byte(csv)}, "copy.csv": {Data: []byte(csv)}}, "job.yaml")
	rows := strings.Count(strings.TrimSpace(csv), "\n")
	want := fmt.Sprintf("the surveys `heron.csv` and `copy.csv` both have readings at %d stations of runs N, E, S, W", rows)
	if len(list) != 1 || !strings.Contains(list[0].String(), want) {
		t.Errorf("got %v\nwant %s", list, want)
	}
}

// What every run repeats may stand once above them, and says the same.
func TestFaceAndBasisAboveTheRuns(t *testing.T) {
	base := goodBase(t)
	read := func(text string) *Job {
		t.Helper()
		j, list := Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
		if j == nil {
			t.Fatal(list)
		}
		return j
	}
	once := strings.NewReplacer("        face: front\n", "", "        basis: measured\n", "", "    starts:", "    face: front\n    basis: measured\n    starts:").Replace(base)
	if read(once).Digest() != read(base).Digest() {
		t.Error("the digests of what was read differ")
	}
	other := strings.NewReplacer("        face: front\n", "", "    starts:", "    face: rear\n    starts:", "      - name: B\n", "      - name: B\n        face: front\n").Replace(base)
	j := read(other)
	same(t, "of the perimeter", j.Perimeters[0].Runs[0].Face, Rear)
	same(t, "its stations", j.Perimeters[0].Runs[0].StationFace, Rear)
	same(t, "of the run", j.Perimeters[0].Runs[1].Face, Front)
	neither := strings.ReplaceAll(base, "        basis: measured\n", "")
	_, list := Read(fstest.MapFS{"a.yaml": {Data: []byte(neither)}}, "a.yaml")
	if len(list) != 2 || !strings.Contains(list[0].String(), "run A: `basis` is missing, and it does not stand above the list for all of them") {
		t.Error(list)
	}
	// One that cannot be read is the only finding: it does stand above the list.
	for text, want := range map[string]string{
		strings.Replace(once, "    basis: measured\n", "    basis: taped\n", 1): "basis: `taped` is not known here",
		strings.Replace(once, "    face: front\n", "    face:\n", 1):            "face has no value",
	} {
		_, list := Read(fstest.MapFS{"a.yaml": {Data: []byte(text)}}, "a.yaml")
		if len(list) != 1 || !strings.Contains(list[0].String(), want) {
			t.Error(list)
		}
	}
}
