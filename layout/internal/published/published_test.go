package published

import (
	"maps"
	"slices"
	"testing"
)

// How many cases from outside the computing packages claim, which Run of each
// holds them to.
func TestCounts(t *testing.T) {
	total := 0
	for _, pkg := range slices.Sorted(maps.Keys(claims())) {
		c := claims()[pkg]
		total += c.outside - c.shared
		none := 0
		for _, r := range c.rules {
			if r.none != "" {
				none++
				t.Logf("%s: no case from outside: %s (%s)", pkg, r.name, r.none)
			}
		}
		t.Logf("%s: %d cases from outside, %d of them counted elsewhere; %d rules, %d of them without one", pkg, c.outside,
			c.shared, len(c.rules), none)
	}
	t.Logf("in all: %d cases from outside", total)
	if total < 150 {
		t.Errorf("%d cases from outside", total)
	}
}

// The audit sees what it is for.
func TestAudit(t *testing.T) {
	table := From("a book", "table 1")
	many := func(n int, s Source) []entry {
		var out []entry
		for i := range n {
			out = append(out, entry{"some rule", s, "row", float64(i) + 0.5, false})
		}
		return out
	}
	by, of := count(many(9, table), nil)
	if by[Outside] != PerTable || of["some rule"] != PerTable {
		t.Errorf("%d of nine rows of one table count", by[Outside])
	}
	by, _ = count(many(3, table), map[float64]bool{1.5: true})
	if by[Outside] != 2 {
		t.Errorf("a figure that stands in the code counts: %d", by[Outside])
	}
	if by, _ = count(append(many(2, table), many(2, table)...), nil); by[Outside] != 2 {
		t.Errorf("a case that is run twice counts twice: %d", by[Outside])
	}
	if by, _ = count(many(4, ByHand("formula")), nil); by[Outside] != 0 || by[Derived] != 4 {
		t.Errorf("%v", by)
	}
	if w := audit("layout/nowhere", nil, nil); len(w) != 1 {
		t.Errorf("an unknown package passes: %v", w)
	}
	if w := audit("layout/wind", many(1, Source{}), nil); len(w) < 3 {
		t.Errorf("no source, no claim, an unlisted rule: %v", w)
	}
	own := literals(".")
	if !own[PerTable] || own[150] {
		t.Errorf("literals of this package: %v", own)
	}
}
