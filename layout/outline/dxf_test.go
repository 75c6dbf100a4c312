package outline

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"copingset/layout/length"
)

// groups writes a drawing of entities, each a list of codes and values.
func groups(units int, entities ...[]any) string {
	var b strings.Builder
	put := func(code int, v any) { fmt.Fprintf(&b, "%3d\n%v\n", code, v) }
	put(0, "SECTION")
	put(2, "HEADER")
	put(9, "$INSUNITS")
	put(70, units)
	put(0, "ENDSEC")
	put(0, "SECTION")
	put(2, "ENTITIES")
	for _, e := range entities {
		for i := 0; i < len(e); i += 2 {
			put(e[i].(int), e[i+1])
		}
	}
	put(0, "ENDSEC")
	put(0, "EOF")
	return b.String()
}

func line(x1, y1, x2, y2 float64) []any {
	return []any{0, "LINE", 8, "WALL", 10, x1, 20, y1, 11, x2, 21, y2}
}

func poly(closed int, xyb ...float64) []any {
	out := []any{0, "LWPOLYLINE", 8, "WALL", 90, len(xyb) / 3, 70, closed}
	for i := 0; i < len(xyb); i += 3 {
		out = append(out, 10, xyb[i], 20, xyb[i+1], 42, xyb[i+2])
	}
	return out
}

func read(t *testing.T, text string, o Options) (Plan, string) {
	t.Helper()
	rings, changes, found := DXF(strings.NewReader(text), "d.dxf", o)
	if found.HasErrors() {
		return Plan{}, found[0].Code
	}
	p, found := Of(rings, o)
	if found.HasErrors() {
		return Plan{}, found[0].Code
	}
	p.Changes = append(changes, p.Changes...)
	return p, ""
}

func TestDXF(t *testing.T) {
	const rect = "ROOF roof 90: A 12000 90 B 8000 90 D 12000 90 E 8000 90"
	heavy := [][]any{{0, "POLYLINE", 8, "WALL", 70, 1}}
	for _, p := range [][2]float64{{0, 0}, {12, 0}, {12, 8}, {0, 8}} {
		heavy = append(heavy, []any{0, "VERTEX", 8, "WALL", 10, p[0], 20, p[1]})
	}
	heavy = append(heavy, []any{0, "SEQEND"})
	for _, c := range []struct {
		name, text, want string
	}{
		{"polyline in metres", groups(6, poly(1, 0, 0, 0, 12, 0, 0, 12, 8, 0, 0, 8, 0)), rect},
		{"the same in millimetres", groups(4, poly(1, 0, 0, 0, 12000, 0, 0, 12000, 8000, 0, 0, 8000, 0)), rect},
		{"closed by its last point", groups(6, poly(0, 0, 0, 0, 12, 0, 0, 12, 8, 0, 0, 8, 0, 0, 0.002, 0)), rect},
		{"old polyline", groups(6, heavy...), rect},
		{"lines in any order, one backwards, one twice", groups(6, line(0, 0, 12, 0), line(0, 8, 0, 0), line(12, 8, 12, 0.003), line(12, 8, 0, 8), line(0, 0, 12, 0)), rect},
		{"seen from below", groups(6, append(poly(1, 0, 0, 0, -12, 0, 0, -12, 8, 0, 0, 8, 0), 230, -1.0)), rect},
		{"feet", groups(2, line(0, 0, 40, 0), line(40, 0, 40, 30), line(40, 30, 0, 30), line(0, 30, 0, 0)), "ROOF roof 90: A 12192 90 B 9144 90 D 12192 90 E 9144 90"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, code := read(t, c.text, usual)
			if code != "" || said(p.Perimeters[0]) != c.want {
				t.Errorf("%s %v, want %s", code, p, c.want)
			}
		})
	}
}

func TestDXFRefuses(t *testing.T) {
	square := poly(1, 0, 0, 0, 12, 0, 0, 12, 8, 0, 0, 8, 0)
	for _, c := range []struct {
		name, text, code string
	}{
		{"no units", groups(0, square), "outline-units"},
		{"a block", groups(6, []any{0, "INSERT", 8, "WALL", 2, "ROOF"}), "outline-entity"},
		{"a spline", groups(6, square, []any{0, "SPLINE", 8, "WALL"}), "outline-entity"},
		{"open", groups(6, line(0, 0, 12, 0), line(12, 0, 12, 8)), "outline-open"},
		{"a branch", groups(6, line(0, 0, 12, 0), line(12, 0, 12, 8), line(12, 0, 20, 8), line(12, 8, 0, 0)), "outline-branch"},
		{"not flat", groups(6, append(poly(1, 0, 0, 0, 12, 0, 0, 12, 8, 0), 210, 0.5)), "outline-entity"},
		{"far away", groups(6, poly(1, 0, 0, 0, 1e9, 0, 0, 1e9, 8, 0)), "outline-entity"},
		{"no DXF", "hello\nworld\n", "outline-dxf"},
		{"binary", "AutoCAD Binary DXF\r\n\x1a\x00", "outline-dxf"},
		{"cut short", "  0\nSECTION\n  2\n", "outline-dxf"},
		{"empty", "", "outline-dxf"},
		{"nothing closed", groups(6, []any{0, "TEXT", 8, "WALL", 1, "roof"}), "outline-none"},
	} {
		if _, code := read(t, c.text, usual); code != c.code {
			t.Errorf("%s: %q, want %s", c.name, code, c.code)
		}
	}
	o := usual
	o.Layer = "wall"
	if p, code := read(t, groups(6, square, []any{0, "SPLINE", 8, "TREES"}, []any{0, "TEXT", 8, "WALL"}), o); code != "" || len(p.Changes) != 1 {
		t.Errorf("one layer: %s %v", code, p.Changes)
	}
}

// A half circle of 4 m on a rectangle, once as a bulge and once as an arc: the
// facets' lengths sum to the arc's less than a chord's worth, and their turns to 180°.
func TestArcsBecomeFacets(t *testing.T) {
	bulge := groups(6, poly(1, 0, 0, 0, 12, 0, 1, 12, 8, 0, 0, 8, 0))
	arc := groups(6, line(0, 0, 12, 0), []any{0, "ARC", 8, "WALL", 10, 12.0, 20, 4.0, 40, 4.0, 50, 270.0, 51, 90.0}, line(12, 8, 0, 8), line(0, 8, 0, 0))
	a, code := read(t, bulge, usual)
	if code != "" {
		t.Fatal(code)
	}
	b, code := read(t, arc, usual)
	if code != "" {
		t.Fatal(code)
	}
	if said(a.Perimeters[0]) != said(b.Perimeters[0]) {
		t.Errorf("bulge %s\narc %s", said(a.Perimeters[0]), said(b.Perimeters[0]))
	}
	var round float64
	n := 0
	for _, s := range a.Perimeters[0].Sides[1 : len(a.Perimeters[0].Sides)-2] {
		if !s.Facet {
			t.Errorf("%v is no facet", s)
		}
		round += s.Length.MM()
		n++
	}
	step := math.Pi / float64(n)
	if want := float64(n) * 2 * 4000 * math.Sin(step/2); math.Abs(round-want) > 1 {
		t.Errorf("%d facets make %g, want %g", n, round, want)
	}
	if sagitta := 4000 * (1 - math.Cos(step/2)); sagitta > usual.Chord.MM() {
		t.Errorf("a facet lies %g from the arc", sagitta)
	}
	c, code := read(t, groups(6, []any{0, "CIRCLE", 8, "WALL", 10, 5.0, 20, 5.0, 40, 6.0}), usual)
	if code != "" || len(c.Perimeters[0].Sides) < 20 {
		t.Errorf("a round building: %s %v", code, c)
	}
}

// Another program writes the drawing; what it says of its own areas is what is read.
func TestAnotherProgramDraws(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil || exec.Command(python, "-c", "import ezdxf").Run() != nil {
		t.Skip("python3-ezdxf is not installed: no drawing of another program is read")
	}
	dir := t.TempDir()
	script := `
import ezdxf, json, sys, os
from ezdxf import units
from ezdxf.math import area
out = {}
def save(name, ins, draw):
    doc = ezdxf.new("R2010"); doc.units = ins; msp = doc.modelspace()
    pts = draw(msp)
    doc.saveas(os.path.join(sys.argv[1], name)); out[name] = abs(area(pts))
ell = [(0,0),(40,0),(40,18),(22,18),(22,30),(0,30)]
save("poly.dxf", units.FT, lambda m: (m.add_lwpolyline(ell, close=True), ell)[1])
save("old.dxf", units.IN, lambda m: (m.add_polyline2d([(x*12,y*12) for x,y in ell], close=True), [(x*12,y*12) for x,y in ell])[1])
def lines(m):
    n = len(ell)
    for i in range(n): m.add_line(ell[i], ell[(i+1)%n], dxfattribs={"layer":"WALL"})
    m.add_text("roof"); m.add_mtext("note")
    return ell
save("lines.dxf", units.M, lines)
def bulged(m):
    p = m.add_lwpolyline([(0,0,0),(12,0,0.5),(12,8,0),(0,8,0)], format="xyb", close=True)
    return [v for v in p.flattened_vertices] if hasattr(p,"flattened_vertices") else [(v.x,v.y) for v in ezdxf.path.make_path(p).flattening(0.0005)]
save("bulge.dxf", units.M, bulged)
print(json.dumps(out))
`
	out, err := exec.Command(python, "-c", script, dir).Output()
	if err != nil {
		t.Fatalf("%v", err)
	}
	var want map[string]float64
	if err := json.Unmarshal(out, &want); err != nil {
		t.Fatal(err)
	}
	unit := map[string]float64{"poly.dxf": 304.8, "old.dxf": 25.4, "lines.dxf": 1000, "bulge.dxf": 1000}
	for name, square := range want {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		o := usual
		o.Chord = length.Millimetre
		o.Near = length.Millimetre / 2
		p, code := read(t, string(data), o)
		if code != "" {
			t.Errorf("%s: %s", name, code)
			continue
		}
		var at vec
		var v []vec
		way := p.Perimeters[0].Bearing.Degrees()
		for _, s := range p.Perimeters[0].Sides {
			v = append(v, at)
			at = at.add(ahead(way).times(s.Length.MM()))
			way += s.Turn.Degrees()
		}
		got := -area(v) / unit[name] / unit[name]
		if math.Abs(got-square) > square*2e-4 {
			t.Errorf("%s: an area of %g, the other program's is %g", name, got, square)
		}
	}
}

func FuzzDXF(f *testing.F) {
	f.Add(groups(6, poly(1, 0, 0, 0, 12, 0, 0.4, 12, 8, 0, 0, 8, 0)))
	f.Add(groups(1, line(0, 0, 12, 0), []any{0, "ARC", 8, "0", 10, 1.0, 20, 2.0, 40, 3.0, 50, 0.0, 51, 90.0}))
	f.Add(groups(2, []any{0, "POLYLINE", 70, 1}, []any{0, "VERTEX", 10, 1, 20, 2, 42, 1e300}, []any{0, "SEQEND"}))
	f.Fuzz(func(t *testing.T, text string) {
		rings, _, found := DXF(strings.NewReader(text), "d.dxf", usual)
		if !found.HasErrors() {
			Of(rings, usual)
		}
	})
}
