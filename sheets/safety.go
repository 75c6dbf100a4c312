package sheets

import (
	"copingset/drawing"
	"copingset/drawing/words"
)

// safety is the sheet of cautions. The words are ours; the rules they lean on
// are named, and all of them stand over us.
func (b *book) safety() []page {
	first := page{id: b.id("safety"), title: b.say.Say(words.CautionTitle), kind: Safety, paper: b.runs,
		about: b.say.Say(words.CautionAbout)}
	n := 2
	if b.runs.w > 50000 {
		n = 3
	}
	// As large as one sheet holds: it is read at arm's length, in the open.
	for z := drawing.Title; ; z -= 50 {
		var blocks []block
		for _, c := range b.cautions() {
			blocks = append(blocks, caution(c, z))
		}
		one := b.flow(blocks, func(int) []drawing.Rect { return columns(first.paper.room(false), n, gutter) })
		if len(one) == 1 || z <= drawing.Note {
			return b.pages(first, blocks, inColumns(n))
		}
	}
}

type warning struct {
	head  string
	words string
	blank string // to be written in on the day
}

// cautions are the warnings in the order in which they are read: what governs, then
// what can kill, then what hurts.
func (b *book) cautions() []warning {
	say := b.say.Say
	plan := say(words.CautionPlan)
	if name := b.j.Site.SafetyPlan; name != "" {
		plan = say(words.CautionPlanNamed, words.In("name", name))
	}
	return []warning{
		{say(words.CautionGovernsHead), say(words.CautionGoverns, words.In("plan", plan)), ""},
		{say(words.CautionFallHead), say(words.CautionFall), say(words.CautionFallBlank)},
		{say(words.CautionLineHead), say(words.CautionLine), ""},
		{say(words.CautionTieHead), say(words.CautionTie), ""},
		{say(words.CautionWindHead), say(words.CautionWind), say(words.CautionWindBlank)},
		{say(words.CautionCutHead), say(words.CautionCut), ""},
		{say(words.CautionDustHead), say(words.CautionDust), ""},
		{say(words.CautionLiftHead), b.liftingCaution(), ""},
		{say(words.CautionBelowHead), say(words.CautionBelow), ""},
		{say(words.CautionStackHead), say(words.CautionStack), ""},
		{say(words.CautionHeatHead), say(words.CautionHeat), ""},
		{say(words.CautionSoundHead), say(words.CautionSound), ""},
	}
}

// liftingCaution says who lifts what, by the job's limits where it has some.
func (b *book) liftingCaution() string {
	s := &b.j.Site
	if s.OnePerson <= 0 {
		return b.say.Say(words.CautionLiftMarked)
	}
	return b.say.Say(
		words.CautionLiftLimits, words.In("one", b.weight(s.OnePerson)), words.In("two", b.weight(2*s.OnePerson)),
		words.In("long", b.text(s.LongPiece)),
	)
}

// caution draws one of them: a heading, words, and a line to write on.
func caution(c warning, z drawing.Size) whole {
	lines := func(w drawing.Unit) []string { return drawing.Wrap(prose(c.words), drawing.Regular, z, w) }
	head := z + 50
	top := drawing.Unit(head) + 250
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			h := top + drawing.Unit(len(lines(w)))*z.Line()
			if c.blank != "" {
				h += drawing.Unit(z) * 3
			}
			return h
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				g.Text(
					drawing.Pt(r.Min.X, r.Min.Y+drawing.Unit(head)),
					prose(c.head),
					drawing.Style{Size: head, Face: drawing.Bold},
				)
				g.Line(drawing.Medium, drawing.Pt(r.Min.X, r.Min.Y+top-100), drawing.Pt(r.Max.X, r.Min.Y+top-100))
				y := r.Min.Y + top + drawing.Unit(z)
				for _, line := range lines(r.Width()) {
					g.Text(drawing.Pt(r.Min.X, y), line, drawing.Style{Size: z})
					y += z.Line()
				}
				if c.blank != "" {
					y += drawing.Unit(z) * 3 / 2
					t := g.Text(drawing.Pt(r.Min.X, y), c.blank, drawing.Style{Size: z, Face: drawing.Bold})
					g.Line(drawing.Thin, drawing.Pt(r.Min.X+t.Width+100, y+50), drawing.Pt(r.Max.X, y+50))
				}
			})
		},
	}
}

const cautionHigh drawing.Unit = 750

// cautionStrip draws the cautions along the foot of a run sheet in a box.
func (b *book) cautionStrip(s *drawing.Scene, r drawing.Rect) {
	s.Group(drawing.Lettering, "caution", func(g *drawing.Scene) {
		g.Rect(drawing.Medium, r)
		z := drawing.Note
		words := prose(b.say.Say(words.CautionStrip))
		for z > drawing.Small && drawing.Width(drawing.Bold, words, z) > r.Width()-400 {
			z -= 10
		}
		lines := drawing.Wrap(words, drawing.Bold, z, r.Width()-400)
		y := r.Centre().Y + drawing.Unit(z)/2 - drawing.Unit(len(lines)-1)*z.Line()/2
		for _, line := range lines {
			g.Text(drawing.Pt(r.Centre().X, y), line, drawing.Style{Size: z, Face: drawing.Bold, Align: drawing.Middle})
			y += z.Line()
		}
	})
}
