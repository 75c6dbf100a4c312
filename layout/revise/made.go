package revise

import (
	"slices"

	"copingset/layout/length"
	"copingset/layout/record"
)

// Piece is a piece that is made, or a place that asks for one.
type Piece struct {
	Mark  string
	Metal record.Metal
	Laid  bool // it lies on the wall
}

// Use is what a made piece can be used for.
type Use int

// The uses, the best first.
const (
	Here     Use = iota // at its own place
	There               // as it is, at another
	CutDown             // at another, when it is cut
	Moved               // it is laid, and the layout wants another piece there
	Scrapped            // nowhere; the nearest use is named
)

// Fit is a made piece and its use.
type Fit struct {
	Piece
	Use Use
	At  string        // the place; of a piece without one the place it misses least
	Off length.Length // to be cut off; below zero, what it is short of that place
}

// Fits gives made pieces to the places of a layout: each to its own where it still is
// what is wanted there, then to others that want the same, then, cut down, to the place
// that wastes least. Pieces come in the order in which they are listed.
func Fits(made, places []Piece) []Fit {
	f := fitter{places: places, taken: make([]bool, len(places)), out: make([]Fit, len(made))}
	for i, m := range made {
		f.out[i] = Fit{Piece: m, Use: Scrapped}
	}
	f.each(func(o *Fit) bool { return o.Laid }, f.own)
	f.each(func(o *Fit) bool { return !o.Laid }, f.own)
	f.each(func(o *Fit) bool { return o.Use == Scrapped }, f.same)
	f.each(func(o *Fit) bool { return o.Use == Scrapped }, f.cut)
	f.each(func(o *Fit) bool { return o.Use == Scrapped }, f.nearest)
	return f.out
}

type fitter struct {
	places []Piece
	taken  []bool
	out    []Fit
}

func (f *fitter) each(which func(*Fit) bool, do func(*Fit)) {
	for i := range f.out {
		if which(&f.out[i]) {
			do(&f.out[i])
		}
	}
}

// own puts a piece at its own place. One that is laid keeps it, whatever the layout says.
func (f *fitter) own(o *Fit) {
	i := slices.IndexFunc(f.places, func(p Piece) bool { return p.Mark == o.Mark })
	switch {
	case i >= 0 && !f.taken[i] && f.places[i].Metal.Same(o.Metal):
		o.Use, o.At, f.taken[i] = Here, o.Mark, true
	case o.Laid:
		o.Use, o.At = Moved, o.Mark
	}
}

func (f *fitter) same(o *Fit) {
	for i, p := range f.places {
		if !f.taken[i] && p.Metal.Same(o.Metal) {
			o.Use, o.At, f.taken[i] = There, p.Mark, true
			return
		}
	}
}

// straight says that a piece is cut to a length and no more.
func straight(m record.Metal) bool {
	return len(m.Parts) == 1 && m.Holes == 0 && (m.Kind == "straight" || m.Kind == "closer")
}

// alike says that pieces differ by their length alone.
func alike(a, b record.Metal) bool {
	return straight(a) && straight(b) && a.Inside == b.Inside && a.Lot == b.Lot
}

func (f *fitter) cut(o *Fit) {
	best := -1
	for i, p := range f.places {
		if f.taken[i] || !alike(p.Metal, o.Metal) || p.Metal.Parts[0] > o.Metal.Parts[0] {
			continue
		}
		if best < 0 || p.Metal.Parts[0] > f.places[best].Metal.Parts[0] {
			best = i
		}
	}
	if best >= 0 {
		o.Use, o.At, f.taken[best] = CutDown, f.places[best].Mark, true
		o.Off = o.Metal.Parts[0] - f.places[best].Metal.Parts[0]
	}
}

// nearest names the place of a piece's kind that it misses least.
func (f *fitter) nearest(o *Fit) {
	best, least := -1, length.Length(0)
	for i, p := range f.places {
		if f.taken[i] || p.Metal.Hand != o.Metal.Hand || len(p.Metal.Parts) != len(o.Metal.Parts) ||
			straight(p.Metal) != straight(o.Metal) || !straight(o.Metal) && p.Metal.Kind != o.Metal.Kind {
			continue
		}
		miss := length.Abs(p.Metal.Inside - o.Metal.Inside)
		for k, l := range p.Metal.Parts {
			miss += length.Abs(l - o.Metal.Parts[k])
		}
		if best < 0 || miss < least {
			best, least = i, miss
		}
	}
	if best >= 0 {
		o.At = f.places[best].Mark
		for k, l := range f.places[best].Metal.Parts {
			o.Off += o.Metal.Parts[k] - l
		}
	}
}
