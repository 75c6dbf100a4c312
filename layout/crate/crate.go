// Package crate packs what is released for the truck: hardware in the crate
// that is opened first, corners and ends in their own, straight caps in
// reverse laying order, each crate within the job's weight and length.
package crate

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Kind of a crate.
type Kind int

// The kinds, in the order they are opened.
const (
	Hardware Kind = iota
	Corners
	Caps
)

func (k Kind) String() string {
	return [...]string{"hardware", "corners and ends", "caps"}[k]
}

// Item is one line of a packing list.
type Item struct {
	Count  int
	Spare  int // of the count
	What   string
	Mark   string
	Piece  *cap.Piece // nil for hardware
	Length length.Length
	Grams  int64 // all of the line
}

// Crate is one crate. Items are listed from the top down: the first laid lies
// on top.
type Crate struct {
	N         int
	Kind      Kind
	Perimeter string
	Items     []Item
	Grams     int64
	Longest   length.Length
	Over      bool // one piece alone passes the weight or length of a crate
}

// FastenerCount is how many of one fastener in one length.
type FastenerCount struct {
	Fastener *job.Fastener
	Length   length.Length
	Count    int // in chairs, without spares
}

// Fasteners counts the fasteners of all chairs, by type and length.
func Fasteners(runs []*anchor.Run) []FastenerCount {
	var out []FastenerCount
	for _, r := range runs {
		for _, c := range r.Chairs {
			for _, w := range c.Rows {
				if w.Fastener == nil || w.Length == 0 {
					continue
				}
				i := slices.IndexFunc(out, func(f FastenerCount) bool { return f.Fastener == w.Fastener && f.Length == w.Length })
				if i < 0 {
					out = append(out, FastenerCount{Fastener: w.Fastener, Length: w.Length})
					i = len(out) - 1
				}
				out[i].Count += w.Count
			}
		}
	}
	slices.SortStableFunc(out, func(a, b FastenerCount) int {
		if a.Fastener.Name != b.Fastener.Name {
			if a.Fastener.Name < b.Fastener.Name {
				return -1
			}
			return 1
		}
		return int((a.Length - b.Length) / length.Millimetre)
	})
	return out
}

// Load is what one perimeter sends.
type Load struct {
	Name     string
	Runs     []*anchor.Run
	Pieces   []*cap.Piece
	Supports []*anchor.Support
}

// Pack fills the crates and returns what is withheld: pieces not released.
func Pack(j *job.Job, loads []Load) (crates []*Crate, withheld []*cap.Piece) {
	hw := hardware(j, loads)
	if len(hw.Items) > 0 {
		crates = append(crates, hw)
	}
	for _, kind := range []Kind{Corners, Caps} {
		for _, l := range loads {
			var pieces []*cap.Piece
			for _, p := range l.Pieces {
				if (p.Kind == cap.Straight || p.Kind == cap.Transition) != (kind == Caps) {
					continue
				}
				if !p.Released() {
					withheld = append(withheld, p)
					continue
				}
				pieces = append(pieces, p)
			}
			slices.SortStableFunc(pieces, func(a, b *cap.Piece) int { return a.Laying - b.Laying })
			crates = append(crates, fill(j, kind, l.Name, pieces)...)
		}
	}
	for i, c := range crates {
		c.N = i + 1
	}
	return crates, withheld
}

// fill puts pieces into crates in laying order. Each crate is loaded from its
// last piece to its first, so the list from the top down is in laying order.
func fill(j *job.Job, kind Kind, perimeter string, pieces []*cap.Piece) []*Crate {
	var out []*Crate
	var c *Crate
	for _, p := range pieces {
		grams := cap.ShippedGrams(&j.System, p)
		if c == nil || j.Crating.WeightMost > 0 && c.Grams+grams > j.Crating.WeightMost {
			c = &Crate{Kind: kind, Perimeter: perimeter}
			out = append(out, c)
		}
		long := Shipped(p)
		c.Items = append(c.Items, Item{Count: 1, What: p.KindName(), Mark: p.Mark, Piece: p, Length: long, Grams: grams})
		c.Grams += grams
		c.Longest = length.Max(c.Longest, long)
		if j.Crating.WeightMost > 0 && grams > j.Crating.WeightMost || j.Crating.LengthMost > 0 && long > j.Crating.LengthMost {
			c.Over = true
		}
	}
	return out
}

// Shipped is the longest side of a piece as it travels: of its parts, with a
// field closer's allowance.
func Shipped(p *cap.Piece) length.Length {
	var long length.Length
	for i, q := range p.Parts {
		long = length.Max(long, length.Max(q.Length(), p.RearLength(i)))
	}
	return long + p.Allowance
}

// hardware counts chairs, supports, plates, fasteners, shims, tape, with spares. It
// counts all that stands on the wall: chairs are set before a cap is cut, and
// what a hold keeps back is chairs and plates the crew needs all the same.
func hardware(j *job.Job, loads []Load) *Crate {
	c := &Crate{Kind: Hardware}
	var chairs, splices []byWidth
	supports := 0
	var tapered []Item
	var covers []Item
	var runs []*anchor.Run
	var tape length.Length
	for _, l := range loads {
		supports += len(l.Supports)
		for _, r := range l.Runs {
			runs = append(runs, r)
			for _, ch := range r.Chairs {
				if left, right := ch.Edges(&j.System); left != right {
					tapered = append(tapered, Item{Count: 1, What: "anchor chair, rear edge cut to a taper", Mark: ch.Name, Length: j.System.Chair.Length})
					continue
				}
				chairs = count(chairs, ch.Inside)
			}
			for _, q := range r.Joints {
				if q.Left != nil {
					tape += 2 * q.Left.Girth // a strip each side of the joint
				}
				if q.Kind == cap.Expansion {
					covers = append(covers, Item{Count: 1, What: "cover plate, expansion joint", Mark: q.Name, Length: q.Plate})
					continue
				}
				splices = count(splices, r.InsideAt(q.Centre()))
			}
		}
	}
	add := func(n, percent int, what string, l length.Length) {
		if n == 0 {
			return
		}
		s := Spare(n, percent)
		c.Items = append(c.Items, Item{Count: n + s, Spare: s, What: what, Length: l})
	}
	for _, w := range chairs {
		add(w.n, j.Crating.SpareChair, "anchor chair"+w.words(len(chairs)), j.System.Chair.Length)
	}
	c.Items = append(c.Items, tapered...)
	add(supports, 0, "corner support", j.System.Corner.Support.Length)
	for _, w := range splices {
		add(w.n, j.Crating.SpareSplice, "splice plate"+w.words(len(splices)), j.System.Splice.Length)
	}
	c.Items = append(c.Items, covers...)
	for _, f := range Fasteners(runs) {
		add(f.Count, j.Crating.SpareFastener, f.Fastener.Name, f.Length)
	}
	for _, t := range j.Packing.Shims {
		n := 0
		for _, r := range runs {
			for _, ch := range r.Chairs {
				for _, s := range slices.Concat(ch.ShimFront, ch.ShimRear) {
					if s == t {
						n++
					}
				}
			}
		}
		add(n, j.Crating.SpareChair, "shim, this thick", t)
	}
	if tape > 0 && j.Crating.TapeRoll > 0 {
		tape = length.MulDiv(tape, int64(100+j.Crating.SpareTape), 100)
		n := int((tape + j.Crating.TapeRoll - 1) / j.Crating.TapeRoll)
		c.Items = append(c.Items, Item{Count: n, What: "sealant tape, rolls", Length: j.Crating.TapeRoll})
	}
	return c
}

// byWidth counts parts that are made to one inside width.
type byWidth struct {
	inside length.Length
	n      int
}

// count adds a part to the count of its width, narrowest first.
func count(all []byWidth, inside length.Length) []byWidth {
	i, ok := slices.BinarySearchFunc(all, inside, func(w byWidth, l length.Length) int {
		switch {
		case w.inside < l:
			return -1
		case w.inside > l:
			return 1
		}
		return 0
	})
	if !ok {
		all = slices.Insert(all, i, byWidth{inside: inside})
	}
	all[i].n++
	return all
}

// words say the width where there are several.
func (w byWidth) words(several int) string {
	if several < 2 {
		return ""
	}
	return ", cap " + job.Both(w.inside) + " inside"
}

// Spare rounds a percentage of a count up to whole parts.
func Spare(n, percent int) int { return (n*percent + 99) / 100 }
