package cap

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

func fahrenheit(f float64) job.Temperature { return job.Temperature(math.Round((f - 32) / 1.8 * 1000)) }

// moving is a system of 10 ft caps from -20 to 180 F with its gap named for
// the hottest, as handbooks do.
func moving(perF float64) *job.System {
	s := &job.System{Stock: 120 * length.Inch}
	s.Metal.Expansion = int64(math.Round(perF * 1800))
	s.Joint = job.Joint{Gap: length.Inch16, LeastGap: length.Inch16, Reference: fahrenheit(180), Hottest: fahrenheit(180), Coldest: fahrenheit(-20)}
	s.Splice = job.Splice{Length: 7 * length.Inch, Bearing: 7 * length.Inch / 4}
	return s
}

func TestPublishedSettingGap(t *testing.T) {
	const source = "gap = least + alpha L (Thot - T), L 120 in, 180 F, 1/16 in, worked by hand"
	for _, c := range []struct {
		metal string
		perF  float64
		want  [4]float64 // at 40, 70, 100 and -20 F
	}{
		{"aluminum 3003", 12.9, [4]float64{0.279, 0.233, 0.186, 0.372}},
		{"steel", 6.5, [4]float64{0.172, 0.148, 0.125, 0.219}},
		{"stainless 304", 9.6, [4]float64{0.224, 0.189, 0.155, 0.293}},
		{"copper", 9.8, [4]float64{0.227, 0.192, 0.157, 0.298}},
		{"zinc", 12.2, [4]float64{0.268, 0.224, 0.180, 0.355}},
	} {
		for i, f := range []float64{40, 70, 100, -20} {
			if got := GapAt(moving(c.perF), 120*length.Inch, fahrenheit(f)).Inch(); math.Abs(got-c.want[i]) > 0.0006 {
				t.Errorf("%s: %s at %g F: %.4f in, want %.3f", source, c.metal, f, got, c.want[i])
			}
		}
	}
}

func TestPublishedFlatRule(t *testing.T) {
	const source = "a flat 1/4 in on 10 ft of aluminum 3003, 180 F, worked by hand: under 1/16 in when set below 58.9 F, closed below 18.5 F"
	under, closes := FlatRule(moving(12.9), length.Inch/4, 120*length.Inch)
	if math.Abs(under.Fahrenheit()-58.9) > 0.06 || math.Abs(closes.Fahrenheit()-18.5) > 0.06 {
		t.Errorf("%s: got %.2f and %.2f F", source, under.Fahrenheit(), closes.Fahrenheit())
	}
}

// The longest mean length is just what the two ends of the range allow.
func TestLongestAgreesWithTheJointChecks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := moving(float64(rapid.IntRange(60, 140).Draw(t, "alpha")) / 10)
		n := func(lo, hi int, what string) length.Length {
			return length.Length(rapid.IntRange(lo, hi).Draw(t, what)) * length.Inch16
		}
		s.Joint.Gap, s.Joint.LeastGap = n(2, 10, "gap"), n(0, 2, "least")
		s.Joint.Reference = fahrenheit(float64(rapid.IntRange(-20, 180).Draw(t, "reference")))
		s.Splice.Length = s.Joint.Gap + 2*s.Splice.Bearing + n(0, 12, "room")
		m := MovementOf(s)
		ok := func(l length.Length) bool {
			return GapAt(s, l, s.Joint.Hottest) >= s.Joint.LeastGap && GapAt(s, l, s.Joint.Coldest) <= m.Seal
		}
		// The growth is whole nanometres, so that a length of a few hundred is the same.
		if !ok(m.Longest - length.Inch16) {
			t.Fatalf("%v is said to fit and does not", m.Longest)
		}
		if m.Longest < 1000*length.Metre && ok(m.Longest+length.Inch) {
			t.Fatalf("%v is said to be the longest, and more fits", m.Longest)
		}
		if m.Fits != (m.Longer <= m.Longest) || m.Longer < s.Stock {
			t.Fatalf("%+v", m)
		}
	})
}
