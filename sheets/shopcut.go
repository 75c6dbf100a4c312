package sheets

import (
	"fmt"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// handCheck is a table of all handed families to be gone through with the
// drawings before the first bend.
func (b *book) handCheck() []page {
	p := page{id: b.id("hand-check"), title: "Hand check", kind: HandCheck, paper: b.lists, about: "Every family that has a hand, with its view from above, its sentence and a box for who checked it."}
	blocks := []block{list{title: "Before the first bend: check every hand against the drawing", items: []string{
		"Each picture is seen from above, street at the top. Stand on the roof, look out over the wall: L is at your left hand, R at your right.",
		"Twins stand one under the other. The street face is the thick line; a closed end is a black bar, a flange against a wall two lines, the end to cut is striped.",
	}, plain: true}}
	done := map[*layout.Family]bool{} // look-up only
	for _, f := range b.l.Families {
		for _, x := range []*layout.Family{f, f.Twin} {
			if x == nil || done[x] || len(x.Bodies) == 0 || !handed(x) {
				continue
			}
			done[x] = true
			blocks = append(blocks, b.handRow(x))
		}
	}
	if len(done) == 0 {
		return nil
	}
	return b.pages(p, blocks, across)
}

// handed reports whether left and right can be taken for each other in a
// family.
func handed(f *layout.Family) bool { return f.Sentence() != shop.NoHand }

// handRow is one family of the hand check.
func (b *book) handRow(f *layout.Family) whole {
	const pic, high drawing.Unit = 6200, 3500
	marks := b.pieceMarks(f, true)
	words := prose(f.Sentence())
	what := "make " + itoa(len(marks))
	if len(marks) > 0 {
		what += ": " + strings.Join(marks, ", ")
	}
	if no := b.pieceMarks(f, false); len(no) > 0 {
		what += "; DO NOT CUT " + strings.Join(no, ", ")
	}
	twin := "no twin in this job"
	if f.Twin != nil {
		twin = "TWIN: " + f.Twin.Mark
	}
	lines := func(w drawing.Unit) (sentence, rest []string) {
		w -= pic + 400
		return drawing.Wrap(words, drawing.Bold, drawing.Note, w), append(drawing.Wrap(what, drawing.Regular, drawing.Note, w), twin)
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			a, c := lines(w)
			return max(high, 900+drawing.Unit(len(a)+len(c))*drawing.Note.Line()+900)
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Rect(drawing.Medium, r)
			place(s, view.FormedTop(b.l, f, pic-200, r.Height()-200), drawing.Pt(r.Min.X+100, r.Min.Y+100), slug("hand-"+f.Mark))
			s.Line(drawing.Thin, drawing.Pt(r.Min.X+pic, r.Min.Y), drawing.Pt(r.Min.X+pic, r.Max.Y))
			x, y := r.Min.X+pic+200, r.Min.Y+650
			s.Text(drawing.Pt(x, y), f.Mark+"  "+f.Pieces[0].KindName(), drawing.Style{Size: drawing.Title, Face: drawing.Bold})
			a, c := lines(r.Width())
			y += 300
			for _, l := range a {
				y += drawing.Note.Line()
				s.Text(drawing.Pt(x, y), l, drawing.Style{Face: drawing.Bold})
			}
			for _, l := range c {
				y += drawing.Note.Line()
				s.Text(drawing.Pt(x, y), l, drawing.Style{})
			}
			s.Text(drawing.Pt(x, r.Max.Y-200), "Checked by ____________________   date ______________", drawing.Style{})
		},
	}
}

// lotName names what is cut from one lot of finish.
func lotName(lot *shop.Lot) string {
	if lot.Elevation == "" {
		return "Lot"
	}
	return "Lot of elevation " + prose(lot.Elevation)
}

// proven says how good a plan is known to be.
func proven(price, bound int64, best bool) string {
	if best {
		return "proven best"
	}
	if bound <= 0 {
		return "no bound found"
	}
	return "within " + strconv.FormatFloat(float64(price-bound)*100/float64(bound), 'f', 1, 64) + " % of the bound"
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
	regions := across
	if room.Width() >= 35000 {
		regions = inColumns(2)
		room = columns(room, 2, gutter)[0]
	}
	blocks := []block{b.planTable(), b.wasteTable(o)}
	if t, ok := b.leftOut(o); ok {
		blocks = append(blocks, t)
	}
	blocks = append(blocks, list{items: []string{
		"Straight pieces shorter than a stock cap are cut from formed caps; all others, and the formed caps, are bent from blanks cut from sheets.",
		"A sheet is ripped into strips first, and a strip carries one width only. The grain runs along the sheet and no blank is turned. One elevation keeps one lot of finish.",
		"The lower bound is what no plan of this kind can go below. Kept drops are " + b.text(b.j.Shop.LeastDrop) + " and longer.",
	}, title: "How this plan is made"})
	for i := range o.Lots {
		lot := &o.Lots[i]
		n := 0
		head := func() {
			if n == 0 {
				blocks = append(blocks, list{title: lotName(lot), items: []string{"Cut all of this lot from one lot of finish."}, plain: true})
			}
			n++
		}
		for _, q := range lot.Bars {
			for k := range q.Plan.Bars {
				head()
				blocks = append(blocks, picture{scene: view.CutBar(b.l, q, k, room.Width()), prefix: "bar" + itoa(i) + itoa(n)})
			}
		}
		for k := range lot.Sheets.Sheets {
			head()
			blocks = append(blocks, picture{scene: view.CutSheet(b.l, lot, k, room.Width(), min(11000, room.Height())), prefix: "sheet" + itoa(i) + itoa(n)})
		}
	}
	return b.pages(p, blocks, regions)
}

// planTable is one row for each plan: what it takes, its bound, its proof.
func (b *book) planTable() table {
	t := table{title: "Plans", fill: true, cols: []column{{head: "Lot", flex: true}, {head: "What is cut", flex: true}, {head: "From", flex: true}, {head: "Cost", align: drawing.Right}, {head: "Lower bound", align: drawing.Right}, {head: "How good", flex: true}}}
	for i := range b.l.Cutting.Lots {
		lot := &b.l.Cutting.Lots[i]
		for _, q := range lot.Bars {
			cost, bound := b.cost(q.Plan.Price, barsPriced(q), false), b.cost(q.Plan.Bound, barsPriced(q), false)
			var from []string
			for k, n := range q.Plan.Used(len(q.Stocks)) {
				if n > 0 {
					from = append(from, itoa(n)+" × "+b.shopLong(q.Stocks[k].Length))
				}
			}
			t.rows = append(t.rows, []string{lotName(lot), plural(len(q.Closers), "piece") + ", inside " + b.shopShort(q.Inside), "caps " + strings.Join(from, ", "), cost, bound, proven(q.Plan.Price, q.Plan.Bound, q.Plan.Proven)})
		}
		if len(lot.Sheets.Sheets) == 0 {
			continue
		}
		count := make([]int, len(b.j.Shop.Sheets))
		for _, r := range lot.Sheets.Sheets {
			count[r.Stock] += r.Count
		}
		var from []string
		priced := false
		for k, n := range count {
			s := b.j.Shop.Sheets[k]
			priced = priced || s.Price > 0
			if n > 0 {
				from = append(from, itoa(n)+" × "+b.shopShort(s.Width)+" × "+b.shopLong(s.Length))
			}
		}
		blanks := 0
		for _, x := range lot.Blanks {
			blanks += x.Count
		}
		t.rows = append(t.rows, []string{lotName(lot), plural(blanks, "blank"), "sheets " + strings.Join(from, ", "),
			b.cost(lot.Sheets.Price, priced, true), b.cost(lot.Sheets.Bound, priced, true), proven(lot.Sheets.Price, lot.Sheets.Bound, lot.Sheets.Proven)})
	}
	if len(t.rows) == 0 {
		t.rows = [][]string{{"–", "nothing is released", "–", "–", "–", "–"}}
	}
	return t
}

func barsPriced(q shop.BarOrder) bool {
	for _, s := range q.Stocks {
		if s.Price > 0 {
			return true
		}
	}
	return false
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
	return b.shopLong(length.Length(v))
}

// wasteTable sums what of the sheets becomes pieces, lot by lot.
func (b *book) wasteTable(o *layout.Order) table {
	t := table{title: "Sheet used and wasted", fill: true, cols: []column{{head: "Lot", flex: true}, {head: "Sheets", align: drawing.Right}, {head: "Bought", align: drawing.Right}, {head: "In blanks", align: drawing.Right}, {head: "Waste", align: drawing.Right}, {head: "Yield", align: drawing.Right}}}
	row := func(name string, n int, bought, used float64) {
		y := "–"
		if bought > 0 {
			y = strconv.Itoa(int(100*used/bought)) + " %"
		}
		t.rows = append(t.rows, []string{name, itoa(n), b.area(bought), b.area(used), b.area(bought - used), y})
	}
	total := 0
	for i := range o.Lots {
		lot := &o.Lots[i]
		n := 0
		for _, r := range lot.Sheets.Sheets {
			n += r.Count
		}
		bought, used := b.l.CutAreas(lot)
		row(lotName(lot), n, bought, used)
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
	t := table{title: "LEFT OUT: not released, do not cut", fill: true, cols: []column{{head: "Piece"}, {head: "Family"}, {head: "Kind"}, {head: "Held by", flex: true}}}
	for _, q := range o.LeftOut {
		f := "–"
		if x := b.l.FamilyOf(q); x != nil {
			f = x.Mark
		}
		t.rows = append(t.rows, []string{b.pieceMark(q), f, kindOf(q), strings.Join(holdNames(q.Holds), "; ")})
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
	for i := range o.Lots {
		lot := &o.Lots[i]
		t := table{title: lotName(lot), fill: true, cols: []column{{head: "Blank", flex: true}, {head: "Count", align: drawing.Right}, {head: "Girth, across", align: drawing.Right}, {head: "Length, along the grain", align: drawing.Right}, {head: "Sheared", align: drawing.Middle}}}
		for _, x := range lot.Blanks {
			name := view.BlankName(b.l, x)
			if x.Family == nil {
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
