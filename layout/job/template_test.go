package job

import (
	"regexp"
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

// inBoth runs a test of the template in either system of units.
func inBoth(t *testing.T, test func(*testing.T, Units)) {
	t.Run("imperial", func(t *testing.T) { test(t, Imperial) })
	t.Run("metric", func(t *testing.T) { test(t, Metric) })
}

func TestTemplateHasEveryKey(t *testing.T) {
	inBoth(t, func(t *testing.T, u Units) {
		found := keysOf(Template(u))
		for _, k := range Keys() {
			if !found[k.Path] {
				t.Errorf("%s is not shown", k.Path)
			}
			delete(found, k.Path)
		}
		for path := range found {
			t.Errorf("%s is shown and is no key", path)
		}
	})
}

func TestTemplateReadsBack(t *testing.T) { inBoth(t, templateReadsBack) }

func templateReadsBack(t *testing.T, u Units) {
	text := Template(u)
	j, list := Read(fstest.MapFS{"job.yaml": {Data: []byte(text)}}, "job.yaml")
	if j == nil {
		t.Fatal(list)
	}
	for _, f := range list {
		if f.Code != "run-unsurveyed" || f.Severity != finding.Hold {
			t.Error(f)
		}
	}
	if j.Units != u {
		t.Errorf("units %v, want %v", j.Units, u)
	}
	for i, line := range strings.Split(text, "\n") {
		if len(line) > widest+2 {
			t.Errorf("line %d has %d letters: %s", i+1, len(line), line)
		}
	}
}

// Each part that is not in use reads back when the # before it is taken away,
// and each single value too, but for what says a thing a second time.
func TestTemplateKeysCanBeTakenIntoUse(t *testing.T) { inBoth(t, templateKeysCanBeTaken) }

func templateKeysCanBeTaken(t *testing.T, u Units) {
	lines := strings.Split(Template(u), "\n")
	// It stands beside another way to say the same, or asks for more than itself.
	elsewhere := []string{"key-both", "key-missing",
		"name-unknown", "end-turn", "turn-first", "end-early", "key-twice", "tee-own", "lies-circle", "obstacle-unpierced"}
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
			"jobs/made.csv": {Data: []byte("mark,state\n")}, "jobs/asbuilt.csv": {Data: []byte("mark,station\n")},
			"jobs/heron.csv": {Data: []byte("run,station,width,street_top,roof_top,offset\nN,0 in,12 in,0,0,0\n")}}, "jobs/job.yaml")
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

// imperial finds a quantity in units of the inch, the pound or the Fahrenheit degree.
var imperial = regexp.MustCompile(`\d"|\d'|\d (lb|F|psf|ksi|mph|ft2)\b|/(F|in3)\b`)

// Every quantity of the imperial form is a metric one in the other.
func TestMetricTemplateIsMetric(t *testing.T) {
	text := Template(Metric)
	seen := 0
	for _, k := range Keys() {
		if k.Form == FormText || k.Form == FormFile || !imperial.MatchString(k.Example) {
			continue
		}
		seen++
		if k.Metric == "" || imperial.MatchString(k.Metric) {
			t.Errorf("%s: %s has the metric example %q", k.Path, k.Example, k.Metric)
		}
		if !strings.Contains(text, k.Name()+": "+k.Metric+" ") && !strings.Contains(text, k.Name()+": "+k.Metric+"\n") {
			t.Errorf("%s: %s is not in the form", k.Path, k.Metric)
		}
	}
	if seen < 150 {
		t.Errorf("only %d keys have a unit", seen)
	}
}

func TestMetricExamples(t *testing.T) {
	want := map[string]string{
		"units": "metric", "paper.runs": "A3",
		"system.metal.thickness": "1.3 mm", "system.metal.density": "2740 kg/m3", "system.metal.expansion": "23.2e-6 /C",
		"system.profile.top_slope": "1:24", "system.stock": "3505 mm", "system.inside_width.offered": "[320 mm, 330 mm, 345 mm]",
		"system.joint.coldest": "-23 C", "pressures.edge.up": "1.24 kPa allowable", "crating.tare": "27 kg",
		"perimeters[].runs[].step": "up 205 mm", "perimeters[].runs[].grade": "rising 1:3",
	}
	for _, k := range Keys() {
		if metric, ok := want[k.Path]; ok && k.Metric != metric {
			t.Errorf("%s: %s, want %s", k.Path, k.Metric, metric)
		}
	}
}
