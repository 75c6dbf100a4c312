package short

import (
	"slices"

	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// freed is how many stretches of a perimeter may be left in trouble for the changes to
// be tried that would free them: a wall with more has a system that does not suit it.
const freed = 20

// change is one change of the system that a fabricator may offer.
type change struct {
	say string
	job job.Job
}

// changes are those tried, the least first.
func changes(j *job.Job, grid length.Length) []change {
	var out []change
	for _, eighths := range []length.Length{7, 6, 5, 4} {
		c := change{job: *j}
		l := length.CeilTo(j.System.Chair.Length*eighths/8, grid)
		c.job.System.Chair.Length = l
		c.say = "a chair " + job.Both(l) + " long"
		out = append(out, c)
	}
	for _, eighths := range []length.Length{12} {
		c := change{job: *j}
		l := length.CeilTo(j.System.Corner.LongestLeg*eighths/8, grid)
		c.job.System.Corner.LongestLeg = l
		c.say = "corner legs welded up to " + job.Both(l)
		out = append(out, c)
	}
	return out
}

// explained adds to the holds of the stretches left in trouble what was tried.
func explained(j *job.Job, d wind.Demand, p Laid, grid length.Length, left []*stretch) Laid {
	if len(left) == 0 {
		return p
	}
	say := make([]string, len(left))
	open := func(i int) bool { return say[i] == "" && !left[i].unasked }
	wanted := 0
	for i := range left {
		if open(i) {
			wanted++
		}
	}
	if len(left) <= freed {
		for _, c := range changes(j, grid) {
			if wanted == 0 {
				break
			}
			q, _ := settle(&c.job, d, lay(&c.job, d, left[0].caps.Fresh(), grid, nil), grid, mostChange, false)
			bad := troubled(q)
			for i, t := range left {
				if open(i) && !t.troubled(q, bad) && !t.lasts(q.Runs, bad) {
					say[i] = c.say
					wanted--
				}
			}
		}
	}
	p.Caps, p.Stands = slices.Clone(p.Caps), slices.Clone(p.Stands)
	for i, t := range left {
		marks := t.marks(p.Runs)
		for _, all := range []finding.List{p.Caps, p.Stands} {
			for k := range all {
				if f := &all[k]; t.about(f, marks) {
					t.explain(f, say[i])
				}
			}
		}
	}
	return p
}

// about tells whether a hold is about where the legs and joints of a stretch are: it
// names pieces of this stretch, or a run that is short.
func (t *stretch) about(f *finding.Finding, marks map[string]bool) bool {
	if f.Severity != finding.Hold || !ofPlace(f.Code) && !slices.Contains([]string{"chairs-overlap", "chairs-crowded",
		"chair-overloaded",
		"chair-blocked", "support-overloaded", "corner-unheld", "no-fit"}, f.Code) {
		return false
	}
	if len(f.Where.Pieces) > 0 {
		return slices.ContainsFunc(f.Where.Pieces, func(m string) bool { return marks[m] })
	}
	return slices.ContainsFunc(t.rooms, func(r cap.Room) bool { return r.Short && t.runs[r.Run].Name == f.Where.Run })
}

// explain says once what was tried.
func (t *stretch) explain(f *finding.Finding, change string) {
	if f.Why != "" {
		f.Why += "; "
	}
	f.Why += t.tried
	if change != "" {
		f.Mend += "; this alone would free it: " + change
	}
}
