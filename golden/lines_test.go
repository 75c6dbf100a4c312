package golden

import (
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// Lines are read side by side with others: none is over 120 columns, a tab counted as
// four.
func TestLinesAreShort(t *testing.T) {
	read := 0
	eachLine(t, func(file string, n int, line string) {
		file = strings.TrimPrefix(filepath.ToSlash(file), "../")
		if strings.HasSuffix(file, "_test.go") {
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
