package layout

import (
	"cmp"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// Work is the order of work of a run: the steps that it takes, and what is shown of
// them. A step that a run has no use for, a string along a single chair or the gap
// of a run without joints, is left out. of is the run's plan.
func (l *Layout) Work(r *Run, of plan.Run) plan.Work {
	s, pk := &l.Job.System, &l.Job.Packing
	w := plan.Work{
		Nailed: nailed(r), Packed: packedAs(pk, r), UnderChairs: pk.Method == job.PackChairs,
		AboveMembrane: pk.AboveMembrane, Membrane: l.Job.Membrane.Name,
		Later: slices.ContainsFunc(of.Chairs, func(c plan.Chair) bool { return !c.First }), Tape: s.Splice.Tape,
		FilmOff:   l.Job.Crating.FilmOff,
		ChairLong: s.Chair.Length, ChairFront: cap.ChairLine(s), ChairRear: cap.ChairRear(s, r.Inside),
		Cut:       l.cutPlan(r),
		Reference: temperature(s.Joint.Reference), StringBehind: ofSystem("string-behind-cap-line", cap.ChairLine(s)),
	}
	for _, q := range of.Pieces {
		switch {
		case q.Kind == plan.PitchMiterPiece:
			w.Breaks = true
		case q.Kind == plan.TeePiece:
			w.Tees = true
		case !q.Kind.Along() && q.Kind != plan.CornerPiece && q.Kind != plan.DoubleMiterPiece:
			w.Ends = true
		}
		w.Corners = w.Corners || q.Kind != plan.PitchMiterPiece && q.Mitered
		if !w.Closes && q.Allowance > 0 {
			w.Closes, w.Closer = true, q
		}
	}
	w.Supports = len(of.Supports) > 0
	if f := s.Corner.Support.Fixing; f != nil {
		w.SupportScrew, w.SupportScrews = f.Fastener, f.Count
	}
	if e, ok := l.ExtenderOn(r, job.Front); ok {
		w.Below = e.Height
	}
	if e, ok := l.ExtenderOn(r, job.Rear); ok {
		w.BelowRoof = e.Height
	}
	for _, c := range r.Chairs {
		if f := c.Rows[0].Fastener; f != nil && c.Rows[0].Pilot > 0 {
			w.PilotDia = f.PilotDia
			break
		}
	}
	if j := l.jointShown(r); j != nil {
		w.Jointed, w.Joint = true, l.jointPlan(j)
		w.GapThen = plan.Value{Real: cap.GapAt(s, j.Mean(), s.Joint.Reference)}
	}
	if q := pieceShown(r); q != nil {
		w.Cornered, w.Corner = true, l.Corner(q)
	}
	w.Steps = stepsOf(w, of)
	return w
}

// stepsOf lists the steps that a run takes.
func stepsOf(w plan.Work, of plan.Run) []plan.StepKind {
	welded := w.Corners || w.Ends || w.Breaks || w.Tees
	stands := len(of.Chairs) > 0
	first := slices.ContainsFunc(of.Chairs, func(c plan.Chair) bool { return c.First }) || w.Supports
	var out []plan.StepKind
	for _, k := range []struct {
		step  plan.StepKind
		taken bool
	}{
		{plan.NailerStep, true},
		{plan.MembraneStep, w.Membrane != ""},
		{plan.PackingStep, w.Packed == plan.PackedAbove},
		{plan.MarkStep, stands},
		{plan.StringStep, len(of.Chairs) > 1},
		{plan.CornersStep, welded && first},
		{plan.ChairsStep, w.Later || stands && !welded},
		{plan.ExtenderStep, w.Below > 0 || w.BelowRoof > 0},
		{plan.TryStep, w.Cornered},
		{plan.InspectStep, true},
		{plan.SplicesStep, w.Jointed},
		{plan.TrimStep, w.Closes},
		{plan.HookStep, stands},
		{plan.GapStep, w.Jointed},
		{plan.SnapStep, stands},
		{plan.CheckStep, true},
	} {
		if k.taken {
			out = append(out, k.step)
		}
	}
	return out
}

// pieceShown is the first piece of a run that turns, else the first that ends it;
// nil where it has neither.
func pieceShown(r *Run) *Piece {
	var shown *Piece
	for _, q := range r.Parts {
		if !pieceKind(q.Piece.Kind).Along() && (shown == nil || len(shown.Miters) == 0 && len(q.Piece.Miters) > 0) {
			shown = q.Piece
		}
	}
	return shown
}

// nailed reports whether the wall's top layer is wood.
func nailed(r *Run) bool {
	return len(r.Wall.Layers) > 0 && (r.Wall.Layers[0].Material == job.Wood || r.Wall.Layers[0].Material == job.Plywood)
}

// packedAs is how the wall top of a run is built up, if it is anywhere.
func packedAs(pk *job.Packing, r *Run) plan.Packed {
	switch {
	case r.PackMost <= 0 && !slices.ContainsFunc(r.Chairs, func(c *Chair) bool {
		return c.PackFront > 0 ||
			c.PackRear > 0
	}):
		return plan.NotPacked
	case pk.Method == job.PackContinuous:
		return plan.PackedAlong
	case pk.AboveMembrane:
		return plan.PackedAbove
	}
	return plan.PackedBelow
}

// jointShown is the joint that pictures show: a plain one of the run, else one that
// its pieces end on, else an expansion joint; nil where the run has none.
func (l *Layout) jointShown(r *Run) *Joint {
	all := slices.Clone(r.Joints)
	for _, q := range r.Parts {
		if q.Piece.Kind != cap.Straight {
			continue
		}
		a, b := l.EndJoints(q.Piece)
		for _, j := range []*Joint{a, b} {
			if j != nil {
				all = append(all, j)
			}
		}
	}
	for _, k := range []cap.JointKind{cap.Plain, cap.Kink, cap.Expansion} {
		for _, j := range all {
			if j.Kind == k {
				return j
			}
		}
	}
	return nil
}

// cutPlan is the section that the pictures of a run show: through the chair with the
// most packing, which shows most, or through the middle of a run without chairs. Of
// chairs packed alike it is the one whose wall lies farthest back, in a mirrored job
// the mirror of the same.
func (l *Layout) cutPlan(r *Run) plan.Cut {
	s := &l.Job.System
	at, n := r.Cap/2, -1
	var cut *Chair
	for i, c := range r.Chairs {
		more := 1
		if cut != nil {
			f, g := r.FaceAt(s, c.At), r.FaceAt(s, cut.At)
			more = cmp.Or(cmp.Compare(c.PackFront+c.PackRear, cut.PackFront+cut.PackRear),
				cmp.Compare(f.Street, g.Street), cmp.Compare(f.Deepest, g.Deepest))
		}
		if more > 0 {
			cut, at, n = c, c.At, i
		}
	}
	q := l.Section(r, at, cut, nil)
	p := plan.Cut{
		Chair: n, Surveyed: q.Surveyed, Street: q.Street, Roof: q.Roof, Inside: q.Inside, Metal: s.Metal.Thickness,
		PackFront: q.PackFront, PackRear: q.PackRear, FoldFront: q.FoldFront, FoldRear: q.FoldRear,
		FootFront: s.FrontFoot(), FootRear: s.RearFoot(),
		CoverFront: r.Wall.CoverFront, CoverRear: r.Wall.CoverRear, Drip: kickPlan(s.Profile.Drip),
		Hook:       kickPlan(s.Profile.RearHook),
		ChairFront: cap.ChairLine(s), ChairRear: cap.ChairRear(s, q.Inside), ChairThick: s.Chair.Thickness,
		Ply: l.Job.Packing.Layer,
	}
	if cut != nil {
		p.ChairThick = s.ChairOf(cut.Assembly).Thickness
	}
	if s.Profile.SlopeBy == job.SlopeByPacking {
		p.Fall = s.Profile.TopSlope
	}
	return p
}

func kickPlan(k job.Kick) plan.Kick { return plan.Kick{Long: length.Max(0, k.Length), Turn: k.Angle} }
