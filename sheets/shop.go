package sheets

import (
	"fmt"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/view"
	"copingset/layout"
	"copingset/layout/cap"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// noShop is said where the job leaves the shop's data out.
const noShop = "The job has no shop: section, which says how the fabricator bends and cuts, so that this packet has no flat patterns, no cutting plan and no labels."

// shopPages are the sheets of the fabricator.
func (b *book) shopPages() []page {
	if b.j.Shop == nil {
		return nil
	}
	var out []page
	for _, g := range b.familyGroups() {
		out = append(out, b.familyPages(g)...)
	}
	out = append(out, b.profilePage()...)
	out = append(out, b.parts()...)
	out = append(out, b.handCheck()...)
	out = append(out, b.cuttingPlan()...)
	out = append(out, b.blankList()...)
	out = append(out, b.pieceLabels()...)
	out = append(out, b.crateLabels()...)
	return out
}

// familyGroups are the families that share a drawing: straight caps of one
// width and hand differ in length alone, others stand by themselves.
func (b *book) familyGroups() [][]*layout.Family {
	var out [][]*layout.Family
	plain := func(f *layout.Family) bool {
		return f.Kind == cap.Straight && len(f.Bodies) == 1 && len(f.Bodies[0].Holes) == 0
	}
	for _, f := range b.l.Families {
		if plain(f) {
			i := slices.IndexFunc(out, func(g []*layout.Family) bool {
				return plain(g[0]) && g[0].Pieces[0].Inside == f.Pieces[0].Inside && g[0].Sentence() == f.Sentence() && g[0].Bodies[0].Girth == f.Bodies[0].Girth && g[0].Bodies[0].Square() && f.Bodies[0].Square()
			})
			if i >= 0 {
				out[i] = append(out[i], f)
				continue
			}
		}
		out = append(out, []*layout.Family{f})
	}
	return out
}

// familyID is the id of a family's first sheet.
func familyID(g []*layout.Family) string { return "family-" + slug(g[0].Mark) }

// pieceMarks are the marks of a family's pieces, with the perimeter where the job
// has several.
func (b *book) pieceMarks(f *layout.Family, released bool) []string {
	var out []string
	for _, q := range f.Pieces {
		if q.Released() == released {
			out = append(out, b.pieceMark(q))
		}
	}
	return out
}

func (b *book) pieceMark(q *layout.Piece) string {
	if len(b.l.Perimeters) > 1 {
		return prose(q.Perimeter.Job.Name) + " " + q.Mark
	}
	return q.Mark
}

// familyPages draw a family: a sheet for each body that is bent, its tables
// beside it.
func (b *book) familyPages(g []*layout.Family) []page {
	f := g[0]
	for _, o := range g { // the longest stands for all
		if len(o.Bodies) > 0 && o.Bodies[0].Length > f.Bodies[0].Length {
			f = o
		}
	}
	var all []*layout.Piece
	var marks []string
	for _, o := range g {
		all = append(all, o.Pieces...)
		marks = append(marks, o.Mark)
	}
	title := "Shop drawing " + strings.Join(marks, ", ")
	if len(marks) > 4 {
		title = fmt.Sprintf("Shop drawing %s to %s", marks[0], marks[len(marks)-1])
	}
	first := page{id: b.id(familyID(g)), title: title, kind: ShopSheet, paper: b.runs, holds: b.l.HoldsOnPieces(all), scale: "as noted",
		about: "Flat pattern with its bends in order, the formed piece with its hand, quantities and bend table."}
	first.banner = b.releaseWords(all, first.holds)
	if len(f.Bodies) == 0 {
		note := list{title: "Family " + f.Mark + ": NO FLAT PATTERN, detail by hand", items: []string{"Pieces " + strings.Join(append(b.pieceMarks(f, true), b.pieceMarks(f, false)...), ", ") + " have no flat pattern: the findings say why."}, plain: true}
		return b.pages(first, []block{note, b.familyFacts(f, g)}, across)
	}
	var out []page
	for i := range f.Bodies {
		if f.Bodies[i].Name == "end plate" && i > 0 {
			continue // on the sheet of the body before it
		}
		bodies := []int{i}
		for k := i + 1; k < len(f.Bodies) && f.Bodies[k].Name == "end plate"; k++ {
			bodies = append(bodies, k)
		}
		p := first
		if i > 0 {
			p.id = b.id(first.id)
			p.title = title + ": " + f.Bodies[i].Name
		} else if legs(f) > 1 {
			p.title = title + ": " + f.Bodies[i].Name
		}
		out = append(out, b.bodyPages(p, f, g, bodies, i == 0)...)
	}
	for i := range len(out) - 1 {
		out[i].next = out[i+1].id
	}
	return out
}

func legs(f *layout.Family) int {
	n := 0
	for _, x := range f.Bodies {
		if x.Name != "end plate" {
			n++
		}
	}
	return n
}

// bodyPages lay a body out: pattern at the left, tables at the right; on
// narrow paper one after the other.
func (b *book) bodyPages(p page, f *layout.Family, g []*layout.Family, bodies []int, first bool) []page {
	if f.Bodies[bodies[0]].Name != "end plate" {
		p = fitting(p, func(room drawing.Rect) bool {
			if room.Width() >= 35000 {
				room.Max.X = room.Min.X + room.Width()*60/100
			}
			return view.FlatReadable(b.l, f, bodies[0], room.Width(), room.Height()-b.sentence(f, g).h(room.Width())-between)
		})
	}
	room := p.paper.room(p.banner != "")
	wide := room.Width() >= 35000
	left, right := room, room
	if wide {
		w := room.Width() * 60 / 100
		left.Max.X = room.Min.X + w
		right.Min.X = left.Max.X + gutter
	}
	said := b.sentence(f, g)
	var views, tables []block
	views = append(views, said)
	high := room.Height() - said.h(left.Width()) - between
	var facts, points []block
	for _, i := range bodies {
		if i > bodies[0] { // the plate of a closed end
			points = append(points, picture{scene: view.FlatPattern(b.l, f, i, false, right.Width(), 10500), prefix: "flat" + itoa(i)})
			continue
		}
		views = append(views, picture{scene: view.FlatPattern(b.l, f, i, len(g) > 1, left.Width(), high), prefix: "flat" + itoa(i)})
	}
	tables = append(tables, b.formedBlock(f, right.Width()))
	for _, i := range bodies {
		if len(f.Bodies[i].Bends) > 0 {
			tables = append(tables, b.bendTable(f, i))
		}
		if !f.Bodies[i].Square() {
			points = append(points, b.pointTable(f, i))
		}
		if len(f.Bodies[i].Holes) > 0 {
			points = append(points, b.holeTable(f, i))
		}
	}
	if first {
		if len(g) > 1 {
			facts = append(facts, b.lengthTable(g))
		}
		facts = append(facts, b.familyFacts(f, g))
	}
	leaves := flow(slices.Concat(views, tables, facts, points), func(int) []drawing.Rect { return []drawing.Rect{room} })
	if wide {
		// What stands under the pattern and what beside it is chosen for the fewest
		// sheets.
		leaves = nil
		for _, try := range [][2][]block{
			{facts, points}, {points, facts}, {nil, slices.Concat(facts, points)}, {slices.Concat(facts, points), nil},
		} {
			got := besides(room, left, right, slices.Concat(views, try[0]), slices.Concat(tables, try[1]))
			if leaves == nil || len(got) < len(leaves) {
				leaves = got
			}
		}
	}
	var out []page
	for i, leaf := range leaves {
		q := p
		if i > 0 {
			q.id = b.id(p.id)
			q.title += ", continued"
		}
		q.draw = func(s *drawing.Scene, _ func(string) string) {
			for _, x := range leaf {
				x.draw(s, x.at)
			}
		}
		out = append(out, q)
	}
	return out
}

// besides lays two columns out next to each other, and what is left of the
// second in two columns.
func besides(room, left, right drawing.Rect, views, tables []block) [][]placed {
	a := flow(views, func(int) []drawing.Rect { return []drawing.Rect{left} })
	z := flow(tables, func(n int) []drawing.Rect {
		if n < len(a) {
			return []drawing.Rect{right}
		}
		return columns(room, 2, gutter)
	})
	var leaves [][]placed
	for i := range max(len(a), len(z)) {
		var leaf []placed
		if i < len(a) {
			leaf = append(leaf, a[i]...)
		}
		if i < len(z) {
			leaf = append(leaf, z[i]...)
		}
		leaves = append(leaves, leaf)
	}
	return leaves
}

// sentence is the hand in one large sentence, and how many are made.
func (b *book) sentence(f *layout.Family, g []*layout.Family) whole {
	words := prose(f.Sentence())
	if f.Twin != nil {
		words += " " + f.Twin.Mark + " is its mirror image: do not take one for the other."
	}
	quantity := "one drawing for several lengths: see the table"
	if len(g) == 1 {
		quantity = itoa(f.Released())
		if yes := b.pieceMarks(f, true); len(yes) > 0 {
			quantity += ": " + strings.Join(yes, ", ")
		}
		if no := b.pieceMarks(f, false); len(no) > 0 {
			quantity += ". NOT RELEASED, DO NOT CUT: " + strings.Join(no, ", ")
		}
	}
	const hand, note drawing.Size = 400, drawing.Note
	lines := func(w drawing.Unit) (large, small []string) {
		return drawing.Wrap(words, drawing.Bold, hand, w-1700), drawing.Wrap(quantity, drawing.Regular, note, w-1700)
	}
	return whole{
		h: func(w drawing.Unit) drawing.Unit {
			a, c := lines(w)
			return drawing.Unit(len(a))*hand.Line() + drawing.Unit(len(c))*note.Line() + 350
		},
		draw: func(s *drawing.Scene, r drawing.Rect) {
			s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
				g.Rect(drawing.Medium, r)
				bold := drawing.Style{Size: note, Face: drawing.Bold}
				y := r.Min.Y + 600
				g.Text(drawing.Pt(r.Min.X+200, y), "HAND", bold)
				a, c := lines(r.Width())
				for _, line := range a {
					g.Text(drawing.Pt(r.Min.X+1500, y), line, drawing.Style{Size: hand, Face: drawing.Bold})
					y += hand.Line()
				}
				y -= 80
				g.Text(drawing.Pt(r.Min.X+200, y), "MAKE", bold)
				for _, line := range c {
					g.Text(drawing.Pt(r.Min.X+1500, y), line, drawing.Style{Size: note})
					y += note.Line()
				}
			})
		},
	}
}

// formedBlock shows the formed piece from above and in space, and its twin
// beside it.
func (b *book) formedBlock(f *layout.Family, w drawing.Unit) whole {
	const high drawing.Unit = 4700
	return fixed(high, func(s *drawing.Scene, r drawing.Rect) {
		type panel struct {
			words  string
			scene  func(w, h drawing.Unit) drawing.Scene
			prefix string
			pen    drawing.Pen
		}
		panels := []panel{{f.Mark + " from above", func(w, h drawing.Unit) drawing.Scene { return view.FormedTop(b.l, f, w, h) }, "top", drawing.Medium},
			{f.Mark + " formed", func(w, h drawing.Unit) drawing.Scene { return view.FormedSolid(b.l, f, w, h) }, "solid", drawing.Medium}}
		if f.Twin != nil {
			panels = append(panels, panel{"TWIN " + f.Twin.Mark + ", not this", func(w, h drawing.Unit) drawing.Scene { return view.FormedTop(b.l, f.Twin, w, h) }, "twin", drawing.Thin})
		}
		for i, box := range columns(drawing.Box(r.Min.X, r.Min.Y+500, r.Max.X, r.Max.Y), len(panels), 300) {
			q := panels[i]
			s.Text(drawing.Pt(box.Min.X, r.Min.Y+350), shorten(q.words, drawing.Bold, drawing.Note, box.Width()), drawing.Style{Size: drawing.Note, Face: drawing.Bold})
			s.Rect(q.pen, box)
			place(s, q.scene(box.Width()-200, box.Height()-200), drawing.Pt(box.Min.X+100, box.Min.Y+100), q.prefix)
		}
	})
}

// inBlank letters a length of a blank.
func (b *book) inBlank(l length.Length) string { return drawing.Letter(view.Blank(b.l).Short(l)) }

func (b *book) inBlankLong(l length.Length) string { return drawing.Letter(view.BlankLong(b.l, l)) }

// bendTable is the bends of a body in their order.
func (b *book) bendTable(f *layout.Family, i int) table {
	body := f.Bodies[i]
	title := "Bends"
	if len(f.Bodies) > 1 {
		title += " of the " + body.Name
	}
	t := table{title: title + ", in order, measured on the flat blank", fill: true, whole: true, cols: []column{{head: "No.", align: drawing.Right}, {head: "Bend"}, {head: "Included", align: drawing.Right}, {head: "Between", flex: true},
		{head: "From street edge", align: drawing.Right}, {head: "From roof edge", align: drawing.Right}}}
	step := view.Blank(b.l).Step()
	for _, q := range body.Bends {
		street, roof := b.inBlank(q.FromStreet), b.inBlank(q.FromRoof)
		switch {
		case q.Across():
			x := q.FromLeft(step)
			street, roof = "across: "+b.inBlankLong(x)+" from left end", b.inBlankLong(body.Length-x)+" from right end"
		case !q.Level():
			l, r := q.Ends()
			x, z := body.FromStreetAt(l, step), body.FromStreetAt(r, step)
			street = "left end " + b.inBlank(x) + "\nright end " + b.inBlank(z)
			roof = "left end " + b.inBlank(body.Girth-x) + "\nright end " + b.inBlank(body.Girth-z)
		}
		included := view.Degrees(q.Included())
		if q.Hem {
			included = "–"
		}
		t.rows = append(t.rows, []string{itoa(q.Order), view.BendWords(q), included, q.Line.Between[0] + " and " + q.Line.Between[1], street, roof})
	}
	t.bold = func(_, col int) bool { return col < 2 }
	return t
}

// pointTable lists the corners of a blank's outline.
func (b *book) pointTable(f *layout.Family, i int) table {
	body := f.Bodies[i]
	title := "Corners of the outline"
	if len(f.Bodies) > 1 {
		title += ", " + body.Name
	}
	t := table{title: title, fill: true, whole: true, cols: []column{{head: "Corner"}, {head: "From the left end", align: drawing.Right, flex: true}, {head: "From the " + body.Edges().Top, align: drawing.Right, flex: true}}}
	for k, c := range body.CutPoints(view.Blank(b.l).Step()) {
		t.rows = append(t.rows, []string{view.PointName(k), b.inBlankLong(c.FromLeft), b.inBlank(c.FromStreet)})
	}
	return t
}

// holeTable lists the holes of a body.
func (b *book) holeTable(f *layout.Family, i int) table {
	body := f.Bodies[i]
	t := table{title: "Holes, on the flat blank", fill: true, cols: []column{{head: "Hole"}, {head: "Left and right side, from the left end", flex: true}, {head: "Street and roof side, from the street edge", flex: true}}}
	for k := range body.Holes {
		x := body.HoleBox(k, view.Blank(b.l).Step())
		t.rows = append(t.rows, []string{itoa(k + 1), b.inBlankLong(x.Left) + ", " + b.inBlankLong(x.Right), b.inBlank(x.Street) + ", " + b.inBlank(x.Roof)})
	}
	return t
}

// lengthTable is one row for each family of a drawing that serves several
// lengths.
func (b *book) lengthTable(g []*layout.Family) table {
	t := table{title: "Lengths of this drawing", fill: true, cols: []column{{head: "Family"}, {head: "Length", align: drawing.Right}, {head: "Make", align: drawing.Right}, {head: "Pieces", flex: true}, {head: "Weight", align: drawing.Right}}}
	var held []bool
	for _, f := range g {
		pieces := strings.Join(b.pieceMarks(f, true), ", ")
		if no := b.pieceMarks(f, false); len(no) > 0 {
			if pieces != "" {
				pieces += "; "
			}
			pieces += "DO NOT CUT " + strings.Join(no, ", ")
		}
		held = append(held, f.Released() == 0)
		t.rows = append(t.rows, []string{f.Mark, b.inBlankLong(f.Bodies[0].Length), itoa(f.Released()), pieces, b.weight(f.Grams)})
	}
	t.bold = func(row, col int) bool { return held[row] || col == 0 }
	return t
}

// familyFacts are what a family is made of and how often.
func (b *book) familyFacts(f *layout.Family, g []*layout.Family) table {
	m, s, p := &b.j.System.Metal, b.j.Shop, &b.j.System.Profile
	var rows [][]string
	add := func(what, words string) { rows = append(rows, []string{what, words}) }
	kind := f.Pieces[0].KindName()
	for _, x := range f.Pieces[0].Miters {
		kind += ", " + madeTo(x.Corner)
	}
	add("Kind", kind)
	if len(g) == 1 {
		if f.Twin != nil {
			add("Twin", f.Twin.Mark+", mirror image: "+strings.Join(append(b.pieceMarks(f.Twin, true), b.pieceMarks(f.Twin, false)...), ", "))
		}
		var blanks []string
		for _, x := range f.Bodies {
			blanks = append(blanks, x.Name+" "+b.inBlank(x.Girth)+" × "+b.inBlankLong(x.Length))
		}
		add("Blank, girth × length", strings.Join(blanks, "; "))
		if len(f.Bodies) > 0 {
			lift := lifting(f.Pieces[0], "", " to lift")
			if lift == "" {
				lift = "one person lifts it"
			}
			add("Weight", b.weight(f.Grams)+" each, from its developed area; "+lift)
		}
	} else {
		add("Blank, girth", b.inBlank(f.Bodies[0].Girth))
	}
	if q := f.Pieces[0]; q.Wide != q.Narrow && q.Kind != cap.Transition {
		rows = append(rows, b.twoWidthRows(q, false)...)
	} else {
		add("Inside width", b.shopShort(q.Inside))
	}
	add("Metal", prose(m.Name)+", "+b.thick(m.Thickness)+" thick")
	finish := "up on this drawing, towards you; the grain runs from left to right"
	if m.Finish != "" {
		finish = prose(m.Finish) + ": " + finish
	}
	add("Finish side", finish)
	if s.Film != "" {
		add("Film", prose(s.Film))
	}
	add("Bend", "inside radius "+b.exactly(p.InsideR)+", K "+trimFloat(s.K)+" ("+prose(s.KSource)+")")
	if len(f.Pieces[0].Miters) > 0 || len(f.Bodies) > 1 {
		add("Weld", "seams cut to stand "+b.exactly(s.WeldGap)+" apart")
	}
	t := facts("Family "+f.Mark, rows)
	t.tight = true // it stands under the pattern on one sheet
	if len(g) > 1 {
		t.title = "All lengths"
	}
	t.fill = true
	return t
}

func trimFloat(v float64) string {
	return strings.TrimRight(strings.TrimRight(fmt.Sprintf("%.3f", v), "0"), ".")
}

// profilePage shows the section of each width with its outside dimensions.
func (b *book) profilePage() []page {
	var views []func(w, h drawing.Unit) drawing.Scene
	var names []string
	var of []legSection
	for _, f := range b.l.Families {
		if f.Kind == cap.Transition { // the pieces beside it have its widths
			continue
		}
		for _, s := range b.legSections(f) {
			if slices.ContainsFunc(of, s.alike) {
				continue
			}
			of = append(of, s)
			views = append(views, func(w, h drawing.Unit) drawing.Scene { return view.ShopSection(b.l, f, s.body, w, h) })
			names = append(names, "inside "+b.shopShort(s.inside)+s.slopeWords(b))
		}
	}
	if len(views) == 0 {
		return nil
	}
	p := page{id: b.id("profiles"), title: "Profile", kind: ShopSheet, paper: b.runs, scale: "as noted", about: "Cross-section of the cap with its outside dimensions."}
	foot := list{items: []string{"Outside dimensions to the mold lines. Flat = sum of outside dimensions less a deduction at each bend: 2 tan(turn/2)(R + T) less (pi/180) turn (R + K T), with inside radius R " +
		b.exactly(b.j.System.Profile.InsideR) + ", thickness T " + b.thick(b.j.System.Metal.Thickness) + " and K " + trimFloat(b.j.Shop.K) + " (" + prose(b.j.Shop.KSource) + ")."}, plain: true}
	foot.items = append(foot.items, b.girthWords(of)...)
	return b.sideBySide(p, foot, views, names)
}

// girthWords reckon the girth of each width, so that it can be done again by
// hand.
func (b *book) girthWords(of []legSection) []string {
	num := func(mm float64) string {
		l := length.FromMM(mm)
		if b.metric {
			return length.Millimetres(l, 2)
		}
		return drawing.Letter(length.Decimal(l, 3))
	}
	var out []string
	for _, s := range of {
		body := s.family.Bodies[s.body]
		var sum []string
		for i, face := range body.Solid.Faces {
			if face.Name != "hem" && face.Name != "upstand" {
				sum = append(sum, face.Name+" "+num(body.Outside(i).MM()))
			}
		}
		for _, d := range shop.Deductions(b.j, body) {
			if d.Hem {
				sum = append(sum, "+ hem "+num(-d.Less))
				continue
			}
			sum = append(sum, "− "+num(d.Less)+" at "+view.Degrees(d.Turn))
		}
		out = append(out, "Inside width "+b.shopShort(s.inside)+s.slopeWords(b)+", girth of the flat: "+strings.ReplaceAll(strings.Join(sum, ", "), ", +", " +")+" = "+b.inBlank(body.Girth)+".")
	}
	return out
}
