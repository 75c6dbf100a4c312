package view

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/fold"
	"copingset/layout/length"
	"copingset/layout/plan"
)

// partDrawing is the flat pattern of a made part beside its section.
type partDrawing struct {
	say words.Book
	b   plan.Blank
	st  length.Style
	s   *drawing.Scene
	pl  *place.Placer
	lo  fold.Point
	hi  fold.Point
	k   float64 // millimetres of the part in one of paper
	// gone is what a long strip is shortened by on paper, in its middle.
	gone float64
	o    drawing.Point
}

// plain reports whether every line of the blank runs along it.
func (d *partDrawing) plain() bool { return d.b.Square && len(d.b.Holes) == 0 }

// left is the room the running dimensions take.
func (d *partDrawing) left() drawing.Unit {
	if d.b.Square {
		return partLeft
	}
	return partLeft + 2*drawing.MM // figures of its corners spread those of its bends
}

// right is the room the bends' labels take.
func (d *partDrawing) right() drawing.Unit {
	x := drawing.Unit(300)
	if !d.b.Square {
		x = 2700
	}
	var wide drawing.Unit
	for _, q := range d.b.Bends {
		wide = max(wide, drawing.Width(drawing.Bold, d.bend(q), drawing.Note))
	}
	return x + 500 + 780 + wide + 100
}

// bend is what the label of a bend says.
func (d *partDrawing) bend(q plan.BlankBend) string {
	return drawing.Letter(BendTo(d.say, q.Hem, q.Turn, q.Radius, " ", q.Between[1]))
}

// x brings a place along the blank to paper.
func (d *partDrawing) x(mm float64) drawing.Unit {
	mm -= d.lo.X
	if mm > (d.hi.X-d.lo.X)/2 {
		mm -= d.gone
	}
	return d.o.X + drawing.Round(mm/d.k)
}

const (
	partLeft = 30 * drawing.MM    // running dimensions at the left of the blank
	partHead = 17*drawing.MM + 50 // title and length over it
	partFoot = 21 * drawing.MM    // running dimensions under it
)

// PartFlat draws the blank of a part with its finish side up, all it is cut and
// bent by dimensioned from its front edge and its left end. The room's height
// is not passed.
func PartFlat(say words.Book, mark string, b plan.Blank, w, h drawing.Unit) drawing.Scene {
	s := drawing.Scene{Name: "part-" + fileName(mark), Title: say.Say(words.FlatTitle, words.In("mark", mark)), W: w}
	s.Desc = say.Say(words.PartFlatAbout)
	d := partDrawing{say: say, b: b, st: BlankStyle(b.Metric), s: &s}
	d.lo, d.hi = d.b.Bounds()
	name := say.Say(words.KeyplanNotScale)
	room := max(w-d.left()-d.right(), 10*drawing.MM)
	foot := partFoot
	if d.plain() {
		foot = 4 * drawing.MM
	}
	high := (d.hi.Y - d.lo.Y) / max(h-partHead-foot, 1500).Millimetres()
	d.k = math.Max((d.hi.X-d.lo.X)/room.Millimetres(), high)
	// A strip in which nothing happens lengthwise is broken.
	if d.plain() && d.hi.X-d.lo.X > 3*(d.hi.Y-d.lo.Y) {
		d.k = math.Max((d.hi.Y-d.lo.Y)/16, high)
	}
	for _, sc := range Scales(d.st.Metric) {
		if float64(sc.Ratio) >= d.k && sc.Ratio >= 1 {
			d.k, name = float64(sc.Ratio), say.Say(words.FrameScaleOf, words.In("scale", sc.Name))
			break
		}
	}
	d.gone = math.Max(0, d.hi.X-d.lo.X-math.Min(room.Millimetres(), 60)*d.k)
	if !d.plain() {
		d.gone = 0
	}
	s.Text(
		drawing.Pt(0, 350),
		say.Say(words.PartFlat, words.In("scale", drawing.Letter(name))),
		drawing.Style{Face: drawing.Bold},
	)
	d.o = drawing.Pt(d.left(), partHead)
	if wide := d.x(d.hi.X) - d.o.X; drawing.Width(
		drawing.Regular,
		drawing.Letter(BlankLength(b.Metric, d.b.Length)),
		drawing.Note,
	)+300 > wide {
		d.o.Y += 750 // its length stands raised over the chain
	}
	// A low blank of many bends has its figures spread beyond it, up and down alike.
	if need := drawing.Unit(d.stops()) * drawing.Note.Line(); need > d.high()+1000 {
		d.o.Y += (need - d.high() - 1000) / 2
	}
	d.pl = place.New(drawing.Box(0, 450, w, d.o.Y+d.high()+partFoot))
	d.draw()
	s.H = s.Bounds().Max.Y + 100
	return s
}

// stops are how many distances from the front edge stand at the left at most.
func (d *partDrawing) stops() int {
	at := map[drawing.Unit]bool{} // counted alone
	for _, c := range d.b.Corners {
		at[d.at(c.At).Y] = true
	}
	for _, q := range d.b.Bends {
		at[d.at(q.Left).Y] = at[d.at(q.Left).Y] || !q.Across
	}
	for _, h := range d.b.Holes {
		at[d.at(h.Centre).Y] = true
	}
	n := 0
	for _, y := range at {
		if y {
			n++
		}
	}
	return n
}

func (d *partDrawing) high() drawing.Unit { return drawing.Round((d.hi.Y - d.lo.Y) / d.k) }

func (d *partDrawing) at(p fold.Point) drawing.Point {
	return drawing.Pt(d.x(p.X), d.o.Y+drawing.Round((d.hi.Y-p.Y)/d.k))
}

func (d *partDrawing) all(pts []fold.Point) []drawing.Point {
	out := make([]drawing.Point, len(pts))
	for i, p := range pts {
		out[i] = d.at(p)
	}
	return out
}

func (d *partDrawing) round(mm float64) length.Length {
	return length.RoundTo(length.FromMM(mm), d.st.Step())
}

func (d *partDrawing) draw() {
	ring := d.all(d.b.Cut)
	box := boundsOf(d.all(d.b.Outline))
	d.s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		for _, q := range d.b.Bends {
			pen := drawing.Centre
			if q.Up {
				pen = drawing.Hidden
			}
			g.Line(pen, d.at(q.Left), d.at(q.Right))
		}
		g.Polygon(drawing.Thick, ring...)
		for _, h := range d.b.Holes {
			at := d.at(h.Centre)
			g.Circle(drawing.Medium, at, max(drawing.Round(h.Radius/d.k), 40))
			arm := max(drawing.Round(h.Radius/d.k)+90, 160)
			g.Line(drawing.Thin, drawing.Pt(at.X-arm, at.Y), drawing.Pt(at.X+arm, at.Y))
			g.Line(drawing.Thin, drawing.Pt(at.X, at.Y-arm), drawing.Pt(at.X, at.Y+arm))
			d.pl.Block(drawing.Box(at.X-arm, at.Y-arm, at.X+arm, at.Y+arm))
		}
		if d.gone > 0 {
			d.broken(g, box)
		}
	})
	for i := range ring {
		d.pl.Stroke(60, ring[i], ring[(i+1)%len(ring)])
	}
	for _, q := range d.b.Bends {
		d.pl.Stroke(50, d.at(q.Left), d.at(q.Right))
	}
	d.across(box)
	d.along(box)
	d.bends(box)
	d.acrossRight(box)
	d.names(box)
}

// broken draws the place at which a strip is shortened.
func (d *partDrawing) broken(g *drawing.Scene, box drawing.Rect) {
	c, half := box.Centre(), box.Height()/2+120
	edge := func(x drawing.Unit) []drawing.Point {
		return []drawing.Point{
			{X: x, Y: c.Y - half},
			{X: x, Y: c.Y - 220},
			{X: x + 130, Y: c.Y - 70},
			{X: x - 130, Y: c.Y + 70},
			{X: x, Y: c.Y + 220},
			{X: x, Y: c.Y + half},
		}
	}
	left, right := edge(c.X-150), edge(c.X+150)
	ring := slices.Clone(left)
	for i := len(right) - 1; i >= 0; i-- {
		ring = append(ring, right[i])
	}
	g.Fill(drawing.White, drawing.NoPen, ring...)
	g.Line(drawing.Thin, left...)
	g.Line(drawing.Thin, right...)
	d.pl.Block(drawing.Box(c.X-320, c.Y-half, c.X+320, c.Y+half))
}

// partStop is one running dimension.
type partStop struct {
	u     drawing.Unit // along the row
	from  drawing.Unit // the object's edge
	label string
	fact  string
}

// running draws a row of running dimensions, each place once.
func (d *partDrawing) running(vertical bool, at drawing.Unit, stops []partStop, lo, hi drawing.Unit) {
	slices.SortStableFunc(stops, func(a, b partStop) int { return cmp.Compare(a.u, b.u) })
	// Of two that lie together on paper the outermost counts.
	const together = 45
	var kept []partStop
	for _, q := range stops {
		n := len(kept) - 1
		switch {
		case n < 0 || q.u-kept[n].u > together:
			kept = append(kept, q)
		case max(q.from-at, at-q.from) < max(kept[n].from-at, at-kept[n].from):
			kept[n] = q
		}
	}
	stops = slices.CompactFunc(kept, func(a, b partStop) bool { return a.label == b.label })
	r := drawing.Running{Vertical: vertical, At: at, Ends: drawing.Ticks, Size: drawing.Note, Lo: lo, Hi: hi}
	if d.st.Metric {
		r.Ends = drawing.Arrows
	}
	for _, q := range stops {
		r.Stops, r.From, r.Labels, r.Facts = append(r.Stops, q.u), append(
			r.From,
			q.from,
		), append(r.Labels, q.label), append(
			r.Facts,
			q.fact,
		)
	}
	fig := r.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	for _, m := range fig.Marks {
		switch m := m.(type) {
		case drawing.Text:
			d.pl.Letter(boundsOf(m.HaloQuad()).Inset(-30))
		case drawing.Line:
			d.pl.Stroke(40, m.Pts...)
		}
	}
}

// fromTop letters how far from the front edge a place lies.
func (d *partDrawing) fromTop(y float64) string {
	switch {
	case d.hi.Y-y < 1e-3:
		return "0"
	case y-d.lo.Y < 1e-3:
		return d.st.Short(d.b.Girth)
	}
	return d.st.Short(d.round(d.hi.Y - y))
}

// across are the distances from the front edge at the left: of bends, rows of holes and
// the corners of the outline that a rule can tell.
func (d *partDrawing) across(box drawing.Rect) {
	left := d.corners(true, func(q plan.BlankBend) (fold.Point, bool) { return q.Left, !q.Across })
	for _, h := range d.b.Holes {
		left = append(left, partStop{d.at(h.Centre).Y, box.Min.X, d.fromTop(h.Centre.Y), h.Key.Fact("centre")})
	}
	d.running(true, box.Min.X-700, left, box.Min.Y-500, box.Max.Y+500)
}

// corners are the distances of bends at one end of the blank, and of its corners there:
// one between its edges beside which a bend begins is told by the bend.
func (d *partDrawing) corners(left bool, of func(plan.BlankBend) (fold.Point, bool)) []partStop {
	var out []partStop
	for _, b := range d.b.Bends {
		if p, ok := of(b); ok {
			q := d.at(p)
			out = append(out, partStop{q.Y, q.X, d.fromTop(p.Y), b.Key.Fact("ends-from-street")})
		}
	}
	const beside = 130
	bends := len(out)
	for _, c := range d.b.Corners {
		q := d.at(c.At)
		near := func(b partStop) bool { return b.u-q.Y < beside && q.Y-b.u < beside }
		inner := c.At.Y-d.lo.Y > 1e-3 && d.hi.Y-c.At.Y > 1e-3
		if left == (c.At.X < (d.lo.X+d.hi.X)/2) && !(inner && slices.ContainsFunc(out[:bends], near)) {
			out = append(out, partStop{q.Y, q.X, d.fromTop(c.At.Y), c.Key.Fact("from-street")})
		}
	}
	return out
}

// acrossRight are the same at the right of a blank that is not square: of its corners
// and of the bends that slant. Its figures stand on what leads to the bends.
func (d *partDrawing) acrossRight(box drawing.Rect) {
	if d.b.Square {
		return
	}
	right := d.corners(false, func(q plan.BlankBend) (fold.Point, bool) { return q.Right, !q.Across && !q.Level })
	d.running(true, box.Max.X+700, right, box.Min.Y-500, box.Max.Y+500)
}

// along are the distances from the left end, under the blank: of holes, of
// bends across and of corners; the whole length stands over it.
func (d *partDrawing) along(box drawing.Rect) {
	ends := drawing.Ticks
	if d.st.Metric {
		ends = drawing.Arrows
	}
	fig := drawing.Chain{
		At:     box.Min.Y - 550,
		Stops:  []drawing.Unit{box.Min.X, box.Max.X},
		Labels: []string{BlankLength(d.b.Metric, d.b.Length)},
		Facts:  []string{d.b.Key.Fact("blank-length")},
		From:   []drawing.Unit{box.Min.Y},
		Ends:   ends,
	}.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	d.pl.Letter(fig.Box)
	var stops []partStop
	add := func(x float64, foot drawing.Unit, fact string) {
		label := BlankLength(d.b.Metric, d.round(x-d.lo.X))
		switch {
		case x-d.lo.X < 1e-3:
			label = "0"
		case d.hi.X-x < 1e-3:
			label = BlankLength(d.b.Metric, d.b.Length)
		}
		stops = append(stops, partStop{d.x(x), foot, label, fact})
	}
	for _, h := range d.b.Holes {
		add(h.Centre.X, box.Max.Y, h.Key.Fact("centre"))
	}
	for _, q := range d.b.Bends {
		if q.Across {
			low := math.Min(q.Left.Y, q.Right.Y)
			add(q.Left.X, d.at(fold.Point{X: q.Left.X, Y: low}).Y, q.Key.Fact("from-ends"))
		}
	}
	if len(stops) == 0 && d.b.Square {
		return
	}
	for _, c := range d.b.Corners {
		add(c.At.X, box.Max.Y, c.Key.Fact("from-left"))
	}
	d.running(false, box.Max.Y+650, stops, box.Min.X-600, box.Max.X+600)
}

// bends stand in a column at the right, each led to its line; those across the
// blank at its foot.
func (d *partDrawing) bends(box drawing.Rect) {
	type row struct {
		tip    drawing.Point
		number string
		words  string
		dot    bool
		of     plan.BlankBend
	}
	var rows []row
	for _, q := range d.b.Bends {
		r := q.Right
		if q.Across {
			r = fold.Point{X: q.Left.X, Y: (q.Left.Y + q.Right.Y) / 2}
			if len(rows)%2 == 1 { // two of them are not led along one line
				r.Y = q.Left.Y + (q.Right.Y-q.Left.Y)/4
			}
		}
		rows = append(rows, row{d.at(r), strconv.Itoa(q.Order), d.bend(q), q.Across, q})
	}
	slices.SortStableFunc(rows, func(a, b row) int { return int(a.tip.Y - b.tip.Y) })
	want := make([]drawing.Unit, len(rows))
	for i, r := range rows {
		want[i] = r.tip.Y
	}
	x := box.Max.X + 300
	if !d.b.Square {
		x = box.Max.X + 2700
	}
	for i, y := range spaced(want, 640) {
		r := rows[i]
		col := x + 500
		d.s.Line(drawing.Thin, r.tip, drawing.Pt(x, r.tip.Y), drawing.Pt(col, y))
		d.pl.Stroke(40, r.tip, drawing.Pt(x, r.tip.Y), drawing.Pt(col, y))
		if r.dot {
			d.s.Dot(r.tip, 60, drawing.Black)
		}
		fig := drawing.Balloon{
			At:    drawing.Pt(col+330, y),
			Words: r.number,
			Size:  drawing.Note,
			Tip:   drawing.Pt(col+330, y),
			Fact:  r.of.Key.Fact("order"),
		}.Figure()
		d.s.Draw(fig)
		d.pl.Letter(fig.Box)
		t := d.s.Text(
			drawing.Pt(col+780, y+drawing.Unit(drawing.Note)/2),
			r.words,
			drawing.Style{Face: drawing.Bold, Fact: bendTurn(r.of)},
		)
		d.pl.Letter(boundsOf(t.HaloQuad()))
	}
}

// names letter the edges of the blank, within it where there is room.
func (d *partDrawing) names(box drawing.Rect) {
	e := d.b.Sides
	put := func(phrase string, about drawing.Point, room drawing.Rect) {
		if phrase == "" {
			return
		}
		for _, size := range []drawing.Size{drawing.Note, drawing.Small} {
			for _, lines := range [][]string{{phrase}, strings.Split(strings.ReplaceAll(phrase, ", ", ",\n"), "\n")} {
				lab := place.Label{Lines: lines, Size: size, Face: drawing.Bold, About: about, Where: phrase}
				if q, ok := d.pl.Try(lab, lab.Grid(room, about, 120)...); ok {
					d.s.Add(q.Marks...)
					return
				}
			}
		}
		lab := place.Label{
			Lines: []string{phrase},
			Size:  drawing.Small,
			Face:  drawing.Bold,
			About: about,
			Where: phrase,
		}
		q := d.pl.Place(lab, lab.Grid(drawing.Box(0, 450, d.s.W, box.Max.Y+partFoot), about, 150)...)
		d.s.Add(q.Marks...)
	}
	in := box.Inset(120)
	third := box.Height() / 3
	put(e.Top, drawing.Pt(box.Centre().X, box.Min.Y+350), drawing.Box(in.Min.X, in.Min.Y, in.Max.X, in.Min.Y+third))
	put(e.Bottom, drawing.Pt(box.Centre().X, box.Max.Y-350), drawing.Box(in.Min.X, in.Max.Y-third, in.Max.X, in.Max.Y))
	put(e.Left, drawing.Pt(box.Min.X+350, box.Centre().Y), drawing.Box(in.Min.X, in.Min.Y, box.Centre().X, in.Max.Y))
	put(e.Right, drawing.Pt(box.Max.X-350, box.Centre().Y), drawing.Box(box.Centre().X, in.Min.Y, in.Max.X, in.Max.Y))
}

// PartSection draws a part from its left end, or a riser from above, with the
// outside length of each face.
func PartSection(say words.Book, p plan.FormedPart, w, h drawing.Unit) drawing.Scene {
	phrase := say.Say(words.PartFormedLeft)
	if p.FromAbove {
		phrase = say.Say(words.PartFormedAbove)
	}
	s := drawing.Scene{
		Name:  "part-section-" + fileName(p.Mark),
		Title: say.Say(words.PartSection, words.In("mark", p.Mark)),
		W:     w,
		H:     h,
	}
	s.Desc = say.Say(words.PartSectionAbout)
	head := s.Paragraph(drawing.Pt(0, 350), phrase, w, drawing.Style{Face: drawing.Bold}).Max.Y + 150
	lo, hi := fold.Flat{Outline: p.Path}.Bounds()
	room := drawing.Box(900, head+1100, w-900, h-1100)
	k := math.Max(
		(hi.X-lo.X)/room.Width().Millimetres(),
		math.Max((hi.Y-lo.Y)/max(room.Height(), 800).Millimetres(), 0.5),
	)
	c := room.Centre()
	mid := fold.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
	at := func(q fold.Point) drawing.Point {
		return drawing.Pt(c.X+drawing.Round((q.X-mid.X)/k), c.Y-drawing.Round((q.Y-mid.Y)/k))
	}
	var pts []drawing.Point
	for _, q := range p.Path {
		pts = append(pts, at(q))
	}
	s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		if len(p.Metal) == 0 {
			g.Line(drawing.Thick, pts...)
			return
		}
		var metal []drawing.Point
		for _, q := range p.Metal {
			metal = append(metal, at(q))
		}
		g.Fill(drawing.Dark, drawing.Thin, metal...)
	})
	pl := place.New(drawing.Box(0, head, w, h))
	pl.Stroke(110, pts...)
	st := BlankStyle(p.Metric)
	var wishes []place.Wish
	for i, f := range p.Faces {
		a, b := p.Path[i], p.Path[i+1]
		m := at(fold.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2})
		lab := place.Label{
			Lines: []string{f.Name, drawing.Letter(st.Short(f.Long))},
			Facts: []string{"", f.Fact},
			About: m,
			Where: f.Name,
		}
		// To the side away from the middle of the section.
		out := xy{float64(m.X - c.X), float64(m.Y - c.Y)}
		if math.Abs(b.X-a.X) > math.Abs(b.Y-a.Y) {
			out = xy{0, float64(m.Y-c.Y) + 0.1}
		} else {
			out.y = 0
		}
		wishes = append(
			wishes,
			place.Wish{
				Label: lab,
				Spots: lab.Fan(place.Fan{Toward: tenths(out), From: 160, To: 2600, Step: 80, Spread: 160, Reach: 700}),
			},
		)
	}
	for _, q := range pl.PlaceAll(wishes) {
		s.Add(q.Marks...)
	}
	for _, n := range pl.Notes() {
		s.Text(drawing.Pt(0, s.H), strconv.Itoa(n.N)+": "+n.Words, drawing.Style{})
		s.H += drawing.Note.Line()
	}
	return s
}
