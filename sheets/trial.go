package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// trialPages are the sheet of trial strips: each strip flat and bent, a row to write
// what was measured in, and how the deduction is worked out of it.
func (b *book) trialPages() []page {
	trials := b.l.Trials()
	if len(trials) == 0 {
		return nil
	}
	s := b.j.Shop
	p := page{
		id:    b.id("trial-strips"),
		title: b.say.Say(words.TrialStripsTitle),
		kind:  ShopSheet,
		paper: b.lists,
		scale: b.say.Say(words.FrameNone),
		about: b.say.Say(words.TrialStripsAbout),
	}
	how := list{title: b.say.Say(words.TrialTitle), items: []string{
		b.say.Say(words.TrialWhy, words.In("trim-float", trimFloat(s.K)), words.In("ksource", prose(s.KSource))),
		b.say.Say(
			words.TrialCut, words.In("thickness", b.thick(b.j.System.Metal.Thickness)),
			words.In("name", prose(b.j.System.Metal.Name)),
		),
		b.say.Say(words.TrialBend, words.In("inside-r", b.exactly(b.j.System.Profile.InsideR))),
		b.say.Say(words.TrialMeasure),
		b.say.Say(words.TrialDeduction),
		b.say.Say(words.TrialWrite),
	}, names: []string{
		factsOf("shop", "k-factor", "k-source"), factsOf("system", "thickness", "metal"),
		factsOf("system", "inside-radius"),
	}, plain: true}
	blocks := []block{how, b.trialTable(trials)}
	var pictures []drawing.Scene
	for i, t := range trials {
		name := words.TrialNameBoth
		if w := ways(t); len(w) == 1 {
			name = w[0].name
		}
		q := view.TrialStrip{
			About:   b.say.Say(words.TrialPicture),
			Name:    b.say.Say(name, words.In("n", itoa(i+1)), words.In("turn", view.Degrees(t.Turn))),
			Blank:   b.inBlank(t.Length),
			Line:    b.inBlank(t.Line),
			Up:      t.Up && !t.Down,
			Fact:    plan.Key(layout.Named(layout.FactOfTrial(i), "")),
			Section: t.Section,
		}
		pictures = append(pictures, view.TrialPicture(q))
	}
	for i := 0; i < len(pictures); i += 2 { // two stand next to each other
		s := pictures[i]
		if i+1 < len(pictures) {
			s.Place(pictures[i+1], drawing.Pt(s.W+600, 0))
			s.W, s.H = 2*s.W+600, max(s.H, pictures[i+1].H)
		}
		blocks = append(blocks, picture{scene: s, prefix: "strips" + itoa(i+1)})
	}
	return b.pages(p, blocks, across)
}

// ways are how a strip's bend is made, as the finish face is seen.
func ways(t plan.Trial) []bendWay {
	var out []bendWay
	if t.Up {
		out = append(out, bendWay{words.TrialNameUp, words.TrialBendUp})
	}
	if t.Down {
		out = append(out, bendWay{words.TrialNameDown, words.TrialBendDown})
	}
	return out
}

// bendWay is what names a strip bent one way, and says how its bend is made.
type bendWay struct{ name, bend words.Key }

// trialTable is a row for each strip, with room to write in.
func (b *book) trialTable(trials []plan.Trial) table {
	t := table{
		title: b.say.Say(words.TrialStrips),
		fill:  true,
		whole: true,
		cols: []column{
			b.right(words.ColStrip), b.col(words.ColBend), b.right(words.ColIncl), b.flex(words.ColFor),
			b.col(words.ColMeasuredTo), b.right(words.ColKLeg), b.right(words.ColDeduction),
			{head: "A", least: 1300}, {head: "B", least: 1300}, {head: "C", least: 1300},
			{head: "B + C − A", least: 1500},
		},
	}
	for i, q := range trials {
		var bends []string
		for _, w := range ways(q) {
			bends = append(bends, b.say.Say(w.bend, words.In("turn", view.Degrees(q.Turn))))
		}
		phrase := strings.Join(q.Of, "; ")
		if q.Stated {
			phrase = b.say.Say(
				words.TrialStated, words.In("of", phrase), words.In("deduction", b.taken(q.StatedDeduction)),
				words.In("strip", prose(q.StatedStrip)),
			)
		}
		to := b.say.Say(words.TrialMoldLine)
		if q.Tangent {
			to = b.say.Say(words.TrialTangent)
		}
		of := layout.FactOfTrial(i)
		wanted := []string{"of"}
		if q.Stated {
			wanted = append(wanted, "deduction-stated", "strip-stated")
		}
		t.add(append([]lettered{
			{itoa(i + 1), factsOf(of, "number")}, {strings.Join(bends, "\n"), factsOf(of, "turns-by-degrees")},
			{view.Degrees(180 - q.Turn), factsOf(of, "included-degrees")}, {phrase, factsOf(of, wanted...)},
			{to, factsOf(of, "to-tangent")}, {b.inBlank(q.Leg), factsOf(of, "leg")},
			{b.taken(q.Deduction), factsOf(of, "deduction")},
		}, unnamed("", "", "", "")...)...)
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// taken letters a deduction, to the thousandth of an inch or the hundredth of a
// millimetre.
func (b *book) taken(d length.Length) string {
	sign := ""
	if d < 0 {
		sign, d = "−", -d
	}
	if b.metric {
		return sign + length.Millimetres(d, 2)
	}
	return sign + drawing.Letter(length.Decimal(d, 3))
}
