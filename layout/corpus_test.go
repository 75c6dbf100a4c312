package layout_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"copingset/layout"
	"copingset/layout/finding"
	"copingset/layout/job"
	"copingset/layout/takeoff"
)

// A corpus of jobs that each raise one finding stands in testdata/findings: the
// least changes of base.yaml that do it. A case begins with its code in brackets;
// below it are lines of a path in the job and what stands there instead, and a
// comment with words that the finding has to have. `out` takes a key out, a path that
// ends past a list adds to it, and one after @ is a file beside the job.
type corpusCase struct {
	file  string
	line  int
	code  string
	edits [][2]string
	words []string
}

func corpus(t *testing.T) []corpusCase {
	t.Helper()
	files, err := filepath.Glob("testdata/findings/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no cases", err)
	}
	var out []corpusCase
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for i, line := range strings.Split(string(text), "\n") {
			edit, words, _ := strings.Cut(line, "  # ")
			edit = strings.TrimSpace(edit)
			switch n := len(out); {
			case edit == "" || strings.HasPrefix(edit, "#"):
			case strings.HasPrefix(edit, "["):
				out = append(out, corpusCase{file: file, line: i + 1, code: strings.Trim(edit, "[]")})
			default:
				path, value, ok := strings.Cut(edit, ": ")
				if !ok || n == 0 {
					t.Fatalf("%s:%d: no edit: %s", file, i+1, line)
				}
				out[n-1].edits = append(out[n-1].edits, [2]string{path, value})
				if words != "" {
					out[n-1].words = append(out[n-1].words, words)
				}
			}
		}
	}
	return out
}

// blocks is a job file a line a key, an item of a list begun on a line of its own.
func blocks(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		body := strings.TrimLeft(line, " ")
		if item, ok := strings.CutPrefix(body, "- "); ok && regexp.MustCompile(`^[a-z_]+:`).MatchString(item) {
			indent := line[:len(line)-len(body)]
			out = append(out, indent+"-", indent+"  "+item)
			continue
		}
		out = append(out, line)
	}
	return out
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// under is the end of what stands below a line.
func under(lines []string, i int) int {
	k := i + 1
	for k < len(lines) && indentOf(lines[k]) > indentOf(lines[i]) {
		k++
	}
	return k
}

// child finds the line of a key or an item among those from one line to another, and
// where one more would stand, with its indentation.
func child(lines []string, from, to int, name string) (at, end, indent int, found bool) {
	if from >= to {
		return 0, to, 0, false
	}
	indent = indentOf(lines[from])
	index, err := strconv.Atoi(name)
	n := 0
	for i := from; i < to; i = under(lines, i) {
		body := strings.TrimLeft(lines[i], " ")
		if err == nil && strings.HasPrefix(body, "-") {
			if n == index {
				return i, under(lines, i), indent, true
			}
			n++
		}
		if err != nil && strings.HasPrefix(body, name+":") {
			return i, under(lines, i), indent, true
		}
	}
	return 0, to, indent, false
}

// edited changes a job at a path.
func edited(lines []string, path, value string) ([]string, error) {
	from, to := 0, len(lines)
	parts := strings.Split(path, ".")
	for k, name := range parts {
		at, end, indent, found := child(lines, from, to, name)
		last := k == len(parts)-1
		if !last && !found {
			return nil, fmt.Errorf("%s: nothing at %s", path, name)
		}
		if last {
			head := strings.Repeat(" ", indent) + name + ": "
			if _, err := strconv.Atoi(name); err == nil {
				head = strings.Repeat(" ", indent) + "- "
			}
			with := []string{head + value}
			if value == "out" {
				with = nil
			}
			if !found {
				at = end
			}
			return slices.Concat(lines[:at], with, lines[end:]), nil
		}
		from, to = at+1, end
	}
	return nil, fmt.Errorf("%s: no path", path)
}

// raisedBy reads and solves the job of a case.
func raisedBy(t *testing.T, base []string, c corpusCase) finding.List {
	t.Helper()
	lines, files := base, fstest.MapFS{}
	escapes := strings.NewReplacer(`\n`, "\n", `\x07`, "\a", `\xe9`, "\xe9")
	for _, e := range c.edits {
		if file, is := strings.CutPrefix(e[0], "@"); is {
			files[file] = &fstest.MapFile{Data: []byte(escapes.Replace(e[1]))}
			continue
		}
		var err error
		if lines, err = edited(lines, e[0], e[1]); err != nil {
			t.Errorf("%s:%d: %v", c.file, c.line, err)
			return nil
		}
	}
	files["job.yaml"] = &fstest.MapFile{Data: []byte(strings.Join(lines, "\n"))}
	if strings.HasPrefix(c.code, "takeoff-") {
		return raisedByTakeoff(files)
	}
	j, found := job.Read(files, "job.yaml")
	if j == nil {
		return found
	}
	_, found = layout.Build(j)
	return found
}

// raisedByTakeoff is what stops a takeoff of a job, or one of its ways to build.
func raisedByTakeoff(files fstest.MapFS) finding.List {
	take, found := takeoff.Of(func(include []string) (*job.Job, finding.List) {
		return job.ReadTakeoff(files, "job.yaml", include)
	})
	if take == nil {
		return found
	}
	for _, o := range take.Options {
		found = append(found, o.Failed...)
	}
	return found
}

// Each case raises its finding, at a place, in its words; the base raises none but
// one note.
func TestCorpusOfFindings(t *testing.T) {
	text, err := os.ReadFile("testdata/findings/base.yaml")
	if err != nil {
		t.Fatal(err)
	}
	base := blocks(string(text))
	if f := raisedBy(t, base, corpusCase{}); len(f) != 1 || f[0].Code != "chair-not-stated" {
		t.Fatalf("the base: %v", f)
	}
	for _, c := range corpus(t) {
		found := raisedBy(t, base, c)
		i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Code == c.code })
		if i < 0 {
			var others []string
			for _, f := range found {
				others = append(others, "\n    "+f.String())
			}
			t.Errorf("%s:%d: no %s:%s", c.file, c.line, c.code, strings.Join(others[:min(6, len(others))], ""))
			continue
		}
		f := found[i]
		if f.At.IsZero() {
			t.Errorf("%s:%d: %s has no place: %v", c.file, c.line, c.code, f)
		}
		if len(c.words) == 0 {
			t.Errorf("%s:%d: %s has no words", c.file, c.line, c.code)
		}
		for _, w := range c.words {
			if !strings.Contains(f.String()+f.Why, w) {
				t.Errorf("%s:%d: %s does not say %q: %v", c.file, c.line, c.code, w, f)
			}
		}
	}
}

// without are the codes that have no smallest job here, each with why. The list only
// grows shorter: a code that has a case does not stand in it.
func without() map[string]string {
	const (
		disk    = "of a disk, not of a text: tests of package job"
		many    = "takes more than anybody reads: tests of package job"
		before  = "reading the file says so first, in other words"
		outline = "of a drawing or a list of corners: tests of package outline"
		rooms   = "made in Go by the tests of its room"
	)
	return map[string]string{
		"file-link": disk, "file-permission": disk, "file-unreadable": disk, "file-size": many,
		"job-size": many, "more-alike": many, "csv-columns": many, "survey-many": many, "include-many": many,
		"csv-unreadable": many, "workbook-sheet": "of a workbook, not of a text: tests of package job", "migrate-failed": "of an edit of a file: tests of migrate",
		"no-assemblies": before, "no-runs": before, "no-fastener": before, "wind-edition": before,
		"outline-area": outline, "outline-branch": outline, "outline-crosses": outline, "outline-csv": outline,
		"outline-dxf": outline, "outline-entity": outline, "outline-none": outline, "outline-open": outline,
		"outline-overlap": outline, "outline-spike": outline, "outline-points": outline, "outline-units": outline,
		"no-sheet-plan": rooms, "relief-crowded": rooms,
	}
}

// Every code has a smallest job: here, or where reading a file raises it among the
// bad files of package job.
func TestEveryCodeHasItsJob(t *testing.T) {
	has := map[string]bool{}
	for _, c := range corpus(t) {
		has[c.code] = true
	}
	bad, err := filepath.Glob("job/testdata/bad/*.yaml")
	if err != nil || len(bad) == 0 {
		t.Fatal("no bad files", err)
	}
	want := regexp.MustCompile(`# want[^:]*: (.*)`)
	for _, file := range bad {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range want.FindAllStringSubmatch(string(text), -1) {
			for _, one := range strings.Split(m[1], " | ") {
				code, _, _ := strings.Cut(one, " ")
				has[code] = true
			}
		}
	}
	list := without()
	for _, e := range finding.Explanations() {
		switch _, listed := list[e.Code]; {
		case !has[e.Code] && !listed:
			t.Errorf("%s has no smallest job that raises it: write one into testdata/findings", e.Code)
		case has[e.Code] && listed:
			t.Errorf("%s has a job: take it from the list of those without", e.Code)
		}
		delete(list, e.Code)
	}
	for code := range list {
		t.Errorf("%s is no code", code)
	}
}
