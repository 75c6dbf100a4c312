package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/layout"
	"copingset/layout/fold"
	"copingset/layout/length"
	"copingset/layout/shop"
)

// Blank is how the lengths of a blank are lettered: to the step its sizes are
// rounded to.
func Blank(l *layout.Layout) length.Style {
	if Metric(l) {
		return length.Shop(true)
	}
	return length.Style{Denominator: 64}
}

// BlankLong letters a length along a blank, in inches alone under a foot.
func BlankLong(l *layout.Layout, d length.Length) string {
	st := Blank(l)
	if !st.Metric && d < length.Foot {
		return st.Short(d)
	}
	return st.Long(d)
}

// BendWords say which way a bend goes and how far.
func BendWords(q shop.Bend) string {
	if q.Hem {
		return "DOWN, hem flat"
	}
	way := "DOWN"
	if q.Up() {
		way = "UP"
	}
	return way + " " + Degrees(math.Abs(q.Line.Turn))
}

// Degrees letters an angle to a tenth.
func Degrees(a float64) string {
	return strings.TrimSuffix(strconv.FormatFloat(math.Round(a*10)/10, 'f', 1, 64), ".0") + "°"
}

// flatMap brings a flat pattern to paper, with pieces of a long blank left out.
type flatMap struct {
	ratio  float64
	breaks [][2]float64 // stretches left out, from the left
	hi     float64      // y of the street edge
	o      drawing.Point
}

// breakGap is what stands on paper for a stretch left out.
const breakGap drawing.Unit = 500

func (m flatMap) x(mm float64) drawing.Unit {
	var gone float64
	var gaps drawing.Unit
	for _, b := range m.breaks {
		switch {
		case mm >= b[1]:
			gone += b[1] - b[0]
			gaps += breakGap
		case mm > b[0]:
			gone += mm - b[0]
		}
	}
	return m.o.X + drawing.Round((mm-gone)/m.ratio) + gaps
}

func (m flatMap) at(p fold.Point) drawing.Point {
	return drawing.Pt(m.x(p.X), m.o.Y+drawing.Round((m.hi-p.Y)/m.ratio))
}

func (m flatMap) all(pts []fold.Point) []drawing.Point {
	out := make([]drawing.Point, len(pts))
	for i, p := range pts {
		out[i] = m.at(p)
	}
	return out
}

// Room round a pattern: running distances and L at the left, bends and R at the
// right.
const (
	flatLeft  = 42 * drawing.MM
	flatRight = 64 * drawing.MM
	flatTop   = 21 * drawing.MM // chain and name of the street edge
	flatFoot  = 31 * drawing.MM
	keepWell  = 34 * drawing.MM // of a stretch that is broken, each side, so that words stand on it
	keepLeast = 15 * drawing.MM // and where room is short
)

// flat draws one body's pattern.
type flat struct {
	l      *layout.Layout
	f      *layout.Family
	b      layout.Body
	st     length.Style
	lo, hi fold.Point
	m      flatMap
	s      *drawing.Scene
	p      *place.Placer
	varies bool // one drawing for several lengths
}

// FlatPattern draws the blank of a body with its finish side up, the street
// edge at the top: outline, holes, bends in their order and the distances of all
// of them. A long blank is broken where nothing happens. varies says that the
// sheet has a table of lengths for this drawing.
func FlatPattern(l *layout.Layout, f *layout.Family, body int, varies bool, w, h drawing.Unit) drawing.Scene {
	d := flat{l: l, f: f, b: f.Bodies[body], st: Blank(l), varies: varies}
	d.lo, d.hi = d.b.Flat.Bounds()
	title := "FLAT PATTERN " + f.Mark
	if len(f.Bodies) > 1 || d.b.Name != "cap" {
		title += ", " + strings.ToUpper(d.b.Name)
	}
	under := "FINISH FACE TOWARDS YOU. Dashed: bend UP, towards you. Dash and dot: bend DOWN, away from you. Distances are on the flat blank."
	under += d.reliefWords()
	s := drawing.Scene{Name: "flat-" + fileName(f.Mark+" "+d.b.Name), Title: title, W: w, H: h}
	s.Desc = title + ": the finish face with bend lines in order."
	// The scale is not yet known; its words take the same room whatever it is.
	var probe drawing.Scene
	head := caption(&probe, l, drawing.Pt(50, 50), w-100, title, under, Scales(d.st.Metric)[0]).Max.Y + 250
	if f.Released() == 0 {
		head += 1250
	}
	scale, ok := d.fit(w-flatLeft-d.right(), h-head-flatTop-flatFoot)
	if !ok {
		scale.Name = "not to scale"
	}
	box := caption(&s, l, drawing.Pt(50, 50), w-100, title, under, scale)
	if f.Released() == 0 {
		s.Draw(drawing.HoldFlag{At: drawing.Pt(50, box.Max.Y+200), Words: "NOT RELEASED, DO NOT CUT"}.Figure())
	}
	d.m.o = drawing.Pt(flatLeft, head+flatTop)
	s.H = min(h, head+flatTop+d.high()+flatFoot)
	d.s = &s
	d.p = place.New(drawing.Box(0, head, w, s.H))
	d.draw()
	return s
}

// FlatReadable reports whether the bends of a body lie far enough apart on paper
// to be told from each other in a room.
func FlatReadable(l *layout.Layout, f *layout.Family, body int, w, h drawing.Unit) bool {
	const least = 42 * drawing.MM
	d := flat{l: l, f: f, b: f.Bodies[body], st: Blank(l)}
	d.lo, d.hi = d.b.Flat.Bounds()
	_, ok := d.fit(w-flatLeft-d.right(), h-flatHead-flatTop-flatFoot)
	return ok && (d.high() >= least || d.m.ratio <= 5)
}

// flatHead is about what the caption takes.
const flatHead = 27 * drawing.MM

func (d *flat) high() drawing.Unit { return drawing.Round((d.hi.Y - d.lo.Y) / d.m.ratio) }

// fit chooses the largest usual scale at which the pattern, broken where it may
// be, lies in a room; none fits a room too small for words.
func (d *flat) fit(w, h drawing.Unit) (Scale, bool) {
	all := Scales(d.st.Metric)
	for _, sc := range all {
		if sc.Ratio < 2 {
			continue
		}
		d.m = flatMap{ratio: float64(sc.Ratio), hi: d.hi.Y}
		if d.high() > h {
			continue
		}
		if d.breakTo(w, keepWell) {
			return sc, true
		}
		d.m.breaks = nil
		if d.breakTo(w, keepLeast) {
			return sc, true
		}
	}
	d.m.breaks = nil
	d.m.ratio = math.Max(d.hi.X/max(w, 2000).Millimetres(), d.hi.Y/max(h, 2000).Millimetres())
	return Scale{}, false
}

// breakTo leaves stretches out until the pattern is no wider than w.
func (d *flat) breakTo(w, keep drawing.Unit) bool {
	over := drawing.Round(d.hi.X/d.m.ratio) - w
	if over <= 0 {
		return true
	}
	for _, bay := range d.bays() {
		long := drawing.Round((bay[1] - bay[0]) / d.m.ratio)
		gone := min(over+breakGap, long-2*keep)
		if gone < 2*breakGap {
			continue
		}
		cut := gone.Millimetres() * d.m.ratio
		mid := (bay[0] + bay[1]) / 2
		d.m.breaks = append(d.m.breaks, [2]float64{mid - cut/2, mid + cut/2})
		over -= gone - breakGap
		if over <= 0 {
			break
		}
	}
	slices.SortFunc(d.m.breaks, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	return over <= 0
}

// bays are the stretches in which every line runs along the blank, longest
// first.
func (d *flat) bays() [][2]float64 {
	var xs []float64
	type seg struct{ a, b fold.Point }
	var slanted []seg
	hold := func(a, b fold.Point) {
		xs = append(xs, a.X, b.X)
		if math.Abs(a.Y-b.Y) > 0.01 && math.Abs(a.X-b.X) > 0.01 {
			slanted = append(slanted, seg{a, b})
		}
	}
	for i, p := range d.b.Flat.Outline {
		hold(p, d.b.Flat.Outline[(i+1)%len(d.b.Flat.Outline)])
	}
	for _, q := range d.b.Bends {
		hold(q.Line.From, q.Line.To)
	}
	for _, h := range d.b.Holes {
		for i, p := range h {
			hold(p, h[(i+1)%len(h)])
		}
	}
	slices.Sort(xs)
	var out [][2]float64
	for i := 1; i < len(xs); i++ {
		m := (xs[i-1] + xs[i]) / 2
		if !slices.ContainsFunc(slanted, func(s seg) bool { return math.Min(s.a.X, s.b.X) < m && m < math.Max(s.a.X, s.b.X) }) {
			out = append(out, [2]float64{xs[i-1], xs[i]})
		}
	}
	slices.SortStableFunc(out, func(a, b [2]float64) int { return cmp.Compare(b[1]-b[0], a[1]-a[0]) })
	return out
}

func (d *flat) draw() {
	ring := d.m.all(d.b.Outline())
	d.s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		for _, q := range d.b.Bends {
			pen := drawing.Centre
			if q.Up() {
				pen = drawing.Hidden
			}
			a, b := q.Ends()
			g.Line(pen, d.m.at(a), d.m.at(b))
		}
		g.Polygon(drawing.Thick, ring...)
		for _, h := range d.b.Holes {
			g.Polygon(drawing.Thick, d.m.all(h)...)
		}
		for _, b := range d.m.breaks {
			d.broken(g, b)
		}
		d.reliefs(g)
	})
	for i := range ring {
		d.p.Stroke(90, ring[i], ring[(i+1)%len(ring)])
	}
	for _, q := range d.b.Bends {
		a, b := q.Ends()
		d.p.Stroke(60, d.m.at(a), d.m.at(b))
	}
	for _, h := range d.b.Holes {
		d.p.Block(boundsOf(d.m.all(h)))
	}
	box := boundsOf(ring)
	d.lengths(box)
	d.distances(box)
	d.bendLabels(box)
	d.points()
	d.faces()
	for _, n := range d.p.Notes() { // nothing is dropped: what found no room stands under the drawing
		d.s.Text(drawing.Pt(50, d.s.H+drawing.Unit(drawing.Note)), fmt.Sprintf("%d: %s", n.N, n.Words), drawing.Style{})
		d.s.H += drawing.Note.Line() + 60
	}
}

func boundsOf(pts []drawing.Point) drawing.Rect {
	r := drawing.Rect{Min: pts[0], Max: pts[0]}
	for _, p := range pts {
		r.Min = drawing.Pt(min(r.Min.X, p.X), min(r.Min.Y, p.Y))
		r.Max = drawing.Pt(max(r.Max.X, p.X), max(r.Max.Y, p.Y))
	}
	return r
}

// broken wipes a stretch out and draws the two edges it is broken at.
func (d *flat) broken(g *drawing.Scene, b [2]float64) {
	x0, x1 := d.m.x(b[0]), d.m.x(b[1])
	y0, y1 := d.m.o.Y-120, d.m.o.Y+d.high()+120
	// Two jagged lines, one the shift of the other, and white between them.
	edge := func(x drawing.Unit) []drawing.Point {
		mid := (y0 + y1) / 2
		return []drawing.Point{{X: x, Y: y0}, {X: x, Y: mid - 250}, {X: x + 150, Y: mid - 90}, {X: x - 150, Y: mid + 90}, {X: x, Y: mid + 250}, {X: x, Y: y1}}
	}
	left, right := edge(x0), edge(x1)
	ring := slices.Clone(left)
	for i := len(right) - 1; i >= 0; i-- {
		ring = append(ring, right[i])
	}
	g.Fill(drawing.White, drawing.NoPen, ring...)
	g.Line(drawing.Thin, left...)
	g.Line(drawing.Thin, right...)
	d.p.Area(drawing.Box(x0-200, y0, x1+200, y1).Corners()...)
}

// lengths are the chains along the street edge and the roof edge, and the
// whole.
func (d *flat) lengths(box drawing.Rect) {
	ends := drawing.Ticks
	if d.st.Metric {
		ends = drawing.Arrows
	}
	row := func(street bool, at, from drawing.Unit) (drawing.Rect, bool) {
		a, b := d.b.EdgeAt(street)
		pos := []length.Length{0, a, b, d.b.Length}
		round, parts := length.Chain(pos, d.st.Step())
		var stops []drawing.Unit
		var labels []string
		for i, p := range pos {
			if i > 0 && parts[i-1] <= 0 {
				continue
			}
			stops = append(stops, d.m.x(math.Min(p.MM(), d.hi.X)))
			if i > 0 && len(stops) > 1 {
				labels = append(labels, BlankLong(d.l, parts[i-1]))
			}
		}
		if len(labels) < 2 {
			return drawing.Rect{}, false
		}
		fig := drawing.Chain{At: at, Stops: stops, Labels: labels, From: []drawing.Unit{from}, Ends: ends, Lo: box.Min.X - 700, Hi: box.Max.X + 1100}.Figure()
		var lettered []string
		for _, w := range labels {
			lettered = append(lettered, drawing.Letter(w))
		}
		d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks, Sums: []drawing.Sum{{What: "edge of the blank", Parts: lettered, To: drawing.Letter(BlankLong(d.l, round[3]))}}})
		d.letter(fig.Marks)
		return fig.Box, true
	}
	up, top := row(true, box.Min.Y-550, box.Min.Y)
	low, foot := row(false, box.Max.Y+600, box.Max.Y)
	words := BlankLong(d.l, d.b.Length)
	if d.varies {
		words = "length: see the table"
	}
	y0, y1 := box.Min.Y, box.Max.Y
	if top {
		y0 = up.Min.Y
	}
	if foot {
		y1 = low.Max.Y
	}
	at, object := y1+650, box.Max.Y
	if !top {
		at, object = box.Min.Y-550, box.Min.Y
	}
	fig := drawing.Chain{At: at, Stops: []drawing.Unit{d.m.x(0), d.m.x(d.hi.X)}, Labels: []string{words}, From: []drawing.Unit{object}, Ends: ends}.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	d.letter(fig.Marks)
	y0, y1 = min(y0, fig.Box.Min.Y), max(y1, fig.Box.Max.Y)
	mid := (box.Min.X + box.Max.X) / 2
	st := drawing.Style{Size: drawing.Head, Face: drawing.Bold, Align: drawing.Middle}
	d.letter([]drawing.Mark{d.s.Text(drawing.Pt(mid, y0-180), strings.ToUpper(d.b.Edges().Top), st)})
	d.letter([]drawing.Mark{d.s.Text(drawing.Pt(mid, y1+300+drawing.Unit(drawing.Head)), strings.ToUpper(d.b.Edges().Bottom), st)})
	d.s.H = y1 + 1000
}

// letter tells the placer what lettering stands already.
func (d *flat) letter(marks []drawing.Mark) {
	for _, m := range marks {
		switch m := m.(type) {
		case drawing.Text:
			d.p.Letter(boundsOf(m.HaloQuad()).Inset(-30))
		case drawing.Line:
			d.p.Stroke(40, m.Pts...)
		}
	}
}

// distances are the bends' and the roof edge's from the street edge, at the
// left; a bend that slants has its left end there, its right end in its label.
func (d *flat) distances(box drawing.Rect) {
	type stop struct {
		y     drawing.Unit
		x     drawing.Unit
		label string
	}
	far := d.st.Short(d.b.Girth)
	left := func(y float64) drawing.Unit { // the outline's leftmost place near a height
		x := math.Inf(1)
		for _, p := range d.b.Flat.Outline {
			if math.Abs(p.Y-y) < 0.05 {
				x = math.Min(x, p.X)
			}
		}
		return d.m.x(x)
	}
	stops := []stop{{box.Min.Y, left(d.hi.Y), "0"}, {box.Max.Y, left(d.lo.Y), far}}
	for _, q := range d.b.Bends {
		if q.Across() {
			continue
		}
		a, _ := q.Ends()
		p := d.m.at(a)
		stops = append(stops, stop{p.Y, p.X, d.st.Short(d.b.FromStreetAt(a, d.st.Step()))})
	}
	slices.SortStableFunc(stops, func(a, b stop) int { return cmp.Compare(a.y, b.y) })
	stops = slices.CompactFunc(stops, func(a, b stop) bool { return a.y == b.y && a.label == b.label })
	ends := drawing.Ticks
	if d.st.Metric {
		ends = drawing.Arrows
	}
	r := drawing.Running{Vertical: true, At: box.Min.X - 900, Ends: ends, Size: drawing.Note, Lo: box.Min.Y - 500, Hi: box.Max.Y + 500}
	for _, q := range stops {
		r.Stops = append(r.Stops, q.y)
		r.Labels = append(r.Labels, q.label)
		r.From = append(r.From, q.x)
	}
	fig := r.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	d.letter(fig.Marks)
	d.side(d.b.Edges().Left, drawing.Box(0, box.Min.Y-1500, max(1400, fig.Box.Min.X), box.Max.Y+1500), drawing.Pt(450, (box.Min.Y+box.Max.Y)/2))
}
