package job

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout/finding"
)

// comments tells a comment from a key behind a #, which has no space after it,
// or two and more where it stands below another.
func comments(body string) bool {
	return strings.HasPrefix(body, "# ") && !strings.HasPrefix(body, "#  ")
}

// keysOf collects the keys of a file, in use or behind a #, by their indents.
func keysOf(text string) map[string]bool {
	type open struct {
		indent int
		path   string
	}
	found := map[string]bool{}
	var stack []open
	for _, line := range strings.Split(text, "\n") {
		body := strings.TrimLeft(line, " ")
		for strings.HasPrefix(body, "#") && !comments(body) {
			line = strings.Replace(line, "#", "", 1)
			body = strings.TrimLeft(line, " ")
		}
		name, _, ok := strings.Cut(strings.TrimPrefix(body, "- "), ":")
		if !ok || strings.HasPrefix(body, "#") {
			continue
		}
		indent := len(line) - len(body)
		item := strings.HasPrefix(body, "- ")
		if item {
			indent += 2
		}
		for len(stack) > 0 && stack[len(stack)-1].indent >= indent {
			stack = stack[:len(stack)-1]
		}
		path := name
		if len(stack) > 0 {
			above := &stack[len(stack)-1]
			if item {
				above.path += "[]"
			}
			path = above.path + "." + name
		}
		found[path] = true
		stack = append(stack, open{indent, path})
	}
	return found
}

func TestTemplateHasEveryKey(t *testing.T) {
	found := keysOf(Template())
	for _, k := range Keys() {
		if !found[k.Path] {
			t.Errorf("%s is not shown", k.Path)
		}
		delete(found, k.Path)
	}
	for path := range found {
		t.Errorf("%s is shown and is no key", path)
	}
}

func TestTemplateReadsBack(t *testing.T) {
	text := Template()
	j, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
	if j == nil {
		t.Fatal(list)
	}
	for _, f := range list {
		if f.Code != "run-unsurveyed" || f.Severity != finding.Hold {
			t.Error(f)
		}
	}
	for i, line := range strings.Split(text, "\n") {
		if len(line) > widest+2 {
			t.Errorf("line %d has %d letters: %s", i+1, len(line), line)
		}
	}
}

// Each part that is not in use reads back when the # before it is taken away,
// and each single value too, but for what says a thing a second time.
func TestTemplateKeysCanBeTakenIntoUse(t *testing.T) {
	lines := strings.Split(Template(), "\n")
	// It stands beside another way to say the same, or asks for more than itself.
	elsewhere := []string{"key-both", "key-missing",
		"name-unknown", "end-turn", "turn-first", "end-early", "key-twice", "tee-own", "obstacle-unpierced"}
	taken := 0
	for i, line := range lines {
		indent := len(line) - len(strings.TrimLeft(line, " "))
		if body := line[indent:]; len(body) < 2 || body[0] != '#' || body[1] == ' ' || body[1] == '#' {
			continue // a comment, or below a part that is taken
		}
		edited := slices.Clone(lines)
		for k := i; k < len(lines) && (k == i || strings.HasPrefix(lines[k], line[:indent]+"#  ")); k++ {
			edited[k] = lines[k][:indent] + lines[k][indent+1:]
		}
		taken++
		_, list := Read(fstest.MapFS{"jobs/job.yaml": {Data: []byte(strings.Join(edited, "\n"))},
			"shop/system.yaml": {Data: []byte(formatLine)}, "firm.yaml": {Data: []byte(formatLine)},
			"jobs/heron.csv": {Data: []byte("run,station,width,top_outside,top_inside,offset\nN,0 in,12 in,0,0,0\n")}}, "jobs/job.yaml")
		for _, f := range list {
			if f.Severity == finding.Error && !slices.Contains(elsewhere, f.Code) {
				t.Errorf("%s: %v", strings.TrimSpace(line), f)
			}
		}
	}
	if taken < 70 {
		t.Errorf("only %d keys were taken into use", taken)
	}
}
