package shop

import (
	"math"
	"slices"

	"copingset/layout/fold"
	"copingset/layout/job"
)

// Notch is a stated place where the outline stands back from where its seam or its
// bends alone would cut it, as the box on the blank that all of it lies in.
type Notch struct {
	Kind   string // "relief", "cut-back", "fold"
	Lo, Hi fold.Point
}

// Notches are those of a body: the job's reliefs, what of its hems, hooks and drips
// is cut back before a seam, and folds where a corner of two widths, or the narrow end
// of a transition, is cut to one plane on the top and to another below: the bend
// between keeps off both.
// Elsewhere two bodies keep to their seam's gap.
func (b Body) Notches(r job.Relief) []Notch {
	var out []Notch
	reach := r.Diameter.MM() / 2
	if r.Diameter == 0 {
		reach = math.Max(r.Depth.MM(), r.Width.MM()/2)
	}
	for _, p := range b.Reliefs {
		out = append(out, Notch{"relief", fold.Point{X: p.X - reach, Y: p.Y - reach}, fold.Point{X: p.X + reach,
			Y: p.Y + reach}})
	}
	if b.Metal == nil {
		return append(out, b.turned()...)
	}
	l, girth := b.Metal.Path.Lay(), b.Metal.Path.Girth()
	places := b.Metal.Places(chord)    // the seam may bulge between those of the path
	zero := b.Flat.Place(fold.Vec{}).X // where the run's station nought lies on the blank
	for end, c := range []fold.Cut{b.Metal.Left, b.Metal.Right} {
		box := func(kind string, from, to, back float64) {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, s := range append(slices.Clip(places), from, to) {
				if s >= from && s <= to {
					x := zero + c.X(l, s, end == 1)
					lo, hi = math.Min(lo, x), math.Max(hi, x)
				}
			}
			if end == 0 {
				lo -= back
			} else {
				hi += back
			}
			out = append(out, Notch{kind, fold.Point{X: lo, Y: girth - to}, fold.Point{X: hi, Y: girth - from}})
		}
		for _, n := range c.Notches {
			box("cut-back", n.From, n.To, n.Back)
		}
		if b.planes[end] {
			for _, k := range []int{b.Metal.Path.Root - 1, b.Metal.Path.Root} {
				_, to := l.Span(k)
				box("fold", to, to+b.Metal.Path.Segs[k].Arc, 0)
			}
		}
	}
	return out
}

// turned are the folds of a tray whose ends are cut to more than one plane: round the
// end of the bend that the first wing hangs on.
func (b Body) turned() []Notch {
	var out []Notch
	for _, q := range b.Flat.Bends {
		if q.Seg != 0 || q.Wing != 0 {
			continue
		}
		left, right := q.From, q.To
		if left.X > right.X {
			left, right = right, left
		}
		reach := q.Arc/2 + q.Radius
		for end, p := range []fold.Point{left, right} {
			if b.planes[end] {
				out = append(out, Notch{"fold", fold.Point{X: p.X - reach, Y: p.Y - reach}, fold.Point{X: p.X + reach,
					Y: p.Y + reach}})
			}
		}
	}
	return out
}
