package sheets

import (
	"fmt"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/plan"
)

// levelling sets both ways to bring the wall top to the set surface beside each other,
// with the zones of the one that is taken. What it asks for is cut by the plywood sheets.
func (b *book) levelling() []page {
	first := page{id: b.id("levelling"), title: b.say.Say(words.LevellingTitle), kind: Levelling, paper: b.runs,
		about: b.say.Say(words.LevellingAbout)}
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
		blocks = append(blocks, b.effortTable(b.say.Say(words.LevelBothWaysJob), b.l.Levelling(&b.l.Packing)).
			naming(effortNames("levelling", b.l.Levelling(&b.l.Packing))))
	}
	for _, p := range b.l.Perimeters {
		title := b.ofPerimeter(p, words.LevelBothWays, words.LevelBothWaysOf)
		blocks = append(blocks, b.effortTable(title, b.l.Levelling(&p.Packing)).
			naming(effortNames(layout.FactOfPerimeter(p), b.l.Levelling(&p.Packing))))
	}
	if b.j.Packing.Method != job.PackChairs {
		for _, p := range b.l.Perimeters {
			blocks = append(blocks, b.layerZones(p).naming(zoneNames(p)))
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

// methodName names a way to level the wall top.
func (b *book) methodName(m job.PackingMethod) string {
	switch m {
	case job.PackChairs:
		return b.say.Say(words.LevelChairsAlone)
	case job.PackContinuous:
		return b.say.Say(words.LevelContinuous)
	}
	return b.say.Say(words.LevelRecommendedWay)
}

// packingWords say which way is recommended and why, and which is taken.
func (b *book) packingWords() list {
	p := &b.l.Packing
	out := list{title: b.say.Say(words.LevelHow)}
	if p.Known {
		out.say(b.say.Say(words.LevelRecommendedWhy, words.In("way", b.methodName(p.Recommended)),
			words.In("reason", p.Reason)), factsOf("packing", "recommended", "reason"))
	} else {
		out.say(b.say.Say(words.LevelNoWay, words.In("reason", strings.TrimPrefix(p.Reason, "no recommendation: "))),
			factsOf("packing", "reason"))
	}
	taken := b.say.Say(words.LevelTaken, words.In("way", b.methodName(p.Taken)))
	if p.Overridden() {
		taken = b.say.Say(words.LevelTakenOtherwise, words.In("way", b.methodName(p.Taken)))
	}
	out.say(taken, factsOf("packing", "taken"))
	out.say(b.say.Say(words.LevelRates), "")
	return out
}

// effortTable sets the two ways beside each other.
func (b *book) effortTable(title string, p plan.Levelling) table {
	t := table{
		title: title,
		whole: true,
		cols:  []column{{head: "", flex: true}, b.right(words.ColContinuous), b.right(words.ColChairsAlone)},
	}
	a, z := p.Continuous, p.Chairs
	count := func(what string, x, y int) { t.rows = append(t.rows, []string{what, dash(x), dash(y)}) }
	add := func(what string, letter func(plan.Effort) string) {
		t.rows = append(t.rows, []string{what, letter(a), letter(z)})
	}
	count(b.say.Say(words.LevelPiecesSet), a.Pieces, z.Pieces)
	count(b.say.Say(words.LevelStripsPlywood), a.Strips, z.Strips)
	count(b.say.Say(words.LevelShims), a.Shims, z.Shims)
	count(b.say.Say(words.LevelSawCuts), a.Cuts, z.Cuts)
	add(b.say.Say(words.LevelPlywoodLength), func(e plan.Effort) string {
		if e.Layers == 0 {
			return "–"
		}
		return b.text(e.Layers)
	})
	sheets := b.say.Say(words.LevelSheets)
	if p.SheetsLeast > 0 {
		sheets = b.say.Say(words.LevelSheetsLeast, words.In("least", itoa(p.SheetsLeast)))
	}
	count(sheets, a.Sheets, z.Sheets)
	nails := b.say.Say(words.LevelNails)
	if p.Nail != "" {
		nails = b.say.Say(words.LevelNailsOf, words.In("nail", prose(p.Nail)))
	}
	count(nails, a.Nails, z.Nails)
	count(b.say.Say(words.LevelMissing), a.Missing, z.Missing)
	if p.Priced {
		add(
			b.say.Say(words.LevelLabour),
			func(e plan.Effort) string {
				return b.say.Say(
					words.LevelTime, words.In("hours", fmt.Sprint(e.Minutes/60)),
					words.In("minutes", fmt.Sprintf("%02d", e.Minutes%60)),
				)
			},
		)
		add(
			b.say.Say(words.LevelMoney),
			func(e plan.Effort) string { return fmt.Sprintf("%d.%02d", e.Hundredths/100, e.Hundredths%100) },
		)
	}
	if p.Known {
		row := []string{b.say.Say(words.LevelRecommended), b.say.Say(words.LevelRecommendedLarge), ""}
		if p.ChairsAlone {
			row[1], row[2] = row[2], row[1]
		}
		t.rows = append(t.rows, row)
		last := len(t.rows) - 1
		t.bold = func(row, col int) bool { return row == last && col > 0 }
	}
	return t
}

// ofPerimeter is a title, with the name of its perimeter where there are several.
func (b *book) ofPerimeter(p *layout.Perimeter, alone, of words.Key) string {
	if len(b.l.Perimeters) > 1 {
		return b.say.Say(of, words.In("perimeter", prose(p.Job.Name)))
	}
	return b.say.Say(alone)
}
