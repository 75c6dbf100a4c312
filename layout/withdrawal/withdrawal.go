// Package withdrawal reckons what a screw or nail holds in wood by the
// formulas of the NDS (2015 and 2018, chapter 12, allowable stress design).
//
// It is a cross-check of direct pull and nothing more: prying at a chair's
// edge, uneven pull when one leg hooks first, splice plates and the bending of
// the metal are in a test and not in it. It never replaces the tested assembly.
//
// Of takes one Fastener in wood to its Result with every step and source.
package withdrawal

import (
	"math"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// nds is the standard and the editions whose chapter 12 the formulas are of.
const nds = "NDS 2015 and 2018"

// Species is a row of the specific gravities of sawn lumber (NDS Table
// 12.3.3A) and of panels (Table 12.3.3B).
type Species struct {
	Name   string
	G      float64
	Source string
	Sure   wind.Sure
}

// AllSpecies lists the table.
func AllSpecies() []Species {
	lumber := func(name string, g float64) Species { return Species{name, g, nds + " Table 12.3.3A", wind.Read} }
	panel := func(name string, g float64) Species { return Species{name, g, nds + " Table 12.3.3B", wind.Memory} }
	return []Species{
		lumber("spruce-pine-fir", 0.42),
		lumber("spruce-pine-fir (south)", 0.36),
		lumber("Douglas fir-larch", 0.50),
		lumber("Douglas fir-larch (north)", 0.49),
		lumber("Douglas fir-south", 0.46),
		lumber("southern pine", 0.55),
		lumber("mixed southern pine", 0.51),
		lumber("hem-fir", 0.43),
		lumber("hem-fir (north)", 0.46),
		lumber("ponderosa pine", 0.43),
		lumber("redwood", 0.37),
		lumber("western cedars", 0.36),
		panel("plywood, structural I or marine", 0.50),
		panel("plywood, other", 0.42),
		panel("oriented strand board", 0.50),
	}
}

// formula is one of the reference withdrawal designs: c G^a D^b in pounds per
// inch of penetration, D in inches, in side grain.
type formula struct {
	c, a, b float64
	text    string
	source  string
	sure    wind.Sure
}

func formulaOf(kind string) (formula, bool) {
	switch kind {
	case job.WoodScrew:
		return formula{2850, 2, 1, "2850 G² D", nds + " Eq. 12.2-2 (number from memory)", wind.Read}, true
	case job.Nail:
		return formula{1380, 2.5, 1, "1380 G^2.5 D", nds + " Eq. 12.2-3", wind.Read}, true
	case job.LagScrew:
		return formula{1800, 1.5, 0.75, "1800 G^1.5 D^0.75", nds + " Eq. 12.2-1", wind.Read}, true
	}
	return formula{}, false
}

// PerInch is the reference withdrawal design in pounds per inch.
func PerInch(kind string, g, d float64) float64 {
	f, ok := formulaOf(kind)
	if !ok {
		return 0
	}
	return f.c * math.Pow(g, f.a) * math.Pow(d, f.b)
}

// Duration is the load duration factor CD of wind (NDS, load duration factors).
const Duration = 1.6

// wet is CM: above 19 per cent moisture in service. A nail driven into wood
// that is wet and dries later holds a quarter.
func wet(kind string, isWet bool) (float64, wind.Sure) {
	switch {
	case !isWet:
		return 1, wind.Read
	case kind == job.Nail:
		return 0.25, wind.Memory
	}
	return 0.7, wind.Memory
}

// Fastener is one fastener in the side grain of a layer of wood.
type Fastener struct {
	Kind     string // job.WoodScrew, job.Nail or job.LagScrew
	Diameter length.Length
	Thread   length.Length // in the wood, without the tip
	Gravity  float64
	Wet      bool
}

// Result of the cross-check for one fastener, allowable level.
type Result struct {
	PerInch float64 // reference design, lb/in
	Newtons float64 // adjusted, one fastener
	Steps   []wind.Step
}

const newtonsPerPound = 4.4482216152605

// Of reckons one fastener; false: the kind has no formula, or the wood has no
// gravity.
func Of(f Fastener, metric bool) (Result, bool) {
	w, ok := formulaOf(f.Kind)
	if !ok || f.Gravity <= 0 || f.Thread <= 0 || f.Diameter <= 0 {
		return Result{}, false
	}
	d, p := f.Diameter.Inch(), f.Thread.Inch()
	r := Result{PerInch: PerInch(f.Kind, f.Gravity, d)}
	cm, sure := wet(f.Kind, f.Wet)
	pounds := r.PerInch * p * Duration * cm
	r.Newtons = pounds * newtonsPerPound
	say := func(symbol, what, formula string, v float64, unit, source string, sure wind.Sure) {
		r.Steps = append(r.Steps, wind.Step{Symbol: symbol, What: what, Formula: formula, Value: v, Unit: unit,
			Source: source, Sure: sure})
	}
	in, line, force := 1.0, 1.0, 1.0
	inches, perLine, ofForce := "in", "lb/in", "lb"
	if metric {
		in, line, force = 25.4, newtonsPerPound/25.4, newtonsPerPound
		inches, perLine, ofForce = "mm", "N/mm", "N"
	}
	say("G", "Specific gravity of the wood", "", f.Gravity, "", "job file, walls: layers", wind.Stated)
	say("D", "Diameter of the "+f.Kind, "", d*in, inches, "job file, fasteners", wind.Stated)
	say("p", "Thread in the wood, shims and tip taken off", "", p*in, inches, "layout", wind.Computed)
	text := w.text
	if metric {
		text += " (lb/in, D in inches)"
	}
	say("W", "Reference withdrawal design, side grain", text, r.PerInch*line, perLine, w.source, w.sure)
	say("CD", "Load duration, wind", "", Duration, "", nds+", load duration factors", wind.Read)
	say("CM", "Moisture in service", "", cm, "", nds+", wet service factors", sure)
	final := sure
	if final == wind.Read {
		final = wind.Computed
	}
	say("W' p", "Adjusted withdrawal of one fastener (allowable); Ct 1.0, up to 100 F", "W CD CM p", pounds*force,
		ofForce, w.source, final)
	return r, true
}
