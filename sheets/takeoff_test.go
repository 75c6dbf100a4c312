package sheets

import (
	"os"
	"strings"
	"testing"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/takeoff"
)

func sampleTakeoff(t *testing.T) *takeoff.Takeoff {
	t.Helper()
	fsys := os.DirFS("../samples")
	take, found := takeoff.Of(func(include []string) (*job.Job, finding.List) {
		return job.ReadTakeoff(fsys, "rectangle/job.yaml", include)
	})
	if take == nil {
		t.Fatal(found)
	}
	return take
}

// Each sheet of a takeoff says that nothing is released from it, in every language, and
// its drawing is sound.
func TestTakeoffSheets(t *testing.T) {
	take := sampleTakeoff(t)
	for lang, want := range map[words.Lang]string{words.English: "NOTHING IS RELEASED", words.Spanish: "NADA SE LIBERA",
		words.Longer: ""} {
		for _, s := range Takeoff(take, Options{Lang: lang}) {
			if !strings.Contains(wordsOf(s.Scene), want) {
				t.Errorf("sheet %s does not say %s", s.Number, want)
			}
			for _, f := range drawing.Check(s.Scene) {
				t.Errorf("sheet %s: %v", s.Number, f)
			}
		}
	}
}

// The list holds each line of each option, and its sums are those of its rows.
func TestTakeoffList(t *testing.T) {
	take := sampleTakeoff(t)
	s := TakeoffList(take)
	n := 0
	for _, o := range take.Options {
		n += len(o.Lines) + 3
	}
	if len(s.Rows) != n {
		t.Errorf("%d rows for %d lines and sums", len(s.Rows), n)
	}
	for _, r := range s.Rows {
		if len(r) != len(s.Header) {
			t.Fatalf("a row of %d cells: %v", len(r), r)
		}
	}
}
