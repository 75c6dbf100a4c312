package layout

import (
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/wall"
)

// unsound holds the pieces over a stretch of wall that is loose, rotten or wet:
// nothing is fastened to it until the survey no longer says so or a person
// clears it.
func (l *Layout) unsound(found *finding.List) {
	for _, p := range l.Perimeters {
		for _, r := range p.Runs {
			for i := range r.Unsound {
				u := &r.Unsound[i]
				if u.Cleared != nil {
					continue
				}
				var codes []string
				for _, c := range u.Conditions {
					codes = append(codes, string(c))
				}
				found.Append(finding.Finding{
					Code: "wall-unsound", Severity: finding.Hold, At: u.Reading.Job.At,
					Where: finding.Ref{Perimeter: p.Job.Name, Run: r.Name, Station: u.Reading.Station, HasStation: true, Pieces: p.over(r, u)},
					What: "run " + r.Name + " at station " + job.Both(u.Reading.Job.Station) + ": the wall top is " + strings.Join(codes, " and ") +
						"; how far is not known, so it is taken to reach the next reading on both sides",
					Why:  "no chair is fastened to it",
					Mend: "have it put right and survey it again, or say under the run who looked: `cleared: [{station: ..., measure: condition, by: ..., on: ...}]`",
				})
			}
		}
	}
}

// over are the marks of the pieces over a stretch; none stands for the run.
func (p *Perimeter) over(r *Run, u *wall.Unsound) []string {
	var out []string
	for _, q := range p.Pieces {
		for _, t := range q.Parts {
			if t.Run == r.Run && t.From < r.ToCap(u.To) && t.To > r.ToCap(u.From) {
				out = append(out, q.Mark)
				break
			}
		}
	}
	return out
}
