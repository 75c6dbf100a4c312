package cap

import (
	"slices"
	"strings"

	"copingset/layout/assembly"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// zones gives each run of a perimeter its wind zones.
func zones(d wind.Demand, p *wall.Perimeter, runs []*Run) {
	fronts := make([]length.Length, 0, len(runs))
	for _, r := range runs {
		fronts = append(fronts, r.Front)
	}
	outside := make([]bool, 0, len(p.Runs)) // at the right of each run; a step is no corner
	for _, r := range p.Runs {
		c := r.Right.Corner
		outside = append(outside, c != nil && c.Outside() && !c.Absorb && d.Begins(c.Turn) || ends(r.Right))
	}
	cut := d.Around(fronts, outside, p.Closed(), len(p.Runs) > 0 && ends(p.Runs[0].Left))
	for i, r := range runs {
		r.Zones = cut[i]
	}
}

// ends reports whether the wall is at its end: no corner, no step and no higher
// wall.
func ends(e wall.End) bool { return e.Kind == job.EndFree && e.Step == nil }

// choose gives a run the assembly of each zone for each of the widths it may
// be capped in: the tested width counts piece by piece.
func choose(j *job.Job, d wind.Demand, r *Run, widths []length.Length) {
	r.Choices = nil
	for _, w := range widths {
		c := WidthChoice{Inside: w}
		for z := wind.Edge; z <= wind.Corner; z++ {
			c.Choice[z] = assembly.Choose(j, d, z, need(j, r, w))
		}
		r.Choices = append(r.Choices, c)
	}
}

// need is what an assembly has to cover on a run capped in a width.
func need(j *job.Job, r *Run, inside length.Length) assembly.Need {
	s := &j.System
	return assembly.Need{Metal: s.Metal.Name, Thickness: s.Metal.Thickness,
		FrontLeg: s.FrontLeg, RearLeg: s.RearLeg, Inside: inside, Layers: r.Wall.Layers}
}

// keepChoices drops the choices for widths that the run does not have.
func (r *Run) keepChoices() {
	r.Choices = slices.DeleteFunc(r.Choices, func(c WidthChoice) bool {
		return !slices.ContainsFunc(r.Bands, func(b Band) bool { return b.Inside == c.Inside })
	})
	r.Choice = r.Choices[len(r.Choices)-1].Choice
}

// uncovered reports zones of a run that no tested assembly covers, at each
// width a piece there has.
func (b *builder) uncovered(r *Run) {
	said := map[string]bool{}
	for z := wind.Edge; z <= wind.Corner; z++ {
		for _, w := range r.Choices {
			c := w.Choice[z]
			used := slices.ContainsFunc(r.Parts, func(q Part) bool {
				return q.Piece.Zone == z &&
					q.Inside() == w.Inside
			})
			why := strings.Join(c.Fails, "; ")
			if !used || c.Covers || said[why] {
				continue
			}
			said[why] = true
			b.found.Append(finding.Finding{
				Code: "no-assembly", Severity: finding.Hold, At: r.Job.At, Where: refOf(r),
				What: "run " + r.Name + ": no tested assembly of the job covers its " + z.String() + " zone",
				Why:  why,
				Mend: "name a tested assembly that covers it, or have the profile, substrate or pressure settled by " +
					"the engineer of record",
			})
		}
	}
}

// TakeNext has a run take, in a zone and at every width, the assembly that comes
// after the chosen one among those that cover it; false where there is none.
func (r *Run) TakeNext(j *job.Job, d wind.Demand, z wind.Zone) bool {
	taken := false
	for i := range r.Choices {
		c := &r.Choices[i]
		all := assembly.Candidates(j, d, z, need(j, r, c.Inside))
		k := slices.IndexFunc(all, func(o assembly.Choice) bool { return o.Assembly == c.Choice[z].Assembly })
		if k >= 0 && k+1 < len(all) {
			c.Choice[z], taken = all[k+1], true
		}
	}
	if n := len(r.Choices); n > 0 {
		r.Choice = r.Choices[n-1].Choice
	}
	return taken
}

// spacings are the tested chair spacings of the assemblies that a run may take.
func (r *Run) spacings() []length.Length {
	var out []length.Length
	for _, w := range r.Choices {
		for _, c := range w.Choice {
			if c.Assembly != nil && !slices.Contains(out, c.Assembly.ChairSpacing) {
				out = append(out, c.Assembly.ChairSpacing)
			}
		}
	}
	return out
}
