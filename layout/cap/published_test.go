package cap

import (
	"math"
	"testing"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Miter trims against tangents printed in handbooks. Turn and included angle
// stand side by side: the same number read as the other makes a wrong corner.
func TestPublishedMiterTrims(t *testing.T) {
	cases := []struct {
		source         string
		turn, included job.Angle
		width, trim    float64 // in
	}{
		{"tan 15 deg, any trigonometric table", 30, 150, 12, 3.2154},
		{"AC 43.13-1B Table 4-7: tan(45/2) = 0.4142 (octagon corner, included 135)", 45, 135, 12, 4.9706},
		{"AC 43.13-1B Table 4-7: tan(60/2) = 0.5773", 60, 120, 12, 6.9282},
		{"AC 43.13-1B Table 4-7: tan(60/2) = 0.5773", 60, 120, 13.5, 7.7942},
		{"AC 43.13-1B Table 4-7: tan(72/2) = 0.7265", 72, 108, 12, 8.7185},
		{"AC 43.13-1B Table 4-7: tan(90/2) = 1.000", 90, 90, 12, 12},
		{"AC 43.13-1B Table 4-7: tan(120/2) = 1.732", 120, 60, 12, 20.7846},
		{"AC 43.13-1B Table 4-7: tan(135/2) = 2.414", 135, 45, 12, 28.9706},
	}
	for _, c := range cases {
		if c.turn+c.included != 180 {
			t.Errorf("%s: turn %d and included %d are not supplements", c.source, c.turn, c.included)
		}
		got := MiterTrim(length.FromInches(c.width), c.turn*job.Degree).Inch()
		if math.Abs(got-c.trim) > 0.0001 {
			t.Errorf("%s: turn %d (included %d), width %g: trim %.4f, want %.4f", c.source, c.turn, c.included, c.width, got, c.trim)
		}
		if in := MiterTrim(length.FromInches(c.width), -c.turn*job.Degree).Inch(); math.Abs(in+c.trim) > 0.0001 {
			t.Errorf("%s: the inside corner's trim is %.4f, want %.4f", c.source, in, -c.trim)
		}
	}
}

// Trims of a pitch miter: height x tan(bend/2), for square breaks of some
// degrees and for roofs that rise r in 12; with both sides at r in 12 it is
// height x r/12 exactly.
func TestPublishedPitchTrims(t *testing.T) {
	const source = "AC 43.13-1B Table 4-7, tan of half the angle"
	atan := func(r float64) float64 { return math.Atan(r/12) * 180 / math.Pi }
	cases := []struct {
		source       string
		bend         float64 // degrees
		height, trim float64 // in
	}{
		{source, 5, 3, 0.1310}, {source, 5, 4, 0.1746}, {source, 5, 6, 0.2620},
		{source, 10, 3, 0.2625}, {source, 10, 4, 0.3500}, {source, 10, 6, 0.5249},
		{source, 20, 3, 0.5290}, {source, 20, 4, 0.7053}, {source, 20, 6, 1.0580},
		{source, 30, 3, 0.8038}, {source, 30, 4, 1.0718}, {source, 30, 6, 1.6077},
		{"plane geometry: level to 4 in 12", atan(4), 4, 0.6491},
		{"plane geometry: level to 6 in 12", atan(6), 4, 0.9443},
		{"plane geometry: a gable of 4 in 12, height x 4/12", 2 * atan(4), 4, 1.3333},
		{"plane geometry: a gable of 6 in 12, height x 6/12", 2 * atan(6), 4, 2.0000},
	}
	for r := 1.0; r <= 12; r++ {
		cases = append(cases, cases[0])
		c := &cases[len(cases)-1]
		c.source, c.bend, c.height, c.trim = "plane geometry: tan(atan(r/12)) = r/12", 2*atan(r), 5, 5*r/12
	}
	for _, c := range cases {
		bend := job.Angle(math.Round(c.bend * float64(job.Degree)))
		if got := wall.PitchTrim(length.FromInches(c.height), bend).Inch(); math.Abs(got-c.trim) > 0.0001 {
			t.Errorf("%s: bend %.4f, height %g: trim %.4f, want %.4f", c.source, c.bend, c.height, got, c.trim)
		}
		if got := wall.PitchTrim(length.FromInches(c.height), -bend).Inch(); math.Abs(got+c.trim) > 0.0001 {
			t.Errorf("%s: over a valley the trim is %.4f, want %.4f", c.source, got, -c.trim)
		}
	}
}

// Trims of corners of two widths, and of one, against the plane geometry of two
// strips that meet: MD-20 to MD-22 of common tables, worked by hand.
func TestPublishedTwoWidthTrims(t *testing.T) {
	cases := []struct {
		source         string
		turn, included job.Angle
		w1, w2         float64 // in
		trim1, trim2   float64
	}{
		{"derived from (w2 - w1 cos)/sin: a square corner swaps the widths", 90, 90, 12, 8, 8, 12},
		{"derived, cos 60 = 1/2, sin 60 = 0.866025", 60, 120, 12, 8, 2.3094, 9.2376},
		{"derived, sin 45 = cos 45 = 0.707107: the wider leg's rear is the longer", 45, 135, 12, 8, -0.6863, 8.9706},
		{"AC 43.13-1B Table 4-7: equal widths give width x tan(60/2) = 0.5773", 60, 120, 12, 12, 6.9282, 6.9282},
	}
	for _, c := range cases {
		if c.turn+c.included != 180 {
			t.Errorf("%s: turn %d and included %d are not supplements", c.source, c.turn, c.included)
		}
		w1, w2 := length.FromInches(c.w1), length.FromInches(c.w2)
		for _, inside := range []bool{false, true} {
			turn, sign := c.turn*job.Degree, 1.0
			if inside {
				turn, sign = -turn, -1
			}
			got, back := MiterTrims(w1, w2, turn), MiterTrims(w2, w1, turn)
			if math.Abs(got[0].Inch()-sign*c.trim1) > 0.0001 || math.Abs(got[1].Inch()-sign*c.trim2) > 0.0001 {
				t.Errorf("%s: %g to %g at %d: trims %.4f and %.4f, want %.4f and %.4f", c.source, c.w1, c.w2, turn/job.Degree, got[0].Inch(), got[1].Inch(), sign*c.trim1, sign*c.trim2)
			}
			if back[0] != got[1] || back[1] != got[0] {
				t.Errorf("%s: its mirror image has trims %v, not %v exchanged", c.source, back, got)
			}
		}
	}
}

// Thermal movement of the handbooks: MD-01, MD-04 to MD-06 of common tables.
func TestPublishedGap(t *testing.T) {
	cases := []struct {
		source string
		ppbC   int64   // 1e-9 per degree C
		long   float64 // in
		dF     float64
		want   float64 // in
	}{
		{"historic copper flashing handbook p. 60: 1 in of copper, 9.5e-6/F, 60 F", 17100, 1, 60, 0.00057},
		{"derived from the Aluminum Association's 12.9e-6/F (from memory): 10 ft of 3003, 100 F", 23220, 120, 100, 0.1548},
		{"derived from CDA Architecture Design Handbook Table 1.1A, 9.8e-6/F: 10 ft of copper, 100 F", 17640, 120, 100, 0.1176},
		{"derived from a type 304 data sheet, 9.6e-6/F: 10 ft, 100 F", 17280, 120, 100, 0.1152},
	}
	for _, c := range cases {
		s := &job.System{}
		s.Metal.Expansion = c.ppbC
		s.Joint.Reference = 100000
		cold := s.Joint.Reference - job.Temperature(math.Round(c.dF/1.8*1000))
		got := GapAt(s, length.FromInches(c.long), cold).Inch()
		if math.Abs(got-c.want) > 0.00005 {
			t.Errorf("%s: %.5f in, want %.5f", c.source, got, c.want)
		}
	}
}

// The rows a contractor would lay by hand.
func TestPublishedRows(t *testing.T) {
	const in = length.Inch
	cases := []struct {
		source string
		total  length.Length
		stock  length.Length
		closer job.Closer
		want   []length.Length
	}{
		{"common practice, no source: a 10 ft rule, 40 ft less its end legs in whole lengths",
			4*120*in + 3*in/4, 120 * in, job.CloserRight, []length.Length{120 * in, 120 * in, 120 * in, 120 * in}},
		{"common practice, no source: the closer stands where the job says",
			300*in + in/2, 120 * in, job.CloserLeft, []length.Length{60 * in, 120 * in, 120 * in}},
		{"common practice, no source: no piece under the least; the last two share",
			(240+10)*in + in/2, 120 * in, job.CloserRight, []length.Length{120 * in, 65 * in, 65 * in}},
	}
	for _, c := range cases {
		got, ok := divide(c.total, stock{most: c.stock, least: 24 * in, gap: in / 4, grid: length.Inch16, closer: c.closer, remainder: job.Right}, nil)
		if !ok || len(got) != len(c.want) {
			t.Errorf("%s: %v", c.source, got)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: piece %d is %v, want %v", c.source, i+1, got[i], c.want[i])
			}
		}
	}
}
