package sheets

import (
	"strings"
	"unicode"

	"copingset/drawing"
	"copingset/fonts"
)

// prose letters words as people write them: the marks after a digit are feet
// and inches and become primes, other apostrophes become typographic. A
// character the faces lack is shown as a question mark rather than as nothing.
func prose(words string) string {
	var b strings.Builder
	digit := false
	for _, r := range words {
		switch {
		case r == '\'' && digit:
			r = '′'
		case r == '"' && digit:
			r = '″'
		case r == '\'':
			r = '’'
		case r == '\t' || r == '\r':
			r = ' '
		}
		if r != '\n' && len(fonts.Missing(fonts.Regular, string(r))) > 0 {
			r = '?'
		}
		digit = unicode.IsDigit(r)
		b.WriteRune(r)
	}
	return b.String()
}

// shorten cuts words to a width, with three dots where something is left out.
func shorten(words string, f drawing.Face, z drawing.Size, w drawing.Unit) string {
	if drawing.Width(f, words, z) <= w {
		return words
	}
	r := []rune(words)
	for len(r) > 0 && drawing.Width(f, string(r)+"...", z) > w {
		r = r[:len(r)-1]
	}
	return strings.TrimSpace(string(r)) + "..."
}

// slug makes a file-safe name: small letters, digits and single hyphens.
func slug(words string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(words) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			b.WriteRune(r)
			continue
		}
		gap = true
	}
	if b.Len() == 0 {
		return "x"
	}
	return b.String()
}

// plural puts a count before a noun: 1 hold, 2 holds.
func plural(n int, one string) string {
	s := itoa(n) + " " + one
	if n != 1 {
		s += "s"
	}
	return s
}
