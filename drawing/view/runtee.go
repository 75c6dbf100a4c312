package view

import (
	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// shownTees are the branches that show whole in the window of their main.
func (p *runPlan) shownTees() []plan.Branch {
	var out []plan.Branch
	for _, t := range p.of.Branches {
		if t.Left.X > p.win.From && t.Right.X < p.win.To {
			out = append(out, t)
		}
	}
	return out
}

// teeStubs are the two sides of each branch, from the main's rear mold line to
// where the drawing of it breaks off: left near and far, right near and far.
func (p *runPlan) teeStubs() [][4]drawing.Point {
	var out [][4]drawing.Point
	for _, t := range p.shownTees() {
		a, b, y := p.x(t.Left.X), p.x(t.Right.X), p.y(t.Left.Y)
		out = append(out, [4]drawing.Point{drawing.Pt(a, y), drawing.Pt(a, y+runStub), drawing.Pt(b, y), drawing.Pt(b, y+runStub)})
	}
	return out
}

// teeLabels name the branches in their stubs, or beside them.
func (p *runPlan) teeLabels() {
	for i, t := range p.shownTees() {
		q := p.teeStubs()[i]
		mid := drawing.Pt((q[0].X+q[2].X)/2, q[0].Y+runStub/2-60)
		l := place.Label{Lines: []string{p.say.Say(words.ViewRun, words.In("run", t.Name))}, Face: drawing.Bold, About: mid}
		w, _ := l.Extent()
		p.place(l, place.At(mid.X, mid.Y), place.At(q[2].X+w/2+150, mid.Y), place.At(q[0].X-w/2-150, mid.Y))
	}
}
