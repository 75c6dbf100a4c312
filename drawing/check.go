package drawing

import (
	"fmt"
	"math"

	"copingset/fonts"
)

// Fault names what is wrong on a sheet.
type Fault string

// The faults Check looks for.
const (
	TextsOverlap Fault = "texts overlap"
	TextOnLine   Fault = "text crosses a thick line"
	TextCovered  Fault = "text is covered"
	OutsideSheet Fault = "outside the sheet"
	LetterTooLow Fault = "lettering under 2.4 mm"
	GlyphMissing Fault = "no glyph"
	WidthNotTrue Fault = "width is not that of the words"
	LinkNowhere  Fault = "link without a target"
	EmptyScene   Fault = "nothing is drawn"
	SumNotTrue   Fault = "printed parts do not sum"
)

// Problem is one fault found on a sheet, with where it is and what it concerns.
type Problem struct {
	Fault Fault
	Where Rect
	What  string
}

// String prints the problem in one line.
func (p Problem) String() string { return fmt.Sprintf("%s: %s (at %v)", p.Fault, p.What, p.Where) }

// tolerance is how far two inks may run into each other before it counts: a tenth of a
// millimetre, less than a pen is wide.
const tolerance = 10

// Check looks for what a reader of the sheet would stumble over: texts over texts, texts across
// wide lines, texts covered by a later fill, marks off the sheet, lettering too small or
// without a glyph. A fill that lies under the whole of a text hides what was drawn before it; a
// halo is no excuse.
func Check(s Scene) []Problem {
	c := checker{scene: s, sheet: Box(0, 0, s.W, s.H)}
	s.Walk(func(_ Layer, m Mark) {
		c.order++
		c.take(m)
	})
	if c.order == 0 {
		c.found = append(c.found, Problem{EmptyScene, c.sheet, s.Name})
	}
	c.sums(s.Marks)
	c.index()
	for i := range c.texts {
		c.text(i)
	}
	return c.found
}

// sums adds up every printed chain that a group carries.
func (c *checker) sums(marks []Mark) {
	for _, m := range marks {
		g, ok := m.(Group)
		if !ok {
			continue
		}
		for _, u := range g.Sums {
			if what := u.check(); what != "" {
				c.found = append(c.found, Problem{SumNotTrue, BoundsOf(g.Marks), what})
			}
		}
		c.sums(g.Marks)
	}
}

// placed is a text with the shape of its ink and its turn in drawing order.
type placed struct {
	Text
	quad  []Point
	box   Rect
	order int
}

// obstacle is a wide stroke or a fill.
type obstacle struct {
	pts   []Point
	half  Unit // half the width of a stroke
	box   Rect
	order int
	pen   Pen
}

type checker struct {
	scene   Scene
	sheet   Rect
	order   int
	texts   []placed
	strokes []obstacle
	fills   []obstacle
	found   []Problem

	cols, rows  int
	textCells   [][]int
	strokeCells [][]int
	fillCells   [][]int
}

func (c *checker) report(f Fault, where Rect, format string, args ...any) {
	c.found = append(c.found, Problem{f, where, fmt.Sprintf(format, args...)})
}

// inSheet reports a mark that leaves the sheet.
func (c *checker) inSheet(box Rect, half Unit, what string) {
	if !c.sheet.Contains(box.Inset(-half)) {
		c.report(OutsideSheet, box, "%s", what)
	}
}

func (c *checker) take(m Mark) {
	switch m := m.(type) {
	case Line:
		if len(m.Pts) == 0 {
			return
		}
		c.inSheet(boundsOf(m.Pts), m.Pen.Stroke().Width/2, m.Pen.String()+" line")
		c.wide(m.Pen, m.Pts, m.Closed)
	case Arc:
		c.inSheet(m.bounds(), m.Pen.Stroke().Width/2, m.Pen.String()+" arc")
		pts := m.flatten()
		c.wide(m.Pen, pts, false)
		if m.Full() && m.Fill != None {
			c.fills = append(c.fills, obstacle{pts: pts, box: m.bounds(), order: c.order})
		}
	case Region:
		for i, r := range m.Rings {
			c.inSheet(boundsOf(r), m.Pen.Stroke().Width/2, m.Pen.String()+" region")
			c.wide(m.Pen, r, true)
			if i == 0 && m.Fill != None && len(r) > 2 {
				c.fills = append(c.fills, obstacle{pts: r, box: boundsOf(r), order: c.order})
			}
		}
		if patternOf(m.Hatch).wide() {
			for _, l := range HatchLines(m.Hatch, m.Rings) {
				c.wide(l.Pen, l.Pts, false)
			}
		}
	case Text:
		c.lettering(m)
	case Link:
		c.inSheet(m.Box, 0, "link to "+m.Target)
		if m.Target == "" {
			c.report(LinkNowhere, m.Box, "link")
		}
	default:
		panic(unknown(m))
	}
}

// wide says that the pattern is drawn with a pen that lettering must not cross.
func (p pattern) wide() bool {
	for _, f := range p.families {
		if f.pen.wide() {
			return true
		}
	}
	return false
}

// lettering checks what a text can have wrong by itself.
func (c *checker) lettering(t Text) {
	quad := t.Quad()
	box := boundsOf(quad)
	if t.Words == "" {
		return
	}
	c.inSheet(box, 0, fmt.Sprintf("text %q", t.Words))
	if t.Size < Small {
		c.report(LetterTooLow, box, "text %q is %v mm tall", t.Words, Unit(t.Size))
	}
	if missing := fonts.Missing(t.Face, t.Words); len(missing) > 0 {
		c.report(GlyphMissing, box, "text %q: %q", t.Words, string(missing))
	}
	if w := Width(t.Face, t.Words, t.Size); w != t.Width {
		c.report(WidthNotTrue, box, "text %q is %v wide, the mark says %v", t.Words, w, t.Width)
	}
	c.texts = append(c.texts, placed{t, quad, box, c.order})
}

// wide keeps the strokes of a pen that lettering must not cross.
func (c *checker) wide(pen Pen, pts []Point, closed bool) {
	if !pen.wide() {
		return
	}
	n := len(pts) - 1
	if closed {
		n = len(pts)
	}
	for i := range n {
		seg := []Point{pts[i], pts[(i+1)%len(pts)]}
		half := pen.Stroke().Width / 2
		c.strokes = append(
			c.strokes, obstacle{pts: seg, half: half, box: boundsOf(seg).Inset(-half), order: c.order, pen: pen},
		)
	}
}

// flatten returns points along the arc, 7.5 degrees apart or less.
func (a Arc) flatten() []Point {
	from, to := a.From, a.To
	if a.Full() {
		from, to = 0, 3600
	}
	if to <= from {
		return nil
	}
	n := (to - from + 74) / 75
	pts := make([]Point, n+1)
	for i := range pts {
		pts[i] = Polar(a.Centre, a.R, from+(to-from)*i/n)
	}
	return pts
}

// cell is the width of a square of the grid that finds neighbours.
const cell = 20 * MM

// index sorts texts, strokes and fills into the squares they touch.
func (c *checker) index() {
	c.cols, c.rows = int(max(c.scene.W, 0)/cell)+1, int(max(c.scene.H, 0)/cell)+1
	fill := func(n int, box func(int) Rect) [][]int {
		cells := make([][]int, c.cols*c.rows)
		for i := range n {
			c.eachCell(box(i), func(k int) { cells[k] = append(cells[k], i) })
		}
		return cells
	}
	c.textCells = fill(len(c.texts), func(i int) Rect { return c.texts[i].box })
	c.strokeCells = fill(len(c.strokes), func(i int) Rect { return c.strokes[i].box })
	c.fillCells = fill(len(c.fills), func(i int) Rect { return c.fills[i].box })
}

// eachCell visits the squares a box touches; what lies off the sheet counts to the squares at its edge.
func (c *checker) eachCell(box Rect, visit func(int)) {
	col := func(x Unit) int { return min(max(int(x/cell), 0), c.cols-1) }
	row := func(y Unit) int { return min(max(int(y/cell), 0), c.rows-1) }
	for y := row(box.Min.Y); y <= row(box.Max.Y); y++ {
		for x := col(box.Min.X); x <= col(box.Max.X); x++ {
			visit(y*c.cols + x)
		}
	}
}

// near returns the members of the squares a box touches whose own boxes meet it, each once, in order.
func (c *checker) near(cells [][]int, box Rect, of func(int) Rect) []int {
	seen := map[int]bool{}
	var out []int
	c.eachCell(box, func(k int) {
		for _, i := range cells[k] {
			if !seen[i] && of(i).Intersects(box) {
				seen[i] = true
				out = append(out, i)
			}
		}
	})
	return out
}

// text compares one text with its neighbours.
func (c *checker) text(i int) {
	t := c.texts[i]
	// ground is the turn of the last fill that lies under the whole text; what was drawn before is hidden there.
	ground := 0
	for _, k := range c.near(c.fillCells, t.box, func(k int) Rect { return c.fills[k].box }) {
		f := c.fills[k]
		if f.order < t.order {
			if f.order > ground && under(t.quad, f.pts) {
				ground = f.order
			}
		} else if reaches(t.quad, f.pts) {
			c.report(TextCovered, t.box, "text %q, by a fill drawn later", t.Words)
		}
	}
	for _, k := range c.near(c.textCells, t.box, func(k int) Rect { return c.texts[k].box }) {
		o := c.texts[k]
		if k > i || k == i || o.order < ground {
			continue
		}
		if overlap(t.quad, o.quad, tolerance) {
			c.report(TextsOverlap, t.box, "texts %q and %q", o.Words, t.Words)
		}
	}
	for _, k := range c.near(c.strokeCells, t.box, func(k int) Rect { return c.strokes[k].box }) {
		l := c.strokes[k]
		if l.order < ground {
			continue
		}
		if overlap(t.Text.quad(l.half), l.pts, tolerance) {
			c.report(TextOnLine, t.box, "text %q, %v line", t.Words, l.pen)
			break
		}
	}
}

// under says whether every corner of the quad, drawn in by the tolerance, lies in the area.
func under(quad, area []Point) bool {
	mid := boundsOf(quad).Centre()
	for _, p := range quad {
		p.X += Unit(sign(int64(mid.X-p.X))) * tolerance
		p.Y += Unit(sign(int64(mid.Y-p.Y))) * tolerance
		if !within(p, area) {
			return false
		}
	}
	return true
}

// reaches says whether the area covers the middle of the quad or a corner of it, or has a corner in it.
func reaches(quad, area []Point) bool {
	if within(boundsOf(quad).Centre(), area) {
		return true
	}
	for i, p := range area {
		if overlap(quad, []Point{p, area[(i+1)%len(area)]}, tolerance) {
			return true
		}
	}
	return false
}

// within says whether a point lies in an area (even-odd).
func within(p Point, area []Point) bool {
	in := false
	for i, a := range area {
		b := area[(i+1)%len(area)]
		if (a.Y > p.Y) == (b.Y > p.Y) {
			continue
		}
		// The side of p on the edge from the lower to the higher end.
		if a.Y > b.Y {
			a, b = b, a
		}
		if int64(b.X-a.X)*int64(p.Y-a.Y)-int64(p.X-a.X)*int64(b.Y-a.Y) > 0 {
			in = !in
		}
	}
	return in
}

// overlap says whether two convex shapes (a rectangle of any turn, or a stroke of two points)
// run into each other by more than tol. They do not if along the normal of some side they keep
// apart (separating axis theorem).
func overlap(a, b []Point, tol float64) bool {
	return !apart(a, a, b, tol) && !apart(b, a, b, tol)
}

func apart(sides, a, b []Point, tol float64) bool {
	for i, p := range sides {
		q := sides[(i+1)%len(sides)]
		nx, ny := int64(p.Y-q.Y), int64(q.X-p.X)
		if nx == 0 && ny == 0 {
			continue
		}
		a0, a1 := shadow(a, nx, ny)
		b0, b1 := shadow(b, nx, ny)
		depth := float64(min(a1-b0, b1-a0)) // how far one must move to clear the other
		if depth <= tol*math.Hypot(float64(nx), float64(ny)) {
			return true
		}
	}
	return false
}

func shadow(pts []Point, nx, ny int64) (lo, hi int64) {
	for i, p := range pts {
		v := nx*int64(p.X) + ny*int64(p.Y)
		if i == 0 {
			lo, hi = v, v
		}
		lo, hi = min(lo, v), max(hi, v)
	}
	return lo, hi
}
