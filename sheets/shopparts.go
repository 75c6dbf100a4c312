package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/length"
)

// parts are the sheets of the small made parts: each with its flat pattern, its
// section, how many, of what and for what; then how they are cut.
func (b *book) parts() []page {
	if len(b.l.Parts) == 0 {
		return nil
	}
	p := page{id: b.id("parts"), title: "Parts", kind: PartSheet, paper: b.runs, scale: "as noted",
		about: "The small made parts with flat pattern, section, number, metal and what each serves, and how they are cut."}
	none, some := b.heldParts()
	if len(none)+len(some) > 0 {
		p.holds = b.l.Holds()
	}
	switch {
	case len(none) > 0:
		p.banner = "NOT RELEASED, DO NOT CUT: " + strings.Join(none, ", ") + "."
	case len(some) > 0:
		p.banner = "NOT ALL RELEASED: " + strings.Join(some, ", ") + "."
	}
	regions := across
	if p.paper.room(p.banner != "").Width() >= 35000 {
		regions = inColumns(2)
	}
	blocks := []block{b.partTable()}
	for _, q := range b.l.Parts {
		blocks = append(blocks, b.partBlock(q, p.paper.room(p.banner != "").Height()))
	}
	blocks = append(blocks, b.partCutting()...)
	return b.pages(p, blocks, regions)
}

// heldParts are the marks of parts of which none may be made, and of those of
// which not all may.
func (b *book) heldParts() (none, some []string) {
	for _, q := range b.l.Parts {
		switch n, _ := q.Make(b.l.Held); {
		case n == 0:
			none = append(none, q.Mark)
		case n < q.Count():
			some = append(some, q.Mark)
		}
	}
	return none, some
}

func (b *book) partHolds(q *layout.MadePart) finding.List {
	var out finding.List
	for _, f := range b.l.Findings {
		if f.Where.OnPart(q.Mark) {
			out = append(out, f)
		}
	}
	return out
}

// partTable is one row for each part.
func (b *book) partTable() table {
	t := table{title: "Parts", fill: true, cols: []column{{head: "Part"}, {head: "What", flex: true}, {head: "Count", align: drawing.Right}, {head: "Spare", align: drawing.Right}, {head: "Make now", align: drawing.Right}, {head: "Blank, girth × length", flex: true}, {head: "Metal", flex: true}, {head: "Each", align: drawing.Right}}}
	for _, q := range b.l.Parts {
		n, more := q.Make(b.l.Held)
		blank := "by hand"
		if len(q.Bodies) > 0 {
			blank = b.inBlank(q.Bodies[0].Girth) + " × " + b.inBlankLong(q.Bodies[0].Length)
		}
		t.rows = append(t.rows, []string{q.Mark, b.partName(q), itoa(q.Count()), itoa(q.Spare()), itoa(n + more), blank, b.partMetal(q), b.partWeight(q)})
	}
	t.bold = func(_, col int) bool { return col == 0 }
	return t
}

// partName names a part with what tells it from its like.
func (b *book) partName(q *layout.MadePart) string {
	phrase := q.Kind.String()
	if q.Inside > 0 {
		phrase += ", cap " + b.shopShort(q.Inside) + " inside"
	}
	if q.Tested != "" {
		phrase += ", assembly " + prose(q.Tested)
	}
	if q.Twin != nil {
		phrase += ", twin of " + q.Twin.Mark
	}
	return phrase
}

func (b *book) partMetal(q *layout.MadePart) string {
	phrase := b.thick(q.Thickness)
	if q.Metal == "" {
		return phrase + ", metal not stated"
	}
	return phrase + " " + prose(q.Metal)
}

func (b *book) partWeight(q *layout.MadePart) string {
	if q.Grams == 0 {
		return "–"
	}
	if b.metric {
		return strconv.FormatFloat(float64(q.Grams)/1000, 'f', 2, 64) + " kg"
	}
	return strconv.FormatFloat(float64(q.Grams)/453.59237, 'f', 2, 64) + " lb"
}

// partBlock draws one part: what it is and how many, its flat pattern, its
// section.
func (b *book) partBlock(q *layout.MadePart, most drawing.Unit) block {
	title := "Part " + q.Mark + ": " + b.partName(q)
	items := b.partFacts(q)
	if len(q.Bodies) == 0 {
		return list{title: title, items: append([]string{"NO FLAT PATTERN: " + q.Fails + "."}, items...), plain: true}
	}
	text := list{title: title, items: items, plain: true, tight: true}
	views := func(w drawing.Unit) (flat, section drawing.Scene) {
		right := w * 29 / 100
		head, _ := text.lay(w, 1<<30, true)
		flat = view.PartFlat(q.Mark, b.l.PartBlank(q), w-right-300, min(9400, most-head.h-500)) // two of them stand in a column of a B sheet
		return flat, view.PartSection(b.l.FormedPart(q), right, max(4800, min(flat.H, 7600)))
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			head, _ := text.lay(w, 1<<30, true)
			flat, section := views(w)
			return head.h + 350 + max(flat.H, section.H)
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			head, _ := text.lay(r.Width(), 1<<30, true)
			head.draw(s, r.Min)
			flat, section := views(r.Width())
			y := r.Min.Y + head.h + 350
			place(s, flat, drawing.Pt(r.Min.X, y), slug("flat-"+q.Mark))
			place(s, section, drawing.Pt(r.Max.X-section.W, y), slug("section-"+q.Mark))
		},
	}
}

// partFacts say how many, for what, of what, and what the drawing must say
// besides.
func (b *book) partFacts(q *layout.MadePart) []string {
	n, more := q.Make(b.l.Held)
	var out []string
	if s := q.Sentence(); s != "" {
		out = append(out, "HAND: "+b.j.Units.OwnUnits(s))
	}
	phrase := "MAKE " + itoa(n)
	if more > 0 {
		phrase += " and " + plural(more, "spare")
	}
	if yes := ranges(q.For(b.l.Held, true)); len(yes) > 0 && n > 0 {
		phrase += ": " + strings.Join(yes, ", ")
	}
	if no := ranges(q.For(b.l.Held, false)); len(no) > 0 {
		phrase += ". NOT RELEASED, DO NOT CUT: " + strings.Join(no, ", ")
	}
	out = append(out, phrase+".")
	stuff := "Metal " + b.partMetal(q)
	if len(q.Bodies) > 0 && len(q.Bodies[0].Bends) > 0 {
		stuff += "; bends inside radius " + b.exactly(q.Radius) + ", K " + trimFloat(q.K)
	}
	if q.Grams > 0 {
		stuff += "; " + b.partWeight(q) + " each"
	}
	if len(q.Bodies) > 0 && len(q.Bodies[0].Holes) > 0 {
		stuff += "; " + b.partHoles(q)
	}
	out = append(out, stuff+".")
	if phrase := b.partGauge(q); phrase != "" {
		out = append(out, phrase)
	}
	if len(q.Words) > 0 {
		out = append(out, drawing.Letter(strings.Join(q.Words, " ")))
	}
	if q.Twin != nil {
		out = append(out, q.Twin.Mark+" is its mirror image: do not take one for the other.")
	}
	for _, f := range b.partHolds(q) {
		out = append(out, "HOLD: "+drawing.Letter(f.What)+".")
	}
	return out
}

// partGauge is what the back gauge is set to at each bend of a part, and what it
// touches; the distances on its drawing are those of the lines to scribe.
func (b *book) partGauge(q *layout.MadePart) string {
	if len(q.Bodies) == 0 || len(q.Bodies[0].Bends) == 0 {
		return ""
	}
	e := q.Bodies[0].Edges()
	named := strings.NewReplacer("street edge", e.Top, "roof edge", e.Bottom)
	var out []string
	for _, x := range q.Bodies[0].Bends {
		out = append(out, "bend "+itoa(x.Order)+": "+b.inBlank(x.Gauge)+" from "+named.Replace(x.GaugeAt))
	}
	return "Back gauge: " + strings.Join(out, "; ") + ". Distances on the drawing are lines to scribe."
}

// partHoles count the holes by diameter.
func (b *book) partHoles(q *layout.MadePart) string {
	var sizes []length.Length
	count := map[length.Length]int{} // look-up only
	for i := range q.Bodies[0].Holes {
		d := b.l.HoleDiameter(q, i)
		if count[d] == 0 {
			sizes = append(sizes, d)
		}
		count[d]++
	}
	var out []string
	for _, d := range sizes {
		out = append(out, itoa(count[d])+" × Ø\u00a0"+b.exactly(d))
	}
	return "holes " + strings.Join(out, ", ")
}

// ranges shorten a list of names that count up: N-J2 to N-J5.
func ranges(names []string) []string {
	split := func(s string) (string, int) {
		i := len(s)
		for i > 0 && s[i-1] >= '0' && s[i-1] <= '9' {
			i--
		}
		n, err := strconv.Atoi(s[i:])
		if err != nil {
			return s, -1
		}
		return s[:i], n
	}
	var out []string
	for i := 0; i < len(names); {
		head, n := split(names[i])
		k := i + 1
		for k < len(names) {
			h, m := split(names[k])
			if n < 0 || h != head || m != n+k-i {
				break
			}
			k++
		}
		switch k - i {
		case 1, 2:
			out = append(out, names[i:k]...)
		default:
			out = append(out, names[i]+" to "+names[k-1])
		}
		i = k
	}
	return out
}

// partCutting is how the released parts are cut, each sheet by itself.
func (b *book) partCutting() []block {
	t := table{title: "How the parts are cut", fill: true, cols: []column{{head: "Sheet", flex: true}, {head: "Parts", flex: true}, {head: "Sheets", flex: true}, {head: "Cost", align: drawing.Right}, {head: "How good", flex: true}, {head: "Yield", align: drawing.Right}}}
	strips := table{title: "Strips, sheet by sheet", fill: true, cols: []column{{head: "Sheet", flex: true}, {head: "Times", align: drawing.Right}, {head: "Strip", align: drawing.Right}, {head: "Blanks, left to right", flex: true}}}
	for _, lot := range b.l.PartLots {
		name := b.partMetal(lot.Parts[0])
		if len(lot.Plan.Sheets) == 0 {
			t.rows = append(t.rows, []string{name, partMarks(lot), "NOT PLANNED: the job names no sheet that takes them", "–", "–", "–"})
			continue
		}
		bought, used := lot.Areas()
		p := layout.PartPlan(lot)
		t.rows = append(t.rows, []string{name, partMarks(lot), b.stocks(p), b.cost(p.Cost, p.Priced, true), proven(p, "sheet"), strconv.Itoa(int(100*used/bought)) + " %"})
		for i, r := range lot.Plan.Sheets {
			size := lot.Stocks[r.Stock]
			for k, strip := range r.Strips {
				row := []string{"", "", b.inBlank(strip.Width), cutsOf(lot, strip.Cuts)}
				if k == 0 {
					row[0] = fmt.Sprintf("%s, sheet %d, %s × %s", name, i+1, b.shopShort(size.Width), b.shopLong(size.Length))
					row[1] = itoa(r.Count)
				}
				strips.rows = append(strips.rows, row)
			}
		}
	}
	if len(t.rows) == 0 {
		return nil
	}
	if len(strips.rows) == 0 {
		return []block{t}
	}
	return []block{t, list{items: []string{"A sheet is ripped into strips of one width, the strips cut to lengths; the grain runs along the sheet and no blank is turned. What is not released is left out."}, plain: true}, strips}
}

// cutsOf are the blanks of a strip with their counts.
func cutsOf(lot *layout.PartLot, cuts []int) string {
	var out []string
	for i := 0; i < len(cuts); {
		k := i
		for k < len(cuts) && lot.Blanks[cuts[k]].Part == lot.Blanks[cuts[i]].Part {
			k++
		}
		out = append(out, itoa(k-i)+" × "+lot.Blanks[cuts[i]].Part.Mark)
		i = k
	}
	return strings.Join(out, ", ")
}

func partMarks(lot *layout.PartLot) string {
	var out []string
	for _, q := range lot.Parts {
		out = append(out, q.Mark)
	}
	return strings.Join(out, ", ")
}
