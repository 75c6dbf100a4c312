package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
)

// hand is one of the two hands of a piece: its letter stands in the leg near
// the end on that side, upright whichever way the leg runs.
type hand struct {
	letter string
	leg    int
	right  bool
}

// handSizes are the sizes of the hands' letters, both alike, the largest first.
func handSizes() []drawing.Size {
	return []drawing.Size{drawing.Display, handSmaller, drawing.Title}
}

// handSmaller is the least size the letters go down to for the sake of the mark.
const handSmaller drawing.Size = 700

// handClear is what a hand's letter keeps off the outline and the miters.
const handClear drawing.Unit = 120

func (d *cornerDrawing) bothHands() []hand {
	return []hand{{"L", 0, false}, {"R", len(d.through()) - 1, true}}
}

// handLetters letters L and R large in the legs. They come before all else, for
// a piece made with its hands exchanged is scrap. They are as large as fits, or
// a size smaller where that leaves room for the mark in the piece; what is too
// narrow for the smallest of them is named on a leader, see hands.
func (d *cornerDrawing) handLetters(g *drawing.Scene) {
	d.inLeg = map[string]standing{}
	var best []standing
	for _, size := range handSizes() {
		now := d.handsAt(size)
		if len(now) < 2 || len(best) == 2 && size < handSmaller {
			if len(now) > len(best) {
				best = now
			}
			continue
		}
		_, marked := d.markSpot(now)
		if marked || len(best) < 2 {
			best = now
		}
		if marked {
			break
		}
	}
	for _, k := range best {
		if got, ok := d.c.Try(k.Label, k.spot); ok {
			g.Add(got.Marks...)
			d.inLeg[k.Lines[0]] = k
		}
	}
}

// standing is a label that could stand at a spot.
type standing struct {
	place.Label
	spot place.Spot
}

// box is what it would take.
func (s standing) box() drawing.Rect {
	w, h := s.Extent()
	c := s.spot.Centre
	return drawing.Box(c.X-w/2, c.Y-h/2, c.X+w/2, c.Y+h/2)
}

// handsAt finds places for the letters at a size; in a piece of one short leg
// they may leave room for none but the first.
func (d *cornerDrawing) handsAt(size drawing.Size) []standing {
	var out []standing
	for _, h := range d.bothHands() {
		l := place.Label{Lines: []string{h.letter}, Size: size, Face: drawing.Bold, Halo: true, Cover: true,
			Pad: handClear}
		s, ok := d.inside(l, h)
		if k := (standing{l, s}); ok && apart(k.box(), out, k.box().Width()) {
			out = append(out, k)
		}
	}
	return out
}

// apart says whether a box keeps a distance off hands' letters at its side, and
// clear of them.
func apart(box drawing.Rect, hands []standing, by drawing.Unit) bool {
	for _, h := range hands {
		b := h.box()
		if box.Inset(-2 * handClear).Intersects(drawing.Box(b.Min.X-by, b.Min.Y, b.Max.X+by, b.Max.Y)) {
			return false
		}
	}
	return true
}

// inside is the free place in its leg near its end where a hand's letter can
// stand: in the middle of the leg if it can, so far from the end that the leg's
// name can stand under it, else nearer.
func (d *cornerDrawing) inside(l place.Label, h hand) (place.Spot, bool) {
	leg := d.legs[h.leg]
	w, high := l.Extent()
	paper := leg.long / d.m.ratio // millimetres
	from := max(w, high).Millimetres()/2 + 2.5
	name := from
	if leg.name != "" {
		name = max(from, drawing.Width(drawing.Bold, leg.name, drawing.Note).Millimetres()/2+2.5)
	}
	var along []float64
	for u := name; u <= paper*0.6; u++ {
		along = append(along, u)
	}
	for u := name - 1; u >= from; u-- {
		along = append(along, u)
	}
	for _, y := range []float64{0.5, 0.4, 0.6, 0.3, 0.7} {
		for _, u := range along {
			at := u * d.m.ratio
			if h.right {
				at = leg.long - at
			}
			p := d.m.at(leg.at(at, leg.wide*y))
			s := place.At(p.X, p.Y)
			if d.holds(leg, p, w, high) && d.c.Free(l, s) {
				return s, true
			}
		}
	}
	return place.Spot{}, false
}

// holds says whether a box about a point lies in a leg.
func (d *cornerDrawing) holds(leg cornerLeg, c drawing.Point, w, h drawing.Unit) bool {
	q := leg.polygon()
	ring := d.m.all(q[:]...)
	for _, p := range drawing.Box(c.X-w/2, c.Y-h/2, c.X+w/2, c.Y+h/2).Inset(-handClear).Corners() {
		if !holdsPoint(ring, p) {
			return false
		}
	}
	return true
}

// byLetter lists the spots of the words about a hand that need no leader: in
// the leg, right under its letter, above it or beside it.
func (d *cornerDrawing) byLetter(l place.Label, letter string, leg cornerLeg) []place.Spot {
	k, ok := d.inLeg[letter]
	if !ok {
		return nil
	}
	box := k.box()
	w, h := l.Extent()
	c := box.Centre()
	x, y := (box.Width()+w)/2+200, (box.Height()+h)/2+100
	var out []place.Spot
	for _, by := range []drawing.Point{{Y: y}, {Y: -y}, {X: x}, {X: -x}} {
		if p := c.Add(by); d.holds(leg, p, w, h) {
			out = append(out, place.At(p.X, p.Y))
		}
	}
	return out
}
