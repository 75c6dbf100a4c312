package layout

import (
	"cmp"
	"fmt"
	"slices"

	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/metal"
)

// contacts checks the pairs of materials that touch, or stand in the same damp
// under one cap: cap on chair, screw in chair, screw under the cap, chair on the
// top of the wall, as far as the job names them.
func (l *Layout) contacts() []CodeCheck {
	s := &l.Job.System
	var out []CodeCheck
	add := func(what string, c metal.Contact, code string, at finding.Place, parted bool) {
		k := CodeCheck{What: what, Asked: metal.Compatible.String(), Has: c.Verdict.String(), Source: c.Source,
			Passes: c.Verdict == metal.Compatible}
		if c.Memory {
			k.Source += " (from memory)"
		}
		if !k.Passes {
			sev := finding.Note
			if c.Verdict == metal.Apart && !parted {
				sev = finding.Hold
			}
			k.finding = finding.New(sev, code, at, c.Mend, "%s: %s", what, c.Verdict)
			k.finding.Why = k.Source
		}
		out = append(out, k)
	}
	pair := func(what string, a, b string, at finding.Place, parted bool, judge func(a, b metal.Family) (metal.Contact,
		bool)) {
		what = fmt.Sprintf("%s: %s on %s", what, a, b)
		if c, ok := judge(metal.FamilyOf(a), metal.FamilyOf(b)); ok {
			add(what, c, "metals-dissimilar", at, parted)
			return
		}
		k := CodeCheck{What: what, Asked: metal.Compatible.String(), Has: "not in the table of pairs",
			Source: "none found"}
		k.finding = finding.New(finding.Note, "metals-unknown", at, "have the fabricator say that the two may touch",
			"%s: %s", what, k.Has)
		k.finding.Why = "nothing is said of this pair here"
		out = append(out, k)
	}
	var metals []string // of the chairs, each once, with "" for one that is not stated
	for _, c := range l.chairs() {
		if slices.Contains(metals, c.Metal) {
			continue
		}
		metals = append(metals, c.Metal)
		if c.Metal != "" {
			pair("cap on chair", s.Metal.Name, c.Metal, c.at, false, metal.Pair)
		}
	}
	for i := range l.Job.Fasteners {
		f := &l.Job.Fasteners[i]
		if f.Metal == "" {
			continue
		}
		for _, of := range metals {
			if of != "" {
				pair("chair on "+f.Name, of, f.Metal, f.At, false, metal.Screw)
			}
		}
		// A screw's head is clear of the cap, and in the same damp.
		pair("cap over "+f.Name, s.Metal.Name, f.Metal, f.At, true, metal.Screw)
	}
	l.contactsOnWalls(metals, add)
	return out
}

// contactsOnWalls judges what stands on the top of a wall: the chairs of these metals,
// of the caps' where none is stated.
func (l *Layout) contactsOnWalls(metals []string, add func(what string, c metal.Contact, code string, at finding.Place,
	parted bool)) {
	var rest []string
	for _, of := range metals {
		if of = cmp.Or(of, l.Job.System.Metal.Name); !slices.Contains(rest, of) {
			rest = append(rest, of)
		}
	}
	for i := range l.Job.Walls {
		w := &l.Job.Walls[i]
		if len(w.Layers) == 0 {
			continue
		}
		// The membrane over the wall top lies between them.
		parted := l.Job.Membrane.Thickness > 0
		for _, rests := range rest {
			family := metal.FamilyOf(rests)
			switch top := w.Layers[0]; {
			case top.Treated:
				if c, ok := metal.OnWood(family, true); ok {
					add(fmt.Sprintf("wall %s: %s over treated wood", w.Name, rests), c, "treated-wood", w.At, parted)
				}
			case top.Material == job.Masonry || top.Material == job.Concrete:
				if c, ok := metal.OnMasonry(family); ok {
					add(fmt.Sprintf("wall %s: %s over %s", w.Name, rests, top.Material), c, "metal-on-masonry", w.At,
						parted)
				}
			}
		}
	}
}
