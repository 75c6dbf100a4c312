package wind

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

// example is the worked building: exposure C, 115 mph, 30 ft high, 3 ft solid
// parapet, flat ground.
func example(edition string) *job.Job {
	const ft = length.Foot
	return &job.Job{File: "a.yaml", Wind: &job.Wind{Edition: edition, Speed: 115 * mpsPerMPH, Exposure: "C",
		RoofHeight: 30 * ft, ParapetTop: 33 * ft, Least: 100 * ft, Kzt: 1}}
}

func mustCompute(t interface {
	Helper()
	Fatalf(string, ...any)
}, j *job.Job) Demand {
	t.Helper()
	d, found := Build(j, nil)
	if !d.Computed {
		t.Fatalf("not computed: %v", found)
	}
	return d
}

// Everything that memory alone vouches for says so in the basis, and nothing
// lacks a source.
func TestBasisMarksMemory(t *testing.T) {
	j := example("ASCE 7-10")
	j.Wind.RoofHeight, j.Wind.ParapetTop = 70*length.Foot, 73*length.Foot
	j.Wind.ParapetNote = true
	marked := map[string]bool{}
	for _, s := range mustCompute(t, j).Basis {
		if s.Sure == "" || s.Source == "" && s.Sure != Computed {
			t.Errorf("%s (%s): no source", s.Symbol, s.What)
		}
		if s.Letter() == "" || strings.Contains(s.Letter(), "NaN") {
			t.Errorf("%s (%s): no value", s.Symbol, s.What)
		}
		if s.Sure == Memory {
			marked[s.Symbol+" "+s.What] = true
		}
	}
	for _, want := range []string{"GCp Coefficient up, edge: roof zone 2", "a Width of wall zone 5",
		" Option: parapet of 3 ft and over, roof zone 3 behind it as zone 2 (rear leg; never the coping's own top)",
		"p Pressure up, edge (strength)"} {
		if !marked[want] {
			t.Errorf("not marked as from memory: %s", want)
		}
	}
	if marked["GCp Coefficient out, edge: wall zone 4, outward"] {
		t.Error("a figure that was read is marked as from memory")
	}
}

func TestMetricAgrees(t *testing.T) {
	j := example("ASCE 7-22")
	g := 1000 * length.Foot
	j.Wind.Ground = &g
	us := mustCompute(t, j)
	j.Units = job.Metric
	si := mustCompute(t, j)
	for z := Edge; z <= Corner; z++ {
		if r := si.Up[z].Pa / us.Up[z].Pa; math.Abs(r-1) > 0.002 {
			t.Errorf("%s: metric is %.4f of customary", z, r)
		}
	}
	for _, s := range si.Basis {
		if slices.Contains([]string{"psf", "ft", "ft2", "mph"},
			s.Unit) || regexp.MustCompile(`0\.00256|\b(ft2?|psf|mph)\b`).MatchString(s.Formula+" "+s.What) {
			t.Errorf("metric basis has %s %s in %s", s.What, s.Formula, s.Unit)
		}
	}
}

func TestLevelOfEveryComputedPressure(t *testing.T) {
	d := mustCompute(t, example("ASCE 7-10"))
	for z := Edge; z <= Corner; z++ {
		for _, p := range []job.Pressure{d.Up[z], d.Out[z], d.Rear[z]} {
			if p.Level != job.Strength {
				t.Errorf("a computed pressure at level %v", p.Level)
			}
		}
	}
	j := example("ASCE 7-16")
	j.Wind.Speed, j.Wind.Exposure = 80*mpsPerMPH, "B"
	j.Wind.RoofHeight, j.Wind.ParapetTop = 15*length.Foot, 16*length.Foot
	near(t, "the least net pressure", mustCompute(t, j).Out[Edge].Pa/pascalsPerPSF, 16, 1e-9)
}

// What is outside the method gives no pressure at all.
func TestOutside(t *testing.T) {
	const ft = length.Foot
	for _, c := range []struct {
		name, code string
		change     func(w *job.Wind)
	}{
		{"a speed of an older map", "wind-speed-range", func(w *job.Wind) { w.Edition, w.Speed = "ASCE 7-10", 90*mpsPerMPH }},
		{"a speed no map has", "wind-speed-range", func(w *job.Wind) { w.Speed = 230 * mpsPerMPH }},
		{"too high", "wind-height", func(w *job.Wind) { w.RoofHeight, w.ParapetTop = 498*ft, 501*ft }},
		{"a steep roof", "wind-roof-slope", func(w *job.Wind) { w.RoofSlope = 8 * job.Degree }},
		{"no plan", "wind-least-dimension", func(w *job.Wind) { w.Least = 0 }},
		{"a low parapet with the note", "wind-parapet-note", func(w *job.Wind) { w.ParapetTop, w.ParapetNote = 32*ft, true }},
		{"the wall note on a tall building", "wind-reduction-tall", func(w *job.Wind) {
			w.RoofHeight, w.ParapetTop,
				w.WallReduction = 70*ft, 73*ft, true
		}},
		{"an unknown edition", "wind-edition", func(w *job.Wind) { w.Edition = "ASCE 7-05" }},
	} {
		j := example("ASCE 7-16")
		j.Wind.At = finding.Place{File: "a.yaml", Line: 3}
		j.Wind.SpeedAt, j.Wind.HeightAt, j.Wind.TopAt = j.Wind.At, j.Wind.At, j.Wind.At
		c.change(j.Wind)
		d, found := Build(j, nil)
		if d.Known() {
			t.Errorf("%s: a pressure all the same", c.name)
		}
		if i := slices.IndexFunc(found,
			func(f finding.Finding) bool { return f.Code == c.code }); i < 0 || found[i].Severity != finding.Hold || found[i].At.Line != 3 {
			t.Errorf("%s: %v, want a located hold %s", c.name, found, c.code)
		}
	}
}

// A limit of the standard is that of the job's own system: 18.3 m is up to it,
// and not over the 60 ft that come to 18.288 m.
func TestLimitsInTheJobsSystem(t *testing.T) {
	const mm = length.Millimetre
	for _, c := range []struct {
		units job.Units
		roof  length.Length
		tall  bool
	}{{job.Metric, 18300 * mm, false}, {job.Metric, 18301 * mm, true}, {job.Imperial, 60 * length.Foot, false},
		{job.Imperial, 60*length.Foot + mm, true}, {job.Imperial, 18300 * mm, true}} {
		j := example("ASCE 7-16")
		j.Units, j.Wind.RoofHeight, j.Wind.ParapetTop = c.units, c.roof, c.roof+900*mm
		j.Wind.WallReduction = true // belongs to low buildings
		_, found := Build(j, nil)
		if tall := slices.ContainsFunc(found,
			func(f finding.Finding) bool { return f.Code == "wind-reduction-tall" }); tall != c.tall {
			t.Errorf("%v, %v: tall %v", c.units, c.roof, tall)
		}
		if c.tall {
			continue
		}
		j.Wind.ParapetNote = true
		_, found = Build(j, nil)
		if low := slices.ContainsFunc(found,
			func(f finding.Finding) bool { return f.Code == "wind-parapet-note" }); low != (c.units == job.Imperial) {
			t.Errorf("%v: a parapet of 0.9 m is too low: %v", c.units, low)
		}
	}
}

// Stated pressures with a rear leg are compared as well, and converted.
func TestStatedRearLeg(t *testing.T) {
	j := example("ASCE 7-16")
	p := func(psf float64) job.Pressure { return job.Pressure{Pa: psf * pascalsPerPSF, Level: job.Strength} }
	z := job.ZonePressure{Up: p(200), Out: p(200)}
	j.Pressures = &job.Pressures{Edition: "ASCE 7-16", CornerLength: 40 * length.Foot, Edge: z, Corner: z}
	if d, found := Build(j, nil); d.RearKnown() || len(found) > 0 {
		t.Errorf("%+v: %v", d.Rear, found)
	}
	j.Pressures.Edge.Rear, j.Pressures.Corner.Rear = p(20), p(20)
	d, found := Build(j, nil)
	if !d.RearKnown() || len(found) != 1 || found[0].Code != "pressures-below" || !strings.Contains(found[0].What,
		"edge rear leg 12.0 psf") {
		t.Errorf("%+v: %v", d.Rear, found)
	}
}

func TestStatedStandOverComputed(t *testing.T) {
	j := example("ASCE 7-16")
	p := func(psf float64) job.Pressure { return job.Pressure{Pa: psf * pascalsPerPSF, Level: job.Allowable} }
	j.Pressures = &job.Pressures{Edition: "ASCE 7-16", CornerLength: 20 * length.Foot,
		Edge: job.ZonePressure{Up: p(39.80), Out: p(19.03)}, Corner: job.ZonePressure{Up: p(43), Out: p(24.23)}}
	d, found := Build(j, nil)
	if !d.Stated || d.Computed || d.Up[Corner] != p(43) || d.Check == nil || d.ToConfirm() {
		t.Fatalf("%+v", d)
	}
	if len(found) != 1 || found[0].Code != "pressures-below" || found[0].Severity != finding.Note ||
		!strings.Contains(found[0].What, "corner up 43.0 psf (2.06 kPa) allowable against 55.4 "+
			"psf") || strings.Contains(found[0].What, "edge") {
		t.Errorf("%v", found)
	}
	j.Wind.Speed = 20
	if d, found := Build(j, nil); !d.Stated || d.Check != nil || len(found.Holds()) > 0 || len(found) == 0 {
		t.Errorf("a check that fails holds the stated pressures: %v", found)
	}
}

func TestLeastFromThePerimeter(t *testing.T) {
	sq := 90 * job.Degree
	run := func(ft length.Length, turn job.Angle) job.Run {
		return job.Run{Length: ft * length.Foot, Right: job.End{Turn: turn}}
	}
	for _, c := range []struct {
		name string
		runs []job.Run
		want float64
	}{
		{"a rectangle", []job.Run{run(80, sq), run(40, sq), run(80, sq), run(40, sq)}, 40},
		{"an L goes by the whole", []job.Run{run(80, sq), run(60, sq), run(30, sq), run(20, -sq), run(50, sq), run(40, sq)},
			60},
	} {
		j := example("ASCE 7-16")
		j.Wind.Least = 0
		j.Perimeters = []job.Perimeter{{Name: "ROOF", Runs: c.runs}, {Name: "WELL", Kind: job.Well}}
		s := site{job: j.Wind}
		var found finding.List
		s.leastOf(j, nil, &found)
		near(t, c.name, s.least, c.want, 1e-6)
		if len(found) != 1 || found[0].Code != "wind-least-taken" || found[0].Severity != finding.Note {
			t.Errorf("%s: taken silently: %v", c.name, found)
		}
		// Measured on the rear face of a wall a foot wide, two feet short.
		s.leastOf(j, func(r *job.Run) length.Length { return r.Length + 2*length.Foot }, &found)
		if s.least < c.want+1.9 {
			t.Errorf("%s: %g ft where the front face has 2 ft more than %g", c.name, s.least, c.want)
		}
	}
}

// More speed, height or exposure never lowers a pressure, nor shortens a zone.
// Topography is left out: its speed-up fades with height, as it should.
func TestMonotonic(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := example(rapid.SampledFrom(editions()).Draw(t, "edition"))
		if rapid.Bool().Draw(t, "metric") {
			j.Units = job.Metric
		}
		w := j.Wind
		exposures := []string{"B", "C", "D"}
		e := rapid.IntRange(0, 2).Draw(t, "exposure")
		w.Exposure = exposures[e]
		w.Speed = float64(rapid.IntRange(100, 180).Draw(t, "mph")) * mpsPerMPH
		h := rapid.IntRange(8, 400).Draw(t, "h")
		up := rapid.IntRange(0, 8).Draw(t, "parapet")
		w.RoofHeight, w.ParapetTop = length.Length(h)*length.Foot, length.Length(h+up)*length.Foot
		w.Least = length.Length(rapid.IntRange(10, 600).Draw(t, "least")) * length.Foot
		w.Area = float64(rapid.IntRange(0, 40).Draw(t, "area"))
		before := mustCompute(t, j)
		switch rapid.IntRange(0, 4).Draw(t, "more") {
		case 0:
			w.Speed += float64(rapid.IntRange(1, 30).Draw(t, "faster")) * mpsPerMPH
		case 1:
			w.ParapetTop += length.Length(rapid.IntRange(1, 80).Draw(t, "taller")) * length.Foot
		case 2:
			w.Exposure = exposures[min(2, e+1)]
		case 3:
			w.Kzt = 1 + float64(rapid.IntRange(1, 20).Draw(t, "hill"))/10
		case 4:
			w.Area *= float64(rapid.IntRange(0, 99).Draw(t, "smaller")) / 100
		}
		after := mustCompute(t, j)
		for z := Edge; z <= Corner; z++ {
			for _, p := range [][2]job.Pressure{{before.Up[z], after.Up[z]}, {before.Out[z], after.Out[z]}, {before.Rear[z],
				after.Rear[z]}} {
				if p[1].Pa < p[0].Pa {
					t.Fatalf("%s zone: %v fell to %v", z, p[0], p[1])
				}
			}
		}
		if after.CornerLength < before.CornerLength {
			t.Fatalf("the corner zone shortened from %v to %v", before.CornerLength, after.CornerLength)
		}
		if before.Up[Corner].Pa < before.Up[Edge].Pa || before.Out[Corner].Pa < before.Out[Edge].Pa {
			t.Fatalf("the corner is below the edge")
		}
	})
}
