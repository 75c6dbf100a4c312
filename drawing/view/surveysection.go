package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
)

// SurveySection is the picture on a survey form that shows what is measured:
// a wall top cut across, street at the left, roof at the right, with the string,
// the offset and its signs, the width, and the two tops over the level datum;
// and, where the wall asks for them, the readings at the depth of the legs.
func SurveySection(say words.Book, low bool) drawing.Scene {
	const (
		face, back  drawing.Unit = 2700, 4900 // of the wall
		top, inTop  drawing.Unit = 1650, 1500
		line        drawing.Unit = 2000 // string
		datum       drawing.Unit = 2500
		wide        drawing.Unit = 7600
		half        drawing.Unit = 150 // half of small capitals
		lowAt       drawing.Unit = 3600
		inset, shim drawing.Unit = 60, 120
	)
	foot, high := drawing.Unit(3700), drawing.Unit(3800)
	if low {
		foot, high = 4300, 4400
	}
	s := drawing.Scene{Name: "survey-section", Title: say.Say(words.SurveySection), W: wide, H: high,
		Desc: say.Say(words.SurveySectionAbout)}
	phrase := func(g *drawing.Scene, x, y drawing.Unit, a drawing.Align, f drawing.Face, w string) {
		g.Text(drawing.Pt(x, y), w, drawing.Style{Size: drawing.Small, Align: a, Face: f})
	}
	s.Group(drawing.Wall, "", func(g *drawing.Scene) {
		g.Hatch(
			drawing.Masonry,
			drawing.NoPen,
			drawing.Pt(face, top),
			drawing.Pt(back, inTop),
			drawing.Pt(back, foot),
			drawing.Pt(face, foot),
		)
		g.Line(
			drawing.Thick,
			drawing.Pt(face, foot),
			drawing.Pt(face, top),
			drawing.Pt(back, inTop),
			drawing.Pt(back, foot),
		)
		g.Line(drawing.Centre, drawing.Pt(face-shim, datum), drawing.Pt(wide-inset, datum))
		g.Line(drawing.String, drawing.Pt(line, top-1000), drawing.Pt(line, foot))
		g.Dot(drawing.Pt(line, top+250), 90, drawing.Black)
	})
	s.Group(drawing.Dimensions, "", func(g *drawing.Scene) {
		phrase(g, 0, 300, drawing.Left, drawing.Bold, say.Say(words.SurveyStreet))
		phrase(g, wide, 300, drawing.Right, drawing.Bold, say.Say(words.SurveyRoof))
		phrase(g, line-shim, top-650, drawing.Right, drawing.Regular, say.Say(words.SurveyLine))
		// Width, over the wall.
		g.Line(drawing.Thin, drawing.Pt(face, 950), drawing.Pt(back, 950))
		for _, x := range []drawing.Unit{face, back} {
			g.Line(drawing.Thin, drawing.Pt(x, 750), drawing.Pt(x, 1350))
			g.Line(drawing.Medium, drawing.Pt(x-100, 1050), drawing.Pt(x+100, 850))
		}
		phrase(g, (face+back)/2, 850, drawing.Middle, drawing.Bold, say.Say(words.SurveyWidth))
		// Offset, from the string to the face.
		y := top + 250
		g.Line(drawing.Thin, drawing.Pt(line, y), drawing.Pt(face, y))
		g.Line(drawing.Medium, drawing.Pt(face-100, y+100), drawing.Pt(face+100, y-100))
		phrase(g, line-shim, y+half-30, drawing.Right, drawing.Bold, say.Say(words.SurveyOffset))
		signs := say.Say(words.SurveySignStreet) + "\n" + say.Say(words.SurveySignRoof)
		for i, part := range strings.Split(signs, "\n") {
			phrase(g, line-shim, y+half+420+drawing.Unit(i)*380, drawing.Right, drawing.Regular, part)
		}
		// Tops, over the datum.
		phrase(g, wide-inset, datum+half+230, drawing.Right, drawing.Regular, say.Say(words.SurveyLevelDatum))
		x := back + 350
		g.Line(drawing.Thin, drawing.Pt(back+shim, inTop), drawing.Pt(x+250, inTop))
		g.Line(drawing.Thin, drawing.Pt(x, inTop), drawing.Pt(x, datum))
		for _, at := range []drawing.Unit{inTop, datum} {
			g.Line(drawing.Medium, drawing.Pt(x-100, at+100), drawing.Pt(x+100, at-100))
		}
		phrase(g, x+200, inTop+600, drawing.Left, drawing.Bold, say.Say(words.SurveyTopRoof))
		x = face + 300
		g.Fill(drawing.White, drawing.NoPen, drawing.Box(x-120, top+250, x+1750, datum-80).Corners()...)
		g.Line(drawing.Thin, drawing.Pt(x, top), drawing.Pt(x, datum))
		for _, at := range []drawing.Unit{top, datum} {
			g.Line(drawing.Medium, drawing.Pt(x-100, at+100), drawing.Pt(x+100, at-100))
		}
		for i, part := range strings.Split(say.Say(words.SurveyTopStreet), "\n") {
			phrase(g, x+150, (top+datum)/2+half-140+drawing.Unit(i)*360, drawing.Left, drawing.Bold, part)
		}
		if low {
			g.Fill(drawing.White, drawing.NoPen, drawing.Box(face+250, lowAt-450, back-250, lowAt-60).Corners()...)
			g.Line(drawing.Thin, drawing.Pt(line, lowAt), drawing.Pt(back, lowAt))
			for _, x := range []drawing.Unit{face, back} {
				g.Line(drawing.Medium, drawing.Pt(x-100, lowAt+100), drawing.Pt(x+100, lowAt-100))
			}
			phrase(g, (face+back)/2, lowAt-120, drawing.Middle, drawing.Bold, say.Say(words.SurveyWidthLow))
			for i, part := range strings.Split(say.Say(words.SurveyLow), "\n") {
				phrase(g, back+200, lowAt+half-30+drawing.Unit(i)*380, drawing.Left, drawing.Regular, part)
			}
		}
	})
	return s
}
