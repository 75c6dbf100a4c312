package sheets

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
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
	p := page{id: b.id("trial-strips"), title: "Trial strips", kind: ShopSheet, paper: b.lists, scale: "none",
		about: "Strips to bend and measure before the first blank is cut, with boxes for what they take."}
	how := list{title: "Bend these before the first blank is cut", items: []string{
		"Every blank follows from what a bend takes of the metal. The packet reckons it from K " + trimFloat(s.K) + " (" + prose(s.KSource) + "); a strip of the job’s own metal, bent on the job’s own tools, stands before it.",
		"Cut each strip from the sheet that the caps are cut from, " + b.thick(b.j.System.Metal.Thickness) + " " + prose(b.j.System.Metal.Name) + ", about half as wide as it is long, its bend line along the grain as the caps’ bends run. Measure A after it is cut.",
		"Bend it with the caps’ tools and inside radius, " + b.exactly(b.j.System.Profile.InsideR) + ", to the turn of its row, finish face up or down as the row says. Check the turn first: a wrong turn gives a wrong deduction.",
		"Measure both legs outside, B and C. TO THE MOLD LINE, a turn of 90° or less: to where the outer faces of both legs would meet, for 90° a square held on the other leg. TO THE TANGENT, a turn over 90°: from the edge to a straight-edge held square to the leg against its outermost metal.",
		"Deduction = B + C − A. It is less than nothing where A is the longer, and is written so. Bend three strips where two differ by more than the legs may.",
		"Write it in the job file under shop: bends: as turn, deduction, to, method and strip; then print the shop’s packet again. Blanks cut before that are of the old deduction.",
	}, plain: true}
	blocks := []block{how, b.trialTable(trials)}
	var pictures []drawing.Scene
	for i, t := range trials {
		q := view.TrialStrip{Name: "Strip " + itoa(i+1) + ", " + strings.Join(ways(t), " or ") + " " + view.Degrees(t.Turn), Blank: b.inBlank(t.Length), Line: b.inBlank(t.Line), Up: t.Up && !t.Down, Section: t.Section}
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
func ways(t plan.Trial) []string {
	var out []string
	if t.Up {
		out = append(out, "UP")
	}
	if t.Down {
		out = append(out, "DOWN")
	}
	return out
}

// trialTable is a row for each strip, with room to write in.
func (b *book) trialTable(trials []plan.Trial) table {
	t := table{title: "Strips", fill: true, whole: true, cols: []column{{head: "Strip", align: drawing.Right}, {head: "Bend"}, {head: "Incl.", align: drawing.Right}, {head: "For", flex: true}, {head: "Measured to"},
		{head: "By K: leg", align: drawing.Right}, {head: "Deduction", align: drawing.Right},
		{head: "A", least: 1300}, {head: "B", least: 1300}, {head: "C", least: 1300}, {head: "B + C − A", least: 1500}}}
	for i, q := range trials {
		var bends []string
		for _, w := range ways(q) {
			face := "finish face up"
			if w == "DOWN" {
				face = "finish face down"
			}
			bends = append(bends, w+" "+view.Degrees(q.Turn)+", "+face)
		}
		phrase := strings.Join(q.Of, "; ")
		if q.Stated {
			phrase += ". Stated: " + b.taken(q.StatedDeduction) + " " + prose(q.StatedStrip)
		}
		to := "mold line"
		if q.Tangent {
			to = "tangent"
		}
		t.rows = append(t.rows, []string{itoa(i + 1), strings.Join(bends, "\n"), view.Degrees(180 - q.Turn), phrase, to, b.inBlank(q.Leg), b.taken(q.Deduction), "", "", "", ""})
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
