package cap

import (
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wall"
)

// Frame gives every run its width. One inside width goes through all corners
// of a perimeter: the smallest offered that covers the greatest need of any
// run with its clearances. Where the wall is so much narrower that the rear
// leg cannot take up the play, that station is a hold.
func Frame(j *job.Job, perims []*wall.Perimeter) ([][]*Run, finding.List) {
	var found finding.List
	out := make([][]*Run, 0, len(perims))
	for _, p := range perims {
		var need length.Length
		var at *wall.Run
		for _, r := range p.Runs {
			if at == nil || r.Need > need {
				need, at = r.Need, r
			}
		}
		s := &j.System
		inside, ok := Offer(s.Widths, need+s.FrontClearance+s.RearClearance)
		if !ok {
			found.Append(finding.Finding{
				Code: "width-not-offered", Severity: finding.Hold, At: at.Job.At,
				Where: finding.Ref{Perimeter: p.Job.Name},
				What: "perimeter " + p.Job.Name + ": run " + at.Name + " needs an inside width of " +
					job.Both(need+s.FrontClearance+s.RearClearance) + ", more than the widest offered, " + job.Both(inside),
				Mend: "ask the fabricator for a wider cap and have it tested, or cut the wall back",
			})
		}
		var runs []*Run
		for _, w := range p.Runs {
			r := &Run{Run: w, Inside: inside, Outside: inside + 2*s.Metal.Thickness}
			for i, q := range w.Readings {
				play := inside - q.Need - s.FrontClearance
				r.Play = append(r.Play, play)
				if i == 0 || play < r.PlayLeast {
					r.PlayLeast = play
				}
				if i == 0 || play > r.PlayMost {
					r.PlayMost = play
				}
				if play < s.PlayLeast || play > s.PlayMost {
					found.Append(finding.Finding{
						Code: "rear-play", Severity: finding.Hold, At: q.Job.At,
						Where: finding.Ref{Perimeter: p.Job.Name, Run: w.Name, Station: q.Station, HasStation: true},
						What: "run " + w.Name + " at station " + job.Both(q.Station) + ": rear play would be " + job.Both(play) +
							", the rear leg takes up " + job.Both(s.PlayLeast) + " to " + job.Both(s.PlayMost),
						Why:  "one inside width of " + job.Both(inside) + " serves the perimeter, set by run " + at.Name,
						Mend: "measure the width again; if it is right this stretch needs a transition to another width, or packing on the rear face",
					})
				}
			}
			runs = append(runs, r)
		}
		out = append(out, runs)
	}
	return out, found
}

// Offer rounds a width up to what the fabricator makes. When none is wide
// enough it returns the widest and false.
func Offer(w job.Widths, least length.Length) (length.Length, bool) {
	if len(w.Offered) > 0 {
		for _, o := range w.Offered {
			if o >= least {
				return o, true
			}
		}
		return w.Offered[len(w.Offered)-1], false
	}
	if least <= w.Least {
		return w.Least, true
	}
	o := w.Least + length.CeilTo(least-w.Least, w.Step)
	if o > w.Most {
		return w.Most, false
	}
	return o, true
}
