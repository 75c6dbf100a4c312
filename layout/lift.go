package layout

import (
	"math"
	"strings"

	"copingset/layout/cap"
	"copingset/layout/finding"
)

// Lift is one lift of the revised NIOSH equation (publication 94-110, rev.
// 2021), in its own units.
type Lift struct {
	Hands       float64 // H, in: hands in front of the ankles; not under 10
	Height      float64 // V, in: hands above the floor where the lift begins
	Travel      float64 // D, in: up or down; not under 10
	Turn        float64 // A, degrees
	Often, Hold float64 // multipliers of frequency and of coupling
}

// LiftConstant is the weight in pounds that the equation begins with: no lift
// by one person is recommended over it.
const LiftConstant = 51.0

// Limit is the recommended weight in pounds: 51 HM VM DM AM FM CM. The
// coefficient of the turn, 0.0032, is from memory, and so is where the equation
// ends: hands over 25 in out, over 70 in up, over 70 in of travel or over 135
// degrees of turn are not recommended at all.
func (l Lift) Limit() float64 {
	if l.Hands > 25 || l.Height > 70 || l.Travel > 70 || l.Turn > 135 {
		return 0
	}
	far := 10 / math.Max(l.Hands, 10)
	high := math.Max(0, 1-0.0075*math.Abs(l.Height-30))
	travel := 0.82 + 1.8/math.Max(l.Travel, 10)
	turn := math.Max(0, 1-0.0032*l.Turn)
	return LiftConstant * far * high * travel * turn * l.Often * l.Hold
}

// best is the easiest lift of the equation, where it comes to LiftConstant.
func best() Lift { return Lift{Hands: 10, Height: 30, Travel: 10, Often: 1, Hold: 1} }

// lifts notes a limit for one person that no lift of the equation reaches, and
// the pieces that two persons may not lift.
func (l *Layout) lifts() finding.List {
	var found finding.Set
	const gramsPerPound = 453.59237
	for _, p := range l.Perimeters {
		var heavy []string
		for _, q := range p.Pieces {
			if l.Weight(q).Lift == cap.Mechanical {
				heavy = append(heavy, q.Mark)
			}
		}
		if len(heavy) == 0 {
			continue
		}
		f := finding.New(finding.Note, "mechanical-lift", finding.Place{File: l.Job.File},
			"plan the lift in the safety plan, or order shorter pieces or a thinner sheet",
			"perimeter %s: %s over twice the %.0f lb (%.0f kg) of one person and %s lifted by machine", p.Job.Name,
			weigh(heavy),
			float64(l.Job.Site.OnePerson)/gramsPerPound, float64(l.Job.Site.OnePerson)/1000, isAre(heavy))
		f.Why = "the job's own rule for one person, taken twice; by the equation of NIOSH 94-110 no person lifts " +
			"over 51 lb (23 kg)"
		f.Where = finding.Ref{Perimeter: p.Job.Name}
		found.Append(f)
	}
	if most := best().Limit() * gramsPerPound; float64(l.Job.Site.OnePerson) > most {
		f := finding.New(finding.Note, "one-person-heavy", finding.Place{File: l.Job.File},
			"lower `site: one_person`, or say in the safety plan how it is lifted",
			"one person may lift %.0f lb (%.0f kg) by the job's rule; the lifting equation goes to 51 lb (23 kg) in "+
				"the best of cases",
			float64(l.Job.Site.OnePerson)/gramsPerPound, float64(l.Job.Site.OnePerson)/1000)
		f.Why = "NIOSH 94-110, revised lifting equation"
		found.Append(f)
	}
	return found.List()
}

// weigh says which pieces weigh something.
func weigh(marks []string) string {
	if len(marks) == 1 {
		return "piece " + marks[0] + " weighs"
	}
	return "pieces " + strings.Join(marks, ", ") + " weigh"
}

func isAre(marks []string) string {
	if len(marks) == 1 {
		return "is"
	}
	return "are"
}
