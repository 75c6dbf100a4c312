// Package crate packs what is released for the truck: hardware in the crate
// that is opened first, corners and ends in their own, straight caps in
// reverse laying order, each crate within the job's weight and length.
package crate

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
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

// Sort of a line of a packing list.
type Sort int

// The sorts: a piece, and those of the hardware.
const (
	Cap Sort = iota
	Chair
	Support
	Plate
	Screw
	Shim
	Tape
)

// Item is one line of a packing list.
type Item struct {
	Count   int
	Spare   int // of the count
	Percent int // the job's, that the spares are of
	Later   int // of the count with its spares: on hold, or for pieces not released; made and sent after
	Box     int // screws in a box; zero: not stated
	Sort    Sort
	What    string
	Mark    string
	Piece   *cap.Piece // nil for hardware
	Lot     string     // elevation whose lot of finish the piece is cut from; may be empty
	Length  length.Length
	Inside  length.Length // width inside of the cap a chair or plate is for; zero: the job has one width
	Grams   int64         // all of the line, as shipped; zero: not known
}

// Crate is one crate. Items are listed from the top down: the first laid lies
// on top.
type Crate struct {
	N         int
	Kind      Kind
	Perimeter string
	Items     []Item
	Grams     int64 // of what is in it; zero: not known
	Tare      int64 // of the empty crate with its dunnage; zero: the job does not state it
	Longest   length.Length
	Over      []*cap.Piece // pieces that alone pass the weight or length of a crate
}

// Gross is the weight of the crate with what is in it in grams; zero where one of
// the two is not known.
func (c *Crate) Gross() int64 {
	if c.Grams == 0 || c.Tare == 0 {
		return 0
	}
	return c.Grams + c.Tare
}

// Lift is how a closed crate is lifted by the job's rule for a piece of its
// weight. It is known where the gross weight is, and also where what is in the
// crate is too heavy for two persons already.
func (c *Crate) Lift(s *job.Site) (lift cap.Lift, known bool) {
	lift = cap.LiftOf(s, c.Grams+c.Tare, c.Longest)
	return lift, c.Gross() > 0 || c.Grams > 0 && lift == cap.Mechanical
}

// Packed are the items in the order in which they go in: the last laid first, at
// the bottom.
func (c *Crate) Packed() []Item {
	out := slices.Clone(c.Items)
	slices.Reverse(out)
	return out
}

// Group is consecutive lines of one lot of finish.
type Group struct {
	Lot   string
	Items []Item
}

// Groups divides a crate of pieces by lot, in laying order. A lot comes again
// where the crew comes back to its elevation.
func (c *Crate) Groups() []Group {
	var out []Group
	for _, i := range c.Items {
		if n := len(out); n == 0 || out[n-1].Lot != i.Lot {
			out = append(out, Group{Lot: i.Lot})
		}
		g := &out[len(out)-1]
		g.Items = append(g.Items, i)
	}
	return out
}

// Lots are the lots in a crate, each once, in laying order.
func (c *Crate) Lots() []string {
	return c.names(func(i Item) []string { return []string{i.Lot} })
}

// Runs are the runs that the pieces of a crate are laid on, each once.
func (c *Crate) Runs() []string {
	return c.names(func(i Item) (out []string) {
		if i.Piece != nil {
			for _, t := range i.Piece.Parts {
				out = append(out, t.Run.Name)
			}
		}
		return out
	})
}

func (c *Crate) names(of func(Item) []string) (out []string) {
	for _, i := range c.Items {
		for _, name := range of(i) {
			if name != "" && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// Load is what one perimeter sends.
type Load struct {
	Name     string
	Runs     []*anchor.Run
	Pieces   []Freight
	Supports []*anchor.Support
	Girth    func(*cap.Piece) length.Length // what a strip of tape across a piece measures
	// Kept tells whether what is made for a chair, a support or a joint is on hold itself.
	Kept func(sort Sort, name string) bool
}

// Freight is a piece to be packed, with its weight as shipped.
type Freight struct {
	*cap.Piece
	Grams int64
	Held  bool // not released
}

// Pack fills the crates and returns what is withheld, pieces not released, and
// notes on pieces that no crate of the job's may hold.
func Pack(j *job.Job, loads []Load) (crates []*Crate, withheld []*cap.Piece, found finding.List) {
	hw := hardware(j, loads)
	if len(hw.Items) > 0 {
		crates = append(crates, hw)
	}
	for _, kind := range []Kind{Corners, Caps} {
		for _, l := range loads {
			var pieces []Freight
			for _, p := range l.Pieces {
				if (p.Kind == cap.Straight || p.Kind == cap.Transition) != (kind == Caps) {
					continue
				}
				if p.Held {
					withheld = append(withheld, p.Piece)
					continue
				}
				pieces = append(pieces, p)
			}
			slices.SortStableFunc(pieces, func(a, b Freight) int { return a.Laying - b.Laying })
			crates = append(crates, fill(j, kind, l.Name, pieces)...)
		}
	}
	for i, c := range crates {
		c.N, c.Tare = i+1, j.Crating.Tare
		if len(c.Over) > 0 {
			found.Append(c.over(j))
		}
	}
	return crates, withheld, found
}

// fill puts pieces into crates in laying order. Each crate is loaded from its
// last piece to its first, so the list from the top down is in laying order.
func fill(j *job.Job, kind Kind, perimeter string, pieces []Freight) []*Crate {
	var out []*Crate
	var c *Crate
	for _, p := range pieces {
		if c == nil || heavy(j, c.Grams+p.Grams) {
			c = &Crate{Kind: kind, Perimeter: perimeter}
			out = append(out, c)
		}
		long := Shipped(p.Piece)
		c.Items = append(
			c.Items,
			Item{Count: 1, What: p.KindName(), Mark: p.Mark, Piece: p.Piece, Lot: p.Lot, Length: long, Grams: p.Grams},
		)
		c.Grams += p.Grams
		c.Longest = length.Max(c.Longest, long)
		if heavy(j, p.Grams) || overlong(j, long) {
			c.Over = append(c.Over, p.Piece)
		}
	}
	return out
}

// heavy reports whether a crate with so many grams in it passes the job's limit.
func heavy(j *job.Job, grams int64) bool {
	return j.Crating.WeightMost > 0 && grams+j.Crating.Tare > j.Crating.WeightMost
}

func overlong(j *job.Job, long length.Length) bool {
	return j.Crating.LengthMost > 0 && long > j.Crating.LengthMost
}

// gramsOf is the weight of a piece that lies in the crate.
func (c *Crate) gramsOf(p *cap.Piece) int64 {
	for _, i := range c.Items {
		if i.Piece == p {
			return i.Grams
		}
	}
	return 0
}

// over is the note on a crate with pieces that pass its limits.
func (c *Crate) over(j *job.Job) finding.Finding {
	var words, marks []string
	for _, p := range c.Over {
		grams := c.gramsOf(p)
		marks = append(marks, p.Mark)
		if heavy(j, grams) {
			more := ""
			if c.Tare > 0 {
				more = " with the crate's own weight"
			}
			words = append(
				words,
				fmt.Sprintf(
					"piece %s weighs %s%s, and a crate may weigh %s",
					p.Mark,
					job.BothWeights(grams+c.Tare),
					more,
					job.BothWeights(j.Crating.WeightMost),
				),
			)
		}
		if long := Shipped(p); overlong(j, long) {
			words = append(
				words,
				fmt.Sprintf(
					"piece %s is %s long, and a crate may be %s",
					p.Mark,
					job.Both(long),
					job.Both(j.Crating.LengthMost),
				),
			)
		}
	}
	f := finding.New(
		finding.Note,
		"crate-over",
		j.Crating.At,
		"order a longer or stronger crate, or shorter pieces",
		"crate %d: %s",
		c.N,
		strings.Join(words, "; "),
	)
	f.Where = finding.Ref{Perimeter: c.Perimeter, Pieces: marks}
	return f
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
