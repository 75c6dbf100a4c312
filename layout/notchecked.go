package layout

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/job"
)

// NotChecked says what the job leaves unsaid and nothing here has checked for
// that reason, for the sheet that lists what nobody should suppose to be checked.
func (l *Layout) NotChecked() []string {
	var out []string
	var unnamed []string
	punched := true
	for _, c := range l.chairs() {
		if c.Metal == "" {
			unnamed = append(unnamed, strings.TrimSuffix("the chair of "+c.name, " of "))
		}
		punched = punched && c.Blank != nil && c.Blank.HoleDia > 0
	}
	for i := range l.Job.Fasteners {
		if f := &l.Job.Fasteners[i]; f.Metal == "" {
			unnamed = append(unnamed, f.Name)
		}
	}
	if len(unnamed) > 0 {
		out = append(out, "Which metals touch under the cap, as far as the job does not say what these are made of: "+
			""+strings.Join(unnamed, "; ")+".")
	}
	if !punched {
		out = append(out, "The screws against the holes of the chair, whose diameter is not stated.")
	}
	if slices.ContainsFunc(l.Job.Assemblies, func(a job.Assembly) bool { return a.Engagement == nil }) {
		out = append(out, "How far hook and snap take hold of the chair, tolerances taken off, against the test: no "+
			"report says by how much they did there.")
	}
	if n := l.OnPacking(); n > 0 {
		out = append(out, fmt.Sprintf("The shear of the screws of %d chairs, which pass through build-up before they "+
			"reach what holds them.", n))
	}
	wood := func(a job.Assembly) bool { return a.Substrate == job.Wood || a.Substrate == job.Plywood }
	if slices.ContainsFunc(l.Job.Assemblies, wood) {
		out = append(out, "The distance of screws from each other and from the ends of the wood, beyond the edge "+
			"distance of their report.")
	}
	if slices.ContainsFunc(l.Job.Assemblies, func(a job.Assembly) bool { return !wood(a) }) {
		out = append(out, "Pull and shear of screws in masonry, concrete and steel: their reports and the test stand "+
			"for "+
			"them.")
	}
	return out
}
