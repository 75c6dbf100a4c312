package job

import (
	"strings"
	"testing"
	"testing/fstest"
)

// A confirmation of the form before goes behind a #, whatever its style; one of
// today's with its code stays.
func TestMigratedConfirmation(t *testing.T) {
	for _, c := range []struct{ name, old, want string }{
		{"block", "wind:\n  kzt: 1.0\n  confirmed:   # by letter\n    by: A\n    corner_up: 2 kPa strength\nsite:\n  x: 1\n",
			"wind:\n  kzt: 1.0\n  # confirmed:   # by letter\n  #   by: A\n  #   corner_up: 2 kPa strength\nsite:\n  x: 1\n"},
		{"on one line", "wind:\n  confirmed: {by: A, corner_up: 2 kPa strength}\n  kzt: 1.0\n", "wind:\n  # confirmed: {by: A, corner_up: 2 kPa strength}\n  kzt: 1.0\n"},
		{"with its code", "wind:\n  confirmed:\n    code: AAAAA-BBBBB\n", "wind:\n  confirmed:\n    code: AAAAA-BBBBB\n"},
		{"elsewhere", "other:\n  confirmed:\n    corner_up: 1\n", "other:\n  confirmed:\n    corner_up: 1\n"},
	} {
		m, found := Migrate(fstest.MapFS{"job.yaml": {Data: []byte("format: copingset/1\n" + c.old)}}, "job.yaml")
		if len(found) > 0 {
			t.Errorf("%s: %v", c.name, found)
			continue
		}
		if got := string(m.Text); got != "format: copingset/2\n"+c.want {
			t.Errorf("%s:\n%s", c.name, got)
		}
		if moved := strings.Contains(c.want, "# confirmed") || strings.Contains(c.want, "#   by"); moved != (len(m.Unsure) > 0) {
			t.Errorf("%s: a person is to look at %v", c.name, m.Unsure)
		}
	}
}
