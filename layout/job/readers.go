package job

import (
	"regexp"

	"copingset/layout/finding"
)

// Texts for people who measure either way letter a value in inches, feet, pounds
// and the like, and after it in brackets the same in the other system. Both
// letters lengths so; the rest is written out where it stands.
const (
	someNumbers   = `-?\d[\d.,]*(?: to -?\d[\d.,]*)?`
	imperialUnits = `(?:psf|psi|mph|ft|ft2|ft²|in|lb|°F)`
	metricUnits   = `(?:kPa|Pa|MPa|m/s|m|m2|m²|mm|kg|N|kN|°C)`
)

// both matches what Both letters: 1'-0 5/16" (313 mm).
var (
	both   = regexp.MustCompile(`(-?(?:\d+'-)?[\d][\d /.]*") \((-?[\d.]+ mm)\)`)
	paired = regexp.MustCompile(`(` + someNumbers + ` ` + imperialUnits + `|\d+/\d+ in) \((` + someNumbers + ` ` +
		metricUnits + `)\)`)
)

// InUnits puts the metric figures first in a text that letters values in both
// systems, for the readers of a metric job.
func (u Units) InUnits(text string) string {
	if u != Metric {
		return text
	}
	return paired.ReplaceAllString(both.ReplaceAllString(text, "$2 ($1)"), "$2 ($1)")
}

// OwnUnits leaves of a text that letters lengths in both systems those of the
// job's own: what a shop or a crew reads has one figure for one thing.
func (u Units) OwnUnits(text string) string {
	if u == Metric {
		return both.ReplaceAllString(text, "$2")
	}
	return both.ReplaceAllString(text, "$1")
}

// ForReaders letters findings with the units of the job first.
func ForReaders(found finding.List, u Units) finding.List {
	for i := range found {
		f := &found[i]
		f.What, f.Why, f.Mend = u.InUnits(f.What), u.InUnits(f.Why), u.InUnits(f.Mend)
	}
	return found
}
