package plan

import (
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

func TestRingsAreCut(t *testing.T) {
	box := Box(0, 0, 10*in, 6*in)
	for _, c := range []struct {
		name string
		got  Ring
		want Ring
	}{
		{"over its middle", box.Above(2 * in), Box(0, 2*in, 10*in, 6*in)},
		{"all of it", box.Above(-in), box},
		{"none of it", box.Above(7 * in), nil},
		{"a window in it", box.In(Pt{in, in}, Pt{3 * in, 4 * in}), Box(in, in, 3*in, 4*in)},
		{"a window over its corner", box.In(Pt{8 * in, 5 * in}, Pt{20 * in, 20 * in}), Box(8*in, 5*in, 10*in, 6*in)},
		{"a window beside it", box.In(Pt{11 * in, in}, Pt{12 * in, 4 * in}), nil},
	} {
		glo, ghi := c.got.Bounds()
		wlo, whi := c.want.Bounds()
		if glo != wlo || ghi != whi || len(c.got) != len(c.want) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}

func TestDeep(t *testing.T) {
	strip := Box(0, 0, 10*in, in)
	for _, c := range []struct {
		name string
		with Ring
		want length.Length
	}{
		{"laid on it", Box(2*in, in, 4*in, 3*in), 0},
		{"apart", Box(2*in, 2*in, 4*in, 3*in), 0},
		{"a quarter into it", Box(2*in, 3*in/4, 4*in, 3*in), in / 4},
		{"into its end", Box(9*in, -in, 12*in, 2*in), in}, // its corners, an inch from every edge of the other
		{"beside its end", Box(10*in, -in, 12*in, 2*in), 0},
	} {
		for _, got := range []length.Length{Deep(strip, c.with, in/50), Deep(c.with, strip, in/50)} {
			if length.Abs(got-c.want) > in/50 {
				t.Errorf("%s: %v deep, want %v", c.name, got, c.want)
			}
		}
	}
}

// What of a ring lies in a window lies in both, and a ring in a window that holds
// it is itself.
func TestWindowsHoldWhatTheyShow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pt := rapid.Custom(func(t *rapid.T) Pt {
			return Pt{length.Length(rapid.IntRange(-1e6, 1e6).Draw(t, "x")), length.Length(rapid.IntRange(-1e6, 1e6).Draw(t, "y"))}
		})
		r := Ring(rapid.SliceOfN(pt, 3, 8).Draw(t, "ring"))
		a, b := pt.Draw(t, "a"), pt.Draw(t, "b")
		lo := Pt{length.Min(a.X, b.X), length.Min(a.Y, b.Y)}
		hi := Pt{length.Max(a.X, b.X), length.Max(a.Y, b.Y)}
		for _, p := range r.In(lo, hi) {
			if p.X < lo.X || p.X > hi.X || p.Y < lo.Y || p.Y > hi.Y {
				t.Fatalf("%v is out of the window %v to %v", p, lo, hi)
			}
		}
		lo, hi = r.Bounds()
		if len(r.In(lo, hi)) < len(r) {
			t.Fatal("a window that holds a ring cuts it")
		}
	})
}
