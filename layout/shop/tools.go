package shop

import (
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
)

// most is how many hits the search for an order of bends tries on one body.
const most = 20000

// freeOrder is the first order of bends that keeps to the machine: at no hit does
// the back gauge stand out of its reach, nor folded metal in a tool. Hems stay
// first and what is bent across the ends last; between them orders are tried in the
// given one's own order, and that stands if none is free.
func (b *builder) freeOrder(body Body, all []Bend) []Bend {
	m := b.shop.Machine
	if m == nil {
		return all
	}
	first := slices.IndexFunc(all, func(q Bend) bool { return !q.Hem })
	last := slices.IndexFunc(all, func(q Bend) bool { return q.Line.Seg < 0 })
	if last < 0 {
		last = len(all)
	}
	if first < 0 || first >= last {
		return all
	}
	tried := 0
	var after func(done, left []Bend) []Bend
	after = func(done, left []Bend) []Bend {
		if len(left) == 0 {
			return done
		}
		for i, q := range left {
			if tried++; tried > most {
				return nil
			}
			now := append(slices.Clone(done), q)
			b.gauge(body, now, len(now)-1)
			if !b.reaches(now[len(now)-1]) {
				continue
			}
			if _, hit := b.strikes(body, q, now); hit {
				continue
			}
			if out := after(now, slices.Delete(slices.Clone(left), i, i+1)); out != nil {
				return out
			}
		}
		return nil
	}
	if out := after(slices.Clone(all[:first]), all[first:last]); out != nil {
		return append(out, all[last:]...)
	}
	return all
}

// reaches reports whether the back gauge and the throat allow a bend.
func (b *builder) reaches(q Bend) bool {
	m := b.shop.Machine
	return (m.LeastGage == 0 || q.Gauge >= m.LeastGage) && (m.MostGage == 0 || q.Gauge <= m.MostGage) &&
		(m.Throat == 0 || q.Gauge <= m.Throat)
}

// struck reports what metal of a section stands in a tool after a hit of a body's
// own order.
func (b *builder) struck(body Body, q Bend) ([2]string, bool) {
	var made []Bend
	for _, o := range body.Bends {
		if o.Order <= q.Order {
			made = append(made, o)
		}
	}
	return b.strikes(body, q, made)
}

// strikes lays the section as it is folded after a hit against punch and die. On a
// press brake both legs come up by half the turn; a folder clamps the side of the
// gauge flat and folds the other. The tools' outlines run from the bend line to the
// gauge and away from the sheet.
func (b *builder) strikes(body Body, q Bend, made []Bend) ([2]string, bool) {
	m := b.shop.Machine
	if q.Hem || q.Line.Seg < 0 || len(m.Punch) < 3 && len(m.Die) < 3 {
		return [2]string{}, false
	}
	p := body.paths[q.Line.Wing]
	l := p.Stage(func(seg int) bool {
		return slices.ContainsFunc(made, func(o Bend) bool { return o.Line.Wing == q.Line.Wing && o.Line.Seg == seg })
	}).Lay()
	frame, from, to := b.onTool(l, q, fromLast(body, q))
	tool := func(of []job.ToolPoint, side float64) []fold.Point {
		var out []fold.Point
		for _, t := range of {
			out = append(out, fold.Point{X: t.X.MM(), Y: side * t.Y.MM()})
		}
		return out
	}
	punch, die := tool(m.Punch, 1), tool(m.Die, -1)
	places := l.Places(0.1)
	for i := 1; i < len(places); i++ {
		a, z := places[i-1], places[i]
		if a < to && z > from { // the bend itself and its tangents lie on the tools
			if a, z = clear(a, z, from, to); z-a < 1e-6 {
				continue
			}
		}
		f0, k0 := l.Skins(a)
		f1, k1 := l.Skins(z - 1e-9)
		for _, line := range [][2]fold.Point{{f0, f1}, {k0, k1}} {
			u, v := frame(line[0]), frame(line[1])
			switch {
			case runsInto(punch, u, v):
				return [2]string{l.Name((a + z) / 2), "punch"}, true
			case runsInto(die, fold.Point{X: u.X, Y: u.Y + p.T}, fold.Point{X: v.X, Y: v.Y + p.T}):
				return [2]string{l.Name((a + z) / 2), "die"}, true
			}
		}
	}
	return [2]string{}, false
}

// clear is the longer part of a stretch outside another.
func clear(a, z, from, to float64) (float64, float64) {
	if from-a > z-to {
		return a, math.Min(z, from)
	}
	return math.Max(a, to), z
}

// onTool brings a section to the tools' frame, its origin where the bend closes, and
// tells the stretch that lies on them.
func (b *builder) onTool(l fold.Laid, q Bend, last bool) (frame func(fold.Point) fold.Point, from, to float64) {
	p, g := l.Path, l.Path.Segs[q.Line.Seg]
	_, start := l.Span(q.Line.Seg)
	mid := start + g.Arc/2
	at := mid
	if b.shop.Machine.Kind == job.Folder { // square on the side that is clamped
		at = start - 1e-6
		if last {
			at = start + g.Arc + 1e-6
		}
	}
	f, k := l.Skins(at)
	up := fold.Point{X: (f.X - k.X) / p.T, Y: (f.Y - k.Y) / p.T}
	f, k = l.Skins(mid)
	origin := f
	if g.Turn < 0 { // it closes on its back
		up, origin = fold.Point{X: -up.X, Y: -up.Y}, k
	}
	across := fold.Point{X: up.Y, Y: -up.X}
	// Positive to the gauge: towards the end of the path that it touches.
	ahead, _ := l.Skins(math.Min(start+g.Arc+0.5, p.Girth()))
	behind, _ := l.Skins(math.Max(start-0.5, 0))
	way := (ahead.X-behind.X)*across.X + (ahead.Y-behind.Y)*across.Y
	if way > 0 != last {
		across = fold.Point{X: -across.X, Y: -across.Y}
	}
	near := g.Radius + p.T
	return func(v fold.Point) fold.Point {
		d := fold.Point{X: v.X - origin.X, Y: v.Y - origin.Y}
		return fold.Point{X: d.X*across.X + d.Y*across.Y, Y: d.X*up.X + d.Y*up.Y}
	}, start - near, start + g.Arc + near
}

// runsInto reports whether a line has a part within a ring.
func runsInto(ring []fold.Point, u, v fold.Point) bool {
	if len(ring) < 3 {
		return false
	}
	if holds(ring, u) || holds(ring, v) {
		return true
	}
	side := func(a, c, p fold.Point) float64 { return (c.X-a.X)*(p.Y-a.Y) - (c.Y-a.Y)*(p.X-a.X) }
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		if side(a, c, u)*side(a, c, v) < 0 && side(u, v, a)*side(u, v, c) < 0 {
			return true
		}
	}
	return false
}

// holds reports whether a point lies within a ring.
func holds(ring []fold.Point, p fold.Point) bool {
	in := false
	for i, a := range ring {
		c := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (c.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(c.Y-a.Y)*(c.X-a.X) {
			in = !in
		}
	}
	return in
}

// takes holds a job whose metal the machine does not bend.
func (b *builder) takes(m *job.Machine) {
	i := slices.IndexFunc(m.Takes, func(t job.Taken) bool { return t.Metal == b.s.Metal.Name })
	hold := func(what string) {
		b.found.Append(finding.Finding{Code: "metal-off-machine", Severity: finding.Hold, At: m.At, What: what,
			Mend: "another machine, or what this one takes under `machine: takes:`"})
	}
	switch {
	case i < 0:
		hold("the caps are of " + b.s.Metal.Name + ", which the machine's list of metals does not name")
	case b.s.Metal.Thickness < m.Takes[i].Least || b.s.Metal.Thickness > m.Takes[i].Most:
		hold("the caps are " + thin(b.s.Metal.Thickness) + " thick, and the machine takes " + b.s.Metal.Name +
			" from " + thin(m.Takes[i].Least) + " to " + thin(m.Takes[i].Most))
	}
}
