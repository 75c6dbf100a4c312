package withdrawal

import (
	"fmt"
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// Lateral is one fastener in single shear between the metal of a chair and wood.
type Lateral struct {
	Kind        string        // job.WoodScrew, job.Nail or job.LagScrew
	Root        length.Length // its diameter where it is sheared: the root of its thread
	Bending     float64       // its bending yield strength, Pa
	Side        length.Length // thickness of the chair's metal
	SideBearing float64       // dowel bearing strength of that metal, Pa
	Depth       length.Length // in the wood
	Gravity     float64
	Wet         bool
}

const pascalsPerPSI = newtonsPerPound / 0.00064516

// Mode is one of the ways in which the standard lets a fastener yield.
type Mode struct {
	Name   string
	Pounds float64
}

// Modes reckons the six yield limits of NDS Table 12.3.1A in single shear, in
// pounds at CD = 1: diameter d, bearing lengths in the main and the side member lm
// and ls in inches; strengths fem, fes and fyb in psi; rd by mode. The equations
// are from memory but for mode IIIs, which a solved example confirms; a public
// program that has 2 + Re in k2 is wrong where Re is not 1.
func Modes(d, lm, ls, fem, fes, fyb float64, rd func(mode string) float64) []Mode {
	re, rt := fem/fes, lm/ls
	k1 := (math.Sqrt(re+2*re*re*(1+rt+rt*rt)+rt*rt*re*re*re) - re*(1+rt)) / (1 + re)
	k2 := -1 + math.Sqrt(2*(1+re)+2*fyb*(1+2*re)*d*d/(3*fem*lm*lm))
	k3 := -1 + math.Sqrt(2*(1+re)/re+2*fyb*(2+re)*d*d/(3*fem*ls*ls))
	return []Mode{
		{"Im", d * lm * fem / rd("Im")},
		{"Is", d * ls * fes / rd("Is")},
		{"II", k1 * d * ls * fes / rd("II")},
		{"IIIm", k2 * d * lm * fem / ((1 + 2*re) * rd("IIIm"))},
		{"IIIs", k3 * d * ls * fem / ((2 + re) * rd("IIIs"))},
		{"IV", d * d / rd("IV") * math.Sqrt(2*fem*fyb/(3*(1+re)))},
	}
}

// Governing is the mode that gives the least.
func Governing(modes []Mode) Mode {
	least := modes[0]
	for _, m := range modes[1:] {
		if m.Pounds < least.Pounds {
			least = m
		}
	}
	return least
}

// thick is the diameter in inches from which another bearing strength and
// reduction hold; a screw of a coping is thinner.
const thick = 0.25

// reduction is Rd of a fastener under 1/4 in, alike in all modes.
func reduction(d float64) float64 {
	if d <= 0.17 {
		return 2.2
	}
	return 10*d + 0.5
}

// bearing is the dowel bearing strength of wood under a fastener thinner than
// 1/4 in, psi.
func bearing(g float64) float64 { return 16600 * math.Pow(g, 1.84) }

// LeastDepth is how deep a fastener of a diameter has to be in the main member
// for a lateral design by the standard.
func LeastDepth(kind string, d length.Length) length.Length {
	if kind == job.LagScrew {
		return 4 * d
	}
	return 6 * d
}

// OfLateral reckons the allowable shear of one fastener; the words say why there
// is none.
func OfLateral(f Lateral, metric bool) (Result, string) {
	d := f.Root.Inch()
	switch {
	case f.Gravity <= 0 || f.Kind == "":
		return Result{}, "the wood's gravity or the fastener's kind is not stated"
	case f.Root <= 0 || f.Bending <= 0 || f.SideBearing <= 0 || f.Side <= 0:
		return Result{}, "the fastener's root, bending yield or the bearing of the chair's metal is not stated"
	case d >= thick:
		return Result{}, "of 1/4 in (6.35 mm) and over at its root: other bearing strengths hold, which are not " +
			"built in"
	case f.Depth < LeastDepth(f.Kind, f.Root):
		return Result{}, "it is less than " + job.Both(LeastDepth(f.Kind, f.Root)) + " deep in the wood"
	}
	rd := reduction(d)
	m := Governing(Modes(d, f.Depth.Inch(), f.Side.Inch(), bearing(f.Gravity), f.SideBearing/pascalsPerPSI,
		f.Bending/pascalsPerPSI,
		func(string) float64 { return rd }))
	cm, _ := wet(job.WoodScrew, f.Wet) // 0.7 for every dowel in shear, from memory
	pounds := m.Pounds * Duration * cm
	r := Result{Newtons: pounds * newtonsPerPound}
	in, force, stress := 1.0, 1.0, 1/pascalsPerPSI
	inches, pound, psi := "in", "lb", "psi"
	quarter, slender, taper := "1/4 in", "0.17 in", "10 D + 0.5"
	if metric {
		in, force, stress = 25.4, newtonsPerPound, 1e-6
		inches, pound, psi = "mm", "N", "MPa"
		quarter, slender, taper = "6.35 mm (1/4 in)", "4.32 mm (0.17 in)", "D/2.54 + 0.5 (D in mm)"
	}
	say := func(symbol, what, formula string, v float64, unit, source string, sure wind.Sure) {
		r.Steps = append(r.Steps, wind.Step{Symbol: symbol, What: what, Formula: formula, Value: v, Unit: unit,
			Source: source, Sure: sure})
	}
	stated := "job file, fasteners: yield"
	say("Dr", "Diameter at the root of the thread", "", d*in, inches, stated, wind.Stated)
	say("Fyb", "Bending yield strength", "", f.Bending*stress, psi, stated, wind.Stated)
	say("Fes", "Dowel bearing of the chair's metal", "", f.SideBearing*stress, psi, stated, wind.Stated)
	formula := "16600 G^1.84"
	if metric {
		formula += " (psi)"
	}
	say("Fem", "Dowel bearing of the wood", formula, bearing(f.Gravity)*pascalsPerPSI*stress, psi,
		nds+" Table 12.3.3, under "+quarter+"; a solved example", wind.Read)
	say("Rd", "Reduction, under "+quarter, "2.2 up to "+slender+", then "+taper, rd, "",
		nds+" Table 12.3.1B; 2.2 in a solved example, the rest from memory", wind.Memory)
	say("Z", fmt.Sprintf("Reference lateral design, single shear; mode %s governs", m.Name),
		"least of the six yield limits", m.Pounds*force, pound,
		nds+" Table 12.3.1A; mode IIIs confirmed by a solved example, the others from memory", wind.Memory)
	say("CD", "Load duration, wind", "", Duration, "", nds+", load duration factors", wind.Read)
	say("CM", "Moisture in service", "", cm, "", nds+", wet service factors", wind.Memory)
	say("Z'", "Adjusted lateral design of one fastener (allowable)", "Z CD CM", pounds*force, pound, nds+" chapter 12",
		wind.Memory)
	return r, ""
}

// Combined is the share of a fastener taken by a pull and a shear together, each
// against its own allowable: their shares added up, which is on the safe side of
// every curve of interaction, NDS 12.4 among them (from memory).
func Combined(pull, holds, shear, carries float64) float64 { return pull/holds + shear/carries }
