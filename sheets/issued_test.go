package sheets

import (
	"slices"
	"testing"

	"copingset/drawing"
	"copingset/layout/record"
)

// A sentence whose lines break elsewhere says nothing new; a number that changed does.
func TestSaidByBreaks(t *testing.T) {
	said := func(fact string, lines ...string) []string {
		var out []string
		for _, w := range lines {
			out = append(out, saidBy(drawing.Text{Words: w, Fact: fact})...)
		}
		return out
	}
	tests := []struct {
		name, fact string
		was, is    []string
		fresh      int
	}{
		{"short last line", "", []string{"stainless wood screw, hex", "washer head, 0.242″"},
			[]string{"stainless wood", "screw, hex washer", "head, 0.242″"}, 0},
		{"fraction at a break", "", []string{"toward the roof; most", "5/8″ toward the roof"},
			[]string{"roof; most 5/8″ toward", "the roof"}, 0},
		{"one word left", "E.chairs", []string{"between joints"}, []string{"between", "joints"}, 0},
		{"another fraction", "E-03.length", []string{"9′-8 13/16″"}, []string{"9′-8 11/16″"}, 1},
		{"a cell whose number stands elsewhere", "", []string{"lay 11", "lay 12", "12 pieces of 9"}, []string{"lay 9"}, 1},
	}
	for _, q := range tests {
		t.Run(q.name, func(t *testing.T) {
			was, fresh := said(q.fact, q.was...), 0
			for _, d := range said(q.fact, q.is...) {
				if !slices.Contains(was, d) {
					fresh++
				}
			}
			if fresh != q.fresh {
				t.Errorf("%d parts are new, want %d", fresh, q.fresh)
			}
		})
	}
}

// Of the sheets that changed the letter names those on which no cloud shows it.
func TestBare(t *testing.T) {
	for _, q := range []struct {
		deltas map[string]string
		want   bool
	}{{nil, false}, {map[string]string{}, true}, {map[string]string{"a": "B"}, true},
		{map[string]string{"a": "B", "b": "C"}, false}} {
		if got := bare(record.Sheet{Rev: "C", Deltas: q.deltas}); got != q.want {
			t.Errorf("%v: %v, want %v", q.deltas, got, q.want)
		}
	}
}
