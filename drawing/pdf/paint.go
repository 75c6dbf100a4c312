package pdf

import (
	"fmt"
	"math"
	"sort"

	"github.com/go-pdf/fpdf"

	"copingset/drawing"
	"copingset/fonts"
)

// family is the name the faces are registered by.
const family = "shop"

// painter draws marks. It keeps what it last set, and sets what a mark needs before it draws;
// nothing is set inside a saved state, because the library forgets that a restored state undoes
// its settings.
type painter struct {
	f      *fpdf.Fpdf
	links  map[string]int // page id to link number
	layers map[drawing.Layer]int
	height float64 // of the page, in points
	pen    drawing.Pen
	fill   drawing.Colour
	filled bool // fill is known
	layer  drawing.Layer

	texts  []lettered // drawn last in their group or view, in reading order
	inView bool
	tags   *tags
	sect   *element // of the sheet or view
	figure *element // what belongs to it that is no lettering
	table  *element // whose rows are being drawn; nil: none
	open   *element // whose marked content is being written; nil: nobody's
	aside  *element // stands for what has no meaning of its own
}

// prepare registers the faces and layers in use and makes a target for each sheet.
func (p *painter) prepare(d Document) {
	var bold bool
	var used [256]bool
	for i, page := range d.Pages {
		page.Scene.Walk(func(l drawing.Layer, m drawing.Mark) {
			used[l] = true
			if t, ok := m.(drawing.Text); ok && t.Face == drawing.Bold {
				bold = true
			}
		})
		if page.ID != "" {
			link := p.f.AddLink()
			p.f.SetLink(link, 0, i+1)
			p.links[page.ID] = link
		}
	}
	p.f.AddUTF8FontFromBytes(family, "", fonts.TTF(fonts.Regular))
	if bold {
		p.f.AddUTF8FontFromBytes(family, "B", fonts.TTF(fonts.Bold))
	}
	for _, l := range drawing.Layers() {
		if used[l] {
			p.layers[l] = p.f.AddLayer(l.String(), true)
		}
	}
}

// page draws one sheet, from a state set anew.
func (p *painter) page(page Page) {
	p.height = pt(page.Scene.H)
	p.pen, p.filled, p.layer = drawing.NoPen, false, drawing.NoLayer
	p.sect = p.tags.begin(page.Scene.Title)
	p.figure = p.aside
	p.f.SetLineJoinStyle("round")
	p.marks(page.Scene.Marks)
	p.letter()
	p.enter(drawing.NoLayer)
	p.tag(nil)
}

// marks draws a list. Lines of one pen that follow each other share a path.
func (p *painter) marks(marks []drawing.Mark) {
	open := false
	flush := func() {
		if open {
			p.f.DrawPath("D")
			open = false
		}
	}
	for _, m := range marks {
		if l, ok := m.(drawing.Line); ok {
			if l.Pen == drawing.NoPen || len(l.Pts) == 0 {
				continue
			}
			p.tag(p.figure)
			if l.Pen != p.pen {
				flush()
				p.stroke(l.Pen)
			}
			p.path(l.Pts, l.Closed)
			open = true
			continue
		}
		flush()
		p.mark(m)
	}
	flush()
}

func (p *painter) mark(m drawing.Mark) {
	switch m := m.(type) {
	case drawing.Line:
		p.marks([]drawing.Mark{m})
	case drawing.Arc:
		p.tag(p.figure)
		p.arc(m)
	case drawing.Region:
		p.tag(p.figure)
		p.region(m)
	case drawing.Text:
		p.text(m)
	case drawing.Link:
		p.f.Link(pt(m.Box.Min.X), pt(m.Box.Min.Y), pt(m.Box.Width()), pt(m.Box.Height()), p.links[m.Target])
	case drawing.Group:
		if len(m.Marks) == 0 && len(m.Sums) > 0 {
			return
		}
		p.group(m)
	default:
		panic(fmt.Sprintf("pdf: unknown mark %T", m))
	}
}

// group draws a group on its layer. The lettering of a view waits for the end of the view, or
// for a view in it; that of another group for the end of the group.
func (p *painter) group(g drawing.Group) {
	if len(g.Cells) > 0 {
		p.row(g)
		return
	}
	outer := *p
	p.table = nil
	if g.View {
		p.letter()
		p.inView = true
		if g.Words != "" {
			p.sect = p.sect.add("Sect", "")
			p.figure = p.sect.add("Figure", g.Words)
		}
	}
	if g.Layer != drawing.NoLayer {
		p.enter(g.Layer)
	}
	p.marks(g.Marks)
	if g.View || !p.inView {
		p.letter()
	}
	p.enter(outer.layer)
	p.sect, p.figure, p.table, p.inView = outer.sect, outer.figure, nil, outer.inView
}

// row draws the row of a table. Rows that follow each other in a group make the table.
func (p *painter) row(g drawing.Group) {
	p.letter()
	if p.table == nil {
		p.table = p.sect.add("Table", "")
	}
	kind := "TD"
	if g.Head {
		kind = "TH"
	}
	tr := p.table.add("TR", "")
	for range g.Cells {
		tr.add(kind, "")
	}
	p.marks(g.Marks)
	for _, q := range passages(p.texts) {
		after := sort.Search(len(g.Cells), func(i int) bool { return g.Cells[i] > q.box.Min.X })
		p.read(tr.parts[max(0, after-1)], q.lines)
	}
	p.texts = nil
}

// letter writes the texts that wait, in reading order, a paragraph for each row.
func (p *painter) letter() {
	rows := asDrawn
	if p.inView {
		rows = asStanding
	}
	layer := p.layer
	for _, r := range rows(p.texts) {
		p.read(p.sect.add("P", ""), r.texts())
	}
	p.enter(layer)
	p.texts = nil
}

// read writes texts as the content of an element. A space parts the last word of one from the
// next, for those who do not see where they stand.
func (p *painter) read(e *element, texts []lettered) {
	for i, t := range texts {
		if i < len(texts)-1 {
			t.Words += " "
		}
		p.enter(t.layer)
		p.tag(e)
		p.letters(t.Text)
	}
}

// tag says whose the content is that comes next.
func (p *painter) tag(e *element) {
	if e == p.open {
		return
	}
	if p.open != nil {
		p.f.RawWriteStr("EMC")
	}
	p.open = e
	switch e {
	case nil:
	case p.aside:
		p.f.RawWriteStr("/Artifact BMC")
	default:
		p.f.RawWriteStr(fmt.Sprintf("/%s <</MCID %d>> BDC", e.kind, p.tags.own(e)))
	}
}

// enter changes the layer. Layers of the library do not nest, so the inner one ends the outer
// one and the outer is begun again. Marked content lies within a layer.
func (p *painter) enter(l drawing.Layer) {
	if l == p.layer {
		return
	}
	p.tag(nil)
	p.layer = l
	if l == drawing.NoLayer {
		p.f.EndLayer()
		return
	}
	if id, ok := p.layers[l]; ok {
		p.f.BeginLayer(id)
		return
	}
	p.f.EndLayer() // a layer without a mark is not registered
}

// stroke takes up a pen.
func (p *painter) stroke(pen drawing.Pen) {
	if pen == p.pen {
		return
	}
	p.pen = pen
	st := pen.Stroke()
	p.f.SetLineWidth(pt(st.Width))
	p.f.SetDrawColor(int(st.Colour.R), int(st.Colour.G), int(st.Colour.B))
	var dash []float64
	for _, u := range st.Dash() {
		dash = append(dash, pt(u))
	}
	// A dash with round ends closes its gaps.
	if len(dash) > 0 {
		p.f.SetLineCapStyle("butt")
	} else {
		p.f.SetLineCapStyle("round")
	}
	p.f.SetDashPattern(dash, 0)
}

// paint takes up a fill, which letters use as well.
func (p *painter) paint(c drawing.Colour) {
	if p.filled && c == p.fill {
		return
	}
	p.fill, p.filled = c, true
	p.f.SetFillColor(int(c.R), int(c.G), int(c.B))
	p.f.SetTextColor(int(c.R), int(c.G), int(c.B))
}

func (p *painter) path(pts []drawing.Point, closed bool) {
	for i, q := range pts {
		if i == 0 {
			p.f.MoveTo(pt(q.X), pt(q.Y))
		} else {
			p.f.LineTo(pt(q.X), pt(q.Y))
		}
	}
	// A line of one point is drawn as a dot.
	if len(pts) == 1 && !closed {
		p.f.LineTo(pt(pts[0].X), pt(pts[0].Y))
	}
	if closed {
		p.f.ClosePath()
	}
}

func (p *painter) region(r drawing.Region) {
	outline := func() {
		for _, ring := range r.Rings {
			if len(ring) > 0 {
				p.path(ring, true)
			}
		}
	}
	if r.Fill != drawing.None {
		p.paint(r.Fill.Colour())
		outline()
		p.f.DrawPath("f*")
	}
	if r.Hatch != drawing.NoHatch {
		var marks []drawing.Mark
		for _, l := range drawing.HatchLines(r.Hatch, r.Rings) {
			marks = append(marks, l)
		}
		p.marks(marks)
	}
	if r.Pen != drawing.NoPen {
		p.stroke(r.Pen)
		outline()
		p.f.DrawPath("D")
	}
}

func (p *painter) arc(a drawing.Arc) {
	if a.Full() {
		a.From, a.To = 0, 3600
		if a.Fill != drawing.None {
			p.paint(a.Fill.Colour())
			p.arcPath(a)
			p.f.ClosePath()
			p.f.DrawPath("f")
		}
	}
	if a.Pen == drawing.NoPen {
		return
	}
	p.stroke(a.Pen)
	p.arcPath(a)
	if a.Full() {
		p.f.ClosePath()
	}
	p.f.DrawPath("D")
}

// arcPath draws an arc as Bézier curves of a quarter turn at most; with handles of 4/3 tan(a/4)
// radii each leaves the circle by less than 3 parts in 10,000 of the radius.
func (p *painter) arcPath(a drawing.Arc) {
	span := a.To - a.From
	if span <= 0 {
		return
	}
	pieces := (span + 899) / 900
	at := func(i int) int { return a.From + span*i/pieces }
	place := func(tenths int, handle float64) (x, y float64) {
		cos, sin := drawing.CosSin(tenths)
		r := a.R.Millimetres()
		dx := float64(r*cos) - float64(float64(r*handle)*sin)
		dy := float64(r*sin) + float64(float64(r*handle)*cos)
		return hundredth(pt(a.Centre.X) + float64(dx*72/25.4)), hundredth(pt(a.Centre.Y) - float64(dy*72/25.4))
	}
	x, y := place(at(0), 0)
	p.f.MoveTo(x, y)
	for i := range pieces {
		from, to := at(i), at(i+1)
		handle := 4.0 / 3 * math.Tan(float64(float64(to-from)*(math.Pi/7200)))
		x0, y0 := place(from, handle)
		x1, y1 := place(to, -handle)
		x, y := place(to, 0)
		p.f.CurveBezierCubicTo(x0, y0, x1, y1, x, y)
	}
}

// hundredth rounds to what the library prints, so that no processor prints another digit.
func hundredth(v float64) float64 { return math.Round(float64(v*100)) / 100 }

// font takes up a face and size.
func (p *painter) font(face drawing.Face, size drawing.Size) {
	style := ""
	if face == drawing.Bold {
		style = "B"
	}
	// Em gives thousandths of a unit; a point is 2540/72 units.
	em := int64(fonts.Em(face, int(size)))
	p.f.SetFont(family, style, float64((em*72+12700)/25400)/100)
}

// text knocks out what lies behind a text, in its turn among the marks, and keeps the letters
// for later. No mark covers a text (drawing.Check), so that letters drawn later look the same.
func (p *painter) text(t drawing.Text) {
	if t.Words == "" {
		return
	}
	if t.Halo {
		p.tag(p.figure)
		p.paint(drawing.White.Colour())
		p.path(t.HaloQuad(), true)
		p.f.DrawPath("f")
	}
	p.texts = append(p.texts, lettered{t, p.layer})
}

// letters writes the words of a text.
func (p *painter) letters(t drawing.Text) {
	if t.Reverse {
		p.paint(drawing.White.Colour())
	} else {
		p.paint(drawing.Black.Colour())
	}
	p.font(t.Face, t.Size)
	start := t.Start() // by the width that was measured
	if t.Rotate == 0 {
		p.f.Text(pt(start.X), pt(start.Y), t.Words)
		return
	}
	// The page is moved and turned so that the text starts at the lower left corner, which
	// needs no arithmetic of the library.
	cos, sin := drawing.CosSin(t.Rotate)
	p.f.TransformBegin()
	p.f.Transform(
		fpdf.TransformMatrix{A: cos, B: sin, C: -sin, D: cos, E: pt(start.X), F: hundredth(p.height - pt(start.Y))},
	)
	p.f.Text(0, p.height, t.Words)
	p.f.TransformEnd()
}
