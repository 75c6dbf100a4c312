package layout

import (
	"slices"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// WallPlan is the top of a run's wall from above.
func (l *Layout) WallPlan(r *cap.Run) plan.Wall {
	var w plan.Wall
	if len(r.Readings) == 0 {
		return w
	}
	s := &l.Job.System
	line := func(from, to length.Length, y func(cap.Faces) length.Length) (out []plan.Pt) {
		at := func(front length.Length) {
			x := r.ToCap(front)
			out = append(out, plan.Pt{X: x, Y: y(r.FaceAt(s, x))})
		}
		at(from)
		for _, q := range r.Readings {
			if q.Station > from && q.Station < to {
				at(q.Station)
			}
		}
		at(to)
		return out
	}
	rear := func(f cap.Faces) length.Length { return f.Roof }
	w.Street = line(0, r.Front, func(f cap.Faces) length.Length { return f.Street })
	w.Roof = line(r.Trim.Left, r.Front-r.Trim.Right, rear)
	for _, q := range r.Readings {
		if q.Station >= 0 && q.Station <= r.Front {
			x := r.ToCap(q.Station)
			w.Read = append(w.Read, plan.Pt{X: x, Y: rear(r.FaceAt(s, x))})
		}
	}
	return w
}

// ChairPlan is a chair from above, in the frame of its run.
func (l *Layout) ChairPlan(c *Chair) plan.Chair {
	s := &l.Job.System
	a, b := c.Left(s), c.Right(s)
	left, right := c.Edges(s)
	y := cap.ChairLine(s)
	p := plan.Chair{At: c.At, Shape: plan.Shape{Mark: c.Name,
		Ring: plan.Ring{{X: a, Y: y}, {X: b, Y: y}, {X: b, Y: cap.ChairRear(s, right)},
			{X: a, Y: cap.ChairRear(s, left)}}}}
	k := s.ChairOf(c.Assembly).Blank
	for row, w := range c.Rows {
		for i := range w.Count {
			x := a + s.Chair.Length*length.Length(2*i+1)/length.Length(2*w.Count)
			if k != nil && k.HoleDia > 0 {
				x = a + shop.RowPlaces(s.Chair.Length, k.Inset, w.Count)[i]
			}
			p.Holes = append(p.Holes, plan.Pt{X: x, Y: c.RowAt(row, x)})
		}
	}
	p.Webs = l.webs(c, left, right)
	return p
}

// webs are the faces that stand on a chair's base, between its edges: under a taper
// those behind the base run with its rear edge.
func (l *Layout) webs(c *Chair, left, right length.Length) [][2]plan.Pt {
	s := &l.Job.System
	at, err := shop.ChairSection(l.Job, c.Assembly, left)
	to, err2 := shop.ChairSection(l.Job, c.Assembly, right)
	if err != nil || err2 != nil {
		return nil // its section is not stated, or cannot be bent as stated
	}
	p, q := at.Uprights(), to.Uprights()
	if len(p) != len(q) {
		return nil
	}
	var out [][2]plan.Pt
	a, b, y := c.Left(s), c.Right(s), cap.ChairLine(s)
	for i := range p {
		out = append(out, [2]plan.Pt{{X: a, Y: y + p[i].Middle}, {X: b, Y: y + q[i].Middle}})
	}
	return out
}

// PlatePlan is the splice or cover plate of a joint from above, between the legs of
// the cap, in the frame of the joint's run.
func (l *Layout) PlatePlan(j *Joint) plan.Shape {
	c, t := j.Centre(), l.Job.System.Metal.Thickness
	return plan.Shape{Mark: j.Name, Ring: plan.Box(c-j.Plate/2, t, c+j.Plate/2, j.Run.OutsideAt(c)-t)}
}

// piecePlan is a part of a run's cap, which ends at the run's corners along their
// miters.
func piecePlan(r *Run, q Part, first, last bool) plan.Piece {
	p := plan.Piece{Mark: q.Piece.Mark, Front: []plan.Pt{{X: q.From}, {X: q.To}}}
	from, to := q.From, q.To
	miter := func(c *Corner) bool { return c != nil && !c.Absorb }
	if first && miter(r.Left.Corner) {
		from += MiterTrimOf(r, r.Left.Corner)
	}
	if last && miter(r.Right.Corner) {
		to -= MiterTrimOf(r, r.Right.Corner)
	}
	p.Rear = []plan.Pt{{X: from, Y: r.OutsideAt(q.From)}}
	if t := q.Piece.Taper; q.Piece.Kind == cap.Transition {
		p.Rear = append(p.Rear, plan.Pt{X: t.From, Y: r.OutsideAt(t.From)}, plan.Pt{X: t.To, Y: r.OutsideAt(t.To)})
	}
	p.Rear = append(p.Rear, plan.Pt{X: to, Y: r.OutsideAt(q.To)})
	return p
}

// MiterTrimOf is how much shorter the rear mold line of a run is than its front at
// a corner: that of the piece over it, or of the corner where it has none.
func MiterTrimOf(r *Run, c *Corner) length.Length {
	if c == nil {
		return 0
	}
	end, side := length.Length(0), 1
	if c == r.Right.Corner && (c != r.Left.Corner || c.Arrive == r.OnWall()) {
		end, side = r.Cap, 0
	}
	for _, q := range r.Parts {
		for _, m := range q.Piece.Miters {
			if m.Corner == c {
				return m.Trim[side]
			}
		}
	}
	return cap.MiterTrim(r.OutsideAt(end), c.CapTurn)
}

// obstaclePlan is an obstacle and the room it takes.
func (l *Layout) obstaclePlan(r *Run, o *job.Obstacle) plan.Obstacle {
	at, room := r.ToCap(r.FrontStation(o.Station)), r.RoomOf(&l.Job.System, o)
	p := plan.Obstacle{
		Shape: plan.Shape{Mark: o.Name, Ring: plan.Box(room.From, room.Front, room.To, room.Rear)}, At: at,
		Station:     plan.Value{Real: r.ToCrew(at)},
		BlocksChair: o.Does&job.BlocksChair != 0, BlocksJoint: o.Does&job.BlocksJoint != 0,
		Pierces: o.Does&job.Pierces != 0,
		Work:    o.Work, Collar: o.Collar,
		Fact: ObstacleFacts(r, o), Extent: o.Extent, Depth: o.Depth, FromFace: o.FromFace,
	}
	for _, q := range r.Parts {
		if slices.Contains(q.Piece.Cutouts, o) {
			h := l.HoleOf(q.Piece, o)
			p.Holes = append(p.Holes, plan.Cutout{Piece: q.Piece.Mark, FromLeft: h.FromLeft, FromFront: h.FromFront})
		}
	}
	return p
}

// supportsOf are the supports under the miters at a run's ends, turned from the
// corner's frame, x along the arriving run, into the run's own.
func (l *Layout) supportsOf(r *Run) []plan.Support {
	var out []plan.Support
	for _, p := range l.Perimeters {
		if p.Perimeter != r.Perimeter {
			continue
		}
		for _, u := range p.Supports {
			if right := u.Corner == r.Right.Corner; right || u.Corner == r.Left.Corner {
				out = append(out, plan.Support{Shape: supportPlan(u, r.Cap, right), Right: right})
			}
		}
	}
	return out
}

// supportPlan is a support in the frame of the run that arrives at its corner, whose
// corner point stands at a station, or of the one that leaves.
func supportPlan(u *Support, corner length.Length, arriving bool) plan.Shape {
	q := u.Quad.ToLeaving(u.Corner.CapTurn)
	if arriving {
		q = u.Quad.Shift(corner)
	}
	k := plan.Shape{Mark: u.Name}
	for i := range q {
		x, y := q.At(i)
		k.Ring = append(k.Ring, plan.Pt{X: x, Y: y})
	}
	return k
}
