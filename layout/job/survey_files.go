package job

import (
	"cmp"
	"fmt"
	"path"
	"slices"

	"copingset/layout/finding"
)

// mostSurveys is the greatest number of files that one perimeter's survey
// stands in.
const mostSurveys = 400

// surveyFiles are the files that the perimeters name, in the order in which
// they do.
type surveyFiles struct {
	names []string // in the file system
	at    []finding.Place
	of    [][]string // by perimeter
}

// surveys reads every survey that a perimeter names, each file once, and joins
// what several files have of a run: one may be written for each run or for each
// day.
func (d *decoder) surveys(j *Job) {
	files := d.surveyFiles(j)
	joined := map[*Run][]*surveyed{}
	var strangers []stranger
	opened := books{}
	defer opened.close()
	for i, name := range files.names {
		s, read, ok := d.surveyIn(opened, name, files.at[i])
		if !ok {
			d.unsure = true
			continue
		}
		for k := range j.Perimeters {
			s.include(&j.Perimeters[k], fmt.Sprintf("perimeters[%d]", k), slices.Contains(files.of[k], name))
		}
		read()
		strangers = append(strangers, s.strangers...)
		for _, name := range s.names {
			if r := s.runs[name]; len(r.rows) > 0 {
				joined[r.run] = append(joined[r.run], r)
			}
		}
	}
	d.strangersTold(j, strangers, func(r *Run) bool { return len(joined[r]) > 0 })
	for i := range j.Perimeters {
		for k := range j.Perimeters[i].Runs {
			r := &j.Perimeters[i].Runs[k]
			if parts := joined[r]; len(parts) > 0 {
				r.Readings = d.join(parts)
			}
		}
	}
}

// surveyIn opens one survey: a CSV file, or a sheet of a workbook. read reads it, once
// its runs are known.
func (d *decoder) surveyIn(opened books, name string, asked finding.Place) (s *survey, read func(), ok bool) {
	s = &survey{d: d, file: d.seen(name), runs: map[string]*surveyed{}}
	if file, sheet, is := sheetOf(name); is {
		b, ok := opened.open(d, file, asked)
		return s, func() { s.readBook(b, path.Base(file), sheet, asked) }, ok
	}
	text, ok := d.load(name, asked, surveyFile)
	if ok {
		s.lines = text.lines
	}
	return s, s.read, ok
}

// surveyFiles finds the files of all perimeters.
func (d *decoder) surveyFiles(j *Job) surveyFiles {
	f := surveyFiles{of: make([][]string, len(j.Perimeters))}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		if len(p.surveys) > mostSurveys {
			d.errorf("survey-many", p.surveysAt[mostSurveys], "put the readings of several days into one file",
				"perimeter %s names %d surveys, and %d are the most", p.Name, len(p.surveys), mostSurveys)
			d.unsure = true
			continue
		}
		for k, written := range p.surveys {
			name, ok := d.reach(path.Join(d.dir, d.file), written, p.surveysAt[k], surveyFile)
			switch {
			case !ok:
				d.unsure = true
				continue
			case slices.Contains(f.of[i], name):
				d.errorf("survey-named-twice", p.surveysAt[k], "name it once",
					"perimeter %s names the survey %s twice", p.Name, show(written))
				continue
			}
			f.of[i] = append(f.of[i], name)
			if !slices.Contains(f.names, name) {
				f.names, f.at = append(f.names, name), append(f.at, p.surveysAt[k])
			}
		}
	}
	return f
}

// join puts the rows that several files have of a run in the order of its
// stations. Rows that are not in order within their file stay as they are, to be
// reported; so does a station that two files have.
func (d *decoder) join(parts []*surveyed) []Reading {
	type entry struct {
		row  Reading
		said []Entry
	}
	var all []entry
	ascending := true
	for _, p := range parts {
		for i, r := range p.rows {
			all = append(all, entry{r, p.said[i]})
		}
		ascending = ascending && slices.IsSortedFunc(p.rows, func(a,
			b Reading) int {
			return cmp.Compare(a.Station, b.Station)
		})
	}
	if ascending {
		slices.SortStableFunc(all, func(a, b entry) int { return cmp.Compare(a.row.Station, b.row.Station) })
	}
	rows := make([]Reading, len(all))
	for i, e := range all {
		rows[i] = e.row
		for _, s := range e.said {
			d.said = append(d.said, Entry{Path: fmt.Sprintf("%s.readings[%d].%s", parts[0].path, i, s.Path),
				Value: s.Value})
		}
	}
	return rows
}
