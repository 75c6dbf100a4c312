package slips

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

const in = length.Inch

var usual = Rule{Least: in / 4, Times: 4}

// noisy is a plausible wall: it slopes, bows, waves, may step once between two
// readings and kink once, and the tape scatters by sigma and is read to the
// sixteenth.
func noisy(r *rand.Rand, n int, sigma float64) []Value {
	slope, bow := r.NormFloat64()*0.002, r.NormFloat64()*0.5
	wave, phase := math.Abs(r.NormFloat64())*0.15, r.Float64()*6
	step, at := 0.0, 1+r.IntN(max(n-3, 1)) // two readings at least on both sides
	if n > 3 && r.IntN(4) == 0 {
		step = r.NormFloat64() * 2
	}
	kink := 0.0
	if r.IntN(4) == 0 {
		kink = r.NormFloat64() * 0.004
	}
	long := float64(n-1) * 30
	bow *= math.Min(1, long/360) // no short wall bows like a long one
	out := make([]Value, n)
	for i := range out {
		x := float64(i) * 30
		u := x / math.Max(long, 1)
		y := 12 + slope*x + 4*bow*u*(1-u) + wave*math.Sin(x/60+phase) + r.NormFloat64()*sigma
		if i > at {
			y += step + kink*30*float64(i-at)
		}
		out[i] = Value{length.FromInches(x), length.RoundTo(length.FromInches(y), length.Inch16)}
	}
	return out
}

// A plausible wall is left alone: of 10,000 walls of 3 to 50 readings, at the
// usual rule, fewer than 1 in 100 has any reading doubted, and fewer than 1
// reading in 2,000 is.
func TestPlausibleWallsAreLeftAlone(t *testing.T) {
	for _, sigma := range []float64{0, 1.0 / 32, 1.0 / 16, 1.0 / 8} {
		r := rand.New(rand.NewPCG(1, uint64(sigma*1e6)))
		walls, readings, all := 0, 0, 0
		for range 10_000 {
			n := 3 + r.IntN(48)
			rule := usual
			rule.Scatter = length.FromInches(sigma * 1.22)
			f := Find(noisy(r, n, sigma), rule)
			if len(f) > 0 {
				walls++
			}
			readings += len(f)
			all += n
		}
		t.Logf("scatter %.4f in: %d of 10,000 walls, %d of %d readings", sigma, walls, readings, all)
		if walls > 100 || readings*2000 > all {
			t.Errorf("scatter %.4f in: %d of 10,000 walls doubted, %d of %d readings", sigma, walls, readings, all)
		}
	}
}

// Of 10,000 walls of 10 to 50 readings whose tape scatters by 1/24 in, 97 in 100
// readings an inch out are found.
func TestSlipsAreFound(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	missed := 0
	for range 10_000 {
		n := 10 + r.IntN(41)
		v := noisy(r, n, 1.0/24)
		i := r.IntN(n)
		by := in
		if r.IntN(2) == 0 {
			by = -in
		}
		v[i].V += by
		if !slices.ContainsFunc(Find(v, usual), func(f Found) bool { return f.Index == i }) {
			missed++
		}
	}
	t.Logf("missed %d of 10,000", missed)
	if missed > 300 {
		t.Errorf("missed %d of 10,000 inches misread", missed)
	}
}

func values(inches ...float64) []Value {
	var out []Value
	for i, v := range inches {
		out = append(out, Value{length.Length(i) * 30 * in, length.FromInches(v)})
	}
	return out
}

func TestWhatIsASlip(t *testing.T) {
	cases := []struct {
		name  string
		v     []Value
		rule  Rule
		found []int
	}{
		{"level, one an inch out", values(12, 12, 12, 13, 12, 12, 12, 12, 12, 12), usual, []int{3}},
		{"a step that readings share", values(12, 12, 12, 12, 14, 14, 14, 14, 14, 14), usual, nil},
		{"a buttress two readings long", values(12, 12, 12, 16, 16, 12, 12, 12, 12, 12), usual, nil},
		{"a slope", values(0, 1, 2, 3, 4, 5, 6, 7, 8, 9), usual, nil},
		{"a slip on a slope", values(0, 1, 2, 3, 6, 5, 6, 7, 8, 9), usual, []int{4}},
		{"a gable", values(0, 2, 4, 6, 8, 10, 8, 6, 4, 2, 0), usual, nil},
		{"the first and the last", values(13, 12, 12, 12, 12, 12, 12, 12, 12, 11), usual, []int{0, 9}},
		{"two neighbours either way", values(12, 12, 12, 13, 11, 12, 12, 12, 12, 12, 12, 12, 12, 12), usual, []int{3, 4}},
		{"a rough wall keeps its roughness", values(0, 1, 0, 1, 0, 1, 0, 1, 0, 1, 0), usual, nil},
		{"three readings, little known", values(12, 12.4, 12), usual, nil},
		{"three readings, an inch out", values(12, 13, 12), usual, []int{1}},
		{"three readings of a rough job", values(12, 13, 12), Rule{in / 4, 4, in / 2}, nil},
		{"two readings", values(12, 20), usual, nil},
	}
	for _, c := range cases {
		var got []int
		for _, f := range Find(c.v, c.rule) {
			got = append(got, f.Index)
		}
		if !slices.Equal(got, c.found) {
			t.Errorf("%s: doubted %v, want %v", c.name, got, c.found)
		}
	}
}

func TestExpectedIsWhatTheNeighboursSay(t *testing.T) {
	v := values(0, 1, 2, 9, 4, 5, 6, 7, 8, 9)
	f := Find(v, usual)
	if len(f) != 1 || f[0].Expected != 3*in {
		t.Errorf("%+v", f)
	}
}

func TestPitchFindsAFootMisread(t *testing.T) {
	at := func(inches ...length.Length) []length.Length {
		for i := range inches {
			inches[i] *= in
		}
		return inches
	}
	cases := []struct {
		name  string
		at    []length.Length
		found []int
	}{
		{"even", at(0, 30, 60, 90, 120, 140), nil},
		{"a foot on", at(0, 30, 72, 90, 120, 150), []int{2}},
		{"one more at a bulge", at(0, 30, 48, 60, 90, 120, 150), nil},
		{"half a foot off is a choice", at(0, 30, 66, 90, 120, 150), nil},
		{"no pitch", at(0, 12, 60, 70, 120, 150), nil},
		{"too few", at(0, 42, 60, 90), nil},
	}
	for _, c := range cases {
		var got []int
		for _, f := range Pitch(c.at, length.Foot) {
			got = append(got, f.Index)
		}
		if !slices.Equal(got, c.found) {
			t.Errorf("%s: doubted %v, want %v", c.name, got, c.found)
		}
	}
}

func TestFindInAMirror(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(0, 14).Draw(t, "n")
		var v []Value
		x := length.Length(0)
		for range n {
			x += length.Length(rapid.IntRange(1, 60).Draw(t, "pitch")) * in
			v = append(v, Value{x, length.Length(rapid.IntRange(-40, 40).Draw(t, "v")) * length.Inch16})
		}
		rule := Rule{Least: in / 4, Times: rapid.IntRange(2, 6).Draw(t, "times"), Scatter: length.Length(rapid.IntRange(0, 8).Draw(t, "scatter")) * length.Inch16}
		var m []Value
		for i := range v {
			q := v[n-1-i]
			m = append(m, Value{x - q.At, q.V})
		}
		a, b := Find(v, rule), Find(m, rule)
		slices.Reverse(b)
		for i := range b {
			b[i].Index = n - 1 - b[i].Index
		}
		if !slices.Equal(a, b) {
			t.Fatalf("%+v, in a mirror %+v", a, b)
		}
	})
}

func BenchmarkFind1000RunsOf50(b *testing.B) {
	v := noisy(rand.New(rand.NewPCG(3, 3)), 50, 1.0/16)
	for b.Loop() {
		for range 1000 {
			Find(v, usual)
		}
	}
}

// BenchmarkAllPairs1000RunsOf50 is the plain robust method beside it: for each
// reading the median slope of all pairs of the others.
func BenchmarkAllPairs1000RunsOf50(b *testing.B) {
	v := noisy(rand.New(rand.NewPCG(3, 3)), 50, 1.0/16)
	for b.Loop() {
		for range 1000 {
			for skip := range v {
				slopes := make([]float64, 0, len(v)*len(v)/2)
				for i := range v {
					for k := i + 1; k < len(v); k++ {
						if i != skip && k != skip {
							slopes = append(slopes, float64(v[k].V-v[i].V)/float64(v[k].At-v[i].At))
						}
					}
				}
				slices.Sort(slopes)
			}
		}
	}
}
