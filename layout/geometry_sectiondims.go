package layout

import (
	"copingset/layout/length"
	"copingset/layout/plan"
)

// dims are the distances that a section letters, each between two places of what
// is drawn. Those of a leg go from its foot up: how far it reaches below the joint
// it must cover, the joint below the wall top, the packing, and what stands over
// the set surface.
func (b *sectionBuilder) dims() {
	p := &b.of
	add := func(k plan.DimKind, from, to plan.Pt, v plan.Value) {
		p.Dims = append(p.Dims, plan.Dim{What: k, From: from, To: to, Value: v})
	}
	t := p.Sheet.Thickness.Real
	fold := [2]length.Length{p.FoldFront, p.Feet[1].Y + p.Sheet.Legs[1].Length}
	at := func(x, y length.Length) plan.Pt { return plan.Pt{X: x, Y: y} }
	of := func(what string, v length.Length) plan.Value { // the chair's own, at its own station
		if b.j == nil && b.c != nil {
			return plan.Value{Real: v, Fact: Named(b.c.Name, what)}
		}
		return b.fact(what, v)
	}
	add(plan.InsideWidth, at(t, fold[0]), at(t+p.Inside, fold[0]), of("inside", p.Inside))
	add(plan.OutsideWidth, at(0, fold[0]), at(p.Outside, fold[0]), b.fact("outside", p.Outside))
	low := length.Min(p.Joints[0].Y, p.Joints[1].Y)
	add(plan.FrontClear, at(t, low), at(p.Street, low), b.fact("clear-front", p.Street-t))
	add(plan.WallAcross, at(p.Street, low), at(p.Roof, low), b.fact("wall", p.Roof-p.Street))
	add(plan.RearClear, at(p.Roof, low), at(t+p.Inside, low), b.fact("play", p.Play))
	for i, side := range [2]struct {
		whole, lap, cover, pack, rise plan.DimKind
		lapped, covered, packed       length.Length
		face                          string
	}{
		{plan.FrontFoot, plan.FrontLapped, plan.FrontCover, plan.FrontPacked, plan.FrontRise, p.LapFront, p.CoverFront,
			p.PackFront, "front"},
		{plan.RearFoot, plan.RearLapped, plan.RearCover, plan.RearPacked, plan.RearRise, p.LapRear, p.CoverRear,
			p.PackRear, "rear"},
	} {
		foot := p.Feet[i]
		x := foot.X
		whole := p.Sheet.Legs[i].Length
		joint := foot.Y + side.lapped
		wall := joint + side.covered
		set := wall + side.packed
		add(side.whole, foot, at(x, foot.Y+whole), b.fact("leg-"+side.face, whole))
		add(side.lap, foot, at(x, joint), of("lap-"+side.face, side.lapped))
		add(side.cover, at(x, joint), at(x, wall), b.fact("cover-"+side.face, side.covered))
		add(side.pack, at(x, wall), at(x, set), of("packing-"+side.face, side.packed))
		add(side.rise, at(x, set), at(x, fold[i]), b.fact("rise-"+side.face, fold[i]-set))
	}
}
