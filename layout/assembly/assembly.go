// Package assembly chooses, among the tested assemblies of the job, the one
// that covers a zone: profile, metal, width, substrate and pressure all within
// what the laboratory pulled. Fewest chairs first, then least cost, then the
// order of the job file.
package assembly

import (
	"fmt"
	"sort"

	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/wind"
)

// Need is what an assembly has to cover on one run.
type Need struct {
	Metal             string
	Thickness         length.Length
	FrontLeg, RearLeg func(job.LegMeasure) length.Length // outside, as the report measures
	Inside            length.Length
	Layers            []job.Layer // wall construction from the top down, packing first
}

// Choice is the assembly taken for a zone, with demand against resistance at
// the allowable level.
type Choice struct {
	Zone                  wind.Zone
	Assembly              *job.Assembly
	Covers                bool
	Stated                bool     // demand is known
	UpDemand, OutDemand   float64  // Pa, allowable
	UpResists, OutResists float64  // Pa, allowable
	RearKnown             bool     // there is a demand on the rear leg
	RearDemand            float64  // Pa, allowable
	RearResists           float64  // Pa, allowable: the report's, or else the outward one
	Fails                 []string // why each assembly of the job fails, when none covers
}

// Ratio is the greatest of demand over resistance, up, out and on the rear leg.
func (c Choice) Ratio() float64 {
	if c.UpResists <= 0 || c.OutResists <= 0 {
		return 0
	}
	r := max(c.UpDemand/c.UpResists, c.OutDemand/c.OutResists)
	if c.RearKnown && c.RearResists > 0 {
		r = max(r, c.RearDemand/c.RearResists)
	}
	return r
}

// UpPasses, OutPasses and RearPasses say that what the wind asks is resisted; a
// demand that is not known passes nothing.
func (c Choice) UpPasses() bool { return c.Stated && c.UpDemand <= c.UpResists }

// OutPasses is the same of the front leg.
func (c Choice) OutPasses() bool { return c.Stated && c.OutDemand <= c.OutResists }

// RearPasses is the same of the rear leg.
func (c Choice) RearPasses() bool { return c.RearKnown && c.RearDemand <= c.RearResists }

// Rear is what an assembly resists on its rear leg: what its report states, or
// where it states nothing the outward resistance, which was pulled on the other
// leg. In pascals, at the allowable level.
func Rear(a *job.Assembly) (pa float64, stated bool) {
	if a.Rear.Pa > 0 {
		return AllowablePa(a.Rear, Factor(a)), true
	}
	return AllowablePa(a.Out, Factor(a)), false
}

// AllowablePa brings a resistance to the allowable level: an as-pulled
// ultimate is divided by the safety factor, an allowable has it taken already.
func AllowablePa(p job.Pressure, factor float64) float64 {
	switch {
	case p.Level == job.AsPulled && factor > 0:
		return p.Pa / factor
	case p.Level == job.Strength: // the reader refuses it; taken the safe way all the same
		return p.Pa * wind.StrengthToAllowable
	}
	return p.Pa
}

// Candidates ranks the assemblies of the job that cover a need in a zone,
// best first.
func Candidates(j *job.Job, d wind.Demand, z wind.Zone, n Need) []Choice {
	var out []Choice
	for i := range j.Assemblies {
		a := &j.Assemblies[i]
		if c := judge(a, d, z, n); c.Covers {
			out = append(out, c)
		}
	}
	sort.SliceStable(out, func(i, k int) bool {
		a, b := out[i].Assembly, out[k].Assembly
		na, nb := bays(j, a), bays(j, b)
		switch {
		case na != nb:
			return na < nb
		case a.Cost != b.Cost:
			return a.Cost < b.Cost
		}
		return a.ChairSpacing > b.ChairSpacing
	})
	return out
}

// bays is how many chairs a stock length takes: a longer spacing that saves no
// chair is no better.
func bays(j *job.Job, a *job.Assembly) int {
	return int((j.System.Stock + a.ChairSpacing - 1) / a.ChairSpacing)
}

// Choose takes the best candidate. When none covers, it returns the one with
// the closest chairs, so that a layout can be drawn to hold, with every reason.
func Choose(j *job.Job, d wind.Demand, z wind.Zone, n Need) Choice {
	if c := Candidates(j, d, z, n); len(c) > 0 {
		return c[0]
	}
	var best Choice
	var fails []string
	for i := range j.Assemblies {
		c := judge(&j.Assemblies[i], d, z, n)
		for _, f := range c.Fails {
			fails = append(fails, c.Assembly.Name+": "+f)
		}
		if best.Assembly == nil || c.Assembly.ChairSpacing < best.Assembly.ChairSpacing {
			best = c
		}
	}
	best.Fails = fails
	return best
}

func judge(a *job.Assembly, d wind.Demand, z wind.Zone, n Need) Choice {
	c := Choice{Zone: z, Assembly: a, Stated: d.Known(),
		UpResists: AllowablePa(a.Up, Factor(a)), OutResists: AllowablePa(a.Out, Factor(a))}
	fail := func(f string, args ...any) { c.Fails = append(c.Fails, fmt.Sprintf(f, args...)) }
	if a.Metal != n.Metal {
		fail("tested in %s, the job's metal is %s", a.Metal, n.Metal)
	}
	if n.Thickness < a.ThicknessLeast {
		fail(
			"tested in %s metal and up, the job's is %s",
			length.Decimal(a.ThicknessLeast, 3),
			length.Decimal(n.Thickness, 3),
		)
	}
	leg := func(name string, has func(job.LegMeasure) length.Length, most job.Leg) {
		if l := has(most.To); l > most.Length {
			fail("%s-side leg tested to %s, the job's is %s, both to %s",
				name, job.Both(most.Length), job.Both(l), most.To)
		}
	}
	leg("street", n.FrontLeg, a.FrontLegMost)
	leg("roof", n.RearLeg, a.RearLegMost)
	if n.Inside > a.WidthMost {
		fail("width tested to %s, this run needs %s", job.Both(a.WidthMost), job.Both(n.Inside))
	}
	if _, ok := Holding(n.Layers, a.Substrate); !ok {
		fail("tested in %s, which this wall does not have", a.Substrate)
	}
	if d.Known() {
		c.UpDemand, c.OutDemand = wind.AllowablePa(d.Up[z]), wind.AllowablePa(d.Out[z])
		if !c.UpPasses() {
			fail("resists %s up (allowable), the %s zone asks %s", both(c.UpResists), z, both(c.UpDemand))
		}
		if !c.OutPasses() {
			fail("resists %s out (allowable), the %s zone asks %s", both(c.OutResists), z, both(c.OutDemand))
		}
		resists, says := Rear(a)
		c.RearResists, c.RearKnown = resists, d.RearKnown()
		c.RearDemand = wind.AllowablePa(d.Rear[z])
		switch {
		case !c.RearKnown || c.RearPasses():
		case says:
			fail(
				"resists %s on the roof-side leg (allowable), the %s zone asks %s",
				both(c.RearResists),
				z,
				both(c.RearDemand),
			)
		default:
			fail(
				"states no resistance of the "+
					"roof-side leg, and the %s zone asks %s of it, more than the %s it resists "+
					"out (allowable): have the laboratory state the "+
					"roof-side leg pulled with the top, and write it as "+
					"`rear:` under its resistance",
				z,
				both(c.RearDemand),
				both(c.RearResists),
			)
		}
	}
	c.Covers = len(c.Fails) == 0
	return c
}

// both letters a pressure in both systems: 1 psf is 47.880259 Pa.
func both(pa float64) string { return fmt.Sprintf("%.1f psf (%.2f kPa)", pa/47.880259, pa/1000) }

// Holding finds the layer a substrate names, and how much lies above it.
func Holding(layers []job.Layer, substrate string) (above length.Length, ok bool) {
	for _, l := range layers {
		if l.Material == substrate {
			return above, true
		}
		above += l.Thickness
	}
	return 0, false
}
