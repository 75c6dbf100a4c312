package revise

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/layout/fact"
	"copingset/layout/length"
	"copingset/layout/record"

	"pgregory.net/rapid"
)

const in = length.Inch

// cut is a straight piece of a length in inches.
func cut(mark string, long int, laid bool) Piece {
	return Piece{mark, record.Metal{Shape: fmt.Sprint("cap ", long), Kind: "straight", Inside: 12 * in,
		Parts: []length.Length{length.Length(long) * in}}, laid}
}

// corner is a piece with two legs.
func corner(mark, hand string, a, b int) Piece {
	return Piece{mark, record.Metal{Shape: fmt.Sprint("corner ", hand, a, b), Kind: "corner", Hand: hand, Inside: 12 * in,
		Parts: []length.Length{length.Length(a) * in, length.Length(b) * in}}, false}
}

func TestFits(t *testing.T) {
	for _, c := range []struct {
		name         string
		made, places []Piece
		want         string // use, place and what is off in inches, of each
	}{
		{"as it was", []Piece{cut("E-01", 100, false)}, []Piece{cut("E-01", 100, false)}, "0 E-01 0"},
		{"the same elsewhere", []Piece{cut("E-01", 100, false)}, []Piece{cut("E-01", 90, false), cut("W-01", 100, false)},
			"1 W-01 0"},
		{"its own before another's", []Piece{cut("E-02", 100, false), cut("E-01", 100, false)},
			[]Piece{cut("E-01", 100, false), cut("E-02", 100, false)}, "0 E-02 0, 0 E-01 0"},
		{"cut where least is lost", []Piece{cut("E-01", 100, false)},
			[]Piece{cut("E-01", 60, false), cut("W-01", 97, false), cut("W-02", 101, false)}, "2 W-01 3"},
		{"too short for all", []Piece{cut("E-01", 50, false)}, []Piece{cut("E-01", 60, false), cut("W-01", 53, false)},
			"4 W-01 -3"},
		{"laid and not wanted", []Piece{cut("E-01", 100, true)}, []Piece{cut("E-01", 97, false)}, "3 E-01 0"},
		{"a corner is not cut", []Piece{corner("N/E", "", 40, 40)}, []Piece{corner("N/E", "", 40, 37), cut("E-01", 30, false)},
			"4 N/E 3"},
		{"a hand is a hand", []Piece{corner("N-LE", "left", 40, 40)}, []Piece{corner("N-RE", "right", 40, 40)}, "4  0"},
	} {
		var got []string
		for _, f := range Fits(c.made, c.places) {
			got = append(got, fmt.Sprintf("%d %s %d", f.Use, f.At, f.Off/in))
		}
		if s := strings.Join(got, ", "); s != c.want {
			t.Errorf("%s: %s, want %s", c.name, s, c.want)
		}
	}
}

// No place is filled twice, what is given to a place can be made of the piece, and a piece
// that fits its own place has it.
func TestFitsHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) []Piece {
			var out []Piece
			for i, l := range rapid.SliceOfN(rapid.IntRange(90, 96), 0, 6).Draw(t, what) {
				out = append(out, cut(fmt.Sprint("E-", i), l, false))
			}
			return out
		}
		made, places := draw("made"), draw("places")
		filled := map[string]bool{}
		for _, f := range Fits(made, places) {
			i := slices.IndexFunc(places, func(p Piece) bool { return p.Mark == f.At })
			own := slices.IndexFunc(places, func(p Piece) bool { return p.Mark == f.Mark && p.Metal.Same(f.Metal) })
			if own >= 0 && f.Use != Here {
				t.Fatalf("%s is wanted at its place, and has use %d", f.Mark, f.Use)
			}
			if f.Use > CutDown {
				continue
			}
			if filled[f.At] || places[i].Metal.Parts[0]+f.Off != f.Metal.Parts[0] || f.Off < 0 {
				t.Fatalf("%+v", f)
			}
			filled[f.At] = true
		}
	})
}

// ledger makes facts of lines "kind of|what|unit|value".
func ledger(lines ...string) fact.Ledger {
	var out []fact.Fact
	for _, l := range lines {
		q := strings.Split(l, "|")
		out = append(out, fact.Fact{Kind: fact.Kind(q[0]), Of: q[1], What: q[2], Unit: fact.Unit(q[3]), Value: q[4]})
	}
	return fact.Sorted(out)
}

// row is a run of so many inches with chairs at stations in inches.
func rowOf(long int, at ...int) []string {
	nm := func(n int) string { return fact.Nanometres(length.Length(n) * in) }
	out := []string{"run|run R/E|wall-line|nm|" + nm(long)}
	for i, s := range at {
		mark := fmt.Sprint("E-C", i+1)
		out = append(out, "chair|"+mark+"|station|nm|"+nm(s), "make|"+mark+"|run||run R/E")
	}
	return out
}

// joints are those of a run at stations in inches.
func joints(at ...int) []string {
	var out []string
	for i, s := range at {
		mark := fmt.Sprint("E-J", i+1)
		at := fact.Nanometres(length.Length(s) * in)
		out = append(out, "joint|"+mark+"|station|nm|"+at, "joint|"+mark+"|run||run R/E")
	}
	return out
}

func TestCompare(t *testing.T) {
	piece := func(mark, long, released string) []string {
		return []string{"piece|" + mark + "|mark||" + mark, "make|" + mark + "|shipped-front-1|nm|" + long,
			"make|" + mark + "|released||" + released, "piece|" + mark + "|laying|1|3"}
	}
	for _, c := range []struct {
		name    string
		was, is []string
		want    string
		differs bool
	}{
		{"nothing", rowOf(100, 10, 20), rowOf(100, 10, 20), "", false},
		{"shorter, chairs after the second", rowOf(100, 10, 20, 30, 40), rowOf(97, 10, 20, 27, 37),
			"2 R/E -3in; 11 R/E after E-C2 -3in", true},
		{"all chairs", rowOf(100, 10, 20), rowOf(100, 12, 22), "11 R/E after  2in", true},
		{"each by its own", rowOf(100, 10, 20, 30), rowOf(100, 10, 21, 32), "12 R/E [E-C2 E-C3] 2", true},
		{"one chair more", rowOf(100, 10, 20), rowOf(100, 10, 20, 30), "10 R/E 2 3", true},
		{"a new length", piece("E-01", "5", "yes"), piece("E-01", "6", "yes"), "8 [E-01]", true},
		{"new and gone", piece("E-01", "5", "yes"), piece("E-02", "5", "yes"), "6 [E-02]; 7 [E-01]", true},
		{"released alone", piece("E-01", "5", "no"), piece("E-01", "5", "yes"), "32 [E-01]", false},
		{"laying alone", piece("E-01", "5", "yes"), append(piece("E-01", "5", "yes")[:3], "piece|E-01|laying|1|4"), "",
			false},
		{"plywood counted on", append(rowOf(100), "zone|E-Z1|place|1|75"), append(rowOf(100), "zone|E-Z1|place|1|76"),
			"", false},
		{"plywood", append(rowOf(100), "zone|E-Z1|to|nm|5"), append(rowOf(100), "zone|E-Z1|to|nm|6"), "19 []", true},
		{"one joint more", append(rowOf(100), joints(30)...), append(rowOf(100), joints(30, 60)...),
			"13 R/E 1 2", true},
		{"pressure", []string{"wind|wind|edge-up|Pa|100"}, []string{"wind|wind|edge-up|Pa|120"}, "26 edge-up 100 120",
			false},
	} {
		var got []string
		for _, x := range Compare(ledger(c.was...), ledger(c.is...)) {
			s := fmt.Sprint(int(x.Kind))
			switch x.Kind {
			case RunLength:
				s += fmt.Sprintf(" %s %din", x.Run, x.By/in)
			case ChairsMove:
				s += fmt.Sprintf(" %s after %s %din", x.Run, x.After, x.By/in)
			case ChairsVary:
				s += fmt.Sprintf(" %s %v %d", x.Run, x.Marks, x.N)
			case ChairCount, JointCount:
				s += fmt.Sprintf(" %s %d %d", x.Run, x.N, x.M)
			case Pressure:
				s += fmt.Sprintf(" %s %s %s", x.Of, x.Old, x.Text)
			default:
				s += fmt.Sprint(" ", x.Marks)
			}
			got = append(got, s)
		}
		if s := strings.Join(got, "; "); s != c.want {
			t.Errorf("%s: %q, want %q", c.name, s, c.want)
		}
		if d := Differs(ledger(c.was...), ledger(c.is...)); d != c.differs {
			t.Errorf("%s: something made or set differs: %v", c.name, d)
		}
	}
}
