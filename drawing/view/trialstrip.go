package view

import (
	"copingset/drawing"
	"copingset/layout/fold"
	"copingset/layout/plan"
)

// TrialStrip is what the picture of a trial strip shows.
type TrialStrip struct {
	Name    string       // "STRIP 1"
	About   string       // for those who cannot see it
	Blank   string       // its length, lettered
	Line    string       // its bend line from either end, lettered
	Up      bool         // the bend is dashed as one UP
	Fact    plan.Key     // begins the names of its facts
	Section []fold.Point // of the bent strip, millimetres, y up
}

// TrialPicture draws the blank of a strip with its bend line, and the strip when it
// is bent with both legs named.
func TrialPicture(q TrialStrip) drawing.Scene {
	const wide, blank, high = 8400, 3200, 1200
	s := drawing.Scene{Name: "strip", Title: q.Name, Desc: q.About, W: wide}
	s.Text(drawing.Pt(0, 350), q.Name, drawing.Style{Face: drawing.Bold, Fact: drawing.FactNames(q.Fact.Fact("number"),
		q.Fact.Fact("turns-by-degrees"))})
	box := drawing.Box(700, 900, 700+blank, 900+high)
	s.Rect(drawing.Thick, box)
	pen := drawing.Centre
	if q.Up {
		pen = drawing.Hidden
	}
	mid := (box.Min.X + box.Max.X) / 2
	s.Line(pen, drawing.Pt(mid, box.Min.Y), drawing.Pt(mid, box.Max.Y))
	for i, phrase := range []string{"A: " + q.Blank, q.Line} {
		y := box.Max.Y + 650 + drawing.Unit(1-i)*600
		to := box.Max.X
		if i == 1 {
			to = mid
		}
		for _, x := range []drawing.Unit{box.Min.X, to} {
			s.Line(drawing.Thin, drawing.Pt(x, box.Max.Y+100), drawing.Pt(x, y+100))
		}
		s.Line(drawing.Thin, drawing.Pt(box.Min.X, y), drawing.Pt(to, y))
		for _, x := range []drawing.Unit{box.Min.X, to} {
			s.Line(drawing.Medium, drawing.Pt(x-60, y+60), drawing.Pt(x+60, y-60))
		}
		s.Text(drawing.Pt((box.Min.X+to)/2, y-90), phrase, drawing.Style{Align: drawing.Middle,
			Fact: q.Fact.Fact([...]string{"length", "line"}[i])})
	}
	s.H = box.Max.Y + 1500
	if len(q.Section) == 0 {
		return s
	}
	var e extent
	for _, p := range q.Section {
		e.hold(xy{p.X, -p.Y})
	}
	w, h := e.size()
	ratio := max(w.MM()/24, h.MM()/24, 0.5)
	m := paperMap{ratio: ratio, origin: drawing.Pt(5000-drawing.Round(e.lo.x/ratio), 700-drawing.Round(e.lo.y/ratio))}
	pts := make([]drawing.Point, len(q.Section))
	for i, p := range q.Section {
		pts[i] = m.at(xy{p.X, -p.Y})
	}
	s.Fill(drawing.Dark, drawing.Medium, pts...)
	low := m.at(e.hi).Y
	first := m.at(xy{q.Section[0].X, -q.Section[0].Y})
	s.Text(drawing.Pt(first.X, low+450), "B", drawing.Style{Face: drawing.Bold})
	last := pts[len(pts)/2-1] // the end of the finish face
	s.Text(drawing.Pt(last.X+500, last.Y+100), "C", drawing.Style{Face: drawing.Bold, Align: drawing.Middle})
	s.H = max(s.H, low+700)
	return s
}
