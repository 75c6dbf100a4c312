package anchor

import (
	"fmt"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// supports stands the short chairs under the miters.
func (b *builder) supports(runs []*Run, pieces []*cap.Piece) []*Support {
	var out []*Support
	for _, p := range pieces {
		for _, m := range p.Miters {
			end := m.Corner.Arrive.At(m.Corner.Arrive.Front)
			packing := length.RoundTo(length.Max(0, length.Max(end.PackFront, end.PackRear)), b.grid)
			for i, s := range cap.Supports(b.sys, m.Corner, p.Inside) {
				out = append(out, &Support{Name: fmt.Sprintf("%s-S%d", m.Corner.Name, i+1), Piece: p, Packing: packing, SupportPlace: s})
			}
		}
	}
	return out
}

// standing is something that stands on the wall, in plan, in a run's frame.
type standing struct {
	name string
	quad cap.Quad
	own  bool // stands on the run itself
}

// near is how far from a corner point plan overlaps are looked for, in chair
// lengths and widths of the cap.
func (b *builder) near(r *Run) length.Length { return 2*b.sys.Chair.Length + 4*r.Outside }

// plan checks every corner in plan: no two chairs and no chair and support may
// stand on one place. Chairs along a run are checked by number.
func (b *builder) plan(runs []*Run, sup []*Support) {
	said := map[string]bool{}
	for i, r := range runs {
		all := b.around(runs, i, sup)
		for k, p := range all {
			for _, q := range all[k+1:] {
				if p.own && q.own || !cap.Overlap(p.quad, q.quad) {
					continue
				}
				key := p.name + " and " + q.name
				if q.name < p.name {
					key = q.name + " and " + p.name
				}
				if said[key] {
					continue
				}
				said[key] = true
				b.found.Append(finding.Finding{Code: "chairs-overlap", Severity: finding.Hold, At: r.Job.At,
					Where: finding.Ref{Perimeter: r.Perimeter.Job.Name, Run: r.Name},
					What:  "run " + r.Name + ": " + key + " overlap in plan", Why: "two chairs cannot stand on one place of the wall",
					Mend: "change the leg, the place of the corner support or the chair's length with the fabricator"})
			}
		}
	}
}

// around gathers what stands near the corners of a run, in the run's frame.
func (b *builder) around(runs []*Run, i int, sup []*Support) []standing {
	r := runs[i]
	n := len(runs)
	near, half := b.near(r), b.sys.Chair.Length/2
	var out []standing
	for _, c := range r.Chairs {
		if c.At <= near || c.At >= r.Cap-near {
			q := cap.ChairOn(b.sys, nil, false, r.Inside, -c.At-half, -c.At+half)
			out = append(out, standing{c.Name, q, true})
		}
	}
	if c := r.Run.Left.Corner; c != nil && !c.Absorb {
		before := runs[(i+n-1)%n]
		for _, ch := range before.Chairs {
			if u := before.Cap - ch.At; u <= near {
				q := cap.ChairOn(b.sys, c, false, r.Inside, u-half, u+half)
				out = append(out, standing{ch.Name, q.ToLeaving(c.Turn), false})
			}
		}
		for _, s := range sup {
			if s.Corner == c {
				out = append(out, standing{s.Name, s.Quad.ToLeaving(c.Turn), false})
			}
		}
	}
	if c := r.Run.Right.Corner; c != nil && !c.Absorb {
		after := runs[(i+1)%n]
		for _, ch := range after.Chairs {
			if ch.At <= near {
				q := cap.ChairOn(b.sys, c, true, r.Inside, ch.At-half, ch.At+half)
				out = append(out, standing{ch.Name, q.Shift(r.Cap), false})
			}
		}
		for _, s := range sup {
			if s.Corner == c {
				out = append(out, standing{s.Name, s.Quad.Shift(r.Cap), false})
			}
		}
	}
	return out
}

// laps checks, at each chair's packing, that both legs cover the joint they
// must by the job's least lap; the worst chair of a run is reported.
func (b *builder) laps(a *Run) {
	type worst struct {
		chair *Chair
		lap   length.Length
	}
	var front, rear worst
	for _, c := range a.Chairs {
		f, r := cap.Laps(b.sys, a.Run.Wall, a.Inside, c.PackFront, c.PackRear)
		if front.chair == nil || f < front.lap {
			front = worst{c, f}
		}
		if rear.chair == nil || r < rear.lap {
			rear = worst{c, r}
		}
	}
	say := func(leg string, w worst, least length.Length) {
		if w.chair == nil || w.lap >= least {
			return
		}
		b.hold("lap-under", a.Job.At, a.Run, w.chair.At,
			"run "+a.Name+": at chair "+w.chair.Name+" the "+leg+" leg laps the joint it must cover by "+job.Both(w.lap)+", the least is "+job.Both(least),
			"the packing there lifts the cap", "a longer "+leg+" leg within the tested range, less packing, or an extender piece below")
	}
	say("front", front, b.sys.Lap.Front)
	say("rear", rear, b.sys.Lap.Rear)
}
