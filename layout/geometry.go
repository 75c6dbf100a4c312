package layout

import (
	"slices"

	"copingset/layout/cap"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Section is the cut across a run at a chair or a joint, with its verdicts. The
// packing is the chair's, or where there is none what the wall asks for.
func (l *Layout) Section(r *Run, at length.Length, c *Chair, j *Joint) plan.Section {
	s := &l.Job.System
	f, q := r.FaceAt(s, at), r.At(r.ToFront(at))
	p := plan.Section{
		At: at, Inside: r.InsideAt(at), Street: f.Street, Roof: f.Deepest, Play: r.PlayAt(s, at), Surveyed: f.Surveyed,
		PackFront:  length.Max(0, length.RoundTo(q.PackFront, l.Grid)),
		PackRear:   length.Max(0, length.RoundTo(q.PackRear, l.Grid)),
		CoverFront: r.Wall.CoverFront, CoverRear: r.Wall.CoverRear,
	}
	if c != nil {
		p.PackFront, p.PackRear = c.PackFront, c.PackRear
	}
	p.FoldFront, p.FoldRear = r.FoldAt(s, at)
	p.LapFront, p.LapRear = r.LapsAt(s, at, p.PackFront, p.PackRear)
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
	}
	if j != nil && j.Kind == cap.Expansion {
		p.Checks = append(p.Checks, plan.That(plan.Movement, j.Movement != nil))
	}
	for _, q := range met(c, j) {
		k := plan.That(plan.Released, l.Held.Released(q))
		k.Of = q.Mark
		p.Checks = append(p.Checks, k)
	}
	return p
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
