package assembly

import (
	"fmt"

	"copingset/layout/job"
	"copingset/layout/wind"
)

// LeastFactor is the least safety factor on as-pulled values against demands at
// the allowable level, and where it stands: an association's article says of
// ANSI/SPRI ES-1 of 2011 that its wind loads, at that level, include it. The
// edition of 2003 asked for none. The standard itself was not read.
func LeastFactor() (float64, string) {
	return 2.0, "ANSI/SPRI/FM 4435/ES-1 of 2011, as a roofing association reports it: at least 2.0 at the allowable " +
		"level"
}

// Factor is what an as-pulled value is divided by to be set against a demand at
// the allowable level: the job's factor, or where that is meant for demands at
// strength level the same over 0.6, since those are brought down by that.
func Factor(a *job.Assembly) float64 {
	if a.FactorBasis != nil && a.FactorBasis.Level == job.Strength {
		return a.Factor / wind.StrengthToAllowable
	}
	return a.Factor
}

// Enough reports whether the factor is not under the published one.
func Enough(a *job.Assembly) bool {
	least, _ := LeastFactor()
	return reaches(a, least)
}

// SignedFor reports whether an engineer has signed for a factor no greater than
// the job's: a signature under 1.8 is none under 1.5.
func SignedFor(a *job.Assembly) bool {
	return a.FactorSigned != nil && reaches(a, a.FactorSigned.Factor)
}

func reaches(a *job.Assembly, least float64) bool { return Factor(a) >= least-1e-9 }

// Divided reports whether an assembly has a resistance that its factor divides.
func Divided(a *job.Assembly) bool {
	return a.Up.Level == job.AsPulled || a.Out.Level == job.AsPulled || a.Rear.Pa > 0 && a.Rear.Level == job.AsPulled
}

// Plausible reports whether a resistance is of the size that a coping is tested
// to: what is left at the allowable level is of the size of wind.
func Plausible(p job.Pressure, factor float64) bool {
	if p.Level == job.AsPulled {
		factor = max(factor, 1)
	}
	return wind.Plausible(AllowablePa(p, factor))
}

// Range words what Plausible takes.
func Range() string { return wind.Range() }

// Letter letters a resistance of any size.
func Letter(p job.Pressure) string {
	return fmt.Sprintf("%.3g psf (%.3g kPa)", p.Pa/47.880259, p.Pa/1000)
}
