package job

import (
	"cmp"
	"errors"
	"io"
	"regexp"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// kind of a node.
type kind int

const (
	scalarNode kind = iota
	emptyNode       // a key or a list item with no value
	mappingNode
	listNode
)

// node is a part of the file with its place: a value as the text that stands
// there, a mapping, or a list. Nothing is resolved to numbers or dates here,
// since what YAML makes of 010, 12e3 or No is not what was written.
type node struct {
	kind   kind
	at     finding.Place
	text   string
	unit   length.Length // of a bare number, in a column that names one; zero: none
	after  string        // what follows a plain value on its line
	flow   bool          // written in braces or brackets
	alias  bool          // stands for a value from elsewhere, which is refused
	fields []field
	items  []*node
}

type field struct {
	key   string
	at    finding.Place
	value *node
}

// field finds a key's value; nil if the key is absent.
func (n *node) field(key string) *field {
	if n == nil {
		return nil
	}
	for i := range n.fields {
		if n.fields[i].key == key {
			return &n.fields[i]
		}
	}
	return nil
}

// tree turns the text of a file into nodes. It returns nil after reporting
// what keeps the file from being read at all.
func (t *script) tree() *node {
	doc, again, err := parseYAML(strings.Join(t.lines, "\n"))
	if err != nil {
		t.syntax(err)
		return nil
	}
	if again != nil {
		t.errorf("file-second-document", finding.Place{File: t.file, Line: again.Line, Col: again.Column},
			"keep one job in one file, and leave out the line `---` between", "a second job begins here")
	}
	if doc == nil || len(doc.Content) == 0 {
		return &node{kind: emptyNode, at: finding.Place{File: t.file, Line: 1, Col: 1}}
	}
	return t.convert(doc.Content[0], false, 0)
}

// parseYAML reads the first document and says where a second begins.
func parseYAML(data string) (doc, again *yaml.Node, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = errors.New("unreadable")
		}
	}()
	dec := yaml.NewDecoder(strings.NewReader(data))
	var first, second yaml.Node
	if err := dec.Decode(&first); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, nil, nil
		}
		return nil, nil, err
	}
	if err := dec.Decode(&second); err == nil {
		return &first, &second, nil
	} else if !errors.Is(err, io.EOF) {
		return nil, nil, err
	}
	return &first, nil, nil
}

// mostDepth is how deep parts stand in parts at most; those of a job stand nine
// deep.
const mostDepth = 20

// convert copies a node of the library into ours, refusing what the job file
// has no use for: it would only hide where a value comes from.
func (t *script) convert(y *yaml.Node, inFlow bool, depth int) *node {
	n := &node{at: finding.Place{File: t.file, Line: y.Line, Col: y.Column}, kind: emptyNode,
		flow: inFlow || y.Style&yaml.FlowStyle != 0, alias: y.Kind == yaml.AliasNode}
	t.refuse(y, n.at)
	if depth > mostDepth {
		t.errorf("yaml-depth", n.at, "check the brackets and the indentation",
			"parts stand in parts more than %d deep, and those of a job never do", mostDepth)
		return n
	}
	switch y.Kind {
	case yaml.ScalarNode:
		n.text = y.Value
		plain := y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
		if plain {
			n.after = t.rest(y.Line, y.Column, y.Value)
		}
		if !plain || !isNull(y.Value) {
			n.kind = scalarNode
		}
	case yaml.SequenceNode:
		n.kind = listNode
		for _, c := range y.Content {
			n.items = append(n.items, t.convert(c, n.flow, depth+1))
		}
	case yaml.MappingNode:
		n.kind = mappingNode
		t.convertFields(y, n, depth)
	}
	return n
}

func (t *script) convertFields(y *yaml.Node, n *node, depth int) {
	seen := map[string]finding.Place{}
	for i := 0; i+1 < len(y.Content); i += 2 {
		k, v := y.Content[i], y.Content[i+1]
		at := finding.Place{File: t.file, Line: k.Line, Col: k.Column}
		t.refuse(k, at)
		if k.Kind != yaml.ScalarNode {
			t.errorf("yaml-key", at, "write a plain word before the colon", "a key is a word, not a list or a group")
			continue
		}
		if k.Tag == "!!merge" {
			t.errorf("yaml-merge", at, "write the keys out",
				"`<<` takes over keys from elsewhere, which is not allowed in a job file")
			continue
		}
		if first, twice := seen[k.Value]; twice {
			t.conflict("key-twice", at, first, "keep one of the two", "the key %s stands here twice", show(k.Value))
			continue
		}
		seen[k.Value] = at
		n.fields = append(n.fields, field{key: k.Value, at: at, value: t.convert(v, n.flow, depth+1)})
	}
}

// refuse reports aliases, anchors and tags.
func (t *script) refuse(y *yaml.Node, at finding.Place) {
	const mend = "write the value out in each place; if the text itself begins with this sign, put it in quotes"
	if y.Kind == yaml.AliasNode {
		t.errorf("yaml-alias", at, mend, "`*%s` stands for a value from elsewhere, which is not allowed in a job file",
			clip(y.Value))
	}
	if y.Anchor != "" && y.Kind != yaml.AliasNode {
		t.errorf("yaml-alias", at, mend, "`&%s` marks a value to be used elsewhere, which is not allowed in a job file",
			clip(y.Anchor))
	}
	if y.Style&yaml.TaggedStyle != 0 || strings.HasPrefix(t.rest(at.Line, at.Col, ""), "!") {
		t.errorf("yaml-tag", at, "leave it out; if the text itself begins with `!`, put it in quotes",
			"`!` gives a value a type, which is not allowed in a job file")
	}
}

// isNull says whether a plain text stands for no value.
func isNull(s string) bool {
	return s == "" || s == "~" || strings.EqualFold(s, "null")
}

// rest is what follows a text that stands at a place, on the same line; empty
// if the text does not stand there in full, and on lines that no person wrote.
func (t *script) rest(line, col int, text string) string {
	if line < 1 || line > len(t.lines) || len(t.lines[line-1]) > 2000 {
		return ""
	}
	runes := []rune(t.lines[line-1])
	if col < 1 || col > len(runes) {
		return ""
	}
	after, ok := strings.CutPrefix(string(runes[col-1:]), text)
	if !ok {
		return ""
	}
	return after
}

func splitLines(data string) []string {
	return strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(data), "\n")
}

// syntax explains why the file is not YAML. The library knows a line at best,
// and often the line where the enclosing part began; so the likely slips are
// looked for first, and the line is narrowed down if none is found.
func (t *script) syntax(err error) {
	found := t.slips()
	for _, s := range found {
		t.errorf("yaml-syntax", s.at, s.mend, "%s", s.what)
	}
	if len(found) > 0 {
		return
	}
	line := t.narrow(err)
	at := finding.Place{File: t.file, Line: line}
	what, mend := explain(err)
	where := "near line " + strconv.Itoa(line)
	if line == 0 {
		where = "somewhere in the file"
	}
	t.errorf("yaml-syntax", at, mend, "%s: %s", where, what)
}

// truncated says that a text may only have been cut short.
func truncated(err error) bool {
	for _, sign := range []string{"unexpected end of stream", "',' or", "expected node content"} {
		if strings.Contains(err.Error(), sign) {
			return true
		}
	}
	return false
}

// narrow finds the line whose addition makes the text unreadable, by halving.
func (t *script) narrow(err error) int {
	line := 0
	if m := regexp.MustCompile(`line (\d+)`).FindStringSubmatch(err.Error()); m != nil {
		line, _ = strconv.Atoi(m[1])
	}
	size := 0
	for _, l := range t.lines {
		size += len(l)
	}
	if truncated(err) || size > 512<<10 {
		if line > 0 && strings.Contains(err.Error(), "',' or") {
			line++ // these the library counts from zero
		}
		return min(line, len(t.lines))
	}
	good, bad := 0, len(t.lines)
	for bad-good > 1 {
		mid := (good + bad) / 2
		_, _, err := parseYAML(strings.Join(t.lines[:mid], "\n"))
		if err == nil || truncated(err) {
			good = mid
		} else {
			bad = mid
		}
	}
	return bad
}

// explain puts the library's few kinds of complaint in the words of people who
// do not know YAML.
func explain(err error) (what, mend string) {
	for _, e := range []struct{ sign, what, mend string }{
		{"mapping values are not allowed", "a second colon, or a line that is indented more than the one before",
			"put a text that contains `: ` in quotes, and line the keys of one part up"},
		{"did not find expected key", "a key does not line up with the keys before it, or a text goes on after its " +
			"closing quote", "line the keys of one part up, and leave feet and inches unquoted"},
		{"',' or", "a brace or bracket is not closed", "close `{` with `}` and `[` with `]`, and put commas between"},
		{"expected '-' indicator", "a list item does not line up with the items before it",
			"line up the dashes of one list"},
		{"tab", "a tab stands where spaces are needed", "indent with spaces"},
		{"cannot start any token", "a text begins with a sign that has another meaning here", "put the text in quotes"},
		{"unexpected end of stream", "a quote is not closed", "close it, or leave feet and inches unquoted"},
		{"escape", "a backslash in double quotes has another meaning", "put the text in single quotes"},
		{"unknown anchor", "`*` stands for a value from elsewhere, which is not allowed in a job file",
			"put the text in quotes"},
		{"depth", "parts stand in parts far too deep", "check the brackets and the indentation"},
	} {
		if strings.Contains(err.Error(), e.sign) {
			return e.what, e.mend
		}
	}
	return "this cannot be read as a job file", "check the indentation, the quotes and the colons there"
}

// slip is a likely reason why a line cannot be read.
type slip struct {
	at         finding.Place
	what, mend string
}

const quoteMend = "leave feet and inches unquoted, or put them in single quotes with the foot mark doubled: '11''-6\"'"

// slips looks through the lines for the slips that people make with feet and
// inches, colons and tabs. It is asked only when the file cannot be read.
func (t *script) slips() []slip {
	var found []slip
	blockText := regexp.MustCompile(`[:-] +[|>][-+0-9]*\s*(#.*)?$`)
	block := -1 // indent of the key whose text stands in the lines below it
	for i, line := range t.lines {
		body := strings.TrimLeft(line, " ")
		indent := len(line) - len(body)
		if strings.TrimSpace(body) == "" || block >= 0 && indent > block {
			continue
		}
		block = -1
		at := func(offset int) finding.Place {
			return finding.Place{File: t.file, Line: i + 1, Col: len([]rune(line[:offset])) + 1}
		}
		if body[0] == '\t' {
			found = append(found, slip{at(indent), "a tab stands where spaces are needed", "indent with spaces"})
			continue
		}
		if strings.HasPrefix(body, "#") {
			continue
		}
		if blockText.MatchString(line) {
			block = indent
			continue
		}
		if s, ok := slipIn(line); ok {
			found = append(found, slip{at(s.at.Col), s.what, s.mend})
		}
	}
	return found
}

// slipIn finds the first slip of a line; the place's Col is its byte offset.
func slipIn(line string) (slip, bool) {
	depth, start := 0, true // start: a value or a key can begin here
	colon := false          // a key stands before, and its value is plain
	for i := 0; i < len(line); i++ {
		c := line[i]
		next := byte(' ')
		if i+1 < len(line) {
			next = line[i+1]
		}
		here := finding.Place{Col: i}
		switch {
		case c == ' ':
			continue
		case c == '#' && (i == 0 || line[i-1] == ' '):
			return slip{}, false
		case start && (c == '"' || c == '\''):
			end := closing(line, i)
			if end < 0 {
				return slip{here, "a quote is opened and not closed on the line", quoteMend}, true
			}
			rest := strings.TrimLeft(line[end+1:], " ")
			if rest != "" && !strings.ContainsRune(",:}]#", rune(rest[0])) {
				mark := "an inch mark ends a text in double quotes"
				if c == '\'' {
					mark = "a foot mark ends a text in single quotes"
				}
				return slip{here, mark + ", and more follows it", quoteMend}, true
			}
			i = end
			start = false
			continue
		case start && strings.IndexByte("@`%", c) >= 0, start && strings.IndexByte("*&!", c) >= 0 && next != ' ':
			return slip{here, "a text that begins with `" + string(c) + "` has another meaning here",
				"put the text in quotes"}, true
		case c == '{' || c == '[':
			if start || depth > 0 {
				depth++
				start, colon = true, false
				continue
			}
		case (c == '}' || c == ']') && depth > 0:
			depth--
			start, colon = false, false
			continue
		case c == ',' && depth > 0:
			start, colon = true, false
			continue
		case c == '-' && start && depth == 0 && next == ' ':
			continue
		case c == ':' && next == ' ':
			if colon {
				return slip{here, "a text contains a colon and a space, which begins another value",
					"put the text in quotes"}, true
			}
			colon, start = true, true
			continue
		}
		start = false
	}
	return slip{}, false
}

// closing is the offset of the quote that closes the one at i; -1 if none does.
func closing(line string, i int) int {
	q := line[i]
	for j := i + 1; j < len(line); j++ {
		switch {
		case q == '"' && line[j] == '\\':
			j++
		case q == '\'' && line[j] == q && j+1 < len(line) && line[j+1] == q:
			j++
		case line[j] == q:
			return j
		}
	}
	return -1
}

// clip keeps a quoted text short and in one line.
func clip(s string) string {
	s = strings.Join(strings.Fields(s), " ")
	r := []rune(s)
	if len(r) > 60 {
		return string(r[:57]) + "..."
	}
	return s
}

// show quotes a text of the file.
func show(s string) string { return "`" + cmp.Or(clip(s), " ") + "`" }
