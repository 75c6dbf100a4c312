package fonts

import "testing"

// What is added up from the advances of words is as wide as the words together.
func TestAdvancesAddUp(t *testing.T) {
	for _, f := range []Face{Regular, Bold} {
		sum := 0
		for _, r := range needed + "\ufffd☐" {
			sum += Advance(f, r)
		}
		if got := Advances(f, needed+"\ufffd☐"); got != sum {
			t.Errorf("%v: advances of %d, one by one %d", f, got, sum)
		}
		for _, size := range []int{1, 240, 333, 702} {
			if got, want := Scaled(f, sum, size), Width(f, needed, size); got != want {
				t.Errorf("%v, cap height %d: %d wide, want %d", f, size, got, want)
			}
		}
	}
}

// Every rune that has a glyph has an outline, and no other.
func TestRunes(t *testing.T) {
	for _, f := range []Face{Regular, Bold} {
		has := map[rune]bool{}
		for _, r := range Runes(f) {
			has[r] = true
			if _, err := Outline(f, r); err != nil {
				t.Error(err)
			}
		}
		for _, r := range needed {
			if !has[r] {
				t.Errorf("%v: %q is not listed", f, r)
			}
		}
		if has['☐'] || has['\n'] {
			t.Errorf("%v lists runes without a glyph", f)
		}
	}
}
