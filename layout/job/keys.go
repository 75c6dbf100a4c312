package job

import (
	"slices"
	"strconv"
	"strings"

	"copingset/layout/finding"
)

// keys declares the keys of one group of the job file and binds each to its
// field:
//
//	func (m *Metal) keys(k keys) {
//		k.text("name", &m.Name, "the metal with its alloy and temper", "aluminum 3003-H14")
//		k.length("thickness", &m.Thickness, "the thickness of the sheet", `0.050"`)
//		k.may().length("specified", &m.Specified, "the least thickness specified", `0.050"`)
//
// That line is all there is to a key. The walk through these methods reads a
// file, lists the keys (Keys), words the messages, makes the schema (Schema)
// and the form of a new job (Template), and notes what was read for the digest.
//
// A key is required unless may or when says otherwise. Keys are declared in
// the order of the file, and what a condition asks of must be declared before.
type keys struct {
	*part
	demand demand
}

// demand is whether a key must be there. The zero demand is that it must.
type demand struct {
	may    bool
	when   string // the condition under which it must
	needed bool   // the condition holds
	hint   string // what else can be done
	shown  bool   // an example of the part has it
	unsaid bool   // what the key says is said where it is taken up
}

// may makes the keys that follow in the chain optional.
func (k keys) may() keys {
	k.demand = demand{may: true}
	return k
}

// when makes a key required if something holds: when says what, completing
// "it is missing, and ...".
func (k keys) when(needed bool, when string) keys {
	k.demand = demand{may: true, when: when, needed: needed}
	return k
}

// unsaid makes keys whose values are said where they are taken up.
func (k keys) unsaid() keys {
	k.demand.unsaid = true
	return k
}

// elsewhere is when another part of the file calls for the key, or the key is
// one of several ways to say a thing and another of them is asked for; a check
// reports it missing.
func (k keys) elsewhere(when string) keys { return k.when(false, when) }

// or says what else can be done about a key that is missing.
func (k keys) or(hint string) keys {
	k.demand.hint = hint
	return k
}

// show has an optional key among the examples, for a part that is none without.
func (k keys) show() keys {
	k.demand.shown = true
	return k
}

// part is a mapping of the file being walked. A part without a node stands for
// one that is not there: it reads nothing, so that it is reported once.
type part struct {
	d     *decoder
	n     *node
	at    finding.Place
	path  string // with list positions: perimeters[0].runs
	table string // as in the key table: perimeters[].runs
	label string // as people know it: run N
	item  bool   // the label names an item, not a path
	row   bool   // a row of a survey
	index int    // of an item in its list
	count int    // items of that list
	fault bool   // something in it could not be read
}

// walked says whether there is anything to walk through.
func (p *part) walked() bool { return p.n != nil || p.d.mode == listing }

// sound says that all there is could be read.
func (p *part) sound() bool { return p.n != nil && !p.fault }

// first and last tell the ends of a list.
func (p *part) first() bool { return p.index == 0 }
func (p *part) last() bool  { return p.index == p.count-1 }

// audit reports keys that are unknown.
func (p *part) audit() {
	if p.d.mode != reading {
		return
	}
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
		p.errorf("key-unknown", f.at, mend, "%sthe key %s is not known here", p.prefix(), show(f.key))
	}
}

// errorf reports an error in the part.
func (p *part) errorf(code string, at finding.Place, mend, format string, args ...any) {
	p.fault = true
	p.d.errorf(code, at, mend, format, args...)
}

func (p *part) prefix() string {
	if p.label == "" {
		return ""
	}
	return p.label + ": "
}

// full is the path of a key with the list positions.
func (p *part) full(name string) string { return below(p.path, name) }

func below(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// called is how messages name a key of this part.
func (p *part) called(name string) string {
	switch {
	case p.row:
		return "column " + name
	case p.label == "":
		return name
	case p.item:
		return p.label + ": " + name
	}
	return p.label + "." + name
}

// given says that a key stands in the file.
func (p *part) given(name string) bool { return p.n.field(name) != nil }

// has says that the values of these keys were read.
func (p *part) has(names ...string) bool {
	for _, name := range names {
		if !p.d.has(p.full(name)) {
			return false
		}
	}
	return true
}

// placeOf is the place of the value of a key that was read.
func (p *part) placeOf(name string) finding.Place { return p.d.places[p.full(name)] }

// placesOf are the places of the values of a list, or of one value alone.
func (p *part) placesOf(name string) []finding.Place {
	f := p.n.field(name)
	if f == nil {
		return nil
	}
	if f.value.kind != listNode {
		return []finding.Place{f.value.at}
	}
	var all []finding.Place
	for _, n := range f.value.items {
		all = append(all, n.at)
	}
	return all
}

// keyAt is the place of a key itself.
func (p *part) keyAt(name string) finding.Place {
	if f := p.n.field(name); f != nil {
		return f.at
	}
	return finding.Place{}
}

// declared is the table's entry for a key of this part.
func (p *part) declared(name string) Key { return p.d.keys.byPath[below(p.table, name)] }

func (p *part) missing(key Key, because string) {
	if p.row {
		return // reported once, in the heading of the survey
	}
	if p.d.unsurveyed && !slices.Contains(formsAsk(), key.Path) {
		return
	}
	p.errorf("key-missing", p.at, key.write(), "%s`%s` is missing%s", p.prefix(), key.Name(), because)
}

// formsAsk are the keys without which no survey form can be printed: names and how
// long the runs are, about. All else can be written while the wall is measured.
func formsAsk() []string {
	return []string{"format", "units", "perimeters", "perimeters[].name", "perimeters[].runs",
		"perimeters[].runs[].name", "perimeters[].runs[].length"}
}

// need reports a key that is missing for a reason known only after it was
// declared.
func (p *part) need(name, because string) {
	if p.n != nil && !p.given(name) && p.d.mode == reading && !p.d.unsurveyed {
		p.missing(p.declared(name), because)
	}
}

// refuse reports a value that was read and cannot be meant.
func (p *part) refuse(name, code, why string) {
	if p.has(name) {
		p.errorf(code, p.placeOf(name), p.declared(name).write(), "%s %s", p.called(name), why)
	}
}

// both reports a key that stands beside another that says the same.
func (p *part) both(name, beside, mend, format string, args ...any) {
	if p.given(name) && p.given(beside) {
		p.fault = true
		p.d.conflict("key-both", p.keyAt(name), p.keyAt(beside), mend, format, args...)
	}
}

// declare is what every declaration begins with. It lists the key, or sees
// that it is there.
func (k keys) declare(key Key) Key {
	name := key.Path
	key.Path = below(k.table, name)
	key.Required, key.When = !k.demand.may, k.demand.when
	switch {
	case k.d.mode == listing:
		k.d.listed = append(k.d.listed, key)
	case k.n == nil || k.given(name):
	case k.d.mode == showing:
		if key.Required || k.demand.needed || k.demand.shown || k.d.asked[key.Path] {
			k.n.fields = append(k.n.fields, field{key: name, value: key.shown()})
		}
	case key.Required:
		k.missing(key, "")
	case k.demand.needed && k.demand.hint != "":
		k.missing(key, "; "+k.demand.hint)
	case k.demand.needed:
		k.missing(key, ", and "+k.demand.when)
	}
	return key
}

// onceKey takes a key of the part by the name that it had once.
func (p *part) onceKey(was, is string) {
	if p.n == nil || p.given(is) {
		return
	}
	if f := p.n.field(was); f != nil {
		f.key = is
	}
}

// onceWord takes a word of a key by the one that it was called once.
func (p *part) onceWord(name, was, is string) {
	if p.n == nil {
		return
	}
	if f := p.n.field(name); f != nil &&
		strings.ToLower(strings.ReplaceAll(f.value.text, " ", "_")) == was {
		f.value.text = is
	}
}

// value finds a key's value and reports one that is empty.
func (p *part) value(key Key) *node {
	f := p.n.field(key.Name())
	if f == nil {
		return nil
	}
	if f.value.kind == emptyNode {
		mend := key.write()
		if strings.HasPrefix(strings.TrimSpace(f.value.after), "#") {
			mend = "if the text after `#` is the value, put it in quotes, since `#` begins a comment; else " + mend
		}
		at := f.value.at
		if at.Line == 0 {
			at = f.at
		}
		p.errorf("value-missing", at, mend, "%s has no value", p.called(key.Name()))
		return nil
	}
	return f.value
}

// group declares a key with keys of its own, which of declares. It answers with
// them for what is to be asked afterwards.
func (k keys) group(name, means string, of func(keys)) keys {
	sub := k.sub(k.declare(Key{Path: name, Means: means, Form: FormGroup}))
	if sub.walked() {
		of(sub)
	}
	return sub
}

// sub is the part below a key.
func (p *part) sub(key Key) keys {
	name := key.Name()
	s := &part{d: p.d, path: p.full(name), table: key.Path, label: p.called(name)}
	v := p.value(key)
	switch {
	case v == nil:
	case v.kind != mappingNode:
		p.errorf("value-kind", v.at, key.write(), "%s is a group of keys, not a single value or a list", p.called(name))
	default:
		s.n, s.at = v, p.keyAt(name)
		p.d.places[s.path] = s.at
		s.audit()
	}
	return keys{part: s}
}

// optional declares a group that stands behind a pointer, nil if it is left out.
func optional[T any](k keys, name string, to **T, of func(*T, keys), means string) keys {
	return k.group(name, means, func(k keys) {
		t := new(T)
		of(t, k)
		*to = t
	})
}

// list declares a list of groups; noun names its items in messages. An item
// that cannot be read keeps its position.
func list[T any](k keys, name, noun string, to *[]T, of func(*T, keys), means string) {
	for _, item := range k.items(name, noun, means) {
		var t T
		if item.walked() {
			of(&t, item)
		}
		*to = append(*to, t)
	}
}

// items declares a list of groups, and answers with the keys of each.
func (k keys) items(name, noun, means string) []keys {
	key := k.declare(Key{Path: name, Means: means, Form: FormList})
	if k.d.mode == listing {
		return []keys{{part: &part{d: k.d, table: key.Path + "[]"}}}
	}
	v := k.value(key)
	if v == nil {
		return nil
	}
	if v.kind != listNode {
		k.errorf("value-kind", v.at, "begin each item with a dash: "+key.write(), "%s is a list", k.called(name))
		return nil
	}
	if len(v.items) == 0 && key.Required {
		k.errorf("list-empty", v.at, key.write(), "%s is an empty list", k.called(name))
	}
	k.d.places[k.full(name)] = v.at
	all := make([]keys, len(v.items))
	for i, n := range v.items {
		all[i] = k.itemAt(key, noun, n, i, len(v.items))
	}
	return all
}

// itemAt is one item of a list.
func (p *part) itemAt(key Key, noun string, n *node, i, count int) keys {
	name := key.Name()
	s := &part{d: p.d, at: n.at, path: p.full(name) + "[" + strconv.Itoa(i) + "]", table: key.Path + "[]",
		label: noun + " " + strconv.Itoa(i+1), item: true, index: i, count: count}
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
		p.errorf("value-kind", n.at, "write its keys: "+strings.Join(p.d.keys.names(s.table), ", "),
			"%s is a group of keys", s.label)
		return keys{part: s}
	}
	s.n = n
	p.d.places[s.path] = s.at
	s.audit()
	return keys{part: s}
}

// groupOrWord declares a key that is one of some words, or a group of keys.
func groupOrWord[T comparable](k keys, name string, to *T, choices []choice[T], of func(keys), means, example string) {
	r := words(choices)
	key := k.declare(Key{Path: name, Means: means, Example: example, Form: FormGroupOrWord, Choices: r.choices})
	if f := k.n.field(name); f != nil && f.value.kind == listNode {
		k.errorf("value-kind", f.value.at, key.write(), "%s is a word or a group of keys, not a list", k.called(name))
		return
	} else if k.d.mode != listing && (f == nil || f.value.kind != mappingNode) {
		take(k, key, to, r)
		return
	}
	if sub := k.sub(key); sub.walked() {
		of(sub)
	}
}

// groupOrValue declares a key that is one value, or a group of keys.
func groupOrValue[T any](k keys, name string, to *T, r reader[T], of func(keys), means, example string) {
	key := Key{Path: name, Means: means, Example: example, Form: FormGroupOrValue}
	if k.d.mode == listing {
		key.Metric = r.inMetric(example)
	}
	key = k.declare(key)
	if f := k.n.field(name); f != nil && f.value.kind == listNode {
		k.errorf("value-kind", f.value.at, key.write(), "%s is a value or a group of keys, not a list", k.called(name))
		return
	} else if k.d.mode != listing && (f == nil || f.value.kind != mappingNode) {
		take(k, key, to, r)
		return
	}
	if sub := k.sub(key); sub.walked() {
		of(sub)
	}
}

// scalar is the text of a key's value, if it is a single value.
func (p *part) scalar(key Key) *node {
	v := p.value(key)
	if v != nil && v.kind != scalarNode {
		p.errorf("value-kind", v.at, key.write(), "%s is a single value, not a list or a group of keys",
			p.called(key.Name()))
		return nil
	}
	return v
}

// scalars is the single values of a list. One value alone is taken as a list of it.
func (p *part) scalars(key Key) []*node {
	v := p.value(key)
	name := key.Name()
	switch {
	case v == nil:
		return nil
	case v.kind == scalarNode:
		return []*node{v}
	case v.kind == mappingNode:
		p.errorf("value-kind", v.at, key.write(), "%s is a list", p.called(name))
		return nil
	case len(v.items) == 0 && (key.Required || key.When != ""):
		p.errorf("list-empty", v.at, key.write(), "%s is an empty list", p.called(name))
		return nil
	}
	for _, n := range v.items {
		if n.kind != scalarNode {
			p.errorf("value-kind", n.at, key.write(), "an item of %s has no single value", p.called(name))
			return nil
		}
	}
	return v.items
}

// unread reports a value that a parser could not read.
func (p *part) unread(key Key, v *node, code string, err error) {
	why := faultOf(err, code, key.write())
	called := p.called(key.Name())
	if code == "value-length" && why.code == code {
		called += " " + show(v.text)
	}
	p.errorf(why.code, v.at, why.mend, "%s: %s", called, why.what)
}

// took notes the place of a value that was read. A row of a survey is known by
// its own place.
func (p *part) took(name string, at finding.Place) {
	if !p.row {
		p.d.places[p.full(name)] = at
	}
}

// say notes what a value says. What a bid is reckoned by reaches no sheet and is no
// part of it.
func (p *part) say(name string, value any) {
	if p.path == takeoffKey || strings.HasPrefix(p.path, takeoffKey+".") {
		return
	}
	p.d.said = append(p.d.said, Entry{Path: p.full(name), Value: canonical(value)})
}
