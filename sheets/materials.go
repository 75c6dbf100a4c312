package sheets

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
)

// materials is the page of what the coping is made of, how its metal moves and
// what the code asks for.
func (b *book) materials() []page {
	first := page{id: b.id("materials"), title: "Materials, metal movement and code checks", kind: Materials, paper: b.runs, holds: b.l.Holds(),
		about: "Materials with their sources; joint gaps by metal temperature and how far the joint goes; checks of the code that need no judgement."}
	first.banner = b.holdWords(first.holds)
	blocks := []block{b.materialTable()}
	blocks = append(blocks, b.movement()...)
	if t, ok := b.bending(); ok {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, b.codeTable())
	if t, ok := b.extenderTable(); ok {
		blocks = append(blocks, t)
	}
	return b.pages(first, blocks, across)
}

// density letters a density in both systems, the job's own first.
func (b *book) density(v float64) string {
	kg, lb := fmt.Sprintf("%.0f kg/m³", v), fmt.Sprintf("%.1f lb/ft³", v*0.028316846592/0.45359237)
	if b.metric {
		return kg + " (" + lb + ")"
	}
	return lb + " (" + kg + ")"
}

// materialTable lists what the job states of each part.
func (b *book) materialTable() table {
	s := &b.j.System
	t := table{title: "Materials, as the job states them", cols: []column{{head: "Part"}, {head: "Material", flex: true}, {head: "Size and condition", flex: true}}}
	add := func(part, material, size string) {
		t.rows = append(t.rows, []string{part, orDash(prose(material)), orDash(size)})
	}
	thick := b.thick(s.Metal.Thickness) + " thick"
	if s.Metal.Specified > 0 {
		thick += ", specified " + b.thick(s.Metal.Specified)
	}
	thick += "; " + prose(s.Metal.Finish) + "; " + b.density(s.Metal.Density)
	add("Cap", s.Metal.Name+", system "+s.Name, thick)
	for _, c := range b.l.ChairSheets() {
		name := "Anchor chair"
		if c.Tested != "" {
			name += ", " + prose(c.Tested)
		}
		add(name, cmp.Or(c.Metal, "metal not stated"), b.exactly(s.Chair.Length)+" long, "+b.thick(c.Thickness)+" thick")
	}
	add("Splice plate", "as the fabricator's system", b.exactly(s.Splice.Length)+" long, bearing "+b.exactly(s.Splice.Bearing)+" each side of the widest gap, tape "+b.exactly(s.Splice.Tape)+" from the joint’s centre line")
	for i := range b.j.Fasteners {
		f := &b.j.Fasteners[i]
		of := f.Metal
		if of == "" {
			of = "metal as its name says"
		}
		var ls []string
		for _, l := range f.Lengths {
			ls = append(ls, b.exact(l))
		}
		add("Fastener", f.Name+"; "+of, b.exactly(f.Diameter)+" diameter, holds in "+f.Substrate+", stock lengths "+strings.Join(ls, ", "))
	}
	if m := &b.j.Membrane; m.Name != "" {
		add("Membrane", m.Name, b.thick(m.Thickness)+" thick, over the wall top before any metal")
	}
	p := &b.j.Packing
	var shims []string
	for _, x := range p.Shims {
		shims = append(shims, b.exact(x))
	}
	packing := "shims " + strings.Join(shims, ", ")
	if p.Method == job.PackContinuous && p.Layer > 0 {
		packing = b.exactly(p.Layer) + " actual a layer; " + packing
	}
	add("Packing", orDash(p.LayerName), packing+"; least "+b.exactly(p.Least)+", most "+b.exactly(p.Most))
	for i := range b.j.Walls {
		w := &b.j.Walls[i]
		for k, y := range w.Layers {
			phrase := b.exactly(y.Thickness) + " thick"
			if y.Material == job.Wood || y.Material == job.Plywood {
				phrase += "; " + woodWords(y)
			}
			if k == 0 && w.Nailer != nil {
				phrase += "; anchored by " + prose(w.Nailer.Anchor)
			}
			add("Wall "+prose(w.Name)+", layer "+itoa(k+1), y.Name+" ("+y.Material+")", phrase)
		}
	}
	return t
}

// woodWords say what the job says of a layer of wood.
func woodWords(y job.Layer) string {
	phrase := "specific gravity not stated"
	if y.Gravity > 0 {
		phrase = "specific gravity " + strconv.FormatFloat(y.Gravity, 'g', -1, 64)
	}
	switch {
	case y.Wet:
		phrase += ", wet in service"
	case y.Service:
		phrase += ", dry in service"
	}
	if y.Treated {
		phrase += ", pressure-treated"
	}
	return phrase
}

// degrees are whole, and nought has no sign.
func degrees(t float64) string {
	if s := strconv.FormatFloat(t, 'f', 0, 64); s != "-0" {
		return s
	}
	return "0"
}

// perDegree letters a coefficient of expansion in both scales.
func perDegree(v int64) string {
	return fmt.Sprintf("%.2f millionths per °C (%.2f per °F)", float64(v)/1000, float64(v)/1800)
}

// movement letters what the joints do over the year.
func (b *book) movement() []block {
	s := &b.j.System
	m := b.l.Movement()
	j := &s.Joint
	printed := "no printed value found for this metal: have the supplier state it"
	if e, ok := b.l.PrintedExpansion(); ok {
		printed = span(perDegree(e.Least), perDegree(e.Most)) + "\n" + prose(e.Source)
		if e.Memory {
			printed += " (FROM MEMORY)"
		}
	}
	limit := "at the coldest, its joint would pass the seal of the splice plate"
	if m.ByHeat {
		limit = "at the hottest, its joint would close past the least gap"
	}
	fits := "within it"
	if !m.Fits {
		fits = "LONGER: a joint of this job that does so is on hold"
	}
	rows := [][]string{
		{"Coefficient used", perDegree(s.Metal.Expansion) + ", stated in the job"},
		{"Printed for this metal", printed},
		{"Metal temperature", b.temperature(j.Coldest) + " to " + b.temperature(j.Hottest) + ", reference " + b.temperature(j.Reference) + "; of the metal, not of the air"},
		{"Gap to set", "nominal + coefficient × L × (reference − metal temperature)"},
		{"L", "mean length of the two caps, each fixed at its middle, a corner at its miter; joint centres never move"},
		{"Nominal gap", b.shopText(j.Gap) + "; not under " + b.shopText(j.LeastGap) + "; sealed up to " + b.shopText(m.Seal) + " (plate less two bearings)"},
		{"Change in 10 °C (18 °F)", b.exactly(m.PerTen) + " for stock lengths of " + b.text(s.Stock)},
		{"Longest between fixed points", b.text(m.Longest) + " (L); longer, " + limit},
		{"Longest the system can make", b.text(m.Longer) + ", " + fits},
	}
	if m.Small {
		rows = append(rows, []string{"Nominal gap set in the cold", "metal below " + b.temperature(m.Under) + ": under the least gap at the hottest, two stock lengths"})
		if m.Shut {
			rows = append(rows, []string{"", "metal below " + b.temperature(m.Closes) + ": THE JOINT CLOSES at the hottest"})
		}
	}
	for _, f := range b.l.Findings {
		switch f.Code {
		case "stock-moves", "expansion-differs", "joint-closes", "joint-opens", "movement-not-stated":
			word := "Note"
			if f.Severity == finding.Hold {
				word = "HOLD"
			}
			rows = append(rows, []string{word, prose(f.What)})
		}
	}
	t := facts("Metal movement", rows)
	t.whole = false
	if g, ok := b.gapsByTen(); ok {
		return []block{pair{t, g}}
	}
	return []block{t}
}

// inches letters a figure that is printed in inches, in the job's units first.
func (b *book) inches(in float64) string {
	return b.j.Units.InUnits(fmt.Sprintf("%.3f in (%.2f mm)", in, in*25.4))
}

// bending letters the shop's bending data beside what is printed.
func (b *book) bending() (table, bool) {
	if b.j.Shop == nil {
		return table{}, false
	}
	k := "none found for this metal: bend a test piece"
	if n, ok := b.l.NeutralPrinted(); ok {
		k = fmt.Sprintf("%.3f to %.3f, %s near %s thick\n%s", n.Least, n.Most, n.Family, b.inches(n.Thickness), prose(n.Source))
		if n.Memory {
			k += " (FROM MEMORY)"
		}
	}
	r := "none found for this metal and temper"
	if x, ok := b.l.TightestPrinted(); ok {
		r = fmt.Sprintf("%s near %s thick\n%s", b.inches(x.Radius), b.inches(x.Thickness), prose(x.Source))
		if x.Secondary {
			r += " (columns read with some doubt)"
		}
	}
	return table{title: "Bending: the shop’s data are used, what is printed is for comparison",
		cols: []column{{head: "What", flex: true}, {head: "Used", flex: true}, {head: "Printed", flex: true}},
		rows: [][]string{
			{"Neutral axis K, thicknesses from the inside of a bend", trimFloat(b.j.Shop.K) + "\n" + prose(b.j.Shop.KSource), k},
			{"Inside radius of a 90° cold bend", b.exactly(b.j.System.Profile.InsideR) + "; least of this metal by the shop " + b.exactly(b.j.Shop.LeastRadius), r},
		}}, true
}

// gapsByTen is the gap to set for each ten degrees of the metal.
func (b *book) gapsByTen() (table, bool) {
	g := b.l.GapsByTen(b.l.Grid / 2)
	if len(g.Means) == 0 {
		return table{}, false
	}
	t := table{title: "Gap to set for each 10 degrees of METAL temperature", cols: []column{{head: "Metal at"}}}
	names := []string{"Shortest mean, ", "Longest mean, "}
	if len(g.Means) == 1 {
		names[0] = "Mean "
	}
	for i, m := range g.Means {
		t.cols = append(t.cols, column{head: names[i] + b.shopLong(m), align: drawing.Right})
	}
	t.cols = append(t.cols, column{head: "Check"})
	st := b.shop
	var over []bool
	for _, x := range g.Steps {
		row := []string{b.temperature(x.At)}
		bad := false
		for i, gap := range x.Gaps {
			row = append(row, drawing.Letter(st.Short(gap)))
			bad = bad || x.Over[i]
		}
		word := "within limits"
		if bad {
			word = "OUTSIDE: HOLD"
		}
		over = append(over, bad)
		t.rows = append(t.rows, append(row, word))
	}
	t.bold = func(row, _ int) bool { return over[row] }
	return t, true
}

// codeTable letters the checks that need no judgement.
func (b *book) codeTable() table {
	t := table{title: "Code checks", cols: []column{{head: "What", flex: true}, {head: "Asked", flex: true}, {head: "This job", flex: true}, {head: "By", flex: true}, {head: "Result"}}}
	var bad []bool
	for _, c := range b.l.CodeChecks() {
		word := "pass"
		if !c.Passes {
			word = "SEE FINDINGS"
		}
		bad = append(bad, !c.Passes)
		t.rows = append(t.rows, []string{prose(c.What), prose(c.Asked), prose(c.Has), prose(c.Source), word})
	}
	if slices.ContainsFunc(b.l.ChairSheets(), func(c layout.ChairSheet) bool { return c.Metal == "" }) {
		bad = append(bad, true)
		t.rows = append(t.rows, []string{"cap on chair, chair on screws: metals that touch", "a pair that may touch", "the chair’s metal is not stated in the job", "table of pairs", "NOT CHECKED"})
	}
	t.bold = func(row, col int) bool { return bad[row] && col == 4 }
	return t
}

// extenderTable schedules the pieces below a leg taller than anything tested.
func (b *book) extenderTable() (table, bool) {
	t := table{title: "Extender pieces: separate, below a leg taller than tested; their fastening is to be stated by others", cols: []column{{head: "Run"}, {head: "Face"},
		{head: "Leg that would cover", align: drawing.Right}, {head: "Tested up to", align: drawing.Right}, {head: "Height of the extender, lap included", align: drawing.Right}, {head: "Along the run", align: drawing.Right}, {head: "Standing"}}}
	for _, e := range b.l.Extenders() {
		face := "front"
		if e.Face == job.Rear {
			face = "rear"
		}
		t.rows = append(t.rows, []string{b.runHead(e.Run), face, b.long(e.Leg) + " to " + e.To.String(), b.long(e.Tested) + " to " + e.To.String(), b.long(e.Height), b.long(e.Along), "HOLD"})
	}
	t.bold = func(_, col int) bool { return col == 6 }
	return t, len(t.rows) > 0
}
