package fact

import (
	"slices"
	"testing"

	"copingset/layout/length"

	"pgregory.net/rapid"
)

func some(t *rapid.T, label string) Ledger {
	of := rapid.SampledFrom([]string{"N-C1", "N-C2", "N-C10", "N-C02", "E-04", "ROOF/N", "", "7"})
	what := rapid.SampledFrom([]string{"station", "plies", "gap"})
	seen := map[[2]string]bool{}
	var out []Fact
	for range rapid.IntRange(0, 12).Draw(t, label) {
		f := Fact{Kind: Chair, Of: of.Draw(t, "of"), What: what.Draw(t, "what"), Unit: Count,
			Value: rapid.StringMatching("[0-9]{1,2}").Draw(t, "value")}
		if k := [2]string{f.Of, f.What}; !seen[k] {
			seen[k] = true
			out = append(out, f)
		}
	}
	return Sorted(out)
}

func TestOrder(t *testing.T) {
	want := []string{"E-04", "N-C1", "N-C2", "N-C02", "N-C10", "N-J1"}
	got := []string{"N-C10", "N-J1", "N-C02", "E-04", "N-C2", "N-C1"}
	slices.SortFunc(got, natural)
	for i := range want { // alike but for zeros: by their letters
		if want[i] != got[i] && !(i == 2 || i == 3) {
			t.Fatalf("%v, want %v", got, want)
		}
	}
	if natural("N-C2", "N-C02") == 0 || natural("N-C2", "N-C02") != -natural("N-C02", "N-C2") {
		t.Error("N-C2 and N-C02 are two names")
	}
}

func TestOrderIsOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.StringMatching("[N0-2-]{0,6}")
		a, b, c := name.Draw(t, "a"), name.Draw(t, "b"), name.Draw(t, "c")
		if sign(natural(a, b)) != -sign(natural(b, a)) || (natural(a, b) == 0) != (a == b) {
			t.Fatalf("%q and %q", a, b)
		}
		if natural(a, b) <= 0 && natural(b, c) <= 0 && natural(a, c) > 0 {
			t.Fatalf("%q, %q, %q go round", a, b, c)
		}
	})
}

func sign(n int) int { return min(1, max(-1, n)) }

func TestLookUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := some(t, "facts")
		for _, f := range l {
			if got, ok := l.Get(f.Of, f.What); !ok || got != f {
				t.Fatalf("%s: %v", f.Name(), got)
			}
			if !slices.Contains(l.About(f.Of), f) {
				t.Fatalf("%s is not among those of %s", f.Name(), f.Of)
			}
			for _, g := range l.About(f.Of) {
				if g.Of != f.Of {
					t.Fatalf("%s among those of %s", g.Name(), f.Of)
				}
			}
		}
		if twice := l.Twice(); len(twice) > 0 {
			t.Fatal(twice)
		}
		if n := len(Sorted(append(slices.Clone(l), l...)).Twice()); n != len(l) {
			t.Fatalf("%d of %d found twice", n, len(l))
		}
		if _, ok := l.Get("N-C3", "station"); ok {
			t.Fatal("found what is not there")
		}
	})
}

func TestListed(t *testing.T) {
	at := func(of, place string) Fact { return Fact{Make, of, "place", Count, place} }
	l := Sorted([]Fact{at("A-C1", "12"), at("N-C1", "3"), at("N-C2", "4"), {Chair, "A-C1", "station", Length, "0"},
		{Chair, "N-C1", "station", Length, "0"}, {Chair, "N-C2", "station", Length, "7"}, {Joint, "N-J1", "station",
			Length, "7"}})
	if got := l.Listed(Chair, "station"); !slices.Equal(got, []string{"N-C1", "N-C2", "A-C1"}) {
		t.Errorf("%v", got)
	}
	if len(l.Listed(Chair, "gap")) > 0 {
		t.Error("things listed for a fact that nothing has")
	}
}

// A difference turns the one ledger into the other, and there is none exactly
// where the digests are alike.
func TestDiff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was, is := some(t, "was"), some(t, "is")
		d := Diff(was, is)
		got := slices.Clone(was)
		for _, c := range d {
			got = slices.DeleteFunc(got, func(f Fact) bool { return f.Of == c.Of && f.What == c.What })
			if c.Is != nil {
				got = append(got, *c.Is)
			}
			if c.Was == nil && c.Is == nil || c.Was != nil && c.Is != nil && *c.Was == *c.Is {
				t.Fatalf("%s has not changed", c.Name())
			}
		}
		if !slices.Equal(Sorted(got), is) {
			t.Fatalf("%v\nand %v\nmake %v, want %v", was, d, Sorted(got), is)
		}
		if alike := was.Digest() == is.Digest(); alike != (len(d) == 0) {
			t.Fatalf("alike %v, %d changes", alike, len(d))
		}
		for _, of := range []string{"N-C1", "E-04"} {
			if alike := was.Digest(of) == is.Digest(of); alike != (len(Diff(was.About(of), is.About(of))) == 0) {
				t.Fatalf("of %s: alike %v", of, alike)
			}
		}
	})
}

// What a digest runs together could be the same of two ledgers.
func TestDigestParts(t *testing.T) {
	a := Ledger{{Chair, "N", "ab", Words, "c"}}
	b := Ledger{{Chair, "N", "a", Words, "bc"}}
	if a.Digest() == b.Digest() {
		t.Error("two ledgers have one digest")
	}
	if a.Digest("E") != b.Digest("E") || a.Digest("N", "E") != a.Digest("E", "N") {
		t.Error("the digest of no fact, or of things in another order, differs")
	}
}

func TestValues(t *testing.T) {
	for _, c := range []struct {
		f    Fact
		want []length.Length
	}{
		{Fact{Unit: Length, Value: "38100000"}, []length.Length{3 * length.Inch / 2}},
		{Fact{Unit: Length, Value: "-1"}, []length.Length{-1}},
		{Fact{Unit: Lengths, Value: "6350000 6350000 1587500"}, []length.Length{length.Inch / 4, length.Inch / 4,
			length.Inch16}},
		{Fact{Unit: Lengths}, nil},
		{Fact{Unit: Count, Value: "3"}, nil},
		{Fact{Unit: Length, Value: "wide"}, nil},
	} {
		if got := c.f.Lengths(); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v", c.f, got)
		}
	}
	if (Fact{Unit: Length, Value: Nanometres(-5)}).Length() != -5 {
		t.Error("a length does not come back")
	}
}

func TestNames(t *testing.T) {
	if got := Names(Name("a|b", "x"), "", Name("c", "y")); got != "a/b.x|c.y" || !slices.Equal(Parted(got),
		[]string{"a/b.x", "c.y"}) || Parted("") != nil {
		t.Errorf("%q", got)
	}
}
