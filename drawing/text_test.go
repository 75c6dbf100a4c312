package drawing

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestLetter(t *testing.T) {
	const gap = "\u00a0\u00a0"
	tests := []struct{ in, want string }{
		{"", ""},
		{`12'-3 1/2"`, "12′-3" + gap + "1/2″"},
		{`0'-0"`, "0′-0″"},
		{`13/16"`, "13/16″"},
		{`11 1/8" WIDE`, "11" + gap + "1/8″ WIDE"},
		{`3½"`, "3" + gap + "1/2″"},
		{`3 ⅜"`, "3" + gap + "3/8″"},
		{"½", "1/2"},
		{"24 GA. GALV.", "24 GA. GALV."},
		{`crew's "left" end`, `crew's "left" end`},
		{"3 of 7", "3 of 7"},
		{"10083", "10083"},
	}
	for _, tt := range tests {
		if got := Letter(tt.in); got != tt.want {
			t.Errorf("Letter(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func TestLetterTwiceIsLetterOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.StringOf(rapid.SampledFrom([]rune(`0139 /'"½⅞-a `))).Draw(t, "in")
		once := Letter(in)
		if twice := Letter(once); twice != once {
			t.Fatalf("%q becomes %q, then %q", in, once, twice)
		}
	})
}

// The reason why fractions are not built up: the small digits fall below the smallest lettering.
func TestNoLetteringUnderTheSmallest(t *testing.T) {
	for _, r := range Letter(`12'-3 13/16" 3½" ⅞ ¾`) {
		if strings.ContainsRune("¹²³⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉¼½¾⅛⅜⅝⅞", r) {
			t.Errorf("%c is lettered", r)
		}
	}
}

func TestWrap(t *testing.T) {
	width := Width(Regular, "the quick brown", Note)
	tests := []struct {
		in   string
		want []string
	}{
		{"", []string{""}},
		{"the quick  brown fox", []string{"the quick brown", "fox"}},
		{"one\n\ntwo", []string{"one", "", "two"}},
		{"cut 12′-3\u00a0\u00a01/2″ wide", []string{"cut 12′-3\u00a0\u00a01/2″", "wide"}},
	}
	for _, tt := range tests {
		if got := Wrap(tt.in, Regular, Note, width); !slices.Equal(got, tt.want) {
			t.Errorf("Wrap(%q) = %q, want %q", tt.in, got, tt.want)
		}
	}
}

func TestWrapLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOf(rapid.StringOfN(rapid.SampledFrom([]rune("aWi1-é")), 1, 30, -1)).Draw(t, "words")
		width := Unit(rapid.IntRange(300, 6000).Draw(t, "width"))
		lines := Wrap(strings.Join(words, " "), Bold, Note, width)
		if got, want := strings.ReplaceAll(strings.Join(lines, ""), " ", ""), strings.Join(words, ""); got != want {
			t.Fatalf("lines %q hold %q, want %q", lines, got, want)
		}
		for _, l := range lines {
			if w := Width(Bold, l, Note); w > width && len([]rune(l)) > 1 {
				t.Fatalf("line %q is %v wide, more than %v", l, w, width)
			}
		}
	})
}

func FuzzWrapAndLetter(f *testing.F) {
	f.Add("12'-3 1/2\" wide", 400)
	f.Add("a\xff\xfe½", 1)
	f.Add("", -5)
	f.Fuzz(func(t *testing.T, in string, width int) {
		if width < -10000 || width > 100000 {
			return
		}
		strip := func(s string) string { return strings.NewReplacer(" ", "", "\t", "", "\r", "", "\n", "").Replace(s) }
		if got := strip(strings.Join(Wrap(in, Regular, Note, Unit(width)), "")); got != strip(in) {
			t.Errorf("Wrap(%q) keeps %q", in, got)
		}
		if once := Letter(in); Letter(once) != once {
			t.Errorf("Letter(%q) = %q, and of that %q", in, once, Letter(once))
		}
	})
}

func TestTextQuad(t *testing.T) {
	// H is 581/702 of its height wide: 248 at a cap height of 300. Its strokes run one unit below the baseline.
	h := func(a Align, turn int) []Point {
		return NewText(Pt(1000, 1000), "H", Style{Align: a, Rotate: turn}).Quad()
	}
	tests := []struct {
		name string
		got  []Point
		want []Point
	}{
		{"left", h(Left, 0), []Point{{1000, 700}, {1248, 700}, {1248, 1001}, {1000, 1001}}},
		{"middle", h(Middle, 0), []Point{{876, 700}, {1124, 700}, {1124, 1001}, {876, 1001}}},
		{"right", h(Right, 0), []Point{{752, 700}, {1000, 700}, {1000, 1001}, {752, 1001}}},
		{"read from the right", h(Left, 900), []Point{{700, 1000}, {700, 752}, {1001, 752}, {1001, 1000}}},
	}
	for _, tt := range tests {
		if !slices.Equal(tt.got, tt.want) {
			t.Errorf("%s: %v, want %v", tt.name, tt.got, tt.want)
		}
	}
}

func TestTextInIsInTheMiddle(t *testing.T) {
	for _, turn := range []int{0, 900, 2700} {
		var s Scene
		box := Box(2000, 3000, 6000, 7000)
		got := boundsOf(s.TextIn(box, "HOLD", Style{Rotate: turn}).Quad()).Centre()
		want := box.Centre()
		if d := got.Sub(want); max(d.X, -d.X) > 5 || max(d.Y, -d.Y) > 5 {
			t.Errorf("turn %d: middle at %v, want %v", turn, got, want)
		}
	}
}
