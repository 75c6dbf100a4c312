package view

import (
	"slices"
	"strconv"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// dims letters the outside dimensions of the cap above it, the wall in its
// clearances below, and beside each leg how far it reaches below the joint it
// must cover. The parts of a leg, as lettered, sum to the leg as lettered.
func (s *sectionView) dims(g *drawing.Scene, m paperMap, floor length.Length) {
	ends := drawing.Ticks
	if s.crew.Metric {
		ends = drawing.Arrows
	}
	x := func(v length.Length) drawing.Unit { return m.up(plan.Pt{X: v}).X }
	y := func(v length.Length) drawing.Unit { return m.up(plan.Pt{Y: v}).Y }
	across := func(d plan.Dim, words string, at, from drawing.Unit) {
		g.Draw(drawing.Chain{At: at, Stops: []drawing.Unit{x(d.From.X), x(d.To.X)}, Labels: []string{words},
			Facts: []string{d.Fact},
			From:  []drawing.Unit{from}, Ends: ends}.Figure())
	}
	inside, outside := s.dim(plan.InsideWidth), s.dim(plan.OutsideWidth)
	fold := y(s.of.FoldFront)
	top := fold - 2800
	across(inside, s.say.Say(words.SectionInside, words.In("width", s.shop.Short(inside.Real))), top, fold-100)
	across(outside, s.say.Say(words.SectionOutside, words.In("width", s.shop.Short(outside.Real))), top-750, top)
	clear := []plan.Dim{s.dim(plan.FrontClear), s.dim(plan.WallAcross), s.dim(plan.RearClear)}
	marks := []length.Length{0, clear[0].Real, clear[0].Real + clear[1].Real, inside.Real}
	_, parts := length.Chain(marks, s.crew.Step())
	g.Draw(drawing.Chain{At: y(floor) + 950, Stops: []drawing.Unit{x(clear[0].From.X), x(clear[1].From.X),
		x(clear[2].From.X), x(clear[2].To.X)},
		Labels: []string{s.crew.Short(parts[0]), s.say.Say(words.SectionWall,
			words.In("width", s.crew.Short(parts[1]))), s.crew.Short(parts[2])},
		Facts: []string{clear[0].Fact, clear[1].Fact, clear[2].Fact},
		From:  []drawing.Unit{y(s.lo.Y) + 150, y(floor), y(floor), y(s.of.Feet[1].Y) + 300}, Ends: ends}.Figure())
	left, right := length.Min(s.lo.X, 0), length.Max(s.hi.X, s.of.Outside)
	s.legDims(g, m, ends, x(left)-legAway, x(left), -1, [5]plan.DimKind{plan.FrontFoot, plan.FrontLapped,
		plan.FrontCover, plan.FrontPacked, plan.FrontRise}, s.of.Sheet.Legs[0].To)
	s.legDims(g, m, ends, x(right)+legAway, x(right), 1, [5]plan.DimKind{plan.RearFoot, plan.RearLapped, plan.RearCover,
		plan.RearPacked, plan.RearRise}, s.of.Sheet.Legs[1].To)
	s.slope(g, m)
}

// Distances of the rows beside a leg: the whole leg, its parts, their words.
const (
	legAway   drawing.Unit = 650
	legApart  drawing.Unit = 500
	ladderOut drawing.Unit = 540
)

// legDims is the chain beside one leg, from its foot up: lap, depth of the
// joint below the wall top, packing, and what stands above the set surface;
// the whole leg in a second row.
func (s *sectionView) legDims(g *drawing.Scene, m paperMap, ends drawing.Ends, at, from, side drawing.Unit,
	kinds [5]plan.DimKind, to string) {
	leg := s.dim(kinds[0])
	foot, head := m.up(leg.From).Y, m.up(leg.To).Y
	// The whole leg stands next to it, so that nothing crosses the words of the parts.
	label := s.say.Say(s.measureKey(to), words.In("length", s.crew.Short(leg.Real)))
	if drawing.Width(drawing.Regular, drawing.Letter(label), drawing.Note)+1000 > foot-head {
		label = s.crew.Short(leg.Real) // what it is measured to stands with the cap in the list
	}
	if drawing.Width(drawing.Regular, drawing.Letter(label), drawing.Note)+300 > foot-head { // level, under its line
		g.Text(drawing.Pt(at, foot+200+drawing.Unit(drawing.Note)), drawing.Letter(label),
			drawing.Style{Align: drawing.Middle, Fact: leg.Fact})
		label, leg.Fact = "", ""
	}
	g.Draw(drawing.Chain{Vertical: true, At: at, Stops: []drawing.Unit{foot, head}, Labels: []string{label},
		Facts: []string{leg.Fact}, From: []drawing.Unit{from}, Ends: ends}.Figure())
	marks := []length.Length{0}
	dims := make([]plan.Dim, 4)
	for i := range dims {
		dims[i] = s.dim(kinds[i+1])
		marks = append(marks, marks[i]+dims[i].Real)
	}
	if marks[4] = leg.Real; !slices.IsSorted(marks) || dims[0].Real <= 0 {
		return // the leg does not reach its joint; the list says so as a hold
	}
	stops, labels, facts := []drawing.Unit{foot}, []string{}, []string{}
	_, parts := length.Chain(marks, s.crew.Step())
	for i, l := range parts {
		if l == 0 {
			continue
		}
		stops = append(stops, m.up(dims[i].To).Y)
		labels = append(labels, s.say.Say(s.partKey(dims[i].What), words.In("length", s.crew.Short(l))))
		facts = append(facts, dims[i].Fact)
	}
	whole := at
	at += side * legApart
	g.Draw(drawing.Chain{Vertical: true, At: at, Stops: stops, Labels: make([]string, len(labels)),
		From: []drawing.Unit{whole + side*300}, Ends: ends}.Figure())
	ladder(g, at, side, stops, labels, facts)
}

// partKey is the words of a part of a leg; none for another distance.
func (s *sectionView) partKey(k plan.DimKind) words.Key {
	switch k {
	case plan.FrontLapped, plan.RearLapped:
		return words.SectionLap
	case plan.FrontCover, plan.RearCover:
		return words.SectionCover
	case plan.FrontPacked, plan.RearPacked:
		if s.of.Seat == nil {
			return words.SectionToSet
		}
		return words.SectionBuild
	case plan.FrontRise, plan.RearRise:
		return words.SectionRise
	}
	return ""
}

// measureKey is the words of a leg measured to a place.
func (s *sectionView) measureKey(to string) words.Key {
	if to == "tangent" {
		return words.SectionToTangent
	}
	return words.SectionToMold
}

// ladder letters the bays of an upright row level, each on a leader to its
// side: the bays of a leg are short, and a foreman does not turn the sheet to
// read a lap.
func ladder(g *drawing.Scene, at, side drawing.Unit, stops []drawing.Unit, labels, facts []string) {
	const apart = 480
	y := make([]drawing.Unit, len(labels))
	for i := range y {
		y[i] = (stops[i] + stops[i+1]) / 2
	}
	for range 80 { // stops go up the sheet
		for i := 1; i < len(y); i++ {
			if over := y[i] + apart - y[i-1]; over > 0 {
				y[i-1] += (over + 1) / 2
				y[i] -= (over + 1) / 2
			}
		}
	}
	for i, said := range labels {
		mid := (stops[i] + stops[i+1]) / 2
		g.Line(drawing.Thin, drawing.Point{X: at, Y: mid}, drawing.Point{X: at + side*150, Y: mid},
			drawing.Point{X: at + side*400, Y: y[i]}, drawing.Point{X: at + side*480, Y: y[i]})
		st := drawing.Style{Fact: facts[i]}
		if side < 0 {
			st.Align = drawing.Right
		}
		g.Text(drawing.Point{X: at + side*ladderOut, Y: y[i] + drawing.Unit(drawing.Note)/2}, drawing.Letter(said), st)
	}
}

// slope draws the fall of the top, and names both sides.
func (s *sectionView) slope(g *drawing.Scene, m paperMap) {
	left := m.up(plan.Pt{Y: s.of.FoldFront})
	right := m.up(plan.Pt{X: s.of.Outside, Y: s.of.FoldFront})
	y, mid := left.Y-1950, (left.X+right.X)/2
	st := drawing.Style{Align: drawing.Middle}
	said := drawing.Letter(s.fall())
	st.Fact = s.of.Falls
	g.Text(drawing.Point{X: mid, Y: y - 100}, said, st)
	if s.of.Fall != 0 {
		half := max(drawing.Width(drawing.Regular, said, drawing.Note)/2, 900)
		drop := half * 2 * drawing.Unit(s.of.Fall/1_000_000) / 1000
		a, b := drawing.Point{X: mid - half, Y: y + 80}, drawing.Point{X: mid + half, Y: y + 80 + drop}
		g.Line(drawing.Medium, a, b)
		d := xy{float64(b.X - a.X), float64(b.Y - a.Y)}
		g.Fill(drawing.Black, drawing.NoPen, b, off(off(b, d, -330), d.unit().roofward(), 75),
			off(off(b, d, -330), d.unit().roofward(), -75))
	}
	high := left.Y - 2600
	g.Draw(drawing.DirectionArrow{Tail: drawing.Point{X: left.X - 700, Y: high}, Head: drawing.Point{X: left.X - 1900,
		Y: high}, Words: s.say.Say(words.WorkStreet), Size: drawing.Note}.Figure())
	g.Draw(drawing.DirectionArrow{Tail: drawing.Point{X: right.X + 700, Y: high}, Head: drawing.Point{X: right.X + 1900,
		Y: high}, Words: s.say.Say(words.WorkRoof), Size: drawing.Note}.Figure())
}

// pinApart is the distance of the numbers of the row above the cap.
const pinApart drawing.Unit = 720

// callouts stands the numbers of the list: on the wall's layers themselves and
// beside the joints to cover where there is room, else in a row above the cap,
// each with a line to its place.
func (s *sectionView) callouts(g *drawing.Scene, m paperMap, floor length.Length) {
	top, low := m.up(plan.Pt{X: s.of.Street}), m.up(plan.Pt{X: s.of.Roof, Y: floor})
	c := place.New(drawing.Box(top.X+60, top.Y, low.X-60, low.Y+100))
	for _, p := range s.of.Of(plan.Screw) {
		c.Stroke(120, m.up(p.Ring[0]), m.up(p.Ring[3]))
	}
	var wishes []place.Wish
	for i, k := range s.keys {
		l := place.Label{Lines: []string{strconv.Itoa(i + 1)}, Balloon: true, About: m.up(k.tip)}
		wishes = append(wishes, place.Wish{Label: l, Spots: s.inWall(m, floor, k)})
	}
	var row []pin
	for i, got := range c.TryAll(wishes) {
		g.Add(got.Marks...)
		if !got.Stands() {
			row = append(row, pin{n: i + 1, tip: wishes[i].About})
		}
	}
	slices.SortStableFunc(row, func(a, b pin) int { return int(a.tip.X - b.tip.X) })
	y := m.up(plan.Pt{Y: s.of.FoldFront}).Y - 1150
	for _, p := range spreadPins(row, pinApart) {
		g.Draw(drawing.Balloon{At: drawing.Point{X: p.x, Y: y}, Words: strconv.Itoa(p.n), Size: drawing.Note,
			Tip: p.tip, Point: true}.Figure())
	}
}

// pin is a number in the row above the cap.
type pin struct {
	n   int
	tip drawing.Point
	x   drawing.Unit
}

// spreadPins stands a sorted row apart about its own middle, so that no line
// crosses another.
func spreadPins(row []pin, apart drawing.Unit) []pin {
	for i := range row {
		row[i].x = row[i].tip.X
	}
	for range 80 {
		for i := 1; i < len(row); i++ {
			if over := row[i-1].x + apart - row[i].x; over > 0 {
				row[i-1].x -= (over + 1) / 2
				row[i].x += (over + 1) / 2
			}
		}
	}
	for i := 1; i < len(row); i++ { // what halving left over
		row[i].x = max(row[i].x, row[i-1].x+apart)
	}
	return row
}

// inWall lists the spots of a number in the wall.
func (s *sectionView) inWall(m paperMap, floor length.Length, k sectionKey) []place.Spot {
	var out []place.Spot
	tip := m.up(k.tip)
	switch k.where {
	case onLayer:
		z := length.Max(k.tip.Y, floor+m.real(5*drawing.MM))
		for _, f := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			at := m.up(plan.Pt{X: lerp(s.of.Street, s.of.Roof, f), Y: z})
			out = append(out, place.At(at.X, at.Y))
		}
	case atFront, atRear:
		side := drawing.Unit(1)
		if k.where == atRear {
			side = -1
		}
		for _, d := range []drawing.Point{{X: 900, Y: 620}, {X: 900, Y: 900}, {X: 600, Y: 900}, {X: 1200, Y: 500},
			{X: 1500, Y: 700}, {X: 500, Y: 1300}} {
			out = append(out, place.Pointed(tip.X+side*d.X, tip.Y+d.Y))
		}
	}
	return out
}
