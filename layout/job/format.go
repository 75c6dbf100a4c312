package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"copingset/layout/length"
)

// FormatAngle letters an angle in degrees, without trailing zeros: 90°, 89.75°.
func FormatAngle(a Angle) string { return length.FormatAngle(a) }

// Both letters a length in inches and millimetres, for findings, which are
// read by people of both systems. What is under a foot and stated finer than a
// tape reads stays so in one of the two: a hole of 9/32 in is not 5/16, nor one
// of 6.3 mm 6.
func Both(l length.Length) string {
	den, places := 16, 0
	switch {
	case l%length.Inch16 == 0 || length.Abs(l) >= length.Foot:
	case l%length.Inch64 == 0:
		den = 64
	case l%(length.Millimetre/10) == 0:
		places = 1
	}
	return length.Feet(l, den) + " (" + length.Millimetres(l, places) + " mm)"
}

// BothForce letters a force in both systems, to the pound and to 5 N: 185 lb (825 N).
func BothForce(newtons float64) string {
	return fmt.Sprintf("%.0f lb (%.0f N)", newtons/4.4482216152605, math.Round(newtons/5)*5)
}

// BothWeights letters a weight in pounds and kilograms (1 lb is 453.59237 g).
func BothWeights(grams int64) string {
	return strconv.FormatFloat(float64(grams)/453.59237, 'f', 1, 64) + " lb (" +
		strconv.FormatFloat(float64(grams)/1000, 'f', 1, 64) + " kg)"
}

// paperNames in the order of the PaperSize constants.
func paperNames() []string { return []string{"A", "B", "C", "D", "A4", "A3", "A2"} }

// String is the name the job file uses.
func (p PaperSize) String() string { return paperNames()[p] }

// ParsePaper reads a paper size by name.
func ParsePaper(s string) (PaperSize, error) {
	for i, n := range paperNames() {
		if strings.EqualFold(strings.TrimSpace(s), n) {
			return PaperSize(i), nil
		}
	}
	return 0, fmt.Errorf("%q is no paper size here; write one of %s", s, strings.Join(paperNames(), ", "))
}
