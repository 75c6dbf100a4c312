package layout_test

import (
	"testing"

	"copingset/layout/length/draws"

	"pgregory.net/rapid"
)

// check draws a random test: a whole layout is solved for every draw, so there
// are fewer of them than of other properties.
func check(t *testing.T, prop func(*rapid.T)) {
	t.Helper()
	draws.Check(t, 50, prop)
}
