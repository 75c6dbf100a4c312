package job

import (
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/length"
)

// Days as the common spreadsheet programs show them for these numbers.
func TestDayOf(t *testing.T) {
	for n, want := range map[int64]string{61: "1900-03-01", 36526: "2000-01-01", 44196: "2020-12-31", 44255: "2021-02-28", 45351: "2024-02-29", 46030: "2026-01-08", 73050: "2099-12-31"} {
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
		{topSpan("top_inside"), 46030 * in, in, "the day 2026-01-08"},
		{topSpan("top_inside"), -46030 * in, in, "the day 2026-01-08"},
		{topSpan("top_inside"), 46030 * length.Foot, length.Foot, "the day 2026-01-08"},
		{topSpan("top_inside"), 46030*in + 1, in, "measure it again, and check its unit"},
		{topSpan("top_inside"), 1000 * in, in, "if the number means millimetres"},
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
	long := "length: 5280'-0\""
	var runs, sloped, dense, things strings.Builder
	for i := range 12_001 {
		fmt.Fprintf(&runs, "      - {name: R%d, length: 20', face: front, basis: measured, survey_line: a to b, turn: right 1}\n", i)
	}
	for i := range 400 {
		fmt.Fprintf(&sloped, "      - {name: S%d, length: 20', face: front, basis: measured, survey_line: a to b, grade: 1%%, turn: right 1}\n", i)
	}
	for i := range 581 { // 100 and one every half inch of 20 ft
		fmt.Fprintf(&dense, "          - {station: %g\", width: 12\", top_outside: 0, top_inside: 0, offset: 0}\n", float64(i)/4)
	}
	for range 5_001 {
		things.WriteString("          - {name: post, at: 1', extent: 1\", does: block joint}\n")
	}
	for _, c := range []struct{ old, new, code, want string }{
		{"stock: 11'-6\"", "stock: 1/16\"", "length-range", "is not the length of a cap as it is made"},
		{"stock: 11'-6\"", "stock: 61'", "length-range", "is not the length of a cap as it is made"},
		{"{length: 6\", width: 4\"}", "{length: 6\", width: 1000'}", "length-range", "is not the length of a support"},
		{"thickness: 23/32\"", "thickness: 0.01\"", "length-range", "is not the length of a layer of plywood"},
		{"1/8\", 1/16\"]", "1/8\", 0.001\"]", "length-range", "is not the length of a shim"},
		{"step: 1/4\"", "step: 0.001\"", "length-range", "is not the length of a step of widths"},
		{"rows: {front: 2", "rows: {front: 400", "count-range", "there are never 400 fasteners of a chair in one row"},
		{"length: 20'-0\"", "length: 5280'-1\"", "length-range", "is not the length of a straight run"},
		{"chair_spacing: 46\"", "chair_spacing: 1/2\"", "length-range", "is not the length of the spacing of chairs"},
		{"    runs:\n", "    runs:\n" + runs.String(), "job-size", "the job has 12003 runs; one job is 12000 at most"},
		{"    runs:\n", "    runs:\n" + sloped.String(), "job-size", "402 runs share one set surface with a grade"},
		{"        readings:\n          - {station: 0, width: 12\", top_outside: 0, top_inside: -1/8\", offset: 0}\n          - {station: 10'-0\"", "        readings:\n" + dense.String() + "          - {station: 200\"", "job-size", "run A has 583 readings on 20'-0\""},
		{"        turn: right 90\n        readings:", "        turn: right 90\n        obstacles:\n" + things.String() + "        readings:", "job-size", "5001 obstacles"},
	} {
		text := strings.Replace(base, c.old, c.new, 1)
		if text == base {
			t.Fatalf("nothing to change: %s", c.old)
		}
		refused(t, text, c.code, c.want)
	}
	// A mile at a foot a cap is one job; six are not.
	six := strings.Replace(strings.Replace(base, "stock: 11'-6\"", "stock: 1'", 1), "    runs:\n",
		"    runs:\n"+strings.Repeat("      - {name: Q, "+long+", face: front, basis: measured, survey_line: a to b, turn: right 1}\n", 6), 1)
	refused(t, six, "job-size", "the job has 31715 caps of stock length; one job is 30000 at most")
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
