package anchor

import (
	"strings"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
)

// A nailer too thin for thread and tip is told as such: less build-up would not help.
func TestRoomForAScrew(t *testing.T) {
	const in = length.Inch
	f := &job.Fastener{Embedment: 11 * in / 8, Tip: in / 4, Cover: in / 4, Lengths: []length.Length{2 * in, 3 * in}}
	for _, c := range []struct {
		name  string
		depth length.Length
		want  string
	}{
		{"one board", 3 * in / 2, "thicker by 0'-0 3/8\" (10 mm) or more"},
		{"two boards", 3 * in, "reduce the build-up"},
	} {
		if got := roomFor(f, in/8, c.depth); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}
