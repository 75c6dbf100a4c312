package dxf

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// specimen is not alike under any mirror or turn.
func specimen() Drawing {
	return Drawing{
		Lines: []Polyline{
			{Cut, []Point{{0, 0}, {300, 0}, {260, 120}, {0, 120}}, true},
			{Cut, []Point{{40, 30}, {60, 30}, {60, 50}, {40, 50}}, true},
			{BendDown, []Point{{0, 80}, {273.333333333, 80}}, false},
			{BendUp, []Point{{0, 10}, {296.67, 10}}, false},
			{Mark, []Point{{5, 5}, {5, 15}}, false},
		},
		Circles: []Circle{{Cut, Point{120, 40}, 3.5}},
		Notes:   []Note{{Layer: Text, At: Point{20, 60}, Height: 6, Text: "N-01  12'-0 1/2\"  ⌀ 30°"}},
	}
}

func TestEncode(t *testing.T) {
	a, b := Encode(specimen()), Encode(specimen())
	if string(a) != string(b) {
		t.Fatal("two encodings differ")
	}
	lines := strings.Split(strings.TrimSuffix(string(a), "\n"), "\n")
	if len(lines)%2 != 0 {
		t.Fatal("codes and values do not pair up")
	}
	seen := map[string]bool{}
	for i := 0; i < len(lines); i += 2 {
		if lines[i] == "5" && lines[i-1] != "$HANDSEED" {
			if seen[lines[i+1]] {
				t.Errorf("handle %s is given twice", lines[i+1])
			}
			seen[lines[i+1]] = true
		}
	}
	for _, r := range string(a) {
		if r > 0x7e {
			t.Fatalf("%q is not ASCII", r)
		}
	}
}

// An independent reader finds what was written, without a complaint.
func TestAnotherReader(t *testing.T) {
	python := ""
	for _, p := range []string{"python3", "/usr/bin/python3"} { // a newer python may stand before Debian's
		if python == "" && exec.Command(p, "-c", "import ezdxf").Run() == nil {
			python = p
		}
	}
	if python == "" {
		t.Skip("python3-ezdxf is not installed: the file is not read back by another program")
	}
	file := filepath.Join(t.TempDir(), "specimen.dxf")
	if err := os.WriteFile(file, Encode(specimen()), 0o600); err != nil {
		t.Fatal(err)
	}
	const read = `
import sys, json, ezdxf
from ezdxf.math import area
from ezdxf.lldxf.encoding import decode_dxf_unicode
doc = ezdxf.readfile(sys.argv[1])
audit = doc.audit()
out = {"errors": [str(e.message) for e in audit.errors + audit.fixes], "units": doc.units, "version": doc.dxfversion,
  "layers": [l.dxf.name for l in doc.layers], "lines": [], "texts": [], "circles": [], "scale": doc.header["$LTSCALE"]}
for e in doc.modelspace():
  if e.dxftype() == "LWPOLYLINE":
    out["lines"].append({"layer": e.dxf.layer, "closed": e.closed, "points": [list(p) for p in e.get_points("xy")], "area": area(e.vertices()) if e.closed else 0})
  elif e.dxftype() == "CIRCLE":
    out["circles"].append([e.dxf.layer, str(e.dxf.center.x), str(e.dxf.center.y), str(e.dxf.radius)])
  else:
    out["texts"].append({"layer": e.dxf.layer, "text": decode_dxf_unicode(e.dxf.text)})
print(json.dumps(out))
`
	raw, err := exec.Command(python, "-c", read, file).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	var got struct {
		Errors []string
		Units  int
		Layers []string
		Lines  []struct {
			Layer  string
			Closed bool
			Points [][2]float64
			Area   float64
		}
		Texts   []struct{ Layer, Text string }
		Circles [][]string
		Scale   float64
	}
	if err := json.Unmarshal(raw, &got); err != nil {
		t.Fatalf("%v: %s", err, raw)
	}
	want := specimen()
	if len(got.Circles) != 1 || strings.Join(got.Circles[0], " ") != "CUT 120.0 40.0 3.5" || got.Scale != 0.5 {
		t.Errorf("circles %v, line types at %v", got.Circles, got.Scale)
	}
	if len(got.Errors) > 0 || got.Units != 4 || len(got.Lines) != len(want.Lines) || len(got.Texts) != 1 {
		t.Fatalf("%s", raw)
	}
	for i, l := range want.Lines {
		g := got.Lines[i]
		if g.Layer != l.Layer.String() || g.Closed != l.Closed {
			t.Errorf("line %d: %+v", i, g)
		}
		for j, p := range l.Points {
			if math.Abs(p.X-g.Points[j][0]) > 1e-6 || math.Abs(p.Y-g.Points[j][1]) > 1e-6 {
				t.Errorf("line %d, point %d: %v, want %v", i, j, g.Points[j], p)
			}
		}
	}
	if math.Abs(got.Lines[0].Area-33600) > 1e-6 {
		t.Errorf("the outline's area is %v", got.Lines[0].Area)
	}
	if got.Texts[0].Text != want.Notes[0].Text {
		t.Errorf("text %q, want %q", got.Texts[0].Text, want.Notes[0].Text)
	}
}
