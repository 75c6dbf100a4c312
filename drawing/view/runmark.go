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

func (p *runPlan) chairLabel(c plan.Chair) place.Label {
	b := p.chairBox(c)
	return place.Label{Lines: []string{runTag(c.Mark)}, Face: drawing.Bold, Halo: true, About: b.Centre(), Where: p.say.Say(words.ViewAt, words.In("station", p.long(c.Station.Real)))}
}

// chairNumbers letters the numbers in the chairs and returns those that found
// no room there.
func (p *runPlan) chairNumbers() []plan.Chair {
	var wishes []place.Wish
	shown := p.chairs()
	for _, c := range shown {
		l := p.chairLabel(c)
		w, _ := l.Extent()
		x, y := l.About.X, l.About.Y
		side := w/2 + runTrueJ/2 + 100
		wishes = append(wishes, place.Wish{Label: l, Spots: []place.Spot{place.At(x, y), place.At(x-side, y), place.At(x+side, y)}})
	}
	var late []plan.Chair
	for i, got := range p.placer.TryAll(wishes) {
		if got.Stands() {
			p.put(got)
		} else {
			late = append(late, shown[i])
		}
	}
	return late
}

// pieceMark letters the mark of a piece big inside its cap, and under it when
// it is laid and what keeps it back.
func (p *runPlan) pieceMark(q plan.Piece) {
	from, to, ok := p.cut(q.From, q.To)
	if !ok || to-from < (q.To-q.From)/4 && q.To-q.From > length.Foot && (from > q.From || to < q.To) {
		return // a sliver at the break line: its mark stands on the next sheet
	}
	a, b := p.x(from), p.x(to)
	mid := drawing.Pt((a+b)/2, p.deep/2)
	mark, laying := q.MarkFact, q.LayingFact
	under := []string{p.say.Say(words.ViewLay, words.In("n", runCount(q.Laying)))}
	if q.LaidWith != "" {
		under, laying = []string{p.say.Say(words.ViewLayWith, words.In("run", q.LaidWith))}, ""
	}
	if q.Held {
		under = append(under, p.say.Say(words.ViewHold))
	}
	big := place.Label{Lines: []string{q.Mark}, Facts: []string{mark}, Size: drawing.Title, Face: drawing.Bold, About: mid, Where: p.say.Say(words.ViewPieceAt, words.In("station", p.crew(from)))}
	small := place.Label{Lines: under, Facts: []string{laying}, About: mid, Note: q.Mark + " " + strings.Join(under, ", ")}
	flat := strings.Join(under, ", ")
	whole := big
	whole.Facts = []string{drawing.FactNames(mark, laying)}
	whole.Lines, whole.Size, whole.About = []string{q.Mark + ", " + flat}, drawing.Head, p.tip(a, b)
	aside := small
	aside.Facts = whole.Facts
	aside.Lines = []string{q.Mark + ": " + flat}
	if p.isEarly(whole) || p.isEarly(aside) { // either says it all
		p.closerWords(q, a, b)
		return
	}
	gap := drawing.Unit(70)
	for _, size := range []drawing.Size{drawing.Title, drawing.Head} {
		for _, lines := range [][]string{under, {flat}} {
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
					p.put(got)
					p.place(small, down)
					p.closerWords(q, a, b)
					return
				}
			}
		}
	}
	for _, size := range []drawing.Size{drawing.Title, drawing.Head} {
		big.Size = size
		if got, ok := p.placer.Try(big, p.inside(big, mid.X, max((b-a)/2-300, 0))...); ok {
			p.put(got)
			small.Lines, aside.About = []string{flat}, p.tip(a, b)
			if got, ok := p.placer.Try(small, p.inside(small, mid.X, max((b-a)/2-300, 0))...); ok {
				p.put(got)
			} else {
				p.street(aside, 1, p.tips(a, b)...)
			}
			p.closerWords(q, a, b)
			return
		}
	}
	p.street(whole, 2, p.tips(a, b)...)
	p.closerWords(q, a, b)
}

// tip is a place in a part of a cap where a leader may start.
func (p *runPlan) tip(a, b drawing.Unit) drawing.Point {
	if tips := p.tips(a, b); len(tips) > 0 {
		return tips[0]
	}
	return drawing.Pt((a+b)/2, 100)
}

// tips are all such places, the best first, those in a chair last: a leader
// into a chair would name the chair.
func (p *runPlan) tips(a, b drawing.Unit) []drawing.Point {
	var out, late []drawing.Point
	chairs := p.chairs()
	for _, y := range []drawing.Unit{p.deep / 2, p.deep / 6, p.deep * 5 / 6} {
		for _, k := range []drawing.Unit{4, 3, 5, 2, 6, 1, 7} {
			at := drawing.Pt(a+(b-a)*k/8, y)
			if p.placer.Lettered(at) {
				continue
			}
			if slices.ContainsFunc(chairs, func(c plan.Chair) bool { return p.chairBox(c).Inset(-60).Holds(at) }) {
				late = append(late, at)
			} else {
				out = append(out, at)
			}
		}
	}
	return append(out, late...)
}

// closerWords marks the end of a field closer that is cut on the roof.
func (p *runPlan) closerWords(q plan.Piece, a, b drawing.Unit) {
	if q.Allowance == 0 || q.CutAt == plan.NoHand {
		return
	}
	l := place.Label{Lines: []string{p.say.Say(words.ViewTrim)}, Note: p.say.Say(words.ViewTrimNote, words.In("piece", q.Mark)), About: drawing.Pt(b-150, p.deep/4)}
	if q.CutAt == plan.LeftHand {
		l.About.X = a + 150
	}
	if l.About.X <= p.left || !p.shows(q.From) || !p.shows(q.To) {
		return
	}
	p.street(l, 2)
}

// supportLabel names a support under a miter, and where the run has a miter at
// both ends the corner it belongs to.
func (p *runPlan) supportLabel(q runQuad) {
	l := place.Label{Lines: []string{q.name}, About: q.box.Centre(), Note: p.say.Say(words.ViewSupport, words.In("name", q.name))}
	c := q.box.Centre()
	spots := []place.Spot{place.At(c.X, c.Y)}
	w, h := l.Extent()
	for _, d := range []drawing.Unit{100, 300, 500, 800} {
		for _, side := range []drawing.Unit{q.out, -q.out} {
			spots = append(spots, place.Pointed(c.X+side*(q.box.Width()/2+w/2+d), c.Y))
		}
	}
	for _, d := range []drawing.Unit{100, 300, 500} {
		for _, x := range []drawing.Unit{0, -w / 2, w / 2} {
			spots = append(spots, place.Pointed(c.X+x, q.box.Max.Y+h/2+d), place.Pointed(c.X+x, q.box.Min.Y-h/2-d))
		}
	}
	p.place(l, append(spots, p.lanes(l)...)...)
}
