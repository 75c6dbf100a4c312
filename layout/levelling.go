package layout

import (
	"copingset/layout/job"
	"copingset/layout/plan"
	"copingset/layout/wall"
)

// Levelling sets the two ways to level the wall top beside each other, of one
// perimeter or of the whole job.
func (l *Layout) Levelling(p *wall.Packing) plan.Levelling {
	out := plan.Levelling{Continuous: effort(p.Continuous), Chairs: effort(p.Chairs), SheetsLeast: p.SheetsLeast,
		Nail: l.Job.Packing.Nail.Name, Priced: l.Job.Packing.Rates != nil}
	out.Known, out.ChairsAlone = p.Known, p.Known && p.Recommended == job.PackChairs
	return out
}

func effort(e wall.Effort) plan.Effort {
	return plan.Effort{Pieces: e.Pieces, Strips: e.Strips, Shims: e.Shims, Cuts: e.Cuts, Sheets: e.Sheets,
		Nails: e.Nails, Missing: e.Missing, Layers: e.Layers,
		Minutes: (e.Minutes + 500) / 1000, Hundredths: (e.Money + 5) / 10}
}

// Questions are what the general contractor should put right or answer, in the
// order of the runs.
func (l *Layout) Questions() []plan.Question {
	var walls []*wall.Perimeter
	for _, p := range l.Perimeters {
		walls = append(walls, p.Perimeter)
	}
	var out []plan.Question
	for _, q := range wall.RFIs(walls) {
		k := plan.Question{Run: q.Run.Name, From: q.Run.ToCrew(q.Run.ToCap(q.From)),
			To: q.Run.ToCrew(q.Run.ToCap(q.To)), What: q.What, Limit: q.Limit, Source: q.Source, Ask: q.Ask,
			Photos: q.Photos}
		if len(l.Perimeters) > 1 {
			k.Run = q.Perimeter.Job.Name + " " + k.Run
		}
		out = append(out, k)
	}
	return out
}
