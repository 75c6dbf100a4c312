package job

import (
	"os"
	"testing"
	"testing/fstest"
)

// A run without a survey holds its perimeter: the other runs follow from it.
func TestUnsurveyedRunsHoldTheirPerimeter(t *testing.T) {
	base, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	bad, err := os.ReadFile("testdata/bad/turns.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, found := Read(fstest.MapFS{"turns.yaml": {Data: []byte(completed(t, string(bad), string(base)))}}, "turns.yaml")
	n := 0
	for _, f := range found {
		if f.Code != "run-unsurveyed" {
			continue
		}
		n++
		if f.Where.Perimeter == "" || f.Where.Run != "" {
			t.Errorf("%v: on perimeter %q, run %q", f, f.Where.Perimeter, f.Where.Run)
		}
	}
	if n == 0 {
		t.Error("no such hold")
	}
}
