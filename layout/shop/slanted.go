package shop

import (
	"math"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
)

// slanted is a part whose rear edge runs at a slant across its length, as a chair's
// does under a taper: outside widths of the face that reaches across at its left end
// and at its right, between the outer mold lines of the faces bent from it.
type slanted struct {
	wide  [2]float64
	inner fold.Path // its section where it is narrowest
}

// slantedChair makes a chair whose rear edge follows the taper of the cap over it,
// wide[0] across at its left end and wide[1] at its right. Its base is cut on a slant,
// and what is bent behind it hangs along that. The rest is told of the narrow end.
func (b *partBuilder) slantedChair(p *Part, k *job.Blank, wide [2]length.Length) (job.Flange, bool) {
	across, ok := b.sectionPart(p, k.Section, length.Min(wide[0], wide[1]), b.s.Chair.Length, false, partSides)
	if !ok {
		return across, false
	}
	// What lies behind the base is square to its slanted edge.
	behind := across.Behind.MM() * math.Hypot(1, (wide[1]-wide[0]).MM()/p.long)
	p.slant = &slanted{}
	for end, w := range wide {
		p.slant.wide[end] = (w - across.Before).MM() - behind
	}
	p.legs[p.root].Outside = math.Min(p.slant.wide[0], p.slant.wide[1])
	p.tray = func(b *builder) (fold.Tray, error) { return b.slantedTray(p) }
	p.Hand = cap.RightHand
	if wide[0] > wide[1] {
		p.Hand = cap.LeftHand
	}
	p.Words = append(p.Words, "Its roof-side edge follows the taper of the cap: the "+p.legs[p.root].Name+" is "+
		b.say(length.FromMM(p.slant.wide[0]))+
		" wide at its left end and "+b.say(length.FromMM(p.slant.wide[1]))+" at its right, outside; the section is "+
		"that at its narrow end.")
	more := (p.slant.most() - p.legs[p.root].Outside) * float64(b.s.Profile.TopSlope) / 1e9
	for _, f := range k.Section {
		if f.Rises && b.s.Profile.SlopeBy == job.SlopeByChair && more >= 0.05 {
			p.Words = append(p.Words, "The "+f.Name+" is bent parallel to the base, as high as the narrow end asks: "+
				"at the wide end it stands "+
				b.say(length.FromMM(more))+" under the cap.")
		}
	}
	return across, true
}

func (s slanted) most() float64 { return math.Max(s.wide[0], s.wide[1]) }

// slantedTray is the base with what hangs on its front edge and on its rear one. Both
// ends are cut plumb, square to the front edge.
func (b *builder) slantedTray(p *Part) (fold.Tray, error) {
	legs := p.bentLegs(b.bend.Radius)
	// The finish of a face bent UP from the base lies a thickness inside its mold line.
	inside := func(turn float64) float64 {
		if turn > 0 {
			return b.bend.Thickness * math.Tan(turn/2*math.Pi/180)
		}
		return 0
	}
	front, rear := 0.0, [2]float64{p.slant.wide[0], p.slant.wide[1]}
	if p.root > 0 {
		front = inside(legs[p.root-1].Turn)
	}
	slant := math.Hypot(1, (rear[1]-rear[0])/p.long)
	for end := range rear {
		rear[end] -= inside(legs[p.root].Turn) * slant
	}
	at := func(x, y float64) fold.Vec { return fold.FromLayout(x, y, 0) }
	c := []fold.Vec{at(0, rear[0]), at(p.long, rear[1]), at(p.long, front), at(0, front)}
	out := fold.Tray{Face: fold.Face{Name: legs[p.root].Name, Corners: c}, Level: 2, AtTop: true}
	hang := func(edge int, of []fold.Leg, street bool) error {
		if len(of) < 2 {
			return nil
		}
		path, err := fold.NewPath(b.bend.Thickness, b.bend.K, of, 0)
		if err != nil {
			return err
		}
		across := fold.Vec{X: 1}
		out.Wings = append(out.Wings, fold.Wing{Edge: edge, Path: path, Street: street,
			Left: out.CutBy(edge, c[edge], across, 0, false), Right: out.CutBy(edge, c[(edge+1)%4], across, 0, true)})
		return nil
	}
	if err := hang(2, outwards(legs, p.root), true); err != nil {
		return out, err
	}
	return out, hang(0, legs[p.root:], false)
}

// outwards tells the legs from one of them to the first: each with the bend that leads
// on.
func outwards(legs []fold.Leg, root int) []fold.Leg {
	var out []fold.Leg
	for i := root; i >= 0; i-- {
		leg := fold.Leg{Name: legs[i].Name, Outside: legs[i].Outside}
		if i > 0 {
			before := legs[i-1]
			leg.Turn, leg.Radius, leg.To, leg.Take = before.Turn, before.Radius, before.To, before.Take
		}
		out = append(out, leg)
	}
	return out
}

// bentLegs are the straights of a part, their bends of a radius.
func (p *Part) bentLegs(radius float64) []fold.Leg {
	out := append([]fold.Leg(nil), p.legs...)
	for i := range out {
		if out[i].Turn != 0 {
			out[i].Radius = radius
		}
	}
	return out
}

// Ends are the inside widths of the cap over a part at its left end and at its right.
func (p *Part) Ends() [2]length.Length {
	if p.slant == nil {
		return [2]length.Length{p.Inside, p.Inside}
	}
	return p.ends
}

// Across is the section of a part, of a slanted one where it is narrowest; nothing of a
// part that has none.
func (p *Part) Across() (fold.Path, bool) {
	switch {
	case len(p.Bodies) != 1:
	case p.slant != nil:
		return p.slant.inner, true
	case p.Bodies[0].Metal != nil:
		return p.Bodies[0].Metal.Path, true
	}
	return fold.Path{}, false
}

// ended are the sections of a chair with the inside widths of the cap over them: one,
// or of a slanted chair both its ends'.
func (p *Part) ended() []chairEnd {
	path, ok := p.Across()
	switch {
	case !ok:
		return nil
	case p.slant == nil:
		return []chairEnd{{p.Inside, path}}
	}
	var out []chairEnd
	for end, wide := range p.slant.wide {
		q := path
		q.Segs = append([]fold.Seg(nil), path.Segs...)
		q.Segs[p.root].Flat += wide - p.legs[p.root].Outside
		out = append(out, chairEnd{p.ends[end], q})
	}
	return out
}

type chairEnd struct {
	inside length.Length
	path   fold.Path
}

// rowAt is how far behind the front of the base a place lies that is so far before the
// chair's rear edge, at a place along it.
func (p *Part) rowAt(x, before float64, wide [2]length.Length, across job.Flange) float64 {
	k := x / p.long
	return wide[0].MM()*(1-k) + wide[1].MM()*k - across.Before.MM() - before
}
