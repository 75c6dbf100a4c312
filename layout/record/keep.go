package record

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/length"
)

// Span is where a piece lies along its run, as the crew tapes it.
type Span struct{ From, To length.Length }

// Keep gives the pieces of a run their marks: a mark names a place and keeps it,
// whatever its length. was are the places of the last issue and ever all marks that were
// given; format is how the nth is called where none was issued. Pieces keep their order;
// of as many as there are on both sides those lie best over each other. One put in
// between takes the mark before it with the next free letter, and the mark of one that
// is left out is given to no other. back: ties go to the right, in the mirror.
func Keep(format string, was []PieceMark, ever []string, is []Span, back bool) []string {
	out := make([]string, len(is))
	if len(was) == 0 {
		for i := range out {
			out[i] = fmt.Sprintf(format, i+1)
		}
		return out
	}
	spans := make([]Span, len(was))
	for i, p := range was {
		spans[i] = Span{p.From, p.To}
	}
	kept := matched(spans, is, back)
	for i, k := range kept {
		if k >= 0 {
			out[i] = was[k].Mark
		}
	}
	taken := append(slices.Clone(ever), out...)
	before := fmt.Sprintf(format, 0)
	for i := range out {
		if out[i] == "" {
			out[i] = free(before, taken)
			taken = append(taken, out[i])
		}
		before = out[i]
	}
	return out
}

// free is the mark after another one with the next letter that was never given.
func free(before string, taken []string) string {
	base := strings.TrimRight(before, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	for _, first := range append([]string{""}, Suffixes()...) {
		for _, c := range Suffixes() {
			if m := base + first + c; !slices.Contains(taken, m) {
				return m
			}
		}
	}
	panic("record: no letter is left after " + base) // some four hundred pieces in one place
}

// matched pairs as many as there are on both sides, in order: for each of is the index
// among was, or -1. What is shared along the run is the most that it can be; of pairs
// that share nothing the nearest count.
func matched(was, is []Span, back bool) []int {
	if back {
		out := matched(turned(was), turned(is), false)
		slices.Reverse(out)
		for i, k := range out {
			if k >= 0 {
				out[i] = len(was) - 1 - k
			}
		}
		return out
	}
	n, m := len(was), len(is)
	best := make([][]score, n+1)
	for i := range best {
		best[i] = make([]score, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for k := m - 1; k >= 0; k-- {
			s := best[i+1][k+1].and(was[i], is[k])
			for _, o := range []score{best[i+1][k], best[i][k+1]} {
				if o.over(s) {
					s = o
				}
			}
			best[i][k] = s
		}
	}
	out := make([]int, m)
	for k := range out {
		out[k] = -1
	}
	for i, k := 0, 0; i < n && k < m; {
		switch best[i][k] {
		case best[i+1][k+1].and(was[i], is[k]):
			out[k] = i
			i, k = i+1, k+1
		case best[i][k+1]:
			k++
		default:
			i++
		}
	}
	return out
}

// turned is a row of spans from the other end.
func turned(all []Span) []Span {
	out := make([]Span, len(all))
	for i, s := range all {
		out[len(all)-1-i] = Span{-s.To, -s.From}
	}
	return out
}

// score is how well some spans are paired.
type score struct {
	pairs  int
	shared length.Length
	apart  length.Length // of the middles
}

// and is a score with one more pair.
func (s score) and(a, b Span) score {
	shared := max(0, min(a.To, b.To)-max(a.From, b.From))
	return score{s.pairs + 1, s.shared + shared, s.apart + length.Abs(a.From+a.To-b.From-b.To)/2}
}

func (s score) over(o score) bool {
	switch {
	case s.pairs != o.pairs:
		return s.pairs > o.pairs
	case s.shared != o.shared:
		return s.shared > o.shared
	}
	return s.apart < o.apart
}
