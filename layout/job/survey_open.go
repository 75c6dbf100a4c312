package job

import (
	"strings"

	"copingset/layout/finding"
)

// unmeasured says that a row is as a form prints it: a station, and nothing read
// there yet.
func (s *survey) unmeasured(w row) bool {
	for _, key := range s.d.keys.within[readingTable] {
		switch key.Name() {
		case "station", "note":
			continue
		}
		if i := s.find(key.Name()); i >= 0 && strings.TrimSpace(w.cells[i]) != "" {
			return false
		}
	}
	i := s.find("station")
	return i >= 0 && strings.TrimSpace(w.cells[i]) != ""
}

// unmeasuredRows notes stations that were left out of runs that are else measured;
// a run without any reading is held as a whole.
func (s *survey) unmeasuredRows() {
	for _, name := range s.names {
		t := s.runs[name]
		if len(t.open) == 0 || len(t.rows) == 0 {
			continue
		}
		f := finding.New(finding.Note, "survey-open", t.open[0], "measure there, or take the row out",
			"run %s: %s of the survey without a reading, the first here", name, plural(len(t.open), "station"))
		f.Where = finding.Ref{Perimeter: t.perimeter, Run: name}
		s.d.add(f)
	}
}
