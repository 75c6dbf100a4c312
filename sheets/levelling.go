package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/layout/job"
	"copingset/layout/plan"
)

// levelling sets both ways to bring the wall top to the set surface beside each other,
// with the zones of the one that is taken. What it asks for is cut by the plywood sheets.
func (b *book) levelling() []page {
	first := page{id: b.id("levelling"), title: "Levelling of the wall top", kind: Levelling, paper: b.runs,
		about: "Continuous packing beside packing under the chairs alone; zones."}
	var blocks []block
	surveyed := false
	for _, p := range b.l.Perimeters {
		for _, r := range p.Runs {
			surveyed = surveyed || len(r.Readings) > 1
		}
	}
	if !surveyed {
		return nil
	}
	blocks = append(blocks, b.packingWords())
	if len(b.l.Perimeters) > 1 {
		blocks = append(blocks, b.effortTable("Both ways to pack, whole job", b.l.Levelling(&b.l.Packing)))
	}
	for _, p := range b.l.Perimeters {
		title := "Both ways to pack"
		if len(b.l.Perimeters) > 1 {
			title += ", " + prose(p.Job.Name)
		}
		blocks = append(blocks, b.effortTable(title, b.l.Levelling(&p.Packing)))
	}
	if b.j.Packing.Method != job.PackChairs {
		for _, p := range b.l.Perimeters {
			blocks = append(blocks, b.layerZones(p))
		}
	}
	most := drawing.Unit(0)
	for _, x := range blocks {
		if t, ok := x.(table); ok && !t.cols[len(t.cols)-1].flex { // what wraps takes the width there is
			most = max(most, t.width())
		}
	}
	return b.pages(first, blocks, func(_ int, room drawing.Rect) []drawing.Rect {
		return columns(room, max(1, int((room.Width()+gutter)/(most+gutter))), gutter)
	})
}

func methodWords(m job.PackingMethod) string {
	switch m {
	case job.PackChairs:
		return "packing under the chairs alone"
	case job.PackContinuous:
		return "continuous packing"
	}
	return "the recommended way"
}

// packingWords say which way is recommended and why, and which is taken.
func (b *book) packingWords() list {
	p := &b.l.Packing
	var items []string
	if p.Known {
		items = append(items, "Recommended: "+methodWords(p.Recommended)+". Reason: "+p.Reason+".")
	} else {
		items = append(items, "No way is recommended: "+strings.TrimPrefix(p.Reason, "no recommendation: ")+".")
	}
	taken := "Taken on these sheets: " + methodWords(p.Taken) + "."
	if p.Overridden() {
		taken += " The job has chosen otherwise than recommended."
	}
	items = append(items, taken,
		"Labour and money are by the job’s own rates, for comparison only. Packing is measured at both edges: street edge first, roof edge second.")
	return list{title: "How the wall top is levelled", items: items}
}

// effortTable sets the two ways beside each other.
func (b *book) effortTable(title string, p plan.Levelling) table {
	t := table{title: title, whole: true, cols: []column{{head: "", flex: true}, {head: "Continuous", align: drawing.Right}, {head: "Chairs alone", align: drawing.Right}}}
	a, z := p.Continuous, p.Chairs
	count := func(what string, x, y int) { t.rows = append(t.rows, []string{what, dash(x), dash(y)}) }
	add := func(what string, letter func(plan.Effort) string) {
		t.rows = append(t.rows, []string{what, letter(a), letter(z)})
	}
	count("Pieces set", a.Pieces, z.Pieces)
	count("Strips of plywood", a.Strips, z.Strips)
	count("Shims", a.Shims, z.Shims)
	count("Saw cuts", a.Cuts, z.Cuts)
	add("Plywood layers, running length", func(e plan.Effort) string {
		if e.Layers == 0 {
			return "–"
		}
		return b.text(e.Layers)
	})
	sheets := "Sheets of plywood"
	if p.SheetsLeast > 0 {
		sheets += " (no plan needs fewer than " + itoa(p.SheetsLeast) + ")"
	}
	count(sheets, a.Sheets, z.Sheets)
	nails := "Nails or screws of the layers"
	if p.Nail != "" {
		nails += ": " + prose(p.Nail)
	}
	count(nails, a.Nails, z.Nails)
	count("Stacks the shims do not make", a.Missing, z.Missing)
	if p.Priced {
		add("Labour", func(e plan.Effort) string { return fmt.Sprintf("%d h %02d min", e.Minutes/60, e.Minutes%60) })
		add("Labour and material, job’s money", func(e plan.Effort) string { return fmt.Sprintf("%d.%02d", e.Hundredths/100, e.Hundredths%100) })
	}
	if p.Known {
		row := []string{"Recommended", "RECOMMENDED", ""}
		if p.ChairsAlone {
			row[1], row[2] = row[2], row[1]
		}
		t.rows = append(t.rows, row)
		last := len(t.rows) - 1
		t.bold = func(row, col int) bool { return row == last && col > 0 }
	}
	return t
}
