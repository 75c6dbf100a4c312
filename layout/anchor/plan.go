package anchor

import (
	"fmt"
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// supports stands the short chairs under the miters.
func (b *builder) supports(pieces []*cap.Piece) []*Support {
	var out []*Support
	for _, p := range pieces {
		for _, m := range p.Miters {
			// It stands on both walls, and the lower asks for more.
			end, start := m.Corner.Arrive.At(m.Corner.Arrive.Front), m.Corner.Leave.At(0)
			packing := length.Max(length.Max(end.PackFront, end.PackRear), length.Max(start.PackFront, start.PackRear))
			packing = length.RoundTo(length.Max(0, packing), b.grid)
			for i, s := range cap.Supports(b.sys, m.Seam) {
				out = append(out, &Support{Name: fmt.Sprintf("%s-S%d", m.Corner.Name, i+1), Piece: p, Packing: packing,
					SupportPlace: s})
			}
		}
	}
	return out
}

// underOf are the supports of each corner, in order.
func underOf(sup []*Support) map[*wall.Corner][]*Support {
	out := map[*wall.Corner][]*Support{}
	for _, s := range sup {
		out[s.Corner] = append(out[s.Corner], s)
	}
	return out
}

// standing is something that stands on the wall, in plan, in a run's frame.
type standing struct {
	name   string
	quad   cap.Quad
	run    *cap.Run // nil: a support, which belongs to its corner
	pieces []*cap.Piece
}

// near is how far from a corner point plan overlaps are looked for, in chair
// lengths and widths of the cap.
func (b *builder) near(r *Run) length.Length {
	wide := r.Outside
	for _, c := range []*wall.Corner{r.Run.Left.Corner, r.Run.Right.Corner} {
		if m, ok := b.seams[c]; ok && m.Two() {
			wide = length.Max(wide, length.Max(m.Inside[0], m.Inside[1])+2*b.sys.Metal.Thickness)
		}
	}
	return 2*b.sys.Chair.Length + 4*wide
}

// plan checks every corner in plan: no two chairs and no chair and support may
// stand on one place, no chair reaches past a miter off its wall, no support
// stands on an obstacle. Chairs along a run are checked by number.
func (b *builder) plan(runs []*Run) {
	said := map[string]bool{}
	for i, r := range runs {
		all := b.around(runs, i)
		for k, p := range all {
			for _, q := range all[k+1:] {
				if p.run == r.Run && q.run == r.Run || !cap.Overlap(p.quad, q.quad) {
					continue
				}
				key := p.name + " and " + q.name
				if q.name < p.name {
					key = q.name + " and " + p.name
				}
				if !said[key] {
					said[key] = true
					b.crowd(r, key+" overlap in plan", p, q)
				}
			}
		}
		for _, c := range r.Chairs {
			half := b.sys.Chair.Length / 2
			for side, e := range []struct {
				c *wall.Corner
				u length.Length
			}{{r.Run.Right.Corner, r.Cap - c.At}, {r.Run.Left.Corner, c.At}} {
				if e.c != nil && !e.c.Absorb && cap.PastMiter(b.sys, b.seams[e.c], side, c.Inside, e.u-half) {
					b.crowd(r, "chair "+c.Name+" reaches past the miter of corner "+e.c.Name+", off its wall",
						standing{run: r.Run, pieces: carried(c)})
				}
			}
		}
		b.obstructed(r, all)
	}
}

// crowd holds the pieces that crowded chairs carry, once for all runs concerned.
func (b *builder) crowd(r *Run, what string, all ...standing) {
	runs := []string{r.Name}
	var marks []string
	b.crowded = append(b.crowded, Trouble{Code: "chairs-overlap"})
	for _, s := range all {
		t := &b.crowded[len(b.crowded)-1]
		t.On = append(t.On, s.pieces)
		if s.run != nil && !slices.Contains(runs, s.run.Name) {
			runs = append(runs, s.run.Name)
		}
		for _, p := range s.pieces {
			if !slices.Contains(marks, p.Mark) {
				marks = append(marks, p.Mark)
			}
		}
	}
	on := "run "
	if len(runs) > 1 {
		on = "runs "
	}
	b.found.Append(finding.Finding{Code: "chairs-overlap", Severity: finding.Hold, At: r.Job.At,
		Where: finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name, Runs: runs[1:], Pieces: marks},
		What:  on + listed(runs) + ": " + what, Why: "two chairs cannot stand on one place of the wall",
		Mend: "change the leg, the place of the corner support or the chair's length with the fabricator"})
}

// carried are the pieces a chair carries.
func carried(c *Chair) []*cap.Piece {
	if c.Kind == AtJoint {
		return []*cap.Piece{c.Joint.Left, c.Joint.Right}
	}
	return []*cap.Piece{c.Piece}
}

// around gathers what stands near the corners of a run, in the run's frame.
func (b *builder) around(runs []*Run, i int) []standing {
	r := runs[i]
	n := len(runs)
	near, half := b.near(r), b.sys.Chair.Length/2
	var out []standing
	for _, c := range r.Chairs {
		if c.At <= near || c.At >= r.Cap-near {
			q := cap.ChairOn(b.sys, nil, false, c.Inside, -c.At-half, -c.At+half)
			out = append(out, standing{c.Name, q, r.Run, carried(c)})
		}
	}
	if c := r.Run.Left.Corner; c != nil && !c.Absorb {
		before := runs[(i+n-1)%n]
		for _, ch := range before.beside(c.Arrive) {
			if u := before.Cap - ch.At; u <= near {
				q := cap.ChairOn(b.sys, c, false, ch.Inside, u-half, u+half)
				out = append(out, standing{ch.Name, q.ToLeaving(c.CapTurn), before.Run, carried(ch)})
			}
		}
		for _, s := range b.under[c] {
			out = append(out, standing{s.Name, s.Quad.ToLeaving(c.CapTurn), nil, []*cap.Piece{s.Piece}})
		}
	}
	if c := r.Run.Right.Corner; c != nil && !c.Absorb {
		after := runs[(i+1)%n]
		for _, ch := range after.beside(c.Leave) {
			if ch.At <= near {
				q := cap.ChairOn(b.sys, c, true, ch.Inside, ch.At-half, ch.At+half)
				out = append(out, standing{ch.Name, q.Shift(r.Cap), after.Run, carried(ch)})
			}
		}
		for _, s := range b.under[c] {
			out = append(out, standing{s.Name, s.Quad.Shift(r.Cap), nil, []*cap.Piece{s.Piece}})
		}
	}
	return out
}

// obstructed holds what stands on an obstacle of a run that blocks a chair: corner
// supports, and chairs of the runs beside it. The run's own chairs keep clear of it
// along the run.
func (b *builder) obstructed(r *Run, near []standing) {
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		if !o.BlocksAChair() {
			continue
		}
		q := r.RoomOf(b.sys, o).Quad()
		for _, s := range near {
			if s.run == r.Run || !cap.Overlap(s.quad, q) {
				continue
			}
			f := finding.Finding{Code: "support-blocked", Severity: finding.Hold, At: o.At,
				Where: finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name},
				What:  "run " + r.Name + ": " + o.Name + " stands where the corner support " + s.name + " does",
				Why:   "the miter rests on it",
				Mend:  "move what stands there, or have another place of the support tested"}
			if s.run != nil {
				f.Code, f.Where.Runs = "chair-blocked", []string{s.run.Name}
				f.What = "runs " + r.Name + " and " + s.run.Name + ": " + o.Name + " stands where chair " + s.name +
					" does"
				f.Why, f.Mend = "", "move what blocks it, or change the leg"
				b.trouble(f.Code, s.pieces)
			}
			for _, p := range s.pieces {
				f.Where.Pieces = append(f.Where.Pieces, p.Mark)
			}
			b.found.Append(f)
		}
	}
}

// laps checks, at each chair's packing and at each reading's, that both legs
// cover the joint they must by the job's least lap; the worst station of a run
// is reported. The chair is that under a kink at its left, which the run before has.
func (b *builder) laps(a *Run, k *Chair) {
	type worst struct {
		at, lap length.Length
		known   bool
	}
	var front, rear worst
	look := func(at, pf, pr length.Length) {
		f, r := a.LapsAt(b.sys, at, pf, pr)
		if !front.known || f < front.lap {
			front = worst{at, f, true}
		}
		if !rear.known || r < rear.lap {
			rear = worst{at, r, true}
		}
	}
	for _, c := range a.Chairs {
		look(c.At, c.PackFront, c.PackRear)
	}
	if k != nil { // the half of a kink's chair that stands on this run
		look(0, k.PackFront, k.PackRear)
	}
	for _, q := range a.Readings {
		look(a.ToCap(q.Station), q.PackFront, q.PackRear)
	}
	say := func(leg string, w worst, least length.Length) {
		if !w.known || w.lap >= least {
			return
		}
		b.hold("lap-under", a.Job.At, a.Run, w.at,
			"run "+a.Name+" at station "+job.Both(a.ToCrew(w.at))+": the "+leg+
				"-side leg laps the wall joint it must cover "+
				"by "+job.Both(w.lap)+", the least is "+job.Both(least),
			"the build-up there lifts the cap",
			"a longer "+leg+"-side leg within the tested range, less build-up, or an extender piece below")
	}
	say("street", front, b.sys.Lap.Front)
	say("roof", rear, b.sys.Lap.Rear)
}
