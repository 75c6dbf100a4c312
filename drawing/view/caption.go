package view

import (
	"strings"

	"copingset/drawing"
	"copingset/drawing/words"
	"copingset/layout/length"
)

// captioned letters a view's title, its scale and a graphic scale, in a box no
// wider than width with its upper left corner at at. Under the title stands
// what else must be said of the view.
func captioned(
	say words.Book,
	s *drawing.Scene,
	metric bool,
	at drawing.Point,
	width drawing.Unit,
	title, under drawing.Said,
	scale Scale,
) drawing.Rect {
	bold := drawing.Style{Size: drawing.Head, Face: drawing.Bold, Fact: title.Fact}
	box := s.Paragraph(drawing.Point{X: at.X, Y: at.Y + drawing.Unit(drawing.Head)}, drawing.Letter(title.Words), width,
		bold)
	s.Line(drawing.Medium, drawing.Point{X: at.X, Y: box.Max.Y + 90}, drawing.Point{X: box.Max.X, Y: box.Max.Y + 90})
	y := box.Max.Y + 90
	if under.Words != "" {
		b := s.Paragraph(drawing.Point{X: at.X, Y: y + 460}, drawing.Letter(under.Words), width,
			drawing.Style{Fact: under.Fact})
		y = b.Max.Y
		box = box.Union(b)
	}
	if scale.Ratio <= 0 {
		t := s.Text(drawing.Point{X: at.X, Y: y + 500}, drawing.Letter(scale.Name), drawing.Style{Face: drawing.Bold})
		return box.Union(drawing.BoundsOf([]drawing.Mark{t}))
	}
	stops, labels := scaleStops(metric, scale, min(width*9/10, 60*drawing.MM))
	bar := drawing.ScaleBar{
		At:     drawing.Point{X: at.X + 100, Y: y + 850},
		Stops:  stops,
		Labels: labels,
		Size:   drawing.Small,
	}
	box = box.Union(s.Draw(bar.Figure()))
	said := drawing.Letter(say.Say(words.FrameScaleOf, words.In("scale", scale.Name)))
	place := drawing.Point{X: at.X, Y: box.Max.Y + 450}
	if x := bar.At.X + stops[len(stops)-1] + 900; x+drawing.Width(drawing.Bold, said, drawing.Note) <= at.X+width {
		place = drawing.Point{X: x, Y: bar.At.Y + drawing.Unit(drawing.Note)/2}
	}
	t := s.Text(place, said, drawing.Style{Face: drawing.Bold})
	return box.Union(drawing.BoundsOf([]drawing.Mark{t}))
}

// scaleStops divides a graphic scale no longer than most into round lengths.
func scaleStops(metric bool, scale Scale, most drawing.Unit) ([]drawing.Unit, []string) {
	unit, steps := length.Inch, []int64{1, 2, 3, 6, 12, 24, 48, 60, 120, 240, 480, 1200}
	if metric {
		unit, steps = length.Millimetre, []int64{5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000}
	}
	step := length.Length(steps[0]) * unit
	for _, n := range steps {
		if scale.Units(length.Length(4*n)*unit) > most {
			break
		}
		step = length.Length(n) * unit
	}
	var at []drawing.Unit
	var labels []string
	for i := range 5 {
		d := length.Length(i) * step
		at = append(at, scale.Units(d))
		switch {
		case i == 0:
			labels = append(labels, "0")
		case metric:
			labels = append(labels, length.Millimetres(d, 0))
		case step < length.Foot:
			labels = append(labels, length.Inches(d, 16))
		default:
			labels = append(labels, length.Feet(d, 16))
		}
	}
	if metric {
		labels[4] += " mm"
	}
	return at, labels
}

// inSentence letters a length that stands in a sentence as a reader tapes it.
func inSentence(st length.Style, d length.Length) string {
	if !st.Metric && length.Abs(d) < length.Foot {
		return st.Short(d)
	}
	return st.InText(d)
}

// people is a person seen from above, who stands on the roof at a point and
// looks towards street, with the letters of both hands.
func people(s *drawing.Scene, at drawing.Point, right xy) []drawing.Text {
	left, street := right.times(-1), right.roofward().times(-1)
	s.Fill(drawing.White, drawing.Medium, off(off(at, left, 330), street, -70), off(off(at, right, 330), street, -70),
		off(off(at, right, 330), street, 90), off(off(at, left, 330), street, 90))
	s.Add(drawing.Arc{Pen: drawing.Medium, Centre: at, R: 150, To: 3600, Fill: drawing.Black})
	tip := off(at, street, 620)
	s.Line(drawing.Medium, off(at, street, 150), tip)
	s.Fill(
		drawing.Black,
		drawing.NoPen,
		tip,
		off(off(tip, street, -220), right, 70),
		off(off(tip, street, -220), left, 70),
	)
	st := drawing.Style{Face: drawing.Bold, Align: drawing.Middle, Size: drawing.Head}
	down := drawing.Point{Y: drawing.Unit(drawing.Head) / 2}
	return []drawing.Text{
		s.Text(off(at, left, 620).Add(down), "L", st),
		s.Text(off(at, right, 620).Add(down), "R", st),
	}
}

// directionKey shows where the observer stands, which hand is which and which
// way stations grow. It is 52 mm wide and 27 mm high.
func directionKey(say words.Book, s *drawing.Scene, at drawing.Point) drawing.Rect {
	p := func(x, y drawing.Unit) drawing.Point { return drawing.Point{X: at.X + x, Y: at.Y + y} }
	mid := drawing.Style{Face: drawing.Bold, Align: drawing.Middle}
	s.Text(p(2600, 300), say.Say(words.KeyplanStreet), mid)
	s.Fill(drawing.Light, drawing.NoPen, p(200, 520), p(5000, 520), p(5000, 900), p(200, 900))
	s.Line(drawing.Medium, p(200, 520), p(5000, 520))
	s.Line(drawing.Medium, p(200, 900), p(5000, 900))
	people(s, p(2600, 1820), xy{1, 0})
	s.Text(p(2600, 2560), say.Say(words.KeyplanRoofLarge), mid)
	s.Circle(drawing.Medium, p(350, 1120), 80)
	s.Line(drawing.Medium, p(430, 1120), p(1750, 1120))
	s.Fill(drawing.Black, drawing.NoPen, p(2000, 1120), p(1700, 1190), p(1700, 1050))
	s.Text(p(200, 1560), say.Say(words.FrameStations), drawing.Style{Size: drawing.Small})
	return drawing.Box(at.X, at.Y, at.X+5200, at.Y+2660)
}

// list letters numbered or plain notes one below another and returns the room
// they take.
func list(s *drawing.Scene, at drawing.Point, width drawing.Unit, notes []drawing.Said,
	st drawing.Style) drawing.Rect {
	box := drawing.Rect{Min: at, Max: at}
	y := at.Y
	size := drawing.Unit(st.Size)
	if size == 0 {
		size = drawing.Unit(drawing.Note)
	}
	for _, n := range notes {
		words := drawing.Letter(n.Words)
		st.Fact = n.Fact
		b := s.Paragraph(drawing.Point{X: at.X, Y: y + size}, words, width, st)
		lines := drawing.Unit(len(drawing.Wrap(words, st.Face, drawing.Size(size), width)))
		y += lines*drawing.Size(size).Line() + size/4
		box = box.Union(b)
	}
	return box
}

// listHeight is the room list would take.
func listHeight(width drawing.Unit, notes []drawing.Said, st drawing.Style) drawing.Unit {
	var s drawing.Scene
	return list(&s, drawing.Point{}, width, notes, st).Height()
}

// join strings words with commas and a last "and".
func join(say words.Book, all []string) string {
	if len(all) < 2 {
		return strings.Join(all, "")
	}
	return say.Say(words.UnitList, words.In("first", strings.Join(all[:len(all)-1], ", ")),
		words.In("last", all[len(all)-1]))
}
