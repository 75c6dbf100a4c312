package layout

import (
	"strings"

	"copingset/layout/assembly"
	"copingset/layout/confirm"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/wind"
)

// claims are the holds on what a submittal has to say of each tested assembly in
// use and the job does not: by which standard and method it was tested, by whose
// leave and when, and where the factor on as-pulled values comes from.
func (l *Layout) claims() finding.List {
	var found finding.List
	for i := range l.Job.Assemblies {
		a := &l.Job.Assemblies[i]
		where, used := l.piecesOn(a)
		if !used {
			continue
		}
		if missing := unsaid(a); len(missing) > 0 {
			f := finding.New(finding.Hold, "report-unsaid", a.At, "write `test:` with standard, edition, method, "+
				"accreditation and date, as the report has them",
				"assembly %s, report %s: the job does not state the %s", a.Name, a.Report, strings.Join(missing,
					", the "))
			f.Why, f.Where = "a reviewer cannot tell which test the resistances are of", where
			found.Append(f)
		}
		if assembly.Divided(a) && a.FactorBasis == nil {
			f := finding.New(finding.Hold, "factor-unsaid", a.At, "write `factor_basis:` with level, by and why "+
				"under `resistance:`",
				"assembly %s: the job does not state the level of its factor %.4g on as-pulled values, who chose "+
					"it and why", a.Name, a.Factor)
			f.Why, f.Where = "the same factor leaves 0.6 as much if it was meant for demands at strength level; "+
				"until it is said, it is taken for the allowable level", where
			found.Append(f)
		}
	}
	return found
}

// unsaid names what the job does not say of the test of an assembly.
func unsaid(a *job.Assembly) []string {
	t := a.Test
	if t == nil {
		t = &job.Test{}
	}
	var out []string
	for _, q := range []struct {
		what string
		said bool
	}{{"test standard", t.Standard != ""}, {"edition of the test standard", t.Edition != ""}, {"test " +
		"method", t.Method != ""},
		{"accreditation of the laboratory", t.Accreditation != ""}, {"date of the report", t.On != job.Date{}}} {
		if !q.said {
			out = append(out, q.what)
		}
	}
	return out
}

// piecesOn is the part of the layout that stands on an assembly; used is false
// where nothing does.
func (l *Layout) piecesOn(a *job.Assembly) (where finding.Ref, used bool) {
	all := true
	listed := map[string]bool{} // look-up only
	for _, p := range l.Perimeters {
		for _, q := range p.Pieces {
			switch {
			case q.Assembly != a:
				all = false
			case !listed[q.Mark]:
				listed[q.Mark] = true
				where.Pieces = append(where.Pieces, q.Mark)
			}
		}
	}
	used = len(where.Pieces) > 0
	if all {
		where = finding.Ref{}
	}
	return where, used
}

// ConfirmText is what a licensed engineer is asked to sign: the list that the
// check code is over, and the code. Empty where no pressures are computed.
func (l *Layout) ConfirmText() string {
	list := wind.ListOf(l.Facts())
	if list == nil {
		return ""
	}
	name := strings.TrimSpace(l.Job.Info.Number + " " + l.Job.Info.Name)
	return "# " + name + ": computed wind pressures, " + l.Demand.Edition + "\n" +
		"# Check code " + list.Code().String() + ", over the lines from " + confirm.Head + " on\n" +
		"# Confirmed by, date, document:\n" +
		list.Text()
}
