package sheets

import (
	"math"
	"unicode/utf8"

	"copingset/drawing/dxf"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// blankWords sets words on a blank for a machine's drawing, in millimetres: inside
// its outline, off its holes and bend lines, and none over another.
type blankWords struct {
	outline []fold.Point
	lo, hi  fold.Point
	lines   [][2]fold.Point // bend lines and the edges of holes
	taken   []wordBox
	hems    []layout.Bend
	notes   []dxf.Note
}

type wordBox struct{ lo, hi fold.Point }

// Letters of 6 mm where there is room; the least can still be read on a screen.
var wordHeights = []float64{6, 4, 2.5, 1.5, 0.8}

// wide is a letter and its space in heights: a plain single-stroke face has less.
const wide = 1.0

func newBlankWords(body layout.Body) *blankWords {
	w := &blankWords{outline: body.Outline()}
	w.lo, w.hi = fold.Flat{Outline: w.outline}.Bounds()
	for _, h := range body.Holes {
		for i := range h {
			w.lines = append(w.lines, [2]fold.Point{h[i], h[(i+1)%len(h)]})
		}
	}
	for _, q := range body.Bends {
		from, to := q.Ends()
		w.lines = append(w.lines, [2]fold.Point{from, to})
		if q.Hem {
			w.hems = append(w.hems, q)
		}
	}
	return w
}

// free reports whether a box lies on plain metal.
func (w *blankWords) free(b wordBox) bool {
	if b.lo.X < w.lo.X || b.lo.Y < w.lo.Y || b.hi.X > w.hi.X || b.hi.Y > w.hi.Y {
		return false
	}
	for _, t := range w.taken {
		if b.lo.X < t.hi.X && t.lo.X < b.hi.X && b.lo.Y < t.hi.Y && t.lo.Y < b.hi.Y {
			return false
		}
	}
	for i := range w.outline {
		if b.crossed(w.outline[i], w.outline[(i+1)%len(w.outline)]) {
			return false
		}
	}
	for _, l := range w.lines {
		if b.crossed(l[0], l[1]) {
			return false
		}
	}
	return w.inside(fold.Point{X: (b.lo.X + b.hi.X) / 2, Y: (b.lo.Y + b.hi.Y) / 2})
}

// crossed reports whether a line runs through a box.
func (b wordBox) crossed(p, q fold.Point) bool {
	t0, t1 := 0.0, 1.0
	for _, c := range [][3]float64{{p.X, q.X - p.X, 0}, {p.Y, q.Y - p.Y, 1}} {
		lo, hi := b.lo.X, b.hi.X
		if c[2] == 1 {
			lo, hi = b.lo.Y, b.hi.Y
		}
		if c[1] == 0 {
			if c[0] <= lo || c[0] >= hi {
				return false
			}
			continue
		}
		u, v := (lo-c[0])/c[1], (hi-c[0])/c[1]
		t0, t1 = math.Max(t0, math.Min(u, v)), math.Min(t1, math.Max(u, v))
	}
	return t0 < t1
}

func (w *blankWords) inside(p fold.Point) bool {
	in := false
	for i, a := range w.outline {
		b := w.outline[(i+1)%len(w.outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// set writes lines with their lower left corner at a point, if there is room.
func (w *blankWords) set(at fold.Point, high float64, lines []string) bool {
	box := wordBox{at, fold.Point{X: at.X, Y: at.Y + high*(1.6*float64(len(lines))-0.2)}}
	for _, l := range lines {
		box.hi.X = math.Max(box.hi.X, at.X+high*wide*float64(utf8.RuneCountInString(l)))
	}
	if !w.free(box) {
		return false
	}
	w.taken = append(w.taken, box)
	for i, l := range lines {
		y := at.Y + 1.6*high*float64(len(lines)-1-i) + 0.2*high
		w.notes = append(w.notes, dxf.Note{Layer: dxf.Text, At: dxf.Point{X: at.X, Y: y}, Height: high, Text: l})
	}
	return true
}

// block writes what the part is, as large as there is room; where the blank has
// none for all lines together, each stands by itself.
func (w *blankWords) block(lines []string) {
	if w.anywhere(lines) {
		return
	}
	for _, l := range lines {
		w.anywhere([]string{l})
	}
}

func (w *blankWords) anywhere(lines []string) bool {
	const steps = 24
	for _, high := range wordHeights {
		for i := range steps {
			for k := range steps {
				x := w.lo.X + high/2 + (w.hi.X-w.lo.X)*float64(k)/steps
				y := w.lo.Y + high/2 + (w.hi.Y-w.lo.Y)*float64((i+steps/2)%steps)/steps // from the middle up
				if w.set(fold.Point{X: x, Y: y}, high, lines) {
					return true
				}
			}
		}
	}
	return false
}

// beside writes the words of a bend next to its line; where there is no room they
// stand in the list of bends alone.
func (w *blankWords) beside(q layout.Bend, phrase string) {
	from, to := q.Ends()
	for _, high := range wordHeights[2:] {
		for k := 1; k < 12; k++ {
			t := float64(k) / 12
			x, y := from.X+t*(to.X-from.X), from.Y+t*(to.Y-from.Y)
			for _, up := range []float64{0.3 * high, -1.9 * high} {
				if w.set(fold.Point{X: x, Y: y + up}, high, []string{phrase}) {
					return
				}
			}
		}
	}
}

// etch is the mark as the job has it etched: mirrored on the back, or where a hem
// covers it. A part without a hem has no place that is hidden.
func (w *blankWords) etch(where job.Etch, mark string) (dxf.Note, bool) {
	had := len(w.notes)
	switch where {
	case job.EtchBack:
		if !w.anywhere([]string{mark}) {
			return dxf.Note{}, false
		}
	case job.EtchHidden:
		for _, q := range w.hems {
			from, _ := q.Ends()
			for _, high := range wordHeights[2:] {
				// the leaf lies beyond its fold, at the blank's edge
				for _, up := range []float64{0.5 * high, -2 * high} {
					beyond := (up > 0) == (from.Y > (w.lo.Y+w.hi.Y)/2)
					if beyond && len(w.notes) == had {
						w.set(fold.Point{X: from.X + 20, Y: from.Y + up}, high, []string{mark})
					}
				}
			}
		}
	}
	if len(w.notes) == had {
		return dxf.Note{}, false
	}
	out := w.notes[had]
	w.notes = w.notes[:had]
	out.Layer, out.Backward = dxf.Mark, where == job.EtchBack
	if out.Backward { // a mirrored text runs to the left of where it begins
		out.At.X += out.Height * wide * float64(utf8.RuneCountInString(mark))
	}
	return out, true
}
