package length

import "testing"

func TestFeetAndInches(t *testing.T) {
	for _, c := range []struct {
		l            Length
		den          int
		feet, inches string
	}{
		{0, 16, `0'-0"`, `0"`},
		{half, 16, `0'-0 1/2"`, `1/2"`},
		{3*Inch + half, 16, `0'-3 1/2"`, `3 1/2"`},
		{-(3*Inch + half), 16, `-3 1/2"`, `-3 1/2"`},
		{147*Inch + half, 16, `12'-3 1/2"`, `147 1/2"`},
		{-(147*Inch + half), 64, `-12'-3 1/2"`, `-147 1/2"`},
		{Foot, 16, `1'-0"`, `12"`},
		{Inch16, 16, `0'-0 1/16"`, `1/16"`},
		{Inch32, 32, `0'-0 1/32"`, `1/32"`},
		{63 * Inch64, 64, `0'-0 63/64"`, `63/64"`},
		{64 * Inch64, 64, `0'-1"`, `1"`},
		{12 * Inch64, 64, `0'-0 3/16"`, `3/16"`},
		// Carry: the fraction fills the inch, the inch fills the foot.
		{63 * Inch64, 16, `0'-1"`, `1"`},
		{Foot - Inch64, 16, `1'-0"`, `12"`},
		{Foot - Inch16/1000, 16, `1'-0"`, `12"`},
		{-(Foot - Inch64), 16, `-1'-0"`, `-12"`},
		{10*Foot - 1, 64, `10'-0"`, `120"`},
		{Foot - Inch16, 16, `0'-11 15/16"`, `11 15/16"`},
		// Halves go away from zero; below a half there is no negative zero.
		{Inch32, 16, `0'-0 1/16"`, `1/16"`},
		{-Inch32, 16, `-1/16"`, `-1/16"`},
		{-(Foot - Inch16), 16, `-11 15/16"`, `-11 15/16"`},
		{-(Foot - Inch32), 16, `-1'-0"`, `-12"`},
		{Inch32 - 1, 16, `0'-0"`, `0"`},
		{-Inch32 + 1, 16, `0'-0"`, `0"`},
		{half, 1, `0'-1"`, `1"`},
		// The int64 whose negative does not fit: 2^63 nm = 363,124,883,340.74 in.
		{-1 << 63, 16, `-30260406945'-0 3/4"`, `-363124883340 3/4"`},
	} {
		if got := Feet(c.l, c.den); got != c.feet {
			t.Errorf("Feet(%d, %d) = %s, want %s", c.l, c.den, got, c.feet)
		}
		if got := Inches(c.l, c.den); got != c.inches {
			t.Errorf("Inches(%d, %d) = %s, want %s", c.l, c.den, got, c.inches)
		}
	}
}

func TestDecimal(t *testing.T) {
	for _, c := range []struct {
		l      Length
		places int
		want   string
	}{
		{1_270_000, 3, `0.050"`},
		{1_270_000, 4, `0.0500"`},
		{1_270_000, 2, `0.05"`},
		{1_270_000, 1, `0.1"`},
		{-1_270_000, 3, `-0.050"`},
		{0, 3, `0.000"`},
		{-12_699, 3, `0.000"`},
		{12_700, 3, `0.001"`},
		{-12_700, 3, `-0.001"`},
		{147*Inch + half, 0, `148"`},
		{147*Inch + half, 2, `147.50"`},
		{Inch - 1, 3, `1.000"`},
	} {
		if got := Decimal(c.l, c.places); got != c.want {
			t.Errorf("Decimal(%d, %d) = %s, want %s", c.l, c.places, got, c.want)
		}
	}
}

func TestMillimetres(t *testing.T) {
	for _, c := range []struct {
		l      Length
		places int
		want   string
	}{
		{3750 * Millimetre, 0, `3750`},
		{3750 * Millimetre, 1, `3750`},
		{3750*Millimetre + 500_000, 1, `3750.5`},
		{3750*Millimetre + 500_000, 0, `3751`},
		{-(3750*Millimetre + 500_000), 0, `-3751`},
		{3750*Millimetre + 449_999, 1, `3750.4`},
		{3750*Millimetre + 50_000, 2, `3750.05`},
		{999_950_000, 1, `1000`},
		{0, 0, `0`},
		{0, 1, `0`},
		{-49_999, 1, `0`},
		{-50_000, 1, `-0.1`},
		{100 * Millimetre, 2, `100`},
	} {
		if got := Millimetres(c.l, c.places); got != c.want {
			t.Errorf("Millimetres(%d, %d) = %s, want %s", c.l, c.places, got, c.want)
		}
	}
}

func TestString(t *testing.T) {
	for l, want := range map[Length]string{
		0:                `0'-0"`,
		Inch64:           `0'-0 1/64"`,
		127 * Millimetre: `0'-5"`,
		Millimetre:       `1 mm`,
		1:                `0.000001 mm`,
		-Inch64 / 5:      `-0.079375 mm`,
	} {
		if got := l.String(); got != want {
			t.Errorf("%d nm is %s, want %s", int64(l), got, want)
		}
	}
}

func TestStyle(t *testing.T) {
	l := 12*Foot + 3*Inch + 17*Inch32 // 3744.118750 mm
	for _, c := range []struct {
		name                    string
		s                       Style
		step                    Length
		long, short, text, thin string
	}{
		{"zero", Style{}, Inch16, `12'-3 9/16"`, `147 9/16"`, `12'-3 9/16"`, `0.050"`},
		{"crew", Crew(false), Inch16, `12'-3 9/16"`, `147 9/16"`, `12'-3 9/16"`, `0.050"`},
		{"shop", Shop(false), Inch32, `12'-3 17/32"`, `147 17/32"`, `12'-3 17/32"`, `0.050"`},
		{"crew, metric", Crew(true), Millimetre, `3747`, `3747`, `3747 mm`, `1.27`},
		{"shop, metric", Shop(true), Millimetre / 10, `3747.3`, `3747.3`, `3747.3 mm`, `1.27`},
	} {
		if got := c.s.Step(); got != c.step {
			t.Errorf("%s: step %d, want %d", c.name, got, c.step)
		}
		if got := c.s.Round(l); got != RoundTo(l, c.step) {
			t.Errorf("%s: rounded to %d, want %d", c.name, got, RoundTo(l, c.step))
		}
		for _, p := range [][2]string{
			{c.s.Long(l), c.long}, {c.s.Short(l), c.short}, {c.s.InText(l), c.text}, {c.s.Thin(1_270_000), c.thin},
		} {
			if p[0] != p[1] {
				t.Errorf("%s: printed %s, want %s", c.name, p[0], p[1])
			}
		}
	}
}

// A diameter is never brought to a tape.
func TestExact(t *testing.T) {
	for _, c := range []struct {
		metric bool
		l      Length
		want   string
	}{
		{false, 9 * Inch / 32, `9/32"`}, {false, 11 * Inch / 64, `11/64"`}, {false, 242 * Inch / 1000, `0.242"`},
		{false, 5 * Inch / 4, `1 1/4"`}, {true, 63 * Millimetre / 10, "6.3"}, {true, 5 * Inch / 32, "3.969"},
	} {
		for _, s := range []Style{Crew(c.metric), Shop(c.metric)} {
			if got := s.Exact(c.l); got != c.want {
				t.Errorf("%v: %s, want %s", c.l, got, c.want)
			}
		}
	}
}

func TestPrintRefuses(t *testing.T) {
	mustPanic(t, "thirds of an inch", func() { Feet(Inch, 3) })
	mustPanic(t, "no denominator", func() { Inches(Inch, 0) })
	mustPanic(t, "negative places", func() { Decimal(Inch, -1) })
	mustPanic(t, "more decimals than a length has", func() { Millimetres(Inch, 10) })
	mustPanic(t, "a product beyond 64 bits", func() { Millimetres(1<<62, 9) })
}

func mustPanic(t *testing.T, what string, f func()) {
	t.Helper()
	defer func() {
		if recover() == nil {
			t.Errorf("%s: accepted", what)
		}
	}()
	f()
}
