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
		{"38.2 psf (1.83 kPa) allowable", "1.83 kPa (38.2 psf) allowable"},
		{"2.4 to 210 psf (0.11 to 10.1 kPa) at the allowable level", "0.11 to 10.1 kPa (2.4 to 210 psf) at the allowable level"},
		{"115 mph (51.4 m/s)", "51.4 m/s (115 mph)"},
		{"parapets of 3 ft (0.9 m) and over", "parapets of 0.9 m (3 ft) and over"},
		{"51 lb (23 kg), +3/8 in (9.5 mm)", "23 kg (51 lb), +9.5 mm (3/8 in)"},
		{"0.83 kPa (17.3 psf)", "0.83 kPa (17.3 psf)"},
	} {
		if got := Metric.InUnits(c.text); got != c.want {
			t.Errorf("%q: %q, want %q", c.text, got, c.want)
		}
		if got := Imperial.InUnits(c.text); got != c.text {
			t.Errorf("%q was changed to %q", c.text, got)
		}
	}
}

func TestOwnUnits(t *testing.T) {
	text := "each leg is " + Both(430*length.Millimetre) + " and the branch " + Both(390*length.Millimetre) + " long"
	if got, want := Metric.OwnUnits(text), "each leg is 430 mm and the branch 390 mm long"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := Imperial.OwnUnits(text), `each leg is 1'-4 15/16" and the branch 1'-3 3/8" long`; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What is stated finer than a tape reads is lettered so in its own system.
func TestBothKeepsWhatIsStated(t *testing.T) {
	for _, c := range []struct {
		l    length.Length
		want string
	}{
		{9 * length.Inch / 32, `0'-0 9/32" (7 mm)`}, {5 * length.Inch / 16, `0'-0 5/16" (8 mm)`},
		{19 * length.Inch / 64, `0'-0 19/64" (8 mm)`}, {63 * length.Millimetre / 10, `0'-0 1/4" (6.3 mm)`},
		{3 * length.Millimetre / 2, `0'-0 1/16" (1.5 mm)`}, {10 * length.Foot, `10'-0" (3048 mm)`},
		{10*length.Foot + length.Inch/32, `10'-0 1/16" (3049 mm)`}, {12345678, `0'-0 1/2" (12 mm)`},
	} {
		if got := Both(c.l); got != c.want {
			t.Errorf("%v letters %s, want %s", c.l, got, c.want)
		}
	}
	if got := Metric.InUnits(Both(9 * length.Inch / 32)); got != `7 mm (0'-0 9/32")` {
		t.Errorf("for a metric reader: %s", got)
	}
}
