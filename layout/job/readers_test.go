package job

import (
	"testing"

	"copingset/layout/length"
)

func TestMillimetresFirst(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"play is " + Both(5*length.Millimetre) + ", the job asks for " + Both(313*length.Millimetre), `play is 5 mm (0'-0 3/16"), the job asks for 313 mm (1'-0 5/16")`},
		{Both(-3 * length.Millimetre), `-3 mm (-1/8")`},
		{`0.019" (0.48 mm)`, `0.48 mm (0.019")`},
		{`write 12" or (313 mm)`, `write 12" or (313 mm)`},
		{"no length", "no length"},
	} {
		if got := Metric.InUnits(c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
		if got := Imperial.InUnits(c.text); got != c.text {
			t.Errorf("%q was changed to %q", c.text, got)
		}
	}
}
