package view

import (
	"strconv"

	"copingset/layout/length"
)

// slopeIn letters a slope the way its readers measure it.
func slopeIn(metric bool, s length.Slope) string {
	switch {
	case s == 0:
		return "level top"
	case metric:
		return length.Millimetres(s.Rise(length.Metre), 0) + " mm in 1000 mm"
	}
	return length.Inches(s.Rise(length.Foot), 32) + ` in 12"`
}

// LegSlopeWords letters the slope of one leg of a corner of two widths, finer than a
// tape shows, for the other leg's differs from it by little.
func LegSlopeWords(metric bool, s length.Slope) string {
	if s == 0 {
		return slopeIn(metric, s)
	}
	return slopeIn(metric, s) + " (" + strconv.FormatFloat(float64(s)/1e7, 'f', 2, 64) + "%)"
}
