package job

import (
	"math"
	"os"
	"strings"
	"testing"

	"copingset/layout/finding"
)

// scalar is a text, what it reads as, or the code and a part of the message.
type scalar[T any] struct {
	text string
	want T
	code string
	says string
}

func testScalar[T comparable](t *testing.T, name string, parse func(string) (T, error), tests []scalar[T]) {
	t.Helper()
	for _, tt := range tests {
		got, err := parse(tt.text)
		if tt.code == "" {
			if err != nil || got != tt.want {
				t.Errorf("%s %q: got %v, %v; want %v", name, tt.text, got, err, tt.want)
			}
			continue
		}
		if err == nil {
			t.Errorf("%s %q: got %v; want an error %s", name, tt.text, got, tt.code)
			continue
		}
		p := faultOf(err, "", "")
		if p.code != tt.code || !strings.Contains(p.what+"; "+p.mend, tt.says) {
			t.Errorf("%s %q: got %+v; want %s %s", name, tt.text, *p, tt.code, tt.says)
		}
	}
}

func TestTurn(t *testing.T) {
	testScalar(t, "turn", ParseTurn, []scalar[Angle]{
		{text: "right 45", want: 45 * Degree},
		{text: "left 89.75", want: -89_750_000},
		{text: "90 Right", want: 90 * Degree},
		{text: "right 90°", want: 90 * Degree},
		{text: "right 90 deg", want: 90 * Degree},
		{text: "right 174.999999", want: 174_999_999},
		{text: "right 0.000001", want: 1},
		{text: "45", code: "angle-bare", says: "`turn: right 45` (or left)"},
		{text: "-45.5", code: "angle-bare", says: "`included: 45.5 outside`"},
		{text: "right 175", code: "angle-range"},
		{text: "right 0", code: "angle-range"},
		{text: "right -45", code: "angle-range", says: "has a sign"},
		{text: "right left 45", code: "value-angle", says: "twice"},
		{text: "outside 45", code: "value-angle"},
		{text: "right", code: "value-angle"},
		{text: "right 45 30", code: "value-angle"},
		{text: "lefft 45", code: "value-angle", says: "did you mean left?"},
		{text: "", code: "value-angle"},
	})
}

// The turn and the included angle add up to 180 degrees on either side.
func TestIncluded(t *testing.T) {
	testScalar(t, "included", ParseIncluded, []scalar[Angle]{
		{text: "135 outside", want: 45 * Degree},
		{text: "outside 135", want: 45 * Degree},
		{text: "135 inside", want: -45 * Degree},
		{text: "90 outside", want: 90 * Degree},
		{text: "5.000001 inside", want: -174_999_999},
		{text: "135", code: "angle-bare", says: "`turn: right 135`"},
		{text: "180 outside", code: "angle-range", says: "does not turn"},
		{text: "225 inside", code: "angle-range", says: "less than 180"},
		{text: "5 outside", code: "angle-range", says: "back along itself"},
		{text: "0 outside", code: "angle-range"},
		{text: "-90 inside", code: "angle-range", says: "has a sign"},
		{text: "135 right", code: "value-angle"},
	})
}

func TestSlope(t *testing.T) {
	testScalar(t, "slope", ParseSlope, []scalar[Slope]{
		{text: `1/2" in 12"`, want: 41_666_667},
		{text: "1/2 in in 12 in", want: 41_666_667},
		{text: `1/4" in 1'`, want: 20_833_333},
		{text: "20 mm in 1 m", want: 20_000_000},
		{text: "1:24", want: 41_666_667},
		{text: "4%", want: 40_000_000},
		{text: "2.5 %", want: 25_000_000},
		{text: "45 deg", want: 1_000_000_000},
		{text: "0%", want: 0},
		{text: "0 deg", want: 0},
		{text: "2.4", code: "value-slope"},
		{text: "1:0", code: "value-slope"},
		{text: "-4%", code: "value-slope"},
		{text: "-2 deg", code: "value-slope"},
		{text: "46 deg", code: "value-slope"},
		{text: "1 in 24", code: "value-slope"},
		{text: "2:1", code: "value-slope"},
		{text: `1/2" in 0"`, code: "value-slope"},
		{text: "", code: "value-slope"},
	})
}

func TestTemperature(t *testing.T) {
	testScalar(t, "temperature", ParseTemperature, []scalar[Temperature]{
		{text: "68 F", want: 20_000},
		{text: "32F", want: 0},
		{text: "-40 °F", want: -40_000},
		{text: "−10 F", want: -23_333},
		{text: "65.5 C", want: 65_500},
		{text: "68", code: "value-temperature", says: "F or C"},
		{text: "300 K", code: "value-temperature"},
		{text: "600 F", code: "value-temperature", says: "no temperature of a roof"},
		{text: "warm", code: "value-temperature"},
	})
}

func TestAngle(t *testing.T) {
	testScalar(t, "angle", ParseAngle, []scalar[Angle]{
		{text: "35", want: 35 * Degree},
		{text: "1.5 deg", want: 1_500_000},
		{text: ".5", want: 500_000},
		{text: "0.0000004", want: 0},
		{text: "35 rad", code: "value-angle"},
		{text: "35,5", code: "value-angle"},
		{text: "361", code: "value-angle"},
		{text: "1e99", code: "value-angle"},
	})
}

func TestDate(t *testing.T) {
	testScalar(t, "date", ParseDate, []scalar[Date]{
		{text: "2026-03-16", want: Date{2026, 3, 16}},
		{text: "2028-02-29", want: Date{2028, 2, 29}},
		{text: "2000-02-29", want: Date{2000, 2, 29}},
		{text: "2100-02-29", code: "value-date"},
		{text: "2026-02-29", code: "value-date"},
		{text: "2026-04-31", code: "value-date"},
		{text: "2026-13-01", code: "value-date"},
		{text: "2026-3-16", code: "value-date"},
		{text: "16.03.2026", code: "value-date"},
		{text: "20 6-03-16", code: "value-date"},
	})
}

func TestNumbers(t *testing.T) {
	testScalar(t, "money", parseMoney, []scalar[int64]{
		{text: "14.50", want: 14_500}, {text: "0", want: 0}, {text: "1e3", want: 1_000_000},
		{text: "$14", code: "value-money"}, {text: "-1", code: "value-money"}, {text: "14,50", code: "value-money"},
	})
	testScalar(t, "percent", parsePercent, []scalar[int]{
		{text: "55%", want: 550}, {text: "33.3 %", want: 333}, {text: "0%", want: 0}, {text: "100%", want: 1000},
		{text: "55", code: "value-percent"}, {text: "100.1%", code: "value-percent"}, {text: "-1%", code: "value-percent"},
	})
	testScalar(t, "count", parseCount, []scalar[int]{
		{text: "2", want: 2}, {text: "100", want: 100}, {text: "010", want: 10},
		{text: "0", code: "value-count"}, {text: "2.5", code: "value-count"}, {text: "-2", code: "value-count"}, {text: "0x10", code: "value-count"},
		{text: "1_000", code: "value-count"},
	})
	testScalar(t, "factor", parseFactor, []scalar[float64]{
		{text: "2.0", want: 2}, {text: "1", want: 1}, {text: "0.99", code: "value-factor"}, {text: "200%", code: "value-factor"}, {text: "NaN", code: "value-factor"},
	})
	testScalar(t, "expansion", parseExpansion, []scalar[int64]{
		{text: "12.9e-6 /F", want: 23_220}, // 12.9 × 1.8
		{text: "23.2e-6/C", want: 23_200}, {text: "22E-6 per K", want: 22_000}, {text: "12.9e-6 /°F", want: 23_220},
		{text: "12.9e-6", code: "value-expansion", says: "per which degree"}, {text: "12.9 /F", code: "value-expansion"}, {text: "1e-9 /C", code: "value-expansion"},
	})
	testScalar(t, "mass", parseMass, []scalar[int64]{
		{text: "50 lb", want: 22_680}, {text: "400 lbs", want: 181_437}, {text: "23 kg", want: 23_000}, {text: "500g", want: 500},
		{text: "50", code: "value-weight"}, {text: "0 kg", code: "value-weight"}, {text: "-5 kg", code: "value-weight"},
	})
}

// Conversions against published factors.
func TestPublishedUnits(t *testing.T) {
	tests := []struct {
		what, text string
		want       float64
		digits     float64 // as many as the source prints
		source     string
	}{
		{"density", "0.1 lb/in3", 2767.990, 5e-3, "from memory of NIST SP 811 (2008) B.8: pound per cubic inch = 2.767990 E+04 kg/m3"},
		{"density", "100 lb/ft3", 1601.846, 5e-3, "from memory of NIST SP 811 (2008) B.8: pound per cubic foot = 1.601846 E+01 kg/m3"},
		{"pressure", "1 psf allowable", 47.88026, 5e-6, "from memory of NIST SP 811 (2008) B.8: pound-force per square foot = 4.788026 E+01 Pa"},
		{"pressure", "1 lb/ft² allowable", 47.88026, 5e-6, "from memory of NIST SP 811 (2008) B.8: pound-force per square foot = 4.788026 E+01 Pa"},
	}
	for _, tt := range tests {
		var got float64
		var err error
		if tt.what == "density" {
			got, err = parseDensity(tt.text)
		} else {
			var p Pressure
			p, err = ParsePressure(tt.text)
			got = p.Pa
		}
		if err != nil || math.Abs(got-tt.want) > tt.digits {
			t.Errorf("%s: got %v, %v; want %v (%s)", tt.text, got, err, tt.want, tt.source)
		}
	}
}

func TestPressure(t *testing.T) {
	testScalar(t, "pressure", ParsePressure, []scalar[Pressure]{
		{text: "1.25 kPa strength", want: Pressure{1250, Strength}},
		{text: "1250 Pa Allowable", want: Pressure{1250, Allowable}},
		{text: "1250Pa as-pulled", want: Pressure{1250, AsPulled}},
		{text: "as pulled 1.25 kPa", want: Pressure{1250, AsPulled}},
		{text: "strength 1250 Pa", want: Pressure{1250, Strength}},
		{text: "26 psf", code: "level-missing", says: "`26 psf strength` or `26 psf allowable`"},
		{text: "26 allowable", code: "value-pressure"},
		{text: "26", code: "value-pressure"},
		{text: "allowable", code: "value-pressure"},
		{text: "26 psf alowable", code: "value-level", says: "did you mean `allowable`?"},
		{text: "26 psf strength allowable", code: "value-level"},
		{text: "-26 psf allowable", code: "value-pressure", says: "without a sign"},
		{text: "0 psf allowable", code: "value-pressure"},
		{text: "26 kips allowable", code: "value-pressure"},
		{text: "260 kPa strength", code: "value-pressure"},
	})
}

// The examples that messages give must themselves be readable.
func TestExamples(t *testing.T) {
	table := newKeyTable()
	reader := func() *decoder {
		return &decoder{file: "x", keys: table, counts: map[string]int{}, places: map[string]finding.Place{}, typed: map[string]string{}}
	}
	var files []*node
	for _, file := range []string{"every-key.yaml", "base.yaml", "heron.yaml"} {
		data, err := os.ReadFile("testdata/good/" + file)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, treeOf(reader(), string(data)))
	}
	for _, k := range Keys() {
		if k.Example == "" {
			continue
		}
		example := treeOf(reader(), "k: "+k.Example).field("k").value
		tried := false
		for _, root := range files {
			places := fieldsAt(root, "", k.Path)
			if len(places) == 0 {
				continue
			}
			tried = true
			var before []*node
			for _, f := range places {
				before, f.value = append(before, f.value), example
			}
			d := reader()
			d.decode(root)
			for i, f := range places {
				f.value = before[i]
			}
			for _, f := range d.list {
				for _, bad := range []string{"value-", "angle-", "level-missing", "length-sign", "list-empty", "run-name", "text-cut", "yaml-"} {
					if strings.HasPrefix(f.Code, bad) {
						t.Errorf("%s: %s: %v", k.Path, k.Example, f)
					}
				}
			}
		}
		if !tried {
			t.Errorf("%s stands in neither file", k.Path)
		}
	}
	for _, root := range files {
		d := reader()
		if d.decode(root); len(d.list) > 0 {
			t.Errorf("without an example: %v", d.list)
		}
	}
}

// fieldsAt finds each place of a path.
func fieldsAt(n *node, at, path string) []*field {
	var found []*field
	for i := range n.fields {
		f := &n.fields[i]
		p := strings.TrimPrefix(at+"."+f.key, ".")
		if p == path {
			found = append(found, f)
			continue
		}
		if strings.HasPrefix(path, p) {
			found = append(found, fieldsAt(f.value, p, path)...)
		}
	}
	for _, i := range n.items {
		found = append(found, fieldsAt(i, at+"[]", path)...)
	}
	return found
}

// treeOf reads the text of a file.
func treeOf(d *decoder, text string) *node {
	return (&script{decoder: d, file: d.file, lines: splitLines(text)}).tree()
}
