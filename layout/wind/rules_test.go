package wind

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

func step(t interface {
	Helper()
	Fatalf(string, ...any)
}, d Demand, symbol, what string) Step {
	t.Helper()
	for _, s := range d.Basis {
		if s.Symbol == symbol && strings.Contains(s.What, what) {
			return s
		}
	}
	t.Fatalf("no step %s %s", symbol, what)
	return Step{}
}

func holds(found finding.List) []string {
	var out []string
	for _, f := range found.Holds() {
		out = append(out, f.Code)
	}
	return out
}

// low is a building 15 ft high with a top at 18 ft in exposure B.
func low(edition string) *job.Job {
	j := example(edition)
	w := j.Wind
	w.Exposure, w.RoofHeight, w.ParapetTop, w.Least = "B", 15*length.Foot, 18*length.Foot, 50*length.Foot
	return j
}

// In 7-10 the 30 ft floor of exposure B is a rule: on, and a hold without it. In
// 7-16 and 7-22 it is off, and its switch says who asks for it. The z in use is
// printed. By hand, 115 mph, 7-10, corner of the roof 2.8: z = 30 ft, Kz 0.7006,
// 20.16 psf, 56.45 up, 33.87 allowable; z = 18 ft, Kz 0.6055, 17.43 psf, 48.79
// up, 29.28 allowable. 7-22, 3.2, z = 18 ft: Kz 0.6014, 17.31, 55.39, 33.23.
func TestExposureBFloorByEdition(t *testing.T) {
	yes, no := true, false
	for _, c := range []struct {
		edition  string
		switched *bool
		z        float64
		corner   float64 // psf, up, allowable
		hold     bool
		words    string
	}{
		{"ASCE 7-10", nil, 30, 33.9, false, "taken: a rule"},
		{"ASCE 7-10", &yes, 30, 33.9, false, "taken: a rule"},
		{"ASCE 7-10", &no, 18, 29.3, true, "SWITCHED OFF"},
		{"ASCE 7-16", nil, 18, 33.5, false, "not taken"},
		{"ASCE 7-16", &yes, 30, 38.7, false, "building department"},
		{"ASCE 7-16", &no, 18, 33.5, false, "not taken"},
		{"ASCE 7-22", nil, 18, 33.2, false, "not taken"},
		{"ASCE 7-22", &yes, 30, 38.1, false, "building department"},
	} {
		j := low(c.edition)
		j.Wind.ExposureBFloor, j.Wind.FloorWhy = c.switched, "the building department, letter 4"
		d, found := Build(j, nil)
		name := fmt.Sprintf("%s, switched %v", c.edition, c.switched)
		if !d.Computed {
			t.Fatalf("%s: %v", name, found)
		}
		near(t, name, AllowablePa(d.Up[Corner])/pascalsPerPSF, c.corner, 0.05)
		near(t, name+", z", step(t, d, "z", "Height at which").Value, c.z, 1e-9)
		if hold := slices.Contains(holds(found), "wind-floor-off"); hold != c.hold {
			t.Errorf("%s: holds %v", name, holds(found))
		}
		if s := step(t, d, "", "Exposure B, components"); !strings.Contains(s.Text, c.words) || s.Source == "" {
			t.Errorf("%s: %+v", name, s)
		}
	}
	// Above 30 ft the switch changes nothing, and holds nothing.
	j := low("ASCE 7-10")
	j.Wind.ExposureBFloor, j.Wind.ParapetTop = &no, 31*length.Foot
	if _, found := Build(j, nil); slices.Contains(holds(found), "wind-floor-off") {
		t.Error("a floor that does not reach the top holds the job")
	}
	for _, e := range []string{"C", "D"} {
		j := low("ASCE 7-10")
		j.Wind.Exposure = e
		near(t, "exposure "+e+" has no floor of its own", step(t, mustCompute(t, j), "z", "").Value, 18, 1e-9)
	}
}

// What is printed can be reckoned again from what is printed: Kz from z, zg and
// alpha; q from its factors; each pressure from q and GCp. Inputs are taken as
// lettered, so that the tolerance is that of their last place.
func TestPrintedFormulasGiveThePrintedFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := example(rapid.SampledFrom(editions()).Draw(t, "edition"))
		metric := rapid.Bool().Draw(t, "metric")
		if metric {
			j.Units = job.Metric
		}
		w := j.Wind
		w.Exposure = rapid.SampledFrom([]string{"B", "C", "D"}).Draw(t, "exposure")
		h := rapid.IntRange(8, 200).Draw(t, "h")
		w.RoofHeight, w.ParapetTop = length.Length(h)*length.Foot, length.Length(h+rapid.IntRange(0, 6).Draw(t,
			"parapet"))*length.Foot
		w.WallReduction = h <= 60 && rapid.Bool().Draw(t, "tenth")
		d := mustCompute(t, j)
		v := func(symbol, what string) float64 { return step(t, d, symbol, what).Value }
		near := func(what string, got, want, share float64) {
			if math.Abs(got-want) > share*math.Abs(want) {
				t.Fatalf("%s: by the printed formula %.5f, printed %.5f", what, got, want)
			}
		}
		f, _ := kzFactor(mustEdition(w.Edition))
		kz := v("Kz", "")
		near("Kz", f*math.Pow(v("z", "Height at which")/v("zg", ""), 2/v("α", "")), kz, 1e-9)
		q := 0.00256 * kz * v("Kzt", "") * v("V", "") * v("V", "")
		if metric {
			q = 0.613 * kz * v("Kzt", "") * v("V", "") * v("V", "") / 1000
		}
		acting := q * v("Kd", "Directionality")
		if w.Edition == "ASCE 7-22" {
			near("qp", q, v("qp", ""), 1e-9)
			near("Kd qp", acting, v("Kd qp", ""), 1e-9)
		} else {
			near("qp", acting, v("qp", ""), 1e-9)
		}
		least := leastPSF
		if metric {
			least *= pascalsPerPSF / 1000
		}
		for _, face := range []string{"up, edge", "up, corner", "out, edge", "out, corner",
			"rear leg towards the roof, corner", "inward on either leg"} {
			want := math.Max(least, acting*(math.Abs(v("GCp", face))+v("GCpi", "")))
			near(face, want, v("p", face+" (strength)"), 1e-9)
			near(face, 0.6*want, v("p", face+" (allowable)"), 1e-9)
		}
	})
}

func mustEdition(name string) edition {
	e, ok := editionOf(name)
	if !ok {
		panic(name)
	}
	return e
}

// 32 psf stands in no copy of the standard that was read.
func TestLeastNetPressureIs16(t *testing.T) {
	for _, e := range editions() {
		for _, s := range mustCompute(t, low(e)).Basis {
			if strings.Contains(s.Formula, "32 psf") || strings.Contains(s.Source, "32 psf") {
				t.Errorf("%s: %+v", e, s)
			}
		}
	}
}

// Every figure of a standard names its edition, where in it, and how sure it is;
// nothing is said to be read that stands under a number from memory alone.
func TestEveryConstantCarriesItsEdition(t *testing.T) {
	for _, e := range editions() {
		for _, h := range []length.Length{15, 100} {
			j := low(e)
			j.Wind.RoofHeight, j.Wind.ParapetTop, j.Wind.ParapetNote = h*length.Foot, (h+4)*length.Foot, true
			j.Wind.Kzt, j.Wind.Topography = 0, &job.Topography{Shape: job.Ridge, Height: 100 * length.Foot,
				HalfLength: 300 * length.Foot}
			for _, s := range mustCompute(t, j).Basis {
				switch s.Sure {
				case Read, Memory, Disputed:
					if !strings.Contains(s.Source, e) && !strings.Contains(s.Source, "ES-1") && s.Source != "figures above" {
						t.Errorf("%s, %d ft: %s (%s) from %q", e, h, s.Symbol, s.What, s.Source)
					}
				case Stated, Computed:
				default:
					t.Errorf("%s: %s (%s) says not how sure it is", e, s.Symbol, s.What)
				}
			}
		}
	}
}

// The note on high parapets lowers the rear leg, and never the coping's top.
func TestParapetNoteLeavesTheTop(t *testing.T) {
	for _, e := range editions() {
		for _, h := range []length.Length{30, 100} {
			j := example(e)
			j.Wind.RoofHeight, j.Wind.ParapetTop = h*length.Foot, (h+4)*length.Foot
			plain := mustCompute(t, j)
			j.Wind.ParapetNote = true
			noted := mustCompute(t, j)
			if noted.Up != plain.Up || noted.Out != plain.Out || noted.Rear[Corner] != noted.Rear[Edge] || noted.Rear[Corner].Pa >= plain.Rear[Corner].Pa {
				t.Errorf("%s, %d ft: %v with the note, %v without", e, h, noted.Up, plain.Up)
			}
		}
	}
}

// No wall presses harder than it pulls, which is what stands in for an inward
// pressure that nobody stated; and no roof pulls the rear leg harder than the top.
func TestInwardNeverPassesOutward(t *testing.T) {
	for _, e := range []edition{ed10, ed16, ed22} {
		for _, tall := range []bool{false, true} {
			for a := 1.0; a < 1200; a *= 1.1 {
				in := lineOf(t, e, tall, wallPlus).at(a)
				for _, s := range []surface{wall4, wall5} {
					if out := -lineOf(t, e, tall, s).at(a); in > out+1e-12 {
						t.Errorf("%s, tall %v, %.0f ft2: %.3f in, %.3f out", e, tall, a, in, out)
					}
				}
			}
		}
	}
}

func TestStatedPressuresAskForTheirUnit(t *testing.T) {
	p := func(psf float64, l job.Level) job.Pressure { return job.Pressure{Pa: psf * pascalsPerPSF, Level: l} }
	good := func() *job.Pressures {
		return &job.Pressures{Edition: "ASCE 7-16", CornerLength: 6 * length.Foot,
			Edge:   job.ZonePressure{Up: p(26, job.Allowable), Out: p(15, job.Allowable)},
			Corner: job.ZonePressure{Up: p(41, job.Allowable), Out: p(25, job.Allowable)}}
	}
	for _, c := range []struct {
		name, code string
		severity   finding.Severity
		change     func(q *job.Pressures)
	}{
		{"as it should be", "", 0, func(*job.Pressures) {}},
		{"41 Pa", "pressure-unit", finding.Hold, func(q *job.Pressures) { q.Corner.Up.Pa = 41 }},
		{"66 kPa", "pressure-unit", finding.Hold, func(q *job.Pressures) { q.Corner.Up.Pa = 66_000 }},
		{"0.26 psf", "pressure-unit", finding.Hold, func(q *job.Pressures) { q.Edge.Up = p(0.26, job.Allowable) }},
		{"9 psf, under the least", "pressure-least", finding.Hold, func(q *job.Pressures) { q.Edge.Out = p(9, job.Allowable) }},
		{"15 psf at strength", "pressure-least", finding.Hold, func(q *job.Pressures) { q.Edge.Out = p(15, job.Strength) }},
		{"the least as lettered", "", 0, func(q *job.Pressures) { q.Edge.Out = p(9.6, job.Allowable) }},
		{"an edition that is not known here", "", 0,
			func(q *job.Pressures) { q.Edition, q.Edge.Out = "another standard", p(9, job.Allowable) }},
		{"a zone of 6 in", "corner-length-unit", finding.Hold, func(q *job.Pressures) { q.CornerLength = 6 * length.Inch }},
		{"a zone of 6,000 ft", "corner-length-unit", finding.Hold,
			func(q *job.Pressures) { q.CornerLength = 6000 * length.Foot }},
		{"zones exchanged", "pressure-corner", finding.Note, func(q *job.Pressures) { q.Corner.Up = p(20, job.Allowable) }},
		{"zones exchanged across levels", "pressure-corner", finding.Note, func(q *job.Pressures) { q.Corner.Up = p(41, job.Strength) }},
		{"the rear leg stated at the edge alone", "", 0, func(q *job.Pressures) { q.Edge.Rear = p(24, job.Allowable) }},
		{"levels mixed, zones in order", "", 0, func(q *job.Pressures) { q.Corner.Up = p(70, job.Strength) }},
	} {
		q := good()
		c.change(q)
		_, found := Build(&job.Job{Pressures: q}, nil)
		if c.code == "" {
			if len(found) > 0 {
				t.Errorf("%s: %v", c.name, found)
			}
			continue
		}
		if i := slices.IndexFunc(found,
			func(f finding.Finding) bool { return f.Code == c.code }); i < 0 || found[i].Severity != c.severity || found[i].Mend == "" {
			t.Errorf("%s: %v, want %s", c.name, found, c.code)
		}
	}
	// Nothing the method computes is doubted.
	for _, e := range editions() {
		for _, h := range []length.Length{8, 60, 490} {
			j := example(e)
			j.Wind.RoofHeight, j.Wind.ParapetTop, j.Wind.Exposure = h*length.Foot, (h+3)*length.Foot, "D"
			j.Wind.Hollow, j.Wind.Enclosure, j.Wind.Speed = true, job.PartiallyEnclosed, 210*mpsPerMPH
			d := mustCompute(t, j)
			if !Plausible(AllowablePa(d.Up[Corner])) || !Plausible(AllowablePa(d.Out[Edge])) || d.CornerLength < LeastZone {
				t.Errorf("%s, %d ft: %v is doubted", e, h, d.Up[Corner])
			}
		}
	}
}

func TestTurnsThatBegin(t *testing.T) {
	if !(Demand{}).Begins(2*job.Degree) || !(Demand{}).Begins(90*job.Degree) {
		t.Error("an outside turn begins no corner zone")
	}
	d := Demand{CornerTurn: 15 * job.Degree}
	if d.Begins(14*job.Degree) || !d.Begins(15*job.Degree) {
		t.Error("the least turn is not what the engineer set")
	}
	if all, some := (Demand{}).CornersBegin(), d.CornersBegin(); strings.Contains(all, "°") || !strings.Contains(some, "turns 15° or more") {
		t.Errorf("%s; %s", all, some)
	}
	j := example("ASCE 7-16")
	j.Wind.CornerTurn = 15 * job.Degree
	c := mustCompute(t, j)
	if s := step(t, c, "", "Turns that begin"); c.CornerTurn != 15*job.Degree || !strings.Contains(s.Text, "15") {
		t.Errorf("%+v", s)
	}
}
