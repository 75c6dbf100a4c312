package job

import (
	"regexp"

	"copingset/layout/finding"
)

// both matches what Both letters: 1'-0 5/16" (313 mm).
var both = regexp.MustCompile(`(-?(?:\d+'-)?[\d][\d /.]*") \((-?[\d.]+ mm)\)`)

// InUnits puts the millimetres first in a text that letters lengths in both
// systems, for the readers of a metric job.
func (u Units) InUnits(text string) string {
	if u != Metric {
		return text
	}
	return both.ReplaceAllString(text, "$2 ($1)")
}

// ForReaders letters findings with the units of the job first.
func ForReaders(found finding.List, u Units) finding.List {
	for i := range found {
		f := &found[i]
		f.What, f.Why, f.Mend = u.InUnits(f.What), u.InUnits(f.Why), u.InUnits(f.Mend)
	}
	return found
}
