package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
)

// FuzzRead reads a job file, a survey and an included file of any bytes. It must never fail
// without a finding, nor hand out a job with errors, nor answer twice
// differently.
func FuzzRead(f *testing.F) {
	for _, dir := range []string{"good", "bad"} {
		files, err := filepath.Glob("testdata/" + dir + "/*.yaml")
		if err != nil || len(files) == 0 {
			f.Fatal("no seeds", err)
		}
		for _, name := range files {
			job, err := os.ReadFile(name)
			if err != nil {
				f.Fatal(err)
			}
			csv, err := os.ReadFile(strings.TrimSuffix(name, ".yaml") + ".csv")
			if err != nil {
				csv = []byte("run,station,width,street_top,roof_top,offset\n")
			}
			f.Add(string(job), string(csv), formatLine+"job: {owner: Lowmere Water Board}\nsystem: {stock: 10'-0\"}\n")
		}
	}
	f.Fuzz(func(t *testing.T, job, csv, part string) {
		fsys := fstest.MapFS{"a.yaml": {Data: []byte(job)}, "firm/owner.yaml": {Data: []byte(part)}}
		for _, name := range []string{"heron.csv", "every-key.csv", "survey.csv", "columns.csv"} {
			fsys[name] = &fstest.MapFile{Data: []byte(csv)}
		}
		j, list := Read(fsys, "a.yaml")
		if (j == nil) != list.HasErrors() {
			t.Fatalf("job %v, findings %v", j != nil, list)
		}
		_, again := Read(fsys, "a.yaml")
		if len(again) != len(list) {
			t.Fatalf("%d findings, then %d", len(list), len(again))
		}
		for i, g := range list {
			if g.String() != again[i].String() {
				t.Fatalf("%v, then %v", g, again[i])
			}
			if g.What == "" || g.Mend == "" || g.Code == "" || strings.ContainsAny(g.String(), "\n\x00") {
				t.Fatalf("finding %q", g.String())
			}
		}
		if j != nil {
			soundJob(t, j, list)
		}
	})
}

// soundJob checks what later rooms rely on in a job that is handed out.
func soundJob(t *testing.T, j *Job, list finding.List) {
	s := &j.System
	if s.Stock <= 0 || s.LeastPiece > s.Stock || s.Chair.Length <= 0 || len(s.Corner.Supports) == 0 {
		t.Fatalf("system %+v", s)
	}
	names := map[string]bool{}
	for _, p := range j.Perimeters {
		for i, r := range p.Runs {
			if r.Length <= 0 || names[r.Name] || !runName(r.Name) {
				t.Fatalf("run %+v", r)
			}
			names[r.Name] = true
			if turns := r.Right.Turn != 0; turns != (r.Right.Kind == EndTurn) {
				t.Fatalf("end %+v", r.Right)
			}
			if steps := r.Right.Step != 0; steps != (r.Right.Kind == EndStep) {
				t.Fatalf("end %+v", r.Right)
			}
			if breaks := r.Right.Pitch != NoPitch; breaks != (r.Right.Kind == EndPitch) {
				t.Fatalf("end %+v", r.Right)
			}
			if last := p.Kind == Open && i == len(p.Runs)-1; last != (r.Right.Kind == EndFree || r.Right.Kind == EndWall || r.Right.Kind == EndTee) {
				t.Fatalf("end %+v of a %v", r.Right, p.Kind)
			}
			if tees := r.Right.Tee != nil; tees != (r.Right.Kind == EndTee) {
				t.Fatalf("end %+v", r.Right)
			}
			for k, q := range r.Readings {
				if q.Width <= 0 || q.Station < 0 || k > 0 && q.Station <= r.Readings[k-1].Station {
					t.Fatalf("reading %+v", q)
				}
			}
			if len(r.Readings) < 2 && len(list.Holds().ByRun(r.Name)) == 0 {
				t.Fatalf("run %s is not on hold", r.Name)
			}
		}
	}
}

// FuzzScalars gives any text to every parser of a value.
func FuzzScalars(f *testing.F) {
	for _, s := range []string{"right 45", "135 outside", "1/2\" in 12\"", "1:24", "4%", "2.4 deg", "68 F", "12.9e-6 /F", "0.099 lb/in3",
		"as-pulled 88 psf", "26 psf allowable", "2026-03-16", "14.50", "50 lb", "115 mph", "51 m/s", "10 ft2", "1.8 kN", "e", "-", "−1", "1e99", ".", "1.e5", "0:0", " in "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		check := func(what string, err error) {
			if err == nil {
				return
			}
			p := faultOf(err, "x", "y")
			if p.code == "x" || p.what == "" || p.mend == "" {
				t.Fatalf("%s %q: %+v", what, s, p)
			}
		}
		turn, err := ParseTurn(s)
		check("turn", err)
		if err == nil && (turn == 0 || max(turn, -turn) >= 175*Degree) {
			t.Fatalf("turn %q: %d", s, turn)
		}
		turn, err = ParseIncluded(s)
		check("included", err)
		if err == nil && (turn == 0 || max(turn, -turn) >= 175*Degree) {
			t.Fatalf("included %q: %d", s, turn)
		}
		slope, err := ParseSlope(s)
		check("slope", err)
		if err == nil && (slope < 0 || slope > 1_000_000_000) {
			t.Fatalf("slope %q: %d", s, slope)
		}
		pressure, err := ParsePressure(s)
		check("pressure", err)
		if err == nil && !(pressure.Pa > 0) {
			t.Fatalf("pressure %q: %v", s, pressure)
		}
		_, err = ParseAngle(s)
		check("angle", err)
		_, err = ParseTemperature(s)
		check("temperature", err)
		date, err := ParseDate(s)
		check("date", err)
		if err == nil && date.Month == 0 {
			t.Fatalf("date %q", s)
		}
		_, err = parseDensity(s)
		check("density", err)
		_, err = parseExpansion(s)
		check("expansion", err)
		_, err = parseMass(s)
		check("mass", err)
		_, err = parsePercent(s)
		check("percent", err)
		_, err = parseMoney(s)
		check("money", err)
		_, err = parseFactor(s)
		check("factor", err)
		_, err = parseCount(s)
		check("count", err)
		speed, err := parseSpeed(s)
		check("speed", err)
		area, err2 := parseArea(s)
		check("area", err2)
		pull, err3 := parseForce(s)
		check("force", err3)
		if err == nil && !(speed > 0) || err2 == nil && !(area > 0) || err3 == nil && !(pull > 0) {
			t.Fatalf("%q: speed %v, area %v, force %v", s, speed, area, pull)
		}
		kzt, err := parseKzt(s)
		check("topographic factor", err)
		if err == nil && kzt < 1 {
			t.Fatalf("topographic factor %q: %v", s, kzt)
		}
		_, err = parseGravity(s)
		check("gravity", err)
	})
}
