package pdf

import (
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/go-pdf/fpdf"

	"copingset/drawing"
	"copingset/fonts"
)

// pinned is the document of a sample's pinned sheets, without their links.
func pinned(t testing.TB, sample string) Document {
	files, err := filepath.Glob("../../golden/" + sample + "/scenes/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no sheets of %s: %v", sample, err)
	}
	d := Document{Title: sample, Date: issued, Compress: true}
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		s, err := drawing.Read(string(text))
		if err != nil {
			t.Fatalf("%s: %v", f, err)
		}
		s.Marks = unlinked(s.Marks)
		d.Pages = append(d.Pages, Page{Scene: s, ID: strings.TrimSuffix(filepath.Base(f), ".txt")})
	}
	return d
}

func unlinked(marks []drawing.Mark) []drawing.Mark {
	out := slices.DeleteFunc(slices.Clone(marks), func(m drawing.Mark) bool { _, is := m.(drawing.Link); return is })
	for i, m := range out {
		if g, is := m.(drawing.Group); is {
			g.Marks = unlinked(g.Marks)
			out[i] = g
		}
	}
	return out
}

// BenchmarkWrite writes the samples' sheets. BenchmarkFloor is what the library alone
// takes for the same marks: what lies between the two is ours.
func BenchmarkWrite(b *testing.B) {
	each(b, func(d Document) error { return Write(io.Discard, d) })
}

func BenchmarkFloor(b *testing.B) { each(b, bare) }

func each(b *testing.B, write func(Document) error) {
	for _, sample := range []string{"rectangle", "metric", "l-shape"} {
		b.Run(sample, func(b *testing.B) {
			d := pinned(b, sample)
			b.ReportAllocs()
			for b.Loop() {
				if err := write(d); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(d.Pages)), "pages")
		})
	}
}

// bare writes the marks of a document with the library and nothing else: no layers, no
// tags, no outline, every pen set where it changes.
func bare(d Document) error {
	first := d.Pages[0].Scene
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "pt", Size: size(first)})
	f.SetAutoPageBreak(false, 0)
	f.SetCompression(d.Compress)
	f.AddUTF8FontFromBytes(family, "", fonts.TTF(fonts.Regular))
	f.AddUTF8FontFromBytes(family, "B", fonts.TTF(fonts.Bold))
	for _, p := range d.Pages {
		f.AddPageFormat("P", size(p.Scene))
		q := bareMarks{f: f}
		p.Scene.Walk(func(_ drawing.Layer, m drawing.Mark) { q.mark(m) })
	}
	return f.Output(io.Discard)
}

type bareMarks struct {
	f    *fpdf.Fpdf
	pen  drawing.Pen
	face drawing.Face
	z    drawing.Size
}

func (q *bareMarks) stroke(p drawing.Pen) {
	if p == q.pen {
		return
	}
	q.pen = p
	st := p.Stroke()
	q.f.SetLineWidth(pt(st.Width))
	var dash []float64
	for _, u := range st.Dash() {
		dash = append(dash, pt(u))
	}
	q.f.SetDashPattern(dash, 0)
}

func (q *bareMarks) path(pts []drawing.Point, closed bool, how string) {
	for i, p := range pts {
		if i == 0 {
			q.f.MoveTo(pt(p.X), pt(p.Y))
		} else {
			q.f.LineTo(pt(p.X), pt(p.Y))
		}
	}
	if closed {
		q.f.ClosePath()
	}
	q.f.DrawPath(how)
}

func (q *bareMarks) mark(m drawing.Mark) {
	switch m := m.(type) {
	case drawing.Line:
		if m.Pen != drawing.NoPen && len(m.Pts) > 0 {
			q.stroke(m.Pen)
			q.path(m.Pts, m.Closed, "D")
		}
	case drawing.Arc:
		q.stroke(m.Pen)
		q.f.Arc(pt(m.Centre.X), pt(m.Centre.Y), pt(m.R), pt(m.R), 0, float64(m.From)/10, float64(m.To)/10, "D")
	case drawing.Region:
		if m.Fill != drawing.None {
			for _, r := range m.Rings {
				q.path(r, true, "f*")
			}
		}
		if m.Hatch != drawing.NoHatch {
			for _, l := range drawing.HatchLines(m.Hatch, m.Rings) {
				q.mark(l)
			}
		}
		if m.Pen != drawing.NoPen {
			q.stroke(m.Pen)
			for _, r := range m.Rings {
				q.path(r, true, "D")
			}
		}
	case drawing.Text:
		if m.Face != q.face || m.Size != q.z || q.z == 0 {
			style := ""
			if m.Face == drawing.Bold {
				style = "B"
			}
			q.f.SetFont(family, style, pt(drawing.Unit(m.Size)))
			q.face, q.z = m.Face, m.Size
		}
		at := m.Start()
		q.f.Text(pt(at.X), pt(at.Y), m.Words)
	}
}
