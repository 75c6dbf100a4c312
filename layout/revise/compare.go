// Package revise tells what a change of a job does: what differs between two ledgers of
// facts, in the words of the trade rather than value by value; which pieces that were made
// still serve; and whether what is set stands where the new layout wants it. It hands out
// plain values; sheets say them.
package revise

import (
	"slices"
	"strconv"
	"strings"

	"copingset/layout/fact"
	"copingset/layout/length"
)

// Kind is what changed.
type Kind int

// The kinds, in the order in which they are told.
const (
	RunNew Kind = iota
	RunGone
	RunLength   // By: how much longer
	RunWidth    // Was, Is: inside
	RunLine     // it lies otherwise before the wall
	Corners     // Marks: corners whose offsets changed
	PieceNew    // Marks
	PieceGone   // Marks
	PieceLength // Marks: another length
	PieceOther  // Marks: made otherwise
	ChairCount  // N, M
	ChairsMove  // all after After by By; After empty: all of the run
	ChairsVary  // Marks: the first and the last that moves, N of them
	JointCount  // as chairs
	JointsMove  //
	JointsVary  //
	Gaps        // N joints are set otherwise
	Shims       // N chairs stand on something else
	Screws      // N chairs have other screws
	Plywood     // of the run
	Supports    // Marks
	Obstacles   // Marks: things that stand on the run
	ShopNew     // Marks: shop marks
	ShopGone    //
	PartCount   // Marks: parts of which another number is made
	Crates      // Marks: numbers of crates packed otherwise
	Pressure    // Of: zone and face; Text, Old: pascals
	Confirmed   // what an engineer confirmed, or the code of it
	Assembly    // another tested assembly: Text, Old
	System      // Marks: values of the coping system or the shop
	HoldNew     // Of: code, Text: what
	HoldCleared //
	Released    // Marks: pieces that may be cut now
	Withheld    // Marks: pieces that were released and are not
)

// Change is one thing to be told.
type Change struct {
	Kind      Kind
	Run       string // "ROOF/E"; empty: of no one run
	Of, After string
	Marks     []string
	By        length.Length
	Was, Is   length.Length
	N, M      int
	Old, Text string
}

// Compare tells what changed between two ledgers, in the order of the kinds, each run by
// itself.
func Compare(was, is fact.Ledger) []Change {
	c := comparer{was: was, is: is, diff: fact.Diff(was, is)}
	c.runs()
	c.corners()
	c.pieces()
	c.shop()
	c.crates()
	c.wind()
	c.system()
	c.holds()
	slices.SortStableFunc(c.out, func(a, b Change) int { return int(a.Kind) - int(b.Kind) })
	return c.out
}

type comparer struct {
	was, is fact.Ledger
	diff    []fact.Change
	out     []Change
}

func (c *comparer) add(x Change) { c.out = append(c.out, x) }

// things are those with a quantity, in the order of both ledgers, the newer first.
func (c *comparer) things(kind fact.Kind, what string) []string {
	out := c.is.Listed(kind, what)
	for _, of := range c.was.Listed(kind, what) {
		if !slices.Contains(out, of) {
			out = append(out, of)
		}
	}
	return out
}

func has(l fact.Ledger, of, what string) bool {
	_, ok := l.Get(of, what)
	return ok
}

func (c *comparer) runs() {
	for _, of := range c.things(fact.Run, "wall-line") {
		run := strings.TrimPrefix(of, "run ")
		switch {
		case !has(c.was, of, "wall-line"):
			c.add(Change{Kind: RunNew, Run: run, Is: c.is.Length(of, "wall-line")})
			continue
		case !has(c.is, of, "wall-line"):
			c.add(Change{Kind: RunGone, Run: run, Was: c.was.Length(of, "wall-line")})
			continue
		}
		if by := c.is.Length(of, "wall-line") - c.was.Length(of, "wall-line"); by != 0 {
			c.add(Change{Kind: RunLength, Run: run, By: by, Was: c.was.Length(of, "wall-line"),
				Is: c.is.Length(of, "wall-line")})
		}
		if a, b := c.was.Length(of, "inside"), c.is.Length(of, "inside"); a != b {
			c.add(Change{Kind: RunWidth, Run: run, Was: a, Is: b})
		}
		for _, what := range []string{"line-left", "line-right"} {
			if c.was.Value(of, what) != c.is.Value(of, what) {
				c.add(Change{Kind: RunLine, Run: run})
				break
			}
		}
		c.row(of, fact.Chair, ChairsMove, ChairsVary)
		c.row(of, fact.Joint, JointsMove, JointsVary)
		c.onRun(of)
	}
}

// station is a chair or a joint in its row.
type station struct {
	mark string
	at   length.Length
}

func row(l fact.Ledger, run string, kind fact.Kind) []station {
	var out []station
	for _, f := range l {
		if f.Kind == kind && f.What == "station" && l.Value(f.Of, "run") == run {
			out = append(out, station{f.Of, f.Length()})
		}
	}
	slices.SortStableFunc(out, func(a, b station) int { return int(min(max(a.at-b.at, -1), 1)) })
	return out
}

// row tells how the chairs or the joints of a run moved.
func (c *comparer) row(of string, kind fact.Kind, move, vary Kind) {
	was, is := row(c.was, of, kind), row(c.is, of, kind)
	run := strings.TrimPrefix(of, "run ")
	if len(was) != len(is) {
		counted := map[fact.Kind]Kind{fact.Chair: ChairCount, fact.Joint: JointCount}[kind]
		c.add(Change{Kind: counted, Run: run, N: len(was), M: len(is)})
	}
	first, last, n := -1, -1, 0
	by, even := length.Length(0), len(was) == len(is)
	for i := range min(len(was), len(is)) {
		d := is[i].at - was[i].at
		if d != 0 {
			if first < 0 {
				first, by = i, d
			}
			last, n = i, n+1
		}
		even = even && (first < 0 || d == by)
	}
	if first < 0 {
		return
	}
	after := ""
	if first > 0 {
		after = is[first-1].mark
	}
	if even {
		c.add(Change{Kind: move, Run: run, After: after, By: by, N: n})
		return
	}
	c.add(Change{Kind: vary, Run: run, Marks: []string{is[first].mark, is[last].mark}, N: n})
}

// onRun tells what else changed at the chairs and joints of a run that both have.
func (c *comparer) onRun(of string) {
	run := strings.TrimPrefix(of, "run ")
	gaps, shims, screws := map[string]bool{}, map[string]bool{}, map[string]bool{} // counted alone
	wood, things := false, []string(nil)
	prefix := run[strings.LastIndexByte(run, '/')+1:] + "-"
	for _, d := range c.diff {
		if slices.Contains(book, d.What) {
			continue
		}
		if d.Was == nil || d.Is == nil {
			there := c.is.Value(d.Of, "run") == of || c.was.Value(d.Of, "run") == of
			wood = wood || there && either(d).Kind == fact.Zone
			continue
		}
		here := c.is.Value(d.Of, "run") == of
		switch k := d.Is.Kind; {
		case k == fact.Obstacle && strings.HasPrefix(d.Of, prefix):
			if name := c.is.Value(d.Of, "name"); !slices.Contains(things, name) {
				things = append(things, name)
			}
		case k == fact.Zone && (here || strings.HasPrefix(d.Of, prefix)):
			wood = true
		case !here:
		case k == fact.Gap, k == fact.Joint && d.What == "gap":
			gaps[d.Of] = true
		case k == fact.Shim, k == fact.Chair && strings.HasPrefix(d.What, "packing"):
			shims[d.Of] = true
		case k == fact.Screw:
			screws[d.Of] = true
		}
	}
	for _, x := range []struct {
		kind Kind
		n    int
	}{{Gaps, len(gaps)}, {Shims, len(shims)}, {Screws, len(screws)}} {
		if x.n > 0 {
			c.add(Change{Kind: x.kind, Run: run, N: x.n})
		}
	}
	if wood {
		c.add(Change{Kind: Plywood, Run: run})
	}
	if len(things) > 0 {
		c.add(Change{Kind: Obstacles, Run: run, Marks: things})
	}
}

func either(d fact.Change) fact.Fact {
	if d.Is != nil {
		return *d.Is
	}
	return *d.Was
}

// changed are the things of a kind with a change in a quantity that counts, in the order
// of the ledger, without what is new or gone.
func (c *comparer) changed(kind fact.Kind, counts func(what string) bool) []string {
	var out []string
	for _, d := range c.diff {
		if f := either(d); f.Kind == kind && counts(d.What) && !slices.Contains(out, d.Of) {
			out = append(out, d.Of)
		}
	}
	return out
}

func all(string) bool { return true }

func (c *comparer) corners() {
	var marks []string
	for _, of := range c.changed(fact.Offset, all) {
		if mark, ok := strings.CutPrefix(of, "corner "); ok {
			marks = append(marks, mark)
		}
	}
	c.listed(Corners, marks)
	c.listed(Supports, c.changed(fact.Support, func(what string) bool { return !strings.HasPrefix(what, "load") }))
}

func (c *comparer) listed(kind Kind, marks []string) {
	if len(marks) > 0 {
		c.add(Change{Kind: kind, Marks: marks, N: len(marks)})
	}
}

// madeOf says that a quantity of a piece is one that the shop makes it by, and lengthOf
// that it is its length.
func madeOf(what string) bool {
	for _, p := range []string{"kind", "hand", "lot", "inside-", "hole-", "miter-", "left-end", "right-end", "taper-at",
		"allowance", "cut-at", "branch", "rear-length"} {
		if strings.HasPrefix(what, p) {
			return true
		}
	}
	return lengthOf(what)
}

func lengthOf(what string) bool { return strings.HasPrefix(what, "shipped-front") }

func (c *comparer) pieces() {
	var come, gone, longer, other, free, held []string
	lengths, made := c.changed(fact.Make, lengthOf), c.changed(fact.Make, madeOf)
	for _, mark := range c.things(fact.Piece, "mark") {
		switch {
		case !has(c.was, mark, "mark"):
			come = append(come, mark)
			continue
		case !has(c.is, mark, "mark"):
			gone = append(gone, mark)
			continue
		case slices.Contains(lengths, mark):
			longer = append(longer, mark)
		case slices.Contains(made, mark):
			other = append(other, mark)
		}
		switch a, b := c.was.Value(mark, "released"), c.is.Value(mark, "released"); {
		case a == "no" && b == "yes":
			free = append(free, mark)
		case a == "yes" && b == "no":
			held = append(held, mark)
		}
	}
	c.listed(PieceNew, come)
	c.listed(PieceGone, gone)
	c.listed(PieceLength, longer)
	c.listed(PieceOther, other)
	c.listed(Released, free)
	c.listed(Withheld, held)
}

// shop tells which shop marks come and go, and of which small parts more or fewer are made.
func (c *comparer) shop() {
	var come, gone, counts []string
	for _, k := range []struct {
		kind         fact.Kind
		what, prefix string
	}{{fact.Family, "pieces", "family "}, {fact.Part, "to-make", "part "}} {
		for _, of := range c.things(k.kind, k.what) {
			mark := strings.TrimPrefix(of, k.prefix)
			switch {
			case !has(c.was, of, k.what):
				come = append(come, mark)
			case !has(c.is, of, k.what):
				gone = append(gone, mark)
			case k.kind == fact.Part && c.was.Value(of, "to-cut") != c.is.Value(of, "to-cut"):
				counts = append(counts, mark)
			}
		}
	}
	c.listed(ShopNew, come)
	c.listed(ShopGone, gone)
	c.listed(PartCount, counts)
}

func (c *comparer) crates() {
	var marks []string
	for _, of := range c.changed(fact.Crate, func(what string) bool { return what != "place" }) {
		if n, ok := strings.CutPrefix(of, "crate "); ok {
			marks = append(marks, n)
		}
	}
	slices.SortFunc(marks, func(a, b string) int {
		x, _ := strconv.Atoi(a)
		y, _ := strconv.Atoi(b)
		return x - y
	})
	c.listed(Crates, marks)
}
