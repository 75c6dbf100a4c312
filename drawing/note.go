package drawing

import "strings"

// Leader points at something and says a word about it. It ends in an arrowhead on an edge, or
// in a dot on a surface. The words stand behind a short level shoulder at the knee, on the side
// away from the tip, one line for each line break.
type Leader struct {
	Tip, Knee Point
	Words     string
	Size      Size
	Face      Face
	Dot       bool
	Halo      bool
}

// shoulder is the level end of a leader.
const shoulder Unit = 250

// Figure lowers the leader to marks.
func (l Leader) Figure() Figure {
	var s Scene
	st := Style{Size: l.Size, Face: l.Face, Halo: l.Halo}
	end := Point{l.Knee.X + shoulder, l.Knee.Y}
	at := Point{end.X + 80, end.Y + Unit(st.size())/2}
	if l.Knee.X < l.Tip.X {
		end.X = l.Knee.X - shoulder
		at.X = end.X - 80
		st.Align = Right
	}
	s.Line(Thin, l.Tip, l.Knee, end)
	switch {
	case l.Dot:
		s.Dot(l.Tip, 60, Black)
	case l.Knee == l.Tip:
		pointer(&s, end, l.Tip)
	default:
		pointer(&s, l.Knee, l.Tip)
	}
	for _, line := range strings.Split(l.Words, "\n") {
		s.Text(at, Letter(line), st)
		at.Y += st.size().Line()
	}
	return figure(s)
}

// Balloon is a number in a circle that stands for a note or a part, with a line to what it is
// about if Tip is another point.
type Balloon struct {
	At    Point
	Words string
	Size  Size
	Tip   Point
	Point bool   // draw the line to Tip
	Fact  string // that the words letter
}

// Figure lowers the balloon to marks.
func (b Balloon) Figure() Figure {
	var s Scene
	st := Style{Size: b.Size, Face: Bold, Align: Middle, Fact: b.Fact}
	w := Width(Bold, b.Words, st.size())
	r := max(Unit(st.size())*105/100, w/2+110)
	if b.Point {
		s.Line(Thin, b.At, b.Tip)
		s.Dot(b.Tip, 60, Black)
	}
	s.Add(Arc{Pen: Medium, Centre: b.At, R: r, To: 3600, Fill: White})
	s.Text(Point{b.At.X, b.At.Y + Unit(st.size())/2}, b.Words, st)
	return figure(s)
}

// HoldFlag says at its place that something is on hold: large, boxed in the hold pen, striped
// at both ends so that it shows in a black and white copy. At is the upper left corner.
type HoldFlag struct {
	At    Point
	Words string
	Size  Size // Title if none
	Tip   Point
	Point bool // draw a line to Tip
}

// Figure lowers the flag to marks.
func (h HoldFlag) Figure() Figure {
	var s Scene
	size := h.Size
	if size == 0 {
		size = Title
	}
	st := Style{Size: size, Face: Bold, Align: Middle}
	end := Unit(size)
	w := Width(Bold, h.Words, size) + 2*end + Unit(size)
	hgt := Unit(size) * 2
	box := Box(h.At.X, h.At.Y, h.At.X+w, h.At.Y+hgt)
	if h.Point {
		from := Point{min(max(h.Tip.X, box.Min.X), box.Max.X), min(max(h.Tip.Y, box.Min.Y), box.Max.Y)}
		s.Line(Hold, from, h.Tip)
		s.Dot(h.Tip, 100, Black)
	}
	holdBox(&s, box, end)
	s.TextIn(box, h.Words, st)
	return figure(s)
}

// HoldBanner fills a box with a hold: stripes at both ends and the words, as large as fit, between.
type HoldBanner struct {
	Box   Rect
	Words string
	Fact  string // the names of the facts that the words letter
}

// Figure lowers the banner to marks.
func (h HoldBanner) Figure() Figure {
	var s Scene
	end := min(h.Box.Height(), h.Box.Width()/6)
	holdBox(&s, h.Box, end)
	room := h.Box.Width() - 2*end - 400
	// The largest lettering whose lines stand in the box, descenders too.
	size := Size(h.Box.Height() * 55 / 100)
	lines := Wrap(h.Words, Bold, size, room)
	for size > Small && Unit(len(lines)-1)*size.Line()+Unit(size)*16/10+Hold.Stroke().Width+40 > h.Box.Height() {
		size = max(size-10, Small)
		lines = Wrap(h.Words, Bold, size, room)
	}
	st := Style{Size: size, Face: Bold, Align: Middle, Fact: h.Fact}
	c := h.Box.Centre()
	y := c.Y + Unit(size)/2 - Unit(len(lines)-1)*size.Line()/2
	for _, line := range lines {
		s.Text(Point{c.X, y}, line, st)
		y += size.Line()
	}
	return figure(s)
}

func holdBox(s *Scene, box Rect, end Unit) {
	s.Fill(White, NoPen, box.Corners()...)
	s.Hatch(HoldStripe, Hold, Box(box.Min.X, box.Min.Y, box.Min.X+end, box.Max.Y).Corners()...)
	s.Hatch(HoldStripe, Hold, Box(box.Max.X-end, box.Min.Y, box.Max.X, box.Max.Y).Corners()...)
	s.Rect(Hold, box)
}
