package layout

import (
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

// Worked by hand, in newtons a metre and newtons.
func TestAnchorSpacing(t *testing.T) {
	const mm = length.Millimetre
	for _, c := range []struct {
		name    string
		a       job.Nailer
		up, out float64
		want    length.Length
	}{
		{"pull alone", job.Nailer{Pull: 1800, Most: 4000 * mm}, 1500, 400, 1200 * mm},
		{"pull and shear add up: 1500/1800 + 400/2400 = 1 a metre", job.Nailer{Pull: 1800, Shear: 2400, Most: 4000 * mm}, 1500, 400, 1000 * mm},
		{"no further than the job allows", job.Nailer{Pull: 1800, Most: 800 * mm}, 1500, 0, 800 * mm},
		{"no wind is no reason to pass the job's spacing", job.Nailer{Pull: 1800, Most: 800 * mm}, 0, 0, 800 * mm},
		{"down to the grid", job.Nailer{Pull: 1000, Most: 4000 * mm}, 3000, 0, 333 * mm},
	} {
		if got := anchorSpacing(&c.a, c.up, c.out, mm); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// More demand never spreads anchors, and what is printed never overloads one.
func TestAnchorSpacingProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(lo, hi int, what string) float64 { return float64(rapid.IntRange(lo, hi).Draw(t, what)) }
		a := job.Nailer{Pull: n(200, 20000, "pull"), Shear: n(0, 1, "has shear") * n(200, 20000, "shear"), Most: length.Length(n(100, 2000, "most")) * length.Millimetre}
		up, out := n(0, 8000, "up"), n(0, 8000, "out")
		grid := rapid.SampledFrom([]length.Length{length.Millimetre, length.Inch16}).Draw(t, "grid")
		s := anchorSpacing(&a, up, out, grid)
		load := up * metres(s) / a.Pull
		if a.Shear > 0 {
			load += out * metres(s) / a.Shear
		}
		if load > 1+1e-9 || s%grid != 0 && s != a.Most || s > a.Most {
			t.Fatalf("spacing %v loads an anchor to %.6f", s, load)
		}
		if more := anchorSpacing(&a, up+n(0, 500, "more up"), out+n(0, 500, "more out"), grid); more > s {
			t.Fatalf("more demand spreads anchors from %v to %v", s, more)
		}
	})
}
