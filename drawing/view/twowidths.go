package view

import (
	"copingset/layout"
	"copingset/layout/job"
)

// LegSlopeWords letter the slope of one leg of a corner of two widths, finer
// than a tape shows, for the other leg's differs from it by little.
func LegSlopeWords(l *layout.Layout, s job.Slope) string { return legSlope(Metric(l), s) }

// StandsOff says how a leg of a corner of two widths stands beside the cap at its
// joint, which has the profile's slope; nothing where they agree.
func StandsOff(l *layout.Layout, p layout.Part) string { return standsOff(Metric(l), l.LegTop(p)) }

// LegWords say of one leg of a corner of two widths how wide it is inside, how
// its top falls, and how it stands beside its neighbour.
func LegWords(l *layout.Layout, p layout.Part) string { return legWords(Metric(l), l.LegTop(p)) }
