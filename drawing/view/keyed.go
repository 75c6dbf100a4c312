package view

import (
	"slices"
	"strconv"

	"copingset/drawing"
)

// keyedView is a drawing to scale with a list of numbered items beside it or
// below, its caption under the drawing.
type keyedView struct {
	title, under string
	metric       bool
	draw         keyedDraw
	least        func(ratio float64) (w, h drawing.Unit) // room the drawing takes without its words; nil: not known
	finest       int64                                   // largest scale worth trying, as building over paper
	narrowest    drawing.Unit                            // of the list beside the drawing
	list         keyedList
}

// keyedDraw draws at a scale; lost are the words without room, for the list.
// With a room it keeps them in it, without one it takes what they need.
type keyedDraw func(ratio float64, room drawing.Point) (marks []drawing.Mark, lost []string)

// keyedPlan is one way to share out the room.
type keyedPlan struct {
	cut, text drawing.Rect
	scale     Scale
	marks     []drawing.Mark
	lost      []string
}

// better prefers a usual scale over none, then the larger, of drawings at one
// scale the one with more of its words.
func (p keyedPlan) better(than keyedPlan) bool {
	switch {
	case than.marks == nil:
		return true
	case (p.scale.Ratio > 0) != (than.scale.Ratio > 0):
		return p.scale.Ratio > 0
	case p.scale.Ratio != than.scale.Ratio:
		return p.scale.Ratio < than.scale.Ratio
	}
	return len(p.lost) < len(than.lost)
}

// scene is the view in a room, tight if it has to be.
func (k keyedView) scene(w, h drawing.Unit) drawing.Scene {
	if s, ok := k.roomy(w, h); ok {
		return s
	}
	s, _ := k.arranged(w, h, true)
	return s
}

// roomy is the view in a room if its drawing has a usual scale there and the
// room its words need.
func (k keyedView) roomy(w, h drawing.Unit) (out drawing.Scene, ok bool) {
	return k.arranged(w, h, false)
}

// arranged shares out the room so that the drawing comes out largest. What
// finds no room on the drawing goes to the list, which then leaves less room
// for the drawing: it is shared out again until the list says it all.
func (k keyedView) arranged(w, h drawing.Unit, tight bool) (out drawing.Scene, ok bool) {
	notes := k.list.notes
	var best keyedPlan
	for n := 0; ; n++ {
		best = k.share(w, h, tight)
		if best.marks == nil {
			return out, false
		}
		var missing []string
		for _, words := range best.lost {
			if !slices.Contains(k.list.notes, words) {
				missing = append(missing, words)
			}
		}
		if len(missing) == 0 {
			break
		}
		if n < 6 {
			k.list.notes = append(slices.Clone(notes), best.lost...)
			continue
		}
		// The room and the words chase each other: what was once without room stays in the list.
		k.list.notes = append(k.list.notes, missing...)
	}
	out = drawing.Scene{W: w, H: h, Squeezed: best.scale.Ratio <= 0}
	b := drawing.BoundsOf(best.marks)
	out.Add(drawing.Translate(best.marks, best.cut.Centre().Sub(b.Centre()))...)
	out.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		captioned(g, k.metric, drawing.Point{X: best.cut.Min.X + 200, Y: best.cut.Max.Y + 150}, best.cut.Width()-400, k.title, k.under, best.scale)
		k.list.draw(g, best.text)
	})
	return out, true
}

// remembered draws each scale once in a room: the same is asked for by every way
// to share it out, and by every room that a sheet tries. Whoever makes a view wraps
// its drawing.
func remembered(draw keyedDraw) keyedDraw {
	type asked struct {
		ratio float64
		room  drawing.Point
	}
	type drawn struct {
		marks []drawing.Mark
		lost  []string
	}
	seen := map[asked]drawn{}
	return func(ratio float64, room drawing.Point) ([]drawing.Mark, []string) {
		k := asked{ratio, room}
		d, ok := seen[k]
		if !ok {
			d.marks, d.lost = draw(ratio, room)
			seen[k] = d
		}
		return d.marks, d.lost
	}
}

// share tries the list beside the drawing, at several widths, and below it. It
// has no marks if none gives the drawing the room it needs, unless it may be
// tight.
func (k keyedView) share(w, h drawing.Unit, tight bool) keyedPlan {
	var best keyedPlan
	for _, percent := range []drawing.Unit{46, 42, 38, 34, 30, 0} {
		var p keyedPlan
		x := w - w*percent/100
		var pad drawing.Scene
		foot := captioned(&pad, k.metric, drawing.Point{}, x-400, k.title, k.under, Scales(k.metric)[0]).Height() + 250
		if percent > 0 {
			p.text = drawing.Box(x+300, 0, w, h)
			p.cut = drawing.Box(0, 0, x, h-foot)
			if p.text.Width() < k.narrowest || k.list.height(p.text.Width()) > h {
				continue
			}
		} else {
			lh := k.list.height(w - 200)
			p.text = drawing.Box(100, h-lh, w, h)
			p.cut = drawing.Box(0, 0, w, max(h-lh-foot-300, 1))
		}
		if tight {
			k.squeeze(&p)
		} else {
			k.fit(&p)
		}
		if p.marks != nil && p.better(best) {
			best = p
		}
	}
	return best
}

// scales are the usual scales at which the drawing, its words left out, could
// lie in a box.
func (k keyedView) scales(box drawing.Rect) []Scale {
	var out []Scale
	for _, sc := range Scales(k.metric) {
		if sc.Ratio < k.finest || sc.Ratio > 60 {
			continue
		}
		if k.least != nil {
			if w, h := k.least(float64(sc.Ratio)); w > box.Width() || h > box.Height() {
				continue
			}
		}
		out = append(out, sc)
	}
	return out
}

// holds says that marks lie in the box of a drawing.
func (p *keyedPlan) holds(marks []drawing.Mark) bool {
	b := drawing.BoundsOf(marks)
	return b.Width()+100 <= p.cut.Width() && b.Height()+100 <= p.cut.Height()
}

// fit draws at the largest usual scale at which the drawing lies in its box; it
// leaves the marks empty if there is none.
func (k keyedView) fit(p *keyedPlan) {
	for _, sc := range k.scales(p.cut) {
		if marks, lost := k.draw(float64(sc.Ratio), drawing.Point{}); p.holds(marks) {
			p.scale, p.marks, p.lost = sc, marks, lost
			return
		}
	}
}

// saved is how many words a tight drawing must find room for to go down one
// scale.
const saved = 3

// squeeze keeps the words in the box, where they spread too far at any scale:
// at a scale that leaves room for most of them without making the drawing
// small.
func (k keyedView) squeeze(p *keyedPlan) {
	room := drawing.Point{X: p.cut.Width() - 100, Y: p.cut.Height() - 100}
	least := -1
	for n, sc := range k.scales(p.cut) {
		marks, lost := k.draw(float64(sc.Ratio), room)
		if cost := len(lost) + n*saved; p.holds(marks) && (least < 0 || cost < least) {
			p.scale, p.marks, p.lost, least = sc, marks, lost, cost
		}
	}
	if least >= 0 {
		return
	}
	// Nothing usual fits: as large as it goes, and said so.
	p.scale = Scale{Name: "not to scale"}
	for ratio := 2.0; ratio < 120; ratio *= 1.2 {
		if p.marks, p.lost = k.draw(ratio, room); p.holds(p.marks) {
			return
		}
	}
}

// keyedList is a list of numbered items, notes and holds.
type keyedList struct {
	items, notes, holds []string
	facts               map[string]string // what an item or a note letters, by its words; look-up only
	figures             []entry           // drawings under the items, narrower than a column
	column              drawing.Unit      // least width of a column; zero: what text needs
}

// entry is one block of a list, that stays together.
type entry struct {
	high drawing.Unit
	draw func(g *drawing.Scene, at drawing.Point)
}

// numberColumn is the column the numbers of a list stand in.
const numberColumn = 850

// entries are the list's blocks at a width.
func (k keyedList) entries(width drawing.Unit) []entry {
	var out []entry
	line := drawing.Size(drawing.Note).Line()
	for i, words := range k.items {
		fact := k.facts[words]
		lines := drawing.Wrap(drawing.Letter(words), drawing.Regular, drawing.Note, width-numberColumn-100)
		out = append(out, entry{max(720, 200+drawing.Unit(len(lines))*line), func(g *drawing.Scene, at drawing.Point) {
			g.Draw(drawing.Balloon{At: drawing.Point{X: at.X + 340, Y: at.Y + 350}, Words: strconv.Itoa(i + 1), Size: drawing.Note}.Figure())
			for n, words := range lines {
				g.Text(drawing.Point{X: at.X + numberColumn, Y: at.Y + 350 + drawing.Unit(drawing.Note)/2 + drawing.Unit(n)*line}, words, drawing.Style{Fact: fact})
			}
		}})
	}
	out = append(out, k.figures...)
	for _, words := range k.notes {
		fact := k.facts[words]
		lines := drawing.Wrap(drawing.Letter(words), drawing.Regular, drawing.Note, width-100)
		out = append(out, entry{150 + drawing.Unit(len(lines))*line, func(g *drawing.Scene, at drawing.Point) {
			for n, words := range lines {
				g.Text(drawing.Point{X: at.X, Y: at.Y + 120 + drawing.Unit(drawing.Note) + drawing.Unit(n)*line}, words, drawing.Style{Fact: fact})
			}
		}})
	}
	for _, h := range k.holds {
		words := drawing.Letter("HOLD: " + h)
		// The stripes take up to a sixth of the banner at each end.
		n := len(drawing.Wrap(words, drawing.Bold, drawing.Note, (width-200)*2/3-400))
		high := 480 + drawing.Unit(n)*line
		out = append(out, entry{high + 120, func(g *drawing.Scene, at drawing.Point) {
			g.Draw(drawing.HoldBanner{Box: drawing.Box(at.X+50, at.Y+60, at.X+width-150, at.Y+60+high), Words: words}.Figure())
		}})
	}
	return out
}

// columns is how many columns the list is set in at a width.
func (k keyedList) columns(width drawing.Unit) drawing.Unit {
	return max(1, width/max(k.column, 78*drawing.MM))
}

// draw sets the entries in columns, each as high as the highest has to be.
func (k keyedList) draw(g *drawing.Scene, box drawing.Rect) {
	w := box.Width() / k.columns(box.Width())
	high := k.height(box.Width())
	x, y := box.Min.X, box.Min.Y
	for _, e := range k.entries(w) {
		if y > box.Min.Y && y+e.high > box.Min.Y+high {
			x, y = x+w, box.Min.Y
		}
		e.draw(g, drawing.Point{X: x, Y: y})
		y += e.high
	}
}

// height is the room the list takes at a width.
func (k keyedList) height(width drawing.Unit) drawing.Unit {
	n := k.columns(width)
	all := k.entries(width / n)
	var sum, most drawing.Unit
	for _, e := range all {
		sum += e.high
		most = max(most, e.high)
	}
	for high := max(sum/n, most); ; high += 100 {
		used, y := drawing.Unit(1), drawing.Unit(0)
		for _, e := range all {
			if y > 0 && y+e.high > high {
				used, y = used+1, 0
			}
			y += e.high
		}
		if used <= n {
			return high
		}
	}
}
