package sheets

import (
	"path"
	"slices"
	"strings"

	"copingset/layout/job"
)

// FormCSV are empty surveys with the columns and the stations of the forms, one
// file for each perimeter, under the name that the job gives its survey: what was
// written on the forms is typed into them. Perimeters that share a survey share the
// file. A file has the same name whichever runs are asked for.
func FormCSV(j *job.Job, o FormOptions) []Schedule {
	f := newForms(j, o)
	var out []Schedule
	names := f.surveyNames()
	for i, name := range names {
		if slices.Contains(names[:i], name) {
			continue
		}
		s := Schedule{Name: name, Of: j.Perimeters[i].Name}
		var share []*job.Perimeter
		low := false
		for k := range j.Perimeters {
			if p := &j.Perimeters[k]; names[k] == name {
				share = append(share, p)
				low = low || slices.ContainsFunc(p.Runs, func(r job.Run) bool {
					return o.wants(r.Name) &&
						f.low(p, &r)
				})
			}
		}
		s.Header = []string{"run"}
		for _, c := range f.columns(low) {
			s.Header = append(s.Header, c.csv)
		}
		for _, p := range share {
			s.Rows = append(s.Rows, f.surveyRows(p, len(s.Header))...)
		}
		if len(s.Rows) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// surveyNames are the names of the perimeters' surveys: as the job states them, or
// made from the perimeter's name where it states none or where two would fall
// together in one folder.
func (f *forms) surveyNames() []string {
	var out []string
	from := map[string]string{} // path by name
	for i := range f.j.Perimeters {
		p := &f.j.Perimeters[i]
		name := f.b.id(p.Name, "survey") + ".csv"
		if all := p.Surveys(); len(all) > 0 {
			base := path.Base(all[0])
			if other, taken := from[base]; strings.EqualFold(path.Ext(base), ".csv") && (!taken || other == all[0]) {
				name, from[base] = base, all[0]
			}
		}
		out = append(out, name)
	}
	return out
}

// surveyRows are the stations of a perimeter's runs, with nothing read there yet.
func (f *forms) surveyRows(p *job.Perimeter, columns int) [][]string {
	var out [][]string
	for k := range p.Runs {
		r := &p.Runs[k]
		if !f.o.wants(r.Name) {
			continue
		}
		for _, at := range f.stations(p, r) {
			row := make([]string, columns)
			row[0] = r.Name
			if at.Known {
				row[1] = f.b.crew.Long(at.At)
			}
			row[len(row)-1] = f.standing(at)
			out = append(out, row)
		}
	}
	return out
}
