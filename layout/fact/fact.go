// Package fact names every value that a packet prints: of what, which quantity,
// and the value exactly, before anything is rounded or lettered.
//
// A Ledger is the sorted list of them. What needs to know a value or to tell two
// issues of a job apart (lists, comparisons, clouds, records, the places of
// findings) reads the ledger and nothing else; a mark on a sheet says by its
// Name which facts it letters.
package fact

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/length"
)

// Kind is the list that a fact stands in, so that a reader can be promised all
// of a kind.
type Kind string

// The kinds. Those of the crew come first: each is printed on the crew's sheets.
const (
	Chair    Kind = "chair"    // where it stands and what lies under it
	Screw    Kind = "screw"    // in a chair
	Shim     Kind = "shim"     // under a chair, and counted by run
	Joint    Kind = "joint"    // where it is and how wide
	Gap      Kind = "gap"      // to set, by the temperature of the metal
	Piece    Kind = "piece"    // its mark, its lengths along the cap line, when it is laid
	Offset   Kind = "offset"   // from what the crew finds on the wall to the cap's corner
	Obstacle Kind = "obstacle" // where it is and what it does

	Run       Kind = "run"      // lines, widths, set surface
	Reading   Kind = "reading"  // of the survey, brought to the run's lines
	Zone      Kind = "zone"     // of one build-up, and its plywood
	Corner    Kind = "corner"   // turns, trims
	Support   Kind = "support"  // under a miter
	Lap       Kind = "lap"      // of the legs, at a chair
	Section   Kind = "section"  // a cut at a chair or a joint
	Make      Kind = "make"     // what the shop makes of a piece
	Family    Kind = "family"   // pieces made alike, their blanks and bends
	Part      Kind = "part"     // small made parts
	Cut       Kind = "cut"      // the cutting plan
	Crate     Kind = "crate"    // what travels in what
	Fastener  Kind = "fastener" // types and counts
	Wind      Kind = "wind"     // demand, and its basis
	Confirmed Kind = "confirm"  // what a confirmation of computed pressures is over, as printed
	Assembly  Kind = "assembly" // what covers a zone, with its ratio
	Finding   Kind = "finding"  // findings and holds
	Job       Kind = "job"      // the title block, the system, the site
)

// OfCrew are the kinds of which every fact is printed on the crew's sheets.
func OfCrew() []Kind { return []Kind{Chair, Screw, Shim, Joint, Gap, Piece, Offset, Obstacle} }

// Unit tells how a Value is written.
type Unit string

// The units. A number of a list made from the ledger is a number, not words.
const (
	Words       Unit = ""      // as they are
	Count       Unit = "1"     // a whole number
	Length      Unit = "nm"    // nanometres, a whole number
	Lengths     Unit = "nm..." // lengths parted by blanks
	Grams       Unit = "g"
	Angle       Unit = "1e-6deg" // millionths of a degree
	Slope       Unit = "1e-9"    // thousandths of a millionth, rise over run
	Temperature Unit = "1e-3C"   // thousandths of a degree Celsius
	Pressure    Unit = "Pa"
	Number      Unit = "real" // without a unit, or with the one that What names
)

// Fact is one value. No two facts of a ledger have both Of and What alike.
type Fact struct {
	Kind  Kind
	Of    string // what it is of: "N-C7", "N-J3", "E-04", "run ROOF/N"
	What  string // the quantity: "station"
	Unit  Unit
	Value string
}

// Name is how a mark on a sheet calls the fact: "N-C7.station".
func (f Fact) Name() string { return Name(f.Of, f.What) }

// bar parts the names of a mark that letters several facts.
const bar = "|"

// Name of a fact. A bar in what a job calls a thing gives way to a stroke, for
// bars part names.
func Name(of, what string) string { return strings.ReplaceAll(of+"."+what, bar, "/") }

// Names joins the names of what one mark letters.
func Names(names ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(names), func(n string) bool { return n == "" }), bar)
}

// Parted gives back what Names joined.
func Parted(names string) []string {
	if names == "" {
		return nil
	}
	return strings.Split(names, bar)
}

// Nanometres is a value of the unit Length.
func Nanometres(l length.Length) string { return strconv.FormatInt(int64(l), 10) }

// Lengths of a fact whose unit is Length or Lengths; nil for others.
func (f Fact) Lengths() []length.Length {
	if f.Unit != Length && f.Unit != Lengths {
		return nil
	}
	var out []length.Length
	for _, w := range strings.Fields(f.Value) {
		n, err := strconv.ParseInt(w, 10, 64)
		if err != nil {
			return nil
		}
		out = append(out, length.Length(n))
	}
	return out
}

// Length of a fact whose unit is Length; zero for others.
func (f Fact) Length() length.Length {
	if l := f.Lengths(); f.Unit == Length && len(l) == 1 {
		return l[0]
	}
	return 0
}

// Ledger is all facts of a layout, sorted by what they are of and the quantity,
// numbers within a name by their size: N-C2 before N-C10.
type Ledger []Fact

// Sorted makes a ledger of facts in any order.
func Sorted(facts []Fact) Ledger {
	out := slices.Clone(facts)
	slices.SortStableFunc(out, compare)
	return out
}

func compare(a, b Fact) int {
	if c := natural(a.Of, b.Of); c != 0 {
		return c
	}
	return natural(a.What, b.What)
}

// natural compares names, numbers in them by their size.
func natural(a, b string) int {
	for i, k := 0, 0; ; {
		switch {
		case i == len(a) || k == len(b):
			if c := (len(a) - i) - (len(b) - k); c != 0 {
				return c
			}
			return strings.Compare(a, b) // alike but for zeros before a number
		case digit(a[i]) && digit(b[k]):
			p, q := number(a[i:]), number(b[k:])
			x, y := strings.TrimLeft(a[i:i+p], "0"), strings.TrimLeft(b[k:k+q], "0")
			if c := len(x) - len(y); c != 0 {
				return c
			}
			if c := strings.Compare(x, y); c != 0 {
				return c
			}
			i, k = i+p, k+q
		case a[i] != b[k]:
			return int(a[i]) - int(b[k])
		default:
			i, k = i+1, k+1
		}
	}
}

func digit(c byte) bool { return '0' <= c && c <= '9' }

// number is how many digits a text begins with.
func number(s string) int {
	n := 0
	for n < len(s) && digit(s[n]) {
		n++
	}
	return n
}

// Get finds a fact.
func (l Ledger) Get(of, what string) (Fact, bool) {
	i, ok := slices.BinarySearchFunc(l, Fact{Of: of, What: what}, compare)
	if !ok {
		return Fact{}, false
	}
	return l[i], true
}

// Value of a fact; empty where there is none.
func (l Ledger) Value(of, what string) string {
	f, _ := l.Get(of, what)
	return f.Value
}

// Length of a fact; zero where there is none.
func (l Ledger) Length(of, what string) length.Length {
	f, _ := l.Get(of, what)
	return f.Length()
}

// About are the facts of one thing.
func (l Ledger) About(of string) Ledger {
	from, _ := slices.BinarySearchFunc(l, of, func(f Fact, of string) int {
		if c := natural(f.Of, of); c != 0 {
			return c
		}
		return 1
	})
	to := from
	for to < len(l) && l[to].Of == of {
		to++
	}
	return l[from:to]
}

// Listed are the things that have facts of a kind and a quantity, in the order of
// the lists: that of their quantity "place", a count.
func (l Ledger) Listed(kind Kind, what string) []string {
	type thing struct {
		of    string
		place int
	}
	var all []thing
	for _, f := range l {
		if f.Kind == kind && f.What == what {
			n, _ := strconv.Atoi(l.Value(f.Of, "place"))
			all = append(all, thing{f.Of, n})
		}
	}
	slices.SortStableFunc(all, func(a, b thing) int { return a.place - b.place })
	out := make([]string, len(all))
	for i, t := range all {
		out[i] = t.of
	}
	return out
}

// Twice names the facts that stand in the ledger more than once, which none may.
func (l Ledger) Twice() []string {
	var out []string
	for i := 1; i < len(l); i++ {
		if compare(l[i-1], l[i]) == 0 {
			out = append(out, l[i].Name())
		}
	}
	return out
}

// Digest of the facts of these things, or of all where none is named: SHA-256 in
// hexadecimal. The order in which they are named does not matter.
func (l Ledger) Digest(of ...string) string {
	h := sha256.New()
	put := func(s string) {
		h.Write([]byte(strconv.Itoa(len(s)) + ":" + s)) // so that no two ledgers read alike
	}
	for _, f := range l {
		if len(of) > 0 && !slices.Contains(of, f.Of) {
			continue
		}
		for _, s := range []string{string(f.Kind), f.Of, f.What, string(f.Unit), f.Value} {
			put(s)
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// Change is a fact that two ledgers do not have alike.
type Change struct {
	Of, What string
	Was, Is  *Fact // nil: not there
}

// Name of the fact that changed.
func (c Change) Name() string { return Name(c.Of, c.What) }

// Diff lists what changed from one ledger to another, in the order of a ledger.
func Diff(was, is Ledger) []Change {
	var out []Change
	for i, k := 0, 0; i < len(was) || k < len(is); {
		c := 0
		switch {
		case i == len(was):
			c = 1
		case k == len(is):
			c = -1
		default:
			c = compare(was[i], is[k])
		}
		switch {
		case c < 0:
			out = append(out, Change{was[i].Of, was[i].What, &was[i], nil})
			i++
		case c > 0:
			out = append(out, Change{is[k].Of, is[k].What, nil, &is[k]})
			k++
		default:
			if was[i] != is[k] {
				out = append(out, Change{is[k].Of, is[k].What, &was[i], &is[k]})
			}
			i, k = i+1, k+1
		}
	}
	return out
}
