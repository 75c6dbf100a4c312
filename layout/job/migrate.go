package job

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"unicode/utf8"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// Migration is a file of a job brought from the form before to the form of
// today. Only the values that changed their meaning are edited, where they
// stand: comments, order, quotes and line ends stay as they were.
type Migration struct {
	Before  []byte   // the whole file as it was read
	Text    []byte   // the same, edited
	Changes []Change // in the order of the file; empty if it is of today's form already
	Unsure  []Change // what a person has to look at
}

// Change is one edit of a file, or a place that a person has to look at.
type Change struct {
	At   finding.Place
	What string
}

// String is one line, as findings are.
func (c Change) String() string { return c.At.String() + ": " + c.What }

// formatBefore is the form that Migrate reads.
const formatBefore = "copingset/1"

// Migrate reads a job file, or a file that jobs include, of the form before. It
// changes nothing itself. The migration is nil if there is a finding: a file
// that cannot be read as one of that form is not touched.
//
// What the values mean is not looked at, so that a job with slips in it is
// migrated all the same and shows its own slips then.
func Migrate(fsys fs.FS, name string) (*Migration, finding.List) {
	d := newDecoder(fsys, name)
	m := d.migrate(name)
	d.listOmitted()
	d.list.Sort()
	if d.list.HasErrors() {
		return nil, d.list
	}
	return m, d.list
}

func (d *decoder) migrate(name string) *Migration {
	text, ok := d.load(name, finding.Place{}, jobFile)
	if !ok {
		return nil
	}
	tree := text.tree()
	if tree == nil {
		return nil
	}
	d.list, d.counts = nil, map[string]int{} // the job's own slips, which stay
	format := tree.field("format")
	switch {
	case tree.kind != mappingNode || format == nil:
		d.errorf("file-not-job", finding.Place{File: d.file, Line: 1, Col: 1},
			"give a job file; it begins with `format: "+formatBefore+"`", "this is not a job file")
		return nil
	case format.value.text == formatWord:
		return &Migration{Before: text.raw, Text: text.raw}
	case format.value.text != formatBefore:
		d.isFormat(format)
		return nil
	}
	m := &mover{script: text, keys: movedKeys(tree), text: string(text.raw), lineAt: lineStarts(string(text.raw))}
	want := m.move("", tree)
	out := m.apply()
	after := &script{decoder: d, path: text.path, file: text.file,
		lines: splitLines(strings.TrimPrefix(out, "\uFEFF"))}
	if got := after.tree(); got == nil || !sameValue(got, want) {
		d.errorf("migrate-failed", finding.Place{File: d.file},
			"write `format: "+formatWord+"` and correct what `copingset check` then says",
			"the file cannot be edited in place; nothing was changed")
		return nil
	}
	d.list, d.counts = nil, map[string]int{}
	m.comments()
	return &Migration{Before: text.raw, Text: []byte(out), Changes: m.changes, Unsure: m.unsure}
}

// mover edits one file.
type mover struct {
	*script
	text    string // of the whole file
	lineAt  []int  // offset of each line in it
	keys    []movedKey
	edits   []textEdit
	changes []Change
	unsure  []Change
}

// textEdit replaces what stands at an offset.
type textEdit struct {
	at, length int
	text       string
}

// movedKey is a key whose value is written otherwise than in the form before.
type movedKey struct {
	path string // as in the key table
	// value is what takes the old one's place: the text around it, and the same as
	// nodes.
	before, after string
	node          func(old *node) *node
	unsure        string // what cannot be known from the file; empty: nothing
}

// movedKeys are what the form of today changed, of a file.
func movedKeys(file *node) []movedKey {
	leg := func(path string, to LegMeasure, unsure string) movedKey {
		return movedKey{path: path, before: "{length: ", after: ", to: " + to.String() + "}", unsure: unsure,
			node: func(old *node) *node {
				length := *old
				return &node{kind: mappingNode, at: old.at, flow: true, fields: []field{
					{key: "length", value: &length}, {key: "to", value: &node{kind: scalarNode, text: to.String()}}}}
			}}
	}
	var keys []movedKey
	for _, l := range []struct{ leg, tested, kick string }{
		{"front_leg", "front_leg_most", "drip"}, {"rear_leg", "rear_leg_most", "rear_hook"},
	} {
		to, unsure := ToMoldLine, ""
		tested := "it was compared with the cap's leg to the mold line; look up what the test report measured to"
		switch turn := kickTurn(file, l.kick); {
		case turn >= straight:
			to = ToTangent
			unsure = "the leg ends in a turn of " + FormatAngle(turn) + ", whose faces meet nowhere, so that it has " +
				"no mold line; it is taken as given to the tangent, its lowest metal: look up what the fabricator's " +
				"sheet gives"
			tested = "the leg has no mold line, so the limit is taken as given to the tangent, the lowest metal; " +
				"look up what the test report measured to"
		case turn >= 90*Degree:
			unsure = "the leg ends in a turn of " + FormatAngle(turn) +
				" and was read to the mold line, the point where its faces would meet; " +
				"if the fabricator's sheet gives it to the outside tangent, its lowest metal, write `to: " + toTangent +
				"`"
		case turn == 0 && at(file, "system", "profile", l.kick) == nil:
			tested += "; if that leg ends in a turn of 180°, write `to: " + toTangent + "`"
		}
		keys = append(keys, leg("system.profile."+l.leg, to, unsure), leg("assemblies[]."+l.tested, to, tested))
	}
	return keys
}

// kickTurn is how far the kick at the foot of a leg turns; 0 where the file has
// none, or none that can be read.
func kickTurn(file *node, kick string) Angle {
	k := at(file, "system", "profile", kick)
	turn, err := ParseAngle(at(k, "angle").value())
	if size, e := length.Parse(at(k, "length").value()); err != nil || e == nil && size == 0 {
		return 0
	}
	return turn
}

// at goes down a path of keys; nil where it ends.
func at(n *node, keys ...string) *node {
	for _, k := range keys {
		f := n.field(k)
		if f == nil {
			return nil
		}
		n = f.value
	}
	return n
}

// value is the text of a single value; empty for anything else.
func (n *node) value() string {
	if n == nil || n.kind != scalarNode {
		return ""
	}
	return n.text
}

// move notes the edits of a part of the tree and returns the part as it will
// be read afterwards.
func (m *mover) move(here string, n *node) *node {
	out := *n
	out.fields, out.items = slices.Clone(n.fields), slices.Clone(n.items)
	m.elsewhere(here, n)
	out.fields = slices.DeleteFunc(out.fields, func(f field) bool { return m.unconfirmed(here, &f) })
	for i := range out.fields {
		f := &out.fields[i]
		p := strings.TrimPrefix(here+"."+f.key, ".")
		if p == "format" {
			m.replace(f.value, "", formatWord, "")
			m.changes = append(m.changes, Change{f.value.at, "format: " + formatWord + " in place of " +
				formatBefore})
			f.value = &node{kind: scalarNode, text: formatWord}
			continue
		}
		k := slices.IndexFunc(m.keys, func(k movedKey) bool { return k.path == p })
		if k < 0 || f.value.kind != scalarNode {
			f.value = m.move(p, f.value)
			continue
		}
		f.value = m.moveKey(m.keys[k], f)
	}
	for i := range out.items {
		out.items[i] = m.move(here+"[]", out.items[i])
	}
	return &out
}

// elsewhere names an alias in whose place a moved key may stand.
func (m *mover) elsewhere(here string, n *node) {
	i := slices.IndexFunc(m.keys, func(k movedKey) bool {
		rest, ok := strings.CutPrefix(k.path, here)
		return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
	})
	if !n.alias || i < 0 {
		return
	}
	k := m.keys[i]
	if k.path == here {
		m.unsure = append(m.unsure, Change{n.at, "`*` stands for a value from elsewhere and was left; " +
			"write it out as `" +
			k.before + "..." + k.after + "`"})
		return
	}
	m.unsure = append(m.unsure, Change{n.at, "`*` stands for keys from elsewhere and was left; write them out, with `" +
		k.name() + "` as `" + k.before + "..." + k.after + "`"})
}

func (k movedKey) name() string { return k.path[strings.LastIndexByte(k.path, '.')+1:] }

func (m *mover) moveKey(k movedKey, f *field) *node {
	old, ok := m.replace(f.value, k.before, "", k.after)
	if !ok {
		m.unsure = append(m.unsure, Change{f.at, "`" + f.key +
			"` is written over several lines, or with a mark before it, and was left; " +
			"write it as `" + k.before + "..." + k.after + "`"})
		return f.value
	}
	m.changes = append(m.changes, Change{f.value.at, f.key + ": " + k.before + old + k.after + " in place of " + old})
	if k.unsure != "" {
		m.unsure = append(m.unsure, Change{f.value.at, f.key + ": " + k.unsure})
	}
	return k.node(f.value)
}

// replace puts a text round a single value; inside, if it is not empty, takes
// the place of the value itself. It returns the value as it stands in the file;
// ok is false if it does not stand on one line at its place.
func (m *mover) replace(n *node, before, inside, after string) (old string, ok bool) {
	start, end, ok := m.span(n)
	if !ok {
		return "", false
	}
	old = m.text[start:end]
	switch {
	case inside == "":
		inside = old
	case old[0] == '"' || old[0] == '\'':
		inside = old[:1] + inside + old[:1]
	}
	text := before + inside + after
	// A comment behind the value stays in its column where there is room.
	rest := m.text[end:]
	gap := len(rest) - len(strings.TrimLeft(rest, " "))
	take := 0
	if strings.HasPrefix(rest[gap:], "#") {
		take = max(0, min(gap-2, utf8.RuneCountInString(text)-utf8.RuneCountInString(old)))
	}
	m.edits = append(m.edits, textEdit{start, end - start + take, text})
	return old, true
}

// span is where a single value stands in the file, its quotes included.
func (m *mover) span(n *node) (start, end int, ok bool) {
	if n.at.Line < 1 || n.at.Line > len(m.lines) {
		return 0, 0, false
	}
	line := m.lines[n.at.Line-1]
	runes := []rune(line)
	if n.at.Col < 1 || n.at.Col > len(runes) {
		return 0, 0, false
	}
	from := len(string(runes[:n.at.Col-1]))
	size := len(n.text)
	switch line[from] {
	case '"', '\'':
		size = closing(line, from) + 1 - from
	default:
		ok = strings.HasPrefix(line[from:], n.text)
	}
	start = m.lineAt[n.at.Line-1] + from
	return start, start + size, ok || size > 1 && (line[from] == '"' || line[from] == '\'')
}

// apply makes the edits.
func (m *mover) apply() string {
	slices.SortFunc(m.edits, func(a, b textEdit) int { return cmp.Compare(a.at, b.at) })
	var out strings.Builder
	done := 0
	for _, e := range m.edits {
		out.WriteString(m.text[done:e.at])
		out.WriteString(e.text)
		done = e.at + e.length
	}
	out.WriteString(m.text[done:])
	return out.String()
}

// comments points at keys that stand in a comment, which are never edited.
func (m *mover) comments() {
	for i, line := range m.lines {
		body, comment := strings.CutPrefix(strings.TrimLeft(line, " "), "#")
		if !comment {
			continue
		}
		for _, k := range m.keys {
			name := k.name()
			if strings.Contains(" "+body, " "+name+":") || strings.Contains(body, "{"+name+":") {
				m.unsure = append(m.unsure, Change{finding.Place{File: m.file, Line: i + 1},
					fmt.Sprintf("the comment speaks of `%s` and was left; if it is %s, it is written `%s...%s` now",
						name, k.path, k.before, k.after)})
			}
		}
	}
	slices.SortStableFunc(m.changes, func(a, b Change) int { return comparePlaces(a.At, b.At) })
	slices.SortStableFunc(m.unsure, func(a, b Change) int { return comparePlaces(a.At, b.At) })
}

func comparePlaces(a, b finding.Place) int {
	return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
}

// lineStarts is the offset of each line of a file, as splitLines counts them.
func lineStarts(raw string) []int {
	first := 0
	if strings.HasPrefix(raw, "\uFEFF") {
		first = len("\uFEFF")
	}
	at := []int{first}
	for i := first; i < len(raw); i++ {
		if raw[i] == '\n' || raw[i] == '\r' && !strings.HasPrefix(raw[i+1:], "\n") {
			at = append(at, i+1)
		}
	}
	return at
}
