package job

import (
	"testing"

	"copingset/fonts"
)

// What a name may hold, the faces of the sheets can letter: no sheet shows a question
// mark in place of a name, and no drawing is refused for one.
func TestNamesCanBeLettered(t *testing.T) {
	for r := rune(' '); r <= 0xffff; r++ {
		if unlettered(r) || hidden(r) || 0xd800 <= r && r <= 0xdfff {
			continue
		}
		for _, f := range []fonts.Face{fonts.Regular, fonts.Bold} {
			if len(fonts.Missing(f, string(r))) > 0 {
				t.Errorf("%c (%U) may stand in a name, and face %v has no glyph for it", r, r, f)
			}
		}
	}
	for _, c := range []struct {
		name string
		ok   bool
	}{
		{"Ätna – “Łő” 1′", true}, {"屋根", false}, {"Дом", false}, {"a\u0301", false}, {"roof 😀", false},
	} {
		found := false
		for _, r := range c.name {
			found = found || unlettered(r)
		}
		if found == c.ok {
			t.Errorf("%s: refused %v", c.name, found)
		}
	}
}
