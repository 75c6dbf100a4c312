package refold

import "math"

// Section is a body bent up across its run: for each place down the blank its finish
// face and its back.
type Section struct {
	T     float64
	Spans []Span // straights and bends from the top edge of the blank on
}

// Span is a straight, or the bend after one.
type Span struct {
	Name         string // of a straight
	From, To     float64
	At           Pt // finish face where it begins
	Dir          Pt
	Turn, Radius float64 // of a bend
}

// Fold bends a body up, bends DOWN away from the finish face.
func (w Sheet) Fold() Section {
	out := Section{T: w.Thickness()}
	bends := w.along()
	lo, hi := w.Bounds()
	at, dir, s := Pt{}, Pt{1, 0}, 0.0
	flat := func(name string, to float64) {
		out.Spans = append(out.Spans, Span{Name: plain(name), From: s, To: to, At: at, Dir: dir})
		at, s = at.add(dir.by(to-s)), to
	}
	used := func(name string) bool {
		for _, n := range out.Spans {
			if n.Name == name {
				return true
			}
		}
		return false
	}
	for i, b := range bends {
		ba, turn, r := b.MM("bend allowance"), b.Number("turn"), b.MM("inside radius")
		if b["up or down"] == "down" {
			turn = -turn
		}
		// The straight before it is the one it shares with no bend after.
		name := b["between"]
		if i+1 < len(bends) && (name == bends[i+1]["between"] || name == bends[i+1]["and"]) {
			name = b["and"]
		} else if i+1 == len(bends) && i > 0 && name != bends[i-1]["between"] && name != bends[i-1]["and"] {
			name = b["and"]
		}
		flat(name, hi.Y-b.MM("y1")-ba/2)
		out.Spans = append(out.Spans, Span{From: s, To: s + ba, At: at, Dir: dir, Turn: turn, Radius: r})
		side, reach := dir.left(), r // to the finish
		if turn < 0 {
			side, reach = side.by(-1), r+out.T
		}
		c := at.add(side.by(reach))
		at, dir, s = c.add(at.sub(c).turned(turn)), dir.turned(turn), s+ba
	}
	name := "flat"
	if len(bends) > 0 {
		final := bends[len(bends)-1]
		if name = final["and"]; used(name) && name != "hem" {
			name = final["between"]
		}
	}
	flat(name, hi.Y-lo.Y)
	return out
}

// End is the developed width.
func (r Section) End() float64 { return r.Spans[len(r.Spans)-1].To }

// Straights are the straights in their order.
func (r Section) Straights() []Span {
	var out []Span
	for _, n := range r.Spans {
		if n.Turn == 0 {
			out = append(out, n)
		}
	}
	return out
}

// Straight of a name.
func (r Section) Straight(name string) (Span, bool) {
	for _, n := range r.Spans {
		if n.Name == name && n.Turn == 0 {
			return n, true
		}
	}
	return Span{}, false
}

// Skins are the finish face and the back at a place from the top edge on.
func (r Section) Skins(s float64) (finish, back Pt) {
	for i, n := range r.Spans {
		if s > n.To && i < len(r.Spans)-1 {
			continue
		}
		left := n.Dir.left()
		if n.Turn == 0 {
			finish = n.At.add(n.Dir.by(s - n.From))
			return finish, finish.sub(left.by(r.T))
		}
		side, in, outer := left, n.Radius, n.Radius+r.T
		if n.Turn < 0 {
			side, in, outer = left.by(-1), n.Radius+r.T, n.Radius
		}
		c := n.At.add(side.by(in))
		u := side.by(-1).turned(n.Turn * (s - n.From) / (n.To - n.From))
		return c.add(u.by(in)), c.add(u.by(outer))
	}
	return Pt{}, Pt{}
}

// turn turns a section and then moves it.
func (r *Section) move(deg float64, by Pt) {
	for i := range r.Spans {
		r.Spans[i].At, r.Spans[i].Dir = r.Spans[i].At.turned(deg).add(by), r.Spans[i].Dir.turned(deg)
	}
}

// Stand turns a cap so that its front leg is plumb, its street face at y 0 and the
// mold line of its front fold at z 0. A cap without a front leg cannot stand.
func (r *Section) Stand() bool {
	leg, ok := r.Straight("front leg")
	_, ok2 := r.Straight("top")
	if !ok || !ok2 {
		return false
	}
	r.move(90-math.Atan2(leg.Dir.Y, leg.Dir.X)*180/math.Pi, Pt{})
	leg, _ = r.Straight("front leg")
	top, _ := r.Straight("top")
	k := (leg.At.X - top.At.X) / top.Dir.X
	r.move(0, Pt{}.sub(Pt{leg.At.X, top.At.Y + k*top.Dir.Y}))
	return true
}

// Extreme is the least and greatest of what is told of both faces between two places.
func (r Section) Extreme(from, to float64, of func(Pt) float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	const n = 400
	for k := range n + 1 {
		f, b := r.Skins(from + (to-from)*float64(k)/n)
		for _, p := range []Pt{f, b} {
			lo, hi = math.Min(lo, of(p)), math.Max(hi, of(p))
		}
	}
	return lo, hi
}

// middle are places along the middle of the metal, `step` apart.
func (r Section) middle(step float64) []Pt {
	n := max(1, int(math.Ceil(r.End()/step)))
	out := make([]Pt, n+1)
	for i := range out {
		f, b := r.Skins(r.End() * float64(i) / float64(n))
		out[i] = f.add(b).by(0.5)
	}
	return out
}

// Clash finds metal in metal of one section: places that are not neighbours along
// the sheet keep a thickness apart. It tells how deep one stands in the other.
func (r Section) Clash() float64 {
	const step = 0.4
	mid := r.middle(step)
	var apart float64
	for _, s := range r.Spans {
		if s.Turn != 0 {
			apart = math.Max(apart, math.Pi*(s.Radius+r.T)+2*r.T)
		}
	}
	deep := 0.0
	for i := range mid {
		for k := i + int(apart/step) + 1; k < len(mid); {
			d := mid[i].sub(mid[k]).len()
			deep = math.Max(deep, r.T-d)
			k += max(1, int((d-r.T)/step)) // no farther along the sheet than in space
		}
	}
	return deep
}

// Room is the least distance from metal to metal of two sections, less than nothing
// where one stands in the other, and where in the section that is.
func Room(a, b Section) (least float64, at Pt) {
	const step = 0.3
	least = math.Inf(1)
	p, q := a.middle(step), b.middle(step)
	for i := range p {
		for k := 1; k < len(q); {
			d := Off(p[i], q[k-1], q[k])
			if d < least {
				least, at = d, p[i]
			}
			k += max(1, int((d-least)/step)) // no farther along the sheet than in space
		}
	}
	return least - (a.T+b.T)/2, at
}

// Off is how far a point stands off a line between two.
func Off(p, a, b Pt) float64 {
	u := b.sub(a)
	l := u.dot(u)
	if l == 0 {
		return p.sub(a).len()
	}
	v := p.sub(a)
	return v.sub(u.by(math.Max(0, math.Min(1, v.dot(u)/l)))).len()
}

// EndAt is where a blank is cut at a place from its top edge on, at its right or left.
func (w Sheet) EndAt(s float64, right bool) float64 {
	_, hi := w.Bounds()
	y, best := hi.Y-s, math.Inf(1)
	for i, a := range w.Outline {
		b := w.Outline[(i+1)%len(w.Outline)]
		if (a.Y-y)*(b.Y-y) > 0 || a.Y == b.Y {
			continue
		}
		x := a.X + (y-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		if right {
			x = -x
		}
		best = math.Min(best, x)
	}
	if right {
		return -best
	}
	return best
}
