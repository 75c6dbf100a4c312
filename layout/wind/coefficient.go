package wind

import (
	"fmt"
	"math"

	"copingset/layout/length"
)

// surface is a zone of a building's envelope with its sign: suction is minus.
type surface int

const (
	roofPlus surface = iota
	roof1Inner
	roof1
	roof2
	roof3
	wallPlus
	wall4
	wall5
)

func (s surface) String() string {
	return [...]string{"roof, inward", "roof zone 1'", "roof zone 1", "roof zone 2", "roof zone 3",
		"wall zones 4 and 5, inward", "wall zone 4, outward", "wall zone 5, outward"}[s]
}

// line is an external pressure coefficient against the logarithm of the
// effective wind area in square feet; level before and after.
type line struct {
	a1, g1, a2, g2 float64
	from           source
}

func (l line) at(area float64) float64 {
	a := math.Min(math.Max(area, l.a1), l.a2)
	return l.g1 + (l.g2-l.g1)*math.Log10(a/l.a1)/math.Log10(l.a2/l.a1)
}

// formula writes the line out.
func (l line) formula(b *sheet) string {
	return fmt.Sprintf("%+.2f at %s to %+.2f at %s by log A", l.g1, b.ft2(l.a1), l.g2, b.ft2(l.a2))
}

// coefficient finds the line of a surface of a building with a roof of up to 7
// degrees. tall: h over 60 ft.
func coefficient(e edition, tall bool, s surface) (line, bool) {
	if tall {
		return tallLine(e, s)
	}
	walls := read(e.table("Figure 30.4-1", "Figure 30.3-1", "Figure 30.3-1"))
	roof := read(e.table("Figure 30.4-2A", "Figure 30.3-2A", "Figure 30.3-2A"))
	switch s {
	case wallPlus:
		return line{10, 1.0, 500, 0.7, walls}, true
	case wall4:
		return line{10, -1.1, 500, -0.8, walls}, true
	case wall5:
		return line{10, -1.4, 500, -0.8, walls}, true
	case roofPlus:
		return line{10, 0.3, 100, 0.2, roof}, true
	}
	if e == ed10 {
		switch s {
		case roof1:
			return line{10, -1.0, 100, -0.9, roof}, true
		case roof2:
			return line{10, -1.8, 100, -1.1, roof}, true
		case roof3:
			return line{10, -2.8, 100, -1.1, roof}, true
		}
		return line{}, false // zone 1' came with 7-16
	}
	switch s {
	case roof1Inner:
		return line{100, -0.9, 1000, -0.4, roof}, true
	case roof1:
		return line{10, -1.7, 500, -1.0, roof}, true
	case roof2:
		// Its line equation, and the printed values between, lead to -2.3 alone.
		return line{
			10,
			-2.3,
			500,
			-1.4,
			disputed(roof.text + "; public programs have -2.1, -2.3 and -2.5 at 10 ft2 (0.9 m2), and " +
				"its line equation gives -2.3"),
		}, true
	}
	return line{10, -3.2, 500, -1.4, roof}, true
}

// tallLine is for h over 60 ft: ASCE 7-10 Figure 30.6-1 and its successors. The
// walls were read in a program of 7-10; that later editions keep them, the
// number of the figure and the roofs are from memory.
func tallLine(e edition, s surface) (line, bool) {
	figure := e.table("Figure 30.6-1", "Figure 30.5-1", "Figure 30.4-1") + " (number from memory)"
	walls := memory(figure)
	if e == ed10 {
		walls = read(figure)
	}
	switch s {
	case wallPlus:
		return line{20, 0.9, 500, 0.6, memory(figure)}, true // where the line begins is from memory
	case wall4:
		return line{20, -0.9, 500, -0.7, walls}, true
	case wall5:
		return line{20, -1.8, 500, -1.0, walls}, true
	case roof1:
		return line{10, -1.4, 500, -0.9, memory(figure)}, true
	case roof2:
		return line{10, -2.3, 500, -1.6, memory(figure)}, true
	case roof3:
		return line{10, -3.2, 500, -2.3, memory(figure)}, true
	}
	return line{}, false
}

// EffectiveArea is the effective wind area of a span of coping: the span times
// its width or a third of the span, whichever is more (ASCE 7 section 26.2).
// Both in one unit.
func EffectiveArea(span, width float64) float64 { return span * math.Max(width, span/3) }

// internal is GCpi of an enclosure (ASCE 7 Table 26.11-1, from 7-16 on Table
// 26.13-1); it acts both ways.
func internal(e edition, enclosure string) (float64, source) {
	from := read(e.table("Table 26.11-1", "Table 26.13-1", "Table 26.13-1"))
	switch enclosure {
	case "partially enclosed":
		return 0.55, from
	case "open":
		return 0, from
	}
	return 0.18, from
}

// zoneWidth is the width a of wall zone 5, and of the roof zones of 7-10, in
// feet: h the mean roof height, least the least plan dimension. A metric 0.9 m
// is shorter than the 3 ft that are taken, and a longer zone is the safe side.
func zoneWidth(h, least float64, tall bool) float64 {
	if tall {
		return math.Max(0.1*least, 3)
	}
	return math.Max(math.Min(0.1*least, 0.4*h), math.Max(0.04*least, 3))
}

// The standard letters its limits in both systems, rounded: a job is held to
// those of its own. Mean roof height over which other figures hold, and height
// of the parapet from which roof zone 3 may be taken as zone 2.
const (
	tallOver       = 60 * length.Foot
	tallOverMetric = 18300 * length.Millimetre
	noteFrom       = 3 * length.Foot
	noteFromMetric = 900 * length.Millimetre
)

// tallFrom is the mean roof height up to which a building is low.
func tallFrom(metric bool) length.Length {
	if metric {
		return tallOverMetric
	}
	return tallOver
}

// noteHeight is the least height of the parapet for the note on roof zone 3.
func noteHeight(metric bool) length.Length {
	if metric {
		return noteFromMetric
	}
	return noteFrom
}

// leastPSF is the least net pressure on components and cladding, psf at
// strength level.
const leastPSF = 16.0

// leastNet says where the least net pressure stands. It was read of 7-22; of
// 7-16 the residential code's table prints 10 psf, 0.6 of it rounded up; of
// 7-10 it is from memory.
func leastNet(e edition) source {
	text := e.String() + " least net pressure of components and cladding"
	if e == ed10 {
		return memory(text + ", section 30.2.2")
	}
	if e == ed16 {
		text += ", as 0.6 of it stands in a residential code's table"
	}
	return read(text)
}
