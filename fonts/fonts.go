// Package fonts holds the two embedded lettering faces and the one measure of a string.
//
// Everything that places or draws lettering asks here: the placing of labels, the SVG and the
// PDF writer. Widths are sums of advances rounded to a thousandth of an em, without kerning,
// because that is what a PDF viewer adds up. Sizes are given as the height of a capital letter,
// the way lettering is ordered on a drawing, in whatever whole unit the caller uses; results
// come back in the same unit.
//
// Face names a face; Width, Ink, Missing, Runes, Advances, Scaled, Advance and Em measure;
// Outline gives the shape of a glyph and TTF the font file.
package fonts

import (
	_ "embed" // the faces are part of the program
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face names one of the embedded faces.
type Face uint8

// The faces. Letters, digits and signs have the same advance widths in both.
const (
	Regular Face = iota
	Bold
)

// String returns the name of the face.
func (f Face) String() string {
	switch f {
	case Regular:
		return "Regular"
	case Bold:
		return "Bold"
	}
	panic(fmt.Sprintf("fonts: unknown face %d", uint8(f)))
}

//go:embed ShopLettering-Regular.ttf
var regularTTF string

//go:embed ShopLettering-Bold.ttf
var boldTTF string

// TTF returns a copy of the font file of the face.
func TTF(f Face) []byte {
	switch f {
	case Regular:
		return []byte(regularTTF)
	case Bold:
		return []byte(boldTTF)
	}
	panic(fmt.Sprintf("fonts: unknown face %d", uint8(f)))
}

// Family is the name the faces go by in a document.
const Family = "Shop Lettering"

// lastRune bounds the part of Unicode in which the faces have glyphs.
const lastRune = 0x2320

// glyph is what is known of one glyph, in thousandths of an em, y up.
type glyph struct {
	index      sfnt.GlyphIndex
	advance    int16
	low, high  int16 // ink, from the baseline
	left, rite int16 // ink, from the pen position
}

// metrics are the measured tables of one face. They are never written after loading.
type metrics struct {
	font     *sfnt.Font
	upem     int
	cap      int // height of H in thousandths of an em
	glyphs   [lastRune]glyph
	advances [lastRune]int16 // of the glyphs, close together: no other is asked for as often
}

var regularMetrics = sync.OnceValue(func() *metrics { return load(regularTTF) })
var boldMetrics = sync.OnceValue(func() *metrics { return load(boldTTF) })

func of(f Face) *metrics {
	switch f {
	case Regular:
		return regularMetrics()
	case Bold:
		return boldMetrics()
	}
	panic(fmt.Sprintf("fonts: unknown face %d", uint8(f)))
}

// load reads a face. The faces are part of the program, so a fault in one is a programming error.
func load(ttf string) *metrics {
	f, err := sfnt.Parse([]byte(ttf))
	if err != nil {
		panic("fonts: embedded face cannot be read: " + err.Error())
	}
	m := &metrics{font: f, upem: int(f.UnitsPerEm())}
	ppem := fixed.I(m.upem)
	var buf sfnt.Buffer
	for r := rune(0x20); r < lastRune; r++ {
		index, err := f.GlyphIndex(&buf, r)
		if err != nil || index == 0 {
			continue
		}
		bounds, adv, err := f.GlyphBounds(&buf, index, ppem, font.HintingNone)
		if err != nil {
			panic(fmt.Sprintf("fonts: glyph of %U cannot be read: %v", r, err))
		}
		m.glyphs[r] = glyph{
			index: index, advance: m.milli(adv),
			low: m.milli(-bounds.Max.Y), high: m.milli(-bounds.Min.Y),
			left: m.milli(bounds.Min.X), rite: m.milli(bounds.Max.X),
		}
		m.advances[r] = m.glyphs[r].advance
	}
	m.cap = int(m.glyphs['H'].high)
	if m.cap <= 0 {
		panic("fonts: embedded face has no capital H to measure by")
	}
	return m
}

// milli turns a 26.6 number of font units into thousandths of an em, rounded half up.
func (m *metrics) milli(v fixed.Int26_6) int16 {
	return int16(floorDiv(int(v)*2000+m.upem*64, m.upem*128))
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b != 0 && (a < 0) != (b < 0) {
		q--
	}
	return q
}

// lookup returns the glyph of r, or the zero glyph when the face has none.
func (m *metrics) lookup(r rune) glyph {
	if r < 0 || r >= lastRune {
		return glyph{}
	}
	return m.glyphs[r]
}

// CapHeight returns the height of a capital letter in thousandths of an em.
func CapHeight(f Face) int { return of(f).cap }

// Advance returns the advance of r in thousandths of an em, 0 when the face has no glyph for it.
func Advance(f Face, r rune) int { return int(of(f).lookup(r).advance) }

// Em returns the em (the font size) of lettering with the given cap height, in thousandths of
// the caller's unit, rounded.
func Em(f Face, capHeight int) int {
	c := of(f).cap
	return floorDiv(2*capHeight*1000*1000+c, 2*c)
}

// Width returns the width of s lettered with the given cap height: the sum of the advances, rounded half up.
func Width(f Face, s string, capHeight int) int { return Scaled(f, Advances(f, s), capHeight) }

// Advances returns the sum of the advances of s in thousandths of an em. Whoever puts words
// together adds them up and measures the whole by Scaled.
func Advances(f Face, s string) int {
	m := of(f)
	sum := 0
	for _, r := range s {
		if r >= 0 && r < lastRune {
			sum += int(m.advances[r])
		}
	}
	return sum
}

// Scaled returns the width of advances, a sum in thousandths of an em, with the given cap height, rounded half up.
func Scaled(f Face, advances, capHeight int) int {
	m := of(f)
	return floorDiv(2*advances*capHeight+m.cap, 2*m.cap)
}

// Ink returns how far the strokes of s reach above and below the baseline, rounded outwards.
// Below is 0 or more; above is at least the cap height, so that a line of dashes keeps the
// place of a line of words.
func Ink(f Face, s string, capHeight int) (above, below int) {
	m := of(f)
	high, low := m.cap, 0
	for _, r := range s {
		g := m.lookup(r)
		high, low = max(high, int(g.high)), min(low, int(g.low))
	}
	return -floorDiv(-high*capHeight, m.cap), -floorDiv(low*capHeight, m.cap)
}

// GlyphInk returns the lowest and highest stroke of one glyph, and is how the size of small digits is judged.
func GlyphInk(f Face, r rune, capHeight int) (low, high int) {
	m := of(f)
	g := m.lookup(r)
	return floorDiv(int(g.low)*capHeight, m.cap), -floorDiv(-int(g.high)*capHeight, m.cap)
}

// Runes returns the runes for which the face has a glyph, in the order of their numbers.
func Runes(f Face) []rune {
	m := of(f)
	var out []rune
	for r := range rune(lastRune) {
		if m.glyphs[r].index != 0 {
			out = append(out, r)
		}
	}
	return out
}

// Missing returns the runes of s for which the face has no glyph, each once, in the order they
// appear. Invalid UTF-8 counts as U+FFFD, which no face has.
func Missing(f Face, s string) []rune {
	m := of(f)
	var missing []rune
next:
	for _, r := range s {
		if m.lookup(r).index != 0 {
			continue
		}
		for _, seen := range missing {
			if seen == r {
				continue next
			}
		}
		missing = append(missing, r)
	}
	return missing
}
