package pdf

import (
	"fmt"
	"math"

	"github.com/go-pdf/fpdf"

	"copingset/drawing"
	"copingset/fonts"
)

// family is the name the faces are registered by.
const family = "shop"

// painter draws marks. It keeps what it last set, and sets what a mark needs before it draws; nothing is set inside a saved state,
// because the library forgets that a restored state undoes its settings.
type painter struct {
	f      *fpdf.Fpdf
	links  map[string]int // page id to link number
	layers map[drawing.Layer]int
	height float64 // of the page, in points
	pen    drawing.Pen
	fill   drawing.Colour
	filled bool // fill is known
	layer  drawing.Layer
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
func (p *painter) page(s drawing.Scene) {
	p.height = pt(s.H)
	p.pen, p.filled, p.layer = drawing.NoPen, false, drawing.NoLayer
	p.f.SetLineJoinStyle("round")
	p.marks(s.Marks)
	p.f.EndLayer()
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
		p.arc(m)
	case drawing.Region:
		p.region(m)
	case drawing.Text:
		p.text(m)
	case drawing.Link:
		p.f.Link(pt(m.Box.Min.X), pt(m.Box.Min.Y), pt(m.Box.Width()), pt(m.Box.Height()), p.links[m.Target])
	case drawing.Group:
		if len(m.Marks) == 0 && len(m.Sums) > 0 {
			return
		}
		outer := p.layer
		if m.Layer != drawing.NoLayer {
			p.enter(m.Layer)
		}
		p.marks(m.Marks)
		p.enter(outer)
	default:
		panic(fmt.Sprintf("pdf: unknown mark %T", m))
	}
}

// enter changes the layer. Layers of the library do not nest, so the inner one ends the outer one and the outer is begun again.
func (p *painter) enter(l drawing.Layer) {
	if l == p.layer {
		return
	}
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

// arcPath draws an arc as Bézier curves of a quarter turn at most; with handles of 4/3 tan(a/4) radii each leaves the circle by
// less than 3 parts in 10,000 of the radius.
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

func (p *painter) text(t drawing.Text) {
	if t.Words == "" {
		return
	}
	if t.Halo {
		p.paint(drawing.White.Colour())
		p.path(t.HaloQuad(), true)
		p.f.DrawPath("f")
	}
	if t.Reverse {
		p.paint(drawing.White.Colour())
	} else {
		p.paint(drawing.Black.Colour())
	}
	p.font(t.Face, t.Size)
	start := t.Start()
	if t.Rotate == 0 {
		p.f.Text(pt(start.X), pt(start.Y), t.Words)
		return
	}
	// The page is moved and turned so that the text starts at the lower left corner, which needs no arithmetic of the library.
	cos, sin := drawing.CosSin(t.Rotate)
	p.f.TransformBegin()
	p.f.Transform(fpdf.TransformMatrix{A: cos, B: sin, C: -sin, D: cos, E: pt(start.X), F: hundredth(p.height - pt(start.Y))})
	p.f.Text(0, p.height, t.Words)
	p.f.TransformEnd()
}
