package sheets

import (
	"cmp"
	"fmt"
	"slices"
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
				if len(shown.Bends) == 0 || slices.ContainsFunc(shown.Bends, layout.Bend.Across) ||
					slices.ContainsFunc(all, func(c widthCase) bool { return c.alike(x) }) {
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
	named := func(x layout.Bend) string { return view.BendWords(words.Book{}, x.Hem, x.Line.Turn, x.Line.Radius) }
	return slices.EqualFunc(p.Bends, q.Bends, func(x, y layout.Bend) bool {
		return named(x) == named(y) && x.Line.Between == y.Line.Between
	})
}

// profileOf is the sheet of widths bent alike.
func (b *book) profileOf(all []widthCase) []page {
	var names, facts []string
	for _, c := range all {
		names, facts = append(names, c.widthWords(b)), append(facts, c.widthFacts(b))
	}
	title := b.say.Say(words.ProfileTitle, words.In("names", strings.Join(names, ", ")))
	p := page{
		id:    b.id("profiles"),
		title: title,
		named: layout.AllNamed(facts...),
		kind:  ShopSheet,
		paper: b.runs,
		scale: b.say.Say(words.FrameAsNoted),
		about: b.say.Say(words.ProfilesAbout),
	}
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
		top = b.say.Say(words.ProfileSeeTable)
	}
	section := view.ShopSection(b.say, b.l.Profile(all[0].family, all[0].body), top, w, room.Height())
	if w < room.Width() {
		section.H = room.Height() // the tables stand beside it
	}
	blocks := []block{picture{scene: section, prefix: "section"}, b.widthTable(all).naming(widthNames(all))}
	if t, ok := b.legTable(all[0].shown); ok {
		blocks = append(blocks, t.naming(legFacts(all[0])))
	}
	const most = 2 // widths in one table of bends
	for i := 0; i < len(all); i += most {
		blocks = append(blocks, b.widthBends(all[i:min(i+most, len(all))]).naming(widthBendNames(all[i:min(i+most,
			len(all))])))
	}
	how := list{
		title: b.say.Say(words.ProfileGirth),
		items: []string{
			b.say.Say(
				words.ProfileGirthHow, words.In("nil", degree(b.l.NilTurn())),
				words.In("inside-r", b.exactly(b.j.System.Profile.InsideR)),
				words.In("thickness", b.thick(b.j.System.Metal.Thickness)),
				words.In("trim-float", trimFloat(b.j.Shop.K)), words.In("ksource", prose(b.j.Shop.KSource)),
			),
		},
		names: []string{layout.AllNamed(factsOf("system", "inside-radius", "thickness"), factsOf("shop", "k-factor",
			"k-source", "nil-deduction-degrees"))},
		plain: true,
	}
	if b.j.System.Profile.HemReturn > 0 {
		how.items = append(how.items, b.say.Say(words.ProfileGirthHem))
	}
	how.items = append(how.items, b.say.Say(words.ProfileGirthUsed))
	sums, sumNames := b.girthWords(all)
	how.items = append(how.items, sums...)
	how.items = append(how.items, b.legsRead(), b.toolsChecked())
	for len(how.names) < len(how.items)-len(sums)-2 {
		how.names = append(how.names, "")
	}
	how.names = append(append(how.names, sumNames...), factsOf("system", b.legsReadOf()...))
	return b.pages(p, append(blocks, how), regions)
}

// degree letters an angle that is reckoned, to the degree.
func degree(a float64) string { return strconv.FormatFloat(a, 'f', 0, 64) + "°" }

// legsRead says how long a tape finds the legs, which is not what the girth is
// reckoned from where a leg ends in a hook.
func (b *book) legsRead() string {
	s := &b.j.System
	leg := func(name words.Key, by func(job.LegMeasure) length.Length, foot job.LegMeasure) string {
		of, long := words.In("leg", b.say.Say(name)), words.In("length", b.exactly(by(foot)))
		if foot == job.ToTangent {
			return b.say.Say(words.ProfileLegTangent, of, long, words.In("mold", b.exactly(by(job.ToMoldLine))))
		}
		return b.say.Say(words.ProfileLegMold, of, long)
	}
	return b.say.Say(
		words.ProfileTape, words.In("street", leg(words.ProfileFrontLeg, s.FrontLeg, s.Profile.Drip.Foot())),
		words.In("roof", leg(words.ProfileRearLeg, s.RearLeg, s.Profile.RearHook.Foot())),
	)
}

// legsReadOf are the facts of the system that legsRead letters.
func (b *book) legsReadOf() []string {
	s, out := &b.j.System, []string{"front-leg-to-foot", "rear-leg-to-foot"}
	if s.Profile.Drip.Foot() == job.ToTangent {
		out = append(out, "front-leg-to-mold-line")
	}
	if s.Profile.RearHook.Foot() == job.ToTangent {
		out = append(out, "rear-leg-to-mold-line")
	}
	return out
}

// widthTable is what differs between the widths of a profile.
func (b *book) widthTable(all []widthCase) table {
	t := table{
		title: b.say.Say(words.ProfileWidths),
		fill:  true,
		whole: true,
		cols: []column{
			b.right(words.ColInsideWidth), b.right(words.ColTopOutside), b.right(words.ColGirthFlat),
			b.flex(words.ColShopTypes),
		},
	}
	for _, c := range all {
		var marks []string
		for _, f := range b.l.Families {
			if len(f.Bodies) > 0 && !b.tapers(f) && slices.ContainsFunc(b.legSections(f), c.alike) {
				marks = append(marks, f.Mark)
			}
		}
		t.rows = append(t.rows, []string{
			b.shopShort(c.inside), b.inBlank(c.shown.Outside(0)), b.inBlank(c.shown.Girth),
			strings.Join(marks, ", "),
		})
	}
	return t
}

// legTable is each leg as the job states it, with the measure it is stated by, and
// the overall drop: the lowest metal under its fold.
func (b *book) legTable(body layout.Body) (table, bool) {
	front, rear, ok := body.Overall()
	s := &b.j.System
	t := table{
		title: b.say.Say(words.ProfileLegs),
		fill:  true,
		whole: true,
		cols: []column{
			b.flex(words.ColLeg), b.right(words.ColAsStated), b.col(words.ColTo),
			b.right(words.ColOverallDropFoldLowest),
		},
	}
	for _, q := range []struct {
		name string
		leg  job.Leg
		drop length.Length
	}{{b.say.Say(words.ProfileFrontLeg), s.Profile.FrontLeg, front}, {b.say.Say(words.ProfileRearLeg),
		s.Profile.RearLeg, rear}} {
		t.rows = append(t.rows, []string{
			q.name, b.inBlank(q.leg.Length), b.measureName(q.leg.To),
			b.inBlank(length.RoundTo(q.drop, view.BlankStyle(b.metric).Step())),
		})
	}
	return t, ok
}

// toolsChecked says how far the order of bends was checked against the machine.
func (b *book) toolsChecked() string {
	m := b.j.Shop.Machine
	switch b.l.Tooling() {
	case plan.NoMachine:
		return b.say.Say(words.ProfileMachineNone)
	case plan.FlatsAlone:
		return b.say.Say(words.ProfileMachineFlats, words.In("kind", m.Kind.String()))
	}
	how := b.say.Say(words.ProfileMachineFound)
	if len(b.j.Shop.BendOrder) > 0 {
		how = b.say.Say(words.ProfileMachineShops)
	}
	return b.say.Say(words.ProfileMachineTools, words.In("kind", m.Kind.String()), words.In("how", how))
}

// widthBends is the bends in order: what the back gauge is set to and what touches
// it, and the distances at which lines are scribed, for each width.
func (b *book) widthBends(all []widthCase) table {
	t := table{
		title: b.say.Say(words.ProfileBends),
		fill:  true,
		whole: true,
		tight: true,
		cols: []column{
			b.right(words.ColNo), b.col(words.ColBend), b.right(words.ColIncl), b.flex(words.ColBetween),
			b.col(words.ColGaugeTouches),
		},
	}
	for _, c := range all {
		heads := []string{b.say.Say(words.ColGauge), b.say.Say(words.ColScribeStreet), b.say.Say(words.ColScribeRoof)}
		if len(all) > 1 {
			width := words.In("width", b.shopShort(c.inside))
			heads = []string{
				b.say.Say(words.ColGaugeOf, width), b.say.Say(words.ColScribeStreetOf, width),
				b.say.Say(words.ColScribeRoofOf, width),
			}
		}
		for _, h := range heads {
			q := column{head: h, align: drawing.Right}
			if len(all) > 1 {
				q.fact = ofKey(bodyOf(c), "inside-left")
			}
			t.cols = append(t.cols, q)
		}
	}
	for i, q := range all[0].shown.Bends {
		included := view.Degrees(q.Included())
		if q.Hem {
			included = "–"
		}
		row := []string{
			itoa(q.Order), view.BendWords(b.say, q.Hem, q.Line.Turn, q.Line.Radius), included,
			b.say.Say(words.ShopBetween, words.In("one", q.Line.Between[0]), words.In("other", q.Line.Between[1])),
			q.GaugeAt,
		}
		for _, c := range all {
			row = append(
				row, b.inBlank(c.shown.Bends[i].Gauge), b.inBlank(c.shown.Bends[i].FromStreet),
				b.inBlank(c.shown.Bends[i].FromRoof),
			)
		}
		t.rows = append(t.rows, row)
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// girthWords reckon the girth of each width, so that it can be done again by
// hand.
func (b *book) girthWords(of []widthCase) (out, names []string) {
	num := func(mm float64) string {
		l := length.FromMM(mm)
		if b.metric {
			return length.Millimetres(l, 2)
		}
		return drawing.Letter(length.Decimal(l, 3))
	}
	for _, c := range of {
		body, k := c.shown, bodyOf(c)
		var sum []string
		of := []string{c.widthFacts(b), ofKey(k, "blank-girth")}
		for i, face := range body.Solid.Faces {
			if face.Name != "hem" && face.Name != "upstand" {
				sum = append(sum, face.Name+" "+num(body.Outside(i).MM()))
				of = append(of, ofKey(k, fmt.Sprintf("face-%d-outside", i+1)))
			}
		}
		for i, d := range layout.Deductions(body) {
			of = append(of, ofKey(k, fmt.Sprintf("deduction-%d-mm", i+1)))
			if d.Hem {
				sum = append(sum, b.say.Say(words.ProfileLessHem, words.In("less", num(-d.Less))))
				continue
			}
			sum = append(
				sum,
				b.say.Say(words.ProfileLess, words.In("less", num(d.Less)), words.In("turn", view.Degrees(d.Turn))),
			)
			of = append(of, ofKey(k, fmt.Sprintf("deduction-%d-turn-degrees", i+1)))
		}
		out = append(
			out,
			b.say.Say(
				words.ProfileGirthSum, words.In("inside", c.widthWords(b)),
				words.In("sum", strings.ReplaceAll(strings.Join(sum, ", "), ", +", " +")),
				words.In("girth", b.inBlank(body.Girth)),
			),
		)
		names = append(names, layout.AllNamed(of...))
	}
	return out, names
}

// measureName says what a leg is measured to.
func (b *book) measureName(m job.LegMeasure) string {
	if m == job.ToTangent {
		return b.say.Say(words.ProfileToTangent)
	}
	return b.say.Say(words.ProfileToMold)
}
