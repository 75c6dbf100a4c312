package cap

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"copingset/layout/internal/published"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

func TestMain(m *testing.M) { os.Exit(published.Run(m, "layout/cap")) }

// tangents is a printed table of the tangent of half the angle.
func tangents(table string) published.Source {
	return published.From("FAA AC 43.13-1B Table 4-7 as printed", table)
}

// Miter trims against tangents printed in handbooks. Turn and included angle
// stand side by side: the same number read as the other makes a wrong corner.
func TestPublishedMiterTrims(t *testing.T) {
	src := tangents("tan of half the turn, in plan")
	for _, c := range []struct {
		turn, included job.Angle
		width, tangent float64 // in
	}{
		{45, 135, 12, 0.4142}, {60, 120, 12, 0.5773}, {60, 120, 13.5, 0.5773}, {72, 108, 12, 0.7265}, {120, 60, 12, 1.732},
		{135, 45, 12, 2.414}, {30, 150, 12, 0.2679}, {90, 90, 12, 1.000},
	} {
		if c.turn+c.included != 180 {
			t.Errorf("turn %d and included %d are not supplements", c.turn, c.included)
		}
		what := fmt.Sprintf("turn %d (included %d), %g in wide", c.turn, c.included, c.width)
		trim := MiterTrim(length.FromInches(c.width), c.turn*job.Degree).Inch()
		published.Near(t, "miter trim", src, what, trim/c.width, c.tangent, 0.0005)
		published.Near(t, "miter trim", published.ByHand("width times the tangent; the inside corner's is the negative"),
			what, MiterTrim(length.FromInches(c.width), -c.turn*job.Degree).Inch(), -trim, 0.0001)
	}
}

// Trims of a pitch miter: height x tan(bend/2), for square breaks of some
// degrees and for roofs that rise r in 12; with both sides at r in 12 it is
// height x r/12 exactly.
func TestPublishedPitchTrims(t *testing.T) {
	atan := func(r float64) float64 { return math.Atan(r/12) * 180 / math.Pi }
	type row struct {
		src          published.Source
		bend         float64 // degrees
		height, trim float64 // in
	}
	half := published.ByHand("height times the tangent of half the bend")
	rise := published.ByHand("plane geometry: tan(atan(r/12)) = r/12")
	cases := []row{
		{half, 5, 3, 0.1310}, {half, 5, 6, 0.2620}, {half, 10, 4, 0.3500}, {half, 20, 4, 0.7053}, {half, 30, 6, 1.6077},
		{rise, atan(4), 4, 0.6491}, {rise, atan(6), 4, 0.9443}, {rise, 2 * atan(4), 4, 1.3333}, {rise, 2 * atan(6), 4,
			2.0000},
	}
	for r := 1.0; r <= 12; r++ {
		cases = append(cases, row{rise, 2 * atan(r), 5, 5 * r / 12})
	}
	for _, c := range cases {
		bend := job.Angle(math.Round(c.bend * float64(job.Degree)))
		what := fmt.Sprintf("bend %.4f, height %g", c.bend, c.height)
		published.Near(t, "pitch trim", c.src, what, wall.PitchTrim(length.FromInches(c.height), bend).Inch(), c.trim, 0.0001)
		published.Near(t, "pitch trim", c.src, what+", over a valley", wall.PitchTrim(length.FromInches(c.height),
			-bend).Inch(), -c.trim, 0.0001)
	}
	printed := tangents("tan of half the bend, in elevation")
	for _, c := range []struct {
		bend    job.Angle
		tangent float64
	}{{30, 0.2679}, {45, 0.4142}, {60, 0.5773}} {
		published.Near(t, "pitch trim", printed, fmt.Sprintf("bend %d", c.bend), wall.PitchTrim(10*length.Inch,
			c.bend*job.Degree).Inch()/10, c.tangent, 0.0001)
	}
}

// Trims of corners of two widths, and of one, against the plane geometry of two
// strips that meet: MD-20 to MD-22 of common tables, worked by hand.
func TestPublishedTwoWidthTrims(t *testing.T) {
	cases := []struct {
		source         published.Source
		turn, included job.Angle
		w1, w2         float64 // in
		trim1, trim2   float64
	}{
		{published.ByHand("derived from (w2 - w1 cos)/sin: a square corner swaps the widths"), 90, 90, 12, 8, 8, 12},
		{published.ByHand("derived, cos 60 = 1/2, sin 60 = 0.866025"), 60, 120, 12, 8, 2.3094, 9.2376},
		{published.ByHand("derived, sin 45 = cos 45 = 0.707107: the wider leg's rear is the longer"), 45, 135, 12, 8,
			-0.6863, 8.9706},
		{published.ByHand("equal widths give width x tan(60/2)"), 60, 120, 12, 12, 6.9282, 6.9282},
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
			what := fmt.Sprintf("%g to %g at %d", c.w1, c.w2, turn/job.Degree)
			published.Near(t, "trims of two widths", c.source, what+", first", got[0].Inch(), sign*c.trim1, 0.0001)
			published.Near(t, "trims of two widths", c.source, what+", second", got[1].Inch(), sign*c.trim2, 0.0001)
			if back[0] != got[1] || back[1] != got[0] {
				t.Errorf("%s: its mirror image has trims %v, not %v exchanged", c.source, back, got)
			}
		}
	}
}

// Thermal movement of the handbooks: MD-01, MD-04 to MD-06 of common tables.
func TestPublishedGap(t *testing.T) {
	flashing := published.From("historic copper flashing handbook", "p. 60: 1 in of copper, 9.5e-6 per F, over 60 F")
	for _, c := range []struct {
		src  published.Source
		ppbC int64   // 1e-9 per degree C
		long float64 // in
		dF   float64
		want float64 // in
	}{
		{flashing, 17100, 1, 60, 0.00057},
		{published.ByHand("9.8e-6 per F, CDA Architecture Design Handbook Table 1.1A: ten feet over 100 F"), 17640, 120, 100, 0.1176},
		{published.ByHand("12.9e-6 per F: ten feet of 3003 over 100 F"), 23220, 120, 100, 0.1548},
		{published.ByHand("9.6e-6 per F: ten feet over 100 F"), 17280, 120, 100, 0.1152},
	} {
		s := &job.System{}
		s.Metal.Expansion = c.ppbC
		s.Joint.Reference = 100000
		cold := s.Joint.Reference - job.Temperature(math.Round(c.dF/1.8*1000))
		published.Near(t, "gap by temperature", c.src, fmt.Sprintf("%g in", c.long), GapAt(s, length.FromInches(c.long),
			cold).Inch(), c.want, 0.00005)
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
		{"a 10 ft rule, 40 ft less its end legs in whole lengths",
			4*120*in + 3*in/4, 120 * in, job.CloserRight, []length.Length{120 * in, 120 * in, 120 * in, 120 * in}},
		{"the closer stands where the job says",
			300*in + in/2, 120 * in, job.CloserLeft, []length.Length{60 * in, 120 * in, 120 * in}},
		{"no piece under the least; the last two share",
			(240+10)*in + in/2, 120 * in, job.CloserRight, []length.Length{120 * in, 65 * in, 65 * in}},
	}
	for _, c := range cases {
		got, ok := divide(c.total, stock{most: c.stock, least: 24 * in, gap: in / 4, grid: length.Inch16, closer: c.closer,
			remainder: job.Right}, nil)
		published.Holds(t, "rows of pieces", published.Trade("no source"), c.source, ok && slices.Equal(got, c.want))
	}
}
