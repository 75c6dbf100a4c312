package sheets

import (
	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout/job"
)

// tradeWords are words of the site that the crew and the foreman have to have in
// common, beside those of the word list.
var tradeWords = []words.Key{
	words.GlossaryCoping, words.GlossaryParapet, words.GlossaryOutsideCorner, words.GlossaryInsideCorner,
	words.GlossarySplicePlate, words.GlossaryEndCap, words.GlossaryDrip, words.GlossaryHook, words.GlossarySnap,
	words.GlossaryMembrane, words.GlossaryTape, words.GlossaryScrew, words.GlossaryWasher, words.GlossaryHole,
	words.GlossaryPilot, words.GlossarySheetMetal, words.GlossaryFilm, words.GlossaryLevel, words.GlossaryPlumb,
	words.GlossaryRod, words.GlossaryCrate, words.GlossarySheet, words.GlossaryForeman, words.GlossaryEdge,
	words.GlossaryHarness, words.GlossaryAnchorage, words.GlossaryLifeline, words.GlossaryGuardrail,
	words.GlossaryDoNotTie, words.GlossaryStop,
}

const (
	pictureWide drawing.Unit = 1900
	pictureHigh drawing.Unit = 1150
)

// glossary is a sheet with each word of the trade in both languages, for a job whose
// crew does not read English alone.
func (b *book) glossary() []page {
	if b.j.Language == job.InEnglish {
		return nil
	}
	first := page{id: b.id("glossary"), title: b.say.Say(words.GlossaryTitle), kind: Glossary, paper: b.runs,
		about: b.say.Say(words.GlossaryAbout)}
	var all []block
	for _, w := range wordList {
		all = append(all, b.glossaryEntry(w[0], w[1]))
	}
	for _, k := range tradeWords {
		all = append(all, b.glossaryEntry(k, ""))
	}
	n := max(2, int(first.paper.room(false).Width()/9500))
	return b.pages(first, all, inColumns(n))
}

// glossaryEntry is a word in English and in Spanish, what it means, and its picture.
func (b *book) glossaryEntry(k, means words.Key) whole {
	english := words.Book{UK: b.say.UK, Outer: b.say.Outer}
	spanish := words.Book{Lang: words.Spanish, Outer: b.say.Outer}
	lines := func(w drawing.Unit) (head, body []string) {
		w -= pictureWide + 300
		head = drawing.Wrap(prose(english.Say(k)+" = "+spanish.Say(k)), drawing.Bold, drawing.Note, w)
		if means != "" {
			body = drawing.Wrap(prose(spanish.Say(means)), drawing.Regular, drawing.Note, w)
		}
		return head, body
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			head, body := lines(w)
			h := drawing.Unit(len(head)+len(body))*drawing.Note.Line() + 200
			var probe drawing.Scene
			if view.WordPicture(&probe, k, drawing.Box(0, 0, pictureWide, pictureHigh)) {
				h = max(h, pictureHigh+200)
			}
			return h
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				at := drawing.Pt(r.Min.X, r.Min.Y+100)
				view.WordPicture(g, k, drawing.Box(at.X, at.Y, at.X+pictureWide, at.Y+pictureHigh))
				head, body := lines(r.Width())
				x, y := r.Min.X+pictureWide+300, at.Y+drawing.Unit(drawing.Note)
				for i, line := range append(head, body...) {
					st := drawing.Style{}
					if i < len(head) {
						st.Face = drawing.Bold
					}
					g.Text(drawing.Pt(x, y), line, st)
					y += drawing.Note.Line()
				}
			})
		},
	}
}
