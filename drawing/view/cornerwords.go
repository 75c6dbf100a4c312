package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/block"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// letters writes the names, hands and angles, and the marks of chairs and supports. The letters of the hands come
// first, then the mark in the piece, then the angles, which stand at their arcs, and the sides; all others share out
// the room that is left.
func (d *cornerDrawing) letters(g *drawing.Scene) {
	d.handLetters(g)
	marked := d.mark(g)
	var all []saying
	for i := range d.Miters {
		all = append(all, d.angles(i)...)
	}
	all = append(all, d.sides()...)
	d.lost = append(d.lost, stood(g, d.c, all)...)
	all = d.hands()
	if d.tapers() {
		all = append(all, d.taperHands()...)
	}
	if !marked {
		all = append(all, d.markPointed())
	}
	all = append(all, d.stands()...)
	all = append(all, d.jointWords()...)
	all = append(all, d.endWords()...)
	d.lost = append(stood(g, d.c, all), d.lost...) // the hands before all else
}

// saying is a label with its spots, and what the list says if it finds no room.
type saying struct {
	place.Wish
	lost []string
	more string // the facts that the list's words letter beside the label's
}

// stood stands labels where there is room and returns the words of the others, with
// the facts that they letter.
func stood(g *drawing.Scene, c *place.Placer, all []saying) []block.Note {
	var lost []block.Note
	for i, got := range c.TryAll(wishesOf(all)) {
		g.Add(got.Marks...)
		if got.Stands() {
			continue
		}
		lost = append(lost, all[i].notes()...)
	}
	return lost
}

// notes are what the list says where the label finds no room.
func (s saying) notes() []block.Note {
	facts := drawing.FactNames(append(slices.Clone(s.Facts), s.more)...)
	var out []block.Note
	for _, words := range s.lost {
		out = append(out, block.Note{Words: words, Fact: facts})
	}
	return out
}

func wishesOf(all []saying) []place.Wish {
	out := make([]place.Wish, len(all))
	for i, k := range all {
		out[i] = k.Wish
	}
	return out
}

// markApart is what the mark keeps off a hand's letter at its side, so that the
// two are not read as one.
const markApart = 8 * drawing.MM

func (d *cornerDrawing) markLabel() place.Label {
	return place.Label{Lines: []string{d.Mark}, Size: drawing.Title, Face: drawing.Bold, Halo: true, Cover: true,
		Pad: 100}
}

// markSpot is a place for the mark in the piece where no hand's letter stands
// at its side.
func (d *cornerDrawing) markSpot(hands []standing) (standing, bool) {
	l := d.markLabel()
	for _, leg := range d.legs {
		for _, f := range []float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.3, 0.7} {
			for _, y := range []float64{0.5, 0.35, 0.65, 0.22, 0.78, 0.17, 0.83} {
				at := d.m.at(leg.at(leg.leftTrim+(leg.long-leg.leftTrim-leg.rightTrim)*f, leg.wide*y))
				k := standing{l, place.At(at.X, at.Y)}
				if apart(k.box(), hands, markApart) && d.c.Free(l, k.spot) {
					return k, true
				}
			}
		}
	}
	return standing{}, false
}

// mark letters the piece's mark, large, on the piece if it has room.
func (d *cornerDrawing) mark(g *drawing.Scene) bool {
	var hands []standing
	for _, h := range d.bothHands() {
		if k, ok := d.inLeg[h.letter]; ok {
			hands = append(hands, k)
		}
	}
	k, ok := d.markSpot(hands)
	if !ok {
		return false
	}
	got, ok := d.c.Try(k.Label, k.spot)
	g.Add(got.Marks...)
	return ok
}

// markPointed is the mark on a leader.
func (d *cornerDrawing) markPointed() saying {
	l := d.markLabel()
	var tips []xy
	for _, leg := range d.legs {
		for _, f := range []float64{0.45, 0.2, 0.7} {
			tips = append(tips, leg.at(leg.long*f, leg.wide*0.3),
				leg.at(leg.leftTrim+(leg.long-leg.leftTrim-leg.rightTrim)*f, leg.wide*0.8))
		}
	}
	l.About = d.m.at(tips[0])
	spots := d.outOf(-1, l, l.Fan(place.Fan{Toward: tenths(d.legs[0].dir.roofward().times(-1)), From: 2000, To: 7000,
		Step: 300, Spread: 180, Tips: d.m.all(tips...)}))
	return saying{Wish: place.Wish{Label: l, Spots: spots, Weight: 4},
		lost: []string{d.say.Say(words.CornerLostMark, words.In("piece", d.Mark))}}
}

// openings are the places beside a miter where its turn and its included angle
// show: outside the cap on the street side, or on the roof side.
func (d *cornerDrawing) openings(i int) (turn, included xy, street xy) {
	front, rear := d.miterAt(i)
	street = awayOf(d.legs[i].dir, d.legs[i+1].dir)
	if d.Miters[i].Outside {
		return front, rear, street
	}
	return rear, front, street.times(-1)
}

// Radii of the arcs, on paper.
const (
	turnR     drawing.Unit = 1150
	includedR drawing.Unit = 700
)

// angleLines draws the turn from the arriving run's line to the leaving run,
// and the included angle between the two: printed side by side, neither can be
// taken for the other.
func (d *cornerDrawing) angleLines(g *drawing.Scene, i int) {
	if d.Miters[i].Break != plan.NoBreak {
		return
	}
	turn, included, _ := d.openings(i)
	in, out := d.legs[i].dir, d.legs[i+1].dir
	o := d.m.at(turn)
	ahead := off(o, in, turnR+350)
	g.Line(drawing.Centre, off(o, in, 150), ahead)
	d.c.Stroke(20, o, ahead)
	d.arc(g, o, in, out, turnR)
	d.arc(g, d.m.at(included), in.times(-1), out, includedR)
}

// angles letters the two angles at their arcs.
func (d *cornerDrawing) angles(i int) []saying {
	w := d.Miters[i]
	kind, turn, included := TurnSaid(d.say, w.Turn)
	at, inner, away := d.openings(i)
	if w.Break != plan.NoBreak {
		return []saying{d.breakLabel(i, kind, turn, w.Turn.Turned)}
	}
	in, out := d.legs[i].dir, d.legs[i+1].dir
	fan := place.Fan{From: 150, To: 5000, Step: 250, Spread: 180, Reach: 700}
	l := place.Label{Lines: []string{kind, turn}, Facts: []string{"", w.Turn.Turned}, Face: drawing.Bold, Pad: 80,
		Bare: true, About: off(d.m.at(at), in.add(out), turnR)}
	fan.Toward = tenths(in.add(out).add(away.times(0.3)))
	all := []saying{{Wish: place.Wish{Label: l, Spots: d.outOf(-1, l, l.Fan(fan)), Weight: 2}}} // the title says it
	bis := out.sub(in).unit()
	l.Lines, l.Facts, l.About = []string{included}, []string{w.Turn.Opened}, off(d.m.at(inner), bis, includedR)
	fan.Toward = tenths(bis)
	return append(all, saying{Wish: place.Wish{Label: l, Spots: d.outOf(-1, l, l.Fan(fan))}})
}

// awayOf is the direction between two runs' street sides.
func awayOf(in, out xy) xy {
	s := in.roofward().add(out.roofward()).times(-1)
	if s.length() < 1e-6 {
		return in
	}
	return s.unit()
}

// arc draws the arc from one direction to another, the short way round.
func (d *cornerDrawing) arc(g *drawing.Scene, o drawing.Point, from, to xy, r drawing.Unit) {
	a, b := tenths(from), tenths(to)
	for b < a {
		b += 3600
	}
	if b-a > 1800 {
		a, b = b, a+3600
	}
	g.Arc(drawing.Thin, o, r, a, b)
	for k := a; k < b; k += 50 {
		d.c.Stroke(20, drawing.Polar(o, r, k), drawing.Polar(o, r, min(k+50, b)))
	}
}

// hands names the legs: by the letter of their hand where it stands in the leg,
// else with the letter on a leader.
func (d *cornerDrawing) hands() []saying {
	var all []saying
	for i, leg := range d.legs {
		if leg.name == "" {
			all = append(all, d.lostHands(leg)...)
			continue
		}
		name, letter, weight := leg.name, "", 1
		switch {
		case d.tees():
			if leg.atLeft {
				all = append(all, d.lostHands(leg)...)
			}
		case leg.atLeft:
			letter, weight = "L", 12 // a hand that is missing makes a wrong corner: it goes before all else
		case leg.atEnd:
			letter, weight = "R", 12
		}
		if _, ok := d.inLeg[letter]; !ok && letter != "" {
			name = letter + "  " + name
		}
		all = append(all, d.legWords(i, letter, []string{name, d.say.Say(words.CornerRun, words.In("run", leg.of.Run))},
			weight, d.lostLeg(leg, letter)))
	}
	return all
}

// lostLeg names a leg in the list, by the letter that stands in it.
func (d *cornerDrawing) lostLeg(leg cornerLeg, letter string) string {
	name, run := words.In("leg", leg.name), words.In("run", leg.of.Run)
	if letter != "" {
		return d.say.Say(words.CornerLostHandLeg, words.In("letter", letter), name, run)
	}
	return d.say.Say(words.CornerLostLeg, name, run)
}

// lostHands names on leaders the hands of a straight piece that has no room for
// their letters.
func (d *cornerDrawing) lostHands(leg cornerLeg) []saying {
	var all []saying
	for _, h := range d.bothHands() {
		if _, ok := d.inLeg[h.letter]; ok {
			continue
		}
		end := 0.0
		if h.right {
			end = leg.long
		}
		l := place.Label{Lines: []string{h.letter}, Size: drawing.Title, Face: drawing.Bold, Pad: 80,
			About: d.m.at(leg.at(leg.long/2+(end-leg.long/2)*0.7, leg.wide/2))}
		spots := l.Fan(place.Fan{Toward: tenths(leg.dir.roofward()), From: 1000, To: 6000, Step: 250, Spread: 180})
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots, Weight: 12},
			lost: []string{d.say.Say(h.lost())}})
	}
	return all
}

// lost says which end a letter that finds no room stands for.
func (h hand) lost() words.Key {
	if h.right {
		return words.CornerLostRight
	}
	return words.CornerLostLeft
}

// legWords is the label of a leg.
func (d *cornerDrawing) legWords(i int, letter string, lines []string, weight int, lost string) saying {
	leg := d.legs[i]
	q := leg.polygon()
	l := place.Label{Lines: lines, LeadFace: drawing.Bold, Pad: 80}
	// On the leg, for a line along its edge would say nothing; on the edge where the mark leaves no room.
	inwards := leg.dir.roofward().times(-d.real(2))
	var tips []xy
	for _, f := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
		tips = append(tips, q[3].add(q[2].sub(q[3]).times(f)).add(inwards))
	}
	tips = append(tips, q[3].between(q[2]))
	if leg.of.RearLeft.Fails() {
		tips = []xy{leg.at(leg.long/2, leg.wide/2)}
	}
	l.About = d.m.at(tips[0])
	by := d.byLetter(l, letter, leg)
	if l.Halo = len(by) > 0; l.Halo {
		l.Cover = true
	}
	spots := append(by, d.outOf(i, l, l.Fan(place.Fan{Toward: tenths(leg.dir.roofward()), From: 1500, To: 6000,
		Step: 250, Spread: 105, Reach: 1100, Tips: d.m.all(tips...)}))...)
	return saying{Wish: place.Wish{Label: l, Spots: spots, Weight: weight}, lost: []string{lost}}
}

// outOf puts the spots of a label in other legs than its own last, and there on
// a leader: standing in a leg, words seem to be about it. own -1 is none of the
// legs.
func (d *cornerDrawing) outOf(own int, l place.Label, spots []place.Spot) []place.Spot {
	w, h := l.Extent()
	out := make([]place.Spot, 0, len(spots))
	var late []place.Spot
	for _, s := range spots {
		c := s.Centre
		if d.inOther(own, drawing.Box(c.X-w/2, c.Y-h/2, c.X+w/2, c.Y+h/2)) {
			s.Leader = true
			late = append(late, s)
			continue
		}
		out = append(out, s)
	}
	return append(out, late...)
}

// inOther says whether a box lies in another leg than its own.
func (d *cornerDrawing) inOther(own int, box drawing.Rect) bool {
	for i, leg := range d.legs {
		if i == own {
			continue
		}
		q := leg.polygon()
		ring := d.m.all(q[:]...)
		for _, p := range append(box.Corners(), box.Centre()) {
			if holdsPoint(ring, p) {
				return true
			}
		}
	}
	return false
}

// stands marks the chairs and the supports.
func (d *cornerDrawing) stands() []saying {
	var all []saying
	add := func(mark string, lost words.Key, dir xy, tips ...xy) {
		l := place.Label{Lines: []string{mark}, Face: drawing.Bold, Pad: 60, Halo: true, About: d.m.at(tips[0])}
		spots := l.Fan(place.Fan{Toward: tenths(dir), From: 200, To: 5700, Step: 250, Spread: 180,
			Tips: d.m.all(tips...)})
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots, Weight: 2},
			lost: []string{d.say.Say(lost, words.In("mark", mark))}})
	}
	for _, s := range d.Supports {
		add(s.Mark, words.CornerLostSupport, xy{-0.5, 1}, d.legs[s.Miter].pt(s.Centre))
	}
	for _, leg := range d.legs {
		for _, ch := range leg.of.Chairs {
			lo, hi := ch.Ring.Bounds()
			at, k := leg.u(ch.At), (hi.X-lo.X).MM()*0.4
			w := leg.wideAt(at)
			add(ch.Mark, words.CornerLostChair, leg.dir.roofward(), leg.at(at+k, w*0.55), leg.at(at-k, w*0.55),
				leg.at(at+k, w*0.3), leg.at(at-k, w*0.8))
		}
	}
	return all
}

// jointWords names the joints at the ends with their gaps.
func (d *cornerDrawing) jointWords() []saying {
	var all []saying
	for _, j := range d.Joints {
		leg, at := d.legs[j.Leg], d.legs[j.Leg].u(j.At)
		name, gap := d.jointName(j), d.say.Say(words.CornerGap, words.In("gap", d.short(j.Gap.Real)))
		l := place.Label{Lines: []string{name, drawing.Letter(gap)}, Facts: []string{"", j.Gap.Fact}, Pad: 80,
			Bare: true, About: d.m.at(leg.at(at, leg.wideAt(at)))}
		spots := l.Fan(place.Fan{Toward: tenths(leg.dir.roofward()), From: 900, To: 5000, Step: 250, Spread: 120,
			Reach: 200})
		spots = append(spots, l.Fan(place.Fan{Toward: tenths(leg.dir.roofward().times(-1)), From: 900, To: 6000,
			Step: 250, Spread: 120, Reach: 200,
			Tips: d.m.all(leg.at(at, 0))})...)
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots},
			lost: []string{d.say.Say(words.CornerLostJoint, words.In("joint", name), words.In("gap", gap))}})
	}
	return all
}

// endWords says what closes an end.
func (d *cornerDrawing) endWords() []saying {
	var all []saying
	for i, e := range d.Ends {
		leg, u, out := d.legs[0], 0.0, -1.0
		if i == 1 {
			leg = d.legs[len(d.legs)-1]
			u, out = leg.long, 1
		}
		l := place.Label{LeadFace: drawing.Bold, Pad: 80, Bare: true,
			About: d.m.at(leg.at(u+out*d.real(6), leg.wide/2))}
		switch e.Kind {
		case plan.ClosedEnd:
			l.Lines = []string{d.say.Say(words.CornerClosed), drawing.Letter(d.say.Say(words.CornerClosedClear,
				words.In("clear", d.short(e.Clear.Real)))), d.say.Say(words.CornerClosedOf)}
			l.Facts = []string{"", e.Clear.Fact}
		case plan.AgainstEnd:
			l.Lines = []string{d.say.Say(words.CornerHigher),
				drawing.Letter(d.say.Say(words.CornerUpstand, words.In("upstand", d.short(e.Upstand.Real)))),
				drawing.Letter(d.say.Say(words.CornerHigherClear, words.In("clear", d.short(e.Clear.Real))))}
			l.Facts = []string{"", e.Upstand.Fact, e.Clear.Fact}
		default:
			continue
		}
		if e.StepTo != "" {
			l.Lines = append(l.Lines, drawing.Letter(StepSaid(d.say, e.StepTo, e.StepUp)))
		}
		spots := l.Fan(place.Fan{Toward: tenths(leg.dir.times(out)), From: 200, To: 5000, Step: 250, Spread: 105,
			Reach: 900})
		k := saying{Wish: place.Wish{Label: l, Spots: spots}}
		k.lost = []string{strings.Join(l.Lines, ", ")}
		all = append(all, k)
	}
	return all
}

// sides names the street side and the roof side, each well clear of the cap on
// its own side.
func (d *cornerDrawing) sides() []saying {
	var all []saying
	for _, k := range []struct {
		words, lost words.Key
		roof        bool
	}{{words.WorkStreet, words.CornerLostStreet, false}, {words.WorkRoof, words.CornerLostRoof, true}} {
		ring := d.m.all(d.side(k.roof)...)
		l := place.Label{Lines: []string{d.say.Say(k.words)}, Size: drawing.Head, Face: drawing.Bold, Pad: 150,
			About: ring[0]}
		l.Only = func(box drawing.Rect) bool {
			for _, p := range append(box.Inset(-100).Corners(), box.Centre()) {
				if !holdsPoint(ring, p) {
					return false
				}
			}
			return !d.tees() || !d.inOther(0, box) // a branch stands on the roof side
		}
		var spots, nearer []place.Spot // well clear of the cap, else anywhere on that side
		for _, leg := range d.through() {
			y, dir := 0.0, leg.dir.roofward().times(-1)
			if k.roof {
				y, dir = leg.wide, leg.dir.roofward()
			}
			spots = append(spots, l.Fan(place.Fan{Toward: tenths(dir), From: 1500, To: 7000, Step: 250, Spread: 90,
				Reach: place.Never,
				Tips:  d.m.all(leg.at(leg.long*0.5, y))})...)
			nearer = append(nearer, l.Fan(place.Fan{Toward: tenths(dir), From: 300, To: 7000, Step: 300, Spread: 90,
				Reach: place.Never,
				Tips:  d.m.all(leg.at(leg.long*0.2, y), leg.at(leg.long*0.8, y), leg.at(leg.long*0.5, y))})...)
		}
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: append(spots, nearer...), Weight: 4},
			lost: []string{d.say.Say(k.lost)}})
	}
	return all
}

// side is the plan on one side of the cap, out to a far circle: beyond the
// rear mold line for the roof, beyond the cap line for the street.
func (d *cornerDrawing) side(roof bool) []xy {
	const far = 1e5
	var ring []xy
	legs := d.through()
	for _, g := range legs {
		q := g.polygon()
		if roof {
			ring = append(ring, q[3], q[2])
		} else {
			ring = append(ring, q[0], q[1])
		}
	}
	first, last := legs[0], legs[len(legs)-1]
	a, z := 0.0, 0.0
	if roof {
		a, z = first.wide, last.wide
	}
	ring = append([]xy{first.at(-far, a)}, append(ring, last.at(far, z))...)
	turned := last.of.Heading.Degrees()
	// Round the far circle from the right end to the left, over the side asked for.
	step, end := 15.0, 180.0
	if !roof {
		step, end = -15, -180
	}
	for a := turned + step; (end-a)*step > 0; a += step {
		ring = append(ring, heading(a).times(2*far))
	}
	return ring
}

// holdsPoint says whether a point lies in a ring (even-odd).
func holdsPoint(ring []drawing.Point, c drawing.Point) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > c.Y) == (b.Y > c.Y) {
			continue
		}
		if x := float64(a.X) + float64(b.X-a.X)*float64(c.Y-a.Y)/float64(b.Y-a.Y); x > float64(c.X) {
			in = !in
		}
	}
	return in
}
