package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Read reads the text that Scene.Dump prints back into the scene. An error names its line.
func Read(text string) (Scene, error) {
	r := reader{lines: strings.Split(strings.TrimSuffix(text, "\n"), "\n")}
	s := r.scene()
	if r.err == nil && r.at < len(r.lines) {
		r.next()
		r.fail("%q is no mark", r.lines[r.at-1])
	}
	return s, r.err
}

// reader reads line by line, and a line word by word. After the first error it reads nothing more.
type reader struct {
	lines []string
	at    int    // the next line, so the number of the one being read
	rest  string // of the line being read
	err   error
}

func (r *reader) fail(format string, args ...any) {
	if r.err == nil {
		r.err = fmt.Errorf("line %d: %s", r.at, fmt.Sprintf(format, args...))
	}
	r.rest = ""
}

// key returns the first word of the next line.
func (r *reader) key() string {
	if r.err != nil || r.at >= len(r.lines) {
		return ""
	}
	word, _, _ := strings.Cut(r.lines[r.at], " ")
	return word
}

// next goes to the next line, behind its first word.
func (r *reader) next() {
	_, r.rest, _ = strings.Cut(r.lines[r.at], " ")
	r.at++
}

// done says that a line has been read to its end.
func (r *reader) done() {
	if r.rest != "" {
		r.fail("nothing expects %q", r.rest)
	}
}

// word takes the next word, empty at the end of the line.
func (r *reader) word() string {
	var w string
	w, r.rest, _ = strings.Cut(r.rest, " ")
	return w
}

// take takes the next word if it is w.
func (r *reader) take(w string) bool {
	if r.rest != w && !strings.HasPrefix(r.rest, w+" ") {
		return false
	}
	r.word()
	return true
}

// begins says that the next word begins with one of these letters.
func (r *reader) begins(letters string) bool {
	return r.rest != "" && strings.IndexByte(letters, r.rest[0]) >= 0
}

func (r *reader) quoted() string {
	q, err := strconv.QuotedPrefix(r.rest)
	if err != nil {
		r.fail("no quoted words at %q", r.rest)
		return ""
	}
	r.rest = strings.TrimPrefix(r.rest[len(q):], " ")
	words, err := strconv.Unquote(q)
	if err != nil {
		r.fail("%s is not quoted right", q)
	}
	return words
}

func (r *reader) number() int {
	return r.integer(r.word())
}

func (r *reader) integer(w string) int {
	v, err := strconv.ParseInt(w, 10, 32)
	if err != nil {
		r.fail("%q is no whole number", w)
	}
	return int(v)
}

func (r *reader) unit() Unit { return Unit(r.number()) }

func (r *reader) point() Point {
	w := r.word()
	x, y, ok := strings.Cut(w, ",")
	if !ok {
		r.fail("%q is no point", w)
		return Point{}
	}
	return Point{Unit(r.integer(x)), Unit(r.integer(y))}
}

// points takes points as far as they go.
func (r *reader) points() []Point {
	var pts []Point
	var last Point
	for r.begins("-0123456789") {
		last = last.Add(r.point())
		pts = append(pts, last)
	}
	return pts
}

// named finds the value of a kind by its name, the kind's values running from 0 to below count.
func named[T ~uint8](r *reader, what string, count T, name func(T) string) T {
	w := r.word()
	for v := T(0); v < count; v++ {
		if name(v) == w {
			return v
		}
	}
	r.fail("%q is no %s", w, what)
	return 0
}

func (r *reader) pen() Pen { return named(r, "pen", penCount, Pen.String) }

func (r *reader) fill() Tone {
	if !r.take("fill") {
		return None
	}
	return named(r, "tone", toneCount, Tone.String)
}

func (r *reader) scene() Scene {
	var s Scene
	if r.key() != "scene" {
		r.at++
		r.fail("a scene begins with its name and size")
		return s
	}
	r.next()
	if i := strings.LastIndexByte(r.rest, ' '); i >= 0 { // a name may hold blanks
		s.Name, r.rest = r.rest[:i], r.rest[i+1:]
	}
	w, h, _ := strings.Cut(r.word(), "x")
	s.W, s.H = Unit(r.integer(w)), Unit(r.integer(h))
	r.done()
	if r.key() == "title" {
		r.next()
		s.Title = r.quoted()
		r.done()
	}
	if r.key() == "desc" {
		r.next()
		s.Desc = r.quoted()
		r.done()
	}
	if r.key() == "squeezed" {
		r.next()
		s.Squeezed = true
		r.done()
	}
	s.Marks = r.marks()
	return s
}

// marks reads marks up to a line that is none.
func (r *reader) marks() []Mark {
	var marks []Mark
	for {
		m := r.mark(r.key())
		if m == nil || r.err != nil {
			return marks
		}
		marks = append(marks, m)
	}
}

func (r *reader) mark(key string) Mark {
	var m Mark
	switch key {
	case "l":
		r.next()
		l := Line{Pen: r.pen(), Pts: r.points()}
		l.Closed = r.take("z")
		m = l
	case "a":
		r.next()
		a := Arc{Pen: r.pen(), Centre: r.point(), R: r.unit(), To: 3600}
		if r.begins("-0123456789") {
			a.From, a.To = r.number(), r.number()
		}
		a.Fill = r.fill()
		m = a
	case "r":
		r.next()
		g := Region{Pen: r.pen(), Fill: r.fill()}
		if r.take("hatch") {
			g.Hatch = named(r, "hatch", hatchCount, HatchKind.String)
		}
		for r.take("|") {
			g.Rings = append(g.Rings, r.points())
		}
		m = g
	case "t":
		r.next()
		m = r.text()
	case "k":
		r.next()
		l := Link{Box: Rect{Min: r.point()}}
		if !r.take("to") {
			r.fail("a link leads from corner to corner")
		}
		l.Box.Max, l.Target = r.point(), r.quoted()
		m = l
	case "{":
		r.next()
		return r.group()
	default:
		return nil
	}
	r.done()
	return m
}

func (r *reader) text() Text {
	t := Text{At: r.point(), Size: Size(r.number())}
	if r.take("b") {
		t.Face = Bold
	}
	switch {
	case r.take("m"):
		t.Align = Middle
	case r.take("r"):
		t.Align = Right
	}
	if r.take("turn") {
		t.Rotate = r.number()
	}
	t.Halo = r.take("halo")
	t.Reverse = r.take("reverse")
	measured := !r.take("width")
	if !measured {
		t.Width = r.unit()
	}
	t.Words, t.Fact = r.quoted(), r.fact()
	if measured && r.err == nil {
		t.Width = Width(t.Face, t.Words, t.Size)
	}
	return t
}

func (r *reader) fact() string {
	if !r.take("fact") {
		return ""
	}
	return r.quoted()
}

func (r *reader) group() Group {
	g := Group{Layer: named(r, "layer", layerCount, layerWord)}
	if r.begins(`"`) {
		g.ID = r.quoted()
	}
	if g.View = r.take("view"); g.View {
		g.Words = r.quoted()
	}
	g.Head, g.Fact = r.take("head"), r.fact()
	if r.take("cells") {
		for r.rest != "" {
			g.Cells = append(g.Cells, r.unit())
		}
	}
	r.done()
	for r.key() == "s" {
		r.next()
		u := Sum{What: r.quoted(), From: r.quoted(), To: r.quoted()}
		for r.rest != "" {
			u.Parts = append(u.Parts, r.quoted())
		}
		g.Sums = append(g.Sums, u)
	}
	g.Marks = r.marks()
	if r.key() != "}" {
		r.at = min(r.at+1, len(r.lines))
		r.fail("a group is not closed")
		return g
	}
	r.next()
	r.done()
	return g
}
