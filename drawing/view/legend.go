package view

import (
	"slices"

	"copingset/drawing"
)

// LegendEntry says what one hatch means on a view.
type LegendEntry struct {
	Kind  drawing.HatchKind
	Words string
	Fact  string // the names of the facts that the words letter
}

// Drawn are the entries of a legend whose hatches the given scenes show: a
// legend that explains what is not there sends its reader looking for it.
func Drawn(entries []LegendEntry, scenes ...drawing.Scene) []LegendEntry {
	var used []drawing.HatchKind
	for _, s := range scenes {
		s.Walk(func(_ drawing.Layer, m drawing.Mark) {
			if g, ok := m.(drawing.Region); ok && g.Hatch != drawing.NoHatch && !slices.Contains(used, g.Hatch) {
				used = append(used, g.Hatch)
			}
		})
	}
	var out []LegendEntry
	for _, e := range entries {
		if slices.Contains(used, e.Kind) {
			out = append(out, e)
		}
	}
	return out
}
