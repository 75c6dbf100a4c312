package layout

import (
	"strconv"
	"strings"
)

// CutFile is a body that is cut, with the file that its machine reads.
type CutFile struct {
	Name   string    // of the file
	Mark   string    // on the blank: the family's or part's, and the body's where there are several
	Rev    string    // the revision in which it last changed
	Family *Family   // nil: of a part
	Part   *MadePart // nil: of a family
	Body   int       // among the family's or the part's
	Metal  Body
}

// MachineFiles are the files for machines: one for each body of what is released and has
// a blank of its own, in the order of families and parts, formed caps that closers are cut
// from among these, and one for the plan of each perimeter that has runs.
func (l *Layout) MachineFiles() (cut []CutFile, plans []string) {
	n := fileNamer{job: l.Job.Info.Number, taken: map[string]bool{}}
	for _, f := range l.Families {
		if len(l.FromSheet(f)) == 0 {
			continue
		}
		rev := l.RevisionOfFamily(f)
		for i, b := range f.Bodies {
			mark := f.Mark
			if len(f.Bodies) > 1 {
				mark += " " + b.Name
			}
			cut = append(cut, CutFile{Name: n.name(mark, rev), Mark: mark, Rev: rev, Family: f, Body: i, Metal: b})
		}
	}
	for _, q := range l.Parts {
		if count, _ := q.Make(l.Held); count > 0 {
			rev := l.RevisionOfPart(q)
			cut = append(cut, CutFile{Name: n.name(q.Mark, rev), Mark: q.Mark, Rev: rev, Part: q, Metal: q.Bodies[0]})
		}
	}
	for _, p := range l.Perimeters {
		if len(p.Runs) > 0 {
			plans = append(plans, n.name("key plan "+p.Job.Name, l.Revision()))
		}
	}
	return cut, plans
}

// Revision is the mark of the packet's revision, 0 before the first.
func (l *Layout) Revision() string {
	if r := l.Job.Info.Revisions; len(r) > 0 {
		return r[len(r)-1].Mark
	}
	return "0"
}

// fileNamer names files by job, part and revision, no two alike: some disks hold no
// two names that differ in case alone.
type fileNamer struct {
	job   string
	taken map[string]bool // look-up only
}

func (n fileNamer) name(part, revision string) string {
	base := fileWord(n.job, "job") + "_" + fileWord(part, "part") + "_" + fileWord(revision, "0")
	name := base
	for k := 2; n.taken[strings.ToLower(name)]; k++ {
		name = base + "-" + strconv.Itoa(k)
	}
	n.taken[strings.ToLower(name)] = true
	return name + ".dxf"
}

// fileWord is a part of a file's name: letters, digits and hyphens.
func fileWord(s, none string) string {
	s = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, s)
	if s = strings.Trim(s, "-"); s == "" {
		return none
	}
	return s
}
