package finding

import (
	"slices"
	"strings"
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

func chair(name, perimeter, run, words string, worse length.Length) Finding {
	return Finding{Code: "edge", Severity: Hold, At: Place{"f", 3, 1}, What: "run " + run + ": chair " + name + ": " + words, Mend: "m",
		Where: Ref{Perimeter: perimeter, Run: run, Station: worse, HasStation: true},
		One:   One{Noun: "chair", Name: name, Words: words, Worse: worse}}
}

// Findings of one cause are one, which counts things once, lists them and tells the
// worst; others stay.
func TestGathered(t *testing.T) {
	other := Finding{Code: "edge", Severity: Hold, At: Place{"f", 3, 1}, What: "of the job", Mend: "m"}
	elsewhere := chair("N-C9", "A", "N", "2 off", 2)
	elsewhere.At.Line = 4
	got := List{chair("N-C1", "A", "N", "1 off", 1), other, chair("N-C1", "A", "N", "3 off", 3), chair("N-C2", "A", "N", "1 off", 1),
		elsewhere, chair("N-C3", "A", "N", "1 off", 1), chair("E-C1", "B", "E", "1 off", 1)}.Gathered()
	if len(got) != 3 {
		t.Fatalf("%d findings: %v", len(got), got)
	}
	f := got[0]
	if f.What != "4 chairs, N-C1 to N-C3, E-C1: 3 off; that is N-C1, the worst" {
		t.Errorf("%q", f.What)
	}
	if w := f.Where; w.Perimeter != "" || w.Run != "N" || !slices.Equal(w.Runs, []string{"E"}) || w.HasStation || !w.TouchesRun("B", "E") || w.TouchesRun("B", "S") {
		t.Errorf("%+v", w)
	}
	if !got[1].equal(other) || !got[2].equal(elsewhere) {
		t.Errorf("%v and %v have changed", got[1], got[2])
	}
}

// Whatever is found, each thing is counted under its own cause, and nothing is told of
// a run or a piece that it was not found on.
func TestGatheredLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l List
		for range rapid.IntRange(0, 12).Draw(t, "findings") {
			run := rapid.SampledFrom([]string{"N", "E", "S"}).Draw(t, "run")
			f := chair(run+"-C"+rapid.SampledFrom([]string{"1", "2", "3", "4", "12"}).Draw(t, "n"), "A", run,
				rapid.SampledFrom([]string{"a", "b"}).Draw(t, "words"), length.Length(rapid.IntRange(0, 3).Draw(t, "worse")))
			f.At.Line = rapid.IntRange(1, 2).Draw(t, "line")
			l = append(l, f)
		}
		got := l.Gathered()
		for _, f := range l {
			of := slices.DeleteFunc(slices.Clone(got), func(g Finding) bool { return g.At != f.At || g.Code != f.Code })
			if len(of) != 1 || !of[0].Where.TouchesRun("A", f.Where.Run) || of[0].One.Worse < f.One.Worse {
				t.Fatalf("%v is told by %v", f, of)
			}
		}
		for _, g := range got {
			for _, run := range append([]string{g.Where.Run}, g.Where.Runs...) {
				if !slices.ContainsFunc(l, func(f Finding) bool { return f.At == g.At && f.Where.Run == run }) {
					t.Fatalf("%v is on run %s", g, run)
				}
			}
		}
		if again := got.Gathered(); len(again) != len(got) {
			t.Fatalf("%d findings, then %d", len(got), len(again))
		}
	})
}

func TestRanges(t *testing.T) {
	for in, want := range map[string]string{
		"":                     "",
		"N-J1 N-J2":            "N-J1|N-J2",
		"N-J1 N-J2 N-J3 E-J4":  "N-J1 to N-J3|E-J4",
		"N-J9 N-J10 N-J11":     "N-J9 to N-J11",
		"step step step":       "step|step|step",
		"N-J3 N-J2 N-J1 N-J99": "N-J3|N-J2|N-J1|N-J99",
	} {
		if got := strings.Join(Ranges(strings.Fields(in)), "|"); got != want {
			t.Errorf("%q: %q, want %q", in, got, want)
		}
	}
}
