package layout

import (
	"fmt"
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Section is the cut across a run at a chair or a joint, with its verdicts. The
// packing is the chair's, or where there is none what the wall asks for.
func (l *Layout) Section(r *Run, at length.Length, c *Chair, j *Joint) plan.Section {
	return l.sectionPlan(r, at, c, j).of
}

func (l *Layout) sectionPlan(r *Run, at length.Length, c *Chair, j *Joint) *sectionBuilder {
	s := &l.Job.System
	f, q := r.FaceAt(s, at), r.At(r.ToFront(at))
	p := plan.Section{
		Run: r.Name, At: at, Inside: r.InsideAt(at), Outside: r.OutsideAt(at), Street: f.Street,
		Roof: f.Deepest,
		Play: r.PlayAt(s, at), PlayLeast: ofSystem("rear-play-least", s.PlayLeast),
		PlayMost: ofSystem("rear-play-most", s.PlayMost), Surveyed: f.Surveyed,
		PackFront:  length.Max(0, length.RoundTo(q.PackFront, l.Grid)),
		PackRear:   length.Max(0, length.RoundTo(q.PackRear, l.Grid)),
		CoverFront: r.Wall.CoverFront, CoverRear: r.Wall.CoverRear,
		Fall: plan.Fall(r.SlopeAt(s, at)), Metric: l.Job.Units == job.Metric,
	}
	if c != nil {
		p.PackFront, p.PackRear = c.PackFront, c.PackRear
	}
	p.FoldFront, p.FoldRear = r.FoldAt(s, at)
	p.LapFront, p.LapRear = r.LapsAt(s, at, p.PackFront, p.PackRear)
	b := &sectionBuilder{l: l, s: s, r: r, c: c, j: j, of: p}
	b.told()
	b.parts()
	b.dims()
	b.checks()
	return b
}

// checks are the verdicts of a section, in the order in which they are read.
func (b *sectionBuilder) checks() {
	p, s := &b.of, b.s
	named := func(k plan.Check, names ...string) {
		copy(k.Facts[:], names)
		p.Checks = append(p.Checks, k)
	}
	fact := func(k plan.DimKind) string {
		d, _ := p.Dim(k)
		return d.Fact
	}
	named(plan.That(plan.WallWidth, p.Surveyed))
	named(plan.AtLeast(plan.FrontLap, p.LapFront, s.Lap.Front), fact(plan.FrontLapped), Named("system", lapLeast[0]))
	named(plan.AtLeast(plan.RearLap, p.LapRear, s.Lap.Rear), fact(plan.RearLapped), Named("system", lapLeast[1]))
	play := plan.Between(plan.RearPlay, p.Play, s.PlayLeast, s.PlayMost)
	if !p.Surveyed {
		play.Pass, play.Unknown = false, true
	}
	named(play, fact(plan.RearClear), p.PlayLeast.Fact, p.PlayMost.Fact)
	var all []plan.Check
	if c := b.c; c != nil {
		for i, code := range []plan.Code{plan.FrontStock, plan.RearStock} {
			named(plan.That(code, c.Rows[i].Length > 0))
		}
		all = b.l.Engagement(c.Assembly, c.Inside)
	}
	if b.j != nil && b.j.Kind == cap.Expansion {
		all = append(all, plan.That(plan.Movement, b.j.Movement != nil))
	}
	for _, k := range append(all, b.clears()...) {
		switch {
		case k.Asked != 0 && k.Asked != -anyOverhang:
			named(k, b.fact(string(k.Code), k.Has).Fact, b.fact(string(k.Code)+"-asked", k.Asked).Fact)
		case k.Has != 0:
			named(k, b.fact(string(k.Code), k.Has).Fact)
		default:
			named(k)
		}
	}
	for _, q := range met(b.c, b.j) {
		k := plan.That(plan.Released, b.l.Held.Released(q))
		k.Of = q.Mark
		named(k)
	}
}

// SectionAtJoint is the cut through the middle of a joint, over its chair; a
// building expansion joint has none under it.
func (l *Layout) SectionAtJoint(r *Run, j *Joint) plan.Section { return l.sectionAtJoint(r, j).of }

func (l *Layout) sectionAtJoint(r *Run, j *Joint) *sectionBuilder {
	var at *Chair
	for _, c := range r.Chairs {
		if c.Joint == j && c.Kind == anchor.AtJoint {
			at = c
		}
	}
	return l.sectionPlan(r, j.Centre(), at, j)
}

// hemsOf are the hems of a profile's two edges.
func hemsOf(p *job.Profile) (out [2]plan.Hem) {
	street, roof := p.Hems()
	for i, h := range []job.Hem{street, roof} {
		name := hemNames(p)[i]
		out[i] = plan.Hem{Return: ofSystem(name, h.Return), Inside: ofSystem(name+"-inside", h.Inside)}
		if h.Kind != job.ClosedHem {
			out[i].Lies = h.Kind.String()
		}
	}
	return out
}

// told says in words and lengths what a section cuts.
func (b *sectionBuilder) told() {
	l, s, pr, p, c, j := b.l, b.s, &b.s.Profile, &b.of, b.c, b.j
	p.Sheet = plan.Sheet{
		Metal: s.Metal.Name, Named: Named("system", "metal"), Finish: s.Metal.Finish,
		Thickness: ofSystem("thickness", s.Metal.Thickness),
		Hems:      hemsOf(pr),
		ByPacking: pr.SlopeBy == job.SlopeByPacking,
		Legs: [2]plan.Leg{
			{Length: s.FrontFoot(), To: pr.Drip.Foot().String(), Kick: ofSystem("drip", pr.Drip.Length),
				Turn: job.FormatAngle(pr.Drip.Angle), Turned: Named("system", "drip-angle")},
			{Length: s.RearFoot(), To: pr.RearHook.Foot().String(), Kick: ofSystem("rear-hook", pr.RearHook.Length),
				Turn: job.FormatAngle(pr.RearHook.Angle), Turned: Named("system", "rear-hook-angle")},
		},
	}
	p.Membrane = plan.Membrane{Name: l.Job.Membrane.Name, Named: Named("packing", "membrane-name"),
		Thickness: plan.Value{Real: l.Job.Membrane.Thickness, Fact: Named("packing", "membrane")}}
	for i, y := range b.r.Wall.Layers {
		p.Layers = append(p.Layers, plan.Layer{Name: y.Name, Material: y.Material, Thickness: layerOf(b.r.Wall, i)})
	}
	p.Packing = plan.Packing{LayerName: l.Job.Packing.LayerName, Named: Named("packing", "layer-name"),
		Layer: plan.Value{Real: l.Job.Packing.Layer, Fact: Named("packing", "layer")}}
	if c != nil {
		p.Mark = c.Name
		p.Packing.Layers, p.Packing.Shims = c.Layers, [2][]length.Length{c.ShimFront, c.ShimRear}
		p.Packing.Counted = Named(c.Name, "layers")
		p.Packing.Shimmed = [2]string{Named(c.Name, "shims-front"), Named(c.Name, "shims-rear")}
		p.Seat = b.seat(c)
	}
	if j != nil {
		p.Mark = j.Name
		p.Joined = &plan.Joined{Name: j.Name, Kind: plan.JointKind(j.Kind), Held: j.Held.String(),
			Plate: plan.Value{Real: j.Plate, Fact: Named(j.Name, "plate-length")},
			Tape:  ofSystem("splice-tape", s.Splice.Tape)}
		if j.Source != nil {
			p.Joined.Gap = b.fact("gap-of-building", j.Source.Gap)
		}
	}
	p.Crew = plan.Value{Real: b.r.ToCrew(p.At), Fact: Named(p.Mark, "station")}
	p.Falls = Named(b.named(), "fall")
	for _, e := range l.extendersOf(b.r) {
		k := "extender-" + [...]string{"street", "roof"}[e.Face]
		p.Hung = append(p.Hung, plan.Hung{Front: e.Face == job.Front, Height: b.fact(k, e.Height),
			Leg: b.fact(k+"-leg", e.Leg), Tested: b.fact(k+"-tested", e.Tested), To: e.To.String()})
	}
}

// seat is a chair as a section letters it.
func (b *sectionBuilder) seat(c *Chair) *plan.Seat {
	s := b.s
	out := &plan.Seat{Name: c.Name, Length: ofSystem("chair", s.Chair.Length),
		Thickness: b.fact("chair-thickness", s.ChairOf(c.Assembly).Thickness),
		Front:     cap.ChairLine(s), Rear: cap.ChairRear(s, c.Inside)}
	if a := c.Assembly; a != nil {
		out.Report, out.Substrate, out.Reported = a.Report, a.Substrate, Named(FactOfAssembly(a), "report")
	}
	for i, w := range c.Rows {
		k := ScrewsOf(i)
		of := func(what string, v length.Length) plan.Value {
			return plan.Value{Real: v, Fact: Named(c.Name, k+what)}
		}
		q := plan.Row{Count: w.Count, Counted: AllNamed(Named(c.Name, k), Named(c.Name, k+"-fastener")),
			Length: of("-length", w.Length), Into: of("-into-substrate", w.Into),
			Pilot: of("-pilot-depth", w.Pilot), Packing: w.Packing,
			Fits: w.Fastener != nil && w.Length > 0, Head: plan.Pt{X: w.Y}}
		if f := w.Fastener; f != nil {
			of := func(what string, v length.Length) plan.Value {
				return plan.Value{Real: v, Fact: Named(FastenerFacts(f.Name, w.Length), what)}
			}
			q.Fastener, q.Diameter, q.Asked = f.Name, of("diameter", f.Diameter), of("thread-asked", f.Embedment)
			q.Tip, q.PilotDia = of("tip", f.Tip), of("pilot-diameter", f.PilotDia)
		}
		out.Rows[i] = q
	}
	return out
}

// FactOfSection is what the facts of a section are of: of the chair or the joint at
// which it is cut.
func FactOfSection(mark string) string { return "section " + mark }

// named is what the facts that the section alone works out are of; without a chair and a
// joint it has none.
func (b *sectionBuilder) named() string {
	switch {
	case b.j != nil:
		return FactOfSection(b.j.Name)
	case b.c != nil:
		return FactOfSection(b.c.Name)
	}
	return ""
}

// fact is a length that the section alone works out.
func (b *sectionBuilder) fact(what string, l length.Length) plan.Value {
	if b.named() == "" {
		return plan.Value{Real: l}
	}
	b.own, b.lengths = append(b.own, what), append(b.lengths, l)
	return plan.Value{Real: l, Fact: Named(b.named(), what)}
}

// layerOf is the thickness of a layer of a wall, counted from nought at its top.
func layerOf(w *job.Wall, i int) plan.Value {
	return plan.Value{Real: w.Layers[i].Thickness, Fact: Named(FactOfWall(w), fmt.Sprintf("layer-%d-thickness", i+1))}
}

// met are the pieces that meet over a joint or lie on a chair, each once.
func met(c *Chair, j *Joint) []*Piece {
	var of []*Piece
	switch {
	case j != nil:
		of = []*Piece{j.Left, j.Right}
	case c != nil && c.Joint != nil:
		of = []*Piece{c.Piece, c.Joint.Right}
	case c != nil:
		of = []*Piece{c.Piece}
	}
	var out []*Piece
	for _, p := range of {
		if p != nil && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}
