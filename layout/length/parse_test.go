package length

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const half = Inch / 2

func TestParse(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Length
	}{
		{`12'-3 1/2"`, 12*Foot + 3*Inch + half},
		{`12' 3-1/2"`, 12*Foot + 3*Inch + half},
		{`12'-3-1/2"`, 12*Foot + 3*Inch + half},
		{`12'3 1/2"`, 12*Foot + 3*Inch + half},
		{`12' - 3 1/2"`, 12*Foot + 3*Inch + half},
		{`12′-3½″`, 12*Foot + 3*Inch + half},
		{`12’–3 1⁄2”`, 12*Foot + 3*Inch + half},
		{`12'-3 1/2''`, 12*Foot + 3*Inch + half},
		{`12 ft 3 1/2 in`, 12*Foot + 3*Inch + half},
		{`12ft3.5in`, 12*Foot + 3*Inch + half},
		{`12 FEET 3.5 Inches`, 12*Foot + 3*Inch + half},
		{`12'`, 12 * Foot},
		{`12'-0"`, 12 * Foot},
		{`12'-1/2"`, 12*Foot + half},
		{`12'-0 1/2"`, 12*Foot + half},
		{`0'-3 1/2"`, 3*Inch + half},
		{`3 1/2"`, 3*Inch + half},
		{`3-1/2"`, 3*Inch + half},
		{`3½"`, 3*Inch + half},
		{`½ in.`, half},
		{`147.5"`, 147*Inch + half},
		{`147 1/2 in`, 147*Inch + half},
		{`12.25 ft`, 147 * Inch},
		{`12 1/4 ft`, 147 * Inch},
		{`1/3 ft`, 4 * Inch},
		{`5/4"`, Inch + Inch/4},
		{`63/64"`, 63 * Inch64},
		{`3/10 in`, 7_620_000},
		{`0.050"`, 1_270_000},
		{`.050"`, 1_270_000},
		{`3750 mm`, 3750 * Millimetre},
		{`3750mm`, 3750 * Millimetre},
		{"3750\u00a0mm", 3750 * Millimetre},
		{`3.75 m`, 3750 * Millimetre},
		{`3,75 m`, 3750 * Millimetre},
		{`0,125 m`, 125 * Millimetre},
		{`3,7505 m`, 3_750_500_000},
		{`37.5 cm`, 375 * Millimetre},
		{`2 metres`, 2 * Metre},
		{`100000 m`, Most},
		{`-3 1/2"`, -(3*Inch + half)},
		{`−0'-3 1/2"`, -(3*Inch + half)},
		{`- 5 mm`, -5 * Millimetre},
		{`+1/4"`, Inch / 4},
		{` 0 `, 0},
		{`-0`, 0},
		{`0.0`, 0},
		{`0"`, 0},
		{`0'-0"`, 0},
		// Decimals finer than a nanometre: to the nearest, a half away from zero.
		{`0.0000005 mm`, 1},
		{`-0.0000005 mm`, -1},
		{`0.0000004999 mm`, 0},
		{`0.0000015 mm`, 2},
		{`0.00000001"`, 0}, // 0.254 nm
		{`0.1234567891"`, 3_135_802},
	} {
		got, err := Parse(c.in)
		if err != nil || got != c.want {
			t.Errorf("Parse(%q) = %d, %v, want %d", c.in, got, err, c.want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{``, `empty: write a length such as 24" or 610 mm`},
		{`  `, `empty`},
		{`24`, `24 needs a unit: write 24", 24' or 24 mm`},
		{`-24`, `24 needs a unit`},
		{`3 1/2`, `3 1/2 needs a unit: write 3 1/2" or 3 1/2'`},
		{`12'-3 1/2`, `3 1/2 after feet needs the inch mark: write 3 1/2"`},
		{`12'-0`, `0 after feet needs the inch mark: write 0"`},
		{`12'-15"`, `15" after feet is a foot or more`},
		{`12'-12"`, `12" after feet is a foot or more`},
		{`12.5'-3"`, `12.5' is not whole feet`},
		{`12'-300 mm`, `300 mm after feet needs inches`},
		{`12'-3'`, `3' after feet needs inches`},
		{`12'-3"-1/2"`, `unclear after 3"`},
		{`3" 4"`, `unclear after 3"`},
		{`3 mm 4`, `unclear after 3 mm`},
		{`3 m 40 cm`, `unclear after 3 m`},
		{`3 cm 4`, `unclear after 3 cm`},
		{`0 3"`, `unclear after 0`},
		{`0 1/2 1/2"`, `unclear after 0 1/2`},
		{`3.5, mm`, `3.5, is no number`},
		{`3,, mm`, `3,, is no number`},
		{`12-3"`, `unclear after 12`},
		{`3 - 1/2"`, `unclear after 3`},
		{`3 750 mm`, `unclear after 3`},
		{`1 / 2"`, `unclear after 1`},
		{`1/2/3"`, `unclear after 1/2`},
		{`3 1/2 mm`, `3 1/2 is a fraction in a metric unit: write a decimal`},
		{`1/0"`, `1/0 divides by zero`},
		{`3 1/0"`, `1/0 divides by zero`},
		{`3 1/15"`, `3 1/15: no tape has 1/15 of an inch`},
		{`1/128"`, `no tape has 1/128`},
		{`3 5/4"`, `3 5/4 is no mixed number`},
		{`3 4/4"`, `3 4/4 is no mixed number`},
		{`1.5 1/2"`, `1.5 1/2 is no mixed number`},
		{`1.5/2"`, `1.5/2 is no fraction`},
		{`1/2.5"`, `1/2.5 is no fraction`},
		{`1/10000"`, `1/10000 is no fraction`},
		{`3,750 mm`, `3,750 can be read as 3.750 or 3750: write one of them`},
		{`12,125"`, `12,125 can be read as`},
		{`3.750,5 mm`, `3.750,5 is no number`},
		{`1.2.3 mm`, `1.2.3 is no number`},
		{`3. mm`, `3. is no number`},
		{`3, mm`, `3, is no number`},
		{`--3"`, `a number is missing before "-"`},
		{`-`, `a number is missing before the end`},
		{`12'-`, `a number is missing before the end`},
		{`mm`, `a number is missing before "mm"`},
		{`"`, `a number is missing before "\""`},
		{`3 yd`, `"yd" is not a unit: write in, ft, mm, cm or m`},
		{`1e3 mm`, `"e" is not a unit`},
		{`24 x 36"`, `"x" is not a unit`},
		{`٣ mm`, `"٣" is not a unit`},
		{"3\xff mm", `is not a unit`},
		{`100000.000001 m`, `longer than 100 km: check the number and its unit`},
		{`-100001 m`, `longer than 100 km`},
		{`99999999999999999999999999 mm`, `longer than 100 km`},
		{strings.Repeat("1", 61) + " mm", `too many characters`},
	} {
		got, err := Parse(c.in)
		if err == nil {
			t.Errorf("Parse(%q) = %d, want error %q", c.in, got, c.want)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("Parse(%q): %v, want %q", c.in, err, c.want)
		} else if got != 0 {
			t.Errorf("Parse(%q) gives %d beside its error", c.in, got)
		}
	}
}

func TestParseIn(t *testing.T) {
	for _, c := range []struct {
		in   string
		unit Length
		want Length
	}{
		{`12.5`, Inch, 12*Inch + half},
		{`3 1/2`, Inch, 3*Inch + half},
		{`-1/4`, Inch, -Inch / 4},
		{`12.5`, Millimetre, 12_500_000},
		{`2`, Foot, 2 * Foot},
		{`0`, Foot, 0},
		{`10 mm`, Inch, 10 * Millimetre}, // what is written stands over the heading
		{`1'-2"`, Millimetre, 14 * Inch},
	} {
		got, err := ParseIn(c.in, c.unit)
		if err != nil || got != c.want {
			t.Errorf("ParseIn(%q, %v) = %d, %v, want %d", c.in, c.unit, got, err, c.want)
		}
	}
	for _, c := range []struct {
		in   string
		unit Length
		want string
	}{
		{`3 1/2`, Millimetre, `fraction in a metric unit`},
		{`12 3"`, Foot, `unclear after 12`},
		{`12'-3`, Inch, `3 after feet needs the inch mark`},
		{`5`, 0, `no unit`},
		{``, Inch, `empty`},
	} {
		if got, err := ParseIn(c.in, c.unit); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("ParseIn(%q, %v) = %d, %v, want error %q", c.in, c.unit, got, err, c.want)
		}
	}
}

func TestParseUnit(t *testing.T) {
	for in, want := range map[string]Length{
		"in": Inch, " IN. ": Inch, `"`: Inch, "″": Inch, "ft": Foot, "'": Foot, "feet": Foot,
		"mm": Millimetre, "cm": Centimetre, "m": Metre, "meters": Metre,
	} {
		if got, err := ParseUnit(in); err != nil || got != want {
			t.Errorf("ParseUnit(%q) = %v, %v, want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"", "km", "yd", "3 in", "i n"} {
		if got, err := ParseUnit(in); err == nil || !strings.Contains(err.Error(), "write in, ft, mm, cm or m") {
			t.Errorf("ParseUnit(%q) = %v, %v, want an error that lists the units", in, got, err)
		}
	}
}

// whatIsPrinted checks that every printed form of l is read back as l rounded
// to the grid it was printed on.
func whatIsPrinted(t interface {
	Errorf(string, ...any)
}, l Length) {
	read := func(s string, want Length) {
		if got, err := Parse(s); err != nil || got != want {
			t.Errorf("%d nm printed as %s is read as %d, %v, want %d", l, s, got, err, want)
		}
	}
	for _, den := range []int{1, 2, 4, 8, 16, 32, 64} {
		want := RoundTo(l, Inch/Length(den))
		read(Feet(l, den), want)
		read(Inches(l, den), want)
	}
	for places, step := range []Length{Inch, Inch / 10, Inch / 100, Inch / 1000, Inch / 10_000} {
		read(Decimal(l, places), RoundTo(l, step))
	}
	step := Millimetre
	for places := range 7 {
		read(Millimetres(l, places)+" mm", RoundTo(l, step))
		step /= 10
	}
	read(l.String(), l)
}

func TestReadBack(t *testing.T) {
	for _, l := range []Length{0, 1, -1, Inch64, -Inch64, Foot - 1, 1 - Foot, Foot, 127 * Millimetre, Most - Inch, Inch - Most} {
		whatIsPrinted(t, l)
	}
	rapid.Check(t, func(t *rapid.T) {
		whatIsPrinted(t, anyLength(t, "length"))
	})
}

// anyLength draws building lengths, whole sixteenths and halves of steps as
// often as arbitrary ones, since those are where rounding goes wrong.
func anyLength(t *rapid.T, name string) Length {
	unit := rapid.SampledFrom([]Length{Nanometre, Inch64 / 5, Inch32 / 2, Inch16, Inch, Foot, Millimetre / 2}).Draw(t, name+" unit")
	reach := int64((Most - Foot) / unit)
	if rapid.Bool().Draw(t, name+" short") {
		reach = min(reach, 1000)
	}
	return unit * Length(rapid.Int64Range(-reach, reach).Draw(t, name+" count"))
}

// FuzzParse: nothing a person can type may panic, and what is read is a length
// that prints and reads back.
func FuzzParse(f *testing.F) {
	for _, s := range []string{`12'-3 1/2"`, `147.5"`, `3,75 m`, `-0'-3½″`, `0`, `3,750 mm`, `1/0"`, `--`, `12'-`, "\xff", `1e9 m`, `.5 ft`} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := Parse(s)
		if err != nil {
			if l != 0 || err.Error() == "" {
				t.Fatalf("Parse(%q) = %d with error %q", s, l, err)
			}
		} else {
			if Abs(l) > Most {
				t.Fatalf("Parse(%q) = %d, beyond the most", s, l)
			}
			if Abs(l) < Most-Inch { // at the very end rounding up to a step passes the most
				whatIsPrinted(t, l)
			}
		}
		in, errIn := ParseIn(s, Millimetre)
		if err == nil && (errIn != nil || in != l) {
			t.Fatalf("%q is %d alone, but %d, %v in a column of millimetres", s, l, in, errIn)
		}
	})
}
