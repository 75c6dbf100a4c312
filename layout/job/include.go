package job

import (
	"fmt"
	"slices"
	"strings"

	"copingset/layout/finding"
)

// Files that are included are laid under the job at the level of keys, before
// anything is decoded: the decoder reads one tree, in which every value knows
// the file it stands in.
//
// A group of keys is merged key by key. Everything else, single values and
// lists, is taken whole: from the job file if it states the key, else from the
// one included file that does. What the job file states otherwise is noted, and
// two included files that state one key are an error, since no order of theirs
// says which is meant.

// mostIncludes is the greatest number of files a job includes.
const mostIncludes = 20

// wholeGroups are the groups of keys that are one value: their keys exclude or
// complete each other, so the job file's group stands for all of it.
func wholeGroups() []string {
	return []string{"system.inside_width", "system.profile.front_leg", "system.profile.rear_leg"}
}

// included reads the files that the job file includes and lays the job over
// them. It is nil if one of them cannot be used: without it most keys would be
// reported as missing.
func (t *script) included(root *node) *node {
	at, names, ok := t.includes(root)
	if !ok {
		return nil
	}
	var under *node
	paths := []string{t.path}
	for i, written := range names {
		name, found := t.reach(t.path, written, at[i], includedFile)
		switch {
		case !found:
			ok = false
			continue
		case slices.Contains(paths, name):
			what, mend := "is included twice", "name it once"
			if name == t.path {
				what, mend = "would include itself", "name another file"
			}
			t.errorf("include-twice", at[i], mend, "the %s %s %s", includedFile, show(written), what)
			ok = false
			continue
		}
		paths = append(paths, name)
		tree := t.includedTree(name, at[i])
		switch {
		case tree == nil:
			ok = false
		case under == nil:
			under = tree
		default:
			under = t.merge("", under, tree, t.bothStated)
		}
	}
	if !ok {
		return nil
	}
	if under == nil {
		return root
	}
	return t.merge("", root, under, t.overridden)
}

// includes is what the job file includes, with the place of each name.
func (t *script) includes(root *node) (at []finding.Place, names []string, ok bool) {
	f := root.field("include")
	if len(t.instead) > 0 {
		at = make([]finding.Place, len(t.instead))
		for i := range at {
			at[i] = finding.Place{File: t.file, Line: 1}
		}
		return at, t.instead, true
	}
	if f == nil {
		return nil, nil, true
	}
	const mend = "write the path of a file, or a list of them: [../shop/system.yaml, ../firm.yaml]"
	items := f.value.items
	switch {
	case f.value.kind == scalarNode:
		items = []*node{f.value}
	case f.value.kind == mappingNode:
		t.errorf("value-kind", f.value.at, mend, "include is a list of files, not a group of keys")
		return nil, nil, false
	case len(items) == 0:
		t.errorf("value-missing", f.at, mend+"; or leave the key out", "include names no file")
		return nil, nil, false
	case len(items) > mostIncludes:
		t.errorf("include-many", items[mostIncludes].at, "put what belongs together into one file",
			"include names %d files, and %d are the most", len(items), mostIncludes)
		return nil, nil, false
	}
	for _, n := range items {
		if n.kind != scalarNode || strings.TrimSpace(n.text) == "" {
			t.errorf("value-kind", n.at, mend, "an item of include is no path of a file")
			return nil, nil, false
		}
		at, names = append(at, n.at), append(names, strings.TrimSpace(n.text))
	}
	return at, names, true
}

// includedTree reads one included file. Its own `format` has been obeyed and is
// taken out.
func (t *script) includedTree(name string, asked finding.Place) *node {
	text, ok := t.load(name, asked, includedFile)
	if !ok {
		return nil
	}
	tree := text.tree()
	if tree == nil || !text.isPart(tree) {
		return nil
	}
	tree.fields = slices.DeleteFunc(tree.fields, func(f field) bool { return f.key == "format" })
	return tree
}

// isPart tells a file that can be included from others.
func (t *script) isPart(tree *node) bool {
	start := finding.Place{File: t.file, Line: 1, Col: 1}
	begin := "write the parts of a job into it, beginning with `format: " + formatWord + "`"
	switch {
	case tree.kind == emptyNode:
		t.errorf("file-empty", start, begin, "the included file is empty")
		return false
	case tree.kind != mappingNode:
		t.errorf("file-not-job", start, begin, "this is no file that a job can include")
		return false
	}
	format := tree.field("format")
	switch {
	case format == nil:
		t.errorf("key-missing", start, "begin the file with `format: "+formatWord+"`",
			"the included file does not say its form")
		return false
	case !t.isFormat(format):
		return false
	}
	ok := true
	for _, no := range []struct{ key, why, mend string }{
		{"include", "an included file includes nothing itself", "name the file in the job file's own list"},
		{"perimeters", "the walls stand in the job file", "move them there"},
	} {
		if f := tree.field(no.key); f != nil {
			t.errorf("include-key", f.at, no.mend, "`%s`: %s", no.key, no.why)
			ok = false
		}
	}
	return ok
}

// settled answers for a key that both of two trees state other than as groups:
// the value to take is over's.
type settled func(path string, over, under field)

// merge lays one tree over another; neither is changed.
func (t *script) merge(path string, over, under *node, both settled) *node {
	out := *over
	out.fields = slices.Clone(over.fields)
	at := map[string]int{}
	for i, f := range over.fields {
		at[f.key] = i
	}
	for _, u := range under.fields {
		i, is := at[u.key]
		if !is {
			out.fields = append(out.fields, u)
			continue
		}
		here := strings.TrimPrefix(path+"."+u.key, ".")
		o := &out.fields[i]
		if o.value.kind == mappingNode && u.value.kind == mappingNode && !slices.Contains(wholeGroups(), here) {
			o.value = t.merge(here, o.value, u.value, both)
			continue
		}
		both(here, *o, u)
	}
	return &out
}

// bothStated is the error of two included files that state one key.
func (t *script) bothStated(path string, a, b field) {
	t.conflict("include-both", b.at, a.at, "state it in one of them",
		"%s is stated in %s and in %s, and neither goes before the other",
		path, a.at.File, b.at.File)
}

// overridden notes what the job file states otherwise than an included file.
func (t *script) overridden(path string, own, theirs field) {
	if sameValue(own.value, theirs.value) {
		return
	}
	t.add(finding.Finding{Severity: finding.Note, Code: "include-overridden", At: own.at,
		Also: []finding.Place{theirs.at},
		Mend: "take it out here if the included file is right",
		What: fmt.Sprintf("%s is %s here, in place of %s in %s", path, inShort(own.value),
			inShort(theirs.value), theirs.at.File)})
}

// inShort names a value in a sentence.
func inShort(n *node) string {
	switch n.kind {
	case scalarNode:
		return show(n.text)
	case listNode:
		if len(n.items) == 1 {
			return "a list of one"
		}
		return fmt.Sprintf("a list of %d", len(n.items))
	case mappingNode:
		return "a group of keys"
	}
	return "empty"
}

// sameValue says that two parts state the same, wherever they stand.
func sameValue(a, b *node) bool {
	if a.kind != b.kind || a.text != b.text || len(a.fields) != len(b.fields) ||
		!slices.EqualFunc(a.items, b.items, sameValue) {
		return false
	}
	theirs := map[string]*node{}
	for _, f := range b.fields {
		theirs[f.key] = f.value
	}
	for _, f := range a.fields {
		if v := theirs[f.key]; v == nil || !sameValue(f.value, v) {
			return false
		}
	}
	return true
}
