package sheets

import "copingset/drawing"

// safety is the sheet of cautions. The words are ours; the rules they lean on
// are named, and all of them stand over us.
func (b *book) safety() []page {
	first := page{id: b.id("safety"), title: "Safety cautions", kind: Safety, paper: b.runs,
		about: "Cautions for work on the wall top: falls, wind, edges, dust, heat and lifting."}
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
		one := flow(blocks, func(int) []drawing.Rect { return columns(first.paper.room(false), n, gutter) })
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

func (b *book) cautions() []warning {
	s := &b.j.Site
	plan := "the site safety plan"
	if s.SafetyPlan != "" {
		plan += " (" + s.SafetyPlan + ")"
	}
	lift := "Pieces marked TWO in the piece schedule and on the crate lists take two persons, those marked MECHANICAL LIFT a machine. Weights are calculated, film and crate left out."
	if s.OnePerson > 0 {
		lift = "Pieces heavier than " + b.weight(s.OnePerson) + " or longer than " + b.text(s.LongPiece) + " are marked TWO: two persons lift them. " +
			"Those over " + b.weight(2*s.OnePerson) + " are marked MECHANICAL LIFT: nobody lifts them by hand. " +
			"Weights are calculated; film and wet add to them."
	}
	return []warning{
		{"Who governs", "This sheet is a reminder, not a plan. The local authority, the engineer of record, the manufacturer's tested assembly and " + plan +
			" govern; where any of them asks for more, that stands. No figure in this packet is a licensed engineer's.", ""},
		{"The edge is a fall", "Nearly all of this work is done at an open edge and needs fall protection before anyone steps to it: guardrail, net or personal fall arrest " +
			"(29 CFR 1926.501 and .502). A parapet guards only if it stands high enough above the roof with the coping off; measure it that way.", "Protection in use today: "},
		{"A warning line does not cover you here", "A warning line stands back from the edge to keep people away from it. Whoever sets chairs or caps is outside the line and needs " +
			"protection of their own (29 CFR 1926.502(f)). Nailers and blocking are commonly held to be carpentry, not roofing work: the easier rules for roofing do not cover them.", ""},
		{"Never tie off to the coping", "Caps, chairs, splice plates and nailers are never an anchor for a lifeline or a lanyard, nor for a hoist or a ladder. " +
			"Anchors are those of the site safety plan (29 CFR 1926.502(d)).", ""},
		{"Long caps sail", "A cap catches wind like a sail and can carry a person over the edge. The foreman sets the limit for the day, measures the wind on the roof, and stops when it is passed. " +
			"Carry caps edge to the wind, keep to the roof side, and never leave one unsnapped.", "Wind limit today: "},
		{"Edges cut", "Sheet edges, hems and corners cut through cloth. Wear gloves and sleeves made for sheet metal, and eye protection when cutting.", ""},
		{"Dust from drilling", "Drilling block, brick, stone or concrete makes silica dust. Drill with a shroud and a vacuum or wet, and wear a respirator where the rule asks for it " +
			"(29 CFR 1926.1153). Never blow holes out with the mouth.", ""},
		{"Hot metal, hot roof", "Metal in the sun burns bare skin, and film left on softens. Plan water, shade and rest.", ""},
		{"Lifting", lift, ""},
		{"People below", "Nothing may fall. Close off the ground under the work, tie tools, and keep screws and offcuts in a pouch.", ""},
		{"Stacks on the roof", "Keep bundles back from the edge, banded or weighed down, off the wet and within what the roof carries (29 CFR 1926.250). Cut a band only when the pieces go up.", ""},
		{"Before the first chair", "A rotten nailer, loose block or anchor that turns in its hole is not a place for a chair. Stop, mark it on the run sheet and report it: the tests were made on sound walls.", ""},
	}
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
				g.Text(drawing.Pt(r.Min.X, r.Min.Y+drawing.Unit(head)), prose(c.head), drawing.Style{Size: head, Face: drawing.Bold})
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

// stripWords are the cautions along the foot of a run sheet.
const stripWords = "FALL EDGE: protect before you step to it.   NEVER TIE OFF to coping or chairs.   EDGES CUT.   CAPS SAIL: keep the foreman's wind limit.   DRILLING MAKES DUST."

const cautionHigh drawing.Unit = 750

// cautionStrip draws them in a box.
func cautionStrip(s *drawing.Scene, r drawing.Rect) {
	s.Group(drawing.Lettering, "caution", func(g *drawing.Scene) {
		g.Rect(drawing.Medium, r)
		z := drawing.Note
		words := prose(stripWords)
		for z > drawing.Small && drawing.Width(drawing.Bold, words, z) > r.Width()-400 {
			z -= 10
		}
		lines := drawing.Wrap(words, drawing.Bold, z, r.Width()-400)
		y := r.Centre().Y + drawing.Unit(z)/2 - drawing.Unit(len(lines)-1)*200
		for _, line := range lines {
			g.Text(drawing.Pt(r.Centre().X, y), line, drawing.Style{Size: z, Face: drawing.Bold, Align: drawing.Middle})
			y += 400
		}
	})
}
