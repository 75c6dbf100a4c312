package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"copingset/drawing"
	"copingset/drawing/place"
	"copingset/drawing/words"
	"copingset/layout/plan"
)

// SameBends reports whether two bodies are bent alike: at the same distances
// from the street edge, in the same order, by the same angles.
func SameBends(a, b plan.Blank) bool {
	if len(a.Bends) != len(b.Bends) || a.Girth != b.Girth || len(a.Bends) == 0 {
		return false
	}
	for i, p := range a.Bends {
		q := b.Bends[i]
		if !p.Level || !q.Level || p.Across || q.Across ||
			BendWords(words.Book{}, p.Hem, p.Turn, p.Radius) != BendWords(words.Book{}, q.Hem, q.Turn, q.Radius) ||
			p.FromStreet != q.FromStreet ||
			p.Between != q.Between {
			return false
		}
	}
	return true
}

// Room in a row.
const (
	distAt       drawing.Unit = 700  // the line of the distances, from the blank
	distLead     drawing.Unit = 1150 // its leaders
	handWide     drawing.Unit = 850  // a large L or R
	betweenAlike drawing.Unit = 2200 // between bodies bent alike
	nameHigh     drawing.Unit = 520  // the name of a body
	heldHigh     drawing.Unit = 1250 // the flag of one that is not released
)

// FlatRow is the flat patterns of several bodies next to each other, at one
// scale, their street edges in line. Bodies bent alike share the distances at
// the left of the first and the labels at the right of the last; where others
// stand in a row, all but the last bent one have the numbers of their bends alone.
type FlatRow struct {
	say    words.Book
	W, H   drawing.Unit
	metric bool
	title  string
	name   string
	scale  Scale
	bodies []flat
	head   drawing.Unit
}

// NewFlatRow plans a row at a scale, long blanks broken where nothing happens
// so that it is no wider than w. It fails where they cannot be.
func NewFlatRow(say words.Book, name, title string, bodies []plan.Pattern, sc Scale, w drawing.Unit) (FlatRow, bool) {
	r := flatRow(say, name, title, bodies, float64(sc.Ratio))
	r.scale = sc
	ok := r.breakTo(w, keepWell)
	if !ok {
		for i := range r.bodies {
			r.bodies[i].m.breaks = nil
		}
		ok = r.breakTo(w, keepLeast)
	}
	r.measure(w)
	return r, ok
}

func flatRow(say words.Book, name, title string, bodies []plan.Pattern, ratio float64) FlatRow {
	r := FlatRow{say: say, name: name, title: title, metric: len(bodies) > 0 && bodies[0].Metric}
	for i, x := range bodies {
		d := flat{say: say, Pattern: x, st: BlankStyle(x.Metric)}
		d.lo, d.hi = x.Bounds()
		d.m = flatMap{ratio: ratio, hi: d.hi.Y}
		d.as = i > 0 && SameBends(bodies[i-1].Blank, x.Blank)
		r.bodies = append(r.bodies, d)
	}
	for i := range r.bodies {
		d := &r.bodies[i]
		e := d.Sides
		last := i == len(r.bodies)-1
		d.left, d.right = betweenAlike/2, betweenAlike/2
		if !d.as {
			d.left = d.dimensioned() + 200
		}
		if !r.continued(i) {
			d.right = d.labelled(r.bentAfter(i)) + 200
		}
		for _, x := range []struct {
			words string
			room  *drawing.Unit
			shown bool
		}{{e.Left, &d.left, !d.Joined}, {e.Right, &d.right, last || !r.bodies[i+1].Joined}} {
			switch {
			case !x.shown:
			case len(x.words) > 1:
				*x.room += drawing.Width(drawing.Bold, x.words, drawing.Head) + 400
			case *x.room > betweenAlike/2 || len(d.Bends) == 0:
				*x.room += handWide
			default:
				*x.room += handWide / 2
			}
		}
	}
	return r
}

// continued reports whether the body after another is bent like it.
func (r *FlatRow) continued(i int) bool { return i+1 < len(r.bodies) && r.bodies[i+1].as }

// bentAfter reports whether a body further right has bends.
func (r *FlatRow) bentAfter(i int) bool {
	return slices.ContainsFunc(r.bodies[i+1:], func(d flat) bool { return len(d.Bends) > 0 })
}

// wide is the paper a body takes without what is left out of it.
func (d *flat) wide() drawing.Unit { return d.m.x(d.hi.X) - d.m.x(0) }

// slot is the room of a body with what stands beside it and over it.
func (d *flat) slot() (left, right drawing.Unit) {
	phrase := max(
		drawing.Width(drawing.Bold, d.Title, drawing.Head),
		drawing.Width(drawing.Bold, strings.ToUpper(d.Sides.Top), drawing.Head),
	)
	least := (phrase-d.wide())/2 + 200
	return max(d.left, least), max(d.right, least)
}

func (r *FlatRow) natural() drawing.Unit {
	var w drawing.Unit
	for i := range r.bodies {
		w += r.bodies[i].across()
	}
	return w
}

// across is what a body takes of its row, with what is lettered beside it.
func (d *flat) across() drawing.Unit {
	a, z := d.slot()
	return a + d.wide() + z
}

// measure sets the size of the row.
func (r *FlatRow) measure(w drawing.Unit) {
	r.W = max(r.natural(), min(w, 15000))
	var probe drawing.Scene
	r.head = r.caption(&probe).Max.Y + 250
	if slices.ContainsFunc(r.bodies, func(d flat) bool { return d.Held }) {
		r.head += heldHigh
	}
	r.head += r.names()
	r.H = r.head
	for i := range r.bodies {
		r.H = max(r.H, r.head+flatTop+r.bodies[i].high()+r.bodies[i].below())
	}
}

// names is the room of the names over the bodies.
func (r *FlatRow) names() drawing.Unit {
	if slices.ContainsFunc(r.bodies, func(d flat) bool { return d.Title != "" }) {
		return nameHigh
	}
	return 0
}

// high is the height of the highest body on paper.
func (r *FlatRow) high() drawing.Unit {
	var h drawing.Unit
	for i := range r.bodies {
		h = max(h, r.bodies[i].high())
	}
	return h
}

// Readable reports whether bends lie far enough apart on paper to be told from
// each other.
func (r *FlatRow) Readable() bool {
	const least = 42 * drawing.MM
	return r.scale.Ratio > 0 && (r.high() >= least || r.scale.Ratio <= 5)
}

// Scale of the row.
func (r *FlatRow) Scale() Scale { return r.scale }

// breakTo leaves stretches out, the longest first, until the row is no wider
// than w.
func (r *FlatRow) breakTo(w, keep drawing.Unit) bool {
	all := r.natural()
	if all <= w {
		return true
	}
	return r.broken(all, w, keep)
}

// broken breaks the longest bays of a row that takes so much until it is no wider than w.
func (r *FlatRow) broken(natural, w, keep drawing.Unit) bool {
	type bay struct {
		body int
		x    [2]float64
	}
	var all []bay
	for i := range r.bodies {
		for _, x := range r.bodies[i].bays() {
			all = append(all, bay{i, x})
		}
	}
	slices.SortStableFunc(all, func(a, b bay) int { return cmp.Compare(b.x[1]-b.x[0], a.x[1]-a.x[0]) })
	for _, q := range all {
		over := natural - w
		if over <= 0 {
			break
		}
		d := &r.bodies[q.body]
		long := drawing.Round((q.x[1] - q.x[0]) / d.m.ratio)
		gone := min(over+breakGap, long-2*keep)
		if gone < 2*breakGap {
			continue
		}
		natural -= d.across()
		cut := gone.Millimetres() * d.m.ratio
		mid := (q.x[0] + q.x[1]) / 2
		d.m.breaks = append(d.m.breaks, [2]float64{mid - cut/2, mid + cut/2})
		slices.SortFunc(d.m.breaks, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		natural += d.across()
	}
	return natural <= w
}

// under says what the lines mean, and once what is cut at a ring.
func (r *FlatRow) under() drawing.Said {
	said, facts := []string{r.say.Say(words.FlatLines)}, ""
	if slices.ContainsFunc(r.bodies, func(d flat) bool { return !d.Square }) {
		said = append(said, r.say.Say(words.FlatCorners))
	}
	for i := range r.bodies {
		if relief := r.bodies[i].reliefWords(); relief != "" {
			said, facts = append(said, relief), r.bodies[i].Relief.Facts()
			break
		}
	}
	return drawing.Said{Words: strings.Join(said, " "), Fact: facts}
}

// caption letters the title with the scale beside it where there is room, and
// what the lines mean.
func (r *FlatRow) caption(s *drawing.Scene) drawing.Rect {
	w := r.W - 100
	title := drawing.Letter(r.title)
	wide := drawing.Width(drawing.Bold, title, drawing.Head)
	phrase := drawing.Letter(r.say.Say(words.FrameScaleOf, words.In("scale", r.scale.Name)))
	if r.scale.Ratio <= 0 || wide+drawing.Width(drawing.Bold, phrase, drawing.Note)+7000 > w {
		return captioned(r.say, s, r.metric, drawing.Pt(50, 50), w, drawing.Said{Words: r.title}, r.under(), r.scale)
	}
	t := s.Text(
		drawing.Pt(50, 50+drawing.Unit(drawing.Head)+100),
		title,
		drawing.Style{Size: drawing.Head, Face: drawing.Bold},
	)
	box := drawing.BoundsOf([]drawing.Mark{t})
	s.Line(drawing.Medium, drawing.Pt(50, box.Max.Y+90), drawing.Pt(box.Max.X, box.Max.Y+90))
	t = s.Text(drawing.Pt(box.Max.X+700, box.Max.Y), phrase, drawing.Style{Face: drawing.Bold})
	stops, labels := scaleStops(r.metric, r.scale, min(w-wide-drawing.Unit(t.Width)-1800, 45*drawing.MM))
	bar := drawing.ScaleBar{
		At:     drawing.Pt(t.At.X+t.Width+700, box.Max.Y-60),
		Stops:  stops,
		Labels: labels,
		Size:   drawing.Small,
	}
	s.Draw(bar.Figure())
	box.Max.Y += 90
	under := r.under()
	return box.Union(s.Paragraph(drawing.Pt(50, box.Max.Y+480), under.Words, w, drawing.Style{Fact: under.Fact}))
}

// Draw draws the row. What found no room beside the blanks stands below them,
// so that the scene may be higher than planned.
func (r FlatRow) Draw() drawing.Scene {
	s := drawing.Scene{Name: "flat-" + fileName(r.name), Title: r.title, W: r.W}
	s.Desc = r.say.Say(words.FlatAbout, words.In("title", r.title))
	r.caption(&s)
	p := place.New(drawing.Box(0, r.head-nameHigh, r.W, r.H))
	all := !slices.ContainsFunc(r.bodies, func(d flat) bool { return !d.Held })
	x := drawing.Unit(0)
	for i := range r.bodies {
		d := &r.bodies[i]
		a, z := d.slot()
		d.s, d.p = &s, p
		d.m.o = drawing.Pt(x+a, r.head+flatTop)
		d.outline()
		if d.Held && (i == 0 || !all) {
			flag := drawing.HoldFlag{
				At:    drawing.Pt(d.box.Min.X, d.box.Min.Y-flatTop-heldHigh-r.names()),
				Words: r.say.Say(words.FlatHeld),
			}
			if !all {
				flag.Words = r.say.Say(words.FlatHeldOne)
			}
			s.Draw(flag.Figure())
		}
		x += a + d.wide() + z
	}
	var foot drawing.Unit
	for i := range r.bodies {
		d := &r.bodies[i]
		if d.as {
			r.alike(i)
		}
		d.lengths()
		foot = max(foot, d.foot)
	}
	for i := range r.bodies {
		d := &r.bodies[i]
		mid := d.box.Centre().Y
		left, right := d.box.Min.X-d.left, d.box.Max.X+d.right
		at, far := d.box.Min.X, d.box.Max.X
		if !d.as {
			at = d.distances().Min.X
		}
		if !r.continued(i) {
			far = d.bendLabels(r.bentAfter(i))
		}
		last := i == len(r.bodies)-1
		if !d.Joined {
			d.side(
				d.Sides.Left,
				drawing.Box(max(0, left), d.box.Min.Y-1500, max(at, left+1400), d.box.Max.Y+1500),
				drawing.Pt((left+at)/2, mid),
			)
		}
		if last || !r.bodies[i+1].Joined {
			d.side(
				d.Sides.Right,
				drawing.Box(d.box.Max.X+300, d.box.Min.Y-1500, min(r.W, right+400), d.box.Max.Y+1500),
				drawing.Pt((far+right)/2, mid),
			)
		}
	}
	for i := range r.bodies {
		r.bodies[i].points()
		r.bodies[i].faces()
	}
	s.H = max(foot, s.Bounds().Max.Y+50) // crowded bends are lettered on past the foot
	for _, n := range p.Notes() {        // nothing is dropped: what found no room stands under the drawing
		s.Text(drawing.Pt(50, s.H+drawing.Unit(drawing.Note)), fmt.Sprintf("%d: %s", n.N, n.Words), drawing.Style{})
		s.H += drawing.Note.Line() + 60
	}
	return s
}

// alike draws the bends of a body on to those of the body before it, which is
// bent at the same places.
func (r *FlatRow) alike(i int) {
	d, before := &r.bodies[i], &r.bodies[i-1]
	for k, q := range d.Bends {
		a, b := before.m.at(before.Bends[k].Right), d.m.at(q.Left)
		a.X, b.X = a.X+150, b.X-150
		if b.X <= a.X {
			continue
		}
		d.s.Line(drawing.Thin, a, b)
		d.p.Stroke(50, a, b)
	}
}

// FlatPattern draws one blank of a family by itself, as large as a room allows.
func FlatPattern(say words.Book, mark string, b plan.Pattern, w, h drawing.Unit) drawing.Scene {
	title := say.Say(words.FlatTitle, words.In("mark", mark))
	if b.Title != "" || b.Name != "cap" {
		title = say.Say(words.FlatTitleBody, words.In("mark", mark), words.In("body", strings.ToUpper(b.Name)))
	}
	b.Title, b.Joined = "", false
	one := []plan.Pattern{b}
	name := mark + " " + b.Name
	for _, sc := range Scales(b.Metric) {
		if r, ok := NewFlatRow(say, name, title, one, sc, w); sc.Ratio > 1 && ok && r.H <= h {
			return r.Draw()
		}
	}
	return SmallFlatRow(say, name, title, one, w, h).Draw()
}

// SmallFlatRow is a row at no usual scale, for a room too small for any.
func SmallFlatRow(say words.Book, name, title string, bodies []plan.Pattern, w, h drawing.Unit) FlatRow {
	r := flatRow(say, name, title, bodies, 1)
	var long, high float64
	var beside drawing.Unit
	for i := range r.bodies {
		d := &r.bodies[i]
		long += d.hi.X
		high = max(high, d.hi.Y)
		beside += d.left + d.right
	}
	ratio := math.Max(
		long/max(w-beside, 2000).Millimetres(),
		high/max(h-flatTop-flatFoot-27*drawing.MM, 2000).Millimetres(),
	)
	r = flatRow(say, name, title, bodies, ratio)
	r.scale.Name = say.Say(words.KeyplanNotScale)
	r.measure(w)
	return r
}
