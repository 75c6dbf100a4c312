package sheets

import (
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// lotName names what is cut from one lot of finish.
func (b *book) lotName(lot plan.CutLot) string {
	name := b.say.Say(words.CutLot)
	if lot.Elevation != "" {
		name = b.say.Say(words.CutLotOf, words.In("elevation", prose(lot.Elevation)))
	}
	if lot.Bare != "" {
		return b.say.Say(words.CutLotAfter, words.In("lot", name), words.In("bare", prose(lot.Bare)))
	}
	return name
}

// proven says how good a plan is known to be.
func (b *book) proven(p plan.CutPlan, least words.Key) string {
	switch {
	case p.Best:
		return b.say.Say(words.CutBest)
	case !p.Bounded:
		return b.say.Say(words.CutUnbounded)
	}
	return b.say.Count(
		least, p.AtLeast, words.In("n", itoa(p.AtLeast)),
		words.In("percent", strconv.FormatFloat(p.Within, 'f', 1, 64)),
	)
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

// cutHow says how the plans are cut and how good they are.
func (b *book) cutHow() list {
	closers := words.CutHowClosers
	if b.j.Shop.ClosersFrom == job.FromSheet {
		closers = words.CutHowOwn
	}
	ripped := words.CutHowSheets
	if !b.j.System.Metal.Directional {
		ripped = words.CutHowSheetsTurned
	}
	how := list{title: b.say.Say(words.CutHow)}
	how.say(b.say.Say(closers), "")
	how.say(b.say.Say(ripped), "")
	how.say(b.say.Say(words.CutHowOffcuts), "")
	how.say(b.say.Say(words.CutHowBound, words.In("least-drop", b.text(b.j.Shop.LeastDrop))),
		factsOf("shop", "least-drop"))
	return how
}

// cuttingPlan draws every bar and sheet and says how good the plan is.
func (b *book) cuttingPlan() []page {
	o := b.l.Cutting
	if o == nil {
		return nil
	}
	p := page{
		id:    b.id("cutting"),
		title: b.say.Say(words.CuttingTitle),
		kind:  CuttingPlan,
		paper: b.runs,
		scale: b.say.Say(words.FrameAsNoted),
		about: b.say.Say(words.CuttingAbout),
	}
	if n := len(o.LeftOut); n > 0 {
		p.holds = b.l.Holds()
		p.banner = b.say.Count(words.CutLeftOutPlan, n, words.In("n", itoa(n)))
	}
	room := p.paper.room(p.banner != "")
	lots := b.l.CutLots()
	plans, waste := b.planTable(lots).naming(planNames(lots)), b.wasteTable(o, lots).naming(wasteNames(o, lots))
	how := b.cutHow()
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
				said := b.say.Say(words.CutOneLot)
				if lot.Bare != "" {
					said = b.say.Say(words.CutBare, words.In("bare", prose(lot.Bare)))
				}
				blocks = append(blocks, list{title: b.lotName(lot), items: []string{said}, plain: true, together: true})
			}
			n++
		}
		for _, q := range lot.Bars {
			for _, bar := range q.Bars {
				head()
				blocks = append(
					blocks, picture{scene: view.CutBar(b.say, bar, width), prefix: "bar" + itoa(i) + itoa(n)},
				)
			}
		}
		for _, r := range lot.Sheets {
			head()
			blocks = append(
				blocks,
				picture{
					scene:  view.CutSheet(b.say, r, width, min(11000, room.Height())),
					prefix: "sheet" + itoa(i) + itoa(n),
				},
			)
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
	t := table{
		title: b.say.Say(words.CutPlans),
		fill:  true,
		cols: []column{
			b.flex(words.ColLot), b.flex(words.ColWhatCut), b.flex(words.ColFrom), b.right(words.ColCost),
			b.right(words.ColLowerBound), b.flex(words.ColHowGood),
		},
	}
	for _, lot := range lots {
		for _, q := range lot.Bars {
			p := q.Plan
			t.rows = append(t.rows, []string{
				b.lotName(lot),
				b.say.Count(
					words.CutPieces, p.Cuts, words.In("n", itoa(p.Cuts)),
					words.In("inside", b.shopShort(q.Inside)),
				),
				b.say.Say(words.CutCaps, words.In("stocks", b.stocks(p))),
				b.cost(p.Cost, p.Priced, false),
				b.cost(p.Bound, p.Priced, false),
				b.proven(p, words.CutLeastCaps),
			})
		}
		if p := lot.Plan; len(lot.Sheets) > 0 {
			t.rows = append(t.rows, []string{
				b.lotName(lot), b.say.Count(words.CutBlanks, p.Cuts, words.In("n", itoa(p.Cuts))),
				b.say.Say(words.CutSheets, words.In("stocks", b.stocks(p))), b.cost(p.Cost, p.Priced, true),
				b.cost(p.Bound, p.Priced, true), b.proven(p, words.CutLeastSheets),
			})
		}
	}
	if len(t.rows) == 0 {
		t.rows = [][]string{{"–", b.say.Say(words.CutNothing), "–", "–", "–", "–"}}
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
		return b.say.Say(words.CutSqFt, words.In("n", strconv.FormatFloat(float64(v)/10/92903.04, 'f', 1, 64)))
	}
	long := b.shopLong(length.Length(v))
	if b.metric {
		long = b.say.Say(words.UnitMm, words.In("n", long))
	}
	return b.say.Say(words.CutOfCap, words.In("length", long))
}

// wasteTable sums what of the sheets becomes pieces, lot by lot.
func (b *book) wasteTable(o *layout.Order, lots []plan.CutLot) table {
	t := table{
		title: b.say.Say(words.CutWaste),
		fill:  true,
		cols: []column{
			b.flex(words.ColLot), b.right(words.ColSheets), b.right(words.ColBought), b.right(words.ColInBlanks),
			b.right(words.ColWaste), b.right(words.ColYield),
		},
	}
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
		row(b.lotName(lot), n, lot.Bought, lot.Used)
		total += n
	}
	row(b.say.Say(words.CutAllLots), total, o.Bought, o.Used)
	last := len(t.rows) - 1
	t.bold = func(r, _ int) bool { return r == last }
	return t
}

func (b *book) area(mm2 float64) string {
	if b.metric {
		return strconv.FormatFloat(mm2/1e6, 'f', 2, 64) + " m²"
	}
	return b.say.Say(words.CutSqFt, words.In("n", strconv.FormatFloat(mm2/92903.04, 'f', 1, 64)))
}

// leftOut lists what is not cut and why.
func (b *book) leftOut(o *layout.Order) (table, bool) {
	t := table{
		title: b.say.Say(words.CutLeftOut),
		fill:  true,
		cols: []column{
			b.col(words.ColPiece), b.col(words.ColShopMark), b.col(words.ColKind), b.flex(words.ColHeldBy),
		},
	}
	for _, q := range o.LeftOut {
		f := "–"
		if x := b.l.FamilyOf(q); x != nil {
			f = x.Mark
		}
		t.rows = append(
			t.rows, []string{b.pieceMark(q), f, b.l.Made(q).Name, strings.Join(b.holdNames(b.l.Held[q]), "; ")},
		)
	}
	return t, len(t.rows) > 0
}

// blankList is what is sheared, lot by lot.
func (b *book) blankList() []page {
	o := b.l.Cutting
	if o == nil {
		return nil
	}
	p := page{
		id:    b.id("blanks"),
		title: b.say.Say(words.BlanksTitle),
		kind:  BlankList,
		paper: b.lists,
		about: b.say.Say(words.BlanksAbout),
	}
	if len(o.LeftOut) > 0 {
		p.holds = b.l.Holds()
		p.banner = b.say.Count(words.CutLeftOutList, len(o.LeftOut), words.In("n", itoa(len(o.LeftOut))))
	}
	var blocks []block
	for _, lot := range b.l.CutLots() {
		t := table{
			title: b.lotName(lot),
			fill:  true,
			cols: []column{
				b.flex(words.ColBlank), b.right(words.ColCount), b.right(words.ColGirthAcross),
				b.right(words.ColLengthAlongGrain), {head: b.say.Say(words.ColSheared), align: drawing.Middle},
			},
		}
		for _, x := range lot.Blanks {
			name := x.Mark
			if x.Formed {
				name = b.say.Say(words.CutFormed, words.In("blank", name))
			}
			t.rows = append(t.rows, []string{name, itoa(x.Count), b.inBlank(x.Girth), b.inBlankLong(x.Length), tickBox})
		}
		if len(t.rows) > 0 {
			blocks = append(blocks, t.naming(blankNames(lot)))
		}
	}
	if len(blocks) == 0 {
		return nil
	}
	blocks = append(blocks, list{items: []string{b.say.Say(words.CutSizes)}, plain: true})
	return b.pages(p, blocks, across)
}
