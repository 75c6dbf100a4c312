package finding

import (
	"cmp"
	"slices"
	"strings"
)

// List collects findings. The zero List is empty and ready to use.
type List []Finding

// Append adds findings, leaving out any that is already there: two rooms that
// look at the same value may well say the same of it.
func (l *List) Append(fs ...Finding) {
	for _, f := range fs {
		if !slices.ContainsFunc(*l, f.equal) {
			*l = append(*l, f)
		}
	}
}

// Set collects findings as a List does, for those who gather very many: it looks
// for one that is already there among those alike in code, place and words. The
// zero Set is empty and ready to use.
type Set struct {
	list  List
	alike map[alike][]int // places in the list
}

type alike struct {
	code string
	at   Place
	what string
}

// Append adds findings, leaving out any that is already there.
func (s *Set) Append(fs ...Finding) {
	if s.alike == nil {
		s.alike = map[alike][]int{}
	}
	for _, f := range fs {
		k := alike{f.Code, f.At, f.What}
		if !slices.ContainsFunc(s.alike[k], func(i int) bool { return s.list[i].equal(f) }) {
			s.alike[k] = append(s.alike[k], len(s.list))
			s.list = append(s.list, f)
		}
	}
}

// Errorf adds an error: the packet stops.
func (s *Set) Errorf(code string, at Place, mend, format string, args ...any) {
	s.Append(New(Error, code, at, mend, format, args...))
}

// Notef adds a note.
func (s *Set) Notef(code string, at Place, mend, format string, args ...any) {
	s.Append(New(Note, code, at, mend, format, args...))
}

// List is what was gathered, in the order it was.
func (s *Set) List() List { return slices.Clip(s.list) }

// Errorf adds an error: the packet stops.
func (l *List) Errorf(code string, at Place, mend, format string, args ...any) {
	l.Append(New(Error, code, at, mend, format, args...))
}

// Holdf adds a hold on the whole job. A hold on a part of it is made with New,
// given its Where, and appended.
func (l *List) Holdf(code string, at Place, mend, format string, args ...any) {
	l.Append(New(Hold, code, at, mend, format, args...))
}

// Notef adds a note.
func (l *List) Notef(code string, at Place, mend, format string, args ...any) {
	l.Append(New(Note, code, at, mend, format, args...))
}

// HasErrors says that the packet must not be made.
func (l List) HasErrors() bool { return l.Count(Error) > 0 }

// Holds are the findings that hold something, in list order.
func (l List) Holds() List {
	return l.where(func(f Finding) bool { return f.Severity == Hold })
}

// Cause is where the finding stands that another follows from, or -1 if that stands by
// itself.
func (l List) Cause(of Finding) int {
	if of.Follows.IsZero() {
		return -1
	}
	return slices.IndexFunc(l, func(f Finding) bool { return f.At == of.Follows && f.Code == Slip })
}

// Count is the number of findings of one severity.
func (l List) Count(sev Severity) int {
	n := 0
	for _, f := range l {
		if f.Severity == sev {
			n++
		}
	}
	return n
}

// ByRun are the findings that name the run, in list order.
func (l List) ByRun(run string) List {
	return l.where(func(f Finding) bool { return f.Where.Run == run || slices.Contains(f.Where.Runs, run) })
}

// Touching are the findings that the sheet of a run must show: those that name
// it, and those on its perimeter or the whole job.
func (l List) Touching(perimeter, run string) List {
	return l.where(func(f Finding) bool { return f.Where.TouchesRun(perimeter, run) })
}

func (l List) where(keep func(Finding) bool) List {
	var out List
	for _, f := range l {
		if keep(f) {
			out = append(out, f)
		}
	}
	return out
}

// Sort puts findings in the order of the files, at one place the gravest
// first; those without a place come last. What ties stays in the order it was
// found, so the same job gives the same list.
func (l List) Sort() {
	slices.SortStableFunc(l, func(a, b Finding) int {
		if az, bz := a.At.IsZero(), b.At.IsZero(); az != bz {
			if az {
				return 1
			}
			return -1
		}
		return cmp.Or(
			strings.Compare(a.At.File, b.At.File),
			cmp.Compare(a.At.Line, b.At.Line),
			cmp.Compare(a.At.Col, b.At.Col),
			cmp.Compare(b.Severity, a.Severity),
			strings.Compare(a.Code, b.Code),
		)
	})
}
