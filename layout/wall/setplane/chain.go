package setplane

import (
	"math/big"

	"copingset/layout/length"
)

// chain is the task in fractions, heights and lengths each in a unit that
// makes them small whole numbers.
type chain struct {
	links  []link
	closed bool
	unit   length.Length // of heights
	weight []frac        // of each corner: what one unit of its height packs
	top    frac          // greatest height asked for
	reach  frac          // sum of what the runs may rise
}

// link is a run between the height h of its left corner and g of its right
// one.
type link struct {
	up   frac // greatest rise from left to right
	down frac // greatest fall
	// height h over which the limit of the grade asks for more of g than any point: (1 - at) h + at (h - down) = least
	cross num
	lines []line
}

// line is a point of the run's hull: g must be at least off - fall·h. A point
// at the left corner bounds h alone and has no line.
type line struct {
	at           frac // share of the run's length left of the point
	least        frac
	climb        frac // least height of h with g as far above it as may be
	off          frac
	fall         frac // not negative; down is its negative
	down         frac
	inv, back    frac // of the line solved for h: back - inv·g, where fall is not zero
	from         num  // height h from which this line is the highest
	first        bool // no line before it
	corner, flat bool // at the left corner; at the right one
}

// unitOf is the greatest length that goes into all whole.
func unitOf(a, b length.Length) length.Length {
	a, b = length.Abs(a), length.Abs(b)
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func newChain(runs []Run, closed bool, grid length.Length) *chain {
	c := &chain{closed: closed, reach: integer(0), unit: grid}
	n := Corners(len(runs), closed)
	hulls := make([][]Point, len(runs))
	long := length.Length(0)
	for i, r := range runs {
		hulls[i] = Hull(r.Points)
		long = unitOf(long, r.Length)
		for _, p := range hulls[i] {
			c.unit = unitOf(c.unit, p.Least)
		}
	}
	height := func(l length.Length) frac { return integer(int64(l / c.unit)) }
	for range n {
		c.weight = append(c.weight, integer(0))
	}
	known := false
	for i, r := range runs {
		half := small(int64(r.Length/long), 2)
		c.weight[i] = c.weight[i].add(half)
		c.weight[(i+1)%n] = c.weight[(i+1)%n].add(half)
		rise := height(length.FloorTo(length.Max(0, r.Rise), grid))
		k := link{up: rise, down: rise}
		switch {
		case r.OneWay > 0:
			k.down = integer(0)
		case r.OneWay < 0:
			k.up = integer(0)
		}
		c.reach = c.reach.add(rise)
		for m, p := range hulls[i] {
			q := line{at: small(int64(p.At), int64(r.Length)), least: height(p.Least), corner: p.At <= 0,
				flat: p.At >= r.Length}
			if !known || c.top.less(q.least) {
				c.top, known = q.least, true
			}
			q.climb = q.least.sub(q.at.mul(k.up))
			if over := exact(q.least.add(q.at.mul(k.down))); m == 0 || k.cross.less(over) {
				k.cross = over
			}
			q.first = len(k.lines) == 0 || k.lines[len(k.lines)-1].corner && len(k.lines) == 1
			if !q.corner {
				q.fall = small(int64(r.Length-p.At), int64(p.At))
				q.down = q.fall.neg()
				q.off = q.least.quo(q.at)
				if !q.flat {
					q.inv = q.fall.inv().neg()
					q.back = q.off.quo(q.fall)
				}
				if m > 0 {
					// The line through this point and the one before, at the left corner.
					b := hulls[i][m-1]
					d := small(int64(b.At), int64(p.At-b.At)).mul(height(p.Least - b.Least))
					q.from = exact(height(b.Least).sub(d))
				}
			}
			k.lines = append(k.lines, q)
		}
		c.links = append(c.links, k)
	}
	return c
}

// env is the height the right corner must have for the points alone, and the
// number of the line that says so; false: no line does.
func (k *link) env(h num) (g num, which int, ok bool) {
	which = -1
	for i := range k.lines {
		l := &k.lines[i]
		switch {
		case l.corner:
		case l.first || !h.less(l.from):
			which = i
		}
	}
	if which < 0 {
		return num{}, -1, false
	}
	return k.lines[which].g(h), which, true
}

func (l *line) g(h num) num { return h.along(l.down, l.off) }

// h is the height of the left corner at which the line asks for g.
func (l *line) h(g num) num { return g.along(l.inv, l.back) }

// cost is a convex piecewise linear function by its slopes: slope[i] from
// x[i] to x[i+1]. Values are never needed.
type cost struct {
	x     []num
	slope []frac
}

func (f *cost) lo() num { return f.x[0] }
func (f *cost) hi() num { return f.x[len(f.x)-1] }

// lowest is the lowest height of least cost.
func (f *cost) lowest() (num, int) {
	for i, s := range f.slope {
		if s.sign() >= 0 {
			return f.x[i], i
		}
	}
	return f.hi(), len(f.slope)
}

// to appends a piece; one of no length is left out.
func (f *cost) to(x num, slope frac) {
	if x.cmp(f.hi()) <= 0 {
		return
	}
	if n := len(f.slope); n > 0 && f.slope[n-1].cmp(slope) == 0 {
		f.x[n] = x
		return
	}
	f.x, f.slope = append(f.x, x), append(f.slope, slope)
}

// before is the cost of the chain from the left corner of a link, given that
// from its right corner: the weight of the corner and the least over the
// heights that the link allows at the right. It is nil where none is allowed.
func (k *link) before(v *cost, weight frac) *cost {
	lo, hi := k.domain(v)
	if hi.less(lo) {
		return nil
	}
	f := &cost{x: []num{lo}}
	m, mi := v.lowest()
	g, which, bound := k.env(lo)
	switch {
	case bound && m.less(g):
		k.falling(f, v, g, which, m)
	default:
		// Until it can reach the lowest the right corner stands as high as it may.
		for i := range mi {
			f.to(least(v.x[i+1].minus(k.up), hi), v.slope[i])
		}
	}
	f.to(least(m.plus(k.down), hi), integer(0))
	for i := mi; i < len(v.slope); i++ {
		f.to(least(v.x[i+1].plus(k.down), hi), v.slope[i])
	}
	f.x[len(f.x)-1] = hi
	for i, s := range f.slope {
		f.slope[i] = s.add(weight)
	}
	return f
}

// falling appends the pieces over which a point holds the right corner above
// its lowest cost m, and so the lower the higher the left corner stands. It
// ends where that cost is reached, or where the limit of the grade holds the
// right corner as high.
func (k *link) falling(f, v *cost, g num, which int, m num) {
	end := k.cross
	for f.hi().less(end) && m.less(g) {
		l := &k.lines[which]
		next, more := end, false
		if which+1 < len(k.lines) && k.lines[which+1].from.less(end) {
			next, more = k.lines[which+1].from, true
		}
		// The piece of v at or below g.
		i := len(v.slope) - 1
		for i > 0 && g.cmp(v.x[i]) <= 0 {
			i--
		}
		if !l.flat {
			if h := l.h(v.x[i]); h.cmp(next) < 0 || h.cmp(next) == 0 && !more {
				next, more = h, false
			}
		}
		f.to(least(next, v.hi().plus(k.down)), v.slope[i].mul(l.down))
		if more {
			which++
		}
		g = k.lines[which].g(next)
	}
}

// domain is the range of heights of the left corner that leave one for the
// right.
func (k *link) domain(v *cost) (lo, hi num) {
	lo, hi = v.lo().minus(k.up), v.hi().plus(k.down)
	for i := range k.lines {
		l := &k.lines[i]
		// The right corner as much higher as may be must clear the point.
		lo = most(lo, exact(l.climb))
		switch {
		case l.corner:
			lo = most(lo, exact(l.least))
		case !l.flat:
			lo = most(lo, l.h(v.hi()))
		case v.hi().less(exact(l.least)):
			return hi.plus(integer(1)), hi // nothing
		}
	}
	return lo, hi
}

// costs are the functions of all corners, from the last back to the first,
// given that of the last; nil where no heights will do.
func (c *chain) costs(last *cost) []*cost {
	f := make([]*cost, len(c.links)+1)
	f[len(c.links)] = last
	for i := len(c.links) - 1; i >= 0; i-- {
		if f[i] = c.links[i].before(f[i+1], c.weight[i]); f[i] == nil {
			return nil
		}
	}
	return f
}

// path walks from the height of the first corner to the last, as low as the
// least cost allows at each.
func (c *chain) path(f []*cost, h num) []num {
	out := []num{h}
	for i := range c.links {
		k := &c.links[i]
		lo, hi := most(h.minus(k.down), f[i+1].lo()), least(h.plus(k.up), f[i+1].hi())
		if g, _, ok := k.env(h); ok {
			lo = most(lo, g)
		}
		m, _ := f[i+1].lowest()
		h = least(most(m, lo), hi)
		out = append(out, h)
	}
	return out
}

// solve gives the heights of all corners, lowest from the first on.
func (c *chain) solve() []*big.Rat {
	var way []num
	if c.closed {
		way = c.around()
	} else {
		// Some corner stands no higher than the highest point, and one beside it
		// no lower; none can stand further from either than all runs may rise.
		last := &cost{x: []num{exact(c.top.sub(c.reach)), exact(c.top.add(c.reach))},
			slope: []frac{c.weight[len(c.links)]}}
		f := c.costs(last)
		h, _ := f[0].lowest()
		way = c.path(f, h)
	}
	out := make([]*big.Rat, len(c.weight))
	for i := range out {
		out[i] = way[i].x.mul(integer(int64(c.unit))).rat()
	}
	return out
}

// trial is the closed chain with its first corner at t + ε or t - ε.
type trial struct {
	t     frac
	way   []num // nil: no heights will do
	total num
	over  num // if so, how much too high the chain comes back; zero if it breaks before
}

func (c *chain) try(t frac, side int64) trial {
	at := num{t, integer(side)}
	f := c.costs(&cost{x: []num{at}})
	out := trial{t: t}
	switch {
	case f == nil:
		return out
	case at.less(f[0].lo()):
		lo := f[0].lo()
		out.over = num{lo.x.sub(t), lo.e.sub(at.e)}
		return out
	}
	out.way = c.path(f, at)
	out.total = exact(integer(0))
	for i, w := range c.weight {
		out.total = out.total.add(out.way[i].along(w, integer(0)))
	}
	return out
}

// around finds the lowest height of the first corner at which the closed chain
// packs least: the lowest point of a convex piecewise linear function, as the
// meeting point of a falling and a rising tangent, which move to it in a
// finite number of exact steps.
func (c *chain) around() []num {
	left := c.try(c.lowestStart(), 1)
	// Newton's method on how much too high the chain comes back, convex and
	// falling in t: it comes up to the first height that will do from below.
	for left.way == nil {
		left = c.try(left.t.sub(left.over.x.quo(left.over.e)), 1)
	}
	if left.total.e.sign() >= 0 {
		return left.way
	}
	// Over a height from which the chain cannot come down to any point the cost
	// only rises.
	right := c.try(c.top.add(c.reach).add(integer(1)), -1)
	falling, rising := tangent(left, 1), tangent(right, -1)
	for {
		t := falling.meets(rising)
		q := c.try(t, 1)
		if q.total.e.sign() < 0 {
			falling = tangent(q, 1)
			continue
		}
		p := c.try(t, -1)
		if p.way == nil || p.total.e.sign() > 0 { // on the left side ε is negative: the function falls
			return q.way
		}
		rising = tangent(p, -1)
	}
}

// lowestStart is a height below which the first corner cannot stand: coming
// back from the last run, no point may lie above what the runs can come down from.
func (c *chain) lowestStart() frac {
	var out frac
	known := false
	fall := integer(0)
	for i := len(c.links) - 1; i >= 0; i-- {
		k := &c.links[i]
		for _, l := range k.lines {
			// least - (1 - at) fall - what the runs after it may fall
			t := l.least.sub(integer(1).sub(l.at).mul(k.down)).sub(fall)
			if !known || out.less(t) {
				out, known = t, true
			}
		}
		fall = fall.add(k.down)
	}
	return out
}

// tangentLine is a straight line that the cost of the closed chain nowhere
// sinks below.
type tangentLine struct{ t, value, slope frac }

func tangent(q trial, side int64) tangentLine {
	return tangentLine{q.t, q.total.x, q.total.e.mul(integer(side))}
}

// meets is where a falling tangent meets a rising one:
// value_a + slope_a (t - t_a) = value_b + slope_b (t - t_b).
func (a tangentLine) meets(b tangentLine) frac {
	n := b.value.sub(a.value).add(a.slope.mul(a.t)).sub(b.slope.mul(b.t))
	return n.quo(a.slope.sub(b.slope))
}
