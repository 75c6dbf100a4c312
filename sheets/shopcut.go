package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// lotName names what is cut from one lot of finish.
func lotName(lot plan.CutLot) string {
	phrase := "Lot"
	if lot.Elevation != "" {
		phrase += " of elevation " + prose(lot.Elevation)
	}
	if lot.Bare != "" {
		phrase += ", finished after joining: blanks " + prose(lot.Bare)
	}
	return phrase
}

// proven says how good a plan is known to be.
func proven(p plan.CutPlan, what string) string {
	switch {
	case p.Best:
		return "proven best"
	case !p.Bounded:
		return "not proven: no bound found"
	}
	return "not proven: at least " + plural(p.AtLeast, what) + "; within " + strconv.FormatFloat(p.Within, 'f', 1, 64) + " % of the bound"
}

// stocks letters what a plan takes.
func (b *book) stocks(p plan.CutPlan) string {
	var out []string
	for _, s := range p.From {
		phrase := itoa(s.Count) + " × "
		if s.Width > 0 {
			phrase += b.shopShort(s.Width) + " × "
		}
		out = append(out, phrase+b.shopLong(s.Length))
	}
	return strings.Join(out, ", ")
}

// cuttingPlan draws every bar and sheet and says how good the plan is.
func (b *book) cuttingPlan() []page {
	o := b.l.Cutting
	if o == nil {
		return nil
	}
	p := page{id: b.id("cutting"), title: "Cutting plan", kind: CuttingPlan, paper: b.runs, scale: "as noted", about: "How formed caps and sheets are cut, with the yield and what is left out."}
	if n := len(o.LeftOut); n > 0 {
		p.holds = b.l.Holds()
		p.banner = fmt.Sprintf("NOT RELEASED: %s left out of this plan.", plural(n, "piece"))
	}
	room := p.paper.room(p.banner != "")
	lots := b.l.CutLots()
	plans, waste := b.planTable(lots), b.wasteTable(o, lots)
	how := list{items: []string{
		"Straight pieces shorter than a stock cap are cut from formed caps; all others, and the formed caps, are bent from blanks cut from sheets.",
		"A sheet is ripped into strips first, and a strip carries one width only. The grain runs along the sheet and no blank is turned. One elevation keeps one lot of finish.",
		"The lower bound is what no plan of this kind can go below. Kept drops are " + b.text(b.j.Shop.LeastDrop) + " and longer.",
	}, title: "How this plan is made"}
	plans.tight, waste.tight = true, true
	blocks := []block{plans, waste, how}
	if t, ok := b.leftOut(o); ok {
		t.tight = true
		blocks = []block{plans, waste, t, how}
	}
	cols, tables := b.planColumns(room), blocks
	regions := func(n int, room drawing.Rect) []drawing.Rect {
		if n > 0 || cols == 1 {
			return columns(room, cols, planGap)
		}
		return b.planRegions(room, cols, tables)
	}
	width := columns(room, cols, planGap)[0].Width()
	for i, lot := range lots {
		n := 0
		head := func() {
			if n == 0 {
				said := "All from one lot of finish."
				if lot.Bare != "" {
					said = "All from sheets that are " + prose(lot.Bare) + ", apart from the finished ones; they are finished together once they are joined."
				}
				blocks = append(blocks, list{title: lotName(lot), items: []string{said}, plain: true, together: true})
			}
			n++
		}
		for _, q := range lot.Bars {
			for _, bar := range q.Bars {
				head()
				blocks = append(blocks, picture{scene: view.CutBar(bar, width), prefix: "bar" + itoa(i) + itoa(n)})
			}
		}
		for _, r := range lot.Sheets {
			head()
			blocks = append(blocks, picture{scene: view.CutSheet(r, width, min(11000, room.Height())), prefix: "sheet" + itoa(i) + itoa(n)})
		}
	}
	return b.pages(p, blocks, regions)
}

// planGap stands between the pictures of the cutting plan.
const planGap drawing.Unit = 400

// planColumns is how many pictures of the cutting plan stand next to each
// other: as many as leave a sheet large enough to be lettered.
func (b *book) planColumns(room drawing.Rect) int {
	const most = 32 // of the scale
	var long length.Length
	for _, s := range b.j.Shop.Sheets {
		long = length.Max(long, s.Length)
	}
	for n := 4; n > 1; n-- {
		w := columns(room, n, planGap)[0].Width()
		if w >= 9000 && view.Fit(b.metric, long, w-100).Ratio <= most {
			return n
		}
	}
	if room.Width() >= 35000 {
		return 2
	}
	return 1
}

// planRegions are those of the first sheet of the cutting plan: the plans across
// the top, the other tables next to each other below them, pictures under all.
func (b *book) planRegions(room drawing.Rect, cols int, tables []block) []drawing.Rect {
	const endless, least = 1 << 20, 4000
	high := func(x block, w drawing.Unit) drawing.Unit {
		got, _ := x.take(w, endless, true)
		return got.h
	}
	top := room
	top.Max.Y = top.Min.Y + high(tables[0], room.Width())
	band := room
	band.Min.Y = top.Max.Y + between
	out := []drawing.Rect{top}
	beside := columns(band, len(tables)-1, gutter)
	var most drawing.Unit
	for i, x := range tables[1:] {
		most = max(most, high(x, beside[i].Width()))
	}
	for i := range beside {
		beside[i].Max.Y = beside[i].Min.Y + most
	}
	if band.Min.Y+most > room.Max.Y { // too many rows: in columns like the rest
		return columns(room, min(cols, 2), gutter)
	}
	out = append(out, beside...)
	if rest := drawing.Box(room.Min.X, band.Min.Y+most+between, room.Max.X, room.Max.Y); rest.Height() >= least {
		out = append(out, columns(rest, cols, planGap)...)
	}
	return out
}

// planTable is one row for each plan: what it takes, its bound, its proof.
func (b *book) planTable(lots []plan.CutLot) table {
	t := table{title: "Plans", fill: true, cols: []column{{head: "Lot", flex: true}, {head: "What is cut", flex: true}, {head: "From", flex: true}, {head: "Cost", align: drawing.Right}, {head: "Lower bound", align: drawing.Right}, {head: "How good", flex: true}}}
	for _, lot := range lots {
		for _, q := range lot.Bars {
			p := q.Plan
			t.rows = append(t.rows, []string{lotName(lot), plural(p.Cuts, "piece") + ", inside " + b.shopShort(q.Inside), "caps " + b.stocks(p),
				b.cost(p.Cost, p.Priced, false), b.cost(p.Bound, p.Priced, false), proven(p, "cap")})
		}
		if p := lot.Plan; len(lot.Sheets) > 0 {
			t.rows = append(t.rows, []string{lotName(lot), plural(p.Cuts, "blank"), "sheets " + b.stocks(p), b.cost(p.Cost, p.Priced, true), b.cost(p.Bound, p.Priced, true), proven(p, "sheet")})
		}
	}
	if len(t.rows) == 0 {
		t.rows = [][]string{{"–", "nothing is released", "–", "–", "–", "–"}}
	}
	return t
}

// cost letters what a plan costs: money, or where no price is stated the length
// or area of what is cut up.
func (b *book) cost(v int64, priced, sheets bool) string {
	switch {
	case priced:
		return strconv.FormatFloat(float64(v)/1000, 'f', 2, 64)
	case sheets && b.metric:
		return strconv.FormatFloat(float64(v)/1e7, 'f', 2, 64) + " m²" // of tenths of a square millimetre
	case sheets:
		return strconv.FormatFloat(float64(v)/10/92903.04, 'f', 1, 64) + " sq ft"
	}
	phrase := b.shopLong(length.Length(v))
	if b.metric {
		phrase += " mm"
	}
	return phrase + " of cap"
}

// wasteTable sums what of the sheets becomes pieces, lot by lot.
func (b *book) wasteTable(o *layout.Order, lots []plan.CutLot) table {
	t := table{title: "Sheet used and wasted", fill: true, cols: []column{{head: "Lot", flex: true}, {head: "Sheets", align: drawing.Right}, {head: "Bought", align: drawing.Right}, {head: "In blanks", align: drawing.Right}, {head: "Waste", align: drawing.Right}, {head: "Yield", align: drawing.Right}}}
	row := func(name string, n int, bought, used float64) {
		y := "–"
		if bought > 0 {
			y = strconv.Itoa(int(100*used/bought)) + " %"
		}
		t.rows = append(t.rows, []string{name, itoa(n), b.area(bought), b.area(used), b.area(bought - used), y})
	}
	total := 0
	for _, lot := range lots {
		n := 0
		for _, r := range lot.Sheets {
			n += r.Count
		}
		row(lotName(lot), n, lot.Bought, lot.Used)
		total += n
	}
	row("All lots", total, o.Bought, o.Used)
	last := len(t.rows) - 1
	t.bold = func(r, _ int) bool { return r == last }
	return t
}

func (b *book) area(mm2 float64) string {
	if b.metric {
		return strconv.FormatFloat(mm2/1e6, 'f', 2, 64) + " m²"
	}
	return strconv.FormatFloat(mm2/92903.04, 'f', 1, 64) + " sq ft"
}

// leftOut lists what is not cut and why.
func (b *book) leftOut(o *layout.Order) (table, bool) {
	t := table{title: "LEFT OUT: not released, do not cut", fill: true, cols: []column{{head: "Piece"}, {head: "Shop mark"}, {head: "Kind"}, {head: "Held by", flex: true}}}
	for _, q := range o.LeftOut {
		f := "–"
		if x := b.l.FamilyOf(q); x != nil {
			f = x.Mark
		}
		t.rows = append(t.rows, []string{b.pieceMark(q), f, b.l.Made(q).Name, strings.Join(b.holdNames(b.l.Held[q]), "; ")})
	}
	return t, len(t.rows) > 0
}

// blankList is what is sheared, lot by lot.
func (b *book) blankList() []page {
	o := b.l.Cutting
	if o == nil {
		return nil
	}
	p := page{id: b.id("blanks"), title: "Blank list", kind: BlankList, paper: b.lists, about: "Every blank to be sheared, with its girth, length and count."}
	if len(o.LeftOut) > 0 {
		p.holds = b.l.Holds()
		p.banner = fmt.Sprintf("NOT RELEASED: %s left out of this list.", plural(len(o.LeftOut), "piece"))
	}
	var blocks []block
	for _, lot := range b.l.CutLots() {
		t := table{title: lotName(lot), fill: true, cols: []column{{head: "Blank", flex: true}, {head: "Count", align: drawing.Right}, {head: "Girth, across", align: drawing.Right}, {head: "Length, along the grain", align: drawing.Right}, {head: "Sheared", align: drawing.Middle}}}
		for _, x := range lot.Blanks {
			name := view.BlankName(b.metric, x)
			if x.Mark == "" {
				name += ", formed, for closers"
			}
			t.rows = append(t.rows, []string{name, itoa(x.Count), b.inBlank(x.Girth), b.inBlankLong(x.Length), tickBox})
		}
		if len(t.rows) > 0 {
			blocks = append(blocks, t)
		}
	}
	if len(blocks) == 0 {
		return nil
	}
	blocks = append(blocks, list{items: []string{"Sizes are the blank’s bounding rectangle, rounded up. Outlines, holes and corners stand on the shop drawings and in the DXF files."}, plain: true})
	return b.pages(p, blocks, across)
}
