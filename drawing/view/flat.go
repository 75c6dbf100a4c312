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

// BlankStyle is how the lengths of a blank are lettered: to the step its sizes are
// rounded to.
func BlankStyle(metric bool) length.Style {
	if metric {
		return length.Shop(true)
	}
	return length.Style{Denominator: 64}
}

// BlankLength letters a length along a blank, in inches alone under a foot.
func BlankLength(metric bool, d length.Length) string {
	st := BlankStyle(metric)
	if !st.Metric && d < length.Foot {
		return st.Short(d)
	}
	return st.Long(d)
}

// BendWords say which way a bend goes and how far: turn is in degrees, positive
// towards the viewer of the finish side, and radius inside. A hem lies flat, stands
// open, or turns past 180 degrees till its leaf closes on the flange again.
func BendWords(say words.Book, hem bool, turn, radius float64) string {
	switch {
	case hem && math.Abs(turn) > 180+1e-6:
		return say.Say(words.FlatHemTeardrop)
	case hem && radius > 0:
		return say.Say(words.FlatHemOpen)
	case hem:
		return say.Say(words.FlatHemFlat)
	}
	way := words.FlatDown
	if turn > 0 {
		way = words.FlatUp
	}
	return say.Say(way, words.In("turn", Degrees(math.Abs(turn))))
}

// BendTo is BendWords with the face that is bent behind a gap; the words of a hem say it.
func BendTo(say words.Book, hem bool, turn, radius float64, gap, face string) string {
	if hem {
		return BendWords(say, hem, turn, radius)
	}
	return BendWords(say, hem, turn, radius) + gap + face
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

// Room round a pattern, and what of a long one always stands.
const (
	flatTop   = 21 * drawing.MM // chain and name of the street edge
	flatFoot  = 27 * drawing.MM // two chains and the name of the roof edge
	flatLess  = 8 * drawing.MM  // each chain less
	keepWell  = 34 * drawing.MM // of a stretch that is broken, each side, so that words stand on it
	keepLeast = 15 * drawing.MM // and where room is short
)

// flat draws one body's pattern as part of a row.
type flat struct {
	say words.Book
	plan.Pattern
	st     length.Style
	lo, hi fold.Point
	m      flatMap
	s      *drawing.Scene
	p      *place.Placer
	as     bool         // its bends are those of the body before it
	left   drawing.Unit // room at its left and right
	right  drawing.Unit
	box    drawing.Rect // of the outline, on paper
	foot   drawing.Unit // of its dimensions
}

func (d *flat) high() drawing.Unit { return drawing.Round((d.hi.Y - d.lo.Y) / d.m.ratio) }

// bays are the stretches in which every line runs along the blank, longest
// first.
func (d *flat) bays() [][2]float64 {
	var xs []float64
	var slanted [][2]float64 // what slants, from its left to its right
	hold := func(a, b fold.Point) {
		xs = append(xs, a.X, b.X)
		if math.Abs(a.Y-b.Y) > 0.01 && math.Abs(a.X-b.X) > 0.01 {
			slanted = append(slanted, [2]float64{math.Min(a.X, b.X), math.Max(a.X, b.X)})
		}
	}
	for i, p := range d.Outline {
		hold(p, d.Outline[(i+1)%len(d.Outline)])
	}
	for _, q := range d.Bends {
		hold(q.Left, q.Right)
	}
	for _, h := range d.Holes {
		for i, p := range h.Ring {
			hold(p, h.Ring[(i+1)%len(h.Ring)])
		}
	}
	slices.Sort(xs)
	slices.SortFunc(slanted, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	var out [][2]float64
	reach, k := math.Inf(-1), 0 // how far right goes what slants and begins before a place
	for i := 1; i < len(xs); i++ {
		m := (xs[i-1] + xs[i]) / 2
		for ; k < len(slanted) && slanted[k][0] < m; k++ {
			reach = math.Max(reach, slanted[k][1])
		}
		if reach <= m {
			out = append(out, [2]float64{xs[i-1], xs[i]})
		}
	}
	slices.SortStableFunc(out, func(a, b [2]float64) int { return cmp.Compare(b[1]-b[0], a[1]-a[0]) })
	return out
}

// outline draws the blank and tells the placer where it lies.
func (d *flat) outline() {
	ring := d.m.all(d.Cut)
	d.s.Group(drawing.Caps, "", func(g *drawing.Scene) {
		for _, q := range d.Bends {
			pen := drawing.Centre
			if q.Up {
				pen = drawing.Hidden
			}
			g.Line(pen, d.m.at(q.Left), d.m.at(q.Right))
		}
		g.Polygon(drawing.Thick, ring...)
		for _, h := range d.Holes {
			g.Polygon(drawing.Thick, d.m.all(h.Ring)...)
		}
		for _, b := range d.m.breaks {
			d.broken(g, b)
		}
		d.reliefs(g)
	})
	for i := range ring {
		d.p.Stroke(90, ring[i], ring[(i+1)%len(ring)])
	}
	for _, q := range d.Bends {
		d.p.Stroke(60, d.m.at(q.Left), d.m.at(q.Right))
	}
	for _, h := range d.Holes {
		d.p.Block(boundsOf(d.m.all(h.Ring)))
	}
	d.box = boundsOf(ring)
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
		return []drawing.Point{{X: x, Y: y0}, {X: x, Y: mid - 250}, {X: x + 150, Y: mid - 90},
			{X: x - 150, Y: mid + 90}, {X: x, Y: mid + 250}, {X: x, Y: y1}}
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

// chained are the places along an edge of the blank that a chain shows, with
// the lengths between them; an edge that is as long as the blank has none.
func (d *flat) chained(street bool) (pos, round, parts []length.Length, ok bool) {
	e := d.Edges[1]
	if street {
		e = d.Edges[0]
	}
	pos = []length.Length{0, e.From, e.To, d.Length}
	round, parts = length.Chain(pos, d.st.Step())
	n := 0
	for _, x := range parts {
		if x > 0 {
			n++
		}
	}
	return pos, round, parts, n > 1
}

// below is the room the dimensions take under the blank.
func (d *flat) below() drawing.Unit {
	room := flatFoot
	_, _, _, top := d.chained(true)
	_, _, _, foot := d.chained(false)
	if !foot {
		room -= flatLess
	}
	if !top {
		room -= flatLess
	}
	return room
}

// lengths are the chains along the street edge and the roof edge, and the
// whole.
func (d *flat) lengths() {
	box := d.box
	ends := drawing.Ticks
	if d.st.Metric {
		ends = drawing.Arrows
	}
	row := func(street bool, at, from drawing.Unit) (drawing.Rect, bool) {
		pos, round, parts, ok := d.chained(street)
		if !ok {
			return drawing.Rect{}, false
		}
		var stops []drawing.Unit
		var labels []string
		for i, p := range pos {
			if i > 0 && parts[i-1] <= 0 {
				continue
			}
			stops = append(stops, d.m.x(math.Min(p.MM(), d.hi.X)))
			if i > 0 && len(stops) > 1 {
				labels = append(labels, BlankLength(d.Metric, parts[i-1]))
			}
		}
		fig := drawing.Chain{At: at, Stops: stops, Labels: labels, From: []drawing.Unit{from}, Ends: ends,
			Lo: box.Min.X - 700, Hi: box.Max.X + 1000,
			Facts: slices.Repeat([]string{d.Key.Fact(map[bool]string{true: "edge-street", false: "edge-roof"}[street])},
				len(labels))}.Figure()
		var lettered []string
		for _, w := range labels {
			lettered = append(lettered, drawing.Letter(w))
		}
		d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks,
			Sums: []drawing.Sum{{What: "edge of the blank", Parts: lettered,
				To: drawing.Letter(BlankLength(d.Metric, round[3]))}}})
		d.letter(fig.Marks)
		return fig.Box, true
	}
	up, top := row(true, box.Min.Y-550, box.Min.Y)
	low, foot := row(false, box.Max.Y+600, box.Max.Y)
	phrase, fact := BlankLength(d.Metric, d.Length), d.Key.Fact("blank-length")
	if d.Varies {
		phrase, fact = d.say.Say(words.FlatLengthTable), ""
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
	fig := drawing.Chain{At: at, Stops: []drawing.Unit{d.m.x(0), d.m.x(d.hi.X)}, Labels: []string{phrase},
		Facts: []string{fact}, From: []drawing.Unit{object}, Ends: ends}.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	d.letter(fig.Marks)
	y0, y1 = min(y0, fig.Box.Min.Y), max(y1, fig.Box.Max.Y)
	mid := (box.Min.X + box.Max.X) / 2
	st := drawing.Style{Size: drawing.Head, Face: drawing.Bold, Align: drawing.Middle}
	d.letter([]drawing.Mark{d.s.Text(drawing.Pt(mid, y0-180), strings.ToUpper(d.Sides.Top), st)})
	if d.Title != "" {
		d.letter([]drawing.Mark{d.s.Text(drawing.Pt(mid, y0-180-nameHigh), d.Title, st)})
	}
	d.letter([]drawing.Mark{d.s.Text(drawing.Pt(mid, y1+300+drawing.Unit(drawing.Head)),
		strings.ToUpper(d.Sides.Bottom), st)})
	d.foot = y1 + 1000
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
func (d *flat) distances() drawing.Rect {
	box := d.box
	type stop struct {
		y     drawing.Unit
		x     drawing.Unit
		label string
		fact  string
	}
	far := d.st.Short(d.Girth)
	left := func(y float64) drawing.Unit { // the outline's leftmost place near a height
		x := math.Inf(1)
		for _, p := range d.Outline {
			if math.Abs(p.Y-y) < 0.05 {
				x = math.Min(x, p.X)
			}
		}
		return d.m.x(x)
	}
	stops := []stop{{box.Min.Y, left(d.hi.Y), "0", ""}, {box.Max.Y, left(d.lo.Y), far, d.Key.Fact("blank-girth")}}
	for _, q := range d.Bends {
		if q.Across {
			continue
		}
		p := d.m.at(q.Left)
		stops = append(stops, stop{p.Y, p.X, d.st.Short(q.EndsFromStreet[0]), q.Key.Fact("ends-from-street")})
	}
	slices.SortStableFunc(stops, func(a, b stop) int { return cmp.Compare(a.y, b.y) })
	stops = slices.CompactFunc(stops, func(a, b stop) bool { return a.y == b.y && a.label == b.label })
	ends := drawing.Ticks
	if d.st.Metric {
		ends = drawing.Arrows
	}
	r := drawing.Running{Vertical: true, At: box.Min.X - distAt, Ends: ends, Size: drawing.Note, Lo: box.Min.Y - 500,
		Hi: box.Max.Y + 500}
	for _, q := range stops {
		r.Stops = append(r.Stops, q.y)
		r.Labels = append(r.Labels, q.label)
		r.Facts = append(r.Facts, q.fact)
		r.From = append(r.From, q.x)
	}
	fig := r.Figure()
	d.s.Add(drawing.Group{Layer: drawing.Dimensions, Marks: fig.Marks})
	d.letter(fig.Marks)
	return fig.Box
}
