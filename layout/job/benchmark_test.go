package job

import (
	"testing"

	"copingset/layout/length"
)

// A loop closes by the sum of its backsights less the sum of its foresights.
func TestMisclosure(t *testing.T) {
	const in = length.Inch
	for _, c := range []struct {
		name, source string
		loop         LevelLoop
		want         length.Length
	}{
		{"not moved, alike", "rule of levelling: backsights less foresights", LevelLoop{First: 50 * in, Last: 50 * in}, 0},
		{"the rod reads more at the end: the instrument sank or the mark did", "from memory",
			LevelLoop{First: 50 * in, Last: 51 * in}, -in},
		{"three set-ups: 4.12 + 3.51 + 5.07 less 5.83, 2.96 and 3.91, in units of an inch",
			"the arithmetic of any levelling book: 12.70 - 12.70",
			LevelLoop{First: 412 * in, Moves: []Move{{583 * in, 351 * in}, {296 * in, 507 * in}}, Last: 391 * in}, 0},
		{"one digit of a move written wrong shows whole", "common practice, no source",
			LevelLoop{First: 412 * in, Moves: []Move{{583 * in, 361 * in}, {296 * in, 507 * in}}, Last: 391 * in}, 10 * in},
	} {
		if got := c.loop.Misclosure(); got != c.want {
			t.Errorf("%s (%s): %v, want %v", c.name, c.source, got, c.want)
		}
	}
}
