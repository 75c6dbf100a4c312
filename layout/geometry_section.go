package layout

import (
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
	s := &l.Job.System
	f, q := r.FaceAt(s, at), r.At(r.ToFront(at))
	p := plan.Section{
		Run: r.Name, At: at, Crew: r.ToCrew(at), Inside: r.InsideAt(at), Outside: r.OutsideAt(at), Street: f.Street,
		Roof: f.Deepest,
		Play: r.PlayAt(s, at), PlayLeast: s.PlayLeast, PlayMost: s.PlayMost, Surveyed: f.Surveyed,
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
	l.sectionOf(&p, r, c, j)
	b := sectionBuilder{l: l, s: s, r: r, c: c, j: j, of: &p}
	b.parts()
	b.dims()
	p.Checks = []plan.Check{
		plan.That(plan.WallWidth, p.Surveyed),
		plan.AtLeast(plan.FrontLap, p.LapFront, s.Lap.Front),
		plan.AtLeast(plan.RearLap, p.LapRear, s.Lap.Rear),
		plan.Between(plan.RearPlay, p.Play, s.PlayLeast, s.PlayMost),
	}
	if !p.Surveyed {
		p.Checks[3].Pass, p.Checks[3].Unknown = false, true
	}
	if c != nil {
		for i, code := range []plan.Code{plan.FrontStock, plan.RearStock} {
			p.Checks = append(p.Checks, plan.That(code, c.Rows[i].Length > 0))
		}
		p.Checks = append(p.Checks, l.Engagement(c.Assembly, c.Inside)...)
	}
	if j != nil && j.Kind == cap.Expansion {
		p.Checks = append(p.Checks, plan.That(plan.Movement, j.Movement != nil))
	}
	p.Checks = append(p.Checks, b.clears()...)
	for _, q := range met(c, j) {
		k := plan.That(plan.Released, l.Held.Released(q))
		k.Of = q.Mark
		p.Checks = append(p.Checks, k)
	}
	return p
}

// SectionAtJoint is the cut through the middle of a joint, over its chair; a
// building expansion joint has none under it.
func (l *Layout) SectionAtJoint(r *Run, j *Joint) plan.Section {
	var at *Chair
	for _, c := range r.Chairs {
		if c.Joint == j && c.Kind == anchor.AtJoint {
			at = c
		}
	}
	return l.Section(r, j.Centre(), at, j)
}

// hemsOf are the hems of a profile's two edges.
func hemsOf(p *job.Profile) (out [2]plan.Hem) {
	street, roof := p.Hems()
	for i, h := range []job.Hem{street, roof} {
		out[i] = plan.Hem{Return: h.Return, Inside: h.Inside}
		if h.Kind != job.ClosedHem {
			out[i].Lies = h.Kind.String()
		}
	}
	return out
}

// sectionOf says in words and lengths what a section cuts.
func (l *Layout) sectionOf(p *plan.Section, r *Run, c *Chair, j *Joint) {
	s, pr := &l.Job.System, &l.Job.System.Profile
	p.Sheet = plan.Sheet{
		Metal: s.Metal.Name, Finish: s.Metal.Finish, Thickness: s.Metal.Thickness, Hems: hemsOf(pr),
		ByPacking: pr.SlopeBy == job.SlopeByPacking,
		Legs: [2]plan.Leg{
			{Length: s.FrontFoot(), To: pr.Drip.Foot().String(), Kick: pr.Drip.Length,
				Turn: job.FormatAngle(pr.Drip.Angle)},
			{Length: s.RearFoot(), To: pr.RearHook.Foot().String(), Kick: pr.RearHook.Length,
				Turn: job.FormatAngle(pr.RearHook.Angle)},
		},
	}
	p.Membrane = plan.Membrane{Name: l.Job.Membrane.Name, Thickness: l.Job.Membrane.Thickness}
	for _, y := range r.Wall.Layers {
		p.Layers = append(p.Layers, plan.Layer{Name: y.Name, Material: y.Material, Thickness: y.Thickness})
	}
	p.Packing = plan.Packing{LayerName: l.Job.Packing.LayerName, Layer: l.Job.Packing.Layer}
	if c != nil {
		p.Mark = c.Name
		p.Packing.Layers, p.Packing.Shims = c.Layers, [2][]length.Length{c.ShimFront, c.ShimRear}
		p.Seat = l.seatOf(c)
	}
	if j != nil {
		p.Mark = j.Name
		p.Joined = &plan.Joined{Name: j.Name, Kind: plan.JointKind(j.Kind), Plate: j.Plate, Tape: s.Splice.Tape,
			Held: j.Held.String()}
		if j.Source != nil {
			p.Joined.Gap = j.Source.Gap
		}
	}
	for _, e := range l.extendersOf(r) {
		p.Hung = append(p.Hung, plan.Hung{Front: e.Face == job.Front, Height: e.Height, Leg: e.Leg, Tested: e.Tested,
			To: e.To.String()})
	}
}

// seatOf is a chair as a section letters it.
func (l *Layout) seatOf(c *Chair) *plan.Seat {
	s := &l.Job.System
	out := &plan.Seat{Name: c.Name, Length: s.Chair.Length, Thickness: s.ChairOf(c.Assembly).Thickness,
		Front: cap.ChairLine(s), Rear: cap.ChairRear(s, c.Inside)}
	if c.Assembly != nil {
		out.Report, out.Substrate = c.Assembly.Report, c.Assembly.Substrate
	}
	for i, w := range c.Rows {
		q := plan.Row{Count: w.Count, Length: w.Length, Into: w.Into, Pilot: w.Pilot, Packing: w.Packing,
			Fits: w.Fastener != nil && w.Length > 0, Head: plan.Pt{X: w.Y}}
		if f := w.Fastener; f != nil {
			q.Fastener, q.Diameter, q.Asked, q.Tip, q.PilotDia = f.Name, f.Diameter, f.Embedment, f.Tip, f.PilotDia
		}
		out.Rows[i] = q
	}
	return out
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
