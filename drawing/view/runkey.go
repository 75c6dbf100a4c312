package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/layout"
)

// KeyPlanSmallRuns shows where the runs of one sheet lie: all of them thick,
// with their names, the others thin.
func KeyPlanSmallRuns(l *layout.Layout, picks []*layout.Run, w, h drawing.Unit) drawing.Scene {
	if len(picks) == 1 {
		return KeyPlanSmall(l, picks[0], w, h)
	}
	var names []string
	for _, r := range picks {
		names = append(names, r.Name)
	}
	name := strings.Join(names, ", ")
	return keySmall(l, w, h, func(r *layout.Run) bool { return slices.Contains(picks, r) }, nil, name,
		"Where runs "+name+" lie on their perimeter.")
}
