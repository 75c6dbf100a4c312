package drawing

import "math"

// Ends names the mark at the end of a dimension line.
type Ends uint8

// Architectural ticks go with feet and inches, arrowheads with millimetres.
const (
	Ticks Ends = iota
	Arrows
)

// Measures of a dimension. Extension lines stand off from the object and overshoot the dimension line.
const (
	extensionGap  Unit = 150
	extensionOver Unit = 200
	tickReach     Unit = 100 // half a tick, in x and y
	arrowLength   Unit = 300
	arrowHalf     Unit = 50
	textLift      Unit = 100 // baseline above the dimension line
	bayPad        Unit = 130 // free space at both ends of a label in its bay
	labelGap      Unit = 250 // between shifted labels
	turnedGap     Unit = 140 // between labels standing across the line
	jogMin        Unit = 250 // room in which leaders slant
	jogMax        Unit = 1200
	upTo          Unit = 2000 // a level label may be shifted this far; beyond, labels are turned
)

// Chain is a row of dimensions from stop to stop along one line, level with the text above it,
// or upright with the text on its left, read from the right. Labels[i] stands between Stops[i]
// and Stops[i+1]; the caller has made sure that what the labels say adds up. A label too wide
// for its bay goes on a leader to a second level, on the side away from the object; none is
// left out.
type Chain struct {
	Vertical bool
	At       Unit     // y of the line; x when vertical
	Stops    []Unit   // x of the stops; y when vertical
	Labels   []string // one fewer than stops
	Facts    []string // that the labels letter, in their order; may be shorter
	From     []Unit   // where the object is: one for all stops or one for each; none draws no extension lines
	Ends     Ends
	Size     Size
	Face     Face
	Lo, Hi   Unit // where shifted labels must stay, along the line; both zero for no limit
}

// Linear is one dimension between two stops.
func Linear(vertical bool, at, from, to Unit, label string, object Unit, ends Ends) Chain {
	return Chain{
		Vertical: vertical,
		At:       at,
		Stops:    []Unit{from, to},
		Labels:   []string{label},
		From:     []Unit{object},
		Ends:     ends,
	}
}

// Running is a row of distances from one datum, Stops[0]. The datum carries a small circle;
// each value stands across the line at the end of its extension line, spread where stops are
// close.
type Running struct {
	Vertical bool
	At       Unit
	Stops    []Unit
	Labels   []string // one for each stop; "0" or 0'-0" at the datum
	Facts    []string // that the labels letter, in their order; may be shorter
	From     []Unit
	Ends     Ends
	Size     Size
	Face     Face
	Lo, Hi   Unit
}

// row is the frame both kinds of dimension are drawn in: u runs along the line in the direction
// of reading, v across it, upwards as read. away is the side the object is not on.
type row struct {
	s        *Scene
	vertical bool
	at       Unit
	away     Unit
	size     Size
	face     Face
	limited  bool
	lo, hi   Unit
}

func newRow(s *Scene, vertical bool, at Unit, from []Unit, size Size, face Face, lo, hi Unit) row {
	r := row{s: s, vertical: vertical, at: at, away: 1, size: Style{Size: size}.size(), face: face, limited: lo != hi}
	if len(from) > 0 && r.side(from[0]) > 0 {
		r.away = -1
	}
	a, b := r.along(lo), r.along(hi)
	r.lo, r.hi = min(a, b), max(a, b)
	return r
}

// along turns a stop into u.
func (r row) along(stop Unit) Unit {
	if r.vertical {
		return -stop
	}
	return stop
}

// side turns the place of the object into v.
func (r row) side(from Unit) Unit { return r.at - from }

func (r row) pt(u, v Unit) Point {
	if r.vertical {
		return Point{r.at - v, -u}
	}
	return Point{u, r.at - v}
}

// level letters words along the line, their middle at u and their baseline at v.
func (r row) level(u, v Unit, words, fact string) {
	st := Style{Size: r.size, Face: r.face, Align: Middle, Halo: true, Fact: fact}
	if r.vertical {
		st.Rotate = 900
	}
	r.s.Text(r.pt(u, v), words, st)
}

// across letters words at right angles to the line, starting at v on the away side and running away from it.
func (r row) across(u, v Unit, words, fact string) {
	st := Style{Size: r.size, Face: r.face, Align: Left, Halo: true, Fact: fact}
	half := Unit(r.size) / 2
	if r.vertical {
		if r.away > 0 {
			st.Align = Right
		}
		r.s.Text(r.pt(u-half, v*r.away), words, st)
		return
	}
	st.Rotate = 900
	if r.away < 0 {
		st.Align = Right
	}
	r.s.Text(r.pt(u+half, v*r.away), words, st)
}

// extension draws the extension line at u from an object at v.
func (r row) extension(u, v Unit) {
	from, to := v+r.away*extensionGap, r.away*extensionOver
	if (to-from)*r.away > 0 {
		r.s.Line(Thin, r.pt(u, from), r.pt(u, to))
	}
}

// objectAt returns the place of the object at stop i.
func objectAt(from []Unit, i int) Unit {
	if len(from) == 1 {
		return from[0]
	}
	return from[i]
}

func (r row) tick(u Unit) {
	r.s.Line(Medium, r.pt(u-tickReach, -tickReach), r.pt(u+tickReach, tickReach))
}

// arrow draws an arrowhead with its tip at u, pointing towards dir along the line.
func (r row) arrow(u, dir Unit) {
	back := u - dir*arrowLength
	r.s.Fill(Black, NoPen, r.pt(u, 0), r.pt(back, arrowHalf), r.pt(back, -arrowHalf))
}

// Figure lowers the chain to marks.
func (c Chain) Figure() Figure {
	n := len(c.Stops)
	if n < 2 || len(c.Labels) != n-1 || (len(c.From) > 1 && len(c.From) != n) {
		panic(
			"drawing: a chain needs two stops or more, a label for each bay, and one place of the object or one for " +
				"each stop",
		)
	}
	var s Scene
	r := newRow(&s, c.Vertical, c.At, c.From, c.Size, c.Face, c.Lo, c.Hi)
	for i, stop := range c.Stops {
		if len(c.From) > 0 {
			r.extension(r.along(stop), r.side(objectAt(c.From, i)))
		}
	}
	first, last := r.along(c.Stops[0]), r.along(c.Stops[n-1])
	lo, hi := min(first, last), max(first, last)
	over := Unit(0)
	if c.Ends == Ticks {
		over = extensionGap
	}
	s.Line(Thin, r.pt(lo-over, 0), r.pt(hi+over, 0))
	r.ends(c.Stops, c.Ends)
	var shifted []label
	for i, words := range c.Labels {
		if words == "" {
			continue
		}
		words = Letter(words)
		a, b := r.along(c.Stops[i]), r.along(c.Stops[i+1])
		w := Width(c.Face, words, r.size)
		if w+2*bayPad <= max(a, b)-min(a, b) {
			r.level((a+b)/2, textLift, words, nth(c.Facts, i))
			continue
		}
		shifted = append(shifted, label{at: (a + b) / 2, width: w, words: words, fact: nth(c.Facts, i)})
	}
	r.secondLevel(shifted)
	return figure(s)
}

// nth is one of a list that may be shorter than what it goes with.
func nth(list []string, i int) string {
	if i < len(list) {
		return list[i]
	}
	return ""
}

// ends draws the ticks, or the arrowheads with a dot where the bay is too short for two of them.
func (r row) ends(stops []Unit, ends Ends) {
	short := func(i, k int) bool {
		d := stops[i] - stops[k]
		return max(d, -d) < 2*arrowLength+100
	}
	for i, stop := range stops {
		u := r.along(stop)
		switch {
		case ends == Ticks:
			r.tick(u)
		case i > 0 && short(i, i-1), i+1 < len(stops) && short(i, i+1):
			r.s.Dot(r.pt(u, 0), 55, Black)
		default:
			if i > 0 {
				r.arrow(u, direction(r.along(stops[i-1]), u))
			}
			if i+1 < len(stops) {
				r.arrow(u, direction(r.along(stops[i+1]), u))
			}
		}
	}
}

// direction is 1 or -1 along u.
func direction(from, to Unit) Unit {
	if to < from {
		return -1
	}
	return 1
}

// secondLevel places the labels that found no room in their bays.
func (r row) secondLevel(labels []label) {
	if len(labels) == 0 {
		return
	}
	sortLabels(labels)
	// Above the line the leaders must first clear the level labels; below it only the ends of the extension lines.
	clear := textLift + Unit(r.size) + 120
	if r.away < 0 {
		clear = extensionOver + 60
	}
	shift, fits := r.spread(labels, labelGap)
	turned := !fits || shift > upTo
	if turned {
		for i := range labels {
			labels[i].width = Unit(r.size)
		}
		shift, _ = r.spread(labels, turnedGap)
	}
	jog := jogFor(shift)
	base := clear + jog + 60
	for _, l := range labels {
		r.s.Line(Thin, r.pt(l.at, 0), r.pt(l.at, r.away*clear), r.pt(l.placed, r.away*(clear+jog)))
		switch {
		case turned:
			r.across(l.placed, base, l.words, l.fact)
		case r.away > 0:
			r.level(l.placed, base, l.words, l.fact)
		default:
			above, _ := inkOf(r.face, l.words, r.size)
			r.level(l.placed, -base-above, l.words, l.fact)
		}
	}
}

// jogFor gives leaders shifted by up to shift enough height to stay apart.
func jogFor(shift Unit) Unit {
	if shift == 0 {
		return 0
	}
	return min(max(shift/2, jogMin), jogMax)
}

// Figure lowers the running dimensions to marks.
func (d Running) Figure() Figure {
	n := len(d.Stops)
	if n < 1 || len(d.Labels) != n || (len(d.From) > 1 && len(d.From) != n) {
		panic(
			"drawing: running dimensions need a datum, a label for each stop, and one place of the object or one for " +
				"each stop",
		)
	}
	var s Scene
	r := newRow(&s, d.Vertical, d.At, d.From, d.Size, d.Face, d.Lo, d.Hi)
	datum := r.along(d.Stops[0])
	labels := make([]label, n)
	lo, hi := datum, datum
	for i, stop := range d.Stops {
		u := r.along(stop)
		lo, hi = min(lo, u), max(hi, u)
		labels[i] = label{at: u, width: Unit(r.size), words: Letter(d.Labels[i]), fact: nth(d.Facts, i)}
		if len(d.From) > 0 {
			r.extension(u, r.side(objectAt(d.From, i)))
		} else {
			s.Line(Thin, r.pt(u, 0), r.pt(u, r.away*extensionOver))
		}
	}
	if hi > lo {
		s.Line(Thin, r.pt(lo, 0), r.pt(hi, 0))
	}
	r.runningEnds(d.Stops, d.Ends)
	s.Add(Arc{Pen: Medium, Centre: r.pt(datum, 0), R: 100, To: 3600, Fill: White})
	sortLabels(labels)
	shift, _ := r.spread(labels, turnedGap)
	jog := jogFor(shift)
	for _, l := range labels {
		if jog > 0 {
			s.Line(Thin, r.pt(l.at, r.away*extensionOver), r.pt(l.placed, r.away*(extensionOver+jog)))
		}
		r.across(l.placed, extensionOver+jog+70, l.words, l.fact)
	}
	return figure(s)
}

// runningEnds marks every stop but the datum, arrowheads pointing away from the datum.
func (r row) runningEnds(stops []Unit, ends Ends) {
	datum := r.along(stops[0])
	for i, stop := range stops[1:] {
		u := r.along(stop)
		crowded := false
		for k, other := range stops {
			o := r.along(other)
			if k != i+1 &&
				(u > datum && o <= u && u-o < arrowLength+120 || u < datum && o >= u && o-u < arrowLength+120) {
				crowded = true
			}
		}
		switch {
		case u == datum:
		case ends == Ticks:
			r.tick(u)
		case crowded:
			r.s.Dot(r.pt(u, 0), 55, Black)
		default:
			r.arrow(u, direction(datum, u))
		}
	}
}

// pointer draws an arrowhead at tip, on a line that comes from another point.
func pointer(s *Scene, from, tip Point) {
	dx, dy := float64(from.X-tip.X), float64(from.Y-tip.Y)
	l := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if l == 0 {
		return
	}
	at := func(along, across float64) Point {
		x := float64(float64(dx*along)-float64(dy*across)) / l
		y := float64(float64(dy*along)+float64(dx*across)) / l
		return Point{tip.X + Unit(math.Round(x)), tip.Y + Unit(math.Round(y))}
	}
	s.Fill(
		Black,
		NoPen,
		tip,
		at(float64(arrowLength), float64(arrowHalf)),
		at(float64(arrowLength), -float64(arrowHalf)),
	)
}

// broadArrow returns the outline of an arrow with a shaft of twice half and a head of four times half.
func broadArrow(tail, head Point, half Unit) []Point {
	dx, dy := float64(head.X-tail.X), float64(head.Y-tail.Y)
	l := math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if l == 0 {
		return []Point{tail}
	}
	h := float64(half)
	neck := math.Max(l-float64(4*h), 0)
	at := func(along, across float64) Point {
		x := float64(float64(dx*along)-float64(dy*across)) / l
		y := float64(float64(dy*along)+float64(dx*across)) / l
		return Point{tail.X + Unit(math.Round(x)), tail.Y + Unit(math.Round(y))}
	}
	return []Point{at(0, h), at(neck, h), at(neck, 2*h), head, at(neck, -2*h), at(neck, -h), at(0, -h)}
}
