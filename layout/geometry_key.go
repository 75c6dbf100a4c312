package layout

import (
	"math"
	"slices"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// KeyPlan is every perimeter that has runs, from above.
func (l *Layout) KeyPlan() plan.KeyPlan {
	k := plan.KeyPlan{Metric: l.Job.Units == job.Metric, North: int(math.Round(northFrom(l.Job).Degrees() * 10)),
		CornerZone: plan.Value{Real: l.Demand.CornerLength, Fact: Named("wind", "corner-zone")},
		CornerTurn: l.Demand.CornerTurn, Begun: Named("wind", "corner-turn")}
	var walls []*wall.Perimeter
	for _, p := range l.Perimeters {
		walls = append(walls, p.Perimeter)
	}
	lie := wall.Lyings(walls)
	for i, p := range l.Perimeters {
		if len(p.Runs) == 0 {
			continue
		}
		q := l.keyPerimeter(p)
		q.Group = lie[i].Group
		// the group's frame lies on paper as that of its first perimeter
		s, c := math.Sincos(q.Turned*math.Pi/180 - lie[i].Turn)
		q.At = plan.Pt{X: length.FromMM(lie[i].X*c - lie[i].Y*s), Y: length.FromMM(lie[i].X*s + lie[i].Y*c)}
		k.Perimeters = append(k.Perimeters, q)
	}
	return k
}

// northFrom is the bearing that points to the right on every plan of a job: that
// of the first run of its first perimeter, whose street is then at the top. On two
// plans with two norths a light well would be taken for its mirror.
func northFrom(j *job.Job) job.Angle {
	if len(j.Perimeters) == 0 {
		return 90 * job.Degree
	}
	return j.Perimeters[0].Bearing
}

func (l *Layout) keyPerimeter(p *Perimeter) plan.KeyPerimeter {
	k := plan.KeyPerimeter{Name: p.Job.Name, Count: Named(FactOfPerimeter(p), "runs"),
		Turned: p.Job.Bearing.Degrees() - northFrom(l.Job).Degrees()}
	if o := p.Job.OuterSide; o != job.Street {
		k.Outer = o.String()
	}
	switch p.Job.Kind {
	case job.Well:
		k.Lying = plan.AroundWell
	case job.Open:
		k.Lying = plan.LyingOpen
	}
	if p.Closed() && length.Crew(l.Job.Units == job.Metric).Round(p.Closure.Length) > 0 {
		of := FactOfPerimeter(p)
		k.Misses = plan.Value{Real: p.Closure.Length, Fact: Named(of, "misclosure")}
		k.Within = plan.Check{Has: p.Closure.Length, Most: p.Job.MisclosureLength,
			Facts: [3]string{k.Misses.Fact, "", Named(of, "misclosure-most")},
			Pass:  p.Closure.Length <= p.Job.MisclosureLength}
	}
	for _, r := range p.Runs {
		k.Runs = append(k.Runs, l.keyRun(r))
	}
	p.Tees(func(r *wall.Run, t *wall.Tee, starts bool) {
		k.Tees = append(k.Tees, plan.KeyTee{Run: r.Name, Starts: starts, Perimeter: t.Job.Perimeter, Main: t.Main.Name,
			At:    t.Place(r, starts).Corner,
			Taped: plan.Value{Real: t.Job.At, Fact: Named(FactOfRun(l.runOf(r)), meetsAt(starts))},
			Face:  [...]string{"left", "right", "center"}[t.Job.Of]})
	})
	return k
}

// meetsAt is what the station is called at which a run meets another, by its left end or
// by its right.
func meetsAt(starts bool) string {
	if starts {
		return "left-end-meets-at"
	}
	return "right-end-meets-at"
}

func (l *Layout) keyRun(r *Run) plan.KeyRun {
	at := func(p wall.Point) plan.Pt { return plan.Pt{X: p.X, Y: p.Y} }
	k := plan.KeyRun{Name: r.Name, From: at(r.Plan), To: at(r.PlanEnd),
		Front:  plan.Value{Real: r.Front, Fact: Named(FactOfRun(r), "wall-line")},
		Slopes: r.InPlan(l.Grid) != r.Front,
		Wide:   r.WidthMost, Beyond: [2]length.Length{r.Left.Ext, r.Right.Ext}, Out: [2]length.Length{r.CapOutAt(0),
			r.CapOutAt(r.Front)},
		Held: len(l.HoldsOn(r)) > 0}
	if k.Wide <= 0 {
		k.Wide = r.FaceAt(&l.Job.System, 0).Width()
	}
	switch {
	case r.Job.Basis == job.Drawing:
		k.Unmeasured = "its length is taken from a drawing, not measured"
	case !r.Surveyed:
		k.Unmeasured = "its wall top is not surveyed"
	}
	for _, z := range r.Zones {
		k.Zones = append(k.Zones, plan.KeyZone{From: z.From, To: z.To, Corner: z.Zone == wind.Corner})
	}
	for _, j := range r.Joints {
		k.Joints = append(k.Joints, plan.KeyJoint{At: r.ToFront(j.Centre()), Expansion: j.Kind == cap.Expansion,
			Kink: j.Kind == cap.Kink})
	}
	for i, e := range []wall.End{r.Left, r.Right} {
		k.Ends[i] = keyEnd(e)
		// over a break the fold stands beyond or short along the slope, not in plan
		if e.Corner != nil && e.Corner.Straight() {
			k.Beyond[i] = 0
		}
	}
	return k
}

func keyEnd(e wall.End) plan.KeyEnd {
	switch {
	case e.Corner != nil:
		c := e.Corner
		return plan.KeyEnd{Kind: plan.KeyCorners, Corner: plan.KeyCorner{Name: c.Name, Outside: c.Outside(),
			Absorbed: c.Absorb, Leaves: c.Leave.Name, KeyTurn: TurnOf(c)}}
	case e.Step != nil && e.Step.Up():
		return plan.KeyEnd{Kind: plan.KeyStepUp}
	case e.Step != nil:
		return plan.KeyEnd{Kind: plan.KeyStepDown}
	case e.Tee != nil:
		return plan.KeyEnd{Kind: plan.KeyMeets}
	case e.Kind == job.EndWall:
		return plan.KeyEnd{Kind: plan.KeyDies}
	}
	return plan.KeyEnd{Kind: plan.KeyFree}
}

// TurnOf is what a corner of the wall does.
func TurnOf(c *Corner) plan.KeyTurn { return turnSaid(c, c.Turn, c.Included(), "turn", "included") }

// MadeTurnOf is what the piece made for a corner does.
func MadeTurnOf(c *Corner) plan.KeyTurn {
	return turnSaid(c, c.CapTurn, c.CapIncluded(), "cap-turn", "cap-included")
}

// turnSaid has the two angles, whose facts are called so.
func turnSaid(c *Corner, a, in job.Angle, turn, included string) plan.KeyTurn {
	of := FactOfCorner(c)
	if c.Straight() {
		out := plan.KeyTurn{Kind: plan.PeakBreak, Turn: max(c.Bend, -c.Bend), Turned: Named(of, "bend")}
		if c.Pitch == job.Valley {
			out.Kind = plan.ValleyBreak
		}
		return out
	}
	out := plan.KeyTurn{Kind: plan.OutsideCorner, Turn: a, Included: in, Turned: Named(of, turn),
		Opened: Named(of, included)}
	if !c.Outside() {
		out.Kind, out.Turn = plan.InsideCorner, -a
	}
	return out
}

// SpotOfRuns points out runs of one perimeter.
func (l *Layout) SpotOfRuns(picks ...*Run) plan.KeySpot {
	s := l.spot(func(r *Run) bool { return slices.Contains(picks, r) })
	var names []string
	for _, r := range picks {
		names = append(names, r.Name)
	}
	s.Name = strings.Join(names, ", ")
	s.Words = "Where runs " + s.Name + " lie on their perimeter."
	if len(picks) == 1 {
		s.Words = "Where run " + s.Name + " lies on its perimeter."
	}
	return s
}

// SpotOfCorner points out a corner and both its runs.
func (l *Layout) SpotOfCorner(c *Corner) plan.KeySpot {
	s := l.spot(func(r *Run) bool { return r.OnWall() == c.Arrive || r.OnWall() == c.Leave })
	s.Corner, s.Name, s.Words = c.Name, c.Name, "Where corner "+c.Name+" lies on its perimeter."
	return s
}

// SpotOfPiece points out the runs a piece stands on, and its first corner.
func (l *Layout) SpotOfPiece(p *Piece) plan.KeySpot {
	s := l.spot(func(r *Run) bool {
		return slices.ContainsFunc(p.Parts, func(q Part) bool { return q.Run == r.Run })
	})
	if len(p.Miters) > 0 {
		s.Corner = p.Miters[0].Corner.Name
	}
	s.Name, s.Words = p.Mark, "Where piece "+p.Mark+" lies on its perimeter."
	return s
}

// spot is the first perimeter with a run that is picked, and its picked runs.
func (l *Layout) spot(picked func(*Run) bool) plan.KeySpot {
	var s plan.KeySpot
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			if picked(r) {
				s.Perimeter = p.Job.Name
				s.Runs = append(s.Runs, r.Name)
			}
		}
		if len(s.Runs) > 0 {
			break
		}
	}
	return s
}
