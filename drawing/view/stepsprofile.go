package view

import (
	"math"

	"copingset/layout/length"
	"copingset/layout/plan"
)

// stepProfile is a cap in cross-section with what it stands on, in millimetres: x
// from the cap line towards the roof, y down from the set surface at the wall's
// street face. Heights are the plan's; distances across stand apart far enough to be
// told from one another on paper.
type stepProfile struct {
	of              *plan.Cut
	t               float64 // metal
	inside, outside float64
	face, back      float64 // street and roof face of the wall
	cross           float64 // fall of the set surface towards the roof
	packF, packR    float64 // set surface over the wall top at the faces
	foldF, foldR    float64 // outside folds of the cap
	footF, footR    float64
	chairA, chairB  float64 // front and rear edge of the chair
}

// openedProfile is the profile of a cut with its lines at least some millimetres
// apart: as the wall and the cap are, but where cap, chair and wall would print as
// one line, and packing too thin to print is thick enough to see.
func openedProfile(c *plan.Cut, least, thin float64) stepProfile {
	t := c.Metal.MM()
	a, b, face, back := c.ChairFront.MM(), c.ChairRear.MM(), c.Street.MM(), c.Roof.MM()
	apart := func(d float64) float64 { // what stands out stands out to be seen
		if d > 0 {
			return math.Max(d, least)
		}
		return d
	}
	show := func(l length.Length) float64 {
		if l <= 0 {
			return 0
		}
		return math.Max(l.MM(), thin)
	}
	front := math.Max(a-t, least)
	rear := math.Max(t+c.Inside.MM()-b, least)
	p := stepProfile{of: c, t: t, face: t + front + apart(face-a), packF: show(c.PackFront), packR: show(c.PackRear),
		cross: float64(c.Fall) / 1e9}
	p.back = p.face + back - face
	p.inside = p.back - t + math.Max(apart(b-back)+rear, 0)
	p.outside = p.inside + 2*t
	p.chairA, p.chairB = t+front, t+p.inside-rear
	p.foldF, p.foldR = -c.FoldFront.MM(), p.set(p.back)-c.FoldRear.MM()
	p.footF, p.footR = p.foldF+c.FootFront.MM(), p.foldR+c.FootRear.MM()
	return p
}

// set is the height of the set surface at a place across the wall.
func (p stepProfile) set(x float64) float64 { return p.cross * (x - p.face) }

// top is the height of the wall top at a place across it.
func (p stepProfile) top(x float64) float64 {
	f := (x - p.face) / math.Max(p.back-p.face, 1)
	a, b := p.packF, p.set(p.back)+p.packR
	return a + f*(b-a)
}

// under is the underside of the cap's top at a place across it.
func (p stepProfile) under(x float64) float64 {
	return p.foldF + p.t + (p.foldR-p.foldF)*x/p.outside
}

// kicked is the end of a flange at the foot of a leg: it turns by its angle from
// the line of the leg towards the street, which is outwards for the drip and
// inwards for the rear hook.
func kicked(foot xy, k plan.Kick) xy {
	s, c := math.Sincos(k.Turn.Degrees() * math.Pi / 180)
	return foot.add(xy{-s, c}.times(k.Long.MM()))
}

// cap is the middle line of the metal, from the drip over the top to the rear hook.
func (p stepProfile) cap() []xy {
	x0, x1 := p.t/2, p.outside-p.t/2
	y := func(x float64) float64 { return p.under(x) - p.t/2 }
	f, r := xy{x0, p.footF}, xy{x1, p.footR}
	path := []xy{f, {x0, y(x0)}, {x1, y(x1)}, r}
	if p.of.Drip.Long > 0 {
		path = append([]xy{kicked(f, p.of.Drip)}, path...)
	}
	if p.of.Hook.Long > 0 {
		path = append(path, kicked(r, p.of.Hook))
	}
	return path
}

// chair is the chair in principle, in two bends of strip: the base plate on the set
// surface, its upstands as high as the cap less gap, with short tops along the cap's
// slope. Where the wall leaves room its edges turn down towards the drip and the
// rear hook, which they hold.
func (p stepProfile) chair(lift, gap float64) (paths [][]xy) {
	a, b := p.chairA, p.chairB
	base := func(x float64) float64 { return p.set(x) - lift }
	top := func(x float64) float64 { return math.Min(p.under(x)+gap, base(x)-1) }
	lip := math.Min(p.inside*0.16, 45)
	paths = append(paths, []xy{{a + lip, top(a + lip)}, {a, top(a)}, {a, base(a)}, {b, base(b)}, {b, top(b)},
		{b - lip, top(b - lip)}})
	hold := p.of.ChairThick.MM() + 0.5
	if a+hold < p.face && p.of.Drip.Long > 0 {
		end := kicked(xy{a, p.footF - gap}, p.of.Drip)
		end = xy{a, p.footF - gap}.between(end)
		paths = append(paths, []xy{{a, base(a)}, {a, p.footF - gap}, end})
	}
	if b-hold > p.back {
		paths = append(paths, []xy{{b, base(b)}, {b, math.Max(p.footR-12, base(b))}})
	}
	return paths
}
