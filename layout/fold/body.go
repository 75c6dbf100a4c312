package fold

import (
	"math"
	"slices"
)

// A Seam is the surface in which two bodies meet, or an end is cut, as one of
// the bodies meets it: the station, at a place of the section (y to the roof, z
// up), of the surface that stands `off` square from the seam on that body's side.
// A miter in plan depends on y alone, a pitch miter on z too.
type Seam func(y, z, off float64) float64

// Square is the seam of a square end, at the right end of a body or its left.
func Square(x float64, right bool) Seam {
	side := -1.0
	if right {
		side = 1
	}
	return func(_, _, off float64) float64 { return x - side*off }
}

// A Notch takes metal off a cut between two developed places, `Back` from where
// the seam alone would cut it.
type Notch struct{ From, To, Back float64 }

// A Cut is an end of a body. The cut edge is square to the sheet, so the metal
// has one station at both its faces; it stands half the gap off the seam's
// surface at whichever face is the nearer, and so lies wholly on its own side.
type Cut struct {
	Seam    Seam
	Gap     float64 // least distance to the other body, half of it off this one
	Notches []Notch
}

// X is the station of a cut at a developed place, at the right end of a body or
// at its left.
func (c Cut) X(l Laid, s float64, right bool) float64 {
	side := -1.0
	if right {
		side = 1
	}
	near := math.Inf(1)
	finish, back := l.Skins(s)
	for _, p := range []Point{finish, back} {
		near = math.Min(near, side*c.Seam(p.X, p.Y, c.Gap/2))
	}
	for _, n := range c.Notches {
		if s >= n.From && s <= n.To {
			near -= n.Back
			break
		}
	}
	return side * near
}

// A Tab is a flange at an end of a sheet, hung on its root between the tangents
// of the bends beside it and turned up square, to the finish side. Its outer
// face stands where the cut would be.
type Tab struct {
	Name   string
	Height float64 // outside
	Radius float64 // inside, of its bend
}

// A Sheet is one sheet of metal along a run: a path between two cuts.
type Sheet struct {
	Path        Path
	Left, Right Cut
	Tabs        [2]*Tab // at its left end, at its right; nil: none
	Laps        [2][]Lap
}

// Pattern develops a sheet: seen from its finish side, the path's last edge (the
// roof's) along the bottom and its first along the top. Bends are told from the
// root outwards, those towards the first edge and then those towards the last,
// as Prism tells its folds; the line of each is the middle of what is bent.
// Each end of it has a corner at every tangent and no chord of a cut stands off
// it by more than `chord`.
func (b Sheet) Pattern(chord float64) (Flat, error) {
	l := b.Path.Lay()
	whole := b
	for end, tab := range b.Tabs {
		if tab == nil {
			continue
		}
		less, err := tab.bend(b.Path).Deduction(90)
		if err != nil {
			return Flat{}, err
		}
		if tab.Height <= less {
			return Flat{}, &TooShort{tab.Name}
		}
		from, to := l.Span(b.Path.Root)
		cut := []*Cut{&b.Left, &b.Right}[end]
		cut.Notches = append([]Notch{{from, to, less - tab.Height}}, cut.Notches...)
	}
	girth := b.Path.Girth()
	at := func(right bool, s float64) Point {
		if right {
			return Point{b.Right.X(l, s, true), girth - s}
		}
		return Point{b.Left.X(l, s, false), girth - s}
	}
	places := b.places(l, chord)
	var out Flat
	right := b.edge(l, 1, places, func(s float64) Point { return at(true, s) })
	slices.Reverse(right)
	out.Outline = append(right, b.edge(l, 0, places, func(s float64) Point { return at(false, s) })...)
	for _, s := range places {
		if at(true, s).X <= at(false, s).X {
			return Flat{}, &TooShort{l.partName(2 * l.segAt(s))}
		}
	}
	out.Outline = tidy(out.Outline)
	for _, i := range order(len(b.Path.Segs), b.Path.Root) {
		if b.Path.Hem(i) {
			continue // it lies on the back of another
		}
		from, to := l.Span(i)
		out.Faces = append(out.Faces, []Point{at(false, to), at(true, to), at(true, from), at(false, from)})
		out.Depths = append(out.Depths, b.Path.Stated(i))
	}
	from, _ := l.Span(b.Path.Root)
	u, v := l.parts[b.Path.Root].dir, l.parts[b.Path.Root].at
	o, dir := FromLayout(0, v.X, v.Y), FromLayout(0, u.X, u.Y)
	out.root = isometry{o: o, u: Vec{1, 0, 0}, v: dir, at: Point{0, girth - from}, x: Point{1, 0}, y: Point{0, -1}}
	line := func(parent, child, bend int) {
		g := b.Path.Segs[bend]
		_, to := l.Span(bend)
		s := to + g.Arc/2
		out.Bends = append(out.Bends, BendLine{at(false, s), at(true, s), g.Turn, [2]string{b.Path.Segs[parent].Name,
			b.Path.Segs[child].Name}, g.Arc, g.Radius, 0, bend})
	}
	for i := b.Path.Root - 1; i >= 0; i-- {
		line(i+1, i, i)
	}
	for i := b.Path.Root + 1; i < len(b.Path.Segs); i++ {
		line(i-1, i, i-1)
	}
	whole.tabs(l, &out)
	b.laps(l, &out)
	return out, nil
}

func (t Tab) bend(p Path) Bend { return Bend{Thickness: p.T, Radius: t.Radius, K: p.K} }

// tabs adds the faces and bend lines of a sheet's tabs to its pattern.
func (b Sheet) tabs(l Laid, out *Flat) {
	girth := b.Path.Girth()
	from, to := l.Span(b.Path.Root)
	for end, tab := range b.Tabs {
		if tab == nil {
			continue
		}
		less, _ := tab.bend(b.Path).Deduction(90) // Pattern has asked
		cut, side := b.Left, -1.0
		if end == 1 {
			cut, side = b.Right, 1
		}
		at := func(s, beyond float64) Point {
			return Point{cut.X(l, s, end == 1) + side*beyond, girth - s}
		}
		fold0, fold1 := at(to, -less/2), at(from, -less/2)
		tip0, tip1 := at(to, tab.Height-less), at(from, tab.Height-less)
		face := []Point{tip0, fold0, fold1, tip1} // counterclockwise
		if end == 1 {
			face = []Point{fold0, tip0, tip1, fold1}
		}
		out.Faces = append(out.Faces, face)
		out.Depths = append(out.Depths, tab.Height)
		out.Bends = append(out.Bends, BendLine{fold0, fold1, 90, [2]string{b.Path.Segs[b.Path.Root].Name, tab.Name},
			tab.bend(b.Path).Allowance(90), tab.Radius, end, -1})
	}
}

// order tells the straights of a path as Prism tells its faces: the root, those
// before it outwards, those after it.
func order(n, root int) []int {
	out := []int{root}
	for i := root - 1; i >= 0; i-- {
		out = append(out, i)
	}
	for i := root + 1; i < n; i++ {
		out = append(out, i)
	}
	return out
}

// places are those of the path, with both ends of every notch and, on straights
// that a seam of more than one surface crosses, enough between them.
func (b Sheet) places(l Laid, chord float64) []float64 {
	var out []float64
	base := l.Places(chord)
	for _, c := range []Cut{b.Left, b.Right} {
		for _, n := range c.Notches {
			base = append(base, n.From, n.From-1e-6, n.To, n.To+1e-6)
		}
	}
	for _, laps := range b.Laps {
		for _, lap := range laps {
			base = append(base, lap.From, lap.From+hair, lap.To-hair, lap.To)
		}
	}
	slices.Sort(base)
	for i, s := range base {
		if i > 0 && s-base[i-1] > 1e-9 {
			out = append(out, b.between(l, base[i-1], s, chord, 0)...)
		}
		if s >= -1e-9 && s <= b.Path.Girth()+1e-9 && (len(out) == 0 || s > out[len(out)-1]) {
			out = append(out, s)
		}
	}
	return out
}

// Places are the developed places, front to rear, that its outline has corners at in
// chords of a length.
func (b Sheet) Places(chord float64) []float64 { return b.places(b.Path.Lay(), chord) }

// between adds places inside a stretch while the cut there is not straight.
func (b Sheet) between(l Laid, from, to, chord float64, depth int) []float64 {
	mid := (from + to) / 2
	off := func(c Cut, right bool) float64 {
		return math.Abs(c.X(l, mid, right) - (c.X(l, from, right)+c.X(l, to, right))/2)
	}
	if depth > 12 || to-from < chord || math.Max(off(b.Left, false), off(b.Right, true)) < chord/10 {
		return nil
	}
	out := b.between(l, from, mid, chord, depth+1)
	out = append(out, mid)
	return append(out, b.between(l, mid, to, chord, depth+1)...)
}

// Skin is a sheet folded, as triangles of both its faces and its cut edges:
// what a formed view shows and where metal stands.
func (b Sheet) Skin(chord float64) [][3]Vec {
	l := b.Path.Lay()
	places := b.places(l, chord)
	type rib struct{ fl, fr, bl, br Vec } // finish and back, left and right
	ribs := make([]rib, len(places))
	for i, s := range places {
		f, k := l.Skins(s)
		x0, x1 := b.Left.X(l, s, false), b.Right.X(l, s, true)
		ribs[i] = rib{FromLayout(x0, f.X, f.Y), FromLayout(x1, f.X, f.Y), FromLayout(x0, k.X, k.Y),
			FromLayout(x1, k.X, k.Y)}
	}
	var out [][3]Vec
	quad := func(a, c, d, e Vec) { out = append(out, [3]Vec{a, c, d}, [3]Vec{a, d, e}) }
	for i := 1; i < len(ribs); i++ {
		p, q := ribs[i-1], ribs[i]
		quad(p.fl, q.fl, q.fr, p.fr)
		quad(p.bl, p.br, q.br, q.bl)
		quad(p.fl, p.bl, q.bl, q.fl)
		quad(p.fr, q.fr, q.br, p.br)
	}
	first, last := ribs[0], ribs[len(ribs)-1]
	quad(first.fl, first.fr, first.br, first.bl)
	quad(last.fl, last.bl, last.br, last.fr)
	return out
}
