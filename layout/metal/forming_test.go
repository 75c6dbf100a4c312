package metal

import (
	"math"
	"testing"
)

func TestPublishedNeutralAxis(t *testing.T) {
	for _, c := range []struct {
		source, name string
		thickness    float64
		least, most  float64
	}{
		{"sheet-metal page citing Machinery's Handbook, 26th edition", "aluminum 3003-H14", 0.032, 0.391, 0.398},
		{"the same, nearest thickness printed", "aluminum 5052-H32", 0.050, 0.401, 0.404},
		{"the same, nearest thickness printed", "aluminum", 0.090, 0.380, 0.406},
		{"the same, cold-rolled steel", "coated steel G90", 0.034, 0.420, 0.438},
		{"the same", "stainless steel 304", 0.029, 0.454, 0.483},
		{"Machinery's Handbook 90-degree forms, from memory: 0.55 T + 1.57 R to 0.71 T + 1.57 R", "copper, cold rolled", 0.027, 0.55 / (math.Pi / 2), 0.71 / (math.Pi / 2)},
	} {
		n, ok := NeutralOf(c.name, c.thickness)
		if !ok || math.Abs(n.Least-c.least) > 0.0006 || math.Abs(n.Most-c.most) > 0.0006 {
			t.Errorf("%s: %s at %.3f in: %.3f to %.3f, want %.3f to %.3f", c.source, c.name, c.thickness, n.Least, n.Most, c.least, c.most)
		}
	}
	if _, ok := NeutralOf("titanium zinc", 0.027); ok {
		t.Error("zinc has a printed neutral axis here, from no source")
	}
}

// The empirical allowance of aircraft work, (0.01743 R + 0.0078 T) a degree, is
// K = 0.447: within the band of every printed row for metal that is not soft.
func TestEmpiricalAllowanceIsNear(t *testing.T) {
	const k = 0.0078 * 180 / math.Pi
	for _, name := range []string{"aluminum", "coated steel", "stainless"} {
		n, _ := NeutralOf(name, 0.05)
		if off := n.Off(k); math.Abs(off) > NeutralBand {
			t.Errorf("%s: the empirical allowance lies %.3f off", name, off)
		}
	}
	n, _ := NeutralOf("aluminum", 0.05)
	if n.Off(0.30) >= 0 || n.Off(0.48) <= 0 {
		t.Error("what lies below is not told from what lies above")
	}
}

func TestPublishedTightestBends(t *testing.T) {
	for _, c := range []struct {
		source, name      string
		thickness, radius float64
	}{
		{"engineering design-book page, 90-degree cold bend", "aluminum 5052-H32", 0.050, 0.094},
		{"the same", "aluminum 5052-H34", 0.063, 0.125},
		{"the same", "aluminum 3003-O", 0.032, 0.031},
		{"the same, secondary", "stainless steel 304", 0.040, 0.094},
		{"the same, nearest thickness printed", "aluminum 5052-H32", 0.0545, 0.094},
	} {
		b, ok := TightestOf(c.name, c.thickness)
		if !ok || b.Radius != c.radius {
			t.Errorf("%s: %s at %.3f in: %.3f, want %.3f", c.source, c.name, c.thickness, b.Radius, c.radius)
		}
	}
	if _, ok := TightestOf("aluminum 3003-H14", 0.05); ok {
		t.Error("3003-H14 has a printed radius here; it is from memory only and not in the table")
	}
}
