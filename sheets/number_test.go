package sheets

import (
	"strings"
	"testing"

	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// A sheet keeps its number when another run takes more sheets.
func TestNumbersNameTheirSubject(t *testing.T) {
	packet := func(long length.Length) map[string]string {
		j := jobtest.Job()
		j.Perimeters = []job.Perimeter{jobtest.Rectangle(long, 240*length.Inch)}
		l, found := layout.Build(j)
		if found.HasErrors() {
			t.Fatal(found)
		}
		out := map[string]string{}
		for _, s := range runSheets(l, Options{}) {
			out[s.ID] = s.Number
		}
		return out
	}
	short, long := packet(480*length.Inch), packet(4800*length.Inch)
	if len(long) <= len(short) {
		t.Fatalf("a run ten times as long takes %d sheets in place of %d", len(long), len(short))
	}
	same := 0
	for id, n := range short {
		if q, ok := long[id]; ok {
			same++
			if q != n {
				t.Errorf("%s is sheet %s, and %s once run A is longer", id, n, q)
			}
		}
	}
	if same == 0 || !strings.HasPrefix(short["run-roof-b"], "3.B.") {
		t.Errorf("%d sheets are in both; the first of run B is %q", same, short["run-roof-b"])
	}
}

func TestPlainMark(t *testing.T) {
	for name, want := range map[string]string{"N": "N", "N/E": "N/E", "north wall": "north-wall", "A.1": "A-1", "the longest of all walls": "the-longes"} {
		if got := plainMark(name); got != want {
			t.Errorf("%q is %q in a number, want %q", name, got, want)
		}
	}
}
