package view

import (
	"math"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// names letters each run on its roof side, large, and its length along the
// street side; a run too short for that has both together on a leader.
func (d *keyDrawing) names(g *drawing.Scene) {
	type long struct {
		i     int
		words string
	}
	var along, short []long
	for i, r := range d.sh.runs {
		phrase := drawing.Letter(d.crew.Long(r.Front.Real))
		if d.crew.Metric {
			phrase = d.say.Say(words.UnitMm, words.In("n", phrase))
		}
		w := drawing.Width(drawing.Regular, phrase, drawing.Note).Millimetres()
		if r.long/d.m.ratio > w+6 && d.alongStreet(g, r, phrase) {
			along = append(along, long{i, phrase})
		} else {
			short = append(short, long{i, phrase})
		}
	}
	var all []saying
	for _, k := range along {
		r := d.sh.runs[k.i]
		l := d.runName(k.i, r.Name)
		spots := l.Fan(
			place.Fan{Toward: tenths(r.dir.roofward()), From: 350, To: 4000, Step: 250, Spread: 75, Reach: 600},
		)
		all = append(
			all,
			saying{
				Wish: place.Wish{Label: l, Spots: spots},
				lost: []string{d.say.Say(words.KeyplanRunWhich, words.In("name", r.Name),
					words.In("front", inSentence(d.crew, r.Front.Real)))},
				more: r.Front.Fact,
			},
		)
	}
	for _, k := range short {
		r := d.sh.runs[k.i]
		l := d.runName(k.i, r.Name, k.words)
		l.Facts = []string{"", r.Front.Fact}
		middle := d.m.all(r.at(r.long/2, d.wide(r)/2))
		street := d.m.all(r.at(r.long/2, -d.real(keyBandO+keyBand)))
		spots := l.Fan(
			place.Fan{Toward: tenths(r.dir.roofward()), From: 350, To: 900, Step: 250, Spread: 45, Reach: 600},
		)
		spots = append(
			spots,
			l.Fan(
				place.Fan{
					Toward: tenths(d.inwards(k.i)),
					From:   350,
					To:     5000,
					Step:   250,
					Spread: 75,
					Reach:  600,
					Tips:   middle,
				},
			)...)
		spots = append(
			spots,
			l.Fan(
				place.Fan{
					Toward: tenths(r.dir.roofward().times(-1)),
					From:   200,
					To:     5000,
					Step:   300,
					Spread: 75,
					Reach:  600,
					Tips:   street,
				},
			)...)
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: spots}})
	}
	for n, got := range d.c.TryAll(wishesOf(all)) {
		g.Add(got.Marks...)
		switch {
		case got.Stands():
		case n < len(along):
			d.nameless++
			d.notes = append(d.notes, all[n].notes()...)
		default:
			d.nameAlone(g, short[n-len(along)].i)
		}
	}
}

// runName is the label of a run: its name, large, and what is said under it.
func (d *keyDrawing) runName(i int, lines ...string) place.Label {
	r := d.sh.runs[i]
	l := place.Label{Lines: lines, LeadSize: drawing.Title, LeadFace: drawing.Bold, Pad: 120, Bare: true}
	l.About = d.m.at(d.rear[i][0].between(d.rear[i][1]))
	if d.rear[i][0] == d.rear[i][1] {
		l.About = d.m.at(r.at(r.long/2, d.wide(r)/2))
	}
	return l
}

// nameAlone names a run that has no room for its length, which goes to the
// notes.
func (d *keyDrawing) nameAlone(g *drawing.Scene, i int) {
	r := d.sh.runs[i]
	l := d.runName(i, r.Name)
	got, ok := d.c.Try(
		l,
		l.Fan(place.Fan{Toward: tenths(r.dir.roofward()), From: 350, To: 6000, Step: 250, Spread: 165, Reach: 600})...)
	g.Add(got.Marks...)
	if !ok {
		d.nameless++
		d.notes = append(d.notes, drawing.Said{Words: d.say.Say(words.KeyplanRunNoRoom, words.In("name", r.Name))})
	}
	d.notes = append(d.notes, drawing.Said{Words: d.say.Say(words.KeyplanRunLength, words.In("name", r.Name),
		words.In("front", inSentence(d.crew, r.Front.Real))), Fact: r.Front.Fact})
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
func (d *keyDrawing) alongStreet(g *drawing.Scene, r keyRun, phrase string) bool {
	l := place.Label{Lines: []string{phrase}, Facts: []string{r.Front.Fact}, Turn: readable(r.dir), Pad: besideLine}
	h := drawing.Unit(drawing.Note) * 7 / 5
	var spots []place.Spot
	for _, y := range []drawing.Unit{180, 350, 550, 800} {
		for _, f := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
			p := d.m.at(r.at(r.long*f, -d.real(keyBandO+keyBand+y+h/2-besideLine)))
			spots = append(spots, place.At(p.X, p.Y))
		}
	}
	got, ok := d.c.Try(l, spots...)
	g.Add(got.Marks...)
	return ok
}

// holds flags every run that something is on hold on.
func (d *keyDrawing) holds(g *drawing.Scene) {
	var rest []string
	for i, r := range d.sh.runs {
		if !r.Held {
			continue
		}
		if !d.triangle(g, r, i) {
			rest = append(rest, r.Name)
		}
	}
	if len(rest) > 0 && !d.brief {
		d.notes = append(d.notes, drawing.Said{Words: d.say.Say(words.KeyplanHoldToo,
			words.In("rest", join(d.say, rest)))})
	}
}

// triangle draws a hold mark beside a run.
func (d *keyDrawing) triangle(g *drawing.Scene, r keyRun, i int) bool {
	a, b := d.rear[i][0], d.rear[i][1]
	for _, y := range []drawing.Unit{750, 1100, 1500, 2000, 2600} {
		for _, f := range []float64{0.75, 0.65, 0.85, 0.55, 0.35, 0.25, 0.15, 0.5, 1.1, -0.1} {
			p := off(d.m.at(a.add(b.sub(a).times(f))), r.dir.roofward(), y)
			box := drawing.Box(p.X-480, p.Y-470, p.X+480, p.Y+430)
			if !d.c.Vacant(box.Inset(-60).Corners()...) {
				continue
			}
			top := drawing.Point{X: p.X, Y: box.Min.Y + 60}
			g.Fill(
				drawing.White,
				drawing.Hold,
				top,
				drawing.Point{X: box.Max.X - 40, Y: box.Max.Y - 40},
				drawing.Point{X: box.Min.X + 40, Y: box.Max.Y - 40},
			)
			g.Text(
				drawing.Point{X: p.X, Y: box.Max.Y - 140},
				"H",
				drawing.Style{Face: drawing.Bold, Align: drawing.Middle},
			)
			d.c.Letter(box)
			if y > 1100 {
				foot := d.m.at(a.between(b))
				g.Line(drawing.Thin, top, foot)
				d.c.Stroke(20, top, foot)
			}
			return true
		}
	}
	return false
}

// endWords names the ends that are no corners.
func (d *keyDrawing) endWords() []saying {
	var all []saying
	for _, r := range d.sh.runs {
		for i, end := range r.Ends {
			u, out, side := 0.0, r.dir.times(-1), words.KeyplanEndLeft
			if i == 1 {
				u, out, side = r.long, r.dir, words.KeyplanEndRight
			}
			name := words.KeyplanFreeEnd
			reach := drawing.Unit(150)
			switch end.Kind {
			case plan.KeyCorners:
				continue
			case plan.KeyStepUp, plan.KeyStepDown:
				if i == 0 {
					continue // a step is named once, by the run before it
				}
				name = words.KeyplanStepDown
				if end.Kind == plan.KeyStepUp {
					name = words.KeyplanStepUp
				}
				out = out.times(-1) // beyond lies the next run
			case plan.KeyMeets:
				continue // the main it meets is drawn there, or named in the notes
			case plan.KeyDies:
				name, reach = words.KeyplanHigherWall, 450
			}
			l := place.Label{
				Lines: strings.Fields(d.say.Say(name)),
				Face:  drawing.Bold,
				Pad:   besideLine,
				Bare:  true,
				About: off(d.m.at(r.at(u, d.wide(r)/2)), out, reach),
			}
			spots := l.Fan(place.Fan{Toward: tenths(out), From: 120, To: 3000, Step: 300, Spread: 105, Reach: 900})
			all = append(
				all,
				saying{Wish: place.Wish{Label: l, Spots: spots}, lost: []string{d.say.Say(side,
					words.In("run", r.Name), words.In("what", strings.ToLower(d.say.Say(name))))}},
			)
		}
	}
	return all
}

// cornerWords names each corner with its turn and its included angle, or with
// its name alone and the rest in the notes.
func (d *keyDrawing) cornerWords(g *drawing.Scene) {
	n := len(d.sh.runs)
	all := d.endWords()
	first := len(all)
	var brief []saying
	for i, r := range d.sh.runs {
		c := r.Ends[1].Corner
		if !r.rite {
			continue
		}
		kind, turn, included := TurnSaid(d.say, c.KeyTurn)
		if c.Absorbed {
			kind = d.say.Say(words.KeyplanKink)
		}
		fan := place.Fan{
			Toward: tenths(awayFrom(r, d.sh.runs[(i+1)%n])),
			From:   350,
			To:     2600,
			Step:   250,
			Spread: 180,
			Reach:  500,
		}
		l := place.Label{
			Lines:    []string{c.Name + " " + kind, turn + ", " + included},
			Facts:    []string{"", drawing.FactNames(c.Turned, c.Opened)},
			Size:     drawing.Small,
			LeadFace: drawing.Bold,
			Pad:      80,
			Bare:     true,
			About:    d.m.at(r.at(r.long, 0)),
		}
		all = append(all, saying{Wish: place.Wish{Label: l, Spots: l.Fan(fan)}})
		l.Lines, l.Facts, l.Size = []string{c.Name}, nil, drawing.Note
		says := kind + ", " + turn + ", " + included + "."
		brief = append(brief, saying{
			Wish: place.Wish{Label: l, Spots: l.Fan(fan)},
			more: drawing.FactNames(c.Turned, c.Opened),
			lost: []string{
				d.say.Say(words.KeyplanCornerNote, words.In("name", c.Name), words.In("says", says)),
				d.say.Say(
					words.KeyplanCornerBetween,
					words.In("name", c.Name),
					words.In("arrives", r.Name),
					words.In("leaves", c.Leaves),
					words.In("says", says),
				),
			},
		})
	}
	all = append(all, d.expansionWords()...)
	for k, got := range d.c.TryAll(wishesOf(all)) {
		g.Add(got.Marks...)
		if got.Stands() {
			continue
		}
		if k < first || k >= first+len(brief) {
			d.notes = append(d.notes, all[k].notes()...)
			continue
		}
		b := brief[k-first]
		got, ok := d.c.Try(b.Label, b.Spots...)
		g.Add(got.Marks...)
		if ok {
			d.notes = append(d.notes, b.notes()[0])
		} else {
			d.notes = append(d.notes, b.notes()[1])
		}
	}
}

// endsAlone names the ends and the expansion joints of a brief plan, whose corners stand
// in its table.
func (d *keyDrawing) endsAlone(g *drawing.Scene) {
	all := append(d.endWords(), d.expansionWords()...)
	for k, got := range d.c.TryAll(wishesOf(all)) {
		g.Add(got.Marks...)
		if !got.Stands() {
			d.notes = append(d.notes, all[k].notes()...)
		}
	}
}

// expansionWords names the building expansion joints.
func (d *keyDrawing) expansionWords() []saying {
	var all []saying
	for _, r := range d.sh.runs {
		for _, j := range r.Joints {
			if !j.Expansion {
				continue
			}
			u := r.along(j.At)
			l := place.Label{
				Lines: strings.Fields(d.say.Say(words.KeyplanExpansionName)),
				Size:  drawing.Small,
				Pad:   besideLine,
				Bare:  true,
				About: d.m.at(r.at(u, d.wide(r)+d.real(150))),
			}
			fan := place.Fan{Toward: tenths(r.dir.roofward()), From: 150, To: 2000, Step: 250, Spread: 75, Reach: 500}
			spots := l.Fan(fan)
			fan.Toward, fan.Tips = tenths(r.dir.roofward().times(-1)), d.m.all(r.at(u, -d.real(keyBandO+keyBand)))
			spots = append(spots, l.Fan(fan)...)
			all = append(
				all,
				saying{Wish: place.Wish{Label: l, Spots: spots},
					lost: []string{d.say.Say(words.KeyplanExpansionNote, words.In("name", r.Name))}},
			)
		}
	}
	return all
}

// sides writes where the roof is, and sets the observer on it.
func (d *keyDrawing) sides(g *drawing.Scene) {
	r := d.sh.longest()
	roof := place.Label{
		Lines: []string{d.say.Say(words.KeyplanRoofLarge)},
		Size:  drawing.Title,
		Face:  drawing.Bold,
		Pad:   200,
		Only:  d.onRoof,
		About: d.m.at(r.at(r.long/2, d.wide(r))),
	}
	d.observer(g, r)
	fan := place.Fan{Toward: tenths(r.dir.roofward()), From: 900, To: 6000, Step: 200, Spread: 60, Reach: place.Never}
	spots := roof.Fan(fan)
	if d.sh.per.Lying == plan.AroundRoof && !d.part {
		spots = roof.Grid(d.c.Bounds, d.m.at(d.sh.centre()), 300)
	} else {
		d.street(g, r)
	}
	got, ok := d.c.Try(roof, spots...)
	if !ok {
		roof.Pad = 100
		fan.From, fan.To = 300, 4000
		got, ok = d.c.Try(roof, roof.Fan(fan)...)
	}
	g.Add(got.Marks...)
	if !ok {
		d.notes = append(d.notes, drawing.Said{Words: d.say.Say(words.KeyplanRoofSide)})
	}
}

// street names the side of an open perimeter that is not the roof, and what a
// well encloses: inside its loop or not at all, for outside it the words would
// say it of the roof. The head of the panel says it too.
func (d *keyDrawing) street(g *drawing.Scene, r keyRun) {
	say := d.say
	say.Outer = d.sh.per.Outer
	l := place.Label{
		Lines: []string{say.Say(words.KeyplanStreet)},
		Face:  drawing.Bold,
		Pad:   besideLine,
		About: d.m.at(r.at(r.long/2, -d.real(keyBandO+keyBand))),
	}
	fan := place.Fan{
		Toward: tenths(r.dir.roofward().times(-1)),
		From:   500,
		To:     4000,
		Step:   300,
		Spread: 60,
		Reach:  place.Never,
	}
	if d.sh.per.Lying != plan.AroundWell || d.part {
		got, _ := d.c.Try(l, l.Fan(fan)...)
		g.Add(got.Marks...)
		return
	}
	ring := d.ring()
	inside := func(box drawing.Rect) bool {
		return !slices.ContainsFunc(
			append(box.Corners(), box.Centre()),
			func(p drawing.Point) bool { return !holdsPoint(ring, p) },
		)
	}
	l.Lines, l.Only = []string{d.say.Say(words.KeyplanOpenBelow)}, inside
	got, _ := d.c.Try(l, l.Fan(fan)...)
	g.Add(got.Marks...)
}

// observer sets a person with both hands named on the roof side of a run.
func (d *keyDrawing) observer(g *drawing.Scene, r keyRun) {
	for _, y := range []drawing.Unit{1100, 1500, 2000, 2600} {
		for _, f := range []float64{0.3, 0.4, 0.2, 0.6, 0.7, 0.5} {
			p := off(d.m.at(r.at(r.long*f, d.wide(r))), r.dir.roofward(), y)
			left, right := off(p, r.dir, -620), off(p, r.dir, 620)
			side := r.dir.roofward()
			a, b := off(left, r.dir, -280), off(right, r.dir, 280)
			q := []drawing.Point{off(a, side, 700), off(b, side, 700), off(b, side, -700), off(a, side, -700)}
			if !d.c.Vacant(q...) {
				continue
			}
			for _, t := range people(g, p, r.dir) {
				d.c.Letter(drawing.BoundsOf([]drawing.Mark{t}))
			}
			d.c.Area(q...)
			return
		}
	}
}

// onRoof says whether a box on paper lies on the roof of a closed perimeter by
// its middle (even-odd). The roof of an open one has no far side to be told by.
func (d *keyDrawing) onRoof(box drawing.Rect) bool {
	if !d.sh.per.Closed() || d.part {
		return true
	}
	for _, o := range d.others { // a well in it is no roof
		if o != d && o.sh.per.Lying == plan.AroundWell && holdsPoint(o.ring(), box.Centre()) {
			return false
		}
	}
	return holdsPoint(d.ring(), box.Centre()) == (d.sh.per.Lying == plan.AroundRoof)
}

// ring is the wall line of a closed perimeter on paper.
func (d *keyDrawing) ring() []drawing.Point {
	var ring []drawing.Point
	for _, r := range d.sh.runs {
		ring = append(ring, d.m.at(r.o))
	}
	return ring
}
