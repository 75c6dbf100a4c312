package view

import (
	"math"

	"copingset/drawing"
	"copingset/layout/cap"
	"copingset/layout/job"
)

// names letters each run on its roof side, large, and its length along the
// street side; a run too short for that has both together on a leader.
func (d *keyDrawing) names(g *drawing.Scene) {
	big := drawing.Style{Size: drawing.Title, Face: drawing.Bold}
	for i, r := range d.sh.runs {
		words := drawing.Letter(d.crew.Long(r.Front))
		if Metric(d.l) {
			words += " mm"
		}
		paper := r.long / d.m.ratio
		w := drawing.Width(drawing.Regular, words, drawing.Note).Millimetres()
		name := block{lines: []blockLine{{r.Name, big}}, pad: 120, leader: 600}
		tip := d.m.at(d.rear[i][0].between(d.rear[i][1]))
		if d.rear[i][0] == d.rear[i][1] {
			tip = d.m.at(r.at(r.long/2, d.wide(r)/2))
		}
		if paper > w+6 && d.alongStreet(g, r, words) {
			if !d.c.fan(g, name, tip, r.dir.roofward(), 350, 4000, 250, 75) {
				d.notes = append(d.notes, "Run "+r.Name+" is the one of "+shortWords(d.l, r.Front)+".")
			}
			continue
		}
		both := block{lines: []blockLine{{r.Name, big}, {words, drawing.Style{}}}, pad: 120, leader: 600}
		middle := d.m.at(r.at(r.long/2, d.wide(r)/2))
		if d.c.fan(g, both, tip, r.dir.roofward(), 350, 900, 250, 45) ||
			d.c.fan(g, both, middle, d.inwards(i), 350, 5000, 250, 75) ||
			d.c.fan(g, both, d.m.at(r.at(r.long/2, -d.real(keyBandO+keyBand))), r.dir.roofward().times(-1), 200, 5000, 300, 75) {
			continue
		}
		if !d.c.fan(g, name, tip, r.dir.roofward(), 350, 6000, 250, 165) {
			d.notes = append(d.notes, "Run "+r.Name+" finds no room for its name.")
		}
		d.notes = append(d.notes, "Run "+r.Name+": "+shortWords(d.l, r.Front)+".")
	}
}

// inwards is where the roof lies from a short run, whose neighbours say it
// better than the run itself: a jog has the roof behind the walls beside it.
func (d *keyDrawing) inwards(i int) xy {
	n := len(d.sh.runs)
	at := d.sh.runs[i].dir.roofward().times(0.2)
	for _, k := range []int{-2, -1, 1, 2} {
		q := d.sh.runs[((i+k)%n+n)%n]
		at = at.add(q.dir.roofward().times(math.Min(q.long/d.m.ratio, 40) / 40))
	}
	return at.unit()
}

// alongStreet letters a run's length along its street side.
func (d *keyDrawing) alongStreet(g *drawing.Scene, r keyRun, words string) bool {
	st := drawing.Style{Align: drawing.Middle, Rotate: readable(r.dir)}
	for _, y := range []drawing.Unit{180, 350, 550, 800} {
		for _, f := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			p := d.m.at(r.at(r.long*f, -d.real(keyBandO+keyBand+y)))
			// The baseline lies nearer the wall when the text reads away from it.
			up := xy{math.Sin(float64(st.Rotate) * math.Pi / 1800), math.Cos(float64(st.Rotate) * math.Pi / 1800)}.times(-1)
			street := r.dir.roofward().times(-1)
			if float64(up.x*street.x)+float64(up.y*street.y) < 0 {
				p = off(p, street, drawing.Unit(drawing.Note))
			}
			if d.c.try(g, p, words, st) {
				return true
			}
		}
	}
	return false
}

// holds flags every run that something is on hold on.
func (d *keyDrawing) holds(g *drawing.Scene) {
	var rest []string
	for i, r := range d.sh.runs {
		if len(d.l.HoldsOn(r.Run)) == 0 {
			continue
		}
		if !d.triangle(g, r, i) {
			rest = append(rest, r.Name)
		}
	}
	if len(rest) > 0 {
		d.notes = append(d.notes, "ON HOLD too, without room for the mark: run "+join(rest)+".")
	}
}

// triangle draws a hold mark beside a run.
func (d *keyDrawing) triangle(g *drawing.Scene, r keyRun, i int) bool {
	a, b := d.rear[i][0], d.rear[i][1]
	for _, y := range []drawing.Unit{750, 1100, 1500, 2000, 2600} {
		for _, f := range []float64{0.75, 0.65, 0.85, 0.55, 0.35, 0.25, 0.15, 0.5, 1.1, -0.1} {
			p := off(d.m.at(a.add(b.sub(a).times(f))), r.dir.roofward(), y)
			box := drawing.Box(p.X-480, p.Y-470, p.X+480, p.Y+430)
			if !d.c.free(box.Inset(-60).Corners()) {
				continue
			}
			top := drawing.Point{X: p.X, Y: box.Min.Y + 60}
			g.Fill(drawing.White, drawing.Hold, top, drawing.Point{X: box.Max.X - 40, Y: box.Max.Y - 40}, drawing.Point{X: box.Min.X + 40, Y: box.Max.Y - 40})
			t := g.Text(drawing.Point{X: p.X, Y: box.Max.Y - 140}, "H", drawing.Style{Face: drawing.Bold, Align: drawing.Middle})
			d.c.area(box.Corners()...)
			d.c.text = append(d.c.text, t.Quad())
			if y > 1100 {
				foot := d.m.at(a.between(b))
				g.Line(drawing.Thin, top, foot)
				d.c.line(top, foot, 20)
			}
			return true
		}
	}
	return false
}

// endWords names the ends that are no corners.
func (d *keyDrawing) endWords(g *drawing.Scene) {
	for _, r := range d.sh.runs {
		for _, right := range []bool{false, true} {
			kind, u, out, side := r.Left.Kind, 0.0, r.dir.times(-1), "left"
			if right {
				kind, u, out, side = r.Right.Kind, r.long, r.dir, "right"
			}
			words := []string{"FREE", "END"}
			reach := drawing.Unit(150)
			switch kind {
			case job.EndTurn:
				continue
			case job.EndWall:
				words, reach = []string{"HIGHER", "WALL"}, 450
			}
			b := block{leader: 900}
			for _, w := range words {
				b.lines = append(b.lines, blockLine{w, drawing.Style{Face: drawing.Bold}})
			}
			tip := d.m.at(r.at(u, d.wide(r)/2))
			if !d.c.fan(g, b, off(tip, out, reach), out, 120, 3000, 300, 105) {
				d.notes = append(d.notes, "Run "+r.Name+", "+side+" end: "+join(words)+".")
			}
		}
	}
}

// cornerWords names each corner with its turn and its included angle.
func (d *keyDrawing) cornerWords(g *drawing.Scene) {
	n := len(d.sh.runs)
	for i, r := range d.sh.runs {
		c := r.Right.Corner
		if c == nil {
			continue
		}
		kind, turn, included := turnWords(c)
		if c.Absorb {
			kind = "KINK, taken up by a joint"
		}
		small := drawing.Style{Size: drawing.Small}
		b := block{leader: 500, pad: 80, lines: []blockLine{
			{c.Name + " " + kind, drawing.Style{Size: drawing.Small, Face: drawing.Bold}}, {turn + ", " + included, small},
		}}
		tip := d.m.at(r.at(r.long, 0))
		dir := awayFrom(c, r, d.sh.runs[(i+1)%n])
		if d.c.fan(g, b, tip, dir, 350, 2600, 250, 180) {
			continue
		}
		short := block{leader: 500, pad: 80, lines: []blockLine{{c.Name, drawing.Style{Face: drawing.Bold}}}}
		if d.c.fan(g, short, tip, dir, 350, 2600, 250, 180) {
			d.notes = append(d.notes, "Corner "+c.Name+": "+kind+", "+turn+", "+included+".")
			continue
		}
		d.notes = append(d.notes, "Corner "+c.Name+", between runs "+r.Name+" and "+c.Leave.Name+": "+kind+", "+turn+", "+included+".")
	}
}

// expansionWords names the building expansion joints.
func (d *keyDrawing) expansionWords(g *drawing.Scene) {
	for _, r := range d.sh.runs {
		scale := r.long / math.Max(r.Front.MM(), 1e-6)
		for _, j := range r.Joints {
			if j.Kind != cap.Expansion {
				continue
			}
			u := r.ToFront(j.Centre()).MM() * scale
			b := block{leader: 500, lines: []blockLine{{"EXPANSION", drawing.Style{Size: drawing.Small}}, {"JOINT", drawing.Style{Size: drawing.Small}}}}
			tip := d.m.at(r.at(u, d.wide(r)+d.real(150)))
			out := d.m.at(r.at(u, -d.real(keyBandO+keyBand)))
			if !d.c.fan(g, b, tip, r.dir.roofward(), 150, 2000, 250, 75) && !d.c.fan(g, b, out, r.dir.roofward().times(-1), 150, 2000, 250, 75) {
				d.notes = append(d.notes, "Run "+r.Name+" crosses a building expansion joint, the two bars across its wall.")
			}
		}
	}
}

// sides writes where the roof is, and sets the observer on it.
func (d *keyDrawing) sides(g *drawing.Scene) {
	r := d.sh.longest()
	roof := block{pad: 100, lines: []blockLine{{"ROOF", drawing.Style{Size: drawing.Title, Face: drawing.Bold}}}}
	mid := d.m.at(r.at(r.long/2, d.wide(r)))
	d.observer(g, r)
	placed := false
	w, h := roof.size()
	switch d.sh.per.Job.Kind {
	case job.Roof:
		if box, ok := d.c.search(w, h+roof.below(), 200, d.m.at(d.sh.centre())); ok && d.onRoof(box.Centre()) {
			placed = d.c.place(g, roof, box.Centre(), box.Centre())
		}
	default:
		placed = d.fanOnRoof(g, roof, mid, r.dir.roofward(), 900, 6000)
		street := block{lines: []blockLine{{"STREET", drawing.Style{Face: drawing.Bold}}}}
		if d.sh.per.Job.Kind == job.Well {
			street.lines[0].words = "OPEN BELOW"
		}
		d.c.fan(g, street, d.m.at(r.at(r.long/2, -d.real(keyBandO+keyBand))), r.dir.roofward().times(-1), 500, 4000, 300, 60)
	}
	if !placed && !d.fanOnRoof(g, roof, mid, r.dir.roofward(), 300, 4000) {
		d.notes = append(d.notes, "The roof lies on the side of the wall where the station arrows are.")
	}
}

// observer sets a person with both hands named on the roof side of a run.
func (d *keyDrawing) observer(g *drawing.Scene, r keyRun) {
	for _, y := range []drawing.Unit{1100, 1500, 2000, 2600} {
		for _, f := range []float64{0.3, 0.4, 0.2, 0.6, 0.7, 0.5} {
			p := off(d.m.at(r.at(r.long*f, d.wide(r))), r.dir.roofward(), y)
			left, right := off(p, r.dir, -620), off(p, r.dir, 620)
			q := strip(off(left, r.dir, -280), off(right, r.dir, 280), 700)
			if !d.c.free(q) {
				continue
			}
			for _, t := range people(g, p, r.dir) {
				d.c.text = append(d.c.text, t.Quad())
			}
			d.c.area(q...)
			return
		}
	}
}

// fanOnRoof places a block that must not stand anywhere but on the roof.
func (d *keyDrawing) fanOnRoof(g *drawing.Scene, b block, tip drawing.Point, dir xy, from, to drawing.Unit) bool {
	c := d.c
	d.c.accept = d.onRoof
	defer func() { d.c.accept = c.accept }()
	return d.c.fan(g, b, tip, dir, from, to, 200, 60)
}

// onRoof says whether a place on paper lies on the roof of a closed perimeter
// (even-odd). The roof of an open one has no far side to be told by.
func (d *keyDrawing) onRoof(c drawing.Point) bool {
	if !d.sh.per.Closed() {
		return true
	}
	var ring []drawing.Point
	for _, r := range d.sh.runs {
		ring = append(ring, d.m.at(r.o))
	}
	return holdsPoint(ring, c) == (d.sh.per.Job.Kind == job.Roof)
}
