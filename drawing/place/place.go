// Package place finds room for labels, so that none ever lies on another.
//
// A Placer knows the boxes of all lettering and the areas and strokes that
// lettering may not lie on. A Label comes with the spots its view would like,
// best first; the first free one is taken. If none is, the label goes on a
// leader to the nearest free room around what it is about; if there is no room
// for that, a numbered balloon stands there and the words become a Note; and if
// not even a balloon fits, the note alone says where. No label is ever dropped,
// and the same calls give the same places.
//
// Labels known together are placed together: PlaceAll finds which of them
// compete for room and shares it out so that the fewest go without a spot of
// theirs, each as near its first as can be.
//
// What keeps labels off:
//
//	Block   a part: leaders too go round it where they can
//	Area    an area leaders may cross
//	Stroke  a line leaders may cross, with a distance to keep
//	Hidden  a hidden line, which a Cover label may knock out
//	Letter  lettering that stands already: no leader touches it
//
// Types: Placer, Label, Spot, Fan, Wish, Placement, Note. All measures are
// paper units. The files: place.go places one label, batch.go many, share.go
// shares the room out among those that compete, label.go is a label and its
// spots, shape.go the geometry, index.go what stands where.
package place

import (
	"strconv"

	"copingset/drawing"
)

// Room kept free around a text: above and below it, and beside it, where two
// on one height would read as one.
const (
	clear  drawing.Unit = 60
	beside drawing.Unit = 160
)

// Placement is where a label went. Box is its text or its balloon; it is empty
// when only a note is left.
type Placement struct {
	Box    drawing.Rect
	Marks  []drawing.Mark
	Leader bool
	Note   int // number of its note, 0 if the label itself stands there
}

// Stands says that the label or its balloon is on the drawing.
func (q Placement) Stands() bool { return len(q.Marks) > 0 }

// Note is a label that found no room: its number and words, for the list
// beside the view.
type Note struct {
	N     int
	Words string
	Fact  string // that the words letter
}

// Placer keeps what is taken. Bounds is the area labels must stay in.
type Placer struct {
	Bounds drawing.Rect
	First  int // number of the first note less one, where several placers share a list
	taken  index
	notes  []Note
}

// New returns a Placer for an area.
func New(bounds drawing.Rect) *Placer {
	return &Placer{Bounds: bounds, taken: newIndex(bounds)}
}

// Block takes boxes: no label may overlap them, and leaders go round them
// unless they begin in them or there is no other way.
func (p *Placer) Block(boxes ...drawing.Rect) {
	for _, b := range boxes {
		p.taken.add(item{kind: solid, shape: level(b), wide: level(b.Inset(-clear / 2))})
	}
}

// Area takes a convex area: no label may overlap it.
func (p *Placer) Area(pts ...drawing.Point) {
	p.taken.add(item{kind: area, shape: convex(pts)})
}

// Stroke forbids labels to come within keep of a line through points.
func (p *Placer) Stroke(keep drawing.Unit, pts ...drawing.Point) {
	for i := 1; i < len(pts); i++ {
		p.taken.add(item{kind: area, shape: strip(pts[i-1], pts[i], keep)})
	}
}

// Hidden forbids labels that do not cover what they lie on to come within keep
// of a line through points.
func (p *Placer) Hidden(keep drawing.Unit, pts ...drawing.Point) {
	for i := 1; i < len(pts); i++ {
		p.taken.add(item{kind: hidden, shape: strip(pts[i-1], pts[i], keep)})
	}
}

// Letter takes boxes of lettering: no label may overlap them and no leader
// touch them.
func (p *Placer) Letter(boxes ...drawing.Rect) {
	for _, b := range boxes {
		p.taken.add(item{kind: letter, shape: level(b), wide: level(b.Inset(-clear)), near: level(b)})
	}
}

// Vacant says whether a convex area lies in bounds and clear of all that keeps
// labels off.
func (p *Placer) Vacant(pts ...drawing.Point) bool {
	s := convex(pts)
	return p.Bounds.Contains(s.box) && !p.taken.any(s.box, func(it *item) bool { return s.touches(&it.shape) })
}

// Strikes says whether a line would strike out lettering.
func (p *Placer) Strikes(a, b drawing.Point) bool {
	s := strip(a, b, clear)
	return p.taken.any(s.box, func(it *item) bool { return it.kind == letter && s.touches(&it.shape) })
}

// Lettered says whether lettering stands at a point or too near it for the dot
// of a leader.
func (p *Placer) Lettered(at drawing.Point) bool {
	dot := level(drawing.Rect{Min: at, Max: at}.Inset(-dotRoom))
	return p.taken.any(dot.box, func(it *item) bool { return it.kind == letter && dot.touches(&it.shape) })
}

// Notes lists the labels that became notes, in the order of their numbers.
func (p *Placer) Notes() []Note { return p.notes }

// Free says whether a label could stand at a spot, its leader going round what
// is in the way.
func (p *Placer) Free(l Label, s Spot) bool {
	st := l.form().stand(s)
	return p.fits(&st) && p.open(&st, false)
}

// Try takes the first free spot, and says whether there was one. Leaders go
// round every Block but one they begin in.
func (p *Placer) Try(l Label, spots ...Spot) (Placement, bool) {
	return p.try(l, spots, false)
}

// try takes the first free spot. over looks only at spots on leaders, which may
// then cross what is no lettering.
func (p *Placer) try(l Label, spots []Spot, over bool) (Placement, bool) {
	f := l.form()
	for _, s := range spots {
		if over && !s.Leader || f.beyond(p.Bounds, s) {
			continue
		}
		if st := f.stand(s); p.fits(&st) && p.open(&st, over) {
			return p.take(l, &st), true
		}
	}
	return Placement{}, false
}

// Place places a label, whatever it takes.
func (p *Placer) Place(l Label, spots ...Spot) Placement {
	w, h := l.Extent()
	for _, some := range [][]Spot{spots, ring(l.About, w, h)} {
		for _, over := range []bool{false, true} {
			if got, ok := p.try(l, some, over); ok {
				return got
			}
		}
	}
	return p.Number(l)
}

// Number puts a balloon near what the label is about, and its words in the
// list, where a leader would point into a neighbour.
func (p *Placer) Number(l Label) Placement {
	n := p.First + len(p.notes) + 1
	words := l.words()
	b := Label{Lines: []string{strconv.Itoa(n)}, About: l.About, Balloon: true}
	w, h := b.Extent()
	got, ok := p.try(b, []Spot{{Centre: l.About}}, false)
	if !ok {
		got, ok = p.try(b, ring(l.About, w, h), true)
	}
	if !ok && l.Where != "" {
		words = l.Where + ": " + words
	}
	p.notes = append(p.notes, Note{n, words, l.facts()})
	got.Note = n
	return got
}

// fits says whether the lettering of a label lies in bounds and clear of
// everything.
func (p *Placer) fits(s *stand) bool {
	if !p.Bounds.Contains(s.near.box) || s.only != nil && !s.only(s.text.box) {
		return false
	}
	return !p.taken.any(s.long.box, func(it *item) bool { return it.meets(s) })
}

// open says whether the leader of a label, if it has one, passes by all
// lettering and all other leaders, and unless it may go over them by every
// Block but one it begins in: its tip may point into a part.
func (p *Placer) open(s *stand, over bool) bool {
	for i := 1; i < len(s.way); i++ {
		seg := segment(s.way[i-1], s.way[i])
		if p.taken.any(seg.box.Inset(-dotRoom), func(it *item) bool { return it.stops(s, &seg, over) }) {
			return false
		}
	}
	return true
}

// take stands a label at its place and returns its marks.
func (p *Placer) take(l Label, s *stand) Placement {
	for _, it := range s.items() {
		p.taken.add(it)
	}
	return Placement{Box: s.text.box, Marks: l.draw(s), Leader: len(s.way) > 0}
}
