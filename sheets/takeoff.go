package sheets

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/takeoff"
)

// bid is what the sheets of a takeoff are made from.
type bid struct {
	*book
	t *takeoff.Takeoff
}

func newBid(t *takeoff.Takeoff, o Options) bid {
	return bid{newBook(&layout.Layout{Job: t.Job}, o), t}
}

// Takeoff are the sheets of a takeoff before the survey. They are no part of a packet.
func Takeoff(t *takeoff.Takeoff, o Options) []Sheet {
	b := newBid(t, o)
	first := page{id: b.id("takeoff"), title: b.say.Say(words.TakeoffTitle), kind: TakeoffSheet, paper: b.runs,
		about: b.say.Say(words.TakeoffAbout), banner: b.say.Say(words.TakeoffBanner)}
	blocks := []block{b.basis(), b.costs(), b.quantities()}
	if m := b.mind(); len(m.items) > 0 {
		blocks = append(blocks, m)
	}
	most := drawing.Unit(0)
	for _, x := range blocks {
		if t, ok := x.(table); ok {
			most = max(most, t.width())
		}
	}
	var out []Sheet
	pages := b.pages(first, blocks, func(_ int, room drawing.Rect) []drawing.Rect {
		return columns(room, max(1, int((room.Width()+gutter)/(most+gutter))), gutter)
	})
	number := func(i int) string { return fmt.Sprintf("T.%d", i+1) }
	byID := map[string]string{} // look-up only
	for i, p := range pages {
		byID[p.id] = number(i)
	}
	for i, p := range pages {
		out = append(out, Sheet{ID: p.id, Number: number(i), Title: p.title, Kind: p.kind,
			Scene: b.draw(p, number(i), func(id string) string { return byID[id] })})
	}
	return out
}

// TakeoffPDF writes the sheets of a takeoff as one document.
func TakeoffPDF(w io.Writer, t *takeoff.Takeoff, pages []Sheet) error {
	b := newBid(t, Options{})
	return writePDF(w, &layout.Layout{Job: t.Job}, pages, b.say.Say(words.TakeoffPdf))
}

// basis says what the counts rest on.
func (b bid) basis() list {
	say := b.say.Say
	by := b.t.By
	n := 0
	items := []string{}
	for _, w := range b.t.Widths {
		n += len(w.Runs)
		items = append(items, say(words.TakeoffWidth, words.In("wall", prose(w.Wall)),
			words.In("width", b.text(w.Width)), words.In("runs", strings.Join(w.Runs, ", "))))
	}
	from := say(words.TakeoffFrom, words.In("length", b.text(b.t.Options[0].Run)), words.In("runs", itoa(n)))
	items = append([]string{from}, items...)
	if by.Uneven > 0 {
		items = append(items, say(words.TakeoffUneven, words.In("uneven", b.small(by.Uneven))))
	} else {
		items = append(items, say(words.TakeoffEven))
	}
	items = append(items,
		say(words.TakeoffAllowances, words.In("metal", itoa(by.Metal)), words.In("labour", itoa(by.Labour)),
			words.In("unforeseen", itoa(by.Unforeseen))),
		say(words.TakeoffRates), say(words.TakeoffAfter))
	return list{title: say(words.TakeoffHow), items: items}
}

// optionName is the head of an option's column.
func (b bid) optionName(o *takeoff.Option) string {
	if o.Name == "" {
		return b.say.Say(words.TakeoffOwn)
	}
	return prose(o.Name)
}

// lines are all that the options count, each once, in the order of the groups.
func (b bid) lines() []takeoff.Line {
	var out []takeoff.Line
	for _, o := range b.t.Options {
		at := -1 // where the line before it of the same option stands
		for _, l := range o.Lines {
			k := slices.IndexFunc(out, func(q takeoff.Line) bool { return q.Same(&l) })
			if k < 0 {
				k = at + 1
				out = slices.Insert(out, k, l)
			}
			at = k
		}
	}
	slices.SortStableFunc(out, func(a, z takeoff.Line) int {
		if a.Group != z.Group {
			return int(a.Group) - int(z.Group)
		}
		return int(a.What) - int(z.What)
	})
	return out
}

// of is what an option has of a line; nil if it has none.
func of(o *takeoff.Option, l *takeoff.Line) *takeoff.Line {
	i := slices.IndexFunc(o.Lines, func(q takeoff.Line) bool { return q.Same(l) })
	if i < 0 {
		return nil
	}
	return &o.Lines[i]
}

// sideBySide is a table with a column for each option.
func (b bid) sideBySide(title words.Key, unit bool) table {
	t := table{title: b.say.Say(title),
		cols: []column{{head: b.say.Say(words.TakeoffColWhat), flex: true}}}
	if unit {
		t.cols = append(t.cols, column{head: b.say.Say(words.TakeoffColUnit)})
	}
	for i := range b.t.Options {
		t.cols = append(t.cols, column{head: b.optionName(&b.t.Options[i]), align: drawing.Right, least: 1600})
	}
	return t
}

// quantities are the counts, with what is added.
func (b bid) quantities() table {
	t := b.sideBySide(words.TakeoffQuantities, true)
	var heads []int
	group := takeoff.Group(-1)
	for _, l := range b.lines() {
		if l.Group != group {
			group = l.Group
			heads = append(heads, len(t.rows))
			t.rows = append(t.rows, b.padded(t, b.groupName(group)))
		}
		row := []string{b.lineName(&l), b.unitName(l.Unit)}
		for i := range b.t.Options {
			cell := "–"
			if q := of(&b.t.Options[i], &l); q != nil {
				cell = drawing.Letter(b.quantity(q.Unit, q.Total()))
			}
			row = append(row, cell)
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(row, _ int) bool { return slices.Contains(heads, row) }
	t.ends = func(row int) bool { return slices.Contains(heads, row+1) }
	return t
}

// padded is a row of a table with words in its first cell alone.
func (b bid) padded(t table, first string) []string {
	return append([]string{first}, make([]string, len(t.cols)-1)...)
}

// costs are what lines and groups cost.
func (b bid) costs() table {
	t := b.sideBySide(words.TakeoffCost, false)
	strong := map[int]bool{} // look-up only
	sums := func(name string, value func(o *takeoff.Option) string) {
		row := []string{name}
		for i := range b.t.Options {
			o := &b.t.Options[i]
			cell := "–"
			if !o.Failed.HasErrors() {
				cell = value(o)
			}
			row = append(row, cell)
		}
		strong[len(t.rows)] = true
		t.rows = append(t.rows, row)
	}
	lines := b.lines()
	for n, g := range takeoff.Groups() {
		sums(b.groupName(g), func(o *takeoff.Option) string { return money(o.Groups[n].Sum) })
		for _, l := range lines {
			if l.Group == g && l.Price != takeoff.Told {
				t.rows = append(t.rows, b.costRow(&l))
			}
		}
	}
	sums(b.say.Say(words.TakeoffSum), func(o *takeoff.Option) string { return money(o.Sum) })
	sums(b.say.Say(words.TakeoffUnforeseen, words.In("percent", itoa(b.t.By.Unforeseen))),
		func(o *takeoff.Option) string { return money(o.Unforeseen) })
	sums(b.say.Say(words.TakeoffWhole), func(o *takeoff.Option) string { return money(o.Whole) })
	if len(b.t.Options) > 1 {
		own := b.t.Options[0].Whole
		sums(b.say.Say(words.TakeoffAgainst), func(o *takeoff.Option) string {
			if o == &b.t.Options[0] {
				return "–"
			}
			return signed(o.Whole - own)
		})
	}
	t.bold = func(row, _ int) bool { return strong[row] }
	t.ends = func(row int) bool { return strong[row+1] }
	return t
}

// costRow is what a line costs in each option.
func (b bid) costRow(l *takeoff.Line) []string {
	row := []string{b.lineName(l)}
	for i := range b.t.Options {
		cell := "–"
		if q := of(&b.t.Options[i], l); q != nil {
			switch q.Price {
			case takeoff.Priced:
				cell = money(q.Money)
			case takeoff.Unstated:
				cell = b.say.Say(words.TakeoffUnpriced)
			case takeoff.Within:
				cell = b.say.Say(words.TakeoffWithin)
			}
		}
		row = append(row, cell)
	}
	return row
}

// mind says what the totals do not hold, and what cannot be built so.
func (b bid) mind() list {
	m := list{title: b.say.Say(words.TakeoffMind)}
	for i := range b.t.Options {
		o := &b.t.Options[i]
		name := words.In("option", b.optionName(o))
		if o.Failed.HasErrors() {
			why := words.In("why", prose(o.Failed[0].What))
			m.items = append(m.items, b.say.Say(words.TakeoffMindFailed, name, why))
			continue
		}
		var none []string
		for k := range o.Unpriced {
			none = append(none, b.lineName(&o.Unpriced[k]))
		}
		if len(none) > 0 {
			what := words.In("what", strings.Join(none, "; "))
			m.items = append(m.items, b.say.Say(words.TakeoffMindUnpriced, name, what))
		}
		var held []string
		for _, h := range o.Holds {
			held = append(held, b.holdName(h.Code)+" ("+itoa(h.Count)+")")
		}
		if len(held) > 0 {
			holds := words.In("holds", strings.Join(held, "; "))
			m.items = append(m.items, b.say.Say(words.TakeoffMindHeld, name, holds))
		}
	}
	return m
}

func (b bid) groupName(g takeoff.Group) string {
	return b.say.Say([...]words.Key{words.TakeoffGroupMetal, words.TakeoffGroupHardware, words.TakeoffGroupBuildUp,
		words.TakeoffGroupLabour}[g])
}

func (b bid) unitName(u takeoff.Unit) string {
	if b.metric {
		return b.say.Say([...]words.Key{words.TakeoffUnitEach, words.TakeoffUnitMetres, words.TakeoffUnitSquareMetres,
			words.TakeoffUnitKilograms, words.TakeoffUnitHours}[u])
	}
	return b.say.Say([...]words.Key{words.TakeoffUnitEach, words.TakeoffUnitFeet, words.TakeoffUnitSquareFeet,
		words.TakeoffUnitPounds, words.TakeoffUnitHours}[u])
}

// quantity letters a quantity in the unit that unitName names, as a plain number.
func (b bid) quantity(u takeoff.Unit, n int64) string {
	one := func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
	foot := length.Foot.MM()
	switch u {
	case takeoff.Running:
		if b.metric {
			return one(length.Length(n).MM() / 1000)
		}
		return one(length.Length(n).MM() / foot)
	case takeoff.Square:
		if b.metric {
			return one(float64(n) / 1e6)
		}
		return one(float64(n) / foot / foot)
	case takeoff.Grams:
		if b.metric {
			return one(float64(n) / 1000)
		}
		return one(float64(n) / 453.59237)
	case takeoff.Time:
		return one(float64(n) / 60_000)
	}
	return strconv.FormatInt(n, 10)
}

// money letters thousandths of the job's money in hundredths.
func money(n int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	n = (n + 5) / 10
	return fmt.Sprintf("%s%d.%02d", sign, n/100, n%100)
}

// signed is money with its sign.
func signed(n int64) string {
	switch {
	case n > 0:
		return "+" + money(n)
	case n < 0:
		return "−" + money(-n)
	}
	return money(0)
}

// lineName is what a line counts.
func (b bid) lineName(l *takeoff.Line) string {
	say := b.say.Say
	long := words.In("length", b.exactly(l.Size[0]))
	switch l.What {
	case takeoff.Caps:
		return say(words.TakeoffCaps, words.In("length", b.text(l.Size[0])))
	case takeoff.Special:
		kind := l.Name
		if k, ok := kindKeys[l.Name]; ok {
			kind = say(k)
		}
		return say(words.TakeoffSpecial, words.In("kind", kind))
	case takeoff.Sheets:
		return say(words.TakeoffSheets, words.In("width", b.exactly(l.Size[0])),
			words.In("length", b.exactly(l.Size[1])))
	case takeoff.Weight:
		if l.Name != "" {
			return say(words.TakeoffWeightBought)
		}
		return say(words.TakeoffWeight)
	case takeoff.Chairs:
		if l.Name == "" {
			return say(words.TakeoffChairsNone)
		}
		return say(words.TakeoffChairs, words.In("assembly", prose(l.Name)),
			words.In("spacing", b.shopText(l.Size[0])))
	case takeoff.Plates:
		if l.Size[1] > 0 {
			return say(words.TakeoffPlatesOf, words.In("width", b.shopText(l.Size[1])))
		}
		return say(words.TakeoffPlates)
	case takeoff.Screws:
		return say(words.TakeoffScrews, words.In("name", prose(l.Name)), long)
	case takeoff.Tape:
		return say(words.TakeoffTape, words.In("length", b.text(l.Size[0])))
	case takeoff.Shims:
		return say(words.TakeoffShims, words.In("thickness", b.exactly(l.Size[0])))
	}
	return say(map[takeoff.What]words.Key{
		takeoff.Closers: words.TakeoffClosers, takeoff.Seams: words.TakeoffSeams, takeoff.Area: words.TakeoffArea,
		takeoff.Supports: words.TakeoffSupports, takeoff.Covers: words.TakeoffCovers,
		takeoff.Plywood: words.TakeoffPlywood, takeoff.Layers: words.TakeoffLayers, takeoff.Nails: words.TakeoffNails,
		takeoff.SetChairs: words.TakeoffSetChairs, takeoff.LayCaps: words.TakeoffLayCaps,
		takeoff.LaySpecial: words.TakeoffLaySpecial, takeoff.Level: words.TakeoffLevel,
	}[l.What])
}
