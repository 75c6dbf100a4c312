package place

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"copingset/drawing"
)

// Label is what has to be said at a place.
type Label struct {
	Lines    []string // as lettered, from the top
	Facts    []string // that the lines letter, in their order; may be shorter
	Size     drawing.Size
	Face     drawing.Face
	LeadSize drawing.Size // of the first line, if unlike the rest
	LeadFace drawing.Face // the same
	Turn     int          // tenths of a degree, counter-clockwise
	Halo     bool
	Balloon  bool                    // a number in a circle
	Cover    bool                    // knocks out the hidden lines it lies on
	Bare     bool                    // its leader ends without a dot
	Pad      drawing.Unit            // kept free round it of lines too
	Only     func(drawing.Rect) bool // where its box may stand; nil: anywhere
	About    drawing.Point           // what it is about: tip of a leader, place of a balloon
	Note     string                  // the words in a note; none: the lines joined
	Where    string                  // says the place in words, should the note stand without a balloon
}

// Spot is a place a label may stand: the middle of its box, and whether a
// leader leads there from what the label is about.
type Spot struct {
	Centre drawing.Point
	Leader bool
	Off    drawing.Point // of the leader's tip from what the label is about
}

// At is a spot right at a point, without a leader.
func At(x, y drawing.Unit) Spot { return Spot{Centre: drawing.Pt(x, y)} }

// Pointed is a spot that needs a leader.
func Pointed(x, y drawing.Unit) Spot { return Spot{Centre: drawing.Pt(x, y), Leader: true} }

// OnLine is the spot where the last line of a label stands on a point, in the
// middle.
func (l Label) OnLine(at drawing.Point) Spot {
	_, h := l.extent()
	return Spot{Centre: turned(at, l.Turn, 0, h/2-tail(l.sizeOf(len(l.Lines)-1)))}
}

// Fan is a way to look for room round a point: first in one direction, then at
// growing angles to it, then farther away.
type Fan struct {
	Toward         int             // tenths of a degree, counter-clockwise
	From, To, Step drawing.Unit    // from the tip to the box
	Spread         int             // degrees to either side
	Reach          drawing.Unit    // a box farther than this from the tip has a leader; 0: every one
	Tips           []drawing.Point // where the leader may point; none: what the label is about
}

// Never is the Reach of a label that has no leader.
const Never drawing.Unit = math.MaxInt32

// Fan lists the spots of a fan for a label.
func (l Label) Fan(f Fan) []Spot {
	w, h := l.Extent()
	tips := f.Tips
	if len(tips) == 0 {
		tips = []drawing.Point{l.About}
	}
	const step = 15
	rays := 2*(f.Spread/step) + 1
	out := make([]Spot, 0, (int((f.To-f.From)/f.Step)+1)*rays*len(tips))
	for d := f.From; d <= f.To; d += f.Step {
		for k := range rays {
			turn := (k + 1) / 2 * step * 10
			if k%2 == 0 {
				turn = -turn
			}
			cos, sin := drawing.CosSin(f.Toward - turn)
			reach := float64(d) + float64(math.Abs(cos)*float64(w)/2) + float64(math.Abs(sin)*float64(h)/2)
			by := drawing.Pt(drawing.Unit(math.Round(cos*reach)), -drawing.Unit(math.Round(sin*reach)))
			for _, tip := range tips {
				s := Spot{Centre: tip.Add(by), Off: tip.Sub(l.About)}
				to := nearest(around(s.Centre, w, h), tip).Sub(tip)
				s.Leader = math.Hypot(float64(to.X), float64(to.Y)) > float64(f.Reach)
				out = append(out, s)
			}
		}
	}
	return out
}

// Grid lists spots without a leader over a whole area, nearest to a point
// first.
func (l Label) Grid(room drawing.Rect, near drawing.Point, step drawing.Unit) []Spot {
	w, h := l.Extent()
	var out []Spot
	for y := room.Min.Y; y+h <= room.Max.Y; y += step {
		for x := room.Min.X; x+w <= room.Max.X; x += step {
			out = append(out, At(x+w/2, y+h/2))
		}
	}
	from := func(s Spot) int64 {
		d := s.Centre.Sub(near)
		return int64(d.X)*int64(d.X) + int64(d.Y)*int64(d.Y)
	}
	slices.SortStableFunc(out, func(a, b Spot) int { return cmp.Compare(from(a), from(b)) })
	return out
}

// ring lists spots round a point, nearest first: above, below, right, left and
// between, in growing rings.
func ring(about drawing.Point, w, h drawing.Unit) []Spot {
	var out []Spot
	for r := drawing.Unit(350); r <= 3600; r += 250 {
		for _, d := range [...][2]drawing.Unit{{0, -2}, {0, 2}, {2, 0}, {-2, 0}, {1, -2}, {-1, -2}, {1, 2}, {-1, 2},
			{2, -2}, {-2, -2}, {2, 2}, {-2, 2}} {
			c := drawing.Pt(about.X+d[0]*(r+w/2)/2, about.Y+d[1]*(r+h/2)/2)
			out = append(out, Spot{Centre: c, Leader: true})
		}
	}
	return out
}

// words are the words of the label's note.
func (l Label) words() string {
	if l.Note != "" {
		return l.Note
	}
	return strings.Join(l.Lines, " ")
}

// fact is what a line letters.
func (l Label) fact(line int) string {
	if line < len(l.Facts) {
		return l.Facts[line]
	}
	return ""
}

// facts are what all its lines letter.
func (l Label) facts() string {
	return strings.Join(slices.DeleteFunc(slices.Clone(l.Facts), func(f string) bool { return f == "" }), "|")
}

// sizeOf is the size of a line.
func (l Label) sizeOf(line int) drawing.Size {
	z := l.Size
	if line == 0 && l.LeadSize != 0 {
		z = l.LeadSize
	}
	if z == 0 {
		z = drawing.Note
	}
	return z
}

// faceOf is the face of a line.
func (l Label) faceOf(line int) drawing.Face {
	if line == 0 && l.LeadFace != drawing.Regular {
		return l.LeadFace
	}
	return l.Face
}

// Room of a line of lettering: some letters stand a little higher than a
// capital, below the last baseline hang commas and tails, and the lines of a
// label stand close, for they are few and short.
func head(z drawing.Size) drawing.Unit  { return drawing.Unit(z) * 11 / 10 }
func tail(z drawing.Size) drawing.Unit  { return drawing.Unit(z) * 3 / 10 }
func pitch(z drawing.Size) drawing.Unit { return drawing.Unit(z) * 3 / 2 }

// Extent is the width and height of a label as it stands.
func (l Label) Extent() (w, h drawing.Unit) {
	w, h = l.extent()
	if l.Turn%1800 == 0 || l.Balloon {
		return w, h
	}
	b := turnedBox(drawing.Point{}, w, h, l.Turn).box
	return b.Width(), b.Height()
}

// extent is the width and height along and across its lines.
func (l Label) extent() (w, h drawing.Unit) {
	if l.Balloon {
		b := l.circle(drawing.Point{}).Figure().Box
		return b.Width(), b.Height()
	}
	for i, line := range l.Lines {
		z := l.sizeOf(i)
		w = max(w, drawing.Width(l.faceOf(i), line, z))
		if i == 0 {
			h += head(z)
		} else {
			h += pitch(z)
		}
	}
	return w, h + tail(l.sizeOf(len(l.Lines)-1))
}

// circle is a balloon at a point.
func (l Label) circle(at drawing.Point) drawing.Balloon {
	return drawing.Balloon{At: at, Words: l.Lines[0], Size: l.sizeOf(0)}
}

// stand is a label at a spot: the shape of its lettering, also with the room
// kept of lines, of parts and of lettering beside it, and the way of its leader
// from the tip to the box.
type stand struct {
	centre, off            drawing.Point
	text, near, wide, long shape
	cover                  bool
	way                    []drawing.Point
	only                   func(drawing.Rect) bool
}

// form is a label measured, to be tried at many spots.
type form struct {
	Label
	w, h    drawing.Unit
	upright bool // its lines run along the paper
}

func (l Label) form() *form {
	w, h := l.extent()
	return &form{l, w, h, l.Balloon || l.Turn == 0}
}

// beyond says that at a spot an upright label, with the room kept of lines,
// would not lie in bounds, without standing it there: most spots of a label near
// the edge of a drawing end here.
func (l *form) beyond(bounds drawing.Rect, at Spot) bool {
	return l.upright && !bounds.Contains(around(at.Centre, l.w, l.h).Inset(-l.Pad))
}

func (l *form) stand(at Spot) stand {
	w, h := l.w, l.h
	s := stand{centre: at.Centre, off: at.Off, cover: l.Cover || l.Balloon, only: l.Only}
	turn := l.Turn
	m := max(l.Pad, clear)
	if l.upright {
		s.text.box = around(at.Centre, w, h)
		s.near.box, s.wide.box = s.text.box.Inset(-l.Pad), s.text.box.Inset(-m)
		s.long.box = s.wide.box
		s.long.box.Min.X, s.long.box.Max.X = s.text.box.Min.X-max(m, beside), s.text.box.Max.X+max(m, beside)
	} else {
		s.text = turnedBox(at.Centre, w, h, turn)
		s.near = s.text
		if l.Pad > 0 {
			s.near = turnedBox(at.Centre, w+2*l.Pad, h+2*l.Pad, turn)
		}
		s.wide = turnedBox(at.Centre, w+2*m, h+2*m, turn)
		s.long = turnedBox(at.Centre, w+2*max(m, beside), h+2*m, turn)
	}
	if !at.Leader {
		return s
	}
	tip := l.About.Add(at.Off)
	end := nearest(s.text.box.Inset(-clear/2), tip)
	if l.Balloon {
		d := tip.Sub(at.Centre)
		if far := math.Hypot(float64(d.X), float64(d.Y)); far > 0 {
			k := float64(w/2) / far
			end = at.Centre.Add(
				drawing.Pt(drawing.Unit(math.Round(float64(d.X)*k)), drawing.Unit(math.Round(float64(d.Y)*k))),
			)
		}
	}
	s.way = []drawing.Point{tip, end}
	return s
}

// draw letters the label, with its leader.
func (l Label) draw(s *stand) []drawing.Mark {
	if l.Balloon {
		b := l.circle(s.centre)
		if len(s.way) > 0 {
			b.Tip, b.Point = s.way[0], true
		}
		return b.Figure().Marks
	}
	var out drawing.Scene
	if len(s.way) > 0 {
		out.Line(drawing.Thin, s.way...)
		if !l.Bare {
			out.Dot(s.way[0], 55, drawing.Black)
		}
	}
	_, h := l.extent()
	up := h / 2
	for i, words := range l.Lines {
		z := l.sizeOf(i)
		if i == 0 {
			up -= head(z)
		} else {
			up -= pitch(z)
		}
		out.Text(turned(s.centre, l.Turn, 0, up), words, drawing.Style{
			Size: z, Face: l.faceOf(i), Align: drawing.Middle, Halo: l.Halo, Rotate: l.Turn, Fact: l.fact(i),
		})
	}
	return out.Marks
}
