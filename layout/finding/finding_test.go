package finding

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"copingset/layout/length"
)

func TestPlace(t *testing.T) {
	for want, p := range map[string]Place{
		"":             {},
		"job.yaml":     {File: "job.yaml"},
		"job.yaml:3":   {File: "job.yaml", Line: 3},
		"job.yaml:3:9": {File: "job.yaml", Line: 3, Col: 9},
		"3:9":          {Line: 3, Col: 9},
	} {
		if got := p.String(); got != want {
			t.Errorf("%#v prints %q, want %q", p, got, want)
		}
		if p.IsZero() != (want == "") {
			t.Errorf("%#v: IsZero is %v", p, p.IsZero())
		}
	}
	if got := (Place{File: "job.yaml", Col: 9}).String(); got != "job.yaml" {
		t.Errorf("a column without a line prints %q", got)
	}
}

func TestFindingString(t *testing.T) {
	at := Place{"samples/x/job.yaml", 12, 9}
	for _, c := range []struct {
		f    Finding
		want string
	}{
		{New(Error, "angle-bare", at, "write turn: right 45 or included: 135", "%d is a bare angle", 45),
			"samples/x/job.yaml:12:9: error: 45 is a bare angle; write turn: right 45 or included: 135 [angle-bare]"},
		{Finding{Severity: Hold, What: "no movement stated"}, "hold: no movement stated"},
		{Finding{Severity: Note, What: "one", Mend: "do", Also: []Place{at, {File: "s.csv", Line: 2}}},
			"note: one (see also samples/x/job.yaml:12:9, s.csv:2); do"},
		{Finding{Severity: 7, What: "x", Code: "c"}, "severity 7: x [c]"},
	} {
		if got := c.f.String(); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
	// A percent sign in a value that a person wrote is not a format.
	if got := New(Note, "c", Place{}, "100%", "%s", "5%d").String(); got != "note: 5%d; 100% [c]" {
		t.Errorf("got %s", got)
	}
}

func TestRef(t *testing.T) {
	for _, c := range []struct {
		name    string
		r       Ref
		whole   bool
		run     bool // touches run N of roof
		other   bool // touches run E of roof
		piece   bool // touches piece P1 of run N
		rest    bool // touches piece P2 of run N
		printed string
	}{
		{"job", Ref{}, true, true, true, true, true, ""},
		{"perimeter", Ref{Perimeter: "roof"}, false, true, true, true, true, "perimeter roof"},
		{"other perimeter", Ref{Perimeter: "well"}, false, false, false, false, false, "perimeter well"},
		{"run", Ref{Perimeter: "roof", Run: "N"}, false, true, false, true, true, "perimeter roof, run N"},
		{"run alone", Ref{Run: "N"}, false, true, false, true, true, "run N"},
		{"other run", Ref{Run: "E"}, false, false, true, false, false, "run E"},
		{"corner", Ref{Perimeter: "roof", Corner: "C2"}, false, true, true, true, true, "perimeter roof, corner C2"},
		{"station", Ref{Run: "N", HasStation: true}, false, true, false, true, true, "run N"},
		{"station alone", Ref{HasStation: true}, false, true, true, true, true, ""},
		{"piece", Ref{Run: "N", Pieces: []string{"P1"}}, false, true, false, true, false, "run N, piece P1"},
		{"pieces", Ref{Run: "E", Pieces: []string{"P1", "P3"}}, false, false, true, true, false, "run E, pieces P1 P3"},
	} {
		if got := c.r.IsWhole(); got != c.whole {
			t.Errorf("%s: IsWhole %v", c.name, got)
		}
		if got := c.r.TouchesRun("roof", "N"); got != c.run {
			t.Errorf("%s: touches run N %v", c.name, got)
		}
		if got := c.r.TouchesRun("roof", "E"); got != c.other {
			t.Errorf("%s: touches run E %v", c.name, got)
		}
		if got := c.r.TouchesPiece("roof", "N", "P1"); got != c.piece {
			t.Errorf("%s: touches P1 %v", c.name, got)
		}
		if got := c.r.TouchesPiece("roof", "N", "P2"); got != c.rest {
			t.Errorf("%s: touches P2 %v", c.name, got)
		}
		if got := c.r.String(); got != c.printed {
			t.Errorf("%s: prints %q, want %q", c.name, got, c.printed)
		}
	}
}

func TestListCollects(t *testing.T) {
	var l List
	at := Place{"job.yaml", 4, 2}
	l.Notef("n", at, "", "note %d", 1)
	if l.HasErrors() || len(l.Holds()) != 0 {
		t.Error("a note is no error and no hold")
	}
	l.Holdf("h", at, "mend", "hold %d", 1)
	if l.HasErrors() {
		t.Error("a hold is no error")
	}
	l.Errorf("e", at, "mend", "error %d", 1)
	if !l.HasErrors() {
		t.Error("the error is lost")
	}
	l.Holdf("h", at, "mend", "hold %d", 2)
	if l.Count(Note) != 1 || l.Count(Hold) != 2 || l.Count(Error) != 1 {
		t.Errorf("counts %d %d %d", l.Count(Note), l.Count(Hold), l.Count(Error))
	}
	if h := l.Holds(); len(h) != 2 || h[0].What != "hold 1" || h[1].What != "hold 2" {
		t.Errorf("holds %v", h)
	}
}

func TestListByRun(t *testing.T) {
	var l List
	for _, r := range []Ref{{}, {Perimeter: "roof", Run: "N"}, {Perimeter: "roof"}, {Perimeter: "well"}, {Perimeter: "roof", Run: "E"}} {
		f := New(Hold, "c", Place{}, "", "on %v", r)
		f.Where = r
		l.Append(f)
	}
	if got := l.ByRun("N"); len(got) != 1 || got[0].Where.Run != "N" {
		t.Errorf("ByRun: %v", got)
	}
	if got := l.Touching("roof", "N"); len(got) != 3 {
		t.Errorf("Touching: %v", got)
	}
}

// TestAppendKeepsEachOnce changes one field at a time: only a finding that is
// alike in all of them is left out.
func TestAppendKeepsEachOnce(t *testing.T) {
	base := func() Finding {
		return Finding{
			Code: "c", Severity: Hold, At: Place{"f", 1, 1}, Also: []Place{{"f", 2, 1}},
			Where: Ref{"p", "r", "k", length.Inch, true, []string{"P1"}, "P2", []string{"q"}, []string{"P4"},
				[]string{"C1"}},
			What: "w", Why: "y", Mend: "m",
		}
	}
	changes := []func(*Finding){
		func(f *Finding) { f.Code = "d" },
		func(f *Finding) { f.Where.Part = "P3" },
		func(f *Finding) { f.Severity = Error },
		func(f *Finding) { f.At.Col = 2 },
		func(f *Finding) { f.Also[0].Line = 3 },
		func(f *Finding) { f.Also = nil },
		func(f *Finding) { f.Where.Perimeter = "q" },
		func(f *Finding) { f.Where.Run = "s" },
		func(f *Finding) { f.Where.Runs = []string{"s"} },
		func(f *Finding) { f.Where.Parts = []string{"P5"} },
		func(f *Finding) { f.Where.Chairs = []string{"C2"} },
		func(f *Finding) { f.Follows.Line = 9 },
		func(f *Finding) { f.Where.Corner = "l" },
		func(f *Finding) { f.Where.Station++ },
		func(f *Finding) { f.Where.HasStation = false },
		func(f *Finding) { f.Where.Pieces[0] = "P2" },
		func(f *Finding) { f.What = "x" },
		func(f *Finding) { f.Why = "z" },
		func(f *Finding) { f.Mend = "n" },
	}
	var l List
	l.Append(base(), base())
	l.Append(base())
	if len(l) != 1 {
		t.Fatalf("identical findings are kept %d times", len(l))
	}
	for i, change := range changes {
		f := base()
		change(&f)
		l.Append(f, f)
		if len(l) != i+2 {
			t.Fatalf("change %d: %d findings, want %d", i, len(l), i+2)
		}
	}
}

func TestSort(t *testing.T) {
	want := List{
		{At: Place{"a", 2, 9}, What: "first file"},
		{At: Place{"b", 0, 0}, What: "whole file"},
		{At: Place{"b", 2, 9}, What: "line"},
		{At: Place{"b", 10, 1}, What: "lines are numbers"},
		{At: Place{"b", 10, 2}, Severity: Error, Code: "z", What: "gravest first"},
		{At: Place{"b", 10, 2}, Severity: Hold, Code: "a"},
		{At: Place{"b", 10, 2}, Severity: Hold, Code: "b", What: "as found, 1"},
		{At: Place{"b", 10, 2}, Severity: Hold, Code: "b", What: "as found, 0"},
		{Severity: Error, What: "no place"},
		{Severity: Note, What: "no place"},
	}
	l := slices.Clone(want)
	slices.Reverse(l)
	l[2], l[3] = l[3], l[2] // the tie stays as found
	l.Sort()
	for i := range want {
		if !l[i].equal(want[i]) {
			t.Errorf("%d: got %v, want %v", i, l[i], want[i])
		}
	}
}

func TestSuggest(t *testing.T) {
	known := []string{"turn", "included", "perimeter", "run", "rear_leg", "front_leg", "Gauge"}
	for word, want := range map[string]string{
		"tunr":      "turn",
		"inclded":   "included",
		"includedd": "included",
		"perimetre": "perimeter",
		"runn":      "run",
		"rum":       "run",
		"rear-leg":  "rear_leg",
		"RearLeg":   "rear_leg",
		"fear_leg":  "rear_leg",
		"gauge":     "Gauge",
		"run":       "run",
		"x":         "",
		"":          "",
		"width":     "",
		"corner":    "",
	} {
		if got := Suggest(word, known); got != want {
			t.Errorf("Suggest(%q) = %q, want %q", word, got, want)
		}
	}
	if got := Suggest("bat", []string{"cat", "hat", "bats"}); got != "cat" {
		t.Errorf("of equals the first is meant, got %q", got)
	}
	if got := Suggest("run", nil); got != "" {
		t.Errorf("nothing known suggests %q", got)
	}
}

func TestDistance(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "abc", 3}, {"abc", "", 3}, {"abc", "abc", 0},
		{"abc", "acb", 1}, {"abc", "abd", 1}, {"abc", "ab", 1}, {"abc", "xabc", 1},
		{"kitten", "sitting", 3}, {"ca", "abc", 3}, {"é", "e", 1},
	} {
		if got := distance([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("%q to %q is %d, want %d", c.a, c.b, got, c.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SliceOfN(rapid.RuneFrom([]rune("abc_")), 0, 8)
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b)
		if d != distance(b, a) || (d == 0) != slices.Equal(a, b) {
			t.Fatalf("distance %d is no distance", d)
		}
		if d > max(len(a), len(b)) || d < max(len(a)-len(b), len(b)-len(a)) {
			t.Fatalf("distance %d is out of reach", d)
		}
	})
}
