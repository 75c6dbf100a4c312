package shop

import (
	"fmt"
	"math"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// take is the developed length of a bend where the shop's trial strips gave what
// it takes of the outside lengths, by the strip's own measure; zero has it worked
// out from K. Strips are of the caps' metal, bent with the profile's radius.
func (b *builder) take(turn float64) float64 {
	if b.bend.Thickness != b.s.Metal.Thickness.MM() || b.bend.Radius != b.s.Profile.InsideR.MM() {
		return 0
	}
	for _, t := range b.shop.Bends {
		if math.Abs(t.Turn.Degrees()-turn) > strips {
			continue
		}
		both := 2 * b.bend.Setback(turn)
		if t.Turn > 90*job.Degree && t.To == job.ToTangent {
			both = 2 * (b.bend.Radius + b.bend.Thickness)
		}
		if arc := both - t.Deduction.MM(); arc > 0 {
			return arc
		}
	}
	return 0
}

// strips is how far a bend may differ from its trial strip, degrees.
const strips = 0.5

// machine checks a body against what the shop bends on: the flat beside every
// bend, the back gauge, the throat, and tools against metal where their outlines
// are stated.
func (b *builder) machine(name string, body Body) (code, what, mend string) {
	m := b.shop.Machine
	if m == nil {
		return "", "", ""
	}
	both := func(mm float64) string { return job.Both(length.FromMM(mm)) }
	least, why := m.Nose.MM(), "the folder's nose clamps"
	if m.Kind == job.PressBrake && len(m.Dies) > 0 {
		least, why = slices.Min(m.Dies).MM()/2, "half the opening of the narrowest die spans"
	}
	for _, p := range body.paths {
		for i, g := range p.Segs {
			if g.Turn == 0 || p.Hem(i) || p.Hem(i+1) {
				continue
			}
			for _, k := range []int{i, i + 1} {
				// The die or the nose takes the flat from the middle of the bend on.
				if room := p.Segs[k].Flat + g.Arc/2; k != p.Root && room < least-1e-6 {
					return "flat-under-tool", fmt.Sprintf("the %s of the %s is flat for %s from the middle of its bend, and %s %s", p.Segs[k].Name, name, both(room), why, both(least)),
						"a narrower die or nose, or a deeper " + p.Segs[k].Name
				}
			}
		}
	}
	for _, q := range body.Bends {
		at := fmt.Sprintf("bend %d of the %s is gauged %s from its line", q.Order, name, job.Both(q.Gauge))
		switch {
		case m.LeastGage > 0 && q.Gauge < m.LeastGage:
			return "gauge-reach", at + ", and the back gauge comes no nearer than " + job.Both(m.LeastGage), "a deeper flange, or another order of bends"
		case m.MostGage > 0 && q.Gauge > m.MostGage:
			return "gauge-reach", at + ", and the back gauge goes no farther than " + job.Both(m.MostGage), "bend it from the other edge, by the shop's own order"
		case m.Throat > 0 && q.Gauge > m.Throat:
			return "throat", at + ", and the throat is " + job.Both(m.Throat), "bend it from the other edge, by the shop's own order"
		}
		if c, hit := b.struck(body, q); hit {
			return "hits-tool", fmt.Sprintf("at bend %d of the %s the %s stands in the %s", q.Order, name, c[0], c[1]), "another order of bends, or a tool with more room"
		}
	}
	return "", "", ""
}

// struck reports what metal of a section stands in a tool after a hit. The sheet
// lies with its bend over the die, the punch on the side that the bend closes on,
// and both legs come up by half the turn.
func (b *builder) struck(body Body, q Bend) ([2]string, bool) {
	m := b.shop.Machine
	if q.Hem || q.Line.Seg < 0 || len(m.Punch)+len(m.Die) < 3 {
		return [2]string{}, false
	}
	p := body.paths[q.Line.Wing]
	made := func(seg int) bool {
		return slices.ContainsFunc(body.Bends, func(o Bend) bool {
			return o.Order <= q.Order && o.Line.Wing == q.Line.Wing && o.Line.Seg == seg
		})
	}
	l := p.Stage(made).Lay()
	_, from := l.Span(q.Line.Seg)
	g := p.Segs[q.Line.Seg]
	// Across from the bend's middle, and up towards the punch.
	f, k := l.Skins(from + g.Arc/2)
	up := fold.Point{X: (f.X - k.X) / p.T, Y: (f.Y - k.Y) / p.T}
	origin := f
	if g.Turn < 0 { // it closes on its back
		up, origin = fold.Point{X: -up.X, Y: -up.Y}, k
	}
	across := fold.Point{X: up.Y, Y: -up.X}
	tool := func(of []job.ToolPoint, side float64) []fold.Point {
		var out []fold.Point
		for _, t := range of {
			out = append(out, fold.Point{X: t.X.MM(), Y: side * t.Y.MM()})
		}
		return out
	}
	punch, die := tool(m.Punch, 1), tool(m.Die, -1)
	for _, s := range l.Places(0.1) {
		if s > from-g.Radius-p.T && s < from+g.Arc+g.Radius+p.T {
			continue // the bend itself
		}
		f, k := l.Skins(s)
		for _, v := range []fold.Point{f, k} {
			d := fold.Point{X: v.X - origin.X, Y: v.Y - origin.Y}
			at := fold.Point{X: d.X*across.X + d.Y*across.Y, Y: d.X*up.X + d.Y*up.Y}
			if len(punch) > 2 && holds(punch, at) {
				return [2]string{l.Name(s), "punch"}, true
			}
			if len(die) > 2 && holds(die, fold.Point{X: at.X, Y: at.Y + p.T}) {
				return [2]string{l.Name(s), "die"}, true
			}
		}
	}
	return [2]string{}, false
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

// ownOrder puts bends in the shop's own order, each named by the faces beside it;
// those it does not name come after. A name that is no bend is a finding.
func (b *builder) ownOrder(all []Bend) {
	if len(b.shop.BendOrder) == 0 {
		return
	}
	at := func(q Bend) int {
		x, y := q.Line.Between[0], q.Line.Between[1]
		k := slices.IndexFunc(b.shop.BendOrder, func(s string) bool { return s == x+"/"+y || s == y+"/"+x })
		if k < 0 {
			return len(b.shop.BendOrder)
		}
		return k
	}
	slices.SortStableFunc(all, func(p, q Bend) int { return at(p) - at(q) })
}

// tools checks what is stated once for the job of strips, order and machine.
func (b *builder) tools(families []*Family) {
	note := func(code, what, mend string) {
		b.found.Append(finding.Finding{Code: code, Severity: finding.Hold, At: b.shop.At, What: what, Mend: mend})
	}
	for _, name := range b.shop.BendOrder {
		known := slices.ContainsFunc(families, func(f *Family) bool {
			return slices.ContainsFunc(f.Bodies, func(y Body) bool {
				return slices.ContainsFunc(y.Bends, func(q Bend) bool {
					return name == q.Line.Between[0]+"/"+q.Line.Between[1] || name == q.Line.Between[1]+"/"+q.Line.Between[0]
				})
			})
		})
		if !known && len(families) > 0 {
			note("bend-unknown", "`bend_order:` names "+name+", and no piece has such a bend", "name a bend by the two faces beside it, as its sheet does")
		}
	}
	if m := b.shop.Machine; m != nil && m.Throat > 0 && b.shop.LeastFlange > m.Throat {
		note("throat", "the least flange is greater than the throat of the machine", "check the two")
	}
}
