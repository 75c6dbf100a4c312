package job

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"unicode"
)

// Schema is the JSON Schema (draft 2020-12) of the job file, for editors that
// check and complete what is typed, of a job and of what jobs include. What it refuses the reader refuses too; the
// reader alone sees what depends on other values.
func Schema() []byte {
	t := newKeyTable()
	top := object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "copingset job file"},
		{"description", "A job of metal parapet coping: the building, the fabricator's system and the wall. " +
			"Lengths carry their unit: 5 1/4\", 11'-6\", 240 mm."},
	}
	// Keys that a job must have may stand in a file that it includes; a file
	// without walls is such a file itself.
	in := func(def string) object { return object{{"$ref", "#/$defs/" + def}} }
	top = append(top,
		member{"if", object{{"anyOf", []object{{{"required", []string{"include"}}},
			{{"not", object{{"required", []string{"perimeters"}}}}}}}}},
		member{"then", in("part")}, member{"else", in("whole")},
		member{"$defs", append(object{{"whole", t.objectSchema("", true)}, {"part", t.objectSchema("", false)}},
			t.listSchemas()...)})
	b, err := json.MarshalIndent(top, "", "\t")
	if err != nil {
		panic("job: " + err.Error()) // texts, numbers and lists of them are always written
	}
	return append(b, '\n')
}

// object is a JSON object whose members keep their order.
type object []member

type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		if err := enc.Encode(m.name); err != nil {
			return nil, err
		}
		b.WriteByte(':')
		if err := enc.Encode(m.value); err != nil {
			return nil, err
		}
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// listSchemas are the items of the lists of the file's own groups: they are taken
// whole from the job file or an included one.
func (t keyTable) listSchemas() object {
	var defs object
	for _, k := range Keys() {
		if k.Form == FormList && !strings.Contains(k.Path, "[]") {
			defs = append(defs, member{k.Path, t.objectSchema(k.Path+"[]", true)})
		}
	}
	return defs
}

// objectSchema is the schema of a group of keys; whole if it has all that it
// must have.
func (t keyTable) objectSchema(part string, whole bool) object {
	var properties object
	required := []string{}
	for _, k := range t.within[part] {
		properties = append(properties, member{k.Name(), t.keySchema(k, whole)})
		if k.Required && (whole || k.Path == "format") {
			required = append(required, k.Name())
		}
	}
	return object{{"type", "object"}, {"properties", properties}, {"required", required}, {"additionalProperties",
		false}}
}

// keySchema is the schema of what stands at a key.
func (t keyTable) keySchema(k Key, whole bool) object {
	says := k.says()
	if k.When != "" {
		says += "; needed if " + k.When
	}
	s := object{{"description", says}}
	if k.Example != "" {
		s = append(s, member{"examples", []any{exampleOf(k, k.shown())}})
	}
	switch {
	case k.Form == FormGroup:
		return append(s, t.objectSchema(k.Path, whole || slices.Contains(wholeGroups(), k.Path))...)
	case k.Form == FormList:
		items := object{{"$ref", "#/$defs/" + k.Path}}
		if strings.Contains(k.Path, "[]") {
			items = t.objectSchema(k.Path+"[]", true)
		}
		return append(append(s, member{"type", "array"}, member{"items", items}), atLeastOne(k)...)
	case k.Form == FormGroupOrWord:
		return append(s, member{"anyOf", append(wordSchemas(k.Choices), t.objectSchema(k.Path, whole))})
	case k.Form == FormGroupOrValue:
		return append(s, member{"anyOf", []object{{{"type", "string"}}, t.objectSchema(k.Path, whole)}})
	case k.Many:
		all := append(object{{"type", "array"}, {"items", k.valueSchema()}}, atLeastOne(k)...)
		return append(s, member{"anyOf", []object{k.valueSchema(), all}})
	}
	return append(s, k.valueSchema()...)
}

func atLeastOne(k Key) object {
	if k.Required {
		return object{{"minItems", 1}}
	}
	return nil
}

// valueSchema is the schema of a single value.
func (k Key) valueSchema() object {
	switch k.Form {
	case FormText:
		s := object{{"type", []string{"string", "number"}}}
		if k.Required {
			s = append(s, member{"minLength", 1})
		}
		return s
	case FormFile:
		return object{{"type", "string"}, {"minLength", 1}}
	case FormWord:
		return object{{"anyOf", wordSchemas(k.Choices)}}
	case FormYes:
		return object{{"anyOf", append(wordSchemas(append(k.Choices, "true", "false")), object{{"type", "boolean"}})}}
	case FormLength:
		return object{{"anyOf", []object{{{"type", "string"}}, {{"const", 0}}}}}
	case FormNumber:
		return object{{"type", []string{"number", "string"}}}
	case FormCount:
		return object{{"type", []string{"integer", "string"}}, {"minimum", 1}}
	case FormDate:
		return object{{"type", "string"}, {"pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}}
	}
	return object{{"type", "string"}}
}

// wordSchemas are the words as an editor offers them, and the other ways of
// writing them that sameWord takes.
func wordSchemas(words []string) []object {
	return []object{{{"enum", words}}, {{"type", "string"}, {"pattern", wordPattern(words)}}}
}

func wordPattern(words []string) string {
	var b strings.Builder
	b.WriteString("^(")
	for i, w := range words {
		if i > 0 {
			b.WriteByte('|')
		}
		for _, r := range w {
			switch {
			case unicode.IsLetter(r):
				b.WriteString("[" + string(unicode.ToLower(r)) + string(unicode.ToUpper(r)) + "]")
			case r == ' ' || r == '-' || r == '_':
				b.WriteString("[ _-]+")
			case unicode.IsDigit(r):
				b.WriteRune(r)
			default:
				b.WriteString(`\` + string(r))
			}
		}
	}
	b.WriteString(")$")
	return b.String()
}

// exampleOf is the example of a key as a JSON value.
func exampleOf(k Key, n *node) any {
	if n.kind == listNode {
		all := []any{}
		for _, item := range n.items {
			all = append(all, exampleOf(k, item))
		}
		return all
	}
	if number := json.Number(n.text); k.Form == FormNumber || k.Form == FormCount {
		if _, err := number.Float64(); err == nil {
			return number
		}
	}
	return n.text
}
