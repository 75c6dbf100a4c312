package drawing

import "strings"

// fractionGap stands between the whole inches and the fraction of a mixed number. The word
// space of the faces is narrow and the fraction is as tall as the whole number, so one space
// would let 11 1/8 be read as 111/8; two that do not break keep the number together as well.
// Copied out of a PDF the gap reads as a space.
const fractionGap = "\u00a0\u00a0"

// Letter turns a length or a note as typed into what is lettered: the foot and inch marks after
// a number become primes, and the fraction of a mixed number is set off by a gap. Fractions
// stay at full size, 13/16: built up from small raised digits (or as the ready-made ½) they
// would be 1.8 mm tall in 3 mm lettering and 1.45 mm in the smallest, below the smallest
// lettering allowed on a sheet, and a sixteenth misread is a piece miscut. Letter of lettered
// words changes nothing.
func Letter(s string) string {
	in := []rune(plainFractions(s))
	var b strings.Builder
	for i := 0; i < len(in); i++ {
		r := in[i]
		afterDigit := i > 0 && digit(in[i-1])
		switch {
		case r == '\'' && afterDigit:
			b.WriteRune('′')
		case r == '"' && afterDigit:
			b.WriteRune('″')
		case r == ' ' && afterDigit && fractionAt(in[i+1:]):
			b.WriteString(fractionGap)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// plainFractions spells out ready-made fractions.
func plainFractions(s string) string {
	if !strings.ContainsAny(s, "¼½¾⅛⅜⅝⅞") {
		return s
	}
	var b strings.Builder
	last := ' '
	for _, r := range s {
		words := ""
		switch r {
		case '¼':
			words = "1/4"
		case '½':
			words = "1/2"
		case '¾':
			words = "3/4"
		case '⅛':
			words = "1/8"
		case '⅜':
			words = "3/8"
		case '⅝':
			words = "5/8"
		case '⅞':
			words = "7/8"
		default:
			words = string(r)
			last = r
			b.WriteString(words)
			continue
		}
		if digit(last) {
			b.WriteByte(' ')
		}
		last = '0'
		b.WriteString(words)
	}
	return b.String()
}

func digit(r rune) bool { return '0' <= r && r <= '9' }

// fractionAt says whether the runes begin with a fraction.
func fractionAt(in []rune) bool {
	i := 0
	for i < len(in) && digit(in[i]) {
		i++
	}
	return i > 0 && i+1 < len(in) && in[i] == '/' && digit(in[i+1])
}
