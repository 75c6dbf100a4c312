// Package svg writes a drawing.Scene as one SVG file.
//
// The file is measured in hundredths of a millimetre and carries its true size, so it prints to
// scale. Lettering is drawn as glyph outlines unless live text is asked for, because many
// programs ignore embedded fonts; the words stand in aria-label. Layers are named groups. The
// same scene gives the same bytes.
package svg

import (
	"bufio"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"

	svgo "github.com/ajstarks/svgo"

	"copingset/drawing"
	"copingset/fonts"
)

// Options say how to write. The zero value draws outlines and leaves links out.
type Options struct {
	LiveText   bool                       // letter with text elements instead of outlines
	SharedFont bool                       // with LiveText: the page that shows the file brings the font along
	Href       func(target string) string // address of another sheet; none leaves links out
}

// Write writes the scene.
func Write(w io.Writer, s drawing.Scene, opt Options) error {
	for _, t := range s.Texts() {
		if missing := fonts.Missing(t.Face, t.Words); len(missing) > 0 {
			return fmt.Errorf("scene %s: text %q: the lettering has no glyph for %q", s.Name, t.Words, string(missing))
		}
	}
	// A bufio.Writer keeps the first write error and returns it from Flush; svgo itself drops every error.
	buf := bufio.NewWriter(w)
	wr := writer{svg: svgo.New(buf), opt: opt, ids: map[string]int{}}
	if err := wr.scene(s); err != nil {
		return fmt.Errorf("scene %s: %w", s.Name, err)
	}
	if err := buf.Flush(); err != nil {
		return fmt.Errorf("scene %s: %w", s.Name, err)
	}
	return nil
}

// writer is the state of one file. ids counts how often an id was asked for, so that each is written once.
type writer struct {
	svg *svgo.SVG
	opt Options
	ids map[string]int
}

// attr returns an attribute with its value escaped. Every attribute that is not a plain number goes through here.
func attr(name, value string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(value)) // a strings.Builder does not fail
	return name + `="` + b.String() + `"`
}

func class(name string) string { return attr("class", "cs-"+name) }

func (w *writer) scene(s drawing.Scene) error {
	w.svg.Startraw(
		attr("width", s.W.String()+"mm"), attr("height", s.H.String()+"mm"),
		fmt.Sprintf(`viewBox="0 0 %d %d"`, s.W, s.H),
		attr("xmlns:inkscape", "http://www.inkscape.org/namespaces/inkscape"),
		`role="graphics-document"`,
	)
	if s.Title != "" {
		w.svg.Title(s.Title)
	}
	if s.Desc != "" {
		w.svg.Desc(s.Desc)
	}
	w.svg.Style("text/css", w.css(s))
	if !w.opt.LiveText {
		if err := w.glyphs(s); err != nil {
			return err
		}
	}
	w.svg.Rect(0, 0, int(s.W), int(s.H), `fill="#ffffff"`)
	w.marks(s.Marks)
	w.svg.End()
	return nil
}

// css resolves each pen and tone the scene uses once. Class names carry a prefix, because
// several drawings may share a page.
func (w *writer) css(s drawing.Scene) string {
	var pens [256]bool
	var fills [256]bool
	var faces [2]bool
	s.Walk(func(_ drawing.Layer, m drawing.Mark) {
		switch m := m.(type) {
		case drawing.Line:
			pens[m.Pen] = true
		case drawing.Arc:
			pens[m.Pen], fills[m.Fill] = true, true
		case drawing.Region:
			pens[m.Pen], fills[m.Fill] = true, true
			if m.Hatch != drawing.NoHatch {
				pens[drawing.HatchPen] = true
				if m.Hatch == drawing.HoldStripe {
					pens[drawing.Hold] = true
				}
			}
		case drawing.Text:
			faces[m.Face] = true
			fills[drawing.White] = fills[drawing.White] || m.Halo
		}
	})
	var b strings.Builder
	b.WriteString("\n")
	for _, p := range drawing.Pens() {
		if !pens[p] {
			continue
		}
		st := p.Stroke()
		fmt.Fprintf(
			&b,
			".cs-%s{fill:none;stroke:%s;stroke-width:%d;stroke-linejoin:round;",
			st.Name,
			st.Colour.Hex(),
			st.Width,
		)
		if d := st.Dash(); len(d) > 0 {
			b.WriteString("stroke-dasharray:")
			for i, u := range d {
				if i > 0 {
					b.WriteByte(',')
				}
				b.WriteString(strconv.Itoa(int(u)))
			}
			b.WriteString("}\n")
		} else {
			b.WriteString("stroke-linecap:round}\n")
		}
	}
	for t := drawing.White; t <= drawing.Black; t++ {
		if fills[t] {
			fmt.Fprintf(&b, ".cs-fill-%v{fill:%s;fill-rule:evenodd;stroke:none}\n", t, t.Colour().Hex())
		}
	}
	b.WriteString(".cs-t{fill:#000000;stroke:none}\n.cs-rt{fill:#ffffff;stroke:none}\n")
	if w.opt.LiveText {
		for f := drawing.Regular; f <= drawing.Bold; f++ {
			if faces[f] && !w.opt.SharedFont {
				fmt.Fprintf(&b, "@font-face{font-family:'%s';font-weight:%d;src:url(data:font/ttf;base64,%s)}\n",
					fonts.Family, weight(f), base64.StdEncoding.EncodeToString(fonts.TTF(f)))
			}
		}
		fmt.Fprintf(&b, ".cs-t,.cs-rt{font-family:'%s';font-kerning:none;white-space:pre}\n", fonts.Family)
	}
	return b.String()
}

func weight(f drawing.Face) int {
	if f == drawing.Bold {
		return 700
	}
	return 400
}

// glyphID names the outline of a rune in a face.
func glyphID(f drawing.Face, r rune) string {
	if f == drawing.Bold {
		return "cs-b" + strconv.FormatInt(int64(r), 16)
	}
	return "cs-r" + strconv.FormatInt(int64(r), 16)
}

// shapes are the outlines of a face as paths, by rune; it is for looking up alone. Every file
// of a packet needs nearly all of them.
var shapes = [...]func() (map[rune]string, error){
	drawing.Regular: sync.OnceValues(func() (map[rune]string, error) { return shapesOf(drawing.Regular) }),
	drawing.Bold:    sync.OnceValues(func() (map[rune]string, error) { return shapesOf(drawing.Bold) }),
}

func shapesOf(f drawing.Face) (map[rune]string, error) {
	out := map[rune]string{}
	for _, r := range fonts.Runes(f) {
		segs, err := fonts.Outline(f, r)
		if err != nil {
			return nil, err
		}
		out[r] = outline(segs)
	}
	return out, nil
}

// glyphs defines the outline of each glyph the scene uses, in thousandths of an em, in the order of first use.
func (w *writer) glyphs(s drawing.Scene) error {
	type glyph struct {
		face drawing.Face
		rune rune
	}
	seen := map[glyph]bool{}
	w.svg.Def()
	for _, t := range s.Texts() {
		shape, err := shapes[t.Face]()
		if err != nil {
			return err
		}
		for _, r := range t.Words {
			if g := (glyph{t.Face, r}); !seen[g] {
				seen[g] = true
				if d := shape[r]; d != "" {
					w.svg.Path(d, attr("id", glyphID(t.Face, r)))
				}
			}
		}
	}
	w.svg.DefEnd()
	return nil
}

func outline(segs []fonts.Segment) string {
	var b []byte
	put := func(op byte, v ...int) {
		b = append(b, op)
		for i, n := range v {
			if i > 0 {
				b = append(b, ' ')
			}
			b = strconv.AppendInt(b, int64(n), 10)
		}
	}
	for i, g := range segs {
		switch g.Op {
		case fonts.MoveTo:
			if i > 0 {
				b = append(b, 'Z')
			}
			put('M', g.X, g.Y)
		case fonts.LineTo:
			put('L', g.X, g.Y)
		case fonts.QuadTo:
			put('Q', g.CX, g.CY, g.X, g.Y)
		}
	}
	if len(segs) > 0 {
		b = append(b, 'Z')
	}
	return string(b)
}

// marks draws a list. Lines of one pen that follow each other share a path.
func (w *writer) marks(marks []drawing.Mark) {
	var path strings.Builder
	pen := drawing.NoPen
	flush := func() {
		if path.Len() > 0 {
			w.svg.Path(path.String(), class(pen.String()))
			path.Reset()
		}
	}
	for _, m := range marks {
		if l, ok := m.(drawing.Line); ok {
			if l.Pen != pen {
				flush()
				pen = l.Pen
			}
			if pen != drawing.NoPen {
				polyline(&path, l.Pts, l.Closed)
			}
			continue
		}
		flush()
		w.mark(m)
	}
	flush()
}

func (w *writer) mark(m drawing.Mark) {
	switch m := m.(type) {
	case drawing.Line:
		w.marks([]drawing.Mark{m})
	case drawing.Arc:
		w.arc(m)
	case drawing.Region:
		w.region(m)
	case drawing.Text:
		w.text(m)
	case drawing.Link:
		if w.opt.Href != nil {
			var d strings.Builder
			polyline(&d, m.Box.Corners(), true)
			// svgo escapes the title of a link but not its address, so the address is an attribute of ours
			w.svg.Group()
			fmt.Fprintf(w.svg.Writer, "<a %s>\n", attr("xlink:href", w.opt.Href(m.Target)))
			w.svg.Path(d.String(), `fill="#ffffff"`, `fill-opacity="0"`)
			w.svg.LinkEnd()
			w.svg.Gend()
		}
	case drawing.Group:
		w.group(m)
	default:
		panic(fmt.Sprintf("svg: unknown mark %T", m))
	}
}

func (w *writer) group(g drawing.Group) {
	if len(g.Marks) == 0 && len(g.Sums) > 0 {
		return
	}
	var attrs []string
	if g.ID != "" {
		attrs = append(attrs, attr("id", w.unique(g.ID)))
	}
	if g.Layer != drawing.NoLayer {
		attrs = append(
			attrs, attr("data-layer", g.Layer.String()), `inkscape:groupmode="layer"`,
			attr("inkscape:label", g.Layer.String()),
		)
	}
	w.svg.Group(attrs...)
	w.marks(g.Marks)
	w.svg.Gend()
}

// unique gives an id asked for again a number, since a file may hold each id once.
func (w *writer) unique(id string) string {
	w.ids[id]++
	if n := w.ids[id]; n > 1 {
		return w.unique(id + "-" + strconv.Itoa(n))
	}
	return id
}

func polyline(b *strings.Builder, pts []drawing.Point, closed bool) {
	op := "M"
	for _, p := range pts {
		b.WriteString(op)
		b.WriteString(strconv.Itoa(int(p.X)))
		b.WriteByte(' ')
		b.WriteString(strconv.Itoa(int(p.Y)))
		op = "L"
	}
	if closed && len(pts) > 0 {
		b.WriteByte('Z')
	}
}

func (w *writer) arc(a drawing.Arc) {
	if a.Full() {
		if a.Fill != drawing.None {
			w.svg.Circle(int(a.Centre.X), int(a.Centre.Y), int(a.R), class("fill-"+a.Fill.String()))
		}
		if a.Pen != drawing.NoPen {
			w.svg.Circle(int(a.Centre.X), int(a.Centre.Y), int(a.R), class(a.Pen.String()))
		}
		return
	}
	if a.Pen == drawing.NoPen {
		return
	}
	from, to := drawing.Polar(a.Centre, a.R, a.From), drawing.Polar(a.Centre, a.R, a.To)
	large := 0
	if a.To-a.From > 1800 {
		large = 1
	}
	w.svg.Path(
		fmt.Sprintf("M%d %dA%d %d 0 %d 0 %d %d", from.X, from.Y, a.R, a.R, large, to.X, to.Y),
		class(a.Pen.String()),
	)
}

func (w *writer) region(r drawing.Region) {
	var d strings.Builder
	for _, ring := range r.Rings {
		polyline(&d, ring, true)
	}
	if r.Fill != drawing.None {
		w.svg.Path(d.String(), class("fill-"+r.Fill.String()))
	}
	if r.Hatch != drawing.NoHatch {
		var marks []drawing.Mark
		for _, l := range drawing.HatchLines(r.Hatch, r.Rings) {
			marks = append(marks, l)
		}
		w.marks(marks)
	}
	if r.Pen != drawing.NoPen {
		w.svg.Path(d.String(), class(r.Pen.String()))
	}
}

func (w *writer) text(t drawing.Text) {
	if t.Words == "" {
		return
	}
	if t.Halo {
		var d strings.Builder
		polyline(&d, t.HaloQuad(), true)
		w.svg.Path(d.String(), class("fill-white"))
	}
	cls := class("t")
	if t.Reverse {
		cls = class("rt")
	}
	start := t.Start()
	place := fmt.Sprintf("translate(%d %d)", start.X, start.Y)
	if t.Rotate != 0 {
		place += "rotate(" + decimal(-t.Rotate, 1) + ")"
	}
	em := fonts.Em(t.Face, int(t.Size))
	if w.opt.LiveText {
		w.svg.Text(
			0,
			0,
			t.Words,
			cls,
			attr("transform", place),
			attr("font-size", decimal(em, 3)),
			fmt.Sprintf(`font-weight="%d"`, weight(t.Face)),
			fmt.Sprintf(`textLength="%d"`, t.Width),
			`xml:space="preserve"`,
		)
		return
	}
	w.svg.Group(
		cls,
		`role="img"`,
		attr("aria-label", strings.Join(strings.Fields(t.Words), " ")),
		attr("transform", place+"scale("+decimal(em, 6)+")"),
	)
	x := 0
	for _, r := range t.Words {
		if r != ' ' && r != '\u00a0' && r != '\u2009' {
			w.svg.Use(x, 0, "#"+glyphID(t.Face, r))
		}
		x += fonts.Advance(t.Face, r)
	}
	w.svg.Gend()
}

// decimal prints v with a number of decimals, without trailing zeros.
func decimal(v, decimals int) string {
	sign := ""
	if v < 0 {
		sign, v = "-", -v
	}
	digits := fmt.Sprintf("%0*d", decimals+1, v)
	whole, frac := digits[:len(digits)-decimals], strings.TrimRight(digits[len(digits)-decimals:], "0")
	if frac == "" {
		return sign + whole
	}
	return sign + whole + "." + frac
}
