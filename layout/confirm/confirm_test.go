package confirm

import (
	"crypto/sha256"
	"encoding/base32"
	"slices"
	"strings"
	"testing"

	_ "copingset/layout/length/draws" // the same draws every day

	"pgregory.net/rapid"
)

func sample() List {
	return List{
		{"wind.speed", "115.00 mph"},
		{"edition", "ASCE 7-16"},
		{"up.corner.strength", "92.29 psf"},
		{"zone.ROOF.N.left", "18'-0\""},
	}
}

// The text and the code are signed in letters: neither may ever change.
func TestTextAndCodeStand(t *testing.T) {
	const text = "confirm/1\n" +
		"edition = ASCE 7-16\n" +
		"up.corner.strength = 92.29 psf\n" +
		"wind.speed = 115.00 mph\n" +
		"zone.ROOF.N.left = 18'-0\"\n"
	if got := sample().Text(); got != text {
		t.Errorf("the text is\n%s", got)
	}
	const code = "PLU67-8TDMH"
	if got := sample().Code().String(); got != code {
		t.Errorf("the code is %s, and letters say %s", got, code)
	}
}

// The code is the base 32 of the digest, as the library has it.
func TestCodeIsBase32(t *testing.T) {
	of := base32.NewEncoding(letters)
	rapid.Check(t, func(t *rapid.T) {
		l := List{{rapid.String().Draw(t, "name"), rapid.String().Draw(t, "value")}}
		sum := sha256.Sum256([]byte(l.Text()))
		if want := of.EncodeToString(sum[:])[:Long]; string(l.Code()) != want {
			t.Fatalf("%s, want %s", l.Code(), want)
		}
	})
}

func TestAlphabet(t *testing.T) {
	if len(letters) != 32 {
		t.Fatalf("%d characters", len(letters))
	}
	for i, r := range letters {
		if strings.IndexRune(letters, r) != i || strings.ContainsRune("IOSZ", r) {
			t.Errorf("%q", r)
		}
	}
}

// What a copyist does to a code does not count, and what is no code is said.
func TestParseCode(t *testing.T) {
	want := Code("10520ABCDE")
	for _, s := range []string{"10520-ABCDE", "io5zo abcde", "I0S2O-abcDE", "1-0-5-2-0-A-B-C-D-E"} {
		if got, err := ParseCode(s); err != nil || got != want {
			t.Errorf("%s: %s, %v", s, got, err)
		}
	}
	for _, s := range []string{"", "10520-ABCD", "10520-ABCDEF", "10520-ABCD!", "10520-ABCDÉ"} {
		if got, err := ParseCode(s); err == nil {
			t.Errorf("%q is read as %s", s, got)
		}
	}
}

// Order, editors and comments leave the list as it is; every other change of a
// value changes the code and is named.
func TestListsGoRound(t *testing.T) {
	name := rapid.StringMatching(`[a-z]{1,6}(\.[A-Z0-9]{0,3}[a-z])?`)
	value := rapid.StringMatching(`[0-9a-z'"./=-]{1,8}( [0-9a-z=]{1,4})?`)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.MapOfN(name, value, 0, 12).Draw(t, "list")
		var l List
		for k, v := range m { // any order
			l = append(l, Line{k, v})
		}
		ends := rapid.SampledFrom([]string{"\n", "\r\n", "\r", "\n# noted\n", " \n\n"}).Draw(t, "ends")
		back, err := Parse(strings.ReplaceAll(l.Text(), "\n", ends))
		if err != nil || back.Code() != l.Code() || len(Diff(l, back)) > 0 {
			t.Fatalf("%v: %v", back, err)
		}
		if len(l) == 0 {
			return
		}
		changed := slices.Clone(l)
		i := rapid.IntRange(0, len(l)-1).Draw(t, "which")
		changed[i].Value += "x"
		if d := Diff(l, changed); changed.Code() == l.Code() || len(d) != 1 || d[0].Was != plain(l[i].Value) || d[0].Is != plain(changed[i].Value) {
			t.Fatalf("%v", d)
		}
		gone := slices.Delete(slices.Clone(l), i, i+1)
		if d := Diff(l, gone); len(d) != 1 || d[0].Is != "" || !strings.Contains(d[0].String(), "no longer") {
			t.Fatalf("%v", d)
		}
		if d := Diff(gone, l); len(d) != 1 || d[0].Was != "" || !strings.Contains(d[0].String(), "not in the list") {
			t.Fatalf("%v", d)
		}
	})
}

func TestParseFaults(t *testing.T) {
	for text, line := range map[string]int{
		"":                                    1,
		"# nothing\n":                         1,
		"edition = ASCE 7-16\n":               1,
		"\nconfirm/2\na = b\n":                2,
		"confirm/1\na = b\nnothing\n":         3,
		"confirm/1\n# note\r\na = 1\r\na = 2": 4,
		"confirm/1\n = 3\n":                   2,
	} {
		_, err := Parse(text)
		f, ok := err.(*Fault)
		if !ok || f.Line != line || f.What == "" {
			t.Errorf("%q: %v, want line %d", text, err, line)
		}
	}
}

func FuzzParse(f *testing.F) {
	f.Add(sample().Text())
	f.Add("confirm/1\r\na = b\r\r\n#\n")
	f.Fuzz(func(t *testing.T, text string) {
		l, err := Parse(text)
		if err != nil {
			return
		}
		back, err := Parse(l.Text())
		if err != nil || back.Code() != l.Code() {
			t.Fatalf("%q: %q, %v", text, l.Text(), err)
		}
	})
}
