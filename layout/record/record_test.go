package record

import (
	"bytes"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"copingset/layout/fact"
	"copingset/layout/length"

	"pgregory.net/rapid"
)

func sample() *Record {
	return &Record{Version: Version, Job: Job{"Heron Street <Archive>", "0417"},
		Issue: Issue{"B", "2026-03-16", "for fabrication", "abc"}, Earlier: []Issue{{"A", "2026-03-02", "", "abb"}},
		Inputs: []File{{"job.yaml", "01"}}, Files: []File{{"packet.pdf", "02"}},
		Sheets: []Sheet{{ID: "run-roof-n", Number: "3.N.1", Title: "Run N", Rev: "A", Digest: "03",
			Said: []string{"aa", "bb"}, Deltas: map[string]string{"bb": "B"}}},
		Shop: []ShopMark{{"101", "shape", "A", "N-01 N-02"}},
		Pieces: []PieceMark{{Mark: "N-01", Run: "ROOF/N", Kind: "straight", From: 1, To: 2,
			Made: []Metal{{Rev: "A", Shop: "101", Shape: "shape", Kind: "closer", Inside: 3, Parts: []length.Length{4}}}}},
		Facts: fact.Ledger{{Kind: fact.Chair, Of: "N-C1", What: "station", Unit: fact.Length, Value: "7"}}}
}

// What is written is read back, whichever line ends a disk gave it.
func TestRoundTrip(t *testing.T) {
	text := sample().Encode()
	for _, with := range [][]byte{text, bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n"))} {
		got, err := Decode(with)
		if err != nil || !reflect.DeepEqual(got, sample()) {
			t.Errorf("%v: %+v", err, got)
		}
	}
}

// Whatever is changed in a record is found out.
func TestEdited(t *testing.T) {
	text := sample().Encode()
	end := bytes.LastIndex(text, []byte(sealField))
	for i := range text[:end] {
		other := slices.Clone(text)
		other[i] ^= 1
		if _, err := Decode(other); err == nil {
			t.Fatalf("byte %d of %q was changed, and nothing is said", i, text[max(0, i-20):i+1])
		}
	}
	later := bytes.Replace(text, []byte(`"version": 1`), []byte(`"version": 2`), 1)
	if _, err := Decode(later); !errors.Is(err, ErrLater) {
		t.Errorf("a later form: %v", err)
	}
	edited := bytes.Replace(text, []byte("fabrication"), []byte("Fabrication"), 1)
	if _, err := Decode(edited); !errors.Is(err, ErrEdited) {
		t.Errorf("an edited one: %v", err)
	}
}

func TestTaken(t *testing.T) {
	r := sample()
	for _, c := range []struct {
		mark, date, digest string
		is                 string // the issue that has it; empty: free
	}{
		{"B", "2026-03-16", "abc", ""}, // the same again
		{"B", "2026-03-16", "abd", "B"},
		{"B", "2026-04-01", "abd", "B"},
		{"C", "2026-03-16", "abd", "B"},
		{"A", "2026-04-01", "abd", "A"},
		{"C", "2026-03-02", "abd", "A"},
		{"C", "2026-04-01", "abd", ""},
	} {
		was, _, ok := r.Taken(c.mark, c.date, c.digest)
		if ok != (c.is != "") || was.Mark != c.is {
			t.Errorf("%v: %v %v", c, was, ok)
		}
	}
}

func TestMisread(t *testing.T) {
	for _, c := range []struct{ mark, letter string }{{"A", ""}, {"0", ""}, {"12", ""}, {"I", "I"}, {"AO", "O"},
		{"q", "q"}, {"S", "S"}, {"X1", "X"}, {"Z", "Z"}, {"Y", ""}} {
		if got, bad := Misread(c.mark); got != c.letter || bad != (c.letter != "") {
			t.Errorf("%s: %q", c.mark, got)
		}
	}
	if n := len(Suffixes()); n != 20 {
		t.Errorf("%d letters", n)
	}
}

// places are pieces of so many feet each, one after the other.
func places(marks string, feet ...int) []PieceMark {
	var out []PieceMark
	at := length.Length(0)
	for i, m := range strings.Fields(marks) {
		to := at + length.Length(feet[i])*length.Foot
		out = append(out, PieceMark{Mark: m, From: at, To: to})
		at = to
	}
	return out
}

func spansOf(all []PieceMark) []Span {
	out := make([]Span, len(all))
	for i, p := range all {
		out[i] = Span{p.From, p.To}
	}
	return out
}

func TestKeep(t *testing.T) {
	old := places("E-01 E-02 E-03 E-04", 10, 10, 10, 6)
	for _, c := range []struct {
		name string
		is   []int
		ever string
		want string
	}{
		{"as it was", []int{10, 10, 10, 6}, "", "E-01 E-02 E-03 E-04"},
		{"a closer shorter", []int{10, 10, 10, 4}, "", "E-01 E-02 E-03 E-04"},
		{"one more at the end", []int{10, 10, 10, 10, 3}, "", "E-01 E-02 E-03 E-04 E-04A"},
		{"one put in between", []int{10, 5, 5, 10, 6}, "", "E-01 E-02 E-02A E-03 E-04"},
		{"one put in where one was before", []int{10, 5, 5, 10, 6}, "E-02A", "E-01 E-02 E-02B E-03 E-04"},
		{"one put in first", []int{5, 5, 10, 10, 6}, "", "E-01 E-01A E-02 E-03 E-04"},
		{"one left out at the end", []int{10, 10, 10}, "", "E-01 E-02 E-03"},
	} {
		marks := strings.Repeat("x ", len(c.is))
		ever := append(strings.Fields("E-01 E-02 E-03 E-04"), strings.Fields(c.ever)...)
		got := Keep("E-%02d", old, ever, spansOf(places(marks, c.is...)), false)
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", c.name, got, c.want)
		}
	}
	if got := Keep("E-%02d", nil, nil, make([]Span, 3), false); strings.Join(got, " ") != "E-01 E-02 E-03" {
		t.Errorf("the first time: %v", got)
	}
}

// Marks stay in the order of the pieces that have had them, none is given twice, none that
// was left out comes back, and from the other end they are kept alike.
func TestKeepHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet := rapid.SliceOfN(rapid.IntRange(2, 12), 1, 8)
		first := feet.Draw(t, "was")
		was := places(strings.Repeat("x ", len(first)), first...)
		var ever []string
		for i := range was {
			was[i].Mark = "E-0" + string(rune('1'+i))
			ever = append(ever, was[i].Mark)
		}
		ever = append(ever, "E-02A", "E-09") // left out before
		next := feet.Draw(t, "is")
		is := spansOf(places(strings.Repeat("x ", len(next)), next...))
		got := Keep("E-%02d", was, ever, is, rapid.Bool().Draw(t, "back"))
		kept, last := 0, -1
		for i, m := range got {
			if slices.Contains(got[:i], m) || m == "E-02A" || m == "E-09" {
				t.Fatalf("%v", got)
			}
			if k := slices.IndexFunc(was, func(p PieceMark) bool { return p.Mark == m }); k >= 0 {
				if k < last {
					t.Fatalf("out of order: %v", got)
				}
				kept, last = kept+1, k
			}
		}
		if kept != min(len(was), len(is)) {
			t.Fatalf("%d of %d marks kept: %v", kept, min(len(was), len(is)), got)
		}
		there, back := matched(spansOf(was), is, false), matched(turned(spansOf(was)), turned(is), true)
		slices.Reverse(back)
		for i, k := range back {
			if k >= 0 {
				k = len(was) - 1 - k
			}
			if k != there[i] {
				t.Fatalf("from the other end %v, not %v", back, there)
			}
		}
	})
}
