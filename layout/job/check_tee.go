package job

import (
	"fmt"

	"copingset/layout/length"
)

// checkTees looks at the rules of tees and at where each leads.
func (d *decoder) checkTees(j *Job) {
	s := &j.System
	d.atMost("system.tee.drop.least", s.Tee.DropLeast, "system.tee.drop.most", s.Tee.DropMost,
		"the least drop is the lesser")
	const gap = "system.joint.gap"
	for _, e := range []struct {
		path string
		long length.Length
	}{{"system.tee.leg", s.Tee.Leg}, {"system.tee.branch", s.Tee.Branch}} {
		for _, under := range []struct {
			path, what string
			long       length.Length
		}{{"system.splice.length", "splice plate", s.Splice.Length}, {"system.chair.length", "chair", s.Chair.Length}} {
			if least := (under.long - s.Joint.Gap + 1) / 2; d.has(e.path, under.path, gap) && e.long < least {
				d.conflict("lengths-conflict", d.places[e.path], d.places[under.path],
					"lengthen it past the "+under.what,
					"%s, %s, is shorter than the %s at its joint reaches under it, %s", e.path, Both(e.long),
					under.what, Both(least))
			}
		}
	}
	for i := range j.Perimeters {
		p := &j.Perimeters[i]
		d.checkTee(j, p, p.Starts, fmt.Sprintf("perimeters[%d].starts.", i))
		if n := len(p.Runs); n > 0 {
			d.checkTee(j, p, p.Runs[n-1].Right, fmt.Sprintf("perimeters[%d].runs[%d].ends.", i, n-1))
		}
	}
}

// checkTee looks at one tee: its run is one of another perimeter, has the
// station, and does not come back to the branch by further tees.
func (d *decoder) checkTee(j *Job, p *Perimeter, e End, path string) {
	t := e.Tee
	if t == nil || !d.has(path+"tee") {
		return
	}
	if t.Perimeter == p.Name {
		d.errorf("tee-own", d.places[path+"tee"],
			"name the run of another perimeter; a wall that comes back to itself is two perimeters",
			"perimeter %s would meet a run of its own", p.Name)
		return
	}
	main := perimeterNamed(j, t.Perimeter)
	if main == nil {
		d.refers(path+"tee", "perimeter "+p.Name, "perimeter", t.Perimeter,
			known(j.Perimeters, func(q Perimeter) string { return q.Name }))
		return
	}
	if !d.refers(path+"tee", "perimeter "+p.Name, "run of perimeter "+main.Name, t.Run,
		known(main.Runs, func(r Run) string { return r.Name })) {
		return
	}
	if d.meets(j, main, p, 0) {
		d.errorf("tee-circle", d.places[path+"tee"], "let one perimeter go through and the others meet it",
			"perimeters %s and %s would each meet the other", p.Name, main.Name)
	}
	for k := range main.Runs {
		r := &main.Runs[k]
		if r.Name == t.Run && d.has(path+"at") && r.StationFace == r.Face && r.Length > 0 && t.At > r.Length {
			d.conflict("station-range", d.places[path+"at"], r.At, "check the station and the length of the run",
				"perimeter %s: its tee at station %s lies beyond run %s, which is %s long", p.Name, Both(t.At), r.Name,
				Both(r.Length))
		}
	}
}

// meets says whether a perimeter meets another by its own tees or by those of
// the perimeters it meets.
func (d *decoder) meets(j *Job, p, other *Perimeter, depth int) bool {
	if depth > len(j.Perimeters) {
		return true
	}
	for _, t := range p.Tees() {
		if t.Perimeter == other.Name {
			return true
		}
		if q := perimeterNamed(j, t.Perimeter); q != nil && d.meets(j, q, other, depth+1) {
			return true
		}
	}
	return false
}

// Tees are those at the ends of a perimeter.
func (p *Perimeter) Tees() []*Tee {
	var out []*Tee
	if p.Starts.Tee != nil {
		out = append(out, p.Starts.Tee)
	}
	if n := len(p.Runs); n > 0 && p.Runs[n-1].Right.Tee != nil {
		out = append(out, p.Runs[n-1].Right.Tee)
	}
	return out
}

func perimeterNamed(j *Job, name string) *Perimeter {
	for i := range j.Perimeters {
		if j.Perimeters[i].Name == name {
			return &j.Perimeters[i]
		}
	}
	return nil
}
