package finding

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// few draws findings of so few words that many are alike.
func few() *rapid.Generator[Finding] {
	word := rapid.SampledFrom([]string{"", "A", "B"})
	return rapid.Custom(func(t *rapid.T) Finding {
		f := Finding{Code: word.Draw(t, "code"), Severity: Severity(rapid.IntRange(0, 1).Draw(t, "severity")),
			What: word.Draw(t, "what"),
			At:   Place{File: "a", Line: rapid.IntRange(0, 1).Draw(t, "line")},
			Where: Ref{Perimeter: word.Draw(t, "perimeter"), Run: word.Draw(t, "run"), Part: rapid.SampledFrom([]string{"",
				"", "P"}).Draw(t, "part")}}
		f.Where.Pieces = rapid.SliceOfN(rapid.SampledFrom([]string{"M", "N"}), 0, 2).Draw(t, "pieces")
		return f
	})
}

// A Set gathers what a List does, in the same order.
func TestSetIsAList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l List
		var s Set
		for _, f := range rapid.SliceOf(few()).Draw(t, "findings") {
			l.Append(f)
			s.Append(f)
		}
		if !slices.EqualFunc(l, s.List(), Finding.equal) {
			t.Fatalf("list %v\nset %v", l, s.List())
		}
	})
}

// Codes are what a look at each finding tells.
func TestCodesTouch(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := List(rapid.SliceOf(few()).Draw(t, "findings"))
		name := rapid.SampledFrom([]string{"A", "B", "C"})
		on := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [2]string {
			return [2]string{name.Draw(t, "perimeter"),
				name.Draw(t, "run")}
		}), 1, 2).Draw(t, "on")
		mark := rapid.SampledFrom([]string{"M", "N", "O"}).Draw(t, "mark")
		var want []string
		for _, f := range l {
			touched := slices.ContainsFunc(on, func(r [2]string) bool { return f.Where.TouchesPiece(r[0], r[1], mark) })
			if touched && !slices.Contains(want, f.Code) {
				want = append(want, f.Code)
			}
		}
		if got := NewCodes(l).Touching(mark, on...); !slices.Equal(got, want) {
			t.Fatalf("got %q, want %q", got, want)
		}
	})
}
