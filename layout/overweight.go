package layout

import (
	"fmt"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/job"
)

// overweight holds the pieces that one by one pass what a crate may weigh: no crate
// of the job takes them, so that either the limit or the piece is a slip. A piece
// that is too long is noted with its crate, since it may travel open.
func (l *Layout) overweight() finding.List {
	most, tare := l.Job.Crating.WeightMost, l.Job.Crating.Tare
	if most <= 0 {
		return nil
	}
	var out finding.List
	for _, p := range l.Perimeters {
		var marks []string
		var heaviest int64
		for _, q := range p.Pieces {
			if grams := l.Weight(q).Shipped; grams+tare > most {
				marks = append(marks, q.Mark)
				heaviest = max(heaviest, grams)
			}
		}
		if len(marks) == 0 {
			continue
		}
		what, verb := "pieces "+strings.Join(firstOf(marks), ", "), "weigh"
		if len(marks) == 1 {
			what, verb = "piece "+marks[0], "weighs"
		}
		with := ""
		if tare > 0 {
			with = " with the crate's own weight"
		}
		f := finding.New(finding.Hold, "piece-over-crate", l.Job.Crating.At,
			"check `weight_most` and its unit, or order a stronger crate",
			"%s %s up to %s%s, and a crate may weigh %s", what, verb, job.BothWeights(heaviest+tare), with,
			job.BothWeights(most))
		f.Where = finding.Ref{Perimeter: p.Job.Name, Pieces: marks}
		out.Append(f)
	}
	return out
}

// firstOf is the first eight of very many names, and how many more there are.
func firstOf(names []string) []string {
	const most = 8
	if len(names) <= most {
		return names
	}
	return append(append([]string{}, names[:most]...), fmt.Sprintf("and %d more", len(names)-most))
}
