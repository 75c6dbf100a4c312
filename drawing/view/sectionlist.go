package view

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// items lists what the section shows, with the place each number points at.
func (s *section) items() {
	p := &s.p
	add := func(k sectionKey) { s.keys = append(s.keys, k) }
	top := func(f, in float64) xy { x := p.outside * f; return xy{x, p.under(x) - p.t + in} }
	add(sectionKey{words: s.capWords(), tip: top(0.86, 0)})
	if j := s.joint; j != nil {
		plate := "splice plate, " + s.short(j.Plate) + " long, centred on the joint; shape in principle"
		if j.Kind == cap.Expansion {
			plate = "cover plate, " + s.short(j.Plate) + " long; HELD ON THE " + strings.ToUpper(j.Held.String()) +
				" CAP ONLY, free on the other; no chair, nailer, plywood or fixed plate crosses the joint"
		}
		add(sectionKey{words: plate, tip: top(0.62, 1.5)})
		add(sectionKey{words: "sealant tape, two strips, " + s.short(s.sys.Splice.Tape) + " each side of the joint's centre line", tip: top(0.4, 0.75)})
	}
	if s.chair != nil {
		a, b := p.chairSpan()
		x := a + (b-a)*0.5
		add(sectionKey{words: "anchor chair " + s.chair.Name + ", " + s.short(s.sys.Chair.Length) + " × " + s.thin(s.sys.Chair.Thickness) +
			"; shape in principle, made and holed as in test report " + s.chair.Assembly.Report, tip: xy{x, p.set(x)}})
		for i, row := range s.chair.Rows {
			if row.Fastener != nil {
				add(sectionKey{words: s.rowWords(i), tip: xy{row.Y.MM(), p.set(row.Y.MM())}})
			}
		}
	}
	if mem := &s.l.Job.Membrane; mem.Name != "" {
		x := p.face + (p.back-p.face)*0.3
		add(sectionKey{words: mem.Name + ", " + s.thin(mem.Thickness) + ", over the top and down both faces", tip: xy{x, s.membraneTop(x)}})
	}
	if s.chair != nil && (s.of.PackFront > 0 || s.of.PackRear > 0) {
		x := p.face + (p.back-p.face)*0.66
		if y := s.chair.Rows[1].Y.MM(); s.stacked() && s.chair.Layers == 0 && y > 0 { // on the stack at the roof side
			_, b := p.chairSpan()
			x = y - (math.Min(b, p.back)-y)/2
		}
		add(sectionKey{words: s.packWords(), tip: xy{x, (p.set(x) + p.top(x)) / 2}})
	}
	depth := 0.0
	for _, y := range s.r.Wall.Layers {
		mid := p.face + (p.back-p.face)*0.5
		at := p.top(mid) + depth + y.Thickness.MM()/2
		if at-y.Thickness.MM()/2 < math.Max(p.footF, p.footR)+20 {
			add(sectionKey{words: y.Name + ", " + s.short(y.Thickness) + wallBeyond(s), tip: xy{mid, at}, where: onLayer})
		}
		depth += y.Thickness.MM()
	}
	add(sectionKey{words: s.lapWords("front", s.of.CoverFront, plan.FrontLap),
		tip: xy{p.face, p.packF + s.r.Wall.CoverFront.MM()}, where: atFront})
	add(sectionKey{words: s.lapWords("rear", s.of.CoverRear, plan.RearLap),
		tip: xy{p.back, p.top(p.back) + s.r.Wall.CoverRear.MM()}, where: atRear})
	s.keys = append(s.keys, s.extenderItems()...)
}

// wallBeyond says that a wall is seen past the open gap, not cut.
func wallBeyond(s *section) string {
	if s.expansion() {
		return ", beyond the gap of " + s.short(jointGap(s.joint))
	}
	return ""
}

// lines are the notes under the numbered list.
func (s *section) lines() []string {
	out := []string{
		"The top " + s.fallWords() + ". Rear play here " + s.short(s.of.Play) + ", allowed " + s.short(s.sys.PlayLeast) + " to " + s.short(s.sys.PlayMost) + ".",
	}
	return append(out, "What would print under 0.7 mm is drawn as a thick line, a little apart.")
}

// fall is the slope of the top where the section is cut.
func (s *section) fall() job.Slope { return s.r.SlopeAt(s.sys, s.of.At) }

func (s *section) fallWords() string {
	where := ", formed in chair and cap"
	if s.sys.Profile.SlopeBy == job.SlopeByPacking {
		where = ", made by the packing"
	}
	if s.sys.Profile.TopSlope == 0 {
		return "is level"
	}
	return "falls to the roof " + slopeWords(s.l, s.fall()) + where
}

// dims letters the outside dimensions of the cap above it, the wall in its
// clearances below, and beside each leg how far it reaches below the joint it
// must cover. The parts of a leg, as lettered, sum to the leg as lettered.
func (s *section) dims(g *drawing.Scene, m paperMap, floor float64) {
	p := &s.p
	ends := drawing.Ticks
	if s.crew.Metric {
		ends = drawing.Arrows
	}
	x := func(v float64) drawing.Unit { return m.at(xy{v, 0}).X }
	y := func(v float64) drawing.Unit { return m.at(xy{0, v}).Y }
	top := y(p.foldF) - 2800
	g.Draw(drawing.Chain{At: top, Stops: []drawing.Unit{x(p.t), x(p.t + p.inside)}, Labels: []string{s.shop.Short(s.of.Inside) + " inside"},
		From: []drawing.Unit{y(p.foldF) - 100}, Ends: ends}.Figure())
	g.Draw(drawing.Chain{At: top - 750, Stops: []drawing.Unit{x(0), x(p.outside)}, Labels: []string{s.shop.Short(s.r.OutsideAt(s.of.At)) + " outside"},
		From: []drawing.Unit{top}, Ends: ends}.Figure())
	_, parts := length.Chain([]length.Length{0, s.of.Street - s.sys.Metal.Thickness, s.of.Roof - s.sys.Metal.Thickness, s.of.Inside}, s.crew.Step())
	low := y(floor) + 950
	g.Draw(drawing.Chain{At: low, Stops: []drawing.Unit{x(p.t), x(p.face), x(p.back), x(p.t + p.inside)},
		Labels: []string{s.crew.Short(parts[0]), s.crew.Short(parts[1]) + " wall", s.crew.Short(parts[2])},
		From:   []drawing.Unit{y(p.footF) + 500, y(floor), y(floor), y(p.footR) + 300}, Ends: ends}.Figure())
	drip := kick(xy{0, p.footF}, s.sys.Profile.Drip).x
	s.legDims(g, m, ends, x(math.Min(drip, 0))-800, x(math.Min(drip, 0)), -1, s.sys.FrontFoot(), s.sys.Profile.Drip.Foot(), s.of.LapFront, s.of.CoverFront, s.of.PackFront, p.footF)
	s.legDims(g, m, ends, x(p.outside)+800, x(p.outside), 1, s.sys.RearFoot(), s.sys.Profile.RearHook.Foot(), s.of.LapRear, s.of.CoverRear, s.of.PackRear, p.footR)
	s.slope(g, m)
}

// legDims is the chain beside one leg, from its foot up: lap, depth of the
// joint below the wall top, packing, and what stands above the set surface;
// the whole leg in a second row.
func (s *section) legDims(g *drawing.Scene, m paperMap, ends drawing.Ends, at, from, side drawing.Unit, leg length.Length, to job.LegMeasure, lap, cover, pack length.Length, foot float64) {
	y := func(up length.Length) drawing.Unit { return m.at(xy{0, foot - up.MM()}).Y }
	// The whole leg stands next to it, so that nothing crosses the words of the parts.
	label := s.crew.Short(leg) + " to " + to.String()
	if drawing.Width(drawing.Regular, drawing.Letter(label), drawing.Note)+1000 > max(y(leg)-y(0), y(0)-y(leg)) {
		label = s.crew.Short(leg) // what it is measured to stands with the cap in the list
	}
	g.Draw(drawing.Chain{Vertical: true, At: at, Stops: []drawing.Unit{y(0), y(leg)}, Labels: []string{label}, From: []drawing.Unit{from}, Ends: ends}.Figure())
	marks := []length.Length{0, lap, lap + cover, lap + cover + pack, leg}
	words := []string{"lap ", "cover ", "pack ", "rise "}
	if s.chair == nil {
		words[2] = "to set "
	}
	if !slices.IsSorted(marks) || lap <= 0 {
		return // the leg does not reach its joint; the list says so as a hold
	}
	stops, labels := []drawing.Unit{y(0)}, []string{}
	_, parts := length.Chain(marks, s.crew.Step())
	for i, l := range parts {
		if l == 0 {
			continue
		}
		stops = append(stops, y(marks[i+1]))
		labels = append(labels, words[i]+s.crew.Short(l))
	}
	whole := at
	at += side * 650
	g.Draw(drawing.Chain{Vertical: true, At: at, Stops: stops, Labels: make([]string, len(labels)), From: []drawing.Unit{whole + side*420}, Ends: ends}.Figure())
	ladder(g, at, side, stops, labels)
}

// ladder letters the bays of an upright row level, each on a leader to its
// side: the bays of a leg are short, and a foreman does not turn the sheet to
// read a lap.
func ladder(g *drawing.Scene, at, side drawing.Unit, stops []drawing.Unit, labels []string) {
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
	st := drawing.Style{}
	if side < 0 {
		st.Align = drawing.Right
	}
	for i, words := range labels {
		mid := (stops[i] + stops[i+1]) / 2
		g.Line(drawing.Thin, drawing.Point{X: at, Y: mid}, drawing.Point{X: at + side*250, Y: mid}, drawing.Point{X: at + side*600, Y: y[i]}, drawing.Point{X: at + side*720, Y: y[i]})
		g.Text(drawing.Point{X: at + side*790, Y: y[i] + drawing.Unit(drawing.Note)/2}, drawing.Letter(words), st)
	}
}

// slope draws the fall of the top, and names both sides.
func (s *section) slope(g *drawing.Scene, m paperMap) {
	p := &s.p
	y := m.at(xy{0, p.foldF}).Y - 1950
	mid := m.at(xy{p.outside / 2, 0}).X
	st := drawing.Style{Align: drawing.Middle}
	if s.sys.Profile.TopSlope == 0 {
		g.Text(drawing.Point{X: mid, Y: y - 100}, "level top", st)
	} else {
		words := drawing.Letter("falls " + slopeWords(s.l, s.fall()))
		g.Text(drawing.Point{X: mid, Y: y - 100}, words, st)
		half := max(drawing.Width(drawing.Regular, words, drawing.Note)/2, 900)
		drop := half * 2 * drawing.Unit(s.fall()/1_000_000) / 1000
		a, b := drawing.Point{X: mid - half, Y: y + 80}, drawing.Point{X: mid + half, Y: y + 80 + drop}
		g.Line(drawing.Medium, a, b)
		d := xy{float64(b.X - a.X), float64(b.Y - a.Y)}
		g.Fill(drawing.Black, drawing.NoPen, b, off(off(b, d, -330), d.unit().roofward(), 75), off(off(b, d, -330), d.unit().roofward(), -75))
	}
	left, right := m.at(xy{0, p.foldF}), m.at(xy{p.outside, p.foldF})
	high := left.Y - 3300
	g.Draw(drawing.DirectionArrow{Tail: drawing.Point{X: left.X - 700, Y: high}, Head: drawing.Point{X: left.X - 1900, Y: high}, Words: "STREET", Size: drawing.Head}.Figure())
	g.Draw(drawing.DirectionArrow{Tail: drawing.Point{X: right.X + 700, Y: high}, Head: drawing.Point{X: right.X + 1900, Y: high}, Words: "ROOF", Size: drawing.Head}.Figure())
}

// callouts stands the numbers of the list: on the wall's layers themselves and
// beside the joints to cover where there is room, else in a row above the cap,
// each with a line to its place.
func (s *section) callouts(g *drawing.Scene, m paperMap, floor float64) {
	p := &s.p
	const apart = 720
	c := place.New(drawing.Box(m.at(xy{p.face, 0}).X+60, m.at(xy{0, 0}).Y, m.at(xy{p.back, 0}).X-60, m.at(xy{0, floor}).Y+100))
	if s.chair != nil {
		for _, row := range s.chair.Rows {
			x := row.Y.MM()
			c.Stroke(120, m.at(xy{x, p.set(x)}), m.at(xy{x, p.set(x) + row.Length.MM()}))
		}
	}
	var wishes []place.Wish
	for i, k := range s.keys {
		l := place.Label{Lines: []string{strconv.Itoa(i + 1)}, Balloon: true, About: m.at(k.tip)}
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
	y := m.at(xy{0, p.foldF}).Y - 1150
	for _, p := range spreadPins(row, apart) {
		g.Draw(drawing.Balloon{At: drawing.Point{X: p.x, Y: y}, Words: strconv.Itoa(p.n), Size: drawing.Note, Tip: p.tip, Point: true}.Figure())
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
func (s *section) inWall(m paperMap, floor float64, k sectionKey) []place.Spot {
	var out []place.Spot
	tip := m.at(k.tip)
	switch k.where {
	case onLayer:
		y := math.Min(k.tip.y, floor-5*m.ratio)
		for _, f := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			at := m.at(xy{s.p.face + (s.p.back-s.p.face)*f, y})
			out = append(out, place.At(at.X, at.Y))
		}
	case atFront, atRear:
		side := drawing.Unit(1)
		if k.where == atRear {
			side = -1
		}
		for _, d := range []drawing.Point{{X: 900, Y: 620}, {X: 900, Y: 900}, {X: 600, Y: 900}, {X: 1200, Y: 500}, {X: 1500, Y: 700}, {X: 500, Y: 1300}} {
			out = append(out, place.Pointed(tip.X+side*d.X, tip.Y+d.Y))
		}
	}
	return out
}
