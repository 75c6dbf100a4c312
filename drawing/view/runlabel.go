package view

import (
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// letter places the words of the plan, the most needed first. What is fixed
// goes to the placer before any of them. What needs a leader to the street side
// is placed together, so that no leader crosses another. A label left without
// even a balloon is placed before all others, and they anew.
func (p *runPlan) letter(g *drawing.Scene, bounds drawing.Rect) {
	for try := 1; ; try++ {
		p.placer, p.wishes, p.lettered, p.lost, p.bare = place.New(bounds), nil, nil, nil, nil
		p.placer.First = p.first + len(p.rowNotes)
		lost := p.letterOnce(try > 3)
		if len(lost) == 0 || try == 12 {
			g.Add(p.lettered...)
			return
		}
		for _, w := range p.early { // what is lost again comes first
			if !has(lost, w.Label) {
				lost = append(lost, w)
			}
		}
		p.early = lost
	}
}

// letterOnce places all labels, those that must come early first, and returns
// those that found no room at all.
func (p *runPlan) letterOnce(together bool) (lost []place.Wish) {
	p.keepClear()
	late := p.chairNumbers()
	for i, got := range p.placeEarly(together) {
		if !p.put(got) {
			lost = append(lost, p.early[i])
		}
	}
	for _, c := range p.chairs() {
		p.placer.Block(p.chairBox(c))
	}
	for _, j := range p.joints() {
		if b, ok := p.plateBox(j); ok {
			p.placer.Block(b)
		}
	}
	for _, q := range p.of.Pieces {
		p.pieceMark(q)
	}
	for _, c := range late {
		p.street(p.chairLabel(c), 1)
	}
	for _, q := range p.supports() {
		p.supportLabel(q)
	}
	p.matchLabels()
	p.endLabels()
	p.datumLabel()
	for _, o := range p.of.Obstacles {
		if l, ok := p.obstacleLabel(o); ok {
			p.street(l, 2, drawing.Pt(l.About.X, p.deep/2), drawing.Pt(l.About.X, p.deep/4), drawing.Pt(l.About.X, p.deep*3/4))
		}
	}
	for _, j := range p.joints() {
		if l, ok := p.jointLabel(j); ok {
			p.street(l, 4, drawing.Pt(l.About.X, p.deep/2), drawing.Pt(l.About.X, p.deep/4))
		}
	}
	// The rest of the street side together.
	for i, got := range p.placer.PlaceAll(p.wishes) {
		if !p.put(got) {
			lost = append(lost, p.wishes[i])
		}
	}
	p.streetLabel()
	p.stringLabel()
	return append(lost, p.lost...)
}

// placeEarly places the labels that come before all others: one by one, the
// first with the first choice, or where they stand in each other's way together.
func (p *runPlan) placeEarly(together bool) []place.Placement {
	if together {
		return p.placer.PlaceAll(p.early)
	}
	var out []place.Placement
	for _, w := range p.early {
		out = append(out, p.placer.Place(w.Label, w.Spots...))
	}
	return out
}

// put draws what was placed, and says whether it stands.
func (p *runPlan) put(q place.Placement) bool {
	p.lettered = append(p.lettered, q.Marks...)
	if q.Note > 0 && !q.Stands() {
		p.bare = append(p.bare, q.Note)
		return false
	}
	return true
}

// place places a label that does not wait for others, unless it came early.
func (p *runPlan) place(l place.Label, spots ...place.Spot) place.Placement {
	if p.isEarly(l) {
		return place.Placement{}
	}
	got := p.placer.Place(l, spots...)
	if !p.put(got) {
		p.lost = append(p.lost, place.Wish{Label: l, Spots: spots})
	}
	return got
}

// street asks for a place for a label on the street side. Its leader may point
// to other tips as well.
func (p *runPlan) street(l place.Label, weight int, tips ...drawing.Point) {
	if !p.isEarly(l) {
		p.wishes = append(p.wishes, place.Wish{Label: l, Spots: p.lanes(l, tips...), Weight: weight})
	}
}

// isEarly says whether a label was placed before all others.
func (p *runPlan) isEarly(l place.Label) bool { return has(p.early, l) }

// has says whether a label is among wishes.
func has(wishes []place.Wish, l place.Label) bool {
	return slices.ContainsFunc(wishes, func(w place.Wish) bool {
		return w.Note == l.Note && slices.Equal(w.Lines, l.Lines)
	})
}

// keepClear tells the placer what no word may stand on.
func (p *runPlan) keepClear() {
	p.keepLines()
	p.keepNeighbours()
	p.keepMade()
	p.keepEnds()
}

// keepLines keeps the mold lines, the wall's faces, the string, match lines, break
// lines and the extension lines of the rows below.
func (p *runPlan) keepLines() {
	k := p.placer
	a, b := p.edges()
	k.Stroke(70, drawing.Pt(a-runStub, 0), drawing.Pt(b+runStub, 0))
	ra, rb := a-runStub, b+runStub
	if p.leftStub != nil {
		ra = min(ra, p.leftStub.rear.X-70)
	}
	if p.rightStub != nil {
		rb = max(rb, p.rightStub.rear.X+70)
	}
	rear := []drawing.Point{drawing.Pt(ra, p.y(p.of.OutsideAt(0)))}
	for _, w := range p.of.RearLine {
		if at := p.at(w); at.X > ra && at.X < rb {
			rear = append(rear, at)
		}
	}
	k.Stroke(70, append(rear, drawing.Pt(rb, p.y(p.of.OutsideAt(p.of.Cap.Real))))...)
	k.Stroke(40, p.seen(p.of.Street)...)
	k.Stroke(40, p.seen(p.of.Roof)...)
	y := p.stringY()
	k.Stroke(40, drawing.Pt(a, y), drawing.Pt(b, y))
	for _, v := range p.stations(p.bottom(), true).stops {
		k.Stroke(40, drawing.Pt(v.at, p.deep), drawing.Pt(v.at, p.bottom()))
	}
	for _, x := range p.matches() {
		k.Stroke(90, drawing.Pt(x, -runMatchTop), drawing.Pt(x, p.deep+2000))
	}
	for _, x := range p.cuts() {
		k.Stroke(110, drawing.Pt(x, -250), drawing.Pt(x, p.deep+200))
	}
}

// keepNeighbours keeps what shows of other runs.
func (p *runPlan) keepNeighbours() {
	k := p.placer
	for _, g := range []*runStubLeg{p.leftStub, p.rightStub} {
		if g == nil {
			continue
		}
		k.Stroke(50, g.front, g.rear)
		for _, e := range g.edges {
			k.Stroke(70, e...)
		}
		if len(g.edges[0]) > 1 && len(g.edges[1]) > 1 {
			k.Stroke(110, g.edges[0][1], g.edges[1][1])
		}
	}
	for _, t := range p.teeStubs() {
		k.Stroke(70, t[0], t[1])
		k.Stroke(70, t[2], t[3])
		k.Stroke(110, t[1], t[3])
	}
}

// keepMade keeps screws, joints, supports, obstacles, building expansion joints and
// the dimensions of the corner legs.
func (p *runPlan) keepMade() {
	k := p.placer
	a, b := p.edges()
	for _, c := range p.chairs() {
		for _, h := range c.Holes {
			at := p.at(h)
			k.Block(drawing.Box(at.X-90, at.Y-90, at.X+90, at.Y+90))
		}
	}
	for _, j := range p.joints() {
		half := max(p.along.Units(j.Gap.Real), runTrueJ) / 2
		x := p.x(j.Centre)
		k.Block(drawing.Box(x-half-30, 0, x+half+30, p.deep))
	}
	for _, q := range p.supports() {
		k.Stroke(40, append(q.pts, q.pts[0])...)
	}
	for _, o := range p.of.Obstacles {
		if b, ok := p.box(o.Ring); ok {
			k.Block(b)
		}
	}
	for _, e := range p.of.Gaps {
		lo, hi := e.Ring.Bounds()
		x := p.x(lo.X + (hi.X-lo.X)/2)
		if half := p.along.Units(hi.X-lo.X) / 2; x+half > a && x-half < b {
			k.Block(drawing.Box(x-half-60, 0, x+half+60, p.deep))
		}
	}
	for _, m := range p.legMarks {
		drawing.Scene{Marks: []drawing.Mark{m}}.Walk(func(_ drawing.Layer, m drawing.Mark) {
			switch m := m.(type) {
			case drawing.Text:
				k.Letter(drawing.BoundsOf([]drawing.Mark{m}))
			case drawing.Line:
				k.Stroke(30, m.Pts...)
			}
		})
	}
}

// keepEnds keeps the higher walls and the closed ends of the run.
func (p *runPlan) keepEnds() {
	for _, end := range []struct {
		shown bool
		kind  plan.EndKind
		x     drawing.Unit
		dir   drawing.Unit
	}{{p.win.From <= 0, p.of.Left.Kind, p.x(0), -1}, {p.win.To >= p.of.Cap.Real, p.of.Right.Kind, p.x(p.of.Cap.Real), 1}} {
		if end.shown && end.kind == plan.EndWall {
			p.placer.Block(drawing.Box(end.x-end.dir*50, -200, end.x+end.dir*600, p.deep+200))
		}
		if end.shown && (end.kind == plan.EndFree || end.kind == plan.EndTee) {
			p.placer.Stroke(80, drawing.Pt(end.x, 0), drawing.Pt(end.x, p.deep))
		}
	}
}

// inside lists spots within the cap: from a place along the run outwards to
// both sides, on the middle line and above and below it.
func (p *runPlan) inside(l place.Label, x, reach drawing.Unit) []place.Spot {
	_, h := l.Extent()
	return p.across(x, reach, 0, -h-100, h+100)
}

// across lists spots within the cap, at distances from its middle line.
func (p *runPlan) across(x, reach drawing.Unit, from ...drawing.Unit) []place.Spot {
	var out []place.Spot
	for d := drawing.Unit(0); d <= reach; d += 60 {
		for _, f := range from {
			y := p.deep/2 + f
			out = append(out, place.At(x+d, y))
			if d > 0 {
				out = append(out, place.At(x-d, y))
			}
		}
	}
	return out
}

// lanes lists spots on the street side, each on a leader, nearest first: for
// what the label is about, then for other tips.
func (p *runPlan) lanes(l place.Label, tips ...drawing.Point) []place.Spot {
	w, h := l.Extent()
	var out []place.Spot
	for _, tip := range append([]drawing.Point{l.About}, tips...) {
		for lift := drawing.Unit(250); lift+h < runPlanLanes; lift += 250 {
			for _, d := range []drawing.Unit{0, w / 3, -w / 3, w/2 + 150, -w/2 - 150, w, -w} {
				s := place.Pointed(tip.X+d, -lift-h/2)
				s.Off = tip.Sub(l.About)
				out = append(out, s)
			}
		}
	}
	return out
}

// datumLabel names the mark the crew's stations start at, in the column at
// the left if it is near.
func (p *runPlan) datumLabel() {
	datum := p.of.Datum
	if !p.shows(datum.At.X) {
		return
	}
	said := p.start() + "; " + p.capBegins()
	about := p.at(datum.At)
	l := place.Label{Lines: drawing.Wrap(said, drawing.Regular, drawing.Note, runHead-300), About: about}
	begins := datum.Begins.Fact
	for range l.Lines {
		l.Facts = append(l.Facts, begins)
	}
	w, h := l.Extent()
	var spots []place.Spot
	if about.X < p.left+2000 {
		for d := drawing.Unit(0); d < 3000; d += 200 {
			spots = append(spots, place.Pointed(w/2+30, p.deep/2+d-h/2), place.Pointed(w/2+30, p.deep/2-d-h/2))
		}
	}
	flat := l
	flat.Lines, flat.Facts = []string{said}, []string{begins}
	if len(spots) > 0 && !p.isEarly(flat) {
		if got, ok := p.placer.Try(l, spots...); ok {
			p.put(got)
			return
		}
	}
	p.place(flat, p.lanes(flat)...)
}

// capBegins says where the cap line begins, beside the mark stations start at.
func (p *runPlan) capBegins() string {
	left := p.of.Left
	at, before, behind := words.ViewBeginsEnd, words.ViewBeginsEndLeft, words.ViewBeginsEndRight
	switch {
	case left.Break.Word != "":
		at, before, behind = words.ViewBeginsFold, words.ViewBeginsFoldLeft, words.ViewBeginsFoldRight
	case left.Kind == plan.EndTurn:
		at, before, behind = words.ViewBeginsCorner, words.ViewBeginsCornerLeft, words.ViewBeginsCornerRight
	}
	begins := p.of.Datum.Begins.Real
	distance := words.In("distance", p.inWords(length.Abs(begins)))
	switch {
	case begins < 0:
		return p.say.Say(before, distance)
	case begins > 0:
		return p.say.Say(behind, distance)
	}
	return p.say.Say(at)
}

// start is the mark that crew stations start at.
func (p *runPlan) start() string {
	left := p.of.Left
	switch {
	case p.of.Datum.Mark != "":
		return p.say.Say(words.ViewStartMark, words.In("mark", p.of.Datum.Mark))
	case left.Break.Word != "":
		return p.say.Say(words.ViewStartBreak)
	case left.Kind == plan.EndTee:
		return p.say.Say(words.ViewStartTee, words.In("run", left.Beyond))
	case !left.Corner:
		return p.say.Say(words.ViewStartEnd)
	case !left.Outside:
		return p.say.Say(words.ViewStartInside)
	}
	return p.say.Say(words.ViewStartOutside)
}

// obstacleLabel names an obstacle, where it is and what it does.
func (p *runPlan) obstacleLabel(o plan.Obstacle) (place.Label, bool) {
	b, ok := p.box(o.Ring)
	if !ok {
		return place.Label{}, false
	}
	var does []string
	for _, d := range []struct {
		does bool
		word words.Key
	}{{o.BlocksChair, words.ViewObstacleChair}, {o.BlocksJoint, words.ViewObstacleJoint}, {o.Pierces, words.ViewObstacleThrough}} {
		if d.does {
			does = append(does, p.say.Say(d.word))
		}
	}
	switch {
	case o.Pierces && o.Collar == "":
		does = append(does, p.say.Say(words.ViewObstacleNobody))
	case o.Pierces:
		does = append(does, p.say.Say(words.ViewObstacleCollar, words.In("who", o.Collar)))
	}
	said := p.say.Say(words.ViewObstacle, words.In("name", o.Mark), words.In("station", p.long(o.Station.Real)), words.In("what", strings.Join(does, ", ")))
	return place.Label{Lines: []string{said}, Facts: []string{o.Fact}, About: drawing.Pt(b.Centre().X, b.Min.Y+100)}, true
}

// jointLabel says what is unlike the rest at a joint.
func (p *runPlan) jointLabel(j plan.Joint) (place.Label, bool) {
	var lines []string
	switch j.Kind {
	case plan.ExpansionJoint:
		head, plate := p.say.Say(words.ViewExpansion), words.ViewExpansionLeft
		if j.WallGap > 0 {
			head = p.say.Say(words.ViewExpansionGap, words.In("gap", p.short(j.WallGap)+p.unit()))
		}
		if j.Held == plan.RightHand {
			plate = words.ViewExpansionRight
		}
		lines = []string{head, p.say.Say(plate)}
		if !j.Moves {
			lines = append(lines, p.say.Say(words.ViewExpansionUnstated))
		}
	case plan.KinkJoint:
		lines = []string{p.say.Say(words.ViewKink)}
	default:
		return place.Label{}, false
	}
	return place.Label{Lines: lines, About: drawing.Pt(p.x(j.Centre), -40), Note: strings.Join(lines, ", "), Where: p.say.Say(words.ViewAt, words.In("station", p.long(j.Station.Real)))}, true
}

// matchLabels name the match lines and where the run goes on.
func (p *runPlan) matchLabels() {
	for _, m := range []struct {
		at   *length.Length
		part int
		dir  drawing.Unit
	}{{p.win.MatchLeft, p.win.N - 1, -1}, {p.win.MatchRight, p.win.N + 1, 1}} {
		if m.at == nil {
			continue
		}
		part := []words.Slot{words.In("n", runCount(m.part)), words.In("of", runCount(p.win.Of))}
		said := p.say.Say(words.ViewMatch, part...)
		for _, j := range p.of.Joints {
			if j.Centre == *m.at {
				said = p.say.Say(words.ViewMatchAt, append(part, words.In("joint", runTag(j.Mark)))...)
			}
		}
		l := place.Label{Lines: []string{said}, Face: drawing.Bold,
			About: drawing.Pt(p.x(*m.at), -runMatchTop)}
		w, h := l.Extent()
		var spots []place.Spot
		for lift := drawing.Unit(0); lift < 2400; lift += 200 {
			for _, d := range []drawing.Unit{-m.dir, m.dir} {
				spots = append(spots, place.Spot{Centre: drawing.Pt(l.About.X+d*(w/2+150), -runMatchTop+h/2-lift), Leader: lift > 200})
			}
		}
		p.place(l, spots...)
	}
}

// endLabels name what lies beyond the ends of the run.
func (p *runPlan) endLabels() {
	side := func(g *runStubLeg, x, dir drawing.Unit, end plan.End) {
		l := place.Label{Face: drawing.Bold}
		switch {
		case g != nil:
			l.Lines = append(breakWords(end.Break), p.say.Say(words.ViewRun, words.In("run", g.name)))
			l.About = g.front
			if len(g.edges[0]) > 1 {
				l.About = g.edges[0][1]
			}
			c := g.box.Centre()
			w, h := l.Extent()
			var spots []place.Spot
			for d := drawing.Unit(0); d < 1500; d += 100 {
				for _, y := range []drawing.Unit{c.Y, g.box.Min.Y + h, g.box.Max.Y - h} {
					spots = append(spots, place.At(c.X-d, y), place.At(c.X+d, y))
				}
			}
			if g.roofward {
				spots = append([]place.Spot{place.At(c.X, p.deep+runStub-h/2-130)}, spots...)
			} else {
				spots = append([]place.Spot{place.At(c.X, -runStub+h/2+130)}, spots...)
			}
			for d := drawing.Unit(200); d < 1500; d += 200 {
				spots = append(spots, place.At(x+dir*(w/2+d), p.deep+runStub/2), place.At(x+dir*(w/2+d), -300))
			}
			p.place(l, spots...)
			return
		case end.Words != "":
			l.Lines = []string{end.Words}
		case end.Kind == plan.EndWall:
			l.Lines = []string{p.say.Say(words.ViewEndWall)}
		default:
			l.Lines = []string{p.say.Say(words.ViewEndFree)}
		}
		l.About = drawing.Pt(x+dir*250, p.deep-100)
		w, h := l.Extent()
		var spots []place.Spot
		for d := drawing.Unit(0); d < 1200; d += 100 {
			spots = append(spots, place.Spot{Centre: drawing.Pt(x+dir*(w/2+700), p.deep-h-d), Leader: false}, place.Spot{Centre: drawing.Pt(x-dir*(w/2-600), -350-d)})
		}
		p.place(l, spots...)
	}
	p.teeLabels()
	if p.win.From <= 0 {
		side(p.leftStub, p.x(0), -1, p.of.Left)
	}
	if p.win.To >= p.of.Cap.Real {
		side(p.rightStub, p.x(p.of.Cap.Real), 1, p.of.Right)
	}
}

// streetLabel says which side the street is on, over the middle of the cap.
func (p *runPlan) streetLabel() {
	a, b := p.edges()
	mid := (a + b) / 2
	l := place.Label{Lines: []string{p.say.Say(words.ViewStreet)}, Size: drawing.Head, Face: drawing.Bold, About: drawing.Pt(mid, -100)}
	w, h := l.Extent()
	var spots, near []place.Spot
	for lift := drawing.Unit(200); lift+h < runPlanLanes; lift += 200 {
		for d := drawing.Unit(0); d < max((b-a)/2, w); d += 300 {
			for _, x := range []drawing.Unit{mid + d, mid - d} {
				if s := place.At(x, -lift-h/2); p.busy(x, w/2+300) {
					near = append(near, s)
				} else {
					spots = append(spots, s)
				}
			}
		}
	}
	got := p.place(l, append(spots, near...)...)
	p.placer.Block(got.Box.Inset(-300)) // it stands alone, lest it reads as part of a note
}

// busy says whether something within reach of a place on the street side will
// have a label there.
func (p *runPlan) busy(x, reach drawing.Unit) bool {
	near := func(at drawing.Unit) bool { return at > x-reach && at < x+reach }
	for _, o := range p.of.Obstacles {
		if b, ok := p.box(o.Ring); ok && near(b.Centre().X) {
			return true
		}
	}
	for _, j := range p.joints() {
		if j.Kind != plan.PlainJoint && near(p.x(j.Centre)) {
			return true
		}
	}
	return false
}

// stringLabel names the layout string once a window, wherever there is room.
func (p *runPlan) stringLabel() {
	chairs := p.chairs()
	if len(chairs) < 2 {
		return
	}
	said := words.ViewString
	if p.y(p.stringBehind()) < stringApart {
		said = words.ViewStringApart
	}
	l := place.Label{Lines: []string{p.say.Say(said, words.In("distance", p.short(p.stringBehind())+p.unit()))}, Where: p.say.Say(words.ViewStringWhere)}
	if p.isEarly(l) {
		return
	}
	w, h := l.Extent()
	a, b := chairs[0].At, chairs[len(chairs)-1].At
	l.About = drawing.Pt(p.x(a+(b-a)/2)+200, p.stringY())
	var spots []place.Spot
	for lift := drawing.Unit(250); lift+h < runPlanLanes; lift += runLane / 2 {
		for _, k := range []int64{4, 5, 3, 6, 2, 7, 1, 8, 0} {
			tip := drawing.Pt(p.x(a+length.MulDiv(b-a, k, 8))+200, p.stringY())
			for _, d := range []drawing.Unit{w/2 + 300, -w/2 - 300, 0, w / 4, -w / 4} {
				spots = append(spots, place.Spot{Centre: drawing.Pt(tip.X+d, -lift-h/2), Leader: true, Off: tip.Sub(l.About)})
			}
		}
	}
	p.place(l, spots...)
}
