package sheets

import (
	"slices"
	"testing"

	"copingset/drawing"
	"copingset/layout/fact"
)

// What a view joins to name the facts of a mark is parted as the ledger joins it.
func TestFactsOfAMarkAreParted(t *testing.T) {
	for _, names := range [][]string{nil, {""}, {"N-C7.station"}, {"N-C7.station", "", "N-J1.gap"}} {
		got := drawing.FactNames(names...)
		want := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "" })
		if got != fact.Names(names...) || !slices.Equal(fact.Parted(got), want) && len(want) > 0 {
			t.Errorf("%q are joined as %q", names, got)
		}
	}
}
