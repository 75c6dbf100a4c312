package layout

import (
	"math"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/fold"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// chordOff is how far a chord of a bend may stand off its arc, millimetres.
const chordOff = 0.05

// sectionBuilder outlines what a section cuts. Its floats are millimetres of the
// section's frame: across behind the cap line, up from the set surface at the
// wall's street face.
type sectionBuilder struct {
	l  *Layout
	s  *job.System
	r  *Run
	c  *Chair
	j  *Joint
	of plan.Section

	own     []string // facts that the section alone works out, in the order of
	lengths []length.Length

	street, roof float64
	fall         float64   // of the set surface
	cap          fold.Laid // where bends
	bends        bool
	chair        *fold.Laid // nil: not stated
}

// set is the height of the set surface, and over the height of the wall top.
func (b *sectionBuilder) set(x float64) float64 { return -b.fall * (x - b.street) }

func (b *sectionBuilder) top(x float64) float64 {
	f := (x - b.street) / math.Max(b.roof-b.street, 1)
	lo, hi := -b.of.PackFront.MM(), b.set(b.roof)-b.of.PackRear.MM()
	return lo + f*(hi-lo)
}

// under is the underside of the cap's top.
func (b *sectionBuilder) under(x float64) float64 {
	k := float64(b.of.Fall) / 1e9
	return b.of.FoldFront.MM() - k*x - b.of.Sheet.Thickness.Real.MM()*math.Hypot(1, k)
}

// membrane is its thickness: zero where the job has none.
func (b *sectionBuilder) membrane() float64 {
	if b.of.Membrane.Name == "" {
		return 0
	}
	return b.of.Membrane.Thickness.Real.MM()
}

// base is what the chair stands on.
func (b *sectionBuilder) base(x float64) float64 {
	if b.l.Job.Packing.MembraneOver() {
		return b.set(x) + b.membrane()
	}
	return b.set(x)
}

func (b *sectionBuilder) expansion() bool { return b.j != nil && b.j.Kind == cap.Expansion }

type place struct{ x, z float64 }

func (p place) pt() plan.Pt { return plan.Pt{X: length.FromMM(p.x), Y: length.FromMM(p.z)} }

func ring(pts ...place) plan.Ring {
	out := make(plan.Ring, len(pts))
	for i, p := range pts {
		out[i] = p.pt()
	}
	return out
}

func ringOf(l fold.Laid) plan.Ring {
	var out plan.Ring
	for _, p := range l.Ring(chordOff) {
		out = append(out, place{p.X, p.Y}.pt())
	}
	return out
}

// mirrored is a ring seen from the other end of the run.
func mirrored(r plan.Ring) plan.Ring {
	out := make(plan.Ring, 0, len(r))
	for _, p := range r {
		out = append(out, plan.Pt{X: -p.X, Y: p.Y})
	}
	slices.Reverse(out)
	return out
}

func (b *sectionBuilder) add(k plan.PartKind, mark string, r plan.Ring) *plan.Part {
	b.of.Parts = append(b.of.Parts, plan.Part{Kind: k, Shape: plan.Shape{Mark: mark, Ring: r}})
	return &b.of.Parts[len(b.of.Parts)-1]
}

// parts outlines everything, from the wall up and outwards.
func (b *sectionBuilder) parts() {
	b.street, b.roof = b.of.Street.MM(), b.of.Roof.MM()
	if b.of.Sheet.ByPacking {
		b.fall = float64(b.s.Profile.TopSlope) / 1e9
	}
	b.layCap()
	b.wall()
	b.packing()
	b.lay()
	if b.c != nil {
		b.stand()
		b.screws()
	}
	if b.j != nil {
		b.plate()
	}
	mark := "cap"
	p := b.add(plan.CapMetal, mark, ringOf(b.cap))
	p.Beyond, p.Supposed = b.j != nil, !b.bends
	b.hang()
	b.feet()
}

// layCap lays the cap over the set surface. Where it cannot be bent as stated its
// outline goes without its hems, and without its bends' radii.
func (b *sectionBuilder) layCap() {
	path, err := shop.CapSection(b.l.Job, b.of.Outside, job.Slope(b.of.Fall))
	b.bends = err == nil
	if err != nil {
		j := *b.l.Job
		j.System.Profile.HemReturn, j.System.Profile.RearHem = 0, nil
		path, err = shop.CapSection(&j, b.of.Outside, job.Slope(b.of.Fall))
		for k := 0; err != nil && k < 2; k++ {
			p := &j.System.Profile
			p.InsideR = 0
			if k > 0 {
				p.Drip.Length, p.RearHook.Length = 0, 0
				p.FrontLeg, p.RearLeg = job.Leg{Length: b.s.FrontFoot()}, job.Leg{Length: b.s.RearFoot()}
			}
			path, err = shop.CapSection(&j, b.of.Outside, job.Slope(b.of.Fall))
		}
	}
	path.At = fold.Point{Y: b.of.FoldFront.MM()}
	b.cap = path.Lay()
}

// wall is its layers, each over the whole of its thickness.
func (b *sectionBuilder) wall() {
	depth := 0.0
	for i, y := range b.r.Wall.Layers {
		a, z := b.top(b.street)-depth, b.top(b.roof)-depth
		depth += y.Thickness.MM()
		p := b.add(plan.WallLayer, y.Name, ring(place{b.street, a}, place{b.roof, z},
			place{b.roof, b.top(b.roof) - depth}, place{b.street, b.top(b.street) - depth}))
		p.Material, p.N, p.Supposed, p.Beyond = y.Material, i, !b.of.Surveyed, b.expansion()
	}
	b.of.Joints = [2]plan.Pt{
		place{b.street, b.top(b.street) - b.of.CoverFront.MM()}.pt(),
		place{b.roof, b.top(b.roof) - b.of.CoverRear.MM()}.pt(),
	}
}

// packed is how far across the packing reaches.
func (b *sectionBuilder) packed() (from, to float64) {
	from, to = b.street, b.roof
	if b.c != nil && b.l.Job.Packing.Method == job.PackChairs {
		from, to = math.Max(from, b.of.Seat.Front.MM()), math.Min(to, b.of.Seat.Rear.MM())
	}
	return from, to
}

// packing is the sheets laid the length of the wall, and the shims that fill what
// is left under the set surface: under a chair in stacks that its rows of screws
// pass through. How the bearing between the stacks is made full is the crew's.
func (b *sectionBuilder) packing() {
	x0, x1 := b.packed()
	lift := 0.0
	if !b.l.Job.Packing.MembraneOver() {
		lift = b.membrane()
	}
	if b.c != nil && b.l.Job.Packing.Method == job.PackContinuous {
		t := b.of.Packing.Layer.Real.MM()
		for i := range b.of.Packing.Layers {
			q := b.add(plan.PackingSheet, b.of.Packing.LayerName, ring(place{x0, b.top(x0) + lift + t},
				place{x1, b.top(x1) + lift + t}, place{x1, b.top(x1) + lift}, place{x0, b.top(x0) + lift}))
			q.N = i
			lift += t
		}
	}
	under := func(x float64) float64 { return math.Min(b.top(x)+lift, b.set(x)) }
	if b.expansion() || math.Max(b.set(x0)-under(x0), b.set(x1)-under(x1)) < 0.1 {
		return
	}
	part := func(k plan.PartKind, from, to float64) {
		b.add(k, "", ring(place{from, b.set(from)}, place{to, b.set(to)}, place{to, under(to)},
			place{from, under(from)}))
	}
	if b.c == nil {
		part(plan.Shimmed, x0, x1)
		return
	}
	lo, hi := math.Max(b.of.Seat.Front.MM(), x0), math.Min(b.of.Seat.Rear.MM(), x1)
	front, rear := b.c.Rows[0].Y.MM(), b.c.Rows[1].Y.MM()
	front, rear = math.Min(2*front-lo, (lo+hi)/2), math.Max(2*rear-hi, (lo+hi)/2)
	if front <= lo || rear >= hi { // no screws: the rows are not known
		front, rear = lo+(hi-lo)/4, hi-(hi-lo)/4
	}
	if rear > front {
		part(plan.Shimmed, front, rear)
	}
	part(plan.Shim, lo, front)
	part(plan.Shim, rear, hi)
}

// lay is the membrane, over the packing or under it and down both faces, half way
// from the joint it covers to the foot of the leg.
func (b *sectionBuilder) lay() {
	t := b.membrane()
	if t == 0 {
		return
	}
	y := b.base
	if b.l.Job.Packing.MembraneOver() && !b.expansion() {
		y = b.set
	} else {
		y = b.top
	}
	feet := [2]float64{b.of.FoldFront.MM() - b.of.Sheet.Legs[0].Length.MM(), b.set(b.roof) +
		b.of.FoldRear.MM() - b.of.Sheet.Legs[1].Length.MM()}
	down := func(x float64, i int) float64 { return math.Min((b.of.Joints[i].Y.MM()+feet[i])/2, y(x)) }
	f, r := down(b.street, 0), down(b.roof, 1)
	b.add(plan.MembraneLayer, b.of.Membrane.Name, ring(
		place{b.street - t, f}, place{b.street - t, y(b.street) + t}, place{b.roof + t, y(b.roof) + t},
		place{b.roof + t, r},
		place{b.roof, r}, place{b.roof, y(b.roof)}, place{b.street, y(b.street)}, place{b.street, f}))
}

// stand puts the chair on its seat. Where the job does not state its section the
// ring is the room it takes: its base and what stands up to the cap's underside.
func (b *sectionBuilder) stand() {
	made, err := shop.ChairSection(b.l.Job, b.c.Assembly, b.c.Inside)
	front, rear := b.of.Seat.Front.MM(), b.of.Seat.Rear.MM()
	if err != nil {
		p := b.add(plan.ChairMetal, b.c.Name, ring(place{front, b.base(front)}, place{front, b.under(front)},
			place{rear, b.under(rear)}, place{rear, b.base(rear)}))
		p.Supposed = true
		return
	}
	laid := made.Seated(front, b.base(front), b.fall).Lay()
	b.chair, b.of.Seat.Stated = &laid, true
	b.add(plan.ChairMetal, b.c.Name, ringOf(laid))
}

// screws are both rows of fasteners to their lengths, heads on the chair's base.
func (b *sectionBuilder) screws() {
	for i := range b.of.Seat.Rows {
		q := &b.of.Seat.Rows[i]
		x := q.Head.X.MM()
		head := b.base(x) + b.of.Seat.Thickness.Real.MM()*math.Hypot(1, b.fall)
		q.Head.Y = length.FromMM(head)
		if !q.Fits {
			continue
		}
		d, tip := q.Diameter.Real.MM()/2, head-q.Length.Real.MM()
		point := tip + math.Min(q.Tip.Real.MM(), q.Length.Real.MM()/3)
		p := b.add(plan.Screw, q.Fastener, ring(place{x - d, head}, place{x + d, head}, place{x + d, point},
			place{x, tip}, place{x - d, point}))
		p.N = i
	}
}

// plate is that of a joint, on the tape under the caps or over them.
func (b *sectionBuilder) plate() {
	cover := b.expansion()
	made, err := shop.PlateSection(b.l.Job, b.of.Inside, b.j.Plate, cover)
	b.of.Joined.Stated = err == nil
	if err != nil && cover { // a cover plate that is not stated is drawn as a splice plate would lie
		made, err = shop.PlateSection(b.l.Job, b.of.Inside, b.j.Plate, false)
	}
	if err != nil {
		return
	}
	over := cover && b.s.Expansion.Cover != nil && b.s.Expansion.Cover.Over
	p, k := made.Path, float64(b.of.Fall)/1e9
	hyp, tape := math.Hypot(1, k), b.s.Splice.TapeThick.MM()
	wide := p.Outside(p.Root, fold.ToMoldLine, fold.ToMoldLine) / hyp
	x := (b.of.Outside.MM() - wide) / 2
	p.Slope = k
	z := b.under(x) - tape*hyp
	if over {
		z = b.of.FoldFront.MM() - k*x + (tape+p.T)*hyp
	}
	p.At = fold.Point{X: x, Y: z}
	laid := p.Lay()
	q := b.add(plan.PlateMetal, b.j.Name, ringOf(laid))
	q.Supposed = !b.of.Joined.Stated
	// The tape lies on the flat of the plate's top.
	from, to := laid.Span(p.Root)
	f0, b0 := laid.Skins(from)
	f1, b1 := laid.Skins(to)
	on, up := [2]fold.Point{f0, f1}, math.Max(tape, 0.1)
	if over {
		on, up = [2]fold.Point{b0, b1}, -up
	}
	n := fold.Point{X: k / hyp * up, Y: up / hyp}
	b.add(plan.Tape, b.j.Name, ring(place{on[0].X, on[0].Y}, place{on[0].X + n.X, on[0].Y + n.Y},
		place{on[1].X + n.X, on[1].Y + n.Y}, place{on[1].X, on[1].Y}))
}

// hang is what hangs below the legs: behind the tested leg by the job's lap, and
// on to the depth that a taller leg would reach. It stands against the wall.
func (b *sectionBuilder) hang() {
	for i := range b.of.Hung {
		h := &b.of.Hung[i]
		x, fold0, side := b.street-b.membrane(), b.of.FoldFront.MM(), -1.0
		if !h.Front {
			x, fold0, side = b.roof+b.membrane(), b.set(b.roof)+b.of.FoldRear.MM(), 1
		}
		foot := fold0 - h.Leg.Real.MM()
		top := foot + h.Height.Real.MM()
		h.Top, h.Foot = place{x, top}.pt(), place{x, foot}.pt()
		made, err := shop.ExtenderSection(b.l.Job, h.Height.Real, !h.Front)
		if err != nil {
			t := side * b.of.Sheet.Thickness.Real.MM()
			p := b.add(plan.ExtenderMetal, "", ring(place{x, foot}, place{x + t, foot}, place{x + t, top},
				place{x, top}))
			p.Supposed = true
			continue
		}
		h.Stated = true
		p := made.Path
		p.At = fold.Point{X: x - p.T, Y: foot}
		metal := ringOf(p.Lay())
		if !h.Front { // turned round, with its finish to the roof
			p.At.X = -x - p.T
			metal = mirrored(ringOf(p.Lay()))
		}
		b.add(plan.ExtenderMetal, "", metal)
	}
}

// feet are the stated ends of both legs.
func (b *sectionBuilder) feet() {
	out := b.of.Outside.MM()
	b.of.Feet = [2]plan.Pt{
		place{0, b.of.FoldFront.MM() - b.of.Sheet.Legs[0].Length.MM()}.pt(),
		place{out, b.set(b.roof) + b.of.FoldRear.MM() - b.of.Sheet.Legs[1].Length.MM()}.pt(),
	}
}

// clears judges the metal of a section: what can be bent, what is stated, what
// hangs clear of the wall, what stands in what.
func (b *sectionBuilder) clears() []plan.Check {
	out := []plan.Check{plan.That(plan.CapBends, b.bends)}
	if b.c != nil {
		out = append(out, plan.That(plan.ChairStated, b.chair != nil))
	}
	if b.chair != nil {
		out = append(out, edgeOf(b.c))
		out = append(out, b.l.Seating(b.c)...)
	}
	const step, touch = length.Millimetre / 2, length.Millimetre / 5
	var deep length.Length
	metal := b.of.Of(plan.ChairMetal, plan.PlateMetal, plan.CapMetal)
	for i, p := range metal {
		for _, q := range metal[i+1:] {
			if !p.Supposed && !q.Supposed {
				deep = length.Max(deep, plan.Deep(p.Ring, q.Ring, step))
			}
		}
	}
	if b.bends {
		if c, bad := b.cap.Clash(); bad {
			deep = length.Max(deep, length.FromMM(c.Deep))
		}
	}
	return append(out, plan.AtLeast(plan.MetalClear, -deep, -touch))
}
