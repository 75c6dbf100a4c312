package layout

import (
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// chairOf is a chair that assemblies of the job were tested with.
type chairOf struct {
	job.Chair
	at   finding.Place // where the job states its sheet: the system, or the assembly's own chair
	of   *job.Assembly // the first tested with it; nil: the job has no assembly
	name string        // which tells it from others; empty: the job has one chair
}

// chairs are the different chairs of the job, in the order of its assemblies.
func (l *Layout) chairs() []chairOf {
	s := &l.Job.System
	if len(l.Job.Assemblies) == 0 {
		return []chairOf{{Chair: s.Chair, at: s.At}}
	}
	var out []chairOf
	seen := map[string]bool{} // look-up only
	for i := range l.Job.Assemblies {
		a := &l.Job.Assemblies[i]
		c := chairOf{Chair: s.ChairOf(a), at: s.At, of: a, name: l.Job.ChairNames(a)}
		if a.Chair != nil {
			c.at = a.Chair.At
		}
		if !seen[c.name] {
			seen[c.name] = true
			out = append(out, c)
		}
	}
	return out
}

// chairFindings names the chairs under the coping whose section the job states
// nowhere. Nothing can look then whether the cap's hook catches its chair.
func (l *Layout) chairFindings() finding.List {
	s := &l.Job.System
	carries := map[*job.Assembly]bool{} // look-up only
	for _, r := range l.Runs() {
		for _, c := range r.Chairs {
			carries[c.Assembly] = true
		}
	}
	var of []string
	for i := range l.Job.Assemblies {
		if a := &l.Job.Assemblies[i]; carries[a] && s.ChairOf(a).Blank == nil {
			of = append(of, a.Name)
		}
	}
	if len(of) == 0 || l.Job.Shop == nil { // without a shop nothing is made; the section says what it draws dashed
		return nil
	}
	f := finding.New(finding.Note, "chair-not-stated", s.Chair.At,
		"write `blank:` under `system.chair`, or `chair:` under the assembly, with the section as it was tested",
		"the section of the chair is stated nowhere for %s: sections draw dashed the room it takes, no part is made "+
			"of it, and nothing has looked whether the hook of the cap catches it "+
			"and whether it goes down beside the wall",
		assemblyWords(of))
	f.Why = "a cap holds to the chair it was tested on, and to no other"
	return finding.List{f}
}

func assemblyWords(of []string) string {
	if len(of) == 1 {
		return "assembly " + of[0]
	}
	return "assemblies " + strings.Join(of, ", ")
}

// ChairSheet is what a chair is made of.
type ChairSheet struct {
	Tested    string // the assemblies tested with it, where the job has several chairs
	Metal     string // empty: not stated
	Thickness length.Length
}

// ChairSheets are the sheets of the job's different chairs.
func (l *Layout) ChairSheets() []ChairSheet {
	var out []ChairSheet
	for _, c := range l.chairs() {
		out = append(out, ChairSheet{c.name, c.Metal, c.Thickness})
	}
	return out
}
