// Package wind holds the design pressures at the roof edge and where along a
// run each of them acts.
//
// Pressures are those the engineer of record states in the job, or else are
// computed from its wind section by the components and cladding methods of
// ASCE 7-10, 7-16 and 7-22; computed ones are on hold until a licensed engineer
// confirms them. Each says its level; a comparison is always made at one level,
// the allowable, by the load combination factor 0.6 on strength-level wind
// (ASCE 7-10 and later, section 2.4: 0.6D + 0.6W). Where there are none the
// demand is unknown and everything that depends on it is on hold.
//
// The standards were read in second sources; what is from memory alone says so
// in its Step, for the basis of design. What memory is not sure of is left out.
package wind

import (
	"slices"
	"strings"

	"copingset/layout/confirm"
	"copingset/layout/fact"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/length"
)

// StrengthToAllowable is the factor on W in the allowable-stress combinations
// of ASCE 7-10, 7-16 and 7-22, section 2.4.
const StrengthToAllowable = 0.6

// editions whose strength level that factor belongs to.
func editions() []string { return []string{"ASCE 7-10", "ASCE 7-16", "ASCE 7-22"} }

// Zone of the roof edge.
type Zone int

// The zones along a parapet.
const (
	Edge Zone = iota
	Corner
)

func (z Zone) String() string {
	if z == Corner {
		return "corner"
	}
	return "edge"
}

// Demand is what the coping has to resist.
type Demand struct {
	Stated       bool           // by the engineer of record
	Computed     bool           // from the wind section; never both
	Confirmed    *job.Confirmed // of computed pressures; nil: to be confirmed by a licensed engineer
	By, Document string
	Edition      string
	Up, Out      [2]job.Pressure // by Zone, as stated or at strength level
	Rear         [2]job.Pressure // suction on the rear leg; zero: stated pressures without it
	In           [2]job.Pressure // pressed onto a leg from outside; zero: stated pressures, which do not have it
	CornerLength length.Length   // from each outside corner and free end along the wall
	CornerTurn   job.Angle       // least outside turn that begins a corner zone; zero: every one left to a shop piece
	Basis        []Step          // every input and result in order
	// of computed pressures: what a confirmation is over as printed, zones of the runs included
	Signed fact.Ledger
	List   confirm.List // those facts as they are signed
	Check  *Demand      // computed beside stated ones, to compare
}

// Known reports whether there are pressures to compare with.
func (d Demand) Known() bool { return d.Stated || d.Computed }

// RearKnown reports whether there is a pressure on the rear leg to compare.
func (d Demand) RearKnown() bool { return d.Rear[Edge].Pa > 0 && d.Rear[Corner].Pa > 0 }

// ToConfirm reports whether the pressures still need a licensed engineer.
func (d Demand) ToConfirm() bool { return d.Computed && d.Confirmed == nil }

// Build takes the demand from the job: stated pressures stand over computed
// ones, which Confirm sets against what an engineer confirmed.
func Build(j *job.Job, fronts Fronts) (Demand, finding.List) {
	switch {
	case j.Pressures != nil:
		d, found := stated(j)
		if j.Wind != nil {
			c, more := compute(j, fronts)
			found.Append(asNotes(more)...)
			if q := j.Wind.Confirmed; q != nil {
				found.Notef(
					"confirmed-idle",
					q.At,
					"keep one of the two: the engineer's pressures, or the confirmation of "+
						"computed ones",
					"wind.confirmed is of computed pressures, and the stated ones stand over them: it confirms "+
						"nothing here",
				)
			}
			if c.Computed {
				d.Check = &c
				found.Append(below(j, d, c)...)
			}
		}
		return d, found
	case j.Wind != nil:
		return compute(j, fronts)
	}
	var found finding.List
	found.Append(finding.Finding{
		Code:     "pressures-not-stated",
		Severity: finding.Hold,
		At:       finding.Place{File: j.File},
		What:     "no design pressures are stated",
		Why:      "chair spacing and fasteners follow from the tested assembly, and the assembly from the pressure",
		Mend: "get them from the engineer of record and write `pressures:` with edge and corner, up and out, each " +
			"with its level",
	})
	return Demand{}, found
}

// stated takes the pressures of the engineer of record.
func stated(j *job.Job) (Demand, finding.List) {
	var found finding.List
	p := j.Pressures
	strength := false
	for _, q := range []job.Pressure{p.Edge.Up, p.Edge.Out, p.Edge.Rear, p.Corner.Up, p.Corner.Out, p.Corner.Rear} {
		strength = strength || q.Pa > 0 && q.Level == job.Strength // a rear leg that is not stated has no level
	}
	if strength && !slices.Contains(editions(), strings.TrimSpace(p.Edition)) {
		found.Append(finding.Finding{
			Code:     "strength-of-what",
			Severity: finding.Hold,
			At:       p.At,
			What: "the design pressures are at strength level of " + p.Edition +
				", which is not one whose factor is known here",
			Why:  "0.6 from strength to allowable belongs to " + strings.Join(editions(), ", "),
			Mend: "have the engineer of record state the pressures at allowable level",
		})
	}
	return Demand{
		Stated: true, By: p.By, Document: p.Document, Edition: p.Edition,
		Up:           [2]job.Pressure{p.Edge.Up, p.Corner.Up},
		Out:          [2]job.Pressure{p.Edge.Out, p.Corner.Out},
		Rear:         [2]job.Pressure{p.Edge.Rear, p.Corner.Rear},
		CornerLength: p.CornerLength, CornerTurn: p.CornerTurn,
		Basis: statedBasis(j),
	}, append(found, plausible(p)...)
}

// statedBasis lists the engineer's pressures and their conversion.
func statedBasis(j *job.Job) []Step {
	p := j.Pressures
	b := sheet{metric: j.Units == job.Metric}
	from := source{p.Document + ", " + p.By, Stated}
	brought := read(p.Edition + " section 2.4: 0.6W")
	if !slices.Contains(editions(), strings.TrimSpace(p.Edition)) {
		brought = memory("0.6W of " + strings.Join(editions(), ", ") + "; nothing says that it is of " + p.Edition)
	}
	b.words("", "Load standard", p.Edition, from)
	for _, q := range []struct {
		what string
		p    job.Pressure
	}{{"up, edge", p.Edge.Up}, {"up, corner", p.Corner.Up}, {"out, edge", p.Edge.Out}, {"out, corner", p.Corner.Out},
		{"rear leg towards the roof, edge", p.Edge.Rear}, {"rear leg towards the roof, corner", p.Corner.Rear}} {
		if q.p.Pa == 0 {
			continue
		}
		b.pressure("p", "Pressure "+q.what+" ("+levelWord(q.p.Level)+")", "", q.p.Pa, from)
		if q.p.Level == job.Strength {
			b.pressure("p", "Pressure "+q.what+" (allowable)", "0.6 p", AllowablePa(q.p), brought)
		}
	}
	b.feet("", "Corner zone along the wall, from each turn that begins one and each free end", "",
		feetOf(p.CornerLength), from)
	b.words("", "Turns that begin a corner zone", TurnWords(p.CornerTurn), from)
	return b.steps
}

// AllowablePa brings a demand to the allowable level, in pascals.
func AllowablePa(p job.Pressure) float64 {
	if p.Level == job.Strength {
		return p.Pa * StrengthToAllowable
	}
	return p.Pa
}

// Begins reports whether an outside turn that is left to a shop piece begins a
// corner zone: every one does, unless the engineer who answers for the pressures
// has set a least turn.
func (d Demand) Begins(turn job.Angle) bool { return max(turn, -turn) >= d.CornerTurn }

// Stretch of a run in one zone, in stations of the front face.
type Stretch struct {
	From, To length.Length
	Zone     Zone
}

// Around cuts the runs of a perimeter into zones. fronts are their wall lines
// in station order; outside tells of each corner, between a run and the next
// (a closed perimeter's last is with its first), whether it is an outside one;
// of an open one, begins tells whether its left end is free, and the last of
// outside whether its right end is. The corner zone is the corner length along
// the wall from each outside corner and each free end, and goes on past a jog
// or a kink into the next run. No standard draws zones at a free end of a wall;
// the wind goes round it as round a corner, and the longer zone is the safe side.
func (d Demand) Around(fronts []length.Length, outside []bool, closed, begins bool) [][]Stretch {
	n := len(fronts)
	fromLeft, fromRight := make([]length.Length, n), make([]length.Length, n)
	if begins && !closed {
		rest := d.CornerLength
		for i := 0; rest > 0 && i < n; i++ {
			fromLeft[i] = length.Max(fromLeft[i], rest)
			rest -= fronts[i]
		}
	}
	for c, o := range outside {
		if !o {
			continue
		}
		rest := d.CornerLength
		for k := 1; rest > 0 && k <= n; k++ { // to the right, into the runs that follow
			i := c + k
			if i >= n && !closed {
				break
			}
			fromLeft[i%n] = length.Max(fromLeft[i%n], rest)
			rest -= fronts[i%n]
		}
		rest = d.CornerLength
		for k := 0; rest > 0 && k < n; k++ { // to the left, back along those before
			i := c - k
			if i < 0 && !closed {
				break
			}
			i = (i + n) % n
			fromRight[i] = length.Max(fromRight[i], rest)
			rest -= fronts[i]
		}
	}
	out := make([][]Stretch, n)
	for i, f := range fronts {
		out[i] = cut(f, fromLeft[i], fromRight[i])
	}
	return out
}

// cut makes the zones of one run from the corner lengths at its two ends.
func cut(front, left, right length.Length) []Stretch {
	a := length.Min(left, front)
	b := length.Max(a, front-right)
	var out []Stretch
	add := func(from, to length.Length, z Zone) {
		if to <= from {
			return
		}
		if n := len(out); n > 0 && out[n-1].Zone == z {
			out[n-1].To = to
			return
		}
		out = append(out, Stretch{from, to, z})
	}
	add(0, a, Corner)
	add(a, b, Edge)
	add(b, front, Corner)
	return out
}

// Touches returns the most onerous zone a stretch from a to b meets. A piece
// that touches a zone takes that zone whole.
func Touches(zones []Stretch, a, b length.Length) Zone {
	for _, z := range zones {
		if z.Zone == Corner && z.From < b && z.To > a {
			return Corner
		}
	}
	return Edge
}
