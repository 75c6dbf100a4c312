package job

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
	"copingset/layout/length"
)

// decoder reads one job. It remembers the place of every value it could read,
// by the full path of its key, so that the checks compare only what was read
// and point at the very value.
type decoder struct {
	fsys   fs.FS
	file   string
	lines  []string
	keys   keyTable
	list   finding.List
	counts map[string]int // findings of a code
	places map[string]finding.Place
	system *part // as it stands in the file
	// surveyAt is where a perimeter names its survey, by the perimeter's index.
	surveyAt []finding.Place
	surveyOf []string
	// unsure says that a survey could not be read in full, so that readings
	// missing from it mean nothing.
	unsure bool
	// unsurveyed says that surveys are not to be read at all.
	unsurveyed bool
}

// mostAlike is how many findings of one kind are listed: after these, more of
// them help nobody.
const mostAlike = 60

func (d *decoder) add(f finding.Finding) {
	d.counts[f.Code]++
	if d.counts[f.Code] <= mostAlike {
		d.list.Append(f)
	}
}

// listOmitted says how many findings are not listed.
func (d *decoder) listOmitted() {
	var codes []string
	for code, n := range d.counts {
		if n > mostAlike {
			codes = append(codes, code)
		}
	}
	slices.Sort(codes)
	for _, code := range codes {
		d.list.Errorf("more-alike", finding.Place{File: d.file}, "mend those listed and read the job again",
			"%d more findings of the kind %s are not listed", d.counts[code]-mostAlike, code)
	}
}

func (d *decoder) errorf(code string, at finding.Place, mend, format string, args ...any) {
	d.add(finding.New(finding.Error, code, at, mend, format, args...))
}

func (d *decoder) notef(code string, at finding.Place, mend, format string, args ...any) {
	d.add(finding.New(finding.Note, code, at, mend, format, args...))
}

// conflict is an error between two places.
func (d *decoder) conflict(code string, at, also finding.Place, mend, format string, args ...any) {
	f := finding.New(finding.Error, code, at, mend, format, args...)
	if !also.IsZero() && also != at {
		f.Also = []finding.Place{also}
	}
	d.add(f)
}

// has says that the values of all these paths were read.
func (d *decoder) has(paths ...string) bool {
	for _, p := range paths {
		if _, ok := d.places[p]; !ok {
			return false
		}
	}
	return true
}

// part is a mapping of the file being read, as an entry of the key table.
// A nil part reads nothing, so that a missing part is reported once.
type part struct {
	d     *decoder
	n     *node
	at    finding.Place
	path  string // with list positions: perimeters[0].runs
	table string // as in the key table: perimeters[].runs
	label string // as people know it: run N
	item  bool   // the label names an item, not a path
}

// root is the whole file.
func (d *decoder) root(n *node) *part {
	p := &part{d: d, n: n, at: n.at}
	p.audit()
	return p
}

// audit reports keys that are unknown and keys that are missing.
func (p *part) audit() {
	known := p.d.keys.names(p.table)
	for _, f := range p.n.fields {
		if slices.Contains(known, f.key) {
			continue
		}
		mend := "the keys known here are " + strings.Join(known, ", ")
		if near := finding.Suggest(strings.ReplaceAll(f.key, " ", "_"), known); near != "" {
			mend = "did you mean `" + near + "`?"
		} else if f.value.kind == emptyNode && f.value.flow {
			mend = "between braces a comma begins a new key; put a text with a comma in quotes"
		}
		p.d.errorf("key-unknown", f.at, mend, "%sthe key %s is not known here", p.prefix(), show(f.key))
	}
	for _, k := range p.d.keys.within[p.table] {
		if k.Required && p.n.field(k.Name()) == nil {
			p.missing(k.Name(), "")
		}
	}
}

func (p *part) prefix() string {
	if p.label == "" {
		return ""
	}
	return p.label + ": "
}

// key is the table's entry for a key of this part.
func (p *part) key(name string) Key {
	path := name
	if p.table != "" {
		path = p.table + "." + name
	}
	k, ok := p.d.keys.byPath[path]
	if !ok {
		panic("job: the key table has no " + path)
	}
	return k
}

func (p *part) missing(name, because string) {
	p.d.errorf("key-missing", p.at, p.key(name).write(), "%s`%s` is missing%s", p.prefix(), name, because)
}

// need reports a key that is missing because of something else.
func (p *part) need(name, because string) {
	if p != nil && p.n.field(name) == nil {
		p.missing(name, because)
	}
}

// given says that a key stands in the file.
func (p *part) given(name string) bool { return p != nil && p.n.field(name) != nil }

// full is the path of a key with the list positions.
func (p *part) full(name string) string {
	if p.path == "" {
		return name
	}
	return p.path + "." + name
}

// called is how messages name a key of this part.
func (p *part) called(name string) string {
	switch {
	case p.label == "":
		return name
	case p.item:
		return p.label + ": " + name
	}
	return p.label + "." + name
}

// value finds a key's value and reports one that is empty.
func (p *part) value(name string) *node {
	if p == nil {
		return nil
	}
	k := p.key(name)
	f := p.n.field(name)
	if f == nil {
		return nil
	}
	if f.value.kind == emptyNode {
		mend := k.write()
		if strings.HasPrefix(strings.TrimSpace(f.value.after), "#") {
			mend = "if the text after `#` is the value, put it in quotes, since `#` begins a comment; else " + mend
		}
		at := f.value.at
		if at.Line == 0 {
			at = f.at
		}
		p.d.errorf("value-missing", at, mend, "%s has no value", p.called(name))
		return nil
	}
	return f.value
}

// sub is a part below this one.
func (p *part) sub(name string) *part {
	v := p.value(name)
	if v == nil {
		return nil
	}
	if v.kind != mappingNode {
		p.d.errorf("value-kind", v.at, p.key(name).write(), "%s is a group of keys, not a single value or a list", p.called(name))
		return nil
	}
	s := &part{d: p.d, n: v, at: p.n.field(name).at, path: p.full(name), table: p.key(name).Path, label: p.called(name)}
	p.d.places[s.path] = s.at
	s.audit()
	return s
}

// items are the parts of a list; noun names them in messages.
func (p *part) items(name, noun string) []*part {
	v := p.value(name)
	if v == nil {
		return nil
	}
	k := p.key(name)
	if v.kind != listNode {
		p.d.errorf("value-kind", v.at, "begin each item with a dash: "+k.write(), "%s is a list", p.called(name))
		return nil
	}
	if len(v.items) == 0 && k.Required {
		p.d.errorf("list-empty", v.at, k.write(), "%s is an empty list", p.called(name))
	}
	p.d.places[p.full(name)] = v.at
	var parts []*part
	for i, n := range v.items {
		s := &part{d: p.d, n: n, at: n.at, path: fmt.Sprintf("%s[%d]", p.full(name), i), table: k.Path + "[]",
			label: noun + " " + strconv.Itoa(i+1), item: true}
		for _, by := range []string{"name", "mark"} {
			if f := n.field(by); f != nil && f.value.kind == scalarNode && f.value.text != "" {
				s.label = noun + " " + clip(f.value.text)
				break
			}
		}
		if p.item {
			s.label = p.label + ": " + s.label
		}
		if n.kind != mappingNode {
			p.d.errorf("value-kind", n.at, "write its keys: "+strings.Join(p.d.keys.names(s.table), ", "), "%s is a group of keys", s.label)
			parts = append(parts, nil)
			continue
		}
		p.d.places[s.path] = s.at
		s.audit()
		parts = append(parts, s)
	}
	return parts
}

// scalar is the text of a key's value, if it is a single value.
func (p *part) scalar(name string) *node {
	v := p.value(name)
	if v == nil {
		return nil
	}
	if v.kind != scalarNode {
		p.d.errorf("value-kind", v.at, p.key(name).write(), "%s is a single value, not a list or a group of keys", p.called(name))
		return nil
	}
	return v
}

// list is the single values of a list. One value alone is taken as a list of it.
func (p *part) list(name string) []*node {
	v := p.value(name)
	if v == nil {
		return nil
	}
	k := p.key(name)
	switch {
	case v.kind == scalarNode:
		return []*node{v}
	case v.kind == mappingNode:
		p.d.errorf("value-kind", v.at, k.write(), "%s is a list", p.called(name))
		return nil
	case len(v.items) == 0 && (k.Required || k.When != ""):
		p.d.errorf("list-empty", v.at, k.write(), "%s is an empty list", p.called(name))
		return nil
	}
	for _, n := range v.items {
		if n.kind != scalarNode {
			p.d.errorf("value-kind", n.at, k.write(), "an item of %s has no single value", p.called(name))
			return nil
		}
	}
	return v.items
}

// fault reports a value that a parser could not read.
func (p *part) fault(name string, v *node, code string, err error) {
	why := faultOf(err, code, p.key(name).write())
	called := p.called(name)
	if code == "value-length" && why.code == code {
		called += " " + show(v.text)
	}
	p.d.errorf(why.code, v.at, why.mend, "%s: %s", called, why.what)
}

// read takes a value through a parser.
func read[T any](p *part, name, code string, parse func(string) (T, error)) T {
	var none T
	v := p.scalar(name)
	if v == nil {
		return none
	}
	t, err := parse(v.text)
	if err != nil {
		p.fault(name, v, code, err)
		return none
	}
	p.d.places[p.full(name)] = v.at
	return t
}

// readAll takes each value of a list through a parser.
func readAll[T any](p *part, name, code string, parse func(string) (T, error)) []T {
	var all []T
	items := p.list(name)
	failed := false
	for _, v := range items {
		t, err := parse(v.text)
		if err != nil {
			p.fault(name, v, code, err)
			failed = true
			continue
		}
		all = append(all, t)
	}
	if failed {
		return nil
	}
	if len(items) > 0 {
		p.d.places[p.full(name)] = items[0].at
	}
	return all
}

// sign is which lengths a key can take.
type sign int

const (
	positive sign = iota
	notNegative
	anySign
)

func lengthOf(want sign) func(string) (length.Length, error) {
	return func(s string) (length.Length, error) {
		l, err := length.Parse(s)
		if err != nil {
			return 0, err
		}
		return l, signFault(s, l, want)
	}
}

func signFault(s string, l length.Length, want sign) error {
	switch {
	case l < 0 && want != anySign:
		return wrong("length-sign", "write it without a sign", "%s is negative", show(s))
	case l == 0 && want == positive:
		return wrong("length-sign", "write the length as it is", "%s is nothing, and this must have a length", show(s))
	}
	return nil
}

func (p *part) length(name string, want sign) length.Length {
	return read(p, name, "value-length", lengthOf(want))
}

func (p *part) lengths(name string, want sign) []length.Length {
	return readAll(p, name, "value-length", lengthOf(want))
}

func (p *part) yes(name string) bool {
	return word(p, name, []choice[bool]{{"yes", true}, {"no", false}, {"true", true}, {"false", false}})
}

func word[T any](p *part, name string, choices []choice[T]) T {
	return read(p, name, "value-word", func(s string) (T, error) { return pick(s, "value-word", choices) })
}

func (p *part) angle(name string, least, most Angle) Angle {
	return read(p, name, "value-angle", func(s string) (Angle, error) {
		a, err := ParseAngle(s)
		if err == nil && (a < least || a > most) {
			err = wrong("angle-range", "check the angle", "%s is not between %s and %s", show(s), FormatAngle(least), FormatAngle(most))
		}
		return a, err
	})
}

// mostText is the longest text that a sheet has room for.
const mostText = 500

// text reads a text that must say something.
func (p *part) text(name string) string { return p.words(name, false) }

// maybe reads a text that may be empty.
func (p *part) maybe(name string) string { return p.words(name, true) }

func (p *part) words(name string, mayBeEmpty bool) string {
	s := read(p, name, "value-text", func(s string) (string, error) {
		t, err := cleanText(s)
		if err == nil && t == "" && !mayBeEmpty {
			err = wrong("value-missing", "", "there is no text")
		}
		return t, err
	})
	if p.given(name) && p.d.has(p.full(name)) {
		p.d.cutShort(p.called(name), p.n.field(name).value)
	}
	return s
}

// cleanText puts a text on one line.
func cleanText(s string) (string, error) {
	for _, r := range s {
		if hidden(r) {
			return "", wrong("value-text", "write it in plain letters", "a hidden control character (%U) stands in the text", r)
		}
	}
	s = strings.Join(strings.Fields(s), " ")
	if len([]rune(s)) > mostText {
		return "", wrong("value-text", "shorten it", "the text is longer than %d letters, and no sheet has room for it", mostText)
	}
	return s, nil
}

// cutShort notes a text that a # has cut off without a word: Bldg #4.
func (d *decoder) cutShort(called string, v *node) {
	if cuts(v.after) {
		d.notef("text-cut", v.at, "if the text goes on, put it in quotes", "%s is read as %s, since ` #` begins a comment", called, show(v.text))
	}
}

// cuts tells a text that goes on after a # from a comment, which has a space
// after the sign and seldom begins with a number.
func cuts(after string) bool {
	comment, ok := strings.CutPrefix(strings.TrimLeft(after, " "), "#")
	if !ok || comment == "" {
		return false
	}
	if comment[0] == ' ' {
		return strings.HasPrefix(after, " #") && len(comment) > 1 && '0' <= comment[1] && comment[1] <= '9'
	}
	return comment[0] != '#'
}

// texts reads a list of texts.
func (p *part) texts(name string) []string {
	all := readAll(p, name, "value-text", cleanText)
	if p.given(name) {
		for _, v := range p.n.field(name).value.items {
			p.d.cutShort(p.called(name), v)
		}
	}
	return all
}

// surveyPath is where a survey named in a job file lies: below the folder of
// the job file. A path from the root is left as it is, to be refused.
func surveyPath(jobFile, survey string) string {
	if path.IsAbs(survey) {
		return survey
	}
	return path.Join(path.Dir(jobFile), survey)
}
