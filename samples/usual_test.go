package samples_test

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"copingset/layout/job"
	"copingset/layout/job/jobtest"
	"copingset/layout/length"
)

// Every system shown here is invented, and nobody shall take its figures for
// those of a real one. So none of the figures that are usual in the trade may
// stand in a sample, a test job or the example of a message. Which those are is
// kept as digests alone, so that this code does not hand them out either.
//
// The unit of comparison is a fact: a dimension with the key it is stated under,
// below the key it stands in (`membrane.thickness`, `assemblies.chair_spacing`),
// its length in nanometres whatever it is spelled like. The same length under
// another key is another fact: a chair may be as long as a usual plate. Two
// things are compared as pairs, since one alone says little: the counts of both
// rows of screws, and two words that stand side by side in a text, as nominal
// thicknesses and mils are said. The digests are of the highest tested legs,
// membrane, plywood, rows, stock, spacings, joint, plate, chair and corner leg
// that are usual, in inches and where they are sold so in millimetres.

// salt keeps the digests from being looked up in a table.
const salt = "copingset/usual-figures/1 "

func digest(fact string) string {
	sum := sha256.Sum256([]byte(salt + fact))
	return hex.EncodeToString(sum[:12])
}

// A fact is a figure with where it stands.
type fact struct{ words, at string }

// gather collects the facts of what is read to it, in order.
type gather struct {
	facts []fact
	front string // the front row's count, until the rear one follows
}

// state takes a value under a key, with the key around it.
func (g *gather) state(around, key, value, at string) {
	value = strings.Trim(strings.TrimSpace(value), `'`)
	if q := strings.TrimSuffix(strings.TrimPrefix(value, `"`), `"`); strings.HasPrefix(value, `"`) {
		value = q
	}
	add := func(words string) { g.facts = append(g.facts, fact{words, at}) }
	name := strings.TrimPrefix(around+"."+key, ".")
	switch l, err := length.Parse(value); {
	case err == nil:
		add(fmt.Sprintf("%s %d", name, int64(l)))
	case name == "rows.front":
		g.front = value
	case name == "rows.rear":
		add("rows " + g.front + "/" + value)
		g.front = ""
	}
	w := regexp.MustCompile(`[a-z0-9/.]+`).FindAllString(strings.ToLower(value), -1)
	for i := 1; i < len(w); i++ {
		add("words " + w[i-1] + " " + w[i])
	}
}

// read takes the text of a job file, well formed or not, with its comments: what
// a comment shows to write is an example too. Groups are told by their indents
// and, within a line, by their braces.
func (g *gather) read(name, text string) {
	type group struct {
		indent int
		key    string
	}
	var open []group
	for i, line := range strings.Split(text, "\n") {
		body := strings.TrimLeft(line, " ")
		indent := len(line) - len(body)
		if c := strings.TrimPrefix(body, "# "); c != body {
			indent += 2
			body = strings.TrimLeft(c, " ")
			indent += len(c) - len(body)
		}
		for strings.HasPrefix(body, "- ") {
			body, indent = body[2:], indent+2
		}
		body, _, _ = strings.Cut(body, " #")
		key, value, ok := strings.Cut(body, ":")
		if !ok && !strings.HasPrefix(body, "{") {
			continue
		}
		at := fmt.Sprintf("%s:%d", name, i+1)
		for len(open) > 0 && open[len(open)-1].indent >= indent {
			open = open[:len(open)-1]
		}
		around := ""
		if len(open) > 0 {
			around = open[len(open)-1].key
		}
		switch value = strings.TrimSpace(value); {
		case strings.HasPrefix(body, "{"):
			g.braces(around, body, at)
		case value == "":
			open = append(open, group{indent, strings.TrimSpace(key)})
		case strings.HasPrefix(value, "{"):
			g.braces(strings.TrimSpace(key), value, at)
		default:
			g.state(around, strings.TrimSpace(key), value, at)
		}
	}
}

// braces takes a group in one line: {a: 1, b: {c: 2}}.
func (g *gather) braces(around, text, at string) {
	stack := []string{around}
	rest := strings.TrimPrefix(text, "{")
	for rest != "" && len(stack) > 0 {
		i := strings.IndexAny(rest, ":},")
		if i < 0 {
			return
		}
		if rest[i] != ':' {
			if rest[i] == '}' {
				stack = stack[:len(stack)-1]
			}
			rest = rest[i+1:]
			continue
		}
		key := strings.TrimSpace(rest[:i])
		rest = strings.TrimLeft(rest[i+1:], " ")
		if strings.HasPrefix(rest, "{") {
			stack, rest = append(stack, key), rest[1:]
			continue
		}
		end := strings.IndexAny(rest, ",}")
		if end < 0 {
			end = len(rest)
		}
		g.state(stack[len(stack)-1], key, rest[:end], at)
		rest = rest[end:]
	}
}

// usual are the facts whose digests are listed.
func usual(facts []fact, digests map[string]bool) []fact {
	var out []fact
	for _, f := range facts {
		if digests[digest(f.words)] {
			out = append(out, f)
		}
	}
	return out
}

// everything is every figure shown: sample files, jobs of tests, the page that
// says how to begin, the examples of messages, and the job most tests build on.
func everything(t *testing.T) []fact {
	t.Helper()
	var g gather
	files := 0
	err := filepath.WalkDir("..", func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && (e.Name() == ".git" || path == filepath.Join("..", "golden")):
			return filepath.SkipDir
		case e.IsDir() || filepath.Ext(path) != ".yaml" && filepath.Ext(path) != ".md" && filepath.Ext(path) != ".txtar":
			return nil
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		files++
		g.read(filepath.ToSlash(path), string(b))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 40 {
		t.Fatalf("%d files read", files)
	}
	for _, k := range job.Keys() {
		path := strings.Split(strings.ReplaceAll(k.Path, "[]", ""), ".")
		around := ""
		if n := len(path); n > 1 {
			around = path[n-2]
		}
		g.state(around, path[len(path)-1], k.Example, "the example of "+k.Path)
	}
	g.typed(jobtest.Job())
	return g.facts
}

// typed takes the dimensions of a job that is built in Go.
func (g *gather) typed(j *job.Job) {
	put := func(around, key string, l length.Length) {
		g.state(around, key, fmt.Sprintf("%.6f mm", l.MM()), "the job of tests")
	}
	s := &j.System
	put("system", "stock", s.Stock)
	put("joint", "gap", s.Joint.Gap)
	put("splice", "length", s.Splice.Length)
	put("chair", "length", s.Chair.Length)
	put("corner", "leg", s.Corner.Leg)
	put("membrane", "thickness", j.Membrane.Thickness)
	put("layer", "thickness", j.Packing.Layer)
	g.state("layer", "name", j.Packing.LayerName, "the job of tests")
	for _, a := range j.Assemblies {
		put("front_leg_most", "length", a.FrontLegMost.Length)
		put("rear_leg_most", "length", a.RearLegMost.Length)
		put("assemblies", "chair_spacing", a.ChairSpacing)
		g.state("rows", "front", fmt.Sprint(a.FrontRow), "the job of tests")
		g.state("rows", "rear", fmt.Sprint(a.RearRow), "the job of tests")
	}
}

func TestNothingUsualIsShown(t *testing.T) {
	digests := map[string]bool{}
	for _, d := range usualFigures() {
		if len(d) != 24 || digests[d] {
			t.Errorf("%q is no digest, or stands twice", d)
		}
		digests[d] = true
	}
	for _, f := range usual(everything(t), digests) {
		t.Errorf("%s: %s is usual in the trade; show a figure of the invented fabricator's own", f.at, f.words)
	}
}

// However a figure is spelled and however its group is written, it is found; the
// same figure elsewhere is not. The figures are invented.
func TestFactsAreSpelledAlike(t *testing.T) {
	want := map[string]bool{digest("membrane.thickness 1397000"): true, digest("front_leg_most.length 168275000"): true,
		digest("rows 7/5"): true, digest("words nominal 11/16"): true}
	for _, c := range []struct {
		text string
		n    int
	}{
		{"membrane:\n  name: sheet\n  thickness: 0.055\"  # thick", 1},
		{"membrane: {name: sheet, thickness: 1.397 mm}", 1},
		{"# membrane:\n#   thickness: 0.055\"", 1},
		{"metal:\n  thickness: 0.055\"", 0},
		{"assemblies:\n  - name: a\n    front_leg_most: {length: 6 5/8\", to: mold line}", 1},
		{"assemblies:\n  - {name: a, front_leg_most: {length: 168.275 mm, to: mold line}, cost: 1}", 1},
		{"rear_leg_most: {length: 6 5/8\", to: tangent}", 0},
		{"rows: {front: 7, rear: 5, front_from_edge: 1\"}", 1},
		{"rows:\n  front: 7\n  rear: 5", 1},
		{"rows: {front: 5, rear: 7}", 0},
		{"layer: {name: Plywood, nominal 11/16, thickness: 1\"}", 0}, // a comma ends a value in braces
		{"layer:\n  name: Plywood nominal 11/16", 1},
	} {
		var g gather
		g.read("text", c.text)
		if got := usual(g.facts, want); len(got) != c.n {
			t.Errorf("%q: found %v, want %d", c.text, got, c.n)
		}
	}
}
