package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// LegSlopeWords letter the slope of one leg of a corner of two widths, finer
// than a tape shows, for the other leg's differs from it by little.
func LegSlopeWords(l *layout.Layout, s job.Slope) string { return legSlope(Metric(l), s) }

// StandsOff says how a leg of a corner of two widths stands beside the cap at its
// joint, which has the profile's slope; nothing where they agree.
func StandsOff(l *layout.Layout, p layout.Part) string {
	off := p.Mismatch(&l.Job.System)
	if off == 0 {
		return ""
	}
	st := Blank(l)
	words := st.Short(off)
	if st.Metric {
		words = length.Millimetres(off, 1) + " mm"
	}
	if l.Job.System.Profile.SlopeBy == job.SlopeByChair {
		return "front fold " + words + " lower than the next cap's"
	}
	return "rear fold " + words + " higher than the next cap's"
}

// LegWords say of one leg of a corner of two widths how wide it is inside, how
// its top falls, and how it stands beside its neighbour.
func LegWords(l *layout.Layout, p layout.Part) string {
	words := Shop(l).Short(p.Inside())
	if Metric(l) {
		words += " mm"
	}
	words += " inside, top falls " + LegSlopeWords(l, p.Slope(&l.Job.System))
	if off := StandsOff(l, p); off != "" {
		words += ", " + off
	}
	return drawing.Letter(words)
}

// twoWords is the note of a corner of two widths: its runs by their width.
func (c *corner) twoWords() []string {
	if c.tapers() || c.p.Wide == c.p.Narrow {
		return nil
	}
	var all []string
	var runs [][]string
	for _, g := range c.legs {
		words := LegWords(c.l, g.part)
		i := slices.Index(all, words)
		if i < 0 {
			all, runs = append(all, words), append(runs, nil)
			i = len(all) - 1
		}
		runs[i] = append(runs[i], g.part.Run.Name)
	}
	for i, words := range all {
		all[i] = several("run", runs[i]) + " " + words
	}
	return []string{"Two widths: " + strings.Join(all, "; ") + "."}
}
