package layout

import (
	"math"

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
// coefficient of the turn, 0.0032, is from memory.
func (l Lift) Limit() float64 {
	far := 10 / math.Max(l.Hands, 10)
	high := math.Max(0, 1-0.0075*math.Abs(l.Height-30))
	travel := 0.82 + 1.8/math.Max(l.Travel, 10)
	turn := math.Max(0, 1-0.0032*l.Turn)
	return LiftConstant * far * high * travel * turn * l.Often * l.Hold
}

// lifts notes a limit for one person that no lift of the equation reaches.
func (l *Layout) lifts() finding.List {
	var found finding.List
	const gramsPerPound = 453.59237
	if most := LiftConstant * gramsPerPound; float64(l.Job.Site.OnePerson) > most {
		f := finding.New(finding.Note, "one-person-heavy", finding.Place{File: l.Job.File}, "lower `site: one_person`, or say in the safety plan how it is lifted",
			"one person may lift %.0f lb (%.0f kg) by the job's rule; the lifting equation goes to 51 lb (23 kg) in the best of cases",
			float64(l.Job.Site.OnePerson)/gramsPerPound, float64(l.Job.Site.OnePerson)/1000)
		f.Why = "NIOSH 94-110, revised lifting equation"
		found.Append(f)
	}
	return found
}
