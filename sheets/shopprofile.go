package sheets

import (
	"cmp"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/job"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// widthCase is one inside width of a profile, with the slope of its top, and the
// body that shows it.
type widthCase struct {
	legSection
	shown layout.Body
}

// profilePage shows the section of the cap with its outside dimensions, all
// inside widths on one sheet: only the top differs between them.
func (b *book) profilePage() []page {
	var all []widthCase
	for _, straight := range []bool{true, false} { // a straight piece shows its section best
		for _, f := range b.l.Families {
			if layout.Straight(f) != straight || b.tapers(f) {
				continue // the pieces beside a transition have its widths
			}
			for _, x := range b.legSections(f) {
				shown := f.Bodies[x.body]
				if len(shown.Bends) == 0 || slices.ContainsFunc(shown.Bends, layout.Bend.Across) || slices.ContainsFunc(all, func(c widthCase) bool { return c.alike(x) }) {
					continue
				}
				all = append(all, widthCase{x, shown})
			}
		}
	}
	slices.SortStableFunc(all, func(p, q widthCase) int {
		return cmp.Or(cmp.Compare(q.inside, p.inside), cmp.Compare(q.slope, p.slope))
	})
	var out []page
	for len(all) > 0 {
		var same, rest []widthCase
		for _, c := range all {
			if bentAlike(all[0].shown, c.shown) {
				same = append(same, c)
			} else {
				rest = append(rest, c)
			}
		}
		out = append(out, b.profileOf(same)...)
		all = rest
	}
	return out
}

// tapers reports whether the pieces of a family go from one width to another.
func (b *book) tapers(f *layout.Family) bool { return b.l.Made(f.Pieces[0]).Tapers() }

// bentAlike reports whether two bodies have the same bends in the same order,
// whatever their girth.
func bentAlike(p, q layout.Body) bool {
	return slices.EqualFunc(p.Bends, q.Bends, func(x, y layout.Bend) bool {
		return view.BendWords(x.Hem, x.Line.Turn, x.Line.Radius) == view.BendWords(y.Hem, y.Line.Turn, y.Line.Radius) && x.Line.Between == y.Line.Between
	})
}

// profileOf is the sheet of widths bent alike.
func (b *book) profileOf(all []widthCase) []page {
	var names []string
	for _, c := range all {
		names = append(names, b.shopShort(c.inside)+c.slopeWords(b))
	}
	title := "Profile, inside width " + strings.Join(names, ", ")
	p := page{id: b.id("profiles"), title: title, kind: ShopSheet, paper: b.runs, scale: "as noted", about: "Cross-section of the cap with its outside dimensions, bends with their distances, and the girth of each width."}
	room := p.paper.room(false)
	regions := across
	w := room.Width()
	if w >= 35000 {
		w = w * 45 / 100
		regions = func(_ int, room drawing.Rect) []drawing.Rect {
			left, right := room, room
			left.Max.X = left.Min.X + w
			right.Min.X = left.Max.X + gutter
			return []drawing.Rect{left, right}
		}
	}
	top := ""
	if len(all) > 1 {
		top = "see the table"
	}
	section := view.ShopSection(b.l.Profile(all[0].family, all[0].body), top, w, room.Height())
	if w < room.Width() {
		section.H = room.Height() // the tables stand beside it
	}
	blocks := []block{picture{scene: section, prefix: "section"}, b.widthTable(all)}
	if t, ok := b.legTable(all[0].shown); ok {
		blocks = append(blocks, t)
	}
	const most = 2 // widths in one table of bends
	for i := 0; i < len(all); i += most {
		blocks = append(blocks, b.widthBends(all[i:min(i+most, len(all))]))
	}
	how := list{title: "How the girth is reckoned", items: []string{"Outside dimensions as the job states them, to the mold line or to the tangent, the outermost metal of a bend. Flat = sum of outside dimensions less a deduction at each bend: " +
		"2 tan(turn/2)(R + T) to the mold line, 2 (R + T) to the tangent, less (pi/180) turn (R + K T); to the tangent it turns into an addition past about 156°. Inside radius R " +
		b.exactly(b.j.System.Profile.InsideR) + ", thickness T " + b.thick(b.j.System.Metal.Thickness) + " and K " + trimFloat(b.j.Shop.K) + " (" + prose(b.j.Shop.KSource) + ")."}, plain: true}
	if b.j.System.Profile.HemReturn > 0 {
		how.items = append(how.items, "A hem is folded flat with no radius: it adds its return less 2T − pi K T to the flange it lies on, and is measured from its raw edge to the outside of its fold.")
	}
	how.items = append(how.items, "Schedule, cutting plan, weights and tape take this girth.")
	how.items = append(how.items, b.girthWords(all)...)
	how.items = append(how.items, b.legsRead(), b.toolsChecked())
	return b.pages(p, append(blocks, how), regions)
}

// legsRead says how long a tape finds the legs, which is not what the girth is
// reckoned from where a leg ends in a hook.
func (b *book) legsRead() string {
	s := &b.j.System
	leg := func(name string, by func(job.LegMeasure) length.Length, foot job.LegMeasure) string {
		phrase := name + " leg " + b.exactly(by(foot)) + " to " + foot.String()
		if foot == job.ToTangent {
			phrase += ", its lowest metal (" + b.exactly(by(job.ToMoldLine)) + " to mold line)"
		}
		return phrase
	}
	return "As a tape reads them from the fold: " + leg("front", s.FrontLeg, s.Profile.Drip.Foot()) + "; " + leg("rear", s.RearLeg, s.Profile.RearHook.Foot()) + "."
}

// widthTable is what differs between the widths of a profile.
func (b *book) widthTable(all []widthCase) table {
	t := table{title: "Widths of this profile", fill: true, whole: true, cols: []column{{head: "Inside width", align: drawing.Right}, {head: "Top, outside", align: drawing.Right}, {head: "Girth of the flat", align: drawing.Right}, {head: "Shop types", flex: true}}}
	for _, c := range all {
		var marks []string
		for _, f := range b.l.Families {
			if len(f.Bodies) > 0 && !b.tapers(f) && slices.ContainsFunc(b.legSections(f), c.alike) {
				marks = append(marks, f.Mark)
			}
		}
		t.rows = append(t.rows, []string{b.shopShort(c.inside), b.inBlank(c.shown.Outside(0)), b.inBlank(c.shown.Girth), strings.Join(marks, ", ")})
	}
	return t
}

// legTable is each leg as the job states it, with the measure it is stated by, and
// the overall drop: the lowest metal under its fold.
func (b *book) legTable(body layout.Body) (table, bool) {
	front, rear, ok := body.Overall()
	s := &b.j.System
	t := table{title: "Legs", fill: true, whole: true, cols: []column{{head: "Leg", flex: true}, {head: "As stated", align: drawing.Right}, {head: "To"}, {head: "Overall drop, fold to lowest metal", align: drawing.Right}}}
	for _, q := range []struct {
		name string
		leg  job.Leg
		drop length.Length
	}{{"front leg", s.Profile.FrontLeg, front}, {"rear leg", s.Profile.RearLeg, rear}} {
		t.rows = append(t.rows, []string{q.name, b.inBlank(q.leg.Length), "to: " + q.leg.To.String(), b.inBlank(length.RoundTo(q.drop, view.BlankStyle(b.metric).Step()))})
	}
	return t, ok
}

// toolsChecked says how far the order of bends was checked against the machine.
func (b *book) toolsChecked() string {
	m := b.j.Shop.Machine
	switch b.l.Tooling() {
	case plan.NoMachine:
		return "MACHINE: the job states none. The order of bends is the usual one; that the tools reach every bend and stay clear of folded metal is for the shop to see."
	case plan.FlatsAlone:
		return "MACHINE: " + m.Kind.String() + ". The flats beside every bend and the reach of its gauge are checked. The outlines of its tools are not stated, so whether folded metal strikes one is NOT checked."
	}
	how := "the first order found that does"
	if len(b.j.Shop.BendOrder) > 0 {
		how = "checked in the shop’s own order"
	}
	return "MACHINE: " + m.Kind.String() + ". After every bend the folded section was laid against the stated outlines of its tools and stands in neither, unless a hold says so: " + how + "."
}

// widthBends is the bends in order: what the back gauge is set to and what touches
// it, and the distances at which lines are scribed, for each width.
func (b *book) widthBends(all []widthCase) table {
	t := table{title: "Bends in order: the back gauge, and lines to scribe on the flat", fill: true, whole: true, tight: true, cols: []column{{head: "No.", align: drawing.Right}, {head: "Bend"}, {head: "Incl.", align: drawing.Right}, {head: "Between", flex: true}, {head: "Gauge touches"}}}
	for _, c := range all {
		name := ""
		if len(all) > 1 {
			name = b.shopShort(c.inside) + ": "
		}
		t.cols = append(t.cols, column{head: name + "gauge", align: drawing.Right}, column{head: name + "scribe from street", align: drawing.Right}, column{head: name + "scribe from roof", align: drawing.Right})
	}
	for i, q := range all[0].shown.Bends {
		included := view.Degrees(q.Included())
		if q.Hem {
			included = "–"
		}
		row := []string{itoa(q.Order), view.BendWords(q.Hem, q.Line.Turn, q.Line.Radius), included, q.Line.Between[0] + " and " + q.Line.Between[1], q.GaugeAt}
		for _, c := range all {
			row = append(row, b.inBlank(c.shown.Bends[i].Gauge), b.inBlank(c.shown.Bends[i].FromStreet), b.inBlank(c.shown.Bends[i].FromRoof))
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// girthWords reckon the girth of each width, so that it can be done again by
// hand.
func (b *book) girthWords(of []widthCase) []string {
	num := func(mm float64) string {
		l := length.FromMM(mm)
		if b.metric {
			return length.Millimetres(l, 2)
		}
		return drawing.Letter(length.Decimal(l, 3))
	}
	var out []string
	for _, c := range of {
		body := c.shown
		var sum []string
		for i, face := range body.Solid.Faces {
			if face.Name != "hem" && face.Name != "upstand" {
				sum = append(sum, face.Name+" "+num(body.Outside(i).MM()))
			}
		}
		for _, d := range layout.Deductions(body) {
			if d.Hem {
				sum = append(sum, "+ hem "+num(-d.Less))
				continue
			}
			sum = append(sum, "− "+num(d.Less)+" at "+view.Degrees(d.Turn))
		}
		out = append(out, "Inside width "+b.shopShort(c.inside)+c.slopeWords(b)+", girth of the flat: "+strings.ReplaceAll(strings.Join(sum, ", "), ", +", " +")+" = "+b.inBlank(body.Girth)+".")
	}
	return out
}
