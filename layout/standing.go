package layout

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// standing is the caps of a job on what holds them, with one choice of assemblies.
type standing struct {
	perimeters []*Perimeter
	found      finding.List
}

// standOn cuts the caps of solved widths into pieces and stands their chairs. With
// an error among what was found there are no chairs to speak of.
func (l *Layout) standOn(walls []*wall.Perimeter, frames [][]*cap.Run, found finding.List) standing {
	var set finding.Set
	set.Append(found...)
	pieces := make([][]*cap.Piece, len(walls))
	stop := found.HasErrors()
	if !stop {
		for _, i := range cap.MainsFirst(walls) {
			var more finding.List
			pieces[i], more = cap.Build(l.Job, frames[i], l.Grid)
			set.Append(more...)
			stop = stop || slices.ContainsFunc(more, func(q finding.Finding) bool { return q.Code == "tee-place" || q.Code == "tee-room" })
		}
	}
	if stop && slices.ContainsFunc(set.List(), func(q finding.Finding) bool { return q.Code == "tee-place" || q.Code == "tee-room" }) {
		return standing{found: set.List()}
	}
	out := standing{}
	for i, runs := range frames {
		on, more := anchor.Build(l.Job, l.Demand, runs, pieces[i], l.Grid)
		set.Append(more...)
		out.perimeters = append(out.perimeters, &Perimeter{Perimeter: runs[0].Perimeter, Runs: on.Runs, Pieces: pieces[i],
			Supports: on.Supports, Turned: on.Turned, Packing: on.Packing})
	}
	out.found = set.List()
	return out
}

// over names a run, by its place, and a zone of it.
type over struct {
	perimeter, run int
	zone           wind.Zone
}

// overloaded lists the runs and zones with a chair that is asked for more than the
// test proved for it.
func (s standing) overloaded() []over {
	var out []over
	for i, p := range s.perimeters {
		for k, r := range p.Runs {
			for _, c := range r.Chairs {
				if o := (over{i, k, zoneOf(c)}); c.Load.Over() && !slices.Contains(out, o) {
					out = append(out, o)
				}
			}
		}
	}
	return out
}
