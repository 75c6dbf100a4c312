package view

import (
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
)

// Metric reports whether a layout is lettered in millimetres; Crew is how the crew's
// sheets letter its lengths, Shop how the shop's do.
func Metric(l *layout.Layout) bool { return l.Job.Units == job.Metric }

func Crew(l *layout.Layout) length.Style { return length.Crew(Metric(l)) }

func Shop(l *layout.Layout) length.Style { return length.Shop(Metric(l)) }
