package outline

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

var usual = Options{Near: 6 * length.Millimetre, Chord: 12 * length.Millimetre, Metric: true}

// ring is a ring of points in metres.
func ring(name string, xy ...float64) Ring {
	r := Ring{Name: name, At: finding.Place{File: "t.csv", Line: 1}}
	for i := 0; i < len(xy); i += 2 {
		r.V = append(r.V, Vertex{Point: Point{length.FromMM(xy[i] * 1000), length.FromMM(xy[i+1] * 1000)}, At: finding.Place{File: "t.csv", Line: i/2 + 2}})
	}
	return r
}

func plan(t *testing.T, o Options, rings ...Ring) Plan {
	t.Helper()
	p, found := Of(rings, o)
	if len(found) > 0 {
		t.Fatal(found)
	}
	return p
}

// said is a perimeter in a line.
func said(p Perimeter) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s %s:", p.Name, p.Kind, angle(p.Bearing))
	for _, s := range p.Sides {
		fmt.Fprintf(&b, " %s %s %s", s.Name, length.Millimetres(s.Length, 0), angle(s.Turn))
	}
	return b.String()
}

func TestOf(t *testing.T) {
	ell := []float64{0, 0, 10, 0, 10, 4, 6, 4, 6, 8, 0, 8}
	for _, c := range []struct {
		name  string
		rings []Ring
		want  []string
	}{
		{"rectangle, drawn counter-clockwise", []Ring{ring("r", 0, 0, 12, 0, 12, 8, 0, 8)}, []string{"ROOF roof 90: A 12000 90 B 8000 90 D 12000 90 E 8000 90"}},
		{"the same clockwise", []Ring{ring("r", 0, 8, 12, 8, 12, 0, 0, 0)}, []string{"ROOF roof 90: A 12000 90 B 8000 90 D 12000 90 E 8000 90"}},
		{"an inside corner turns left", []Ring{ring("r", ell...)}, []string{"ROOF roof 90: A 6000 90 B 4000 -90 D 4000 90 E 4000 90 F 10000 90 G 8000 90"}},
		{"a well", []Ring{ring("r", 0, 0, 12, 0, 12, 8, 0, 8), ring("w", 4, 3, 6, 3, 6, 5, 4, 5)},
			[]string{"ROOF roof 90: A1 12000 90 A2 8000 90 A3 12000 90 A4 8000 90", "WELL well 90: B1 2000 -90 B2 2000 -90 B3 2000 -90 B4 2000 -90"}},
		{"closed twice, a point on a line, a spike", []Ring{ring("r", 0, 0, 5, 0, 12, 0, 12, 8, 12, 9, 12, 8, 0, 8, 0, 0)}, []string{"ROOF roof 90: A 12000 90 B 8000 90 D 12000 90 E 8000 90"}},
		{"turned by thirty degrees", []Ring{ring("r", 0, 0, 8.6602540, -5, 12.6602540, 1.9282032, 4, 6.9282032)}, []string{"ROOF roof 120: A 10000 90 B 8000 90 D 10000 90 E 8000 90"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := plan(t, usual, c.rings...)
			var got []string
			for _, q := range p.Perimeters {
				got = append(got, said(q))
			}
			if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(c.want, "\n"))
			}
		})
	}
}

func TestWhatWasLeftOutIsSaid(t *testing.T) {
	p := plan(t, usual, ring("the outline", 0, 0, 5, 0, 12, 0, 12, 8, 0, 8, 0, 0))
	want := []string{"the outline: a point within 6 mm of the one before it, t.csv:7, is left out", "the outline: a point within 6 mm of the line between its neighbours, t.csv:3, is left out"}
	if strings.Join(p.Changes, "\n") != strings.Join(want, "\n") {
		t.Errorf("said\n%s\nwant\n%s", strings.Join(p.Changes, "\n"), strings.Join(want, "\n"))
	}
}

func TestUnfitOutlines(t *testing.T) {
	for _, c := range []struct {
		code  string
		line  int
		rings []Ring
	}{
		{"outline-crosses", 4, []Ring{ring("bow tie", 0, 0, 12, 8, 12, 0, 0, 8)}},
		{"outline-area", 1, []Ring{ring("a line", 0, 0, 12, 0, 24, 0)}},
		{"outline-area", 1, []Ring{ring("a sliver", 0, 0, 12, 0, 12, 0.008, 0, 0.008)}},
		{"outline-area", 1, []Ring{ring("two points", 0, 0, 12, 0)}},
		{"outline-overlap", 2, []Ring{ring("one", 0, 0, 12, 0, 12, 8, 0, 8), ring("other", 6, 4, 18, 4, 18, 12, 6, 12)}},
		{"outline-none", 0, nil},
	} {
		p, found := Of(c.rings, usual)
		if len(found) == 0 || found[0].Code != c.code || len(p.Perimeters) > 0 {
			t.Errorf("want %s, got %v", c.code, found)
			continue
		}
		if c.line > 0 && found[0].At.Line != c.line {
			t.Errorf("%s stands at line %d, want %d: %v", c.code, found[0].At.Line, c.line, found[0])
		}
	}
}

// However a loop is drawn, the same perimeters come of it: from any point, either
// way round, with points on its sides.
func TestDrawnAnyWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// A comb of steps along the north: never crosses itself.
		n := rapid.IntRange(1, 8).Draw(t, "steps")
		xy := []float64{0, 0, float64(n) * 3, 0}
		for i := n - 1; i >= 0; i-- {
			h := float64(rapid.IntRange(4, 9).Draw(t, "high")) + float64(i)/16 // no two alike
			xy = append(xy, float64(i+1)*3, h, float64(i)*3, h)
		}
		r := ring("r", xy...)
		a, found := Of([]Ring{r}, usual)
		if len(found) > 0 {
			t.Fatal(found)
		}
		from := rapid.IntRange(0, len(r.V)-1).Draw(t, "from")
		var v []Vertex
		for i := range r.V {
			p, q := r.V[(from+i)%len(r.V)], r.V[(from+i+1)%len(r.V)]
			v = append(v, p)
			if rapid.Bool().Draw(t, "between") {
				m := p
				m.Point = p.vec().add(q.vec()).times(0.5).point()
				v = append(v, m)
			}
		}
		if rapid.Bool().Draw(t, "back") {
			for i, k := 0, len(v)-1; i < k; i, k = i+1, k-1 {
				v[i], v[k] = v[k], v[i]
			}
		}
		b, found := Of([]Ring{{Name: "r", V: v}}, usual)
		if len(found) > 0 {
			t.Fatal(found)
		}
		if said(a.Perimeters[0]) != said(b.Perimeters[0]) {
			t.Fatalf("%s\n%s", said(a.Perimeters[0]), said(b.Perimeters[0]))
		}
	})
}

// The job that is written reads back, closes, and is on hold.
func TestTextReads(t *testing.T) {
	const names = "abcdefgh"
	system, err := os.ReadFile("../../samples/systems/brindle-r8.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range []Plan{Rect(120*length.Foot, 80*length.Foot),
		plan(t, usual, ring("r", 0, 0, 10, 0, 10, 4, 6, 4, 6, 8, 0, 8)),
		plan(t, usual, ring("r", 0, 0, 12, 0, 12, 8, 0, 8), ring("w", 4, 3, 6, 3, 6, 5, 4, 5))} {
		for _, u := range []job.Units{job.Imperial, job.Metric} {
			text := p.Text(Begin{Name: "Hall: north & \"south\"", Issued: "2026-03-16", Units: u, From: names[i : i+1], Include: []string{"system.yaml"}})
			j, found := job.Read(fstest.MapFS{"job.yaml": {Data: []byte(text)}, "system.yaml": {Data: system}}, "job.yaml")
			codes := map[string]bool{}
			for _, f := range found {
				if f.Severity == finding.Error {
					t.Errorf("%v", f)
				}
				codes[f.Code] = true
			}
			for _, c := range []string{"wall-unconfirmed", "membrane-unconfirmed", "run-unsurveyed"} {
				if !codes[c] {
					t.Errorf("a new job is not held for %s", c)
				}
			}
			if len(j.Perimeters) != len(p.Perimeters) {
				t.Fatalf("%d perimeters of %d", len(j.Perimeters), len(p.Perimeters))
			}
			for k, q := range p.Perimeters {
				for n, s := range q.Sides {
					r := j.Perimeters[k].Runs[n]
					if r.Name != s.Name || length.Abs(r.Length-s.Length) > length.Inch16 || r.Basis != job.Drawing || length.Angle(r.Right.Turn) != s.Turn {
						t.Errorf("run %+v of side %+v", r, s)
					}
				}
			}
			if j.Info.Name != "Hall: north & \"south\"" {
				t.Errorf("the job's name is %q", j.Info.Name)
			}
		}
	}
}

func TestSides(t *testing.T) {
	p, err := Sides("40 ft right 90 30 ft right 90, 20' right 90 10'-0\" left 90 20 ft right 90 20 ft", 90*length.Degree, length.Inch)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := said(p.Perimeters[0]), "ROOF roof 90: A 12192 90 B 9144 90 D 6096 90 E 3048 -90 F 6096 90 G 6096 90"; got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if p, err = Sides("4 m left 90 3 m left 90 4 m left 90 3 m left 90", 0, length.Inch); err != nil || p.Perimeters[0].Kind != Well {
		t.Errorf("left turns make a well: %v %v", p, err)
	}
	for text, want := range map[string]string{
		"40 ft right 90 30 ft right 90 41 ft right 90 30 ft right 90": "1'-0\" (305 mm) from where the first begins, towards a bearing of 270°",
		"40 ft right 90 30 ft left 90 40 ft right 90 30 ft right 90":  "right turns less left turns make 180°",
		"right 90 30 ft":             "side 1: its length is missing",
		"40 right 90 30 ft right 90": "side 1",
		"40 ft right 190 30 ft":      "not by 190",
		"40 ft":                      "1 sides do not go round",
	} {
		if _, err := Sides(text, 90*length.Degree, length.Inch); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

func TestPoints(t *testing.T) {
	rings, found := Points(strings.NewReader("# a sketch\nloop,East (m),north (m)\n,0,0\n,12,0\n,12,8\n,0,8\nwell,4,3\nwell,6,3\nwell,6,5\nwell,4,500 cm\n"), "p.csv")
	if len(found) > 0 {
		t.Fatal(found)
	}
	p := plan(t, usual, rings...)
	if len(p.Perimeters) != 2 || said(p.Perimeters[1]) != "WELL well 90: B1 2000 -90 B2 2000 -90 B3 2000 -90 B4 2000 -90" {
		t.Errorf("%v", p)
	}
	for text, code := range map[string]string{
		"":                        "outline-csv",
		"x,y\n0,0\n":              "outline-csv", // no unit
		"x (ft),z (ft)\n0,0\n":    "outline-csv",
		"x (ft),y (ft)\n0\n":      "outline-csv",
		"x (ft),y (ft)\n0,abc\n":  "outline-csv",
		"x (ft),y (ft)\n0,1e99\n": "outline-csv",
		"x (ft),y (ft)\n0,NaN\n":  "outline-csv",
	} {
		if _, found := Points(strings.NewReader(text), "p.csv"); len(found) == 0 || found[0].Code != code {
			t.Errorf("%q: %v", text, found)
		}
	}
}

// A facet's sagitta is r(1 - cos(a/2)).
func TestFacetsKeepToTheChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rapid.Float64Range(100, 50_000).Draw(t, "radius")
		chord := rapid.Float64Range(1, 50).Draw(t, "chord")
		sweep := rapid.Float64Range(0.05, 2*math.Pi).Draw(t, "sweep")
		p := facets(vec{}, r, 0.3, sweep, chord)
		a := sweep / float64(len(p)+1)
		if got := r * (1 - math.Cos(a/2)); got > chord+1e-6 && len(p) > 0 {
			t.Fatalf("a facet lies %g from its arc, %g is allowed", got, chord)
		}
	})
}

// A round wall of close points keeps to its curve.
func TestCurvesOfPointsAreKept(t *testing.T) {
	var xy []float64
	const n = 400
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		xy = append(xy, 10*c, 10*s)
	}
	p := plan(t, usual, ring("r", xy...))
	// A chord 6 mm from a circle of 10 m spans 2·acos(1 - 0.0006) = 3.97°.
	if got := len(p.Perimeters[0].Sides); got < 88 || got > 140 {
		t.Errorf("%d sides are left of %d", got, n)
	}
}

func FuzzPoints(f *testing.F) {
	f.Add("x (ft),y (ft)\n0,0\n1,0\n1,1\n")
	f.Add("loop,east (m),north (m)\na,0,0\n\"b\"\"")
	f.Fuzz(func(t *testing.T, text string) {
		rings, found := Points(strings.NewReader(text), "p.csv")
		if !found.HasErrors() {
			Of(rings, usual)
		}
	})
}

func FuzzSides(f *testing.F) {
	f.Add("40 ft right 90 30 ft left 3.5 1 m")
	f.Fuzz(func(_ *testing.T, text string) { _, _ = Sides(text, 0, length.Inch) })
}
