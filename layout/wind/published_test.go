package wind

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
)

func TestPublishedLevels(t *testing.T) {
	cases := []struct {
		source         string
		psf, allowable float64
	}{
		{"ASCE 7-10 to 7-22 section 2.4, 0.6W; worked example exposure C 115 mph, edge zone 2", 66.33, 39.80},
		{"the same, corner zone 3", 92.29, 55.37},
	}
	const psf = 47.88026
	for _, c := range cases {
		got := AllowablePa(job.Pressure{Pa: c.psf * psf, Level: job.Strength}) / psf
		if math.Abs(got-c.allowable) > 0.005 {
			t.Errorf("%s: %.2f psf, want %.2f", c.source, got, c.allowable)
		}
		if same := AllowablePa(job.Pressure{Pa: c.psf, Level: job.Allowable}); same != c.psf {
			t.Errorf("%s: an allowable pressure was changed to %v", c.source, same)
		}
	}
}

func TestAlong(t *testing.T) {
	const ft = length.Foot
	d := Demand{CornerLength: 6 * ft}
	cases := []struct {
		name        string
		front       length.Length
		left, right bool
		want        []Stretch
	}{
		{"both outside", 40 * ft, true, true, []Stretch{{0, 6 * ft, Corner}, {6 * ft, 34 * ft, Edge}, {34 * ft, 40 * ft, Corner}}},
		{"inside corners", 40 * ft, false, false, []Stretch{{0, 40 * ft, Edge}}},
		{"one outside", 40 * ft, false, true, []Stretch{{0, 34 * ft, Edge}, {34 * ft, 40 * ft, Corner}}},
		{"short run", 10 * ft, true, true, []Stretch{{0, 10 * ft, Corner}}},
	}
	for _, c := range cases {
		got := d.Along(c.front, c.left, c.right)
		if len(got) != len(c.want) {
			t.Errorf("%s: %v", c.name, got)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v", c.name, got)
			}
		}
	}
	z := d.Along(40*ft, true, true)
	if Touches(z, 5*ft, 20*ft) != Corner || Touches(z, 6*ft, 34*ft) != Edge {
		t.Error("a piece that touches a zone takes it whole, one that only meets its edge does not")
	}
}
