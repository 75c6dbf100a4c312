package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Dump prints the scene as text, one mark a line, to be compared by eye and by
// test, and to be read back with Read. The same scene gives the same text. Lengths
// are in hundredths of a millimetre, angles in tenths of a degree:
//
//	scene NAME WxH
//	title "..."            and desc "...", where there are any; squeezed, where it is
//	l PEN X,Y DX,DY ...    a line: its first point, then the way from point to point; z closes it
//	a PEN X,Y R            an arc, with its angles FROM TO unless it is a full circle, and "fill TONE"
//	r PEN X,Y DX,DY ...    a region, with "fill TONE" and "hatch KIND" before its rings, each after |
//	t X,Y SIZE "..."       a text: b bold, m or r not left-aligned, "turn ANGLE", halo, reverse, and its width
//	                       where it is not what the lettering measures; "fact NAMES" after the words
//	k X,Y to X,Y "..."     a link
//	{ LAYER "ID"           a group, - without a layer, up to }, with view "...", head, fact "..." and cells;
//	s "..." ...            a sum of the group: what, from, to and its parts
//
// A mark that only moves differs in nothing but its first point.
func (s Scene) Dump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "scene %s %dx%d\n", s.Name, s.W, s.H)
	if s.Title != "" {
		fmt.Fprintf(&b, "title %q\n", s.Title)
	}
	if s.Desc != "" {
		fmt.Fprintf(&b, "desc %q\n", s.Desc)
	}
	if s.Squeezed {
		b.WriteString("squeezed\n")
	}
	dump(&b, s.Marks)
	return b.String()
}

func dump(b *strings.Builder, marks []Mark) {
	for _, m := range marks {
		switch m := m.(type) {
		case Line:
			b.WriteString("l ")
			b.WriteString(m.Pen.String())
			dumpPoints(b, m.Pts)
			if m.Closed {
				b.WriteString(" z")
			}
		case Arc:
			fmt.Fprintf(b, "a %v %d,%d %d", m.Pen, m.Centre.X, m.Centre.Y, m.R)
			if m.From != 0 || m.To != 3600 {
				fmt.Fprintf(b, " %d %d", m.From, m.To)
			}
			dumpFill(b, m.Fill)
		case Region:
			b.WriteString("r ")
			b.WriteString(m.Pen.String())
			dumpFill(b, m.Fill)
			if m.Hatch != NoHatch {
				fmt.Fprintf(b, " hatch %v", m.Hatch)
			}
			for _, r := range m.Rings {
				b.WriteString(" |")
				dumpPoints(b, r)
			}
		case Text:
			dumpText(b, m)
		case Link:
			fmt.Fprintf(b, "k %d,%d to %d,%d %q", m.Box.Min.X, m.Box.Min.Y, m.Box.Max.X, m.Box.Max.Y, m.Target)
		case Group:
			dumpGroup(b, m)
		default:
			panic(unknown(m))
		}
		b.WriteByte('\n')
	}
}

func dumpFill(b *strings.Builder, t Tone) {
	if t != None {
		b.WriteString(" fill ")
		b.WriteString(t.String())
	}
}

func dumpText(b *strings.Builder, t Text) {
	fmt.Fprintf(b, "t %d,%d %d", t.At.X, t.At.Y, t.Size)
	if t.Face == Bold {
		b.WriteString(" b")
	}
	if t.Align != Left {
		b.WriteByte(' ')
		b.WriteByte(t.Align.String()[0])
	}
	if t.Rotate != 0 {
		fmt.Fprintf(b, " turn %d", t.Rotate)
	}
	if t.Halo {
		b.WriteString(" halo")
	}
	if t.Reverse {
		b.WriteString(" reverse")
	}
	if t.Width != Width(t.Face, t.Words, t.Size) {
		fmt.Fprintf(b, " width %d", t.Width)
	}
	b.WriteByte(' ')
	b.WriteString(strconv.Quote(t.Words))
	dumpFact(b, t.Fact)
}

// dumpFact prints facts where there are any: most marks letter none.
func dumpFact(b *strings.Builder, names string) {
	if names != "" {
		fmt.Fprintf(b, " fact %q", names)
	}
}

func dumpGroup(b *strings.Builder, g Group) {
	b.WriteString("{ ")
	b.WriteString(layerWord(g.Layer))
	if g.ID != "" {
		fmt.Fprintf(b, " %q", g.ID)
	}
	if g.View {
		fmt.Fprintf(b, " view %q", g.Words)
	}
	if g.Head {
		b.WriteString(" head")
	}
	dumpFact(b, g.Fact)
	for i, x := range g.Cells {
		if i == 0 {
			b.WriteString(" cells")
		}
		fmt.Fprintf(b, " %d", x)
	}
	b.WriteByte('\n')
	for _, u := range g.Sums {
		fmt.Fprintf(b, "s %q %q %q", u.What, u.From, u.To)
		for _, p := range u.Parts {
			fmt.Fprintf(b, " %q", p)
		}
		b.WriteByte('\n')
	}
	dump(b, g.Marks)
	b.WriteByte('}')
}

// layerWord names a layer in one word.
func layerWord(l Layer) string {
	if l == NoLayer {
		return "-"
	}
	return strings.ReplaceAll(l.String(), " ", "-")
}

// dumpPoints prints the first point, then the way from each point to the next.
func dumpPoints(b *strings.Builder, pts []Point) {
	var buf [32]byte
	var last Point
	for _, p := range pts {
		d := p.Sub(last)
		out := append(buf[:0], ' ')
		out = strconv.AppendInt(out, int64(d.X), 10)
		out = append(out, ',')
		out = strconv.AppendInt(out, int64(d.Y), 10)
		b.Write(out)
		last = p
	}
}
