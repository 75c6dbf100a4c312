package drawing

// Mark is one thing on paper: a Line, Arc, Region, Text, Link or Group. The set is closed.
type Mark interface{ mark() }

// Line is a line through points, closed or open.
type Line struct {
	Pen    Pen
	Pts    []Point
	Closed bool
}

// Arc is a circular arc from the direction From counter-clockwise to To, in tenths of a degree.
// From 0 to 3600 is the full circle, and only a full circle may be filled.
type Arc struct {
	Pen      Pen
	Centre   Point
	R        Unit
	From, To int
	Fill     Tone
}

// Full says that the arc is a whole circle.
func (a Arc) Full() bool { return a.To-a.From >= 3600 }

// Region is an area bounded by rings (even-odd, so a ring inside a ring is a hole): filled, then hatched, then edged.
type Region struct {
	Rings [][]Point
	Fill  Tone
	Hatch HatchKind
	Pen   Pen
}

// Text is one line of lettering. At is on the baseline, at the left end, middle or right end as
// Align says. Rotate is in tenths of a degree, counter-clockwise about At. Width is measured
// when the mark is made (NewText). Halo knocks out what lies behind; Reverse letters in white,
// for dark ground. Fact names the facts that the words letter, as "N-C7.station", several
// parted by bars; it is carried for those who look for a value on paper, and not drawn.
type Text struct {
	At      Point
	Words   string
	Size    Size
	Face    Face
	Align   Align
	Rotate  int
	Width   Unit
	Halo    bool
	Reverse bool
	Fact    string
}

// Link makes an area lead to another sheet of the packet, named by its id.
type Link struct {
	Box    Rect
	Target string
}

// Group gathers marks under a layer and, if given, an id that is unique on the sheet. Sums are
// what its dimensions claim; they are checked, not drawn. View says that it is a drawing placed
// on another: its lettering is read by where it stands, not in the order it was drawn in. Words
// say what such a drawing shows, for those who cannot see it. Cells are the left edges of its
// cells where the group is the row of a table, and Head says that they are headings. Fact names
// a fact that all of the group is about.
type Group struct {
	Layer Layer
	ID    string
	Marks []Mark
	Sums  []Sum
	View  bool
	Words string
	Cells []Unit
	Head  bool
	Fact  string
}

func (Line) mark()   {}
func (Arc) mark()    {}
func (Region) mark() {}
func (Text) mark()   {}
func (Link) mark()   {}
func (Group) mark()  {}

// Scene is a drawing: a view, or a whole sheet. W and H are its size on paper. Name is a short
// file-safe name, Title and Desc say in words what is shown, for those who cannot see it.
type Scene struct {
	Name, Title, Desc string
	W, H              Unit
	Squeezed          bool // had no room for any usual scale, and gave it up
	Marks             []Mark
}

// Add appends marks as they are.
func (s *Scene) Add(marks ...Mark) { s.Marks = append(s.Marks, marks...) }

// Draw appends the marks of a figure and returns the room it takes.
func (s *Scene) Draw(f Figure) Rect {
	s.Add(f.Marks...)
	return f.Box
}

// Line draws an open line through the points.
func (s *Scene) Line(pen Pen, pts ...Point) { s.Add(Line{Pen: pen, Pts: pts}) }

// Polygon draws a closed line through the points.
func (s *Scene) Polygon(pen Pen, pts ...Point) { s.Add(Line{Pen: pen, Pts: pts, Closed: true}) }

// Rect draws the outline of a rectangle.
func (s *Scene) Rect(pen Pen, r Rect) { s.Polygon(pen, r.Corners()...) }

// Circle draws a circle.
func (s *Scene) Circle(pen Pen, centre Point, r Unit) {
	s.Add(Arc{Pen: pen, Centre: centre, R: r, To: 3600})
}

// Dot draws a filled circle.
func (s *Scene) Dot(centre Point, r Unit, fill Tone) {
	s.Add(Arc{Centre: centre, R: r, To: 3600, Fill: fill})
}

// Arc draws an arc counter-clockwise from one direction to another, in tenths of a degree.
func (s *Scene) Arc(pen Pen, centre Point, r Unit, from, to int) {
	s.Add(Arc{Pen: pen, Centre: centre, R: r, From: from, To: to})
}

// Fill fills an area with a flat tone and edges it.
func (s *Scene) Fill(fill Tone, pen Pen, pts ...Point) {
	s.Add(Region{Rings: [][]Point{pts}, Fill: fill, Pen: pen})
}

// Hatch hatches an area and edges it.
func (s *Scene) Hatch(kind HatchKind, pen Pen, pts ...Point) {
	s.Add(Region{Rings: [][]Point{pts}, Hatch: kind, Pen: pen})
}

// Text letters words at a point and returns the mark, with its measured width.
func (s *Scene) Text(at Point, words string, st Style) Text {
	t := NewText(at, words, st)
	s.Add(t)
	return t
}

// TextIn letters words in the middle of a box, by its capitals.
func (s *Scene) TextIn(box Rect, words string, st Style) Text {
	c := box.Centre()
	st.Align = Middle
	at := Point{c.X, c.Y + Unit(st.size())/2}
	if st.Rotate != 0 {
		at = Polar(c, Unit(st.size())/2, st.Rotate-900)
	}
	return s.Text(at, words, st)
}

// Paragraph letters words wrapped to a width, the first baseline at at, and returns the room they take.
func (s *Scene) Paragraph(at Point, words string, width Unit, st Style) Rect {
	var box Rect
	for _, line := range Wrap(words, st.Face, st.size(), width) {
		box = box.Union(boundsOf(s.Text(at, line, st).Quad()))
		at.Y += st.size().Line()
	}
	return box
}

// Link makes an area lead to the sheet with the id target.
func (s *Scene) Link(box Rect, target string) { s.Add(Link{Box: box, Target: target}) }

// Group draws marks under a layer, with an id if not empty.
func (s *Scene) Group(layer Layer, id string, draw func(g *Scene)) {
	g := Scene{Name: s.Name, W: s.W, H: s.H}
	draw(&g)
	s.Add(Group{Layer: layer, ID: id, Marks: g.Marks})
}

// Place draws another scene on this one with its upper left corner at a point, as a view. A
// hatch keeps to the paper, so hatches of neighbours stay aligned.
func (s *Scene) Place(sub Scene, at Point) {
	words := sub.Desc
	if words == "" {
		words = sub.Title
	}
	s.Add(Group{View: true, Words: words, Marks: Translate(sub.Marks, at)})
}

// Translate returns the marks moved by d. The marks given are left as they are.
func Translate(marks []Mark, d Point) []Mark {
	out := make([]Mark, len(marks))
	for i, m := range marks {
		switch m := m.(type) {
		case Line:
			m.Pts = translatePoints(m.Pts, d)
			out[i] = m
		case Arc:
			m.Centre = m.Centre.Add(d)
			out[i] = m
		case Region:
			rings := make([][]Point, len(m.Rings))
			for k, r := range m.Rings {
				rings[k] = translatePoints(r, d)
			}
			m.Rings = rings
			out[i] = m
		case Text:
			m.At = m.At.Add(d)
			out[i] = m
		case Link:
			m.Box = m.Box.Translate(d)
			out[i] = m
		case Group:
			m.Marks = Translate(m.Marks, d)
			cells := make([]Unit, len(m.Cells))
			for k, x := range m.Cells {
				cells[k] = x + d.X
			}
			m.Cells = cells
			out[i] = m
		default:
			panic(unknown(m))
		}
	}
	return out
}

func translatePoints(pts []Point, d Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i] = p.Add(d)
	}
	return out
}

// Walk visits every mark but the groups, in drawing order, with the innermost layer it lies in.
func (s Scene) Walk(visit func(layer Layer, m Mark)) { walk(s.Marks, NoLayer, visit) }

func walk(marks []Mark, layer Layer, visit func(Layer, Mark)) {
	for _, m := range marks {
		if g, ok := m.(Group); ok {
			inner := layer
			if g.Layer != NoLayer {
				inner = g.Layer
			}
			walk(g.Marks, inner, visit)
			continue
		}
		visit(layer, m)
	}
}

// Texts returns every text, in drawing order. Text.Quad tells where each lies.
func (s Scene) Texts() []Text {
	var all []Text
	s.Walk(func(_ Layer, m Mark) {
		if t, ok := m.(Text); ok {
			all = append(all, t)
		}
	})
	return all
}

// Bounds returns the smallest rectangle that holds every mark, links left out. Line widths are not counted.
func (s Scene) Bounds() Rect { return BoundsOf(s.Marks) }

// BoundsOf returns the smallest rectangle that holds the marks, links left out.
func BoundsOf(marks []Mark) Rect {
	return boundsOf(extremes(nil, marks))
}

// extremes appends the corners of the rectangle each mark lies in.
func extremes(pts []Point, marks []Mark) []Point {
	for _, m := range marks {
		switch m := m.(type) {
		case Line:
			pts = append(pts, m.Pts...)
		case Arc:
			b := m.bounds()
			pts = append(pts, b.Min, b.Max)
		case Region:
			for _, r := range m.Rings {
				pts = append(pts, r...)
			}
		case Text:
			pts = append(pts, m.Quad()...)
		case Link:
		case Group:
			pts = extremes(pts, m.Marks)
		default:
			panic(unknown(m))
		}
	}
	return pts
}

// bounds holds the ends of the arc and each quarter point on it.
func (a Arc) bounds() Rect {
	if a.Full() {
		return Rect{a.Centre, a.Centre}.Inset(-a.R)
	}
	pts := []Point{Polar(a.Centre, a.R, a.From), Polar(a.Centre, a.R, a.To)}
	for q := -3600; q <= 7200; q += 900 {
		if a.From < q && q < a.To {
			pts = append(pts, Polar(a.Centre, a.R, q))
		}
	}
	return boundsOf(pts)
}

// Under are marks with the ids of their groups under another, prefix.id, so that a
// drawing may stand on a sheet beside others of its kind.
func Under(marks []Mark, prefix string) []Mark {
	out := make([]Mark, len(marks))
	for i, m := range marks {
		if g, ok := m.(Group); ok {
			if g.ID != "" {
				g.ID = prefix + "." + g.ID
			}
			g.Marks = Under(g.Marks, prefix)
			m = g
		}
		out[i] = m
	}
	return out
}
