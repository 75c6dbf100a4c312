package job_test

import (
	"testing"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Chairs are told apart by what they are, not by where the job says so.
func TestChairNames(t *testing.T) {
	const mm = length.Millimetre
	blank := func(line int, flange length.Length) *job.Blank {
		r := 2 * mm
		return &job.Blank{At: finding.Place{Line: line}, Stuff: job.Stuff{Radius: &r}, HoleDia: 7 * mm,
			Section: []job.Flange{{Name: "flange", Length: flange}, {Name: "base", Across: true, Turn: 90 * job.Degree}}}
	}
	own := func(line int, thick, flange length.Length) *job.OwnChair {
		return &job.OwnChair{At: finding.Place{Line: line}, Thickness: thick, Blank: blank(line, flange)}
	}
	for _, c := range []struct {
		name  string
		own   [3]*job.OwnChair
		names [3]string
	}{
		{"the system's for all", [3]*job.OwnChair{}, [3]string{}},
		{"one of its own", [3]*job.OwnChair{nil, own(9, 2*mm, 30*mm), nil}, [3]string{"A and C", "B", "A and C"}},
		{"stated twice alike", [3]*job.OwnChair{own(8, 2*mm, 30*mm), own(9, 2*mm, 30*mm), nil}, [3]string{"A and B", "A and B", "C"}},
		{"thicker", [3]*job.OwnChair{own(8, 2*mm, 30*mm), own(9, 3*mm, 30*mm), nil}, [3]string{"A", "B", "C"}},
		{"as the system's", [3]*job.OwnChair{nil, own(9, 2*mm, 25*mm), nil}, [3]string{}},
	} {
		j := job.Job{Assemblies: []job.Assembly{{Name: "A"}, {Name: "B"}, {Name: "C"}}}
		j.System.Chair = job.Chair{Thickness: 2 * mm, Blank: blank(3, 25*mm), Length: 200 * mm}
		for i := range j.Assemblies {
			j.Assemblies[i].Chair = c.own[i]
		}
		for i := range j.Assemblies {
			a := &j.Assemblies[i]
			if got := j.ChairNames(a); got != c.names[i] {
				t.Errorf("%s: the chair of %s is that of %q, want %q", c.name, a.Name, got, c.names[i])
			}
			of := j.System.ChairOf(a)
			if c.own[i] != nil && (of.Blank != c.own[i].Blank || of.Thickness != c.own[i].Thickness) || of.Length != 200*mm {
				t.Errorf("%s: the chair of %s is %+v", c.name, a.Name, of)
			}
		}
		if got := j.System.ChairOf(nil); got != j.System.Chair {
			t.Errorf("%s: without an assembly the chair is %+v", c.name, got)
		}
	}
}
