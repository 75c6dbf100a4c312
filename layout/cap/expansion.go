package cap

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// expansion turns the building expansion joints of a run into coping joints:
// the nominal gap plus the stated movement, so that it does not close, under
// a cover plate that is held on one side and still bears on the other at the
// widest, which the coldest metal makes wider yet.
func (b *builder) expansion(r *Run) []*Joint {
	src := make([]*job.ExpansionJoint, 0, len(r.Job.Expansion))
	for i := range r.Job.Expansion {
		src = append(src, &r.Job.Expansion[i])
	}
	slices.SortStableFunc(src, func(x, y *job.ExpansionJoint) int {
		switch {
		case x.Station < y.Station:
			return -1
		case x.Station > y.Station:
			return 1
		}
		return 0
	})
	// Of caps a stock length each; a leg may be longer, which moves looks at once
	// the pieces are known.
	cold := length.Max(0, coldest(b.sys, b.sys.Stock))
	var out []*Joint
	last := length.Length(0)
	for _, e := range src {
		c := r.ToCap(r.FrontStation(e.Station))
		gap, opens := b.sys.Joint.Gap, cold
		at := refOf(r)
		at.Station, at.HasStation = r.FrontStation(e.Station), true
		if e.Movement == nil {
			b.hold("movement-not-stated", e.At, at,
				"run "+r.Name+": the movement of the building expansion joint at "+job.Both(e.Station)+" is not stated",
				"gap and cover plate follow from it",
				"get it from the engineer of record and write `movement:`, the most it opens or closes")
		} else {
			gap += *e.Movement
			opens += *e.Movement
		}
		j := &Joint{Kind: Expansion, From: c - gap/2, To: c - gap/2 + gap, Held: LeftHand, Movement: e.Movement,
			Source: e}
		if b.sys.Remainder == job.Right {
			j.Held = RightHand
		}
		// Centred when set: what the joint opens is all lost on the loose side.
		j.Plate = gap + 2*(b.sys.Expansion.Bearing+opens)
		if near := c + gap/2 + b.sys.Expansion.ChairFrom - b.sys.Chair.Length/2; near < c+e.Gap/2 {
			b.hold("expansion-chair", e.At, at,
				"run "+r.Name+": the chair beside the building expansion joint would stand over its gap of "+
					job.Both(e.Gap), "",
				"ask the fabricator for a larger `expansion: chair_from` that is within the tested assembly")
		}
		if j.From <= last || j.To >= r.Cap {
			b.found.Append(finding.Finding{Code: "expansion-place", Severity: finding.Error, At: e.At, Where: at,
				What: "run " + r.Name + ": the building expansion joint at " + job.Both(e.Station) +
					" lies on another or beyond the cap line",
				Mend: "check its station"})
			continue
		}
		last = j.To
		out = append(out, j)
	}
	return out
}

// fixedPlates reports plates that no layout can move off an obstacle: those of
// building expansion joints, of kinks and beside tees.
func (b *builder) fixedPlates() {
	for i, r := range b.runs {
		for _, j := range r.Joints {
			if j.Kind == Plain && j.Left.Kind != Tee && j.Right.Kind != Tee {
				continue
			}
			b.plateOn(r, j, j.Centre())
			if j.Kind == Kink && len(b.runs) > 1 {
				b.plateOn(b.runs[(i+1)%len(b.runs)], j, 0)
			}
		}
	}
}

// plateOn looks at one run for what stands under a plate centred at c.
func (b *builder) plateOn(r *Run, j *Joint, c length.Length) {
	for i := range r.Job.Obstacles {
		o := &r.Job.Obstacles[i]
		d := length.Abs(r.ToCap(r.FrontStation(o.Station)) - c)
		onPlate := o.BlocksAJoint() && d < (o.Extent+j.Plate)/2
		onChair := r.BlocksChair(b.sys, o) && j.Kind != Expansion && d < (o.Extent+b.sys.Chair.Length)/2
		if !onPlate && !onChair {
			continue
		}
		b.hold("plate-blocked", o.At, refOf(r),
			"run "+r.Name+": "+o.Name+" stands under the plate or the chair of joint "+j.Name,
			"this joint stays where the wall puts it",
			"move what stands there, or detail it by hand with the fabricator")
	}
}
