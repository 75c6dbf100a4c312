package fold

import "math"

// Stage is a path with only some of its bends made, told by the straight before
// each; the others lie flat.
func (p Path) Stage(made func(bend int) bool) Path {
	out := p
	out.Segs = append([]Seg(nil), p.Segs...)
	for i := range out.Segs {
		if out.Segs[i].Turn != 0 && !made(i) {
			out.Segs[i].Turn = 0
		}
	}
	return out
}

// A Reach is how far metal stands out from a bend line on one side of it.
type Reach struct {
	Distance float64 // along the sheet, from the middle of the bend on the flat
	Edge     bool    // the cut edge stands out farthest
	At       string  // else the straight, or the bend, that does
}

// Reach is what a back gauge touches when the bend after a straight is made, with
// these bends made already: the metal farthest from the bend line along the sheet
// as it lies on the die, towards the first edge or the last. A hem folded before
// brings the edge nearer by its leaf h less its deduction D: x = s - (h - D).
func (p Path) Reach(bend int, made func(bend int) bool, last bool) Reach {
	l := p.Stage(func(i int) bool { return i != bend && made(i) }).Lay()
	g := p.Segs[bend]
	_, to := l.Span(bend)
	s0 := to + g.Arc/2
	from, _ := l.Skins(s0)
	dir := l.parts[bend].dir
	lo, hi, side := 0.0, s0, -1.0
	if last {
		lo, hi, side = s0, p.Girth(), 1
	}
	out := Reach{Distance: math.Inf(-1)}
	var at float64
	for _, s := range append(l.Places(0.001), 0, p.Girth()) {
		if s < lo-1e-9 || s > hi+1e-9 {
			continue
		}
		f, b := l.Skins(s)
		for _, q := range []Point{f, b} {
			d := q.minus(from)
			if x := side * (d.X*dir.X + d.Y*dir.Y); x > out.Distance+1e-9 {
				out.Distance, at = x, s
			}
		}
	}
	end := 0.0
	if last {
		end = p.Girth()
	}
	out.Edge = math.Abs(at-end) < 1e-6
	if !out.Edge {
		out.At = l.Name(at)
	}
	return out
}
