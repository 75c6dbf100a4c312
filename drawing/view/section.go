package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// sectionView is a cut across a run, looking along growing stations: the street
// at the left, the roof at the right.
type sectionView struct {
	of    plan.Section
	say   words.Book
	told  SectionTold
	crew  length.Style
	shop  length.Style
	chair *plan.Part // nil where none is cut
	cap   plan.Part
	lo    plan.Pt // bounds of the metal
	hi    plan.Pt

	keys []sectionKey
	like *plan.Section // the section whose words are not repeated; nil: none
	pad
}

// sectionKey is one numbered item of the list, with the place it is about.
type sectionKey struct {
	drawing.Said
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

// Section is a cut at a chair or a joint as a block: wall, build-up, membrane, chair,
// fasteners and cap, each to its true thickness, with the laps and clearances at
// that station. At a joint the next cap is seen behind the splice plate and its
// tape; a building expansion joint has no chair under it. notes go on its list.
func Section(say words.Book, of plan.Section, told SectionTold, notes ...drawing.Said) *Keyed {
	return SectionLike(say, of, nil, told, notes...)
}

// SectionLike is a section whose list tells only what is not told beside another one.
func SectionLike(say words.Book, of plan.Section, like *plan.Section, told SectionTold,
	notes ...drawing.Said) *Keyed {
	s := newSectionView(say, of)
	s.told, s.like = told, like
	s.items()
	s.unlike()
	k := &Keyed{
		ID: "section-" + of.Mark, Title: s.title(), About: say.Say(words.SectionAbout, words.In("title", s.title()),
			words.In("run", of.Run)),
		say: say,
		under: drawing.Said{Words: say.Say(words.SectionUnder, words.In("run", of.Run),
			words.In("station", s.crew.InText(of.Crew.Real))), Fact: of.Crew.Fact},
		metric: s.crew.Metric, finest: 4, coarsest: 10, extent: s.extent, beside: sectionBeside,
		draw: func(ratio float64) keyedDrawing { return keyedDrawing{marks: s.cut(ratio, s.told == SectionDetailed)} },
		list: keyedList{notes: append(s.lines(), notes...), holds: s.holds()},
	}
	switch told {
	case SectionBrief:
		k.below = true
	case SectionDetailed:
		k.beside = 2*detailWide + detailGap + 400
		k.list.figures, k.list.column = []entry{s.details()}, k.beside-200
	}
	for _, it := range s.keys {
		k.list.items = append(k.list.items, it.Said)
	}
	return k
}

// unlike leaves out what the section that this one is like tells alike.
func (s *sectionView) unlike() {
	if s.like == nil {
		return
	}
	o := newSectionView(s.say, *s.like)
	o.told = s.told
	if o.of.Seat != nil && s.of.Seat != nil { // chairs made alike, whatever their numbers
		seat := *o.of.Seat
		seat.Name, o.of.Seat = s.of.Seat.Name, &seat
	}
	o.items()
	s.keys = slices.DeleteFunc(s.keys, func(k sectionKey) bool {
		return slices.ContainsFunc(o.keys, func(q sectionKey) bool { return q.Words == k.Words })
	})
}

// Told is how many items its list tells.
func (k *Keyed) Told() int { return len(k.list.items) }

// sectionBeside is the width of the list beside a section.
const sectionBeside drawing.Unit = 8400

// SectionTold is how much a section tells besides what it draws.
type SectionTold int

// The ways. A brief one leaves out what the section at a chair beside it tells, a
// detailed one has the feet of both legs at full size.
const (
	SectionPlain SectionTold = iota
	SectionBrief
	SectionDetailed
)

func newSectionView(say words.Book, of plan.Section) *sectionView {
	s := &sectionView{of: of, say: say, crew: length.Crew(of.Metric), shop: length.Shop(of.Metric)}
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
	mark := words.In("mark", s.of.Mark)
	switch {
	case s.of.Joined == nil:
		return s.say.Say(words.SectionTitleChair, mark)
	case s.expansion():
		return s.say.Say(words.SectionTitleExpansion, mark)
	}
	return s.say.Say(words.SectionTitleJoint, mark)
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

// extent is what the cut takes at a scale with its dimensions and numbers.
func (s *sectionView) extent(ratio float64) drawing.Rect {
	m := paperMap{ratio: ratio}
	left, right := m.up(plan.Pt{X: length.Min(s.lo.X, 0)}).X, m.up(plan.Pt{X: length.Max(s.hi.X, s.of.Outside)}).X
	side := drawing.Unit(0)
	for _, d := range s.of.Dims {
		if k := s.partKey(d.What); k != "" {
			side = max(side, drawing.Width(drawing.Regular,
				drawing.Letter(s.say.Say(k, words.In("length", s.crew.Short(d.Real)))), drawing.Note))
		}
	}
	side = max(side+legAway+legApart+ladderOut+100, 2300)
	row := drawing.Unit(len(s.keys)) * pinApart
	if spare := (row - (right - left + 2*side)) / 2; spare > 0 {
		side += spare
	}
	top := m.up(plan.Pt{Y: s.of.FoldFront}).Y - 3550 - 1000
	return drawing.Box(left-side, top, right+side, m.up(plan.Pt{Y: s.floorOf(m)}).Y+2250)
}

// SectionHatches lists what the hatches of sections mean; see Drawn for those
// of one of them.
func SectionHatches(say words.Book, of ...plan.Section) []LegendEntry {
	var out []LegendEntry
	add := func(k drawing.HatchKind, words string) {
		if k != drawing.NoHatch && !slices.ContainsFunc(out, func(e LegendEntry) bool { return e.Kind == k }) {
			out = append(out, LegendEntry{Kind: k, Words: words})
		}
	}
	for _, p := range of {
		for _, y := range p.Layers {
			add(layerHatch(y.Material), say.Say(MaterialKey(y.Material)))
		}
	}
	for _, p := range of {
		if p.Packing.Layers > 0 {
			add(drawing.Plywood, say.Say(words.SectionHatchPlywood))
		}
	}
	for _, p := range of {
		if len(p.Packing.Shims[0])+len(p.Packing.Shims[1]) > 0 {
			add(drawing.Shims, say.Say(words.SectionHatchShims))
		}
	}
	return out
}

// MaterialKey is the word of a material.
func MaterialKey(material string) words.Key {
	return map[string]words.Key{"wood": words.SectionMaterialWood, "plywood": words.SectionMaterialPlywood,
		"masonry":  words.SectionMaterialMasonry,
		"concrete": words.SectionMaterialConcrete, "steel": words.SectionMaterialSteel}[material]
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
