package plan

import (
	"testing"

	"copingset/layout/length"
	_ "copingset/layout/length/draws"

	"pgregory.net/rapid"
)

const in = length.Inch

func TestWithin(t *testing.T) {
	line := []Pt{{0, 0}, {10 * in, 2 * in}, {20 * in, 0}}
	for _, c := range []struct {
		lo, hi length.Length
		want   []Pt
	}{
		{-in, 30 * in, line},
		{5 * in, 30 * in, []Pt{{5 * in, in}, {10 * in, 2 * in}, {20 * in, 0}}},
		{-in, 15 * in, []Pt{{0, 0}, {10 * in, 2 * in}, {15 * in, in}}},
		{2 * in, 4 * in, []Pt{{2 * in, 2 * in / 5}, {4 * in, 4 * in / 5}}},
		{10 * in, 20 * in, line[1:]},
		{21 * in, 30 * in, nil},
		{-9 * in, -in, nil},
	} {
		got := Within(line, c.lo, c.hi)
		if len(got) != len(c.want) {
			t.Errorf("%v to %v: %v, want %v", c.lo, c.hi, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v to %v: %v, want %v", c.lo, c.hi, got, c.want)
			}
		}
	}
}

// What is cut out of a line and of its mirror are mirrors, to the nanometre.
func TestWithinMirrors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var line, mirror []Pt
		x := length.Length(0)
		for range rapid.IntRange(1, 6).Draw(t, "points") {
			x += length.Length(rapid.IntRange(1, 1_000_000).Draw(t, "step"))
			line = append(line, Pt{x, length.Length(rapid.IntRange(-1_000_000, 1_000_000).Draw(t, "y"))})
		}
		for i := range line {
			p := line[len(line)-1-i]
			mirror = append(mirror, Pt{-p.X, p.Y})
		}
		lo := length.Length(rapid.IntRange(0, 3_000_000).Draw(t, "lo"))
		hi := lo + length.Length(rapid.IntRange(0, 3_000_000).Draw(t, "wide"))
		a, b := Within(line, lo, hi), Within(mirror, -hi, -lo)
		if len(a) != len(b) {
			t.Fatalf("%v and %v", a, b)
		}
		for i, p := range a {
			if q := b[len(b)-1-i]; q != (Pt{-p.X, p.Y}) {
				t.Fatalf("%v and %v", a, b)
			}
		}
	})
}

// The worst of two checks is the same whichever comes first, and never better
// than either.
func TestWorst(t *testing.T) {
	some := rapid.Custom(func(t *rapid.T) Check {
		if rapid.Bool().Draw(t, "measured") {
			return AtLeast(Edge, length.Length(rapid.IntRange(-9, 9).Draw(t, "has")), length.Length(rapid.IntRange(0, 9).Draw(t, "asked")))
		}
		return NotMeasured(Edge, 3)
	})
	rapid.Check(t, func(t *rapid.T) {
		a, b := some.Draw(t, "a"), some.Draw(t, "b")
		w, v := Worst(a, b), Worst(b, a)
		if w.Unknown != (a.Unknown || b.Unknown) || w.Has-w.Asked != v.Has-v.Asked || !w.Unknown && w.Fails() != (a.Fails() || b.Fails()) {
			t.Errorf("worst of %+v and %+v is %+v", a, b, w)
		}
	})
}

func TestBetween(t *testing.T) {
	for has, pass := range map[length.Length]bool{0: false, 1: true, 5: true, 9: true, 10: false} {
		if c := Between(RearPlay, has, 1, 9); c.Pass != pass || c.Fails() == pass {
			t.Errorf("%d between 1 and 9: %+v", has, c)
		}
	}
	if c := NotMeasured(RearPlay, 1); c.Fails() || c.Pass {
		t.Error("what nobody measured is judged")
	}
}
