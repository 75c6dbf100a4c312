package record

import (
	"slices"
	"strings"
)

// unused are the letters that no revision is called by, for they read as figures or
// as each other. Source: ASME Y14.35, Revision of Engineering Drawings.
const unused = "IOQSXZ"

// Misread says that a mark has a letter that reads as something else, and which.
func Misread(mark string) (string, bool) {
	i := strings.IndexAny(strings.ToUpper(mark), unused)
	if i < 0 {
		return "", false
	}
	return mark[i : i+1], true
}

// Suffixes are the letters that are added to a mark, in their order.
func Suffixes() []string {
	var out []string
	for c := 'A'; c <= 'Z'; c++ {
		if !strings.ContainsRune(unused, c) {
			out = append(out, string(c))
		}
	}
	return out
}

// Taken finds the issue that a mark or a date belongs to already, with another
// content; the last issue itself, unchanged, takes nothing.
func (r *Record) Taken(mark, date, digest string) (was Issue, byMark, ok bool) {
	all := r.History()
	if digest == r.Issue.Digest {
		all = r.Earlier
	}
	if i := slices.IndexFunc(all, func(q Issue) bool { return q.Mark == mark }); i >= 0 {
		return all[i], true, true
	}
	if i := slices.IndexFunc(all, func(q Issue) bool { return q.Date == date }); i >= 0 {
		return all[i], false, true
	}
	return Issue{}, false, false
}

// SameJob says whether a record is of a job: by its number, or where there is none by
// its name.
func (r *Record) SameJob(number, name string) bool {
	if r.Job.Number != "" && number != "" {
		return r.Job.Number == number
	}
	return r.Job.Name == name
}
