package golden

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"copingset/drawing"
)

// A leaf is a mark that is no group, with its layer. Two leaves of one key
// differ at most in the place they stand at.
type leaf struct {
	mark  drawing.Mark
	layer drawing.Layer
	at    drawing.Point
	key   string
}

func leaves(s drawing.Scene) []leaf {
	var out []leaf
	s.Walk(func(layer drawing.Layer, m drawing.Mark) {
		l := leaf{mark: m, layer: layer, at: anchor(m)}
		moved := drawing.Translate([]drawing.Mark{m}, drawing.Point{}.Sub(l.at))
		l.key = layer.String() + " " + drawing.Scene{Marks: moved}.Dump()
		out = append(out, l)
	})
	return out
}

// anchor is the point a mark is drawn from.
func anchor(m drawing.Mark) drawing.Point {
	switch m := m.(type) {
	case drawing.Line:
		if len(m.Pts) > 0 {
			return m.Pts[0]
		}
	case drawing.Arc:
		return m.Centre
	case drawing.Region:
		if len(m.Rings) > 0 && len(m.Rings[0]) > 0 {
			return m.Rings[0][0]
		}
	case drawing.Text:
		return m.At
	case drawing.Link:
		return m.Box.Min
	}
	return drawing.Point{}
}

// kind names a mark for a person who counts them.
func (l leaf) kind() string {
	switch m := l.mark.(type) {
	case drawing.Line:
		return m.Pen.String() + " line"
	case drawing.Arc:
		return "arc or dot"
	case drawing.Region:
		switch {
		case m.Hatch != drawing.NoHatch:
			return "area hatched " + m.Hatch.String()
		case m.Fill != drawing.None:
			return m.Fill.String() + " area"
		}
		return "area"
	case drawing.Link:
		return "link"
	}
	return "text"
}

// pair is a mark before and after.
type pair struct{ old, new leaf }

// sceneDiff is what became of the marks of a scene. Same holds those that
// stand as they did, as they are now.
type sceneDiff struct {
	old, new             drawing.Scene
	same, removed, added []leaf
	moved, reworded      []pair
}

// diffScenes matches marks first where they stand, then alike ones elsewhere in
// the order drawn, then texts of one place.
func diffScenes(old, new drawing.Scene) sceneDiff {
	d := sceneDiff{old: old, new: new}
	exact := func(l leaf) string { return fmt.Sprint(l.at, " ", l.key) }
	gone, come := leaves(old), leaves(new)
	match := func(key func(leaf) string, found func(pair)) {
		places := map[string][]int{} // of what is gone, in order
		for i, l := range gone {
			if k := key(l); k != "" {
				places[k] = append(places[k], i)
			}
		}
		var rest []leaf
		matched := map[int]bool{}
		for _, l := range come {
			k := key(l)
			if at := places[k]; k != "" && len(at) > 0 {
				places[k], matched[at[0]] = at[1:], true
				found(pair{gone[at[0]], l})
				continue
			}
			rest = append(rest, l)
		}
		var left []leaf
		for i, l := range gone {
			if !matched[i] {
				left = append(left, l)
			}
		}
		gone, come = left, rest
	}
	match(exact, func(p pair) { d.same = append(d.same, p.new) })
	match(func(l leaf) string { return l.key }, func(p pair) { d.moved = append(d.moved, p) })
	match(func(l leaf) string {
		if l.kind() == "text" {
			return l.at.String()
		}
		return ""
	}, func(p pair) { d.reworded = append(d.reworded, p) })
	d.removed, d.added = gone, come
	return d
}

// touched returns what differs, as it was and as it is.
func (d sceneDiff) touched() (was, is []leaf) {
	was, is = slices.Clone(d.removed), slices.Clone(d.added)
	for _, p := range slices.Concat(d.moved, d.reworded) {
		was, is = append(was, p.old), append(is, p.new)
	}
	return was, is
}

// frameOnly says that nothing but the frame and the title block differs.
func (d sceneDiff) frameOnly() bool {
	was, is := d.touched()
	other := func(l leaf) bool { return l.layer != drawing.Frame }
	return len(was)+len(is) > 0 && !slices.ContainsFunc(was, other) && !slices.ContainsFunc(is, other) &&
		d.old.W == d.new.W && d.old.H == d.new.H
}

// frameAlone heads the words on a sheet that is as it was but for its frame.
const frameAlone = "in the frame and title block alone:"

// words says what differs, a line for each thing.
func (d sceneDiff) words() []string {
	var out []string
	if d.frameOnly() {
		out = append(out, frameAlone)
	}
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if d.old.W != d.new.W || d.old.H != d.new.H {
		say("the sheet was %v x %v mm and is %v x %v mm", d.old.W, d.old.H, d.new.W, d.new.H)
	}
	if d.old.Title != d.new.Title {
		say("the title %q is now %q", d.old.Title, d.new.Title)
	}
	if d.old.Desc != d.new.Desc {
		say("the description %q is now %q", d.old.Desc, d.new.Desc)
	}
	for _, p := range d.reworded {
		was, is := p.old.mark.(drawing.Text), p.new.mark.(drawing.Text)
		switch {
		case was.Words == is.Words:
			say("%s is lettered or layered otherwise (at %v)", quote(is.Words), is.At)
		case quote(was.Words) == quote(is.Words):
			say("%q is now %q (at %v)", was.Words, is.Words, is.At)
		default:
			say("%s is now %s (at %v)", quote(was.Words), quote(is.Words), is.At)
		}
	}
	for _, l := range d.removed {
		if t, ok := l.mark.(drawing.Text); ok {
			say("text removed: %s (at %v)", quote(t.Words), t.At)
		}
	}
	for _, l := range d.added {
		if t, ok := l.mark.(drawing.Text); ok {
			say("text added: %s (at %v)", quote(t.Words), t.At)
		}
	}
	out = append(out, d.moves()...)
	if s := count(d.removed); s != "" {
		say("removed: %s", s)
	}
	if s := count(d.added); s != "" {
		say("added: %s", s)
	}
	if len(out) == 0 && d.old.Dump() != d.new.Dump() {
		say("the same marks in another order, in other groups or with other sums")
	}
	return out
}

// quote quotes words as a reader takes them in, each blank alike.
func quote(words string) string { return "“" + strings.Join(strings.Fields(words), " ") + "”" }

// moves says how far marks moved, those of one way together.
func (d sceneDiff) moves() []string {
	byWay := map[drawing.Point][]leaf{}
	var ways []drawing.Point
	for _, p := range d.moved {
		w := p.new.at.Sub(p.old.at)
		if byWay[w] == nil {
			ways = append(ways, w)
		}
		byWay[w] = append(byWay[w], p.new)
	}
	var out []string
	for _, w := range ways {
		var texts []string
		for _, l := range byWay[w] {
			if t, ok := l.mark.(drawing.Text); ok {
				texts = append(texts, quote(t.Words))
			}
		}
		parts := []string{}
		if len(texts) > 0 {
			parts = append(parts, shortened(texts, 6))
		}
		if s := count(byWay[w]); s != "" {
			parts = append(parts, s)
		}
		out = append(out, "moved "+way(w)+": "+strings.Join(parts, "; "))
	}
	return out
}

// way says where a mark went, in millimetres.
func way(w drawing.Point) string {
	var parts []string
	say := func(d drawing.Unit, back, forth string) {
		if d < 0 {
			parts = append(parts, fmt.Sprintf("%v mm %s", -d, back))
		}
		if d > 0 {
			parts = append(parts, fmt.Sprintf("%v mm %s", d, forth))
		}
	}
	say(w.X, "left", "right")
	say(w.Y, "up", "down")
	return strings.Join(parts, " and ")
}

// count counts the marks that are no texts, by kind.
func count(l []leaf) string {
	n := map[string]int{}
	var kinds []string
	for _, m := range l {
		if k := m.kind(); k != "text" {
			if n[k] == 0 {
				kinds = append(kinds, k)
			}
			n[k]++
		}
	}
	slices.Sort(kinds)
	for i, k := range kinds {
		kinds[i] = fmt.Sprintf("%d × %s", n[k], k)
	}
	return strings.Join(kinds, ", ")
}

// shortened joins the first few of a list and counts the rest.
func shortened(list []string, most int) string {
	if len(list) <= most {
		return strings.Join(list, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(list[:most], ", "), len(list)-most)
}

// describe says in words how a pinned file differs from what is made now.
func describe(name string, old, new []byte) []string {
	switch {
	case strings.HasPrefix(name, "scenes/"):
		a, err := drawing.Read(string(old))
		if err != nil {
			return []string{"what is pinned cannot be read as a scene: " + err.Error()}
		}
		b, err := drawing.Read(string(new))
		if err != nil {
			return []string{"what is drawn cannot be read back: " + err.Error()}
		}
		return diffScenes(a, b).words()
	case strings.HasSuffix(name, ".sum"):
		return describeSums(string(old), string(new))
	}
	return describeLines(string(old), string(new))
}

// describeSums names what has another digest.
func describeSums(old, new string) []string {
	was, is := sums(old), sums(new)
	var changed, gone, come []string
	for _, n := range sorted(is) {
		switch {
		case was[n] == "":
			come = append(come, n)
		case was[n] != is[n]:
			changed = append(changed, n)
		}
	}
	for _, n := range sorted(was) {
		if is[n] == "" {
			gone = append(gone, n)
		}
	}
	var out []string
	for _, l := range []struct {
		what  string
		names []string
	}{{"other bytes", changed}, {"new", come}, {"gone", gone}} {
		if len(l.names) > 0 {
			out = append(out, fmt.Sprintf("%s: %s", l.what, shortened(l.names, 12)))
		}
	}
	if len(out) == 0 {
		out = append(out, "the same digests in another order")
	}
	return out
}

// sums reads a list of digests: what is named to its digest and size.
func sums(list string) map[string]string {
	out := map[string]string{}
	for _, l := range strings.Split(list, "\n") {
		if sum, name, ok := strings.Cut(l, " bytes  "); ok {
			out[name] = sum
		}
	}
	return out
}

// describeLines tells lines that went from lines that came, each in its order.
func describeLines(old, new string) []string {
	a, b := strings.Split(old, "\n"), strings.Split(new, "\n")
	left := map[string]int{}
	for _, l := range a {
		left[l]++
	}
	var out []string
	for _, l := range b {
		if left[l] == 0 {
			out = append(out, "+ "+l)
			continue
		}
		left[l]--
	}
	come := len(out)
	for _, l := range slices.Backward(a) {
		if left[l] > 0 {
			left[l]--
			out = slices.Insert(out, 0, "- "+l)
		}
	}
	if len(out) == 0 {
		return []string{"the same lines in another order"}
	}
	return slices.Insert(out, 0, fmt.Sprintf("%d lines removed, %d added", len(out)-come, come))
}

func TestWordsSayWhatChanged(t *testing.T) {
	base := func() drawing.Scene {
		s := drawing.Scene{Name: "n", Title: "T", W: 42000, H: 29700}
		s.Text(drawing.Pt(100, 200), "12'-0\"", drawing.Style{})
		s.Text(drawing.Pt(100, 900), "MARK", drawing.Style{})
		s.Line(drawing.Thin, drawing.Pt(0, 0), drawing.Pt(500, 0))
		s.Group(drawing.Frame, "title", func(g *drawing.Scene) {
			g.Text(drawing.Pt(9000, 9000), "2 of 69", drawing.Style{})
		})
		return s
	}
	tests := []struct {
		what   string
		change func(s *drawing.Scene)
		want   []string
	}{
		{"nothing", func(*drawing.Scene) {}, nil},
		{"a text reads otherwise", func(s *drawing.Scene) {
			s.Marks[0] = drawing.NewText(drawing.Pt(100, 200), "12'-1\"", drawing.Style{})
		}, []string{`“12'-0"” is now “12'-1"” (at 1.00,2.00)`}},
		{"another blank", func(s *drawing.Scene) {
			s.Marks[1] = drawing.NewText(drawing.Pt(100, 900), "MARK\u2009", drawing.Style{})
		}, []string{`"MARK" is now "MARK\u2009" (at 1.00,9.00)`}},
		{"a text in bold", func(s *drawing.Scene) {
			s.Marks[1] = drawing.NewText(drawing.Pt(100, 900), "MARK", drawing.Style{Face: drawing.Bold})
		}, []string{`“MARK” is lettered or layered otherwise (at 1.00,9.00)`}},
		{"all moves", func(s *drawing.Scene) { s.Marks = drawing.Translate(s.Marks[:3], drawing.Pt(-100, 250)) },
			[]string{`text removed: “2 of 69” (at 90.00,90.00)`,
				`moved 1.00 mm left and 2.50 mm down: “12'-0"”, “MARK”; 1 × thin line`}},
		{"marks come", func(s *drawing.Scene) {
			s.Hatch(drawing.Metal, drawing.Thin, drawing.Pt(0, 0), drawing.Pt(1, 0), drawing.Pt(0, 1))
			s.Line(drawing.Thin, drawing.Pt(0, 0), drawing.Pt(500, 0))
			s.Text(drawing.Pt(1, 1), "new", drawing.Style{})
		}, []string{`text added: “new” (at 0.01,0.01)`, "added: 1 × area hatched metal, 1 × thin line"}},
		{"a line becomes longer", func(s *drawing.Scene) {
			s.Marks[2] = drawing.Line{Pen: drawing.Thin, Pts: []drawing.Point{{}, {X: 600}}}
		}, []string{"removed: 1 × thin line", "added: 1 × thin line"}},
		{"paper", func(s *drawing.Scene) { s.W, s.Title, s.Desc = 43180, "U", "what" }, []string{
			"the sheet was 420.00 x 297.00 mm and is 431.80 x 297.00 mm",
			`the title "T" is now "U"`, `the description "" is now "what"`}},
		{"order", func(s *drawing.Scene) { s.Marks[0], s.Marks[1] = s.Marks[1], s.Marks[0] },
			[]string{"the same marks in another order, in other groups or with other sums"}},
	}
	for _, tt := range tests {
		s := base()
		tt.change(&s)
		if got := describe("scenes/n.txt", []byte(base().Dump()), []byte(s.Dump())); !slices.Equal(got, tt.want) {
			t.Errorf("%s:\n%s\nwant\n%s", tt.what, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
	}
	for _, tt := range []struct {
		name, old, new string
		want           []string
	}{
		{"scenes/n.txt", "group", base().Dump(),
			[]string{"what is pinned cannot be read as a scene: line 1: a scene begins with its name and size"}},
		{"svg.sum", sum(nil, "sheet", "a") + sum(nil, "sheet", "b") + sum(nil, "view", "c"),
			sum(nil, "sheet", "a") + sum([]byte{1}, "sheet", "b") + sum(nil, "view", "d"),
			[]string{"other bytes: sheet b", "new: view d", "gone: view c"}},
		{"csv/a.csv", "h\nx,1\ny,2\n", "h\nx,1\ny,3\nz,4\n",
			[]string{"1 lines removed, 2 added", "- y,2", "+ y,3", "+ z,4"}},
		{"csv/a.csv", "a\nb\n", "b\na\n", []string{"the same lines in another order"}},
	} {
		if got := describe(tt.name, []byte(tt.old), []byte(tt.new)); !slices.Equal(got, tt.want) {
			t.Errorf("%s:\n%s\nwant\n%s", tt.name, strings.Join(got, "\n"), strings.Join(tt.want, "\n"))
		}
	}
}

// A change of the frame alone is told from one of the sheet.
func TestFrameOnly(t *testing.T) {
	sheet := func(words, number string) drawing.Scene {
		s := drawing.Scene{W: 100, H: 100}
		s.Text(drawing.Pt(1, 1), words, drawing.Style{})
		s.Group(drawing.Frame, "title", func(g *drawing.Scene) { g.Text(drawing.Pt(5, 5), number, drawing.Style{}) })
		return s
	}
	for _, tt := range []struct {
		now  drawing.Scene
		want bool
	}{{sheet("a", "2 of 3"), false}, {sheet("a", "2 of 4"), true}, {sheet("b", "2 of 4"), false}} {
		d := diffScenes(sheet("a", "2 of 3"), tt.now)
		if got := d.frameOnly(); got != tt.want {
			t.Errorf("frame only: %v, want %v", got, tt.want)
		}
		if got := slices.Contains(d.words(), frameAlone); got != tt.want {
			t.Errorf("the words say frame alone: %v, want %v", got, tt.want)
		}
	}
}
