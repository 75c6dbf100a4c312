package job

import "copingset/layout/finding"

// checkWalls holds what stands on a wall that nobody has looked at: the depths of
// its joints and the substrate of its screws decide legs and fasteners.
func (d *decoder) checkWalls(j *Job) {
	for _, w := range j.Walls {
		if w.Basis != Drawing {
			continue
		}
		for i := range j.Perimeters {
			p := &j.Perimeters[i]
			on := runsOn(p, w.Name)
			if len(on) == 0 {
				continue
			}
			f := finding.New(finding.Hold, "wall-unconfirmed", w.At,
				"look at the wall on site, write its layers and the joints its legs must cover, then `basis: measured`",
				"how wall %s is built is taken from a drawing", w.Name)
			f.Where = finding.Ref{Perimeter: p.Name, Run: on[0], Runs: on[1:]}
			d.add(f)
		}
	}
}

// runsOn are the runs of a perimeter on a wall.
func runsOn(p *Perimeter, name string) []string {
	var out []string
	for i := range p.Runs {
		of := p.Runs[i].Wall
		if of == "" {
			of = p.Wall
		}
		if of == name && p.Runs[i].Name != "" {
			out = append(out, p.Runs[i].Name)
		}
	}
	return out
}
