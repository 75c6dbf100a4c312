package drawing

import "strconv"

// ScaleBar is a graphic scale: boxes black and white by turns, the value of each stop above,
// words below. At is the upper left corner of the boxes; Stops are distances on paper from
// there, the first 0.
type ScaleBar struct {
	At     Point
	Stops  []Unit
	Labels []string
	Words  string // the scale in words, as 1/4" = 1'-0"
	Size   Size
}

const barHeight Unit = 130

// Figure lowers the scale to marks.
func (b ScaleBar) Figure() Figure {
	if len(b.Stops) < 2 || len(b.Labels) != len(b.Stops) {
		panic("drawing: a scale bar needs two stops or more and a label for each")
	}
	var s Scene
	st := Style{Size: b.Size, Align: Middle}
	last := b.Stops[len(b.Stops)-1]
	for i := 1; i < len(b.Stops); i++ {
		fill := Black
		if i%2 == 0 {
			fill = White
		}
		s.Fill(fill, Thin, Box(b.At.X+b.Stops[i-1], b.At.Y, b.At.X+b.Stops[i], b.At.Y+barHeight).Corners()...)
	}
	free := Unit(-1 << 30)
	for i, stop := range b.Stops {
		words := Letter(b.Labels[i])
		half := Width(Regular, words, st.size())/2 + 60
		x := b.At.X + stop
		s.Line(Thin, Point{x, b.At.Y - 60}, Point{x, b.At.Y})
		lastStop := i == len(b.Stops)-1
		reserve := x
		if !lastStop {
			lastHalf := Width(Regular, Letter(b.Labels[len(b.Labels)-1]), st.size())/2 + 60
			reserve = b.At.X + last - lastHalf
		}
		// The stops between give way to the first and the last, which say how long the bar is.
		if x-half < free || (!lastStop && x+half > reserve) {
			continue
		}
		s.Text(Point{x, b.At.Y - 110}, words, st)
		free = x + half
	}
	if b.Words != "" {
		s.Text(Point{b.At.X + last/2, b.At.Y + barHeight + 100 + Unit(st.size())}, Letter(b.Words), st)
	}
	return figure(s)
}

// CheckBar is a bar of 100 mm and one of 4 in that tell whether the print is true to size. At
// is its upper left corner; Words under the bars say what they are for.
type CheckBar struct {
	At    Point
	Words string
}

// Figure lowers the bars to marks.
func (b CheckBar) Figure() Figure {
	var s Scene
	x, y := b.At.X, b.At.Y
	bar := func(y, step Unit, count int, words string) {
		end := x + step*Unit(count)
		w := Width(Bold, words, Note)
		mid := (x + end) / 2
		s.Line(Medium, Point{x, y}, Point{mid - w/2 - 100, y})
		s.Line(Medium, Point{mid + w/2 + 100, y}, Point{end, y})
		for i := 0; i <= count; i++ {
			reach := Unit(70)
			if i == 0 || i == count {
				reach = 180
			}
			at := x + step*Unit(i)
			if at > mid-w/2-150 && at < mid+w/2+150 {
				continue
			}
			s.Line(Medium, Point{at, y - reach}, Point{at, y + reach})
		}
		s.Text(Point{mid, y + Unit(Note)/2}, words, Style{Face: Bold, Align: Middle})
	}
	bar(y+180, 10*MM, 10, strconv.Itoa(100)+" mm")
	bar(y+680, Inch, 4, "4 in")
	for i, line := range Wrap(b.Words, Regular, Small, 4*Inch) {
		s.Text(Point{x, y + 1240 + Unit(i)*Size(Small).Line()}, line, Style{Size: Small})
	}
	return figure(s)
}

// NorthArrow shows where north is. At is the centre of its circle, R the radius, North the
// direction in tenths of a degree (900 is up the sheet).
type NorthArrow struct {
	At    Point
	R     Unit
	North int
}

// Figure lowers the arrow to marks.
func (n NorthArrow) Figure() Figure {
	var s Scene
	tip := Polar(n.At, n.R, n.North)
	notch := Polar(n.At, n.R*4/10, n.North+1800)
	s.Circle(Thin, n.At, n.R)
	s.Fill(White, Thin, tip, Polar(n.At, n.R, n.North+1450), notch)
	s.Fill(Black, Thin, tip, Polar(n.At, n.R, n.North-1450), notch)
	c := Polar(n.At, n.R+Unit(Head), n.North)
	s.Text(Point{c.X, c.Y + Unit(Head)/2}, "N", Style{Size: Head, Face: Bold, Align: Middle})
	return figure(s)
}

// DirectionArrow is a broad outlined arrow from Tail to Head, with words beside it: which way
// stations are measured, where the roof is, which hand a piece has.
type DirectionArrow struct {
	Tail, Head Point
	Words      string
	Size       Size
}

// Figure lowers the arrow to marks. The words stand above a level arrow, and to the right of any other.
func (d DirectionArrow) Figure() Figure {
	var s Scene
	st := Style{Size: d.Size, Face: Bold}
	half := Unit(st.size()) / 3
	s.Fill(White, Medium, broadArrow(d.Tail, d.Head, half)...)
	dx, dy := d.Head.X-d.Tail.X, d.Head.Y-d.Tail.Y
	mid := Point{(d.Head.X + d.Tail.X) / 2, (d.Head.Y + d.Tail.Y) / 2}
	if d.Words != "" {
		if max(dx, -dx) >= max(dy, -dy) {
			st.Align = Middle
			s.Text(Point{mid.X, min(d.Head.Y, d.Tail.Y) - 2*half - 120}, d.Words, st)
		} else {
			s.Text(Point{max(d.Head.X, d.Tail.X) + 2*half + 150, mid.Y + Unit(st.size())/2}, d.Words, st)
		}
	}
	return figure(s)
}
