package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/drawing/words"
	"copingset/layout"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// hand is what tells a family's hand, in the job's units.
func (b *book) hand(f *layout.Family) string { return prose(b.j.Units.OwnUnits(f.Sentence())) }

// sentence is the hand in one large sentence, how many are made, and on which
// sheet the twin is, given its number.
func (b *book) sentence(g []*layout.Family) func(sheet string) whole {
	f := g[0]
	phrase, handed := b.hand(f), factsOf(layout.FactOfFamily(f), "hand-sentence")
	for _, o := range g {
		if o.Sentence() != f.Sentence() {
			phrase, handed = b.say.Say(words.ShopHandsDiffer), ""
		}
	}
	quantity, counted := b.say.Say(words.ShopSeveral), ""
	if len(g) == 1 {
		quantity, counted = b.quantity(f), factsOf(layout.FactOfFamily(f), "released", "pieces")
	}
	return func(sheet string) whole {
		rows := []said{
			{b.say.Say(words.ShopHand), phrase, handed, 400, drawing.Bold},
			{b.say.Say(words.ShopMake), quantity, counted, drawing.Note, drawing.Regular},
		}
		if len(g) == 1 && f.Twin != nil {
			twin := b.say.Say(words.PartTwin, words.In("mark", f.Twin.Mark))
			if sheet != "" {
				twin = b.say.Say(words.ShopTwinOn, words.In("mark", f.Twin.Mark), words.In("sheet", sheet))
			}
			rows = append(rows, said{b.say.Say(words.ShopTwin), twin, "", drawing.Note, drawing.Bold})
		}
		return saidIn(rows)
	}
}

// quantity says how many of a family are made and which.
func (b *book) quantity(f *layout.Family) string {
	phrase := itoa(f.Released(b.l.Held))
	if yes := b.pieceMarks(f, true); len(yes) > 0 {
		phrase += ": " + strings.Join(yes, ", ")
	}
	if no := b.pieceMarks(f, false); len(no) > 0 {
		return b.say.Say(words.ShopQuantityHeld, words.In("made", phrase), words.In("held", strings.Join(no, ", ")))
	}
	return phrase
}

// said is a row of the box over a shop drawing.
type said struct {
	what, words string
	names       string // of the facts that the words letter
	size        drawing.Size
	face        drawing.Face
}

// saidIn is a frame of rows, each with what it is about at the left.
func saidIn(rows []said) whole {
	const edge drawing.Unit = 130
	side := drawing.Unit(1500) // as wide as the longest of what they are about
	for _, q := range rows {
		side = max(side, 200+drawing.Width(drawing.Bold, q.what, drawing.Note)+200)
	}
	wrapped := func(q said, w drawing.Unit) []string { return drawing.Wrap(q.words, q.face, q.size, w-side-200) }
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			h := 2 * edge
			for _, q := range rows {
				h += drawing.Unit(len(wrapped(q, w))) * q.size.Line()
			}
			return h
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				g.Rect(drawing.Medium, r)
				y := r.Min.Y + edge - 60
				for _, q := range rows {
					for i, line := range wrapped(q, r.Width()) {
						y += q.size.Line()
						if i == 0 {
							g.Text(
								drawing.Pt(r.Min.X+200, y),
								q.what,
								drawing.Style{Size: drawing.Note, Face: drawing.Bold},
							)
						}
						g.Text(drawing.Pt(r.Min.X+side, y), line,
							drawing.Style{Size: q.size, Face: q.face, Fact: q.names})
					}
				}
			})
		},
	}
}

// panel is a small picture of a formed piece.
type panel struct {
	words  string
	scene  func(w, h drawing.Unit) drawing.Scene
	prefix string
	pen    drawing.Pen
}

// panels are the formed piece from above and in space, and its twin beside it;
// of several families one from above for each hand.
func (b *book) panels(g []*layout.Family) []panel {
	top := func(f *layout.Family) func(w, h drawing.Unit) drawing.Scene {
		return func(w, h drawing.Unit) drawing.Scene { return view.FormedTop(b.say, b.formedOf(f), w, h) }
	}
	f := g[0]
	var out []panel
	for i, o := range g {
		like := func(q *layout.Family) bool {
			return q.Sentence() == o.Sentence() && len(q.Bodies[0].Holes) == 0 && len(o.Bodies[0].Holes) == 0
		}
		if slices.ContainsFunc(g[:i], like) || len(g) > 1 && !handed(o) && len(o.Bodies[0].Holes) == 0 {
			continue // a plain piece is the formed one
		}
		phrase := b.say.Say(words.ShopFromAbove, words.In("mark", o.Mark))
		if len(g) > 1 && len(o.Bodies[0].Holes) == 0 {
			phrase = b.withoutTwin(o)
		}
		out = append(out, panel{phrase, top(o), "top" + itoa(i), drawing.Medium})
	}
	out = append(
		out,
		panel{
			b.say.Say(words.ShopFormed, words.In("mark", f.Mark)),
			func(w, h drawing.Unit) drawing.Scene { return view.FormedSolid(b.say, b.formedOf(f), w, h) },
			"solid",
			drawing.Medium,
		},
	)
	if len(g) == 1 && f.Twin != nil {
		out = append(
			out,
			panel{b.say.Say(words.ShopTwinNotThis, words.In("mark", f.Twin.Mark)), top(f.Twin), "twin", drawing.Thin},
		)
	}
	return out
}

// formedBlock is the panels in rows.
func (b *book) formedBlock(g []*layout.Family) block {
	const high drawing.Unit = 3400
	panels := b.panels(g)
	least := drawing.Unit(3900)
	if len(panels) > 3 {
		least = 3200
	}
	across := func(w drawing.Unit) int { return min(len(panels), max(1, int((w+300)/(least+300)))) }
	return panelRows{least: least, whole: whole{
		h: func(w drawing.Unit) drawing.Unit {
			n := across(w)
			return drawing.Unit((len(panels)+n-1)/n)*(high+200) - 200
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			n := across(r.Width())
			for i, q := range panels {
				y := r.Min.Y + drawing.Unit(i/n)*(high+200)
				box := columns(drawing.Box(r.Min.X, y+500, r.Max.X, y+high), n, 300)[i%n]
				s.Text(
					drawing.Pt(box.Min.X, y+350),
					shorten(q.words, drawing.Bold, drawing.Note, box.Width()),
					drawing.Style{Size: drawing.Note, Face: drawing.Bold},
				)
				s.Rect(q.pen, box)
				place(s, q.scene(box.Width()-200, box.Height()-200), drawing.Pt(box.Min.X+100, box.Min.Y+100), q.prefix)
			}
		},
	}}
}

// panelRows is a whole that needs a least width.
type panelRows struct {
	whole
	least drawing.Unit
}

func (q panelRows) take(w, h drawing.Unit, fresh bool) (laid, block) {
	got, rest := q.whole.take(w, h, fresh)
	if rest != nil {
		return laid{}, q
	}
	got.w = max(w, q.least)
	return got, nil
}

// inBlank letters a length of a blank.
func (b *book) inBlank(l length.Length) string {
	return drawing.Letter(view.BlankStyle(b.metric).Short(l))
}

func (b *book) inBlankLong(l length.Length) string {
	return drawing.Letter(view.BlankLength(b.metric, l))
}

// bendTable is the bends of a body in their order, and of all bent like it.
func (b *book) bendTable(f *layout.Family, i int) table {
	body := b.blanksOf(f)[i]
	var of []string
	for k := range f.Bodies {
		if b.firstBent(f, k) == i {
			of = append(of, f.Bodies[k].Name)
		}
	}
	title := b.say.Say(words.ShopBends)
	if len(f.Bodies) > 1 {
		title = b.say.Say(words.ShopBendsOf, words.In("bodies", strings.Join(of, ", ")))
	}
	t := table{
		title: title,
		fill:  true,
		whole: true,
		snug:  true,
		cols: []column{
			b.right(words.ColNo), b.col(words.ColBend), b.right(words.ColIncl), b.flex(words.ColBetween),
			b.right(words.ColStreetEdge), b.right(words.ColRoofEdge), b.right(words.ColBackGauge),
		},
	}
	for n, q := range body.Bends {
		street, roof := b.inBlank(q.FromStreet), b.inBlank(q.FromRoof)
		switch {
		case q.Across:
			x := q.FromLeft
			street = b.say.Say(words.ShopFromLeft, words.In("length", b.inBlankLong(x)))
			roof = b.say.Say(words.ShopFromRight, words.In("length", b.inBlankLong(body.Length-x)))
		case !q.Level:
			x, z := q.EndsFromStreet[0], q.EndsFromStreet[1]
			street = b.say.Say(words.ShopEnds, words.In("left", b.inBlank(x)), words.In("right", b.inBlank(z)))
			roof = b.say.Say(
				words.ShopEnds, words.In("left", b.inBlank(body.Girth-x)),
				words.In("right", b.inBlank(body.Girth-z)),
			)
		}
		gauge := f.Bodies[i].Bends[n]
		included := view.Degrees(gauge.Included())
		if q.Hem {
			included = "–"
		}
		t.rows = append(t.rows, []string{
			itoa(q.Order), view.BendWords(b.say, q.Hem, q.Turn, q.Radius), included,
			b.say.Say(words.ShopBetween, words.In("one", q.Between[0]), words.In("other", q.Between[1])),
			street, roof, b.inBlank(gauge.Gauge) + "\n" + gauge.GaugeAt,
		})
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// pointTable lists the corners of a blank's outline.
func (b *book) pointTable(f *layout.Family, i int) table {
	body := b.blanksOf(f)[i]
	t := table{
		title: b.say.Say(words.ShopCorners),
		whole: true,
		snug:  true,
		cols:  []column{{head: "", align: drawing.Middle}, b.right(words.ColFromLeft), b.right(words.ColFromStreet)},
	}
	if body.Sides.Top != "street edge" {
		t.cols[2].head = b.say.Say(words.ShopFromTop)
	}
	name := t.title
	if len(f.Bodies) > 1 {
		name = body.Name
		t.title = b.say.Say(words.ShopCornersOf, words.In("body", name))
	}
	t.again = b.say.Say(words.FrameContinued, words.In("title", name))
	for k := range t.cols[1:] { // headings in one line
		c := &t.cols[k+1]
		c.least = drawing.Width(drawing.Bold, c.head, drawing.Note)
	}
	for k, c := range body.Corners {
		t.rows = append(t.rows, []string{view.PointName(k), b.inBlankLong(c.FromLeft), b.inBlank(c.FromStreet)})
	}
	return t
}

// holeTable lists the holes of a body.
func (b *book) holeTable(f *layout.Family, i int) table {
	t := table{
		title: b.say.Say(words.ShopHoles, words.In("mark", f.Mark)),
		fill:  true,
		snug:  true,
		cols: []column{
			b.col(words.ColHole), b.flex(words.ColLeftRightSideLeft), b.flex(words.ColStreetRoofSideStreet),
		},
	}
	for k, x := range b.blanksOf(f)[i].Holes {
		if x.Rivet {
			continue
		}
		t.rows = append(t.rows, []string{
			itoa(k + 1), b.inBlankLong(x.Left) + ", " + b.inBlankLong(x.Right),
			b.inBlank(x.Street) + ", " + b.inBlank(x.Roof),
		})
	}
	return t
}

// lengthTable is one row for each family of a drawing of straight pieces.
func (b *book) lengthTable(g []*layout.Family) table {
	t := table{
		title: b.say.Say(words.ShopLengths),
		fill:  true,
		snug:  true,
		cols: []column{
			b.col(words.ColShopMark), b.right(words.ColLength), b.right(words.ColMake), b.flex(words.ColPieces),
			b.flex(words.ColCutFrom), b.flex(words.ColHand), b.right(words.ColWeightLift),
		},
	}
	var held []bool
	for _, f := range g {
		pieces := strings.Join(b.pieceMarks(f, true), ", ")
		if no := b.pieceMarks(f, false); len(no) > 0 {
			held := b.say.Say(words.ShopDoNotCut, words.In("marks", strings.Join(no, ", ")))
			pieces = strings.TrimPrefix(pieces+"; "+held, "; ")
		}
		weight := b.weight(f.Grams)
		if b.l.Made(f.Pieces[0]).Lift != plan.ByOne {
			weight += ", " + b.liftShort(f.Pieces[0])
		}
		held = append(held, f.Released(b.l.Held) == 0)
		t.rows = append(t.rows, []string{
			f.Mark, b.inBlankLong(f.Bodies[0].Length), itoa(f.Released(b.l.Held)), pieces, b.cutFrom(f),
			b.shortHand(f), weight,
		})
	}
	t.bold = func(row, col int) bool { return held[row] || col == 0 }
	return t
}

// cutFrom is what the pieces of a family are cut from: one thing, but where a drop in hand
// or another lot serves some of them.
func (b *book) cutFrom(f *layout.Family) string {
	var out []string
	for _, q := range f.Pieces {
		from, said := b.l.CutFrom(q), ""
		switch {
		case !from.Known:
			continue
		case from.Sheet:
			said = b.say.Say(words.CutFromSheet)
		default:
			said = view.BarFrom(b.say, from.Cap)
		}
		if !slices.Contains(out, said) {
			out = append(out, said)
		}
	}
	return orDash(strings.Join(out, ", "))
}

// shortHand is a family's hand in a table.
func (b *book) shortHand(f *layout.Family) string {
	if f.Twin != nil {
		return b.say.Say(words.ShopHandTwin, words.In("hand", b.withoutTwin(f)), words.In("mark", f.Twin.Mark))
	}
	return b.withoutTwin(f)
}

// withoutTwin is a family's hand without where one stands.
func (b *book) withoutTwin(f *layout.Family) string {
	if !handed(f) {
		return b.say.Say(words.ShopNone)
	}
	phrase := strings.TrimSuffix(strings.TrimPrefix(b.hand(f), "Standing on the roof, "), ".")
	return strings.NewReplacer("the ", "", "is ", "", "lie ", "", "your ", "").Replace(phrase)
}

// familyFacts are what the families of a drawing are made of, and how they are
// lifted.
func (b *book) familyFacts(g []*layout.Family) table {
	f := g[0]
	m, s, p := &b.j.System.Metal, b.j.Shop, &b.j.System.Profile
	var rows [][]lettered
	of := layout.FactOfFamily(f)
	add := func(what, phrase, names string) { rows = append(rows, []lettered{{words: what}, {phrase, names}}) }
	piece := b.pieceNames(f.Pieces[0], false) // mark, laying, kind, hand, turn, lengths, width
	kinds := layout.AllNamed(piece[2], piece[4])
	kind := b.kindName(f.Pieces[0])
	for _, x := range f.Pieces[0].Miters {
		kind += ", " + b.turned(x.Corner)
	}
	if q := f.Pieces[0]; q.Wide != q.Narrow && len(q.Miters) > 0 {
		add(b.say.Say(words.ShopKind), kind, kinds)
		for i, row := range b.twoWidthRows(q, false) {
			add(row[0], row[1], [...]string{piece[7], b.legFacts(q)}[i])
		}
	} else {
		add(
			b.say.Say(words.ShopKind),
			b.say.Say(words.ShopKindWidth, words.In("kind", kind), words.In("width", b.widthOf(q))),
			layout.AllNamed(kinds, piece[7]),
		)
	}
	if layout.Straight(f) && len(f.Bodies) > 0 {
		add(b.say.Say(words.ShopBlankGirth), b.inBlank(f.Bodies[0].Girth), factsOf(of, "body-1-blank-girth"))
	} else if len(f.Bodies) > 0 {
		var blanks, names []string
		for i, x := range f.Bodies {
			names = append(names, factsOf(of, fmt.Sprintf("body-%d-blank-girth", i+1),
				fmt.Sprintf("body-%d-blank-length", i+1)))
			blanks = append(blanks, x.Name+" "+b.inBlank(x.Girth)+" × "+b.inBlankLong(x.Length))
		}
		add(b.say.Say(words.ShopBlankGirthLength), strings.Join(blanks, "; "), layout.AllNamed(names...))
		add(
			b.say.Say(words.ShopWeight),
			b.say.Say(
				words.ShopEach, words.In("weight", b.weight(f.Grams)), words.In("lift", b.liftShort(f.Pieces[0])),
			),
			layout.AllNamed(factsOf(of, "weight"), factsOf(f.Pieces[0].Mark, "lift")),
		)
	}
	if most := b.j.Site.OnePerson; most > 0 {
		add(
			b.say.Say(words.ShopLifting),
			b.say.Say(
				words.ShopOnePerson, words.In("most", b.weight(int64(most))),
				words.In("constant", b.j.Units.InUnits("51 lb (23 kg)")),
			),
			factsOf("job", "one-person"),
		)
	}
	add(
		b.say.Say(words.ShopMetal),
		b.say.Say(
			words.ShopMetalOf, words.In("name", prose(m.Name)), words.In("thickness", b.thick(m.Thickness)),
			words.In("inside-r", b.exactly(p.InsideR)), words.In("trim-float", trimFloat(s.K)),
			words.In("ksource", prose(s.KSource)),
		),
		layout.AllNamed(factsOf("system", "metal", "thickness", "inside-radius"), factsOf("shop", "k-factor",
			"k-source")),
	)
	finish, finished := b.finishUp()
	add(b.say.Say(words.ShopFinishSide), finish, finished)
	if s.Film != "" {
		add(b.say.Say(words.ShopFilm), prose(s.Film), factsOf("shop", "film"))
	}
	rows = append(rows, b.seamRows(f)...)
	t := facts(b.say.Say(words.ShopShopType, words.In("mark", f.Mark)), nil)
	for _, row := range rows {
		t.add(row...)
	}
	t.snug, t.fill = true, true
	if len(g) > 1 {
		t.title = b.say.Say(words.ShopAll)
	}
	return t
}

// finishUp says which face is up, with its finish and the name of that fact.
func (b *book) finishUp() (said, fact string) {
	finish := b.j.System.Metal.Finish
	if finish == "" {
		return b.say.Say(words.ShopUp), ""
	}
	return b.say.Say(words.ShopUpOf, words.In("finish", prose(finish))), factsOf("system", "finish")
}

func trimFloat(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
}
