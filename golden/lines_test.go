package golden

import (
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// wideStill are folders that have lines over 120 columns yet. Whoever wraps the last
// strikes its folder.
var wideStill = []string{
	"cmd/copingset", "cmd/copingset/internal/store", "drawing", "drawing/block", "drawing/dxf",
	"drawing/internal/specimen", "drawing/pdf", "drawing/place", "drawing/view", "drawing/words",
	"layout", "layout/anchor", "layout/assembly", "layout/cap", "layout/crate", "layout/cut",
	"layout/finding", "layout/fold", "layout/internal/published", "layout/job", "layout/job/jobtest",
	"layout/metal", "layout/outline", "layout/plan", "layout/shop", "layout/short", "layout/wall",
	"layout/wall/minimax", "layout/wall/setplane", "layout/wall/slips", "layout/wind",
	"layout/withdrawal", "sheets", "sheets/internal/refold",
}

// Lines are read side by side with others: none is over 120 columns, a tab counted as
// four.
func TestLinesAreShort(t *testing.T) {
	read := 0
	eachLine(t, func(file string, n int, line string) {
		file = strings.TrimPrefix(filepath.ToSlash(file), "../")
		if strings.HasSuffix(file, "_test.go") || slices.Contains(wideStill, path.Dir(file)) {
			return
		}
		read++
		if long := utf8.RuneCountInString(strings.ReplaceAll(line, "\t", "    ")); long > 120 {
			t.Errorf("%s:%d has %d columns", file, n, long)
		}
	})
	if read == 0 {
		t.Error("no line was read")
	}
}
