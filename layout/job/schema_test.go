package job

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"
)

// schemaOf compiles the schema; a schema that is none does not compile.
func schemaOf(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	if err := c.AddResource("copingset.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("copingset.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// document is a file as an editor understands it: YAML 1.2 core values, in
// which yes and 2026-03-16 are texts.
func document(t *testing.T, text string) map[string]any {
	t.Helper()
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(text), &n); err != nil {
		t.Fatal(err)
	}
	doc, ok := jsonValue(n.Content[0]).(map[string]any)
	if !ok {
		t.Fatal("the file is no mapping")
	}
	return doc
}

func jsonValue(n *yaml.Node) any {
	switch n.Kind {
	case yaml.MappingNode:
		m := map[string]any{}
		for i := 0; i+1 < len(n.Content); i += 2 {
			m[n.Content[i].Value] = jsonValue(n.Content[i+1])
		}
		return m
	case yaml.SequenceNode:
		all := []any{}
		for _, c := range n.Content {
			all = append(all, jsonValue(c))
		}
		return all
	}
	if n.Style == 0 && (n.Tag == "!!int" || n.Tag == "!!float") {
		if f, err := strconv.ParseFloat(n.Value, 64); err == nil {
			return f
		}
	}
	if n.Style == 0 && n.Tag == "!!bool" && (n.Value == "true" || n.Value == "false") {
		return n.Value == "true"
	}
	if n.Style == 0 && n.Tag == "!!null" {
		return nil
	}
	return n.Value
}

func goodFiles(t *testing.T) []string {
	t.Helper()
	var all []string
	for _, pattern := range []string{"testdata/good/*.yaml", "../../samples/*/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil || len(files) == 0 {
			t.Fatal("no files", pattern, err)
		}
		all = append(all, files...)
	}
	return all
}

func TestSchemaTakesGoodJobs(t *testing.T) {
	s := schemaOf(t)
	for _, name := range goodFiles(t) {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := s.Validate(document(t, string(b))); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := s.Validate(document(t, Template(Imperial))); err != nil {
		t.Errorf("template: %v", err)
	}
}

// The file with every key: at each group a key that is not known, and the lack
// of each key that must be there, is refused.
func TestSchemaRefusesUnknownAndMissingKeys(t *testing.T) {
	s := schemaOf(t)
	b, err := os.ReadFile("testdata/good/every-key.yaml")
	if err != nil {
		t.Fatal(err)
	}
	doc := document(t, string(b))
	delete(doc, "include") // else the keys could stand elsewhere
	table := newKeyTable()
	groups, removed := 0, 0
	eachGroup(doc, "", func(path string, m map[string]any) {
		groups++
		m["zzz"] = "x"
		if s.Validate(doc) == nil {
			t.Errorf("%s: an unknown key is accepted", path)
		}
		delete(m, "zzz")
		for _, k := range table.within[path] {
			v, there := m[k.Name()]
			if !k.Required || !there || k.Path == "perimeters" {
				continue // a file without walls is one that jobs include
			}
			removed++
			delete(m, k.Name())
			if s.Validate(doc) == nil {
				t.Errorf("%s: the lack of %s is accepted", path, k.Path)
			}
			m[k.Name()] = v
		}
	})
	if err := s.Validate(doc); err != nil {
		t.Error(err)
	}
	if groups < 80 || removed < 200 {
		t.Errorf("%d groups, %d keys were tried", groups, removed)
	}
}

// What a job includes may hold the keys that it lacks, but for the items of
// lists, which are taken whole. A file of no walls is one that is included.
func TestSchemaTakesIncludes(t *testing.T) {
	s := schemaOf(t)
	for text, ok := range map[string]bool{
		formatLine + "include: ../firm.yaml\nsystem: {stock: 10'-0\"}\n":                      true,
		formatLine + "system: {joint: {gap: 1/4\"}}\n":                                        true,
		formatLine + "system: {joint: {gaps: 1/4\"}}\n":                                       false,
		"system: {stock: 10'-0\"}\n":                                                          false,
		formatLine + "system: {profile: {front_leg: {length: 5\"}}}\n":                        false,
		formatLine + "system: {profile: {front_leg: {length: 5\", to: mold line}}}\n":         true,
		formatLine + "assemblies: [{name: T1}]\n":                                             false,
		formatLine + "perimeters: []\n":                                                       false,
		formatLine + "include: [a.yaml]\nperimeters:\n- {name: ROOF, kind: roof, runs: []}\n": false,
	} {
		if err := s.Validate(document(t, text)); (err == nil) != ok {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// eachGroup visits a mapping and those below it, with the path of the key table.
func eachGroup(v any, path string, visit func(string, map[string]any)) {
	switch v := v.(type) {
	case map[string]any:
		visit(path, v)
		for name, below := range v {
			eachGroup(below, strings.TrimPrefix(path+"."+name, "."), visit)
		}
	case []any:
		for _, below := range v {
			eachGroup(below, path+"[]", visit)
		}
	}
}

func TestSchemaValues(t *testing.T) {
	s := schemaOf(t)
	b, err := os.ReadFile("testdata/good/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		old, new string
		ok       bool
	}{
		{"stock: 11'-6\"", "stock: 138", false}, // a length without its unit
		{"hem: 0\"", "hem: 0", true},
		{"closer: right", "closer: middle", false},
		{"closer: right", "closer: Right", true},
		{"edition: ASCE 7-16\n  speed", "edition: asce 7 16\n  speed", true},
		{"edition: ASCE 7-16\n  speed", "edition: ASCE 7-98\n  speed", false},
		{"directional: no", "directional: true", true},
		{"directional: no", "directional: maybe", false},
		{"box: 100", "box: 0", false},
		{"box: 100", "box: 1.5", false},
		{"issued: 2026-03-16", "issued: 16 March 2026", false},
		{"safety_plan: Site safety plan SSP-3", "safety_plan: \"\"", false},
		{"starts: free", "starts: {tee: ROOF/N, at: 4'-0\", of: left face}", true},
		{"starts: free", "starts: {tee: ROOF/N, at: 4'-0\"}", false},
		{"starts: free", "starts: [free]", false},
		{"shims: [1/2\", 1/4\", 1/8\", 1/16\"]", "shims: 1/2\"", true},
		{"shims: [1/2\", 1/4\", 1/8\", 1/16\"]", "shims: []", false},
		{"membrane: {", "membrane: [] # {", false},
	} {
		text := strings.Replace(string(b), tt.old, tt.new, 1)
		if text == string(b) {
			t.Fatalf("nothing to change: %s", tt.old)
		}
		if err := s.Validate(document(t, text)); (err == nil) != tt.ok {
			t.Errorf("%s: %v", tt.new, err)
		}
	}
}

// The samples name this file in their first line.
func TestSchemaBesideTheSamples(t *testing.T) {
	b, err := os.ReadFile("../../samples/copingset.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(b, Schema()) {
		t.Error("samples/copingset.schema.json is not the schema: write it again with `copingset schema`")
	}
	files, err := filepath.Glob("../../samples/*/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal("no samples", err)
	}
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(string(b), "# yaml-language-server: $schema=../copingset.schema.json\n") {
			t.Errorf("%s does not name the schema in its first line", name)
		}
	}
}
