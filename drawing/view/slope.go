package view

import (
	"strconv"

	"copingset/drawing/words"
	"copingset/layout/length"
)

// slopeIn letters a slope the way its readers measure it.
func slopeIn(say words.Book, metric bool, s length.Slope) string {
	switch {
	case s == 0:
		return say.Say(words.SectionLevel)
	case metric:
		return say.Say(words.UnitFallMm, words.In("rise", length.Millimetres(s.Rise(length.Metre), 0)))
	}
	return say.Say(words.UnitFallFoot, words.In("rise", length.Inches(s.Rise(length.Foot), 32)))
}

// LegSlopeWords letters the slope of one leg of a corner of two widths, finer than a
// tape shows, for the other leg's differs from it by little.
func LegSlopeWords(say words.Book, metric bool, s length.Slope) string {
	if s == 0 {
		return slopeIn(say, metric, s)
	}
	return slopeIn(say, metric, s) + " (" + strconv.FormatFloat(float64(s)/1e7, 'f', 2, 64) + "%)"
}
