package layout

import (
	"slices"

	"copingset/layout/anchor"
	"copingset/layout/cap"
	"copingset/layout/finding"
	"copingset/layout/short"
	"copingset/layout/wall"
	"copingset/layout/wind"
)

// standing is the caps of a job on what holds them, with one choice of assemblies.
type standing struct {
	perimeters []*Perimeter
	laid       []short.Laid // of each perimeter
	frames     finding.List // found with the widths
	found      finding.List
}

// standOn cuts the caps of solved widths into pieces and stands their chairs. With
// an error among what was found there are no chairs to speak of.
func (l *Layout) standOn(walls []*wall.Perimeter, frames [][]*cap.Run, found finding.List) standing {
	on := standing{laid: make([]short.Laid, len(frames)), frames: found}
	unmade := slices.ContainsFunc(found, teeUnmade)
	if !found.HasErrors() {
		for _, i := range cap.MainsFirst(walls) {
			p := &on.laid[i]
			p.Pieces, p.Caps = cap.Build(l.Job, frames[i], l.Grid)
			unmade = unmade || slices.ContainsFunc(p.Caps, teeUnmade)
		}
	}
	if !unmade {
		for i, runs := range frames {
			p := &on.laid[i]
			p.Runs = runs
			p.Standing, p.Stands = anchor.Build(l.Job, l.Demand, runs, p.Pieces, l.Grid)
		}
	}
	on.gather()
	return on
}

// teeUnmade tells of an error that leaves a run's joint with nothing on one side.
func teeUnmade(f finding.Finding) bool { return f.Code == "tee-place" || f.Code == "tee-room" }

// gather lists the perimeters and all that was found.
func (s *standing) gather() {
	var set finding.Set
	set.Append(s.frames...)
	for _, p := range s.laid {
		set.Append(p.Caps...)
	}
	s.perimeters = nil
	for _, p := range s.laid {
		set.Append(p.Stands...)
		if len(p.Runs) > 0 {
			on := p.Standing
			s.perimeters = append(s.perimeters, &Perimeter{Perimeter: p.Runs[0].Perimeter, Runs: on.Runs,
				Pieces:   p.Pieces,
				Supports: on.Supports, Turned: on.Turned, Packing: on.Packing, Ways: p.By})
		}
	}
	s.found = set.List()
}

// settle lays short runs that do not stand out in other ways.
func (l *Layout) settle(on standing) standing {
	for i, p := range on.laid {
		if len(p.Runs) > 0 && len(p.Pieces) > 0 {
			on.laid[i] = short.Settle(l.Job, l.Demand, p, l.Grid)
		}
	}
	on.gather()
	return on
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
