package sheets

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/job/jobtest"
)

// Drawings for machines hold the patterns themselves: areas, and bends on the
// layer of their way.
func TestMachinesAreThePatterns(t *testing.T) {
	for _, units := range []job.Units{job.Imperial, job.Metric} {
		j := withShop(perimeters(ell(), open()))
		j.Units = units
		l := build(t, j)
		all := map[string]dxf.Drawing{}
		for _, m := range Machines(l) {
			if _, twice := all[m.Name]; twice {
				t.Errorf("%s twice", m.Name)
			}
			all[m.Name] = m.Drawing
		}
		k := 25.4
		if units == job.Metric {
			k = 1
		}
		files, formed := 0, 0
		for _, f := range l.Families {
			if len(l.FromSheet(f)) == 0 {
				for name := range all {
					if fileOf(name, f.Mark) {
						t.Errorf("%s is written, and no piece of family %s has a blank of its own", name, f.Mark)
					}
				}
				continue
			}
			var area float64
			for name, d := range all {
				if !fileOf(name, f.Mark) {
					continue
				}
				files++
				for i, p := range d.Lines {
					if p.Layer != dxf.Cut {
						continue
					}
					a := math.Abs(ringArea(p.Points)) * k * k
					if i > 0 {
						a = -a
					}
					area += a
				}
			}
			if want := f.Area(); math.Abs(area-want) > 1e-6*want {
				t.Errorf("family %s: %.3f mm² in its files, %.3f in its patterns", f.Mark, area, want)
			}
		}
		for _, q := range l.Parts {
			for name, d := range all {
				if fileOf(name, q.Mark) && q.Kind.String() == "formed cap for closers" {
					formed++
					if got, want := math.Abs(ringArea(d.Lines[0].Points))*k*k, q.Area(); math.Abs(got-want) > 1e-6*want {
						t.Errorf("formed cap %s: %.3f mm² in its file, %.3f in its pattern", q.Mark, got, want)
					}
				}
			}
		}
		if files == 0 || formed == 0 {
			t.Errorf("%d patterns are written, %d of formed caps", files, formed)
		}
	}
}

// fileOf reports whether a file is of a mark: job, part, revision.
func fileOf(name, mark string) bool {
	part := strings.Split(name, "_")
	return len(part) == 3 && (part[1] == mark || strings.HasPrefix(part[1], mark+"-"))
}

func ringArea(pts []dxf.Point) float64 {
	ring := make([]fold.Point, len(pts))
	for i, p := range pts {
		ring[i] = fold.Point{X: p.X, Y: p.Y}
	}
	return fold.Area(ring)
}

// An independent reader measures the same areas.
func TestAnotherReaderMeasuresThePatterns(t *testing.T) {
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if python == "" && exec.Command(p, "-c", "import ezdxf").Run() == nil {
			python = p
		}
	}
	if python == "" {
		t.Skip("python3-ezdxf is not installed: the patterns are not measured by another program")
	}
	for _, units := range []job.Units{job.Imperial, job.Metric} {
		readBack(t, python, units)
	}
}

// readBack has another program measure the drawings of a job in some units. The
// format counts inches as 1 and millimetres as 4.
func readBack(t *testing.T, python string, units job.Units) {
	t.Helper()
	j := withShop(perimeters(ell(), open()))
	j.Units = units
	j.Perimeters[0].Runs[0].Obstacles = []job.Obstacle{{Name: "pipe", Station: 300 * in, Extent: 5 * in, FromFace: 4 * in, Depth: 3 * in, Does: job.Pierces, Collar: "roofer"}}
	l := build(t, j)
	want := 1
	if units == job.Metric {
		want = 4
	}
	dir := t.TempDir()
	for _, m := range Machines(l) {
		if err := os.WriteFile(filepath.Join(dir, m.Name), dxf.Encode(m.Drawing), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	const read = `
import sys, json, glob, os, ezdxf
from ezdxf.math import area
out = {}
for name in sorted(glob.glob(os.path.join(sys.argv[1], "*.dxf"))):
  doc = ezdxf.readfile(name)
  audit = doc.audit()
  out[os.path.basename(name)] = {"errors": [str(e.message) for e in audit.errors + audit.fixes], "units": doc.units,
    "areas": [area(e.vertices()) for e in doc.modelspace() if e.dxf.layer == "CUT" and e.dxftype() == "LWPOLYLINE" and e.closed],
    "open": [1 for e in doc.modelspace() if e.dxf.layer == "CUT" and e.dxftype() == "LWPOLYLINE" and not e.closed],
    "layers": sorted(set(e.dxf.layer for e in doc.modelspace()))}
print(json.dumps(out))
`
	raw, err := exec.Command(python, "-c", read, dir).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	var got map[string]struct {
		Errors, Layers []string
		Units          int
		Areas          []float64
		Open           []int
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	holes := 0
	for _, m := range Machines(l) {
		g := got[m.Name]
		if len(g.Areas) > 1 {
			holes++
		}
		if len(g.Errors) > 0 || len(g.Open) > 0 || g.Units != want {
			t.Errorf("%s: %+v", m.Name, g)
		}
		i := 0
		for _, p := range m.Drawing.Lines {
			if p.Layer != dxf.Cut {
				continue
			}
			if want := math.Abs(ringArea(p.Points)); i >= len(g.Areas) || math.Abs(math.Abs(g.Areas[i])-want) > 1e-5*want {
				t.Errorf("%s: areas %v, want %.4f at %d", m.Name, g.Areas, want, i)
			}
			i++
		}
	}
	if holes == 0 {
		t.Error("no pattern has a hole")
	}
}

// A machine that cuts a line twice spoils the piece, and one that finds an outline
// open stops: every stroke is there once, every cut is closed, and layers hold what
// their names say.
func TestMachineLinesAreThereOnce(t *testing.T) {
	for _, c := range workshops() {
		for _, m := range Machines(c.layout) {
			seen := map[string]bool{}
			cuts, bends := 0, 0
			for _, p := range m.Drawing.Lines {
				n := len(p.Points)
				switch p.Layer {
				case dxf.Cut:
					cuts++
					if !p.Closed || n < 3 {
						t.Errorf("%s, %s: a cut of %d points, closed %v", c.name, m.Name, n, p.Closed)
					}
				case dxf.BendUp, dxf.BendDown:
					bends++
					if p.Closed || n != 2 {
						t.Errorf("%s, %s: a bend of %d points, closed %v", c.name, m.Name, n, p.Closed)
					}
				case dxf.Text, dxf.Mark:
					t.Errorf("%s, %s: a line on layer %v", c.name, m.Name, p.Layer)
				}
				for i := range n {
					if i == n-1 && !p.Closed {
						break
					}
					ends := []string{fmt.Sprintf("%.4f %.4f", p.Points[i].X, p.Points[i].Y), fmt.Sprintf("%.4f %.4f", p.Points[(i+1)%n].X, p.Points[(i+1)%n].Y)}
					if ends[0] == ends[1] {
						t.Errorf("%s, %s: a line without length at %s", c.name, m.Name, ends[0])
					}
					slices.Sort(ends)
					if key := strings.Join(ends, " to "); seen[key] {
						t.Errorf("%s, %s: a line is there twice: %s", c.name, m.Name, key)
					} else {
						seen[key] = true
					}
				}
			}
			for _, n := range m.Drawing.Notes {
				if n.Layer != dxf.Text { // nothing is etched that the job does not ask for
					t.Errorf("%s, %s: %q on layer %v", c.name, m.Name, n.Text, n.Layer)
				}
			}
			if flat := !strings.Contains(m.Name, "_key-plan-"); flat && cuts == 0 || !flat && cuts+bends > 0 {
				t.Errorf("%s, %s: %d cuts, %d bends", c.name, m.Name, cuts, bends)
			}
		}
	}
}

// cutShape is all that is cut of a family, as seen from the finish side or in the
// mirror, apart from where it lies.
func cutShape(b *book, f *layout.Family, flip bool) []string {
	var out []string
	for i := range f.Bodies {
		lo, hi := math.Inf(1), math.Inf(-1)
		d := b.flatDXF(f, i, "0")
		for _, p := range d.Lines {
			for _, q := range p.Points {
				lo, hi = min(lo, q.X), max(hi, q.X)
			}
		}
		var body []string
		for _, p := range d.Lines {
			var pts []string
			for _, q := range p.Points {
				x := q.X - lo
				if flip {
					x = hi - q.X
				}
				pts = append(pts, fmt.Sprintf("%.3f %.3f", x+0, q.Y+0))
			}
			slices.Sort(pts)
			body = append(body, p.Layer.String()+": "+strings.Join(pts, ", "))
		}
		slices.Sort(body)
		out = append(out, strings.Join(body, "; "))
	}
	slices.Sort(out)
	return out
}

// The drawing of a left piece is the mirror of its right twin's, bends and holes
// included, and not the same drawing.
func TestTwinsAreMirrored(t *testing.T) {
	sq := 90 * job.Degree
	p := jobtest.Perimeter("YARD", job.Open, jobtest.Run("A", 200*in, sq), jobtest.Run("B", 420*in, -sq), jobtest.Run("C", 44*in, -sq), jobtest.Run("D", 420*in, sq), jobtest.Run("E", 200*in, 0))
	p.Starts = job.End{Kind: job.EndFree}
	p.Runs[4].Right = job.End{Kind: job.EndFree}
	j := withShop(perimeters(p))
	j.Units = job.Metric
	l := build(t, j)
	b := newBook(l, Options{})
	twins := 0
	for _, f := range l.Families {
		if f.Twin == nil || len(f.Bodies) == 0 {
			continue
		}
		twins++
		here, there := cutShape(b, f, false), cutShape(b, f.Twin, true)
		if !slices.Equal(here, there) {
			t.Errorf("%s is not the mirror of %s:\n%s\n%s", f.Mark, f.Twin.Mark, strings.Join(here, "\n"), strings.Join(there, "\n"))
		}
		if slices.Equal(here, cutShape(b, f.Twin, false)) {
			t.Errorf("%s and its twin %s are cut alike", f.Mark, f.Twin.Mark)
		}
	}
	if twins < 2 {
		t.Errorf("%d families with a twin", twins)
	}
}

// A run on hold says so on the key plan for machines.
func TestKeyPlanForMachinesSaysHold(t *testing.T) {
	for _, c := range workshops() {
		l := c.layout
		machines := Machines(l)
		for _, p := range l.Perimeters {
			for _, r := range p.Runs {
				said := false
				for _, m := range machines {
					for _, n := range m.Drawing.Notes {
						said = said || n.Text == r.Name+" HOLD"
					}
				}
				if held := len(l.HoldsOn(r)) > 0; held && !said {
					t.Errorf("%s: run %s is on hold, and the plan does not say so", c.name, r.Name)
				}
			}
		}
	}
}
