package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Dump prints the scene one mark a line, lengths in millimetres, for comparing by eye and by test. The same scene gives the same
// text.
func (s Scene) Dump() string {
	var b strings.Builder
	fmt.Fprintf(&b, "scene %s %vx%v\n", s.Name, s.W, s.H)
	if s.Title != "" {
		fmt.Fprintf(&b, "title %q\n", s.Title)
	}
	if s.Desc != "" {
		fmt.Fprintf(&b, "desc %q\n", s.Desc)
	}
	dump(&b, s.Marks, "")
	return b.String()
}

func dump(b *strings.Builder, marks []Mark, indent string) {
	for _, m := range marks {
		b.WriteString(indent)
		switch m := m.(type) {
		case Line:
			fmt.Fprintf(b, "line %v", m.Pen)
			dumpPoints(b, m.Pts)
			if m.Closed {
				b.WriteString(" closed")
			}
		case Arc:
			fmt.Fprintf(b, "arc %v %v r %v", m.Pen, m.Centre, m.R)
			if !m.Full() {
				fmt.Fprintf(b, " from %s to %s", tenths(m.From), tenths(m.To))
			}
			if m.Fill != None {
				fmt.Fprintf(b, " fill %v", m.Fill)
			}
		case Region:
			fmt.Fprintf(b, "region %v", m.Pen)
			if m.Fill != None {
				fmt.Fprintf(b, " fill %v", m.Fill)
			}
			if m.Hatch != NoHatch {
				fmt.Fprintf(b, " hatch %v", m.Hatch)
			}
			for i, r := range m.Rings {
				if i > 0 {
					b.WriteString(" |")
				}
				dumpPoints(b, r)
			}
		case Text:
			fmt.Fprintf(b, "text %v %v %v %v", m.At, Unit(m.Size), m.Face, m.Align)
			if m.Rotate != 0 {
				fmt.Fprintf(b, " turn %s", tenths(m.Rotate))
			}
			if m.Halo {
				b.WriteString(" halo")
			}
			if m.Reverse {
				b.WriteString(" reverse")
			}
			fmt.Fprintf(b, " width %v %s", m.Width, strconv.Quote(m.Words))
		case Link:
			fmt.Fprintf(b, "link %v %s", m.Box, strconv.Quote(m.Target))
		case Group:
			fmt.Fprintf(b, "group %s %s", strconv.Quote(m.Layer.String()), strconv.Quote(m.ID))
			if m.View {
				fmt.Fprintf(b, " view %s", strconv.Quote(m.Words))
			}
			if m.Head {
				b.WriteString(" head")
			}
			for i, x := range m.Cells {
				if i == 0 {
					b.WriteString(" cells")
				}
				fmt.Fprintf(b, " %v", x)
			}
			b.WriteByte('\n')
			for _, u := range m.Sums {
				fmt.Fprintf(b, "%s  sum %q: %q to %q by %q\n", indent, u.What, u.From, u.To, u.Parts)
			}
			dump(b, m.Marks, indent+"  ")
			b.WriteString(indent + "end")
		default:
			panic(unknown(m))
		}
		b.WriteByte('\n')
	}
}

func dumpPoints(b *strings.Builder, pts []Point) {
	for _, p := range pts {
		b.WriteByte(' ')
		b.WriteString(p.String())
	}
}

// tenths prints tenths of a degree.
func tenths(t int) string {
	if t%10 == 0 {
		return strconv.Itoa(t / 10)
	}
	sign := ""
	if t < 0 {
		sign, t = "-", -t
	}
	return fmt.Sprintf("%s%d.%d", sign, t/10, t%10)
}
