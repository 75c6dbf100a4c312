package view

import (
	"strconv"
	"sync"

	"copingset/drawing"
	"copingset/drawing/block"
	"copingset/drawing/words"
)

// Keyed is a drawing to scale with a list beside it or below, its caption under the
// drawing, as a block: how large it is at a scale is known before it is drawn.
type Keyed struct {
	ID, Title, About string
	titleFact        string       // the names of the facts that the title letters
	under            drawing.Said // said below the title
	say              words.Book
	metric           bool
	finest, coarsest int64                            // scales worth trying, building over paper
	extent           func(ratio float64) drawing.Rect // what the drawing takes with all its words
	draw             func(ratio float64) keyedDrawing // within that
	list             keyedList
	kept             drawing.Unit // lines kept for words that may lose their place
	beside           drawing.Unit // width of the list beside the drawing
	below            bool         // the list stands below rather than beside, where it has the choice

	once sync.Once // its ways are worked out once, whoever asks
	ways []keyedLay
}

// keyedDrawing is what is drawn at a scale, and the words that found no room.
type keyedDrawing struct {
	marks []drawing.Mark
	lost  []block.Note
}

// keyedGap stands between a drawing and its list.
const keyedGap drawing.Unit = 300

// Key is a digest of all it draws from.
func (k *Keyed) Key() string { return k.ID }

// lay is how the block stands at one scale.
type keyedLay struct {
	scale Scale
	cut   drawing.Rect // the drawing with its words, from its own origin
	foot  drawing.Unit // of the caption under it
	wide  drawing.Unit // of drawing and caption
	list  drawing.Rect // from the block's upper left corner
	size  block.Size
}

// lays are the ways it can stand, those of the largest scale first, the list beside
// the drawing before that below it.
func (k *Keyed) lays() []keyedLay {
	k.once.Do(func() { k.ways = k.layOut() })
	return k.ways
}

// keyedWay is how its list stands: in a width beside the drawing, or below it in some
// columns.
type keyedWay struct {
	beside  drawing.Unit
	columns drawing.Unit
}

// listWays are the ways its list can stand.
func (k *Keyed) listWays() []keyedWay {
	beside := []keyedWay{{beside: k.beside}, {beside: 2 * k.beside}}
	below := []keyedWay{{columns: 1}, {columns: 2}}
	if k.below {
		return append(below, beside[0])
	}
	return append(beside, below...)
}

func (k *Keyed) layOut() []keyedLay {
	var out []keyedLay
	for _, sc := range Scales(k.metric) {
		if sc.Ratio < k.finest || sc.Ratio > k.coarsest {
			continue
		}
		for _, way := range k.listWays() {
			l := keyedLay{scale: sc, cut: k.extent(float64(sc.Ratio))}
			l.wide = max(l.cut.Width(), keyedLeast)
			beside := way.beside
			if beside == 0 {
				l.wide = max(l.wide, way.columns*k.list.least()+30)
			}
			var pad drawing.Scene
			l.foot = captioned(k.say, &pad, k.metric, drawing.Point{}, l.wide-60, k.caption(), k.under,
				sc).Height() + 300
			high := l.cut.Height() + l.foot
			lines := k.kept * drawing.Note.Line()
			switch {
			case k.list.empty() && way.columns != 1:
				continue
			case k.list.empty():
				l.size = block.Size{W: l.wide, H: high}
			case beside > 0:
				h := k.list.height(beside) + lines
				l.list = drawing.Box(l.wide+keyedGap, 0, l.wide+keyedGap+beside, h)
				l.size = block.Size{W: l.list.Max.X, H: max(high, h)}
			default:
				h := k.list.height(l.wide-30) + lines
				l.list = drawing.Box(30, high+150, l.wide, high+150+h)
				l.size = block.Size{W: l.wide, H: l.list.Max.Y}
			}
			l.size.Scale, l.size.Notes = sc.Ratio, int(k.kept)
			out = append(out, l)
		}
	}
	return out
}

// caption is the title as it is lettered.
func (k *Keyed) caption() drawing.Said { return drawing.Said{Words: k.Title, Fact: k.titleFact} }

// keyedLeast is the least width of a caption.
const keyedLeast drawing.Unit = 7000

// Sizes are the ways it can stand.
func (k *Keyed) Sizes(drawing.Unit) []block.Size {
	var out []block.Size
	for _, l := range k.lays() {
		out = append(out, l.size)
	}
	return out
}

// Draw draws it at one of its sizes.
func (k *Keyed) Draw(z block.Size) block.Drawn {
	for _, l := range k.lays() {
		if l.size == z {
			return k.drawn(l)
		}
	}
	panic("view: " + k.ID + " has no such size")
}

func (k *Keyed) drawn(l keyedLay) block.Drawn {
	got := k.draw(float64(l.scale.Ratio))
	at := drawing.Pt((l.wide-l.cut.Width())/2, 0).Sub(l.cut.Min)
	s := drawing.Scene{Marks: drawing.Translate(got.marks, at)}
	out := block.Drawn{About: k.About}
	s.Group(drawing.Lettering, "", func(g *drawing.Scene) {
		captioned(k.say, g, k.metric, drawing.Pt(30, l.cut.Height()+100), l.wide-60, k.caption(), k.under, l.scale)
		if l.list.Empty() && len(got.lost) == 0 {
			return
		}
		y := k.list.draw(g, l.list)
		line := drawing.Note.Line()
		for _, n := range got.lost {
			lines := drawing.Wrap(drawing.Letter(n.Words), drawing.Regular, drawing.Note, l.list.Width()-100)
			if y+drawing.Unit(len(lines))*line > l.list.Max.Y+50 {
				out.Notes = append(out.Notes, n)
				continue
			}
			for _, words := range lines {
				g.Text(drawing.Pt(l.list.Min.X, y+drawing.Unit(drawing.Note)), words, drawing.Style{Fact: n.Fact})
				y += line
			}
		}
	})
	out.Marks = s.Marks
	return out
}

// Scene is the drawing by itself, as large as a room allows.
func (k *Keyed) Scene(name string, w, h drawing.Unit) drawing.Scene {
	all := k.lays()
	best := all[len(all)-1]
	for _, l := range all {
		if l.size.W <= w && l.size.H <= h {
			best = l
			break
		}
	}
	d := k.drawn(best)
	return drawing.Scene{Name: name, Title: k.Title, Desc: k.About, W: best.size.W, H: best.size.H, Marks: d.Marks}
}

// keyedList is a list of numbered items, notes and holds.
type keyedList struct {
	items, notes, holds []drawing.Said
	figures             []entry      // drawings under the items, narrower than a column
	column              drawing.Unit // least width of a column; zero: what text needs
}

func (k keyedList) empty() bool {
	return len(k.items)+len(k.notes)+len(k.holds)+len(k.figures) == 0
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
	for i, item := range k.items {
		lines := drawing.Wrap(drawing.Letter(item.Words), drawing.Regular, drawing.Note, width-numberColumn-100)
		out = append(out, entry{max(720, 200+drawing.Unit(len(lines))*line), func(g *drawing.Scene, at drawing.Point) {
			g.Draw(drawing.Balloon{At: drawing.Point{X: at.X + 340, Y: at.Y + 350}, Words: strconv.Itoa(i + 1),
				Size: drawing.Note}.Figure())
			for n, words := range lines {
				g.Text(drawing.Point{X: at.X + numberColumn, Y: at.Y + 350 + drawing.Unit(drawing.Note)/2 +
					drawing.Unit(n)*line}, words, drawing.Style{Fact: item.Fact})
			}
		}})
	}
	out = append(out, k.figures...)
	for _, note := range k.notes {
		lines := drawing.Wrap(drawing.Letter(note.Words), drawing.Regular, drawing.Note, width-100)
		out = append(out, entry{150 + drawing.Unit(len(lines))*line, func(g *drawing.Scene, at drawing.Point) {
			for n, words := range lines {
				g.Text(drawing.Point{X: at.X, Y: at.Y + 120 + drawing.Unit(drawing.Note) + drawing.Unit(n)*line}, words,
					drawing.Style{Fact: note.Fact})
			}
		}})
	}
	for _, h := range k.holds {
		words := drawing.Letter(h.Words)
		// The stripes take up to a sixth of the banner at each end.
		n := len(drawing.Wrap(words, drawing.Bold, drawing.Note, (width-200)*2/3-400))
		high := 480 + drawing.Unit(n)*line
		out = append(out, entry{high + 120, func(g *drawing.Scene, at drawing.Point) {
			g.Draw(drawing.HoldBanner{Box: drawing.Box(at.X+50, at.Y+60, at.X+width-150, at.Y+60+high),
				Words: words, Fact: h.Fact}.Figure())
		}})
	}
	return out
}

// columns is how many columns the list is set in at a width.
func (k keyedList) columns(width drawing.Unit) drawing.Unit { return max(1, width/k.least()) }

// least is the least width of a column.
func (k keyedList) least() drawing.Unit {
	if k.column > 0 {
		return k.column
	}
	return 66 * drawing.MM
}

// draw sets the entries in columns, each as high as the highest has to be, and says
// where the last one ends.
func (k keyedList) draw(g *drawing.Scene, box drawing.Rect) drawing.Unit {
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
	return box.Min.Y + high
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
