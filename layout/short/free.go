package short

import (
	"fmt"
	"slices"
	"strings"

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
	say     string
	job     job.Job
	spacing int64 // of all assemblies, in eighths of what was tested
}

// changes are those tried, the least first: of the chair, the legs, the support and the tested
// spacing.
func changes(j *job.Job, grid length.Length) []change {
	var out []change
	add := func(what string, of func(s *job.System) *length.Length, eighths ...length.Length) {
		for _, n := range eighths {
			c := change{job: *j, spacing: 8}
			l := of(&c.job.System)
			*l = length.CeilTo(*l*n/8, grid)
			c.say = fmt.Sprintf(what, job.Both(*l))
			out = append(out, c)
		}
	}
	add("a chair %s long", func(s *job.System) *length.Length { return &s.Chair.Length }, 7, 6, 5, 4)
	add("corner legs welded up to %s", func(s *job.System) *length.Length { return &s.Corner.LongestLeg }, 12)
	if len(j.System.Corner.Supports) > 0 {
		add("a corner support %s long", func(s *job.System) *length.Length { return &s.Corner.Support.Length }, 6)
	}
	for _, n := range []int64{9, 10, 12} {
		out = append(out, change{job: *j, spacing: n, say: fmt.Sprintf(
			"an assembly tested at the same pressure on chairs %d per cent farther apart", (n-8)*100/8)})
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
			runs := left[0].caps.Spaced(c.spacing)
			q, _ := settle(&c.job, d, lay(&c.job, d, runs, grid, nil), grid, mostChange, false)
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

// alone begins what is said of a change.
const alone = "; this alone would free it: "

// explain says once what was tried. A hold of several stretches names a change only where one
// frees them all.
func (t *stretch) explain(f *finding.Finding, change string) {
	if !strings.Contains(f.Why, t.tried) {
		if f.Why != "" {
			f.Why += "; "
		}
		f.Why += t.tried
		if change != "" {
			f.Mend += alone + change
		}
		return
	}
	if mend, said, ok := strings.Cut(f.Mend, alone); ok && said != change {
		f.Mend = mend
	}
}
