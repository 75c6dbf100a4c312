package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
)

// Measures of the form of a short run that stands with others on a sheet.
const (
	sharedBar   drawing.Unit = 650  // its name
	sharedStrip drawing.Unit = 2200 // its sketch
	sharedBox   drawing.Unit = 950  // boxes for what it is measured from
	sharedGap   drawing.Unit = 150
	sharedSpare              = 1 // rows for stations of the surveyor's own
)

// names are those of the runs of a sheet.
func (q formPage) names() string {
	all := []string{q.name}
	for _, o := range q.with {
		all = append(all, o.name)
	}
	return strings.Join(all, ", ")
}

// surveyNames are those of the runs of a sheet in the column of the survey.
func (q formPage) surveyNames() string { return strings.Join(q.runs(), ", ") }

func (q formPage) runs() []string {
	all := []string{q.r.Name}
	for _, o := range q.with {
		all = append(all, o.r.Name)
	}
	return all
}

// shared puts short runs that follow each other on one sheet, as many as find room.
// How to measure stands on the forms of other runs, so the first form stays alone.
func (f *forms) shared(pages []formPage) []formPage {
	var out []formPage
	for i, q := range pages {
		q.blank = min(q.blank, sharedSpare)
		if n := len(out); i > 1 && n > 1 && f.on(q.p).joins(out[n-1], q) {
			last := &out[n-1]
			last.blank = min(last.blank, sharedSpare)
			last.with = append(last.with, q)
			continue
		}
		out = append(out, pages[i])
	}
	return out
}

// joins says whether the form of a run finds room under that of another.
func (f *forms) joins(q, next formPage) bool {
	if q.of > 1 || next.of > 1 || q.p != next.p {
		return false
	}
	q.blank = min(q.blank, sharedSpare)
	high := f.sharedHigh(q) + f.sharedHigh(next)
	for _, o := range q.with {
		high += f.sharedHigh(o)
	}
	return high <= f.foot()-f.sharedTop()-f.codesHigh()
}

// sharedTop is where the first of several runs begins.
func (f *forms) sharedTop() drawing.Unit { return f.room().Min.Y + formTitle + formBox + formGap }

// sharedHigh is the least height of a run that shares a sheet.
func (f *forms) sharedHigh(q formPage) drawing.Unit {
	rows := drawing.Unit(len(q.stations) + q.blank)
	boxes := drawing.Unit(len(f.sharedBoxes(q)))
	return sharedBar + boxes*sharedBox + sharedGap + sharedStrip + sharedGap + f.head(q) + rows*formLow + formGap
}

// sharedBoxes are the rows of boxes of one run of several.
func (f *forms) sharedBoxes(q formPage) [][]field { return f.boxLines(q)[1:] }

// codes are the words for what is wrong with a wall top, and where to read how to measure.
func (f *forms) codes() []string {
	text := f.b.say.Say(words.FormHowElsewhere) + " " + f.b.say.Say(words.FormConditions)
	return drawing.Wrap(prose(text), drawing.Regular, drawing.Note, f.room().Width())
}

func (f *forms) codesHigh() drawing.Unit {
	return drawing.Unit(len(f.codes()))*drawing.Note.Line() + formGap
}

// drawShared draws the runs of a sheet under each other.
func (f *forms) drawShared(s *drawing.Scene, q formPage) {
	r := f.room()
	all := append([]formPage{q}, q.with...)
	y := f.sharedTop()
	spare := f.foot() - f.codesHigh() - y
	for _, o := range all {
		spare -= f.sharedHigh(o)
	}
	for _, o := range all {
		end := y + f.sharedHigh(o) + spare/drawing.Unit(len(all)) - formGap
		s.Group(drawing.Tables, "boxes-"+o.name, func(g *drawing.Scene) {
			g.Text(drawing.Pt(r.Min.X, y+500), f.b.say.Count(words.FormRun, 1, words.In("name", o.name)),
				drawing.Style{Size: drawing.Head, Face: drawing.Bold})
			y = f.boxRowsAt(g, f.sharedBoxes(o), y+sharedBar, sharedBox) + sharedGap
		})
		strip := view.SurveySketch(f.b.say, layout.Sketch(o.p, o.at, f.b.metric), r.Width()-200, sharedStrip-200)
		s.Rect(drawing.Medium, drawing.Box(r.Min.X, y, r.Max.X, y+sharedStrip))
		place(s, strip, drawing.Pt(r.Min.X+100, y+100), "sketch-"+o.name)
		y += sharedStrip + sharedGap
		s.Group(drawing.Tables, "stations-"+o.name, func(g *drawing.Scene) { f.rule(g, o, y, end) })
		y = end + formGap
	}
	s.Group(drawing.Tables, "codes", func(g *drawing.Scene) {
		y := f.foot() - f.codesHigh() + formGap + drawing.Unit(drawing.Note)
		for i, l := range f.codes() {
			g.Text(drawing.Pt(r.Min.X, y+drawing.Unit(i)*drawing.Note.Line()), l, drawing.Style{})
		}
	})
}

// standings are the words for what stands at a station.
var standings = map[layout.StandingKind]words.Key{
	layout.LeftCorner: words.FormAtLeftCorner, layout.LeftEnd: words.FormAtLeftEnd,
	layout.LeftBreak: words.FormAtLeftBreak, layout.RightCorner: words.FormAtRightCorner,
	layout.RightEnd: words.FormAtRightEnd, layout.RightBreak: words.FormAtRightBreak,
	layout.Drawn: words.FormAtDrawn, layout.ExpansionLeft: words.FormAtExpansionLeft,
	layout.ExpansionRight: words.FormAtExpansionRight,
}

// standing says what stands at a station.
func (f *forms) standing(s layout.SurveyStation) string {
	var out []string
	for _, w := range s.What {
		if w.Kind == layout.Beside {
			out = append(out, f.b.say.Say(words.FormAtBeside, words.In("what", w.Name)))
			continue
		}
		out = append(out, f.b.say.Say(standings[w.Kind]))
	}
	return strings.Join(out, "; ")
}
