package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/job"
	"copingset/layout/length"
)

// letter places the words of the plan, the most needed first. What is fixed
// goes to the placer before any of them.
func (p *runPlan) letter(g *drawing.Scene) {
	p.keepClear()
	put := func(q place.Placement) { g.Add(q.Marks...) }
	late := p.chairNumbers(put)
	for _, c := range p.chairs() {
		p.placer.Block(p.chairBox(c))
	}
	for _, j := range p.joints() {
		if b, ok := p.plateBox(j); ok {
			p.placer.Block(b)
		}
	}
	for _, q := range p.r.Parts {
		p.pieceMark(put, q)
	}
	for _, c := range late {
		put(p.placer.Place(p.chairLabel(c)))
	}
	for _, q := range p.supports() {
		l := place.Label{Lines: []string{q.name}, Size: drawing.Small, About: q.box.Centre(), Note: "support " + q.name}
		put(p.placer.Place(l, p.inside(l, q.box.Centre().X, 1500)...))
	}
	p.matchLabels(put)
	p.endLabels(put)
	p.datumLabel(put)
	p.streetLabel(put)
	var wishes []place.Wish
	for i := range p.r.Job.Obstacles {
		if l, ok := p.obstacleLabel(&p.r.Job.Obstacles[i]); ok {
			wishes = append(wishes, place.Wish{Label: l, Spots: p.lanes(l)})
		}
	}
	for _, j := range p.joints() {
		if l, ok := p.jointLabel(j); ok {
			wishes = append(wishes, place.Wish{Label: l, Spots: p.lanes(l)})
		}
	}
	for _, got := range p.placer.PlaceAll(wishes) {
		put(got)
	}
	p.stringLabel(put)
}

// keepClear tells the placer what no word may stand on.
func (p *runPlan) keepClear() {
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
	k.Stroke(70, drawing.Pt(ra, p.deep), drawing.Pt(rb, p.deep))
	for _, rear := range []bool{false, true} {
		k.Stroke(40, p.facePoints(rear)...)
	}
	y := p.stringY()
	k.Stroke(40, drawing.Pt(a, y), drawing.Pt(b, y))
	for _, c := range p.chairs() {
		for _, at := range p.screws(c) {
			k.Block(drawing.Box(at.X-90, at.Y-90, at.X+90, at.Y+90))
		}
	}
	for _, j := range p.joints() {
		half := max(p.along.Units(j.Gap()), runTrueJ) / 2
		x := p.x(j.Centre())
		k.Block(drawing.Box(x-half-30, 0, x+half+30, p.deep))
	}
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
	for _, q := range p.supports() {
		k.Stroke(40, append(q.pts, q.pts[0])...)
	}
	for i := range p.r.Job.Obstacles {
		if b, _, ok := p.obstacleBox(&p.r.Job.Obstacles[i]); ok {
			k.Block(b)
		}
	}
	// Extension lines of the rows below.
	for _, v := range p.stations(p.bottom(), true).stops {
		k.Stroke(40, drawing.Pt(v.at, p.deep), drawing.Pt(v.at, p.bottom()))
	}
	for _, e := range p.r.Job.Expansion {
		x := p.x(p.r.ToCap(p.r.FrontStation(e.Station)))
		if half := p.along.Units(e.Gap) / 2; x+half > a && x-half < b {
			k.Block(drawing.Box(x-half-60, 0, x+half+60, p.deep))
		}
	}
	for _, m := range []*length.Length{p.win.MatchLeft, p.win.MatchRight} {
		if m != nil {
			k.Stroke(90, drawing.Pt(p.x(*m), -runMatchTop), drawing.Pt(p.x(*m), p.deep+2000))
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
	for _, end := range []struct {
		shown bool
		kind  job.EndKind
		x     drawing.Unit
		dir   drawing.Unit
	}{{p.win.From <= 0, p.r.Left.Kind, p.x(0), -1}, {p.win.To >= p.r.Cap, p.r.Right.Kind, p.x(p.r.Cap), 1}} {
		if end.shown && end.kind == job.EndWall {
			k.Block(drawing.Box(end.x-end.dir*50, -200, end.x+end.dir*600, p.deep+200))
		}
		if end.shown && end.kind == job.EndFree {
			k.Stroke(80, drawing.Pt(end.x, 0), drawing.Pt(end.x, p.deep))
		}
	}
	for _, e := range []struct {
		cut bool
		x   drawing.Unit
	}{{p.win.From > 0, a}, {p.win.To < p.r.Cap, b}} {
		if e.cut {
			k.Stroke(110, drawing.Pt(e.x, -250), drawing.Pt(e.x, p.deep+200))
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

// lanes lists spots on the street side, each on a leader, nearest first.
func (p *runPlan) lanes(l place.Label) []place.Spot {
	w, h := l.Extent()
	var out []place.Spot
	for lift := drawing.Unit(250); lift+h < runPlanLanes; lift += 250 {
		for _, d := range []drawing.Unit{0, w / 3, -w / 3, w/2 + 150, -w/2 - 150, w, -w} {
			out = append(out, place.Pointed(l.About.X+d, -lift-h/2))
		}
	}
	return out
}

func (p *runPlan) chairLabel(c *layout.Chair) place.Label {
	b := p.chairBox(c)
	return place.Label{Lines: []string{runTag(c.Name)}, Face: drawing.Bold, Halo: true, About: b.Centre(), Where: "at " + p.crew(c.At)}
}

// chairNumbers letters the numbers in the chairs and returns those that found
// no room there.
func (p *runPlan) chairNumbers(put func(place.Placement)) []*layout.Chair {
	var wishes []place.Wish
	for _, c := range p.chairs() {
		l := p.chairLabel(c)
		w, _ := l.Extent()
		x, y := l.About.X, l.About.Y
		side := w/2 + runTrueJ/2 + 100
		wishes = append(wishes, place.Wish{Label: l, Spots: []place.Spot{place.At(x, y), place.At(x-side, y), place.At(x+side, y)}})
	}
	var late []*layout.Chair
	for i, got := range p.placer.TryAll(wishes) {
		if got.Stands() {
			put(got)
		} else {
			late = append(late, p.chairs()[i])
		}
	}
	return late
}

// pieceMark letters the mark of a piece big inside its cap, and under it when
// it is laid and what keeps it back.
func (p *runPlan) pieceMark(put func(place.Placement), q layout.Part) {
	from, to, ok := p.cut(q.From, q.To)
	if !ok || to-from < (q.To-q.From)/4 && q.To-q.From > length.Foot && (from > q.From || to < q.To) {
		return // a sliver at the break line: its mark stands on the next sheet
	}
	a, b := p.x(from), p.x(to)
	mid := drawing.Pt((a+b)/2, p.deep/2)
	under := []string{"lay " + runCount(q.Piece.Laying)}
	if !q.Piece.Released() {
		under = append(under, "HOLD")
	}
	big := place.Label{Lines: []string{q.Piece.Mark}, Size: drawing.Title, Face: drawing.Bold, About: mid, Where: "piece at " + p.crew(from)}
	small := place.Label{Lines: under, About: mid, Note: q.Piece.Mark + " " + strings.Join(under, ", ")}
	gap := drawing.Unit(70)
	for _, size := range []drawing.Size{drawing.Title, drawing.Head} {
		for _, lines := range [][]string{under, {strings.Join(under, ", ")}} {
			big.Size, small.Lines = size, lines
			wb, hb := big.Extent()
			ws, hs := small.Extent()
			reach := max(wb, ws)/2 + 30
			// Both stand together: room for the two is looked for first.
			for _, s := range p.across(mid.X, max((b-a)/2, 0), 0, -60, 60, -120, 120) {
				up, down := s, s
				up.Centre.Y -= (hs + gap) / 2
				down.Centre.Y += (hb + gap) / 2
				if s.Centre.X-reach < a || s.Centre.X+reach > b || !p.placer.Free(small, down) {
					continue
				}
				if got, ok := p.placer.Try(big, up); ok {
					put(got)
					put(p.placer.Place(small, down))
					p.closerWords(put, q, a, b)
					return
				}
			}
		}
	}
	for _, size := range []drawing.Size{drawing.Title, drawing.Head} {
		big.Size = size
		if got, ok := p.placer.Try(big, p.inside(big, mid.X, max((b-a)/2-300, 0))...); ok {
			put(got)
			small.Lines, small.About = []string{strings.Join(under, ", ")}, p.tip(a, b)
			if got, ok := p.placer.Try(small, p.inside(small, mid.X, max((b-a)/2-300, 0))...); ok {
				put(got)
			} else {
				small.Lines = []string{q.Piece.Mark + ": " + small.Lines[0]}
				put(p.placer.Place(small, p.lanes(small)...))
			}
			p.closerWords(put, q, a, b)
			return
		}
	}
	big.About = p.tip(a, b)
	big.Size = drawing.Head
	big.Lines = []string{q.Piece.Mark + ", " + strings.Join(under, ", ")}
	put(p.placer.Place(big, p.lanes(big)...))
	p.closerWords(put, q, a, b)
}

// tip is a place in a part of a cap where a leader may start.
func (p *runPlan) tip(a, b drawing.Unit) drawing.Point {
	for _, y := range []drawing.Unit{p.deep / 2, p.deep / 6, p.deep * 5 / 6} {
		for _, k := range []drawing.Unit{4, 3, 5, 2, 6} {
			if at := drawing.Pt(a+(b-a)*k/8, y); !p.placer.Lettered(at) {
				return at
			}
		}
	}
	return drawing.Pt((a+b)/2, 100)
}

// closerWords marks the end of a field closer that is cut on the roof.
func (p *runPlan) closerWords(put func(place.Placement), q layout.Part, a, b drawing.Unit) {
	if q.Piece.Allowance == 0 || q.Piece.CutAt == cap.NoHand {
		return
	}
	l := place.Label{Lines: []string{"field closer: trim here"}, About: drawing.Pt(b-150, p.deep/4)}
	if q.Piece.CutAt == cap.LeftHand {
		l.About.X = a + 150
	}
	if l.About.X <= p.left || !p.shows(q.From) || !p.shows(q.To) {
		return
	}
	put(p.placer.Place(l, p.lanes(l)...))
}

// datumLabel names the mark the crew's stations start at, in the column at
// the left if it is near.
func (p *runPlan) datumLabel(put func(place.Placement)) {
	r := p.r
	if !p.shows(r.Datum) {
		return
	}
	mark := "plumbed outside corner of wall"
	if c := r.Left.Corner; c != nil && !c.Outside() {
		mark = "plumbed inside corner of wall"
	} else if c == nil {
		mark = "end of wall"
	}
	if r.Job.Datum.Mark != "" {
		mark = r.Job.Datum.Mark
	}
	words := "0 = " + mark + "; cap " + runCapEnd(r) + " at 0"
	if r.Datum != 0 {
		words = "0 = " + mark + "; cap " + runCapEnd(r) + " " + p.inWords(length.Abs(r.Datum)) + runSide(r.Datum)
	}
	y, _ := p.facesAt(r.Datum)
	about := drawing.Pt(p.x(r.Datum), y)
	l := place.Label{Lines: drawing.Wrap(words, drawing.Regular, drawing.Note, runHead-300), About: about}
	w, h := l.Extent()
	var spots []place.Spot
	if about.X < p.left+2000 {
		for d := drawing.Unit(0); d < 3000; d += 200 {
			spots = append(spots, place.Pointed(w/2+30, p.deep/2+d-h/2), place.Pointed(w/2+30, p.deep/2-d-h/2))
		}
	}
	flat := l
	flat.Lines = []string{words}
	if len(spots) > 0 {
		if got, ok := p.placer.Try(l, spots...); ok {
			put(got)
			return
		}
	}
	put(p.placer.Place(flat, p.lanes(flat)...))
}

// runCapEnd names the left end of the cap line.
func runCapEnd(r *layout.Run) string {
	if r.Left.Kind == job.EndTurn {
		return "corner"
	}
	return "end"
}

// runSide says on which side of zero the end of the cap line lies.
func runSide(datum length.Length) string {
	if datum < 0 {
		return " right of 0"
	}
	return " left of 0"
}

// obstacleLabel names an obstacle, where it is and what it does.
func (p *runPlan) obstacleLabel(o *job.Obstacle) (place.Label, bool) {
	b, c, ok := p.obstacleBox(o)
	if !ok {
		return place.Label{}, false
	}
	does := ""
	for _, d := range []struct {
		does  job.Does
		words string
	}{{job.BlocksChair, "no chair"}, {job.BlocksJoint, "no joint"}, {job.Pierces, "through the cap"}} {
		if o.Does&d.does != 0 {
			if does != "" {
				does += ", "
			}
			does += d.words
		}
	}
	words := o.Name + " at " + p.crew(c) + ": " + does
	if o.Does&job.Pierces != 0 {
		if o.Collar == "" {
			words += ", SEAL NOT SETTLED"
		} else {
			words += ", collar by " + o.Collar
		}
	}
	return place.Label{Lines: []string{words}, About: drawing.Pt(b.Centre().X, b.Min.Y+100)}, true
}

// jointLabel says what is unlike the rest at a joint.
func (p *runPlan) jointLabel(j *layout.Joint) (place.Label, bool) {
	var lines []string
	switch j.Kind {
	case cap.Expansion:
		gap := ""
		if j.Source != nil {
			gap = ", wall gap " + p.short(j.Source.Gap)
		}
		lines = []string{"BUILDING EXPANSION JOINT" + gap, "plate fixed on the " + upper(j.Held) + " only, no chair under it"}
		if j.Movement == nil {
			lines = append(lines, "MOVEMENT NOT STATED")
		}
	case cap.Kink:
		lines = []string{"joint takes up the turn of the wall"}
	default:
		return place.Label{}, false
	}
	return place.Label{Lines: lines, About: drawing.Pt(p.x(j.Centre()), -40), Where: "at " + p.crew(j.Centre())}, true
}

func upper(h cap.Hand) string {
	if h == cap.RightHand {
		return "RIGHT"
	}
	return "LEFT"
}

// matchLabels name the match lines and where the run goes on.
func (p *runPlan) matchLabels(put func(place.Placement)) {
	for _, m := range []struct {
		at   *length.Length
		part int
		dir  drawing.Unit
	}{{p.win.MatchLeft, p.win.N - 1, -1}, {p.win.MatchRight, p.win.N + 1, 1}} {
		if m.at == nil {
			continue
		}
		name := ""
		for _, j := range p.r.Joints {
			if j.Centre() == *m.at {
				name = " at " + runTag(j.Name)
			}
		}
		l := place.Label{Lines: []string{"MATCH LINE" + name + ", see part " + runCount(m.part) + " of " + runCount(p.win.Of)}, Face: drawing.Bold,
			About: drawing.Pt(p.x(*m.at), -runMatchTop)}
		w, h := l.Extent()
		var spots []place.Spot
		for lift := drawing.Unit(0); lift < 2400; lift += 200 {
			for _, d := range []drawing.Unit{-m.dir, m.dir} {
				spots = append(spots, place.Spot{Centre: drawing.Pt(l.About.X+d*(w/2+150), -runMatchTop+h/2-lift), Leader: lift > 200})
			}
		}
		put(p.placer.Place(l, spots...))
	}
}

// endLabels name what lies beyond the ends of the run.
func (p *runPlan) endLabels(put func(place.Placement)) {
	side := func(g *runStubLeg, x, dir drawing.Unit, kind job.EndKind) {
		l := place.Label{Face: drawing.Bold}
		switch {
		case g != nil:
			l.Lines = []string{"RUN " + g.name}
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
			if g.turn > 0 {
				spots = append([]place.Spot{place.At(c.X, p.deep+runStub-h/2-130)}, spots...)
			} else {
				spots = append([]place.Spot{place.At(c.X, -runStub+h/2+130)}, spots...)
			}
			for d := drawing.Unit(200); d < 1500; d += 200 {
				spots = append(spots, place.At(x+dir*(w/2+d), p.deep+runStub/2), place.At(x+dir*(w/2+d), -300))
			}
			put(p.placer.Place(l, spots...))
			return
		case kind == job.EndWall:
			l.Lines = []string{"higher wall"}
		default:
			l.Lines = []string{"free end"}
		}
		l.About = drawing.Pt(x+dir*250, p.deep-100)
		w, h := l.Extent()
		var spots []place.Spot
		for d := drawing.Unit(0); d < 1200; d += 100 {
			spots = append(spots, place.Spot{Centre: drawing.Pt(x+dir*(w/2+700), p.deep-h-d), Leader: false}, place.Spot{Centre: drawing.Pt(x-dir*(w/2-600), -350-d)})
		}
		put(p.placer.Place(l, spots...))
	}
	if p.win.From <= 0 {
		side(p.leftStub, p.x(0), -1, p.r.Left.Kind)
	}
	if p.win.To >= p.r.Cap {
		side(p.rightStub, p.x(p.r.Cap), 1, p.r.Right.Kind)
	}
}

// streetLabel says which side the street is on, over the middle of the cap.
func (p *runPlan) streetLabel(put func(place.Placement)) {
	a, b := p.edges()
	mid := (a + b) / 2
	l := place.Label{Lines: []string{"STREET SIDE"}, Size: drawing.Head, Face: drawing.Bold, About: drawing.Pt(mid, -100)}
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
	got := p.placer.Place(l, append(spots, near...)...)
	put(got)
	p.placer.Block(got.Box.Inset(-300)) // it stands alone, lest it reads as part of a note
}

// busy says whether something within reach of a place on the street side will
// have a label there.
func (p *runPlan) busy(x, reach drawing.Unit) bool {
	near := func(at drawing.Unit) bool { return at > x-reach && at < x+reach }
	for i := range p.r.Job.Obstacles {
		if b, _, ok := p.obstacleBox(&p.r.Job.Obstacles[i]); ok && near(b.Centre().X) {
			return true
		}
	}
	for _, j := range p.joints() {
		if j.Kind != cap.Plain && near(p.x(j.Centre())) {
			return true
		}
	}
	return false
}

// stringLabel names the layout string once a window, wherever there is room.
func (p *runPlan) stringLabel(put func(place.Placement)) {
	chairs := p.chairs()
	if len(chairs) < 2 {
		return
	}
	l := place.Label{Lines: []string{"layout string"}, Where: "long-dashed line along the front edges of the chairs"}
	w, h := l.Extent()
	a, b := chairs[0].At, chairs[len(chairs)-1].At
	for lift := drawing.Unit(250); lift < 1600; lift += runLane {
		for _, k := range []int64{4, 5, 3, 6, 2, 7, 1, 8, 0} {
			l.About = drawing.Pt(p.x(a+length.MulDiv(b-a, k, 8))+200, p.stringY())
			y := -lift - h/2
			if got, ok := p.placer.Try(l, place.Pointed(l.About.X+w/2+300, y), place.Pointed(l.About.X-w/2-300, y), place.Pointed(l.About.X, y)); ok {
				put(got)
				return
			}
		}
	}
	put(p.placer.Place(l, p.lanes(l)...))
}
