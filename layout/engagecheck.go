package layout

import (
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
	"copingset/layout/shop"
)

// engagedChair is one figure: chairs of an assembly under caps of one inside width.
type engagedChair struct {
	of     *job.Assembly
	inside length.Length
	pieces []string // that stand on them
}

// engagements sets how far hook and snap take hold, as both sections are stated and
// less the job's tolerances of parts and setting, against the least in the test: one
// figure for each assembly and inside width.
func (l *Layout) engagements() []CodeCheck {
	var out []CodeCheck
	for _, e := range l.engaged() {
		tol := l.Job.System.Chair.Tolerance
		where := "assembly " + e.of.Name + ", a cap of " + job.Both(e.inside) + " inside: "
		at, ref := e.of.Engagement.At, finding.Ref{Pieces: e.pieces}
		if tol == nil {
			out = append(out, l.judged(CodeCheck{What: where + "engagement of hook and snap",
				Asked: "less the tolerances of parts and setting",
				Has:   "no tolerance stated", Source: "the test report"}, finding.Hold, "engagement-short", at, ref,
				"write `tolerance: {parts: ..., setting: ...}` under `system.chair`"))
			continue
		}
		for _, k := range l.Engagement(e.of, e.inside) {
			name := map[plan.Code]string{plan.HookEngaged: "hook over the drip",
				plan.SnapEngaged: "snap under the chair's roof side"}[k.Code]
			has := job.Both(length.Max(0, k.Has))
			if k.Unknown {
				has = "not known: the section of the chair or of the cap is not stated or cannot be bent"
			}
			out = append(out, l.judged(CodeCheck{What: where + name + ", less tolerances", Asked: job.Both(k.Asked),
				Has:    has,
				Source: "the least engagement in report " + e.of.Report, Passes: k.Pass}, finding.Hold,
				"engagement-short", at, ref,
				"have the fabricator look at kick, hook and edge distances of the chair, or hold closer tolerances"))
		}
	}
	return out
}

// Engagement judges hook and snap under a cap of an inside width by what an assembly's
// report states; none where it states nothing or the job no tolerance.
func (l *Layout) Engagement(of *job.Assembly, inside length.Length) []plan.Check {
	s := &l.Job.System
	tol := s.Chair.Tolerance
	if of == nil || of.Engagement == nil || tol == nil {
		return nil
	}
	asked := of.Engagement
	nominal, err := shop.Engagement(l.Job, of, inside, s.Profile.TopSlope)
	if err != nil {
		return []plan.Check{plan.NotMeasured(plan.HookEngaged, asked.Hook), plan.NotMeasured(plan.SnapEngaged,
			asked.Snap)}
	}
	less := tol.Parts + tol.Setting
	return []plan.Check{plan.AtLeast(plan.HookEngaged, nominal.Hook-less, asked.Hook), plan.AtLeast(plan.SnapEngaged,
		nominal.Snap-less, asked.Snap)}
}

// engaged lists the chairs whose assembly states an engagement, in the order of the
// assemblies and then by width.
func (l *Layout) engaged() []engagedChair {
	var out []engagedChair
	for i := range l.Job.Assemblies {
		of := &l.Job.Assemblies[i]
		if of.Engagement == nil {
			continue
		}
		var here []engagedChair
		type under struct {
			k    int
			mark string
		}
		listed := map[under]bool{} // look-up only
		for _, r := range l.Runs() {
			for _, c := range r.Chairs {
				if c.Assembly != of {
					continue
				}
				k := slices.IndexFunc(here, func(e engagedChair) bool { return e.inside == c.Inside })
				if k < 0 {
					k = len(here)
					here = append(here, engagedChair{of: of, inside: c.Inside})
				}
				for _, p := range met(c, nil) {
					if at := (under{k, p.Mark}); !listed[at] {
						listed[at] = true
						here[k].pieces = append(here[k].pieces, p.Mark)
					}
				}
			}
		}
		slices.SortStableFunc(here, func(a, b engagedChair) int { return int(min(1, max(-1, a.inside-b.inside))) })
		out = append(out, here...)
	}
	return out
}
