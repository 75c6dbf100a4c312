package layout

import (
	"fmt"

	"copingset/layout/assembly"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// holeChecks sets the screws of each assembly against the holes of its chair: a
// screw passes through its hole, and a row has metal between its holes.
func (l *Layout) holeChecks() []CodeCheck {
	var out []CodeCheck
	seen := map[string]bool{}
	for i := range l.Job.Assemblies {
		a := &l.Job.Assemblies[i]
		f := l.fastenerOf(a)
		if f == nil {
			continue
		}
		chair := l.Job.System.ChairOf(a)
		hole, inset := f.Diameter, f.Diameter/2 // a hole is no smaller than its screw
		if b := chair.Blank; b != nil && b.HoleDia > 0 {
			hole, inset = b.HoleDia, b.Inset
			if key := f.Name + " " + bore(hole); !seen[key] {
				seen[key] = true
				out = append(out, l.judged(CodeCheck{What: f.Name + " through the chair's holes",
					Asked: "no thicker than " + bore(hole), Has: bore(f.Diameter),
					Source: "the job's chair and screw", Passes: f.Diameter <= hole},
					finding.Hold, "screw-hole", f.At, finding.Ref{},
					"check the diameter of the screw and of the holes in the "+
						"chair: one of them is not what was tested"))
			}
		}
		for row, n := range []int{a.FrontRow, a.RearRow} {
			if n < 2 {
				continue
			}
			pitch := (chair.Length - 2*inset) / length.Length(n-1)
			c := CodeCheck{What: fmt.Sprintf("assembly %s: %d holes in the %s-side row of a chair of %s", a.Name, n,
				faceWord(job.Face(row)), job.Both(chair.Length)),
				Asked: "more than " + bore(hole) + " apart", Has: thou(length.Max(0, pitch)),
				Source: "holes closer than they are wide run into each other", Passes: pitch > hole}
			if row == 0 || !c.Passes {
				out = append(out, l.judged(c, finding.Hold, "holes-crowded", a.At, finding.Ref{},
					"check the count of the row, and the length of the chair, against the test report"))
			}
		}
	}
	return out
}

// bore letters the diameter of a screw or a hole as it is named.
func bore(l length.Length) string {
	return length.Style{}.Exact(l) + " (" + length.Style{Metric: true}.Exact(l) + " mm)"
}

func (l *Layout) fastenerOf(a *job.Assembly) *job.Fastener {
	for i := range l.Job.Fasteners {
		if l.Job.Fasteners[i].Name == a.Fastener {
			return &l.Job.Fasteners[i]
		}
	}
	return nil
}

// factorChecks looks at the safety factor that each assembly's as-pulled values
// are divided by, and asks for the unit of what no coping was ever pulled to.
func (l *Layout) factorChecks() []CodeCheck {
	var out []CodeCheck
	for i := range l.Job.Assemblies {
		a := &l.Job.Assemblies[i]
		for _, q := range []struct {
			what string
			p    job.Pressure
		}{{"up", a.Up}, {"out", a.Out}, {"rear", a.Rear}} {
			if q.p.Pa > 0 && !assembly.Plausible(q.p, assembly.Factor(a)) {
				out = append(out, l.judged(CodeCheck{What: fmt.Sprintf("assembly %s: resistance %s", a.Name, q.what),
					Asked: assembly.Range(), Has: assembly.Letter(q.p),
					Source: "the size of wind on a coping"},
					finding.Hold, "resistance-unit", a.At, finding.Ref{},
					"check the unit against the test report: psf, kPa or Pa"))
			}
		}
		if !assembly.Divided(a) {
			continue
		}
		least, source := assembly.LeastFactor()
		c := CodeCheck{What: "assembly " + a.Name + ": factor on as-pulled values, at the allowable level",
			Asked: fmt.Sprintf("%.1f or more", least),
			Has:   factorWords(a), Source: source, Passes: assembly.Enough(a)}
		if s := a.FactorSigned; !c.Passes && s != nil {
			c.Has += fmt.Sprintf("; %.4g and over signed by %s, %s", s.Factor, s.By, s.Document)
			c.Passes = assembly.SignedFor(a)
		}
		out = append(out, l.judged(c, finding.Hold, "factor-low", a.At, finding.Ref{},
			"write the factor of the report, or have the engineer of record sign for this one and write "+
				"`factor_signed:` "+
				"with factor, by and document"))
	}
	return out
}

// factorWords letter the factor on as-pulled values, what it comes to at the
// allowable level, and who chose it.
func factorWords(a *job.Assembly) string {
	b := a.FactorBasis
	if b == nil {
		return fmt.Sprintf("%.4g, its level and who chose it not stated", a.Factor)
	}
	words := fmt.Sprintf("%.4g", assembly.Factor(a))
	if b.Level == job.Strength {
		words += fmt.Sprintf(" (%.4g at strength level, over 0.6)", a.Factor)
	}
	return words + ", chosen by " + b.By + ": " + b.Why
}
