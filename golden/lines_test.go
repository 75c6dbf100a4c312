package golden

import (
	"path"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// longLines is how many lines of a folder's code are over 120 columns, a tab counted as
// four; a folder that is not here has none. The numbers may only fall.
var longLines = map[string]int{
	"cmd/copingset": 19,
	"cmd/copingset/internal/store": 6,
	"drawing": 2,
	"drawing/block": 1,
	"drawing/dxf": 4,
	"drawing/internal/specimen": 27,
	"drawing/pdf": 2,
	"drawing/place": 1,
	"drawing/view": 192,
	"drawing/words": 1,
	"layout": 180,
	"layout/anchor": 53,
	"layout/assembly": 2,
	"layout/cap": 57,
	"layout/crate": 5,
	"layout/cut": 1,
	"layout/finding": 1,
	"layout/fold": 10,
	"layout/internal/published": 1,
	"layout/job": 229,
	"layout/job/jobtest": 21,
	"layout/metal": 3,
	"layout/outline": 41,
	"layout/plan": 7,
	"layout/shop": 99,
	"layout/short": 3,
	"layout/wall": 70,
	"layout/wall/minimax": 1,
	"layout/wall/setplane": 3,
	"layout/wall/slips": 1,
	"layout/wind": 10,
	"layout/withdrawal": 1,
	"sheets": 120,
	"sheets/internal/refold": 20,
}

// Lines are read side by side with others: none is over 120 columns.
func TestLinesAreShort(t *testing.T) {
	found := map[string]int{}
	last := map[string]string{}
	eachLine(t, func(file string, n int, line string) {
		file = strings.TrimPrefix(filepath.ToSlash(file), "../")
		if strings.HasSuffix(file, "_test.go") || utf8.RuneCountInString(strings.ReplaceAll(line, "\t", "    ")) <= 120 {
			return
		}
		found[path.Dir(file)]++
		last[path.Dir(file)] = file
	})
	for dir, n := range found {
		if n > longLines[dir] {
			t.Errorf("%s has %d lines over 120 columns (the last in %s), and %d are excused", dir, n, last[dir], longLines[dir])
		}
	}
}
