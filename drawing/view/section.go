package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// sectionView is a cut across a run, looking along growing stations: the street
// at the left, the roof at the right.
type sectionView struct {
	of    plan.Section
	crew  length.Style
	shop  length.Style
	chair *plan.Part // nil where none is cut
	cap   plan.Part
	lo    plan.Pt // bounds of the metal
	hi    plan.Pt

	keys []sectionKey
}

// sectionKey is one numbered item of the list, with the place it is about.
type sectionKey struct {
	words string
	tip   plan.Pt
	where keyPlace
}

// keyPlace is where the number of an item stands.
type keyPlace int

const (
	inRow   keyPlace = iota // in the row above the cap
	onLayer                 // on the layer of the wall it names
	atFront                 // in the wall, beside its front face
	atRear                  // the same at its rear face
)

// Section draws a cut at a chair or a joint: wall, packing, membrane, chair,
// fasteners and cap, each to its true thickness, with the laps and clearances at
// that station. At a joint the next cap is seen behind the splice plate and its
// tape; a building expansion joint has no chair under it.
func Section(of plan.Section, w, h drawing.Unit) drawing.Scene {
	return Sections(of)(w, h)
}

// Sections draws one cut in rooms of several sizes, at each scale and each size once:
// a sheet that looks for its best lay-out asks for the same again and again.
func Sections(of plan.Section) func(w, h drawing.Unit) drawing.Scene {
	s := newSectionView(of)
	s.items()
	k := s.keyed()
	// The details stand where they do not cost the section its scale.
	d := k
	d.list.figures, d.list.column = []entry{s.details()}, 2*detailWide+detailGap+200
	d.narrowest = d.list.column
	d.draw = remembered(func(ratio float64, _ drawing.Point) ([]drawing.Mark, []string) { return s.cut(ratio, true), nil })
	k.draw = remembered(k.draw)
	type room struct{ w, h drawing.Unit }
	seen := map[room]drawing.Scene{} // look-up only
	return func(w, h drawing.Unit) drawing.Scene {
		out, ok := seen[room{w, h}]
		if !ok {
			out = s.scene(k, d, w, h)
			seen[room{w, h}] = out
		}
		return out
	}
}

func newSectionView(of plan.Section) *sectionView {
	s := &sectionView{of: of, crew: length.Crew(of.Metric), shop: length.Shop(of.Metric)}
	for i, p := range of.Parts {
		switch p.Kind {
		case plan.ChairMetal:
			s.chair = &of.Parts[i]
		case plan.CapMetal:
			s.cap = p
		}
		if lo, hi := p.Ring.Bounds(); p.Kind.Metal() && len(p.Ring) > 0 {
			if s.lo == s.hi {
				s.lo, s.hi = lo, hi
			}
			s.lo = plan.Pt{X: length.Min(s.lo.X, lo.X), Y: length.Min(s.lo.Y, lo.Y)}
			s.hi = plan.Pt{X: length.Max(s.hi.X, hi.X), Y: length.Max(s.hi.Y, hi.Y)}
		}
	}
	return s
}

func (s *sectionView) title() string {
	switch {
	case s.of.Joined == nil:
		return "SECTION AT CHAIR " + s.of.Mark
	case s.expansion():
		return "SECTION AT EXPANSION JOINT " + s.of.Mark
	}
	return "SECTION AT JOINT " + s.of.Mark
}

// fileName makes a name safe for a file.
func fileName(name string) string {
	return strings.Map(func(r rune) rune {
		if r == '/' || r == '\\' || r == ' ' || r == ':' {
			return '-'
		}
		return r
	}, name)
}

// expansion says that the cut goes through a building expansion joint.
func (s *sectionView) expansion() bool {
	return s.of.Joined != nil && s.of.Joined.Kind == plan.ExpansionJoint
}

// dim is one of the section's distances; the layout makes all of them.
func (s *sectionView) dim(k plan.DimKind) plan.Dim {
	d, ok := s.of.Dim(k)
	if !ok {
		panic("view: a section without one of its distances")
	}
	return d
}

// keyed is the cut with its list, before it is given a room.
func (s *sectionView) keyed() keyedView {
	k := keyedView{
		title: s.title(), metric: s.crew.Metric,
		under: "run " + s.of.Run + ", crew station " + s.crew.InText(s.of.Crew) + "; looking along growing stations, towards the right hand",
		draw:  func(ratio float64, _ drawing.Point) ([]drawing.Mark, []string) { return s.cut(ratio, false), nil }, finest: 1, list: keyedList{notes: s.lines(), holds: s.holds()},
	}
	for _, it := range s.keys {
		k.list.items = append(k.list.items, it.words)
	}
	return k
}

// scene arranges the view: the cut to the largest usual scale, the keyed list
// beside or below, with the details (d) or without (k).
func (s *sectionView) scene(k, d keyedView, w, h drawing.Unit) drawing.Scene {
	title := k.title
	if with, without := d.share(w, h, false), k.share(w, h, false); with.marks != nil && with.scale == without.scale && with.scale.Ratio > 1 {
		k = d
	}
	out := k.scene(w, h)
	out.Name, out.Title = "section-"+fileName(s.of.Mark), title
	out.Desc = title + ", run " + s.of.Run + ", looking along growing stations: street at the left, roof at the right."
	return out
}

// SectionHatches lists what the hatches of sections mean; see Drawn for those
// of one of them.
func SectionHatches(of ...plan.Section) []LegendEntry {
	var out []LegendEntry
	add := func(k drawing.HatchKind, words string) {
		if k != drawing.NoHatch && !slices.ContainsFunc(out, func(e LegendEntry) bool { return e.Kind == k }) {
			out = append(out, LegendEntry{k, words})
		}
	}
	for _, p := range of {
		for _, y := range p.Layers {
			add(layerHatch(y.Material), y.Material)
		}
	}
	for _, p := range of {
		if p.Packing.Layers > 0 {
			add(drawing.Plywood, "plywood packing")
		}
	}
	for _, p := range of {
		if len(p.Packing.Shims[0])+len(p.Packing.Shims[1]) > 0 {
			add(drawing.Shims, "shims")
		}
	}
	return out
}

// layerHatch is the drafting sign of a material, by its word in the job file.
func layerHatch(material string) drawing.HatchKind {
	switch material {
	case "wood":
		return drawing.Wood
	case "plywood":
		return drawing.Plywood
	case "masonry":
		return drawing.Masonry
	case "concrete":
		return drawing.Concrete
	case "steel":
		return drawing.Metal
	}
	return drawing.NoHatch
}
