package job

import (
	"slices"
	"strings"
)

// Template is a job file to begin from: every key with what it means, filled
// with the examples in those units. Keys that a job needs are in use, the others
// stand behind a #. It reads back without an error, its one run still to be
// surveyed.
func Template(u Units) string {
	t := &template{table: newKeyTable(), units: u}
	t.b.WriteString(`# A job of copingset with every key there is. Each value is an example: put the
# job's own in its place. Everything about the coping system comes from the
# fabricator's data sheet and test reports.
#
# Write lengths as you say them (5 1/4", 11'-6", 240 mm), always with their unit;
# leave the inch mark unquoted. A key with a # right before it is not in use: take
# the # away to use it, with those of the lines that stand in below it.
`)
	t.keys("", shownTree(map[string]bool{}), 0, nil, false)
	return t.b.String()
}

// shownTree is the smallest file of examples that reads back and has the keys
// that are asked for: those a job must have, and those that the values of
// others call for.
func shownTree(asked map[string]bool) *node {
	for {
		before := len(asked)
		d := newDecoder(nil, "")
		d.mode, d.asked = showing, asked
		n := &node{kind: mappingNode}
		d.checkEnds(d.decode(n))
		if len(asked) == before {
			return n
		}
	}
}

// shownBelow is what stands below a key that such a file has only if it is
// asked for.
func shownBelow(path string) *node {
	asked := map[string]bool{}
	names := strings.Split(path, ".")
	for i := range names {
		asked[strings.TrimSuffix(strings.Join(names[:i+1], "."), "[]")] = true
	}
	n := shownTree(asked)
	for _, name := range names {
		n = n.field(strings.TrimSuffix(name, "[]")).value
		if n.kind == listNode {
			n = n.items[0]
		}
	}
	return n
}

// template writes the lines of a file.
type template struct {
	b     strings.Builder
	table keyTable
	units Units
}

// commentColumn is where the comments begin, if the key leaves them room.
const commentColumn, widest = 36, 118

// keys writes the keys of a part at an indent. off are the columns of the # of
// parts that are not in use; item is set in an item of a list.
func (t *template) keys(part string, n *node, indent int, off []int, item bool) {
	all := slices.Clone(t.table.within[part])
	if item {
		// The dash stands before a key in use, which comes first.
		used := max(0, slices.IndexFunc(all, func(k Key) bool { return n.field(k.Name()) != nil }))
		first := all[used]
		all = slices.Insert(slices.Delete(all, used, used+1), 0, first)
	}
	for i, k := range all {
		if part == "" {
			t.b.WriteByte('\n')
		}
		head := strings.Repeat(" ", indent)
		if item && i == 0 {
			head = head[:indent-2] + "- "
		}
		var below *node
		mine := off
		if f := n.field(k.Name()); f != nil {
			below = f.value
		} else if n != nil || !k.Required {
			mine = append(slices.Clone(off), indent)
		}
		t.key(k, below, head, indent, mine)
	}
}

// key writes one key and what stands below it.
func (t *template) key(k Key, below *node, head string, indent int, off []int) {
	says := k.says()
	switch {
	case k.When != "":
		says = "if " + k.When + ": " + says
	case !k.Required:
		says = "optional: " + says
	}
	line := head + k.Name() + ":"
	if k.Example != "" {
		line += " " + k.shownIn(t.units)
	}
	t.line(line, says, indent, off)
	if below == nil && (k.Form == FormGroup || k.Form == FormList) {
		below = shownBelow(k.Path)
	} else if k.Form == FormList {
		below = below.items[0]
	}
	switch k.Form {
	case FormGroup:
		t.keys(k.Path, below, indent+2, off, false)
	case FormList:
		t.keys(k.Path+"[]", below, indent+4, off, true)
	case FormGroupOrWord, FormGroupOrValue:
		hidden := append(slices.Clone(off), indent)
		t.line(strings.Repeat(" ", indent)+k.Name()+":", "or, in place of that:", indent, hidden)
		t.keys(k.Path, nil, indent+2, hidden, false)
	}
}

// line writes a line and its comment, beside it or above.
func (t *template) line(line, says string, indent int, off []int) {
	hide := func(s string) string {
		for i, column := range off {
			s = s[:column+i] + "#" + s[column+i:]
		}
		return s
	}
	line = hide(line)
	column := max(commentColumn, len(line)+2)
	if column+2+len(says) <= widest {
		t.b.WriteString(line + strings.Repeat(" ", column-len(line)) + "# " + says + "\n")
		return
	}
	for _, part := range wrapped(says, widest-indent-3) {
		t.b.WriteString(hide(strings.Repeat(" ", indent)+"# "+part) + "\n")
	}
	t.b.WriteString(line + "\n")
}

// wrapped divides a text into lines of at most so many letters.
func wrapped(s string, most int) []string {
	var lines []string
	line := ""
	for _, w := range strings.Fields(s) {
		if line != "" && len(line)+1+len(w) > most {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+w, " ")
	}
	return append(lines, line)
}
