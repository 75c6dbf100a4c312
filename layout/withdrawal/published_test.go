package withdrawal

import (
	"math"
	"strings"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"

	"pgregory.net/rapid"
)

func near(t *testing.T, source string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s: got %.4f, want %.4f ± %g", source, got, want, within)
	}
}

func TestPublishedWoodScrew(t *testing.T) {
	const source = "NDS Eq. 12.2-2, worked by hand (Table 12.2B prints whole numbers)"
	sizes := []float64{.138, .151, .164, .177, .190, .216, .242}
	for g, row := range map[float64][]float64{
		0.42: {69.4, 75.9, 82.4, 89.0, 95.5, 108.6, 121.7},
		0.43: {72.7, 79.6, 86.4, 93.3, 100.1, 113.8, 127.5},
		0.46: {83.2, 91.1, 98.9, 106.7, 114.6, 130.3, 145.9},
		0.50: {98.3, 107.6, 116.9, 126.1, 135.4, 153.9, 172.4},
		0.55: {119.0, 130.2, 141.4, 152.6, 163.8, 186.2, 208.6},
	} {
		for i, d := range sizes {
			near(t, source, PerInch(job.WoodScrew, g, d), row[i], 0.06)
		}
	}
	near(t, "handbook table of wood screws: No. 10 in G 0.45 holds 109 lb/in", PerInch(job.WoodScrew, 0.45, 0.190), 109, 1)
}

func TestPublishedNail(t *testing.T) {
	const source = "NDS Eq. 12.2-3, worked by hand"
	sizes := []float64{.113, .120, .131, .148, .162}
	for g, row := range map[float64][]float64{
		0.42: {17.8, 18.9, 20.7, 23.3, 25.6},
		0.50: {27.6, 29.3, 32.0, 36.1, 39.5},
		0.55: {35.0, 37.2, 40.6, 45.8, 50.2},
	} {
		for i, d := range sizes {
			near(t, source, PerInch(job.Nail, g, d), row[i], 0.06)
		}
	}
	near(t, "American Wood Council solved example E2.1a: 0.131 nail in SPF", PerInch(job.Nail, 0.42, 0.131), 20.67, 0.005)
	near(t, "the same, 2.395 in deep", PerInch(job.Nail, 0.42, 0.131)*2.395, 49.5, 0.05)
}

func TestPublishedLag(t *testing.T) {
	const source = "NDS Table 12.2A as printed"
	sizes := []float64{1. / 4, 5. / 16, 3. / 8, 7. / 16, 1. / 2, 5. / 8, 3. / 4}
	for g, row := range map[float64][]float64{
		0.42: {173, 205, 235, 264, 291, 344, 395},
		0.50: {225, 266, 305, 342, 378, 447, 513},
		0.55: {260, 307, 352, 395, 437, 516, 592},
	} {
		for i, d := range sizes {
			near(t, source, PerInch(job.LagScrew, g, d), row[i], 0.5)
		}
	}
	near(t, "American Wood Council solved example E2.3: 1/2 lag in southern pine", PerInch(job.LagScrew, 0.55, 0.5), 436.6, 0.05)
	near(t, "the same, 2.1875 in deep", PerInch(job.LagScrew, 0.55, 0.5)*2.1875, 955, 0.5)
}

func TestPublishedAdjusted(t *testing.T) {
	const source = "NDS Eq. 12.2-2 with CD 1.6, CM 1, worked by hand"
	for _, c := range []struct {
		d, g, thread, want float64
	}{
		{.190, .42, 1, 152.8}, {.190, .42, 1.25, 191.0}, {.190, .42, 1.5, 229.2}, {.190, .50, 1, 216.6}, {.242, .42, 1, 194.7}, {.164, .42, 1, 131.9},
	} {
		f := Fastener{Kind: job.WoodScrew, Diameter: length.FromInches(c.d), Thread: length.FromInches(c.thread), Gravity: c.g}
		r, ok := Of(f, false)
		if !ok {
			t.Fatal("not reckoned")
		}
		near(t, source, r.Newtons/newtonsPerPound, c.want, 0.06)
		f.Wet = true
		soaked, _ := Of(f, false)
		near(t, "NDS wet service factor of screws, from memory", soaked.Newtons, 0.7*r.Newtons, 1e-6)
	}
	two := 2 * 191.0
	near(t, "worked by hand: 99.5 lb on two No. 10 in SPF, 1.25 in of thread", 99.5/two, 0.26, 0.001)
}

func TestPublishedGravities(t *testing.T) {
	for name, want := range map[string]float64{
		"spruce-pine-fir": 0.42, "spruce-pine-fir (south)": 0.36, "Douglas fir-larch": 0.50, "Douglas fir-larch (north)": 0.49, "Douglas fir-south": 0.46,
		"southern pine": 0.55, "mixed southern pine": 0.51, "hem-fir": 0.43, "hem-fir (north)": 0.46, "ponderosa pine": 0.43, "redwood": 0.37, "western cedars": 0.36,
	} {
		found := false
		for _, s := range AllSpecies() {
			if s.Name == name {
				found = true
				near(t, "NDS Table 12.3.3A, "+name, s.G, want, 0)
			}
			if s.Source == "" || strings.HasPrefix(s.Name, "plywood") != (s.Sure == wind.Memory) && s.Name != "oriented strand board" {
				t.Errorf("%s: source %q, %s", s.Name, s.Source, s.Sure)
			}
		}
		if !found {
			t.Errorf("no %s", name)
		}
	}
}

// A wood without a gravity, a fastener without a kind: no figure.
func TestNotReckoned(t *testing.T) {
	good := Fastener{Kind: job.Nail, Diameter: length.Inch / 8, Thread: length.Inch, Gravity: 0.42}
	for _, change := range []func(*Fastener){
		func(f *Fastener) { f.Kind = "" }, func(f *Fastener) { f.Gravity = 0 }, func(f *Fastener) { f.Thread = -1 }, func(f *Fastener) { f.Diameter = 0 },
	} {
		f := good
		change(&f)
		if r, ok := Of(f, false); ok || r.Newtons != 0 {
			t.Errorf("%+v holds %v", f, r.Newtons)
		}
	}
}

// Denser wood, a thicker shank and more thread never hold less; every step has
// a source.
func TestMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Fastener{Kind: rapid.SampledFrom([]string{job.WoodScrew, job.Nail, job.LagScrew}).Draw(t, "kind"),
			Diameter: length.Length(rapid.IntRange(2, 12).Draw(t, "d")) * length.Inch16,
			Thread:   length.Length(rapid.IntRange(1, 80).Draw(t, "p")) * length.Inch16,
			Gravity:  float64(rapid.IntRange(30, 70).Draw(t, "g")) / 100, Wet: rapid.Bool().Draw(t, "wet")}
		before, _ := Of(f, rapid.Bool().Draw(t, "metric"))
		switch rapid.IntRange(0, 3).Draw(t, "more") {
		case 0:
			f.Diameter += length.Inch16
		case 1:
			f.Thread += length.Inch16
		case 2:
			f.Gravity += 0.01
		case 3:
			f.Wet = false
		}
		after, _ := Of(f, false)
		if after.Newtons < before.Newtons {
			t.Fatalf("%v fell to %v", before.Newtons, after.Newtons)
		}
		for _, s := range append(before.Steps, after.Steps...) {
			if s.Source == "" || s.Sure == "" || s.Letter() == "" {
				t.Fatalf("step %+v", s)
			}
		}
	})
}
