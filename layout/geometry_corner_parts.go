package layout

import (
	"fmt"
	"math"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// layTee lays the main to the right and the branch square to it, its front or its
// rear at the main's rear mold line.
func (b *cornerPlan) layTee() {
	t := b.q.Tee
	main, stub := b.part(b.q.Parts[0], 0), b.part(b.q.Parts[1], 1)
	stub.Heading, stub.At = 90*length.Degree, plan.Pt{X: t.Edge[1] - t.From, Y: main.Outside.Real}
	if !t.Starts {
		stub.Heading, stub.At = -90*length.Degree, plan.Pt{X: t.Edge[0] - t.From, Y: main.Outside.Real +
			stub.To - stub.From}
	}
	for _, g := range []plan.CornerLeg{main, stub} {
		g.Ring = plan.Box(g.From, 0, g.To, g.Outside.Real)
		g.Rear = []plan.Pt{g.Ring[3], g.Ring[2]}
		b.out.Legs = append(b.out.Legs, g)
	}
	b.out.Tee = plan.Tee{Starts: t.Starts, Drop: b.said("branch-drop", t.Drop)}
	for i, name := range []string{"left", "right"} {
		b.out.Tee.Crew[i] = b.fact("branch-"+name+"-station", t.Main.ToCrew(t.Edge[i]))
	}
	root, _ := b.root()
	b.out.Tee.Seam = [2]plan.Pt{stub.Place(plan.Pt{X: root}), stub.Place(plan.Pt{X: root, Y: stub.Outside.Real})}
}

// root is the station of the branch at which it leaves the main, and end that of
// its joint.
func (b *cornerPlan) root() (root, end length.Length) {
	t := b.q.Parts[1]
	if b.q.Tee.Starts {
		return t.From, t.To
	}
	return t.To, t.From
}

// teeOutline goes along the main's front and back along its rear, round the branch.
func (b *cornerPlan) teeOutline() {
	g, stub := b.out.Legs[0], b.out.Legs[1]
	root, end := b.root()
	first, second := length.Length(0), stub.Outside.Real // from the right hand to the left
	if !b.q.Tee.Starts {
		first, second = second, first
	}
	on := func(x, y length.Length) plan.Pt { return stub.Place(plan.Pt{X: x, Y: y}) }
	b.out.Outline = plan.Ring{
		g.Place(g.Ring[0]), g.Place(g.Ring[1]), g.Place(g.Ring[2]),
		on(root, first), on(end, first), on(end, second), on(root, second), g.Place(g.Ring[3]),
	}
}

// teeFaces opens the main wall's roof face where the branch's wall runs into it, and
// begins the branch's faces there; its string begins at the main's cap.
func (b *cornerPlan) teeFaces() {
	main, stub, t := &b.out.Legs[0], &b.out.Legs[1], b.q.Tee
	root, _ := b.root()
	runsInto := func(face []plan.Pt) (on length.Length, ended []plan.Pt) { // the station of the main
		on = t.Edge[1] - face[0].Y
		if !t.Starts {
			on = t.Edge[0] + face[len(face)-1].Y
		}
		into := main.Outside.Real - b.q.Parts[0].Run.FaceAt(b.s, on).Roof
		if t.Starts {
			into = -into
		}
		return on, endsAt(face, root+into, !t.Starts)
	}
	var on [2]length.Length
	on[0], stub.Face.Street = runsInto(stub.Face.Street)
	on[1], stub.Face.Roof = runsInto(stub.Face.Roof)
	main.Opening = [2]length.Length{length.Min(on[0], on[1]), length.Max(on[0], on[1])}
	stub.String = endsAt(stub.String, root, !t.Starts)
}

// dims are the lengths along the legs of a piece that turns or ends.
func (b *cornerPlan) dims() {
	for i, g := range b.out.Legs {
		b.dim(plan.LegDim{Of: plan.FrontOf, Leg: i, From: g.Ring[0], To: g.Ring[1], Row: 1, Value: g.Long})
		if !g.RearLeft.Fails() {
			b.dim(plan.LegDim{Of: plan.RearOf, Leg: i, From: g.Ring[3], To: g.Ring[2], Roof: true, Row: 1,
				Value: g.RearLong})
		}
		if len(b.out.Legs) == 1 {
			continue
		}
		from := plan.Pt{X: g.From}
		if i == 0 {
			from.X = g.To
		}
		for _, c := range g.Chairs {
			if c.Carries {
				b.dim(plan.LegDim{Of: plan.ChairOf, Leg: i, From: from, To: plan.Pt{X: c.At}, Row: 2, Mark: c.Mark,
					Value: c.FromCorner})
			}
		}
	}
}

func (b *cornerPlan) dim(d plan.LegDim) { b.out.Dims = append(b.out.Dims, d) }

// taper is what a transition is made to.
func (b *cornerPlan) taper() {
	t, s, q := &b.q.Taper, &b.s.Transition, b.q.Parts[0]
	b.out.Taper = plan.Taper{
		From: t.From, To: t.To,
		Wide:   [2]plan.Value{b.said("wide", b.q.Wide), b.fact("wide-outside", b.outside(b.q.Wide))},
		Narrow: [2]plan.Value{b.said("narrow", b.q.Narrow), b.fact("narrow-outside", b.outside(b.q.Narrow))},
		Long:   b.said(PartLength(0), q.Length()), Leg: b.fact("straight-leg", s.Leg), Straight: b.q.Straight.String(),
	}
	b.out.Taper.Inside = [2]plan.Value{b.out.Taper.Narrow[0], b.out.Taper.Wide[0]}
	if q.InsideAt(q.From) == b.q.Wide {
		b.out.Taper.Inside = [2]plan.Value{b.out.Taper.Wide[0], b.out.Taper.Narrow[0]}
	}
	front, rear := cap.Rise(b.s, b.q)
	b.out.Taper.FrontRises, b.out.Taper.RearFalls = b.fact("front-fold-rises", front), b.fact("rear-fold-falls", rear)
}

// taperDims are the lengths along a transition, those of its rear level with the
// wide end.
func (b *cornerPlan) taperDims() {
	g, t := b.out.Legs[0], b.out.Taper
	b.dim(plan.LegDim{Of: plan.FrontOf, From: g.Ring[0], To: g.Ring[1], Row: 1, Value: g.Long})
	roof := func(of plan.DimOf, from, to length.Length, row int, v plan.Value) {
		b.dim(plan.LegDim{Of: of, From: plan.Pt{X: from, Y: g.Outside.Real}, To: plan.Pt{X: to, Y: g.Outside.Real},
			Roof: true, Row: row, Value: v})
	}
	// The legs are short on paper: their words stand beyond them, on a line of their own.
	roof(plan.StraightOf, g.From, t.From, 1, t.Leg)
	roof(plan.StraightOf, t.To, g.To, 1, t.Leg)
	roof(plan.TaperOf, t.From, t.To, 2, b.fact("taper-length", t.To-t.From))
	roof(plan.RearOf, g.From, g.To, 3, g.RearLong)
}

// teeDims are the lengths along a tee's main and its branch.
func (b *cornerPlan) teeDims() {
	main, stub, t := b.out.Legs[0], b.out.Legs[1], b.q.Tee
	street := func(leg int, of plan.DimOf, from, to length.Length, row int, v plan.Value) {
		b.dim(plan.LegDim{Of: of, Leg: leg, From: plan.Pt{X: from}, To: plan.Pt{X: to}, Row: row, Value: v})
	}
	street(0, plan.FrontOf, main.From, main.To, 2, main.Long)
	street(0, plan.BesideOf, main.From, t.Edge[0], 1, b.fact("main-beside-left", t.Edge[0]-main.From))
	street(0, plan.BesideOf, t.Edge[1], main.To, 1, b.fact("main-beside-right", main.To-t.Edge[1]))
	street(1, plan.BranchOf, stub.From, stub.To, 1, stub.Long)
}

// over is a weld over a break of slope as it is seen from the roof: both rear legs
// at their slopes, cut in the plane that bisects them.
func (b *cornerPlan) over(i int) plan.Over {
	m := b.q.Miters[i]
	w, deep := m.Corner, b.s.RearLeg(job.ToMoldLine)
	out := plan.Over{Trim: b.fact(fmt.Sprintf("rear-fold-before-%d", i+1), m.Trim[0]),
		Incline:  [2]length.Angle{-w.Arrive.Incline(), w.Leave.Incline()},
		Inclined: [2]string{Named(FactOfCorner(w), inclines[0]), Named(FactOfCorner(w), inclines[1])}}
	trim := wall.PitchTrim(deep, w.Bend).MM()
	for k, a := range out.Incline {
		sin, cos := math.Sincos(a.Degrees() * math.Pi / 180)
		along, down := [2]float64{cos, -sin}, [2]float64{sin, cos}
		if k == 0 {
			along[0], down[0] = -cos, -sin
		}
		at := func(u, v float64) plan.Pt {
			return plan.Pt{X: length.FromMM(along[0]*u + down[0]*v), Y: length.FromMM(along[1]*u + down[1]*v)}
		}
		for _, e := range b.out.Legs[i+k].Edges {
			switch e.Name {
			case "rear fold":
				out.Fold[k] = e.Long
			case "rear foot":
				out.RearFoot[k] = e.Long
			}
		}
		long, v := out.Fold[k].Real.MM(), deep.MM()
		out.Legs[k] = plan.Ring{at(0, 0), at(long, 0), at(long, v), at(trim, v)}
	}
	return out
}
