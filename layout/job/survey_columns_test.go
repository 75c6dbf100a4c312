package job

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
)

// surveyedBy reads the smallest job with a survey of its two runs.
func surveyedBy(t *testing.T, csv string) finding.List {
	t.Helper()
	base, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, line := range strings.Split(string(base), "\n") {
		if strings.Contains(line, "readings:") || strings.HasPrefix(strings.TrimSpace(line), "- {station") {
			continue
		}
		if strings.Contains(line, "starts: free") {
			line += "\n    survey: a.csv"
		}
		out = append(out, line)
	}
	_, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(strings.Join(out, "\n"))}, "a.csv": {Data: []byte(csv)}},
		"job.yaml")
	return list
}

// rows writes a survey of A and B, nine readings each, by what each column says at
// a reading.
func rows(heading string, cells func(i int) string) string {
	s := "run," + heading + "\n"
	for i := range 9 {
		s += fmt.Sprintf("A,%d,%s\n", i*30, cells(i))
	}
	for i := range 7 {
		s += fmt.Sprintf("B,%d,%s\n", i*30, cells(i))
	}
	return s
}

func TestColumnsInAnotherUnit(t *testing.T) {
	const heading = "station (in),width (in),street_top (in),roof_top (in),offset (in)"
	cases := []struct {
		name, csv, code, want string
		line                  int
	}{
		{"as a tape in inches reads", rows(heading, func(i int) string {
			return fmt.Sprintf("12 %d/16,-1/8,0,%d/8", i+1,
				i)
		}), "", "", 0},
		{"widths in millimetres", rows(heading, func(i int) string { return fmt.Sprintf("%d,-1/8,0,1/8", 300+i) }),
			"column-unit",
			"column width: all of its 16 values are in no wall's range", 1},
		{"widths of a wall in inches under mm", rows(strings.Replace(heading, "width (in)", "width (mm)", 1),
			func(i int) string { return fmt.Sprintf("12.%d,-1/8,0,1/8", i) }), "column-unit",
			"every one would be in inches or centimetres", 1},
		{"offsets in millimetres", rows(heading, func(i int) string { return fmt.Sprintf("12,-1/8,0,%d", i-4) }),
			"column-whole",
			"all 14 values that are not 0 are whole numbers", 1},
		{"one has its point", rows(heading, func(i int) string {
			if i == 3 {
				return "12,-1/8,0,-1.0"
			}
			return fmt.Sprintf("12,-1/8,0,%d", i-4)
		}), "", "", 0},
		{"out by two inches at most", rows(heading, func(i int) string { return fmt.Sprintf("12,-1/8,0,%d", i%3) }), "",
			"", 0},
	}
	for _, c := range cases {
		var got []string
		for _, f := range surveyedBy(t, c.csv) {
			if f.Code == "column-unit" || f.Code == "column-whole" || f.Code == "reading-range" {
				got = append(got, f.String())
				if f.At.File != "a.csv" || f.At.Line != c.line {
					t.Errorf("%s: at %v", c.name, f.At)
				}
			}
		}
		if c.code == "" && len(got) > 0 || c.code != "" && (len(got) != 1 || !strings.Contains(got[0], c.want) ||
			!strings.Contains(got[0], c.code)) {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

// A run that the job does not have is one of those without rows, whatever it is
// called; the nearest spelling may well be a run that has its own.
func TestStrangersAreRunsWithoutRows(t *testing.T) {
	csv := rows("station (in),width (in),street_top (in),roof_top (in),offset (in)",
		func(int) string { return "12 1/8,0,0,0" })
	for _, c := range []struct{ from, to, want string }{
		{"B,", "AA,", "the job has no run `AA`; did you mean `B`? It is the one run without readings"},
		{"B,0,", "BB,0,", "the job has no run `BB`; did you mean `B`? It has readings already"},
	} {
		list := surveyedBy(t, strings.ReplaceAll(csv, c.from, c.to))
		if len(list) != 1 || !strings.Contains(list[0].String(), c.want) {
			t.Errorf("%v, want %s", list, c.want)
		}
	}
}
