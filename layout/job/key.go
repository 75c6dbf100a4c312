package job

import (
	"slices"
	"strings"
	"sync"
)

// Key is one key of the job file: where it stands, whether a job can do
// without it, what it means and how it is written. Keys are declared where
// they are read, by the methods called keys; see keys.go.
type Key struct {
	Path     string // system.joint.gap; [] stands for each item of a list
	Required bool
	When     string // if not always required: when it is
	Means    string // completes "write ..."
	Example  string // of the value; empty for a part with keys of its own
	Metric   string // the example as who works in metric units writes it, if not so
	Form     Form
	Many     bool     // a list of such values; one alone may stand without brackets
	Choices  []string // the words of FormWord, FormGroupOrWord and FormCodes
}

// Form is what stands at a key.
type Form string

// The forms. All but groups and lists are single values.
const (
	FormGroup        Form = "group"          // keys of its own
	FormList         Form = "list"           // items with keys of their own
	FormGroupOrWord  Form = "group or word"  // one of the choices, or keys of its own
	FormGroupOrValue Form = "group or value" // one value, or keys of its own
	FormText         Form = "text"
	FormFile         Form = "file"    // names a file; where input lies is not part of what it says
	FormWord         Form = "word"    // one of the choices
	FormYes          Form = "yes"     // yes or no
	FormCodes        Form = "codes"   // some of the choices in one text
	FormLength       Form = "length"  // with its unit; 0 needs none
	FormNumber       Form = "number"  // a number without a unit
	FormCount        Form = "count"   // a whole number of things
	FormDate         Form = "date"    // year-month-day
	FormMeasure      Form = "measure" // a number with its unit, level or side
)

// Name is the key as it stands in the file.
func (k Key) Name() string {
	name := strings.TrimSuffix(k.Path, "[]")
	return name[strings.LastIndexByte(name, '.')+1:]
}

// Keys is every key a job file can have, in the order of the file. It is found
// by the same walk that reads a job, so that the reader, its messages and the
// documentation cannot drift apart.
func Keys() []Key { return slices.Clone(listedKeys()) }

// listedKeys walks once: what a walk finds is always the same.
var listedKeys = sync.OnceValue(func() []Key {
	d := &decoder{mode: listing}
	new(Job).keys(keys{part: &part{d: d}})
	return d.listed
})

// keyTable looks keys up by the part they stand in.
type keyTable struct {
	byPath map[string]Key
	within map[string][]Key // keys of a part, in the order of the file
}

// newKeyTable is the table of all keys, which nobody writes into.
func newKeyTable() keyTable { return tableOfKeys() }

var tableOfKeys = sync.OnceValue(func() keyTable {
	t := keyTable{byPath: map[string]Key{}, within: map[string][]Key{}}
	for _, k := range Keys() {
		t.byPath[k.Path] = k
		parent := ""
		if i := strings.LastIndexByte(k.Path, '.'); i >= 0 {
			parent = k.Path[:i]
		}
		t.within[parent] = append(t.within[parent], k)
	}
	return t
})

// names of the keys of a part.
func (t keyTable) names(part string) []string {
	var names []string
	for _, k := range t.within[part] {
		names = append(names, k.Name())
	}
	return names
}

// says is what a key means, with the words that can stand there.
func (k Key) says() string {
	if (k.Form == FormWord || k.Form == FormCodes) && len(k.Choices) > 1 {
		return k.Means + ": " + oneOf(k.Choices)
	}
	return k.Means
}

// write says how a key is written, to mend what is missing or unreadable.
func (k Key) write() string {
	if k.Example == "" {
		return "write " + k.says()
	}
	return "write " + k.says() + ", for example `" + k.Name() + ": " + k.Example + "`"
}

// shownIn is the example of a single value in the units of a job.
func (k Key) shownIn(u Units) string {
	if u == Metric && k.Metric != "" {
		return k.Metric
	}
	return k.Example
}

// shown is the example of a key as a part of a file: a group, or a list of one
// item, is filled by the walk.
func (k Key) shown() *node {
	switch k.Form {
	case FormGroup:
		return &node{kind: mappingNode}
	case FormList:
		return &node{kind: listNode, items: []*node{{kind: mappingNode}}}
	}
	return (&script{decoder: &decoder{counts: map[string]int{}}, lines: []string{k.Example}}).tree()
}
