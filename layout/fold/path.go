package fold

import (
	"fmt"
	"math"
)

// Measure says where a stated outside length ends at a bend.
type Measure int

const (
	// ToMoldLine ends where the outside faces either side of the bend would meet.
	ToMoldLine Measure = iota
	// ToTangent ends at the outermost metal of the bend, square to the leg: what a
	// caliper reads. It is the only measure of a hem, and wants a turn of 90
	// degrees or more.
	ToTangent
)

// String names a measure as the sheets letter it.
func (m Measure) String() string {
	if m == ToTangent {
		return "to tangent"
	}
	return "to mold line"
}

// A Leg is one straight of a section as the shop states it: its outside length,
// and the bend it ends in.
type Leg struct {
	Name    string
	Outside float64
	Turn    float64 // of the bend at its end, degrees, positive UP, towards the finish side; 0 on the last leg
	Radius  float64 // inside, of that bend
	To      Measure // of that bend, for the legs on both its sides
	// Take is the developed length of that bend where a trial strip gave it; zero
	// has it worked out from K.
	Take float64
}

// A Seg is one straight of a path, between the tangents of its bends, and the
// bend at its end.
type Seg struct {
	Name   string
	Flat   float64
	Turn   float64 // degrees, positive UP; 0 on the last
	Radius float64 // inside
	Arc    float64 // developed length of the bend
	To     Measure // what the straights on both its sides are stated to at it
}

// A Path is the section of one sheet of metal with its thickness: straights and
// bends from one edge to the other. The finish side lies at the left hand of
// the way along it, so the section of a cap, told from its street edge to its
// roof edge, has the finish above. A hem is a bend of 180 degrees or, where its leaf
// closes on the flange again like a drop, of more.
//
// The straight Root lies where At and Slope put it: At is the outside mold line
// at its start on the finish side, y to the roof and z up, and Slope its fall
// over its run. All lengths are millimetres.
type Path struct {
	T     float64 // thickness
	K     float64 // distance of the neutral axis from the inside of a bend, in thicknesses
	Segs  []Seg
	Root  int
	At    Point
	Slope float64
	// Upright stands the root straight up instead, its finish towards the street.
	Upright bool
}

// A TooTight is a straight that its bends use up.
type TooTight struct {
	Name    string
	Outside float64 // as stated, millimetres
	Short   float64 // by so much
}

func (e *TooTight) Error() string {
	return fmt.Sprintf("the %s is %.2f mm too short for its bends", e.Name, e.Short)
}

// reach is how much of an outside length the bend at its end takes up: to the
// mold line (R + T) tan(turn/2), to the tangent R + T.
func reach(t, turn, radius float64, to Measure) float64 {
	switch {
	case turn == 0:
		return 0
	case to == ToTangent:
		return radius + t
	}
	return (radius + t) * math.Tan(math.Abs(turn)/2*radians)
}

// NewPath takes the outside lengths of a section to the straights between the
// tangents of its bends. It is an error where a bend has no such measure, and a
// *TooTight where its bends use a leg up.
func NewPath(t, k float64, legs []Leg, root int) (Path, error) {
	p := Path{T: t, K: k, Root: root}
	var before Leg
	for i, l := range legs {
		turn := math.Abs(l.Turn)
		switch {
		case i == len(legs)-1 && turn != 0, turn >= 270:
			return Path{}, fmt.Errorf("the %s ends in a turn of %.2f degrees", l.Name, l.Turn)
		case turn > 179 && l.To != ToTangent:
			return Path{}, fmt.Errorf("a turn of %.2f degrees has no mold line: measure the %s to the tangent", turn,
				l.Name)
		case turn != 0 && turn < 90-1e-9 && l.To == ToTangent:
			return Path{}, fmt.Errorf("a turn of %.2f degrees has no outside tangent square to the %s: measure it to "+
				"the mold line", turn, l.Name)
		}
		b := Bend{Thickness: t, Radius: l.Radius, K: k}
		s := Seg{Name: l.Name, Turn: l.Turn, Radius: l.Radius, Arc: l.Take, To: l.To}
		if s.Arc == 0 {
			s.Arc = b.Allowance(turn)
		}
		s.Flat = l.Outside - reach(t, before.Turn, before.Radius, before.To) - reach(t, l.Turn, l.Radius, l.To)
		if s.Flat < -1e-9 {
			return Path{}, &TooTight{l.Name, l.Outside, -s.Flat}
		}
		s.Flat = math.Max(s.Flat, 0)
		p.Segs = append(p.Segs, s)
		before = l
	}
	return p, nil
}

// Outside is the outside length of a straight, each end measured as asked: what
// NewPath was given, or the same leg in the other measure.
func (p Path) Outside(i int, from, to Measure) float64 {
	l := p.Segs[i].Flat + reach(p.T, p.Segs[i].Turn, p.Segs[i].Radius, to)
	if i > 0 {
		l += reach(p.T, p.Segs[i-1].Turn, p.Segs[i-1].Radius, from)
	}
	return l
}

// Stated is the outside length of a straight as the shop stated it, each end in
// its own measure.
func (p Path) Stated(i int) float64 {
	from := ToMoldLine
	if i > 0 {
		from = p.Segs[i-1].To
	}
	return p.Outside(i, from, p.Segs[i].To)
}

// Deduction is what the bend after a straight takes off the sum of the outside
// lengths stated on both its sides: what those reach beyond its tangents, less its
// developed length. Past about 156 degrees, to the tangent, it is less than nothing.
func (p Path) Deduction(i int) float64 {
	g := p.Segs[i]
	return 2*reach(p.T, g.Turn, g.Radius, g.To) - g.Arc
}

// RootEnd is the outside mold line at the end of the root, whose start is At.
func (p Path) RootEnd() Point {
	long := p.Stated(p.Root) / math.Hypot(1, p.Slope)
	return Point{p.At.X + long, p.At.Y - long*p.Slope}
}

// Hem reports whether a straight is the leaf of a hem: the first or the last,
// folded right back.
func (p Path) Hem(i int) bool {
	n := len(p.Segs)
	return i == 0 && math.Abs(p.Segs[0].Turn) >= 180 || i == n-1 && n > 1 && math.Abs(p.Segs[n-2].Turn) >= 180
}

// Girth is the developed length of the path: the width of the sheet it is bent from.
func (p Path) Girth() float64 {
	var g float64
	for _, s := range p.Segs {
		g += s.Flat + s.Arc
	}
	return g
}

// A Laid path has its straights in place. Section coordinates are X = y to the
// roof and Y = z up.
type Laid struct {
	Path  Path
	parts []laidSeg
}

type laidSeg struct {
	s      float64 // developed place where it begins
	at     Point   // finish side, where it begins
	dir    Point   // of the straight
	centre Point   // of the bend at its end
}

// Lay puts a path's straights in place.
func (p Path) Lay() Laid {
	l := Laid{Path: p, parts: make([]laidSeg, len(p.Segs))}
	at, dir, s := Point{}, Point{1, 0}, 0.0
	for i, g := range p.Segs {
		q := laidSeg{s: s, at: at, dir: dir}
		end := at.plus(dir.times(g.Flat))
		s += g.Flat + g.Arc
		if g.Turn != 0 {
			// An UP bend has the finish side, at the left hand, inside.
			side := dir.left()
			r := g.Radius
			if g.Turn < 0 {
				side, r = side.times(-1), g.Radius+p.T
			}
			q.centre = end.plus(side.times(r))
			at = q.centre.plus(rotate(end.minus(q.centre), g.Turn))
			dir = rotate(dir, g.Turn)
		} else {
			at = end.plus(dir.times(g.Arc)) // a bend that is not made yet lies flat
		}
		l.parts[i] = q
	}
	// Turn and move the whole so that the root lies as asked.
	root := l.parts[p.Root]
	want := Point{1, -p.Slope}.times(1 / math.Hypot(1, p.Slope))
	if p.Upright {
		want = Point{0, 1}
	}
	turn := (math.Atan2(want.Y, want.X) - math.Atan2(root.dir.Y, root.dir.X)) / radians
	start := p.At
	if p.Root > 0 {
		b := p.Segs[p.Root-1]
		in := reach(p.T, b.Turn, b.Radius, ToMoldLine)
		if b.Turn > 0 { // its mold line on the finish side is the inner one
			in = b.Radius * math.Tan(b.Turn/2*radians)
		}
		start = start.plus(want.times(in))
	}
	from := root.at
	place := func(q Point) Point { return start.plus(rotate(q.minus(from), turn)) }
	for i := range l.parts {
		q := &l.parts[i]
		q.at, q.centre, q.dir = place(q.at), place(q.centre), rotate(q.dir, turn)
	}
	return l
}

func rotate(p Point, degrees float64) Point {
	sin, cos := math.Sincos(degrees * radians)
	return Point{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
}

// Skins are the finish face and the back of the metal at a developed place.
// Places before the first edge or past the last go on straight.
func (l Laid) Skins(s float64) (finish, back Point) {
	i := l.segAt(s)
	q, g := l.parts[i], l.Path.Segs[i]
	in := s - q.s
	if in <= g.Flat || g.Turn == 0 {
		finish = q.at.plus(q.dir.times(in))
		return finish, finish.minus(q.dir.left().times(l.Path.T))
	}
	out := q.dir.left() // from the centre to the outside of the bend where it begins
	if g.Turn > 0 {
		out = out.times(-1)
	}
	out = rotate(out, g.Turn*(in-g.Flat)/g.Arc)
	inner, outer := q.centre.plus(out.times(g.Radius)), q.centre.plus(out.times(g.Radius+l.Path.T))
	if g.Turn > 0 {
		return inner, outer
	}
	return outer, inner
}

func (l Laid) segAt(s float64) int {
	i := len(l.parts) - 1
	for i > 0 && s < l.parts[i].s {
		i--
	}
	return i
}

// Name is the straight, or the bend at its end, that a developed place lies on.
func (l Laid) Name(s float64) string {
	i := l.segAt(s)
	if _, to := l.Span(i); s > to+1e-9 {
		return l.partName(2*i + 1)
	}
	return l.Path.Segs[i].Name
}

// Span is where a straight begins and ends on the developed width.
func (l Laid) Span(i int) (from, to float64) {
	return l.parts[i].s, l.parts[i].s + l.Path.Segs[i].Flat
}

// Places are developed places close enough together that no chord of a bend
// stands off its outer face by more than `chord`, from edge to edge: both ends
// of each straight and what lies between on each bend.
func (l Laid) Places(chord float64) []float64 {
	var out []float64
	for i, g := range l.Path.Segs {
		from, to := l.Span(i)
		if n := len(out); n == 0 || from > out[n-1] {
			out = append(out, from)
		}
		if to > from {
			out = append(out, to)
		}
		if g.Turn == 0 {
			continue
		}
		n := arcSteps(g.Radius+l.Path.T, math.Abs(g.Turn), chord)
		for k := 1; k < n; k++ {
			out = append(out, to+g.Arc*float64(k)/float64(n))
		}
	}
	return out
}

// arcSteps is into how many chords an arc goes, none off it by more than `chord`.
func arcSteps(radius, turn, chord float64) int {
	if radius <= chord {
		return max(2, int(math.Ceil(turn/90)))
	}
	step := 2 * math.Acos(1-chord/radius) / radians
	return max(2, int(math.Ceil(turn/step)))
}

// Ring is the outline of the metal in section: the finish face from the first
// edge to the last, then the back again.
func (l Laid) Ring(chord float64) []Point {
	places := l.Places(chord)
	out := make([]Point, 2*len(places))
	for i, s := range places {
		out[i], out[len(out)-1-i] = l.Skins(s)
	}
	return out
}

// A Clash is metal of one sheet where other metal of it stands.
type Clash struct {
	A, B string  // straights, or the bend after one
	Deep float64 // how far one goes into the other, millimetres
}

// Clash finds the deepest place where a folded section runs into itself: a hem
// that reaches across the next bend, a hook turned into its own leg. Straights
// that meet in a bend, and a hem's own flange, touch and do not clash.
func (l Laid) Clash() (Clash, bool) {
	const chord, touch = 0.02, 0.02
	type bit struct {
		a, b     Point   // on the middle of the metal
		from, to float64 // developed
		at       int     // 2i for straight i, 2i+1 for the bend after it
	}
	var bits []bit
	add := func(at int, from, to float64) {
		f, b := l.Skins(from)
		g, c := l.Skins(to)
		bits = append(bits, bit{f.middle(b), g.middle(c), from, to, at})
	}
	for i, g := range l.Path.Segs {
		from, to := l.Span(i)
		if to > from {
			add(2*i, from, to)
		}
		if g.Turn == 0 {
			continue
		}
		n := arcSteps(g.Radius+l.Path.T, math.Abs(g.Turn), chord)
		for k := range n {
			add(2*i+1, to+g.Arc*float64(k)/float64(n), to+g.Arc*float64(k+1)/float64(n))
		}
	}
	var worst Clash
	for i, p := range bits {
		for _, q := range bits[i+1:] {
			if q.at-p.at < 2 || q.at-p.at == 2 && p.at%2 == 0 || q.from-p.to < l.Path.T {
				continue // neighbours: a straight, its bend and the next straight; metal that goes on
			}
			if deep := l.Path.T - segmentDistance(p.a, p.b, q.a, q.b); deep > math.Max(worst.Deep, touch) {
				worst = Clash{l.partName(p.at), l.partName(q.at), deep}
			}
		}
	}
	return worst, worst.Deep > 0
}

func (l Laid) partName(at int) string {
	name := l.Path.Segs[at/2].Name
	if at%2 == 1 {
		return "bend between " + name + " and " + l.Path.Segs[at/2+1].Name
	}
	return name
}

// segmentDistance is the least distance between two segments.
func segmentDistance(a, b, c, d Point) float64 {
	if properly(a, b, c, d) {
		return 0
	}
	return math.Min(math.Min(toSegment(a, c, d), toSegment(b, c, d)), math.Min(toSegment(c, a, b), toSegment(d, a, b)))
}

func toSegment(p, a, b Point) float64 {
	u := b.minus(a)
	n := u.X*u.X + u.Y*u.Y
	if n == 0 {
		return p.minus(a).length()
	}
	v := p.minus(a)
	t := math.Max(0, math.Min(1, (v.X*u.X+v.Y*u.Y)/n))
	return p.minus(a.plus(u.times(t))).length()
}
