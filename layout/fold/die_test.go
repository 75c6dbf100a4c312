package fold

import (
	"math"
	"testing"
)

// source: trade press on the press brake: smallest flange 70 per cent of the opening,
// worked for eight thicknesses of opening in three sheets, inches, to three places.
func TestLeastFlanges(t *testing.T) {
	for _, c := range []struct{ thick, opening, want float64 }{{.050, .400, .280}, {.063, .504, .353}, {.0276, .2208, .155}} {
		if math.Abs(c.opening-8*c.thick) > 0.001 {
			t.Errorf("opening %v for a sheet of %v", c.opening, c.thick)
		}
		if got := LeastFlange(c.opening); math.Abs(got-c.want) > 0.0006 {
			t.Errorf("over %v: %.4f, want %.3f", c.opening, got, c.want)
		}
	}
}

// source: printed table of bending limits, offsets, millimetres.
func TestLeastWebs(t *testing.T) {
	for _, c := range []struct{ opening, thick, want float64 }{{8, 1.0, 8.5}, {16, 2.5, 15.5}} {
		if got := LeastWeb(c.opening, c.thick); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("over %v, sheet %v: %.2f, want %.2f", c.opening, c.thick, got, c.want)
		}
	}
}
