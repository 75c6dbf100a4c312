package drawing

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"copingset/fonts"
)

// Style is the lettering of a text, and the facts that it letters. The zero Style is Note size, regular, left, level.
type Style struct {
	Size    Size
	Face    Face
	Align   Align
	Rotate  int
	Halo    bool
	Reverse bool
	Fact    string
}

// size is the size with its default.
func (st Style) size() Size {
	if st.Size == 0 {
		return Note
	}
	return st.Size
}

// NewText makes a measured text.
func NewText(at Point, words string, st Style) Text {
	return Text{
		At: at, Words: words, Size: st.size(), Face: st.Face, Align: st.Align, Rotate: st.Rotate,
		Width: Width(st.Face, words, st.size()), Halo: st.Halo, Reverse: st.Reverse, Fact: st.Fact,
	}
}

// Width returns the width of words on paper.
func Width(f Face, words string, size Size) Unit { return Unit(fonts.Width(f, words, int(size))) }

// span returns where the text starts and ends along its baseline, seen from At.
func (t Text) span() (from, to Unit) {
	switch t.Align {
	case Left:
		return 0, t.Width
	case Middle:
		return -t.Width / 2, t.Width - t.Width/2
	case Right:
		return -t.Width, 0
	}
	panic(fmt.Sprintf("drawing: unknown alignment %d", uint8(t.Align)))
}

// Start returns the left end of the baseline, where drawing starts.
func (t Text) Start() Point {
	from, _ := t.span()
	return t.local(from, 0)
}

// Quad returns the corners of the box the ink of the text fills: upper left, upper right, lower
// right, lower left as read.
func (t Text) Quad() []Point { return t.quad(0) }

// HaloQuad returns the corners of the area a halo knocks out.
func (t Text) HaloQuad() []Point { return t.quad(30) }

func (t Text) quad(margin Unit) []Point {
	from, to := t.span()
	above, below := fonts.Ink(t.Face, t.Words, int(t.Size))
	from, to = from-margin, to+margin
	up, down := Unit(above)+margin, Unit(below)+margin
	return []Point{t.local(from, up), t.local(to, up), t.local(to, -down), t.local(from, -down)}
}

// local returns the point along the baseline and up from it, seen from At.
func (t Text) local(along, up Unit) Point {
	cos, sin := CosSin(t.Rotate)
	a, u := float64(along), float64(up)
	return Point{
		t.At.X + Unit(math.Round(float64(a*cos)-float64(u*sin))),
		t.At.Y - Unit(math.Round(float64(a*sin)+float64(u*cos))),
	}
}

// Wrap breaks words into lines no wider than width. A line break in the words stays; a word
// wider than a line is cut, so that nothing is lost and nothing sticks out. Runs of blanks
// count as one; a no-break space keeps a number together.
func Wrap(words string, f Face, size Size, width Unit) []string {
	var lines []string
	blank := fonts.Advance(f, ' ')
	var line []byte
	for para := range strings.SplitSeq(words, "\n") {
		line = line[:0]
		reach := 0 // the line's advances
		for word := range strings.FieldsFuncSeq(para, breaks) {
			long := fonts.Advances(f, word)
			if len(line) > 0 && Unit(fonts.Scaled(f, reach+blank+long, int(size))) <= width {
				line = append(append(line, ' '), word...)
				reach += blank + long
				continue
			}
			if len(line) > 0 {
				lines = append(lines, string(line))
			}
			for Unit(fonts.Scaled(f, long, int(size))) > width {
				head, tail := cut(word, f, size, width)
				if tail == "" {
					break
				}
				lines = append(lines, head)
				word, long = tail, fonts.Advances(f, tail)
			}
			line, reach = append(line[:0], word...), long
		}
		lines = append(lines, string(line))
	}
	return lines
}

// breaks says that a line may end at this rune, unlike at a no-break space.
func breaks(r rune) bool { return r == ' ' || r == '\t' || r == '\r' }

// cut splits a word after as many letters as fit in width, and after one at least.
func cut(word string, f Face, size Size, width Unit) (head, tail string) {
	_, end := utf8.DecodeRuneInString(word)
	for end < len(word) {
		_, n := utf8.DecodeRuneInString(word[end:])
		if Width(f, word[:end+n], size) > width {
			break
		}
		end += n
	}
	return word[:end], word[end:]
}
