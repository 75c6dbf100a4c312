package job

import (
	"reflect"
	"slices"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// OwnChair is the chair an assembly was tested with, where it is not the system's:
// its sheet and its section. Its length along the run, its rise and its edges are
// the system's, since joints, string line and laps are laid out by them.
type OwnChair struct {
	At        finding.Place
	Thickness length.Length
	Metal     string // what it is made of; empty: not stated
	Blank     *Blank // never nil
}

func (c *OwnChair) keys(k keys) {
	c.At = k.at
	k.length("thickness", &c.Thickness, "the thickness of the chair's metal", `0.094"`)
	k.may().text("metal", &c.Metal, "the metal of the chair", "galvanized steel")
	c.Blank = &Blank{}
	k.group("blank", "the section of the chair, as it was tested", func(k keys) {
		c.Blank.Stuff.Metal, c.Blank.Stuff.Thickness = c.Metal, c.Thickness
		c.Blank.chairKeys(k)
	})
}

// ChairOf is the chair of an assembly: its own, or the system's where it states
// none or no assembly is known.
func (s *System) ChairOf(a *Assembly) Chair {
	c := s.Chair
	if a != nil && a.Chair != nil {
		c.Metal, c.Thickness, c.Blank = a.Chair.Metal, a.Chair.Thickness, a.Chair.Blank
	}
	return c
}

// SameChair reports whether two assemblies were tested with one chair, wherever the
// job says so. The places of their rows may differ all the same.
func (s *System) SameChair(a, b *Assembly) bool {
	c, d := s.ChairOf(a), s.ChairOf(b)
	for _, q := range []*Chair{&c, &d} {
		if q.Blank != nil {
			k := *q.Blank
			k.At, q.Blank = finding.Place{}, &k
		}
	}
	return reflect.DeepEqual(c, d)
}

// ChairNames are the assemblies that were tested with the chair of one of them,
// which tell that chair from others; empty where all of the job's have one chair.
func (j *Job) ChairNames(a *Assembly) string {
	if !slices.ContainsFunc(j.Assemblies, func(b Assembly) bool { return b.Chair != nil }) {
		return ""
	}
	var names []string
	for i := range j.Assemblies {
		if b := &j.Assemblies[i]; j.System.SameChair(a, b) {
			names = append(names, b.Name)
		}
	}
	if len(names) == len(j.Assemblies) {
		return ""
	}
	return strings.Join(names, " and ")
}
