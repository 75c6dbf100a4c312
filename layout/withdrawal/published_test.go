package withdrawal

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"

	"pgregory.net/rapid"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/withdrawal")) }

const solved = "American Wood Council, solved example problems"

func TestPublishedLag(t *testing.T) {
	src := published.From("NDS Table 12.2A as printed, read in a city's records", "W, whole pounds an inch")
	sizes := []float64{1. / 4, 5. / 16, 3. / 8, 7. / 16, 1. / 2, 5. / 8, 3. / 4}
	for _, c := range []struct {
		g   float64
		row []float64
	}{{0.42, []float64{173, 205, 235, 264, 291, 344, 395}}, {0.50, []float64{225, 266, 305, 342, 378, 447, 513}}, {0.55,
		[]float64{260, 307, 352, 395, 437, 516, 592}}} {
		for i, d := range sizes {
			published.Near(t, "withdrawal of lag screws", src, fmt.Sprintf("G %.2f, %g in", c.g, d), PerInch(job.LagScrew, c.g,
				d), c.row[i], 0.5)
		}
	}
	e := published.From(solved, "E2.3: 1/2 lag in southern pine, 2.1875 in deep")
	published.Near(t, "withdrawal of lag screws", e, "an inch", PerInch(job.LagScrew, 0.55, 0.5), 436.6, 0.05)
	published.Near(t, "withdrawal of lag screws", e, "in all", PerInch(job.LagScrew, 0.55, 0.5)*2.1875, 955, 0.5)
}

func TestPublishedNail(t *testing.T) {
	hand := published.ByHand("NDS Eq. 12.2-3")
	for _, c := range []struct{ g, d, want float64 }{{0.42, .113, 17.8}, {0.42, .162, 25.6}, {0.50, .131, 32.0}, {0.55,
		.148, 45.8}} {
		published.Near(t, "withdrawal of nails", hand, fmt.Sprintf("G %.2f, %g in", c.g, c.d), PerInch(job.Nail, c.g, c.d),
			c.want, 0.06)
	}
	e := published.From(solved, "E2.1a: 0.131 nail in spruce-pine-fir, 2.395 in deep")
	published.Near(t, "withdrawal of nails", e, "an inch", PerInch(job.Nail, 0.42, 0.131), 20.67, 0.005)
	published.Near(t, "withdrawal of nails", e, "in all", PerInch(job.Nail, 0.42, 0.131)*2.395, 49.5, 0.05)
}

func TestPublishedWoodScrew(t *testing.T) {
	src := published.From("handbook table of wood screws", "No. 10 in G 0.45")
	published.Near(t, "withdrawal of wood screws", src, "lb an inch", PerInch(job.WoodScrew, 0.45, 0.190), 109, 1)
	hand := published.ByHand("NDS Eq. 12.2-2")
	for _, c := range []struct{ g, d, want float64 }{{0.42, .138, 69.4}, {0.42, .190, 95.5}, {0.43, .216, 113.8}, {0.46,
		.164, 98.9}, {0.50, .242, 172.4}, {0.55, .151, 130.2}} {
		published.Near(t, "withdrawal of wood screws", hand, fmt.Sprintf("G %.2f, %g in", c.g, c.d), PerInch(job.WoodScrew,
			c.g, c.d), c.want, 0.06)
	}
}

func TestPublishedAdjusted(t *testing.T) {
	hand := published.ByHand("NDS Eq. 12.2-2 with CD 1.6, CM 1")
	for _, c := range []struct {
		d, g, thread, want float64
	}{
		{.190, .42, 1, 152.8}, {.190, .42, 1.25, 191.0}, {.190, .42, 1.5, 229.2}, {.190, .50, 1, 216.6}, {.242, .42, 1,
			194.7}, {.164, .42, 1, 131.9},
	} {
		f := Fastener{Kind: job.WoodScrew, Diameter: length.FromInches(c.d), Thread: length.FromInches(c.thread),
			Gravity: c.g}
		r, ok := Of(f, false)
		if !ok {
			t.Fatal("not reckoned")
		}
		what := fmt.Sprintf("%g in, G %g, %g in of thread", c.d, c.g, c.thread)
		published.Near(t, "load duration and moisture", hand, what, r.Newtons/newtonsPerPound, c.want, 0.06)
		f.Wet = true
		soaked, _ := Of(f, false)
		published.Near(t, "load duration and moisture", published.Recalled("NDS wet service factor of screws"), what,
			soaked.Newtons/r.Newtons, 0.7, 1e-9)
	}
}

// The yield limits against the printed table of lag screws under steel, rounded
// to 10 lb, with what its notes say goes into it: root 0.173 in, bending yield
// 70 ksi, steel of 61,850 psi, wood along the grain 11200 G, eight diameters deep.
func TestPublishedLateral(t *testing.T) {
	steel := published.From("NDS Table 12K as printed, read in a city's records; its inputs from memory",
		"1/4 in lag, 14 gage steel, along the grain")
	rd := func(string) float64 { return reduction(0.173) }
	for _, c := range []struct{ g, want float64 }{{0.67, 170}, {0.55, 160}, {0.50, 150}, {0.42, 140}, {0.36, 130}} {
		m := Governing(Modes(0.173, 2, 0.075, 11200*c.g, 61850, 70000, rd))
		published.Near(t, "lateral yield, metal side", steel, fmt.Sprintf("G %.2f", c.g), m.Pounds, c.want, 5)
	}
	// 0.148 nail through 3/4 in of Douglas fir-larch into the same, 3 in long.
	wood := published.From(solved, "10d common nail, 0.148 by 3 in, 3/4 in side member, 90 ksi")
	m := Governing(Modes(0.148, 2.25, 0.75, bearing(0.50), bearing(0.50), 90000,
		func(string) float64 { return reduction(0.148) }))
	published.Near(t, "lateral yield, wood side", wood, "Z, lb", m.Pounds, 105.1, 0.05)
	published.Near(t, "lateral yield, wood side", wood, "dowel bearing, psi", bearing(0.50), 4637, 0.5)
	published.Holds(t, "lateral yield, wood side", wood, "mode IIIs governs", m.Name == "IIIs")
	// Each limit alone, where nothing else can govern: by hand.
	hand := published.ByHand("NDS Table 12.3.1A: d l Fe / Rd, d = 0.2, Fe 5000, Rd 2.5")
	modes := Modes(0.2, 1, 0.5, 5000, 5000, 1e12, func(string) float64 { return 2.5 })
	published.Near(t, "lateral yield, wood side", hand, "Im, an inch", modes[0].Pounds, 400, 1e-9)
	published.Near(t, "lateral yield, wood side", hand, "Is, half an inch", modes[1].Pounds, 200, 1e-9)
	published.Near(t, "pull and shear together", published.ByHand("0.30 and 0.45 of a screw"), "both", Combined(30, 100,
		90, 200), 0.75, 1e-12)
}

// What the formulas do not reach says why.
func TestLateralNotReckoned(t *testing.T) {
	good := Lateral{Kind: job.WoodScrew, Root: length.FromInches(0.152), Bending: 80000 * pascalsPerPSI,
		Side: length.FromInches(0.08), SideBearing: 45000 * pascalsPerPSI,
		Depth: length.Inch, Gravity: 0.42}
	r, why := OfLateral(good, false)
	if why != "" || r.Newtons <= 0 {
		t.Fatalf("%v, %s", r.Newtons, why)
	}
	for _, s := range r.Steps {
		if s.Source == "" || s.Sure == "" || s.Letter() == "" || s.Sure != wind.Stated && !strings.HasPrefix(s.Source, nds) {
			t.Errorf("step %+v", s)
		}
	}
	// In either system the printed reduction follows from the printed root.
	for _, metric := range []bool{false, true} {
		thin := good
		thin.Root, thin.Depth = length.FromInches(0.19), 2*length.Inch
		r, _ := OfLateral(thin, metric)
		root, rd := r.Steps[0].Value, 0.0
		for _, s := range r.Steps {
			if s.Symbol != "Rd" {
				continue
			}
			rd = s.Value
			want := 10*root + 0.5
			if metric {
				want = root/2.54 + 0.5
				if !strings.Contains(s.Formula, "D/2.54 + 0.5 (D in mm)") {
					t.Errorf("a metric root and %s", s.Formula)
				}
			}
			if math.Abs(rd-want) > 1e-9 {
				t.Errorf("metric %v: Rd %v of a root of %v", metric, rd, root)
			}
		}
	}
	wet := good
	wet.Wet = true
	if w, _ := OfLateral(wet, true); math.Abs(w.Newtons-0.7*r.Newtons) > 1e-9 {
		t.Errorf("wet: %v of %v", w.Newtons, r.Newtons)
	}
	for _, change := range []func(*Lateral){
		func(f *Lateral) { f.Gravity = 0 }, func(f *Lateral) { f.Bending = 0 }, func(f *Lateral) { f.SideBearing = 0 },
		func(f *Lateral) { f.Root = length.Inch / 4 }, func(f *Lateral) { f.Depth = length.Inch / 2 },
		func(f *Lateral) { f.Kind = "" },
	} {
		f := good
		change(&f)
		if r, why := OfLateral(f, false); why == "" || r.Newtons != 0 {
			t.Errorf("%+v carries %v", f, r.Newtons)
		}
	}
}

// The species of the table are its own copy; what is tested is that they are in
// the order of their gravity and say where they stand.
func TestSpeciesSayWhereTheyStand(t *testing.T) {
	for _, s := range AllSpecies() {
		if s.Source == "" || (s.Source == nds+" Table 12.3.3B") != (s.Sure == wind.Memory) || s.G < 0.3 || s.G > 0.6 {
			t.Errorf("%s: G %.2f, source %q, %s", s.Name, s.G, s.Source, s.Sure)
		}
	}
}

// A wood without a gravity, a fastener without a kind: no figure.
func TestNotReckoned(t *testing.T) {
	good := Fastener{Kind: job.Nail, Diameter: length.Inch / 8, Thread: length.Inch, Gravity: 0.42}
	for _, change := range []func(*Fastener){
		func(f *Fastener) { f.Kind = "" }, func(f *Fastener) { f.Gravity = 0 }, func(f *Fastener) { f.Thread = -1 },
		func(f *Fastener) { f.Diameter = 0 },
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
