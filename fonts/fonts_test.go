package fonts

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// needed are the signs a sheet cannot do without.
const needed = `ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 -–—.,:;()/'"′″°±Ø⌀×½¼¾⅛⅜⅝⅞⁄≤≥≈&<>#%+=_[]éñç`

func TestFacesHaveEverySign(t *testing.T) {
	for _, f := range []Face{Regular, Bold} {
		if m := Missing(f, needed); len(m) != 0 {
			t.Errorf("%v: no glyph for %q", f, string(m))
		}
	}
}

func TestMissing(t *testing.T) {
	tests := []struct{ in, want string }{
		{"", ""},
		{"12′-3 1/2″", ""},
		{"☐ done ☐ ✓", "☐✓"},
		{"line\nbreak", "\n"},
		{"bad \xff byte", "\ufffd"},
		{"\U0001F600", "\U0001F600"},
	}
	for _, tt := range tests {
		if got := string(Missing(Regular, tt.in)); got != tt.want {
			t.Errorf("Missing(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func TestMetricsOfTheFaces(t *testing.T) {
	// Read from the outlines and the hmtx table of the font files.
	for _, f := range []Face{Regular, Bold} {
		if got := CapHeight(f); got != 702 {
			t.Errorf("%v: cap height %d, want 702", f, got)
		}
		for r := '0'; r <= '9'; r++ {
			if got := Advance(f, r); got != 470 {
				t.Errorf("%v: digit %c is %d wide, want 470", f, r, got)
			}
		}
		if got := Advance(f, ' '); got != 200 {
			t.Errorf("%v: word space %d, want 200", f, got)
		}
	}
	for _, r := range needed {
		if a, b := Advance(Regular, r), Advance(Bold, r); a != b {
			t.Errorf("%U is %d wide in Regular and %d in Bold", r, a, b)
		}
	}
}

func TestWidth(t *testing.T) {
	tests := []struct {
		words string
		cap   int
		want  int
	}{
		{"", 300, 0},
		{"0", 702, 470},
		{"00", 300, 402},  // 940*300/702 = 401.7
		{"0 0", 300, 487}, // 1140*300/702 = 487.2
	}
	for _, tt := range tests {
		if got := Width(Regular, tt.words, tt.cap); got != tt.want {
			t.Errorf("Width(%q, %d) = %d, want %d", tt.words, tt.cap, got, tt.want)
		}
	}
	if got := Em(Regular, 702); got != 1000*1000 {
		t.Errorf("Em of a cap height of 702 = %d, want 1000000", got)
	}
	if got := Em(Regular, 300); got != 427350 {
		t.Errorf("Em of a cap height of 300 = %d, want 427350", got)
	}
}

func TestInk(t *testing.T) {
	tests := []struct {
		words        string
		above, below int
	}{
		{"H", 300, 1},
		{"-", 300, 0}, // keeps the height of capitals
		{"g", 300, 91},
		{"(", 335, 91},
	}
	for _, tt := range tests {
		if a, b := Ink(Regular, tt.words, 300); a != tt.above || b != tt.below {
			t.Errorf("Ink(%q) = %d, %d, want %d, %d", tt.words, a, b, tt.above, tt.below)
		}
	}
}

func TestOutline(t *testing.T) {
	segs, err := Outline(Regular, 'H')
	if err != nil {
		t.Fatal(err)
	}
	top, bottom := 0, 0
	for _, s := range segs {
		top, bottom = min(top, s.Y), max(bottom, s.Y)
	}
	if top != -702 || bottom > 3 {
		t.Errorf("H reaches from %d to %d, want from -702 to the baseline", top, bottom)
	}
	if _, err := Outline(Regular, '☐'); err == nil || !strings.Contains(err.Error(), "no glyph") {
		t.Errorf("outline of a rune without a glyph: %v", err)
	}
	if segs, err := Outline(Bold, ' '); err != nil || len(segs) != 0 {
		t.Errorf("space: %v, %v", segs, err)
	}
	for _, r := range needed {
		if _, err := Outline(Bold, r); err != nil {
			t.Error(err)
		}
	}
}

func TestWidthAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.StringOfN(rapid.SampledFrom([]rune(needed)), 0, 30, -1)
		a, b := words.Draw(t, "a"), words.Draw(t, "b")
		size := rapid.IntRange(1, 2000).Draw(t, "size")
		sum := Width(Regular, a, size) + Width(Regular, b, size)
		if whole := Width(Regular, a+b, size); whole < sum-1 || whole > sum+1 {
			t.Fatalf("%q and %q are %d wide apart and %d together", a, b, sum, whole)
		}
	})
}
