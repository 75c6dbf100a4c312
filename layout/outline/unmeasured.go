package outline

import "copingset/layout/job"

// Unmeasured is as much of a job as survey forms are made from: perimeters, runs,
// lengths of the drawing and the turns between them.
func (p Plan) Unmeasured(units job.Units) *job.Job {
	j := &job.Job{Units: units}
	for _, q := range p.Perimeters {
		jp := job.Perimeter{Name: q.Name, Kind: job.Roof, Bearing: q.Bearing}
		if q.Kind == Well {
			jp.Kind = job.Well
		}
		for _, s := range q.Sides {
			jp.Runs = append(jp.Runs, job.Run{Name: s.Name, Length: s.Length, Basis: job.Drawing,
				Right: job.End{Kind: job.EndTurn, Turn: s.Turn}})
		}
		j.Perimeters = append(j.Perimeters, jp)
	}
	return j
}
